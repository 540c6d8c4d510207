"""Weld speeds and cords: what the tools need on this roof, in tables (question 7)."""

from __future__ import annotations

import math
from collections.abc import Iterator

from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.words import Json, counted, table
from lapwright.packet.toolvalues import CordTable, SupplyTable, WeldTable
from lapwright.units.factors import HOUR
from lapwright.units.write import Units, decimals, sensible

NONE = "–"
TITLES = {"weld": "weld speeds", "cord": "cords", "supply": "generator and circuits"}


def tool_page(book: Book) -> Json | None:
    """The page; None where the job's crew has nobody who welds, or says nothing of tools at all."""
    tools = book.paper.tools
    if tools.weld is None and tools.cord is None and tools.supply is None:
        return None
    return {
        "weld": None if tools.weld is None else weld_part(book.units, tools.weld),
        "cord": None if tools.cord is None else cord_part(book.units, tools.cord),
        "supply": None if tools.supply is None else supply_part(book.units, tools.supply),
        "lacking": [f"No table of {TITLES[name]}: give {', '.join(keys)}." for name, keys in tools.lacking.items()],
        "cautions": list(tools.cautions),
    }


def weld_part(units: Units, weld: WeldTable) -> Json:
    """The speeds by sheet and by hour, and what they rest on."""
    unit = units.converted(0.0, "m/s tool")[1]
    head = ("Sheet", *(share_words(share) for share in weld.shares))
    rows = [(units.temperature(row.sheet_c), *(speed_words(units, speed) for speed in row.speeds)) for row in weld.rows]
    return {
        "unit": unit,
        "retest": units.temperature_difference(weld.retest_k),
        "said": list(weld_words(units, weld)),
        "table": table(
            head, rows, ("24mm", *["1fr"] * len(weld.shares)), right=range(len(head)), bold=proved_rows(weld)
        ),
        "hours": hour_table(units, weld),
    }


def proved_rows(weld: WeldTable) -> list[int]:
    """The row nearest to the test weld, within half a step of a new one."""
    near = weld.retest_k / 2
    return [at for at, row in enumerate(weld.rows) if abs(row.sheet_c - weld.proved_sheet_c) <= near][:1]


def weld_words(units: Units, weld: WeldTable) -> Iterator[str]:
    """From which test weld, and how the nozzle is reckoned."""
    proved, sheet = units.travel(weld.proved_speed_m_s), units.temperature(weld.proved_sheet_c)
    nozzle = units.temperature(weld.nozzle_c)
    air = "" if weld.proved_air_c is None else f" in air of {units.temperature(weld.proved_air_c)}"
    yield f"From the test weld that held: {proved} on a sheet of {sheet}{air}, {nozzle} at the nozzle."
    yield {
        True: "The tool holds its nozzle's temperature, whatever the air.",
        False: "The tool does not hold its nozzle's temperature: colder air makes a colder nozzle; here the air is as "
        "cold as the sheet.",
        None: "Whether the tool holds its nozzle's temperature is not given: the slower of both ways stands here.",
    }[weld.holds_nozzle]
    limits = []
    if weld.slowest_m_s is not None:
        limits.append(f"slower than {units.travel(weld.slowest_m_s)}")
    if weld.fastest_m_s is not None:
        limits.append(f"faster than {units.travel(weld.fastest_m_s)}")
    told = f", as it would be {' or '.join(limits)}, or the nozzle too cold" if limits else ": the nozzle is too cold"
    mend = "warm the lap, bring more volts or turn the nozzle, and prove it anew"
    yield f"{NONE} the tool can't weld it as it is{told}: {mend}."


def hour_table(units: Units, weld: WeldTable) -> Json | None:
    """Speeds of every crew day by clock hour; None where there are no days."""
    if not weld.days:
        return None
    clocks = list(weld.days[0].speeds)
    rows = [
        (f"Day {day.number}", *(speed_words(units, day.speeds.get(clock)) for clock in clocks)) for day in weld.days
    ]
    head = ("", *(f"{clock}-{clock + 1}" for clock in clocks))
    return table(head, rows, ("auto", *["1fr"] * len(clocks)), right=range(1, len(head)))


