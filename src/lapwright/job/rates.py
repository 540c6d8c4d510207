"""The crew's own rates: known names, each with the kind of value that its default has."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from lapwright.job.fields import close_to
from lapwright.units import read
from lapwright.units.unread import Unread

MOST = 1_000_000.0

Wrong = tuple[str, str, str, bool]


def check_rates(given: Mapping[str, str], known: Mapping[str, str]) -> list[Wrong]:
    """What is wrong with the rates of a job file: (name, needs, write, whether it is the name).

    known: the default of each rate as written: `65 sf/h`, `3 ft/min`, `30 min`, `0.85`.
    """
    wrong: list[Wrong] = []
    for name, text in given.items():
        if name not in known:
            near = close_to(name, known, cutoff=0.0) or next(iter(known))
            wrong.append((name, f"a rate that is known; the nearest is {near}", f"{near}: {known[near]}", True))
            continue
        kind, _ = rate(known[name])
        try:
            found, value = rate(text)
        except Unread:
            found, value = "", 0.0
        is_time = kind == "a duration"
        if found != kind:
            wrong.append((name, f"{kind} with its unit" if kind != "a number" else kind, known[name], False))
        elif not (0 <= value if is_time else 0 < value) or value > MOST:
            wrong.append((name, f"{kind} above 0" if not is_time else f"{kind} of some minutes", known[name], False))
    return wrong


def rate(text: str) -> tuple[str, float]:
    """What a rate is, in words, and its value in SI: m²/s, m/s, s, or a plain number.

    Raises: Unread where it is none of these.
    """
    readers: tuple[tuple[str, Callable[[str], float]], ...] = (
        ("a number", read.number),
        ("a duration", read.duration_s),
        ("a speed", read.speed_m_s),
        ("an area in a time", _area_rate),
        ("a speed", _speed),
    )
    for kind, reader in readers:
        try:
            return kind, reader(text)
        except Unread:
            continue
    raise Unread("a rate with its unit", "65 sf/h, 3 ft/min or 30 min")


def _area_rate(text: str) -> float:
    above, _, below = text.rpartition("/")
    return read.area_m2(above) / read.duration_s(f"1 {below.strip()}")


def _speed(text: str) -> float:
    above, _, below = text.rpartition("/")
    return read.length_m(above) / read.duration_s(f"1 {below.strip()}")
