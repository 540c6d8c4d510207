"""A figure: what is asked, what is answered, and the reading of texts in between."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.plan.figures.option import Option, near
from lapwright.units.unread import Unread
from lapwright.verdict import Step


@dataclass(frozen=True, slots=True)
class Asked:
    """The values of a figure's options by their keys (SI; None: not given), and the texts as typed by option."""

    figure: str
    values: Mapping[str, Any]
    texts: Mapping[str, str]

    def __getitem__(self, key: str) -> Any:  # noqa: ANN401  # each option its own
        """The value under a key."""
        return self.values[key]

    def refuse(self, option: str, *, needs: str, write: str) -> Refused:
        """A value that can't stand beside the others."""
        return Refused([fault(self.figure, option, self.texts.get(option, ""), needs, write)])


@dataclass(frozen=True, slots=True)
class Shown:
    """One result as people see it: in words, SI value (None: never, or none), unit."""

    text: str
    value: float | str | bool | None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Curve:
    """A line to draw: points, SI, with what runs along and what up."""

    points: tuple[tuple[float, float], ...]
    along: str
    along_unit: str
    up: str
    up_unit: str


@dataclass(frozen=True, slots=True)
class Answer:
    """results: by the keys of the contract, SI; shown: the same for people; curve: where a picture helps."""

    results: Mapping[str, Any]
    shown: Sequence[Shown]
    steps: tuple[Step, ...]
    source: str
    curve: Curve | None = None


@dataclass(frozen=True, slots=True)
class Figure:
    """name; what it answers, in a sentence; options in the order asked; results: what each key means, in words."""

    name: str
    title: str
    options: tuple[Option, ...]
    results: Mapping[str, str]
    compute: Callable[[Asked], Answer] = field(repr=False)
    example: str = ""

    def read(self, given: Mapping[str, str]) -> Asked:
        """The values of what is given, with the defaults.

        given: text by option, without dashes; a flag has any text.
        Raises: Refused with every fault.
        """
        faults = self._unknown(given)
        values: dict[str, Any] = {}
        for option in self.options:
            text = given.get(option.name, option.default)
            if option.kind == "flag":
                values[option.key] = option.name in given
            elif text is None:
                values[option.key] = None
                if option.is_needed:
                    faults.append(fault(self.name, option.name, "", option.help, option.write))
            else:
                try:
                    values[option.key] = option.value(text)
                except Unread as found:
                    faults.append(fault(self.name, option.name, text, found.needs, found.write))
        if faults:
            raise Refused(faults)
        return Asked(self.name, values, dict(given))

    def answer(self, given: Mapping[str, str]) -> tuple[Asked, Answer]:
        """What was asked and what comes of it.

        Raises: Refused
        """
        asked = self.read(given)
        return asked, self.compute(asked)

    def _unknown(self, given: Mapping[str, str]) -> list[Fault]:
        names = tuple(option.name for option in self.options)
        told = ", ".join(f"--{name}" for name in names)
        return [
            Fault(f"figure {self.name}", 0, 0, f"--{name}", name, f"one of {told}", _dashed(near(name, names)))
            for name in given
            if name not in names
        ]


def fault(figure: str, option: str, read: str, needs: str, write: str) -> Fault:
    """A fault at an option."""
    return Fault(f"figure {figure}", 0, 0, f"--{option}", read, needs, f"--{option} {quoted(write)}" if write else "")


def quoted(text: str) -> str:
    """A text as a shell takes it."""
    if not any(mark in text for mark in " '\"()"):
        return text
    return f"'{text}'" if "'" not in text else '"' + text.replace('"', '\\"') + '"'


def _dashed(name: str | None) -> str:
    return "" if name is None else f"--{name}"


def as_json(asked: Asked, answer: Answer) -> dict[str, Any]:
    """A figure's answer for other programs."""
    return {
        "figure": asked.figure,
        **answer.results,
        "inputs": {key: list(value) if isinstance(value, tuple) else value for key, value in asked.values.items()},
        "steps": [
            {
                "text": step.text,
                "formula": step.formula,
                "values": dict(step.values),
                "result": step.result,
                "unit": step.unit,
            }
            for step in answer.steps
        ],
        "source": answer.source,
    }
