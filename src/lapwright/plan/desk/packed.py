"""A job's packet on the disk: its files, and whether it was made from the job as it stands."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.packet.write import LARGEST_MANIFEST, MANIFEST, SCHEMA, is_plain_name
from lapwright.plan.desk.beside import beside_it
from lapwright.plan.desk.folder import is_within, packet_folder
from lapwright.plan.desk.jobtext import digest_of, write_synced
from lapwright.plan.desk.keeping import made_from

KILO = 1000


@dataclass(frozen=True, slots=True)
class Kind:
    """A file of the packet.  what: it is, in words; media: its type; opens: a browser shows it."""

    what: str
    media: str
    opens: bool = False


# In the order in which somebody wants them.
KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "packet.pdf": Kind("the packet to print: day sheets, plans, order, checks", "application/pdf", opens=True),
        "figures.html": Kind("tables and curves for the phone on the roof", "text/html; charset=utf-8", opens=True),
        "order.xlsx": Kind(
            "order, cut list, laps to probe, metal and parts",
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        ),
        "layout.dxf": Kind("the plan in real units, layer by layer", "image/vnd.dxf"),
        "layout.svg": Kind("the plan as a picture", "image/svg+xml", opens=True),
        "hours.csv": Kind("every hour of the year and what it is fit for", "text/csv; charset=utf-8"),
        "days.ics": Kind("the crew days for a calendar", "text/calendar; charset=utf-8"),
        "plan.json": Kind("everything, for other programs", "application/json"),
        MANIFEST: Kind("what was written, with the digest of each file", "application/json"),
    }
)
NONE = "there is no packet yet"
CURRENT = "made from the job as it stands"
OLDER = "made from an earlier version of the job"
BESIDE = "the job is the same, but files beside it have changed since"
UNSAID = "made elsewhere: which version of the job it was made from is not known"


@dataclass(frozen=True, slots=True)
class Packed:
    """A file of a packet as it is read."""

    path: Path
    kind: Kind


def packet_state(job: Path, text: str) -> dict[str, Any]:
    """The packet of a job as a page shows it: its folder, its files, how it stands to the job.

    text: of the job as it stands.
    """
    folder = packet_folder(job)
    entries = manifest_entries(folder)
    standing, words = standing_of(job, text) if entries else ("none", NONE)
    return {
        "folder": folder.name,
        "standing": standing,
        "words": words,
        "files": [file_row(folder, name, entries[name]) for name in in_order(entries)],
    }


def in_order(names: Mapping[str, object]) -> list[str]:
    """Names of files that we know, in the order of KINDS; the manifest stands last."""
    return [name for name in KINDS if name in names]


def file_row(folder: Path, name: str, entry: Mapping[str, Any]) -> dict[str, Any]:
    """One file of the list."""
    kind, path = KINDS[name], folder / name
    size = path.stat().st_size if path.is_file() else None
    is_whole = name == MANIFEST or size == entry["bytes"]
    return {
        "name": name,
        "what": kind.what,
        "size": "gone" if size is None else size_words(size),
        "opens": kind.opens,
        "is_whole": is_whole and size is not None,
    }


def size_words(size: int) -> str:
    """A size in bytes, as people say it."""
    if size < KILO:
        return f"{size} bytes"
    return f"{size / KILO:.0f} kB" if size < KILO * KILO else f"{size / KILO / KILO:.1f} MB"


def manifest_entries(folder: Path) -> dict[str, dict[str, Any]]:
    """The manifest's entry of each file that we write, its own among them; empty where it is none of ours."""
    path = folder / MANIFEST
    try:
        if not is_within(path, folder.parent) or path.stat().st_size > LARGEST_MANIFEST:
            return {}
        found = json.loads(path.read_bytes())
        if found["schema"] != SCHEMA:
            return {}
        entries = {entry["name"]: entry for entry in found["files"] if entry["name"] in KINDS}
        known = {name: entry for name, entry in entries.items() if isinstance(entry["bytes"], int)}
    except (OSError, ValueError, TypeError, KeyError, RecursionError):
        return {}
    return {**known, MANIFEST: {"name": MANIFEST, "bytes": 0}} if known else {}


def packed_file(job: Path, name: str) -> Packed:
    """A file of the packet, as the manifest names it.

    Raises: Refused for any other name.
    """
    folder = packet_folder(job)
    path = folder / name
    if (
        not is_plain_name(name)
        or name not in manifest_entries(folder)
        or not is_within(path, folder)
        or not path.is_file()
    ):
        raise Refused([Fault("", 0, 0, "file", name[:200], "a file that the packet's manifest names", "packet.pdf")])
    return Packed(path, KINDS[name])


def refuse_outside(job: Path) -> None:
    """Refuses a packet's folder that is a link to somewhere else.

    Raises: Refused
    """
    folder = packet_folder(job)
    if not is_within(folder, job.parent):
        needs = "a folder of the job's own, not a link that leads elsewhere"
        raise Refused([Fault(folder.name, 0, 0, "", "a link", needs, "")])


def note_file(job: Path) -> Path:
    """Where it is noted what a packet was made from."""
    return job.with_name(f".{job.stem}.packet")


def note_made(job: Path, text: str, beside: tuple[object, ...]) -> None:
    """Notes what the packet that stands there now was made from; where that can't be, it is not known later.

    beside: what stood beside the job when it was read.
    """
    with suppress(OSError):
        note = {"text": digest_of(text), "beside": made_from(beside), "manifest": manifest_digest(job)}
        write_synced(note_file(job), json.dumps(note).encode())


def manifest_digest(job: Path) -> str:
    """The digest of a packet's manifest: another packet has another."""
    return hashlib.sha256((packet_folder(job) / MANIFEST).read_bytes()).hexdigest()


def standing_of(job: Path, text: str) -> tuple[str, str]:
    """How a packet stands to the job's text: a word for the page, and words for people."""
    try:
        note = json.loads(note_file(job).read_bytes())
        if note["manifest"] != manifest_digest(job):
            return "unsaid", UNSAID
        is_same, is_beside = note["text"] == digest_of(text), note["beside"] == made_from(beside_it(text, job.parent))
    except (OSError, ValueError, TypeError, KeyError):
        return "unsaid", UNSAID
    if not is_same:
        return "older", OLDER
    return ("current", CURRENT) if is_beside else ("beside", BESIDE)
