"""Two versions of a job side by side, held to counts by pencil; what-ifs, steps and other files as versions."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from small_job import REST

import lapwright.plan.desk.stages as stages_room
from lapwright.faults import Refused
from lapwright.plan.desk.folder import Folder
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.desk.versions import version_asked, versions_listed
from lapwright.plan.desk.whatif import whatif_edits, whatif_fields
from lapwright.plan.make import lay_out
from lapwright.plan.views.compare import view
from lapwright.plan.views.sides import Row, amount, dated, more_or_fewer, worded
from lapwright.plan.views.sidesfile import key_rows

JOB = (
    """\
job: {name: Pencil}   # kept
roof:
  - area: Main
    outline: E 27'8", N 9'6", W 27'8", S 9'6"
    falls: S
    slope: 1/4 in 12
"""
    + REST
    + """\
crew: {start: 2027-01-11}
prices: {c: $104}
"""
)


class Quiet:
    """Nobody listens."""

    def __call__(self, words: str) -> None:
        """A step is done."""

    def draft(self, value: Any) -> None:  # plain values of any shape
        """A first answer."""


def compared(path: Path, options: Mapping[str, str], text: str = JOB) -> dict[str, Any]:
    """The view."""
    path.write_text(text, encoding="utf-8")
    return view(Stages(), JobAsk(text, path), options, Quiet())


def what_if(values: Mapping[str, str]) -> dict[str, str]:
    """The options of a what-if."""
    return {"with": "what-if", "values": json.dumps(values)}


def rows(found: dict[str, Any]) -> dict[str, list[str]]:
    """Every row by its words."""
    return {row[0]: row[1:] for group in found["groups"] for row in (*group["changed"], *group["same"])}


# By pencil.  Depth 9'6" = 114": three courses cover 39 3/8" + 2 x 36 3/8" = 112 1/8", four cover 148 1/2", so either
# ply needs four however wide its first course is (5" would do).  A course is 27'8" long: one from a roll of 32' 10",
# two from one of 65' 7" (55'4"), two pieces with an end lap of rolls of 20'.
def test_a_longer_roll_by_pencil(tmp_path: Path) -> None:
    """Four courses of cap from four rolls; of longer ones from two, so 2 x $104 = $208 less; no lap differs."""
    found = rows(compared(tmp_path / "job.yaml", what_if({"sheets.c.length": "65' 7\""})))
    assert found["Rolls of c"] == ["4", "2", "2 fewer"]
    assert found["c"][2] == "2 rolls less"
    assert found["Priced lines of the order"][2] == "$208.00 less"
    assert found["End laps"] == ["0", "0", ""]
    assert found["sheets.c.length"] == ["32' 10\"", "65' 7\"", "changed"]
    assert found["sheets.b.length"] == ["65' 7\"", "65' 7\"", ""]


def test_a_shorter_roll_by_pencil(tmp_path: Path) -> None:
    """Each of the four courses of cap takes a piece and an end lap more."""
    found = rows(compared(tmp_path / "job.yaml", what_if({"sheets.c.length": "20'"})))
    assert found["Pieces"] == ["8", "12", "4 more"]
    assert found["End laps"] == ["0", "4", "4 more"]
    assert found["Courses"] == ["8", "8", ""]


def test_a_third_ply(tmp_path: Path) -> None:
    """An interply of the base's sheet: four courses more, and of the cap nothing changes."""
    found = compared(tmp_path / "job.yaml", what_if({"assembly.plies": "3"}))
    told = rows(found)
    assert told["Courses"] == ["8", "12", "4 more"]
    assert told["Rolls of c"] == ["4", "4", ""]
    assert told["assembly.plies[interply].sheet"] == ["–", "b", "only in the other"]
    assert found["keep"] == [
        {
            "edit": "add",
            "path": "assembly.plies",
            "values": {"ply": "interply", "sheet": "b", "attachment": "self_adhered"},
        },
        {"edit": "move", "path": "assembly.plies[2]", "to": 1},
    ]


def test_another_way_of_falling(tmp_path: Path) -> None:
    """Falling east, the courses lie side by side over 27'8" = 332": nine cover 330 3/8", so either ply needs ten."""
    found = rows(compared(tmp_path / "job.yaml", what_if({"roof[0].falls": "E"})))
    assert found["Courses"] == ["8", "20", "12 more"]
    assert found["Pieces"] == ["8", "20", "12 more"]


