"""The steps of a job file, so that each can be taken back, also after the server was ended in between.

A step is what was cut out of the text and what was put in, with the digests before and after.  They stand line by line
in a file of their own, `.NAME.steps`, in the job's folder; a line that was not written to its end is passed over.  A
change made by somebody else (an editor, another tool) is a step as well, and can be taken back like any other.

A link or a pipe in the place of that file is left alone, and a step counts only where it leads to the text whose digest
it names.
"""

from __future__ import annotations

import json
import os
import stat
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from lapwright.plan.desk.jobtext import digest_of, write_synced

MOST_STEPS = 2_000
LONGEST_WORDS = 200
MOST_BYTES = 32 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class Step:
    """One change of a text: at a place [characters], what was cut out and what was put in; words: what it did."""

    before: str
    after: str
    at: int
    cut: str
    put: str
    words: str

    def leads_back(self, text: str) -> str | None:
        """The text before the step; None where it is not made for this text."""
        found = self.taken_back(text) if self.after == digest_of(text) else ""
        return found if self.before == digest_of(found) else None

    def leads_forth(self, text: str) -> str | None:
        """The text after the step; None where it is not made for this text."""
        found = self.made_again(text) if self.before == digest_of(text) else ""
        return found if self.after == digest_of(found) else None

    def taken_back(self, text: str) -> str:
        """The text before the step."""
        return text[: self.at] + self.cut + text[self.at + len(self.put) :]

    def made_again(self, text: str) -> str:
        """The text after the step."""
        return text[: self.at] + self.put + text[self.at + len(self.cut) :]


def step_of(before: str, after: str, words: str) -> Step:
    """The step from one text to another: what they share at both ends is left out."""
    most = min(len(before), len(after))
    start = next((k for k in range(most) if before[k] != after[k]), most)
    tail = next((k for k in range(most - start) if before[-1 - k] != after[-1 - k]), most - start)
    return Step(
        digest_of(before),
        digest_of(after),
        start,
        before[start : len(before) - tail],
        after[start : len(after) - tail],
        words,
    )


