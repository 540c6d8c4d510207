"""A plan as it was given, hand-edited perhaps, turned into values of our own; what can't be read is told by its path.

Only what the rules need is read, by the names of the plan file; other keys may be there or not.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from lapwright.rulecheck.node import Node
from lapwright.rulecheck.readdetail import GivenDetail, read_detail
from lapwright.rulecheck.values import XY


@dataclass(frozen=True, slots=True)
class GivenCourse:
    """A course: index, low and high edge of its sheet up the fall [m]."""

    index: int
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class GivenCut:
    """A corner cut: plan point [m], size along and across the sheet [m]."""

    corner: XY
    along: float
    across: float


@dataclass(frozen=True, slots=True)
class GivenPiece:
    """A piece; place and cut_length are None where the plan does not say them."""

    id: str
    course: int
    sequence: int
    roll: str
    length: float
    width: float
    blank: tuple[XY, ...]
    corner_cuts: tuple[GivenCut, ...]
    place: int | None
    cut_length: float | None


@dataclass(frozen=True, slots=True)
class GivenPly:
    """A ply on an area."""

    area: str
    ply: str
    position: int
    sheet: str
    courses: tuple[GivenCourse, ...]
    pieces: tuple[GivenPiece, ...]


@dataclass(frozen=True, slots=True)
class GivenLap:
    """A lap as listed."""

    id: str
    kind: str
    area: str
    ply: str
    pieces: tuple[str, str]
    line: tuple[XY, XY]
    length: float
    width: float


@dataclass(frozen=True, slots=True)
class GivenTJoint:
    """A T-joint as listed."""

    id: str
    area: str
    ply: str
    at: XY
    laps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GivenRoll:
    """A roll as listed."""

    id: str
    sheet: str
    pieces: tuple[str, ...]
    used: float
    left: float


@dataclass(frozen=True, slots=True)
class GivenCount:
    """Counts of one ply on one area, and their bounds."""

    area: str
    ply: str
    rolls: int
    rolls_at_least: int
    end_laps: int
    end_laps_at_least: int


@dataclass(frozen=True, slots=True)
class GivenArea:
    """An area as the plan has it."""

    name: str
    outline: tuple[XY, ...]


@dataclass(frozen=True, slots=True)
class GivenPlan:
    """All of a plan that the rules look at."""

    areas: tuple[GivenArea, ...]
    plies: tuple[GivenPly, ...]
    details: tuple[GivenDetail, ...]
    laps: tuple[GivenLap, ...]
    tjoints: tuple[GivenTJoint, ...]
    rolls: tuple[GivenRoll, ...]
    counts: tuple[GivenCount, ...]


def read_plan(plan: Mapping[str, Any]) -> GivenPlan:
    """The parts of a plan that are judged.

    Raises: Unreadable with the path of the first thing that is missing or not what it should be.
    """
    top = Node(plan, "")
    return GivenPlan(
        areas=tuple(_area(node) for node in top.at("areas").each()),
        plies=tuple(_ply(node) for node in top.at("plies").each()),
        details=tuple(read_detail(node) for node in top.at("details").each()),
        laps=tuple(_lap(node) for node in top.at("laps").each()),
        tjoints=tuple(_tjoint(node) for node in top.at("tjoints").each()),
        rolls=tuple(_roll(node) for node in top.at("rolls").each()),
        counts=tuple(_count(node) for node in top.at("layout").each()),
    )


def _area(node: Node) -> GivenArea:
    return GivenArea(node.at("name").text(), tuple(point.point() for point in node.at("outline").each()))


def _ply(node: Node) -> GivenPly:
    return GivenPly(
        area=node.at("area").text(),
        ply=node.at("ply").text(),
        position=node.at("position").whole(),
        sheet=node.at("sheet").text(),
        courses=tuple(_course(each) for each in node.at("courses").each()),
        pieces=tuple(_piece(each) for each in node.at("pieces").each()),
    )


def _course(node: Node) -> GivenCourse:
    return GivenCourse(node.at("index").whole(), node.at("low").number(), node.at("high").number())


def _piece(node: Node) -> GivenPiece:
    place, cut_length = node.maybe("place"), node.maybe("cut_length")
    return GivenPiece(
        id=node.at("id").text(),
        course=node.at("course").whole(),
        sequence=node.at("sequence").whole(),
        roll=node.at("roll").text(),
        length=node.at("length").number(),
        width=node.at("width").number(),
        blank=tuple(corner.point() for corner in node.at("blank").each(4)),
        corner_cuts=tuple(_cut(each) for each in node.at("corner_cuts").each()),
        place=None if place is None else place.whole(),
        cut_length=None if cut_length is None else cut_length.number(),
    )


def _cut(node: Node) -> GivenCut:
    return GivenCut(node.at("corner").point(), node.at("along").number(), node.at("across").number())


def _lap(node: Node) -> GivenLap:
    one, two = node.at("pieces").each(2)
    start, end = node.at("line").each(2)
    return GivenLap(
        id=node.at("id").text(),
        kind=node.at("kind").text(),
        area=node.at("area").text(),
        ply=node.at("ply").text(),
        pieces=(one.text(), two.text()),
        line=(start.point(), end.point()),
        length=node.at("length").number(),
        width=node.at("width").number(),
    )


def _tjoint(node: Node) -> GivenTJoint:
    return GivenTJoint(
        id=node.at("id").text(),
        area=node.at("area").text(),
        ply=node.at("ply").text(),
        at=node.at("at").point(),
        laps=tuple(each.text() for each in node.at("laps").each()),
    )


def _roll(node: Node) -> GivenRoll:
    return GivenRoll(
        id=node.at("id").text(),
        sheet=node.at("sheet").text(),
        pieces=tuple(each.text() for each in node.at("pieces").each()),
        used=node.at("used").number(),
        left=node.at("left").number(),
    )


def _count(node: Node) -> GivenCount:
    return GivenCount(
        area=node.at("area").text(),
        ply=node.at("ply").text(),
        rolls=node.at("rolls").whole(),
        rolls_at_least=node.at("rolls_at_least").whole(),
        end_laps=node.at("end_laps").whole(),
        end_laps_at_least=node.at("end_laps_at_least").whole(),
    )
