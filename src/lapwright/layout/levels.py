"""Ground in level bands, and what a course over some of them takes: for the bounds that hold for all plies together.

*Band*: levels between which the ground is one stretch that does not change.  *Kind* of a course: the bands that only
it can cover.  *Tight*: with the fewest pieces, so that each joint can only lie within the play that they leave.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from lapwright.assembly.values import Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.joints import Span
from lapwright.layout.region import Region
from lapwright.layout.sections import edges_of, level_stretches

SLIVER = (
    96  # 1.2 mm: ground narrower than this up the fall is not counted: a gap that passes, and what lengths are read to
)
CLOSE = 16  # 1/5 mm: lengths nearer than this are equal
MOST_BANDS = 4  # beyond that the ground is looked at ply by ply only
Of = tuple[int, int, bool]  # a kind: lowest and highest band that a course has to itself; is it known to be all
MOST_MORE = 4  # pieces more than the fewest that a course is thought to have; each takes an end lap's length more


@dataclass(frozen=True, slots=True)
class Level:
    """A level band of a ply's ground [ticks]."""

    low: int
    high: int
    left: int
    right: int


@dataclass(frozen=True, slots=True)
class Kind:
    """A course that has to cover certain bands, whatever else it covers.

    laps: fewest end laps.  joints: where those of a tight course can lie, closed spans, rising; none where it has none
    or where which band it covers is open.  is_all: its run reaches no farther than that.
    """

    left: int
    right: int
    laps: int
    joints: tuple[Span, ...]
    is_all: bool


def make_levels(region: Region) -> tuple[Level, ...]:
    """The bands of a ply's ground; none where it is no stack of rectangles, each one stretch wide.

    Source: geometry
    Checked: tests/layout/test_levels.py
    """
    if region.openings or region.shape.geom_type != "Polygon":
        return ()
    edges = edges_of(region)
    slanted = (abs(edges[:, 0] - edges[:, 2]) > 1) & (abs(edges[:, 1] - edges[:, 3]) > 1)
    marks = sorted({round(v) for v in edges[:, [1, 3]].ravel().tolist()})
    marks = [mark for k, mark in enumerate(marks) if not k or mark - marks[k - 1] > 1]
    if bool(slanted.any()) or not 2 <= len(marks) <= MOST_BANDS + 1:
        return ()
    found = []
    for low, high in pairwise(marks):
        stretches = level_stretches(edges, (low + high) / 2, (low + high) / 2 + 0.25)
        if len(stretches) != 1:
            return ()
        found.append(Level(low, high, *stretches[0]))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class PlyTask:
    """A ply for the bounds: its bands, its sheet as it is cut [ticks], and whether it is the cap.

    is_plain: no run of any ply of this sheet can be shorter than the shortest piece.  is_granular: of the cap, that no
    side lap may be wider than asked.
    """

    sheet: str
    levels: tuple[Level, ...]
    width: int
    side_lap: int
    roll: int
    end_lap: int
    longest: int
    shortest: int
    is_cap: bool
    is_plain: bool
    is_granular: bool = True
    steps: tuple[int, ...] = field(init=False, compare=False)

    def __post_init__(self) -> None:
        """The levels at which one band ends and the next begins."""
        object.__setattr__(self, "steps", tuple(level.high for level in self.levels[:-1]))

    @property
    def begins(self) -> int:
        """Its low edge."""
        return self.levels[0].low

    @property
    def ends(self) -> int:
        """Its high edge."""
        return self.levels[-1].high


def make_ply_task(sheet: Sheet, levels: tuple[Level, ...], rules: Rules, *, is_cap: bool, is_plain: bool) -> PlyTask:
    """A ply as the bounds look at it.  Source: arithmetic"""
    longest = min(rules.longest_piece_ticks, sheet.length_ticks)
    sizes = (sheet.width_ticks, sheet.side_lap_ticks, sheet.length_ticks, sheet.end_lap_ticks)
    return PlyTask(sheet.name, levels, *sizes, longest, rules.shortest_piece_ticks, is_cap, is_plain, sheet.is_granular)


