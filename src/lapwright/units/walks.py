"""Directions, tape walks, positions and sizes in plan; x runs east, y north."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from lapwright.units.lengths import length_ticks
from lapwright.units.unread import Unread, has_comma, pointed, tidy

AXES = {"E": (1, 0), "N": (0, 1), "W": (-1, 0), "S": (0, -1)}
WALK_NEEDS = "legs separated by commas, each a direction and a length with its unit"
WALK_WRITE = "E 120', N 64', W 120', S 64'"
LONGEST_WALK = 1_000_000
LONGEST_TOLD = 400

# a comma between two digits is a decimal comma: a leg begins with a letter
_BETWEEN_LEGS = re.compile(r",(?![0-9])|(?<![0-9]),")
_NUMBER = r"[0-9]{1,2}(?:\.[0-9]{0,9})?"
# Minutes stand apart from degrees by a space, a hyphen or the degree sign: else "N 64' W 120'", a forgotten comma,
# would read as 6 degrees 4 minutes.
_SECONDS = rf"(?:'[ -]?|[ -])(?P<sec>{_NUMBER}) ?\"?"
_MINUTES = rf"(?: ?° ?|[ -])(?P<min>{_NUMBER})(?:{_SECONDS}|')?"
_BEARING = rf"(?P<from>[NS]) ?(?P<deg>{_NUMBER})(?:{_MINUTES}| ?°)? ?(?P<to>[EW])"
_BEARING_ONLY = re.compile(_BEARING, re.IGNORECASE)
_BEARING_LEG = re.compile(_BEARING + r" (?P<length>.{1,64})", re.IGNORECASE)
_AXIS_LEG = re.compile(r"(?P<axis>[ENWS]) ?(?P<length>[^A-Z ].{0,63})", re.IGNORECASE)
_AXIS_LETTER = re.compile(r"(?<![A-Za-z])([ENWSenws])(?![A-Za-z])")


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg of a walk: unit vector (east, north), whether it was walked E N W S, length [ticks], as typed."""

    direction: tuple[float, float]
    is_axis: bool
    length_ticks: int
    text: str


def direction(text: str) -> tuple[float, float]:
    """Unit vector (east, north): `E`, `N`, `W`, `S` or a bearing `N 35 30 E`; exact along the axes.

    Raises: Unread for another letter, or for degrees over 90, minutes or seconds of 60 and over.
    """
    needs, write = "a direction", "S, or a bearing such as N 35 30 E"
    plain = tidy(text, needs, write).upper()
    if plain in AXES:
        east, north = AXES[plain]
        return (float(east), float(north))
    found = _BEARING_ONLY.fullmatch(plain)
    if found is None:
        raise Unread(needs, write)
    return _vector(found)


def walk(text: str) -> tuple[Leg, ...]:
    """The legs of a walk, in order, parted by commas or line ends.

    Raises: Unread naming the first leg that can't be read.
    """
    if len(text) > LONGEST_WALK:
        raise Unread("a walk that a person typed, at most 1,000,000 characters", WALK_WRITE)
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    if not lines or lines[-1].endswith(","):
        raise Unread(WALK_NEEDS, WALK_WRITE)
    parts = [part for line in lines for part in _BETWEEN_LEGS.split(line.removesuffix(","))]
    for number, part in enumerate(parts, start=1):
        if has_comma(part):
            raise Unread(f"leg {number}: a length with its unit, its decimals behind a point", _with_points(text, part))
    return tuple(_leg(part, number) for number, part in enumerate(parts, start=1))


def _with_points(text: str, part: str) -> str:
    """The walk with points for its decimal commas; the leg alone where the walk is long."""
    return pointed(part.strip() if len(text) > LONGEST_TOLD else text.strip())


