"""What can be asked of a figure, as data: the command line and a form on a page read the same list.

A *kind* says how a text is read, and what its value's key ends in, so that the unit stands in the key.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from lapwright.units import read
from lapwright.units.unread import Unread, tidy


def volts(text: str) -> float:
    """Volts, with or without their V: tools are sold by the bare number.

    Raises: Unread
    """
    try:
        return read.number(text)
    except Unread:
        return read.voltage_v(text)


def times(text: str) -> tuple[int, int]:
    """Rows and columns: `5x5`.

    Raises: Unread
    """
    needs, write = "rows and columns of rolls", "5x5"
    found = re.fullmatch(r"([0-9]{1,2}) ?[xX] ?([0-9]{1,2})", tidy(text, needs, write))
    if found is None or "0" in (found[1].lstrip("0") or "0", found[2].lstrip("0") or "0"):
        raise Unread(needs, write)
    return int(found[1]), int(found[2])


def opening(text: str) -> tuple[float, ...]:
    """A diameter, or a width and a height: `4 in`, `12 in x 4 in` [m].

    Raises: Unread
    """
    needs, write = "a diameter, or a width x a height, with their units", "12 in x 4 in"
    parts = re.split(r" ?[xX] ?", tidy(text, needs, write))
    if len(parts) > 2:
        raise Unread(needs, write)
    return tuple(read.length_m(part) for part in parts)


def tenths(text: str) -> float:
    """Cover of cloud in tenths of the sky as a share of one.

    Raises: Unread
    """
    return read.number(text) / 10


KINDS: Mapping[str, tuple[Callable[[str], Any], str]] = MappingProxyType(
    {
        "temperature": (read.temperature_c, "_c"),
        "speed": (read.speed_m_s, "_m_s"),
        "length": (read.length_m, "_m"),
        "area": (read.area_m2, "_m2"),
        "power": (read.power_w, "_w"),
        "volts": (volts, "_v"),
        "percent": (read.percent, "_share"),
        "rain": (read.rain_m_s, "_m_s"),
        "irradiance": (read.irradiance_w_m2, "_w_m2"),
        "transmittance": (read.transmittance_w_m2k, "_w_m2k"),
        "resistance": (read.resistance_m2k_w, "_m2k_w"),
        "cloud": (tenths, "_share"),
        "number": (read.number, ""),
        "choice": (str, ""),
        "rolls": (times, ""),
        "opening": (opening, "_m"),
        "flag": (str, ""),
    }
)


@dataclass(frozen=True, slots=True)
class Option:
    """One thing that is asked.

    help: what it is, in words; write: an example.  default: its text, where it may be left out; may_lack: it may be
    left out and is then not there.  low or above, and high: texts of the bounds of what the figure holds for.
    choices: for the kind `choice`; also: other spellings, each with the choice that it means.
    """

    name: str
    kind: str
    help: str
    write: str = ""
    default: str | None = None
    may_lack: bool = False
    low: str = ""
    above: str = ""
    high: str = ""
    choices: tuple[str, ...] = ()
    also: tuple[tuple[str, str], ...] = ()

    @property
    def key(self) -> str:
        """The name of its value, with the unit in it."""
        return self.name.replace("-", "_") + KINDS[self.kind][1]

    @property
    def is_needed(self) -> bool:
        """It must be given."""
        return self.default is None and not self.may_lack and self.kind != "flag"

    def value(self, text: str) -> Any:  # noqa: ANN401  # whatever its kind gives
        """The value of a text, SI.

        Raises: Unread for what its kind can't read and for what is out of bounds.
        """
        if self.kind == "choice":
            return self._chosen(text)
        take = KINDS[self.kind][0]
        try:
            value = take(text)
        except Unread as found:
            raise Unread(found.needs, self._with_unit(text)) from None
        parts = value if isinstance(value, tuple) else (value,)
        is_low = (self.low and min(parts) < _bound(take(self.low))) or (
            self.above and min(parts) <= _bound(take(self.above))
        )
        if is_low or (self.high and max(parts) > _bound(take(self.high))):
            between = f"from {self.low} to {self.high}" if self.low else f"over {self.above}, at most {self.high}"
            raise Unread(f"{self.help}, {between}", self.write)
        return value

    def _with_unit(self, text: str) -> str:
        """What to write: a bare number with the example's unit where it can be read so, else the example."""
        number, example = text.strip(), re.search(r"[0-9.]+", self.write)
        if example is None or not re.fullmatch(r"[-+]?[0-9]+(\.[0-9]+)?", number):
            return self.write
        whole = self.write[: example.start()] + number + self.write[example.end() :]
        try:
            KINDS[self.kind][0](whole)
        except Unread:
            return self.write
        return whole

    def _chosen(self, text: str) -> str:
        known = {plainly(choice): choice for choice in self.choices} | {plainly(word): is_ for word, is_ in self.also}
        if plainly(text) not in known:
            raise Unread("one of " + ", ".join(self.choices), near(text, self.choices) or self.choices[0])
        return known[plainly(text)]


def _bound(value: Any) -> float:  # noqa: ANN401  # a bound is typed as its value is
    return float(value[0] if isinstance(value, tuple) else value)


def plainly(word: str) -> str:
    """A word whatever its capitals, its hyphens and its underscores."""
    return " ".join(word.casefold().replace("_", " ").replace("-", " ").split())


def near(word: str, names: tuple[str, ...]) -> str | None:
    """The name nearest to a word, None where none is near."""
    import difflib  # only where something was mistyped

    by_small = {name.casefold(): name for name in names}
    found = difflib.get_close_matches(word[:80].casefold(), list(by_small), n=1)
    return by_small[found[0]] if found else None
