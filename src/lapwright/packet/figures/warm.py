"""Warm rolls on the page of figures: how long they last outside, how long they take in the store."""

from __future__ import annotations

import math

from lapwright.packet.figures.curve import Curve, Line, curve
from lapwright.packet.figures.html import Markup, Row, Table, element, joined, paragraphs, section, table, unknown
from lapwright.packet.figurevalues import FieldFigures, RollTable, StoreTable
from lapwright.packet.sheets.rollchart import minute_words
from lapwright.units.write import Units, decimals

ROLL_WORDS = (
    "Minutes until the mean of a roll's outermost wrap falls to the sheet's limit, from the store's door on. Tight "
    "rolls, no sun; computed, not published: a thermometer on the wrap decides. Minutes are cut off, not rounded up."
)
STORE_WORDS = (
    "Hours in the store until the coldest place of the slowest roll is at the sheet's limit, the store as warm as "
    "given all the time. Tenths of hours are rounded up. Computed; a probe in the core decides."
)
COVER = "Under the job's cover."
BARE = "Rolls lie bare."


def roll_section(units: Units, figures: FieldFigures) -> Markup:
    """The roll clock of every sheet."""
    lacking = figures.lacking.get("roll", ())
    parts = [roll_part(units, place, one) for place, one in enumerate(figures.rolls, start=1)]
    told = [unknown("How long a warm roll lasts", lacking)] if lacking else []
    return section("rolls", "Roll clock: how long a warm roll lasts", *paragraphs_of(ROLL_WORDS, parts), *told, *parts)


def store_section(units: Units, figures: FieldFigures) -> Markup:
    """The store's hours for every sheet."""
    lacking = figures.lacking.get("roll", ())
    parts = [store_part(units, place, one) for place, one in enumerate(figures.store, start=1)]
    told = [unknown("How long rolls take in the store", lacking)] if lacking else []
    return section(
        "store", "Warm store: hours until the core is warm", *paragraphs_of(STORE_WORDS, parts), *told, *parts
    )


def paragraphs_of(words: str, parts: list[Markup]) -> tuple[Markup, ...]:
    """What a section's tables say; nothing where there are none."""
    return (paragraphs((words,)),) if parts else ()


def roll_part(units: Units, place: int, one: RollTable) -> Markup:
    """One sheet's clock."""
    stored, until = units.temperature(one.stored_c), units.temperature(one.until_c)
    if not one.lasts_s:
        return element("p", f"{one.sheet}: no clock. A store of {stored} is no warmer than the sheet's limit, {until}.")
    id = f"roll-{place}"
    cover = BARE if one.cover_w_m2k is None else COVER
    airs = [units.converted(air, "degC")[0] for air in one.airs_c]
    winds = [units.converted(wind, "m/s")[0] for wind in one.winds_m_s]
    rows = tuple(
        Row(units.temperature(air_c), tuple(minute_words(time) for time in times), air)
        for air_c, air, times in zip(one.airs_c, airs, one.lasts_s, strict=True)
    )
    shown = Table(
        id,
        f"{one.sheet}, from {stored} to {until}: minutes by air and wind (h: hours; -: not lost). {cover}",
        ("Air", *(units.speed(wind) for wind in one.winds_m_s)),
        rows,
        by_row="air",
        by_column="wind",
        values=tuple(winds),
        unit="min",
    )
    lines = tuple(
        Line(
            units.speed(wind),
            tuple(
                (air, lasts_s / 60)
                for air, times in sorted(zip(airs, one.lasts_s, strict=True))
                if (lasts_s := times[at]) is not None
            ),
        )
        for at, wind in enumerate(one.winds_m_s)
    )
    unit = units.converted(0.0, "degC")[1]
    drawn = Curve(
        f"roll-{place}", f"{one.sheet}: minutes by air, a line for each wind", id, f"air, {unit}", "minutes", lines,
        tuple(airs), by_ratio=True,
    )  # fmt: skip
    return joined((table(shown), curve(drawn)))


def store_part(units: Units, place: int, one: StoreTable) -> Markup:
    """One sheet's hours in the store."""
    stored, until = units.temperature(one.store_c), units.temperature(one.until_c)
    if one.store_c <= one.until_c:
        return element("p", f"{one.sheet}: never. A store of {stored} is no warmer than the sheet's limit, {until}.")
    id = f"store-{place}"
    colds = [units.converted(cold, "degC")[0] for cold in one.colds_c]
    rows = tuple(
        Row(stand + (" (this job)" if at == one.own else ""), tuple(map(hour_words, times)), own=at == one.own)
        for at, (stand, times) in enumerate(zip(one.stands, one.core_s, strict=True))
    )
    shown = Table(
        id,
        f"{one.sheet}, store at {stored}, until {until}: hours by how the rolls stand and how cold they come",
        ("Rolls come at", *(units.temperature(cold) for cold in one.colds_c)),
        rows,
        by_column="air",
        values=tuple(colds),
        unit="h",
    )
    lines = tuple(
        Line(stand, tuple(sorted((cold, time / 3600) for cold, time in zip(colds, times, strict=True) if time)))
        for stand, times in zip(one.stands, one.core_s, strict=True)
    )
    unit = units.converted(0.0, "degC")[1]
    drawn = Curve(
        f"store-{place}", f"{one.sheet}: hours in the store, a line for each way of standing", id,
        f"rolls come at, {unit}", "hours", lines, tuple(colds), by_ratio=True,
    )  # fmt: skip
    return joined((table(shown), curve(drawn)))


def hour_words(seconds: float | None) -> str:
    """Hours, a tenth up, from a day on whole ones up."""
    if seconds is None:
        return "never"
    hours = seconds / 3600
    return str(math.ceil(hours)) if hours >= 24 else decimals(math.ceil(hours * 10 - 1e-9) / 10, 1)
