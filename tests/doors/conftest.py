"""Whole jobs planned once, as a user would, and read back by the tests from their files."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
JOBS = sorted([*ROOT.glob("examples/*.yaml"), *ROOT.glob("src/lapwright/plan/example/*.yaml")])


def lapwright(*words: str, cwd: Path | None = None, **extra: str) -> subprocess.CompletedProcess[str]:
    """Run a command in a new process."""
    environment = {**os.environ, "COLUMNS": "120", **extra}
    command = [sys.executable, "-c", "from lapwright.cli.main import run; run()", *words]
    return subprocess.run(command, cwd=cwd, env=environment, capture_output=True, text=True, check=False)


@dataclass
class Planned:
    """A job and the folder that its plan was written to."""

    job: Path
    folder: Path
    done: subprocess.CompletedProcess[str]

    @cached_property
    def plan(self) -> dict[str, Any]:
        """plan.json, read back."""
        found: dict[str, Any] = json.loads((self.folder / "plan.json").read_text(encoding="utf-8"))
        return found


@pytest.fixture(scope="session", params=JOBS, ids=lambda path: path.stem)
def planned(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Planned:
    """Each example job, planned once a session."""
    folder = tmp_path_factory.mktemp(request.param.stem) / "out"
    done = lapwright("plan", str(request.param), "--out", str(folder))
    assert done.returncode in (0, 1), done.stderr
    return Planned(request.param, folder, done)
