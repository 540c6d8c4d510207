"""A layout as built against its job: what breaks which rule, where, and the mend; odd files are told as faults."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from planned_jobs import lapwright

from lapwright.faults import Refused
from lapwright.plan.asbuilt import AsBuilt, check_layout

Json = dict[str, Any]
JOB = """\
job: {name: Small, number: 1, date: 2026-12-01}
roof:
  - area: Main
    outline: E 60', N 24', W 60', S 24'
    falls: S
    slope: 1/4 in 12
    edges:
      - {sides: 1, kind: metal_edge, metal: {kind: galvanised, gauge: 24, face: 5", flange: 4"}}
      - {sides: 2-4, kind: parapet, height: 14"}
    drains:
      - {name: D-1, kind: drain, at: E 45' N 12', diameter: 4"}
assembly:
  plies:
    - {ply: base, sheet: b}
    - {ply: cap, sheet: c}
sheets:
  b: {width: 39 3/8", length: 65' 7", side_lap: 3", end_lap: 6"}
  c: {width: 39 3/8", length: 32' 10", side_lap: 3", end_lap: 6"}
"""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Json]:
    """The job's file, and its own plan."""
    folder = tmp_path_factory.mktemp("built")
    (folder / "job.yaml").write_text(JOB, encoding="utf-8")
    done = lapwright("plan", "job.yaml", "--out", "out", "--quiet", cwd=folder)
    assert done.returncode in (0, 1), done.stderr
    return folder / "job.yaml", json.loads((folder / "out/plan.json").read_text(encoding="utf-8"))


def judged(built: tuple[Path, Json], change: Callable[[Json], object]) -> AsBuilt:
    """What the checker says of the plan once it is changed."""
    job, plan = built
    changed = copy.deepcopy(plan)
    change(changed)
    return judged_text(job, json.dumps(changed).encode())


def judged_text(job: Path, text: bytes) -> AsBuilt:
    """What it says of a file."""
    (job.parent / "built.json").write_bytes(text)
    return check_layout(job, job.parent / "built.json")


def refused(job: Path, text: bytes) -> str:
    """The refusal, as told."""
    with pytest.raises(Refused) as caught:
        judged_text(job, text)
    return caught.value.text()


def cap(plan: Json, place: int = 3) -> Json:
    """A piece of the cap."""
    piece: Json = plan["plies"][1]["pieces"][place]
    return piece


def shifted(plan: Json, east: float, north: float) -> None:
    """A piece of the cap laid elsewhere, its list of laps as it was."""
    for corner in cap(plan)["blank"]:
        corner[0] += east
        corner[1] += north


def swapped(plan: Json) -> None:
    """Two pieces laid in each other's turn."""
    one, two = cap(plan, 0), cap(plan, 5)
    one["sequence"], two["sequence"] = two["sequence"], one["sequence"]


def without(plan: Json, kind: str) -> None:
    """All details of a kind taken away."""
    plan["details"] = [each for each in plan["details"] if each["kind"] != kind]


CHANGES = {
    "moved along": (lambda plan: shifted(plan, 0.5, 0.0), "coverage: Each ply covers its ground without a gap"),
    "moved up": (lambda plan: shifted(plan, 0.0, 0.03), "side_lap: Side laps are as wide as the sheet asks"),
    "missing": (lambda plan: plan["plies"][1]["pieces"].pop(3), "coverage: Each ply covers its ground without a gap"),
    "wrong roll": (lambda plan: cap(plan).update(roll=cap(plan, 9)["roll"]), "roll: Every piece is cut from one roll"),
    "turned round": (
        swapped,
        "laying_order: Pieces are laid from the low edge up, ply by ply, so that every lap sheds water",
    ),
    "no targets": (
        lambda plan: without(plan, "target"),
        "drain_flashed: Every drain has its metal and targets, every pipe and scupper its flashing and strips",
    ),
    "no joint": (
        lambda plan: plan["tjoints"].pop(),
        "tjoint: The list of T-joints holds every place where one lap meets another",
    ),
    "no lap": (lambda plan: plan["laps"].pop(0), "lap: The list of laps holds every lap, each as it lies"),
    "other sheet": (
        lambda plan: plan["plies"][1].update(sheet="b"),
        "area: The plan is of this job: its areas, their plies and their sheets",
    ),
}


def test_a_plan_as_it_was_made_breaks_nothing(built: tuple[Path, Json]) -> None:
    """Its own rules are kept; the order of the plies in the list is of no matter, nor is a mark at its start."""
    job, plan = built
    assert judged(built, lambda _: None) == AsBuilt(0, 0, ())
    assert judged(built, lambda changed: changed["plies"].reverse()) == AsBuilt(0, 0, ())
    assert judged_text(job, b"\xef\xbb\xbf" + json.dumps(plan).encode()) == AsBuilt(0, 0, ())


@pytest.mark.parametrize("name", CHANGES)
def test_a_change_breaks_its_rule(built: tuple[Path, Json], name: str) -> None:
    """The rule is told by name and words, under it the places; every other line is a place."""
    change, rule = CHANGES[name]
    found = judged(built, change)
    heads = [line for line in found.lines if not line.startswith("  ")]
    assert rule in heads
    assert (len(heads), len(found.lines) - len(heads)) == (found.rules, found.places)


def test_a_gap_is_told_with_its_place(built: tuple[Path, Json]) -> None:
    """The cap of a roof 60' wide ends 2' short at its east side, 3' up: the gap's width, place and mend."""
    lines = judged(built, lambda plan: plan["plies"][1]["pieces"].pop(0)).lines
    assert any(line.startswith("  at E ") and "leaves a gap" in line and "lengthen or add" in line for line in lines)


def scaled(value: Any, by: float) -> Any:
    """Every fraction in a plan multiplied."""
    if isinstance(value, list):
        return [scaled(each, by) for each in value]
    if isinstance(value, dict):
        return {key: scaled(each, by) for key, each in value.items()}
    return value * by if isinstance(value, float) else value


def test_a_layout_in_another_unit_is_questioned(built: tuple[Path, Json]) -> None:
    """60 ft are 18.288 m, 18,288 mm."""
    job, plan = built
    assert refused(job, json.dumps(scaled(plan, 1000)).encode()) == (
        "built.json  areas\n"
        "  read:   Main 18,288 across\n"
        "  needs:  lengths in metres, 18.288; is the layout in millimetres?\n"
        "  write:  every length in metres"
    )
    assert "Main 60 across" in refused(job, json.dumps(scaled(plan, 1 / 0.3048)).encode())


SHAPED = "\n  write:  a file shaped like plan.json"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (b"", "built.json:1:1\n  needs:  JSON from here on" + SHAPED),
        (b'{"plies": [', "built.json:1:12\n  needs:  JSON from here on" + SHAPED),
        (b"[1]", "built.json:1:1\n  read:   [1]\n  needs:  one JSON object" + SHAPED),
        (b'{\n "a": NaN}', "built.json:2:7\n  read:   NaN\n  needs:  finite numbers" + SHAPED),
        (b'{"a": 1,\n "a": 2}', 'built.json:1:2\n  read:   "a"\n  needs:  each key of an object once' + SHAPED),
        (
            b"\xff\xfe{",
            "built.json\n  needs:  JSON in UTF-8, of numbers and depths as plan.json has them" + SHAPED,
        ),
        (
            b"[" * 100_000,
            "built.json\n  needs:  JSON in UTF-8, of numbers and depths as plan.json has them" + SHAPED,
        ),
        (b"{}", "built.json  areas\n  needs:  a value; the key is missing" + SHAPED),
        (b'{"areas": [], "plies": 7}', "built.json  plies\n  read:   7\n  needs:  a list" + SHAPED),
        (
            b'{"schema": "lapwright.plan/2"}',
            "built.json  schema\n"
            "  read:   lapwright.plan/2\n"
            "  needs:  a layout in this version's form; make the plan anew and carry over what was laid\n"
            '  write:  "schema": "lapwright.plan/1"',
        ),
    ],
)
def test_files_that_are_no_layout(built: tuple[Path, Json], text: bytes, told: str) -> None:
    """Empty, cut off, a list, no number, a key twice, other encodings, too deep, no keys, other kinds or version."""
    assert refused(built[0], text) == told


