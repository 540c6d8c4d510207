"""A small roof given plainly, a plan for it, what the plan counts and costs, and which rules it breaks.

Nothing here uses the room that lays out: the solver's model, the brute force and the comparison with our layout all
stand on this page.  Lengths are whole numbers of any unit; money is a whole number of any unit.
v runs up the fall, u across it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise


@dataclass(frozen=True)
class Slab:
    """A rectangle of the roof; slabs are stacked up the fall, so that an L has two."""

    left: int
    right: int
    height: int


@dataclass(frozen=True)
class PlyAsk:
    """A ply: its sheet, price of a roll, and how far it reaches past the roof's low, high, left and right sides."""

    name: str
    sheet: str
    width: int
    length: int
    side_lap: int
    end_lap: int
    price: int
    low: int = 0
    high: int = 0
    left: int = 0
    right: int = 0


@dataclass(frozen=True)
class RulesAsk:
    """The rules.

    wide_laps: a side lap under the cap may be wider than the sheet asks, so that a full sheet needs no ripping; on the
    cap it would lie on granules.
    """

    ply_offset: int
    ply_offset_at_rip: int
    stagger: int
    ply_stagger: int
    shortest: int
    longest: int
    narrowest: int
    step: int
    grid: int
    wide_laps: bool = True


@dataclass(frozen=True)
class CostsAsk:
    """Money for one end lap, T-joint, cut, length new in a ply, rip new in a ply."""

    end_lap: int
    tjoint: int
    cut: int
    length: int
    rip: int


@dataclass(frozen=True)
class RoofAsk:
    """Slabs from the low edge, and plies bottom first; the last is the cap."""

    slabs: tuple[Slab, ...]
    plies: tuple[PlyAsk, ...]
    rules: RulesAsk
    costs: CostsAsk


@dataclass(frozen=True)
class PieceGot:
    """A piece: from, to, the length cut for it, the number of its roll among those of its sheet."""

    left: int
    right: int
    cut: int
    roll: int


@dataclass(frozen=True)
class CourseGot:
    """A course: low and high edge of its sheets, and its pieces from the left."""

    low: int
    high: int
    pieces: tuple[PieceGot, ...]


Plan = tuple[tuple[CourseGot, ...], ...]


@dataclass(frozen=True)
class Tally:
    """What a plan counts: rolls by sheet, and everything that costs."""

    rolls: tuple[tuple[str, int], ...]
    end_laps: int
    tjoints: int
    cuts: int
    lengths: int
    rips: int

    @property
    def all_rolls(self) -> int:
        """Rolls of all sheets."""
        return sum(count for _, count in self.rolls)


@dataclass(frozen=True)
class Band:
    """A level band of a ply's ground."""

    low: int
    high: int
    left: int
    right: int


def bands(roof: RoofAsk, ply: PlyAsk) -> tuple[Band, ...]:
    """The ground of a ply: the slabs, moved outwards at each side by what the ply reaches past it."""
    levels = [0]
    for slab in roof.slabs:
        levels.append(levels[-1] + slab.height)
    begins, ends = -ply.low, levels[-1] + ply.high
    lefts, rights = [(begins, roof.slabs[0].left)], [(begins, roof.slabs[0].right)]
    for level, (under, over) in zip(levels[1:-1], pairwise(roof.slabs), strict=True):
        if under.left != over.left:
            lefts.append((level + (ply.high if under.left < over.left else -ply.low), over.left))
        if under.right != over.right:
            rights.append((level + (ply.high if under.right > over.right else -ply.low), over.right))
    stops = sorted({level for level, _ in (*lefts, *rights)} | {ends})
    return tuple(
        Band(low, high, at(lefts, low) - ply.left, at(rights, low) + ply.right) for low, high in pairwise(stops)
    )


def at(steps: Sequence[tuple[int, int]], level: int) -> int:
    """The value of a staircase at a level."""
    return next(value for start, value in reversed(steps) if start <= level)


def run_of(ground: Sequence[Band], low: int, high: int) -> tuple[int, int]:
    """How far the ground reaches to the left and right between two levels."""
    touched = [band for band in ground if band.low < high and low < band.high]
    return min(band.left for band in touched), max(band.right for band in touched)


def own_levels(courses: Sequence[tuple[int, int]], k: int) -> tuple[int, int]:
    """The levels that only course k lies on."""
    low = courses[k - 1][1] if k else courses[0][0]
    return low, courses[k + 1][0] if k + 1 < len(courses) else courses[k][1]


