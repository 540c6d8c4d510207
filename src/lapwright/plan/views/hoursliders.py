"""The sliders of the hours: what each can be set to, as the job file writes it, and where it stands."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeAlias

from lapwright.packet.pages.words import clock
from lapwright.plan.views.hourswhat import RULES, Looked
from lapwright.plan.views.registry import Json
from lapwright.units import read

STEP_MIN, EARLIEST_MIN = 30, 3 * 60
WINDS = {True: [f"{speed} mph" for speed in range(5, 41)], False: [f"{half / 2:g} m/s" for half in range(4, 37)]}
MARGINS = {True: [f"{step} F" for step in range(16)], False: [f"{half / 2:g} K" for half in range(19)]}
Read: TypeAlias = Callable[[str], float]
Write: TypeAlias = Callable[[float], str]


def sliders(looked: Looked) -> list[Json]:
    """Start of the crew's day, wind limit and dew margin; without working hours the first is left out."""
    units = looked.units
    own, now = looked.own.rules.origins, looked.job.rules.origins
    wind, margin = RULES["wind"], RULES["margin"]
    return [
        *start_slider(looked),
        slider(
            ("wind", "No sheets are handled above a wind of", wind),
            WINDS[units.is_us],
            (own[wind].text, now[wind].text),
            (read.speed_m_s, units.speed),
        ),
        slider(
            ("margin", "The surface is warmer than dew or frost by", margin),
            MARGINS[units.is_us],
            (own[margin].text, now[margin].text),
            (read.temperature_difference_k, units.temperature_difference),
        ),
    ]


def start_slider(looked: Looked) -> list[Json]:
    """When the crew's day begins; its end stays, and it lasts an hour at least."""
    own, now = looked.own.crew.day, looked.job.crew.day
    if own is None or now is None:
        return []
    last = 60 * own[1].hour + own[1].minute - 60
    steps = [f"{at // 60:02d}:{at % 60:02d}" for at in range(EARLIEST_MIN, last + 1, STEP_MIN)]
    about = ("start", f"The crew's day begins (it ends {own[1]:%H:%M})", "crew.day")
    return [slider(about, steps, (f"{own[0]:%H:%M}", f"{now[0]:%H:%M}"), (minutes, clock))]


def minutes(text: str) -> float:
    """Minutes after midnight of a clock time."""
    hour, minute = text.split(":")
    return 60 * int(hour) + int(minute)


def slider(
    about: tuple[str, str, str], steps: Iterable[str], stands: tuple[str, str], ways: tuple[Read, Write]
) -> Json:
    """A slider: its steps in rising order, the job's own among them, and the places of the job's own and of now.

    about: option, words, key of the job file; stands: the job's own and the present text; ways: from a text to its
    value, and from a value to words in the job's units.
    """
    value, words_of = ways
    own, now = (value(text) for text in stands)
    at = {value(text): text for text in (*steps, *stands)}
    order = sorted(at)
    option, words, key = about
    return {
        "option": option,
        "words": words,
        "key": key,
        "steps": [at[each] for each in order],
        "shown": [words_of(each) for each in order],
        "own": order.index(own),
        "at": order.index(now),
    }
