"""The example job that comes with the tool."""

from __future__ import annotations

from importlib import resources
from pathlib import Path

from lapwright.faults import Fault, Refused

NAMES = ("millrace.yaml",)


def write_example(directory: Path) -> tuple[str, ...]:
    """Put the example's files into a folder, made if need be; nothing that is there is replaced.

    Raises: Refused where a file of that name is there already, or the folder can't be written.
    """
    target = directory
    there = [name for name in NAMES if (target / name).exists()]
    if there:
        raise Refused(
            [
                Fault(
                    str(target / there[0]),
                    0,
                    0,
                    "",
                    "",
                    "a folder without this file",
                    "another folder, or remove the file",
                )
            ]
        )
    try:
        target.mkdir(parents=True, exist_ok=True)
        for name in NAMES:
            text = resources.files("lapwright.plan").joinpath("example", name).read_bytes()
            (target / name).write_bytes(text)
    except OSError as error:
        why = error.strerror or "not writable"
        raise Refused([Fault(str(target), 0, 0, "", why, "a folder that can be written", "another folder")]) from error
    return NAMES
