"""The list of sheets: data sheets typed once and taken for the next job, in a file of their own beside the jobs.

`sheets.yml` has the form of a job file's `sheets`, can be edited by hand, and is no job.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.job.assembly_models import SheetTyped
from lapwright.job.edit import set_value
from lapwright.job.edits.dropping import drop_value
from lapwright.job.tree import written
from lapwright.plan.describe.typed import Typed, made_or_none, table_of, text_of, typed_job
from lapwright.plan.desk.jobtext import JobText, read_text, save_text

Json = dict[str, Any]
FILE = "sheets.yml"
HEAD = (
    "# Sheets as their data sheets say, to be taken for the next job.  Begun by the workspace; edit it as you like.\n"
)
MOST = 500


def sheets_kept(folder: Path) -> list[Json]:
    """The sheets of the list: name, values as typed, words; none where there is no list yet.

    Raises: Refused where the file can't be read.
    """
    found = table_of(_read(folder)[1].get("sheets"))
    rows = [(name, table_of(values)) for name, values in list(found.items())[:MOST]]
    return [
        {"name": name, "values": {key: text_of(value) for key, value in values.items()}, "words": words_of(values)}
        for name, values in rows
    ]


def words_of(values: Typed) -> str:
    """A sheet in a few words."""
    parts = [text_of(values.get(key)) for key in ("width", "length", "thickness", "surfacing")]
    return " × ".join(part for part in parts[:2] if part) + "".join(f", {part}" for part in parts[2:] if part)


def keep_sheet(folder: Path, typed: Typed, name: str) -> list[Json]:
    """Puts a sheet of a job into the list, in place of one of the same name; the list afterwards.

    typed: the job file's tables.
    Raises: Refused where the job has no such sheet, or one that is not whole; Moved where the list changed meanwhile.
    """
    values = table_of(table_of(typed.get("sheets")).get(name))
    if made_or_none(SheetTyped, values) is None:
        needs = "a sheet that is whole: width, length, side_lap and end_lap that can be read"
        raise Refused([Fault(FILE, 0, 0, written(("sheets", name)), "", needs, "")])
    file, kept = _read(folder)
    text = file.text or HEAD
    if name in table_of(kept.get("sheets")):
        text = drop_value(text, written(("sheets", name)), file=FILE)
    for key, value in values.items():
        text = set_value(text, ("sheets", name, key), text_of(value), file=FILE)
    save_text(folder / FILE, text, seen=file.digest or None)
    return sheets_kept(folder)


def _read(folder: Path) -> tuple[JobText, Typed]:
    path = folder / FILE
    if not path.resolve().is_relative_to(folder.resolve()):
        raise Refused([Fault(FILE, 0, 0, "", "", "a file in the folder of the jobs", "")])
    if not path.exists():
        return JobText(FILE, "", ""), {}
    file = read_text(path)
    return file, typed_job(file.text, file=FILE)
