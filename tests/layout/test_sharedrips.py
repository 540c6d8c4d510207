"""Course lines whose courses share the width that they are ripped to."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from roofs import inches

from lapwright.layout.laplines import Band, Lines, Stack, lap_lines, least_offset
from lapwright.layout.sharedrips import other_counts, sharing, widths

STACK = Stack(inches(18), inches(12), inches(12), 127)
WIDE, LAP = inches(39.375), inches(3)


def full(ply: str, ends: float, starter: float) -> Lines:
    """Full courses over a starter [inches]."""
    band = Band(ply, WIDE, LAP, 0, inches(ends))
    return Lines(band, inches(starter), lap_lines(band, inches(starter)))


def test_the_course_below_the_top_takes_its_width() -> None:
    """99" up, where plies may come closer beside a ripped top: 36 3/8 + (x - 3) + x = 99 gives x = 32 13/16".

    The cap's lines are at 36 3/8 and 66 3/16.  A base of 17 1/4" has them at 14 1/4, 50 5/8 and 87, and 12" are left:
    22 1/8" from the cap's first, 20 13/16" from its second, and the middle one, next to the rip, 14 1/4" and 15 9/16".
    """
    base, cap = full("base", 99, 21.1875), full("cap", 99, 39.375)
    short = replace(base, lines=(*base.lines[:2], inches(87)))
    own = [replace(one, exceptions=("offset_at_rip",)) for one in (short, cap)]
    assert [widths(one) for one in own] == [3, 1]
    first = sharing(own, STACK)[0]
    assert [one.lines for one in first] == [
        (inches(14.25), inches(50.625), inches(87)),
        (inches(36.375), inches(66.1875)),
    ]
    assert [one.exceptions for one in first] == [("offset_at_rip",)] * 2
    assert sharing([short, cap], STACK) == []


def test_the_first_course_takes_the_width_of_the_top_one() -> None:
    """138" up, plies closer beside a ripped top: cap of 36 3/8, 72 3/4 and (x - 3) + x = 65 1/4, so x = 34 1/8.

    A base of (s - 3) + 72 3/4 + (y - 3) + s = 138 with s = 21 3/16 has y = 28 7/8: two widths and one of the cap's.
    """
    base, cap = full("base", 138, 21.1875), full("cap", 138, 39.375)
    narrow = replace(base, lines=(*base.lines[:3], inches(126)))
    assert (widths(narrow), widths(cap)) == (3, 1)
    own = [replace(one, exceptions=("offset_at_rip",)) for one in (narrow, cap)]
    for base, cap in sharing(own, STACK):
        assert widths(base) + widths(cap) == 3
        assert base.courses()[0].high - base.courses()[0].low == base.top_exposed < WIDE


def test_a_course_less_of_the_cap_for_one_more_of_the_base() -> None:
    """61" up: 36 3/8 and 24 5/8 of the cap, in place of three courses; 27 3/16, 27 3/16 and 12 5/8 of the base.

    The base's lines lie at 24 3/16 and 48 3/8, 12 3/16" and 12" from the cap's, which is next to the rip.
    """
    band = Band("cap", WIDE, LAP, 0, inches(61))
    base = Lines(replace(band, ply="base"), inches(24.625), (inches(21.625),), ("offset_at_rip",))
    cap = Lines(band, WIDE, (inches(36.375), inches(48.6875)), ("offset_at_rip",))
    found = other_counts([base, cap], STACK)
    assert {tuple(len(one.lines) + 1 for one in lines) for lines in found} == {(3, 2)}
    assert any(
        all(inches(12) <= abs(line - inches(36.375)) <= inches(12.375) for line in lines[0].lines) for lines in found
    )
    assert other_counts([replace(one, exceptions=()) for one in (base, cap)], STACK) == []


@pytest.mark.parametrize("ends", [80, 99, 107.5, 120, 131.25, 160])
def test_what_is_told_keeps_every_rule_and_has_fewer_widths(ends: float) -> None:
    """Offsets of 18", shown widths of 12" and more, sheets that reach; the cap's first course is full."""
    own = [full("base", ends, 21.1875), full("cap", ends, 39.375)]
    for lines in sharing(own, STACK):
        assert sum(map(widths, lines)) < sum(map(widths, own))
        gap = least_offset(lines[0].lines, lines[1].lines)
        assert gap is None or gap >= STACK.offset
        for one in lines:
            shown = [course.high - course.low - LAP for course in one.courses()[:-1]]
            assert all(STACK.rip <= each <= WIDE - LAP for each in shown)
            assert STACK.rip <= one.top_exposed <= WIDE
            assert all((each + LAP) % STACK.grid == 0 for each in shown)
        assert lines[1].courses()[0].high == WIDE


def test_the_fewest_widths_of_all_ways_on_a_coarse_tape() -> None:
    """One ply of 10-wide sheets that lap 2, ripped to whole units: as few widths as trying every way finds."""
    stack = Stack(1, 1, 2, 1)
    for ends in range(27, 43):
        band = Band("base", 10, 2, 0, ends)
        worst = Lines(band, 9, (7, *range(14, ends - 9, 7), ends - 3))
        least = min(widths(Lines(band, 0, lines)) for lines in every_way(band, stack, ends))
        found = sharing([worst], stack)
        assert widths(worst) > least
        assert min(widths(lines[0]) for lines in found) == least


def every_way(band: Band, stack: Stack, ends: int) -> list[tuple[int, ...]]:
    """Lines that keep the widths, as many as the fewest courses take."""
    count = -(-(ends - band.lap) // band.pitch)
    tried = combinations(range(stack.rip, ends), count - 1)
    return [lines for lines in tried if all_wide(band, stack, lines, ends)]


def all_wide(band: Band, stack: Stack, lines: tuple[int, ...], ends: int) -> bool:
    """Every course shows enough and its sheet reaches."""
    shown = [high - low for low, high in zip((0, *lines), lines, strict=False)]
    return all(stack.rip <= each <= band.pitch for each in shown) and stack.rip <= ends - lines[-1] <= band.width
