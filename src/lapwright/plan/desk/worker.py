"""The planning process as others see it: ask, hear how it goes, have the answer, or stop it.

One question is worked on at a time; the others wait in order.  Whoever stops waiting takes their question back: one
that waits is dropped, one at work is interrupted and, where that is not heard, its process ended and begun anew.
"""

from __future__ import annotations

import itertools
import json
import queue
import signal
import subprocess
import sys
import threading
from collections import deque
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from typing import IO, Any

from lapwright.faults import Fault
from lapwright.plan.desk.stages import JobAsk
from lapwright.plan.workers import receive, send

START = "import sys, json; sys.path[:] = json.loads(sys.argv[1]); from lapwright.plan.desk.child import main; main()"
PATIENCE_S = 3.0  # an interrupt that is not heard by then is followed by an end


@dataclass(frozen=True, slots=True)
class Said:
    """One thing heard of a question.  kind: tell, draft, done, refused, stopped or broken."""

    kind: str
    value: Any = None

    @property
    def is_last(self) -> bool:
        """Nothing comes after it."""
        return self.kind not in ("tell", "draft")


@dataclass(slots=True)
class Question:
    """A question on its way; `heard` gives what is said of it until the last."""

    number: int
    view: str
    ask: JobAsk
    options: Mapping[str, str]
    line: queue.SimpleQueue[Said] = field(default_factory=queue.SimpleQueue)
    is_dropped: bool = False

    def next(self, wait_s: float | None = None) -> Said | None:
        """The next thing said; None where nothing is for so long."""
        try:
            return self.line.get(timeout=wait_s)
        except queue.Empty:
            return None

    def heard(self) -> Iterator[Said]:
        """What is said, as it comes, until the last."""
        while True:
            said = self.line.get()
            yield said
            if said.is_last:
                return


@dataclass(slots=True)
class Worker:
    """The planning process and the questions before it."""

    process: subprocess.Popen[bytes] | None = None
    waiting: deque[Question] = field(default_factory=deque)
    at_work: Question | None = None
    lock: threading.Condition = field(default_factory=threading.Condition)
    numbers: Iterator[int] = field(default_factory=itertools.count)
    is_ended: bool = False
    thread: threading.Thread | None = None

    def start(self) -> None:
        """Begins the process and the thread that speaks with it."""
        self.begin()
        self.thread = threading.Thread(target=self.run, name="planner", daemon=True)
        self.thread.start()

    def begin(self) -> None:
        """A new process."""
        self.process = subprocess.Popen(  # noqa: S603  # this very Python, words of our own
            [sys.executable, "-c", START, json.dumps(sys.path)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            start_new_session=True,  # an interrupt at the terminal is for the server, which then ends this one
        )

    def ask(self, view: str, ask: JobAsk, options: Mapping[str, str] | None = None) -> Question:
        """Puts a question in line."""
        question = Question(next(self.numbers), view, ask, dict(options or {}))
        with self.lock:
            self.waiting.append(question)
            self.lock.notify()
        return question

    def drop(self, question: Question) -> None:
        """Takes a question back, whether it waits, is at work, or is done already."""
        with self.lock:
            question.is_dropped = True
            if question in self.waiting:
                self.waiting.remove(question)
                question.line.put(Said("stopped"))
                return
            if self.at_work is not question or self.process is None:
                return
            process = self.process
            with suppress(OSError, ValueError):
                process.send_signal(signal.SIGINT)
        timer = threading.Timer(PATIENCE_S, self.end_if_still, (question, process))
        timer.daemon = True
        timer.start()

    def end_if_still(self, question: Question, process: subprocess.Popen[bytes]) -> None:
        """Ends a process that did not hear that its question was taken back."""
        with self.lock:
            if self.at_work is question:
                process.kill()

    def end(self) -> None:
        """Ends the process and the thread."""
        with self.lock:
            self.is_ended = True
            self.lock.notify()
            if self.process is not None:
                self.process.kill()
        if self.thread is not None:
            self.thread.join(timeout=5)

    def run(self) -> None:
        """The thread: one question after the other, until the end."""
        while True:
            with self.lock:
                while not self.waiting and not self.is_ended:
                    self.lock.wait()
                if self.is_ended:
                    break
                question = self.at_work = self.waiting.popleft()
            self.work(question)
            with self.lock:
                self.at_work = None
        for left in self.waiting:
            left.line.put(Said("stopped"))
        self.close()

    def work(self, question: Question) -> None:
        """Asks the process, and passes on what it says."""
        try:
            process = self.process
            if process is None or process.stdin is None or process.stdout is None:
                raise OSError
            while (last := self.once(process.stdin, process.stdout, question)).kind == "stopped":
                if question.is_dropped:
                    break  # else it was another's interrupt, come late: asked once more
            question.line.put(last)
        except (OSError, ValueError):
            self.close()
            if not self.is_ended:
                self.begin()
            question.line.put(Said("stopped" if question.is_dropped or self.is_ended else "broken", BROKEN))

    def once(self, to: IO[bytes], back: IO[bytes], question: Question) -> Said:
        """Asks once; the last thing said.

        Raises: OSError where the process is gone.
        """
        send(to, (question.number, question.view, question.ask, question.options))
        while True:
            heard = receive(back)
            if heard is None:
                raise OSError
            said = Said(heard[1], heard[2])
            if said.is_last:
                return said
            question.line.put(said)

    def close(self) -> None:
        """Ends what is left of a process."""
        process = self.process
        if process is None:
            return
        process.kill()
        for pipe in (process.stdin, process.stdout):
            if pipe is not None:
                with suppress(OSError):  # what was still in it is for a process that is gone
                    pipe.close()
        process.wait()
        self.process = None


BROKEN = (
    Fault(
        "",
        0,
        0,
        "",
        "",
        "the planning process ended in the middle of its work",
        "the same once more; it was begun anew",
    ),
)
