"""The search for joints: courses of all plies of an area in the order of their height, many part layouts side by side.

*Part*: a stretch of a run between its ends or held laps, to be split into pieces.  *State*: a part layout: what it
has cost, the offcuts left, and the joints of the courses that later ones must keep clear of.  At each part every state
is continued in every way worth trying; the cheapest are kept, offcuts counted as worth nearly what they cost, so that
a layout that leaves a useful offcut is not thrown away for one that leaves none.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import accumulate
from operator import sub

from lapwright.layout.cost import Weights
from lapwright.layout.joints import Span, come_near
from lapwright.layout.pool import Stock, draw_ends, draw_middles
from lapwright.layout.splits import Split, single_splits, split_at, splits

Row = tuple[int, int]  # ply number, course index
# share of its price that an offcut is worth, longest first: each less than the one before, those after the last none
OFFCUT_SHARES = tuple(accumulate([0.08] * 12, sub, initial=0.98))
MOST_HINTS = 6  # offcuts whose lengths are tried as first or last piece
OFFCUT_LOSS = 0.01  # share of a roll that is taken off each offcut, so that few long ones are worth more


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch to be split [ticks].

    row: its ply and course.  tiers: open spans barred to joints, strictest list first; the last one must hold.
    near: rows laid before whose joints it keeps clear of, with the distance.  drop: rows that nothing later looks at.
    wanted: joints to have if they are allowed; kept: number of joints to have if it can be had.
    offered: joints that are worth trying beside the others.
    """

    row: Row
    left: int
    right: int
    tiers: tuple[tuple[Span, ...], ...] = ((),)
    near: tuple[tuple[Row, int], ...] = ()
    drop: tuple[Row, ...] = ()
    wanted: tuple[int, ...] | None = None
    kept: int | None = None
    offered: tuple[int, ...] | None = None


@dataclass(slots=True)
class State:
    """A part layout; parent and split tell how it came about.

    paid: what it has cost; rank: that less what its offcuts are worth; opened: rolls by sheet; rows: joints by row;
    lengths: different (ply, length); firsts: the last rows with their ends and joints.
    """

    paid: float
    rank: float
    pools: tuple[tuple[int, ...], ...]
    opened: tuple[int, ...]
    rows: Mapping[Row, tuple[int, ...]]
    lengths: frozenset[tuple[int, int]]
    firsts: tuple[tuple[Row, tuple[int, ...]], ...] = ()
    parent: State | None = None
    split: Split | None = None


@dataclass(frozen=True, slots=True)
class Task:
    """What is searched: parts in order, stocks by ply, weights, prices of a roll by sheet number.

    width: states kept; repeat: 0, or the number of courses after which joints come again where they can.
    pools: offcuts to begin with, by sheet.
    """

    parts: Sequence[Part]
    stocks: Sequence[Stock]
    weights: Weights
    prices: Sequence[float]
    width: int
    repeat: int = 0
    pools: tuple[tuple[int, ...], ...] = ()
    hints: Mapping[int, tuple[int, ...]] = field(default_factory=dict)


def search(task: Task) -> tuple[list[Split], State] | Part:
    """The splits of every part, in order, and the state at the end; or the part where no way was left.

    Source: beam search; method of our own, docs/method/layout.md
    Checked: tests/layout/test_search.py, tests/reference
    """
    states = [State(0.0, 0.0, task.pools, tuple(0 for _ in task.pools), {}, frozenset())]
    for part in task.parts:
        followed = follow(task, part, states)
        if not followed:
            return part
        states = followed
    best = states[0]
    found: list[Split] = []
    state: State | None = best
    while state is not None and state.split is not None:
        found.append(state.split)
        state = state.parent
    return found[::-1], best


@dataclass(slots=True)
class Step:
    """A way to go on from a state, before it is known to be among the cheapest."""

    rank: float
    paid: float
    state: State
    split: Split
    opened: int
    pool: tuple[int, ...]
    new: frozenset[tuple[int, int]]


def follow(task: Task, part: Part, states: Sequence[State]) -> list[State]:
    """The states after a part, cheapest first; empty where none is left."""
    for bars in part.tiers:
        found = [step for state in states for step in ways(task, part, state, bars)]
        if found:
            return cheapest(task, part, found)
    return []


def cheapest(task: Task, part: Part, found: list[Step]) -> list[State]:
    """The states after the cheapest steps, of those with the same offcuts and joints only one."""
    found.sort(key=lambda step: (step.rank, step.paid))
    kept: list[State] = []
    seen: set[object] = set()
    for step in found:
        key = (step.pool, step.split.joints, step.state.pools, tuple(step.state.rows.values()))
        if key not in seen:
            seen.add(key)
            kept.append(after(task, part, step))
            if len(kept) == task.width:
                break
    return kept


