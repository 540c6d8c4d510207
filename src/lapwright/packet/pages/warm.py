"""Warm rolls: how long they last outside, how they are brought up, and the store day by day."""

from __future__ import annotations

import math
from collections.abc import Iterator

from lapwright.defaults.table import table as default_table
from lapwright.heat.values import DayLeftOut, SheetWarmth, StoreDay, Warmth
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.words import Json, Row, clock, counted, date_words, table, without_empty
from lapwright.packet.sheets.rollchart import minute_words
from lapwright.units.write import Units

MOST_DAYS = 12  # rows of the store's table on the page; plan.json has them all
DAY_MIN = 1440


def warm_page(book: Book) -> Json | None:
    """The page beside its chart; None where the job has no store or no cold day."""
    warmth = book.paper.warmth
    if warmth is None or not warmth.days:
        return None
    return {
        "lead": list(lead_words(book, warmth)),
        "winds": [wind_page(book, sheet) for sheet in warmth.sheets],
        "trips": trip_table(book, warmth),
        "store": store_table(book, warmth),
        "more": len(warmth.days) - len(shown_days(warmth)),
        "rule": rule_words(book, warmth),
    }


def lead_words(book: Book, warmth: Warmth) -> Iterator[str]:
    """What the page says, in sentences."""
    units = book.units
    yield (
        f"Rolls stored at {units.temperature(warmth.store_c)}, {cover_words(book, warmth)}. A roll is laid from "
        "its outside in, so its outermost wrap has to be down before it falls below the sheet's limit. Computed from "
        "conduction, wind and radiation for tightly wound rolls, without sun: a thermometer on the wrap decides."
    )
    if warmth.left_out is not None:
        yield left_words(book, warmth.left_out)


def cover_words(book: Book, warmth: Warmth) -> str:
    """What lies over the rolls outside."""
    if warmth.cover_w_m2k is None:
        return "outside without a cover"
    return f"outside under a cover of {book.units.number_and_unit(warmth.cover_w_m2k, 'W/m2K')}"


def left_words(book: Book, day: DayLeftOut) -> str:
    """What becomes of a roll that is set out in the morning and left."""
    found = day.found
    begin = day.begin_min

    def when(seconds: float | None) -> str:
        return "not that day" if seconds is None else f"at {clock(begin + seconds / 60)}"

    named = next(one for one in book.paper.days if one.number == day.number)
    of_day = f"Set out at {clock(begin)} on day {day.number} (weather of {date_words(named.weather_date)}) and left"
    return (
        f"{of_day}, a roll of {day.sheet} loses its outermost wrap {when(found.wrap_s)}, half of its length "
        f"{when(found.half_s)}, all of it {when(found.all_s)}."
    )


def wind_page(book: Book, sheet: SheetWarmth) -> Json:
    """Minutes by wind and air, to be read on any morning."""
    units = book.units
    head = ("Air", *(units.speed(wind) for wind in sheet.winds_m_s))
    rows = [
        (units.temperature(air), *(minute_words(time) for time in row))
        for air, row in zip(sheet.airs_c, sheet.lasts_s, strict=True)
    ]
    title = f"{sheet.sheet}: minutes until its outermost wrap is at {units.temperature(sheet.until_c)}"
    numbers = tuple(range(1, len(head)))
    return {"title": title, "table": table(head, rows, ("auto", *["1fr"] * len(numbers)), right=numbers)}


