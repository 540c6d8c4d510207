"""`plan.json`: the whole plan for other programs, and for people who edit it by hand.

SI throughout, plan coordinates of the job in metres, nothing rounded.  What the numbers come from (`rules`, `sheets`,
`settings`, `starters`, `frames`) stands in it too, so that a plan can be judged without its job file.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import fields

from lapwright.crew.values import CrewDay
from lapwright.defaults.values import Origin, Rules
from lapwright.layout.values import XY, Layout
from lapwright.order.values import OrderLine
from lapwright.packet.figurejson import figures_entry
from lapwright.packet.jsontext import plain, written
from lapwright.packet.layoutjson import (
    Json,
    cost_entry,
    counts_entry,
    detail_entry,
    frame_entry,
    lap_entry,
    metres,
    ply_entry,
    roll_entry,
    sheet_entry,
    starter_entry,
    tjoint_entry,
    whole_counts,
)
from lapwright.packet.morningjson import morning_entry
from lapwright.packet.tooljson import tools_entry
from lapwright.packet.values import Head, Paper
from lapwright.packet.warmjson import warm_entry
from lapwright.roof.values import Area, Point
from lapwright.verdict import Check, Step

SCHEMA = "lapwright.plan/1"
# What the name of a rule's field ends in tells its unit; the name without it is the key of the job file.
UNITS_BY_ENDING = {"_ticks": "m", "_k": "K", "_m_s": "m/s", "_s": "s", "_c": "°C"}
UNITS_BY_NAME = {"flashing_height": "m", "spare_rolls": "rolls", "limits_hold_for": "", "strap_at": "m/m"}


def plan_dict(paper: Paper) -> Json:
    """The plan as plain values in the order of the file format; whole in SI."""
    layout = paper.layout
    whole = {
        "schema": SCHEMA,
        "job": job(paper.head),
        "areas": [area_entry(area) for area in paper.areas],
        "plies": [ply_entry(ply, layout.frames[ply.area]) for ply in layout.plies],
        "details": [detail_entry(detail) for detail in layout.details],
        "laps": [lap_entry(lap) for lap in layout.laps],
        "tjoints": [tjoint_entry(joint) for joint in layout.tjoints],
        "rolls": [roll_entry(roll) for roll in layout.rolls],
        "layout": [counts_entry(ply) for ply in layout.plies],
        "order": [order_entry(line) for line in paper.order],
        "days": [day_entry(day) for day in paper.days],
        "checks": [check_entry(check) for check in paper.checks],
        "warnings": warnings(paper),
        "frames": {name: frame_entry(frame) for name, frame in layout.frames.items()},
        "starters": [starter_entry(ply) for ply in layout.plies],
        "sheet_rolls": sheet_rolls(layout),
        "layout_whole": whole_counts(layout),
        "layout_cost": None if paper.weighed is None else cost_entry(paper.weighed, layout),
        "sheets": {name: sheet_entry(sheet) for name, sheet in paper.sheets.items()},
        "rules": rules_entry(paper.rules),
        "settings": [origin_entry(origin) for origin in paper.settings],
        "warm": None if paper.warmth is None else warm_entry(paper.warmth),
        "tools": tools_entry(paper.tools),
        "morning": None if paper.morning is None else morning_entry(paper.morning),
        "figures": figures_entry(paper.figures),
        "notes": notes(paper),
    }
    plainly: Json = plain(whole)
    return plainly


def plan_bytes(paper: Paper) -> bytes:
    """The plan as UTF-8 JSON, one entry a line, so that two plans can be compared line by line."""
    return ("\n".join(written(plan_dict(paper), 0)) + "\n").encode()


def job(head: Head) -> Json:
    """The title block."""
    return {
        "name": head.name,
        "number": head.number,
        "date": head.date,
        "revision": head.revision,
        "units": head.units,
        "work": head.work,
    }


def warnings(paper: Paper) -> list[Json]:
    """Warnings of the layout and of the plan, each once."""
    told = dict.fromkeys((*paper.layout.warnings, *paper.warnings))
    return [{"id": id, "text": text} for id, text in told]


def sheet_rolls(layout: Layout) -> list[Json]:
    """Rolls of each sheet over the whole job, and the fewest that any layout could need (null: not worked out)."""
    counted = Counter(roll.sheet for roll in layout.rolls)
    return [
        {"sheet": sheet, "rolls": count, "rolls_at_least": layout.sheet_rolls_at_least.get(sheet)}
        for sheet, count in sorted(counted.items())
    ]


def spot(point: Point) -> list[float]:
    """A plan point in metres."""
    return [metres(point[0]), metres(point[1])]


def area_entry(area: Area) -> Json:
    """One area with its edges, openings, pipes and drains."""
    return {
        "name": area.name,
        "outline": [spot(point) for point in area.outline],
        "openings": [
            {"name": one.name, "outline": [spot(p) for p in one.outline], "kind": one.kind, "height": one.height}
            for one in area.openings
        ],
        "falls": list(area.falls),
        "slope": area.slope,
        "edges": [
            {"side": e.side, "kind": e.kind, "line": [spot(e.start), spot(e.end)], "height": e.height}
            for e in area.edges
        ],
        "pipes": [{"name": p.name, "at": spot(p.at), "diameter": metres(p.diameter)} for p in area.pipes],
        "drains": [
            {"name": d.name, "kind": d.kind, "at": spot(d.at) if d.at else None, "side": d.side} for d in area.drains
        ],
    }


def order_entry(line: OrderLine) -> Json:
    """One line of the order."""
    return {
        "item": line.item,
        "needed": line.needed,
        "ordered": line.ordered,
        "unit": line.unit,
        "from": list(line.from_ids),
        "group": line.group,
        "basis": line.basis,
        "rate": None if line.rate is None else origin_entry(line.rate),
        "price": line.price,
        "cost": line.cost,
    }


def day_entry(day: CrewDay) -> Json:
    """One crew day; `tie_off` runs through its points, `tie_off_lines` keeps lines apart that do not meet."""
    return {
        "number": day.number,
        "date": day.date,
        "pieces": list(day.pieces),
        "laps": list(day.laps),
        "tie_off": through(day.tie_off),
        "tie_off_lines": list(day.tie_off),
        "details": list(day.details),
        "weather_date": day.weather_date,
        "tasks": [
            {
                "what": task.what,
                "ids": list(task.ids),
                "begin_min": task.begin_min,
                "end_min": task.end_min,
                "state": task.state,
                "people": task.people,
                "tool_s": task.tool_s,
            }
            for task in day.tasks
        ],
        "stop_welding_min": day.stop_welding_min,
        "contact_c": dict(day.contact_c),
        "lost": list(day.lost),
    }


def through(lines: Sequence[tuple[XY, XY]]) -> list[XY]:
    """The points of lines one after the other; where a line begins at the last point it is named once."""
    points: list[XY] = []
    for start, end in lines:
        points += [end] if points and points[-1] == start else [start, end]
    return points


def check_entry(check: Check) -> Json:
    """One check with its steps."""
    return {
        "id": check.id,
        "title": check.title,
        "status": check.status,
        "demand": check.demand,
        "capacity": check.capacity,
        "unit": check.unit,
        "steps": [step_entry(step) for step in check.steps],
        "source": check.source,
        "confirm": check.confirm,
        "supply": list(check.supply),
        "uses": list(check.uses),
    }


def step_entry(step: Step) -> Json:
    """One line of a calculation."""
    return {
        "text": step.text,
        "formula": step.formula,
        "values": dict(step.values),
        "result": step.result,
        "unit": step.unit,
    }


def rules_entry(rules: Rules) -> Json:
    """Every rule by its key in the job file: SI value, unit, and where it comes from."""
    return dict(rule_entry(rules, field.name) for field in fields(rules) if field.name != "origins")


def rule_entry(rules: Rules, name: str) -> tuple[str, Json]:
    """One rule: its key and its entry."""
    value = getattr(rules, name)
    ending = next((e for e in UNITS_BY_ENDING if name not in UNITS_BY_NAME and name.endswith(e)), "")
    key = name.removesuffix(ending)
    unit = UNITS_BY_ENDING[ending] if ending else UNITS_BY_NAME[name]
    entry: Json = {"value": metres(value) if ending == "_ticks" else value, "unit": unit}
    origin = rules.origins.get(f"rules.{key}")
    return key, entry if origin is None else {**entry, **origin_entry(origin)}


def origin_entry(origin: Origin) -> Json:
    """A value as written, its default, and where it comes from."""
    return {
        "key": origin.key,
        "text": origin.text,
        "default": origin.default,
        "origin": origin.origin,
        "source": origin.source,
        "note": origin.note,
    }


def notes(paper: Paper) -> Json:
    """What was mended or changed in what was read."""
    weather = paper.hours.weather if paper.hours else None
    return {
        "weather": None if weather is None else {"name": weather.name, "origin": weather.origin},
        "weather_mended": [] if weather is None else list(weather.notes),
        "mended": [{"file": m.file, "place": m.place, "found": m.found, "done": m.done} for m in paper.mended],
        "closures": [
            {
                "area": c.area,
                "misclosure": [metres(c.east), metres(c.north)],
                "walked": metres(c.walked),
                "changes": [{"side": g.side, "by": [metres(g.east), metres(g.north)]} for g in c.changes],
            }
            for c in paper.closures
        ],
    }
