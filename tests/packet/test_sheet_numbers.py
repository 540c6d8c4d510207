"""Numbers of a calculation sheet as they are printed, for a job in feet and for one in metres."""

from __future__ import annotations

from dataclasses import replace

import pytest
from papers import shed

from lapwright.fasten.thermal import gap_steps
from lapwright.packet.pages.backing import check_page, put_in, result_words
from lapwright.packet.pages.lookup import Book, open_book
from lapwright.verdict import Check, Step


def book(units: str) -> Book:
    """A paper in units of a system."""
    paper = shed()
    return open_book(replace(paper, head=replace(paper.head, units=units)))


@pytest.mark.parametrize(
    ("units", "name", "value", "said"),
    [
        ("metric", "A [m2]", 0.92903, "A = 0.92903 m²"),
        ("metric", "p [Pa]", -1475.97, "p = -1.47597 kPa"),
        ("metric", "t hottest [degC]", 65.5556, "t hottest = 65.5556 °C"),
        ("metric", "gap [m]", 0.00589788, "gap = 5.89788 mm"),
        ("us", "A [m2]", 0.9290304, "A = 10 sf (0.92903 m²)"),
        ("us", "t hottest [degC]", 65.5556, "t hottest = 150 °F (65.5556 °C)"),
    ],
)
def test_numbers_put_in_are_told_once_in_metres_and_with_si_behind_in_feet(
    units: str, name: str, value: float, said: str
) -> None:
    """A metric job's numbers are SI already: nothing is told twice."""
    assert put_in(book(units), {name: value}) == said


@pytest.mark.parametrize(
    ("units", "value", "unit", "said"),
    [
        ("metric", 33.12, "m2", "33.12 m²"),
        ("metric", 1308.48, "Pa", "1.30848 kPa"),
        ("metric", 0.00668426, "m", "6.68426 mm"),
        ("metric", 0.3, "m", "0.3 m = 300 mm"),
        ("us", 324.878, "m2", "324.878 m² = 3497 sf"),
        ("us", 1157.17, "Pa", "1157.17 Pa = 24.2 psf"),
    ],
)
def test_a_result_is_told_as_people_say_it_beside_what_a_pencil_needs(
    units: str, value: float, unit: str, said: str
) -> None:
    """The same unit twice says nothing new."""
    assert result_words(book(units), Step("t", result=value, unit=unit)) == said


def test_gaps_are_listed_by_temperatures_of_the_job() -> None:
    """Aluminium, 10 ft from 0 degF to 150 degF: 12.9e-6 x 120 in x 150 x 25.4 = 5.898 mm."""
    _, gaps = gap_steps("aluminium")
    assert "set at -17.8 °C = 5.89788 mm" in put_in(book("metric"), gaps.values)
    assert "set at 0 °F = 0.2322 in (0.00589788 m)" in put_in(book("us"), gaps.values)


def test_times_that_would_read_alike_are_told_to_the_minute() -> None:
    """258,960 s of 259,200 s: both are 3 d to the hour; 71 h 56 min of 72 h."""
    check = Check("t", "t", "pass", demand=258_960.0, capacity=259_200.0, unit="s")
    page = check_page(book("us"), check)
    assert (page["asked"], page["given"]) == ("71 h 56 min", "72 h 0 min")
    assert page["verdict"] == "pass: asked 71 h 56 min, given 72 h 0 min"