def are_long(levels: Sequence[Level], shortest: int) -> bool:
    """No run over these bands can be shorter than the shortest piece.  Source: arithmetic"""
    return bool(levels) and all(level.right - level.left >= shortest for level in levels)


def make_kind(ply: PlyTask, low: int, high: int, *, is_sure: bool) -> Kind:
    """A course that alone covers the bands `low` to `high`; where low is above high, any single one between.

    is_sure: it lies on no other band.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_levels.py
    """
    if low > high:
        shortest = min(ply.levels[high : low + 1], key=lambda level: level.right - level.left)
        length = shortest.right - shortest.left
        return Kind(shortest.left, shortest.right, fewest_laps(length, ply.longest, ply.end_lap), (), is_all=False)
    left = min(level.left for level in ply.levels[low : high + 1])
    right = max(level.right for level in ply.levels[low : high + 1])
    laps = fewest_laps(right - left, ply.longest, ply.end_lap)
    return Kind(left, right, laps, tight_joints((left, right), laps, ply.longest, ply.end_lap), is_sure)


def may_cover(ply: PlyTask, low: int, high: int) -> list[Span]:
    """What a course covers in any case, from and to: all bands from `low` to `high`; where low is above high, any one.

    Source: docs/method/layout.md, bounds
    """
    if low > high:
        return [(level.left, level.right) for level in ply.levels[high : low + 1]]
    own = ply.levels[low : high + 1]
    return [(min(level.left for level in own), max(level.right for level in own))]


