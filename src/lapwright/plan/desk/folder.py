"""The folder of jobs: which there are, and the one that is worked on; no name leads out of it."""

from __future__ import annotations

import re
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from lapwright.faults import Fault, Refused
from lapwright.job.edits.newjob import new_job
from lapwright.plan.desk.history import History, history_of
from lapwright.plan.desk.jobtext import JobText, Moved, read_text, save_text

NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,79}")
MOST_JOBS = 500


def packet_folder(job: Path) -> Path:
    """Where a job's packet stands: `millrace-packet` beside `millrace.yaml`."""
    return job.with_name(f"{job.stem}-packet")


@dataclass(frozen=True, slots=True)
class Standing:
    """A job file as it stands, and what can be taken back or made again, in words (empty: nothing)."""

    file: JobText
    undo: str
    redo: str


@dataclass(slots=True)
class Folder:
    """Job files of one folder.  Each change is made under a lock: read, judged by its digest, written, noted."""

    path: Path
    lock: threading.RLock = field(default_factory=threading.RLock)
    histories: dict[str, History] = field(default_factory=dict)
    known: dict[str, JobText] = field(default_factory=dict)

    def names(self) -> tuple[str, ...]:
        """Names of the job files, without their ending, in order."""
        found = sorted(each.stem for each in self.path.glob("*.yaml") if each.is_file() and NAME.fullmatch(each.stem))
        return tuple(found[:MOST_JOBS])

    def place(self, name: str) -> Path:
        """The path of a job.

        Raises: Refused for a name that is no plain one, or a link that leads out of the folder.
        """
        path = self.path / f"{name}.yaml"
        if not NAME.fullmatch(name) or not path.resolve().is_relative_to(self.path.resolve()):
            needs = "letters, digits, spaces, . _ and -, beginning with a letter or a digit, 80 at most"
            raise Refused([Fault("", 0, 0, "name", name, needs, "quarry-lane")])
        return path

    def read(self, name: str) -> Standing:
        """A job as it stands; what somebody else changed since it was last seen becomes a step.

        Raises: Refused
        """
        with self.lock:
            file = read_text(self.place(name))
            self.notice(name, file)
            history = self.history(name)
            return Standing(file, history.last if history.undo(file.text) is not None else "", self.next_of(name, file))

    def next_of(self, name: str, file: JobText) -> str:
        """What can be made again, in words."""
        history = self.history(name)
        return history.next if history.redo(file.text) is not None else ""

    def history(self, name: str) -> History:
        """The steps of a job."""
        if name not in self.histories:
            self.histories[name] = history_of(self.place(name))
            self.histories[name].forget_unsaved(read_text(self.place(name)).digest)
        return self.histories[name]

    def notice(self, name: str, file: JobText) -> None:
        """Notes a change that was not made here."""
        known = self.known.get(name)
        if known is not None and known.digest != file.digest:
            self.history(name).note(known.text, file.text, "changed outside of the workspace")
        self.known[name] = file

    def begin(self, name: str, title: str, units: str) -> Standing:
        """A new job file, with nothing in it but its title and the units written out (us or metric).

        Raises: Moved where there is one of this name, Refused where it can't be written.
        """
        with self.lock:
            path = self.place(name)
            if any(other.casefold() == name.casefold() for other in self.names()):
                raise Moved(read_text(path) if path.exists() else JobText(path.name, "", ""))
            self.known[name] = save_text(path, new_job(title, units, file=path.name), seen=None)
            return self.read(name)

    def change(self, name: str, seen: str, make: Callable[[str], str], words: str) -> Standing:
        """A job changed.  seen: digest of the text that the change is meant for; make: the new text from the old.

        Raises: Moved where the file says something else, Refused where the change can't be made.
        """
        with self.lock:
            before = self.seen(name, seen)
            text = make(before.text)
            history = self.history(name)
            history.note(before.text, text, words)  # first, so that a server ended in between can still take it back
            try:
                self.write(name, before, text)
            except BaseException:
                history.forget(before.text, text)
                raise
            return self.read(name)

    def undo(self, name: str, seen: str) -> Standing:
        """The last step taken back.

        Raises: Moved, Refused where there is none
        """
        with self.lock:
            before = self.seen(name, seen)
            history = self.history(name)
            self.write(name, before, needed(history.undo(before.text), before.name, "a step to take back"))
            history.undid()
            return self.read(name)

    def redo(self, name: str, seen: str) -> Standing:
        """The step taken back last made again.

        Raises: Moved, Refused where there is none
        """
        with self.lock:
            before = self.seen(name, seen)
            history = self.history(name)
            self.write(name, before, needed(history.redo(before.text), before.name, "a step to make again"))
            history.redid()
            return self.read(name)

    def seen(self, name: str, digest: str) -> JobText:
        """The file, as it was seen.

        Raises: Moved where it says something else
        """
        file = read_text(self.place(name))
        self.notice(name, file)
        if file.digest != digest:
            raise Moved(file)
        return file

    def write(self, name: str, before: JobText, text: str) -> None:
        """The new text on the disk."""
        if text != before.text:
            self.known[name] = save_text(self.place(name), text, seen=before.digest)


def needed(text: str | None, file: str, needs: str) -> str:
    """A text that must be there.

    Raises: Refused
    """
    if text is None:
        raise Refused([Fault(file, 0, 0, "", "", needs, "")])
    return text
