"""What `areas` and `roof` say about one another: each drawn area stands under both, the rest is typed in whole."""

from __future__ import annotations

from lapwright.job.fields import near_name
from lapwright.job.keys import example, field_at
from lapwright.job.roof_models import DRAIN_NEEDS, OPENING_NEEDS, PIPE_NEEDS
from lapwright.job.tree import Path
from lapwright.job.view import View

LAYERS: Path = ("areas", "layers")
# What stands in an area: what it needs where it is typed, and the keys that say that it is.
_STANDING = (
    ("openings", OPENING_NEEDS, ("at", "size")),
    ("pipes", PIPE_NEEDS, ("at",)),
    ("drains", DRAIN_NEEDS, ("at", "side")),
)


def drawn_areas(view: View) -> None:
    """Tells what is missing on either side, what is given twice, and layers that would be two things at once."""
    drawn = view.names(LAYERS)
    typed = {view.text((*area, "area")): area for area in view.rows(("roof",))}
    for area in view.rows(("roof",)):
        name = view.text((*area, "area"))
        _outline(view, area, name in drawn, drawn)
        _standing(view, area, is_drawn=name in drawn)
    if not any(name is None for name in typed):
        for name in drawn:
            if name not in typed:
                _untyped(view, name, [each for each in typed if each is not None])
    if view.node(("areas",)) is not None:
        _source(view)
        _layers(view, drawn)


def _outline(view: View, area: Path, is_drawn: bool, drawn: list[str]) -> None:
    node = view.node((*area, "outline"))
    name = view.text((*area, "area"))
    if node is None and not is_drawn and "outline" not in view.names(area):
        near = near_name(name or "", drawn)
        if near is not None:
            needs = f"an area drawn under areas.layers: {', '.join(drawn)}; or the key outline"
            view.tell((*area, "area"), needs, near)
            return
        _missing(view, area, "outline")
    elif is_drawn and node is not None:
        needs = f"no outline here, since areas.layers draws {name}; or no {name} there"
        view.tell((*area, "outline"), needs, "", at_key=True)
    if is_drawn and "start" in view.names(area):
        needs = "no start, since the drawing says where the area is"
        view.tell((*area, "start"), needs, "", at_key=True)


def _missing(view: View, above: Path, name: str) -> None:
    """A key that is not there, told as the models tell it."""
    path = (*above, name)
    field = field_at(path)
    description = (field.description or "") if field is not None else ""
    view.tell(path, f"the key {name}: {description}", f"{name}: {example(path)}", read="")


def _standing(view: View, area: Path, *, is_drawn: bool) -> None:
    """Keys of openings, pipes and drains; one that is drawn, as a courtyard is, needs its name alone."""
    has_yards = any(view.node((*area, "outline", form)) is not None for form in ("dxf", "geojson"))
    for key, needs, whole in _STANDING:
        may_be_drawn = is_drawn or (has_yards and key == "openings")
        for item in view.rows((*area, key)):
            given = view.names(item)
            if not given or (may_be_drawn and not any(name in given for name in whole)):
                continue
            for name in needs:
                if name not in given and view.is_whole(item):
                    _missing(view, item, name)


def _untyped(view: View, name: str, typed: list[str]) -> None:
    near = near_name(name, typed)
    there = f"; there are {', '.join(typed)}" if typed else ""
    needs = f"an area of this name under roof, with what a drawing can't say{there}"
    write = near or f"- {{area: {name}, falls: S, slope: 1/4 in 12}}"
    view.tell((*LAYERS, name), needs, write, at_key=True)


def _source(view: View) -> None:
    given = [name for name in ("dxf", "geojson") if name in view.names(("areas",))]
    if len(given) == 2:
        view.tell(("areas", "geojson"), "a DXF drawing or a GeoJSON file, not both", "", at_key=True)
    elif not given and view.is_whole(("areas",)):
        view.tell(
            ("areas", "dxf"), "the key dxf: DXF drawing beside the job file; or geojson", "dxf: plans/roof.dxf", read=""
        )
    if "property" in view.names(("areas",)) and "dxf" in given:
        view.tell(("areas", "property"), "no property, which features of a GeoJSON file have", "", at_key=True)


def _layers(view: View, drawn: list[str]) -> None:
    """A layer is one kind of thing, in all areas; only openings, pipes and drains may share theirs between areas."""
    use: dict[str, str] = {}
    if view.node(LAYERS) is not None and not drawn:
        view.tell(LAYERS, "one area or more", "Main: {outline: ROOF-MAIN}")
    for area in drawn:
        above = (*LAYERS, area)
        outline = view.text((*above, "outline"))
        if outline is not None:
            _one_use(view, (*above, "outline"), outline, f"{area}'s outline", use, at_key=False)
        for key in ("openings", "pipes", "drains"):
            for layer in view.names((*above, key)):
                _one_use(view, (*above, key, layer), layer, key, use, at_key=True)


def _one_use(view: View, path: Path, layer: str, what: str, use: dict[str, str], *, at_key: bool) -> None:
    was = use.setdefault(layer.casefold(), what)
    if was != what:
        view.tell(path, f"a layer of its own; {layer} is that of {was}", "", at_key=at_key)
