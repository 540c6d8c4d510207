"""The roof on the page of figures: wind pressures by zone, water by way out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lapwright.packet.figures.html import Markup, Row, Table, element, paragraphs, section, table, unknown
from lapwright.packet.figurevalues import FieldFigures, WayOut
from lapwright.packet.pages.tools import percent
from lapwright.units.write import Units, sensible
from lapwright.wind.values import ZoneMap, ZonePressure

NONE = "–"
WIND_WORDS = (
    "Uplift is negative. Strength: at the standard's wind speed; working: 0.6 of it. Class: tested uplift to ask of "
    "the assembly. The engineer of record and local code govern."
)
WATER_WORDS = (
    "To each outlet: flow of the storm, depth over its inlet, rain load under sill and depth. Used: of what it passes. "
    "Whether the roof carries the load is the engineer's."
)
STORMS = {
    "primary": "Primary storm, all ways out open",
    "secondary": "Secondary storm, primary ways out blocked",
}
KINDS = {"overflow_drain": "overflow drain", "overflow_scupper": "overflow scupper"}


def wind_section(units: Units, zones: Sequence[ZoneMap], lacking: Sequence[str]) -> Markup:
    """Zones with pressures and class, level by level."""
    known = [one for one in zones if one.pressures]
    if not known:
        return section("wind", "Wind: zones and pressures", unknown("Pressures", lacking))
    parts = [table(zone_table(units, place, one)) for place, one in enumerate(known, start=1)]
    notes = dict.fromkeys(note for one in known for note in one.notes)
    return section("wind", "Wind: zones and pressures", paragraphs((WIND_WORDS,)), *parts, paragraphs(notes))


def zone_table(units: Units, place: int, one: ZoneMap) -> Table:
    """One level's zones."""
    area, load = units.converted(0.0, "m2")[1], units.converted(0.0, "Pa")[1]
    said = f"area in {area}, pressures in {load}, class in psf"
    return Table(
        f"wind-{place}",
        f"{', '.join(one.names)}, {units.length(one.height)} above the ground: {said}",
        ("Zone", "Area", "Strength", "Working", "Class"),
        tuple(zone_row(units, name, pressure, one.areas_m2.get(name)) for name, pressure in one.pressures.items()),
    )


def zone_row(units: Units, name: str, pressure: ZonePressure, area_m2: float | None) -> Row:
    """One zone."""
    is_down = name.startswith("positive")
    return Row(
        f"pressing down{name.removeprefix('positive')}" if is_down else name,
        (
            NONE if area_m2 is None else sensible(units.converted(area_m2, "m2")[0]),
            sensible(units.converted(pressure.strength_pa, "Pa")[0]),
            sensible(units.converted(pressure.asd_pa, "Pa")[0]),
            NONE if pressure.class_psf is None else str(pressure.class_psf),
        ),
    )


def water_section(units: Units, figures: FieldFigures) -> Markup:
    """Every way out, storm by storm."""
    title = "Drains: flow, depth, load"
    if not figures.ways_out:
        return section("drains", title, unknown("Ways out for water", ("roof[*].drains",)))
    return section("drains", title, paragraphs((WATER_WORDS,)), *storm_parts(units, figures.ways_out))


def storm_parts(units: Units, ways: Sequence[WayOut]) -> Iterator[Markup]:
    """A table for each storm, and what is lacking for it."""
    for storm, words in STORMS.items():
        mine = [way for way in ways if way.storm == storm]
        lacking = tuple(dict.fromkeys(key for way in mine for key in way.lacking))
        if lacking:
            yield unknown(words, lacking)
        if mine:
            yield table(way_table(units, storm, words, mine))
        elif storm == "secondary":
            yield element("p", "No overflow drain or overflow scupper is given.")


def way_table(units: Units, storm: str, words: str, ways: Sequence[WayOut]) -> Table:
    """One storm's ways out."""
    return Table(
        f"drains-{storm}",
        words,
        ("Way out", "Flow", "Depth", "Load", "Used"),
        tuple(way_row(units, way) for way in ways),
        in_words=True,
    )


def way_row(units: Units, way: WayOut) -> Row:
    """One way out."""
    kind = KINDS.get(way.kind, way.kind)
    outlets = f", {way.outlets} outlets" if way.outlets > 1 else ""
    if way.lacking:
        flow = "unknown" if way.flow_m3_s is None else units.flow(way.flow_m3_s)
        return Row(f"{way.area} {way.name}, {kind}{outlets}", (flow, "unknown", "unknown", "unknown"))
    no_head = "by its channel" if way.kind == "gutter" else "over the table"
    used = NONE
    if way.asked_m3_s is not None and way.passes_m3_s is not None:
        used = percent(way.asked_m3_s / way.passes_m3_s) if way.passes_m3_s > 0 else "passes nothing"
    return Row(
        f"{way.area} {way.name}, {kind}{outlets}",
        (
            units.flow(way.flow_m3_s or 0.0),
            no_head if way.head is None else units.length(way.head),
            NONE if way.load_pa is None else units.pressure(way.load_pa),
            used,
        ),
    )