def tally(roof: RoofAsk, plan: Plan) -> Tally:
    """What a plan counts."""
    rolls: dict[str, set[int]] = {}
    laps = tjoints = cuts = lengths = rips = 0
    for ply, courses in zip(roof.plies, plan, strict=True):
        shorter = [piece.cut for course in courses for piece in course.pieces if piece.cut < ply.length]
        widths = {course.high - course.low for course in courses} - {ply.width}
        cuts, lengths, rips = cuts + len(shorter), lengths + len(set(shorter)), rips + len(widths)
        rolls.setdefault(ply.sheet, set()).update(piece.roll for course in courses for piece in course.pieces)
        for k, course in enumerate(courses):
            near = [courses[i] for i in (k - 1, k + 1) if 0 <= i < len(courses)]
            joints = [piece.left for piece in course.pieces[1:]]
            laps += len(joints)
            tjoints += sum(1 for joint in joints for other in near if is_over(other, joint))
    counts = tuple((sheet, len(found)) for sheet, found in rolls.items())
    return Tally(counts, laps, tjoints, cuts, lengths, rips)


def is_over(course: CourseGot, joint: int) -> bool:
    """A course's run takes in a place across the fall."""
    return course.pieces[0].left <= joint < course.pieces[-1].right


def rolls_cost(roof: RoofAsk, counts: Tally) -> int:
    """Money for the rolls."""
    prices = {ply.sheet: ply.price for ply in roof.plies}
    return sum(count * prices[sheet] for sheet, count in counts.rolls)


def cost(roof: RoofAsk, plan: Plan) -> int:
    """What a plan costs."""
    got, costs = tally(roof, plan), roof.costs
    laps = got.end_laps * costs.end_lap + got.tjoints * costs.tjoint
    return rolls_cost(roof, got) + laps + got.cuts * costs.cut + got.lengths * costs.length + got.rips * costs.rip


AIMS = {
    "least_cost": cost,
    "fewest_rolls": lambda roof, plan: tally(roof, plan).all_rolls,
    "fewest_laps": lambda roof, plan: tally(roof, plan).end_laps,
}


def broken(roof: RoofAsk, plan: Plan) -> list[str]:
    """Every rule that a plan breaks, in a few words each."""
    found: list[str] = []
    for p, ply in enumerate(roof.plies):
        edges = [(course.low, course.high) for course in plan[p]]
        found += courses_broken(roof, ply, edges, is_cap=ply is roof.plies[-1])
        for k, course in enumerate(plan[p]):
            if own_levels(edges, k)[0] >= own_levels(edges, k)[1]:
                found.append(f"{ply.name} {k + 1}: three sheets deep")
                continue
            found += pieces_broken(roof, ply, course, run_of(bands(roof, ply), *own_levels(edges, k)), k)
        for k, (one, two) in enumerate(pairwise(plan[p]), start=1):
            if too_near(joints_of(one), joints_of(two), roof.rules.stagger):
                found.append(f"{ply.name} {k}: end laps of adjacent courses")
    for p in range(len(plan) - 1):
        found += between_broken(roof, plan, p)
    return found + rolls_broken(roof, plan)


def joints_of(course: CourseGot) -> list[int]:
    """Where the later pieces of a course begin."""
    return [piece.left for piece in course.pieces[1:]]


def too_near(ones: Sequence[int], others: Sequence[int], least: int) -> bool:
    """Two places less than `least` apart."""
    return any(abs(one - other) < least for one in ones for other in others)


def courses_broken(roof: RoofAsk, ply: PlyAsk, edges: Sequence[tuple[int, int]], *, is_cap: bool) -> list[str]:
    """Rules about the widths of one ply's courses."""
    ground, rules = bands(roof, ply), roof.rules
    begins, ends, count = ground[0].low, ground[-1].high, len(edges)
    found = []
    if edges[0][0] != begins or edges[-1][1] != ends:
        found.append(f"{ply.name}: does not reach from edge to edge")
    if is_cap and edges[0][1] - edges[0][0] != min(ply.width, ends - begins):
        found.append(f"{ply.name}: first course is not full")
    for k, (low, high) in enumerate(edges):
        shown = (edges[k + 1][0] if k + 1 < count else high) - low
        excused = k == count - 1 and (count == 1 or (count == 2 and is_cap))
        if high - low > ply.width or high > ends:
            found.append(f"{ply.name} {k + 1}: too wide")
        if shown < rules.narrowest and not excused:
            found.append(f"{ply.name} {k + 1}: shows too little")
        if k + 1 < count and high - edges[k + 1][0] < ply.side_lap:
            found.append(f"{ply.name} {k + 1}: side lap")
        is_wide = k + 1 < count and high - edges[k + 1][0] > ply.side_lap
        if is_wide and (is_cap or not rules.wide_laps):
            found.append(f"{ply.name} {k + 1}: side lap wider than asked")
    return found


