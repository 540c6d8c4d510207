"""Curves of the figures: each has one, and what it shows is what the law behind it says."""

from __future__ import annotations

import pytest

from lapwright.plan.desk.figuring import example_of
from lapwright.plan.figures.figure import Answer, Curve
from lapwright.plan.figures.registry import FIGURES


def answered(name: str, **changed: str) -> tuple[Answer, Curve]:
    """The answer to a figure's own example with some options put otherwise, and its curve."""
    figure = FIGURES[name]()
    _, answer = figure.answer({**example_of(figure), **changed})
    assert answer.curve is not None
    return answer, answer.curve


@pytest.mark.parametrize("name", ["roll", "store", "weld", "cord", "chill", "wind", "drain"])
def test_these_figures_have_a_curve(name: str) -> None:
    """From left to right, with an end on either side."""
    _, curve = answered(name)
    along = [x for x, _ in curve.points]
    assert along == sorted(along)
    assert along[0] < along[-1]


@pytest.mark.parametrize("stack", ["single", "pallet"])
def test_the_coldest_point_reaches_the_limit_when_it_is_said_to(stack: str) -> None:
    """It begins as cold as the rolls come in, never cools, and passes the temperature asked at the time told."""
    answer, curve = answered("store", stack=stack, wrapped="" if stack == "single" else "yes")
    assert curve.points[0] == (0.0, pytest.approx((20 - 32) / 1.8, abs=0.05))
    heights = [y for _, y in curve.points]
    assert heights == sorted(heights)
    until_c, at = (50 - 32) / 1.8, answer.results["core_s"]
    below = max(x for x, y in curve.points if y < until_c)
    above = min(x for x, y in curve.points if y >= until_c)
    assert below <= at <= above
    assert curve.points[-1][0] >= 86400


def test_uplift_goes_by_the_square_of_the_speed() -> None:
    """To half as fast again as asked (ASCE 7-10 equation 30.3-1), and never less than 0.6 x 16 psf (30.2.2)."""
    answer, curve = answered("wind", speed="100 mph")
    mph = 0.44704
    assert curve.points[0][0] == pytest.approx(40 * mph)
    assert curve.points[-1][0] == pytest.approx(150 * mph)
    worst = -min(zone["asd_pa"] for zone in answer.results["zones"].values())
    least = 0.6 * 16 * 47.88026
    wanted = [max(worst * (speed / (100 * mph)) ** 2, least) for speed, _ in curve.points]
    assert [uplift for _, uplift in curve.points] == pytest.approx(wanted, rel=1e-6)


def test_depth_over_a_sill_goes_by_the_flow_to_two_thirds() -> None:
    """A scupper open above, Q = 2.9 b H^1.5 (plumbing codes [from memory]): twice the rain, 2^(2/3) the depth."""
    answer, curve = answered("drain", kind="scupper", size="10 in")
    middle = len(curve.points) // 2
    assert curve.points[middle] == (pytest.approx(3.75 * 0.0254 / 3600), pytest.approx(answer.results["head_m"]))
    assert curve.points[-1][1] / curve.points[middle][1] == pytest.approx(2 ** (2 / 3), rel=1e-6)


def test_a_drain_beyond_the_tables_has_no_curve() -> None:
    """Of a 2" drain no depths are in the tables: none is drawn."""
    figure = FIGURES["drain"]()
    _, answer = figure.answer({**example_of(figure), "size": "2 in"})
    assert answer.results["head_m"] is None
    assert answer.curve is None
