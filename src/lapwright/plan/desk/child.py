"""The process that plans: it holds what was made, answers one question after the other, and can be interrupted.

Questions come over standard input, answers go to standard output, both pickled (`plan.workers`).  A question is a
number, the name of a view, the job as it stands, and options as texts.  What goes back, each with that number: ("tell",
words) and ("draft", bytes) on the way, then ("done", bytes), ("refused", faults) or ("stopped", None).  An interrupt
(SIGINT) stops the work at hand and keeps everything that was made before.
"""

from __future__ import annotations

import gc
import json
import signal
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import IO, Any

from lapwright.faults import Refused
from lapwright.plan.desk.keeping import Kept
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import find
from lapwright.plan.workers import load, receive, send

# What is loaded while nobody waits yet.
BEFORE = ("lapwright.plan.make", "lapwright.intake.weather_source", "pvlib.iotools", "lapwright.plan.morning", "typst")

RARELY = (50_000, 20, 50)  # so many new objects before they are looked through: plans are kept and rarely let go


class Stopped(BaseException):
    """Whoever asked does not want the answer any more."""


def json_bytes(value: Any) -> bytes:  # noqa: ANN401  # plain values of any shape
    """A value as JSON; a number that is none is a bug here and is not sent."""
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


@dataclass(slots=True)
class Teller:
    """What a view says while it works: words, or a first answer to show until the whole one is there."""

    pipe: IO[bytes]
    number: int

    def __call__(self, words: str) -> None:
        """A step is done."""
        send(self.pipe, (self.number, "tell", words))

    def draft(self, value: Any) -> None:  # noqa: ANN401  # plain values of any shape
        """A first answer, less than the whole."""
        send(self.pipe, (self.number, "draft", json_bytes(value)))


@dataclass(slots=True)
class Child:
    """The planning process."""

    source: IO[bytes]
    target: IO[bytes]
    stages: Stages = field(default_factory=Stages)
    answers: Kept = field(default_factory=lambda: Kept(48))
    is_working: bool = False

    def interrupt(self, number: int, frame: object) -> None:
        """Stops the work at hand; between two questions there is none."""
        if self.is_working:
            raise Stopped

    def serve(self) -> None:
        """Answers until standard input ends."""
        signal.signal(signal.SIGINT, self.interrupt)
        while True:
            asked = receive(self.source)
            if asked is None:
                return
            number, view, ask, options = asked
            send(self.target, (number, *self.answer(number, view, ask, options)))

    def answer(self, number: int, view: str, ask: JobAsk, options: Mapping[str, str]) -> tuple[str, Any]:
        """What comes of a question."""
        try:
            self.is_working = True
            return ("done", self.made(view, ask, options, Teller(self.target, number)))
        except Refused as refused:
            return ("refused", refused.faults)
        except Stopped:
            return ("stopped", None)
        finally:
            self.is_working = False

    def made(self, view: str, ask: JobAsk, options: Mapping[str, str], tell: Teller) -> bytes:
        """The answer as bytes, kept."""
        asked = find(view)
        if not asked.is_kept:
            return json_bytes(asked.view(self.stages, ask, options, tell))
        key = (view, self.stages.key(ask), tuple(sorted(options.items())))
        found: bytes = self.answers.take(key, lambda: json_bytes(asked.view(self.stages, ask, options, tell)))
        return found


def main() -> None:
    """Entry point of the process."""
    load(BEFORE)
    gc.freeze()  # what was loaded stays, and is not looked through again and again
    gc.set_threshold(*RARELY)
    Child(sys.stdin.buffer, sys.stdout.buffer).serve()
