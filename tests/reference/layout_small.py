"""Tiny roofs by a seed, small enough to try every plan."""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache

from layout_ask import CostsAsk, PlyAsk, RoofAsk, RulesAsk, Slab, bands
from layout_brute import best, splits

MOST_CHOICES = 3_000  # splits of all courses multiplied
MOST_LAPS = 8  # with more, few rolls are quickly found but slowly proven
PLIES = (1, 2, 1, 2, 3)


@cache
def small_roof(seed: int) -> RoofAsk:
    """The roof of a seed: one to three plies, a rectangle or an L, of up to four courses.

    The first one drawn that is small enough and, but for every tenth seed, can be laid at all.
    """
    chance = random.Random(seed)
    while True:
        found = any_roof(chance, plies=PLIES[seed % 5], is_ell=seed % 3 == 0)
        if choices(found) <= MOST_CHOICES:
            laps = best(found, "fewest_laps")
            if seed % 10 == 9 if laps is None else laps <= MOST_LAPS:
                return found


def choices(roof: RoofAsk) -> int:
    """How many ways there are to split the widest run in each course, were none to look at another."""
    count = 1
    for ply in roof.plies:
        ground = bands(roof, ply)
        courses = -(-(ground[-1].high - ground[0].low - ply.side_lap) // (ply.width - ply.side_lap))
        left, right = min(band.left for band in ground), max(band.right for band in ground)
        ways = sum(1 for _ in splits(left, right, ply, roof))
        count *= ways ** max(1, courses)
    return count


def any_roof(chance: random.Random, *, plies: int, is_ell: bool) -> RoofAsk:
    """A roof drawn at random."""
    pick = chance.randint
    width = pick(4, 5)
    under, cap = small_ply(chance, "base", width, reach=1), small_ply(chance, "cap", width, reach=0)
    stack = (replace(under, low=0, high=0, left=0, right=0), replace(under, name="interply"), cap)[3 - plies :]
    across, up = pick(7, 14), pick(3, 11)
    slabs = (Slab(0, across, up),)
    if is_ell:
        left, right = ((0, pick(3, 13)), (pick(1, 3), across))[pick(0, 1)]
        slabs = (Slab(0, across, pick(2, 6)), Slab(left, max(right, left + 2), pick(2, 4)))
    rules = RulesAsk(
        ply_offset=pick(1, 2) if width == 5 else 1,
        ply_offset_at_rip=1,
        stagger=pick(1, 2),
        ply_stagger=pick(1, 2),
        shortest=pick(2, 3),
        longest=pick(5, 9),
        narrowest=pick(1, 2),
        step=pick(1, 2),
        grid=1,
        wide_laps=pick(0, 1) == 1,
    )
    costs = CostsAsk(end_lap=pick(1, 9), tjoint=pick(0, 4), cut=pick(0, 3), length=pick(0, 6), rip=pick(0, 9))
    return RoofAsk(slabs, stack, rules, costs)


def small_ply(chance: random.Random, name: str, width: int, *, reach: int) -> PlyAsk:
    """A ply of narrow sheets from short rolls."""
    pick = chance.randint
    past = [pick(0, reach) for _ in range(4)]
    return PlyAsk(name, f"{name}-sheet", width, pick(6, 10), 1, 1, pick(10, 60), *past)
