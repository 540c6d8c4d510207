"""What a job has of the values that figures ask for, as typed in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

from lapwright.job.composing import compose
from lapwright.job.tree import Path
from lapwright.job.view import View
from lapwright.plan.figures.registry import figure
from lapwright.units.unread import Unread

# Option -> where it stands in a job file; SHEET stands for the name of a sheet, DRAIN for the place of a drain.
SHEET, DRAIN = "*sheet", "*drain"
Keys = Mapping[str, Path]
OF_SHEET: Path = ("sheets", SHEET)
KEYS: Mapping[str, Keys] = MappingProxyType(
    {
        "roll": {
            "stored": ("store", "temperature"),
            "until": (*OF_SHEET, "apply_at_or_above"),
            "thickness": (*OF_SHEET, "thickness"),
            "length": (*OF_SHEET, "length"),
            "covered": ("store", "cover"),
        },
        "store": {
            "store": ("store", "temperature"),
            "until": (*OF_SHEET, "apply_at_or_above"),
            "thickness": (*OF_SHEET, "thickness"),
            "length": (*OF_SHEET, "length"),
            "stack": ("store", "stack"),
            "rolls": ("store", "pallet"),
        },
        "sheet": {
            "laid-at": ("store", "temperature"),
            "until": (*OF_SHEET, "apply_at_or_above"),
            "thickness": (*OF_SHEET, "thickness"),
        },
        "surface": {},
        "weld": {
            "proved-speed": ("weld", "proved_speed"),
            "proved-sheet": ("weld", "proved_sheet"),
            "proved-air": ("weld", "proved_air"),
            "nozzle": ("weld", "nozzle"),
            "slowest": ("weld", "slowest"),
            "fastest": ("weld", "fastest"),
        },
        "cord": {
            "load": ("power", "load"),
            "volts": ("power", "volts"),
            "length": ("power", "length"),
            "gauge": ("power", "gauge"),
        },
        "wind": {
            "standard": ("building", "standard"),
            "height": ("building", "height"),
            "exposure": ("building", "exposure"),
            "speed": ("building", "wind_speed"),
            "enclosure": ("building", "enclosure"),
            "elevation": ("site", "elevation"),
            "topographic": ("building", "topographic"),
        },
        "drain": {
            "rain": ("site", "rain_primary"),
            "kind": (DRAIN, "kind"),
            "size": (DRAIN, "diameter"),
            "sill": (DRAIN, "sill"),
        },
        "chill": {},
    }
)
MOST_SETS = 40


def job_values(text: str) -> dict[str, list[dict[str, Any]]]:
    """By figure, sets of values that a job has, each with the name of its sheet or drain.

    text: of the job file, which may have faults; what a figure can't read is left out.
    """
    view = View(compose(text, file="").root)
    return {name: list(sets(view, name, keys))[:MOST_SETS] for name, keys in KEYS.items()}


def sets(view: View, name: str, keys: Keys) -> Iterator[dict[str, Any]]:
    """The sets of one figure: a set for each sheet, top ply first, or each drain; else one."""
    if any(SHEET in path for path in keys.values()):
        for sheet in sheets_of(view):
            yield {"name": sheet, "values": filled(view, name, keys, ("sheets", sheet))}
    elif any(DRAIN in path for path in keys.values()):
        found = list(drains_of(view))
        for drain, path in found:
            yield {"name": drain, "values": filled(view, name, keys, path)}
        if not found:
            yield {"name": "", "values": filled(view, name, keys, ())}
    else:
        yield {"name": "", "values": filled(view, name, keys, ())}


def filled(view: View, name: str, keys: Keys, own: Path) -> dict[str, str]:
    """Texts by option, each one that the figure can read; own: of the sheet or drain."""
    options = {option.name: option for option in figure(name).options}
    found: dict[str, str] = {}
    for key, path in keys.items():
        is_own = path[0] == DRAIN or SHEET in path
        typed = view.text((*own, path[-1]) if is_own else path)
        if key == "size" and typed is None and own:
            typed = opening_of(view, own)
        if typed is None or (is_own and not own):
            continue
        try:
            options[key].value(typed)
        except Unread:
            continue
        found[key] = typed
    if name == "store":
        found |= dict.fromkeys(wrapping_of(view), "yes")
    return found


def opening_of(view: View, drain: Path) -> str | None:
    """Width and height of a scupper, as the figure reads them."""
    parts = [part for part in (view.text((*drain, "width")), view.text((*drain, "height"))) if part is not None]
    return " x ".join(parts) or None


def wrapping_of(view: View) -> Iterator[str]:
    """The flags of the figure `store` that the job's store has."""
    wrapping = view.text(("store", "wrapping"))
    if wrapping in ("wrapped", "opened", "spaced"):
        yield wrapping
    if view.text(("store", "fans")) in ("yes", "true"):
        yield "fans"


def sheets_of(view: View) -> list[str]:
    """The sheets that are laid, top ply first, each once."""
    laid = [view.text((*path, "sheet")) for path in view.rows(("assembly", "plies"))]
    known = set(view.names(("sheets",)))
    return [name for name in dict.fromkeys(reversed(laid)) if name in known]


def drains_of(view: View) -> Iterator[tuple[str, Path]]:
    """The drains of the kinds that the figure knows, with their paths."""
    for area in view.rows(("roof",)):
        for path in view.rows((*area, "drains")):
            if view.text((*path, "kind")) in ("drain", "scupper"):
                yield f"{view.text((*area, 'area')) or ''} {view.text((*path, 'name')) or ''}".strip(), path
