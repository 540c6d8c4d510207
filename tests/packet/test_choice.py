"""The cost and the choice between the aims, as a person reads them."""

from __future__ import annotations

import dataclasses

from papers import shed

from lapwright.layout.values import Choice
from lapwright.packet.pages.choice import choice_lines, choice_page
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
