"""Whatever comes in as a job file, it is read or refused, never anything else."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import EXAMPLE, SMALL

from lapwright.faults import Refused
from lapwright.job.models import Job
from lapwright.job.reading import read_job

SIGNS = (
    '"', "'", "#", " #", "{", "}", "[", "]", ",", ":", ": ", "- ", "\n", "\n  ", "&a", "*a", "!!x", "|", ">", "%", "@",
    "`", "\t", "\0", "\r", "---\n", "...\n", "? ", "<<: ", "\ufeff", "\u2028", "\x85", "\\", "~", '"4"', "''", "é", "0",
)  # fmt: skip
WALK = "E 120', N 64', W 120', S 64'"


def read_or_refused(text: str | bytes) -> Job | Refused:
    """The job, or every fault of it."""
    try:
        return read_job(text, file="job.yaml")
    except Refused as refused:
        return refused


@settings(deadline=None)
@given(st.text())
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text gives another exception, and a refusal names at least one fault."""
    found = read_or_refused(text)
    assert isinstance(found, Job) or found.faults


@settings(deadline=None)
@given(st.binary())
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    """Nor do any bytes."""
    found = read_or_refused(data)
    assert isinstance(found, Job) or found.faults


@settings(deadline=None)
@given(st.data())
def test_a_job_with_odd_signs_is_read_or_refused(data: st.DataObject) -> None:
    """Nor does a good file with YAML's own signs thrown in, in braces or out; every place is inside the file."""
    text = data.draw(st.sampled_from([SMALL, EXAMPLE[:900]]))
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text)))
        text = text[:at] + data.draw(st.sampled_from(SIGNS)) + text[at + data.draw(st.integers(0, 3)) :]
    found = read_or_refused(text)
    lines = re.split(r"\r\n|\r|\n", text)
    faults = () if isinstance(found, Job) else found.faults
    assert all(0 <= fault.line <= len(lines) for fault in faults)
    assert all(fault.column <= len(lines[fault.line - 1]) + 1 for fault in faults if fault.line)


@settings(deadline=None)
@given(st.text(st.characters(exclude_categories=("C",)), min_size=1, max_size=80).filter(str.strip))
def test_any_name_comes_back_as_typed(name: str) -> None:
    """A name in single quotes is the text between them, formula signs, markup and all."""
    text = SMALL.replace("area: Main", "area: '" + name.replace("'", "''") + "'")
    found = read_or_refused(text)
    told = [] if isinstance(found, Job) else [fault.needs for fault in found.faults]
    assert told in ([], ["text without control characters"])
    assert told or (isinstance(found, Job) and found.roof[0].area == name)


def points(count: int) -> str:
    """A list of points that do not repeat."""
    return "[" + ", ".join(f"[{place}', {place * place % 977}']" for place in range(count)) + "]"


@pytest.mark.parametrize(
    ("text", "needs"),
    [
        ("a: " + "x" * 1_000_000, "a job file of at most 1 MB; long outlines come from drawings"),
        (
            SMALL.replace(WALK, points(20_000)),
            "an outline of at most 5,000 points; a longer one comes from a drawing",
        ),
        (
            SMALL.replace(WALK, "E 1', N 1', " * 10_000 + "S 9'"),
            "a walk of at most 5,000 legs; a longer outline comes from a drawing",
        ),
        (SMALL + "prices: [" + "1, " * 2000 + "1]\n", "a list of at most 1,000 items"),
        (SMALL + "rules: {" + ", ".join(f"k{n}: 1" for n in range(300)) + "}\n", "at most 200 names"),
        (
            SMALL + "prices:\n" + "".join(f"  k{n}: 1\n" for n in range(25_000)),
            "a job file of at most 20,000 values; long outlines come from drawings",
        ),
    ],
    ids=["bytes", "points", "legs", "list", "names", "values"],
)
def test_too_much_is_refused_with_the_limit(text: str, needs: str) -> None:
    """Each limit is named; nothing is read to the end first."""
    found = read_or_refused(text)
    assert isinstance(found, Refused)
    assert needs in [fault.needs for fault in found.faults]


def test_fifty_megabytes_are_refused() -> None:
    """The size is told, and the file is not read."""
    found = read_or_refused(b"a: " + b"x" * 50_000_000)
    assert isinstance(found, Refused)
    assert found.text() == (
        "job.yaml\n"
        "  read:   50,000,003 bytes\n"
        "  needs:  a job file of at most 1 MB; long outlines come from drawings\n"
        "  write:  outline: {dxf: roof.dxf, layer: ROOF-MAIN}"
    )


def test_aliases_are_not_multiplied() -> None:
    """Twenty lists of nine aliases each are 9 to the 20th values to a reader that follows them."""
    bomb = "a0: &a0 [x]\n" + "".join(f"a{n + 1}: &a{n + 1} [{', '.join([f'*a{n}'] * 9)}]\n" for n in range(20))
    found = read_or_refused(bomb)
    assert isinstance(found, Refused)
    assert "the value typed out; an alias (*) is not followed" in [fault.needs for fault in found.faults]


@pytest.mark.parametrize(
    "text",
    ["a: b" + " " * 999_000, "&a " * 330_000, "\t" * 999_000, "a: " + "[" * 999_000, "a: b #c\n" * 120_000],
    ids=["spaces", "anchors", "tabs", "brackets", "comments"],
)
def test_long_lines_take_no_longer_than_their_length(text: str) -> None:
    """Each of these took minutes where a pattern was tried at every place; here it only has to end."""
    assert isinstance(read_or_refused(text), Refused)


def test_long_texts_are_cut_in_faults() -> None:
    """A fault shows no more of a text than anyone reads."""
    found = read_or_refused(SMALL.replace("Main", "&" + "x" * 100_000))
    assert isinstance(found, Refused)
    assert max(len(fault.read) for fault in found.faults) == 200
