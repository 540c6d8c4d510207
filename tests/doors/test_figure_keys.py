"""Each figure gives the keys that the contract names, with every input, its steps and its source."""

from __future__ import annotations

import math
from typing import Any

import pytest
from asked_figures import ASKED, RESULTS, answered

from lapwright.plan.figures.registry import NAMES, figure


def numbers(value: Any) -> list[float]:
    """Every number in a JSON value."""
    if isinstance(value, dict):
        return [each for part in value.values() for each in numbers(part)]
    if isinstance(value, list):
        return [each for part in value for each in numbers(part)]
    return [float(value)] if isinstance(value, int | float) else []


def test_every_name_of_the_contract_is_there() -> None:
    """Nine names, in the contract's order."""
    assert list(NAMES) == list(ASKED) == list(RESULTS)


@pytest.mark.parametrize("name", NAMES)
def test_results_have_the_keys_of_the_contract(name: str) -> None:
    """Each key is there; every number is one."""
    found = answered(name)
    assert set(RESULTS[name]) - set(found) == set()
    assert all(math.isfinite(number) for number in numbers(found))


@pytest.mark.parametrize("name", NAMES)
def test_inputs_steps_and_source_are_carried(name: str) -> None:
    """Inputs hold every option, defaults too; there are steps in words, and a source."""
    found = answered(name)
    assert list(found["inputs"]) == [option.key for option in figure(name).options]
    assert all(step["text"] for step in found["steps"])
    assert found["steps"]
    assert found["source"]


@pytest.mark.parametrize("name", NAMES)
def test_the_example_of_the_help_is_answered(name: str) -> None:
    """What `--help` prints as an example can be pasted into a shell as it stands."""
    assert answered(name, figure(name).example)


@pytest.mark.parametrize("name", NAMES)
def test_results_that_are_told_of_are_given(name: str) -> None:
    """Every result of the help is a key of the JSON."""
    assert set(figure(name).results) - set(answered(name)) == set()


@pytest.mark.parametrize("name", NAMES)
def test_options_are_data(name: str) -> None:
    """Each option says what it is and what to write, and its own example and default can be read."""
    for option in figure(name).options:
        assert option.help
        assert option.kind == "flag" or option.value(option.write) is not None
        assert option.default is None or option.value(option.default) is not None


def test_zones_of_the_wind() -> None:
    """Zones 1', 1, 2, 3 and positive, each with both levels, and a class for each zone of uplift."""
    found = answered("wind")
    assert list(found["zones"]) == ["1'", "1", "2", "3", "positive"]
    assert all(set(zone) == {"strength_pa", "asd_pa"} for zone in found["zones"].values())
    assert found["class_psf"] == {"1'": 60, "1": 75, "2": 90, "3": 120, "positive": None}


def test_a_time_never_reached_is_null_and_the_steps_say_why() -> None:
    """A roll in air over the limit never falls to it."""
    found = answered("roll", "--stored 70F --air 55F --wind 10mph --until 50F --thickness 4mm --length 10m")
    assert [found[key] for key in ("surface_s", "outer_wrap_s", "outer_two_wraps_s", "core_s")] == [None] * 4
    assert any("Never reached" in step["text"] for step in found["steps"])


def test_a_speed_that_the_tool_does_not_have_is_null() -> None:
    """Slower than it goes: no speed, the ratio stays, the steps say what to do."""
    found = answered("weld", ASKED["weld"] + " --slowest 2in/s")
    assert found["speed_m_s"] is None
    assert found["ratio"] is not None
    assert any("Slower than the tool goes" in step["text"] for step in found["steps"])


def test_a_sheet_that_stays_warm_and_a_store_that_never_gets_there() -> None:
    """Warm air keeps a sheet over the limit; a store colder than what is asked never warms the rolls to it."""
    sheet = answered("sheet", "--laid-at 70F --air 60F --wind 3mph --substrate polyiso --until 50F --thickness 4mm")
    store = answered("store", "--cold 20F --store 45F --until 50F --thickness 4mm --length 10m --stack single")
    assert (sheet["until_s"], store["core_s"], store["mean_s"]) == (None, None, None)
    assert [any("Never reached" in step["text"] for step in found["steps"]) for found in (sheet, store)] == [True, True]