def ways(task: Task, part: Part, state: State, static: Sequence[Span]) -> list[Step]:
    """Every way worth trying to go on from a state."""
    stock = task.stocks[part.row[0]]
    near = [(state.rows[row], apart) for row, apart in part.near if state.rows.get(row)]
    chosen = part.wanted if part.wanted is not None and is_allowed(part.wanted, static, near) else None
    if chosen is None and task.repeat:
        chosen = repeated(task, part, state, static, near)
    if chosen is not None:
        return steps(task, stock, state, [as_split(part.left, part.right, chosen, stock)])
    bars = [*static, *[(joint - apart, joint + apart) for joints, apart in near for joint in joints]]
    hints = (*state.pools[stock.sheet][-MOST_HINTS:], *task.hints.get(part.row[0], ()), *last_firsts(state, part))
    found = list(splits(part.left, part.right, stock, bars, hints))
    if part.offered is not None and is_allowed(part.offered, static, near):
        found.append(as_split(part.left, part.right, part.offered, stock))
    if part.kept is not None:
        found = [split for split in found if len(split.joints) == part.kept] or found
    if not found:
        found = list(single_splits(part.left, part.right, stock, bars))
    return steps(task, stock, state, found)


def is_allowed(joints: Sequence[int], static: Sequence[Span], near: Sequence[tuple[Sequence[int], int]]) -> bool:
    """No joint lies within a barred span, or too near to a joint of a row near by.

    static: merged, rising.  near: joints of each row, rising within a run, with the distance to keep.
    """
    for joint in joints:
        k = bisect_left(static, (joint,))
        if k and static[k - 1][1] > joint:
            return False
    return not any(come_near(joints, row, apart) for row, apart in near)


def as_split(left: int, right: int, joints: Sequence[int], stock: Stock) -> Split:
    """The split with given joints, its middles counted where they are alike."""
    made = split_at(left, right, joints, stock)
    inner = set(made.ends[1:-1])
    if len(inner) == 1:
        return Split(made.joints, (made.ends[0], made.ends[-1]), inner.pop(), len(made.ends) - 2)
    return made


def repeated(
    task: Task, part: Part, state: State, static: Sequence[Span], near: Sequence[tuple[Sequence[int], int]]
) -> tuple[int, ...] | None:
    """The joints of the course `repeat` below, where that one has the same ends and they are allowed here."""
    wanted = ((part.row[0], part.row[1] - task.repeat), part.left, part.right)
    for row, joints in state.firsts:
        if (row, *joints[:2]) == wanted and is_allowed(joints[2:], static, near):
            return joints[2:]
    return None


def last_firsts(state: State, part: Part) -> list[int]:
    """Lengths of first pieces in the courses below in the same ply, where they begin at the same place."""
    return [
        joints[2] - joints[0]
        for row, joints in state.firsts
        if row[0] == part.row[0] and joints[0] == part.left and len(joints) > 2
    ]


def steps(task: Task, stock: Stock, state: State, found: Sequence[Split]) -> list[Step]:
    """What each split costs from a state."""
    price, weights, before = task.prices[stock.sheet], task.weights, state.pools[stock.sheet]
    base = state.rank - state.paid + pool_worth(before, stock.roll, price)
    middles: dict[tuple[int, int], tuple[int, Sequence[int]]] = {}  # most splits have the same ones
    result = []
    for split in found:
        inner = (split.unit, split.middles)
        if inner not in middles:
            middles[inner] = draw_middles(before, stock, *inner)
        rolls, left = middles[inner]
        more, pool = draw_ends(left, stock, split.ends)
        opened = rolls + more
        new = frozenset(new_lengths(stock, split, state.lengths))
        paid = state.paid + opened * price + len(split.joints) * weights.end_lap
        paid += split.cuts(stock.roll) * weights.cut + len(new) * weights.length
        rank = paid + base - pool_worth(pool, stock.roll, price)
        result.append(Step(rank, paid, state, split, opened, pool, new))
    return result


def new_lengths(stock: Stock, split: Split, known: frozenset[tuple[int, int]]) -> list[tuple[int, int]]:
    """Lengths of a split, less than a roll, that its ply has not had before."""
    lengths = (*split.ends, split.unit) if split.middles else split.ends
    return [(stock.ply, length) for length in lengths if length < stock.roll and (stock.ply, length) not in known]


def after(task: Task, part: Part, step: Step) -> State:
    """The state once a part is split that way."""
    state, split, ply = step.state, step.split, part.row[0]
    sheet = task.stocks[ply].sheet
    pools = (*state.pools[:sheet], step.pool, *state.pools[sheet + 1 :])
    rolls = (*state.opened[:sheet], state.opened[sheet] + step.opened, *state.opened[sheet + 1 :])
    rows = {row: joints for row, joints in state.rows.items() if row not in part.drop}
    rows[part.row] = tuple(sorted((*rows.get(part.row, ()), *split.joints)))
    keep = [one for one in state.firsts if one[0][0] != ply or one[0][1] >= part.row[1] - 3]
    firsts = (*keep, (part.row, (part.left, part.right, *split.joints)))
    lengths = state.lengths | step.new if step.new else state.lengths
    return State(step.paid, step.rank, pools, rolls, rows, lengths, firsts, state, split)


def pool_worth(pool: Sequence[int], roll: int, price: float) -> float:
    """What offcuts are worth while the search goes on: nearly what they cost, each further one less than the last."""
    worth, loss = 0.0, OFFCUT_LOSS * roll
    for length, share in zip(reversed(pool), OFFCUT_SHARES, strict=False):
        if length <= loss:
            break  # nor are the shorter ones worth anything
        worth += (length - loss) * share
    return worth * price / roll
