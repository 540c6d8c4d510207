"""Strategies of polygons on a small lattice, where corners on sides, shared corners and shared sides are common."""

from __future__ import annotations

from hypothesis import strategies as st
from shapely import Polygon

from lapwright.geometry.polygon import Point


def points(size: int = 6, most: int = 9) -> st.SearchStrategy[list[Point]]:
    """Corners in any order; most such outlines cross themselves."""
    place = st.integers(0, size)
    return st.lists(st.tuples(place, place), min_size=3, max_size=most)


def simple(size: int = 6, most: int = 8) -> st.SearchStrategy[list[Point]]:
    """Outlines that enclose an area and do not cross themselves, by shapely's judgement."""
    return points(size, most).filter(
        lambda ring: len(set(ring)) > 2 and Polygon(ring).is_valid and Polygon(ring).area > 0
    )


def rectangles(size: int = 6) -> st.SearchStrategy[list[Point]]:
    """Rectangles along the axes that may reach past the lattice."""
    place, reach = st.integers(-1, size), st.integers(1, 4)
    return st.tuples(place, place, reach, reach).map(
        lambda r: [(r[0], r[1]), (r[0] + r[2], r[1]), (r[0] + r[2], r[1] + r[3]), (r[0], r[1] + r[3])]
    )


def convex(size: int = 200, most: int = 12) -> st.SearchStrategy[list[Point]]:
    """Convex outlines, counter-clockwise, no corner on a straight line."""
    return (
        st.lists(st.tuples(st.integers(0, size), st.integers(0, size)), min_size=3, max_size=most)
        .map(lambda ring: Polygon(ring).convex_hull if len(set(ring)) > 2 else Polygon())
        .filter(lambda hull: hull.geom_type == "Polygon" and not hull.is_empty)
        .map(lambda hull: [(int(x), int(y)) for x, y in hull.simplify(1e-9).reverse().exterior.coords[:-1]])
    )
