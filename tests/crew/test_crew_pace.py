"""How long a piece of work lasts."""

from __future__ import annotations

import math

import pytest
from crew_jobs import PLAIN

from lapwright.crew.pace import Work, work_s
from lapwright.hours.values import HEAT, OPEN, SHUT, WARM

SHEET = Work("a", "cap", "cap", person_s=1200.0, weld=10.0)  # 10 m of lap at 60 m/h are 600 s with one tool


def lasts(state: int, hands: int, welders: int = 1, **rates: float) -> float:
    """Time of the sheet [s]."""
    return work_s(SHEET, state, hands, welders=welders, rates={**PLAIN, **rates})


def test_hands_share_the_work() -> None:
    """1200 s of one person are 400 s of three."""
    assert lasts(OPEN, 3) == 400.0


def test_the_cold_slows_it() -> None:
    """At 0.8 of the pace 1200 s become 1500 s."""
    assert lasts(WARM, 1, pace_in_cold=0.8) == pytest.approx(1500.0)


def test_some_weld_while_the_others_lay() -> None:
    """Three hands: one welds 600 s while two lay 600 s."""
    assert lasts(HEAT, 3) == 600.0


def test_one_alone_lays_and_then_welds() -> None:
    """1200 s and then 600 s."""
    assert lasts(HEAT, 1) == 1800.0


def test_two_do_better_taking_turns_than_apart() -> None:
    """Two hands: both lay (600 s), then one welds (600 s); or one lays 1200 s while the other welds 600 s: equal."""
    assert lasts(HEAT, 2) == 1200.0


def test_more_tools_than_needed_are_left_lying() -> None:
    """Four hands and four tools: two tools weld 300 s while two lay 600 s; or one tool 600 s while three lay 400 s;
    or all four lay 300 s and then weld 150 s: the last is best.
    """
    assert lasts(HEAT, 4, welders=4) == 450.0


def test_work_without_laps_is_not_welded() -> None:
    """The first piece of a ply closes no lap."""
    alone = Work("b", "cap", "cap", person_s=1200.0)
    assert work_s(alone, HEAT, 2, welders=0, rates=PLAIN) == 600.0


@pytest.mark.parametrize(("state", "hands", "welders"), [(SHUT, 3, 1), (OPEN, 0, 1), (HEAT, 3, 0)])
def test_what_cannot_be_done_never_ends(state: int, hands: int, welders: int) -> None:
    """In a shut hour, without hands, or with laps to weld and nobody to weld them."""
    assert lasts(state, hands, welders) == math.inf
