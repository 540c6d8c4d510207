"""Garbage collection held back while a roof is laid out.

A layout makes values by the hundred thousand.  Nearly all of them stay, and none points in a circle, so that they are
freed as soon as nobody holds them; the collector would look through them again and again and find nothing.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def uncollected() -> Iterator[None]:
    """Without the collector; afterwards it is as it was.

    Source: arithmetic
    Checked: tests/layout/test_uncollected.py
    """
    if not gc.isenabled():  # whoever held it back lets it go on
        yield
        return
    gc.disable()
    try:
        yield
    finally:
        gc.enable()
