"""How many different widths the ripped courses of an area have at least, whatever its course lines.

Each ply goes some *way* (waysdown.py): how wide its courses may be, and how many widths that takes.  Ways of all plies
are tried together, those of the fewest widths first, as long as no lines go them.
Derivation: docs/method/layout.md, bounds, different rips.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import product

from lapwright.layout.laplines import Band
from lapwright.layout.levels import SLIVER
from lapwright.layout.takes import Apart
from lapwright.layout.waysdown import Lookout, Way

KEPT = 32  # results kept: a job is laid out for several aims
FEWEST_COURSES = 3  # of fewer a narrow top may stay, and nothing is said
MOST_COURSES = 110  # of all plies; on more a width weighs little and takes long to be proved
SLICES = 9  # parts of what the top course may be wide, where it shares its width with the one below it


@lru_cache(maxsize=KEPT)
def least_rips(bands: tuple[Band, ...], apart: Apart, *, is_held: bool) -> int:
    """Different widths of ripped courses at least, each counted ply by ply.

    bands: plies, bottom first.  is_held: no side lap of the last one, the cap, may be wider than asked, and its first
    course is full.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_leastrips.py, tests/reference/test_rips_brute.py
    """
    counts = [fewest_of(band) for band in bands]
    if min(counts) < FEWEST_COURSES or sum(counts) > MOST_COURSES:
        return 0
    ways, lookout = [list(free_ways(band, apart.narrowest)) for band in bands], Lookout(apart)
    if is_held:
        under = [own[-1] for own in ways[-2:-1]]
        held = held_ways(bands[-1], apart.narrowest)
        ways[-1] = [way for way in held if lookout.may_lie(bands[-2:], [*under, way])]
    found = sorted(product(*ways), key=rips_of)
    return next((rips_of(each) for each in found if lookout.may_lie(bands, each)), 0)


def rips_of(ways: Sequence[Way]) -> int:
    """Widths that ways of several plies take.  Source: arithmetic"""
    return sum(way.rips for way in ways)


def fewest_of(band: Band) -> int:
    """Courses at least.  Source: arithmetic"""
    return max(1, -(-(band.ends - band.begins - band.lap) // band.pitch))


def free_ways(band: Band, narrow: int) -> Iterator[Way]:
    """Ways of a ply whose side laps may be wider than asked, so that any course but the top one can be whole.

    Where the top course stands on a ripped one, that one has a width of its own, or the top one's: then it shows no
    more than that less its lap.  The last way is any at all.
    """
    shown, full = (narrow, band.pitch), band.width
    whole, any_top = (full - SLIVER, full), (narrow, full)
    yield Way(0, whole, (shown,), (shown,), shown)
    yield Way(1, whole, (shown,), (shown,), shown, is_closer=True)
    yield Way(1, any_top, (shown,), (shown,), shown)
    for k in range(SLICES):
        low, high = (narrow + (full - narrow) * part // SLICES for part in (k, k + 1))
        if high - band.lap >= narrow:
            yield Way(1, (low, high), ((narrow, min(band.pitch, high - band.lap)),), (shown,), shown, is_closer=True)
    yield Way(2, any_top, (shown,), (shown,), shown, is_closer=True)


def held_ways(band: Band, narrow: int) -> Iterator[Way]:
    """Ways of a cap that is lapped as asked and begins with a full sheet.

    With the fewest courses or one more: all but the top one full; some and the top one of one width; a full top and
    some of one width.  With still more any courses of one width, and any of two: the last way.
    """
    pitch, full, least = band.pitch, (band.pitch, band.pitch), fewest_of(band)
    for count in (least, least + 1):
        rest = band.ends - band.begins - (count - 1) * pitch  # what the top one is wide where all others are full
        if narrow <= rest <= band.width:
            yield Way(int(rest < band.width - SLIVER), (rest, rest), (full,), (full,), full)
        for many in range(1, count - 1):
            for top, (less, over) in (
                (0, divmod(count * pitch + band.lap - (band.ends - band.begins), many + 1)),
                (band.width, divmod(count * pitch + band.lap - (band.ends - band.begins), many)),
            ):
                if not over and less > 0 and pitch - less >= narrow:
                    yield from of_one_width(band, pitch - less, top or band.width - less)
    shown = (narrow, pitch)
    yield Way(1, (narrow, band.width), (shown,), (shown,), full, is_closer=True, courses=least + 2)
    yield Way(2, (narrow, band.width), (shown,), (shown,), full, is_closer=True)


def of_one_width(band: Band, shown: int, top: int) -> Iterator[Way]:
    """Ways of a cap of which all ripped courses below the top show as much: the one under the top is full, or one."""
    full, ripped = (band.pitch, band.pitch), (shown, shown)
    yield Way(1, (top, top), (full,), (full, ripped), full)
    yield Way(1, (top, top), (ripped,), (full, ripped), full, is_closer=True)
