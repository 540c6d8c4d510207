"""The cover: whose job, what it comes to, which checks failed or lack input, and the cautions."""

from __future__ import annotations

from collections import Counter

from lapwright.packet.pages.choice import over_words
from lapwright.packet.pages.hotwork import is_hot
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.words import Json, bearing, counted, date_words, spans, table
from lapwright.roof.values import Area, Point
from lapwright.units.factors import TICKS_PER_METRE

MOST_CHECKS, MOST_WARNINGS = 14, 10
WORK = {"new": "new work", "recover": "recover", "tear_off": "tear-off"}
CAUTIONS = (
    (
        "Work at height.",
        "Guard edges and openings before anybody goes up; cover skylights and holes, mark and fix the covers. Snow "
        "hides edges: mark them before it is cleared.",
    ),
    (
        "Hot work.",
        "A hot-air tool is hot work: a permit, extinguishers at hand, and a fire watch that does nothing else, for the "
        "longest time that code, owner or programme asks.",
    ),
    (
        "Roof loads.",
        "Pallets and snow can bring a roof down. Nothing is landed or piled before the structure's designer has said "
        "where and how much.",
    ),
    (
        "Power.",
        "Each tool on its own protected circuit, on a cord of enough gauge; joints out of water and snow. Generators "
        "stand outdoors, away from openings and the warm store.",
    ),
    (
        "Structure.",
        "Nothing here judges the structure, nor replaces a sealed calculation. Loads that it reports are for the "
        "structure's designer.",
    ),
    (
        "Who decides.",
        "Local code, the maker's written instructions and licensed practice go before anything in this packet. Each "
        "calculation is to be confirmed by whom it names. Where two differ: stop and ask.",
    ),
)


def cover_page(book: Book) -> Json:
    """Everything that stands on the cover."""
    head = book.paper.head
    revision = f"revision {head.revision}" if head.revision else ""
    parts = (f"Job {head.number}", revision, date_words(head.date, weekday=False), WORK.get(head.work, head.work))
    return {
        "name": head.name,
        "line": ", ".join(part for part in parts if part),
        "areas": area_table(book),
        "plies": ply_table(book),
        "numbers": numbers(book),
        "verdicts": verdicts(book),
        "open": open_checks(book),
        "warnings": warnings(book),
        "cautions": [list(caution) for caution in CAUTIONS],
    }


def area_table(book: Book) -> Json:
    """Each area: its size in plan, slope and the way water runs, edges and openings."""
    units = book.units
    rows = [
        (
            area.name,
            units.area(plan_area(area)),
            units.slope(area.slope),
            bearing(area.falls),
            edge_words(area),
            counted(len(area.openings), "opening") + ", " + counted(len(area.pipes), "pipe"),
        )
        for area in book.paper.areas
    ]
    head = ("Area", "In plan", "Slope", "Falls", "Edges", "Through it")
    return table(head, rows, ("1fr", "auto", "auto", "auto", "2fr", "1.2fr"))


def plan_area(area: Area) -> float:
    """Area in plan less its openings [m²]."""
    holes = sum(abs(shoelace(opening.outline)) for opening in area.openings)
    return (abs(shoelace(area.outline)) - holes) / TICKS_PER_METRE**2


def shoelace(points: tuple[Point, ...]) -> float:
    """Signed area of a polygon [ticks²]."""
    ends = (*points[1:], points[0])
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, ends, strict=True)) / 2


def edge_words(area: Area) -> str:
    """The kinds of edges with their side numbers."""
    sides: dict[str, list[int]] = {}
    for edge in area.edges:
        sides.setdefault((edge.kind or "not given").replace("_", " "), []).append(edge.side)
    return "; ".join(f"{kind} {side_words(numbers)}" for kind, numbers in sides.items())


def side_words(numbers: list[int]) -> str:
    """Side numbers, those that follow each other as a range: `1, 3-5`."""
    return ", ".join(f"{first}" if first == last else f"{first}-{last}" for first, last in spans(numbers))


