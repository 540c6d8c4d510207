"""What is not right within one area: its outline, and what stands in it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from lapwright.defaults.table import table
from lapwright.geometry.meets import is_well_inside, meeting_boxes, overlap
from lapwright.geometry.polygon import Side, bounds, contains, is_clear_of, place_of, sides_of, turn
from lapwright.geometry.sweep import crossings, meeting_place
from lapwright.roof.problem import Problem, from_corner
from lapwright.roof.values import Area, Drain, Opening, Pipe, Point
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units

WALK = "E 120', N 64', W 120', S 64'"
ON_A_SIDE = ("scupper", "overflow_scupper")


def outline_problems(area: Area, path: str, units: Units) -> Iterator[Problem]:
    """What keeps an outline from enclosing one piece of roof.

    Source: arithmetic, exact on whole ticks
    Checked: tests/roof/test_roof_inside.py
    """
    corners = len(area.outline)
    most = int(table("roof")["corners_most"].number())
    if corners < 3:
        yield Problem(path, "an outline of at least 3 corners", WALK, f"corners: {corners}")
    elif corners > most:
        needs = f"an outline of at most {most:,} corners"
        yield Problem(path, needs, "the roof's own corners; arcs in fewer straight sides", f"corners: {corners:,}")
    elif all(turn(area.outline[0], area.outline[1], point) == 0 for point in area.outline) and _spans(area):
        yield Problem(path, "an outline that encloses an area", WALK, "all corners on one line")
    else:
        yield from _side_problems(area, path, units)


def _spans(area: Area) -> bool:
    return area.outline[0] != area.outline[1]


def _side_problems(area: Area, path: str, units: Units) -> Iterator[Problem]:
    sides = sides_of(area.outline)
    for number, (start, end) in enumerate(sides, start=1):
        if start == end:
            place = from_corner(area, start, units)
            yield Problem(
                path, "sides with a length", f"leave side {number} out", f"side {number} has none, at {place}"
            )
    for i, j in crossings(area.outline):
        place = from_corner(area, meeting_place(sides[i], sides[j]), units)
        yield Problem(
            path,
            "an outline whose sides meet only where one ends and the next starts",
            "the corners in walking order, none passed twice",
            f"sides {i + 1} and {j + 1} cross or touch at {place}",
        )


def opening_problems(area: Area, path: str, units: Units) -> Iterator[Problem]:
    """Openings that leave the area, have no size, or overlap an earlier one (the first is told); touching is allowed.

    Source: arithmetic, exact on whole ticks
    Checked: tests/roof/test_roof_inside.py
    """
    sound = []
    for place, opening in enumerate(area.openings):
        if min(opening.size) <= 0:
            yield Problem(f"{path}[{place}].size", "a size above 0", "size: E 8' x N 6'", opening.name)
        elif opening.ring and not is_well_inside(area.outline, opening.outline):
            needs = f"an opening wholly inside area {area.name}; only an upright rectangle may touch its outline"
            read = f"{opening.name} {_span_words(area, opening, units)}"
            yield Problem(f"{path}[{place}]", needs, "another place for it", read)
        elif not opening.ring and not contains(area.outline, opening.outline):
            yield _outside(area, opening, f"{path}[{place}]", units)
        else:
            sound.append(place)
    diagonals = [_diagonal(area.openings[place]) for place in sound]
    under: dict[int, int] = {}
    for i, j in meeting_boxes(diagonals, diagonals):
        first, second = sound[i], sound[j]
        if first < under.get(second, second) and _openings_overlap(area.openings[first], area.openings[second]):
            under[second] = first
    for second, first in sorted(under.items()):
        one, two = area.openings[first], area.openings[second]
        spans = f"{_span_words(area, two, units)}; {one.name} {_span_words(area, one, units)}"
        needs = f"openings that do not overlap; {two.name} overlaps {one.name} (touching is allowed)"
        yield Problem(f"{path}[{second}]", needs, "another at or size", f"{two.name} {spans}")


def _outside(area: Area, opening: Opening, path: str, units: Units) -> Problem:
    """An opening that is not wholly inside, with a place that would do if pushing it in from the side helps."""
    left, low, right, high = bounds(area.outline)
    width, depth = opening.size
    x = max(left, min(opening.corner[0], right - width))
    y = max(low, min(opening.corner[1], high - depth))
    pushed = Opening(opening.name, opening.kind, (x, y), opening.size)
    write = "another at or size"
    if contains(area.outline, pushed.outline):
        write = f"at: {from_corner(area, (x, y), units)}"
    return Problem(
        path,
        f"an opening wholly inside area {area.name} (touching its outline is allowed)",
        write,
        f"{opening.name} {_span_words(area, opening, units)}",
    )


def _diagonal(opening: Opening) -> Side:
    """Of the upright rectangle round it."""
    (x, y), (width, depth) = opening.corner, opening.size
    return ((x, y), (x + width, y + depth))


def _span_words(area: Area, opening: Opening, units: Units) -> str:
    low, high = _diagonal(opening)
    return f"from {from_corner(area, low, units)} to {from_corner(area, high, units)}"


def _openings_overlap(one: Opening, two: Opening) -> bool:
    if one.ring or two.ring:
        return overlap(one.outline, two.outline)
    (ax, ay), (bx, by) = one.corner, two.corner
    return ax < bx + two.size[0] and bx < ax + one.size[0] and ay < by + two.size[1] and by < ay + one.size[1]


def pipe_problems(area: Area, path: str, units: Units) -> Iterator[Problem]:
    """Pipes that are not wholly on the area's field.

    Source: arithmetic, exact on whole ticks
    Checked: tests/roof/test_roof_inside.py
    """
    for place, pipe in enumerate(area.pipes):
        yield from _circle_problems(area, pipe, f"{path}[{place}]", units)


def drain_problems(area: Area, path: str, units: Units) -> Iterator[Problem]:
    """Drains off the area's field, sides that are not there, scuppers that reach past their side's ends.

    A scupper's `from_start` counts to its middle, as a drain's `at` does.
    Source: arithmetic
    Checked: tests/roof/test_roof_inside.py
    """
    for place, drain in enumerate(area.drains):
        here = f"{path}[{place}]"
        if drain.at is not None:
            diameter = round((drain.diameter or 0.0) * TICKS_PER_METRE)
            yield from _circle_problems(area, Pipe(drain.name, drain.at, diameter), here, units, what="drain")
        if drain.side is not None and not 1 <= drain.side <= len(area.outline):
            needs = f"a side of area {area.name}, 1 to {len(area.outline)}"
            yield Problem(f"{here}.side", needs, "side: 1", f"{drain.name}, side {drain.side}")
        elif drain.kind in ON_A_SIDE:
            yield from _scupper_problems(area, drain, f"{here}.from_start", units)


def _scupper_problems(area: Area, drain: Drain, path: str, units: Units) -> Iterator[Problem]:
    if drain.side is None or drain.from_start is None:
        return
    start, end = sides_of(area.outline)[drain.side - 1]
    length, half = math.dist(start, end), (drain.width or 0.0) * TICKS_PER_METRE / 2
    middle = drain.from_start * TICKS_PER_METRE
    if half <= middle <= length - half:
        return
    least, most = units.tape(math.ceil(half)), units.tape(math.floor(length - half))
    what = "an overflow scupper" if drain.kind == "overflow_scupper" else "a scupper"
    read = f"{drain.name}, {units.tape(round(2 * half))} wide, its middle {units.tape(round(middle))} from the start"
    if 2 * half > length:
        needs = f"{what} no wider than side {drain.side}, {units.tape(round(length))} long"
        yield Problem(path, needs, "another side or width", read)
    else:
        needs = f"{what} wholly on side {drain.side}: its middle {least} to {most} from the side's start"
        yield Problem(path, needs, f"from_start: {least if middle < half else most}", read)


def _circle_problems(area: Area, pipe: Pipe, path: str, units: Units, *, what: str = "pipe") -> Iterator[Problem]:
    """A circle that is not wholly on the field: off the area, or in an opening."""
    at = from_corner(area, pipe.at, units)
    across = f"{units.tape(pipe.diameter)} across, " if pipe.diameter else ""
    read = f"{pipe.name}, {across}at {at}"
    if not _is_in(area.outline, pipe):
        yield Problem(path, f"a {what} wholly inside area {area.name}", "another at", read)
        return
    for opening in area.openings:
        if not _is_beside(opening.outline, pipe):
            yield Problem(path, f"a {what} clear of opening {opening.name}", "another at", read)


def _is_in(outline: Sequence[Point], pipe: Pipe) -> bool:
    return place_of(outline, pipe.at) > 0 and _clears(sides_of(outline), pipe)


def _is_beside(outline: Sequence[Point], pipe: Pipe) -> bool:
    return place_of(outline, pipe.at) <= 0 and _clears(sides_of(outline), pipe)


def _clears(sides: Iterable[tuple[Point, Point]], pipe: Pipe) -> bool:
    return all(is_clear_of(side, pipe.at, pipe.diameter) for side in sides)
