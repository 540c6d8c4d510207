"""Uplift classes: the tested pressure [psf], in steps of 15, by which an insurer's listing names an assembly (Q3)."""

from __future__ import annotations

import math

from lapwright.defaults.si import default_si
from lapwright.units.factors import PSF

# A pressure that is exactly on a step in psf comes back from SI a hair off it.
HAIR = 1e-9


def required_class_psf(asd_pa: float) -> int:
    """Class [psf] that a working-level pressure [Pa], of either sign, asks for: twice it, rounded up to the next class.

    Holds for: working-level (ASD) pressure; on the strength level it would ask 1.67 times too much.
    Source: insurer's uplift classes: factor 2 on the working level, steps of 15 psf from 60 [from memory]
    Checked: tests/published/wind.csv class-*
    """
    step = default_si("wind", "class_step")
    least = default_si("wind", "least_class")
    asked = max(default_si("wind", "class_factor") * abs(asd_pa), least)
    return round(math.ceil(asked / step - HAIR) * step / float(PSF))


def class_pa(class_psf: int) -> float:
    """The tested pressure of a class [Pa].

    Source: arithmetic
    """
    return class_psf * float(PSF)