def pieces_broken(roof: RoofAsk, ply: PlyAsk, course: CourseGot, run: tuple[int, int], k: int) -> list[str]:
    """Rules about the pieces of one course."""
    rules, pieces, name = roof.rules, course.pieces, f"{ply.name} {k + 1}"
    found = []
    if (pieces[0].left, pieces[-1].right) != run:
        found.append(f"{name}: run {pieces[0].left}..{pieces[-1].right} instead of {run[0]}..{run[1]}")
    for piece in pieces:
        length = piece.right - piece.left
        if length > min(rules.longest, ply.length):
            found.append(f"{name}: too long a piece")
        if length < rules.shortest and run[1] - run[0] >= rules.shortest:
            found.append(f"{name}: too short a piece")
        if piece.cut != -(-length // rules.step) * rules.step:
            found.append(f"{name}: cut length")
    found += [f"{name}: end lap" for one, two in pairwise(pieces) if one.right - two.left < ply.end_lap]
    found += [
        f"{name}: order" for one, two in pairwise(pieces) if two.left < one.left + rules.step or two.right <= one.right
    ]
    found += [
        f"{name}: three pieces deep"
        for one, two in zip(pieces, pieces[2:], strict=False)
        if one.right + rules.step > two.left
    ]
    return found


def between_broken(roof: RoofAsk, plan: Plan, p: int) -> list[str]:
    """Rules between a ply and the one over it."""
    lower, upper = roof.plies[p], roof.plies[p + 1]
    edges = [[(course.low, course.high) for course in plan[q]] for q in (p, p + 1)]
    found = []
    if not is_offset(roof.rules, (lower, edges[0]), (upper, edges[1])):
        found.append(f"{lower.name}, {upper.name}: side laps")
    for one in plan[p]:
        for two in plan[p + 1]:
            meet = one.low < two.high and two.low < one.high
            if meet and too_near(joints_of(one), joints_of(two), roof.rules.ply_stagger):
                found.append(f"{lower.name}, {upper.name}: end laps at {two.low}")
    return found


Edges = Sequence[tuple[int, int]]


def is_offset(rules: RulesAsk, lower: tuple[PlyAsk, Edges], upper: tuple[PlyAsk, Edges]) -> bool:
    """Side laps of two plies keep their distance, the lesser one beside a ripped top course.

    Where two lines are as near to the rip as one another, neither is taken for the one beside it.
    """
    lines = [[low for low, _ in edges[1:]] for _, edges in (lower, upper)]
    rips = [rip_line(*lower), rip_line(*upper)]
    eased: list[set[int]] = [set(rips[0]), set(rips[1])]
    for mine, other in ((0, 1), (1, 0)):
        for rip in rips[other] if lines[mine] else []:
            apart = sorted(abs(line - rip) for line in lines[mine])
            eased[mine] |= {line for line in lines[mine] if abs(line - rip) == apart[0] and apart[:2] != apart[:1] * 2}
    return all(
        abs(one - two) >= (rules.ply_offset_at_rip if one in eased[0] or two in eased[1] else rules.ply_offset)
        for one in lines[0]
        for two in lines[1]
    )


def rip_line(ply: PlyAsk, edges: Edges) -> list[int]:
    """The low edge of a top course that stands on a ripped one which is not the first."""
    is_rip = len(edges) > 2 and edges[-2][1] - edges[-2][0] < ply.width
    return [edges[-1][0]] if is_rip else []


def rolls_broken(roof: RoofAsk, plan: Plan) -> list[str]:
    """Rolls from which more is cut than they are long."""
    taken: dict[tuple[str, int], int] = {}
    for ply, courses in zip(roof.plies, plan, strict=True):
        for course in courses:
            for piece in course.pieces:
                taken[(ply.sheet, piece.roll)] = taken.get((ply.sheet, piece.roll), 0) + piece.cut
    lengths = {ply.sheet: ply.length for ply in roof.plies}
    return [f"{sheet} {roll}: overdrawn" for (sheet, roll), used in taken.items() if used > lengths[sheet]]
