"""The sheet "packet" in a browser: the packet made at a press, the same as the command line's, its files opened."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import httpx
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from lapwright.plan.papers import ORDER

from .jobs import SMALL, START, Served, open_sheet


def packet(page: Page, office: Served, name: str) -> None:
    """A small job's packet, made by the button."""
    office.job(name, SMALL)
    open_sheet(page, office, name, "packet")
    page.get_by_role("button", name="Make the packet").click()
    expect(page.get_by_text("The packet is written.")).to_be_visible(timeout=120_000)


def digests(folder: Path) -> dict[str, str]:
    """The digests that a packet's manifest names."""
    found = json.loads((folder / "manifest.json").read_bytes())
    return {entry["name"]: entry["sha256"] for entry in found["files"]}


def test_the_packet_is_the_command_lines_and_tells_when_it_is_old(page: Page, office: Served, tmp_path: Path) -> None:
    """Every file, byte for byte by its digest; listed; a later edit makes it one of an earlier version."""
    packet(page, office, "packed")
    ran = [sys.executable, "-c", START, "plan", str(office.folder / "packed.yaml"), "--out", str(tmp_path / "out")]
    assert subprocess.run(ran, capture_output=True, check=False).returncode in (0, 1)
    made = digests(office.folder / "packed-packet")
    assert set(made) == set(ORDER)
    assert made == digests(tmp_path / "out")
    names = page.locator("#files tbody th a").all_inner_texts()
    assert set(names) == {*ORDER, "manifest.json"}
    expect(page.locator("#standing")).to_contain_text("made from the job as it stands")
    assert Axe().run(page).violations_count == 0
    (office.folder / "packed.yaml").write_text(SMALL.replace("30'", "28'"), encoding="utf-8")
    expect(page.locator("#standing")).to_contain_text("made from an earlier version of the job", timeout=10_000)
    assert Axe().run(page).violations_count == 0
    (office.folder / "packed.yaml").write_text(SMALL, encoding="utf-8")
    expect(page.locator("#standing")).to_contain_text("made from the job as it stands", timeout=10_000)


def test_files_open_and_are_kept_by_the_keyboard(page: Page, office: Served) -> None:
    """After the work the first file has the focus; the page of figures runs its script, cut off from this server."""
    packet(page, office, "opened")
    expect(page.locator("#files a").first).to_be_focused()
    with page.context.expect_page() as opened:
        page.locator("#files a", has_text="figures.html").press("Enter")
    figures = opened.value
    expect(figures.locator("h1")).to_have_text("Figures for the roof")
    expect(figures.locator("#readings")).to_be_visible()  # its own script shows the fields
    assert figures.evaluate("origin") == "null"
    with page.expect_download() as kept:
        page.locator("#files a", has_text="order.xlsx").press("Enter")
    assert kept.value.suggested_filename == "opened-order.xlsx"


def test_the_work_can_be_stopped(page: Page, office: Served) -> None:
    """Stopped, nothing stands in the folder; made again, it does."""
    office.job("halted", SMALL)
    open_sheet(page, office, "halted", "packet")
    page.get_by_role("button", name="Make the packet").click()
    page.get_by_role("button", name="Stop").click()
    expect(page.locator("#steps")).to_contain_text("Nothing was changed")
    assert not (office.folder / "halted-packet").exists()
    page.get_by_role("button", name="Make the packet").click()
    expect(page.get_by_text("The packet is written.")).to_be_visible(timeout=120_000)


@pytest.mark.parametrize(
    "file",
    ["..%2F..%2Fsecret.txt", "%2e%2e%2fsecret.txt", "secret.txt", ".hidden", "packet.pdf%00", "x" * 300, "sub%5Cfile"],
)
def test_no_other_file_is_given(office: Served, file: str) -> None:
    """Only names of the manifest, however a name is written."""
    job = office.job("kept-close", SMALL)
    folder = job.with_name("kept-close-packet")
    folder.mkdir(exist_ok=True)
    (folder / "secret.txt").write_text("secret")
    (office.folder / "secret.txt").write_text("secret")
    rows = [{"name": name, "bytes": 6, "sha256": ""} for name in ("secret.txt", "../secret.txt", "packet.pdf")]
    (folder / "manifest.json").write_text(json.dumps({"schema": "lapwright.manifest/1", "files": rows}))
    answer = httpx.get(f"{office.url}/jobs/kept-close/packet/{file}")
    assert answer.status_code in (404, 422)
    assert "secret" not in answer.text.replace("secret.txt", "")


def test_a_link_out_of_the_packet_is_not_followed(office: Served, tmp_path: Path) -> None:
    """Neither by a file of the manifest's name, nor by a whole folder in its place."""
    (tmp_path / "packet.pdf").write_text("elsewhere")
    rows = {"schema": "lapwright.manifest/1", "files": [{"name": "packet.pdf", "bytes": 9, "sha256": ""}]}
    (tmp_path / "manifest.json").write_text(json.dumps(rows))
    first = office.job("linked", SMALL).with_name("linked-packet")
    first.mkdir()
    (first / "manifest.json").write_text(json.dumps(rows))
    (first / "packet.pdf").symlink_to(tmp_path / "packet.pdf")
    assert httpx.get(f"{office.url}/jobs/linked/packet/packet.pdf").status_code == 422
    office.job("linked-whole", SMALL).with_name("linked-whole-packet").symlink_to(tmp_path)
    assert httpx.get(f"{office.url}/jobs/linked-whole/packet/packet.pdf").status_code == 422
    assert httpx.get(f"{office.url}/api/jobs/linked-whole/packet").json()["files"] == []


def test_the_packet_is_made_only_from_a_page(office: Served) -> None:
    """Its address alone makes nothing, and neither does a request without the page's token."""
    office.job("untouched", SMALL)
    assert httpx.get(f"{office.url}/api/jobs/untouched/views/packet").status_code == 405
    assert httpx.post(f"{office.url}/api/jobs/untouched/views/packet").status_code == 403
    assert not (office.folder / "untouched-packet").exists()


def test_somebody_elses_files_stay(page: Page, office: Served) -> None:
    """A folder that holds another's file of such a name is told of, and is left as it is."""
    folder = office.job("taken", SMALL).with_name("taken-packet")
    folder.mkdir()
    (folder / "packet.pdf").write_text("mine")
    open_sheet(page, office, "taken", "packet")
    page.get_by_role("button", name="Make the packet").click()
    expect(page.locator("#steps")).to_contain_text("did not write", timeout=60_000)
    assert (folder / "packet.pdf").read_text() == "mine"
    assert Axe().run(page).violations_count == 0
