"""Pieces of every course: held laps first, then joints that keep the rules, then the pieces between them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from lapwright.assembly.values import Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.courses import Conflict
from lapwright.layout.joints import Cutting, Span, rounded_up, split_run
from lapwright.layout.keepclear import CLEAR, INCH, corner_spans
from lapwright.layout.laps import Laid
from lapwright.layout.runs import Hole, Run, parts_of
from lapwright.layout.values import Course, Piece

MOST_MENDS = 6  # times that joints are moved away from where a piece would fall in two
SPECK = 800 * 800  # 1 cm²: a smaller part is trimmed off
SLIT = 2 * INCH  # an opening shorter than the end lap and this much is slit, like a pipe


@dataclass(frozen=True, slots=True)
class PlyGround:
    """One ply of an area, ready for its pieces: courses and their runs; held joints by (course, run).

    barred: by course, open spans that no free joint may lie in (keepclear.py).
    """

    ply: str
    sheet: Sheet
    courses: tuple[Course, ...]
    runs: tuple[tuple[Run, ...], ...]
    held: Mapping[tuple[int, int], tuple[int, ...]]
    barred: Mapping[int, tuple[Span, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Stretch:
    """One piece of a run before it has an id: from, to, and the length cut for it [ticks]."""

    course: int
    left: int
    right: int
    cut: int


def make_cutting(sheet: Sheet, rules: Rules) -> Cutting:
    """What pieces of a sheet may be.  A roll is shared out evenly where that leaves no stub.

    Source: the rules; common practice, no source (even shares)
    """
    longest = min(rules.longest_piece_ticks, sheet.length_ticks)
    shares = -(-sheet.length_ticks // longest)
    even = sheet.length_ticks // shares
    longest = even if even > longest * 19 // 20 else longest
    longest = longest // rules.cut_step_ticks * rules.cut_step_ticks
    return Cutting(rules.cut_step_ticks, sheet.end_lap_ticks, rules.shortest_piece_ticks, longest)


def held_joint(hole: Hole, end_lap: int, *, to_right: bool) -> int | None:
    """Where the lap that passes an opening begins; None where the opening is so small that it is slit.

    The lap lies between two neighbouring corners, the pair that is farthest apart; where none is far enough apart, in
    the middle of the opening.
    """
    if hole.right - hole.left - end_lap < SLIT:
        return None
    left, right = max(pairwise(hole.corners), key=lambda pair: (pair[1] - pair[0], -pair[0]))
    if right - left < end_lap:
        left, right = hole.left, hole.right
    clear = min(CLEAR, (right - left - end_lap) // 2)
    return right - end_lap - clear if to_right else left + clear


def hold_joints(runs: Sequence[Sequence[Run]], end_lap: int, *, upper: bool) -> dict[tuple[int, int], tuple[int, ...]]:
    """Held joints of a ply; they alternate from course to course, and the upper ply takes the other side."""
    held = {}
    for of_course in runs:
        for r, run in enumerate(of_course):
            to_right = (run.course % 2 == 0) != upper
            found = [held_joint(hole, end_lap, to_right=to_right) for hole in run.holes]
            held[(run.course, r)] = tuple(joint for joint in found if joint is not None)
    return held


def overlapping(course: Course, others: Sequence[Course]) -> list[int]:
    """Indices of the courses of another ply that lie over or under this one."""
    return [other.index for other in others if other.low < course.high and other.high > course.low]


def around(places: Sequence[int], distance: int) -> list[Span]:
    """Open spans that keep `distance` from each place."""
    return [(place - distance, place + distance) for place in places]


Joints = dict[int, list[int]]


def ply_joints(
    ground: PlyGround,
    under: tuple[PlyGround, Joints] | None,
    over: PlyGround | None,
    rules: Rules,
    pattern: tuple[bool, bool],
) -> dict[tuple[int, int], tuple[int, ...]] | None:
    """Joints of every run of a ply, by (course, run); None where a run finds no place for one.

    under: the ply below with its joints by course; over: the ply above (its held joints are kept clear of).
    pattern: for odd and even courses, whether the first piece of a run is the short one.
    Source: method of our own, docs/method/layout.md
    """
    cutting = make_cutting(ground.sheet, rules)
    by_course: Joints = {}
    found: dict[tuple[int, int], tuple[int, ...]] = {}
    for course, runs in zip(ground.courses, ground.runs, strict=True):
        forbidden = course_forbidden(ground, course, by_course.get(course.index - 1, []), rules)
        forbidden += ply_forbidden(course, under, over, rules)
        for r, run in enumerate(runs):
            joints = run_joints(run, ground.held[(course.index, r)], cutting, forbidden, pattern[course.index % 2])
            if joints is None:
                return None
            found[(course.index, r)] = joints
            by_course.setdefault(course.index, []).extend(joints)
    return found


def course_forbidden(ground: PlyGround, course: Course, below: Sequence[int], rules: Rules) -> list[Span]:
    """Where drains, valleys, joints of the course below and held ones of the course above forbid a joint."""
    above = [j for (c, _), joints in ground.held.items() if c == course.index + 1 for j in joints]
    return [*ground.barred.get(course.index, ()), *around([*below, *above], rules.end_lap_stagger_ticks)]


def ply_forbidden(
    course: Course, under: tuple[PlyGround, Joints] | None, over: PlyGround | None, rules: Rules
) -> list[Span]:
    """Where the joints of the plies under and over forbid a joint."""
    places: list[int] = []
    if under is not None:
        places += [j for c in overlapping(course, under[0].courses) for j in under[1].get(c, [])]
    if over is not None:
        near = set(overlapping(course, over.courses))
        places += [j for (c, _), joints in over.held.items() if c in near for j in joints]
    return around(places, rules.end_lap_ply_offset_ticks)


def run_joints(
    run: Run, held: Sequence[int], cutting: Cutting, forbidden: Sequence[Span], short_first: bool
) -> tuple[int, ...] | None:
    """Joints of one run: those that openings hold and the free ones between them.

    A free joint that would let a piece fall in two beside an opening or a bite of the outline is tried elsewhere.
    """
    barred = [*forbidden, *[(hole.left - cutting.end_lap, hole.right) for hole in run.holes]]
    for _ in range(MOST_MENDS):
        joints = free_joints(run, held, cutting, barred, short_first)
        if joints is None or run.is_plain:
            return joints
        loose = loose_parts(run, joints, cutting)
        if not loose:
            return joints
        barred += [(left - cutting.end_lap - 1, right + 1) for left, right in loose]
    return free_joints(run, held, cutting, forbidden, short_first)


def free_joints(
    run: Run, held: Sequence[int], cutting: Cutting, barred: Sequence[Span], short_first: bool
) -> tuple[int, ...] | None:
    """Joints of a run with the free ones outside `barred`, clear of corners where they can be."""
    lap = cutting.end_lap
    lefts = [run.left, *held]
    rights = [*[joint + lap for joint in held], run.right]
    clear = [*barred, *corner_spans(run.corners, lap)]
    joints: list[int] = []
    for i, (left, right) in enumerate(zip(lefts, rights, strict=True)):
        free = split_run(left, right, cutting, clear, short_first=short_first)
        if free is None:
            free = split_run(left, right, cutting, barred, short_first=short_first)
        if free is None:
            free = split_run(left, right, cutting, barred, short_first=not short_first)
        if free is None:
            return None
        joints += [*([held[i - 1]] if i else []), *free]
    return tuple(joints)


def loose_parts(run: Run, joints: Sequence[int], cutting: Cutting) -> list[Span]:
    """Where pieces of a run would not hang together: the extent of each smaller part."""
    from shapely import box

    low, high = run.shape.bounds[1], run.shape.bounds[3]
    found = []
    for stretch in run_stretches(run, joints, cutting):
        parts = [
            p for p in parts_of(run.shape.intersection(box(stretch.left, low, stretch.right, high))) if p.area > SPECK
        ]
        parts.sort(key=lambda part: part.area)
        found += [(round(part.bounds[0]), round(part.bounds[2])) for part in parts[:-1]]
    return found


def run_stretches(run: Run, joints: Sequence[int], cutting: Cutting) -> list[Stretch]:
    """The pieces of a run between its joints.  Source: arithmetic"""
    lefts = [run.left, *joints]
    rights = [*[joint + cutting.end_lap for joint in joints], run.right]
    return [
        Stretch(run.course, left, right, rounded_up(right - left, cutting.step))
        for left, right in zip(lefts, rights, strict=True)
    ]


PATTERNS = ((False, False), (False, True), (True, False), (True, True))


def best_joints(
    ground: PlyGround, under: tuple[PlyGround, Joints] | None, over: PlyGround | None, rules: Rules
) -> dict[tuple[int, int], tuple[int, ...]]:
    """The joints that need the fewest rolls, then the fewest end laps, among the patterns tried.

    Raises: Conflict where no pattern keeps the staggers.
    """
    from lapwright.layout.cutting import Cut, cut_rolls

    cutting = make_cutting(ground.sheet, rules)
    best: tuple[tuple[int, int], dict[tuple[int, int], tuple[int, ...]]] | None = None
    for pattern in PATTERNS:
        joints = ply_joints(ground, under, over, rules, pattern)
        if joints is None:
            continue
        pieces = [
            stretch
            for of_course in ground.runs
            for r, run in enumerate(of_course)
            for stretch in run_stretches(run, joints[(run.course, r)], cutting)
        ]
        cuts = [Cut(str(i), piece.cut, i) for i, piece in enumerate(pieces)]
        rolls, _ = cut_rolls("", ground.sheet.length_ticks, cuts)
        rank = (len(rolls), len(pieces))
        if best is None or rank < best[0]:
            best = (rank, joints)
    if best is None:
        why = "end laps of neighbouring courses and plies leave no place"
        raise Conflict("end_lap_stagger", (ground.ply, ground.ply), 0, why)
    return best[1]


def make_pieces(
    area: str, ground: PlyGround, joints: Mapping[tuple[int, int], tuple[int, ...]], rules: Rules
) -> list[Laid]:
    """The pieces of a ply, course by course from the low edge, each course from the left.

    Ids are made of area, ply, course and place in the course.
    """
    cutting = make_cutting(ground.sheet, rules)
    laid: list[Laid] = []
    for course, runs in zip(ground.courses, ground.runs, strict=True):
        place = 0
        for r, run in enumerate(runs):
            for stretch in run_stretches(run, joints[(course.index, r)], cutting):
                place += 1
                piece = Piece(
                    id=f"{area}/{ground.ply}/{course.index:02d}/{place}",
                    area=area,
                    ply=ground.ply,
                    course=course.index,
                    place=place,
                    u0=stretch.left,
                    u1=stretch.right,
                    v0=course.low,
                    v1=course.high,
                    cut_length=stretch.cut,
                    sheet=ground.sheet.name,
                )
                laid.append(Laid(piece, run))
    return laid
