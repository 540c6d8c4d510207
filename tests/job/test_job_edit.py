"""One value of a job file changes, everything else stays as it was typed."""

from __future__ import annotations

import difflib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs import EXAMPLE, SMALL

from lapwright.faults import Refused
from lapwright.job.composing import compose
from lapwright.job.edit import set_value
from lapwright.job.reading import read_job
from lapwright.job.tree import Text, nearest, path_of


def changed(before: str, after: str) -> list[str]:
    """Lines taken out and put in."""
    lines = difflib.unified_diff(before.splitlines(), after.splitlines(), lineterm="", n=0)
    return [line for line in lines if not line.startswith(("---", "+++", "@@"))]


@pytest.mark.parametrize(
    ("path", "value", "lines"),
    [
        (
            "units",
            "metric",
            [
                "-units: us                             # us | metric, for what is written out",
                "+units: metric                             # us | metric, for what is written out",
            ],
        ),
        ("roof[0].slope", "1/2 in 12", ["-    slope: 1/4 in 12", "+    slope: 1/2 in 12"]),
        ("paper", "a4", ["+paper: a4"]),
        ("roof[0].closure", "accept", ["+    closure: accept"]),
        (
            "roof[0].pipes[0].name",
            "Vent, north #4",
            [
                "-      - {name: V-1, at: E 70' N 40', diameter: 4\"}",
                '+      - {name: "Vent, north #4", at: E 70\' N 40\', diameter: 4"}',
            ],
        ),
        (
            "layout.aim",
            "fewest_laps",
            [
                "-layout: {aim: least_cost}                     # least_cost | fewest_rolls | fewest_laps",
                "+layout: {aim: fewest_laps}                     # least_cost | fewest_rolls | fewest_laps",
            ],
        ),
        (
            "prices.cap-sa",
            "95",
            [
                "-prices: {}                                    # optional, per item",
                "+prices: {cap-sa: 95}                                    # optional, per item",
            ],
        ),
        (
            "materials.primer.drying",
            "45 min",
            [
                "-materials: {}                                 # primer, mastic, caulk: {apply_at_or_above, coverage, "
                "drying}",
                "+materials: {primer: {drying: 45 min}}                                 # primer, mastic, caulk: "
                "{apply_at_or_above, coverage, drying}",
            ],
        ),
    ],
)
def test_only_the_value_changes(path: str, value: str, lines: list[str]) -> None:
    """Comments, spaces and order of all other lines stay."""
    assert changed(EXAMPLE, set_value(EXAMPLE, path, value)) == lines


def test_last_key_of_a_sheet_over_two_lines() -> None:
    """A key that is absent goes behind the last one in its braces."""
    after = set_value(EXAMPLE, "sheets.base-sa.surfacing", "film")
    assert changed(EXAMPLE, after)[1].endswith("warm_rolls_at_or_above: 20 F, surfacing: film}")
    assert read_job(after, file="j").sheets["base-sa"].surfacing == "film"


def test_line_ends_of_the_file_are_kept() -> None:
    """A file from another system keeps its line ends."""
    text = SMALL.replace("\n", "\r\n")
    assert set_value(text, "roof[0].closure", "accept") == text.replace(
        "slope: 1/4 in 12\r\n", "slope: 1/4 in 12\r\n    closure: accept\r\n"
    )


def test_a_key_left_empty_is_filled() -> None:
    """What was refused for want of a value takes it where it belongs."""
    text = SMALL.replace("    slope: 1/4 in 12", "    slope:   # to measure")
    assert changed(text, set_value(text, "roof[0].slope", "2 %")) == [
        "-    slope:   # to measure",
        "+    slope: 2 %   # to measure",
    ]


@pytest.mark.parametrize(
    ("before", "after"),
    [('{name: V-1, at, diameter: 4"}', "{name: V-1, at: E 7', diameter: 4\"}"), ("{at:}", "{at: E 7'}")],
)
def test_a_key_left_empty_in_braces_is_filled(before: str, after: str) -> None:
    """With its colon, or without one yet."""
    text = f"pipes: [{before}]\n"
    assert set_value(text, "pipes[0].at", "E 7'") == f"pipes: [{after}]\n"


def test_a_file_without_a_last_line_end() -> None:
    """A key goes on a line of its own all the same."""
    assert set_value(SMALL.rstrip("\n"), "work", "new") == SMALL + "work: new"


def test_a_number_below_zero_is_typed_as_a_number() -> None:
    """A longitude west of Greenwich stands in braces as anybody would type it, and is read back."""
    text = set_value("site: {latitude: 41.9}\n", "site.longitude", "-87.7")
    assert text == "site: {latitude: 41.9, longitude: -87.7}\n"


def test_blocks_are_made_on_the_way() -> None:
    """A block that is absent is put in with braces."""
    assert set_value(SMALL, "building.height", "22'") == SMALL + "building: {height: 22'}\n"


@pytest.mark.parametrize("path", ["roof[1].slope", "roof[0].slope.x", "roof", "sheets.cap-sa", "roof[0].edges[0].kind"])
def test_a_path_that_leads_nowhere_is_refused(path: str) -> None:
    """List items are not made, and a block is no value."""
    with pytest.raises(Refused) as refused:
        set_value(SMALL, path, "x")
    assert [fault.needs for fault in refused.value.faults] == ["a value of one line for a key that a job file can have"]


@pytest.mark.parametrize("value", ["two\nlines", "a\tb", "\x00"])
def test_a_value_of_more_than_a_line_is_refused(value: str) -> None:
    """Nothing is written that would not be read back."""
    with pytest.raises(Refused) as refused:
        set_value(SMALL, "roof[0].area", value)
    assert [fault.key for fault in refused.value.faults] == ["roof[0].area"]


def test_a_file_that_cannot_be_read_is_left_alone() -> None:
    """Its own faults are told."""
    with pytest.raises(Refused) as refused:
        set_value("roof: {", "units", "us")
    assert [fault.line for fault in refused.value.faults] == [1]


PATHS = (
    "job.name", "units", "site.latitude", "roof[0].area", "roof[0].outline", "roof[0].edges[0].metal.face",
    "roof[0].openings[0].at", "assembly.plies[1].sheet", "sheets.cap-sa.width", "rules.cant", "crew.days",
    "roof[0].drains[0].sill", "crew.rates.cap", "sheets.base-sa.surfacing", "paper",
)  # fmt: skip


@settings(deadline=None, max_examples=30)
@given(st.sampled_from(PATHS), st.text(st.characters(exclude_categories=("C", "Zl", "Zp")), min_size=1, max_size=40))
def test_what_is_put_in_is_read_back(path: str, value: str) -> None:
    """Any text of one line, put anywhere, comes back as it went in, and putting the old one back restores the file."""
    after = set_value(EXAMPLE, path, value)
    node, reached = nearest(compose(after, file="j").root, path_of(path))
    assert isinstance(node, Text)
    assert (node.value, reached) == (value, path_of(path))
    old, there = nearest(compose(EXAMPLE, file="j").root, path_of(path))
    restored = set_value(after, path, old.value) if isinstance(old, Text) and there == path_of(path) else EXAMPLE
    assert restored == EXAMPLE
