"""Rules that the job's own sheets can't meet, whatever the roof; the arithmetic is that of docs/method/layout.md.

Rules against one another are told by `defaults.rules`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from lapwright.defaults.rules import with_offset
from lapwright.defaults.table import table
from lapwright.defaults.values import Rules
from lapwright.job.models import Job
from lapwright.job.tree import Path
from lapwright.job.view import View
from lapwright.units import read
from lapwright.units.retold import retold
from lapwright.units.write import TICKS_PER_MM, Units


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
        view.tell(
            ("rules", name), needs if is_given else f"under rules {needs}", write if is_given else f"{name}: {write}"
        )


def _ply_offset(view: View, under: _Ply, over: _Ply) -> None:
    """Lines of the two plies alternate at best half a course apart."""
    offset = _rule(view, "ply_offset")
    best = min(under.pitch, over.pitch) // 2
    if offset is not None and offset > best and not _gives_way(view, under.pitch, over.pitch):
        sheets = under.sheet if under.sheet == over.sheet else f"{under.sheet} and {over.sheet}"
        limit = _units(view).width(_whole_step(best, _units(view)))
        _tell(view, "ply_offset", f"a ply_offset of at most {limit}, half a course of {sheets}", limit)


def _gives_way(view: View, under: int, over: int) -> bool:
    """The offset is the default, and half a course is no less than what is asked beside a rip.

    Sheets of two pitches drift: what they can keep hangs on the roof, so there the job says it.
    """
    at_rip = _rule(view, "ply_offset_at_rip")
    is_default = "ply_offset" not in view.names(("rules",))
    return is_default and under == over and at_rip is not None and _whole_step(under // 2, _units(view)) >= at_rip


def fitted_rules(job: Job) -> Rules:
    """The job's rules; a `ply_offset` that it leaves to the default is half a course where its sheets allow no more.

    Holds for: a job whose rules its sheets can meet.
    """
    rules, units = job.rules, Units(job.units)
    pitches: dict[str, int] = {}
    for ply in job.assembly.plies:
        sheet = job.sheets[ply.sheet]
        pitches[ply.sheet] = sheet.width - sheet.side_lap
    best = _whole_step(min(pitches.values()) // 2, units)
    if rules.origins["rules.ply_offset"].is_overridden or rules.ply_offset_ticks <= best:
        return rules
    sheets = " and ".join(pitches)
    limit, usual = units.width(best), retold(units, table("rules")["ply_offset"].text)
    why = f"not given, and its default of {usual} is more than half a course of {sheets}: {limit} is kept"
    return with_offset(rules, limit, why)


def _stagger(view: View, ply: _Ply) -> None:
    """End laps of two courses alternate at best half a piece apart."""
    best = ply.spacing // 2
    for name in ("end_lap_stagger", "end_lap_ply_offset"):
        stagger = _rule(view, name)
        if stagger is not None and stagger > best > 0:
            limit = _units(view).tape(_whole_step(best, _units(view)))
            _tell(view, name, f"an {name} of at most {limit}, half a full piece of {ply.sheet}", limit)


def _rip(view: View, ply: _Ply) -> None:
    rip = _rule(view, "narrowest_rip")
    if rip is not None and rip > ply.pitch:
        limit = _units(view).width(_whole_step(ply.pitch, _units(view)))
        _tell(view, "narrowest_rip", f"a narrowest_rip of at most {limit}, a full course of {ply.sheet}", limit)


def _shortest(view: View, ply: _Ply) -> None:
    shortest = _rule(view, "shortest_piece")
    if shortest is not None and 0 < shortest <= ply.end_lap:
        needs = f"a shortest_piece over {_units(view).width(ply.end_lap)}, the end lap of {ply.sheet}"
        _tell(view, "shortest_piece", needs, table("rules")["shortest_piece"].text)


def _whole_step(ticks: int, units: Units) -> int:
    """Down to a sixteenth of an inch, in metric jobs on to a whole millimetre, so that what is written can be met."""
    down = ticks - ticks % 127
    return down if units.is_us else down - down % TICKS_PER_MM
