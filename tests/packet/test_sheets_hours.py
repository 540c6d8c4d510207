"""The pictures of the hours: every hour stands once, in its state, and the file stays small."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import hour_table

from lapwright.hours.values import HEAT, OPEN, SHUT, STATE_WORDS, WARM, HourTable
from lapwright.packet.drawing import Fill, Plate, Text
from lapwright.packet.sheets.hourspicture import HATCH, blocks, hour_plates, month_picture, year_picture
from lapwright.packet.svg import svg_text

WIDTH, HEIGHT = 254.0, 165.0
DAY, LEFT, TOP, FOOT, GAP = (WIDTH - 12 - 22) / 31, 12.0, 17.0, 7.0, 2.0
TALL = (HEIGHT - TOP - FOOT - 11 * GAP) / 12
DAYS_IN_MONTH = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
SIZES = {"open": OPEN, "warm": WARM, "heat": HEAT, "shut": SHUT, "unknown": 4}


def table_of(states: np.ndarray) -> HourTable:
    """The sample's year with other states for the cap."""
    return replace(hour_table(), states={"cap": states.astype(np.uint8)})


def drawn_hours(plate: Plate) -> dict[str, int]:
    """Hours in each hatch, from the areas of its rectangles."""
    cell = DAY * TALL / 24
    found = dict.fromkeys(HATCH, 0)
    for item in plate.items:
        for word, look in HATCH.items():
            if isinstance(item, Fill) and item.layer == "HOURS" and (item.pattern, item.ink) == look:
                found[word] += sum(round((r[2][0] - r[0][0]) * (r[2][1] - r[0][1]) / cell) for r in item.rings)
    return found


def state_at(plate: Plate, month: int, day: int, hour: int) -> list[str]:
    """The hatches that cover the middle of an hour (all counted from 1, the hour from 0)."""
    x = LEFT + (day - 0.5) * DAY
    y = HEIGHT - TOP - (month - 1) * (TALL + GAP) - TALL + (hour + 0.5) * TALL / 24
    return [
        word
        for word, look in HATCH.items()
        for item in plate.items
        if isinstance(item, Fill) and (item.pattern, item.ink) == look and item.layer == "HOURS"
        for ring in item.rings
        if ring[0][0] < x < ring[2][0] and ring[0][1] < y < ring[2][1]
    ]


def test_every_hour_is_drawn_in_its_state() -> None:
    """As many hours of each hatch as the table has of each state; open hours are left clear."""
    states = hour_table().states["cap"]
    plate = year_picture(hour_table(), "cap", width=WIDTH, height=HEIGHT)
    assert drawn_hours(plate) == {word: int(np.sum(states == SIZES[word])) for word in HATCH}


@pytest.mark.parametrize(
    ("month", "day", "hour"), [(1, 1, 0), (1, 14, 9), (2, 28, 23), (3, 16, 12), (7, 4, 12), (12, 31, 15)]
)
def test_a_date_is_found_where_it_stands(month: int, day: int, hour: int) -> None:
    """The hatch at a date and hour is that of the table's state there, and only that."""
    index = (sum(DAYS_IN_MONTH[: month - 1]) + day - 1) * 24 + hour
    word = STATE_WORDS[int(hour_table().states["cap"][index])]
    plate = year_picture(hour_table(), "cap", width=WIDTH, height=HEIGHT)
    assert state_at(plate, month, day, hour) == ([] if word == "open" else [word])


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_a_year_of_noise_stays_small(seed: int) -> None:
    """States drawn at random hour by hour are the worst case: the file is under 300 KB, and no hour is lost."""
    states = np.random.default_rng(seed).integers(0, 4, 8760)
    plate = year_picture(table_of(states), "cap", width=WIDTH, height=HEIGHT)
    assert drawn_hours(plate) == {word: int(np.sum(states == SIZES[word])) for word in HATCH}
    assert len(svg_text(plate).encode()) < 300_000


