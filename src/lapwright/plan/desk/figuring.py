"""The figures as forms: what each asks, and what comes of it, in words and in the units of whoever asks."""

from __future__ import annotations

import re
import shlex
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.plan.desk.axes import curve_shown
from lapwright.plan.figures.figure import Figure
from lapwright.plan.figures.lines import input_words, step_words, value_words
from lapwright.plan.figures.option import KINDS, Option
from lapwright.plan.figures.registry import FIGURES, figure
from lapwright.units.examples import rounded
from lapwright.units.unread import Unread
from lapwright.units.write import Units, decimals

Json = dict[str, Any]
MOST_OPTIONS = 40
LONGEST_TEXT = 200
# The SI unit of a kind, as Units knows it; kinds without one read alike everywhere.
SI: Mapping[str, str] = MappingProxyType(
    {"temperature": "degC", "speed": "m/s", "length": "m", "area": "m2", "rain": "m/s rain", "resistance": "m2K/W"}
)
METRIC_VOLTS = "230"
_AMOUNT = re.compile(r"(-?[0-9.]+) (.+)")
READINGS = "Computed, not measured: the reading on the roof and the maker's written limits decide."
CAUTIONS: Mapping[str, str] = MappingProxyType(
    {
        "roll": READINGS,
        "store": READINGS,
        "sheet": READINGS,
        "surface": READINGS,
        "weld": "Computed, not tested: the morning's test weld decides, and every lap is probed.",
        "cord": "Each tool on its own protected circuit; local code and licensed practice govern.",
        "wind": "A help to whoever designs for wind, no substitute: the engineer of record decides.",
        "drain": "Whether the roof carries the water is the structural engineer's to say; the plumbing code governs.",
        "chill": "People decide, not the table: whoever turns cold or numb goes in and gets warm.",
    }
)


def figure_forms(system: str) -> list[Json]:
    """Every figure with what it asks.  system: us or metric, for examples and bounds."""
    return [form(load(), Units(system)) for load in FIGURES.values()]


def form(one: Figure, units: Units) -> Json:
    """One figure as a form."""
    given = example_of(one)
    return {
        "name": one.name,
        "title": one.title,
        "caution": CAUTIONS[one.name],
        "example": {
            option.name: shown_in(option, given[option.name], units) for option in one.options if option.name in given
        },
        "options": [field(option, units) for option in one.options],
    }


def example_of(one: Figure) -> dict[str, str]:
    """The texts of a figure's example by option; a flag has an empty one."""
    found: dict[str, str] = {}
    words = shlex.split(one.example)
    for place, word in enumerate(words):
        if word.startswith("--"):
            behind = words[place + 1] if place + 1 < len(words) else "--"
            found[word.removeprefix("--")] = "" if behind.startswith("--") else behind
    return found


def field(option: Option, units: Units) -> Json:
    """One field of a form."""
    bounds = ""
    if option.low or option.above:
        least, most = (in_units(option, text, units) for text in (option.low or option.above, option.high))
        bounds = f"from {least} to {most}" if option.low else f"over {least}, at most {most}"
    default = option.default
    return {
        "name": option.name,
        "help": option.help,
        "kind": option.kind,
        "write": shown_in(option, option.write, units),
        "default": "" if default is None else in_units(option, default, units),
        "is_needed": option.is_needed,
        "choices": list(option.choices),
        "bounds": bounds,
    }


def shown_in(option: Option, text: str, units: Units) -> str:
    """An example, as round in metric units as somebody would type it."""
    words = in_units(option, text, units)
    found = _AMOUNT.fullmatch(words)
    if words == text or found is None:
        return METRIC_VOLTS if option.kind == "volts" and not units.is_us and text else words
    value = float(found[1])
    plain = decimals(value, 0) if option.kind == "temperature" else decimals(rounded(value), 6)
    return f"{plain} {found[2]}"


def in_units(option: Option, text: str, units: Units) -> str:
    """A text in metric units, where they are asked for and the figure reads them back; else as it is."""
    if option.kind == "opening" and text and not units.is_us:
        return " x ".join(units.length(side) for side in KINDS["opening"][0](text))
    if units.is_us or option.kind not in SI or not text:
        return text
    try:
        words = units.number_and_unit(KINDS[option.kind][0](text), SI[option.kind])
        KINDS[option.kind][0](words)
    except Unread:
        return text
    return words


def figure_answer(name: str, given: Mapping[str, str], system: str) -> Json:
    """What comes of a figure.

    given: texts by option; a flag has any text.  system: us or metric.
    Raises: Refused, the key of each fault being the option's name.
    """
    one = figure(name)
    for option, text in given.items():
        if max(len(text), len(option)) > LONGEST_TEXT or len(given) > MOST_OPTIONS:
            needs = f"at most {MOST_OPTIONS} values of at most {LONGEST_TEXT} characters"
            raise Refused([Fault(f"figure {name}", 0, 0, option[:LONGEST_TEXT], text[:LONGEST_TEXT], needs, "")])
    try:
        asked, answer = one.answer(given)
    except Refused as refused:
        raise Refused([at_field(fault) for fault in refused.faults]) from None
    units = Units(system)
    steps = [(step.text, *step_words(step, units)) for step in answer.steps]
    return {
        "name": one.name,
        "shown": [[shown.text.strip(), value_words(units, shown)] for shown in answer.shown],
        "put_in": [[option.help, input_words(option, asked)] for option in one.options],
        "steps": [{"text": text, "said": said, "put": put} for text, said, put in steps],
        "source": answer.source,
        "curve": None if answer.curve is None else curve_shown(answer.curve, units),
    }


def at_field(fault: Fault) -> Fault:
    """A fault of the command line's option as one of a form's field."""
    words = shlex.split(fault.write) if fault.write.startswith("--") else []
    write = words[1] if len(words) > 1 else ""
    return Fault(fault.file, 0, 0, fault.key.removeprefix("--"), fault.read, fault.needs, write)
