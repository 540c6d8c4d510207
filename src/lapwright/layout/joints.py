"""Where the end laps of a run go.

*Joint*: the exposed edge of an end lap, that is where the later piece begins.  Pieces are laid from the left;
each is a whole number of cutting steps long, so joints lie on a grid and the search is in whole numbers: the set of
places that the k-th joint can take is a list of intervals, made from the (k-1)-th by adding the shortest and longest
piece and taking away what the neighbouring courses and plies forbid.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Cutting:
    """What pieces may be [ticks]: step of cut lengths, end lap, shortest and longest piece, most joints tried."""

    step: int
    end_lap: int
    shortest: int
    longest: int
    most_extra: int = 6


def merged(spans: Sequence[Span]) -> list[Span]:
    """Sorted spans without overlap.  Source: arithmetic"""
    result: list[Span] = []
    for low, high in sorted(spans):
        if result and low <= result[-1][1] + 1:
            result[-1] = (result[-1][0], max(result[-1][1], high))
        else:
            result.append((low, high))
    return result


def without(spans: Sequence[Span], taken: Sequence[Span]) -> list[Span]:
    """What of whole-number spans is left outside `taken` (open spans: their ends stay allowed).  Source: arithmetic"""
    result: list[Span] = []
    for low, high in spans:
        start = low
        for a, b in taken:
            if b <= start or a >= high + 1:
                continue
            if a >= start:
                result.append((start, a))
            start = max(start, b)
            if start > high:
                break
        if start <= high:
            result.append((start, high))
    return [span for span in result if span[0] <= span[1]]


def split_run(
    left: int, right: int, cutting: Cutting, forbidden: Sequence[Span], *, short_first: bool
) -> tuple[int, ...] | None:
    """Joints of a run, as few as can be; None where none can be placed.

    forbidden: open spans where no joint may lie.  short_first: the first piece is the short one.
    Holds for: any run; a run no longer than the longest piece has no joint.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_joints.py against brute force
    """
    length = right - left
    if rounded_up(length, cutting.step) <= cutting.longest:
        return ()
    least = -(-(length - cutting.end_lap) // (cutting.longest - cutting.end_lap)) - 1
    for count in range(max(1, least), least + cutting.most_extra + 1):
        found = place(left, right, cutting, merged_open(forbidden), count, short_first=short_first)
        if found is not None:
            return found
    return None


def come_near(ones: Sequence[int], others: Sequence[int], apart: int) -> bool:
    """Some place of one row lies nearer than `apart` to one of another; the other row rises.  Source: arithmetic"""
    for one in ones:
        k = bisect_right(others, one - apart)
        if k < len(others) and others[k] < one + apart:
            return True
    return False


def rounded_up(length: int, step: int) -> int:
    """A length rounded up to whole cutting steps.  Source: arithmetic"""
    return -(-length // step) * step


def merged_open(spans: Sequence[Span]) -> list[Span]:
    """Open spans merged where they overlap; touching ones keep their common end allowed."""
    result: list[Span] = []
    for low, high in sorted(spans):
        if result and low < result[-1][1]:
            result[-1] = (result[-1][0], max(result[-1][1], high))
        else:
            result.append((low, high))
    return result


def place(
    left: int, right: int, cutting: Cutting, forbidden: Sequence[Span], count: int, *, short_first: bool
) -> tuple[int, ...] | None:
    """Exactly `count` joints, or None."""
    step, lap = cutting.step, cutting.end_lap
    low_k, high_k = -(-cutting.shortest // step), cutting.longest // step
    reach: list[list[Span]] = [[(0, 0)]]
    for i in range(1, count + 1):
        base = left - i * lap
        grown = merged([(a + low_k, b + high_k) for a, b in reach[-1]])
        barred = [on_grid(span, base, step) for span in forbidden]
        reach.append(without(grown, barred))
        if not reach[-1]:
            return None
    base = left - count * lap
    last = (-(-(right - cutting.longest // step * step - base) // step), (right - cutting.shortest - base) // step)
    ends = [(max(a, last[0]), min(b, last[1])) for a, b in reach[-1]]
    ends = [span for span in ends if span[0] <= span[1]]
    if not ends:
        return None
    k = ends[0][0] if short_first else ends[-1][1]
    picks = [k]
    for i in range(count - 1, 0, -1):
        k = step_back(reach[i], k - high_k, k - low_k, prefer_low=short_first)
        picks.append(k)
    return tuple(left + k * step - i * lap for i, k in enumerate(reversed(picks), start=1))


def on_grid(span: Span, base: int, step: int) -> Span:
    """An open span of ticks as an open span of grid places: the places strictly inside it are barred."""
    inside_low = (span[0] - base) // step + 1
    inside_high = -(-(span[1] - base) // step) - 1
    return (inside_low - 1, inside_high + 1)


def step_back(spans: Sequence[Span], low: int, high: int, *, prefer_low: bool) -> int:
    """A reachable place between low and high; there is one, since the next place was reached from here."""
    if prefer_low:
        for a, b in spans:
            if b >= low:
                return max(a, low)
    i = bisect_right([a for a, _ in spans], high) - 1
    return min(spans[i][1], high)
