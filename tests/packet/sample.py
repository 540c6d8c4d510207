"""An invented job for looking at sheets: an L-shaped roof with two falls, curbs, parapet and metal edges.

Weather, states and days are made up by simple arithmetic; they only have to look like a winter's work.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from functools import lru_cache

import numpy as np

from lapwright.assembly.values import Assembly, Board, Deck, Ply, Sheet
from lapwright.crew.values import CrewDay
from lapwright.defaults.rules import make_rules
from lapwright.hours.values import HEAT, OPEN, SHUT, WARM, HourTable
from lapwright.layout.place import make_layout
from lapwright.packet.values import Head, Paper
from lapwright.roof.values import Area, Drain, Edge, Metal, Opening, Pipe
from lapwright.units.lengths import length_ticks as ticks
from lapwright.weather.values import WeatherYear

METAL = Metal(kind="galvanised", gauge=24, face=0.127, flange=0.1016)
BASE = Sheet("base-sa", ticks('39 3/8"'), ticks("65' 7\""), ticks('3"'), ticks('6"'), 0.0015, 10.0, -6.7)
MID = Sheet("mid-sa", ticks('39 3/8"'), ticks("49' 3\""), ticks('3"'), ticks('6"'), 0.0025, 10.0, -6.7)
CAP = Sheet(
    "cap-sa", ticks('39 3/8"'), ticks("32' 10\""), ticks('3"'), ticks('6"'), 0.004, 10.0, None, -6.7, "granules"
)


def points(*texts: tuple[str, str]) -> tuple[tuple[int, int], ...]:
    """Corners from tape lengths."""
    return tuple((ticks(x), ticks(y)) for x, y in texts)


def edges(outline: tuple[tuple[int, int], ...], kinds: tuple[str | None, ...]) -> tuple[Edge, ...]:
    """Sides with their kinds; parapets are 30" high, walls 12', metal edges have metal."""
    ends = (*outline[1:], outline[0])
    heights = {"parapet": 0.762, "wall": 3.6576}
    return tuple(
        Edge(i, kind, a, b, heights.get(kind or ""), METAL if kind == "metal_edge" else None)
        for i, (a, b, kind) in enumerate(zip(outline, ends, kinds, strict=True), start=1)
    )


def main_area() -> Area:
    """120' by 64' with a 36' by 28' bite out of its north-east corner, falling south."""
    outline = points(("0'", "0'"), ("120'", "0'"), ("120'", "36'"), ("84'", "36'"), ("84'", "64'"), ("0'", "64'"))
    kinds = ("metal_edge", "parapet", "wall", "wall", "parapet", "parapet")
    return Area(
        name="Main",
        outline=outline,
        edges=edges(outline, kinds),
        falls=(0.0, -1.0),
        slope=1 / 48,
        openings=(
            Opening("RTU-1", "curb", (ticks("30'"), ticks("20'")), (ticks("8'"), ticks("6'")), 0.2032),
            Opening("SK-1", "skylight", (ticks("60'"), ticks("44'")), (ticks("4'"), ticks("4'")), 0.3048),
            Opening("HATCH", "hatch", (ticks("98'"), ticks("14'")), (ticks("3'"), ticks("2' 6\"")), 0.2032),
        ),
        pipes=(
            Pipe("V-1", (ticks("70'"), ticks("40'")), ticks('4"')),
            Pipe("V-2", (ticks("18'"), ticks("50'")), ticks('3"')),
        ),
        drains=(Drain("G-1", "gutter", side=1, width=0.1524, outlets=3),),
    )


def annex_area() -> Area:
    """30' by 26' to the west, one metre lower, falling west to a scupper and a drain."""
    outline = points(("-42'", "10'"), ("-12'", "10'"), ("-12'", "36'"), ("-42'", "36'"))
    return Area(
        name="Annex",
        outline=outline,
        edges=edges(outline, ("metal_edge", "wall", "metal_edge", "parapet")),
        falls=(-1.0, 0.0),
        slope=1 / 24,
        openings=(Opening("EF-1", "curb", (ticks("-28'"), ticks("20'")), (ticks("2'"), ticks("2'")), 0.3048),),
        drains=(
            Drain("D-1", "drain", at=(ticks("-40'"), ticks("16'")), diameter=0.1016),
            Drain("OD-1", "overflow_drain", at=(ticks("-40'"), ticks("19'")), diameter=0.1016, sill=0.0508),
            Drain("S-1", "scupper", side=4, from_start=4.0, width=0.3048, height=0.1016, sill=0.0),
            Drain("OS-1", "overflow_scupper", side=4, from_start=6.5, width=0.3048, height=0.1016, sill=0.0508),
        ),
    )


def assembly(plies: int = 2) -> Assembly:
    """Two or three plies on boards on concrete."""
    layers = [Ply("base", BASE, "self_adhered"), Ply("cap", CAP, "self_adhered")]
    if plies == 3:
        layers.insert(1, Ply("interply", MID, "self_adhered"))
    return Assembly(
        plies=tuple(layers),
        deck=Deck("concrete", nailable=False, live_load_pa=957.6),
        insulation=Board("polyiso", 0.0762, "adhered"),
        cover_board=Board("gypsum", 0.0127, "adhered"),
    )


