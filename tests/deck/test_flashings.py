"""Heights of curbs, parapets and walls against the least flashing height."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.deck.flashings import check_flashing_heights
from lapwright.defaults.rules import make_rules
from lapwright.roof.values import Area, Edge, Opening
from lapwright.units.read import length_ticks, quantity_si

RULES = make_rules({})
SIDE = length_ticks("60'")
CORNERS = ((0, 0), (SIDE, 0), (SIDE, SIDE), (0, SIDE))
CURB = Opening("RTU-1", "curb", (SIDE // 4, SIDE // 4), (80_000, 80_000), height=quantity_si("8 in"))
KINDS = ("metal_edge", "parapet", "wall", "ridge")
EDGES = tuple(
    Edge(
        number + 1,
        kind,
        CORNERS[number],
        CORNERS[(number + 1) % 4],
        height=quantity_si("30 in") if kind in ("parapet", "wall") else None,
        key=f"roof[0].edges[{number}]",
    )
    for number, kind in enumerate(KINDS)
)
ROOF = Area("Main", CORNERS, EDGES, falls=(0.0, -1.0), slope=1 / 48, openings=(CURB,))


def statuses(*areas: Area, rule: str = "8 in") -> dict[str, str]:
    """Status by id."""
    rules = replace(RULES, flashing_height=quantity_si(rule))
    return {check.id: check.status for check in check_flashing_heights(areas, rules)}


def test_each_curb_parapet_and_wall_has_a_check() -> None:
    """Eight inches are enough, to the hair; metal edges and ridges are not asked."""
    assert statuses(ROOF) == {
        "flashing.height-RTU-1": "pass",
        "flashing.height-Main side 2": "pass",
        "flashing.height-Main side 3": "pass",
    }


def test_the_jobs_own_rule_governs() -> None:
    """At ten inches the eight-inch curb fails and the parapet stays."""
    found = statuses(ROOF, rule="10 in")
    assert (found["flashing.height-RTU-1"], found["flashing.height-Main side 2"]) == ("fail", "pass")


def test_a_name_used_in_two_areas_keeps_two_ids() -> None:
    """Each curb's check says whose it is."""
    other = replace(ROOF, name="Annex", edges=())
    assert [id for id in statuses(ROOF, other) if "RTU" in id] == [
        "flashing.height-Main RTU-1",
        "flashing.height-Annex RTU-1",
    ]


@pytest.mark.parametrize(
    ("roof", "id", "supply"),
    [
        (
            replace(ROOF, openings=(replace(CURB, height=None),)),
            "flashing.height-RTU-1",
            "roof[0].openings[0].height",
        ),
        (
            replace(ROOF, edges=(EDGES[0], replace(EDGES[1], height=None), *EDGES[2:])),
            "flashing.height-Main side 2",
            "roof[0].edges[1].height",
        ),
        (
            replace(ROOF, edges=(EDGES[0], replace(EDGES[1], kind=None, height=None), *EDGES[2:])),
            "flashing.height-Main side 2",
            "roof[0].edges[1].kind",
        ),
    ],
)
def test_a_height_not_given_is_unknown(roof: Area, id: str, supply: str) -> None:
    """Only that element's check, and it names the key."""
    found = check_flashing_heights([roof], RULES)
    assert [(check.id, check.supply) for check in found if check.status == "unknown"] == [(id, (supply,))]


def joined(kind: str, height: str | None) -> Area:
    """The roof with its first side of another kind."""
    edge = replace(EDGES[0], kind=kind, height=None if height is None else quantity_si(height))
    return replace(ROOF, edges=(edge, *EDGES[1:]))


def test_expansion_joints_and_steps_are_asked_too() -> None:
    """The curb of an expansion joint always, a step where its height is given."""
    found = [statuses(joined(kind, height)).get("flashing.height-Main side 1") for kind, height in JOINED]
    assert found == ["fail", "unknown", "pass", None]


JOINED = (("expansion", "6 in"), ("expansion", None), ("step", "12 in"), ("step", None))


@pytest.mark.parametrize(
    ("kind", "height", "words"),
    [
        ("parapet", "24 in", None),
        ("parapet", "25 in", "an intermediate fixing"),
        ("expansion", "30 in", "an intermediate fixing"),
        ("wall", "30 in", "behind the wall's own finish"),
    ],
)
def test_over_24_inches_it_says_how_the_flashing_is_held(kind: str, height: str, words: str | None) -> None:
    """At 24" exactly nothing is asked."""
    checks = {check.id: check for check in check_flashing_heights([joined(kind, height)], RULES)}
    texts = [step.text for step in checks["flashing.height-Main side 1"].steps[1:]]
    assert [words in text for text in texts if words] == ([True] if words else [])
    assert len(texts) == (1 if words else 0)