@dataclass(slots=True)
class History:
    """The steps of one job file.  done: those that the text has; undone: those taken back, the last one last."""

    path: Path
    done: list[Step]
    undone: list[Step]
    stamp: tuple[int, ...] = ()

    @property
    def last(self) -> str:
        """What the last step did; empty where there is none."""
        return self.done[-1].words if self.done else ""

    @property
    def next(self) -> str:
        """What the step taken back last did; empty where there is none."""
        return self.undone[-1].words if self.undone else ""

    def note(self, before: str, after: str, words: str) -> None:
        """A step was made."""
        if before == after:
            return
        if self.done and self.done[-1].after != digest_of(before):
            self.done.clear()  # steps that lead to another text can't be taken back from this one
        step = step_of(before, after, words)
        self.done.append(step)
        self.undone.clear()
        self.write({"do": [step.before, step.after, step.at, step.cut, step.put, step.words]})

    def forget(self, before: str, after: str) -> None:
        """A step that was noted and then could not be saved."""
        if before != after and self.done and self.done[-1].after == digest_of(after):
            self.done.pop()
            self.write({"forget": 1})

    def forget_unsaved(self, digest: str) -> None:
        """Drops the last step where the server was ended before its text was saved.  digest: of the file."""
        if self.done and self.done[-1].after != digest and self.done[-1].before == digest:
            self.done.pop()
            self.write({"forget": 1})

    def undo(self, text: str) -> str | None:
        """The text before the last step; None where there is none, or the text is not what it led to."""
        return self.done[-1].leads_back(text) if self.done else None

    def redo(self, text: str) -> str | None:
        """The text with the step taken back last made again; None where there is none that fits."""
        return self.undone[-1].leads_forth(text) if self.undone else None

    def leads_to(self, digest: str) -> bool:
        """The last step led to a text of this digest, or the one taken back last began from it."""
        back = bool(self.undone) and self.undone[-1].before == digest
        return back or (bool(self.done) and self.done[-1].after == digest)

    def is_behind(self) -> bool:
        """Somebody else wrote steps since these were read or written."""
        return self.stamp != stamp_of(self.path)

    def undid(self) -> None:
        """The last step was taken back, and the file is saved."""
        self.undone.append(self.done.pop())
        self.write({"undo": 1})

    def redid(self) -> None:
        """The step taken back last was made again, and the file is saved."""
        self.done.append(self.undone.pop())
        self.write({"redo": 1})

    def write(self, entry: dict[str, Any]) -> None:
        """One line more, on the disk.  Where that can't be, the steps are known as long as the server runs."""
        with suppress(OSError):
            line = json.dumps(entry, ensure_ascii=False).encode() + b"\n"
            if self.path.exists() and self.path.stat().st_size + len(line) > MOST_BYTES:
                self.shorten()
            else:
                append(self.path, line)
        self.stamp = stamp_of(self.path)

    def shorten(self) -> None:
        """The file written anew with the later half of the steps."""
        self.done = self.done[len(self.done) // 2 :]
        steps = [*self.done, *reversed(self.undone)]
        rows: list[dict[str, Any]] = [{"do": [s.before, s.after, s.at, s.cut, s.put, s.words]} for s in steps]
        rows += [{"undo": 1}] * len(self.undone)
        write_synced(self.path, b"".join(json.dumps(row, ensure_ascii=False).encode() + b"\n" for row in rows))


def stamp_of(path: Path) -> tuple[int, ...]:
    """What changes whenever a file does; empty where there is none."""
    try:
        about = path.lstat()
    except OSError:
        return ()
    return (about.st_size, about.st_mtime_ns, about.st_ino)


def opened(path: Path, flags: int) -> int:
    """A file opened, if it is a plain one.

    Raises: OSError for a link, a pipe or whatever else may stand there
    """
    handle = os.open(path, flags | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0), 0o644)
    if stat.S_ISREG(os.fstat(handle).st_mode):
        return handle
    os.close(handle)
    raise OSError


def append(path: Path, line: bytes) -> None:
    """A line put behind the others, and brought to the disk.

    Raises: OSError
    """
    with os.fdopen(opened(path, os.O_RDWR | os.O_CREAT | os.O_APPEND), "r+b", buffering=0) as stream:
        if stream.seek(0, os.SEEK_END) > 0:
            stream.seek(-1, os.SEEK_END)
            line = line if stream.read(1) == b"\n" else b"\n" + line
        stream.write(line)
        os.fsync(stream.fileno())


def history_of(job: Path) -> History:
    """The steps of a job file, as far as they can be read."""
    path = job.with_name(f".{job.name}.steps")
    history = History(path, [], [], stamp_of(path))
    for entry in entries(path):
        if isinstance(entry, Step):
            history.done.append(entry)
            history.undone.clear()
        elif "forget" in entry and history.done:
            history.done.pop()
        elif "undo" in entry and history.done:
            history.undone.append(history.done.pop())
        elif "redo" in entry and history.undone:
            history.done.append(history.undone.pop())
        del history.done[:-MOST_STEPS]
    return history


def entries(path: Path) -> Iterator[Step | dict[str, Any]]:
    """The lines that can be read, a step made into one."""
    try:
        with os.fdopen(opened(path, os.O_RDONLY), "rb") as stream:
            lines = stream.read(2 * MOST_BYTES).split(b"\n")
    except OSError:
        return
    for line in lines:
        try:
            entry = json.loads(line)
            if not isinstance(entry, dict):
                continue
            yield read_step(entry["do"]) if "do" in entry else entry
        except (ValueError, TypeError, OverflowError, RecursionError):
            continue


def read_step(row: list[Any]) -> Step:
    """A step from its line.

    Raises: ValueError or TypeError where it is none
    """
    before, after, at, cut, put, words = row
    step = Step(str(before), str(after), int(at), str(cut), str(put), str(words)[:LONGEST_WORDS])
    (step.cut + step.put + step.words).encode()
    return step
