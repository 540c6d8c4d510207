"""The morning sheet in words: the verdict first, then times, then what to bring; one minute to read.

Everything is a text of the job's units here, so that the page and the terminal say the same.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from lapwright.crew.values import Morning, MorningHour, OperationToday
from lapwright.packet.morningvalues import MorningPaper
from lapwright.packet.pages.morningbring import (
    all_plies,
    carry_lines,
    open_lines,
    people_lines,
    reading_rows,
    warm_lines,
)
from lapwright.packet.pages.words import Json, clock, date_words, shortened, spans
from lapwright.packet.pages.words import table as make_table
from lapwright.units.write import Units, decimals

DECIDE = "The readings on the roof decide; this sheet says when to take them."
HOW = {"open": "open", "warm": "warm rolls", "heat": "warm rolls, laps welded", "": ""}
SHEET_TITLE = "Morning sheet"
# of columns with long heads or short cells, so that no head breaks
WIDTHS = {"Wind,": "1.5fr", "Weld": "1.2fr", "Surface": "1.2fr", "Rain": "0.8fr", "Chill": "0.8fr"}


def morning_page(paper: MorningPaper) -> Json:
    """Everything that the sheet says."""
    morning, units = paper.morning, Units(paper.head.units)
    groups = grouped(morning.operations)
    return {
        "title": SHEET_TITLE,
        "date": date_words(morning.date),
        "job": f"{shortened(paper.head.name, 40)}, job {shortened(paper.head.number, 20)}".removesuffix(", job "),
        "weather": weather_lines(morning),
        "is_forecast": morning.is_forecast,
        "overall": {
            "verdict": morning.overall.verdict,
            "line": overall_line(paper),
            "why": why_line(morning.overall),
        },
        "crew": crew_line(morning),
        "decide": DECIDE,
        "first_hour": crew_hours(morning)[0],
        "hours": [f"{hour:02d}" for hour in crew_hours(morning)],
        "operations": [operation_row(names, one, morning) for names, one in groups],
        "measure": measure_line(morning),
        "table": hour_table(paper, units),
        "under_table": under_table(paper),
        "open": open_lines(paper, units),
        "warm": warm_lines(paper, units),
        "carry": carry_lines(paper, units),
        "readings": reading_rows(paper, units),
        "people": people_lines(paper, units),
        "cautions": caution_lines(paper),
        "unknown": [unknown_line(what, keys) for what, keys in morning.unknown],
        "notes": list(morning.notes),
    }


def weather_lines(morning: Morning) -> list[str]:
    """Where the weather comes from and how old it is, plainly."""
    if not morning.is_forecast:
        day, month, _ = date_words(morning.weather_date, weekday=False).split()
        return [
            f"NOT A FORECAST: {day} {month} of the weather year {morning.weather}. Ask for the forecast before anybody "
            "works by this."
        ]
    place = f", {morning.place}" if morning.place else ""
    if morning.issued is None or morning.age_s is None:
        return [f"Forecast of the US National Weather Service{place}. It does not say when it was issued: AGE UNKNOWN."]
    at = f"{date_words(morning.issued.date())} {morning.issued:%H:%M}"
    before = f"{age_words(morning.age_s)} before the crew's day" if morning.age_s >= 0 else "within the crew's day"
    return [f"Forecast issued {at}, {before}. US National Weather Service{place}."]


def age_words(seconds: float) -> str:
    """Hours and minutes, or days and hours of a forecast's age."""
    minutes = round(seconds / 60)
    if minutes < 48 * 60:
        return f"{minutes // 60} h {minutes % 60:02d} min"
    return f"{minutes // 1440} d {minutes % 1440 // 60} h"


def overall_line(paper: MorningPaper) -> str:
    """The day in one line."""
    one = paper.morning.overall
    if one.verdict == "unknown":
        return f"UNKNOWN: {one.why}{supply_words(one.supply)}."
    if one.verdict == "stop" or one.first_min is None or one.last_min is None:
        return f"STOP: no time today for {all_plies(paper).lower()} together ({one.why})."
    last = f"last safe minute {clock(one.last_min)}"
    if one.verdict == "go":
        return f"GO from the start: {HOW[one.state]}; {last}."
    return f"WAIT until {clock(one.first_min)}, then {HOW[one.state]}; {last}."


