"""The fewest ripped courses that restore the offset of side laps, and the greatest offset where none do.

The search of `rips` is exact; here it is asked in an order that answers soon.  One ply alone is ripped first, which
takes milliseconds on the longest slope; then both, up to a count of looks.  Where one ply alone can't do it, the
courses below the top are left as one ply alone has them and only those at the top are sought again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from lapwright.layout.laplines import Band, Lines, Stack, lap_lines, margin
from lapwright.layout.rips import Problem, Reached, lines_of, search, search_any

LOOKS_ALONE = 40_000  # sets of lowerings looked at where the ply of the wider pitch is ripped alone
LOOKS_OTHERWISE = 3_000  # where another is, or all are
LOOKS_AT_TOP = 1_000  # where one ply alone can do it but for the top course, or pitches are equal
LOOKS_FOR_ANY = 12_000  # where only whether there is a layout is asked
WINDOWS = (6, 12)  # courses at the top that are sought again


@dataclass(frozen=True, slots=True)
class Restored:
    """Lines of every ply, bottom first, and whether fewer ripped courses are proved to be impossible."""

    lines: tuple[Lines, ...]
    is_fewest: bool

    @property
    def ripped(self) -> int:
        """Ripped courses of all plies."""
        return sum(one.ripped for one in self.lines)


def make_problem(
    bands: Sequence[Band],
    stack: Stack,
    *,
    top: int | None = None,
    whole: Sequence[str] = (),
    laid: Sequence[tuple[int, ...] | None] = (),
) -> Problem:
    """The search's problem for the plies of a stack; those of a single course have no lines and take no part.

    top: least exposed width of a top course, else that of any rip.  whole: plies not to be ripped.
    Source: docs/method/layout.md
    """
    kept = [p for p, band in enumerate(bands) if band.ends - band.begins > band.width]
    place = {p: k for k, p in enumerate(kept)}
    return Problem(
        bands=tuple(bands[p] for p in kept),
        pairs=tuple((place[p], place[p + 1]) for p in kept if p + 1 in place),
        stack=stack,
        top=stack.rip if top is None else top,
        whole=frozenset(place[p] for p in kept if bands[p].ply in whole),
        full_start=frozenset(place[p] for p in kept if p == len(bands) - 1),
        laid=tuple(laid[p] if laid else None for p in kept),
    )


def restore(bands: Sequence[Band], stack: Stack, *, most: int | None = None) -> Restored | None:
    """The lines with the fewest ripped courses that keep every offset and every width; None where none were found.

    most: no more rips than this.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_rips.py against brute force
    """
    problem = make_problem(bands, stack)
    if not problem.bands:
        return None
    is_even = len({band.pitch for band in bands}) == 1
    best: list[Reached] = []
    fewest = most
    for whole, looks in [] if is_even else _wholes(bands, stack):
        found = search(make_problem(bands, stack, whole=whole), most=fewest, zones=looks)
        if found.ends:
            best, fewest = found.ends, found.rips - 1
        if best and fewest is not None and fewest < least_rips(bands, stack):
            return Restored(_all_lines(bands, problem, best), is_fewest=True)
    stacked = None if is_even or best or len(bands) < 3 else _ply_under_ply(bands, stack)
    if stacked is not None and (fewest is None or stacked.ripped <= fewest):
        fewest = stacked.ripped - 1
    else:
        stacked = None
    together = search(problem, most=fewest, zones=LOOKS_AT_TOP if is_even else LOOKS_OTHERWISE)
    if together.ends:
        return Restored(_all_lines(bands, problem, together.ends), is_fewest=True)
    if best:
        return Restored(_all_lines(bands, problem, best), together.is_whole)
    if stacked is not None:
        return replace(stacked, is_fewest=together.is_whole)
    if together.is_whole or (is_even and most is not None):
        return None
    return _not_alone(bands, stack, problem, most)


def _ply_under_ply(bands: Sequence[Band], stack: Stack) -> Restored | None:
    """The upper two plies by themselves, then the lowest one under them as they lie."""
    upper = restore(bands[1:], stack)
    if upper is None:
        return None
    problem = make_problem(bands[:2], stack, laid=(None, upper.lines[0].lines))
    ends = search(problem, zones=LOOKS_ALONE).ends
    if problem.bands and not ends:
        return None
    lowest = _all_lines(bands[:2], problem, ends)[0] if ends else _with_single(bands[:1], ())[0]
    return Restored((lowest, *upper.lines), is_fewest=False)


def _not_alone(bands: Sequence[Band], stack: Stack, problem: Problem, most: int | None) -> Restored | None:
    """Where no ply alone can do it and the search of all together is too wide: the top again, else anything."""
    tops = list(_top_again(bands, stack, problem))
    if not tops:
        any_end = search_any(problem, LOOKS_FOR_ANY)
        tops = [Restored(_all_lines(bands, problem, any_end.ends), is_fewest=False)] if any_end.ends else []
    tops = [one for one in tops if most is None or one.ripped <= most]
    return min(tops, key=lambda one: one.ripped) if tops else None


def least_rips(bands: Sequence[Band], stack: Stack) -> int:
    """Ripped courses that two drifting plies take at least, where their lines have to alternate; else 0.

    Source: docs/method/layout.md, "Sheets that drift"
    Checked: tests/layout/test_rips.py against brute force
    """
    if len(bands) != 2:
        return 0
    slow, fast = sorted(bands, key=lambda band: band.pitch)
    drift, play = fast.pitch - slow.pitch, slow.pitch - 2 * stack.offset
    if stack.rip + 2 * stack.offset <= fast.pitch or drift == 0 or play < 0:
        return 0
    count = -(-(fast.ends - fast.begins - fast.width) // fast.pitch)  # lap lines at least
    return max(0, (count - 3) // (play // drift + 1))


def greatest_offset(bands: Sequence[Band], stack: Stack) -> int:
    """The greatest offset that any starters and rips keep on every course, every width kept [ticks]; 0 if none.

    Halving is exact: lines that keep an offset keep every lesser one.
    Source: docs/method/layout.md
    Checked: tests/layout/test_rips.py against brute force
    """
    most = max(band.pitch for band in bands)
    return greatest(most, lambda offset: can_keep(bands, replace(stack, offset=offset)))


def greatest_rip(bands: Sequence[Band], stack: Stack) -> int:
    """The greatest `narrowest_rip` at which the offset can be kept [ticks]; 0 if none.  Source: as greatest_offset"""
    return greatest(stack.rip, lambda rip: can_keep(bands, replace(stack, rip=rip)))


def greatest(most: int, is_kept: Callable[[int], bool]) -> int:
    """The greatest value up to `most` that can be kept, where keeping one means keeping every lesser one.

    Source: halving
    """
    low, high = 0, most
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if is_kept(middle) else (low, middle - 1)
    return low


def can_keep(bands: Sequence[Band], stack: Stack, *, top: int | None = None) -> bool:
    """Some lines keep every offset and every width, however many courses are ripped.

    Source: docs/method/layout.md
    """
    problem = make_problem(bands, stack, top=top)
    return not problem.bands or bool(search_any(problem, LOOKS_FOR_ANY).ends)


def drifting(bands: Sequence[Band], stack: Stack) -> Restored | None:
    """The fewest rips of one ply alone that keep the offsets, however narrow the top courses get; None if none do.

    Source: docs/method/layout.md
    """
    ways = []
    for whole, looks in _wholes(bands):
        problem = make_problem(bands, stack, top=min(band.lap for band in bands), whole=whole)
        found = search(problem, zones=looks)
        if found.ends:
            ways.append(Restored(_all_lines(bands, problem, found.ends), is_fewest=False))
    return min(ways, key=lambda one: one.ripped) if ways else None


def _wholes(bands: Sequence[Band], stack: Stack | None = None) -> list[tuple[list[str], int]]:
    """Which plies stay unripped where one alone is ripped, and how many looks that is worth.

    The ply of the widest pitch comes first, since it runs ahead of the others; of equal ones the lower.
    stack: given where a cap that ends in too narrow a course can't stay unripped.
    """
    ranked = sorted(bands, key=lambda band: -band.pitch)
    cap = bands[-1]
    lines = lap_lines(cap, cap.width)
    must_rip = stack is not None and len(lines) > 1 and cap.ends - lines[-1] < stack.rip
    return [
        ([band.ply for band in bands if band is not one], LOOKS_ALONE if one is ranked[0] else LOOKS_OTHERWISE)
        for one in ranked
        if one is cap or not must_rip
    ]


def _top_again(bands: Sequence[Band], stack: Stack, problem: Problem) -> Iterator[Restored]:
    """One ply alone up to a few courses below the top, and from there the fewest rips of all plies."""
    for whole, looks in _wholes(bands):
        easy = make_problem(bands, stack, top=min(band.lap for band in bands), whole=whole)
        ends = search(easy, zones=looks).ends
        for window in WINDOWS if ends else ():
            here = ends[0]
            level = max(here.at.index) - window
            while here.before is not None and (max(here.at.index) > level or any(here.at.done)):
                here = here.before
            found = search(problem, zones=LOOKS_AT_TOP, start=[here])
            if found.ends:
                yield Restored(_all_lines(bands, problem, found.ends), is_fewest=False)
                break


def _all_lines(bands: Sequence[Band], problem: Problem, ends: Sequence[Reached]) -> tuple[Lines, ...]:
    """Lines of all plies, of one course too: of the ends that with fewest courses, then the greatest offset."""
    ways = [_with_single(bands, lines_of(problem, end)) for end in ends[:8]]
    return min(ways, key=lambda lines: (sum(len(one.lines) for one in lines), -margin(lines)))


def _with_single(bands: Sequence[Band], found: Sequence[Lines]) -> tuple[Lines, ...]:
    rest = iter(found)
    return tuple(
        next(rest) if band.ends - band.begins > band.width else Lines(band, band.ends - band.begins, ())
        for band in bands
    )
