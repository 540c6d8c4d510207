"""Drawings that a job names are read by a process with limits, once, and what is found is what is found here."""

from __future__ import annotations

import os
import shutil
import threading
from pathlib import Path
from typing import Any

import pytest
from small_job import REST

from lapwright.faults import Refused
from lapwright.job.reading import job_text, read_job
from lapwright.plan.describe import apart, given
from lapwright.plan.describe.apart import Apart
from lapwright.plan.desk.judging import faults_of
from lapwright.plan.drawings import HERE
from lapwright.plan.roofs import build_roofs

EXAMPLES = Path(__file__).parents[2] / "examples"
DRAWN = ["dye-works", "tannery-yard"]
OWN = (
    """\
job: {name: Own}
units: us
roof:
  - area: A
    outline: {geojson: below/own.geojson, feature: A, units: ft}
    falls: S
    slope: 1/4 in 12
"""
    + REST
)
SQUARE = (
    '{"type": "FeatureCollection", "features": [{"type": "Feature", "properties": {"name": "A"}, '
    '"geometry": {"type": "Polygon", "coordinates": [[[0, 0], [30, 0], [30, 20], [0, 20], [0, 0]]]}}]}'
)


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A job whose outline stands in a map in a folder below it."""
    (tmp_path / "below").mkdir()
    (tmp_path / "below/own.geojson").write_text(SQUARE, encoding="utf-8")
    path = tmp_path / "own.yaml"
    path.write_text(OWN, encoding="utf-8")
    return path


@pytest.mark.parametrize("name", DRAWN)
def test_apart_finds_what_is_found_here(name: str) -> None:
    """The roofs of the examples that are drawn, an areas' plan and an outline of its own."""
    text = job_text((EXAMPLES / f"{name}.yaml").read_bytes(), file=name)
    job = read_job(text, file=name)
    assert build_roofs(job, EXAMPLES, Apart()) == build_roofs(job, EXAMPLES, HERE)


def test_a_folder_below_the_job_is_looked_in(own: Path) -> None:
    """The square of 30 by 20 feet, in whole ticks: 80 to the millimetre."""
    roofs = build_roofs(read_job(OWN, file="own.yaml"), own.parent, Apart())
    foot = 24_384
    assert set(roofs.areas[0].outline) == {(0, 0), (30 * foot, 0), (30 * foot, 20 * foot), (0, 20 * foot)}


def test_a_drawing_is_read_once_until_it_changes(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same file is not asked for again; another time of it is."""
    asked: list[str] = []
    look = given.look

    def counted(what: str, path: Path, name: str, more: Any = None) -> Any:
        asked.append(name)
        return look(what, path, name, more)

    monkeypatch.setattr(apart, "look", counted)
    job, drawings = read_job(OWN, file="own.yaml"), Apart()
    build_roofs(job, own.parent, drawings)
    build_roofs(job, own.parent, drawings)
    assert asked == ["below/own.geojson"]
    os.utime(own.parent / "below/own.geojson", (1, 1))
    build_roofs(job, own.parent, drawings)
    assert asked == ["below/own.geojson"] * 2


def test_faults_read_the_same(own: Path) -> None:
    """A feature that is not there, a map that is none, a file that is missing: told as the command line tells them."""
    drawing = own.parent / "below/own.geojson"
    told = []
    for content in (SQUARE.replace('"A"', '"B"'), "{", None):
        if content is None:
            drawing.unlink()
        else:
            drawing.write_text(content, encoding="utf-8")
        both = []
        for drawings in (HERE, Apart()):
            with pytest.raises(Refused) as refused:
                build_roofs(read_job(OWN, file="own.yaml"), own.parent, drawings)
            both.append(refused.value.faults)
        assert both[0] == both[1]
        told.append(both[0])
    assert len({faults[0].needs for faults in told}) == 3


def test_a_drawing_that_takes_too_long_is_told_and_kept(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The process is ended; the fault names the drawing, and the next question does not wait for it again."""
    monkeypatch.setattr(given, "LONGEST_S", 0.0)
    monkeypatch.setattr("lapwright.plan.desk.judging.APART", Apart())
    faults = faults_of(OWN, own)
    assert [(fault.file, fault.needs) for fault in faults] == [
        ("below/own.geojson", "a file that can be read within 30 seconds and 2 GB of memory")
    ]
    monkeypatch.setattr(apart, "look", None)
    assert faults_of(OWN + "# another text\n", own) == faults


def test_a_deep_map_ends_only_the_process_that_reads_it(own: Path) -> None:
    """Brackets nested a million deep are a fault of that file."""
    (own.parent / "below/own.geojson").write_text("[" * 1_000_000, encoding="utf-8")
    faults = faults_of(OWN, own)
    assert [fault.file for fault in faults] == ["below/own.geojson"]


def test_few_are_read_at_once(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Five drawings asked for together are read by two processes at a time."""
    running, most, lock = [0], [0], threading.Lock()
    together = threading.Barrier(2)

    def slow(what: str, path: Path, name: str, more: Any = None) -> str:
        with lock:
            running[0] += 1
            most[0] = max(most[0], running[0])
        if name != "4":
            together.wait(timeout=20)
        with lock:
            running[0] -= 1
        return name

    monkeypatch.setattr(apart, "look", slow)
    drawings, path = Apart(), own.parent / "below/own.geojson"
    threads = [threading.Thread(target=drawings.read, args=("outline", path, str(k), (k,))) for k in range(5)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=30)
    assert most[0] == 2
    assert not any(thread.is_alive() for thread in threads)


def test_no_process_to_be_had_is_told_and_asked_for_again(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A system without room for one more process: a fault now, the drawing the next time."""

    def refuse(*_: Any) -> None:
        raise OSError(11, "Resource temporarily unavailable")

    drawings, job = Apart(), read_job(OWN, file="own.yaml")
    with monkeypatch.context() as without:
        without.setattr(apart, "look", refuse)
        with pytest.raises(Refused) as refused:
            build_roofs(job, own.parent, drawings)
    assert refused.value.faults[0].needs == "a process that reads drawings, which could not be begun"
    assert len(build_roofs(job, own.parent, drawings).areas) == 1


def test_copies_of_one_drawing_are_each_their_own(own: Path, tmp_path: Path) -> None:
    """Two folders with drawings of one name: each job finds its own."""
    other = tmp_path / "other"
    shutil.copytree(own.parent / "below", other / "below")
    (other / "below/own.geojson").write_text(SQUARE.replace("30", "60"), encoding="utf-8")
    drawings, job = Apart(), read_job(OWN, file="own.yaml")
    wide = [max(x for x, _ in build_roofs(job, folder, drawings).areas[0].outline) for folder in (own.parent, other)]
    assert wide == [30 * 24_384, 60 * 24_384]
