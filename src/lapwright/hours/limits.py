"""Which operations a roof has, and the temperature limits of each (question 5)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from lapwright.assembly.values import Ply, Sheet
from lapwright.hours.values import HEAT, OPEN, OPERATIONS, SHUT, WARM, Limits
from lapwright.weather.values import Array

NOT_GIVEN = Limits(None, None, None)
FOLLOW_THE_CAP = ("side_lap", "end_lap", "flashing")
SHEET_OPERATIONS = ("base", "interply", "cap", *FOLLOW_THE_CAP)


def sheet_limits(sheet: Sheet | None) -> Limits:
    """The limits that a sheet's data give.

    Source: arithmetic
    """
    if sheet is None:
        return NOT_GIVEN
    return Limits(sheet.apply_at_or_above_c, sheet.warm_rolls_at_or_above_c, sheet.with_heat_at_or_above_c)


def limits_by_operation(
    plies: Iterable[Ply], *, primer_c: float | None, mastic_c: float | None, has_metal: bool
) -> dict[str, Limits]:
    """Limits of every operation that the roof has, in the order of OPERATIONS.

    Args:
        primer_c, mastic_c: `apply_at_or_above` of the materials [°C]; None: not given.
        has_metal: the roof has edge metal, which is bedded in mastic and goes by its limit.

    Base, interply and cap follow their ply's sheet; side laps, end laps and flashings the cap's.
    Source: common practice, no source
    """
    by_ply = {ply.ply: sheet_limits(ply.sheet) for ply in plies}
    found = dict(by_ply)
    if "cap" in by_ply:
        found.update(dict.fromkeys(FOLLOW_THE_CAP, by_ply["cap"]))
    found["primer"] = Limits(primer_c, None, None)
    found["mastic"] = Limits(mastic_c, None, None)
    if has_metal:
        found["edge_metal"] = found["mastic"]
    return {operation: found[operation] for operation in OPERATIONS if operation in found}


def lowest_c(limits: Limits) -> float | None:
    """The lowest limit given [°C]; None where `apply_at_or_above` is not given, whatever else is.

    Source: arithmetic
    """
    if limits.apply_c is None:
        return None
    return min(limit for limit in (limits.apply_c, limits.warm_c, limits.heat_c) if limit is not None)


def temperature_state(value_c: Array, limits: Limits) -> NDArray[np.uint8]:
    """State by temperature alone, (hours,): open, warm, heat or shut; NaN and a missing limit give shut.

    Source: arithmetic
    """
    states = np.full(value_c.shape, SHUT, dtype=np.uint8)
    if limits.apply_c is None:
        return states
    for limit_c, state in ((limits.heat_c, HEAT), (limits.warm_c, WARM), (limits.apply_c, OPEN)):
        if limit_c is not None:
            states[value_c >= limit_c] = state
    return states


def needs_sheet_rule(operation: str) -> bool:
    """The operation's limit is a sheet's, so that `limits_hold_for` says whether air or surface must reach it.

    Source: arithmetic
    """
    return operation in SHEET_OPERATIONS


def held_for(operation: str, limits_hold_for: str) -> tuple[bool, bool]:
    """Whether air and whether surface must reach the operation's limits: (air, surface).

    A material (primer, mastic) must have both.
    Source: common practice, no source
    """
    if not needs_sheet_rule(operation):
        return True, True
    return limits_hold_for in ("air", "air_and_surface"), limits_hold_for in ("surface", "air_and_surface")


def governing_c(air_c: Array, surface_c: Array, held: tuple[bool, bool]) -> Array:
    """The temperature that must reach the limits [°C], (hours,).

    Source: arithmetic
    """
    if held == (True, True):
        return np.minimum(air_c, surface_c)
    return air_c if held[0] else surface_c


def shown(limits: Mapping[str, Limits]) -> tuple[str, ...]:
    """The roof's operations in the order of OPERATIONS.

    Source: arithmetic
    """
    return tuple(operation for operation in OPERATIONS if operation in limits)
