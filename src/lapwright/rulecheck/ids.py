"""Rules about names: the plan is of this job, ids are unique and well made, what is named exists; counts are right."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterator, Sequence

from lapwright.assembly.values import Ply
from lapwright.roof.values import Area
from lapwright.rulecheck.cutting import rolls_opened
from lapwright.rulecheck.laplist import LapBook
from lapwright.rulecheck.lie import PlyLie, middle
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.read import GivenPlan
from lapwright.rulecheck.values import XY, Violation

NUMBERS = re.compile(r"0*([1-9][0-9]{0,8})/0*([1-9][0-9]{0,8})", re.ASCII)


def job_violations(plan: GivenPlan, areas: Sequence[Area], plies: Sequence[Ply], limits: Limits) -> Iterator[Violation]:
    """Areas, plies and sheets of the plan that are not the job's.

    Source: docs/method/rulecheck.md
    """
    yield from _areas(plan, areas, limits)
    yield from _plies(plan, areas, plies)
    told = Counter((one.area, one.ply) for one in plan.plies)
    for area in areas:
        for ply in plies:
            count = told[(area.name, ply.ply)]
            if count != 1:
                name = f"{ply.ply} on {area.name}"
                text = f"The plan has the {name} {count} times; it has to be there once."
                yield Violation("area", (name,), None, f"{count} times", "once", text)


def _areas(plan: GivenPlan, areas: Sequence[Area], limits: Limits) -> Iterator[Violation]:
    outlines = {area.name: area.outline for area in plan.areas}
    for area in areas:
        points = [(metres(x), metres(y)) for x, y in area.outline]
        if area.name not in outlines:
            text = f"The plan has no area {area.name}; it is of another job, or of an older one."
            yield Violation("area", (area.name,), points[0], "no such area", area.name, text)
        elif not _is_same(points, outlines[area.name], limits.gap):
            text = f"The outline of {area.name} in the plan is not that of the job; make the plan anew."
            yield Violation("area", (area.name,), points[0], "another outline", "the job's outline", text)


def _plies(plan: GivenPlan, areas: Sequence[Area], plies: Sequence[Ply]) -> Iterator[Violation]:
    position = {ply.ply: place for place, ply in enumerate(plies, start=1)}
    sheets = {ply.ply: ply.sheet.name for ply in plies}
    known = [area.name for area in areas]
    for one in plan.plies:
        name = f"{one.ply} on {one.area}"
        if one.area not in known or one.ply not in sheets:
            text = f"The plan has a ply {name}, which the job does not have; take it out."
            yield Violation("area", (name,), None, name, "a ply of the job", text)
        elif one.sheet != sheets[one.ply]:
            text = f"The {name} is of another sheet than in the job; name the job's sheet."
            yield Violation("area", (name,), None, one.sheet, sheets[one.ply], text)
        elif one.position != position[one.ply]:
            text = f"The {name} is ply {one.position} in the plan; in the job it is ply {position[one.ply]}."
            yield Violation("area", (name,), None, str(one.position), str(position[one.ply]), text)


def _is_same(points: Sequence[XY], others: Sequence[XY], close: float) -> bool:
    return len(points) == len(others) and all(math.dist(a, b) <= close for a, b in zip(points, others, strict=True))


def id_violations(plan: GivenPlan, lies: Sequence[PlyLie]) -> Iterator[Violation]:
    """Ids that are there twice; pieces whose id is not made of area, ply, course and place.

    Source: docs/method/rulecheck.md
    """
    pieces = [piece.id for ply in plan.plies for piece in ply.pieces] + [detail.id for detail in plan.details]
    kinds = (
        ("Piece", pieces),
        ("Lap", [lap.id for lap in plan.laps]),
        ("T-joint", [joint.id for joint in plan.tjoints]),
        ("Roll", [roll.id for roll in plan.rolls]),
    )
    for kind, ids in kinds:
        for id, count in Counter(ids).items():
            if count > 1:
                text = f"{kind} {id} is there {count} times; give each its own id."
                yield Violation("id", (id,), None, f"{count} times", "once", text)
    for lie in lies:
        for course, row in lie.rows.items():
            for place, lying in enumerate(row, start=1):
                needs = f"{lie.area.name}/{lie.ply.ply}/{course:02d}/{place}"
                if not _is_made_of(lying.id, lie, course, place) or lying.given.place not in (None, place):
                    text = (
                        f"Piece {lying.id} is the {place}. from the left in course {course}; make its id and place so."
                    )
                    yield lie.found("id", [lying.id], middle(lying.box), text, read=lying.id, needs=needs)


def _is_made_of(id: str, lie: PlyLie, course: int, place: int) -> bool:
    """An id reads area/ply/course/place; zeros before the numbers are let be."""
    head = f"{lie.area.name}/{lie.ply.ply}/"
    numbers = NUMBERS.fullmatch(id[len(head) :]) if id.startswith(head) else None
    return numbers is not None and (int(numbers[1]), int(numbers[2])) == (course, place)


def reference_violations(plan: GivenPlan) -> Iterator[Violation]:
    """Ids of pieces, laps and rolls that are named somewhere and are nowhere.

    Source: docs/method/rulecheck.md
    """
    details = [detail.id for detail in plan.details]
    pieces = [piece.id for ply in plan.plies for piece in ply.pieces] + details
    known = {
        "piece": frozenset(pieces),
        "lap": frozenset(lap.id for lap in plan.laps),
        "roll": frozenset(roll.id for roll in plan.rolls),
    }
    named: list[tuple[str, str, str]] = []
    named += [(f"Lap {lap.id}", "piece", id) for lap in plan.laps for id in lap.pieces]
    named += [(f"T-joint {joint.id}", "lap", id) for joint in plan.tjoints for id in joint.laps]
    named += [(f"Roll {roll.id}", "piece", id) for roll in plan.rolls for id in roll.pieces]
    named += [(f"Piece {piece.id}", "roll", piece.roll) for ply in plan.plies for piece in ply.pieces]
    named += [(f"Piece {detail.id}", "roll", detail.roll) for detail in plan.details if detail.roll]
    for who, kind, id in named:
        if id not in known[kind]:
            text = f"{who} names the {kind} {id or '(empty)'}, which the plan does not have; correct the name."
            yield Violation("reference", (id,), None, id, f"a {kind} of the plan", text)


def count_violations(plan: GivenPlan, books: Sequence[LapBook]) -> Iterator[Violation]:
    """Counts of rolls and end laps that are wrong or below what any layout needs.

    Source: docs/method/rulecheck.md
    """
    opened = rolls_opened(plan, [book.lie for book in books])
    by_name = {(book.lie.area.name, book.lie.ply.ply): book for book in books}
    told = Counter((count.area, count.ply) for count in plan.counts)
    for count in plan.counts:
        key, name = (count.area, count.ply), f"{count.ply} on {count.area}"
        if key not in by_name:
            text = f"Counts are given for the {name}, which the plan does not have; take them out."
            yield Violation("count", (name,), None, name, "a ply of the plan", text)
            continue
        rows = (
            ("rolls", count.rolls, opened.get(key, 0), count.rolls_at_least),
            ("end laps", count.end_laps, len(by_name[key].ends), count.end_laps_at_least),
        )
        for what, read, needs, least in rows:
            if read != needs:
                text = f"The {name} is said to have {read} {what}; counted are {needs}. Correct the count."
                yield Violation("count", (name,), None, str(read), str(needs), text)
            if needs < least:
                text = f"The {name} has {needs} {what}, below the stated bound of {least}; the bound is wrong."
                yield Violation("bound", (name,), None, str(needs), str(least), text)
    for key, book in by_name.items():
        if told[key] != 1:
            text = f"Counts of the {book.lie.name} are given {told[key]} times; give them once."
            yield Violation("count", (book.lie.name,), None, f"{told[key]} times", "once", text)
