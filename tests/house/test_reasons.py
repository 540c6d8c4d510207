"""Every mark that silences a checker says why, in words."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MARK = re.compile(r"#\s*(noqa|type:\s*ignore)\b(:\s*[A-Z0-9, ]+\b|\[[a-z-, ]+\])?(?P<rest>.*)$")
FOLDERS = ("src", "tests", "tools", "benchmarks")


def unexplained(line: str) -> bool:
    """Is there a mark with fewer than two words after it?"""
    found = MARK.search(line)
    return found is not None and len(re.findall(r"[A-Za-z]{2,}", found["rest"])) < 2


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("x = f()  # noqa: ANN401  # whatever the reader gives", False),
        ("x = f()  # noqa: ANN401", True),
        ("x = f()  # type: ignore[operator]", True),
        ("x = f()  # type: ignore[operator]  # the library has no types", False),
        ("x = f()  # noqa", True),
        ("x = f()  # a note", False),
    ],
)
def test_a_mark_without_words_is_seen(line: str, *, expected: bool) -> None:
    """The mark, its code and a reason."""
    assert unexplained(line) is expected


def test_every_mark_has_its_reason() -> None:
    """In the source, the tests, the tools and the benchmarks."""
    wrong = [
        f"{path.relative_to(ROOT).as_posix()}:{number}"
        for folder in FOLDERS
        for path in sorted((ROOT / folder).rglob("*.py"))
        if path != Path(__file__).resolve()
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if unexplained(line)
    ]
    assert wrong == []
