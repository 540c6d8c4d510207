"""The commands as a user meets them: exit status, what is told, what is left alone."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from planned_jobs import ROOT, lapwright

EXAMPLE = ROOT / "src/lapwright/plan/example/millrace.yaml"
SMALL = ROOT / "examples/kiln-shed.yaml"


@pytest.fixture(scope="module")
def unanswered(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small job whose deck's live load is not given, so that a check of it stays unknown."""
    text = SMALL.read_text(encoding="utf-8")
    assert text.count(", live_load: 25 psf") == 1
    job = tmp_path_factory.mktemp("unanswered") / "job.yaml"
    job.write_text(text.replace(", live_load: 25 psf", ""), encoding="utf-8")
    return job


@pytest.fixture(scope="module")
def quietly(unanswered: Path) -> subprocess.CompletedProcess[str]:
    """The job planned with `--quiet`."""
    return lapwright("plan", unanswered.name, "--out", "a", "--quiet", cwd=unanswered.parent)


def test_example_is_written_once(tmp_path: Path) -> None:
    """`example` puts the job there and does not replace it."""
    assert lapwright("example", str(tmp_path / "job")).returncode == 0
    assert (tmp_path / "job/millrace.yaml").read_bytes() == EXAMPLE.read_bytes()
    again = lapwright("example", str(tmp_path / "job"))
    assert again.returncode == 2
    assert "needs:  a folder without this file" in again.stderr


def test_check_of_a_good_job_says_so(tmp_path: Path) -> None:
    """`check` of the example: nothing to mend, status 0, nothing written."""
    (tmp_path / "job.yaml").write_bytes(EXAMPLE.read_bytes())
    done = lapwright("check", "job.yaml", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (0, "job.yaml: nothing to mend\n")
    assert [path.name for path in tmp_path.iterdir()] == ["job.yaml"]


def test_faults_are_told_with_their_place_and_nothing_is_written(tmp_path: Path) -> None:
    """A job with three things wrong: all are told at once, the folder stays as it was, status 2."""
    text = EXAMPLE.read_text(encoding="utf-8")
    text = text.replace("slope: 1/4 in 12", "slope: 1/4", 1).replace("sheet: cap-sa", "sheet: cap-sx", 1)
    text = text.replace("outline: E 96', N 30', W 96', S 30'", "outline: E 96', N 30', W 90', S 30'", 1)
    (tmp_path / "job.yaml").write_text(text, encoding="utf-8")
    out = tmp_path / "out"
    out.mkdir()
    (out / "mine.txt").write_text("kept", encoding="utf-8")
    done = lapwright("plan", "job.yaml", "--out", "out", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stderr.startswith("3 things in the input can't be used:")
    assert "roof[0].slope" in done.stderr
    assert "roof[0].outline" in done.stderr
    assert "assembly.plies[1].sheet" in done.stderr
    assert [path.name for path in out.iterdir()] == ["mine.txt"]


def test_missing_file_is_a_fault() -> None:
    """A job file that is not there gives status 2 and words, no traceback."""
    done = lapwright("plan", "nowhere.yaml", "--out", "never")
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert "nowhere.yaml" in done.stderr


def test_strict_fails_on_unknown(unanswered: Path, quietly: subprocess.CompletedProcess[str]) -> None:
    """A job with unknown checks leaves status 0; `--strict` makes it 1."""
    assert quietly.returncode == 0
    strictly = lapwright("plan", unanswered.name, "--out", "b", "--quiet", "--strict", cwd=unanswered.parent)
    assert strictly.returncode == 1
    assert strictly.stdout.splitlines()[-1] == quietly.stdout.splitlines()[-1]


def test_quiet_and_no_colour(quietly: subprocess.CompletedProcess[str]) -> None:
    """`--quiet` leaves only the checks' line; no escape codes reach a pipe."""
    assert quietly.stderr == ""
    assert "\x1b" not in quietly.stdout
    assert quietly.stdout.strip().splitlines()[-1].startswith("checks: ")


def test_strangers_in_the_folder_are_not_replaced(tmp_path: Path) -> None:
    """A file of the packet's name that the tool did not write refuses the whole folder and stays."""
    out = tmp_path / "out"
    out.mkdir()
    (out / "order.xlsx").write_bytes(b"somebody's own")
    done = lapwright("plan", str(SMALL), "--out", str(out), "--quiet")
    assert done.returncode == 2
    assert [path.name for path in out.iterdir()] == ["order.xlsx"]
    assert (out / "order.xlsx").read_bytes() == b"somebody's own"


def test_rules_that_cannot_be_met_together_are_refused(tmp_path: Path) -> None:
    """A narrow pitch under a wide offset: refused, with the greatest offset that can be kept."""
    text = EXAMPLE.read_text(encoding="utf-8").replace("spare_rolls: 1", 'ply_offset: 19"\n  spare_rolls: 1', 1)
    (tmp_path / "job.yaml").write_text(text, encoding="utf-8")
    done = lapwright("plan", "job.yaml", "--out", "out", cwd=tmp_path)
    assert done.returncode == 2
    assert "rules.ply_offset" in done.stderr
    assert 'at most 18 3/16"' in done.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("words", [["--help"], ["plan", "--help"], ["--version"]])
def test_help_and_version(words: list[str]) -> None:
    """Help and version leave status 0."""
    assert lapwright(*words).returncode == 0
