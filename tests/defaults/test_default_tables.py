"""Tables of defaults: whole, and each row with a unit that is known and an origin."""

from __future__ import annotations

from pathlib import Path

import pytest

import lapwright.defaults.table as tables
from lapwright.defaults.table import Row, table

FOLDER = Path(tables.__file__).parent
NAMES = sorted(path.stem for path in FOLDER.glob("*.csv"))


@pytest.mark.parametrize("name", NAMES)
def test_every_table_is_whole(name: str) -> None:
    """Each table loads, is not empty, and says the source of what is published."""
    rows = table(name)
    assert rows
    assert [row.name for row in rows.values() if row.origin == "published" and not row.source] == []
    assert [row.name for row in rows.values() if not row.value.strip()] == []


def test_a_table_is_read_once_and_can_not_be_changed() -> None:
    """The same mapping every time, without a way to write to it."""
    assert table("rules") is table("rules")
    with pytest.raises(TypeError):
        table("rules")["ply_offset"] = table("rules")["cant"]


@pytest.mark.parametrize(
    ("value", "unit", "expected"),
    [("18", '"', '18"'), ("3", "'", "3'"), ("5", "F", "5 F"), ("1", "", "1"), ("air", "", "air")],
)
def test_a_row_as_text(value: str, unit: str, expected: str) -> None:
    """A row reads as a job file has it."""
    assert Row("x", value, unit, "maker", "", "").text == expected


@pytest.mark.parametrize(
    "text",
    [
        "name,value,unit,origin,source\nx,1,m,maker,y\n",
        "name,value,unit,origin,source,note\nx,1,m,maker,y\n",
        "name,value,unit,origin,source,note\nx,1,m,maker,y,z,more\n",
        "name,value,unit,origin,source,note\nx,1,m,hearsay,y,\n",
        "name,value,unit,origin,source,note\nx,1,m,maker,y,\nx,2,m,maker,y,\n",
    ],
    ids=["column missing", "cell missing", "cell too many", "origin unknown", "name twice"],
)
def test_a_table_that_is_not_whole_is_a_bug(text: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A broken table of ours stops at once."""
    (tmp_path / "broken.csv").write_text(text, encoding="utf-8")
    monkeypatch.setattr(tables.resources, "files", lambda package: tmp_path)
    with pytest.raises(ValueError, match=r"broken\.csv"):
        table.__wrapped__("broken")