def test_another_start_lays_nothing_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two versions of one roof have one layout; a longer roll makes a second one, and asked again none."""
    laid: list[float] = []

    def counted(*given: Any, **more: Any) -> Any:
        laid.append(1)
        return lay_out(*given, **more)

    monkeypatch.setattr(stages_room, "lay_out", counted)
    path, stages = tmp_path / "job.yaml", Stages()
    path.write_text(JOB, encoding="utf-8")
    for values, times in (
        ({"crew.start": "2027-02-01"}, 1),
        ({"sheets.c.length": "20'"}, 2),
        ({"assembly.plies": "2"}, 2),
    ):
        view(stages, JobAsk(JOB, path), what_if(values), Quiet())
        assert len(laid) == times
    view(stages, JobAsk(JOB, path), what_if({"sheets.c.length": "20'"}), Quiet())
    assert len(laid) == 2


def test_the_same_is_said(tmp_path: Path) -> None:
    """A what-if of the values as they are lays nothing anew."""
    found = compared(tmp_path / "job.yaml", what_if({"sheets.c.length": "32' 10\"", "crew.start": "  "}))
    assert (found["is_same"], found["groups"]) == (True, [])


def test_a_what_if_that_cannot_be_planned_tells_where(tmp_path: Path) -> None:
    """The fault bears the path of the field; the job itself stays as it was."""
    found = compared(tmp_path / "job.yaml", what_if({"sheets.c.length": "20"}))
    assert [fault["key"] for fault in found["faults"]] == ["sheets.c.length"]
    assert found["keep"] == []
    assert (tmp_path / "job.yaml").read_text(encoding="utf-8") == JOB


def test_steps_and_files_are_versions(tmp_path: Path) -> None:
    """Before a step, with what was taken back, and another file; the comments go with the whole text."""
    path = tmp_path / "job.yaml"
    path.write_text(JOB, encoding="utf-8")
    folder = Folder(tmp_path)
    standing = folder.read("job")
    longer = JOB.replace("65' 7\"", "50'")
    standing = folder.change("job", standing.file.digest, lambda _: longer, "shorter base")
    listed = versions_listed(path, longer)
    assert [each["words"] for each in listed["steps"]] == ["before: shorter base"]
    step = {"with": "step", "of": listed["steps"][0]["key"]}
    assert version_asked(path, longer, step).text == JOB
    folder.undo("job", standing.file.digest)
    back = versions_listed(path, JOB)["steps"]
    assert [each["words"] for each in back] == ["with what was taken back: shorter base"]
    assert version_asked(path, JOB, {"with": "step", "of": back[0]["key"]}).text == longer
    (tmp_path / "other.yaml").write_text(longer, encoding="utf-8")
    assert [each["name"] for each in versions_listed(path, JOB)["files"]] == ["other"]
    other = version_asked(path, JOB, {"with": "file", "of": "other"})
    assert other.keep == [{"edit": "text", "text": longer}]
    assert rows(compared(path, {"with": "file", "of": "other"}))["sheets.b.length"][2] == "changed"


@pytest.mark.parametrize(
    "options",
    [
        {},
        {"with": "file", "of": "../secret"},
        {"with": "file", "of": "nobody"},
        {"with": "file", "of": "x" * 5000},
        {"with": "step", "of": "0" * 20},
        {"with": "what-if"},
        {"with": "what-if", "values": "[" * 100_000},
        {"with": "what-if", "values": '{"job.name": "other"}'},
        {"with": "what-if", "values": '{"crew.start": 5}'},
        {"with": "what-if", "values": json.dumps({"crew.start": "1" * 300})},
        {"with": "what-if", "values": json.dumps({str(k): "1" for k in range(200)})},
        {"with": "what-if", "values": '{"assembly.plies": "4"}'},
    ],
)
def test_no_other_version_is_made(tmp_path: Path, options: dict[str, str]) -> None:
    """A name that leads elsewhere, a step that is none, a what-if of other keys or shapes."""
    with pytest.raises(Refused) as refused:
        compared(tmp_path / "job.yaml", options)
    assert all(len(fault.read) < 300 for fault in refused.value.faults)


@pytest.mark.parametrize("text", ["", "roof: 5", "assembly: {plies: [1, 2]}", ": :", "crew: [", "roof: [{falls: S}]"])
def test_fields_of_any_text(text: str) -> None:
    """A faulty job has the fields that it has."""
    assert [field["path"] for field in whatif_fields(text)][-2:] == ["crew.start", "layout.aim"]
    assert whatif_edits(text, {"crew.start": "2027-02-01"}) == [
        {"edit": "set", "path": "crew.start", "value": "2027-02-01"}
    ]


def test_differences_in_words() -> None:
    """More, fewer, less, later, earlier, only in one."""
    assert more_or_fewer("a", 3, 5).change == "2 more"
    assert more_or_fewer("a", 5, 3).change == "2 fewer"
    assert more_or_fewer("a", None, 3) == Row("a", "–", "3", "only in the other")
    assert more_or_fewer("a", 3, None).change == "not in the other"
    assert more_or_fewer("a", None, None).change == ""
    assert amount("a", 2.0, 1.5, lambda value: f"${value:.2f}").change == "$0.50 less"
    monday, sunday = dt.date(2027, 1, 11), dt.date(2027, 1, 10)
    assert dated("a", monday, sunday, str).change == "1 day earlier"
    assert dated("a", sunday, dt.date(2027, 1, 12), str).change == "2 days later"
    assert worded("a", "x", "y").change == "changed"


def test_one_curb_more_shifts_no_other() -> None:
    """Openings are known by their names, so the second one is new and the first the same."""
    one = "roof:\n  - area: Main\n    openings:\n      - {name: A, kind: curb}\n"
    two = one.replace("      - {name: A", "      - {name: B, kind: hatch}\n      - {name: A")
    changed = [row for row in key_rows(one, two) if row.change]
    assert [row.what for row in changed] == ["roof[Main].openings[B].name", "roof[Main].openings[B].kind"]
