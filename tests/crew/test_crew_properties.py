"""What holds for every walk: laps and layers in order, hours kept, and a larger crew never later."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
from crew_jobs import (
    TWO,
    ZONE,
    M,
    flashing,
    make_hours,
    make_roof,
    make_small,
    metal,
    plain_crew,
    rake_metal,
    side_lap,
    strip,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.crew.days import days_of
from lapwright.crew.rows import area_rows, covers
from lapwright.crew.values import CrewDay, CrewSetting
from lapwright.crew.walk import Walk, walk
from lapwright.defaults.rules import make_rules
from lapwright.hours.values import HEAT, OPEN, SHUT, STATE_WORDS, WARM, HourTable

RULES = make_rules({})
LAYOUT = make_small(
    joints=(0.0, 6.0, 13.0, 20.0),
    details=(
        strip(1, 0, 20),
        metal(1, 0, 10),
        metal(2, 10, 20),
        rake_metal(1, 0.0, 2.0),
        flashing(1, 0, 10),
        flashing(2, 10, 20),
    ),
    laps=tuple(
        side_lap(f"0{c}/{p}", f"0{c + 1}/{p}", ply, 6.0, 0.9 * c)
        for ply in ("base", "cap")
        for c in (1, 2)
        for p in (1, 2, 3)
    ),
)
ROOF = make_roof()

# Hours of two weeks, repeated over the year: state of base and cap, and what else the hour has.
hour = st.tuples(
    st.sampled_from((OPEN, OPEN, WARM, HEAT, SHUT)),
    st.sampled_from((OPEN, OPEN, WARM, HEAT, HEAT, SHUT)),
    st.integers(0, 11),
)
weathers = st.lists(hour, min_size=10, max_size=60)


def year(drawn: list[tuple[int, int, int]]) -> HourTable:
    """A year that repeats the drawn hours; 0: rain, 1: dew, 2: dark, 3: no reading."""

    def change(table: HourTable, _hour: np.ndarray) -> None:
        base, cap, what = (np.resize(np.array(column), 8760) for column in zip(*drawn, strict=True))
        table.states["base"][:] = base
        for name in ("cap", "side_lap", "end_lap", "flashing"):
            table.states[name][:] = cap
        table.wet[what <= 1] = True
        table.weather.rain_mm[what == 0] = 1.0
        table.daylight[what == 2] = False
        table.weather.absent[what == 3] = True

    return make_hours(change)


crews = st.builds(
    plain_crew,
    st.integers(1, 5),
    st.integers(0, 3),
    day=st.sampled_from(((7, 15), (6, 18), (9, 13))),
    fire_watch_s=st.sampled_from((None, 1800.0, 3600.0, 7200.0)),
    set_up=st.sampled_from((0.0, 1800.0)),
    clean_up=st.sampled_from((0.0, 900.0)),
    morning_break=st.sampled_from((0.0, 900.0)),
    noon_break=st.sampled_from((0.0, 1800.0)),
    primer_dry=st.sampled_from((0.0, 1800.0)),
    dry_frost=st.sampled_from((0.0, 1200.0)),
    pace_in_cold=st.sampled_from((0.5, 1.0)),
    tie_off=st.sampled_from((60.0 / 3600.0, 1e12)),
    probe=st.sampled_from((120.0 / 3600.0, 1e12)),
    weld=st.sampled_from((10.0 / 3600.0, 60.0 / 3600.0)),
)


def walked(crew: CrewSetting, table: HourTable) -> Walk:
    """The walk of the roof with metal, strips, flashings and laps."""
    return walk(LAYOUT, [ROOF], TWO, table, crew, rules=RULES, time_zone=ZONE)


def made(crew: CrewSetting, table: HourTable) -> tuple[CrewDay, ...]:
    """Its days."""
    return days_of(walked(crew, table), LAYOUT, table, crew, rules=RULES)


def finish(found: Walk) -> float:
    """Ordinal of the last day; no end where it is not finished."""
    return found.days[-1].date.toordinal() if found.is_finished else float("inf")


@settings(max_examples=60, deadline=None)
@given(crews, weathers)
def test_one_more_person_or_welder_is_never_later(crew: CrewSetting, drawn: list[tuple[int, int, int]]) -> None:
    """Compared with the same crew under the same sky."""
    table = year(drawn)
    own = finish(walked(crew, table))
    assert finish(walked(replace(crew, people=crew.people + 1), table)) <= own
    assert finish(walked(replace(crew, welders=crew.welders + 1), table)) <= own


@settings(max_examples=60, deadline=None)
@given(crews, weathers)
def test_layers_come_in_order_and_everything_once(crew: CrewSetting, drawn: list[tuple[int, int, int]]) -> None:
    """No cap before its base, no cap before the metal at its edge, no flashing before the cap; nothing twice."""
    days = made(crew, year(drawn))
    order = [id for day in days for id in (*day.pieces, *day.details)]
    assert len(order) == len(set(order))
    at = {
        one: k
        for k, one in enumerate(id for day in days for task in day.tasks for id in task.ids if is_laying(task.what))
    }
    for under, over in covers(area_rows(LAYOUT, "Main")).items():
        assert [one for one in over if one in at and not at.get(under, 1e9) < at[one]] == []
    cap = [at[piece.id] for piece in LAYOUT.plies[1].pieces if piece.id in at and piece.v0 == 0 and piece.u0 < 10 * M]
    metals = [at.get("Main/side 1/metal 1", 1e9)] if cap else []
    assert [k for k in metals if k > min(cap)] == []
    last_cap = [
        at[piece.id] for piece in LAYOUT.plies[1].pieces if piece.id in at and piece.course == 3 and piece.u0 < 10 * M
    ]
    assert [k for id, k in at.items() if id.endswith("flashing 1") and k < max(last_cap)] == []


def is_laying(what: str) -> bool:
    """A task that puts something down."""
    return what in ("base", "cap", "edge metal", "edge strip", "flashing")


@settings(max_examples=60, deadline=None)
@given(crews, weathers)
def test_hours_are_kept(crew: CrewSetting, drawn: list[tuple[int, int, int]]) -> None:
    """Sheets only in dry daylight hours that are not shut to them; nothing before the crew comes or after it leaves."""
    table = year(drawn)
    for day in made(crew, table):
        for task in day.tasks:
            assert crew.day_from.hour * 60 <= task.begin_min <= task.end_min <= crew.day_to.hour * 60
            for hour in range(task.begin_min // 60, -(-task.end_min // 60)) if is_laying(task.what) else ():
                index = day.hours[hour]
                kind = "cap" if task.what == "flashing" else "edge_metal" if task.what == "edge metal" else task.what
                state = int(table.states["base" if kind == "edge strip" else kind][index])
                assert (bool(table.wet[index]), bool(table.daylight[index]), state) == (
                    False,
                    True,
                    STATE_WORDS.index(task.state),
                )
                assert state != SHUT


@settings(max_examples=60, deadline=None)
@given(crews, weathers)
def test_no_lap_is_welded_without_its_watch(crew: CrewSetting, drawn: list[tuple[int, int, int]]) -> None:
    """Welding ends before its stop, somebody watches from the first lap on, and all hands together are the crew."""
    for day in made(crew, year(drawn)):
        hot = [task for task in day.tasks if task.tool_s > 0.0]
        watch = [task for task in day.tasks if task.what == "fire watch"]
        assert bool(hot) == bool(watch) == (day.stop_welding_min is not None)
        assert [task for task in hot if task.end_min > (day.stop_welding_min or 0)] == []
        assert [task for task in watch if task.end_min > crew.day_to.hour * 60] == []
        assert [task for task in hot if not watch[0].begin_min <= task.begin_min] == []
        for task in day.tasks:
            beside = [
                one
                for one in watch
                if one is not task and one.begin_min < task.end_min and task.begin_min < one.end_min
            ]
            assert task.people + len(beside) <= crew.people


@settings(max_examples=40, deadline=None)
@given(crews, weathers)
def test_a_wetted_base_is_dried_before_its_cap(crew: CrewSetting, drawn: list[tuple[int, int, int]]) -> None:
    """Between the last wet hour within 24 h and a cap laid on an older base lies a task that dries and measures it."""
    table = year(drawn)
    if crew.rates["dry_frost"] == 0.0 or crew.rates["dry_rain"] == 0.0:
        crew = replace(crew, rates={**crew.rates, "dry_frost": 600.0, "dry_rain": 600.0})
    found = walked(crew, table)
    over = covers(area_rows(LAYOUT, "Main"))
    laid: dict[str, int] = {}
    dried: dict[str, int] = {}
    for day in found.days:
        for one in day.placings:
            hour = day.date.toordinal() * 24 + int(one.parts[0].begin // 60)
            if one.what == "dry and measure":
                dried.update(dict.fromkeys(one.ids, hour))
            if one.what == "cap" and one.work:
                for base in (id for id, caps in over.items() if one.work.id in caps):
                    since = max(laid[base], dried.get(base, 0))
                    assert wet_between(found, table, max(since, hour - 24), hour) == []
            laid.update({one.work.id: hour} if one.work else {})


def wet_between(found: Walk, table: HourTable, first: int, last: int) -> list[int]:
    """Wet hours from one ordinal hour to before another."""
    hours = [(dt.date.fromordinal(k // 24), k % 24) for k in range(first, last)]
    indices = [found.calendar.hours(date)[hour] for date, hour in hours]
    return [index for index in indices if index >= 0 and (table.wet[index] or table.weather.absent[index])]


@settings(max_examples=30, deadline=None)
@given(crews, weathers)
def test_what_is_opened_is_closed(crew: CrewSetting, drawn: list[tuple[int, int, int]]) -> None:
    """Every day ends with a tie-off as long as base is still to come, and with none once it is all down."""
    bases = [piece.id for piece in LAYOUT.plies[0].pieces]
    down: set[str] = set()
    for day in made(crew, year(drawn)):
        down.update(day.pieces)
        count = sum(id in down for id in bases)
        assert bool(day.tie_off) == (0 < count < len(bases))
