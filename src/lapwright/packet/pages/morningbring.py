"""What the morning sheet says of what to open, heat, carry and read, and of the people."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence

from lapwright.assembly.values import Ply
from lapwright.crew.values import Morning, MorningHour, WarmRolls
from lapwright.defaults.si import default_si
from lapwright.defaults.table import table
from lapwright.packet.morningvalues import MorningPaper
from lapwright.packet.pages.words import clock, counted, date_words
from lapwright.units.quantities import temperature_difference_k
from lapwright.units.write import Units, decimals


def open_lines(paper: MorningPaper, units: Units) -> list[str]:
    """How much may be opened, and until when."""
    morning, opened = paper.morning, paper.morning.opened
    people = f"{paper.crew.people} people" if paper.crew else "the crew"
    if opened is None:
        if any(what == "how much may be opened" for what, _ in morning.unknown):
            return ["Unknown; see below."]
        told = [f"{all_plies(paper)}: not one course can be opened and closed again today."]
    else:
        rolls = ", ".join(f"{decimals(count, 1)} of {ply}" for ply, count in opened.rolls.items())
        welded = ", laps welded" if opened.welds else ""
        told = [
            f"{all_plies(paper)}: no more than {units.area(opened.area)} (rolls: {rolls}) by {people}{welded}; "
            "edges on top.",
            f"Deck from {clock(opened.begin_min)}; nothing opened after {clock(opened.last_base_min)}; probing and "
            f"tie-off ({units.length(opened.tie_off)}) from {clock(opened.closing_min)}; closed "
            f"{clock(opened.closed_min)}.",
        ]
    based = morning.based
    if based is not None:
        within = units.duration(paper.rules.cover_within_s)
        told.append(
            f"{plies_words(paper.assembly.plies[:-1])} alone, tied off, capped within {within}: no more than "
            f"{units.area(based.area)}; nothing opened after {clock(based.last_base_min)}, closed "
            f"{clock(based.closed_min)}."
        )
    return told


def all_plies(paper: MorningPaper) -> str:
    """The roof's plies in words: `Base, interply and cap`."""
    return plies_words(paper.assembly.plies)


def plies_words(plies: Sequence[Ply]) -> str:
    """Plies in words, bottom first."""
    names = [ply.ply for ply in plies]
    return " and ".join(filter(None, [", ".join(names[:-1]), names[-1]])).capitalize()


def warm_lines(paper: MorningPaper, units: Units) -> list[str]:
    """What has to be warm, and when the store goes on."""
    morning = paper.morning
    if not morning.warm:
        return without_warm(morning)
    told = []
    first = morning.warm[0]
    rolls = ", ".join(rolls_words(one, morning.warm) for one in morning.warm if one.rolls)
    limit = ", ".join(dict.fromkeys(units.temperature(one.until_c) for one in morning.warm))
    store = units.temperature(first.store_c)
    told.append(f"{rolls or 'Rolls'} through to {limit} by {clock(first.needed_min)}, in a store at {store}.")
    slowest = [
        max((one.stands[k] for one in morning.warm), key=lambda stand: stand[1] or math.inf)
        for k in range(len(first.stands))
    ]
    if all(core_s is None for _, core_s, _ in slowest):
        return [*told, f"THE STORE IS TOO COLD: no roll in it comes to {limit}."]
    ways = [stand_words(morning, *stand) for stand in slowest]
    cold = units.temperature(round_c(first.cold_c, units))
    lead = units.duration(default_si("rolls", "store_lead"))
    told.append(f"Store on (rolls from {cold}; {lead} to heat it): {'; '.join(ways)}.")
    return told


def rolls_words(one: WarmRolls, warm: Sequence[WarmRolls]) -> str:
    """Rolls of a sheet; the ply as well where two plies are of one sheet."""
    ply = f" for {one.ply}" if sum(other.sheet == one.sheet for other in warm) > 1 else ""
    return f"{counted(one.rolls, 'roll')} of {one.sheet}{ply}"


def without_warm(morning: Morning) -> list[str]:
    """What is said where no warm rolls are listed: that none are asked for, or why it is not known."""
    plies = [one for one in morning.operations if one.operation in ("base", "interply", "cap")]
    if any(what == "the warm rolls" for what, _ in morning.unknown) or any(one.verdict == "unknown" for one in plies):
        return ["Unknown; see below."]
    if all(one.verdict == "stop" for one in plies):
        return ["No rolls: nothing is laid today."]
    return ["No rolls have to be warm today."]


def stand_words(morning: Morning, name: str, core_s: float | None, on_min: float | None) -> str:
    """When the store goes on for rolls that stand so."""
    if core_s is None or on_min is None:
        return f"{name} never"
    hours = core_s / 3600
    length = f"{decimals(hours, 0)} h" if hours < 48 else f"{decimals(hours / 24, 0)} days"
    return f"{name} {when_words(morning, on_min)} ({length})"


def when_words(morning: Morning, minutes: float) -> str:
    """A minute counted from the day's midnight as a day and a clock time: `Sun 10 Jan 20:40`."""
    days, rest = divmod(math.floor(minutes), 1440)
    date = morning.date + dt.timedelta(days=days)
    return f"{date_words(date).rsplit(' ', 1)[0]} {clock(rest)}"


