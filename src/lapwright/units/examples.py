"""Examples of what can be written, in the units of the job: round values of its own system.

What a person typed and what a limit comes to are no examples: they are told exactly, by retold.py and write.py.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from types import MappingProxyType

from lapwright.units.lengths import length_m
from lapwright.units.retold import retold
from lapwright.units.unread import Unread
from lapwright.units.write import Units, decimals

# What the readers offer, less the other system; and examples that hold several values.
METRIC: Mapping[str, str] = MappingProxyType(
    {
        "12' 6 1/2\", 3.81 m or 40 mm": "3.81 m or 40 mm",
        "50 F or 10 C": "10 C",
        "5 F or 3 K": "3 K",
        "20 mph, 9 m/s or 3 in/s": "9 m/s, 32 km/h, 75 mm/s or 3 m/min",
        "45 psf or 2.15 kPa": "2.15 kPa",
        "2500 sf or 232 m2": "232 m2",
        "5 gal or 20 L": "20 L",
        "160 sf/gal or 4 m2/L": "4 m2/L",
        "3.75 in/h or 95 mm/h": "95 mm/h",
        "90 lb or 41 kg": "41 kg",
        "100 plf or 1.5 kN/m": "1.5 kN/m",
        "20 ppm/F or 36 ppm/K": "36 ppm/K",
        "60 lbf or 270 N": "270 N",
        "R-20 or 3.5 m2K/W": "3.5 m2K/W",
        "0.3 W/m2K or 0.05 Btu/h ft2 F": "0.3 W/m2K",
        "1/4 in 12, 2 % or 1.2 deg": "2 %, 20 mm/m or 1.2 deg",
        "1/4 in 12": "2 %",
        "slope: 1/4 in 12": "slope: 2 %",
        "R-20": "3.5 m2K/W",
        "120 V": "230 V",
        "$95 or 95.50": "€ 95 or 95.50",
        "$96": "€ 96",
        "E 30' N 20'": "E 9 m N 6 m",
        "E 0' N 0'": "E 0 m N 0 m",
        "E 8' x N 6'": "E 2.4 m x N 1.8 m",
        "E 120'": "E 36 m",
        "E 120', N 64', W 120', S 64'": "E 36 m, N 20 m, W 36 m, S 20 m",
        '39 3/8"': "1000 mm",
        "32' 10\"": "10 m",
        "65' 7\"": "20 m",
        '3"': "75 mm",
    }
)
# A US value inside of an example such as `{width: 39 3/8", side_lap: 3"}`.
_FRACTION = r"[0-9]{1,4}(?: [0-9]{1,2}/[0-9]{1,2}|/[0-9]{1,2})?"
_INSIDE = re.compile(
    rf"(?<![0-9.])(?:[0-9]{{1,4}}'(?: {_FRACTION}\")?|{_FRACTION}\"|-?[0-9]{{1,6}}(?:\.[0-9]+)? "
    r"(?:F|psf|mph|in/s|in/h|ft/min|ft/h|sf/h|sf/gal|sf|lbf/in|lbf|ppm/F|V))(?![A-Za-z/])"
)
_BARE = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,9})?")
_SIZED = re.compile(r"(-?[0-9.]+) (.+)")
_FEW = 0.04  # a rounder number is taken where it is as near as this


def example_in(units: Units, text: str) -> str:
    """An example in the job's units: `75 mm` for `3"`; as it is in a US job, and where nothing in it is US.

    Lists of alternatives lose those of the other system.
    """
    if units.is_us:
        return text
    if text in METRIC:
        return METRIC[text]
    return _INSIDE.sub(lambda found: _round_metric(units, found[0]), text)


def offered_in(units: Units, text: str) -> str:
    """What a reader offers, in the job's units; anything else as it is, for it may be what a person typed."""
    return text if units.is_us else METRIC.get(text, text)


def with_unit(number: str, write: str, reads: Callable[[str], object], usual: float) -> str:
    """A bare number with each unit that `write` shows and `reads` takes, the nearest to `usual` first; else empty.

    usual: a usual value, as `reads` gives it.
    """
    if not _BARE.fullmatch(number) or not float(number) or usual <= 0:
        return ""
    taken: dict[str, float] = {}
    for found in filter(None, (_SIZED.fullmatch(part) for part in re.split(r", | or ", write))):
        text = f"{number} {found[2]}"
        try:
            value = reads(text)
        except ValueError:
            continue
        if isinstance(value, int | float) and value > 0:
            taken[text] = abs(math.log(value / usual))
    return ", or ".join(sorted(taken, key=lambda text: taken[text]))


def limits_in(units: Units, text: str) -> str:
    """Words with limits in them, `a length from 6" to 20'`, each told exactly in the job's units."""
    return text if units.is_us else _INSIDE.sub(lambda found: retold(units, found[0]), text)


def _round_metric(units: Units, text: str) -> str:
    if text in METRIC:
        return METRIC[text]
    try:
        return _round_length(length_m(text))
    except Unread:
        found = _SIZED.fullmatch(retold(units, text))
    if found is None:
        return text
    value = float(found[1])
    return f"{decimals(value, 0) if '°' in found[2] else decimals(rounded(value), 6)} {found[2]}"


def _round_length(metres: float) -> str:
    value = rounded(metres)
    return f"{decimals(value * 1000, 3)} mm" if value < 1 else f"{decimals(value, 3)} m"


def rounded(value: float) -> float:
    """A round number near a value: two figures, the second 0 or 5 where that is within 4 parts in 100."""
    if value <= 0:
        return value
    unit: float = 10.0 ** (math.floor(math.log10(value)) - 1)
    five = round(value / unit / 5) * 5 * unit
    return five if abs(five - value) <= _FEW * value else round(value / unit) * unit
