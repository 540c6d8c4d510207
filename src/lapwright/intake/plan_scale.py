"""What the readers of drawn outlines share: the file taken in, its unit, whether the size can be a roof's.

Readers take an open stream, bytes or text, never a path; `file` is the name that faults and notes show.
"""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType
from typing import IO, Any

from lapwright.defaults.table import table
from lapwright.faults import Fault, Refused, shorten
from lapwright.geometry.polygon import Point, bounds, signed_area2
from lapwright.units.factors import FOOT, INCH, SURVEY_FOOT, TICKS_PER_METRE
from lapwright.units.lengths import nearest
from lapwright.units.read import area_m2, length_ticks
from lapwright.units.write import TICKS_PER_INCH, TICKS_PER_MM, Units

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
WORDS = MappingProxyType(
    {
        "in": "inches",
        "ft": "feet",
        "ftUS": "US survey feet",
        "mm": "millimetres",
        "cm": "centimetres",
        "m": "metres",
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


@dataclass(frozen=True, slots=True)
class How:
    """How a drawing is to be read, as the job file asks.

    units: of the drawing, where given.  flat: how far straight sides may leave a curve; join: how far apart ends are
    joined [ticks].  any_size: a roof of any size is meant.  meets: sides end where other areas' corners lie on them.
    shown: how lengths are written in faults and notes.
    head: the keys of an outline in braces, that a fault repeats with one more; empty for keys on lines of their own.
    """

    file: str
    head: str = ""
    units: str | None = None
    flat: int = 0
    join: int = 0
    any_size: bool = False
    shown: Units = field(default_factory=Units)
    meets: bool = False

    def write(self, more: str) -> str:
        """What to write in the job file to give one more key."""
        return f"{{{self.head}, {more}}}" if self.head else f"{more}  # under areas"

    def at(self, point: Point) -> str:
        """A place in the drawing's own coordinates."""
        east, north = point
        tape = self.shown.tape
        return f"{'W' if east < 0 else 'E'} {tape(abs(east))} {'S' if north < 0 else 'N'} {tape(abs(north))}"

    def gap(self, ticks: float) -> str:
        """A gap, in hundredths of millimetres where a tape doesn't show it."""
        return self.shown.tape(round(ticks)) if ticks >= TICKS_PER_INCH / 16 else f"{ticks / TICKS_PER_MM:.2g} mm"


def how_read(
    file: str,
    *,
    head: str = "",
    units: str | None = None,
    flat: int | None = None,
    join: int | None = None,
    any_size: bool = False,
    shown: Units | None = None,
    meets: bool = False,
) -> How:
    """How to read a drawing, with the defaults of roof.csv for the tolerances that are not given [ticks]."""
    rows = table("roof")
    return How(
        file,
        head,
        units,
        length_ticks(rows["arc_flat"].value) if flat is None else flat,
        length_ticks(rows["open_end"].value) if join is None else join,
        any_size,
        shown or Units(),
        meets,
    )


def check_size(points: Sequence[Point], how: How, *, unit: str, key: str) -> None:
    """The outline is as large as roofs are: its width, its depth and its area.

    unit: the one it was read in.
    Raises: Refused with the size as drawn and, where another unit makes a roof of it, that unit.
    """
    if how.any_size or _is_roof(points, Fraction(1)):
        return
    rows = table("roof")
    left, low, right, high = bounds(points)
    width, depth = (float(each / TICKS_PER[unit]) for each in (right - left, high - low))
    read = f"{width:,.6g} by {depth:,.6g} {unit}"
    needs = f"a roof from {rows['narrowest'].value} to {rows['widest'].value} across"
    if _is_as_wide(points, Fraction(1)):
        needs = f"a roof from {rows['smallest'].value} to {rows['largest'].value}"
    likely = sorted(TICKS_PER, key=lambda name: (unit, name) != ("m", "mm"))  # drawn in millimetres, called metres
    fits = [name for name in likely if name != unit and _is_roof(points, TICKS_PER[name] / TICKS_PER[unit])]
    if not fits:
        raise refusal(how.file, key, read, f"{needs}; is the drawing in {WORDS[unit]}?", how.write("size: accept"))
    question = f"{needs}; is the drawing in {WORDS[fits[0]]}? If the size is right, size: accept"
    raise refusal(how.file, key, read, question, how.write(f"units: {fits[0]}"))


def _is_roof(points: Sequence[Point], scale: Fraction) -> bool:
    """The outline, made larger by a factor, is no wider, narrower, larger or smaller than roofs are."""
    rows = table("roof")
    area = float(abs(signed_area2(points)) * scale**2 / 2 / TICKS_PER_METRE**2)
    is_as_large = area_m2(rows["smallest"].value) <= area <= area_m2(rows["largest"].value)
    return is_as_large and _is_as_wide(points, scale)


def _is_as_wide(points: Sequence[Point], scale: Fraction) -> bool:
    rows = table("roof")
    left, low, right, high = bounds(points)
    across = ((right - left) * scale, (high - low) * scale)
    return length_ticks(rows["narrowest"].value) <= min(across) and max(across) <= length_ticks(rows["widest"].value)


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
