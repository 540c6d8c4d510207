"""The least that all plies of an area take together, whatever the course lines: lines are placed from the top down.

What can be reached is kept as zones of the lowest line of every ply (zones.py), with the least that the courses above
take, by which of the lowest courses are tight.  Rules are only ever loosened.
Derivation: docs/method/layout.md, bounds.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product

from lapwright.layout.levels import (
    CLOSE,
    SLIVER,
    Of,
    PlyTask,
    beyond,
    guesses,
    over_band,
    own_band,
    segments,
)
from lapwright.layout.states import Key, Layer, Vector, each, keep, put
from lapwright.layout.takes import NEVER, Apart, Takes, Worth, reach_of
from lapwright.layout.zones import Zone, bounded, make_zone, raised, span_of

# States gone on from in one look, by how many plies are looked at; where more are left, nothing is said of these plies.
MOST_STATES = {1: 25_000, 2: 25_000, 3: 6_000}
MOST_LAYERS = 800  # lines of all plies together; a taller roof is looked at ply by ply only
ROUNDING = 1e-6  # sums that differ by less are equal


@dataclass(slots=True)
class Sweep:
    """One sweep over the plies of an area.

    Several worths are summed up in one go, each by itself.  slack: what takes more than the best by less than this is
    found as well.  bests: the least found of each worth.  found: the least of the first worth by the number of courses
    of each ply; what is not in it takes the best and the slack at least.
    """

    plies: Sequence[PlyTask]
    apart: Apart
    worths: Sequence[Worth]
    slack: float = 0.0
    bests: list[float] = field(init=False)
    found: dict[tuple[int, ...], float] = field(default_factory=dict)
    is_done: bool = False
    takes: Takes = field(init=False)
    _never: Vector = field(init=False)

    def __post_init__(self) -> None:
        """What courses take is worked out once for each kind."""
        self.takes = Takes(self.plies, self.apart, self.worths)
        self._never = (NEVER,) * (1 << len(self.plies))
        self.bests = [NEVER] * len(self.worths)

    def run(self) -> Sweep:
        """Look until nothing can be better than what was found by more than the slack.

        With several bands a way is sought first that is likely to be good, so that what can't be better is soon let be.
        """
        if any(len(ply.levels) > 1 for ply in self.plies):
            self._look(self._likely)
            self.found = {}
        self.is_done = self._look(lambda layer: layer)
        return self

    def _look(self, chosen: Callable[[Layer], Layer]) -> bool:
        """Layer by layer, one more line each time, going on from what is chosen of each; did it come to an end."""
        layer, looks, most = self._first(), 0, MOST_STATES.get(len(self.plies), 0)
        for _ in range(MOST_LAYERS):
            if not layer:
                return True
            looks += sum(len(states) for states in layer.values())
            if looks > most:
                return False
            after: Layer = {}
            before = list(self.bests)
            for key, zone, vector in each(layer):
                self._end(key, zone, vector)
            for key, zone, vector in each(chosen(layer)):
                hopeful = vector if before == self.bests else self._hopeful(key, zone, vector)
                if hopeful is not None:
                    self._follow(key, zone, hopeful, after)
            layer = after
        return False

    def _likely(self, layer: Layer) -> Layer:
        """For each key the state that seems to take least in the end."""
        return {key: [min(found, key=lambda state: self._in_the_end(key, *state))] for key, found in layer.items()}

    def _in_the_end(self, key: Key, zone: Zone, vector: Vector) -> list[float]:
        """What a state takes at least once all courses lie, for each worth."""
        count = len(self.plies)
        fixed, size = count * (count + 1), 1 << count
        still = [
            self.takes.still(p, -zone[fixed + p] - reach_of(ply, key.counts[p])) for p, ply in enumerate(self.plies)
        ]
        return [min(vector[w * size : (w + 1) * size]) + sum(more) for w, more in enumerate(zip(*still, strict=True))]

    def _hopeful(self, key: Key, zone: Zone, vector: Vector) -> Vector | None:
        """What of a vector may still come to something better than the best, or no worse by the slack."""
        size = 1 << len(self.plies)
        made, is_open = vector, False
        for w, least in enumerate(self._in_the_end(key, zone, vector)):
            if least < self.bests[w] + self.slack - ROUNDING:
                is_open = True
            elif least < NEVER:
                made = (*made[: w * size], *self._never, *made[(w + 1) * size :])
        return made if is_open else None

    # the first layer

    def _first(self) -> Layer:
        """The top course of every ply, none with a line yet."""
        count = len(self.plies)
        zone = make_zone([(ply.ends, ply.ends) for ply in self.plies])
        layer: Layer = {}
        for kinds in product(*(guesses(len(ply.levels) - 1, 0, len(ply.levels) - 1) for ply in self.plies)):
            starts = [self.takes.start(kinds, tight) for tight in range(1 << count)]
            vector = tuple(start[w] for w in range(len(self.worths)) for start in starts)
            none = (False,) * count
            layer[Key((1,) * count, kinds, (-1,) * count, (0,) * count, none, none)] = [(zone, vector)]
        return layer

    # the end

    def _end(self, key: Key, zone: Zone, vector: Vector) -> None:
        """Where the lowest lines can be those of the first courses, a bound for so many courses."""
        size = len(self.plies) + 1
        left: Zone | None = zone
        for p, ply in enumerate(self.plies):
            if left is None or key.kinds[p][0] != 0:
                return
            if key.pending[p] not in (-1, beyond(ply, ply.begins)):
                return
            left = bounded(left, size, p, size - 1, ply.begins + reach_of(ply, key.counts[p]))
        if left is None or not self._keep_apart(key, left):
            return
        size = 1 << len(self.plies)
        least = [min(vector[w * size : (w + 1) * size]) for w in range(len(self.worths))]
        self.found[key.counts] = min(self.found.get(key.counts, NEVER), least[0])
        self.bests = [min(pair) for pair in zip(self.bests, least, strict=True)]

    def _keep_apart(self, key: Key, zone: Zone) -> bool:
        """Two plies of two courses have no ripped one below their top, so their lines keep the full distance."""
        size, zones = len(self.plies) + 1, [zone]
        for p in range(len(self.plies) - 1):
            if key.counts[p] == key.counts[p + 1] == 2:
                ways = [
                    bounded(one, size, a, b, -self.apart.offset) for one in zones for a, b in ((p, p + 1), (p + 1, p))
                ]
                zones = [way for way in ways if way is not None]
        return bool(zones)

    # one more line

    def _follow(self, key: Key, zone: Zone, vector: Vector, after: Layer) -> None:
        """Every way to place one more line below all others."""
        for p in range(len(self.plies)):
            if key.ended[p]:
                continue
            for placed, new_key in self._placed(key, zone, p):
                made = self._hopeful(new_key, placed, self._taken(p, key, new_key, vector))
                if made is not None:
                    keep(after.setdefault(new_key, []), placed, made)

    def _placed(self, key: Key, zone: Zone, p: int) -> Iterator[tuple[Zone, Key]]:
        """The zones of one more line of ply p, with their keys."""
        ply, size, is_first = self.plies[p], len(self.plies) + 1, key.counts[p] == 1
        narrow, lowest = self.apart.narrowest, self._lowest(ply)
        reach = reach_of(ply, key.counts[p])
        shapes = [(raised(zone, size, p, -reach, -narrow), False)]
        if is_first and ply.is_cap:
            shapes.append((raised(zone, size, p, -reach, -1), True))
        for moved, is_narrow in shapes:
            held = bounded(moved, size, size - 1, p, -lowest)
            if held and is_narrow:
                held = bounded(held, size, p, size - 1, ply.begins + ply.width - ply.side_lap)
            below = self._below(key, held, p)
            if below is None:
                continue
            low, high = span_of(below, size, p)
            for least, most in segments(ply, low, high):
                if not self._turns_out(key, p, most):
                    continue
                cut = bounded(below, size, p, size - 1, most)
                cut = cut and bounded(cut, size, size - 1, p, -least)
                if cut is None:
                    continue
                for kind in self._next_kinds(ply, least, most):
                    for part, is_eased in self._eased(key, cut, p):
                        yield part, self._changed(key, p, kind, eased=is_eased, ended=is_narrow)

    def _lowest(self, ply: PlyTask) -> int:
        """Where the lowest line of a ply can be at least: a granular cap's first course is full, lapped as asked."""
        pitch, is_held = ply.width - ply.side_lap, ply.is_cap and ply.is_granular
        return ply.begins + (max(self.apart.narrowest, pitch - CLOSE) if is_held else self.apart.narrowest)

    def _eased(self, key: Key, zone: Zone, p: int) -> Iterator[tuple[Zone, bool]]:
        """A zone as it is, and what of it may have the line of ply p next to the top line of a neighbour.

        It may be if the line before it lies above that top line, and then half a pitch below it at most, since the
        line before is no nearer.
        """
        yield zone, False
        size, ply = len(self.plies) + 1, self.plies[p]
        if key.counts[p] == 1:
            return
        for q in self.takes.near(p):
            if key.counts[q] == 1 or key.seen[p] >> q & 1:
                continue
            part: Zone | None = zone
            if key.counts[q] == 2:
                part = bounded(zone, size, q, p, (ply.width - ply.side_lap) // 2 + SLIVER)
            if part is not None:
                yield part, True

    def _turns_out(self, key: Key, p: int, line: int) -> bool:
        """The courses over a line of ply p are of the kinds that they had to turn out to be."""
        ply, low = self.plies[p], key.kinds[p][0]
        return low >= own_band(ply, line) and key.pending[p] in (-1, beyond(ply, line))

    def _next_kinds(self, ply: PlyTask, least: int, most: int) -> list[Of]:
        """What a course below a line may turn out to be."""
        low = own_band(ply, least - ply.width + ply.side_lap)
        is_near = any(step < most <= step + SLIVER for step in ply.steps)
        return guesses(over_band(ply, most), low, beyond(ply, most - self.apart.narrowest), is_sure=not is_near)

    def _changed(self, key: Key, p: int, kind: Of, *, eased: bool, ended: bool) -> Key:
        """A key with a new current course of ply p."""
        seen = sum(1 << q for q in self.takes.near(p) if key.counts[q] > 1)
        return Key(
            put(key.counts, p, key.counts[p] + 1),
            put(key.kinds, p, kind),
            put(key.pending, p, key.kinds[p][0]),
            put(key.seen, p, seen),
            put(key.eased, p, eased),
            put(key.ended, p, ended),
        )

    def _below(self, key: Key, zone: Zone | None, p: int) -> Zone | None:
        """What of a zone has the line of ply p below all others, as far from its neighbours' as the rules ask."""
        size = len(self.plies) + 1
        for q in range(len(self.plies)):
            if q == p or zone is None:
                continue
            if key.counts[q] > 1:
                least = 0
                if abs(p - q) == 1:
                    is_eased = key.counts[q] == 2 or key.counts[p] == 1 or key.eased[q]
                    least = self.apart.offset_at_rip if is_eased else self.apart.offset
                zone = bounded(zone, size, p, q, -least)
            if zone is not None and not key.ended[q]:
                reach = reach_of(self.plies[q], key.counts[q])
                if span_of(zone, size, q)[0] > self.plies[q].begins + reach:
                    zone = bounded(zone, size, q, p, reach)
        return zone

    def _taken(self, p: int, key: Key, new: Key, vector: Vector) -> Vector:
        """The least that all courses take once a new lowest course of ply p is there."""
        near = tuple((q, key.kinds[q]) for q in self.takes.near(p))
        made, size = [NEVER] * len(vector), 1 << len(self.plies)
        for before, now, mores in self.takes.table(p, key.kinds[p], new.kinds[p], near):
            for w, more in enumerate(mores):
                worth = vector[before + w * size] + more
                if worth < made[now + w * size]:
                    made[now + w * size] = worth
        return tuple(made)
