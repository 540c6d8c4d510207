"""Lap lines as values: a ply's band, its lines, what they answer to, and a finding that they can't."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.layout.values import Course


@dataclass(frozen=True, slots=True)
class Stack:
    """What the course lines of an area answer to [ticks].

    grid: step that a rip is read to.  offset: least distance between lap lines of neighbouring plies;
    offset_at_rip: the same beside a ripped top course; rip: least exposed width of a ripped course.
    """

    offset: int
    offset_at_rip: int
    rip: int
    grid: int


@dataclass(frozen=True, slots=True)
class Band:
    """One ply of the stack: sheet width and side lap, where it begins and ends up the fall [ticks]."""

    ply: str
    width: int
    lap: int
    begins: int
    ends: int

    @property
    def pitch(self) -> int:
        """Exposed width of a full course."""
        return self.width - self.lap


@dataclass(frozen=True, slots=True)
class Lines:
    """The lap lines of one ply, rising; the starter's width; what had to give, in words.

    whole: indices of courses that are laid of whole sheets whatever they expose, so that the next one laps them wider.
    """

    band: Band
    starter: int
    lines: tuple[int, ...]
    exceptions: tuple[str, ...] = ()
    whole: frozenset[int] = frozenset()

    @property
    def top_exposed(self) -> int:
        """Exposed width of the last course."""
        below = self.lines[-1] if self.lines else self.band.begins
        return self.band.ends - below

    @property
    def ripped(self) -> int:
        """How many courses are narrower than the sheet, but for the starter and the top one."""
        return sum(1 for low, high in pairwise(self.lines) if high - low < self.band.pitch)

    def courses(self) -> tuple[Course, ...]:
        """The courses as laid: each from its low edge to the top of its sheet."""
        band = self.band
        lows = (band.begins, *self.lines)
        highs = [line + band.lap for line in self.lines]
        for i in self.whole:  # but for one that would reach under the next but one, or above the ply
            full = lows[i - 1] + band.width
            highs[i - 1] = full if full <= (*lows, band.ends)[i + 1] else highs[i - 1]
        return tuple(
            Course(i + 1, low, high) for i, (low, high) in enumerate(zip(lows, [*highs, band.ends], strict=True))
        )


class Conflict(Exception):  # noqa: N818  # a finding about the rules, told to the user
    """Rules that can't be met together: which one, for which plies, and the greatest value [ticks] that can be met.

    others: other rules to relax instead, each with the greatest value [ticks] that can be met.
    """

    def __init__(
        self, rule: str, plies: tuple[str, ...], greatest: int, why: str, others: tuple[tuple[str, int], ...] = ()
    ) -> None:
        self.rule, self.plies, self.greatest, self.why, self.others = rule, plies, greatest, why, others
        super().__init__(f"{rule} of {' and '.join(plies)}: at most {greatest} ticks; {why}")


def lap_lines(band: Band, starter: int) -> tuple[int, ...]:
    """Lap lines of a ply whose first course is `starter` wide and whose others are full.

    A course is added as long as a full sheet laid at the last line does not reach the top.
    Source: arithmetic
    """
    if band.ends - band.begins <= starter:
        return ()
    line = band.begins + starter - band.lap
    more = max(0, -(-(band.ends - band.width - line) // band.pitch))
    return tuple(range(line, line + more * band.pitch + 1, band.pitch))


def least_offset(one: Sequence[int], other: Sequence[int]) -> int | None:
    """Least distance between two sets of rising lines; None where either is empty.  Source: arithmetic"""
    best: int | None = None
    for line in one:
        k = bisect_left(other, line)
        for near in other[max(0, k - 1) : k + 1]:
            gap = abs(line - near)
            best = gap if best is None or gap < best else best
    return best


def margin(lines: Sequence[Lines]) -> int:
    """Least offset between neighbouring plies, 0 where no two have lines.  Source: arithmetic"""
    gaps = [least_offset(low.lines, high.lines) for low, high in pairwise(lines)]
    return min((gap for gap in gaps if gap is not None), default=0)
