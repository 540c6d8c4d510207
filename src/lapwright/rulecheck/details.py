"""Rules about details: every face flashed, every metal edge with its metal and strip, each piece as large as it says.

A plan that gives no details, or none with its place and sizes, is one of the field alone; it is not judged here.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Ply
from lapwright.defaults.si import default_si
from lapwright.roof.values import Area
from lapwright.rulecheck.faces import METAL, Face, flashed_faces, sides_of
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.read import GivenPlan
from lapwright.rulecheck.readdetail import GivenDetail
from lapwright.rulecheck.values import Violation

TALL = "flashing_tall"
BUTTED = ("metal", "cleat", "cant")  # set end to end, with a small gap


@dataclass(frozen=True, slots=True)
class Placed:
    """A detail along a face: from and to in plan [m], from the face's start."""

    detail: GivenDetail
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Row:
    """Details of one kind and ply along one face, in order from its start."""

    face: Face
    area: str
    kind: str
    ply: str
    placed: tuple[Placed, ...]


def is_detailed(plan: GivenPlan) -> bool:
    """The plan says of some detail where it belongs and how large it is.

    Source: docs/method/rulecheck.md
    """
    return any(one.of and one.length is not None for one in plan.details)


def rows_of(plan: GivenPlan, areas: Sequence[Area], plies: Sequence[Ply], limits: Limits) -> list[Row]:
    """Every row of details that the job asks for, empty ones too: flashings of both plies, metal, strips.

    Source: docs/method/rulecheck.md
    """
    by_place: dict[tuple[str, str, str, str], list[GivenDetail]] = {}
    for one in plan.details:
        by_place.setdefault((one.area, one.of, one.kind, one.ply), []).append(one)
    found = []
    for area in areas:
        asked = [(face, "flashing", ply.ply) for face in flashed_faces(area, limits) for ply in (plies[0], plies[-1])]
        if limits.turn_up > 0.0:
            asked += [(face, "cant", "") for face in flashed_faces(area, limits)]
        for face in sides_of(area, (METAL,)):
            asked += [(face, "metal", ""), (face, "cleat", "")]
            asked += [(face, "strip", "strip")] if len(plies) == 2 else []
        for face in sides_of(area, ("tie_in",)):
            asked += [(face, "tie_in", ply.ply) for ply in (plies[0], plies[-1])]
        for face, kind, ply in asked:
            here = by_place.get((area.name, face.of, kind, ply), [])
            found.append(Row(face, area.name, kind, ply, tuple(_placed(face, here))))
    return found


def _placed(face: Face, details: Sequence[GivenDetail]) -> list[Placed]:
    spans = [
        Placed(one, *sorted(face.place(point)[0] for point in one.line)) for one in details if one.line is not None
    ]
    return sorted(spans, key=lambda one: (one.low, one.high))


def row_violations(row: Row, limits: Limits) -> Iterator[Violation]:
    """A row that leaves some of its face bare, or whose pieces do not lie along it.

    Source: docs/method/rulecheck.md
    """
    face, rule = row.face, {"flashing": "flashed", "cant": "cant"}.get(row.kind, "edge_covered")
    what = f"{row.ply} flashing" if row.kind == "flashing" else row.kind.replace("_", "-")
    for one in row.placed:
        off = max(abs(face.place(point)[1]) for point in one.detail.line or ())
        if off > 2 * limits.gap:
            text = f"Detail {one.detail.id} stands {{read}} off {face.of} of {row.area}; draw it along that."
            yield Violation("detail", (one.detail.id,), face.at(one.low), off, 0.0, text)
    slack = 4 * limits.gap if row.kind not in BUTTED else max(4 * limits.gap, default_si("details", "metal_gap"))
    for low, high in face.bare:
        reach = low
        for begins, ends in (*((min(one.low, high), min(one.high, high)) for one in row.placed), (high, high)):
            if begins - reach > slack + limits.close:  # lengths that fill their side leave exactly the gap
                text = f"{row.area}, {face.of}: {{read}} of it has no {what}; add what is missing there."
                yield Violation(rule, (f"{row.area}/{face.of}",), face.at(reach), begins - reach, 0.0, text)
            reach = max(reach, ends)


