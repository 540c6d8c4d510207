"""The aims that were not chosen are laid out beside the plan."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from lapwright.assembly.values import Sheet
from lapwright.layout.choices import weigh
from lapwright.layout.values import Choice
from lapwright.plan.choices import ChoiceAsk, choice_under, other_aims
from lapwright.plan.make import choice_ask, lay_out
from lapwright.plan.reading import read_job_file
from lapwright.roof.values import Area, Edge
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


@pytest.mark.parametrize(("feet", "is_here"), [(30, True), (60, False)])
def test_a_small_job_is_laid_out_in_this_process(feet: int, is_here: bool) -> None:
    """Under a metre of new ground a course: 30' have at least 10 a ply, 60' at least 19, which for two is over 30."""
    outline = tuple((round(x * 24_384), round(y * 24_384)) for x, y in ((0, 0), (20, 0), (20, feet), (0, feet)))
    ends = zip(outline, (*outline[1:], outline[0]), strict=True)
    edges = tuple(Edge(side, "parapet", a, b, 0.5) for side, (a, b) in enumerate(ends, start=1))
    asked = dataclasses.replace(ask(), areas=(Area("Main", outline, edges, (0.0, -1.0), 1 / 48),))
    with other_aims(asked, "least_cost") as others:
        assert (others.hands.process is None) is is_here
        while others.go_on():
            pass
    assert others.found == [choice_under(asked, "fewest_rolls"), choice_under(asked, "fewest_laps")]


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
