"""Keys that a check lacks, in words of the form: whose they are, then what they are called there."""

from __future__ import annotations

import pytest

from lapwright.plan.describe.typed import typed_job
from lapwright.plan.describe.where import asked_for, where_words

JOB = """\
roof:
  - area: Hall
    edges:
      - {sides: 2-4, kind: parapet}
      - {sides: 1, kind: metal_edge}
    openings: [{name: RTU-1, kind: curb}]
  - area: Office
assembly:
  plies: [{ply: base, sheet: b}]
"""


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("roof[0].edges[0].height", "Hall, sides 2-4: height"),
        ("roof[0].edges[1].metal.test_factor", "Hall, side 1, metal: test factor"),
        ("roof[0].openings[0].height", "Hall, RTU-1: height"),
        ("roof[1].falls", "Office: falls towards"),
        ("roof[7].slope", "area 8: slope"),
        ("areas.layers.Hall.openings.CURBS.height", "Hall, CURBS: height"),
        ("sheets.cap-sa.modulus", "cap-sa: modulus"),
        ("assembly.plies[0].sheet", "base: sheet"),
        ("site.rain_primary", "Site: rain for the drains"),
        ("crew.start", "Crew: first working day"),
        ("store", "Warm store"),
    ],
)
def test_a_key_is_said_in_words_of_the_form(key: str, words: str) -> None:
    """Sides by their numbers, things by their names, the rest by what the sheet calls it."""
    assert where_words(key, typed_job(JOB, file="x.yaml")) == words


def test_a_side_that_no_entry_speaks_of_leads_to_the_edges() -> None:
    """Two things are lacked of one side, which has no entry yet: it is asked for once."""
    keys = ["roof[0].edges[side 3].kind", "roof[0].edges[side 3].height"]
    said = asked_for(keys, typed_job(JOB, file="x.yaml"))
    assert said == [{"key": "roof[0].edges", "words": "Hall, side 3: what it is"}]


def test_what_is_no_key_is_said_as_it_is() -> None:
    """A check may ask for what no key of the file can hold."""
    said = "a test in the cold, of the sheet's maker"
    assert asked_for([said], {}) == [{"key": said, "words": said}]