def weather_year() -> WeatherYear:
    """A year whose air swings by season and by day."""
    count = 8760
    hour = np.arange(count)
    start = np.datetime64("2018-01-01T00:00", "m") + hour.astype("timedelta64[h]")
    day, clock = hour // 24, hour % 24
    swing = 3.0 * np.sin(day * 2.399) + 2.0 * np.sin(day * 0.71)
    air = (
        10.0 - 13.0 * np.cos((day - 20) / 365 * 2 * np.pi) - 5.0 * np.cos((clock - 15) / 24 * 2 * np.pi + np.pi) + swing
    )
    nothing = np.full(count, np.nan)
    return WeatherYear(
        name="made-up",
        origin="arithmetic",
        latitude=36.1,
        longitude=-79.9,
        elevation=270.0,
        offset_h=-5.0,
        start=start,
        absent=np.zeros(count, bool),
        air_c=air,
        dew_point_c=air - 4,
        wind_m_s=np.full(count, 3.0),
        gust_m_s=nothing,
        rain_mm=np.zeros(count),
        cloud=np.zeros(count),
        ghi_w_m2=np.zeros(count),
        snow_depth_m=nothing,
        bridged=np.zeros(count, bool),
    )


@lru_cache(maxsize=1)
def hour_table() -> HourTable:
    """States by the air alone, shut at night and on every ninth day."""
    year = weather_year()
    clock, day = np.arange(8760) % 24, np.arange(8760) // 24
    lit = (clock >= 7) & (clock < 17)
    dark = ~lit | (day % 9 == 4)

    def states(warm: int, apply_c: float, least_c: float) -> np.ndarray:
        found = np.where(year.air_c >= apply_c, OPEN, np.where(year.air_c >= least_c, warm, SHUT))
        return np.where(dark, SHUT, found).astype(np.uint8)

    ops = {
        "primer": states(SHUT, 4.4, 4.4),
        "base": states(WARM, 10.0, -6.7),
        "cap": states(HEAT, 10.0, -6.7),
        "side_lap": states(HEAT, 10.0, -6.7),
        "end_lap": states(HEAT, 10.0, -6.7),
        "flashing": states(HEAT, 10.0, -6.7),
        "mastic": states(WARM, 4.4, -6.7),
        "edge_metal": states(OPEN, -20.0, -20.0),
    }
    no = np.zeros(8760, bool)
    return HourTable(
        weather=year,
        surface_c=year.air_c,
        surface_low_c=year.air_c - 2,
        surface_high_c=year.air_c + 2,
        sun_w_m2=np.zeros(8760),
        frost_point_c=year.air_c - 4,
        daylight=lit,
        wet=no,
        measure=no,
        states=ops,
        reason={name: (state == SHUT).astype(np.uint8) for name, state in ops.items()},
        reasons=("", "air below the limit"),
        limits={},
    )


def days_of(paper: Paper, metres_a_day: float = 110.0) -> tuple[CrewDay, ...]:
    """Days that each take pieces in laying order up to a length; the last course edge is the tie-off."""
    days: list[CrewDay] = []
    for area in paper.areas:
        plies = [ply for ply in paper.layout.plies if ply.area == area.name]
        for ply in plies:
            days += some_days(paper, ply.pieces, metres_a_day, len(days) + 1)
    return tuple(replace(day, number=i) for i, day in enumerate(days, start=1))


def some_days(paper: Paper, pieces: tuple, metres_a_day: float, first: int) -> list[CrewDay]:
    """The pieces of one ply, day by day."""
    loads: list[list] = [[]]
    for piece in pieces:
        if sum(p.cut_length for p in loads[-1]) / 80_000 > metres_a_day and piece.course != loads[-1][-1].course:
            loads.append([])
        loads[-1].append(piece)
    return [one_day(paper, load, first + k) for k, load in enumerate(loads)]


def one_day(paper: Paper, load: list, number: int) -> CrewDay:
    """A crew day that lays `load`."""
    ids = tuple(piece.id for piece in load)
    frame = paper.layout.frames[load[0].area]
    top = max(piece.course for piece in load)
    row = [piece for piece in load if piece.course == top]
    line = (frame.plan(min(p.u0 for p in row), row[0].v1), frame.plan(max(p.u1 for p in row), row[0].v1))
    laps = tuple(lap.id for lap in paper.layout.laps if set(lap.pieces) & set(ids) and lap.kind in ("side", "end"))
    date = dt.date(2027, 1, 11) + dt.timedelta(days=number - 1)
    first = (date - dt.date(2027, 1, 1)).days * 24
    return CrewDay(
        number=number,
        date=date,
        weather_date=date.replace(year=2018),
        hours=tuple(range(first, first + 24)),
        tasks=(),
        pieces=ids,
        details=tuple(d.id for d in paper.layout.details if d.kind == "metal" and d.area == load[0].area)[:4],
        laps=laps,
        tie_off=(line,),
        stop_welding_min=15 * 60 + 30,
        lost=(),
        contact_c={},
    )


@lru_cache(maxsize=8)
def sample_paper(plies: int = 2, units: str = "us", with_days: bool = True) -> Paper:
    """The whole job."""
    rules = make_rules({"ply_offset": '12"'} if plies == 3 else {})
    areas = (main_area(), annex_area())
    built = assembly(plies)
    grid = 127 if units == "us" else 80
    layout = make_layout(areas, built, rules, grid=grid)
    paper = Paper(
        head=Head("Saltmarsh Yard", "26-077", dt.date(2026, 12, 1), "A", units, "letter", "job.yaml"),
        areas=areas,
        closures=(),
        assembly=built,
        sheets={ply.sheet.name: ply.sheet for ply in built.plies},
        rules=rules,
        layout=layout,
        order=(),
        hours=hour_table(),
        crew=None,
        days=(),
        checks=(),
    )
    return replace(paper, days=days_of(paper)) if with_days else paper
