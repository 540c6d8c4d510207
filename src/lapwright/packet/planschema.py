"""JSON Schema 2020-12 of `plan.json`.

Every key that we write is required and described by its unit; keys that a later version adds do not make a plan
unreadable to an earlier reader.  `docs/plan.schema.json` is made from here.
"""

from __future__ import annotations

from lapwright.packet.figureschema import figures
from lapwright.packet.morningschema import morning
from lapwright.packet.planjson import SCHEMA
from lapwright.packet.schemawords import (
    COUNT,
    COUNTS,
    DATE,
    DRAFT,
    LINE,
    METRES,
    NUMBER,
    PLAN_POINT,
    POINT,
    TEXT,
    WHOLE,
    Json,
    by_name,
    many,
    or_null,
    record,
    said,
)
from lapwright.packet.toolschema import tools
from lapwright.packet.warmschema import warm


def plan_schema() -> Json:
    """The schema of the whole file."""
    return {
        "$schema": DRAFT,
        "title": "A plan",
        "description": "SI throughout: metres, m², °C, Pa, seconds; plan coordinates of the job; nothing rounded.",
        **record(top()),
        "$defs": {"point": PLAN_POINT},
    }


def top() -> Json:
    """The keys of the file."""
    return {
        "schema": {"const": SCHEMA},
        "job": record(job()),
        "areas": many(record(area())),
        "plies": many(record(ply())),
        "details": many(record(detail())),
        "laps": many(record(lap())),
        "tjoints": many(tjoint()),
        "rolls": many(record(roll())),
        "layout": many(record(counts())),
        "order": many(record(order())),
        "days": many(record(day())),
        "checks": many(record(check())),
        "warnings": many(record({"id": TEXT, "text": TEXT})),
        "frames": said(by_name(record(frame())), "by area: where distances across and up the fall are counted from"),
        "starters": many(record(starter())),
        "sheet_rolls": many(record({"sheet": TEXT, "rolls": WHOLE, "rolls_at_least": or_null(WHOLE)})),
        "layout_whole": said(record(dict.fromkeys(COUNTS, WHOLE)), "all plies together"),
        "layout_cost": or_null(record(layout_cost())),
        "sheets": by_name(record(sheet())),
        "rules": said(by_name(rule()), "by key of the job file"),
        "settings": many(record(origin())),
        "warm": said(or_null(record(warm())), "warm rolls; null where the job has no store or no cold work"),
        "tools": record(tools()),
        "morning": said(or_null(record(morning())), "the first dated day, by the job's weather"),
        "figures": said(record(figures()), "the tables of the page of figures"),
        "notes": record(notes()),
    }


def layout_cost() -> Json:
    """What the layout costs, in the money of the job's prices."""
    part = {"what": TEXT, "sheet": TEXT, "count": WHOLE, "each": NUMBER, "cost": NUMBER, "seconds": or_null(NUMBER)}
    counts = ("end_laps", "t_joints", "cuts", "lengths", "rips")
    choice = {
        "aim": TEXT,
        "chosen": {"type": "boolean"},
        "rolls": said(by_name(WHOLE), "by sheet; empty where the aim leaves no place for the end laps"),
        **{name: or_null(WHOLE) for name in counts},
        "cost": or_null(NUMBER),
    }
    return {
        "aim": TEXT,
        "cost": said(NUMBER, "rolls, end laps, T-joints, cuts, different lengths and rips"),
        "cost_at_least": said(NUMBER, "no layout under the rules costs less"),
        "labour": said(NUMBER, "money an hour of one person"),
        "labour_given": {"type": "boolean"},
        "parts": many(record({**part, "given": {"type": "boolean"}})),
        "choices": said(many(record(choice)), "what each aim comes to"),
    }


def job() -> Json:
    """The title block."""
    return {
        "name": TEXT,
        "number": TEXT,
        "date": or_null(DATE),
        "revision": TEXT,
        "units": said(TEXT, "us or metric: what is written out for people"),
        "work": TEXT,
    }


