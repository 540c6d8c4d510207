"""Profiles of hypothesis: the same examples every time in `make test`, new ones in number at night."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

settings.register_profile("test", derandomize=True, deadline=None)
settings.register_profile("nightly", max_examples=3_000, deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "test"))

LONG = (
    "workspace",
    "doors",
    "reference",
    "properties",
)  # rooms whose groups take longest: begun first, to end together


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Long groups first; within a room the order of its files."""
    items.sort(key=lambda item: LONG.index(item.path.parent.name) if item.path.parent.name in LONG else len(LONG))