def girth_violations(row: Row, limits: Limits, flashing_height: float, cant: float) -> Iterator[Violation]:
    """Flashings whose girth is not the sum of its parts, that end too low, or are tall without being held part-way.

    flashing_height: the least height asked for [m]; cant: its rise [m].
    Source: docs/method/rulecheck.md
    """
    if row.kind != "flashing":
        return
    face = row.face
    leg = default_si("details", "backer_leg")
    asked = flashing_height if face.height is None else min(face.height, flashing_height)
    for one in row.placed:
        detail, where = one.detail, face.at(one.low)
        total = sum(detail.parts.values())
        if not detail.parts or detail.length is None:
            continue
        if abs(detail.length - total) > limits.close:
            text = f"Flashing {detail.id} is {{read}} high, its parts add up to {{needs}}; make both the same."
            yield Violation("flashing_girth", (detail.id,), where, detail.length, total, text)
        stands = detail.parts.get("wall", 0.0) + cant
        if stands < asked - limits.close:
            text = f"Flashing {detail.id} stands {{read}} above the roof, needs {{needs}}; cut it longer."
            yield Violation("flashing_girth", (detail.id,), where, stands, asked, text)
        for name, needs in (("cant", cant * math.sqrt(2.0)), ("field", leg)):
            if detail.parts.get(name, 0.0) < needs - limits.close:
                text = f"Flashing {detail.id} has {{read}} for its part {name}, needs {{needs}}; cut it longer."
                yield Violation("flashing_girth", (detail.id,), where, detail.parts.get(name, 0.0), needs, text)


def fixing_violations(plan: GivenPlan, rows: Sequence[Row], limits: Limits, cant: float) -> Iterator[Violation]:
    """Faces flashed over 24" high without as many rows of fasteners part-way as that takes.

    Source: docs/method/rulecheck.md
    """
    tall = default_si("details", TALL)
    fixings = [one for one in plan.details if one.kind == "fixing"]
    names = {(one.area, one.of, one.id.partition("/fixing ")[2].partition("/")[0]) for one in fixings}
    held = Counter((area, of) for area, of, _ in names)
    needs: dict[tuple[str, str], tuple[int, Row]] = {}
    for row in rows:
        heights = [one.detail.parts.get("wall", 0.0) + cant for one in row.placed if one.detail.parts]
        rows_up = math.ceil((max(heights, default=0.0) - limits.close) / tall) - 1
        if row.kind == "flashing" and rows_up > needs.get((row.area, row.face.of), (0, row))[0]:
            needs[(row.area, row.face.of)] = (rows_up, row)
    for (area, of), (count, row) in needs.items():
        if held[(area, of)] < count:
            text = f"{area}, {of}: a flashing that high is held part-way up {count} times; add the rows of fasteners."
            read = f"{held[(area, of)]} rows"
            yield Violation("flashing_fixing", (f"{area}/{of}",), row.face.start, read, f"{count} rows", text)


def name_violations(plan: GivenPlan, areas: Sequence[Area]) -> Iterator[Violation]:
    """Details of areas, edges, openings, drains or pipes that the job does not have, and ids not made of them.

    Source: docs/method/rulecheck.md
    """
    known = {area.name: _places(area) for area in areas}
    for one in plan.details:
        if not one.of or one.length is None:
            continue
        if one.of not in known.get(one.area, ()):
            text = f"Detail {one.id} belongs to {one.of} of {one.area}, which the job does not have; take it out."
            yield Violation("detail", (one.id,), None, one.of, "a part of the job", text)
        elif not one.id.startswith(f"{one.area}/{one.of}/"):
            needs = f"{one.area}/{one.of}/…"
            text = f"Detail {one.id} does not begin with what it belongs to; name it {needs}."
            yield Violation("detail", (one.id,), None, one.id, needs, text)


def _places(area: Area) -> frozenset[str]:
    pairs = zip(area.edges, (*area.edges[1:], area.edges[0]), strict=True)
    found = [f"side {edge.side}" for edge in area.edges]
    found += [f"{word} of sides {a.side} and {b.side}" for a, b in pairs for word in ("corner", "joint")]
    found += [f"{one.name} {end}" for one in area.openings for end in (*one.faces, *one.corner_names)]
    return frozenset(found) | {drain.name for drain in area.drains} | {pipe.name for pipe in area.pipes}


