"""A working day: stretches, breaks, states, the fire watch."""

from __future__ import annotations

import numpy as np
from crew_jobs import make_hours, plain_crew

from lapwright.crew.shift import breaks_of, can_weld, heat_hours, make_fitness, make_shift, weld_stop_min
from lapwright.hours.values import HEAT, OPEN, SHUT, WARM, HourTable

DAY = tuple(range(24))


def test_stretches_are_dry_daylight_between_coming_and_clean_up() -> None:
    """Work 7 to 15 with half an hour of clean-up, rain from 10 to 11: two stretches."""

    def rain(table: HourTable, hour: np.ndarray) -> None:
        table.wet[hour == 10] = True

    shift = make_shift(make_fitness(make_hours(rain)), DAY, plain_crew(clean_up=1800.0), welding=False)
    assert shift.stretches == ((420.0, 600.0), (660.0, 870.0))


def test_dark_and_absent_hours_end_a_stretch() -> None:
    """Light from 9 to 14, no reading at 12."""

    def dark(table: HourTable, hour: np.ndarray) -> None:
        table.daylight[(hour < 9) | (hour >= 14)] = False
        table.weather.absent[hour == 12] = True

    shift = make_shift(make_fitness(make_hours(dark)), DAY, plain_crew(), welding=False)
    assert shift.stretches == ((540.0, 720.0), (780.0, 840.0))


def test_work_needs_all_its_operations() -> None:
    """The cap needs cap, side lap and end lap; metal needs mastic; the worst of them holds."""

    def change(table: HourTable, hour: np.ndarray) -> None:
        table.states["cap"][hour == 8] = WARM
        table.states["end_lap"][hour == 8] = HEAT
        table.states["mastic"][hour == 9] = SHUT

    shift = make_shift(make_fitness(make_hours(change)), DAY, plain_crew(2), welding=True)
    assert (shift.states["cap"][8], shift.states["edge_metal"][9], shift.states["base"][8]) == (HEAT, SHUT, OPEN)


def test_fresh_base_counts_before_a_wetted_one() -> None:
    """The cap's hours are those over a base that is dry: wetted ones are dried and measured first."""
    table = make_hours()
    table.states["cap"][:] = SHUT
    fresh = {"cap": np.zeros(8760, dtype=np.uint8)}
    fitness = make_fitness(
        HourTable(**{**{name: getattr(table, name) for name in table.__slots__}, "fresh_base": fresh})
    )
    assert make_shift(fitness, DAY, plain_crew(), welding=False).states["cap"][8] == OPEN


def test_a_roof_still_wet_is_dried_by_the_crew() -> None:
    """Hours shut for what is left of the night's frost are worked after drying; those in which it settles are not."""
    table = make_hours()
    hour = np.arange(8760) % 24
    wet, settling = hour < 11, hour < 9
    shut = {name: np.where(wet, SHUT, states) for name, states in table.states.items()}
    changed = {"states": shut, "wet": wet, "getting_wet": settling, "dried": dict(table.states)}
    fitness = make_fitness(HourTable(**{**{name: getattr(table, name) for name in table.__slots__}, **changed}))
    assert make_shift(fitness, DAY, plain_crew(), welding=False).stretches[0][0] == 540.0


def test_an_operation_that_the_roof_lacks_bars_nothing() -> None:
    """Without metal there is no edge_metal; work that needs it (a drain) goes by mastic alone."""
    table = make_hours()
    states = {name: array for name, array in table.states.items() if name != "edge_metal"}
    lacking = HourTable(**{**{name: getattr(table, name) for name in table.__slots__}, "states": states})
    assert make_shift(make_fitness(lacking), DAY, plain_crew(), welding=False).states["edge_metal"][8] == OPEN


def test_heat_is_shut_where_nothing_is_welded() -> None:
    """A day without welding can't use hours whose laps need it."""

    def cold(table: HourTable, hour: np.ndarray) -> None:
        table.states["cap"][:] = HEAT

    fitness = make_fitness(make_hours(cold))
    found = [make_shift(fitness, DAY, plain_crew(2), welding=welding).states["cap"][8] for welding in (False, True)]
    assert found == [SHUT, HEAT]


def test_one_person_watches_while_laps_may_be_welded_and_after() -> None:
    """Heat from 8 to 10, watch of an hour, two people: one hand at 8, 9 and 10, two before and after."""

    def cold(table: HourTable, hour: np.ndarray) -> None:
        table.states["cap"][(hour >= 8) & (hour < 10)] = HEAT

    shift = make_shift(make_fitness(make_hours(cold)), DAY, plain_crew(2), welding=True)
    assert shift.hands[7:12] == (2, 1, 1, 1, 2)


def test_welding_stops_before_the_crew_leaves() -> None:
    """A watch of 90 min before 15:00 stops welding at 13:30; of 90.5 min, a whole minute earlier."""
    found = [weld_stop_min(plain_crew(fire_watch_s=seconds)) for seconds in (5400.0, 5430.0)]
    assert found == [810.0, 809.0]


def test_welding_needs_a_welder_a_watch_and_its_length() -> None:
    """One alone can't weld and watch; without the length of the watch nobody welds."""
    crews = [plain_crew(2, 1), plain_crew(1, 1), plain_crew(2, 0), plain_crew(2, 1, fire_watch_s=None)]
    assert [can_weld(crew) for crew in crews] == [True, False, False, False]


def test_hours_that_ask_for_welding_are_counted_in_the_working_day() -> None:
    """Heat all day, work 7 to 15, rain at 9: seven hours."""

    def cold(table: HourTable, hour: np.ndarray) -> None:
        table.states["cap"][:] = HEAT
        table.wet[hour == 9] = True

    assert heat_hours(make_fitness(make_hours(cold)), DAY, plain_crew(2)) == 7


def test_breaks_stand_on_the_quarter_hour() -> None:
    """7 to 15: a quarter in is 9:00, the middle 11:00; 15 and 30 min."""
    crew = plain_crew(morning_break=900.0, noon_break=1800.0)
    assert breaks_of(crew) == ((540.0, 555.0), (660.0, 690.0))


def test_breaks_that_would_meet_are_one() -> None:
    """In a day of two hours a break of 45 min a quarter in would run into the one in its middle."""
    crew = plain_crew(day=(7, 9), morning_break=2700.0, noon_break=1800.0)
    assert breaks_of(crew) == ((480.0, 510.0),)
