"""The versions that a job can be held against: another file of its folder, a step of its history, a what-if."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import chain
from pathlib import Path
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.job.trap import told
from lapwright.plan.desk.edits import apply
from lapwright.plan.desk.editsjson import edits_from
from lapwright.plan.desk.folder import Folder
from lapwright.plan.desk.history import history_of
from lapwright.plan.desk.jobtext import digest_of, read_text
from lapwright.plan.desk.listing import Listing
from lapwright.plan.desk.whatif import LONGEST, MOST_FIELDS, whatif_edits, whatif_fields, whatif_words

MOST_STEPS = 50


@dataclass(frozen=True, slots=True)
class Version:
    """A text that a job is held against.

    name: which it is, in a word or two; words: in more; path: of its file; keep: edits (JSON) that make the job say
    the same.
    """

    name: str
    words: str
    text: str
    path: Path
    keep: list[dict[str, Any]] = field(default_factory=list)


def versions_listed(path: Path, text: str) -> dict[str, Any]:
    """What a page offers: files, steps (the last one first), and the fields of a what-if."""
    listed, _ = Listing(Folder(path.parent)).rows()
    return {
        "files": [
            {"name": each.name, "words": each.title.name}
            for each in listed
            if each.name != path.stem and not each.wrong
        ],
        "steps": [{"key": digest_of(each.text), "words": each.words} for each in steps(path, text)],
        "fields": whatif_fields(text),
    }


def steps(path: Path, text: str) -> Iterator[Version]:
    """Versions that the job's history leads to: with what was taken back, then before each step; each text once."""
    seen = {text}
    for name, words, found in chain(taken_back(path, text), before(path, text)):
        if found not in seen:
            seen.add(found)
            yield whole(name, words, found, path)


def taken_back(path: Path, text: str) -> Iterator[tuple[str, str, str]]:
    """Name, words and text of each version that was taken back."""
    for step in list(reversed(history_of(path).undone))[:MOST_STEPS]:
        if step.before != digest_of(text):
            return
        text = step.made_again(text)
        yield "taken back", f"with what was taken back: {step.words}", text


def before(path: Path, text: str) -> Iterator[tuple[str, str, str]]:
    """Name, words and text of each version before a step, the last step first."""
    for step in list(reversed(history_of(path).done))[:MOST_STEPS]:
        if step.after != digest_of(text):
            return
        text = step.taken_back(text)
        yield "earlier", f"before: {step.words}", text


def whole(name: str, words: str, text: str, path: Path) -> Version:
    """A version that is kept by taking over its whole text."""
    return Version(name, words, text, path, [{"edit": "text", "text": text}])


def version_asked(path: Path, text: str, options: Mapping[str, str]) -> Version:
    """The version that options name: `with` file, step or what-if; `of` name or key; `values` of a what-if as JSON.

    Raises: Refused where there is none such, or a what-if can't be made
    """
    way, of = options.get("with", ""), options.get("of", "")
    if way == "file" and len(of) <= LONGEST:
        other = Folder(path.parent).place(of)
        return whole(f"{of}.yaml", f"the job file {of}.yaml", read_text(other).text, other)
    if way == "step":
        found = next((each for each in steps(path, text) if digest_of(each.text) == of), None)
        if found is None:
            raise refused("of", of, "a step of the job's history, as it is listed now")
        return found
    if way == "what-if":
        values = values_from(options.get("values", ""))
        edits = whatif_edits(text, values)
        changed = apply(text, edits_from(edits), path.name)
        return Version("what-if", f"what-if: {whatif_words(text, values)}", changed, path, edits)
    raise refused("with", way, "one of file, step, what-if")


def values_from(text: str) -> dict[str, str]:
    """Values of a what-if by the paths of their fields.

    Raises: Refused for anything but a table of short texts
    """
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        found = None
    if not isinstance(found, dict) or len(found) > MOST_FIELDS:
        raise refused("values", text, f"a table of at most {MOST_FIELDS} texts, as JSON")
    for key, value in found.items():
        if not isinstance(value, str) or max(len(key), len(value)) > LONGEST:
            raise refused(key, "", f"a text of at most {LONGEST} characters")
    return found


def refused(key: str, read: str, needs: str) -> Refused:
    """The refusal of an option."""
    return Refused([Fault("compare", 0, 0, key[:LONGEST], told(read[:LONGEST]), needs, "")])
