"""Weather on the page of figures: the limits that a reading is held against, and what cold and wind do to skin."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.defaults.values import Rules
from lapwright.packet.figures.curve import Curve, Line, curve
from lapwright.packet.figures.html import Markup, Row, Table, paragraphs, section, table, unknown
from lapwright.packet.figurevalues import ChillTable, FieldFigures, OperationLimits
from lapwright.units.write import Units, decimals

NONE = "–"
HELD_FOR = {(True, True): "both", (True, False): "air", (False, True): "surface", (False, False): NONE}
HELD = "Both: the colder of air and surface must reach it. Measure the surface; in doubt, shut."
CHILL_WORDS = (
    "Wind in the open, as weather stations tell it; wet or bare skin, less. Behind a stroke: minutes until bare "
    "skin freezes [from memory]. STOP: colder than the job's limit, nobody works outside."
)


def limit_section(units: Units, figures: FieldFigures, rules: Rules) -> Markup:
    """When an operation is open: temperatures, then what holds for all."""
    lacking = [key for one in figures.limits for key in one.lacking]
    told = (unknown("Limits not given, and shut without them", tuple(dict.fromkeys(lacking))),) if lacking else ()
    return section(
        "hours",
        "Hours: limits by operation",
        *told,
        table(limit_table(units, figures.limits)),
        paragraphs((HELD,)),
        table(rule_table(units, rules)),
    )


def limit_table(units: Units, limits: tuple[OperationLimits, ...]) -> Table:
    """Lowest temperatures by operation."""

    def told(limit_c: float | None) -> str:
        return NONE if limit_c is None else units.temperature(limit_c)

    return Table(
        "limits-1",
        f"Open at or above, and which reading must reach it ({NONE}: not this way)",
        ("Operation", "As usual", "Warm rolls", "With heat", "Held for"),
        tuple(
            Row(
                one.operation.replace("_", " "),
                (
                    "unknown: shut" if one.apply_c is None else told(one.apply_c),
                    told(one.warm_c),
                    told(one.heat_c),
                    HELD_FOR[one.by_air, one.by_surface],
                ),
            )
            for one in limits
        ),
        in_words=True,
    )


def rule_table(units: Units, rules: Rules) -> Table:
    """What shuts every operation, or all sheets."""
    return Table("limits-2", "For all of them", ("Reading", "Limit"), tuple(rule_rows(units, rules)), in_words=True)


def rule_rows(units: Units, rules: Rules) -> Iterator[Row]:
    """The rules one by one."""
    margin = units.temperature_difference(rules.dew_point_margin_k)
    yield Row("Surface over dew point or frost point", (f"{margin} at least",))
    yield Row("Wind, sheets and metal in hand", (f"{units.speed(rules.wind_sheets_m_s)} at most",))
    yield Row("Wind or gust, anybody on the roof", (f"{units.speed(rules.gust_stop_m_s)} at most",))
    yield Row("Wind chill", (f"{units.temperature(rules.wind_chill_stop_c)} at least",))
    yield Row("Rain or snow due", (f"none within {units.duration(rules.close_within_s)}",))
    yield Row(
        "Base wetted or frosted", (f"no cap within {units.duration(rules.dry_after_wet_s)}, unless dried and measured",)
    )
    yield Row("Air and surface stay above the limit", (f"for {units.duration(rules.roll_within_s)} after laying",))
    yield Row("After thunder", (f"{units.duration(rules.lightning_wait_s)} off the roof",))


def chill_section(units: Units, chill: ChillTable, rules: Rules) -> Markup:
    """Wind chill and frostbite."""
    stop = f"The job stops below a wind chill of {units.temperature(rules.wind_chill_stop_c)}."
    return section(
        "chill",
        "Cold and wind: wind chill, frostbite",
        paragraphs((stop, CHILL_WORDS)),
        table(chill_table(units, chill, rules.wind_chill_stop_c)),
        curve(chill_curve(units, chill)),
    )


def chill_table(units: Units, chill: ChillTable, stop_c: float) -> Table:
    """Wind chill by air and wind, with minutes to frostbite and the job's stop."""
    unit = units.converted(0.0, "degC")[1]
    return Table(
        "chill-1",
        f"Wind chill in {unit} by air and wind, a stroke, minutes to frostbite; STOP by the job's limit",
        ("Air", *(units.speed(wind) for wind in chill.winds_m_s)),
        tuple(
            Row(
                units.temperature(air),
                tuple(
                    chill_words(units, chill_c, minutes, stop_c)
                    for chill_c, minutes in zip(chills, frozen, strict=True)
                ),
                units.converted(air, "degC")[0],
            )
            for air, chills, frozen in zip(chill.airs_c, chill.chills_c, chill.frostbite_min, strict=True)
        ),
        by_row="air",
        by_column="wind",
        values=tuple(units.converted(wind, "m/s")[0] for wind in chill.winds_m_s),
        in_words=True,
        unit=unit,
    )


def chill_words(units: Units, chill_c: float, minutes: float | None, stop_c: float) -> str:
    """A cell: `-19`, `-19/30`, `-30/12 STOP`."""
    told = decimals(units.converted(chill_c, "degC")[0], 0)
    frozen = "" if minutes is None else f"/{int(minutes)}"
    return told + frozen + (" STOP" if chill_c < stop_c else "")


def chill_curve(units: Units, chill: ChillTable) -> Curve:
    """A line for every other air."""
    winds = tuple(units.converted(wind, "m/s")[0] for wind in chill.winds_m_s)
    lines = tuple(
        Line(
            units.temperature(air),
            tuple(zip(winds, (units.converted(one, "degC")[0] for one in chills), strict=True)),
        )
        for air, chills in list(zip(chill.airs_c, chill.chills_c, strict=True))[::2]
    )
    wind, degree = units.converted(0.0, "m/s")[1], units.converted(0.0, "degC")[1]
    title = "Wind chill by wind, a line for every second air of the table"
    return Curve("chill", title, "chill-1", f"wind, {wind}", degree, lines, winds)
