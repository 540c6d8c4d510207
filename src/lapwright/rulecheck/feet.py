"""The rule about feet: the edges with which flashings, strips and patches lie on the field, listed as laps.

Where they lie is worked out from the sizes and places of the details.  Along the line of a valley they lie on its
sheets.  A plan that lists no foot is one without them; it is not judged here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.assembly.values import Ply
from lapwright.rulecheck.details import Placed, Row
from lapwright.rulecheck.faces import Face
from lapwright.rulecheck.lapedges import Edge, bed_of
from lapwright.rulecheck.laplist import LapBook
from lapwright.rulecheck.lie import Lying, PlyLie
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.read import GivenLap, GivenPlan
from lapwright.rulecheck.readdetail import GivenDetail
from lapwright.rulecheck.values import XY, Violation

ROWS = ("flashing", "strip", "tie_in")
PATCHES = ("target", "pipe_strip")
ALONG = (0.25, 0.5, 0.75)  # shares of a stretch without a foot at which there has to be roof
SAMPLES = 21  # places along a foot of which one at least lies on the piece that it names

Feet = Mapping[str, Sequence[GivenLap]]


@dataclass(frozen=True, slots=True)
class Field:
    """What feet lie on: the plies as they lie, and the valley sheets."""

    lies: Sequence[PlyLie]
    valleys: Sequence[GivenDetail]

    def pieces(self) -> dict[str, tuple[PlyLie, Lying]]:
        """Every piece as it lies, by its id."""
        return {lying.id: (lie, lying) for lie in self.lies for row in lie.rows.values() for lying in row}

    def has(self, at: XY, ply: str) -> bool:
        """Some piece or valley sheet of a ply lies at a plan point."""
        return any(_lies_at(lie, at) for lie in self.lies if lie.ply.ply == ply) or any(
            _is_beside(at, one, 0.0) for one in self.valleys if one.ply == ply
        )


def foot_laps(plan: GivenPlan) -> dict[str, list[GivenLap]]:
    """The listed laps of a piece of the field, or a valley sheet, and a detail that lies on it, by the detail's id.

    Source: docs/method/rulecheck.md
    """
    details = {one.id for one in plan.details if one.kind != "valley"}
    pieces = {piece.id for ply in plan.plies for piece in ply.pieces}
    pieces |= {one.id for one in plan.details if one.kind == "valley"}
    found: dict[str, list[GivenLap]] = {}
    for lap in plan.laps:
        if lap.pieces[0] in pieces and lap.pieces[1] in details:
            found.setdefault(lap.pieces[1], []).append(lap)
    return found


def foot_edges(plan: GivenPlan) -> Iterator[Edge]:
    """The listed feet as edges; where they lie is judged by `foot_violations`.

    Source: docs/method/rulecheck.md
    """
    details = {one.id: one for one in plan.details}
    for id, laps in foot_laps(plan).items():
        yield from (Edge(lap, details[id], lap.line) for lap in laps if math.dist(*lap.line) > 0.0)


def foot_violations(
    plan: GivenPlan, plies: Sequence[Ply], rows: Sequence[Row], books: Sequence[LapBook], limits: Limits
) -> Iterator[Violation]:
    """Feet that lie elsewhere than their details, on another piece, are of another length, or are not listed.

    Source: docs/method/rulecheck.md
    Checked: tests/rulecheck/test_feet_rule.py
    """
    feet = foot_laps(plan)
    if not feet:
        return
    field = Field([book.lie for book in books], [one for one in plan.details if one.kind == "valley"])
    yield from _on_what_they_name(plan, feet, plies, field, limits)
    sides = _sides(rows, feet)
    for row in rows:
        if row.kind in ROWS:
            yield from _row(row, feet, plies, field, limits, sides.get((row.area, row.face.of), _outside(row.face)))
    patches: dict[tuple[str, str, str, str], list[GivenDetail]] = {}
    for one in plan.details:
        if one.kind in PATCHES and one.at is not None:
            patches.setdefault((one.area, one.of, one.kind, one.ply), []).append(one)
    for panels in patches.values():
        yield from _patch(panels, feet, plies, field, limits)


def _on_what_they_name(
    plan: GivenPlan, feet: Feet, plies: Sequence[Ply], field: Field, limits: Limits
) -> Iterator[Violation]:
    """Each foot against the piece or the valley sheet that it names."""
    details, pieces = {one.id: one for one in plan.details}, field.pieces()
    for id, laps in feet.items():
        for lap in laps:
            name = lap.pieces[0]
            if name in details:
                yield from _on_its_sheet(lap, details[id], details[name], plies, limits)
            elif name in pieces:
                yield from _on_its_piece(lap, details[id], plies, pieces[name], limits)


def _on_its_sheet(
    lap: GivenLap, detail: GivenDetail, under: GivenDetail, plies: Sequence[Ply], limits: Limits
) -> Iterator[Violation]:
    """A foot lies on the ply under its detail, somewhere on the valley sheet that it names."""
    if not any(_is_beside(at, under, 2 * limits.gap) for at in _along(*lap.line)) or bed_of(detail, plies) != under.ply:
        yield _off_it(lap, detail)


def _along(start: XY, end: XY) -> Iterator[XY]:
    """Places along a foot from end to end."""
    for k in range(SAMPLES):
        share = k / (SAMPLES - 1)
        yield (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def _off_it(lap: GivenLap, detail: GivenDetail) -> Violation:
    text = f"Lap {lap.id}: {detail.id} does not lie on {lap.pieces[0]} there; name the piece under it."
    return Violation("foot", (lap.id, *lap.pieces), lap.line[0], "off the piece", "on it", text)


def _is_beside(at: XY, sheet: GivenDetail, close: float) -> bool:
    """A point lies within half the width of a valley sheet from its line, and so near to within its ends."""
    if sheet.line is None or sheet.width is None or math.dist(*sheet.line) == 0.0:
        return False
    (x0, y0), (x1, y1) = sheet.line
    dx, dy, long = x1 - x0, y1 - y0, math.dist(*sheet.line)
    along = ((at[0] - x0) * dx + (at[1] - y0) * dy) / long
    off = abs((at[1] - y0) * dx - (at[0] - x0) * dy) / long
    return -close <= along <= long + close and off <= sheet.width / 2 + close


def _on_its_piece(
    lap: GivenLap, detail: GivenDetail, plies: Sequence[Ply], under: tuple[PlyLie, Lying], limits: Limits
) -> Iterator[Violation]:
    """A foot lies on the ply under its detail, somewhere on the piece that it names, and is as long as it says."""
    lie, lying = under
    one, two = (lie.slope.uv(point) for point in lap.line)
    close = 2 * limits.gap
    is_on = any(
        lying.u0 - close <= u <= lying.u1 + close and lying.v0 - close <= v <= lying.v1 + close
        for u, v in _along(one, two)
    )
    if not is_on or bed_of(detail, plies) != lie.ply.ply:
        yield _off_it(lap, detail)
        return
    long = math.dist(*lap.line) if detail.kind in PATCHES else math.dist(one, two)  # patches are drawn by their sizes
    if abs(lap.length - long) > 2 * limits.close:
        text = f"Lap {lap.id}: length {{read}}, but it is {{needs}}; write what it is."
        yield Violation("foot", (lap.id,), lap.line[0], lap.length, long, text)


def _sides(rows: Sequence[Row], feet: Feet) -> dict[tuple[str, str], tuple[float, ...]]:
    """On which side of each face (1: the left, -1) its feet lie, from those that are listed in any ply."""
    found: dict[tuple[str, str], tuple[float, ...]] = {}
    for row in rows:
        offs = [row.face.place(lap.line[0])[1] for one in row.placed for lap in feet.get(one.detail.id, ())]
        if row.kind == "flashing" and offs:
            found[row.area, row.face.of] = (math.copysign(1.0, max(offs, key=abs)),)
    return found


def _outside(face: Face) -> tuple[float, ...]:
    """On which side of a face the roof may lie: right of an opening's, which goes round it to the left."""
    return (1.0, -1.0) if face.of.startswith("side ") else (-1.0,)


