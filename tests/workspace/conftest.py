"""A server of the workspace over a folder of its own, and a browser to look at it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from .jobs import Served, serve

CHROMIUM = shutil.which("chromium")


@pytest.hookimpl(tryfirst=True)  # before the groups are told to the workers
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests of one file that share a browser or a server run on one worker, so that few of them are begun."""
    for item in items:
        if {"page", "office"} & set(getattr(item, "fixturenames", ())):
            item.add_marker(pytest.mark.xdist_group(item.path.stem))


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
