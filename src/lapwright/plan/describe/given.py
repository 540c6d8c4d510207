"""Files that somebody gives to the folder of jobs: looked into by a process with limits, kept under a plain name.

What can't be read is not kept.  A file that is there already under the name is never written over: the same bytes are
taken for it, others get the next free name.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import IO, Any

from lapwright.faults import Fault, Refused
from lapwright.plan.describe.looking import DRAWINGS, WEATHER, Json
from lapwright.plan.desk.folder import DEVICE, alone
from lapwright.plan.desk.jobtext import sync_folder
from lapwright.plan.files import beside
from lapwright.plan.workers import receive, send

NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,79}")
START = (
    "import sys, json; sys.path[:] = json.loads(sys.argv[1]); from lapwright.plan.describe.looking import main; main()"
)
LONGEST_S = 60.0
MOST_NUMBERS = 99
MOST_LISTED = 200


def checked_name(name: str) -> str:
    """A file's name, where it is a plain one with an ending that is read.

    Raises: Refused
    """
    ending = Path(name).suffix.lower()
    if not NAME.fullmatch(name) or DEVICE.fullmatch(name) or ending not in (*DRAWINGS, *WEATHER) or not ending:
        needs = "letters, digits, spaces, . _ and -, 80 at most, with one of the endings " + ", ".join(
            each for each in (*DRAWINGS, *WEATHER) if each
        )
        raise Refused([Fault("", 0, 0, "name", name[:80], needs, "roof.dxf")])
    return name


def beginning(folder: Path) -> tuple[Path, IO[bytes]]:
    """A file of no name yet, for the bytes as they come."""
    handle, path = tempfile.mkstemp(prefix=".given.", suffix=".new", dir=folder)
    return Path(path), os.fdopen(handle, "wb")


def keep(folder: Path, name: str, given: Path) -> Json:
    """Looks into a file and gives it its name; what was found in it, and the name it has now.

    Raises: Refused where it can't be read; it is gone then.
    """
    try:
        found = look("weather" if Path(name).suffix.lower() in WEATHER else "layers", given, name)
        given.chmod(0o644)
        with alone(folder):  # between the look for a free name and its being taken
            path = free_place(folder, name, given)
            given.replace(path)
        sync_folder(folder)
    finally:
        with suppress(OSError):
            given.unlink()
    return {**found, "file": path.name}


def free_place(folder: Path, name: str, given: Path) -> Path:
    """Where a file goes: to its name, or to one with a number where other bytes have it.

    Raises: Refused where all of those are taken.
    """
    own = digest(given)
    stem, ending = Path(name).stem, Path(name).suffix
    for number in range(1, MOST_NUMBERS):
        path = folder / (name if number == 1 else f"{stem}-{number}{ending}")
        if not path.exists() or (path.is_file() and not path.is_symlink() and digest(path) == own):
            return path
    raise Refused([Fault("", 0, 0, "name", name, "a name that is not taken", "")])


def digest(path: Path) -> str:
    """A file's bytes in a few."""
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def listed(folder: Path) -> list[str]:
    """Drawings and weather files of the folder."""
    found = sorted(
        each.name
        for each in folder.iterdir()
        if each.is_file() and NAME.fullmatch(each.name) and each.suffix.lower() in (*DRAWINGS, *WEATHER) and each.suffix
    )
    return found[:MOST_LISTED]


def look_at(folder: Path, name: str, what: str = "layers", more: Mapping[str, Any] | None = None) -> Json:
    """What is found in a file of the folder.

    Raises: Refused
    """
    path = beside(folder, checked_name(name), key="file")
    if not path.is_file():
        raise Refused([Fault(name, 0, 0, "file", name, "a file that is in the folder of the jobs", "")])
    found: Json = look(what, path, name, more)
    return found


def look(what: str, path: Path, name: str, more: Mapping[str, Any] | None = None) -> Any:  # noqa: ANN401  # as found
    """Asks a process of its own, which has limits in time and memory.

    Raises: Refused with what it finds wrong, or where it took too long or too much.
    """
    with subprocess.Popen(  # noqa: S603  # this very Python, words of our own
        [sys.executable, "-c", START, json.dumps(sys.path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
    ) as process:
        answer = None
        try:
            assert process.stdin is not None  # both are asked for
            assert process.stdout is not None
            send(process.stdin, (what, path, name, dict(more or {})))
            answer = heard(process)
        finally:
            process.kill()
    if answer is None:
        needs = "a file that can be read within 30 seconds and 2 GB of memory"
        raise Refused([Fault(name, 0, 0, "", "", needs, "the roof's outline alone, saved in a file of its own")])
    kind, value = answer
    if kind == "refused":
        raise Refused(value)
    return value


def heard(process: subprocess.Popen[bytes]) -> tuple[str, Any] | None:
    """The answer; None where the process ended, or went on too long, without one."""
    import threading

    timer = threading.Timer(LONGEST_S, process.kill)
    timer.daemon = True
    timer.start()
    try:
        assert process.stdout is not None  # it is asked for
        found: tuple[str, Any] | None = receive(process.stdout)
    except (OSError, EOFError):
        return None
    finally:
        timer.cancel()
    return found