def ply_table(book: Book) -> Json:
    """Each ply on each area with its counts and the least that any layout could have."""
    rows = [
        (
            ply.area,
            ply.ply,
            ply.sheet,
            str(len(ply.courses)),
            str(len(ply.pieces)),
            f"{ply.end_laps} (at least {ply.end_laps_at_least})",
            str(ply.rolls),
        )
        for ply in book.paper.layout.plies
    ]
    head = ("Area", "Ply", "Sheet", "Courses", "Pieces", "End laps", "Rolls opened")
    return table(head, rows, ("1fr", "auto", "auto", "auto", "auto", "auto", "auto"), right=(3, 4, 5, 6))


def numbers(book: Book) -> list[str]:
    """What the job comes to, in sentences."""
    layout = book.paper.layout
    joints = counted(len(layout.tjoints), "T-joint")
    told = [
        f"{counted(len(layout.pieces), 'piece')} and {counted(len(layout.details), 'detail length')} from "
        f"{counted(len(layout.rolls), 'numbered roll')}; {counted(len(layout.laps), 'lap')} and {joints} to probe.",
        roll_numbers(book),
        *over_numbers(book),
        day_numbers(book),
    ]
    costs = [line.cost for line in book.paper.order if line.cost is not None]
    if costs:
        whole = book.paper.head.money(sum(costs))
        told.append(f"Order: {len(costs)} of {counted(len(book.paper.order), 'line')} priced, {whole}.")
    return told


def roll_numbers(book: Book) -> str:
    """Rolls of each sheet, and the fewest that any layout could need under the rules."""
    layout = book.paper.layout
    counts = Counter(roll.sheet for roll in layout.rolls)
    parts = []
    for sheet, count in counts.items():
        least = layout.sheet_rolls_at_least.get(sheet)
        bound = "" if least is None else f", at least {least} in any layout"
        parts.append(f"{sheet} {counted(count, 'roll')}{bound}")
    return "; ".join(parts) + "."


def over_numbers(book: Book) -> list[str]:
    """How far the layout is at most over the least that any could come to, and by which aim it was chosen."""
    paper = book.paper
    if paper.weighed is None:
        return [over_words(paper)]
    aims = "the other aims beside it on the sheet Cost and choice"
    return [
        over_words(paper),
        f"Laid by {paper.weighed.aim}; cost is that of rolls and the work of laps and cuts; {aims}.",
    ]


def day_numbers(book: Book) -> str:
    """How many crew days, from when to when, and how many with hot work."""
    days = book.paper.days
    if not days:
        return "No crew days: the job names no weather or no crew."
    dates = [day.date for day in days if day.date is not None]
    dated = f", {date_words(dates[0])} to {date_words(dates[-1])}" if dates else ", not dated: no start was given"
    hot = sum(is_hot(day) for day in days)
    return f"{counted(len(days), 'crew day')}{dated}; {counted(hot, 'day')} with hot work."


def verdicts(book: Book) -> Json:
    """How many checks passed, failed and lack input."""
    found = Counter(check.status for check in book.paper.checks)
    return {"pass": found["pass"], "fail": found["fail"], "unknown": found["unknown"]}


def open_checks(book: Book) -> Json:
    """The checks that failed and those that lack input: what, and what to supply."""
    checks = [check for check in book.paper.checks if check.status == "fail"]
    checks += [check for check in book.paper.checks if check.status == "unknown"]
    rows = [
        [check.status, check.title, "to supply: " + check.supply_words if check.supply else check.id]
        for check in checks[:MOST_CHECKS]
    ]
    return {"rows": rows, "more": max(0, len(checks) - MOST_CHECKS)}


def warnings(book: Book) -> Json:
    """Warnings of the layout and the plan, each once."""
    told = list(dict.fromkeys(text for _, text in (*book.paper.layout.warnings, *book.paper.warnings)))
    return {"rows": told[:MOST_WARNINGS], "more": max(0, len(told) - MOST_WARNINGS)}
