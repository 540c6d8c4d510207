"""Small roofs laid by hand, years of hours and crews: metres and minutes that a pencil can follow."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Callable, Mapping

import numpy as np

from lapwright.assembly.values import Assembly, Ply, Sheet
from lapwright.crew.rates import RATE_NAMES, make_crew
from lapwright.crew.values import CrewSetting
from lapwright.hours.values import HourTable
from lapwright.layout.values import Course, Detail, Frame, Lap, Layout, Piece, PlyLayout
from lapwright.roof.values import Area, Edge, Opening
from lapwright.weather.values import WeatherYear

M = 80_000
SHEET = Sheet("sheet", 1 * M, 20 * M, M // 10, 15 * M // 100)
TWO = Assembly((Ply("base", SHEET, "self_adhered"), Ply("cap", SHEET, "self_adhered")))
THREE = Assembly((TWO.plies[0], Ply("interply", SHEET, "self_adhered"), TWO.plies[1]))
ZONE = "America/New_York"
JANUARY_11 = dt.date(2027, 1, 11)  # a Monday
# Courses of a roof 2.3 m up the fall: sheets of 1 m that lap 0.1 m.  The base starts with 0.5 m.
BASE_BANDS = ((0.0, 0.5), (0.4, 1.4), (1.3, 2.3))
CAP_BANDS = ((0.0, 1.0), (0.9, 1.9), (1.8, 2.3))
FRAME = Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.0)


def ticks(metres: float) -> int:
    """Metres in ticks."""
    return round(metres * M)


def make_roof(width: float = 20.0, height: float = 2.3, openings: tuple[Opening, ...] = (), name: str = "Main") -> Area:
    """A level rectangle; side 1 is its low edge, to the south."""
    ring = ((0, 0), (ticks(width), 0), (ticks(width), ticks(height)), (0, ticks(height)))
    edges = tuple(Edge(k + 1, "ridge", ring[k], ring[(k + 1) % 4]) for k in range(4))
    return Area(name, ring, edges, (0.0, -1.0), 0.0, openings)


def lay_ply(
    ply: str,
    position: int,
    bands: tuple[tuple[float, float], ...],
    *,
    joints: tuple[float, ...],
    first: int,
    area: str = "Main",
) -> PlyLayout:
    """One ply of the roof: every course in pieces from joint to joint [m]; end laps are left out."""
    pieces = []
    for c, (low, high) in enumerate(bands, start=1):
        for p, (left, right) in enumerate(itertools.pairwise(joints), start=1):
            pieces.append(
                Piece(
                    id=f"{area}/{ply}/{c:02d}/{p}",
                    area=area,
                    ply=ply,
                    course=c,
                    place=p,
                    u0=ticks(left),
                    u1=ticks(right),
                    v0=ticks(low),
                    v1=ticks(high),
                    cut_length=ticks(right - left),
                    sheet="sheet",
                    roll="sheet 1",
                    sequence=first + len(pieces),
                )
            )
    courses = tuple(Course(c, ticks(low), ticks(high)) for c, (low, high) in enumerate(bands, start=1))
    return PlyLayout(area, ply, position, "sheet", courses, tuple(pieces), 0, ticks(bands[0][1]), None, None)


def make_small(
    *,
    joints: tuple[float, ...] = (0.0, 20.0),
    details: tuple[Detail, ...] = (),
    laps: tuple[Lap, ...] = (),
    plies: int = 2,
) -> Layout:
    """The roof of 20 m by 2.3 m in two or three plies of three courses each; the interply lies as the base does."""
    names = ("base", "cap") if plies == 2 else ("base", "interply", "cap")
    count = 3 * (len(joints) - 1)
    laid = tuple(
        lay_ply(name, k + 1, CAP_BANDS if name == "cap" else BASE_BANDS, joints=joints, first=1 + k * count)
        for k, name in enumerate(names)
    )
    return Layout({"Main": FRAME}, laid, details, laps, (), ())


def metal(k: int, left: float, right: float) -> Detail:
    """A length of metal along the low edge."""
    return Detail(
        f"Main/side 1/metal {k}", "metal", "Main", "side 1", "", "", right - left, 0.1, "", ((left, 0.0), (right, 0.0))
    )


def rake_metal(k: int, low: float, high: float) -> Detail:
    """A length of metal up the left side."""
    return Detail(
        f"Main/side 4/metal {k}", "metal", "Main", "side 4", "", "", high - low, 0.1, "", ((0.0, low), (0.0, high))
    )


def strip(k: int, left: float, right: float) -> Detail:
    """A strip under the metal of the low edge."""
    return Detail(
        f"Main/side 1/strip {k}",
        "strip",
        "Main",
        "side 1",
        "sheet",
        "strip",
        right - left,
        0.2,
        "",
        ((left, 0.0), (right, 0.0)),
    )


def flashing(k: int, left: float, right: float, ply: str = "cap") -> Detail:
    """A flashing piece at the high edge."""
    line = ((left, 2.3), (right, 2.3))
    return Detail(
        f"Main/side 3/{ply} flashing {k}", "flashing", "Main", "side 3", "sheet", ply, 0.5, right - left, "", line
    )


def side_lap(lower: str, upper: str, ply: str, length: float, level: float) -> Lap:
    """A side lap between two pieces named by course and place: `01/1`."""
    ids = (f"Main/{ply}/{lower}", f"Main/{ply}/{upper}")
    return Lap(f"Main/{ply}/{lower}-{upper}", "side", "Main", ply, ids, ((0.0, level), (length, level)), length, 0.1)


OPERATIONS = ("primer", "base", "interply", "cap", "side_lap", "end_lap", "flashing", "mastic", "edge_metal")
NO_CHANGE: Callable[[HourTable, np.ndarray], None] = lambda table, hour: None  # noqa: E731  # typed so in one line


def make_hours(
    change: Callable[[HourTable, np.ndarray], None] = NO_CHANGE, *, start: str = "2015-01-01T00:00", hours: int = 8760
) -> HourTable:
    """A year in which every hour is open, dry and light, changed in place by `change(table, hour of the day)`."""
    times = np.datetime64(start, "m") + np.arange(hours) * np.timedelta64(60, "m")
    none = {name: np.zeros(hours) for name in ("air", "dew", "wind", "gust", "rain", "cloud", "sun", "snow")}
    weather = WeatherYear(
        name="made",
        origin="by hand",
        latitude=36.0,
        longitude=-80.0,
        elevation=270.0,
        offset_h=-5.0,
        start=times,
        absent=np.zeros(hours, dtype=bool),
        air_c=none["air"],
        dew_point_c=none["dew"],
        wind_m_s=none["wind"],
        gust_m_s=none["gust"],
        rain_mm=none["rain"],
        cloud=none["cloud"],
        ghi_w_m2=none["sun"],
        snow_depth_m=none["snow"],
        bridged=np.zeros(hours, dtype=bool),
    )
    table = HourTable(
        weather=weather,
        surface_c=np.zeros(hours),
        surface_low_c=np.zeros(hours),
        surface_high_c=np.zeros(hours),
        sun_w_m2=np.zeros(hours),
        frost_point_c=np.zeros(hours),
        daylight=np.ones(hours, dtype=bool),
        wet=np.zeros(hours, dtype=bool),
        measure=np.zeros(hours, dtype=bool),
        states={name: np.zeros(hours, dtype=np.uint8) for name in OPERATIONS},
        reason={name: np.zeros(hours, dtype=np.uint8) for name in OPERATIONS},
        reasons=("", "too cold", "rain falling"),
        limits={},
    )
    change(table, (times - times.astype("datetime64[D]")).astype(np.int64) // 60)
    return table


# One hour of one person: 60 m² of any sheet, 60 m of anything long; nothing else takes time.
PLAIN: Mapping[str, float] = {
    **dict.fromkeys(("base", "interply", "cap"), 60.0 / 3600.0),
    **dict.fromkeys(("flashing", "edge_metal", "edge_strip", "weld"), 60.0 / 3600.0),
    **dict.fromkeys(("accept_deck", "primer", "probe", "tie_off"), 1e12),
    **dict.fromkeys(("set_up", "clean_up", "morning_break", "noon_break", "dry_frost", "dry_rain", "primer_dry"), 0.0),
    "pace_in_cold": 1.0,
}


def plain_crew(
    people: int = 1,
    welders: int = 1,
    *,
    day: tuple[int, int] = (7, 15),
    start: dt.date | None = JANUARY_11,
    fire_watch_s: float | None = 3600.0,
    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4),
    **rates: float,
) -> CrewSetting:
    """A crew whose rates are whole numbers; `rates` in SI put others in their place."""
    assert set(rates) <= set(RATE_NAMES)
    span = (dt.time(day[0]), dt.time(day[1]))
    return make_crew(
        people, welders, day=span, weekdays=weekdays, start=start, fire_watch_s=fire_watch_s, rates={**PLAIN, **rates}
    )
