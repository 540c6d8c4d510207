"""A paper with its parts by id, made once for all pages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.layout.values import Detail, Lap, Piece, TJoint
from lapwright.packet.values import Paper
from lapwright.units.write import Units


@dataclass(frozen=True, slots=True)
class Book:
    """The paper, its units, and what its ids stand for.  joints: by the id of their end lap."""

    paper: Paper
    units: Units
    pieces: Mapping[str, Piece]
    details: Mapping[str, Detail]
    laps: Mapping[str, Lap]
    joints: Mapping[str, tuple[TJoint, ...]]


def open_book(paper: Paper) -> Book:
    """The paper, ready to be looked up."""
    joints: dict[str, tuple[TJoint, ...]] = {}
    for joint in paper.layout.tjoints:
        joints[joint.laps[0]] = (*joints.get(joint.laps[0], ()), joint)
    return Book(
        paper=paper,
        units=Units(paper.head.units),
        pieces={piece.id: piece for piece in paper.layout.pieces},
        details={detail.id: detail for detail in paper.layout.details},
        laps={lap.id: lap for lap in paper.layout.laps},
        joints=joints,
    )