def size_violations(plan: GivenPlan, plies: Sequence[Ply], rows: Sequence[Row], limits: Limits) -> Iterator[Violation]:
    """Details wider than their sheet, longer than what they take of a roll, or set beside more than it is wide.

    Source: docs/method/rulecheck.md
    """
    widths = {ply.sheet.name: metres(ply.sheet.width_ticks) for ply in plies}
    by_id = {one.id: one for one in plan.details}
    pieces = {piece.id for ply in plan.plies for piece in ply.pieces}
    sets: dict[str, list[GivenDetail]] = {}
    for one in plan.details:
        if one.sheet not in widths or one.width is None or one.length is None or one.takes is None:
            continue
        if one.beside in pieces:
            continue
        sets.setdefault(one.beside or one.id, []).append(one)
        first = by_id.get(one.beside) if one.beside else one
        if first is None or first.beside or first.roll != one.roll:
            text = f"Detail {one.id} is cut beside {one.beside}, which is not cut from the same roll; name what it is."
            yield Violation("detail_size", (one.id,), None, one.beside, "a detail of the same roll", text)
        elif one.length > (first.takes or 0.0) + limits.close:
            text = f"Detail {one.id} is {{needs}} long, but {{read}} of roll is cut for it; cut off more."
            yield Violation("detail_size", (one.id,), None, first.takes or 0.0, one.length, text)
    for first_id, details in sets.items():
        total, sheet = sum(one.width or 0.0 for one in details), details[0].sheet
        if total > widths[sheet] + limits.close * len(details):
            ids = tuple(one.id for one in details)
            text = f"What is cut beside {first_id} is {{read}} wide in all, the sheet {{needs}}; cut some elsewhere."
            yield Violation("detail_size", ids, None, total, widths[sheet], text)
    yield from rip_violations(plan, widths, limits)
    yield from _line_violations(rows, limits)


def rip_violations(plan: GivenPlan, widths: Mapping[str, float], limits: Limits) -> Iterator[Violation]:
    """Details cut beside a ripped piece that are wider than what is left of its sheet, or longer than it in all.

    Source: docs/method/rulecheck.md
    """
    pieces = {piece.id: (ply.sheet, piece) for ply in plan.plies for piece in ply.pieces}
    beside: dict[str, list[GivenDetail]] = {}
    for one in plan.details:
        if one.beside in pieces:
            beside.setdefault(one.beside, []).append(one)
    for id, details in beside.items():
        sheet, piece = pieces[id]
        room, total = widths.get(sheet, 0.0) - piece.width, sum(one.length or 0.0 for one in details)
        long = piece.length if piece.cut_length is None else piece.cut_length
        for one in details:
            if one.sheet != sheet or one.roll != piece.roll:
                text = f"Detail {one.id} is cut beside {id}, which is not cut from the same roll; name what it is."
                yield Violation("detail_size", (one.id,), None, one.roll, piece.roll, text)
            elif (one.width or 0.0) > room + limits.close:
                text = f"Detail {one.id} is {{read}} wide, but {{needs}} are left beside {id}; cut it elsewhere."
                yield Violation("detail_size", (one.id,), None, one.width, room, text)
        if total > long + limits.close * len(details):
            ids = tuple(one.id for one in details)
            text = f"What is cut beside {id} is {{read}} long in all, the piece {{needs}}; cut some elsewhere."
            yield Violation("detail_size", ids, None, total, long, text)


def _line_violations(rows: Sequence[Row], limits: Limits) -> Iterator[Violation]:
    """Pieces whose line is not as long as they are; strips longer than a crew can handle."""
    for row in rows:
        for one in row.placed:
            size = one.detail.width if row.kind == "flashing" else one.detail.length
            drawn = (one.high - one.low) * row.face.stretch
            # cant is mitred: its longer side is what is cut
            if size is not None and row.kind != "cant" and abs(size - drawn) > 2 * limits.close:
                text = (
                    f"Detail {one.detail.id} is {{read}} along {row.face.of}, its line {{needs}}; make both the same."
                )
                yield Violation("detail_size", (one.detail.id,), row.face.at(one.low), size, drawn, text)
            if row.kind in ("strip", "tie_in") and drawn > limits.longest_piece + limits.close:
                text = f"Strip {one.detail.id} is {{read}} long, the longest allowed is {{needs}}; cut it in two."
                yield Violation(
                    "longest_piece", (one.detail.id,), row.face.at(one.low), drawn, limits.longest_piece, text
                )
