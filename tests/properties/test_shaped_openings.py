"""Layouts round openings that are no upright rectangles: turned curbs, courtyards with corners turned in or cut off."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from test_layout import Roof, seeded, told

from lapwright.roof.build import problems
from lapwright.roof.values import Opening, Point

LEAST = 2 * 24_384  # a curb narrower than 2' is left as it is


def turned(degrees: float) -> Callable[[int, int], list[Point]]:
    """A rectangle four fifths as large, turned."""
    cosine, sine = 0.8 * math.cos(math.radians(degrees)), 0.8 * math.sin(math.radians(degrees))
    return lambda w, h: [
        (round(x * cosine - y * sine), round(x * sine + y * cosine)) for x, y in ((0, 0), (w, 0), (w, h), (0, h))
    ]


def ell(w: int, h: int) -> list[Point]:
    """An L."""
    return [(0, 0), (w, 0), (w, h // 2), (w // 2, h // 2), (w // 2, h), (0, h)]


def octagon(w: int, h: int) -> list[Point]:
    """A rectangle with its corners cut off."""
    a, b = w // 4, h // 4
    return [(a, 0), (w - a, 0), (w, b), (w, h - b), (w - a, h), (a, h), (0, h - b), (0, b)]


def turned_ell(w: int, h: int) -> list[Point]:
    """An L four fifths as large, turned by 20 degrees."""
    cosine, sine = 0.8 * math.cos(math.radians(20)), 0.8 * math.sin(math.radians(20))
    return [(round(x * cosine - y * sine), round(x * sine + y * cosine)) for x, y in ell(w, h)]


def long_and_thin(w: int, h: int) -> list[Point]:
    """A rectangle turned by 45 degrees, as long as the diagonal of a square on the longer side."""
    long, thin = round(max(w, h) / math.sqrt(2)), round(min(w, h) // 4 / math.sqrt(2))
    return [(0, 0), (long, long), (long - thin, long + thin), (-thin, thin)]


SHAPES = {
    "turned 7": turned(7),
    "turned 30": turned(30),
    "ell": ell,
    "octagon": octagon,
    "turned ell": turned_ell,
    "long": long_and_thin,
}


def shaped(opening: Opening, shape: Callable[[int, int], list[Point]]) -> Opening:
    """The opening in another shape, its middle where it was."""
    (x, y), (w, h) = opening.corner, opening.size
    if min(w, h) < LEAST:
        return opening
    ring = shape(w, h)
    left, low = min(east for east, _ in ring), min(north for _, north in ring)
    wide, deep = max(east for east, _ in ring) - left, max(north for _, north in ring) - low
    own = tuple((east - left, north - low) for east, north in ring)
    return replace(opening, corner=(x + (w - wide) // 2, y + (h - deep) // 2), size=(wide, deep), ring=own)


def reshaped(roof: Roof, shape: Callable[[int, int], list[Point]]) -> Roof:
    """The roof with its openings in another shape."""
    areas = tuple(replace(each, openings=tuple(shaped(one, shape) for one in each.openings)) for each in roof.areas)
    return replace(roof, areas=areas)


# roofs with openings wide enough; none of them is refused in another shape
PIERCED = tuple(
    seed for seed in range(40) if any(min(one.size) >= LEAST for area in seeded(seed).areas for one in area.openings)
)


# a course whose runs lie beside one another past a turned L; an end lap beyond the tip of a long curb, where the blank
# of the next course's piece reaches but not the piece
KNOWN = ((51, "turned ell"), (58, "turned ell"), (105, "turned ell"), (101, "long"))
CASES = [*((seed, name) for seed in PIERCED[:7] for name in ("turned 7", "turned 30", "ell", "octagon")), *KNOWN]


@pytest.mark.parametrize(("seed", "name"), CASES)
def test_openings_of_any_shape_keep_every_rule(seed: int, name: str) -> None:
    """Whatever the shape of its openings, our layout of a roof keeps every rule."""
    roof = reshaped(seeded(seed), SHAPES[name])
    assert problems(roof.areas) == ()
    assert told(roof) == []
