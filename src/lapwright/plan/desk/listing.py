"""The jobs of a folder as a list: each with its title block, or with why it can't be read."""

from __future__ import annotations

import threading
from collections import OrderedDict
from dataclasses import dataclass, field

from lapwright.faults import Refused
from lapwright.plan.desk.folder import Folder
from lapwright.plan.desk.jobtext import read_text
from lapwright.plan.desk.title import Title, title_of

MOST_LISTED = 500


@dataclass(frozen=True, slots=True)
class Listed:
    """One job.  wrong: why its file can't be read; empty where it can."""

    name: str
    title: Title = field(default_factory=Title)
    wrong: str = ""


@dataclass(slots=True)
class Listing:
    """The list, each file read once as long as it does not change."""

    folder: Folder
    held: OrderedDict[tuple[str, tuple[int, ...]], Listed] = field(default_factory=OrderedDict)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def rows(self) -> tuple[tuple[Listed, ...], int]:
        """The first jobs by name, and how many more there are."""
        names = self.folder.names()
        with self.lock:
            rows = tuple(self.row(name) for name in names[:MOST_LISTED])
            while len(self.held) > MOST_LISTED:
                self.held.popitem(last=False)
        return rows, max(0, len(names) - MOST_LISTED)

    def row(self, name: str) -> Listed:
        """One job."""
        key = (name, self.folder.stamp(name))
        if key not in self.held:
            self.held[key] = read(self.folder, name)
        self.held.move_to_end(key)
        return self.held[key]


def read(folder: Folder, name: str) -> Listed:
    """A job as its file says."""
    try:
        return Listed(name, title_of(read_text(folder.place(name)).text))
    except Refused as refused:
        first = refused.faults[0]
        return Listed(name, wrong=f"{first.read}: needs {first.needs}" if first.read else f"needs {first.needs}")