def position(text: str) -> tuple[int, int]:
    """A place from a corner, (east, north) [ticks]: `E 30' N 20'`, in either order; W and S are negative.

    One part alone leaves the other 0.
    Raises: Unread for anything else, and for a length with a minus.
    """
    needs, write = "a position east and north", "E 30' N 20'"
    parts = _AXIS_LETTER.split(tidy(text, needs, write))
    if len(parts) not in (3, 5) or parts[0].strip():
        raise Unread(needs, write)
    letters = [letter.upper() for letter in parts[1::2]]
    if len(letters) == 2 and (letters[0] in "EW") == (letters[1] in "EW"):
        raise Unread(needs, write)
    x = y = 0
    for letter, length in zip(letters, parts[2::2], strict=True):
        ticks = _not_negative(length.strip(" ,"), needs, write)
        x += AXES[letter][0] * ticks
        y += AXES[letter][1] * ticks
    return (x, y)


def size(text: str) -> tuple[int, int]:
    """A rectangle's size (east, north) [ticks]: `E 8' x N 6'`, either order.

    Raises: Unread where E and N are not both there, or a length is 0.
    """
    needs, write = "a size east by north", "E 8' x N 6'"
    parts = [_AXIS_LEG.fullmatch(part.strip()) for part in re.split("[xX]", tidy(text, needs, write))]
    if len(parts) != 2 or parts[0] is None or parts[1] is None:
        raise Unread(needs, write)
    sides = {part["axis"].upper(): _not_negative(part["length"], needs, write) for part in parts if part}
    if sorted(sides) != ["E", "N"] or not all(sides.values()):
        raise Unread(needs, write)
    return (sides["E"], sides["N"])


def _leg(text: str, number: int) -> Leg:
    plain = tidy(text, f"leg {number}: a direction and a length with its unit", WALK_WRITE)
    bearing = _BEARING_LEG.fullmatch(plain)
    if bearing is not None:
        return Leg(_vector(bearing), False, _leg_length(bearing["length"], number), plain)
    axis = _AXIS_LEG.fullmatch(plain)
    if axis is None:
        raise Unread(f"leg {number}: a direction and a length with its unit", WALK_WRITE)
    if _AXIS_LETTER.search(axis["length"]):
        raise Unread(f"leg {number}: a comma between legs", WALK_WRITE)
    east, north = AXES[axis["axis"].upper()]
    return Leg((float(east), float(north)), True, _leg_length(axis["length"], number), plain)


def _leg_length(text: str, number: int) -> int:
    try:
        ticks = length_ticks(text)
    except Unread as found:
        raise Unread(f"leg {number}: {found.needs}", found.write) from None
    if ticks <= 0:
        raise Unread(f"leg {number}: a length above 0", WALK_WRITE)
    return ticks


def _not_negative(text: str, needs: str, write: str) -> int:
    try:
        ticks = length_ticks(text)
    except Unread as found:
        raise Unread(f"{needs}: {found.needs}", write) from None
    if ticks < 0:
        raise Unread(f"{needs}, with W or S for the other way", write)
    return ticks


def _vector(bearing: re.Match[str]) -> tuple[float, float]:
    needs, write = "a bearing of 0 to 90 degrees, minutes and seconds under 60", "N 35 30 E"
    parts = [bearing["deg"], bearing["min"], bearing["sec"]]
    given = [part for part in parts if part is not None]
    if any("." in part for part in given[:-1]):
        raise Unread(f"{needs}, only the last with decimals", write)
    degrees, minutes, seconds = (Fraction(part or "0") for part in parts)
    angle = degrees + minutes / 60 + seconds / 3600
    if minutes >= 60 or seconds >= 60 or angle > 90:
        raise Unread(needs, write)
    if angle == 0:
        sine, cosine = 0.0, 1.0
    elif angle == 90:
        sine, cosine = 1.0, 0.0
    else:
        sine, cosine = math.sin(math.radians(float(angle))), math.cos(math.radians(float(angle)))
    east = sine if bearing["to"].upper() == "E" else -sine
    north = cosine if bearing["from"].upper() == "N" else -cosine
    return (east + 0.0, north + 0.0)  # -0 becomes 0
