"""Lines that come closer beside a ripped top course: against every way there is on small stacks, and by hand."""

from __future__ import annotations

import importlib.util
import random
import sys
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from roofs import GRID, inches

from lapwright.layout.atrip import come_closer
from lapwright.layout.courses import Band, Conflict, Lines, Stack, plan_lines

_PATH = Path(__file__).parents[1] / "reference" / "course_lines.py"
_spec = importlib.util.spec_from_file_location("course_lines", _PATH)
assert _spec is not None and _spec.loader is not None
reference: Any = importlib.util.module_from_spec(_spec)
sys.modules["course_lines"] = reference  # dataclasses look their module up there
_spec.loader.exec_module(reference)

NAMES = {2: ("base", "cap"), 3: ("base", "interply", "cap")}
STACK = Stack(inches(18), inches(12), inches(12), GRID)
WIDTH, LAP = inches(39.375), inches(3)
CASES = [(seed, 2) for seed in range(80)] + [(seed, 3) for seed in range(24)]


def small_stack(seed: int, plies: int) -> tuple[list[Any], Stack]:
    """A few courses of sheets 8 to 11 steps wide, with a wide offset."""
    pick = random.Random(seed).randint
    width = pick(8, 11)
    widths = [width if pick(0, 2) else pick(8, 11) for _ in range(plies)]
    ends = pick(11, 24 if plies == 2 else 19)
    strips = [reference.Strip(widths[k], pick(1, 2), pick(-1, 1), ends, k == plies - 1) for k in range(plies)]
    offset = pick(3, 6)
    return strips, Stack(offset, pick(1, offset - 1), 3, 1)


def bands_of(strips: list[Any]) -> list[Band]:
    """The same plies for the layout."""
    return [
        Band(ply, strip.width, strip.lap, strip.begins, strip.ends)
        for ply, strip in zip(NAMES[len(strips)], strips, strict=True)
    ]


@cache
def expected(seed: int, plies: int) -> tuple[int, int, int, int] | None:
    """The best of all ways, counted one by one."""
    strips, stack = small_stack(seed, plies)
    best: tuple[int, int, int, int] | None = reference.closer(
        strips, stack.rip, stack.grid, stack.offset, stack.offset_at_rip
    )
    return best


@pytest.mark.parametrize(("seed", "plies"), CASES)
def test_what_comes_closer_is_the_best_of_every_way_tried(seed: int, plies: int) -> None:
    """Refused only where no way keeps the rules; else as few plies come closer, as few courses ripped, as far apart."""
    strips, stack = small_stack(seed, plies)
    best = expected(seed, plies)
    if best is None:
        with pytest.raises(Conflict):
            plan_lines(bands_of(strips), stack)
        return
    lines = plan_lines(bands_of(strips), stack)
    assert kept(lines, strips, stack)
    if best[0] == 0:  # no ply has to come closer
        assert [each for one in lines for each in one.exceptions if each != "narrow_top"] == []
        return
    found = come_closer(bands_of(strips), [()] * plies, stack)
    assert found.is_whole and found.lines is not None
    rips = sum(one.ripped for one in found.lines)
    assert (rips, sum(len(one.lines) for one in found.lines), -found.offset) == best[1:]
    assert kept(found.lines, strips, stack)


def test_the_small_stacks_are_of_every_kind() -> None:
    """Some keep the offset everywhere, some come closer at the top, some can't be laid."""
    found = [expected(*case) for case in CASES]
    kinds = ["none" if each is None else "closer" if each[0] else "full" for each in found]
    assert min(kinds.count(kind) for kind in ("none", "closer", "full")) >= 12


def kept(lines: tuple[Lines, ...], strips: list[Any], stack: Stack) -> bool:
    """Every width and every offset, measured by the reference with all ripped tops taken as such."""
    chains = [reference.Chain(one.lines, one.ripped) for one in lines]
    all_ways = [reference.chains(strip, stack.rip, stack.grid) for strip in strips]
    rips = [reference.is_ripped(chain, strip) for chain, strip in zip(chains, strips, strict=True)]
    near = [
        reference.least_at_rip((chains[p], chains[q]), [strips[p], strips[q]], (rips[p], rips[q]), stack.offset)
        for p, q in pairwise(range(len(chains)))
    ]
    is_laid = all(chain in ways for chain, ways in zip(chains, all_ways, strict=True))
    return is_laid and all(each is not None and each >= stack.offset_at_rip for each in near)


def two(depth: float) -> list[Band]:
    """Base and cap of the default sheet, both at the edge line [in]."""
    return [Band(ply, WIDTH, LAP, 0, inches(depth)) for ply in ("base", "cap")]


def test_two_ripped_courses_under_one_lap_of_the_cap() -> None:
    """58": a single base line lies at 18 5/8" at least, 17 3/4" from the cap's at 36 3/8"; a second one above that line
    leaves no 12" at the top.  So both lie below it: 12" to 12 3/8", and 24" to 24 3/8", 12" away (by hand).
    """
    base, cap = plan_lines(two(58), STACK)
    assert cap.lines == (inches(36.375),)
    assert len(base.lines) == 2
    assert inches(12) <= base.lines[0] <= inches(12.375)
    assert inches(24) <= base.lines[1] <= inches(24.375)


def test_three_plies_that_leave_no_room_are_refused() -> None:
    """40": the cap's line at 36 3/8", the interply's at 12" to 18 3/8", the base's at 12" to 28": 16" at most.

    11" at both ends leave 18" between them.  With a second line, 24" up, the interply lies 12" from it and from the
    cap's; then the base's finds no place (all by hand).
    """
    three = [Band(ply, WIDTH, LAP, 0, inches(40)) for ply in ("base", "interply", "cap")]
    with pytest.raises(Conflict) as told:
        plan_lines(three, STACK)
    assert (told.value.rule, told.value.greatest) == ("narrowest_rip", inches(11))
    assert dict(told.value.others)["ply_offset"] == inches(16)
    assert dict(told.value.others)["ply_offset_at_rip"] < inches(12)
