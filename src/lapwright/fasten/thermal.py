"""Edge metal grows and shrinks: the gap to leave at a joint for the day on which it is set (Q3)."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.defaults.si import default_number, default_si
from lapwright.defaults.table import table
from lapwright.units.anything import si_scale
from lapwright.units.factors import FAHRENHEIT_STEP
from lapwright.verdict import Step

# Spellings of the job file -> the table's.
METALS: Mapping[str, str] = {
    "galvanised": "galvanised",
    "galvanized": "galvanised",
    "stainless": "stainless",
    "aluminium": "aluminium",
    "aluminum": "aluminium",
    "copper": "copper",
}


def expansion_per_k(kind: str) -> float:
    """Coefficient of linear expansion of a metal [1/K].

    Raises: KeyError for a metal that defaults/fasten.csv lacks.
    Source: defaults/fasten.csv, origin on each row
    """
    return default_number("fasten", f"expansion.{METALS[kind]}") / float(FAHRENHEIT_STEP)


def movement_m(length: float, *, kind: str, from_c: float, to_c: float) -> float:
    """Change of length [m] of a free length [m] between two temperatures of the metal; below 0 where it shrinks.

    Source: Copper Flashings, a manual (1920s), page 60
    Checked: tests/published/fasten.csv movement-*
    """
    return expansion_per_k(kind) * length * (to_c - from_c)


def joint_gap_m(length: float, *, kind: str, laid_at_c: float, hottest_c: float | None = None) -> float:
    """Gap [m] to leave between two lengths [m] set at one temperature, so that they don't meet at the hottest.

    hottest_c: of the metal; by default the highest in defaults/fasten.csv.  0 where it is set hotter still.
    Source: arithmetic on the coefficient of expansion
    Checked: tests/published/fasten.csv gap-*
    """
    hottest = default_si("fasten", "metal_hottest") if hottest_c is None else hottest_c
    return max(0.0, movement_m(length, kind=kind, from_c=laid_at_c, to_c=hottest))


def gap_table(kind: str, length: float | None = None, *, metric: bool = False) -> tuple[tuple[float, float], ...]:
    """(temperature of the metal as it is set [°C], gap to leave at a joint [m]) for a day of any kind.

    length: of a piece of metal [m]; as furnished where not given.  metric: for whole steps in °C, else in °F.
    Source: arithmetic on the coefficient of expansion
    Checked: tests/published/fasten.csv gap-*
    """
    row = table("fasten")["metal_set_at.metric" if metric else "metal_set_at"]
    degrees = [float(part) for part in row.value.split(", ")]
    scale, offset = si_scale(row.unit)
    long = default_si("fasten", "metal_length") if length is None else length
    return tuple(
        (set_c, joint_gap_m(long, kind=kind, laid_at_c=set_c)) for set_c in (each * scale + offset for each in degrees)
    )


def gap_steps(kind: str) -> tuple[Step, ...]:
    """How a length of edge metal moves between the extremes, and the gap to leave by the metal's temperature.

    Source: arithmetic on the coefficient of expansion
    """
    row = table("fasten")[f"expansion.{METALS[kind]}"]
    length = default_si("fasten", "metal_length")
    coldest, hottest = default_si("fasten", "metal_coldest"), default_si("fasten", "metal_hottest")
    extremes = f"extremes {table('fasten')['metal_coldest'].origin}"
    moves = Step(
        text=f"How a length of {METALS[kind]} moves between the coldest and the hottest [{row.origin}; {extremes}]",
        formula="a L (t hottest - t coldest)",
        values={
            "a [1/K]": expansion_per_k(kind),
            "L [m]": length,
            "t hottest [degC]": hottest,
            "t coldest [degC]": coldest,
        },
        result=movement_m(length, kind=kind, from_c=coldest, to_c=hottest),
        unit="m",
    )
    closes = Step(
        text="Gap to leave at a joint, by the metal's temperature as it is set: it closes at the hottest, and at the "
        "coldest it is as wide as the movement above",
        formula="a L (t hottest - t set)",
        values={f"set at {set_c:.2f} degC [m]": gap for set_c, gap in gap_table(kind)},
    )
    return moves, closes
