"""Where the course above lies, on ground that an opening may part, and who covers a corner of it; by hand [ticks]."""

from __future__ import annotations

from dataclasses import replace

from shapely import Point, Polygon, box, union_all

from lapwright.layout.lapground import shadow_of
from lapwright.layout.region import Region
from lapwright.layout.rows import Row
from lapwright.layout.runs import Run, own_span, ply_runs
from lapwright.layout.values import Course

INCH = 2_032
Place = tuple[float, float]


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


def runs_of(*corners: Place, cut: tuple[Place, ...] = ()) -> list[list[tuple[float, float]]]:
    """Where the runs of two courses begin and end [in]: 0 to 39" and 36" to 75" up, of an outline and an opening."""
    ring = tuple((round(u * INCH), round(v * INCH)) for u, v in corners)
    hole = tuple((round(u * INCH), round(v * INCH)) for u, v in cut)
    shape, right = Polygon(ring), max(u for u, _ in ring)
    region = Region(ring, (hole,) if hole else (), shape, 0, 75 * INCH, 0, right)
    courses = (Course(1, 0, 39 * INCH), Course(2, 36 * INCH, 75 * INCH))
    found = ply_runs(region, courses, 3 * INCH)
    return [[(round(run.left / INCH, 2), round(run.right / INCH, 2)) for run in runs] for runs in found]


def test_the_course_above_goes_on_for_a_corner_that_would_take_a_piece_of_its_own() -> None:
    """A corner stands out to the left 37.5" up, one side up from it by 2 in 1, one down by 1 in 1.

    The lower course is needed from 1.5" on, 36" up, the upper one from 0.75" on, 39" up; the corner left of that, which
    neither has, adjoins the upper one only.
    """
    assert runs_of((37.5, 0), (99, 0), (99, 75), (18.75, 75), (0, 37.5)) == [[(1.5, 99)], [(0, 99)]]


def test_the_lower_course_goes_on_for_a_corner_beside_it() -> None:
    """The corner 36.5" up: the lower course is needed from 0.5" on, the upper one from 1.25" on."""
    assert runs_of((36.5, 0), (99, 0), (99, 75), (19.25, 75), (0, 36.5)) == [[(0, 99)], [(1.25, 99)]]


def test_a_corner_that_an_opening_parts_from_both_courses_is_a_piece_of_the_lower_one() -> None:
    """An opening goes in over the corner, 38" up, and down to the lower side 0.8" along, where that is 36.7" up.

    The lower course goes on right of it, where the opening's end meets the lower side 2" along, 35.5" up; the upper
    one above it, 39.04" up, where the upper side is 0.77" along.
    """
    opening = ((-5, 38), (0.8, 38), (0.8, 35), (2, 35), (2, 39.04), (-5, 39.04))
    found = runs_of((37.5, 0), (99, 0), (99, 75), (18.75, 75), (0, 37.5), cut=opening)
    assert found == [[(0, 0.8), (2, 99)], [(0.77, 99)]]


def test_an_opening_askew_parts_a_course_where_no_level_does() -> None:
    """A bar from (0", 0") up to (60", 30") across a course 39" high that is 60" long, 5" of it measured upright.

    What lies over it begins 5" up at the left end, what lies under it ends 30" up at the right one.
    """
    bar = tuple((u * INCH, v * INCH) for u, v in ((-20, -10), (70, 35), (70, 40), (-20, -5)))
    ring = tuple((u * INCH, v * INCH) for u, v in ((0, 0), (60, 0), (60, 39), (0, 39)))
    shape = Polygon(ring).difference(Polygon(bar))
    region = Region(ring, (bar,), shape, 0, 39 * INCH, 0, 60 * INCH)
    (runs,) = ply_runs(region, [Course(1, 0, 39 * INCH)], 3 * INCH)
    under, over = sorted(runs, key=lambda run: float(run.shape.centroid.y))
    assert over.span == (5 * INCH, 39 * INCH)
    assert under.span == (0, 30 * INCH)


def test_a_run_that_lies_on_both_sides_of_another_is_neither_above_nor_below_it() -> None:
    """It is needed up to 10" alone, but over a tongue its sheet goes on above the other one too."""
    course = Course(1, 0, 39 * INCH)
    needed, other = (box(*(INCH * at for at in ends)) for ends in ((0, 0, 60, 10), (55, 20, 90, 39)))
    behind = box(50 * INCH, 30 * INCH, 60 * INCH, 39 * INCH)
    lower = Run(1, 0, 60 * INCH, (), (), needed, needed)
    upper = Run(1, 55 * INCH, 90 * INCH, (), (), other, other)
    assert own_span(upper, [lower, upper], course) == (20 * INCH, 39 * INCH)
    assert own_span(upper, [replace(lower, lies=union_all([needed, behind])), upper], course) is None
