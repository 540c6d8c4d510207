"""What two bodies feel of one another at first touch: the bond line between sheet and substrate (questions 5 and 6)."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lapwright.defaults.table import table
from lapwright.weather.values import Array

_ALSO = {"gypsum board": "gypsum", "base": "sheet", "interply": "sheet", "cap": "sheet", "base sheet": "sheet"}


@dataclass(frozen=True, slots=True)
class Material:
    """What a body is made of.

    conductivity [W/m·K], density [kg/m³], specific_heat [J/kg·K].
    """

    name: str
    conductivity: float
    density: float
    specific_heat: float

    @property
    def effusivity(self) -> float:
        """How hard it holds its own temperature when touched [W·s½/m²·K]."""
        return math.sqrt(self.conductivity * self.density * self.specific_heat)


def material(kind: str | None) -> Material | None:
    """The material of a deck, a board or a sheet by its kind; None where there is no such row.

    Source: rows `<kind>_conductivity`, `_density`, `_heat` of defaults/heat.csv, each with its own
    Checked: tests/published/heat.csv effusivity-*
    """
    rows = table("heat")
    name = _ALSO.get(kind or "", kind or "").replace(" ", "_")
    keys = [f"{name}_{what}" for what in ("conductivity", "density", "heat")]
    if any(key not in rows for key in keys):
        return None
    return Material(name, *(rows[key].number() for key in keys))


def contact_temperature_c(upper_c: Array, lower_c: Array, *, upper: Material, lower: Material) -> Array:
    """Temperature of the bond line at first touch of two thick bodies.

    Args:
        upper_c: sheet, at laying [°C], any shape.
        lower_c: substrate surface [°C], the same shape.

    Returns:
        Between the two, nearer to the body of greater effusivity [°C].

    Holds for: the first seconds, until heat reaches the far face of the thinner body.  Not for air gaps, nor for a
        thin steel deck, which holds its temperature for a moment only (see docs/method/heat.md).
    Source: two semi-infinite solids in contact, Incropera et al., ch. 5 [from memory]
    Checked: tests/published/heat.csv contact-*
    """
    weight = upper.effusivity + lower.effusivity
    bond: Array = (upper.effusivity * upper_c + lower.effusivity * lower_c) / weight
    return bond
