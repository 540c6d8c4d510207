"""Comparisons made anew at every run: ours beside another library's, a data file's or a slow solver's, point by point.

Each `live_*.py` of this folder holds `LIVE`, its comparisons; `test_live.py` runs them all and
`tools/make_check_docs.py` writes them into docs/checks.md.  No other test may import those libraries
(tests/house/test_outside.py), so none is left out of the page.
"""

from __future__ import annotations

import importlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

HERE = Path(__file__).parent
FEW = 12  # points up to which each has a row of its own in docs/checks.md

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Live:
    """A quantity at one or many points.

    id: room and name, as in the tables.  source, where: the other side, and what of it.
    at: a word for each point (a time, an air temperature); anything that `str` can write.
    values: gives theirs and ours, each (points,), in `unit`.
    tolerance: allowed difference in `unit`, or as a share of theirs where `is_share`.
    kind: as in the tables; `independent` is another library or solver, `published` something printed or measured.
    """

    id: str
    source: str
    where: str
    at: Sequence[Any]
    values: Callable[[], tuple[Any, Any]]
    unit: str
    tolerance: float
    is_share: bool = False
    kind: str = "independent"

    @cached_property
    def both(self) -> tuple[Array, Array]:
        """Theirs and ours, (points,) each, computed once."""
        theirs, ours = (np.asarray(one, dtype=float) for one in self.values())
        if not theirs.shape == ours.shape == (len(self.at),):
            raise ValueError(f"{self.id}: {theirs.shape} and {ours.shape} for {len(self.at)} points")
        return theirs, ours

    @property
    def allowed(self) -> Array:
        """What ours may differ at each point, (points,)."""
        theirs, _ = self.both
        return np.abs(theirs) * self.tolerance if self.is_share else np.full(theirs.shape, self.tolerance)

    @property
    def worst(self) -> int:
        """The point that uses most of its tolerance; one that is no number is the worst."""
        theirs, ours = self.both
        used = np.abs(ours - theirs) / np.maximum(self.allowed, 1e-300)
        return int(np.argmax(np.where(np.isnan(used), np.inf, used)))


def live_rows() -> list[Live]:
    """The comparisons of every `live_*.py`, in the order of the files' names."""
    return [row for path in sorted(HERE.glob("live_*.py")) for row in importlib.import_module(path.stem).LIVE]
