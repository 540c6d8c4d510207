"""Does the roof fall enough to drain (Q4)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lapwright.defaults.si import default_number
from lapwright.roof.values import Area
from lapwright.verdict import Check, Reading, Step

SOURCE = (
    "IBC 1507.11.1: at least 1/4 in 12 for modified bitumen; reroofing: positive drainage, water gone within 48 h; the "
    "edition adopted at the place governs"
)
CONFIRM = "the authority having jurisdiction"
USES: Mapping[str, tuple[str, ...]] = {"drains.slope-*": ("work",)}
KEPT = (
    "Under 1/4 in 12: an existing roof may keep it where water is gone within 48 h, deflection counted; have that "
    "confirmed, or raise the slope"
)
RUN = 12
HAIR = 1e-9


def check_slope(areas: Sequence[Area], *, work: str | None) -> tuple[Check, ...]:
    """One check for each area: at least 1/4 in 12 in new work.

    A recover or tear-off may keep less where water is gone within 48 h; no plan shows that, so it is unknown.
    Source: IBC 1507.11.1
    Checked: tests/published/drains.csv slope-*
    """
    return tuple(_area_check(area, index, work) for index, area in enumerate(areas))


def least_slope() -> float:
    """Rise over run that new work needs.

    Source: IBC 1507.11.1, modified bitumen
    Checked: tests/published/drains.csv slope-*
    """
    return default_number("drains", "least_slope") / RUN


def _area_check(area: Area, index: int, work: str | None) -> Check:
    id, title = f"drains.slope-{area.name}", f"Slope of {area.name}"
    reading = Reading()
    reading.take("work", work)
    steep_enough = area.slope >= least_slope() - HAIR
    if not reading.missing and work != "new" and not steep_enough:
        reading.take(f"{area.entry(index)}.slope", None)
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM, why=KEPT)
    if reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    step = Step(
        text="Slope against the least for modified bitumen",
        formula="rise / run >= 1/4 / 12",
        values={"least [slope]": least_slope(), "work": work},
        result=area.slope,
        unit="slope",
    )
    hours = Step(text="Whatever the slope, all water must be gone within 48 hours, deflection counted")
    return Check(
        id=id,
        title=title,
        status="pass" if steep_enough else "fail",
        demand=least_slope(),
        capacity=area.slope,
        unit="slope",
        steps=(step, hours),
        source=SOURCE,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )
