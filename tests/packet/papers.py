"""A paper for the packet tests: a shed typed by hand."""

import dataclasses
import datetime as dt
import math
from types import MappingProxyType

import numpy as np

from lapwright.assembly.values import Assembly, Board, Deck, Ply, Sheet
from lapwright.crew.values import CrewDay, CrewSetting, Task
from lapwright.defaults.rules import make_rules
from lapwright.defaults.values import Origin
from lapwright.faults import Mended
from lapwright.hours.values import HEAT, OPEN, SHUT, WARM, HourTable, Limits
from lapwright.layout.values import (
    Choice,
    CornerCut,
    CostPart,
    Course,
    Detail,
    Frame,
    Lap,
    Layout,
    Piece,
    PlyLayout,
    Roll,
    TJoint,
    Weighed,
)
from lapwright.order.values import OrderLine
from lapwright.packet.values import Head, Paper
from lapwright.roof.values import Area, Closure, Edge, LegChange, Opening
from lapwright.units.lengths import length_ticks
from lapwright.verdict import Check, Step
from lapwright.weather.values import WeatherYear

METRE = 80_000
T = length_ticks
HEAD = Head(
    name="Shed", number="7-001", date=dt.date(2026, 12, 1), revision="A", units="us", paper="letter", file="shed.yaml"
)
BASE = Sheet(
    name="base-sa",
    width_ticks=T("1 m"),
    length_ticks=T("20 m"),
    side_lap_ticks=T("100 mm"),
    end_lap_ticks=T("150 mm"),
    thickness=0.0015,
    apply_at_or_above_c=10.0,
    warm_rolls_at_or_above_c=-20 / 3,
)
CAP = Sheet(
    name="cap-sa",
    width_ticks=T("1 m"),
    length_ticks=T("10 m"),
    side_lap_ticks=T("100 mm"),
    end_lap_ticks=T("150 mm"),
    thickness=0.004,
    apply_at_or_above_c=10.0,
    with_heat_at_or_above_c=-20 / 3,
    surfacing="granules",
)
RATE = Origin("mastic_per_tube", "6 m of bead a tube", "6 m of bead a tube", "common practice", "no source", "")
CREW = CrewSetting(
    people=6,
    welders=2,
    day_from=dt.time(7),
    day_to=dt.time(16, 30),
    weekdays=(0, 1, 2, 3, 4),
    start=dt.date(2027, 1, 11),
    fire_watch_s=3600.0,
    rates={},
)


def piece(ply: str, course: int, place: int, box: tuple[float, float, float, float], **other: object) -> Piece:
    """A piece from u0, u1, v0, v1 [m]."""
    u0, u1, v0, v1 = (round(x * METRE) for x in box)
    given: dict[str, object] = {
        "id": f"Main/{ply}/{course:02d}/{place}",
        "area": "Main",
        "ply": ply,
        "course": course,
        "place": place,
        "cut_length": u1 - u0,
        "sheet": f"{ply}-sa",
    }
    return Piece(u0=u0, u1=u1, v0=v0, v1=v1, **{**given, **other})


