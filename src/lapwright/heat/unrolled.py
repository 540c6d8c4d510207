"""A warm sheet rolled out on a cold substrate: the bond line at first touch, and how long it stays warm (question 6).

Within one to three minutes a sheet is as warm as what it lies on, so the substrate decides the bond and the warm store
only buys flexibility and the first tack.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from scipy.optimize import brentq
from scipy.special import erfcx

from lapwright.defaults.si import default_si
from lapwright.defaults.table import table
from lapwright.heat.contact import Material, contact_temperature_c, material
from lapwright.heat.layers import Layer, Modes, solve_layers
from lapwright.heat.rollfilm import sheet_film_w_m2k
from lapwright.verdict import Step

SOURCE = (
    "conduction through layers (Fourier's law), film of a flat plate in the wind (Incropera et al., ch. 7) and"
    " radiation at 0.9; bond line of two thick bodies (Incropera et al., ch. 5); computed, not measured"
)
SHEET_CELLS, BOARD_CELLS, DEEP_CELLS = 12, 40, 40
_LONGEST_S = 86_400.0
_THIN = ("steel",)
# What lies under a sheet, from the top down: (material, row of its thickness).
SUBSTRATES: Mapping[str, tuple[tuple[str, str], ...]] = MappingProxyType(
    {
        "gypsum": (("gypsum", "gypsum_board"), ("polyiso", "polyiso_below")),
        "polyiso_board": (("polyiso board", "polyiso_cover"), ("polyiso", "polyiso_below")),
        "polyiso": (("polyiso", "polyiso_below"),),
        "plywood": (("plywood", "plywood_deck"),),
        "concrete": (("concrete", "concrete_slab"),),
        "steel": (("steel", "steel_deck"), ("polyiso", "polyiso_below")),
        "base": (("sheet", "base_ply"), ("gypsum", "gypsum_board"), ("polyiso", "polyiso_below")),
    }
)


@dataclass(frozen=True, slots=True)
class SheetAsk:
    """A sheet rolled out.

    laid_at_c: the sheet as it comes off the roll; substrate: one of SUBSTRATES, substrate_c its temperature [°C].
    sun_w_m2: on the roof; thickness of the sheet [m].  contact_m2k_w: what lies between; 0 where it is rolled in.
    """

    laid_at_c: float
    air_c: float
    wind_m_s: float
    substrate: str
    substrate_c: float
    sun_w_m2: float
    until_c: float
    thickness: float
    contact_m2k_w: float = 0.0


@dataclass(frozen=True, slots=True)
class SheetClock:
    """When the sheet's mean falls to the limit [s], None where it does not; the bond line at first touch [°C]."""

    until_s: float | None
    contact_c: float
    steps: tuple[Step, ...]
    source: str


def sheet_clock(ask: SheetAsk) -> SheetClock:
    """How long a sheet rolled out stays warm.

    Holds for: a substrate of one temperature, wind and sun that stay, no sky, no heat from indoors.
    Raises: KeyError for a substrate that is not one of SUBSTRATES.
    Source: Fourier's law; Incropera et al., ch. 5 and 7 [from memory]
    Checked: tests/published/rolls.csv sheet-*, touch-*
    """
    film = sheet_film_w_m2k((ask.laid_at_c + ask.air_c) / 2, ask.air_c, wind_m_s=ask.wind_m_s)
    taken_in = table("heat")["absorptance"].number() * ask.sun_w_m2
    until_s = sheet_lasts_s(ask, film_w_m2k=film, taken_in_w_m2=taken_in)
    bond_c = touch_c(ask)
    return SheetClock(until_s, bond_c, _steps(ask, film, taken_in, until_s, bond_c), SOURCE)


def sheet_lasts_s(ask: SheetAsk, *, film_w_m2k: float, taken_in_w_m2: float) -> float | None:
    """Time until the mean of the sheet falls to the limit [s]; None where it does not within a day.

    Source: Fourier's law between cells
    Checked: tests/published/rolls.csv sheet-*
    """
    if ask.laid_at_c <= ask.until_c:
        return 0.0
    modes = solve_layers(sheet_layers(ask), air_c=ask.air_c, film_w_m2k=film_w_m2k, taken_in_w_m2=taken_in_w_m2)
    return first_below_s(modes, ask.until_c)


