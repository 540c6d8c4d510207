"""Who is let in: this machine's own pages, with their token, in lengths that are read."""

from __future__ import annotations

import http.client
from collections.abc import Mapping
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from lapwright.workspace.app import make_app
from lapwright.workspace.guard import MOST_BYTES, TOKEN, Guard

PORT = 8799
OWN = f"http://127.0.0.1:{PORT}"


@pytest.fixture
def guard(tmp_path: Path) -> Guard:
    """The application behind its guard, over an empty folder."""
    return make_app(tmp_path, port=PORT)


def status(guard: Guard, method: str, path: str, headers: Mapping[str, str], content: bytes = b"") -> int:
    """The status of an answer."""
    client = TestClient(guard, base_url=OWN)
    return client.request(method, path, headers=dict(headers), content=content).status_code


@pytest.mark.parametrize("host", ["evil.example", f"evil.example:{PORT}", "127.0.0.1", f"127.0.0.1:{PORT + 1}", ""])
def test_a_name_of_another_is_refused(guard: Guard, host: str) -> None:
    """DNS rebinding: a page of another name that leads to this machine gets nothing."""
    assert status(guard, "GET", "/", {"host": host}) == http.client.FORBIDDEN


def test_own_names_are_served(guard: Guard) -> None:
    """The names of this machine, with the port."""
    for host in (f"127.0.0.1:{PORT}", f"localhost:{PORT}", f"[::1]:{PORT}"):
        assert status(guard, "GET", "/", {"host": host}) == http.client.OK


def test_changes_need_the_token(guard: Guard) -> None:
    """Without it, with a wrong one, or from another origin nothing changes."""
    job = b'{"name": "a", "title": "A"}'
    typed = {"content-type": "application/json"}
    good = {**typed, TOKEN: guard.token}
    assert status(guard, "POST", "/api/jobs", typed, job) == http.client.FORBIDDEN
    assert status(guard, "POST", "/api/jobs", {**typed, TOKEN: "x"}, job) == http.client.FORBIDDEN
    assert status(guard, "POST", "/api/jobs", {**good, "origin": "http://evil.example"}, job) == http.client.FORBIDDEN
    assert status(guard, "POST", "/api/jobs", {**good, "sec-fetch-site": "cross-site"}, job) == http.client.FORBIDDEN
    assert status(guard, "POST", "/api/jobs", {**good, "origin": OWN}, job) == http.client.CREATED


def test_long_bodies_are_not_read(guard: Guard) -> None:
    """More than two megabytes are refused, said or not."""
    long = b" " * (MOST_BYTES + 1)
    headers = {"content-type": "application/json", TOKEN: guard.token}
    assert status(guard, "POST", "/api/jobs", headers, long) == http.client.REQUEST_ENTITY_TOO_LARGE


def test_every_answer_has_the_policy(guard: Guard) -> None:
    """No script or style that does not come from the package, no frame around a page."""
    client = TestClient(guard, base_url=OWN)
    for path in ("/", "/static/sheet.css", "/api/jobs", "/nothing", "/api/jobs/none/text"):
        found = client.get(path).headers["content-security-policy"]
        assert "script-src 'self';" in found
        assert "unsafe" not in found
        assert "frame-ancestors 'none'" in found


@pytest.mark.parametrize("name", ["../x", "..%2Fx", "%2e%2e", "a%00b", ".hidden", "a/b", "x" * 81])
def test_no_name_leads_out_of_the_folder(guard: Guard, tmp_path: Path, name: str) -> None:
    """Names that are no plain ones reach no file."""
    (tmp_path.parent / "x.yaml").write_text("job: {name: not yours}", encoding="utf-8")
    client = TestClient(guard, base_url=OWN)
    assert "not yours" not in client.get(f"/api/jobs/{name}/text").text


def test_a_link_out_of_the_folder_is_refused(guard: Guard, tmp_path: Path) -> None:
    """A job file that is a link to a file elsewhere is not read."""
    outside = tmp_path.parent / "outside.yaml"
    outside.write_text("job: {name: not yours}", encoding="utf-8")
    (tmp_path / "in.yaml").symlink_to(outside)
    client = TestClient(guard, base_url=OWN)
    found = client.get("/api/jobs/in/text")
    assert found.status_code == http.client.UNPROCESSABLE_ENTITY
    assert "not yours" not in found.text
