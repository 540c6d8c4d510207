"""Rings as openings: upright rectangles, others with the corners drawn, round ones as the rectangle round them.

A ring is *round* where it bulges all the way and has more corners than anyone lays flashings round one by one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lapwright.defaults.table import table
from lapwright.faults import Fault, Mended, Refused, shorten
from lapwright.geometry.meets import meeting_boxes
from lapwright.geometry.polygon import (
    Box,
    Point,
    bounds,
    counter_clockwise,
    place_of,
    sides_of,
    signed_area2,
    turn,
)
from lapwright.geometry.sweep import crossings, meeting_place
from lapwright.intake.plan_scale import How, refusal, without_repeats
from lapwright.intake.plan_values import DrawnOpening, LayerShapes
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.read import length_ticks

LONGEST_NAME = 60
COURTYARD = "Courtyard"
MOST_NAMED = 5
MOST_BENDS = 200  # of more corners none is looked at twice: they are a curve


@dataclass(frozen=True, slots=True)
class Ring:
    """A closed line on a layer of openings: its corners, the entities that draw it, the name it carries or none.

    is_curved: all of it is cut from curves.
    """

    corners: tuple[Point, ...]
    place: str
    name: str = ""
    is_curved: bool = False


@dataclass(frozen=True, slots=True)
class Label:
    """A text on a layer of openings, and where it stands."""

    text: str
    at: Point


def openings_of(
    rings: Sequence[Ring], labels: Sequence[Label], layer: str, how: How, *, called: str = "", key: str = ""
) -> LayerShapes:
    """The openings of a layer.  One that is drawn twice, or inside another, is one; a text inside names it.

    called: what those without a name are called, with a number; the layer's name if not given.
    key: how faults and notes name the layer, where otherwise.
    Raises: Refused with every ring that can't be an opening.
    """
    key = key or f"layer {shorten(layer, 40)}"
    made = LayerShapes()
    _not_too_many(len(rings), key, how)
    faults: list[Fault] = []
    sound: list[tuple[Ring, tuple[Point, ...]]] = []
    for ring in _outermost(rings, key, how, made.mended):
        found = _shape(ring, key, how, made.mended)
        if isinstance(found, Fault):
            faults.append(found)
        else:
            sound.append((ring, found))
    if faults:
        raise Refused(faults)
    names = _names([ring for ring, _ in sound], labels, called or layer, key, how, made.mended)
    for (ring, corners), name in zip(sound, list(names), strict=True):
        left, low, right, high = bounds(ring.corners)
        own = tuple((x - left, y - low) for x, y in corners)
        made.openings.append(DrawnOpening(name, layer, (left, low), (right - left, high - low), own))
    return made


def courtyards_of(rings: Sequence[Ring], labels: Sequence[Label], layer: str, how: How, *, key: str) -> LayerShapes:
    """Rings inside an outline as openings; what they are, the job file says.

    Raises: Refused
    """
    found = openings_of(rings, labels, layer, how, called=COURTYARD, key=key)
    count = len(found.openings)
    if count:
        told = ", ".join(f"{shorten(each.name, 40)} at {how.at(each.corner)}" for each in found.openings[:MOST_NAMED])
        told += f" and {count - MOST_NAMED} more" if count > MOST_NAMED else ""
        found.mended.append(Mended(how.file, key, f"rings inside the outline: {count}", f"taken as openings: {told}"))
    return found


def _not_too_many(count: int, key: str, how: How) -> None:
    most = int(table("roof")["standing_most"].number())
    if count > most:
        needs = f"at most {most:,} of a kind on a layer"
        raise refusal(how.file, key, f"shapes: {count:,}", needs, "the layer that holds the openings alone")


def _outermost(rings: Sequence[Ring], key: str, how: How, mended: list[Mended]) -> Iterator[Ring]:
    """The rings that lie in no other; a curb is often drawn with a line for each face."""
    boxes = [bounds(ring.corners) for ring in rings]
    diagonals = [((left, low), (right, high)) for left, low, right, high in boxes]
    inside: set[int] = set()
    for i, j in meeting_boxes(diagonals, diagonals):
        if i != j and is_inner_face(boxes[i], boxes[j]) and (boxes[i] != boxes[j] or i > j):
            inside.add(i)
        elif i != j and is_inner_face(boxes[j], boxes[i]) and (boxes[i] != boxes[j] or j > i):
            inside.add(j)
    for place, ring in enumerate(rings):
        if place not in inside:
            yield ring
    if inside:
        mended.append(Mended(how.file, key, f"rings inside another: {len(inside)}", "the outer one is the opening"))


def is_inner_face(inner: Box, outer: Box) -> bool:
    """The inner face of the same curb, not something else that stands within."""
    most = length_ticks(table("roof")["curb_face"].value)
    ins = (inner[0] - outer[0], inner[1] - outer[1], outer[2] - inner[2], outer[3] - inner[3])
    return min(ins) >= 0 and max(ins) <= most


def _shape(ring: Ring, key: str, how: How, mended: list[Mended]) -> tuple[Point, ...] | Fault:
    """The corners of a ring, counter-clockwise; none where it is read as the upright rectangle round it."""
    rows = table("roof")
    left, low, right, high = bounds(ring.corners)
    slack = length_ticks(rows["upright_within"].value)
    corners = _bends(ring.corners, slack)
    place = f"{key}, {ring.place}" if ring.place else key
    at = how.at((left, low))
    if len(corners) < 3:
        read, needs = f"a ring without an area, at {at}", "an opening with an area"
        return refusal(how.file, place, read, needs, "the opening as a rectangle").faults[0]
    found = crossings(corners)
    if found:
        one, two = (sides_of(corners)[number] for number in found[0])
        read, needs = f"lines that cross or touch at {how.at(meeting_place(one, two))}", "an opening that is one ring"
        return refusal(how.file, place, read, needs, "the corners in walking order, none passed twice").faults[0]
    ends = ((left, low), (right, low), (right, high), (left, high))
    off = max(min(_apart(corner, end) for end in ends) for corner in corners)
    if len(corners) == len(ends) and off <= slack:
        return ()
    own = abs(signed_area2(ring.corners)) / 2
    over = (right - left) * (high - low) / own
    is_near = len(corners) == len(ends) and off <= how.join
    is_small = ring.is_curved and len(corners) <= int(rows["round_over"].number())
    if is_near or is_small or (_is_round(corners) and over <= rows["box_over"].number()):
        size = f"E {how.shown.tape(right - left)} x N {how.shown.tape(high - low)}"
        lost = how.shown.area(((right - left) * (high - low) - own) / TICKS_PER_METRE**2)
        done = f"read as the upright rectangle round it, {size}: {lost} more than is drawn"
        mended.append(Mended(how.file, place, f"an opening of {len(corners)} corners at {at}", done))
        return ()
    most = int(rows["opening_corners_most"].number())
    if len(corners) > most:
        read, needs = f"an opening of {len(corners):,} corners at {at}", f"an opening of at most {most} corners"
        return refusal(how.file, place, read, needs, 'its curves in fewer straight sides: arcs_within: 2"').faults[0]
    return _from_south(counter_clockwise(corners))


def _is_round(corners: Sequence[Point]) -> bool:
    """It turns one way all round, at more corners than are flashed one by one."""
    if len(corners) <= int(table("roof")["round_over"].number()):
        return False
    turns = [turn(*each) for each in _threes(corners)]
    return min(turns) > 0 or max(turns) < 0


def _from_south(corners: Sequence[Point]) -> tuple[Point, ...]:
    """The corners from where the face that looks south begins; of several the westernmost."""
    sides = sides_of(corners)
    shares = [round((end[0] - start[0]) / math.dist(start, end), 9) for start, end in sides]
    first = max(range(len(sides)), key=lambda k: (shares[k], -sides[k][0][1], -sides[k][0][0]))
    return (*corners[first:], *corners[:first])


def _apart(one: Point, two: Point) -> int:
    return max(abs(one[0] - two[0]), abs(one[1] - two[1]))


def _bends(corners: Sequence[Point], slack: int) -> list[Point]:
    """The corners at which the ring turns: those that stand off the line of their neighbours by more than a little."""
    kept = [here for was, here, to in _threes(without_repeats(corners)) if turn(was, here, to)]
    while 3 < len(kept) <= MOST_BENDS:
        threes = list(_threes(kept))
        straight = next((k for k, three in enumerate(threes) if abs(turn(*three)) <= slack * _across(three)), None)
        if straight is None:
            break
        del kept[straight]
    return kept


def _across(three: tuple[Point, Point, Point]) -> float:
    """From the corner before to the corner after."""
    return math.dist(three[0], three[2])


def _threes(corners: Sequence[Point]) -> Iterator[tuple[Point, Point, Point]]:
    """Each corner between its neighbours."""
    return zip([*corners[-1:], *corners[:-1]], corners, [*corners[1:], *corners[:1]], strict=True)


def _names(
    rings: Sequence[Ring], labels: Sequence[Label], layer: str, key: str, how: How, mended: list[Mended]
) -> Iterator[str]:
    """Each ring's own name, else the first text inside it, else the layer with a number in the drawing's order."""
    inside: dict[int, list[str]] = {}
    homeless = 0
    for label in labels:
        home = next((place for place, ring in enumerate(rings) if _holds(ring, label.at)), None)
        if home is None:
            homeless += 1
        else:
            inside.setdefault(home, []).append(label.text)
    if homeless:
        mended.append(Mended(how.file, key, f"texts in no opening: {homeless}", "left out"))
    for place, ring in enumerate(rings):
        texts = inside.get(place, [])
        if len(texts) > 1 and not ring.name:
            done = f"the first is its name: {shorten(texts[0], 40)}"
            mended.append(Mended(how.file, f"{key}, {ring.place}", f"texts in the opening: {len(texts)}", done))
        yield ring.name or (texts[0] if texts else numbered(layer, place))


def _holds(ring: Ring, at: Point) -> bool:
    left, low, right, high = bounds(ring.corners)
    return left <= at[0] <= right and low <= at[1] <= high and place_of(ring.corners, at) >= 0


def numbered(layer: str, place: int) -> str:
    """The name of what carries none: the layer's and a number from 1."""
    return f"{plain_name(layer)}-{place + 1}"


def plain_name(text: str) -> str:
    """A text as a name: one line, at most as long as a name gets."""
    return shorten(" ".join(text.split()), LONGEST_NAME)
