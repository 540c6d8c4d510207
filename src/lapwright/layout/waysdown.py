"""Whether course lines can lie so that every ply goes a given way: lines are placed from the top down.

What can be reached is kept as zones of the lowest line of every ply (zones.py).  Rules are only ever loosened, so that
what is found not to lie never does.  Derivation: docs/method/layout.md, bounds, different rips.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from lapwright.layout.laplines import Band
from lapwright.layout.takes import Apart
from lapwright.layout.zones import Zone, bounded, holds, make_zone, raised, span_of

Span = tuple[int, int]
MOST_LOOKS = 1_500  # states gone on from; what has not come to its end by then may lie
MOST_OF_ALL = 15_000  # the same of all ways that are tried


@dataclass(frozen=True, slots=True)
class Way:
    """How wide a ply's courses are [ticks].

    rips: widths that it takes.  top: width of the top course.  second: what the one under it may show; shown: what
    those below may, one of these spans; first: what the lowest one may.  is_closer: the top course stands on a ripped
    one, so that plies may come closer beside it.  courses: so many at least.
    """

    rips: int
    top: Span
    second: tuple[Span, ...]
    shown: tuple[Span, ...]
    first: Span
    is_closer: bool = False
    courses: int = 0


class Key(NamedTuple):
    """What later lines need to know, ply by ply.

    counts: courses so far, the one below the lowest line among them.  seen: neighbours that had a line when the lowest
    line was placed, as bits.  eased: neighbours, as bits, next to whose top line the line may be, below it.
    """

    counts: tuple[int, ...]
    seen: tuple[int, ...]
    eased: tuple[int, ...]


@dataclass(slots=True)
class Descent:
    """One look from the top down over the plies of an area."""

    bands: Sequence[Band]
    ways: Sequence[Way]
    apart: Apart
    looks: int = 0

    def reaches(self) -> bool:
        """Some lines come to the low edge, or may."""
        none = tuple(0 for _ in self.bands)
        zone = make_zone([(band.ends, band.ends) for band in self.bands])
        key = Key(tuple(1 for _ in none), none, none)
        known: dict[Key, list[Zone]] = {key: [zone]}
        open_ends = [(key, zone)]
        while open_ends:  # the last one found is gone on from first, so that lines that can lie are soon found
            key, zone = open_ends.pop()
            self.looks += 1
            if self.looks > MOST_LOOKS or self._is_end(key, zone):
                return True
            for new, placed in self._next(key, zone):
                if is_new(known.setdefault(new, []), placed):
                    open_ends.append((new, placed))
        return False

    def _is_end(self, key: Key, zone: Zone) -> bool:
        """The lowest lines can be those of the first courses."""
        size, left = len(self.bands) + 1, zone
        for p, (band, way) in enumerate(zip(self.bands, self.ways, strict=True)):
            if key.counts[p] < max(2, way.courses):
                return False
            for a, b, most in ((p, size - 1, band.begins + way.first[1]), (size - 1, p, -band.begins - way.first[0])):
                found = bounded(left, size, a, b, most)
                if found is None:
                    return False
                left = found
        return True

    def _next(self, key: Key, zone: Zone) -> Iterator[tuple[Key, Zone]]:
        """Every way to place one more line below all others."""
        size = len(self.bands) + 1
        for p, (band, way) in enumerate(zip(self.bands, self.ways, strict=True)):
            count = key.counts[p]
            spans = (way.top,) if count == 1 else way.second if count == 2 else way.shown
            for least, most in spans:
                placed = bounded(raised(zone, size, p, -most, -least), size, size - 1, p, -band.begins - way.first[0])
                for eased in self._easings(key, p):
                    below = self._below(key, placed, p, eased)
                    if below is not None:
                        yield self._changed(key, p, eased), below

    def _easings(self, key: Key, p: int) -> list[int]:
        """Next to the top lines of which neighbours, as bits, the next line of ply p may be: each choice of them."""
        found = [0]
        for q in self._near(p):
            if key.counts[q] > 1 and self.ways[q].is_closer and not key.seen[p] >> q & 1:
                found += [bits | 1 << q for bits in found]
        return found

    def _near(self, p: int) -> list[int]:
        """Neighbouring plies."""
        return [q for q in (p - 1, p + 1) if 0 <= q < len(self.bands)]

    def _below(self, key: Key, zone: Zone | None, p: int, eased: int) -> Zone | None:
        """What of a zone has the line of ply p below all others, as far from its neighbours' as the rules ask."""
        size = len(self.bands) + 1
        for q in range(len(self.bands)):
            if q == p or zone is None:
                continue
            if key.counts[q] > 1:
                zone = bounded(zone, size, p, q, -self._apart(key, p, q, eased))
            reach = self.bands[q].width if key.counts[q] == 1 else self.bands[q].pitch
            if zone is not None and span_of(zone, size, q)[0] > self.bands[q].begins + reach:
                zone = bounded(zone, size, q, p, reach)  # its next line lies below this one
        return zone

    def _apart(self, key: Key, p: int, q: int, eased: int) -> int:
        """What a next line of ply p keeps to the lowest one of ply q; what is next to a rip of the one says nothing of
        a third ply.
        """
        if abs(p - q) > 1:
            return 0
        is_near = eased >> q & 1 or key.eased[q] >> p & 1 or self._is_rip(key, q, 2) or self._is_rip(key, p, 1)
        return self.apart.offset_at_rip if is_near else self.apart.offset

    def _is_rip(self, key: Key, p: int, count: int) -> bool:
        """A ply has so many courses so far and its top one stands on a ripped one."""
        return key.counts[p] == count and self.ways[p].is_closer

    def _changed(self, key: Key, p: int, eased: int) -> Key:
        """A key with one more line of ply p."""
        seen = sum(1 << q for q in self._near(p) if key.counts[q] > 1)
        return Key(
            (*key.counts[:p], key.counts[p] + 1, *key.counts[p + 1 :]),
            (*key.seen[:p], seen, *key.seen[p + 1 :]),
            (*key.eased[:p], eased, *key.eased[p + 1 :]),
        )


def is_new(zones: list[Zone], zone: Zone) -> bool:
    """A zone lies within none of those that are there; then it takes the place of those that lie within it."""
    if any(holds(other, zone) for other in zones):
        return False
    zones[:] = [*(other for other in zones if not holds(zone, other)), zone]
    return True


@dataclass(slots=True)
class Lookout:
    """What ways can be gone, as long as there is time to look.  left: states that may still be gone on from."""

    apart: Apart
    left: int = MOST_OF_ALL

    def may_lie(self, bands: Sequence[Band], ways: Sequence[Way]) -> bool:
        """Lines of all plies may go these ways; where it says no, none do.

        Source: docs/method/layout.md, bounds, different rips
        Checked: tests/layout/test_leastrips.py, tests/reference/test_rips_brute.py
        """
        descent = Descent(bands, ways, self.apart)
        found = self.left <= 0 or descent.reaches()
        self.left -= descent.looks
        return found