def fewest_laps(length: int, longest: int, end_lap: int) -> int:
    """End laps that a stretch needs, whatever the joints: k pieces reach k·longest − (k − 1)·end_lap.

    Source: arithmetic
    """
    return max(0, -(-(length - longest) // (longest - end_lap)))


def tight_joints(run: Span, laps: int, longest: int, end_lap: int) -> tuple[Span, ...]:
    """Where each joint of a run with so many end laps can lie: what is left and right of it must still be reached.

    Source: docs/method/layout.md, bounds
    """
    reach, whole = longest - end_lap, laps + 1
    return tuple((run[1] - (whole - j) * reach - end_lap, run[0] + j * reach) for j in range(1, whole))


def can_meet(courses: Sequence[tuple[Sequence[Span], int]], apart: Sequence[Sequence[int]]) -> bool:
    """Courses that all lie on or beside one another can all be tight, as far as one joint of each can tell.

    courses: the spans of each one's joints, with its place in `apart`, the distances that joints of two keep.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_levels.py
    """
    first, at = courses[0]
    for span in first:
        near = [
            (span, at),
            *((min(spans, key=lambda one: distance(one, span)), k) for spans, k in courses[1:] if spans),
        ]
        if not have_room(near, apart):
            return False
    return True


def distance(one: Span, two: Span) -> int:
    """Between the middles of two spans, doubled.  Source: arithmetic"""
    return abs(one[0] + one[1] - two[0] - two[1])


def have_room(spans: Sequence[tuple[Span, int]], apart: Sequence[Sequence[int]]) -> bool:
    """A place in each span can be chosen so that all keep their distances, in one order or another.

    Source: arithmetic; each place as low as those before it let it be
    """
    from itertools import permutations

    for order in permutations(spans):
        placed: list[tuple[int, int]] = []
        for (low, high), k in order:
            at = max([low, *(before + apart[other][k] for before, other in placed)])
            if at > high:
                break
            placed.append((at, k))
        else:
            return True
    return False


def least_rolls(ply: PlyTask, length: int, pieces: int, aside: int = 0) -> float:
    """Rolls that a run split into so many pieces uses up at least; infinity where it can't be.

    A piece that leaves less of its roll than the shortest piece counts as the whole roll, any other as its length.
    aside: so much is left out of each piece's length, and of the roll's by the pieces that it gives.
    Source: docs/method/layout.md, bounds (a dual feasible function)
    Checked: tests/layout/test_levels.py
    """
    total = length + (pieces - 1) * ply.end_lap
    if pieces * ply.longest < total:
        return float("inf")
    middling = min(ply.longest, ply.roll - ply.shortest)
    if not ply.is_plain:
        return (total - pieces * aside) / most_of_roll(ply.roll, ply.longest, aside)
    if middling == ply.longest or middling < ply.shortest:
        return (max(total, pieces * ply.shortest) - pieces * aside) / most_of_roll(ply.roll, ply.longest, aside)
    found = []
    for whole in range(pieces + 1):
        rest = max((pieces - whole) * ply.shortest, total - whole * ply.longest)
        if rest <= (pieces - whole) * middling:
            found.append(whole + (rest - (pieces - whole) * aside) / most_of_roll(ply.roll, middling, aside))
    return min(found)


def most_of_roll(roll: int, longest: int, aside: int) -> int:
    """The most that pieces from one roll come to when so much is left out of each.

    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_levels.py
    """
    return max(min(n * longest, roll) - n * aside for n in range(1, -(-roll // longest) + 1))


def least_split(ply: PlyTask, length: int, pieces: int, prices: tuple[float, float]) -> float:
    """Money for rolls used up and for cuts that a run split into so many pieces takes at least; infinity: can't be.

    prices: of a roll and of a cut.  A piece as long as a roll is not cut; it is one of those that use a roll up whole.
    Ground narrower than that has none.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_levels.py
    """
    total = length + (pieces - 1) * ply.end_lap
    if pieces * ply.longest < total:
        return float("inf")
    across = max(level.right for level in ply.levels) - min(level.left for level in ply.levels)
    middling = min(ply.longest, ply.roll - ply.shortest)
    is_split = ply.is_plain and ply.shortest <= middling < ply.longest
    found = []
    for whole in range(pieces + 1):
        uncut = whole if ply.longest == ply.roll <= across else 0
        rest = max((pieces - whole) * ply.shortest, total - whole * ply.longest)
        used = whole + rest / ply.roll
        if not is_split:
            used = max(total / ply.roll, float(uncut))
        elif rest > (pieces - whole) * middling:
            continue
        found.append(prices[0] * used + prices[1] * (pieces - uncut))
    return min(found)


def segments(ply: PlyTask, low: int, high: int) -> Iterator[tuple[int, int]]:
    """Stretches of places for a line within which it stands alike to the bands."""
    marks = {low, high + 1}
    for step in ply.steps:
        for mark in (step + 1, step + SLIVER + 1, step - ply.width - SLIVER, step - ply.side_lap):
            if low < mark <= high:
                marks.add(mark)
    for a, b in pairwise(sorted(marks)):
        yield a, b - 1


def beyond(ply: PlyTask, line: int) -> int:
    """The lowest band that the sheet which begins on a line can't reach over.  Source: arithmetic"""
    return bisect_right(ply.steps, line + ply.width + SLIVER)


def own_band(ply: PlyTask, line: int) -> int:
    """The lowest band that the course which begins on a line may have to itself.  Source: arithmetic"""
    return bisect_right(ply.steps, line + ply.side_lap)


def over_band(ply: PlyTask, line: int) -> int:
    """The highest band that begins below a line.  Source: arithmetic"""
    return bisect_left(ply.steps, line - SLIVER)


def guesses(high: int, low: int, last: int, *, is_sure: bool = True) -> list[Of]:
    """What a course with a highest band may turn out to be; low, last: the lowest and highest of its lowest bands."""
    if low == last == high:
        return [(low, high, is_sure)]
    return [(k, high, False) for k in range(low, last + 1)]
