"""A plain plan judged by the product's rule checker, which has no hand in laying out."""

from __future__ import annotations

from itertools import count

from layout_ask import Plan
from layout_ours import Case

from lapwright.assembly.values import Ply
from lapwright.layout.values import Course, Frame, Piece, PlyLayout, Roll
from lapwright.packet.layoutjson import ply_entry, roll_entry
from lapwright.packet.planjson import area_entry
from lapwright.rulecheck.check import find_violations

# a plain plan has no list of laps, T-joints and corner cuts, and no counts or details of its own
NOT_IN_A_PLAN = ("lap", "tjoint", "corner_cut", "count", "bound")


def violations(case: Case, plan: Plan, unit: int) -> list[str]:
    """What the rule checker says of a plan given in units."""
    frame = Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.0)
    numbers = count(1)
    plies = [ply_layout(case.plies, p, plan, (unit, numbers)) for p in range(len(plan))]
    entries = {
        "areas": [area_entry(case.area)],
        "plies": [ply_entry(ply, frame) for ply in plies],
        "details": [],
        "laps": [],
        "tjoints": [],
        "rolls": [roll_entry(roll) for roll in rolls_of(plies, case.plies)],
        "layout": [],
    }
    found = find_violations(entries, areas=[case.area], plies=case.plies, rules=case.rules)
    return [f"{one.rule}: {one.text}" for one in found if one.rule not in NOT_IN_A_PLAN]


def ply_layout(plies: tuple[Ply, ...], p: int, plan: Plan, counted: tuple[int, count[int]]) -> PlyLayout:
    """One ply of a plan with ids, places and sequence as the product has them."""
    ply, (unit, numbers) = plies[p], counted
    courses, pieces = [], []
    for k, course in enumerate(plan[p], start=1):
        courses.append(Course(k, course.low * unit, course.high * unit))
        for place, piece in enumerate(course.pieces, start=1):
            pieces.append(
                Piece(
                    id=f"Main/{ply.ply}/{k:02d}/{place}",
                    area="Main",
                    ply=ply.ply,
                    course=k,
                    place=place,
                    u0=piece.left * unit,
                    u1=piece.right * unit,
                    v0=course.low * unit,
                    v1=course.high * unit,
                    cut_length=piece.cut * unit,
                    sheet=ply.sheet.name,
                    roll=f"{ply.sheet.name} {piece.roll}",
                    sequence=next(numbers),
                )
            )
    return PlyLayout("Main", ply.ply, p + 1, ply.sheet.name, tuple(courses), tuple(pieces), 0, 0, None, None)


def rolls_of(laid: list[PlyLayout], plies: tuple[Ply, ...]) -> list[Roll]:
    """The rolls that the pieces name, with what is used and left of each."""
    lengths = {ply.sheet.name: ply.sheet.length_ticks for ply in plies}
    found: dict[str, list[Piece]] = {}
    for piece in (piece for ply in laid for piece in ply.pieces):
        found.setdefault(piece.roll, []).append(piece)
    rolls = []
    for name, pieces in found.items():
        used, sheet = sum(piece.cut_length for piece in pieces), pieces[0].sheet
        rolls.append(Roll(name, sheet, tuple(piece.id for piece in pieces), used, lengths[sheet] - used))
    return rolls
