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

ROOT = Path(__file__).resolve().parents[2]
JOBS = sorted([*ROOT.glob("examples/**/*.yaml"), *ROOT.glob("src/lapwright/plan/example/*.yaml")])


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
