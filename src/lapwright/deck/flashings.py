"""Do curbs, walls and expansion joints stand high enough over the finished roof for their flashing (Q4).

Over 24" the check says how the flashing is held.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lapwright.defaults.si import default_si
from lapwright.defaults.values import Rules
from lapwright.roof.values import Area
from lapwright.verdict import Check, Reading, Step

SOURCE = (
    "at least 8 in above the finished roof: UFGS 07 52 00, VA 07 52 16.12; the rule flashing_height of the job file"
)
CONFIRM = "the maker, whose warranty asks for it"
UPRIGHT_KINDS = ("parapet", "wall", "expansion")
BEHIND_FINISH = ("wall", "step")  # flashed to the least height alone where they are tall
USES: Mapping[str, tuple[str, ...]] = {
    "flashing.height-*": (
        "roof[*].openings[*].height",
        "roof[*].edges[*].kind",
        "roof[*].edges[*].height",
    ),
}
HAIR = 1e-9


def check_flashing_heights(areas: Sequence[Area], rules: Rules) -> tuple[Check, ...]:
    """One check for each opening and each upright side: its height [m] against the least flashing height.

    Upright are parapets, walls, the curbs of expansion joints, and steps whose height is given.  A side of no known
    kind is unknown.  Heights are above the finished roof.
    Source: UFGS 07 52 00 and VA 07 52 16.12: 8 in, as the rule flashing_height
    Checked: tests/deck/test_flashings.py
    """
    return tuple(
        check
        for index, area in enumerate(areas)
        for check in (*_openings(area, index, areas, rules), *_edges(area, index, rules))
    )


def _openings(area: Area, index: int, areas: Sequence[Area], rules: Rules) -> list[Check]:
    names = [opening.name for each in areas for opening in each.openings]
    found = []
    for place, opening in enumerate(area.openings):
        # Names are unique within an area; across areas one may come twice.
        name = opening.name if names.count(opening.name) == 1 else f"{area.name} {opening.name}"
        reading = Reading()
        height = reading.take(f"{opening.entry(index, place)}.height", opening.height)
        title = f"Flashing height at {opening.kind} {name}"
        found.append(_judged(reading, f"flashing.height-{name}", title, height, rules, opening.kind))
    return found


def _edges(area: Area, index: int, rules: Rules) -> list[Check]:
    found = []
    for edge in area.edges:
        reading = Reading()
        kind = reading.take(f"{edge.entry(index)}.kind", edge.kind)
        is_step = kind == "step" and edge.height is not None
        if kind is not None and kind not in UPRIGHT_KINDS and not is_step:
            continue
        # Of a side whose kind is not given the height is not asked for: it may have none.
        height = reading.take(f"{edge.entry(index)}.height", edge.height) if kind is not None else 0.0
        id = f"flashing.height-{area.name} side {edge.side}"
        title = f"Flashing height at {kind or 'the edge'}, {area.name} side {edge.side}"
        found.append(_judged(reading, id, title, height, rules, kind or ""))
    return found


def _judged(reading: Reading, id: str, title: str, height: float, rules: Rules, kind: str) -> Check:
    if reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    least = rules.flashing_height
    origin = rules.origins.get("flashing_height")
    step = Step(
        text="Height above the finished roof against the least flashing height"
        + (f" [{origin.origin}]" if origin is not None else ""),
        formula="height >= flashing_height",
        values={"flashing_height [m]": least},
        result=height,
        unit="m",
    )
    return Check(
        id=id,
        title=title,
        status="pass" if height >= least - HAIR else "fail",
        demand=least,
        capacity=height,
        unit="m",
        steps=(step, *_held(height, kind)),
        source=SOURCE,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _held(height: float, kind: str) -> tuple[Step, ...]:
    """How a flashing over 24" is held: part-way up, or ended below its wall's own finish."""
    tall = default_si("details", "flashing_tall")
    if height <= tall + HAIR:
        return ()
    text = (
        "Over 24 in: flashed to the least height, behind the wall's own finish"
        if kind in BEHIND_FINISH
        else "Over 24 in: asks for an intermediate fixing, fasteners part-way up (Professional Roofing, Feb 2006)"
    )
    return (Step(text=text, formula="height > 24 in", values={"24 in [m]": tall}, result=height, unit="m"),)
