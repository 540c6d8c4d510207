"""The planning process under hard hands: interrupts at any moment, errors of ours, a server that is killed."""

from __future__ import annotations

import importlib
import io
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Mapping
from pathlib import Path

import pytest
from small_job import JOB

from lapwright.faults import Refused
from lapwright.plan.desk import child
from lapwright.plan.desk.child import Child, Mouth, Stopped
from lapwright.plan.desk.judging import faults_of, reading_of
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.desk.worker import MOST_WAITING, Worker
from lapwright.plan.views.registry import Asked, Json, Tell
from lapwright.plan.workers import receive, send

LARGE = JOB.replace("E 30', N 12', W 30', S 12'", "E 400', N 300', W 400', S 300'")


def test_interrupts_at_any_moment_leave_an_answering_process(tmp_path: Path) -> None:
    """Questions taken back after 0 to 60 ms, some while the process still loads: it stays the same one and answers."""
    worker = Worker()
    worker.start()
    process, chance = worker.process, random.Random(7)
    try:
        for k in range(60):
            text = JOB.replace("E 30', N 12', W 30'", f"E {30 + k}', N 12', W {30 + k}'")
            question = worker.ask("roof", JobAsk(text, tmp_path / "small.yaml"))
            time.sleep(chance.random() * 0.06)
            worker.drop(question)
        assert [*worker.ask("roof", JobAsk(JOB, tmp_path / "small.yaml")).heard()][-1].kind == "done"
        assert worker.process is process
    finally:
        worker.end()


class Interrupted(io.BytesIO):
    """A pipe in the middle of whose every write an interrupt comes."""

    mouth: Mouth

    def write(self, data: object, /) -> int:
        """Half of it, the interrupt, the rest."""
        self.mouth.interrupt(signal.SIGINT, None)
        return super().write(data)  # type: ignore[arg-type]  # whatever a BytesIO takes


def test_an_interrupt_never_cuts_a_message() -> None:
    """It is heard behind the message, which is whole; the next one can be read."""
    pipe = Interrupted()
    pipe.mouth = mouth = Mouth(pipe, is_working=True)
    with pytest.raises(Stopped):
        mouth.say((1, "tell", "first"))
    mouth.say((1, "stopped", None))
    pipe.seek(0)
    assert receive(pipe) == (1, "tell", "first")
    assert receive(pipe) == (1, "stopped", None)


def test_an_interrupt_leaves_no_half_loaded_module(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One that comes while a module is imported is not heard, so that the module is whole; the next one is."""
    mouth = Mouth(io.BytesIO(), is_working=True)
    lines = "import signal\nsignal.raise_signal(signal.SIGINT)\nis_whole = True\n"
    (tmp_path / "loaded_late.py").write_text(lines, encoding="utf-8")
    monkeypatch.syspath_prepend(str(tmp_path))
    before = signal.signal(signal.SIGINT, mouth.interrupt)
    try:
        loaded = importlib.import_module("loaded_late")
        assert (loaded.is_whole, mouth.is_working) == (True, True)
        with pytest.raises(Stopped):
            signal.raise_signal(signal.SIGINT)
    finally:
        signal.signal(signal.SIGINT, before)
        sys.modules.pop("loaded_late", None)


def test_an_error_of_ours_costs_one_answer(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """A view that fails: that is said, the terminal shows where, and the process goes on."""

    def broken(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
        raise ZeroDivisionError

    monkeypatch.setattr(child, "find", lambda name: Asked(broken, is_kept=False))
    one = Child(io.BytesIO(), Mouth(io.BytesIO()))
    assert one.answer(1, "roof", JobAsk("", Path("a.yaml")), {}) == ("wrong", None)
    assert "ZeroDivisionError" in capsys.readouterr().err


def test_no_more_questions_wait_than_are_meant_to() -> None:
    """The one over the limit is refused, not kept."""
    worker = Worker()
    for _ in range(MOST_WAITING):
        worker.ask("roof", JobAsk("", Path("a.yaml")))
    with pytest.raises(Refused):
        worker.ask("roof", JobAsk("", Path("a.yaml")))


PARENT = """
import sys, time
from pathlib import Path
from lapwright.plan.desk.stages import JobAsk
from lapwright.plan.desk.worker import Worker
worker = Worker()
worker.start()
question = worker.ask("roof", JobAsk(sys.argv[1], Path("large.yaml")))
question.next()
print(worker.process.pid, flush=True)
time.sleep(600)
"""


def is_there(pid: int) -> bool:
    """A process that runs still; one that ended and is only not taken note of does not count."""
    state = Path(f"/proc/{pid}/stat")
    return state.exists() and state.read_text(encoding="utf-8").rsplit(")", 1)[1].split()[0] not in ("Z", "X")


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="processes are looked up in /proc")
def test_a_server_killed_hard_leaves_no_process_behind() -> None:
    """Killed while the planning process is in the middle of a long search: that one ends within seconds too."""
    parent = subprocess.Popen([sys.executable, "-c", PARENT, LARGE], stdout=subprocess.PIPE, text=True)
    assert parent.stdout is not None
    pid = int(parent.stdout.readline())
    assert is_there(pid)
    os.kill(parent.pid, signal.SIGKILL)
    parent.wait()
    parent.stdout.close()
    until = time.monotonic() + 10
    while is_there(pid) and time.monotonic() < until:
        time.sleep(0.1)
    assert not is_there(pid)


def test_what_was_read_for_its_faults_is_not_read_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It travels with the question, and is the same on arrival; another text is read where it is asked for."""
    ask = JobAsk(JOB, tmp_path / "small.yaml")
    assert reading_of(ask) is None
    assert faults_of(ask.text, ask.path) == ()
    sent = reading_of(ask)
    pipe = io.BytesIO()
    send(pipe, sent)
    pipe.seek(0)
    arrived = receive(pipe)
    assert arrived == sent
    stages = Stages()
    stages.reads.put(*arrived)
    monkeypatch.setattr("lapwright.plan.desk.stages.read_job_text", None)
    assert stages.read(ask)[0].job.name == "Small"
    with pytest.raises(TypeError):
        stages.read(JobAsk(JOB + "# more\n", tmp_path / "small.yaml"))
