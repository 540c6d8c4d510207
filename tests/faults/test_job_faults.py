"""Bad job files, one in each file, with the whole text that is told about it below `=== told ===`."""

from __future__ import annotations

from pathlib import Path

import pytest

from lapwright.faults import Refused
from lapwright.job.reading import read_job

CASES = sorted(Path(__file__).parent.glob("*.yaml"))
MARK = "=== told ===\n"


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_bad_file_is_told_word_for_word(path: Path) -> None:
    """The text is that below the mark, to the letter."""
    text, told = path.read_bytes().decode("utf-8").split(MARK)
    with pytest.raises(Refused) as refused:
        read_job(text, file="job.yaml")
    assert refused.value.text() + "\n" == told


def test_there_are_cases() -> None:
    """The folder was found."""
    assert len(CASES) >= 35
