"""A figure's answer as lines of plain text: results, a small curve, the steps, what was put in."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from lapwright.plan.figures.curve import curve_lines
from lapwright.plan.figures.figure import Answer, Asked, Figure, Shown
from lapwright.plan.figures.option import KINDS, Option
from lapwright.plan.figures.registry import FIGURES
from lapwright.units.write import Units, sensible
from lapwright.verdict import Step

WIDE = 96
SI_OF_ENDING = {
    "_c": "°C", "_m_s": "m/s", "_m": "m", "_m2": "m²", "_w": "W", "_w_m2": "W/m²", "_w_m2k": "W/m²K", "_m2k_w": "m²K/W",
}  # fmt: skip


def answer_lines(figure: Figure, asked: Asked, answer: Answer, units: Units) -> Iterator[str]:
    """Everything that a person at a telephone needs, the results first."""
    yield f"{figure.name}: {figure.title}"
    yield ""
    wide = max(len(shown.text) for shown in answer.shown)
    for shown in answer.shown:
        yield from wrapped(f"  {shown.text.ljust(wide)}  ", value_words(units, shown))
    if answer.curve is not None:
        yield ""
        yield from curve_lines(answer.curve, units)
    yield ""
    yield "Put in"
    for option in figure.options:
        yield from _input_lines(option, asked)
    yield ""
    yield "Steps (SI)"
    for number, step in enumerate(answer.steps, 1):
        yield from step_lines(number, step, units)
    yield ""
    yield from wrapped("Source  ", answer.source)


def value_words(units: Units, shown: Shown) -> str:
    """A result in the units asked and, where they differ, in SI; `never` for a time that is not reached."""
    value = shown.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if value is None:
        return "never" if shown.unit == "s" else "none"
    if isinstance(value, str):
        return value
    return both(units, value, shown.unit)


def both(units: Units, value: float, unit: str) -> str:
    """A number in the units asked, with SI behind it where that says something else."""
    own = units.number_and_unit(value, unit)
    plain_unit = {"degC": "°C", "m/s tool": "m/s", "m/s rain": "m/s"}.get(unit, unit)
    plain = f"{sensible(value)} {plain_unit}".rstrip()
    return own if own == plain or Units("metric").number_and_unit(value, unit) == own else f"{own} ({plain})"


def step_lines(number: int, step: Step, units: Units) -> Iterator[str]:
    """One step: what, the formula with its result, the numbers put in."""
    yield from wrapped(f"{number:3}. ", step.text)
    said, put = step_words(step, units)
    if said:
        yield from wrapped("       ", said)
    if put:
        yield from wrapped("       with ", put)


def step_words(step: Step, units: Units) -> tuple[str, str]:
    """A step's formula with its result, and the numbers put in; either may be empty."""
    result = "" if step.result is None else step.result if isinstance(step.result, str) else _result(step, units)
    said = " = ".join(part for part in (step.formula, result) if part)
    return said, ", ".join(f"{name} {_number(value)}" for name, value in step.values.items())


def wrapped(head: str, text: str) -> Iterable[str]:
    """A text behind its head, its further lines under the first."""
    return textwrap.wrap(text, WIDE, initial_indent=head, subsequent_indent=" " * len(head)) or [head.rstrip()]


def help_lines(figure: Figure) -> Iterator[str]:
    """What a figure asks and answers."""
    yield f"lapwright figure {figure.name}: {figure.title}"
    yield ""
    yield "Options"
    for option in figure.options:
        yield from wrapped(f"  {_usage(option):34}  ", _option_words(option))
    yield ""
    yield "Results (with --json)"
    for key, text in figure.results.items():
        yield from wrapped(f"  {key:20}  ", text)
    yield from wrapped(f"  {'inputs':20}  ", "every option used, SI; steps: how the numbers came about; source")
    yield ""
    yield "Example"
    yield f"  lapwright figure {figure.name} {figure.example}"


def list_lines() -> Iterator[str]:
    """The figures that there are."""
    yield "lapwright figure NAME …: one calculation by itself, for a question asked on the roof."
    yield ""
    for name, load in FIGURES.items():
        yield from wrapped(f"  {name:8}  ", load().title)
    yield ""
    yield "  --json     the numbers in SI for other programs, with inputs, steps and source"
    yield "  --metric   metric units in what is printed"
    yield "  --help     behind a NAME: its options, results and an example"
    yield ""
    yield "Values are typed with their units, as in a job file: --air 25F --wind 10mph --length 10m"


def _usage(option: Option) -> str:
    if option.kind == "flag":
        return f"--{option.name}"
    return f"--{option.name} {(option.choices and '|'.join(option.choices)) or option.write}"


def _option_words(option: Option) -> str:
    parts = [option.help]
    if option.kind != "flag" and not option.is_needed:
        parts.append("may be left out" if option.default is None else f"{option.default} where left out")
    if option.low or option.above:
        parts.append(f"from {option.low} to {option.high}" if option.low else f"over {option.above}, to {option.high}")
    return "; ".join(parts)


def _input_lines(option: Option, asked: Asked) -> Iterable[str]:
    return wrapped(f"  {'--' + option.name:16}  ", input_words(option, asked))


def input_words(option: Option, asked: Asked) -> str:
    """A value as it was typed, and what was understood."""
    value, text = asked.values[option.key], asked.texts.get(option.name, option.default)
    if option.kind == "flag":
        words = "yes" if value else "no"
    elif text is None:
        words = "not given"
    else:
        plain = _si_words(option, value)
        words = f"{text} = {plain}" if plain and plain != text else text
    mark = "  (default)" if text is not None and option.name not in asked.texts else ""
    return words + mark


def _si_words(option: Option, value: object) -> str:
    """A value in SI with its unit; empty where there is none to tell."""
    if option.kind == "opening" and isinstance(value, tuple):
        return " x ".join(f"{sensible(each)} m" for each in value)
    if not isinstance(value, float) or option.kind in ("number", "cloud", "percent", "volts"):
        return ""
    return f"{sensible(value)} {SI_OF_ENDING.get(KINDS[option.kind][1], '')}".rstrip()


def _result(step: Step, units: Units) -> str:
    assert isinstance(step.result, int | float)
    return both(units, float(step.result), "" if step.unit == "1" else step.unit)


def _number(value: object) -> str:
    if isinstance(value, bool) or value is None:
        return {True: "yes", False: "no", None: "not given"}[value]
    return f"{value:.6g}" if isinstance(value, float) else str(value)
