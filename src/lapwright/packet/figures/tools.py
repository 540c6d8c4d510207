"""Tools on the page of figures: weld speeds by sheet, what cords leave of the volts."""

from __future__ import annotations

from lapwright.packet.figures.curve import Curve, Line, curve
from lapwright.packet.figures.html import Markup, Row, Table, paragraphs, section, table, unknown
from lapwright.packet.pages.tools import (
    NONE,
    longest_words,
    percent,
    proved_rows,
    share_words,
    speed_words,
    weld_words,
)
from lapwright.packet.toolvalues import CordTable, Tools, WeldTable
from lapwright.units.write import Units, decimals, sensible

JUDGE = "Computed, not published; the test weld is the judge."
NOBODY = "The crew has nobody who welds, so there is nothing to say here."
CORD_WORDS = "Stranded copper, warm; 3 and 5 % are the code books' advice, from memory. A cord too thin has no longest."


def weld_section(units: Units, tools: Tools) -> Markup:
    """Weld speeds, or what to give for them."""
    return section("weld", "Weld speed by the sheet's temperature", *weld_parts(units, tools))


def cord_section(units: Units, tools: Tools) -> Markup:
    """Cords, or what to give for them."""
    return section("cords", "Cords: volts lost, longest cord", *cord_parts(units, tools))


def weld_parts(units: Units, tools: Tools) -> tuple[Markup, ...]:
    """What is said of weld speeds."""
    if tools.weld is None:
        return lacking_parts(tools, "weld", "Weld speeds")
    weld = tools.weld
    said = (JUDGE, *weld_words(units, weld), f"Prove it anew at every {units.temperature_difference(weld.retest_k)}.")
    return paragraphs(said), table(weld_table(units, weld)), curve(weld_curve(units, weld))


def lacking_parts(tools: Tools, name: str, what: str) -> tuple[Markup, ...]:
    """What to give for a table that is not there."""
    keys = tools.lacking.get(name, ())
    if keys:
        return (unknown(what, keys),)
    return (paragraphs((NOBODY,)),)


def weld_table(units: Units, weld: WeldTable) -> Table:
    """Speeds by sheet and by volts lost since the test weld."""
    unit, proved = units.converted(0.0, "m/s tool")[1], proved_rows(weld)
    return Table(
        "weld-1",
        f"Speed in {unit} by sheet and by volts lost since the test weld ({NONE}: it can't be welded so)",
        ("Sheet", *(share_words(share) for share in weld.shares)),
        tuple(
            Row(
                units.temperature(row.sheet_c) + (" (test weld)" if at in proved else ""),
                tuple(speed_words(units, speed) for speed in row.speeds),
                units.converted(row.sheet_c, "degC")[0],
                own=at in proved,
            )
            for at, row in enumerate(weld.rows)
        ),
        by_row="sheet",
        unit=unit,
    )


def weld_curve(units: Units, weld: WeldTable) -> Curve:
    """The same as lines."""
    unit, degree = units.converted(0.0, "m/s tool")[1], units.converted(0.0, "degC")[1]
    lines = tuple(
        Line(
            share_words(share),
            tuple(
                sorted(
                    (units.converted(row.sheet_c, "degC")[0], units.converted(speed, "m/s tool")[0])
                    for row in weld.rows
                    for speed in (row.speeds[at],)
                    if speed is not None
                )
            ),
        )
        for at, share in enumerate(weld.shares)
    )
    marks = tuple(units.converted(row.sheet_c, "degC")[0] for row in weld.rows[::2])
    title = "Weld speed by sheet, a line for each share of volts lost"
    return Curve("weld", title, "weld-1", f"sheet, {degree}", unit, lines, marks)


def cord_parts(units: Units, tools: Tools) -> tuple[Markup, ...]:
    """What is said of cords."""
    if tools.cord is None:
        return lacking_parts(tools, "cord", "What cords leave of the volts")
    cords = tools.cord
    said = [
        f"One tool of {sensible(cords.load_w / 1000)} kW at {sensible(cords.volts)} V draws {sensible(cords.amps)} A."
    ]
    if cords.own_drop_share is not None and cords.own_length is not None:
        said.append(
            f"The job's cord, AWG {cords.own_gauge}, {units.length(cords.own_length)}: "
            f"{percent(cords.own_drop_share)} of the volts are lost."
        )
    return paragraphs((*said, CORD_WORDS)), table(cord_table(units, cords)), curve(cord_curve(units, cords))


def cord_table(units: Units, cords: CordTable) -> Table:
    """Volts lost by gauge and length, and the longest cords."""
    return Table(
        "cords-1",
        "By gauge (AWG): longest cord for 3 and 5 %, then % of the volts lost by length one way",
        ("Cord", "3 %", "5 %", *(units.length(length) for length in cords.lengths)),
        tuple(
            Row(
                f"{row.gauge}" + (", too thin" if row.is_overloaded else ""),
                (
                    NONE if row.is_overloaded else longest_words(units, row.longest_3),
                    NONE if row.is_overloaded else longest_words(units, row.longest_5),
                    *(decimals(100 * drop, 1) for drop in row.drop_shares),
                ),
                own=row.gauge == cords.own_gauge,
            )
            for row in cords.rows
        ),
    )


def cord_curve(units: Units, cords: CordTable) -> Curve:
    """The same as lines."""
    lengths = tuple(units.converted(length, "m")[0] for length in cords.lengths)
    lines = tuple(
        Line(f"AWG {row.gauge}", tuple(zip(lengths, (100 * drop for drop in row.drop_shares), strict=True)))
        for row in cords.rows
    )
    unit = units.converted(0.0, "m")[1]
    title = "Volts lost by length of cord, a line for each gauge"
    return Curve("cords", title, "cords-1", f"length, {unit}", "% of the volts", lines, lengths)
