"""What an unknown check asks for, as people read it."""

from __future__ import annotations

from ruamel.yaml import YAML

from lapwright.verdict import unknown


def test_a_side_without_a_row_is_told_as_a_line_to_paste() -> None:
    """A key of the file stays as it is; a side that no row names is a row of `edges`, told once, that YAML reads."""
    supply = [
        "site.rain_primary",
        "roof[0].edges[side 3].kind",
        "roof[0].edges[side 3].height",
        "roof[1].edges[2].kind",
    ]
    told = unknown("drains.capacity-Main", "Drains carry the rain", supply).supply_words
    assert told == (
        "site.rain_primary, in roof[0].edges a line such as - {sides: 3, kind: metal_edge}, roof[1].edges[2].kind"
    )
    assert YAML(typ="safe").load("- {sides: 3, kind: metal_edge}") == [{"sides": 3, "kind": "metal_edge"}]
