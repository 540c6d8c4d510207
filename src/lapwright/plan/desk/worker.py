"""The planning process as others see it: ask, hear how it goes, have the answer, or stop it.

One question is worked on at a time; the others wait in order.  Whoever stops waiting takes their question back: one
that waits is dropped, one at work is interrupted and, where that is not heard, its process ended and begun anew.
Whatever becomes of the process, every question has a last answer, and the next one is asked of a new process.
"""

from __future__ import annotations

import itertools
import json
import os
import queue
import signal
import subprocess
import sys
import threading
from collections import deque
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from typing import IO, Any

from lapwright.faults import Fault, Refused
from lapwright.plan.desk.judging import reading_of
from lapwright.plan.desk.stages import JobAsk
from lapwright.plan.workers import receive, send

START = "import sys, json; sys.path[:] = json.loads(sys.argv[1]); from lapwright.plan.desk.child import main; main()"
PATIENCE_S = 3.0  # an interrupt that is not heard by then is followed by an end
AGAIN_S = 0.5  # and until then by another one so often
MOST_WAITING = 64


@dataclass(frozen=True, slots=True)
class Said:
    """One thing heard of a question.  kind: tell, draft, done, refused, stopped, wrong or broken."""

    kind: str
    value: Any = None

    @property
    def is_last(self) -> bool:
        """Nothing comes after it."""
        return self.kind not in ("tell", "draft")


@dataclass(slots=True)
class Question:
    """A question on its way; `heard` gives what is said of it until the last.  wake: called when something is said."""

    number: int
    view: str
    ask: JobAsk
    options: Mapping[str, str]
    line: queue.SimpleQueue[Said] = field(default_factory=queue.SimpleQueue)
    wake: Callable[[], None] = lambda: None
    is_dropped: bool = False
    is_sent: bool = False

    def say(self, said: Said) -> None:
        """One thing heard, for whoever waits."""
        self.line.put(said)
        self.wake()

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
    is_ready: bool = False
    is_ended: bool = False
    thread: threading.Thread | None = None

    def start(self) -> None:
        """Begins the process and the thread that speaks with it."""
        with suppress(OSError):  # the first question tries again, and says so
            self.begin()
        self.thread = threading.Thread(target=self.run, name="planner", daemon=True)
        self.thread.start()

    def begin(self) -> None:
        """A new process.

        Raises: OSError where none can be begun
        """
        self.is_ready = False
        self.process = subprocess.Popen(  # noqa: S603  # this very Python, words of our own
            [sys.executable, "-c", START, json.dumps(sys.path)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            start_new_session=True,  # an interrupt at the terminal is for the server, which then ends this one
        )

    def ask(
        self,
        view: str,
        ask: JobAsk,
        options: Mapping[str, str] | None = None,
        wake: Callable[[], None] = lambda: None,
    ) -> Question:
        """Puts a question in line.  wake: called from another thread whenever something is said.

        Raises: Refused where too many wait
        """
        question = Question(next(self.numbers), view, ask, dict(options or {}), wake=wake)
        with self.lock:
            if len(self.waiting) >= MOST_WAITING:
                raise Refused([Fault("", 0, 0, "", f"{MOST_WAITING} wait", "fewer questions at once", "")])
            if self.is_ended:
                question.say(Said("stopped"))
                return question
            self.waiting.append(question)
            self.lock.notify()
        return question

    def drop(self, question: Question) -> None:
        """Takes a question back, whether it waits, is at work, or is done already."""
        with self.lock:
            question.is_dropped = True
            if question in self.waiting:
                self.waiting.remove(question)
                question.say(Said("stopped"))
                return
            if self.at_work is not question or not question.is_sent or self.process is None:
                return
            process = self.process
        self.stop(question, process, PATIENCE_S)

    def stop(self, question: Question, process: subprocess.Popen[bytes], left_s: float) -> None:
        """Interrupts a process at work on a question, again and again, and ends it where it does not hear."""
        with self.lock:
            if self.at_work is not question or self.process is not process:
                return
            if left_s <= 0:
                end_group(process)
                return
            with suppress(OSError, ValueError):
                process.send_signal(signal.SIGINT)
        timer = threading.Timer(AGAIN_S, self.stop, (question, process, left_s - AGAIN_S))
        timer.daemon = True
        timer.start()

    def end(self) -> None:
        """Ends the process and the thread."""
        with self.lock:
            self.is_ended = True
            self.lock.notify()
            if self.process is not None:
                end_group(self.process)
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
            last = self.work(question)
            with self.lock:
                self.at_work = None
            question.say(last)
        for left in self.waiting:
            left.say(Said("stopped"))
        self.close()

    def work(self, question: Question) -> Said:
        """Asks the process, and passes on what it says; the last of it."""
        try:
            to, back = self.pipes()
            while (last := self.once(to, back, question)).kind == "stopped":
                if question.is_dropped:
                    break  # else it was another's interrupt, come late: asked once more
        except Exception:  # a process may end in the middle of anything, a message too
            self.close()
            with suppress(OSError):
                if not self.is_ended:
                    self.begin()
            return Said("stopped" if question.is_dropped or self.is_ended else "broken", BROKEN)
        return Said("wrong", WRONG) if last.kind == "wrong" else last

    def pipes(self) -> tuple[IO[bytes], IO[bytes]]:
        """To the process and back, once it is ready.

        Raises: OSError where there is none
        """
        if self.process is None:
            self.begin()
        process = self.process
        if process is None or process.stdin is None or process.stdout is None:
            raise OSError
        if not self.is_ready and receive(process.stdout) is None:
            raise OSError
        self.is_ready = True
        return process.stdin, process.stdout

    def once(self, to: IO[bytes], back: IO[bytes], question: Question) -> Said:
        """Asks once; the last thing said.

        Raises: OSError where the process is gone.
        """
        read = reading_of(question.ask)
        with self.lock:
            if question.is_dropped:
                return Said("stopped")
            question.is_sent = True
        send(to, (question.number, question.view, question.ask, question.options, read))
        while True:
            heard = receive(back)
            if heard is None:
                raise OSError
            said = Said(heard[1], heard[2])
            if said.is_last:
                return said
            question.say(said)

    def close(self) -> None:
        """Ends what is left of a process."""
        with self.lock:
            process, self.process = self.process, None
        if process is None:
            return
        end_group(process)
        for pipe in (process.stdin, process.stdout):
            if pipe is not None:
                with suppress(OSError):  # what was still in it is for a process that is gone
                    pipe.close()
        process.wait()


def end_group(process: subprocess.Popen[bytes]) -> None:
    """Ends a process with those that it began, where a system has groups of them."""
    if process.poll() is not None:
        return
    with suppress(OSError):
        if hasattr(os, "killpg"):
            os.killpg(process.pid, signal.SIGKILL)
        else:
            process.kill()


def fault(told: str, needs: str) -> tuple[Fault, ...]:
    """What is told where there is no answer."""
    return (Fault("", 0, 0, "", told, needs, ""),)


BROKEN = fault("the planning process ended in the middle of its work", "the same once more; it was begun anew")
WRONG = fault("an error in Lapwright itself", "a word to whoever maintains it: the terminal shows what went wrong")
