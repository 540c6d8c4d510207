"""What a layout costs: rolls, and the minutes that end laps, T-joints, cuts and new lengths take.

*Aim*: what is spared first: `least_cost`, `fewest_rolls` or `fewest_laps`; the cost settles what the aim leaves open.
Money has no currency: whatever the job's prices are in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from lapwright.defaults.si import default_number, default_si

AIMS = ("least_cost", "fewest_rolls", "fewest_laps")
FAR_ABOVE = 1000.0  # what the aim spares weighs this many times what it costs


@dataclass(frozen=True, slots=True)
class Costs:
    """Prices and minutes that a layout is weighed by; what is None has its default.

    roll_price: money a roll, by sheet; labour: money an hour of one person; the others: seconds for one of each.
    Source: defaults/layout.csv, each row with its own
    """

    roll_price: Mapping[str, float] = field(default_factory=dict)
    labour: float | None = None
    end_lap_s: float | None = None
    t_joint_s: float | None = None
    cut_s: float | None = None
    new_length_s: float | None = None
    new_rip_s: float | None = None

    def price(self, sheet: str) -> float:
        """Money for a roll of a sheet.  Source: the job's prices, else defaults/layout.csv roll_price"""
        given = self.roll_price.get(sheet)
        return default_number("layout", "roll_price") if given is None else given

    def worth(self, name: str) -> float:
        """Money for one end_lap, t_joint, cut, new_length or new_rip.  Source: the job's, else defaults/layout.csv"""
        seconds = getattr(self, f"{name}_s")
        if seconds is None:
            seconds = default_si("layout", name)
        labour = default_number("layout", "labour") if self.labour is None else self.labour
        return float(seconds) * labour / 3600.0


@dataclass(frozen=True, slots=True)
class Weights:
    """What the search weighs, in one money: a roll by sheet, an end lap with its T-joints, a cut, a new length."""

    roll: Mapping[str, float]
    end_lap: float
    cut: float
    length: float


def weights_of(aim: str, costs: Costs, sheets: Mapping[str, int]) -> Weights:
    """The weights of an aim.  sheets: names of the sheets.

    What the aim spares has its default's worth where the job makes it cost nothing, so that it is spared all the same.

    Source: the aim's own meaning; defaults/layout.csv
    Checked: tests/layout/test_cost.py
    """
    rolls = {name: costs.price(name) for name in sheets}
    lap = lap_worth(costs)
    if aim == "fewest_rolls":
        rolls = {name: FAR_ABOVE * (price or Costs().price(name)) for name, price in rolls.items()}
    if aim == "fewest_laps":
        lap = FAR_ABOVE * (lap or lap_worth(Costs()))
    return Weights(rolls, lap, costs.worth("cut"), costs.worth("new_length"))


def lap_worth(costs: Costs) -> float:
    """Money for an end lap with a T-joint at either end.

    Source: arithmetic
    """
    return costs.worth("end_lap") + 2.0 * costs.worth("t_joint")
