"""Layouts of roofs whose openings stand askew, close to one another or against an edge, judged as the others are."""

from __future__ import annotations

import importlib.util
import sys
from typing import Any

import pytest
from test_layout import _PATH, told

_spec = importlib.util.spec_from_file_location("askew", _PATH.parent / "askew.py")
assert _spec is not None and _spec.loader is not None
askew: Any = importlib.util.module_from_spec(_spec)
sys.modules["askew"] = askew
_spec.loader.exec_module(askew)

FOUND = (
    *(22, 183, 195, 210),  # a corner within the side lap of a sheet's edge
    *(126, 202),  # a curb some inches off another edge than the one that it stands against
    *(200, 203),  # two runs of much the same shape; one above the other only where it is broad
    218,  # a curb against an edge, sharp to a parapet
    *(349, 578),  # ground within the lap that an opening parts from the course above
    *(397, 428),  # pieces above one another over an inch or two
    750,  # a curb that leaves a slit thinner than half a side lap
    *(25, 61, 89),  # a corner beside a lap, for which the course above goes on
    825,  # a piece no larger than a stamp below one of the two that a run has
    21026,  # a curb across the tip of a plane, that parts its first course where no level does
    *(34007, 34244),  # a piece on both sides of another one, over a tongue past a turned curb
    60140,  # a side lap that ends an inch off a curb, on a steep slope
    60182,  # a side lap that ends in laps over two ridges 15 mm apart
    *(34395, 60216),  # a curb across the tip of a plane, that leaves a strip no deeper than a side lap beside it
    7167,  # a held lap whose end cuts a scrap off beside another opening
)


@pytest.mark.parametrize("seed", (*range(20), *FOUND))
def test_a_roof_with_openings_askew_is_laid_without_a_violation(seed: int) -> None:
    """Long thin curbs, curbs behind one another and near one another, courtyards, curbs against edges."""
    assert told(askew.askew_roof(seed)) == []
