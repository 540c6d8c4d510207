"""The user's own files, read whole."""

from __future__ import annotations

from pathlib import Path

from lapwright.faults import Fault, Refused

MOST_BYTES = 64 * 1024 * 1024


def read_bytes(path: Path, *, needs: str) -> bytes:
    """The bytes of a file.

    Raises: Refused where it isn't there, isn't a file, or is larger than anything this tool reads.
    """
    try:
        if not path.is_file():
            raise Refused([Fault(path.name, 0, 0, "", "", needs, "the path of a file that is there")])
        if path.stat().st_size > MOST_BYTES:
            raise Refused([Fault(path.name, 0, 0, "", "", f"{needs} of at most 64 MB", "a smaller file")])
        return path.read_bytes()
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no such path"
        raise Refused([Fault(path.name, 0, 0, "", why, needs, "the path of a file that can be read")]) from error


def beside(folder: Path, name: str, *, key: str) -> Path:
    """A file named in a job file, which must stand in its folder or below it.

    Raises: Refused where a link leads out of the folder.
    """
    path = folder / name
    try:
        inside = path.resolve().is_relative_to(folder.resolve())
    except OSError:
        inside = False
    if not inside:
        raise Refused(
            [Fault(name, 0, 0, key, name, "a file in the job's folder", "the file's name, with the file there")]
        )
    return path
