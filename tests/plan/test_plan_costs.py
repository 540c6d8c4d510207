"""What a job says its layout is weighed by reaches the layout."""

from __future__ import annotations

from pathlib import Path

from lapwright.defaults.table import table
from lapwright.job.keys import key_rows
from lapwright.job.reading import read_job
from lapwright.plan.build import make_costs

EXAMPLE = (Path(__file__).parents[1] / "job/quarry_lane.yaml").read_text(encoding="utf-8")
NAMES = ("end_lap", "t_joint", "cut", "new_length", "new_rip")
AIM = "layout: {aim: least_cost}"


def test_times_and_prices_of_the_job_reach_the_layout() -> None:
    """At 90 an hour: an end lap of 6 min 9, a T-joint 1.50, a cut of 40 s 1, a length nothing, a rip of 1/2 h 45."""
    times = "end_lap_time: 6 min, t_joint_time: 1 min, cut_time: 40 s, new_length_time: 0 min, new_rip_time: 1/2 h"
    text = EXAMPLE.replace(AIM, f"layout: {{{times}}}").replace(
        "prices: {}", "prices: {labour_hour: 90, cap-sa: $131.50}"
    )
    costs = make_costs(read_job(text, file="job.yaml"))
    worth = [round(costs.worth(name), 6) for name in NAMES]
    assert worth == [9, 1.5, 1, 0, 45]
    assert (costs.price("cap-sa"), costs.price("base-sa")) == (131.5, 120)


def test_a_job_that_says_nothing_takes_the_defaults() -> None:
    """At 60 an hour a minute is 1."""
    costs = make_costs(read_job(EXAMPLE, file="job.yaml"))
    assert [costs.worth(name) for name in NAMES] == [4, 2, 1, 3, 10]


def test_the_key_table_names_the_defaults() -> None:
    """The defaults of the docs are those of the table."""
    told = {row.path: row.default for row in key_rows()}
    assert [told[f"layout.{name}_time"] for name in NAMES] == [table("layout")[name].text for name in NAMES]
