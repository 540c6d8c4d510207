"""A job file on disk: read with the digest of what was read, written whole or not at all.

A save names what it was made from.  Where the file says something else by then, somebody else changed it, and the save
is refused with what stands there now; nothing is overwritten unseen.
"""

from __future__ import annotations

import hashlib
import os
import tempfile
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from lapwright.faults import Fault, Refused
from lapwright.job.reading import job_text
from lapwright.plan.files import read_bytes


@dataclass(frozen=True, slots=True)
class JobText:
    """The text of a job file.  digest: of its bytes, so that two readers know whether they saw the same."""

    name: str
    text: str
    digest: str


class Moved(Exception):  # noqa: N818  # an outcome that is told, not an error of ours
    """The file is not what the save was made from.  found: what stands there now."""

    def __init__(self, found: JobText) -> None:
        self.found = found
        super().__init__(found.name)


def digest_of(text: str) -> str:
    """Twenty characters that differ wherever texts differ."""
    return hashlib.sha256(text.encode()).hexdigest()[:20]


def read_text(path: Path) -> JobText:
    """The text of a job file.

    Raises: Refused where it isn't there, is too long, or is no UTF-8.
    """
    text = job_text(read_bytes(path, needs="a job file"), file=path.name)
    return JobText(path.name, text, digest_of(text))


def save_text(path: Path, text: str, *, seen: str | None) -> JobText:
    """The job file written: to a file beside it, to the disk, then renamed, so that it is the old or the new one.

    seen: digest of the text that this one was made from; None for a file that must not be there yet.
    Raises: Moved where it says something else, Refused where it can't be written.
    """
    if seen is None:
        if path.exists():
            raise Moved(read_text(path))
    elif (found := read_text(path)).digest != seen:
        raise Moved(found)
    data = text.encode()
    job_text(data, file=path.name)  # one that could not be read again is not written
    try:
        write_synced(path.resolve(), data)  # through a link, to the file that was read
    except OSError as error:
        why = error.strerror or "can't be written"
        raise Refused(
            [Fault(path.name, 0, 0, "", why, "a folder that can be written, with room on its disk", "")]
        ) from error
    return JobText(path.name, text, digest_of(text))


def write_synced(path: Path, data: bytes) -> None:
    """Bytes put in a file of another name, brought to the disk, and given the name in one step."""
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".new", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        mode = path.stat().st_mode & 0o777 if path.exists() else 0o644
        Path(name).chmod(mode)
        Path(name).replace(path)
    except BaseException:
        with suppress(OSError):
            Path(name).unlink()
        raise
    sync_folder(path.parent)


def sync_folder(folder: Path) -> None:
    """The folder's own entry brought to the disk; where a system can't, the rename alone has to do."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
