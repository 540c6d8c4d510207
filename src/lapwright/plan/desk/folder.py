"""The folder of jobs: which there are, and the one that is worked on; no name leads out of it."""

from __future__ import annotations

import os
import re
import threading
from collections import OrderedDict
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.job.edits.newjob import new_job
from lapwright.plan.desk.history import History, history_of
from lapwright.plan.desk.jobtext import JobText, Moved, read_text, save_text

with suppress(ModuleNotFoundError):  # a system without it
    import fcntl

NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,79}")
DEVICE = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9]) *(\..*)?", re.IGNORECASE)  # to some systems no file
MOST_OPEN = 32  # jobs whose steps are held; those of others stand on the disk


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
    """Job files of one folder.  Each change is made under a lock: read, judged by its digest, written, noted.

    The lock holds off other threads and, where a system can lock a folder, another server over the same one.
    """

    path: Path
    threads: threading.RLock = field(default_factory=threading.RLock)
    deep: int = 0
    histories: OrderedDict[str, History] = field(default_factory=OrderedDict)
    known: OrderedDict[str, JobText] = field(default_factory=OrderedDict)

    @property
    @contextmanager
    def lock(self) -> Iterator[None]:
        """The folder for one alone."""
        with self.threads:
            self.deep += 1
            try:
                with alone(self.path) if self.deep == 1 else nullcontext():
                    yield
            finally:
                self.deep -= 1

    def names(self) -> tuple[str, ...]:
        """Names of the job files, without their ending, in order."""
        found = []
        with suppress(OSError), os.scandir(self.path) as entries:
            for entry in entries:
                stem, dot, ending = entry.name.rpartition(".")
                if dot and ending == "yaml" and is_plain(stem) and is_file(entry):
                    found.append(stem)
        return tuple(sorted(found))

    def place(self, name: str) -> Path:
        """The path of a job.

        Raises: Refused for a name that is no plain one, or a link that leads out of the folder.
        """
        path = self.path / f"{name}.yaml"
        if is_plain(name) and not is_within(path, self.path):
            raise Refused([Fault(path.name, 0, 0, "", "a link", "a file of this folder, not a link out of it", "")])
        if not is_plain(name):
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
        held = self.histories.pop(name, None)
        if held is None or held.is_behind():
            held = history_of(self.place(name))
            held.forget_unsaved(read_text(self.place(name)).digest)
        keep(self.histories, name, held)
        return held

    def notice(self, name: str, file: JobText) -> None:
        """Notes a change that was not made here."""
        known = self.known.get(name)
        if known is not None and known.digest != file.digest:
            history = self.history(name)
            if not history.leads_to(file.digest):  # else another server noted it
                history.note(known.text, file.text, "changed outside of the workspace")
        keep(self.known, name, file)

    def begin(self, name: str, title: str, units: str) -> Standing:
        """A new job file, with nothing in it but its title and the units written out (us or metric).

        Raises: Moved where there is one of this name, Refused where it can't be written.
        """
        with self.lock:
            path = self.place(name)
            if any(other.casefold() == name.casefold() for other in self.names()):
                raise Moved(read_text(path) if path.exists() else JobText(path.name, "", ""))
            keep(self.known, name, save_text(path, new_job(title, units, file=path.name), seen=None))
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
            keep(self.known, name, save_text(self.place(name), text, seen=before.digest))

    def stamp(self, name: str) -> tuple[int, ...]:
        """What changes whenever the file of a job does, without reading it; empty where there is none."""
        try:
            about = self.place(name).stat()
        except (OSError, Refused):
            return ()
        return (about.st_mtime_ns, about.st_ctime_ns, about.st_size, about.st_ino)


def is_plain(name: str) -> bool:
    """A name that every system takes for a file's."""
    return NAME.fullmatch(name) is not None and DEVICE.fullmatch(name) is None


def is_within(path: Path, folder: Path) -> bool:
    """A path that no link leads out of a folder, nor round in a circle."""
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):
        return False


def is_file(entry: os.DirEntry[str]) -> bool:
    """A file, or a link to one."""
    try:
        return entry.is_file()
    except OSError:
        return False


def keep(held: OrderedDict[str, Any], name: str, value: Any) -> None:  # noqa: ANN401  # of each dictionary's own kind
    """Puts a value behind the others, the longest unused given up."""
    held[name] = value
    held.move_to_end(name)
    while len(held) > MOST_OPEN:
        held.popitem(last=False)


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """A folder held against other processes that ask for it like this, where a system can do that."""
    handle = None
    with suppress(OSError, NameError):
        handle = os.open(folder, os.O_RDONLY)
        fcntl.flock(handle, fcntl.LOCK_EX)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


def needed(text: str | None, file: str, needs: str) -> str:
    """A text that must be there.

    Raises: Refused
    """
    if text is None:
        raise Refused([Fault(file, 0, 0, "", "", needs, "")])
    return text