def shed_layout() -> Layout:
    """One area of 6 m by 1.9 m that falls south: a base of two courses, a cap of two with one end lap."""
    base = (
        piece("base", 1, 1, (0, 6, 0, 0.5), roll="base-sa 1", sequence=1),
        piece("base", 2, 1, (0, 6, 0.4, 1.4), roll="base-sa 1", sequence=2, cut_length=round(6.01 * METRE)),
    )
    cut = CornerCut((4 * METRE, 0), round(0.14 * METRE), round(0.1 * METRE))
    cap = (
        piece("cap", 1, 1, (0, 4.15, 0, 1), roll="cap-sa 1", sequence=3),
        piece("cap", 1, 2, (4, 6, 0, 1), roll="cap-sa 1", sequence=4, corner_cuts=(cut,)),
        piece("cap", 2, 1, (0, 6, 0.9, 1.9), roll="cap-sa 2", sequence=5),
    )
    plies = (
        PlyLayout(
            area="Main",
            ply="base",
            position=1,
            sheet="base-sa",
            courses=(Course(1, 0, METRE // 2), Course(2, METRE * 2 // 5, METRE * 7 // 5)),
            pieces=base,
            begins=0,
            starter=METRE // 2,
            tolerance=T('3/16"'),
            offset_least=METRE // 2,
            rolls=1,
            rolls_at_least=1,
        ),
        PlyLayout(
            area="Main",
            ply="cap",
            position=2,
            sheet="cap-sa",
            courses=(Course(1, 0, METRE), Course(2, METRE * 9 // 10, METRE * 19 // 10)),
            pieces=cap,
            begins=0,
            starter=METRE,
            tolerance=None,
            offset_least=METRE // 2,
            exceptions=("narrow_top",),
            rolls=2,
            rolls_at_least=2,
            end_laps=1,
            end_laps_at_least=0,
        ),
    )
    laps = (
        Lap("Main/base/01-02/side 1-1", "side", "Main", "base", (base[0].id, base[1].id), ((0, 0.4), (6, 0.4)), 6, 0.1),
        Lap(
            "Main/cap/01-02/side 1-1", "side", "Main", "cap", (cap[0].id, cap[2].id), ((0, 0.9), (4.15, 0.9)), 4.15, 0.1
        ),
        Lap("Main/cap/01-02/side 2-1", "side", "Main", "cap", (cap[1].id, cap[2].id), ((4, 0.9), (6, 0.9)), 2, 0.1),
        Lap("Main/cap/01/end 1-2", "end", "Main", "cap", (cap[0].id, cap[1].id), ((4, 0), (4, 1)), 1, 0.15),
    )
    details = (
        Detail("Main/side 1/strip/1", "strip", "Main", "side 1", "base-sa", "", 6, 0.225, roll="base-sa 1",
               line=((0, 0), (6, 0)), parts={"roof": 0.15, "over edge": 0.075}, takes_ticks=6 * METRE),
        Detail("Main/side 1/metal/1", "edge_metal", "Main", "side 1", "", "", 3, 0.1, line=((0, 0), (3, 0))),
    )  # fmt: skip
    rolls = (
        Roll(
            "base-sa 1", "base-sa", (base[0].id, base[1].id, details[0].id), round(18.01 * METRE), round(1.99 * METRE)
        ),
        Roll("cap-sa 1", "cap-sa", (cap[0].id, cap[1].id), round(6.15 * METRE), round(3.85 * METRE)),
        Roll("cap-sa 2", "cap-sa", (cap[2].id,), 6 * METRE, 4 * METRE),
    )
    joints = (TJoint("Main/cap/01/end 1-2/high", "Main", "cap", (4, 0.9), (laps[3].id, laps[1].id)),)
    frames = {"Main": Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.0)}
    warned = (("narrow_top", "cap, course 2: under the rule"),)
    least = {"rolls_at_least": 3, "end_laps_at_least": 0}
    return Layout(frames, plies, details, laps, joints, rolls, warned, **least, cost=393.0, cost_at_least=240.0)


def weighed() -> Weighed:
    """Three rolls at 120, a lap, a T-joint, five cuts, four lengths, a rip, at 60 an hour; one aim finds no place."""
    parts = (
        CostPart("roll", "base-sa", 1, 120.0, None, is_given=False),
        CostPart("roll", "cap-sa", 2, 120.0, None, is_given=True),
        CostPart("end_lap", "", 1, 4.0, 240.0, is_given=True),
        CostPart("t_joint", "", 1, 2.0, 120.0, is_given=False),
        CostPart("cut", "", 5, 1.0, 60.0, is_given=False),
        CostPart("new_length", "", 4, 3.0, 180.0, is_given=False),
        CostPart("new_rip", "", 1, 10.0, 600.0, is_given=False),
    )
    chosen = Choice("least_cost", {"base-sa": 1, "cap-sa": 2}, 1, 1, 5, 4, 1, cost=393.0)
    other = Choice("fewest_rolls", {"base-sa": 1, "cap-sa": 1}, 3, 2, 4, 3, 1, cost=279.0)
    return Weighed("least_cost", 60.0, False, parts, (chosen, other, Choice("fewest_laps")))


def order() -> tuple[OrderLine, ...]:
    """A counted line, one with a rate and price, and one whose name tries to be a formula."""
    return (
        OrderLine("base-sa", "sheets", 1, 1, "roll", "1 roll opened by the cut list", None, ("base-sa 1",)),
        OrderLine("base-sa spare", "sheets", 1, 1, "roll", "spare_rolls", None, (), price=98.5, cost=98.5),
        OrderLine(
            "mastic", "mastics", 14.25, 3, "tube", "14.25 m of bead", RATE, ("Main/side 1/metal/1",), 7.25, 21.75
        ),
        OrderLine('=HYPERLINK("http://x","y")', "metal", 6.0, 2, "length", "+1 for waste", RATE, ("@a", "-b")),
    )


def checks() -> tuple[Check, ...]:
    """One of each verdict."""
    step = Step("Velocity pressure", "q = 0.613 V²", {"V_m_s": 50.0, "terrain": "C"}, 1532.5, "Pa")
    return (
        Check("wind.uplift", "Uplift in the field", "pass", 1532.5, 2150.0, "Pa", (step,), "a code", "the designer"),
        Check("deck.load", "Pallet on the deck", "fail", 9000.0, 960.0, "Pa", (Step("Compare"),), "arithmetic"),
        Check("drain.overflow", "Overflow", "unknown", steps=(Step("Not given"),), supply=("site.rain_secondary",)),
    )


def days() -> tuple[CrewDay, ...]:
    """A dated day with welding, and a second one that is dated too."""
    tasks = (
        Task("base", ("Main/base/01/1", "Main/base/02/1"), 450, 520, "warm", 4),
        Task("cap", ("Main/cap/01/1", "Main/cap/01/2"), 540, 700, "heat", 5, 620.0),
    )
    first = CrewDay(
        number=1,
        date=dt.date(2027, 1, 11),
        weather_date=dt.date(1998, 1, 11),
        hours=tuple(range(24)),
        tasks=tasks,
        pieces=("Main/base/01/1", "Main/base/02/1", "Main/cap/01/1", "Main/cap/01/2"),
        details=("Main/side 1/metal/1",),
        laps=("Main/base/01-02/side 1-1", "Main/cap/01/end 1-2"),
        tie_off=(((0.0, 1.0), (6.0, 1.0)), ((6.0, 1.0), (6.0, 0.0))),
        stop_welding_min=930,
        lost=("frost until 09:00; thawed",),
        contact_c=MappingProxyType({"base": 12.0, "cap": 3.0}),
    )
    second = CrewDay(
        number=2,
        date=dt.date(2027, 1, 12),
        weather_date=dt.date(1998, 1, 12),
        hours=(-1,) * 24,
        tasks=(),
        pieces=("Main/cap/02/1",),
        details=(),
        laps=("Main/cap/01-02/side 1-1", "Main/cap/01-02/side 2-1"),
        tie_off=(),
        stop_welding_min=None,
        lost=(),
        contact_c=MappingProxyType({"cap": None}),
    )
    return (first, second)


def year(hours: int = 8760) -> HourTable:
    """A made-up year: cold in winter, cold at night; states follow the air alone."""
    hour = np.arange(hours)
    start = np.datetime64("1998-01-01T00", "m") + hour * np.timedelta64(60, "m")
    air = 12 - 14 * np.cos(2 * math.pi * hour / 8760) - 5 * np.cos(2 * math.pi * (hour - 3) / 24)
    nan = np.full(hours, math.nan)
    no = np.zeros(hours, dtype=bool)
    light = (hour % 24 >= 8) & (hour % 24 < 17)
    weather = WeatherYear(
        name="made-up", origin="a cosine", latitude=36.0, longitude=-80.0, elevation=270.0, offset_h=-5.0, start=start,
        absent=hour == 100, air_c=air, dew_point_c=air - 6, wind_m_s=np.full(hours, 3.0), gust_m_s=nan, rain_mm=nan * 0,
        cloud=nan, ghi_w_m2=nan, snow_depth_m=nan, bridged=no, notes=("hour 101: no reading; left shut",),
    )  # fmt: skip
    work = np.where(air >= 10, OPEN, np.where(air >= -6.7, WARM, SHUT)).astype(np.uint8)
    weld = np.where(air >= 10, OPEN, np.where(air >= -6.7, HEAT, SHUT)).astype(np.uint8)
    work[~light], weld[~light] = SHUT, SHUT
    states = {"primer": work, "base": work, "cap": weld, "side_lap": weld, "end_lap": weld, "mastic": work}
    why = np.where(light, 2, 1).astype(np.uint8)
    reason = {name: np.where(codes == SHUT, why, 0).astype(np.uint8) for name, codes in states.items()}
    return HourTable(
        weather=weather, surface_c=air - 2, surface_low_c=air - 4, surface_high_c=air, sun_w_m2=nan, frost_point_c=nan,
        daylight=light, wet=no, measure=no, states=states, reason=reason,
        reasons=("", "dark", "air under the lowest limit"), limits={"base": Limits(10.0, -20 / 3, None)},
    )  # fmt: skip


def shed(**changes: object) -> Paper:
    """The shed, with fields of the paper changed."""
    outline = ((0, 0), (6 * METRE, 0), (6 * METRE, 152_000), (0, 152_000))
    kinds = ("metal_edge", "parapet", "wall", "ridge")
    edges = tuple(
        Edge(side, kind, start, end, 0.75 if kind in ("parapet", "wall") else None)
        for side, kind, start, end in zip((1, 2, 3, 4), kinds, outline, (*outline[1:], outline[0]), strict=True)
    )
    area = Area(
        "Main",
        outline,
        edges,
        (-0.0, -1.0),
        1 / 48,
        openings=(Opening("H-1", "hatch", (METRE, METRE), (METRE, METRE // 2)),),
    )
    rules = make_rules({"ply_offset": '16"'})
    paper = Paper(
        head=HEAD,
        areas=(area,),
        closures=(Closure("Main", 80, -40, 16 * METRE, (LegChange(1, -40, 20),)),),
        assembly=Assembly((Ply("base", BASE), Ply("cap", CAP)), Deck("concrete"), Board("polyiso", 0.075), None),
        sheets={"base-sa": BASE, "cap-sa": CAP},
        rules=rules,
        layout=shed_layout(),
        order=order(),
        hours=year(),
        crew=CREW,
        days=days(),
        checks=checks(),
        warnings=(("edges.kind", "side 4: taken as typed"),),
        mended=(Mended("roof.dxf", "layer ROOF", "a gap of 2 mm", "closed"),),
        settings=(RATE,),
        weighed=weighed(),
    )
    return dataclasses.replace(paper, **changes)
