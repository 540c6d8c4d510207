"""What is read with instruments on a day, with the limit beside each reading, and the tug test in the cold."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from lapwright.assembly.values import Ply
from lapwright.crew.values import CrewDay
from lapwright.defaults.si import default_si
from lapwright.defaults.table import table
from lapwright.hours.values import SHUT
from lapwright.packet.pages.hotwork import is_hot
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.tools import speed_words
from lapwright.packet.pages.words import Json, clock
from lapwright.packet.pages.words import table as make_table
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.quantities import temperature_difference_k

NOTE_ONLY = "to be noted; this sheet's limits do not hold for it"
SIXTEENTH, HAIR = 127, 1e-9
TIMES = ("first", "mid", "last")
LAPS = ("side_lap", "end_lap", "flashing")


def readings(book: Book, day: CrewDay) -> Json:
    """The table of readings with room to write, for the plies laid that day."""
    plies = plies_of_day(book, day)
    rows = [(name, limit, "", "", "") for name, limit in limits(book, day, plies)]
    head = ("Reading", "Limit today", *TIMES)
    return make_table(head, rows, ("42mm", "1fr", "15mm", "15mm", "15mm"))


def plies_of_day(book: Book, day: CrewDay) -> list[Ply]:
    """The plies of today's pieces, bottom first."""
    names = {book.pieces[id].ply for id in day.pieces if id in book.pieces}
    return [ply for ply in book.paper.assembly.plies if ply.ply in names]


def limits(book: Book, day: CrewDay, plies: Sequence[Ply]) -> Iterator[tuple[str, str]]:
    """Each reading and its limit."""
    rules, units = book.paper.rules, book.units
    by_ply = "; ".join(f"{ply.ply} {sheet_limits(book, ply)}" for ply in plies) or "no sheet is laid today"
    holds = rules.limits_hold_for
    yield "Air", by_ply if "air" in holds else NOTE_ONLY
    surface = "as for the air" if plies and "air" in holds else by_ply
    yield "Surface to be covered", surface if "surface" in holds else NOTE_ONLY
    margin = units.temperature_difference(rules.dew_point_margin_k)
    yield "Surface less dew point", f"at least {margin}; dry, no frost"
    yield "Wind", f"no sheet goods handled above {units.speed(rules.wind_sheets_m_s)}"
    yield "Gusts", f"everybody stops above {units.speed(rules.gust_stop_m_s)}"
    if any(ply.ply != book.paper.assembly.plies[0].ply for ply in plies):
        dry = units.duration(rules.dry_after_wet_s)
        yield "Base last wet or frosted", f"over {dry} ago, else dried and measured"
    if book.paper.assembly.plies[0] in plies:
        yield from moisture(book)
    yield from metal_gaps(book, day)
    if plies:
        yield "Roll, outer wrap", "as it is laid: " + "; ".join(f"{ply.ply} {roll_limit(book, ply)}" for ply in plies)
    if is_hot(day):
        yield "Test weld", "setting and speed; peel it cold before the first lap" + reckoned_speeds(book, day)


def reckoned_speeds(book: Book, day: CrewDay) -> str:
    """Slowest and fastest weld speed of the hours fit for laps, from the job's test weld; empty where it has none."""
    weld, hours = book.paper.tools.weld, book.paper.hours
    if weld is None or hours is None:
        return ""
    laps = [states for name, states in hours.same_day().states.items() if name in LAPS]
    speeds = [
        speed
        for one in weld.days
        if one.number == day.number
        for clock, speed in one.speeds.items()
        if speed is not None and any(int(states[day.hours[clock]]) != SHUT for states in laps)
    ]
    if not speeds:
        return ""
    units = book.units
    unit = units.converted(0.0, "m/s tool")[1]
    return f"; reckoned {speed_words(units, min(speeds))} to {speed_words(units, max(speeds))} {unit}"


def moisture(book: Book) -> Iterator[tuple[str, str]]:
    """What deck and boards must read before the first ply is stuck to them; boards with one limit share a line."""
    found: dict[str, list[str]] = {}
    for limit in book.paper.engineered.moisture:
        found.setdefault(f"{limit.result} [{limit.values['origin']}]; the maker's limit governs", []).append(limit.text)
    for words, names in found.items():
        yield f"Moisture: {'; '.join(names)}", words


