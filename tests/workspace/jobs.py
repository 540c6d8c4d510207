"""A server over a folder of jobs, jobs to try it with, and how a sheet is opened."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Page

START = "from lapwright.cli.main import run; run()"
SMALL = """\
job: {name: Small}
units: us
roof:
  - area: Main
    outline: E 30', N 12', W 30', S 12'
    falls: S
    slope: 1/4 in 12
    edges:
      - {sides: 1-4, kind: parapet, height: 30"}
assembly:
  plies:
    - {ply: base, sheet: b}
    - {ply: cap, sheet: c}
sheets:
  b: {width: 39 3/8", length: 65' 7", side_lap: 3", end_lap: 6"}
  c: {width: 39 3/8", length: 32' 10", side_lap: 3", end_lap: 6"}
"""


@dataclass
class Served:
    """A server: its address, its folder, its process."""

    url: str
    folder: Path
    process: subprocess.Popen[str]

    def job(self, name: str, text: str) -> Path:
        """A job file put in the folder."""
        path = self.folder / f"{name}.yaml"
        path.write_text(text, encoding="utf-8")
        return path

    def end(self) -> None:
        """Ends the server as a terminal would, or hard where it does not hear."""
        self.process.terminate()
        try:
            self.process.wait(timeout=10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        if self.process.stdout is not None:
            self.process.stdout.close()


def serve(folder: Path, port: int = 0) -> Served:
    """A server over a folder, once it listens."""
    process = subprocess.Popen(
        [sys.executable, "-c", START, "serve", str(folder), "--port", str(port), "--no-browser"],
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    line = process.stdout.readline()
    assert " at http://127.0.0.1:" in line, line
    return Served(line.split(" at ")[1].split(" ")[0].rstrip("/"), folder, process)


def open_sheet(page: Page, office: Served, name: str, key: str) -> None:
    """A sheet of a job, its text read."""
    page.goto(f"{office.url}/jobs/{name}/{key}")
    page.wait_for_selector("#saved")


def wait_for(holds: Callable[[], bool], seconds: float = 20.0) -> None:
    """Waits until a claim holds."""
    until = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < until, "it did not come true"
        time.sleep(0.05)
