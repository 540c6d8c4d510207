"""The order of whole roofs that the placer laid."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from order_jobs import BOARDED, FOOT, make_area

from lapwright.defaults.rules import make_rules
from lapwright.layout.place import make_layout
from lapwright.layout.values import Layout
from lapwright.order.lines import PRICED
from lapwright.order.make import make_order
from lapwright.order.values import OrderLine
from lapwright.roof.values import Area, Opening
from lapwright.units.write import Units

RULES = make_rules({})


def roof(width: float, height: float, kinds: list[str], curbs: int = 0) -> tuple[Area, Layout]:
    """A rectangle with curbs in a row, laid."""
    openings = tuple(
        Opening(f"C-{k}", "curb", ((10 + 15 * k) * FOOT, 10 * FOOT), (4 * FOOT, 3 * FOOT)) for k in range(curbs)
    )
    area = make_area([(0, 0), (width, 0), (width, height), (0, height)], kinds, openings=openings)
    return area, make_layout([area], BOARDED, RULES, grid=127, patience=0.05)


def order(area: Area, layout: Layout, system: str = "us", **more: object) -> tuple[OrderLine, ...]:
    """Its order."""
    return make_order([area], BOARDED, layout, RULES, units=Units(system), **more)


def test_flashing_pieces_of_a_long_wall() -> None:
    """Common practice: 120 ft of wall at 39 3/8" with 3" laps, ceil((1440 - 3) / 36.375) = 40 pieces of each ply."""
    _, layout = roof(120, 30, ["metal_edge", "ridge", "parapet", "ridge"])
    assert [len([d for d in layout.details if d.kind == "flashing" and d.ply == ply]) for ply in ("base", "cap")] == [
        40,
        40,
    ]


def test_every_length_of_every_roll_is_traced() -> None:
    """The rolls' lines name each piece, strip and flashing once; nothing is area times waste."""
    area, layout = roof(60, 40, ["metal_edge", "parapet", "parapet", "metal_edge"], curbs=2)
    lines = {line.item: line for line in order(area, layout)}
    named = [id for sheet in ("base-sa", "cap-sa") for id in lines[sheet].from_ids]
    cut = [one.id for one in layout.pieces] + [one.id for one in layout.details if one.sheet]
    assert sorted(named) == sorted(cut)
    assert [lines[sheet].ordered for sheet in ("base-sa", "cap-sa")] == [
        sum(roll.sheet == sheet for roll in layout.rolls) for sheet in ("base-sa", "cap-sa")
    ]


def test_prices_reach_every_line_that_has_one() -> None:
    """Each group and sheet at 10 apiece: cost is ten times what is ordered."""
    area, layout = roof(60, 40, ["metal_edge", "parapet", "parapet", "metal_edge"], curbs=1)
    prices = dict.fromkeys((*PRICED, "base-sa", "cap-sa"), 10.0)
    priced = [line for line in order(area, layout, prices=prices) if line.cost is not None]
    assert [line.item for line in priced if line.cost != 10.0 * line.ordered] == []
    assert {line.group for line in priced} == {*PRICED, "sheets"}


def test_units_change_words_and_nothing_else() -> None:
    """The same needs in metric words."""
    area, layout = roof(60, 40, ["metal_edge", "parapet", "parapet", "metal_edge"], curbs=1)
    us, metric = order(area, layout), order(area, layout, "metric")
    assert [(a.needed, a.ordered, a.unit, a.from_ids) for a in us] == [
        (b.needed, b.ordered, b.unit, b.from_ids) for b in metric
    ]
    assert any(a.basis != b.basis for a, b in zip(us, metric, strict=True))


kinds = st.lists(st.sampled_from(("metal_edge", "parapet", "wall", "ridge")), min_size=4, max_size=4)


@settings(max_examples=25, deadline=None)
@given(st.integers(50, 90), st.integers(20, 45), kinds, st.integers(0, 2), st.booleans())
def test_nothing_is_ordered_short_or_untraced(
    width: int, height: int, sides: list[str], curbs: int, cold: bool
) -> None:
    """Every line is at least what is needed, less than one more, but for metal whole by runs; every id is known."""
    area, layout = roof(width, height, sides, curbs)
    lines = order(area, layout, cold=cold)
    assert [line.item for line in lines if line.ordered < line.needed - 1e-6 or line.needed <= 0.0] == []
    assert [line.item for line in lines if line.group != "edge_metal" and line.ordered >= line.needed + 1.0] == []
    assert len({line.item for line in lines}) == len(lines)
    assert any("cold" in line.item for line in lines) == cold
    assert [line.item for line in lines if line.rate is None and not line.from_ids] == []


def test_order_is_the_same_twice() -> None:
    """No set, no chance."""
    area, layout = roof(60, 40, ["metal_edge", "parapet", "parapet", "metal_edge"], curbs=2)
    assert order(area, layout) == order(area, layout)


@pytest.mark.parametrize(
    "given", [{"coverage": {"primer": 2.0}}, {"coverage": {"mastic": 100.0}}, {"coverage": {"caulk": 100.0}}]
)
def test_a_given_coverage_is_shown_as_the_jobs(given: dict[str, dict[str, float]]) -> None:
    """Its line carries the job file as its origin, the others do not."""
    area, layout = roof(60, 40, ["metal_edge"] * 4)
    own = [line.group for line in order(area, layout, **given) if line.rate and line.rate.origin == "job file"]
    assert own == list(given["coverage"])
