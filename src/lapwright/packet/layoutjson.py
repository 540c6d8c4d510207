"""The layout's part of `plan.json`: plies with their pieces, details, laps, T-joints, rolls, starters, sheets."""

from __future__ import annotations

from typing import Any

from lapwright.assembly.values import Sheet
from lapwright.layout.values import (
    Choice,
    Detail,
    Frame,
    Lap,
    Layout,
    Piece,
    PlyLayout,
    Roll,
    TJoint,
    Weighed,
)
from lapwright.units.factors import TICKS_PER_METRE

Json = dict[str, Any]


def metres(ticks: float) -> float:
    """Ticks as the nearest float of metres."""
    return ticks / TICKS_PER_METRE


def ply_entry(ply: PlyLayout, frame: Frame) -> Json:
    """One ply on one area: its courses and pieces."""
    return {
        "area": ply.area,
        "ply": ply.ply,
        "position": ply.position,
        "sheet": ply.sheet,
        "courses": [{"index": c.index, "low": metres(c.low), "high": metres(c.high)} for c in ply.courses],
        "pieces": [piece_entry(piece, frame) for piece in ply.pieces],
    }


def piece_entry(piece: Piece, frame: Frame) -> Json:
    """One piece; `length` is that of the blank as laid, `cut_length` what is cut off the roll for it."""
    corners = ((piece.u0, piece.v0), (piece.u1, piece.v0), (piece.u1, piece.v1), (piece.u0, piece.v1))
    return {
        "id": piece.id,
        "course": piece.course,
        "sequence": piece.sequence,
        "roll": piece.roll,
        "length": metres(piece.u1 - piece.u0),
        "width": metres(piece.v1 - piece.v0),
        "blank": [frame.plan(u, v) for u, v in corners],
        "corner_cuts": [
            {"corner": frame.plan(*cut.corner), "along": metres(cut.along), "across": metres(cut.across)}
            for cut in piece.corner_cuts
        ],
        "place": piece.place,
        "cut_length": metres(piece.cut_length),
    }


def detail_entry(detail: Detail) -> Json:
    """One strip, flashing, corner, target, length of metal, or thing set at one place."""
    return {
        "id": detail.id,
        "kind": detail.kind,
        "area": detail.area,
        "sheet": detail.sheet,
        "sizes": {"length": detail.length, "width": detail.width, "parts": dict(detail.parts)},
        "roll": detail.roll,
        "of": detail.of,
        "ply": detail.ply,
        "line": detail.line,
        "takes": metres(detail.takes_ticks),
        "at": detail.at,
        "form": detail.form,
        "beside": detail.beside,
        "cut_length": metres(detail.cut_ticks),
    }


def lap_entry(lap: Lap) -> Json:
    """One lap."""
    return {
        "id": lap.id,
        "kind": lap.kind,
        "area": lap.area,
        "ply": lap.ply,
        "pieces": list(lap.pieces),
        "line": lap.line,
        "length": lap.length,
        "width": lap.width,
    }


def tjoint_entry(joint: TJoint) -> Json:
    """One T-joint."""
    return {
        "id": joint.id,
        "area": joint.area,
        "ply": joint.ply,
        "at": joint.at,
        "laps": list(joint.laps),
        "kind": joint.kind,
    }


def roll_entry(roll: Roll) -> Json:
    """One roll and what is cut from it."""
    used, left = metres(roll.used), metres(roll.left)
    return {"id": roll.id, "sheet": roll.sheet, "pieces": list(roll.pieces), "used": used, "left": left}


def counts_entry(ply: PlyLayout) -> Json:
    """How many rolls and end laps a ply takes, and the fewest that any layout could."""
    return {
        "area": ply.area,
        "ply": ply.ply,
        "rolls": ply.rolls,
        "rolls_at_least": ply.rolls_at_least,
        "end_laps": ply.end_laps,
        "end_laps_at_least": ply.end_laps_at_least,
    }


def whole_counts(layout: Layout) -> Json:
    """Rolls and end laps of the whole layout, and the fewest that any could take: at least the sum over the plies."""
    return {
        "rolls": len(layout.rolls),
        "rolls_at_least": layout.rolls_at_least,
        "end_laps": sum(ply.end_laps for ply in layout.plies),
        "end_laps_at_least": layout.end_laps_at_least,
    }


def cost_entry(own: Weighed, layout: Layout) -> Json:
    """What the layout costs part by part, the least that any could, and what each aim comes to."""
    return {
        "aim": own.aim,
        "cost": layout.cost,
        "cost_at_least": layout.cost_at_least,
        "labour": own.labour,
        "labour_given": own.is_labour_given,
        "parts": [
            {
                "what": part.what,
                "sheet": part.sheet,
                "count": part.count,
                "each": part.each,
                "cost": part.count * part.each,
                "seconds": part.seconds,
                "given": part.is_given,
            }
            for part in own.parts
        ],
        "choices": [choice_entry(choice, own.aim) for choice in own.choices],
    }


def choice_entry(choice: Choice, aim: str) -> Json:
    """What the layout under one aim counts and costs; nulls where its end laps find no place."""
    counts = {
        "end_laps": choice.end_laps,
        "t_joints": choice.t_joints,
        "cuts": choice.cuts,
        "lengths": choice.lengths,
        "rips": choice.rips,
        "cost": choice.cost,
    }
    return {
        "aim": choice.aim,
        "chosen": choice.aim == aim,
        "rolls": dict(choice.rolls),
        **{name: count if choice.is_laid else None for name, count in counts.items()},
    }


def starter_entry(ply: PlyLayout) -> Json:
    """How a ply begins and how far its lap lines may move."""
    return {
        "area": ply.area,
        "ply": ply.ply,
        "begins": metres(ply.begins),
        "starter": metres(ply.starter),
        "tolerance": None if ply.tolerance is None else metres(ply.tolerance),
        "offset_least": None if ply.offset_least is None else metres(ply.offset_least),
        "exceptions": list(ply.exceptions),
    }


def frame_entry(frame: Frame) -> Json:
    """Where distances across and up the fall are counted from, and how they stand in the plan."""
    return {
        "origin": [metres(frame.origin[0]), metres(frame.origin[1])],
        "across": list(frame.across),
        "up": list(frame.up),
        "stretch": frame.stretch,
        "strapped": frame.is_strapped,
    }


def sheet_entry(sheet: Sheet) -> Json:
    """A sheet as typed from its data sheet."""
    return {
        "width": metres(sheet.width_ticks),
        "length": metres(sheet.length_ticks),
        "side_lap": metres(sheet.side_lap_ticks),
        "end_lap": metres(sheet.end_lap_ticks),
        "thickness": sheet.thickness,
        "apply_at_or_above_c": sheet.apply_at_or_above_c,
        "warm_rolls_at_or_above_c": sheet.warm_rolls_at_or_above_c,
        "with_heat_at_or_above_c": sheet.with_heat_at_or_above_c,
        "surfacing": sheet.surfacing,
    }
