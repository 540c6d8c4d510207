"""The aims that were not chosen are laid out beside the plan."""

from __future__ import annotations

import dataclasses
from pathlib import Path

from lapwright.assembly.values import Sheet
from lapwright.layout.choices import weigh
from lapwright.layout.values import Choice
from lapwright.plan.choices import ChoiceAsk, choice_under, other_aims
from lapwright.plan.make import choice_ask, lay_out
from lapwright.plan.reading import read_job_file
from lapwright.units.lengths import length_ticks

JOB = Path(__file__).parents[1] / "job/quarry_lane.yaml"


def ask() -> ChoiceAsk:
    """What the depot's layout is made from."""
    job, roofs = read_job_file(JOB)
    return choice_ask(job, roofs.areas)


def test_every_aim_is_there_once_in_order_and_as_laid_here() -> None:
    """What another process counts is what this one counts, and what was told is told of each."""
    job, roofs = read_job_file(JOB)
    own = weigh(lay_out(job, roofs.areas), "least_cost", ask().costs, sheets(ask()))
    told: list[str] = []
    with other_aims(ask(), "least_cost") as others:
        found = others.weighed(own, told.append).choices
    assert found[1:] == (choice_under(ask(), "fewest_rolls"), choice_under(ask(), "fewest_laps"))
    assert [choice.aim for choice in found] == ["least_cost", "fewest_rolls", "fewest_laps"]
    assert [line.split(",")[0] for line in told] == ["laid out for fewest_rolls too", "laid out for fewest_laps too"]


def sheets(asked: ChoiceAsk) -> dict[str, Sheet]:
    """The sheets of the plies by name."""
    return {ply.sheet.name: ply.sheet for ply in asked.assembly.plies}


def test_an_aim_that_finds_no_place_has_no_counts() -> None:
    """End laps 16' 4" apart with pieces of 16' or more from rolls of 32' 10" leave none on a course of 120'."""
    asked = ask()
    far = length_ticks("16' 4\"")
    rules = dataclasses.replace(
        asked.rules, end_lap_stagger_ticks=far, end_lap_ply_offset_ticks=far, shortest_piece_ticks=length_ticks("16'")
    )
    assert choice_under(dataclasses.replace(asked, rules=rules), "fewest_laps") == Choice("fewest_laps")
