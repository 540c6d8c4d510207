"""The parts of an area that the search splits, in the order of their height, with what bars their joints.

A run without held laps is one part; held laps cut it into several.  Laid before: the course below, and courses of the
neighbouring plies that begin lower.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from lapwright.defaults.values import Rules
from lapwright.layout.bars import held_bars, hole_bars, loose_bars, torn_bars
from lapwright.layout.joints import Span, merged_open
from lapwright.layout.keepclear import corner_spans
from lapwright.layout.pieces import PlyGround, around, overlapping
from lapwright.layout.runs import Run
from lapwright.layout.search import Part, Row
from lapwright.layout.values import Course

Barring = dict[tuple[Row, int], list[Span]]  # row and distance to keep -> what it bars
Joints = Mapping[tuple[int, int, int], tuple[int, ...]]  # (ply number, course index, run) -> joints


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part belongs: ply number, course index, run of the course, stretch of the run."""

    ply: int
    course: int
    run: int
    stretch: int


@dataclass(frozen=True, slots=True)
class Bare:
    """The joints chosen for the bare ground, and its plies."""

    plies: Sequence[PlyGround]
    joints: Joints


def make_parts(grounds: Sequence[PlyGround], rules: Rules, bare: Bare | None) -> tuple[list[Part], list[Place]]:
    """The parts of an area, lowest course first, and where each belongs.

    Source: docs/method/layout.md, search
    Checked: tests/layout/test_search_parts.py
    """
    order = sorted(
        (course.low, ply, k) for ply, ground in enumerate(grounds) for k, course in enumerate(ground.courses)
    )
    turn = {(ply, grounds[ply].courses[k].index): at for at, (_, ply, k) in enumerate(order)}
    parts: list[Part] = []
    places: list[Place] = []
    barring: Barring = {}
    for at, (_, ply, k) in enumerate(order):
        course, runs = grounds[ply].courses[k], grounds[ply].runs[k]
        near, far = neighbours(grounds, ply, course, turn, rules)
        last = tuple(row for row, _ in near if last_use(grounds, row, turn) <= at)
        kept = grounds[ply].barred.get(course.index, ())
        above = later_bars(bare, far, barring) if bare is not None else []
        first = len(parts)
        for r, run in enumerate(runs):
            firm = [
                *kept,
                *held_bars(ply, course, grounds, rules.end_lap_stagger_ticks, rules.end_lap_ply_offset_ticks),
            ]
            tiers = tiers_of(run, grounds[ply].sheet.end_lap_ticks, firm, above)
            held = grounds[ply].held[(course.index, r)]
            for s, (left, right) in enumerate(stretches(run, held, grounds[ply].sheet.end_lap_ticks)):
                wanted, offered = from_bare(bare, Place(ply, course.index, r, s), run, (left, right), grounds)
                kept_count = None if wanted is None else len(wanted)
                parts.append(Part((ply, course.index), left, right, tiers, near, (), wanted, kept_count, offered))
                places.append(Place(ply, course.index, r, s))
        if len(parts) > first:
            parts[-1] = replace(parts[-1], drop=last)
    return parts, places


def neighbours(
    grounds: Sequence[PlyGround], ply: int, course: Course, turn: Mapping[Row, int], rules: Rules
) -> tuple[tuple[tuple[Row, int], ...], list[tuple[Row, int]]]:
    """Rows that a course keeps clear of, with the distance: those laid before it, and those laid later."""
    beside = [(ply, course.index + step) for step in (-1, 1) if (ply, course.index + step) in turn]
    near: list[tuple[Row, int]] = [(row, rules.end_lap_stagger_ticks) for row in beside]
    for other in (ply - 1, ply + 1):
        if 0 <= other < len(grounds):
            rows = overlapping(course, grounds[other].courses)
            near += [((other, index), rules.end_lap_ply_offset_ticks) for index in rows]
    at = turn[(ply, course.index)]
    return tuple(one for one in near if turn[one[0]] < at), [one for one in near if turn[one[0]] > at]


def last_use(grounds: Sequence[PlyGround], row: Row, turn: Mapping[Row, int]) -> int:
    """The turn of the last row that looks at this one."""
    ply, index = row
    course = grounds[ply].courses[index - 1]
    found = [turn[row], turn.get((ply, index + 1), 0)]
    for other in (ply - 1, ply + 1):
        if 0 <= other < len(grounds):
            found += [turn[(other, k)] for k in overlapping(course, grounds[other].courses)]
    return max(found)


def later_bars(bare: Bare, far: Sequence[tuple[Row, int]], known: Barring) -> list[Span]:
    """What the joints of the bare ground bar in the courses that are laid later.

    known: what single rows bar, filled on the way, since several courses look at each.
    """
    found: list[Span] = []
    for one in far:
        if one not in known:
            (ply, course), apart = one
            runs = range(len(bare.plies[ply].runs[course - 1]))
            known[one] = [span for r in runs for span in around(bare.joints.get((ply, course, r), ()), apart)]
        found += known[one]
    return found


def tiers_of(run: Run, end_lap: int, firm: Sequence[Span], above: Sequence[Span]) -> tuple[tuple[Span, ...], ...]:
    """Bars of a run, strictest first; what is only good to have is given up before what must hold."""
    loose = loose_bars(run, end_lap)
    torn = torn_bars(run, end_lap) if loose else ()
    must = (*firm, *hole_bars(run, end_lap), *torn)
    clear = corner_spans(run.corners, end_lap)
    tiers = [(*must, *loose, *clear, *above), (*must, *loose, *clear), (*must, *loose), must]
    return tuple(dict.fromkeys(tuple(merged_open(tier)) for tier in tiers))


def stretches(run: Run, held: Sequence[int], end_lap: int) -> list[tuple[int, int]]:
    """The stretches of a run between its ends and its held laps.  Source: arithmetic"""
    lefts = [run.left, *held]
    rights = [*[joint + end_lap for joint in held], run.right]
    return list(zip(lefts, rights, strict=True))


def from_bare(
    bare: Bare | None, place: Place, run: Run, span: tuple[int, int], grounds: Sequence[PlyGround]
) -> tuple[tuple[int, ...] | None, tuple[int, ...] | None]:
    """What the bare ground has at a part: joints to keep where the run is the same, else joints worth trying."""
    if bare is None:
        return None, None
    left, right = span
    for r, other in enumerate(bare.plies[place.ply].runs[place.course - 1]):
        joints = bare.joints.get((place.ply, place.course, r), ())
        if (other.left, other.right) == span:
            return joints, None
        if other.left <= run.left and run.right <= other.right:
            return None, fitting(joints, left, right, grounds[place.ply])
    return None, None


def fitting(joints: Sequence[int], left: int, right: int, ground: PlyGround) -> tuple[int, ...] | None:
    """The joints of the bare run that lie well within a part of it, where they make pieces of fit length."""
    least, lap = ground.shortest, ground.sheet.end_lap_ticks
    inner = tuple(joint for joint in joints if joint + lap - left >= least and right - joint >= least)
    lefts, rights = (left, *inner), (*(joint + lap for joint in inner), right)
    longest = max(b - a for a, b in zip(lefts, rights, strict=True))
    return inner if longest <= ground.longest else None
