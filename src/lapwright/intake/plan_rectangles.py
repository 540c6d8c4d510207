"""Rings as openings: each is an upright rectangle, or the smallest one that holds it where little is lost by that."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lapwright.defaults.table import table
from lapwright.faults import Fault, Mended, Refused, shorten
from lapwright.geometry.meets import meeting_boxes
from lapwright.geometry.polygon import Box, Point, bounds, place_of, signed_area2, turn
from lapwright.intake.plan_scale import How, refusal
from lapwright.intake.plan_values import DrawnOpening, LayerShapes
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.read import length_ticks

LONGEST_NAME = 60


@dataclass(frozen=True, slots=True)
class Ring:
    """A closed line on a layer of openings: its corners, the entities that draw it, the name it carries or none."""

    corners: tuple[Point, ...]
    place: str
    name: str = ""


@dataclass(frozen=True, slots=True)
class Label:
    """A text on a layer of openings, and where it stands."""

    text: str
    at: Point


def rectangles(rings: Sequence[Ring], labels: Sequence[Label], layer: str, how: How) -> LayerShapes:
    """The openings of a layer.  One that is drawn twice, or inside another, is one; a text inside names it.

    Raises: Refused with every ring that is no rectangle, nor near to one.
    """
    key = f"layer {shorten(layer, 40)}"
    made = LayerShapes()
    _not_too_many(len(rings), key, how)
    faults: list[Fault] = []
    sound: list[Ring] = []
    for ring in _outermost(rings, key, how, made.mended):
        found = _as_box(ring, key, how)
        if isinstance(found, Fault):
            faults.append(found)
            continue
        sound.append(ring)
        if found:
            made.mended.append(found)
    if faults:
        raise Refused(faults)
    names = list(_names(sound, labels, layer, key, how, made.mended))
    for ring, name in zip(sound, names, strict=True):
        left, low, right, high = bounds(ring.corners)
        made.openings.append(DrawnOpening(name, layer, (left, low), (right - left, high - low)))
    return made


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
        if i != j and _is_in(boxes[i], boxes[j]) and (boxes[i] != boxes[j] or i > j):
            inside.add(i)
        elif i != j and _is_in(boxes[j], boxes[i]) and (boxes[i] != boxes[j] or j > i):
            inside.add(j)
    for place, ring in enumerate(rings):
        if place not in inside:
            yield ring
    if inside:
        mended.append(Mended(how.file, key, f"rings inside another: {len(inside)}", "the outer one is the opening"))


def _is_in(inner: Box, outer: Box) -> bool:
    """The inner face of the same curb, not something else that stands within."""
    most = length_ticks(table("roof")["curb_face"].value)
    ins = (inner[0] - outer[0], inner[1] - outer[1], outer[2] - inner[2], outer[3] - inner[3])
    return min(ins) >= 0 and max(ins) <= most


def _as_box(ring: Ring, key: str, how: How) -> Fault | Mended | None:
    """Nothing for an upright rectangle; what was mended for a ring near to one; a fault for any other."""
    left, low, right, high = bounds(ring.corners)
    slack = length_ticks(table("roof")["upright_within"].value)
    corners = _without_straights(ring.corners)
    ends = ((left, low), (right, low), (right, high), (left, high))
    if len(corners) == 4 and all(min(_apart(corner, end) for end in ends) <= slack for corner in corners):
        return None
    own = abs(signed_area2(ring.corners)) / 2
    place = f"{key}, {ring.place}" if ring.place else key
    tape = how.shown.tape
    size = f"E {tape(right - left)} x N {tape(high - low)}"
    at = how.at((left, low))
    if own == 0:
        read, needs = f"a ring without an area, at {at}", "an opening with an area"
        return refusal(how.file, place, read, needs, "the opening as a rectangle").faults[0]
    over = (right - left) * (high - low) / own
    if over > table("roof")["box_over"].number():
        read = f"a shape of {len(corners)} corners at {at}; the rectangle round it, {size}, is {over:.2f} times it"
        needs = "an opening that is a rectangle whose sides run east and north, or nearly"
        write = "rectangles that make up the opening, or the drawing turned until its sides run east and north"
        return refusal(how.file, place, read, needs, write).faults[0]
    lost = how.shown.area(((right - left) * (high - low) - own) / TICKS_PER_METRE**2)
    found = f"an opening of {len(corners)} corners at {at}"
    return Mended(how.file, place, found, f"read as the upright rectangle round it, {size}: {lost} more than is drawn")


def _apart(one: Point, two: Point) -> int:
    return max(abs(one[0] - two[0]), abs(one[1] - two[1]))


def _without_straights(corners: Sequence[Point]) -> list[Point]:
    """The corners at which the ring turns."""
    before = [*corners[-1:], *corners[:-1]]
    after = [*corners[1:], *corners[:1]]
    return [here for was, here, to in zip(before, corners, after, strict=True) if turn(was, here, to)]


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
