"""Rules that the job's own sheets can't meet, whatever the roof; the arithmetic is that of docs/method/layout.md.

Rules against one another are told by `defaults.rules`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from lapwright.defaults.table import table
from lapwright.job.tree import Path
from lapwright.job.view import View
from lapwright.units import read
from lapwright.units.write import Units


@dataclass(frozen=True, slots=True)
class _Ply:
    """A ply's sheet: exposed width of a full course, and between end laps of a full piece [ticks]."""

    path: Path
    sheet: str
    pitch: int
    spacing: int
    end_lap: int


def rules_with_sheets(view: View) -> None:
    """Tells each rule that a ply's sheet can't meet."""
    plies = list(_plies(view))
    for under, over in pairwise(plies):
        _ply_offset(view, under, over)
    for ply in plies:
        _stagger(view, ply)
        _rip(view, ply)
        _shortest(view, ply)


def _plies(view: View) -> Iterator[_Ply]:
    longest = _rule(view, "longest_piece")
    for path in view.rows(("assembly", "plies")):
        name = view.text((*path, "sheet"))
        if name is None:
            continue
        keys = ("width", "length", "side_lap", "end_lap")
        read_lengths = [view.value(("sheets", name, key), read.length_ticks) for key in keys]
        lengths = [length for length in read_lengths if length is not None and length > 0]
        if len(lengths) < len(keys) or longest is None:
            continue
        width, length, side_lap, end_lap = lengths
        if width > 2 * side_lap and length > 2 * end_lap:
            yield _Ply(path, name, width - side_lap, min(length, longest) - end_lap, end_lap)


def _rule(view: View, name: str) -> int | None:
    if name in view.names(("rules",)):
        return view.value(("rules", name), read.length_ticks)
    return read.length_ticks(table("rules")[name].text)


def _units(view: View) -> Units:
    system = view.text(("units",))
    return Units(system if system in ("us", "metric") else "us")


def _tell(view: View, name: str, needs: str, write: str) -> None:
    """At the rule where the job gives it, else beside the rules: the sheet is what it is.  Once for each rule."""
    is_given = name in view.names(("rules",))
    if all(cross.path != ("rules", name) for cross in view.found):
        view.tell(("rules", name), needs, write if is_given else f"{name}: {write}")


def _ply_offset(view: View, under: _Ply, over: _Ply) -> None:
    """Lines of the two plies alternate at best half a course apart."""
    offset = _rule(view, "ply_offset")
    best = min(under.pitch, over.pitch) // 2
    if offset is not None and offset > best:
        sheets = under.sheet if under.sheet == over.sheet else f"{under.sheet} and {over.sheet}"
        limit = _units(view).width(_whole_step(best))
        _tell(view, "ply_offset", f"a ply_offset of at most {limit}, half a course of {sheets}", limit)


def _stagger(view: View, ply: _Ply) -> None:
    """End laps of two courses alternate at best half a piece apart."""
    best = ply.spacing // 2
    for name in ("end_lap_stagger", "end_lap_ply_offset"):
        stagger = _rule(view, name)
        if stagger is not None and stagger > best > 0:
            limit = _units(view).tape(_whole_step(best))
            _tell(view, name, f"an {name} of at most {limit}, half a full piece of {ply.sheet}", limit)


def _rip(view: View, ply: _Ply) -> None:
    rip = _rule(view, "narrowest_rip")
    if rip is not None and rip > ply.pitch:
        limit = _units(view).width(_whole_step(ply.pitch))
        _tell(view, "narrowest_rip", f"a narrowest_rip of at most {limit}, a full course of {ply.sheet}", limit)


def _shortest(view: View, ply: _Ply) -> None:
    shortest = _rule(view, "shortest_piece")
    if shortest is not None and 0 < shortest <= ply.end_lap:
        needs = f"a shortest_piece over {_units(view).width(ply.end_lap)}, the end lap of {ply.sheet}"
        _tell(view, "shortest_piece", needs, table("rules")["shortest_piece"].text)


def _whole_step(ticks: int) -> int:
    """Down to a sixteenth of an inch, so that what is written can be met."""
    return ticks - ticks % 127