def metal_gaps(book: Book, day: CrewDay) -> Iterator[tuple[str, str]]:
    """The gap to leave at joints of edge metal by the metal's own temperature, on days on which metal is set."""
    is_set = any(book.details[id].kind == "metal" for id in day.details if id in book.details)
    for kind, gaps in book.paper.engineered.gaps if is_set else ():
        long = book.units.length(default_si("fasten", "metal_length"))
        told = ", ".join(f"{book.units.temperature(set_c)}: {gap_words(book, gap)}" for set_c, gap in gaps)
        yield f"Metal as set ({kind})", f"gap at each joint of {long}: {told}"


def gap_words(book: Book, gap: float) -> str:
    """A gap as a rule shows it, to a sixteenth of an inch or half a millimetre, up."""
    if book.units.is_us:
        return book.units.width(math.ceil(gap * TICKS_PER_METRE / SIXTEENTH - HAIR) * SIXTEENTH)
    return f"{math.ceil(gap * 2000 - HAIR) / 2:g} mm"


def sheet_limits(book: Book, ply: Ply) -> str:
    """A sheet's temperature limits in words."""
    sheet, units = ply.sheet, book.units
    parts = []
    if sheet.apply_at_or_above_c is not None:
        parts.append(f"{units.temperature(sheet.apply_at_or_above_c)} or over")
    if sheet.warm_rolls_at_or_above_c is not None:
        parts.append(f"{units.temperature(sheet.warm_rolls_at_or_above_c)} with warm rolls")
    if sheet.with_heat_at_or_above_c is not None:
        parts.append(f"{units.temperature(sheet.with_heat_at_or_above_c)} with warm rolls and welded laps")
    return ", ".join(parts) or "limit not given: not laid"


def roll_limit(book: Book, ply: Ply) -> str:
    """How warm a roll has to be when it goes down."""
    limit = ply.sheet.apply_at_or_above_c
    return "limit not given" if limit is None else f"{book.units.temperature(limit)} or over"


def tug_test(book: Book, day: CrewDay) -> list[str]:
    """Contact temperature at first touch for each ply laid in warm or heat hours, and the tug test where it is low."""
    cold, warm = [], []
    step = table("packet")["tug_test_drop"]
    drop = book.units.temperature_difference(temperature_difference_k(f"{step.value} {step.unit}"))
    test = (
        f"Tug-test the first sheet and after each {drop} drop; no bond means stop, or heat sheet and surface at the "
        "roll only if the maker allows it."
    )
    for ply in (ply for ply in plies_of_day(book, day) if ply.ply in day.contact_c):
        contact, limit = day.contact_c[ply.ply], ply.sheet.apply_at_or_above_c
        if contact is None or limit is None:
            cold.append(f"{ply.ply}: contact temperature at first touch not known. {test}")
        elif contact < limit:
            low, least = book.units.temperature(contact), book.units.temperature(limit)
            cold.append(f"{ply.ply}: {low} at first touch, under {least}. {test}")
        else:
            warm.append(f"{ply.ply} {book.units.temperature(contact)}")
    return [*cold, f"{', '.join(warm)} at first touch, not under the limit."] if warm else cold


def minutes_words(book: Book, minutes: int) -> str:
    """Time elapsed in whole minutes; a task too short for one says so."""
    if minutes < 2:
        return "1 min" if minutes == 1 else "under 1 min"
    return book.units.duration(minutes * 60)


def tasks(book: Book, day: CrewDay) -> Json:
    """Today's tasks with the time elapsed and the time at the tool."""
    units = book.units
    rows = [
        (
            clock(task.begin_min),
            f"{task.what}, {task.state}" if task.state else task.what,
            str(task.people),
            minutes_words(book, task.end_min - task.begin_min),
            units.duration(task.tool_s) if task.tool_s else "",
        )
        for task in day.tasks
    ]
    bold: tuple[int, ...] = ()
    if any(task.tool_s for task in day.tasks):
        bold = (len(rows),)
        rows.append(("", "at the tool, in all", "", "", units.duration(sum(task.tool_s for task in day.tasks))))
    head = ("From", "Task, hours", "By", "Elapsed", "At tool")
    return make_table(head, rows, ("auto", "1fr", "auto", "auto", "auto"), right=(2, 3, 4), bold=bold)