def cord_part(units: Units, cords: CordTable) -> Json:
    """Volts and heat lost by gauge and length, and the longest cords."""
    head = (
        "Cord, AWG",
        *(f"{units.length(length)}: volts, heat" for length in cords.lengths),
        "Longest, 3 %",
        "Longest, 5 %",
    )
    rows = [
        (
            f"{row.gauge}, carries {sensible(row.carries_a)} A" + (": too thin" if row.is_overloaded else ""),
            *(f"{percent(drop)}, {percent(heat)}" for drop, heat in zip(row.drop_shares, row.heat_lost, strict=True)),
            NONE if row.is_overloaded else longest_words(units, row.longest_3),
            NONE if row.is_overloaded else longest_words(units, row.longest_5),
        )
        for row in cords.rows
    ]
    said = [
        f"One tool of {kilowatts(cords.load_w)} at {sensible(cords.volts)} V, {sensible(cords.amps)} A, at the end "
        "of one cord of stranded copper at 75 °C; a heater, so its heat falls with the square of the volts. "
        "3 and 5 % are the code books' advice, from memory."
    ]
    if cords.own_drop_share is not None and cords.own_heat_lost is not None and cords.own_length is not None:
        said.append(
            f"The job's cord, AWG {cords.own_gauge}, {units.length(cords.own_length)}: {percent(cords.own_drop_share)} "
            f"of the volts and {percent(cords.own_heat_lost)} of the heat are lost."
        )
    widths = ("1.3fr", *["1fr"] * (len(head) - 1))
    return {"said": said, "table": table(head, rows, widths, right=range(1, len(head)))}


def supply_part(units: Units, power: SupplyTable) -> Json:
    """Watts, generator, circuits, fuel, one a row."""
    starting = f"{kilowatts(power.starting_w)} while motors start"
    rows = [
        ("Runs at the same time", f"{kilowatts(power.running_w)}, {starting}"),
        ("Circuits", circuit_words(power)),
    ]  # fmt: skip
    if power.supply != "mains":
        rows.append(("Generator", generator_words(power)))
        flows = (units.converted(flow * float(HOUR), "m3") for flow in (power.fuel_low_m3_s, power.fuel_high_m3_s))
        (low, unit), (high, _) = flows
        rows.append(("Fuel", f"{low:.1f} to {high:.1f} {unit} an hour at that load [common practice, no source]"))
    return table(("Power", ""), rows, ("40mm", "1fr"))


def circuit_words(power: SupplyTable) -> str:
    """How many circuits of which breaker."""
    if power.breaker_a is None:
        return "the tool draws more than the table of circuits goes to: an electrician's"
    said = "one for each tool, at four fifths all day [from memory]"
    return f"{counted(power.tools, 'circuit')} of {power.breaker_a:g} A, {said}"


def generator_words(power: SupplyTable) -> str:
    """The size to ask for and the one that is there."""
    asked = f"{kilowatts(power.here_w)} continuous on its plate at this height of ground, so {kilowatts(power.size_w)}"
    if power.generator_w is None:
        return asked
    enough = "enough" if power.generator_w >= power.here_w else "too small"
    return f"{asked}; there is one of {kilowatts(power.generator_w)}: {enough}"


def kilowatts(watts: float) -> str:
    """Watts as a plate says them."""
    return f"{sensible(watts / 1000)} kW"


def share_words(share: float) -> str:
    """A column's head."""
    return "all volts" if share == 0 else f"{percent(share)} lost"


def speed_words(units: Units, speed_m_s: float | None) -> str:
    """A speed without its unit, which the table's title names."""
    return NONE if speed_m_s is None else f"{units.converted(speed_m_s, 'm/s tool')[0]:.{1 if units.is_us else 0}f}"


def percent(share: float) -> str:
    """A share in percent."""
    return f"{decimals(100 * share, 1)} %"


def longest_words(units: Units, metres: float) -> str:
    """A longest length, rounded down to what a tape reads at a glance."""
    length, unit = units.converted(metres, "m")
    return f"{math.floor(length)}{chr(39) if unit == 'ft' else ' m'}"
