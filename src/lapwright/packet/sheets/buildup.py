"""Layers laid one on another along a path: the shapes of plies, strips and flashings in a section.

A *path* is what the first layer lies on (deck, cant, wall; or deck and edge face), walked so that layers go on at its
left.  A *station* is a distance along it, a *height* a distance from it.  Each layer drapes over what lies there
already: where that ends in a step, the layer comes down over a short slope, and narrow gaps it bridges.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from lapwright.packet.drawing import Points, Pt

SLOPE = 1.6  # run of the slope over a step, in heights of the step
STEP = 1e-9


@dataclass(frozen=True, slots=True)
class Path:
    """The line that layers lie on [m]."""

    points: Points

    @property
    def stations(self) -> list[float]:
        """Stations of the points."""
        found = [0.0]
        for a, b in pairwise(self.points):
            found.append(found[-1] + math.dist(a, b))
        return found

    def at(self, station: float, height: float, *, ends: Pt = (-1.0, -1.0)) -> Pt:
        """The point at a station and height; at a bend, or where offset lines would cross beyond it, on its mitre.

        ends: stations where a layer begins and ends; at an outer bend it ends square, on its own leg.
        """
        stations = self.stations
        for k in range(1, len(stations) - 1):
            bend, here = self.bend(k), abs(station - stations[k]) <= 1e-7
            if here and bend < 0 and (abs(station - ends[0]) <= 1e-7 or abs(station - ends[1]) <= 1e-7):
                return self.off(k if abs(station - ends[0]) <= 1e-7 else k - 1, station, height)
            if here or (bend > 0 and abs(station - stations[k]) < height * math.tan(bend / 2)):
                return self.mitre(k, height)
        leg = max(k for k in range(len(stations) - 1) if station >= stations[k] - STEP or k == 0)
        return self.off(leg, station, height)

    def off(self, leg: int, station: float, height: float) -> Pt:
        """The point at a station, square off one leg."""
        ux, uy = self.direction(leg)
        along = station - self.stations[leg]
        x, y = self.points[leg]
        return (x + ux * along - uy * height, y + uy * along + ux * height)

    def direction(self, leg: int) -> Pt:
        """Unit vector along a leg."""
        (x0, y0), (x1, y1) = self.points[leg], self.points[leg + 1]
        length = math.dist((x0, y0), (x1, y1))
        return ((x1 - x0) / length, (y1 - y0) / length)

    def bend(self, k: int) -> float:
        """How far the path turns at a point [rad]; above 0 to the left, so that layers are on the inside of it."""
        a, b = self.direction(k - 1), self.direction(k)
        return math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])

    def mitre(self, k: int, height: float) -> Pt:
        """The point at a height on the line that halves a bend."""
        a, b = self.direction(k - 1), self.direction(k)
        nx, ny = -(a[1] + b[1]), a[0] + b[0]
        size = math.hypot(nx, ny)
        reach = height / math.cos(self.bend(k) / 2)
        return (self.points[k][0] + nx / size * reach, self.points[k][1] + ny / size * reach)


@dataclass(slots=True)
class Buildup:
    """A path and the top of what lies on it so far: stations and heights, rising stations, steps as doubled ones."""

    path: Path
    top: list[Pt] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Nothing lies there yet."""
        if not self.top:
            self.top = [(0.0, 0.0), (self.path.stations[-1], 0.0)]

    def lay(self, start: float, end: float, thickness: float) -> Points:
        """The shape of a layer from station to station; it lies there from now on."""
        bottom = self.within(draped(self.top), start, end)
        upper = [(s, h + thickness) for s, h in bottom]
        before = self.within(self.top, self.top[0][0], start) if start > self.top[0][0] + STEP else []
        after = self.within(self.top, end, self.top[-1][0]) if end < self.top[-1][0] - STEP else []
        self.top = [*before, *upper, *after]
        return self.shape(bottom, upper)

    def height(self, station: float) -> float:
        """Height of the top at a station, the greater at a step."""
        return max(h for _, h in self.within(self.top, station - STEP, station + STEP))

    def top_until(self, station: float) -> list[Pt]:
        """The top as far as a station, on to the same height beyond: for a layer that leaves the path there."""
        part = self.within(self.top, self.top[0][0], station)
        return [*part, (self.path.stations[-1] + 1.0, part[-1][1])]

    def within(self, line: Sequence[Pt], start: float, end: float) -> list[Pt]:
        """The part of a line of stations and heights from start to end, bends of the path marked in it."""
        found = [(start, interpolate(line, start, after=True))]
        found += [point for point in line if start + STEP < point[0] < end - STEP]
        found.append((end, interpolate(line, end, after=False)))
        for station in self.path.stations[1:-1]:
            if start + STEP < station < end - STEP and not any(abs(s - station) < 1e-7 for s, _ in found):
                found.append((station, interpolate(line, station, after=True)))
        return sorted(found, key=lambda point: point[0])

    def shape(self, bottom: Sequence[Pt], upper: Sequence[Pt]) -> Points:
        """The polygon between two lines of stations and heights [m]."""
        first, last = bottom[0][0], bottom[-1][0]
        return tuple(self.path.at(s, h, ends=(first, last)) for s, h in (*bottom, *reversed(upper)))


def interpolate(line: Sequence[Pt], station: float, *, after: bool) -> float:
    """Height of a line at a station; at a step, that of the side `after` it or before it."""
    found = [h for s, h in line if abs(s - station) <= STEP]
    if found:
        return found[-1] if after else found[0]
    for (s0, h0), (s1, h1) in pairwise(line):
        if s0 < station < s1:
            return h0 + (h1 - h0) * (station - s0) / (s1 - s0)
    return line[0][1] if station < line[0][0] else line[-1][1]


def draped(line: Sequence[Pt]) -> list[Pt]:
    """What a sheet laid over the line touches: as low as it can lie without being steeper than 1 in SLOPE."""
    stations = {s for s, _ in line} | {s for one in line for s in rests(one, line)}
    inside = sorted(s for s in stations if line[0][0] <= s <= line[-1][0])
    return without_flat([(s, over(line, s)) for s in inside])


def over(line: Sequence[Pt], station: float) -> float:
    """Height of a sheet over the line at a station: held up by the line there, or by a point of it beside."""
    here = max(interpolate(line, station, after=True), interpolate(line, station, after=False))
    return max(here, *(h - abs(s - station) / SLOPE for s, h in line))


def rests(one: Pt, line: Sequence[Pt]) -> Iterator[float]:
    """Stations where a slope down from a point may come to rest: on the line, or on a slope from another point."""
    s, h = one
    for side in (-1.0, 1.0):
        for (s0, h0), (s1, h1) in pairwise(line):
            if s1 - s0 > STEP:
                rise = (h1 - h0) / (s1 - s0)
                if abs(rise + side / SLOPE) > STEP:
                    yield (h + side * s / SLOPE - h0 + rise * s0) / (rise + side / SLOPE)
        for other_s, other_h in line:
            yield (s + other_s + side * SLOPE * (h - other_h)) / 2


def without_flat(points: Sequence[Pt]) -> list[Pt]:
    """The same line without points that lie on the straight way between their neighbours."""
    kept: list[Pt] = []
    for place, point in enumerate(points):
        if kept and point[0] - kept[-1][0] <= STEP:
            continue
        if kept and place + 1 < len(points):
            (s0, h0), (s1, h1) = kept[-1], points[place + 1]
            straight = h0 + (h1 - h0) * (point[0] - s0) / max(s1 - s0, STEP)
            if abs(straight - point[1]) < 1e-9:
                continue
        kept.append(point)
    return kept
