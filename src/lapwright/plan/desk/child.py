"""The process that plans: it holds what was made, answers one question after the other, and can be interrupted.

Questions come over standard input, answers go to standard output, both pickled (`plan.workers`).  A question is a
number, the name of a view, the job as it stands, options as texts, and what was read of the job already, if anything.
What goes back, each with that number: ("tell", words) and ("draft", bytes) on the way, then ("done", bytes),
("refused", faults), ("stopped", None) or, for an error of ours, ("wrong", None).  The first is (-1, "ready", None).

An interrupt (SIGINT) stops the work at hand and keeps everything that was made before; it never cuts a message in two.
The process ends at once, whatever it is at, when standard input ends: then whoever asked is gone.
"""

from __future__ import annotations

import gc
import json
import os
import queue
import signal
import sys
import threading
import traceback
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import FrameType
from typing import IO, Any

from lapwright.faults import Refused
from lapwright.plan.desk.keeping import Kept
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import find
from lapwright.plan.workers import load, receive, send

# What is loaded while nobody waits yet.
BEFORE = (
    "ruamel.yaml",
    "lapwright.plan.make",
    "lapwright.intake.weather_source",
    "pvlib.iotools",
    "lapwright.plan.morning",
    "typst",
)

RARELY = (50_000, 20, 50)  # so many new objects before they are looked through: plans are kept and rarely let go


class Stopped(BaseException):
    """Whoever asked does not want the answer any more."""


def json_bytes(value: Any) -> bytes:  # noqa: ANN401  # plain values of any shape
    """A value as JSON; a number that is none is a bug here and is not sent."""
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


@dataclass(slots=True)
class Mouth:
    """What is said to whoever asked; an interrupt that comes in the middle of a message waits for its end."""

    pipe: IO[bytes]
    is_working: bool = False
    is_speaking: bool = False
    is_late: bool = False

    def interrupt(self, number: int, frame: FrameType | None) -> None:
        """Stops the work at hand; between two questions there is none.

        In the middle of an import it is not heard, since half a module would stay for ever: whoever asked repeats it.
        """
        if self.is_working and self.is_speaking:
            self.is_late = True
        elif self.is_working and not is_loading(frame):
            self.is_working = False
            raise Stopped

    def say(self, message: tuple[object, ...]) -> None:
        """A message, whole.

        Raises: Stopped where an interrupt came meanwhile
        """
        self.is_speaking = True
        send(self.pipe, message)
        self.is_speaking = False
        if self.is_late:
            self.is_working = self.is_late = False
            raise Stopped


def is_loading(frame: FrameType | None) -> bool:
    """A module is being imported below this frame."""
    while frame is not None:
        if frame.f_code.co_filename.startswith("<frozen importlib"):
            return True
        frame = frame.f_back
    return False


@dataclass(slots=True)
class Teller:
    """What a view says while it works: words, or a first answer to show until the whole one is there."""

    mouth: Mouth
    number: int

    def __call__(self, words: str) -> None:
        """A step is done."""
        self.mouth.say((self.number, "tell", words))

    def draft(self, value: Any) -> None:  # noqa: ANN401  # plain values of any shape
        """A first answer, less than the whole."""
        self.mouth.say((self.number, "draft", json_bytes(value)))


@dataclass(slots=True)
class Child:
    """The planning process."""

    source: IO[bytes]
    mouth: Mouth
    stages: Stages = field(default_factory=Stages)
    answers: Kept = field(default_factory=lambda: Kept(48))
    asked: queue.SimpleQueue[Any] = field(default_factory=queue.SimpleQueue)

    def serve(self) -> None:
        """Answers until standard input ends."""
        threading.Thread(target=self.listen, name="ear", daemon=True).start()
        while True:
            number, view, ask, options, read = self.asked.get()
            if read is not None and self.stages.reads.find(read[0]) is None:
                self.stages.reads.put(*read)
            self.mouth.say((number, *self.answer(number, view, ask, options)))

    def listen(self) -> None:
        """Hears questions; ends the process, and those that it began, when there is nobody to ask any more."""
        while (asked := receive(self.source)) is not None:
            self.asked.put(asked)
        end_group()

    def answer(self, number: int, view: str, ask: JobAsk, options: Mapping[str, str]) -> tuple[str, Any]:
        """What comes of a question."""
        try:
            self.mouth.is_late, self.mouth.is_working = False, True
            answer = self.tried(number, view, ask, options)
            self.mouth.is_working = False
        except Stopped:
            return ("stopped", None)
        return answer

    def tried(self, number: int, view: str, ask: JobAsk, options: Mapping[str, str]) -> tuple[str, Any]:
        """The same, unless it is stopped."""
        try:
            return ("done", self.made(view, ask, options, Teller(self.mouth, number)))
        except Refused as refused:
            return ("refused", refused.faults)
        except Exception:  # an error of ours costs this answer, not all that was made before
            traceback.print_exc()
            return ("wrong", None)

    def made(self, view: str, ask: JobAsk, options: Mapping[str, str], tell: Teller) -> bytes:
        """The answer as bytes, kept."""
        asked = find(view)
        if not asked.is_kept:
            return json_bytes(asked.view(self.stages, ask, options, tell))
        key = (view, ask.key(), tuple(sorted(options.items())))
        found: bytes = self.answers.take(key, lambda: json_bytes(asked.view(self.stages, ask, options, tell)))
        return found


def end_group() -> None:
    """Ends this process at once, with those that it began where a system has groups of them."""
    if hasattr(os, "killpg") and os.getpgrp() == os.getpid():
        os.killpg(0, signal.SIGKILL)
    os._exit(0)


def own_output() -> IO[bytes]:
    """Standard output for answers alone: what a library prints goes to standard error."""
    own = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    return own


def main() -> None:
    """Entry point of the process."""
    mouth = Mouth(own_output())
    signal.signal(signal.SIGINT, mouth.interrupt)
    load(BEFORE)
    gc.freeze()  # what was loaded stays, and is not looked through again and again
    gc.set_threshold(*RARELY)
    child = Child(sys.stdin.buffer, mouth)
    mouth.say((-1, "ready", None))
    child.serve()