def _row(
    row: Row,
    feet: Feet,
    plies: Sequence[Ply],
    field: Field,
    limits: Limits,
    sides: Sequence[float],
) -> Iterator[Violation]:
    """Feet along a face: each as far off as its detail reaches, and together as long as the details are.

    sides: on which side of the face the roof lies; both of a side of the roof where no listed foot tells.
    """
    close, spans = 2 * limits.gap, list[tuple[float, float]]()
    for one in row.placed:
        needs = _reach(row.kind, one.detail)
        for lap in feet.get(one.detail.id, ()):
            places = [row.face.place(point) for point in lap.line]
            low, high = sorted(along for along, _ in places)
            spans.append((low, high))
            off = max((abs(off) for _, off in places), key=lambda off: abs(off - (needs or off)))
            if needs is not None and abs(off - needs) > close:
                text = f"Lap {lap.id} lies {{read}} off {row.face.of}, its detail ends at {{needs}}; draw it there."
                yield Violation("foot", (lap.id,), lap.line[0], off, needs, text)
            elif low < one.low - close or high > one.high + close:
                text = f"Lap {lap.id} is longer than {one.detail.id}; draw it as long as that shows."
                yield Violation("foot", (lap.id,), lap.line[0], high - low, one.high - one.low, text)
    for missed, violation in _shown_once(row, sorted(spans), limits):
        ply, reach = bed_of(row.placed[0].detail, plies), _reach(row.kind, row.placed[0].detail) or 0.0
        beside = [[_off(row.face, at, side * reach) for at in missed] for side in sides]
        if not missed or any(all(field.has(at, ply) for at in points) for points in beside):
            yield violation


