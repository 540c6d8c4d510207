"""What a job's title block says, read from any text that has the form of a job file, faulty or not."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from lapwright.job.composing import compose
from lapwright.job.tree import plain

# The keys that are read, each with the lines that belong to it; the rest of a long file is not looked at.
_OWN = re.compile(r"^(?:job|units)[ \t]*:.*(?:\n(?:[ \t#].*)?)*", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Title:
    """The title block, as typed; empty where nothing is."""

    name: str = ""
    number: str = ""
    date: str = ""
    revision: str = ""
    units: str = "us"


@lru_cache(maxsize=64)
def title_of(text: str) -> Title:
    """The title block of a job file's text."""
    own = "\n".join(found.rstrip() for found in _OWN.findall(text))
    whole = plain(compose(own or text, file="").root)
    table = whole if isinstance(whole, dict) else {}
    job = table.get("job")
    typed = job if isinstance(job, dict) else {}
    name, number, date, revision = (
        value if isinstance(value := typed.get(key), str) else "" for key in ("name", "number", "date", "revision")
    )
    return Title(name, number, date, revision, "metric" if table.get("units") == "metric" else "us")
