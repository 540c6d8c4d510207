"""How long each base lies open, and where it needs a temporary cover so that `cover_within` holds.

A strip of base always reaches beyond the cap, by the offset of the laps; over a long gap between two working days it
would lie open too long.  There the crew covers it before it leaves, and uncovers it when the work goes on.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from lapwright.crew.rows import area_rows, covers
from lapwright.crew.walk import Walk
from lapwright.layout.values import Layout

DAY_S = 86_400.0


@dataclass(frozen=True, slots=True)
class Exposure:
    """One piece under the top ply.

    lies_s: from laid to wholly covered by the ply above [s]; covered_s: of that under a temporary cover.  nights:
    indices of the days worked at whose end it is so covered for the time till the next.
    """

    id: str
    lies_s: float
    covered_s: float
    nights: tuple[int, ...]

    @property
    def open_s(self) -> float:
        """Time that it lies open [s]."""
        return self.lies_s - self.covered_s


def exposures(found: Walk, layout: Layout, *, within_s: float) -> tuple[Exposure, ...]:
    """Every piece laid under the top ply, with the temporary covers that it needs to keep within the time allowed.

    A piece that the walk leaves uncovered lies open to the walk's end.
    Source: arithmetic
    Checked: tests/crew/test_crew_cover.py
    """
    laid, day_of = laid_at_s(found)
    gaps = gaps_s(found)
    result = []
    for area in dict.fromkeys(ply.area for ply in layout.plies):
        for piece, over in covers(area_rows(layout, area)).items():
            if piece not in laid:
                continue
            ends = [laid.get(one, end_of_walk_s(found)) for one in over]
            lies_s = max(ends, default=laid[piece]) - laid[piece]
            last = max((day_of.get(one, len(found.days)) for one in over), default=day_of[piece])
            result.append(
                covered_long_enough(piece, lies_s, within_s, {k: gaps[k] for k in range(day_of[piece], last)})
            )
    return tuple(result)


def covered_long_enough(piece: str, lies_s: float, within_s: float, gaps: dict[int, float]) -> Exposure:
    """The longest gaps between working days, as many as are needed, spent under a temporary cover."""
    nights: list[int] = []
    covered_s = 0.0
    for k in sorted(gaps, key=lambda k: -gaps[k]):
        if lies_s - covered_s <= within_s:
            break
        nights.append(k)
        covered_s += gaps[k]
    return Exposure(piece, lies_s, covered_s, tuple(sorted(nights)))


def laid_at_s(found: Walk) -> tuple[dict[str, float], dict[str, int]]:
    """When each piece of work was done, on the crew's clock [s], and the index of its day."""
    at: dict[str, float] = {}
    day_of: dict[str, int] = {}
    for k, day in enumerate(found.days):
        for one in day.placings:
            if one.work is not None:
                at[one.work.id] = at_s(day.date, one.parts[-1].end)
                day_of[one.work.id] = k
    return at, day_of


def gaps_s(found: Walk) -> list[float]:
    """From the end of each day's work to the next day's crew's coming, or to the walk's end [s]."""
    ends = [at_s(day.date, day.placings[-1].parts[-1].end) for day in found.days]
    begins = [at_s(day.date, day.shift.begin) for day in found.days[1:]]
    return [after - before for before, after in zip(ends, [*begins, end_of_walk_s(found)], strict=False)]


def end_of_walk_s(found: Walk) -> float:
    """The last moment that the walk looked at [s]; 0 where nothing was laid."""
    if not found.days:
        return 0.0
    return at_s(found.lost[-1] if found.lost else found.days[-1].date, 1440.0)


def at_s(date: dt.date, minute: float) -> float:
    """A minute of a date on the crew's clock [s]."""
    return date.toordinal() * DAY_S + minute * 60.0
