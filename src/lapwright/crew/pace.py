"""How long a piece of work lasts: by its size, the state of the hour, and the hands and welders there are."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lapwright.crew.rates import RATE_NAMES, rate_of
from lapwright.crew.values import CrewSetting
from lapwright.hours.values import HEAT, OPEN, SHUT


@dataclass(frozen=True, slots=True)
class Work:
    """One thing put down.

    id: of the piece, detail, drain or pipe.  what: as the day sheet calls it.  kind: what hours it needs.  person_s:
    one person's time in open hours.  weld: length of laps [m] welded in `heat` hours; tool_s: time at the tool along
    them.  probe: length of laps probed [m].  opened: deck newly covered [m²].  laps: ids of the laps it closes.
    """

    id: str
    what: str
    kind: str
    person_s: float
    weld: float = 0.0
    tool_s: float = 0.0
    probe: float = 0.0
    opened: float = 0.0
    laps: tuple[str, ...] = ()


def work_s(work: Work, state: int, hands: int, *, welders: int, rates: Mapping[str, float]) -> float:
    """Time that a piece of work takes [s].

    Args:
        state: of the hour; in all but `open` ones the pace is that of the cold; in `heat` hours laps are welded.
        hands: people free for it, without the fire watch.
        welders: people among them who may have a tool in hand.

    Returns:
        The least over the ways to share the hands: some weld while the others lay, or all lay and then some weld.
        inf where it can't be done.

    Source: arithmetic on elapsed rates, common practice, no source
    Checked: tests/crew/test_crew_pace.py
    """
    if hands < 1 or state == SHUT:
        return math.inf
    person_s = work.person_s if state == OPEN else work.person_s / rate_of(rates, "pace_in_cold")
    if state != HEAT or work.weld <= 0.0:
        return person_s / hands
    tool_s = work.weld / rate_of(rates, "weld")
    best = math.inf
    for tools in range(1, min(welders, hands) + 1):
        best = min(best, person_s / hands + tool_s / tools)
        if tools < hands:
            best = min(best, max(person_s / (hands - tools), tool_s / tools))
    return best


def make_lasts(crew: CrewSetting) -> Callable[[Work], Callable[[int, int], float]]:
    """Minutes by state and hands of each piece of work, remembered over the walk.

    Source: arithmetic
    """
    rates = {name: rate_of(crew.rates, name) for name in RATE_NAMES}
    known: dict[tuple[str, int, int], float] = {}

    def lasts_of(work: Work) -> Callable[[int, int], float]:
        def lasts(state: int, hands: int) -> float:
            key = (work.id, state, hands)
            found = known.get(key)
            if found is None:
                found = known[key] = work_s(work, state, hands, welders=crew.welders, rates=rates) / 60.0
            return found

        return lasts

    return lasts_of