def area() -> Json:
    """One area of the roof."""
    edge = {"side": COUNT, "kind": or_null(TEXT), "line": LINE, "height": or_null(METRES)}
    opening = {"name": TEXT, "outline": many(POINT), "kind": TEXT, "height": or_null(METRES)}
    drain = {"name": TEXT, "kind": TEXT, "at": or_null(POINT), "side": or_null(COUNT)}
    return {
        "name": TEXT,
        "outline": {**many(POINT), "minItems": 3},
        "openings": many(record(opening)),
        "falls": said(POINT, "unit vector, east and north, of the way water runs"),
        "slope": said(NUMBER, "rise over run"),
        "edges": many(record(edge)),
        "pipes": many(record({"name": TEXT, "at": POINT, "diameter": METRES})),
        "drains": many(record(drain)),
    }


def ply() -> Json:
    """One ply on one area."""
    return {
        "area": TEXT,
        "ply": TEXT,
        "position": said(COUNT, "1 at the bottom"),
        "sheet": TEXT,
        "courses": said(
            many(record({"index": COUNT, "low": METRES, "high": METRES})),
            "edges of each course's sheet, up the fall from the area's low point, along the slope",
        ),
        "pieces": many(record(piece())),
    }


def piece() -> Json:
    """One piece of a ply."""
    corner_cut = {"corner": POINT, "along": METRES, "across": METRES}
    return {
        "id": TEXT,
        "course": COUNT,
        "sequence": said(WHOLE, "order of laying over the job"),
        "roll": TEXT,
        "length": said(NUMBER, "of the blank, across the fall [m]"),
        "width": said(NUMBER, "of the blank, along the slope [m]"),
        "blank": {**many(POINT), "minItems": 4, "maxItems": 4},
        "corner_cuts": many(record(corner_cut)),
        "place": said(COUNT, "in the course, from the left looking up the fall"),
        "cut_length": said(NUMBER, "cut off the roll: length rounded up to the rule cut_step [m]"),
    }


def detail() -> Json:
    """One strip, flashing, corner, target, length of metal, or thing set at one place."""
    return {
        "id": TEXT,
        "kind": TEXT,
        "area": TEXT,
        "sheet": said(TEXT, "empty where it is not cut from a sheet"),
        "sizes": said(
            record({"length": METRES, "width": METRES, "parts": by_name(METRES)}),
            "of a corner of metal: either leg and the flange; 0 where the job does not give it",
        ),
        "roll": said(TEXT, "empty where it is not cut from a sheet"),
        "of": said(TEXT, "the edge, corner, opening, drain or pipe it belongs to"),
        "ply": TEXT,
        "line": or_null(LINE),
        "takes": said(NUMBER, "length of roll; 0 where it is cut beside another or not from a roll [m]"),
        "at": said(or_null(POINT), "its place where it has no line"),
        "form": said(TEXT, "of a corner: inside, outside or straight"),
        "beside": said(
            TEXT, "id of the detail from whose length of roll it is cut as well; empty where it takes its own"
        ),
        "cut_length": said(NUMBER, "length it is cut to, rounded up to the rule cut_step [m]"),
    }


def of_ply() -> Json:
    """What everything that lies in one ply starts with."""
    return {"id": TEXT, "area": TEXT, "ply": TEXT}


def lap() -> Json:
    """One lap."""
    return {
        **of_ply(),
        "kind": {"enum": ["side", "end", "strip", "flashing"]},
        "pieces": {**many(TEXT), "minItems": 2, "maxItems": 2},
        "line": said(LINE, "the exposed edge"),
        "length": METRES,
        "width": METRES,
    }


def tjoint() -> Json:
    """One T-joint."""
    return record(
        {
            **of_ply(),
            "at": POINT,
            "laps": many(TEXT),
            "kind": said(
                {"enum": ["field", "detail"]},
                "detail: where a lap between details, or a foot of one, crosses a lap of the area and ply under them",
            ),
        }
    )


def roll() -> Json:
    """One numbered roll."""
    return {
        "id": TEXT,
        "sheet": TEXT,
        "pieces": said(many(TEXT), "ids of pieces and details in cutting order"),
        "used": METRES,
        "left": METRES,
    }


def counts() -> Json:
    """Rolls and end laps of a ply, and the fewest that any layout could have under the rules."""
    return {"area": TEXT, "ply": TEXT, **dict.fromkeys(COUNTS, WHOLE)}


