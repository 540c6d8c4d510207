"""The files beside a job that its text names: what was read of them is kept by their size and time.

Only names that stand in the text are looked at, never the folder: it may hold anything, and any number of files.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

KEYS = ("dxf", "geojson", "file")  # whose values are names of files
MOST_NAMES = 400
_VALUE = re.compile(
    rf"""(?<!\w)["']?(?:{"|".join(KEYS)})["']?\s*:\s*(?:"([^"\n]+)"|'((?:[^'\n]|'')+)'|([^\s"'{{\[#][^\n]*))"""
)
_END = re.compile(r"[#,}\]]")
_LONGEST = 1_000


def beside_it(text: str, folder: Path) -> tuple[tuple[str, int, int], ...]:
    """Name, size and time of each file that a job's text names and that is there.

    A name without quotation marks is taken to the end of its line and to each sign where it may have ended.
    """
    found = {}
    for name in sorted(set(_some(text))):
        try:
            about = (folder / name).stat()
        except (OSError, ValueError):
            continue
        found[name] = (name, about.st_size, about.st_mtime_ns)
    return tuple(found.values())


def _some(text: str) -> Iterator[str]:
    """The first so many names."""
    for count, name in enumerate(_names(text)):
        if count == MOST_NAMES:
            return
        yield name


def _names(text: str) -> Iterator[str]:
    for value in _VALUE.finditer(text):
        double, single, plain = value.groups()
        if plain is None:
            yield double or single.replace("''", "'")
            continue
        yield plain[: _LONGEST + 1].rstrip()
        for end in _END.finditer(plain, 0, _LONGEST):
            yield plain[: end.start()].rstrip()