@given(st.lists(st.lists(st.booleans(), min_size=24, max_size=24), min_size=1, max_size=6))
def test_blocks_cover_what_is_true_once(cells: list[list[bool]]) -> None:
    """The rectangles cover each true cell once and no other."""
    grid = np.array(cells)
    count = np.zeros(grid.shape, int)
    for day, days, first, last in blocks(grid):
        count[day : day + days, first:last] += 1
    assert (count == grid).all()


def test_months_say_their_hours() -> None:
    """January of the sample has no open hour; what is written is what the table counts."""
    january = hour_table().states["cap"][: 31 * 24]
    plate = year_picture(hour_table(), "cap", width=WIDTH, height=HEIGHT)
    texts = [item.text for item in plate.items if isinstance(item, Text)]
    assert (int(np.sum(january == OPEN)), f"{int(np.sum(january == HEAT))} h heat" in texts) == (0, True)


def missing_table() -> HourTable:
    """The first ten days without wind and shut for it; of the next ten every second hour shut by rain."""
    hour = np.arange(8760)
    states = np.where((hour < 240) | ((hour < 480) & (hour % 2 == 1)), SHUT, OPEN)
    reason = np.where(hour < 240, 1, np.where(states == SHUT, 2, 0)).astype(np.uint8)
    reasons = ("", "wind not reported", "rain or snow falling")
    return replace(table_of(states), reason={"cap": reason}, reasons=reasons)


def test_what_is_not_known_is_neither_open_nor_shut() -> None:
    """240 hours without a reading have a hatch of their own, a word in the legend and their count beside January."""
    plate = year_picture(missing_table(), "cap", width=WIDTH, height=HEIGHT)
    texts = [item.text for item in plate.items if isinstance(item, Text)]
    assert drawn_hours(plate) == {"warm": 0, "heat": 0, "shut": 120, "unknown": 240}
    assert "240 h unknown" in texts
    assert "unknown: no reading or limit" in texts


def test_the_legend_of_a_month_has_the_states_of_that_month() -> None:
    """What is not known is in January alone."""
    february = month_picture(missing_table(), "cap", 2, width=WIDTH, height=80.0)
    texts = [item.text for item in february.items if isinstance(item, Text)]
    assert [text for text in texts if text.startswith(("unknown", "shut"))] == []


def test_the_legend_has_the_states_in_use() -> None:
    """A year that is all open or shut has no dots and no hatch in its legend."""
    states = np.where(np.arange(8760) % 24 < 12, SHUT, OPEN)
    plate = year_picture(table_of(states), "cap", width=WIDTH, height=HEIGHT)
    texts = [item.text for item in plate.items if isinstance(item, Text)]
    assert [word for word in ("open", "shut") if word in texts] == ["open", "shut"]
    assert [text for text in texts if text.startswith(("warm", "heat"))] == []


def test_states_differ_without_colour() -> None:
    """Every state has a hatch of its own, in ink or grey: a grey print loses nothing."""
    assert len({pattern for pattern, _ in HATCH.values()}) == len(HATCH) == 4
    assert {ink for _, ink in HATCH.values()} <= {"ink", "grey"}


def test_a_month_is_the_same_month_larger() -> None:
    """March has as many hatched hours in the month's picture as in the table."""
    states = hour_table().states["cap"][59 * 24 : 90 * 24]
    plate = month_picture(hour_table(), "cap", 3, width=254.0, height=80.0)
    cell = DAY * (80 - TOP - FOOT) / 24
    heat = next(
        item for item in plate.items if isinstance(item, Fill) and item.pattern == "heat" and item.layer == "HOURS"
    )
    drawn = sum((r[2][0] - r[0][0]) * (r[2][1] - r[0][1]) for r in heat.rings) / cell
    assert drawn == pytest.approx(int(np.sum(states == HEAT)))


def test_only_operations_of_the_roof_have_pictures() -> None:
    """A roof without an interply has none of it."""
    plates = hour_plates(hour_table(), ("base", "interply", "cap"), width=WIDTH, height=HEIGHT)
    assert [plate.title for plate in plates] == ["Hours for base", "Hours for cap"]
