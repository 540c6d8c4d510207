"""Chance with a fixed beginning: the same draws every time, so that the same job gives the same layout.

Only `random()` is drawn, whose values Python keeps the same from version to version.
"""

from __future__ import annotations

from random import Random
from typing import Protocol

BEGINNING = 1


class Chance(Protocol):
    """What draws numbers."""

    def random(self) -> float:
        """The next number, at least 0 and under 1."""


def make_chance() -> Chance:
    """A generator that begins where it always begins.  Source: Python's random, reproducibility note"""
    return Random(BEGINNING)  # noqa: S311 - no secret hangs on it
