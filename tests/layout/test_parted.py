"""Where the course above lies, on ground that an opening may part, by hand [ticks]."""

from __future__ import annotations

from shapely import Point, Polygon, box, union_all

from lapwright.layout.lapground import shadow_of
from lapwright.layout.rows import Row
from lapwright.layout.values import Course

INCH = 2_032


def row(*openings: Polygon) -> Row:
    """A course from 0 to 39" up, 100" long, with what openings leave of it; laps of 3"."""
    whole = box(0, 0, 100 * INCH, 39 * INCH)
    ground = whole.difference(union_all(openings)) if openings else whole
    free = (3 * INCH, 36 * INCH)
    alone = ground.intersection(box(0, free[0], 100 * INCH, free[1]))
    near = tuple(tuple((int(u), int(v)) for u, v in one.exterior.coords[:-1]) for one in openings)
    course = Course(2, 0, 39 * INCH)
    return Row(course, ground, near, free, alone, ())


def on(shadow: Polygon, u: float, v: float) -> bool:
    """A place in inches is one that the course lies over."""
    return bool(shadow.contains(Point(u * INCH, v * INCH)))


def test_a_course_lies_over_all_of_its_width() -> None:
    """Without an opening, and past one that parts nothing: the sheet goes on round it."""
    for openings in ((), (box(10 * INCH, 10 * INCH, 20 * INCH, 20 * INCH),)):
        one = row(*openings)
        shadow = shadow_of(one, one.alone, -INCH)
        assert on(shadow, 5, 1)
        assert on(shadow, 60, 1)


def test_a_course_does_not_lie_on_ground_that_an_opening_parts_from_it() -> None:
    """An opening up to 40" along, 2" up and there down to the low edge, leaves a scrap: no sheet lies there."""
    slit = box(-INCH, 2 * INCH, 40 * INCH, 6 * INCH).union(box(38 * INCH, -INCH, 40 * INCH, 3 * INCH))
    one = row(slit)
    shadow = shadow_of(one, one.alone, -INCH)
    assert not on(shadow, 20, 1)
    assert on(shadow, 20, 10)
    assert on(shadow, 60, 1)