def trip_table(book: Book, warmth: Warmth) -> Json:
    """Rolls to a trip and how far, sheet by sheet, in the weather that a tenth of the cold hours is worse than."""
    units = book.units
    rows: list[Row] = []
    for sheet in warmth.sheets:
        trip = sheet.trip
        pace = units.duration(60 * math.floor(sheet.pace_s / 60))  # whole minutes, never more, as on the morning sheet
        lasts = "not lost" if sheet.short_s is None else units.duration(round(sheet.short_s))
        if trip is None:
            rows.append((sheet.sheet, lasts, pace, "", "", ""))
            continue
        far = "no bound" if trip.farthest is None else units.length(trip.farthest)
        told = "none: nearer, or covered" if not trip.rolls else str(trip.rolls)
        rows.append((sheet.sheet, lasts, pace, units.duration(round(trip.trip_s)), told, far))
    head = (
        "Sheet",
        "Outer wrap lasts",
        "A roll is needed each",
        "Trip takes",
        "Rolls to a trip",
        "Farthest for one roll",
    )
    return table(head, rows, ("1fr", *["auto"] * 5), right=(1, 2, 3, 4, 5))


def store_table(book: Book, warmth: Warmth) -> Json:
    """The store for each day that needs warm rolls, the first so many."""
    head = (
        "Day",
        "Rolls laid",
        "Held",
        "Rolls come at",
        "Coldest air",
        "Warm through in",
        f"On, for {begin_words(book)}",
        "Heater",
        "Floor",
        (warmth.fuel or "").capitalize(),
    )
    shown = shown_days(warmth)
    rows = [store_row(book, day) for day in shown]
    bold = [at for at, day in enumerate(shown) if day is warmth.most]
    whole = table(head, rows, ("auto", "1fr", *["auto"] * 8), right=(2, 3, 4, 5, 7, 8, 9), bold=bold)
    return without_empty(whole)


def begin_words(book: Book) -> str:
    """When the crew's day begins, by which the rolls of the table are warm."""
    crew = book.paper.crew
    return "the day's begin" if crew is None else f"{crew.day_from:%H:%M}"


def shown_days(warmth: Warmth) -> tuple[StoreDay, ...]:
    """The first so many days, and the one that asks most in any case."""
    first = warmth.days[:MOST_DAYS]
    most = warmth.most
    return first if most is None or most in first else (*first[:-1], most)


def store_row(book: Book, day: StoreDay) -> Row:
    """One day of the store."""
    units, plan = book.units, day.plan
    rolls = ", ".join(f"{count} {sheet}" for sheet, count in day.rolls.items())
    fuel = "" if plan.fuel_amount is None else f"{plan.fuel_amount:.3g} {plan.fuel_unit}"
    return (
        str(day.number),
        rolls,
        str(plan.rolls),
        degrees(units, day.cold_c),
        degrees(units, day.air_c),
        "never" if plan.warm_s is None else units.duration(plan.warm_s),
        "warmer store needed" if plan.switch_on_s is None else switch_words(plan.switch_on_s),
        f"{plan.heater_w / 1000:.3g} kW",
        units.area(plan.floor),
        fuel,
    )


def degrees(units: Units, air_c: float) -> str:
    """A temperature [°C] to the whole degree that is shown."""
    value, unit = units.converted(air_c, "degC")
    return f"{value:.0f} {unit}".replace("-0 ", "0 ")


def switch_words(seconds: float) -> str:
    """By when the heater is on: a clock time, rounded down to five minutes, and how many days before."""
    minutes = int(seconds // 300) * 5
    before = -(minutes // DAY_MIN)
    time = clock(minutes % DAY_MIN)
    if before <= 0:
        return f"{time} that day"
    return f"{time} the day before" if before == 1 else f"{time}, {counted(before, 'day')} before"


def rule_words(book: Book, warmth: Warmth) -> str:
    """How the rolls stand, and the trade's own rule beside it."""
    rule = book.units.duration(default_table("rolls")["store_rule"].number() * 3600)
    return (
        f"Rolls stand as {warmth.stand}; the time shown is that of the coldest place of the slowest roll. The trade's "
        f"rule of {rule} or more in heated storage is right for rolls that stand free and far too short for a wrapped "
        "pallet. The heater covers what the store loses and what its rolls take up. It stands outside or is vented, "
        "with an alarm for carbon monoxide inside."
    )