def carry_lines(paper: MorningPaper, units: Units) -> list[str]:
    """How long a roll lasts bare and how many go up in a trip, by ply."""
    return [carry_line(one, units) for one in paper.morning.warm]


def carry_line(one: WarmRolls, units: Units) -> str:
    """One ply: the worst hour of its window."""
    if one.lasts_s is None:
        return f"{one.ply}: the outer wrap lasts as long as the roll stands."
    how = "covered" if one.is_covered else "bare"
    lasts = f"{one.ply}: {how} outer wrap lasts {minutes_words(one.lasts_s)}, a roll every {minutes_words(one.pace_s)}"
    if one.most is not None and one.distance is not None:
        way = f"the store {units.length(one.distance)} away"
        if one.most < 1:
            return f"{lasts}; {way}: no roll gets there warm; covered rolls, or a hot box beside the work."
        return f"{lasts}; {counted(one.most, 'roll')} a trip, {way}."
    if not one.trip:
        return f"{lasts}; no roll gets there warm: covered rolls, or a hot box beside the work."
    trips = [f"{counted(rolls, 'roll')} a trip within {reach_words(distance, units)}" for rolls, distance in one.trip]
    return f"{lasts}; {'; '.join(trips)} of the store."


def reach_words(distance: float, units: Units) -> str:
    """A distance on tens of feet or fives of metres, never more than it is."""
    if not units.is_us:
        return f"{5 * math.floor(distance / 5)} m"
    return f"{10 * math.floor(units.converted(distance, 'm')[0] / 10 + 1e-9)}'"


def minutes_words(seconds: float) -> str:
    """Whole minutes, never more than there are."""
    return f"{math.floor(seconds / 60)} min" if seconds < 7200 else f"{decimals(math.floor(seconds / 360) / 10, 1)} h"


def reading_rows(paper: MorningPaper, units: Units) -> list[tuple[str, str]]:
    """Each reading with its limit; room to write is the page's."""
    rules, plies = paper.rules, paper.assembly.plies
    by_ply = "; ".join(f"{ply.ply} {sheet_words(ply, units)}" for ply in plies)
    where = {"air": "Air", "surface": "Surface", "air_and_surface": "Air and surface"}[rules.limits_hold_for]
    margin = units.temperature_difference(rules.dew_point_margin_k)
    step = units.temperature_difference(temperature_difference_k(table("weld")["retest_step"].text))
    rows = [
        (where, by_ply),
        ("Surface over dew", f"{margin} or more; dry, no frost"),
        (
            "Wind, gusts",
            f"sheets to {units.speed(rules.wind_sheets_m_s)}; all stop over {units.speed(rules.gust_stop_m_s)}",
        ),
    ]
    warm = {one.ply: one for one in paper.morning.warm}
    if warm:
        limits = "; ".join(f"{one.ply} {units.temperature(one.until_c)}" for one in warm.values()) + " or over"
        rows.append(("Outer wrap, laid", limits))
    if any(one.state == "heat" for one in paper.morning.operations):
        rows.append(("Test weld", f"peel it cold before the first lap; again after {step} or another cord"))
    return rows


def sheet_words(ply: Ply, units: Units) -> str:
    """A sheet's limits in few words."""
    sheet = ply.sheet
    if sheet.apply_at_or_above_c is None:
        return "limit not given: not laid"
    parts = [f"{units.temperature(sheet.apply_at_or_above_c)}"]
    if sheet.warm_rolls_at_or_above_c is not None:
        parts.append(f"{units.temperature(sheet.warm_rolls_at_or_above_c)} warm rolls")
    if sheet.with_heat_at_or_above_c is not None:
        parts.append(f"{units.temperature(sheet.with_heat_at_or_above_c)} welded")
    return ", ".join(parts)


def people_lines(paper: MorningPaper, units: Units) -> list[str]:
    """Wind chill, bare skin and warm-up breaks over the crew's day."""
    known = [one for one in paper.morning.hours if math.isfinite(one.chill_c)]
    if not known:
        return ["Wind chill unknown: no reading."]
    worst = min(known, key=lambda one: one.chill_c)
    told = [f"Wind chill down to {units.temperature(round_c(worst.chill_c, units))} at {worst.hour:02d}:00."]
    told.append(skin_words(known))
    told.append(break_words(known))
    return [line for line in told if line]


def round_c(value_c: float, units: Units) -> float:
    """A temperature on whole degrees of the unit shown [°C]."""
    if not units.is_us:
        return float(round(value_c))
    return (round(value_c * 9 / 5 + 32) - 32) * 5 / 9


def skin_words(known: list[MorningHour]) -> str:
    """How soon bare skin freezes."""
    times = [one.frostbite_min for one in known if one.frostbite_min is not None]
    return f"Bare skin freezes within {math.floor(min(times))} min." if times else ""


def break_words(known: list[MorningHour]) -> str:
    """Warm-up breaks that the schedule asks for."""
    least = min(one.work_min for one in known)
    if math.isinf(least):
        return "No warm-up breaks asked for by the schedule."
    if least <= 0:
        return "The warm-up schedule stops all but urgent work in the coldest hours."
    return f"Warm-up breaks of 10 min after at most {math.floor(least)} min of work in the coldest hours."
