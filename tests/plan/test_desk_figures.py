"""Figures as forms at the desk: what a job fills in, how a curve is marked, and what is made of hostile options."""

from __future__ import annotations

import json

import pytest

from lapwright.faults import Refused
from lapwright.plan.desk.axes import curve_shown, round_step
from lapwright.plan.desk.figurefill import job_values
from lapwright.plan.desk.figuring import example_of, figure_answer, figure_forms
from lapwright.plan.figures.figure import Curve
from lapwright.plan.figures.registry import FIGURES, NAMES
from lapwright.units.write import Units

EXAMPLES = {name: example_of(load()) for name, load in FIGURES.items()}


@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_form_reads_its_own_example(system: str) -> None:
    """What a form offers, it takes; and it fills every field that must be filled."""
    for form in figure_forms(system):
        needed = {option["name"] for option in form["options"] if option["is_needed"]}
        assert needed <= set(form["example"]), form["name"]
        assert figure_answer(form["name"], form["example"], system)["shown"], form["name"]


def test_marks_of_a_curve_are_round_in_the_units_asked() -> None:
    """0 to 100 m in feet is 0 to 328: marks each 100 ft by pencil, the second 30.48 m along, 0.3048 of the way."""
    shown = curve_shown(Curve(((0.0, 1.0), (100.0, 3.0)), "length", "m", "share", ""), Units("us"))
    assert shown is not None
    assert shown["marks_along"] == [[0.0, "0 ft"], [0.3048, "100 ft"], [0.6096, "200 ft"], [0.9144, "300 ft"]]
    assert [words for _, words in shown["marks_up"]] == ["1", "1.5", "2", "2.5", "3"]
    assert shown["points"] == [[0.0, 0.0], [1.0, 1.0]]


@pytest.mark.parametrize(
    ("system", "words"), [("us", ["0 in", "1 in", "2 in"]), ("metric", ["0 mm", "20 mm", "40 mm"])]
)
def test_small_lengths_are_marked_as_a_tape_is_read(system: str, words: list[str]) -> None:
    """0 to 51 mm, 2.008 inches: each inch, or each 20 mm."""
    shown = curve_shown(Curve(((0.0, 0.0), (1.0, 0.051)), "rain", "", "depth", "m"), Units(system))
    assert shown is not None
    assert [each for _, each in shown["marks_up"]][:: 2 if system == "us" else 1] == words


def test_times_are_marked_as_clocks_read() -> None:
    """Over 50 minutes: each 20 min, no more than four behind the first."""
    shown = curve_shown(Curve(((0.0, 0.0), (3000.0, 1.0)), "time", "s", "share", ""), Units("us"))
    assert shown is not None
    assert [words for _, words in shown["marks_along"]] == ["0", "20 min", "40 min"]


@pytest.mark.parametrize(
    ("least", "step"), [(0.7, 1.0), (1.0, 1.0), (1.1, 2.0), (3.0, 5.0), (0.06, 0.1), (51.0, 100.0)]
)
def test_round_steps(least: float, step: float) -> None:
    """1, 2 or 5 times a power of ten."""
    assert round_step(least) == pytest.approx(step)


def test_a_flat_curve_is_drawn_in_the_middle() -> None:
    """A curve without a rise has no scale of its own."""
    shown = curve_shown(Curve(((0.0, 5.0), (1.0, 5.0)), "a", "", "b", ""), Units("us"))
    assert shown is not None
    assert [y for _, y in shown["points"]] == [0.5, 0.5]


def test_a_job_fills_in_what_it_types() -> None:
    """Sheets top ply first; drains and scuppers by name; what can't be read is left out."""
    found = job_values("""\
roof:
  - area: Main
    drains:
      - {name: D-1, kind: drain, diameter: 4", sill: 2"}
      - {name: S-1, kind: scupper, width: 12", height: 4"}
      - {name: G-1, kind: gutter, side: 1}
site: {rain_primary: 3.75 in/h}
assembly:
  plies: [{ply: base, sheet: under}, {ply: cap, sheet: over}]
sheets:
  under: {length: 65' 7", thickness: thin}
  over: {length: 10 m, thickness: 4 mm}
store: {wrapping: opened, fans: yes}
""")
    assert [each["name"] for each in found["roll"]] == ["over", "under"]
    assert found["roll"][0]["values"] == {"length": "10 m", "thickness": "4 mm"}
    assert found["roll"][1]["values"] == {"length": "65' 7\""}
    assert found["store"][0]["values"] == {"length": "10 m", "thickness": "4 mm", "opened": "yes", "fans": "yes"}
    assert found["drain"][0] == {
        "name": "Main D-1",
        "values": {"rain": "3.75 in/h", "kind": "drain", "size": '4"', "sill": '2"'},
    }
    assert found["drain"][1]["values"]["size"] == '12" x 4"'
    assert len(found["drain"]) == 2


@pytest.mark.parametrize(
    "text", ["", "roof: 5", "sheets: [1, 2]\nassembly: {plies: no}", ": : :", "store: [[[", "\x00"]
)
def test_a_broken_job_fills_in_nothing(text: str) -> None:
    """Every figure is there, with no values."""
    found = job_values(text)
    assert set(found) == set(NAMES)
    assert not any(each["values"] for sets in found.values() for each in sets)


HOSTILE = [
    "",
    " ",
    "-",
    "1e309 F",
    "nan F",
    "inf",
    "-inf mph",
    "9" * 200,
    "25F; rm",
    "<b>25F</b>",
    "２５F",
    "\x00",
    "'",
    '"',
]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_values_are_told_at_their_fields(name: str, text: str) -> None:
    """Each option with such a text is refused by its own name, or answered in JSON that has no odd number."""
    for option in EXAMPLES[name]:
        try:
            found = figure_answer(name, {**EXAMPLES[name], option: text}, "us")
        except Refused as refused:
            keys = {fault.key for fault in refused.faults}
            assert keys <= set(EXAMPLES[name]) | {option}, keys
        else:
            assert json.dumps(found, allow_nan=False)


@pytest.mark.parametrize(
    "given",
    [{"nose": "25F"}, {"air": "2" * 201}, {f"o{k}": "1" for k in range(41)}, {"--air": "25F"}, {"a" * 5000: ""}],
)
def test_unknown_long_and_many_options_are_refused(given: dict[str, str]) -> None:
    """Neither a new name nor a long text gets far."""
    with pytest.raises(Refused) as refused:
        figure_answer("chill", given, "us")
    assert all(len(fault.read) <= 200 for fault in refused.value.faults)
    assert refused.value.faults


def test_a_metric_form_shows_no_us_value() -> None:
    """Examples are round in metric units, bounds exact in them; gauges of cord alone have no other name."""
    forms = {form["name"]: {each["name"]: each for each in form["options"]} for form in figure_forms("metric")}
    assert forms["roll"]["air"]["write"] == "-4 °C"  # 25 °F
    assert forms["roll"]["wind"]["write"] == "4.5 m/s"  # 10 mph
    assert forms["drain"]["size"]["write"] == "100 mm"  # 4 in
    assert forms["drain"]["size"]["bounds"] == "over 0 mm, at most 6.096 m"
    assert forms["surface"]["r-value"]["write"] == "3.5 m²K/W"  # R-20: 20 / 5.678
    assert forms["cord"]["volts"]["write"] == "230"
    assert forms["cord"]["length"]["write"] == "30 m"  # 100 ft