def why_line(one: OperationToday) -> str:
    """What shuts the minute before and after the window."""
    parts = []
    if one.first_min is not None and one.before and one.verdict == "wait":
        parts.append(f"before {clock(one.first_min)} {one.before}")
    if one.last_min is not None and one.after and "day ends" not in one.after:
        parts.append(f"after {clock(one.last_min)} {one.after}")
    return "; ".join(parts)


def crew_line(morning: Morning) -> str:
    """The crew's day and the sun's."""
    begin, end = morning.crew_min
    sun = "" if morning.sun is None else f"; sun up {clock(morning.sun[0])} to {clock(morning.sun[1])}"
    return f"Crew {clock(begin)} to {clock(end)}{sun}."


def crew_hours(morning: Morning) -> list[int]:
    """Clock hours that the crew's day touches."""
    begin, end = morning.crew_min
    return list(range(begin // 60, min(24, -(-end // 60))))


def grouped(operations: Sequence[OperationToday]) -> list[tuple[str, OperationToday]]:
    """Operations that are told the same in one row, with their names."""
    rows: dict[tuple[object, ...], list[OperationToday]] = {}
    for one in operations:
        key = (
            one.verdict,
            one.first_min,
            one.last_min,
            one.state,
            one.states,
            one.why,
            one.before,
            one.after,
            one.supply,
        )
        rows.setdefault(key, []).append(one)
    return [(", ".join(one.operation.replace("_", " ") for one in same), same[0]) for same in rows.values()]


def operation_row(names: str, one: OperationToday, morning: Morning) -> Json:
    """A row: verdict, names, how, from, to, the hours' states, and why."""
    states = one.states or ("",) * 24
    why = f"{one.why}{supply_words(one.supply)}" if one.verdict in ("stop", "unknown") else why_line(one)
    if why == why_line(morning.overall):
        why = ""
    return {
        "verdict": one.verdict,
        "names": names,
        "how": "" if one.first_min is None else HOW[one.state],
        "from": "" if one.first_min is None else clock(one.first_min),
        "to": "" if one.last_min is None else clock(one.last_min),
        "cells": [cell_word(one, hour, states[hour]) for hour in crew_hours(morning)],
        "why": why,
    }


def cell_word(one: OperationToday, hour: int, state: str) -> str:
    """The state of an hour of the strip; one of which the window has less than half is drawn shut."""
    if not state:
        return "none"
    first, last = one.first_min, one.last_min
    if first is not None and hour == first // 60 and first % 60 > 30:
        return "shut"
    if last is not None and hour == last // 60 and last % 60 < 30:
        return "shut"
    return state


def supply_words(keys: Sequence[str]) -> str:
    """What to supply, in words."""
    return f"; give {', '.join(keys)}" if keys else ""


def measure_line(morning: Morning) -> str:
    """Hours in which only an instrument can tell."""
    runs = [
        f"{first:02d}:00" if first == last else f"{first:02d}:00 to {last:02d}:00"
        for first, last in spans([one.hour for one in morning.hours if one.measure])
    ]
    return f"Measure first at {', '.join(runs)}: the models of the surface differ across a limit." if runs else ""


def hour_table(paper: MorningPaper, units: Units) -> Json:
    """Hour by hour: weather, surface, chill, how long a bare roll lasts, the speed of a lap."""
    morning = paper.morning
    has_roll = any(one.roll_s is None or math.isfinite(one.roll_s) for one in morning.hours)
    has_weld = morning.proved is not None
    degree = "°F" if units.is_us else "°C"
    wind = "mph" if units.is_us else "m/s"
    speed = "in/s" if units.is_us else "mm/s"
    head = ["At", f"Air {degree}", f"Surface {degree}", "Spread", "Over dew", f"Wind, gust {wind}", "Rain", "Chill"]
    head += ["Roll lasts"] if has_roll else []
    head += [f"Weld {speed}"] if has_weld else []
    rows = [hour_row(one, units, has_roll=has_roll, has_weld=has_weld) for one in morning.hours]
    widths = ["12mm", *(WIDTHS.get(name.split()[0], "1fr") for name in head[1:])]
    return make_table(head, rows, widths, right=tuple(range(1, len(head))))


def hour_row(one: MorningHour, units: Units, *, has_roll: bool, has_weld: bool) -> list[str]:
    """One hour."""
    row = [
        f"{one.hour:02d}:00",
        degrees(one.air_c, units),
        degrees(one.surface_c, units),
        spread(one, units),
        whole(units.converted(one.over_wetting_k, "K")[0]),
        winds(one, units),
        percent(one.rain_chance),
        degrees(one.chill_c, units),
    ]
    if has_roll:
        row.append(lasts(one.roll_s))
    if has_weld:
        row.append(weld_speed(one, units))
    return row


def weld_speed(one: MorningHour, units: Units) -> str:
    """The speed of a lap; a dash without readings, `none` where the tool has no speed that welds it."""
    if one.weld_m_s is None:
        return "none" if math.isfinite(one.surface_c + one.air_c) else "-"
    speed = units.converted(one.weld_m_s, "m/s tool")[0]
    return f"{speed:.1f}" if units.is_us else decimals(speed, 0)


def degrees(value_c: float, units: Units) -> str:
    """A temperature to the degree, without its unit."""
    return whole(units.converted(value_c, "degC")[0])


def whole(value: float) -> str:
    """A number to the unit; a dash for none."""
    return decimals(value, 0) if math.isfinite(value) else "-"


def spread(one: MorningHour, units: Units) -> str:
    """The surface's spread over the models."""
    if not math.isfinite(one.surface_low_c + one.surface_high_c):
        return "-"
    return f"{degrees(one.surface_low_c, units)} to {degrees(one.surface_high_c, units)}"


def winds(one: MorningHour, units: Units) -> str:
    """Wind, and gusts where they are said."""
    wind = whole(units.converted(one.wind_m_s, "m/s")[0])
    gust = whole(units.converted(one.gust_m_s, "m/s")[0])
    return wind if gust == "-" else f"{wind}, {gust}"


def percent(share: float) -> str:
    """A chance in per cent; a dash for none."""
    return f"{round(100 * share)} %" if math.isfinite(share) else "-"


def lasts(seconds: float | None) -> str:
    """How long a roll lasts, to the minute and never longer than it does."""
    if seconds is None:
        return "all day"
    if not math.isfinite(seconds):
        return "-"
    minutes = math.floor(seconds / 60)
    return f"{minutes} min" if minutes < 600 else "all day"


def under_table(paper: MorningPaper) -> str:
    """What the columns mean, in one line."""
    morning = paper.morning
    parts = ["Over dew: surface over dew or frost."]
    if morning.roll_ply:
        parts.append(f"Roll lasts: outer wrap of a bare {morning.roll_ply} roll.")
    if morning.proved is not None:
        parts.append("Weld: computed; the test weld is the judge.")
        if any(weld_speed(one, Units()) == "none" for one in morning.hours):
            parts.append("none: the tool has no speed that welds it.")
    return " ".join(parts)


def caution_lines(paper: MorningPaper) -> list[str]:
    """The cautions that this day's work needs."""
    morning = paper.morning
    told = []
    if any(one.state == "heat" for one in (*morning.operations, morning.overall)):
        watch = paper.crew.fire_watch_s if paper.crew else None
        length = f"{Units().duration(watch)} of fire watch" if watch is not None else "fire watch not given"
        told.append(f"Hot work: permit, extinguishers, {length}. GFCI on every tool; generator outside, downwind (CO).")
    if morning.thunder:
        told.append(f"Thunder is named from {morning.thunder[0]:02d}:00: off the roof at the first one heard.")
    if any(math.isfinite(one.surface_c) and one.surface_c <= 0 for one in morning.hours):
        told.append("Ice on ladders and deck: clear it first.")
    told.append("Guard edges and openings before the first roll.")
    return told


def unknown_line(what: str, keys: Sequence[str]) -> str:
    """What can't be said, and what to supply."""
    return f"{what}: unknown; give {', '.join(keys)}" if keys else f"{what}: unknown"
