"""Whatever is sent to the addresses that pages ask: an answer in words, never an error of ours, and never a change
outside of the folder.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import httpx2
import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings

from lapwright.workspace.app import make_app
from lapwright.workspace.guard import TOKEN

from .jobs import SMALL, Served

ENDLESS = r"/changes$"  # it tells of changes until the page is closed


APP: Any = make_app(Path(), port=1).app
OPERATIONS = {
    f"{found.ok().method.upper()} {found.ok().path}": found.ok()
    for found in schemathesis.openapi.from_dict(APP.openapi()).exclude(path_regex=ENDLESS).get_all_operations()
}


@pytest.fixture(scope="module")
def token(office: Served) -> str:
    """The token that the server's own pages carry."""
    office.job("odd-asked", SMALL)
    found = re.search(r'name="token" content="([^"]+)"', httpx2.get(office.url).text)
    assert found is not None
    return found[1]


@pytest.mark.parametrize("name", OPERATIONS)
def test_any_request_is_answered_in_words(name: str, office: Served, token: str) -> None:
    """By the documented addresses with values of every shape: below 500, and what is refused says why."""

    @given(OPERATIONS[name].as_strategy())
    @settings(max_examples=15, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
    def answered(case: Any) -> None:
        response = case.call(base_url=office.url, headers={TOKEN: token}, timeout=60)
        seen.append(response.status_code)
        assert response.status_code < 500, response.text
        if response.status_code >= 400:
            told = response.json()
            assert told["words"] or told["faults"]
            assert "Traceback" not in response.text

    seen: list[int] = []
    before = sorted(each.name for each in office.folder.parent.iterdir())
    answered()
    assert len(seen) >= 1
    assert sorted(each.name for each in office.folder.parent.iterdir()) == before