def starter() -> Json:
    """How a ply begins."""
    return {
        "area": TEXT,
        "ply": TEXT,
        "begins": said(NUMBER, "low edge of the first course, up the fall [m]"),
        "starter": said(NUMBER, "width of the first course [m]"),
        "tolerance": or_null(said(NUMBER, "how far its lap lines may move either way [m]")),
        "offset_least": or_null(said(NUMBER, "least distance from the next ply's lap lines [m]")),
        "exceptions": many(TEXT),
    }


def frame() -> Json:
    """The frame of one area."""
    return {
        "origin": POINT,
        "across": said(POINT, "unit vector along the courses"),
        "up": said(POINT, "unit vector from course to course"),
        "stretch": said(NUMBER, "slope length over plan length, along what runs up the fall"),
        "strapped": said({"type": "boolean"}, "courses run with the fall"),
    }


def sheet() -> Json:
    """A sheet as typed from its data sheet."""
    lengths = ("width", "length", "side_lap", "end_lap")
    limits = ("apply_at_or_above_c", "warm_rolls_at_or_above_c", "with_heat_at_or_above_c")
    celsius = or_null(said(NUMBER, "[°C]"))
    return {
        **dict.fromkeys(lengths, METRES),
        "thickness": or_null(METRES),
        **dict.fromkeys(limits, celsius),
        "surfacing": or_null(TEXT),
    }


def order() -> Json:
    """One line of the order."""
    return {
        "item": TEXT,
        "needed": NUMBER,
        "ordered": WHOLE,
        "unit": TEXT,
        "from": said(many(TEXT), "ids of what needs it"),
        "group": TEXT,
        "basis": TEXT,
        "rate": or_null(record(origin())),
        "price": or_null(NUMBER),
        "cost": or_null(NUMBER),
    }


def day() -> Json:
    """One crew day."""
    task = {
        "what": TEXT,
        "ids": many(TEXT),
        "begin_min": said(WHOLE, "minutes after midnight"),
        "end_min": WHOLE,
        "state": TEXT,
        "people": WHOLE,
        "tool_s": said(NUMBER, "time at the tool [s]"),
    }
    return {
        "number": COUNT,
        "date": or_null(DATE),
        "pieces": many(TEXT),
        "laps": many(TEXT),
        "tie_off": many(POINT),
        "tie_off_lines": many(LINE),
        "details": many(TEXT),
        "weather_date": DATE,
        "tasks": many(record(task)),
        "stop_welding_min": or_null(WHOLE),
        "contact_c": said(by_name(or_null(NUMBER)), "by ply: bond line at first touch [°C]"),
        "lost": many(TEXT),
    }


def check() -> Json:
    """One check and its steps."""
    value: Json = {"type": ["number", "string", "boolean", "null", "array", "object"]}
    result: Json = {"type": ["number", "string", "null"]}
    step = {"text": TEXT, "formula": TEXT, "values": by_name(value), "result": result, "unit": TEXT}
    return {
        "id": TEXT,
        "title": TEXT,
        "status": {"enum": ["pass", "fail", "unknown"]},
        "demand": or_null(NUMBER),
        "capacity": or_null(NUMBER),
        "unit": TEXT,
        "steps": many(record(step)),
        "source": TEXT,
        "confirm": said(TEXT, "who must confirm it"),
        "supply": said(many(TEXT), "keys of the job file that an unknown one lacks"),
        "uses": said(many(TEXT), "keys of the job file that it reads"),
    }


def origin() -> Json:
    """A value as written and where it comes from."""
    return dict.fromkeys(("key", "text", "default", "origin", "source", "note"), TEXT)


def rule() -> Json:
    """One rule in SI; what is said of its origin follows where it is known."""
    value: Json = {"type": ["number", "string"]}
    base = record({"value": value, "unit": TEXT})
    return {**base, "properties": {**base["properties"], **origin()}}


def notes() -> Json:
    """What was mended in what was read."""
    change = {"side": COUNT, "by": POINT}
    closure = {"area": TEXT, "misclosure": POINT, "walked": METRES, "changes": many(record(change))}
    return {
        "weather": or_null(record({"name": TEXT, "origin": TEXT})),
        "weather_mended": many(TEXT),
        "mended": many(record(dict.fromkeys(("file", "place", "found", "done"), TEXT))),
        "closures": many(record(closure)),
    }