def _reach(kind: str, detail: GivenDetail) -> float | None:
    """How far from the line a detail along a face reaches onto the roof; None where it does not say."""
    return detail.parts.get("field") if kind == "flashing" else (detail.width or 0.0) / 2


def _off(face: Face, at: XY, off: float) -> XY:
    """A point so far to the left of a face's line from one on it."""
    dx, dy = ((b - a) / face.length for a, b in zip(face.start, face.end, strict=True))
    return (at[0] - dy * off, at[1] + dx * off)


def _shown_once(row: Row, spans: Sequence[tuple[float, float]], limits: Limits) -> Iterator[tuple[list[XY], Violation]]:
    """Stretches of a row with two feet; those without one, with points along them which all have to be on the field."""
    close, names = 2 * limits.gap + limits.close, (f"{row.area}/{row.face.of}",)
    for (_, end), (start, _) in pairwise(spans):
        if start < end - close:
            text = f"{row.area}, {row.face.of}: {{read}} of the {row.kind} is listed twice; list what shows."
            yield [], Violation("foot", names, row.face.at(start), end - start, 0.0, text)
    for low, high in _covered(row.placed):
        reach = low
        for begins, ends in (*spans, (high, high)):
            if min(begins, high) - reach > close:
                text = f"{row.area}, {row.face.of}: {{read}} of the foot of its {row.kind} is not listed; list it."
                wide = min(begins, high) - reach
                missed = Violation("foot", names, row.face.at(reach), wide, 0.0, text)
                yield [row.face.at(reach + share * wide) for share in ALONG], missed
            reach = max(reach, ends)


def _covered(placed: Sequence[Placed]) -> list[tuple[float, float]]:
    """What pieces along a face cover, without breaks."""
    found: list[tuple[float, float]] = []
    for one in placed:
        if found and one.low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], one.high))
        else:
            found.append((one.low, one.high))
    return found


def _patch(
    panels: Sequence[GivenDetail], feet: Feet, plies: Sequence[Ply], field: Field, limits: Limits
) -> Iterator[Violation]:
    """The rim of a patch: on its four sides, and all round it once."""
    sheets = {ply.ply: metres(ply.sheet.side_lap_ticks) for ply in plies}
    first, widths = panels[0], [one.width for one in panels if one.width is not None]
    if first.at is None or first.length is None or len(widths) < len(panels) or first.ply not in sheets:
        return
    close, half = 2 * limits.gap, first.length / 2
    wide = (sum(widths) - sheets[first.ply] * (len(widths) - 1)) / 2
    listed = [lap for one in panels for lap in feet.get(one.id, ())]
    for lap in listed:
        offs = [(abs(x - first.at[0]), abs(y - first.at[1])) for x, y in lap.line]
        is_upright = all(abs(x - wide) <= close and y <= half + close for x, y in offs)
        is_level = all(abs(y - half) <= close and x <= wide + close for x, y in offs)
        if not (is_upright or is_level):
            text = f"Lap {lap.id} does not lie on the rim of what it is of; draw it there."
            yield Violation("foot", (lap.id,), lap.line[0], "off the rim", "on it", text)
    for dx, dy in ((wide, 0.0), (-wide, 0.0), (0.0, half), (0.0, -half)):
        at = (first.at[0] + dx, first.at[1] + dy)
        count = sum(_is_along(at, lap.line, close) for lap in listed)
        if count == 0 and field.has(at, bed_of(first, plies)):
            text = f"{first.area}, {first.of}: a side of the rim of its {first.kind} is not listed; list it."
            yield Violation("foot", (first.id,), at, "not listed", "a lap", text)
        elif count > 1 and len({lap.pieces[1] for lap in listed if _is_along(at, lap.line, close)}) < count:
            text = f"{first.area}, {first.of}: a side of the rim of its {first.kind} is listed twice; list it once."
            yield Violation("foot", (first.id,), at, f"{count} times", "once", text)


def _is_along(at: XY, line: tuple[XY, XY], close: float) -> bool:
    """A point lies on a line."""
    return math.dist(line[0], at) + math.dist(at, line[1]) <= math.dist(*line) + close


def _lies_at(lie: PlyLie, at: XY) -> bool:
    """Some piece of a ply lies at a plan point."""
    u, v = lie.slope.uv(at)
    return any(one.u0 < u < one.u1 and one.v0 < v < one.v1 for row in lie.rows.values() for one in row)
