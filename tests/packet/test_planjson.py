"""plan.json holds what the contract names, in SI, and its schema says so."""

import dataclasses
import json
import math
import runpy
from pathlib import Path
from typing import Any

import jsonschema
import numpy as np
import pytest
from papers import checks, shed

from lapwright.packet.planjson import plan_bytes, plan_dict
from lapwright.packet.planschema import plan_schema
from lapwright.verdict import Check, Step

ROOT = Path(__file__).parents[2]


def read() -> dict[str, Any]:
    """The shed's plan as a JSON reader gives it, refusing numbers that JSON does not have."""

    def refuse(text: str) -> None:
        raise AssertionError(text)

    found: dict[str, Any] = json.loads(plan_bytes(shed()), parse_constant=refuse)
    return found


def closed(schema: Any) -> Any:
    """The schema with every object of named keys closed: a key that it does not name is then an error."""
    if isinstance(schema, list):
        return [closed(one) for one in schema]
    if not isinstance(schema, dict):
        return schema
    inner = {key: closed(value) for key, value in schema.items()}
    return {**inner, "additionalProperties": False} if "properties" in inner and "required" in inner else inner


def test_first_keys_are_the_promised_ones_in_order() -> None:
    """The keys of the file format stand first, in its order, and the schema name is the promised one."""
    plan = read()
    assert list(plan)[:13] == [
        *("schema", "job", "areas", "plies", "details", "laps", "tjoints", "rolls", "layout"),
        *("order", "days", "checks", "warnings"),
    ]
    assert plan["schema"] == "lapwright.plan/1"


def test_schema_is_one_and_every_key_written_is_in_it() -> None:
    """The plan is valid under its schema (draft 2020-12), also when no key beyond those named is let through."""
    jsonschema.Draft202012Validator.check_schema(plan_schema())
    strict = jsonschema.Draft202012Validator(closed(plan_schema()), format_checker=jsonschema.FormatChecker())
    assert [error.message for error in strict.iter_errors(read())] == []


@pytest.mark.parametrize("key", ["laps", "job", "checks"])
def test_a_plan_that_lacks_a_key_is_not_valid(key: str) -> None:
    """The schema is not one that lets anything pass."""
    plan = read()
    del plan[key]
    assert not jsonschema.Draft202012Validator(plan_schema()).is_valid(plan)


def test_published_schema_is_current() -> None:
    """docs/plan.schema.json is what tools/make_plan_schema.py writes now."""
    made = runpy.run_path(str(ROOT / "tools" / "make_plan_schema.py"))["schema_text"]()
    assert (ROOT / "docs" / "plan.schema.json").read_text(encoding="utf-8") == made


def test_a_piece_in_metres() -> None:
    """A piece of 2 m by 1 m at 4 m: its blank's corners, its corner cut and what is cut off the roll."""
    piece = read()["plies"][1]["pieces"][1]
    assert piece == {
        "id": "Main/cap/01/2",
        "course": 1,
        "sequence": 4,
        "roll": "cap-sa 1",
        "length": 2.0,
        "width": 1.0,
        "blank": [[4.0, 0.0], [6.0, 0.0], [6.0, 1.0], [4.0, 1.0]],
        "corner_cuts": [{"corner": [4.0, 0.0], "along": 0.14, "across": 0.1}],
        "place": 2,
        "cut_length": 2.0,
    }


def test_rolls_used_and_left_make_the_roll() -> None:
    """18.01 m used of a 20 m roll leave 1.99 m; the cut length counts, not the length laid."""
    assert read()["rolls"][0] == {
        "id": "base-sa 1",
        "sheet": "base-sa",
        "pieces": ["Main/base/01/1", "Main/base/02/1", "Main/side 1/strip/1"],
        "used": 18.01,
        "left": 1.99,
    }


def test_tie_off_runs_through_its_points() -> None:
    """Two lines that meet are three points; a day without tie-off has none; dates are ISO texts."""
    first, second = read()["days"]
    assert first["tie_off"] == [[0.0, 1.0], [6.0, 1.0], [6.0, 0.0]]
    assert (second["tie_off"], second["date"], second["weather_date"]) == ([], "2027-01-12", "1998-01-12")


def test_rules_are_si_and_keep_their_origin() -> None:
    """16" typed in the job is 0.4064 m by definition of the inch; the default and the origin stay beside it."""
    rules = read()["rules"]
    assert (rules["ply_offset"]["value"], rules["ply_offset"]["unit"]) == (0.4064, "m")
    assert (rules["ply_offset"]["origin"], rules["ply_offset"]["default"]) == ("job file", '18"')
    assert (rules["dry_after_wet"]["value"], rules["dry_after_wet"]["unit"]) == (86400.0, "s")
    assert rules["wind_sheets"]["unit"] == "m/s"
    assert rules["limits_hold_for"]["value"] == "air_and_surface"


def test_an_unknown_check_says_what_to_supply() -> None:
    """Status, demand and the missing keys of an unknown check are kept."""
    check = read()["checks"][2]
    assert (check["status"], check["demand"], check["supply"]) == ("unknown", None, ["site.rain_secondary"])


def test_numbers_are_not_rounded_and_never_minus_zero() -> None:
    """A third of a pascal keeps its digits; fall vectors typed as -0.0 are written 0.0."""
    check = dataclasses.replace(checks()[0], demand=1 / 3)
    plan = plan_bytes(shed(checks=(check,))).decode()
    assert '"demand": 0.3333333333333333,' in plan
    assert "-0.0," not in plan


def test_values_that_json_does_not_have_become_null_or_plain() -> None:
    """Infinity is null, numpy numbers are numbers, tuples are lists: a step may hold any of them."""
    step = Step("x", "", {"a": math.inf, "b": np.float64(1.5), "c": (1, 2), "d": np.int64(7), "e": None}, math.nan, "")
    plan = plan_dict(shed(checks=(Check("x", "x", "pass", steps=(step,)),)))
    assert plan["checks"][0]["steps"][0]["values"] == {"a": None, "b": 1.5, "c": [1, 2], "d": 7, "e": None}
    assert plan["checks"][0]["steps"][0]["result"] is None


def test_same_paper_same_bytes_and_lines_stay_readable() -> None:
    """Two writings are equal, one entry stands on a line, and the text ends with a line feed."""
    first, second = plan_bytes(shed()), plan_bytes(shed())
    assert first == second
    assert first.endswith(b"}\n")
    assert sum(line.startswith('  {"id": "Main/cap/01') for line in first.decode().splitlines()) == 3
