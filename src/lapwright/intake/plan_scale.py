"""What the readers of drawn outlines share: the file taken in, its unit, whether the size can be a roof's.

Readers take an open stream, bytes or text, never a path; `file` is the name that faults and notes show.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from types import MappingProxyType
from typing import IO, Any

from lapwright.defaults.table import table
from lapwright.faults import Fault, Refused, shorten
from lapwright.geometry.polygon import Point, bounds
from lapwright.units.factors import FOOT, INCH, SURVEY_FOOT, TICKS_PER_METRE
from lapwright.units.lengths import nearest
from lapwright.units.read import length_ticks

Source = str | bytes | IO[Any]

TICKS_PER: Mapping[str, Fraction] = MappingProxyType(
    {
        name: size * TICKS_PER_METRE
        for name, size in (
            ("in", INCH),
            ("ft", FOOT),
            ("ftUS", SURVEY_FOOT),
            ("mm", Fraction(1, 1000)),
            ("cm", Fraction(1, 100)),
            ("m", Fraction(1)),
        )
    }
)
MOST_NAMED = 12


def taken_in(source: Source, *, file: str) -> bytes | str:
    """All of a file, unless it is larger than a drawing of a roof gets.

    Raises: Refused for a larger one; no more of it is read than tells so.
    """
    megabytes = int(table("roof")["file_largest"].number())
    most = megabytes * 1_000_000
    content = source if isinstance(source, (str, bytes)) else source.read(most + 1)
    if not isinstance(content, (str, bytes)):
        raise TypeError("a stream of text or bytes")
    if len(content) > most:
        needs = f"a file of at most {megabytes} MB"
        raise refusal(file, "", "", needs, "the roof's outline alone, saved in a file of its own")
    return content


def refusal(file: str, key: str, read: str, needs: str, write: str, *, at: tuple[int, int] = (0, 0)) -> Refused:
    """One fault, ready to raise: its fields in order, `at` its line and column."""
    return Refused([Fault(file, *at, key, shorten(read), needs, write)])


def unit_size(name: str, *, file: str) -> Fraction:
    """Ticks in one unit of the drawing, for the job file's `units`.

    Raises: Refused for a unit that drawings of roofs do not come in.
    """
    if name not in TICKS_PER:
        close = difflib.get_close_matches(name, list(TICKS_PER), n=1)
        write = f"units: {close[0]}" if close else "units: in"
        raise refusal(file, "units", name, f"the drawing's unit, one of {', '.join(TICKS_PER)}", write)
    return TICKS_PER[name]


def as_ticks(x: float, y: float, size: Fraction) -> Point:
    """A drawn place in whole ticks, the nearest."""
    return (nearest(Fraction(x) * size), nearest(Fraction(y) * size))


def check_size(points: Sequence[Point], *, unit: str, file: str, key: str, rewrite: Callable[[str], str]) -> None:
    """The outline is no wider and no narrower than roofs are.

    unit: the one it was read in.  rewrite: what to write in the job file for another unit.
    Raises: Refused with the size as drawn.
    """
    rows = table("roof")
    left, low, right, high = bounds(points)
    across = (right - left, high - low)
    least, most = length_ticks(rows["narrowest"].value), length_ticks(rows["widest"].value)
    if least <= min(across) and max(across) <= most:
        return
    drawn = [float(each / TICKS_PER[unit]) for each in across]
    limits = f"{rows['narrowest'].value} and {rows['widest'].value}"
    needs = f"a roof between {limits} across; is {unit} the unit it was drawn in?"
    read = f"{drawn[0]:.6g} by {drawn[1]:.6g} {unit}"
    fits = [
        name
        for name, size in TICKS_PER.items()
        if name != unit and all(least <= each / TICKS_PER[unit] * size <= most for each in across)
    ]
    raise refusal(file, key, read, needs, rewrite(fits[0]) if fits else "")


def chosen(wanted: str, names: Sequence[str]) -> tuple[str, str]:
    """The choices in file order, and the one nearest to what was wanted."""
    told = [shorten(name, 40) for name in names[:MOST_NAMED]]
    rest = len(names) - len(told)
    close = difflib.get_close_matches(wanted, list(names), n=1, cutoff=0.4)
    nearest_name = close[0] if close else names[0]
    return ", ".join(told) + (f" and {rest} more" if rest else ""), shorten(nearest_name, 40)


def without_repeats(points: Sequence[Point]) -> list[Point]:
    """The corners without any that repeats the one before it, first and last counted as neighbours."""
    kept: list[Point] = []
    for point in points:
        if not kept or kept[-1] != point:
            kept.append(point)
    while len(kept) > 1 and kept[0] == kept[-1]:
        kept.pop()
    return kept
