"""The cost and the choice between the aims, as a person reads them."""

from __future__ import annotations

import dataclasses

import pytest
from papers import shed

from lapwright.layout.values import Choice
from lapwright.packet.pages.choice import choice_lines, choice_page
from lapwright.packet.pages.cover import cover_page
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.planjson import plan_dict
from lapwright.packet.values import Paper


def test_the_aims_side_by_side() -> None:
    """Bounds first, the chosen aim marked, an aim that has no layout said so, and the key that chooses another."""
    paper = shed()
    layout = dataclasses.replace(paper.layout, sheet_rolls_at_least={"base-sa": 1})
    assert list(choice_lines(dataclasses.replace(paper, layout=layout))) == [
        "layout.aim            Rolls base-sa  Rolls cap-sa  End laps  T-joints  Cuts  Lengths  Rips  Cost",
        "any layout, at least              1                       0                                 $240",
        "least_cost, chosen                1             2         1         1     5        4     1  $393",
        "fewest_rolls                      1             1         3         2     4        3     1  $279",
        "fewest_laps                    none          none",
        "This layout has 3 rolls, the fewest there can be; 1 end lap, at most 1 over the fewest there can be;"
        " a cost of $393, at most $153 over the least there can be.",
        "This packet lays least_cost. Another one: set layout.aim in the job file (fewest_rolls) and plan again."
        " Lower in cost than the chosen one here: fewest_rolls.",
    ]


def test_each_part_of_the_cost_with_its_origin() -> None:
    """A price of the job, a default with the key that sets it, and what a lap costs with its two T-joints."""
    page = choice_page(shed())
    assert page is not None
    rows = page["cost"]["rows"]
    assert rows[0] == ["rolls of base-sa", "1", "$120.00", "$120", "default, prices.base-sa is not given"]
    assert rows[2] == [
        *("end laps", "1", "$4.00", "$4"),
        "4 min at $60.00 an hour; layout.end_lap_time of the job file, prices.labour_hour not given: default",
    ]
    assert page["lap"].startswith("An end lap with a T-joint at either end costs $8.00.")


def test_without_costs_there_is_no_such_sheet() -> None:
    """A paper that was not weighed has neither page nor lines."""
    paper: Paper = dataclasses.replace(shed(), weighed=None)
    assert (choice_page(paper), list(choice_lines(paper))) == (None, [])


def test_no_better_is_claimed_where_none_is() -> None:
    """Where the chosen aim spares most, nothing is said of others."""
    paper = shed()
    assert paper.weighed is not None
    dear = Choice("fewest_rolls", {"base-sa": 1, "cap-sa": 2}, 1, 1, 3, 2, 1, cost=400.0)
    weighed = dataclasses.replace(paper.weighed, choices=(paper.weighed.choices[0], dear))
    last = list(choice_lines(dataclasses.replace(paper, weighed=weighed)))[-1]
    assert last.endswith("set layout.aim in the job file (fewest_rolls) and plan again.")


def test_bounds_are_those_of_the_whole_layout() -> None:
    """Both plies together take an end lap that neither takes alone, and 2 rolls: 0 and 1 over, as pages and data say.

    The cost's bound is less than half a dollar away: no whole money over it.
    """
    paper = shed()
    layout = dataclasses.replace(paper.layout, end_laps_at_least=1, rolls_at_least=2, cost_at_least=392.8)
    paper = dataclasses.replace(paper, layout=layout)
    words = (
        "This layout has 3 rolls, at most 1 over the fewest there can be; 1 end lap, the fewest there can be;"
        " a cost of $393, the least there can be."
    )
    lines, page = list(choice_lines(paper)), choice_page(paper)
    assert page is not None
    assert (lines[1].split(), lines[-2]) == (["any", "layout,", "at", "least", "1", "$393"], words)
    assert page["how"].startswith(words)
    assert words in cover_page(open_book(paper))["numbers"]
    assert plan_dict(paper)["layout_whole"] == {
        "rolls": 3,
        "rolls_at_least": 2,
        "end_laps": 1,
        "end_laps_at_least": 1,
    }


def test_the_cover_tells_rolls_and_end_laps_where_nothing_was_weighed() -> None:
    """Without prices there is no word of cost."""
    paper: Paper = dataclasses.replace(shed(), weighed=None)
    told = cover_page(open_book(paper))["numbers"]
    assert (
        "This layout has 3 rolls, the fewest there can be; 1 end lap, at most 1 over the fewest there can be." in told
    )


@pytest.mark.parametrize(
    ("currency", "each", "whole"), [("€", "€120.00", "€120"), ("CAD", "CAD 120.00", "CAD 120"), ("", "120.00", "120")]
)
def test_costs_are_in_the_money_of_the_job(currency: str, each: str, whole: str) -> None:
    """A sign stands close to the amount, letters apart; without either the amount stands alone."""
    paper = shed()
    page = choice_page(dataclasses.replace(paper, head=dataclasses.replace(paper.head, currency=currency)))
    assert page is not None
    assert page["cost"]["rows"][0][2:4] == [each, whole]
