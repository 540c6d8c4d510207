"""Different widths of ripped courses at least, against all course lines of small stacks of plies, one after another."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise, product

import pytest
from layout_ask import Edges, PlyAsk, RulesAsk, is_offset

from lapwright.layout.laplines import Band
from lapwright.layout.leastrips import least_rips
from lapwright.layout.takes import Apart

UNIT = 100_000  # ticks to a unit, so that what is left out as a sliver is far less than one
Ways = dict[Edges, int]  # courses of a ply as they are told apart by other plies -> the fewest widths ripped there

MOST_PAIRS = 4_000  # courses of two plies beside one another
RULES = RulesAsk(
    ply_offset=2,
    ply_offset_at_rip=1,
    stagger=1,
    ply_stagger=1,
    shortest=1,
    longest=9,
    narrowest=2,
    step=1,
    grid=1,
)


@dataclass(frozen=True)
class Small:
    """A small stack: plies, bottom first, how high the ground of all is, whether the cap is lapped as asked."""

    plies: tuple[PlyAsk, ...]
    height: int
    rules: RulesAsk
    is_held: bool

    def ways(self) -> list[Ways]:
        """All courses of each ply."""
        last = len(self.plies) - 1
        return [
            ways(ply, self.height, self.rules, is_cap=p == last, is_held=self.is_held and p == last)
            for p, ply in enumerate(self.plies)
        ]


def drawn(seed: int) -> Small:
    """The stack of a seed: the first one drawn that is small enough."""
    chance = random.Random(seed)
    while True:
        found = any_stack(chance, plies=2 + seed % 2, is_held=seed % 5 > 0)
        if sum(len(low) * len(high) for low, high in pairwise(found.ways())) <= MOST_PAIRS:
            return found


def any_stack(chance: random.Random, *, plies: int, is_held: bool) -> Small:
    """A stack of plies three courses high at least."""
    pick = chance.randint
    width, lap = pick(5, 7), pick(1, 2)
    offset = pick(1, (width - lap) // 2)
    at_rip = pick(1, offset)
    rules = replace(RULES, ply_offset=offset, ply_offset_at_rip=at_rip, narrowest=pick(max(2, offset - at_rip), 3))
    under = PlyAsk("base", "base", width, 99, lap, 1, 1)
    cap = replace(under, name="cap", sheet="cap", width=width + pick(0, 1))
    stack = (under, replace(under, name="interply"), cap)[-plies:]
    return Small(stack, pick(2 * width + 2, 2 * width + 5), rules, is_held)


def lines(shown_most: int, narrowest: int, height: int, top: int) -> Iterator[tuple[int, ...]]:
    """What courses show from the low edge up, in all ways; the top one is no wider than `top`."""
    if narrowest <= height <= top:
        yield (height,)
    for shown in range(narrowest, min(shown_most, height - narrowest) + 1):
        yield from ((shown, *rest) for rest in lines(shown_most, narrowest, height - shown, top))


def ways(ply: PlyAsk, height: int, rules: RulesAsk, *, is_cap: bool, is_held: bool) -> Ways:
    """All courses of a ply, of any widths that reach: the fewest different ones.

    The one next to the top is told as ripped or not, the others as full: nothing else of them matters to other plies.
    """
    found: Ways = {}
    for shown in lines(ply.width - ply.side_lap, rules.narrowest, height, ply.width):
        if is_cap and shown[0] != ply.width - ply.side_lap:
            continue
        lows = [sum(shown[:k]) for k in range(len(shown))]
        for second, many in fewest(shown, ply.width, ply.side_lap, is_held).items():
            highs = [*(low + ply.width for low in lows[:-2]), lows[-2] + max(second, ply.width - 1), height]
            edges = tuple(zip(lows, highs, strict=True))
            found[edges] = min(many, found.get(edges, many))
    return found


@cache
def fewest(shown: tuple[int, ...], width: int, lap: int, is_held: bool) -> dict[int, int]:
    """The fewest widths ripped by what the course next to the top one is wide."""
    found: dict[int, int] = {}
    for widths in product(*([each + lap] if is_held else range(each + lap, width + 1) for each in shown[:-1])):
        many = len({*widths, shown[-1]} - {width})
        found[widths[-1]] = min(many, found.get(widths[-1], many))
    return found


def by_brute(small: Small) -> int | None:
    """The fewest widths of all plies together; None where no lines keep the rules."""
    first, *others = small.ways()
    reached = first
    for low, high, own in zip(small.plies, small.plies[1:], others, strict=False):
        after: Ways = {}
        for one, before in sorted(reached.items(), key=lambda each: each[1]):
            for two, many in own.items():
                if before + many < after.get(two, 99) and is_offset(small.rules, (low, one), (high, two)):
                    after[two] = before + many
        reached = after
    return min(reached.values(), default=None)


def ours(small: Small) -> int:
    """What is stated of them."""
    bands = tuple(Band(ply.name, UNIT * ply.width, UNIT * ply.side_lap, 0, UNIT * small.height) for ply in small.plies)
    offset, at_rip, narrowest = small.rules.ply_offset, small.rules.ply_offset_at_rip, small.rules.narrowest
    return least_rips(bands, Apart(UNIT * offset, UNIT * at_rip, UNIT * narrowest, ()), is_held=small.is_held)


@pytest.mark.parametrize("seed", range(60))
def test_no_lines_rip_fewer_widths_than_is_stated(seed: int) -> None:
    """Two and three plies of three courses and more, all widths and lines that keep the rules."""
    small = drawn(seed)
    least = by_brute(small)
    assert least is None or ours(small) <= least


def test_many_stacks_rip_as_few_widths_as_is_stated() -> None:
    """What is stated is more than nothing, and reached on most of them."""
    stated = [(by_brute(drawn(seed)), ours(drawn(seed))) for seed in range(60)]
    reached = [least for least, held in stated if least == held]
    assert len(reached) >= 30
    assert max(reached) >= 2