@pytest.mark.parametrize(
    ("key", "value", "read", "needs"),
    [
        ("length", "3 m", '"3 m"', "a number of metres"),
        ("length", True, "true", "a number of metres"),
        ("width", 1e9, "1000000000.0", "a number of metres, finite and below 1,000 km"),
        ("course", 1.5, "1.5", "a whole number"),
        ("blank", [[0, 0]], "a list of 1", "a list of 4"),
        ("id", None, "null", "a text"),
    ],
)
def test_values_of_another_kind(built: tuple[Path, Json], key: str, value: object, read: str, needs: str) -> None:
    """The path to the value, what stands there, what is needed."""
    job, plan = built
    changed = copy.deepcopy(plan)
    cap(changed)[key] = value
    assert refused(job, json.dumps(changed).encode()) == (
        f"built.json  plies[1].pieces[3].{key}\n  read:   {read}\n  needs:  {needs}{SHAPED}"
    )


def test_the_command_counts_rules_and_places(built: tuple[Path, Json]) -> None:
    """Status 0 and no rule broken; 1, one rule at one place; 2 for a file that can't be read."""
    job, plan = built
    (job.parent / "built.json").write_text(json.dumps(plan), encoding="utf-8")
    done = lapwright("check", "--layout", "built.json", "job.yaml", cwd=job.parent)
    assert (done.returncode, done.stdout) == (0, "built.json: no rule broken\n")
    plan = copy.deepcopy(plan)
    plan["tjoints"].pop()
    (job.parent / "built.json").write_text(json.dumps(plan), encoding="utf-8")
    done = lapwright("check", "--layout", "built.json", "job.yaml", cwd=job.parent)
    assert done.returncode == 1
    assert done.stdout.splitlines()[-1] == "built.json: 1 rule broken, at 1 place"
    (job.parent / "built.json").write_text("{", encoding="utf-8")
    done = lapwright("check", "--layout", "built.json", "job.yaml", cwd=job.parent)
    assert (done.returncode, "Traceback" in done.stderr) == (2, False)


def test_what_was_mended_on_the_way_in_is_counted(tmp_path: Path) -> None:
    """The example with a drawing that says no unit and has a round corner."""
    done = lapwright("check", "examples/dye-works.yaml")
    assert done.returncode == 0
    count = done.stderr.count("mended  ")
    assert done.stdout.splitlines()[-1] == f"dye-works.yaml: can be used; mended on the way in: {count}, as told above"
    assert count > 0
