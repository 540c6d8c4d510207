"""Scripts, styles and fonts are kept by the browser for as long as they are the same."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Page
from starlette.testclient import TestClient

from lapwright.workspace.app import make_app
from lapwright.workspace.statics import digest

from .jobs import SMALL, Served, open_sheet

PORT = 8795


def client_over(folder: Path) -> TestClient:
    """A client of a server over a folder."""
    return TestClient(make_app(folder, port=PORT), base_url=f"http://127.0.0.1:{PORT}")


def test_addresses_of_a_page_name_the_content_and_hold_for_good(tmp_path: Path) -> None:
    """Every script and style of the first page is answered with a year of keeping, and with the policy."""
    client = client_over(tmp_path)
    addresses = re.findall(r'(?:src|href)="(/static/[^"]+)"', client.get("/").text)
    assert len(addresses) >= 4
    for address in addresses:
        found = client.get(address)
        assert re.match(r"/static/[0-9a-f]{16}/", address)
        assert found.status_code == 200
        assert found.headers["cache-control"] == "public, max-age=31536000, immutable"
        assert "content-security-policy" in found.headers


def test_without_that_name_the_browser_asks_anew_and_is_told_that_nothing_changed(tmp_path: Path) -> None:
    """A file's tag sent back is answered without the file."""
    client = client_over(tmp_path)
    first = client.get("/static/sheet.css")
    again = client.get("/static/sheet.css", headers={"if-none-match": first.headers["etag"]})
    assert first.headers["cache-control"] == "no-cache"
    assert (again.status_code, again.content) == (304, b"")
    missing = client.get("/static/0123456789abcdef/sheet.css")
    assert (missing.status_code, missing.headers["cache-control"]) == (404, "no-store")


def test_the_name_changes_with_any_byte_or_place() -> None:
    """Three contents that differ in a byte, in a place, and in where one file ends."""
    names = {digest(each) for each in ({"/a": b"xy", "/b": b""}, {"/a": b"xz", "/b": b""}, {"/a": b"x", "/b": b"y"})}
    assert len(names) == 3
    assert digest({"/a": b"xy"}) == digest({"/a": b"xy"})


def test_fonts_come_from_the_kept_address(page: Page, office: Served) -> None:
    """The lettering of a sheet is asked for beside its style."""
    office.job("kept", SMALL)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    open_sheet(page, office, "kept", "file")
    page.evaluate("document.fonts.ready.then(() => true)")
    fonts = [url for url in asked if "/fonts/" in url]
    assert fonts
    assert all(re.search(r"/static/[0-9a-f]{16}/fonts/", url) for url in fonts)
