"""Files of tests have names of their own: pytest tells them apart by nothing else."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

TESTS = Path(__file__).parents[1]


def test_no_two_files_of_tests_have_one_name() -> None:
    """Whatever folder they are in."""
    named = Counter(path.name for path in TESTS.rglob("test_*.py"))
    assert [name for name, count in named.items() if count > 1] == []
