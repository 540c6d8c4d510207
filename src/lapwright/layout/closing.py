"""The order in which laps and T-joints are closed: each with the later of the two sheets that it joins.

Pieces go down in the order of laying; before a ply's first piece its valley sheets, before the top ply's the strips
under metal and the targets that close a drain's metal, after the last piece of an area what is flashed there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lapwright.layout.values import Detail, Lap, PlyLayout, TJoint

UNDER_CAP = ("strip", "strip_corner")


def in_closing_order(
    laps: Sequence[Lap], joints: Sequence[TJoint], plies: Sequence[PlyLayout], details: Sequence[Detail]
) -> tuple[tuple[Lap, ...], tuple[TJoint, ...]]:
    """Laps and T-joints in the order in which they are closed; those closed together stay as they were.

    Source: common practice, no source
    Checked: tests/layout/test_closing.py
    """
    rank = ranks(plies, details)
    ordered = sorted(laps, key=lambda lap: max(rank[lap.pieces[0]], rank[lap.pieces[1]]))
    place = {lap.id: k for k, lap in enumerate(ordered)}
    return tuple(ordered), tuple(sorted(joints, key=lambda joint: max(place[joint.laps[0]], place[joint.laps[1]])))


def ranks(plies: Sequence[PlyLayout], details: Sequence[Detail]) -> Mapping[str, float]:
    """When each piece and detail goes down, by its id: numbers that rise."""
    found = {piece.id: float(piece.sequence) for ply in plies for piece in ply.pieces}
    begins = {(ply.area, ply.ply): float(ply.pieces[0].sequence) for ply in plies}
    tops = {ply.area: ply for ply in plies}
    for one in details:
        top = tops[one.area]
        if one.kind == "valley":
            found[one.id] = begins[(one.area, one.ply)] - 0.5
        elif one.kind in UNDER_CAP or (one.kind == "target" and one.ply != top.ply):
            found[one.id] = begins[(one.area, top.ply)] - 0.25
        else:
            found[one.id] = float(top.pieces[-1].sequence) + 0.5
    return found