def sheet_layers(ask: SheetAsk) -> tuple[Layer, ...]:
    """The sheet and what lies under it.

    Source: rows of defaults/rolls.csv and defaults/heat.csv
    """
    below = [
        Layer(
            made_of(kind),
            default_si("rolls", row),
            ask.substrate_c,
            1 if kind in _THIN else DEEP_CELLS if number else BOARD_CELLS,
            contact_m2k_w=0.0 if number else ask.contact_m2k_w,
        )
        for number, (kind, row) in enumerate(SUBSTRATES[ask.substrate])
    ]
    return (Layer(made_of("sheet"), ask.thickness, ask.laid_at_c, SHEET_CELLS), *below)


def first_below_s(modes: Modes, until_c: float) -> float | None:
    """The first time at which the sheet's mean is at the limit [s]; None where there is none within a day.

    Source: arithmetic
    """
    times = np.concatenate(([0.0], np.geomspace(0.05, _LONGEST_S, 600)))
    below = np.flatnonzero(modes.mean_c(SHEET_CELLS, times) < until_c)
    if not len(below):
        return None
    if below[0] == 0:
        return 0.0

    def over(seconds: float) -> float:
        return float(modes.mean_c(SHEET_CELLS, np.array([seconds]))[0]) - until_c

    first = int(below[0])
    return float(brentq(over, times[first - 1], times[first], xtol=1e-6))


def touch_c(ask: SheetAsk) -> float:
    """The bond line at first touch [°C]; on a thin steel deck, after it has been warmed for a moment.

    Source: two thick bodies, Incropera et al., ch. 5; a thick body on a thin plate, Carslaw and Jaeger, ch. 12
        [from memory]
    Checked: tests/published/rolls.csv touch-*
    """
    kind, row = SUBSTRATES[ask.substrate][0]
    sheet, under = made_of("sheet"), made_of(kind)
    if kind in _THIN:
        plate = under.density * under.specific_heat * default_si("rolls", row)
        warmed = 1 - float(erfcx(sheet.effusivity * math.sqrt(default_si("rolls", "touch")) / plate))
        return ask.substrate_c + (ask.laid_at_c - ask.substrate_c) * warmed
    bond = contact_temperature_c(np.array(ask.laid_at_c), np.array(ask.substrate_c), upper=sheet, lower=under)
    return float(bond)


def made_of(kind: str) -> Material:
    """The material of a kind that the table has.

    Raises: LookupError
    Source: rows of defaults/heat.csv
    """
    found = material(kind)
    if found is None:
        raise LookupError(f"defaults/heat.csv has no {kind}")
    return found


def _steps(ask: SheetAsk, film: float, taken_in: float, until_s: float | None, bond_c: float) -> tuple[Step, ...]:
    rows = table("rolls")
    under = ", then ".join(f"{rows[row].text} of {kind}" for kind, row in SUBSTRATES[ask.substrate])
    falls = "does not within a day" if until_s is None else until_s
    return (
        Step(f"On {under}; nothing goes through below", "", {"at [°C]": ask.substrate_c}),
        Step(
            "What leaves the sheet's face, with radiation",
            "h",
            {"wind [m/s]": ask.wind_m_s, "air [°C]": ask.air_c},
            film,
            "W/m2K",
        ),
        Step(
            "Sun that the sheet takes in",
            "α·G",
            {"α": table("heat")["absorptance"].number(), "G [W/m2]": ask.sun_w_m2},
            taken_in,
            "W/m2",
        ),
        Step(
            "Bond line at first touch",
            "(e1·T1 + e2·T2)/(e1 + e2), e = √(k·ρ·c); on steel after a moment, 1 - exp(x²)·erfc(x)",
            {"T1 [°C]": ask.laid_at_c, "T2 [°C]": ask.substrate_c},
            bond_c,
            "°C",
        ),
        Step(
            "Time until the sheet's mean falls to the limit",
            "layers of cells",
            {"until [°C]": ask.until_c, "between [m2K/W]": ask.contact_m2k_w},
            falls,
            "" if until_s is None else "s",
        ),
    )
