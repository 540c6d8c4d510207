"""Exact factors to SI, each from its definition, as fractions; nothing is rounded here.

The international foot is 0.3048 m, the US survey foot 1200/3937 m, the pound 0.45359237 kg, standard gravity
9.80665 m/s², the gallon 231 cubic inches, the nautical mile 1852 m, the Btu (IT) 1055.05585262 J: all by definition.
"""

from __future__ import annotations

from fractions import Fraction

TICKS_PER_METRE = 80_000
FOOT = Fraction(3048, 10_000)
INCH = FOOT / 12
SURVEY_FOOT = Fraction(1200, 3937)
MILE = 5280 * FOOT
POUND = Fraction(45_359_237, 100_000_000)
GRAVITY = Fraction(980_665, 100_000)
POUND_FORCE = POUND * GRAVITY
PSF = POUND_FORCE / FOOT**2
PSI = POUND_FORCE / INCH**2
GALLON = 231 * INCH**3
LITRE = Fraction(1, 1000)
MINUTE = Fraction(60)
HOUR = Fraction(3600)
DAY = 24 * HOUR
KNOT = Fraction(1852) / HOUR
BTU = Fraction(105_505_585_262, 100_000_000)
FAHRENHEIT_STEP = Fraction(5, 9)
FAHRENHEIT_ICE = Fraction(32)
KELVIN_ICE = Fraction(27_315, 100)
