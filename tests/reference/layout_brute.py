"""Every plan of a tiny roof, one after the other: the best of them is the best there is.

Nothing is clever here.  All course lines of all plies, all splits of all runs, all ways to share the lengths out among
rolls are gone through; plans that break a rule are left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise, product

from layout_ask import (
    Band,
    Edges,
    PlyAsk,
    RoofAsk,
    bands,
    courses_broken,
    is_offset,
    own_levels,
    run_of,
    too_near,
)

Split = tuple[tuple[int, int], ...]  # from and to of each piece


@cache
def best(roof: RoofAsk, aim: str) -> int | None:
    """The least that any plan of a roof has, of what the aim counts; None where no plan keeps the rules."""
    found: int | None = None
    known: dict[tuple[object, ...], int | None] = {}
    ways = [list(course_edges(roof, ply)) for ply in roof.plies]
    for stack in product(*ways):
        pairs = list(zip(roof.plies, stack, strict=True))
        if not all(is_offset(roof.rules, one, two) for one, two in pairwise(pairs)):
            continue
        runs = tuple(
            tuple(run_of(bands(roof, ply), *own_levels(edges, k)) for k in range(len(edges))) for ply, edges in pairs
        )
        meets = tuple(overlaps(one, two) for one, two in pairwise(stack))
        key = (runs, meets)
        if key not in known:
            known[key] = best_pieces(roof, aim, runs, meets)
        pieces = known[key]
        if pieces is None:
            continue
        rips = sum(len({high - low for low, high in edges} - {ply.width}) for ply, edges in pairs)
        total = pieces + (rips * roof.costs.rip if aim == "least_cost" else 0)
        found = total if found is None else min(found, total)
    return found


def course_edges(roof: RoofAsk, ply: PlyAsk) -> Iterator[tuple[tuple[int, int], ...]]:
    """All low and high edges of courses that one ply may have by itself."""
    ground: Sequence[Band] = bands(roof, ply)
    begins, ends = ground[0].low, ground[-1].high
    is_cap = ply is roof.plies[-1]
    is_wide = roof.rules.wide_laps and not is_cap
    fewest = max(1, -(-(ends - begins - ply.side_lap) // (ply.width - ply.side_lap)))
    for lows in rising(begins, ends, roof.rules.grid, fewest + 1):
        tops = [
            sorted({low + ply.width, after + ply.side_lap} if is_wide else {after + ply.side_lap})
            for low, after in pairwise(lows)
        ]
        for highs in product(*tops):
            edges = tuple(zip(lows, (*highs, ends), strict=True))
            deep = any(own_levels(edges, k)[0] >= own_levels(edges, k)[1] for k in range(len(edges)))
            if not deep and not courses_broken(roof, ply, edges, is_cap=is_cap):
                yield edges


def rising(begins: int, ends: int, grid: int, most: int) -> Iterator[tuple[int, ...]]:
    """All rising lines on the grid, the first one at the beginning, up to `most` of them."""
    places = range(begins + grid, ends, grid)
    for count in range(most):
        yield from ((begins, *rest) for rest in chosen(places, count))


def chosen(places: Sequence[int], count: int) -> Iterator[tuple[int, ...]]:
    """All choices of `count` places, rising."""
    if count == 0:
        yield ()
        return
    for i, place in enumerate(places):
        yield from ((place, *rest) for rest in chosen(places[i + 1 :], count - 1))


def overlaps(ones: Edges, others: Edges) -> tuple[tuple[bool, ...], ...]:
    """Which courses of two plies lie on one another."""
    return tuple(tuple(a < d and c < b for c, d in others) for a, b in ones)


def splits(left: int, right: int, ply: PlyAsk, roof: RoofAsk) -> Iterator[Split]:
    """All ways to lay a run: pieces of whole steps from the left, the last one to the end."""
    rules = roof.rules
    whole_steps = ply.length // rules.step * rules.step  # no more can be cut from a roll
    longest = min(rules.longest, whole_steps)
    shortest = rules.shortest if right - left >= rules.shortest else 0
    if shortest <= right - left <= longest:
        yield ((left, right),)
    yield from more_pieces([], left, right, (shortest, longest, rules.step, ply.end_lap))


def more_pieces(
    laid: list[tuple[int, int]], left: int, right: int, lengths: tuple[int, int, int, int]
) -> Iterator[Split]:
    """All ways to go on from pieces that are laid, with one that begins at `left` and does not end the run."""
    shortest, longest, step, lap = lengths
    for length in range(-(-shortest // step) * step, longest + 1, step):
        end = left + length
        if end >= right:
            break
        if laid and end <= laid[-1][1]:
            continue  # it would lie wholly on the piece before it
        here = [*laid, (left, end)]
        for start in range(left + step, end - lap + 1, step):
            if laid and laid[-1][1] + step > start:
                continue
            if shortest <= right - start <= longest:
                yield (*here, (start, right))
            yield from more_pieces(here, start, right, lengths)


Runs = tuple[tuple[tuple[int, int], ...], ...]
Meets = tuple[tuple[tuple[bool, ...], ...], ...]


def best_pieces(roof: RoofAsk, aim: str, runs: Runs, meets: Meets) -> int | None:
    """The least that the pieces have, whatever their joints, for given runs of all courses of all plies."""
    ways = [[list(splits(*run, ply, roof)) for run in of_ply] for ply, of_ply in zip(roof.plies, runs, strict=True)]
    order = [(p, k) for p, of_ply in enumerate(runs) for k in range(len(of_ply))]
    worths = [worth(roof, aim, runs, laid) for laid in laid_plans(roof, order, ways, meets, {})]
    return min(worths, default=None)


Laid = dict[tuple[int, int], Split]


def laid_plans(
    roof: RoofAsk, order: Sequence[tuple[int, int]], ways: Sequence[Sequence[Sequence[Split]]], meets: Meets, laid: Laid
) -> Iterator[Laid]:
    """All choices of splits, course by course, whose end laps keep their distances."""
    if len(laid) == len(order):
        yield laid
        return
    p, k = order[len(laid)]
    for split in ways[p][k]:
        joints = [left for left, _ in split[1:]]
        if k and too_near(joints, joints_of(laid[(p, k - 1)]), roof.rules.stagger):
            continue
        under = [laid[(p - 1, i)] for i, row in enumerate(meets[p - 1]) if row[k]] if p else []
        if any(too_near(joints, joints_of(other), roof.rules.ply_stagger) for other in under):
            continue
        yield from laid_plans(roof, order, ways, meets, {**laid, (p, k): split})


def joints_of(split: Split) -> list[int]:
    """Where later pieces begin."""
    return [left for left, _ in split[1:]]


def worth(roof: RoofAsk, aim: str, runs: Runs, laid: Laid) -> int:
    """What the pieces of a plan have of what the aim counts."""
    laps = sum(len(split) - 1 for split in laid.values())
    if aim == "fewest_laps":
        return laps
    step, costs = roof.rules.step, roof.costs
    total = 0
    for sheet in dict.fromkeys(ply.sheet for ply in roof.plies):
        plies = [p for p, ply in enumerate(roof.plies) if ply.sheet == sheet]
        cuts = [-(-(b - a) // step) * step for (p, _), split in laid.items() if p in plies for a, b in split]
        rolls = fewest_rolls(tuple(sorted(cuts, reverse=True)), roof.plies[plies[0]].length)
        total += rolls * (roof.plies[plies[0]].price if aim == "least_cost" else 1)
    if aim == "fewest_rolls":
        return total
    for p, ply in enumerate(roof.plies):
        cuts = [-(-(b - a) // step) * step for (q, _), split in laid.items() if q == p for a, b in split]
        shorter = [cut for cut in cuts if cut < ply.length]
        total += len(shorter) * costs.cut + len(set(shorter)) * costs.length
        for (q, k), split in laid.items():
            near = [runs[p][i] for i in (k - 1, k + 1) if q == p and 0 <= i < len(runs[p])]
            total += sum(costs.tjoint for joint in joints_of(split) for left, right in near if left <= joint < right)
    return total + laps * costs.end_lap


@cache
def fewest_rolls(cuts: tuple[int, ...], length: int) -> int:
    """The fewest rolls that lengths can be cut from, longest first: every way to fill the first roll is tried."""
    if not cuts:
        return 0
    return 1 + min(fewest_rolls(left, length) for left in left_over(cuts[1:], length - cuts[0]))


def left_over(cuts: tuple[int, ...], room: int) -> set[tuple[int, ...]]:
    """What may be left of lengths when some of them fill the room of a roll, in every way."""
    if not cuts:
        return {()}
    found = {(cuts[0], *rest) for rest in left_over(cuts[1:], room)}
    if cuts[0] <= room:
        found |= left_over(cuts[1:], room - cuts[0])
    return found
