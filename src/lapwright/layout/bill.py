"""What a finished layout counts and costs: rolls, end laps, T-joints, cuts, different lengths and rips.

The search weighs what it has so far; this counts what lies there in the end, so one number stands for every layout.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lapwright.layout.cost import Costs, lap_worth, weights_of
from lapwright.layout.values import PlyLayout, Roll, TJoint


@dataclass(frozen=True, slots=True)
class Bill:
    """Rolls by sheet, those for details included; of the plies: end laps, T-joints, cuts, new lengths, new rips.

    T-joints of details are not among them, as little as their laps and cuts: they come with the details, wherever the
    joints of the field lie, but for inches.

    cuts: pieces shorter than a roll.  lengths, rips: different cut lengths under a roll, and different widths under a
    sheet's, each counted ply by ply.
    """

    rolls: Mapping[str, int]
    end_laps: int
    t_joints: int
    cuts: int
    lengths: int
    rips: int


def make_bill(
    plies: Sequence[PlyLayout], rolls: Sequence[Roll], tjoints: Sequence[TJoint], sizes: Mapping[str, tuple[int, int]]
) -> Bill:
    """What a layout counts.  sizes: width and roll length of each sheet [ticks].

    Source: arithmetic
    Checked: tests/layout/test_bill.py, tests/reference
    """
    laps = cuts = lengths = rips = 0
    for ply in plies:
        width, roll = sizes[ply.sheet]
        shorter = [piece.cut_length for piece in ply.pieces if piece.cut_length < roll]
        laps, cuts = laps + ply.end_laps, cuts + len(shorter)
        lengths += len(set(shorter))
        rips += len({course.high - course.low for course in ply.courses} - {width})
    counts = {name: sum(1 for roll in rolls if roll.sheet == name) for name in sizes}
    joints = sum(1 for joint in tjoints if joint.kind == "field")
    return Bill(counts, laps, joints, cuts, lengths, rips)


def money(bill: Bill, costs: Costs) -> float:
    """What a bill comes to.

    Source: arithmetic; prices and minutes: defaults/layout.csv
    Checked: tests/layout/test_bill.py, tests/reference
    """
    paid = sum(count * costs.price(name) for name, count in bill.rolls.items())
    paid += bill.end_laps * costs.worth("end_lap") + bill.t_joints * costs.worth("t_joint")
    return paid + bill.cuts * costs.worth("cut") + work_of_new(bill, costs)


def aimed(bill: Bill, aim: str, costs: Costs) -> float:
    """What a bill comes to with what the aim spares weighed far above its cost.

    Source: the aim's own meaning
    Checked: tests/layout/test_bill.py
    """
    weights = weights_of(aim, costs, dict.fromkeys(bill.rolls, 0))
    more = sum(count * (weights.roll[name] - costs.price(name)) for name, count in bill.rolls.items())
    return money(bill, costs) + more + bill.end_laps * (weights.end_lap - lap_worth(costs))


def work_of_new(bill: Bill, costs: Costs) -> float:
    """Money for lengths and rips that a ply has not had before.  Source: arithmetic"""
    return bill.lengths * costs.worth("new_length") + bill.rips * costs.worth("new_rip")
