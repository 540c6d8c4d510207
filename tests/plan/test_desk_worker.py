"""The planning process: asked, heard, stopped, ended and begun anew."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from small_job import JOB

from lapwright.plan.desk.stages import JobAsk
from lapwright.plan.desk.worker import Question, Worker

LARGE = JOB.replace("E 30', N 12', W 30', S 12'", "E 700', N 400', W 700', S 400'")


@pytest.fixture(scope="module")
def worker() -> Iterator[Worker]:
    """One process for all of these tests."""
    found = Worker()
    found.start()
    yield found
    found.end()


def ask(worker: Worker, folder: Path, text: str = JOB, view: str = "roof") -> Question:
    """A question about a job."""
    return worker.ask(view, JobAsk(text, folder / "small.yaml"))


def last(question: Question) -> tuple[str, object]:
    """How it ended."""
    said = list(question.heard())[-1]
    return said.kind, said.value


def test_an_answer_comes_with_a_first_layout_before(worker: Worker, tmp_path: Path) -> None:
    """A draft, words, then the whole; the same question again is answered at once and without a draft."""
    said = list(ask(worker, tmp_path).heard())
    assert [each.kind for each in said] == ["draft", "tell", "done"]
    whole = json.loads(said[-1].value)
    assert whole["draft"] is False
    assert json.loads(said[0].value)["draft"] is True
    # 30' by 12': four courses of 36 3/8" in each ply, one piece each of at most 33' (common practice, no source).
    assert {len(ply["pieces"]) for ply in whole["plies"]} <= {4, 5}
    assert [each.kind for each in ask(worker, tmp_path).heard()] == ["done"]


def test_what_can_t_be_planned_is_told_as_faults(worker: Worker, tmp_path: Path) -> None:
    """A job without sheets."""
    kind, faults = last(ask(worker, tmp_path, "job: {name: x}\n"))
    assert kind == "refused"
    assert "roof" in {fault.key for fault in faults}  # type: ignore[attr-defined]  # the value of a refusal is faults


def test_a_question_taken_back_stops_the_work(worker: Worker, tmp_path: Path) -> None:
    """A large roof is given up; the next question is answered by the same process, which kept what it had."""
    last(ask(worker, tmp_path))
    process = worker.process
    question = ask(worker, tmp_path, LARGE)
    time.sleep(1.0)
    began = time.monotonic()
    worker.drop(question)
    assert last(question)[0] == "stopped"
    assert time.monotonic() - began < 20
    assert [each.kind for each in ask(worker, tmp_path).heard()] == ["done"]
    assert worker.process is process


def test_a_question_that_waits_is_dropped(worker: Worker, tmp_path: Path) -> None:
    """Taken back before its turn, it is never worked on."""
    first = ask(worker, tmp_path, LARGE)
    second = ask(worker, tmp_path, view="summary")
    worker.drop(second)
    worker.drop(first)
    assert last(second)[0] == "stopped"
    assert last(first)[0] == "stopped"


def test_a_process_that_ends_is_begun_anew(worker: Worker, tmp_path: Path) -> None:
    """Killed from outside in the middle of its work: that question is told as broken, the next one is answered."""
    question = ask(worker, tmp_path, LARGE)
    time.sleep(1.0)
    assert worker.process is not None
    worker.process.kill()
    assert last(question)[0] == "broken"
    assert last(ask(worker, tmp_path))[0] == "done"


def test_an_interrupt_between_questions_changes_nothing(worker: Worker, tmp_path: Path) -> None:
    """A question taken back when it is answered already."""
    question = ask(worker, tmp_path)
    assert last(question)[0] == "done"
    worker.drop(question)
    assert last(ask(worker, tmp_path))[0] == "done"
