"""A server of the workspace over a folder of its own, and a browser to look at it."""

from __future__ import annotations

import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
CHROMIUM = shutil.which("chromium")
START = "from lapwright.cli.main import run; run()"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests with a browser run one after the other, on one worker."""
    for item in items:
        if "page" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.xdist_group("browser"))


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


@pytest.fixture(scope="session")
def office(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """One server for all tests that leave each other's jobs alone; each makes its own by a name of its own."""
    served = serve(tmp_path_factory.mktemp("jobs"))
    yield served
    served.end()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Debian's Chromium."""
    if CHROMIUM is None:
        pytest.skip("no chromium on this machine: apt-get install chromium, then make test again")
    with sync_playwright() as tool:
        found = tool.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield found
        found.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page whose script errors and refused resources fail the test."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    found = context.new_page()
    wrong: list[str] = []
    found.on("pageerror", lambda error: wrong.append(str(error)))
    found.on("console", lambda said: wrong.append(said.text) if "Content Security Policy" in said.text else None)
    yield found
    context.close()
    assert wrong == []


def wait_for(condition: object, seconds: float = 30.0) -> None:
    """Waits until a claim holds."""
    until = time.monotonic() + seconds
    while not condition():  # type: ignore[operator]  # any callable without arguments
        assert time.monotonic() < until, "it did not come true"
        time.sleep(0.05)
