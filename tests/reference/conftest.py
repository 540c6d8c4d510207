"""Tests of one roof run in one process, so that its layouts and what the solver finds are made once."""

from __future__ import annotations

from pathlib import Path

import pytest

HERE = Path(__file__).parent


@pytest.hookimpl(tryfirst=True)  # before the groups are told to the workers
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """By the roof's seed and the file."""
    for item in items:
        if isinstance(item, pytest.Function) and item.path.parent == HERE and hasattr(item, "callspec"):
            seed = item.callspec.params.get("seed")
            if seed is not None:
                item.add_marker(pytest.mark.xdist_group(f"{item.path.stem} {seed}"))
