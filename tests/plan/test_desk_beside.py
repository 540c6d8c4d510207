"""The files beside a job: those that its text names are looked at, and nothing else."""

from __future__ import annotations

import inspect
import os
import re
from pathlib import Path

import pytest

from lapwright.job import area_models, models, outline_models
from lapwright.plan.desk.beside import KEYS, beside_it


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("weather: {file: site.epw}\n", "site.epw"),
        ("weather:\n  file: site.epw   # of the airport\n", "site.epw"),
        ("outline: {dxf: plans/roof.dxf, layer: R}\n", "plans/roof.dxf"),
        ("outline: {geojson: 'the owner''s.json', layer: R}\n", "the owner's.json"),
        ('outline: {"dxf": "a, b.dxf"}\n', "a, b.dxf"),
        ("dxf: a, b.dxf\n", "a, b.dxf"),
        ("dxf: my roof#2.dxf\n", "my roof#2.dxf"),
        ("dxf:\n  roof.dxf\n", "roof.dxf"),
    ],
)
def test_a_file_that_is_named_is_noticed_when_it_changes(text: str, name: str, tmp_path: Path) -> None:
    """However the name is written; another size is another reading."""
    path = tmp_path / name
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(b"12345")
    before = beside_it(text, tmp_path)
    assert [(found, size) for found, size, _ in before] == [(name, 5)]
    path.write_bytes(b"123456")
    assert beside_it(text, tmp_path) != before


def test_every_key_that_names_a_file_is_known() -> None:
    """The job's models declare such keys as `file_beside`."""
    said = "".join(inspect.getsource(module) for module in (area_models, models, outline_models))
    assert set(re.findall(r"(\w+): Annotated\[[^\]]*file_beside\(", said)) == set(KEYS)


def test_the_folder_itself_is_not_looked_through(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It may hold anything, in any number."""

    def looked(*_: object) -> None:
        raise AssertionError("the folder was listed")

    monkeypatch.setattr(os, "scandir", looked)
    monkeypatch.setattr(os, "listdir", looked)
    assert beside_it("weather: {file: site.epw}\n", tmp_path) == ()


def test_texts_made_to_be_slow_are_not() -> None:
    """A megabyte of commas, of spaces, of keys: a few hundred names at most are asked for."""
    for text in ("file: " + "," * 10**6, "file: x" + " " * 10**6, "file: x\n" * 10**5, "file" + " " * 10**6):
        assert beside_it(text, Path("/nowhere")) == ()
