"""Drawings and maps given to the workspace: dropped, their layers taken; what is told of those that can't be read."""

from __future__ import annotations

import json
import threading
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from httpx import Response
from playwright.sync_api import Page, expect
from starlette.testclient import TestClient

from lapwright.plan.describe import apart
from lapwright.workspace.app import make_app
from lapwright.workspace.guard import MOST_FILE_BYTES, TOKEN, Guard

from .jobs import Served

expect.set_options(timeout=20_000)

PORT = 8797
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
DROP = """([name, text]) => {
  const data = new DataTransfer();
  data.items.add(new File([text], name));
  document.querySelector(".drop").dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true }));
}"""
# Two areas side by side, 30 m by 20 m, with a curb in the first: by hand, as a map in metres.
MAP = {
    "type": "FeatureCollection",
    "features": [
        {
            "type": "Feature",
            "properties": {"layer": "HALL", "name": "Hall"},
            "geometry": {"type": "Polygon", "coordinates": [[[0, 0], [30, 0], [30, 20], [0, 20], [0, 0]]]},
        },
        {
            "type": "Feature",
            "properties": {"layer": "CURBS", "name": "RTU"},
            "geometry": {"type": "Polygon", "coordinates": [[[5, 5], [8, 5], [8, 7], [5, 7], [5, 5]]]},
        },
    ],
}


def described(page: Page, office: Served, name: str) -> None:
    """The sheet of a job with nothing in it yet."""
    office.job(name, f"job: {{name: {name}}}\nunits: us\n")
    page.goto(f"{office.url}/jobs/{name}/describe")
    page.get_by_text("From a drawing or a map").click()


def test_a_dropped_dxf_becomes_an_area_with_its_curbs(page: Page, office: Served) -> None:
    """The layers are listed with what they hold; those taken are in the job file, and the outline is drawn."""
    described(page, office, "dropped-dxf")
    page.evaluate(DROP, ["dropped-hall.dxf", (EXAMPLES / "dye-works.dxf").read_text(encoding="utf-8")])
    expect(page.get_by_role("row", name="CURBS")).to_contain_text("3 polyline")
    page.get_by_label("ROOF-HALL is").select_option("outline")
    page.get_by_label("named").fill("Hall")
    assert [each["id"] for each in Axe().run(page).response["violations"]] == []
    page.get_by_label("CURBS is").select_option("curb")
    page.get_by_role("button", name="Take these layers").click()
    expect(page.get_by_role("alert")).to_contain_text("the unit of the drawing")
    page.get_by_label("Unit of the drawing").select_option("ft")
    page.get_by_role("button", name="Take these layers").click()
    expect(page.get_by_role("button", name="Side 1 of Hall")).to_be_visible()
    text = (office.folder / "dropped-dxf.yaml").read_text(encoding="utf-8")
    assert "dxf: dropped-hall.dxf" in text
    assert "outline: ROOF-HALL" in text
    assert "CURBS: curb" in text
    page.get_by_role("button", name="Take back").click()
    expect(page.get_by_role("button", name="Side 1 of Hall")).to_have_count(0)
    assert "ROOF-HALL" not in (office.folder / "dropped-dxf.yaml").read_text(encoding="utf-8")


def test_a_dropped_map_becomes_an_area(page: Page, office: Served) -> None:
    """30 m by 20 m of a map are 98' 5 1/8" by 65' 7 3/8"; the curb stands in it."""
    described(page, office, "dropped-map")
    page.evaluate(DROP, ["dropped.geojson", json.dumps(MAP)])
    page.get_by_label("HALL is").select_option("outline")
    page.get_by_label("CURBS is").select_option("curb")
    page.get_by_role("button", name="Take these layers").click()
    expect(page.get_by_role("button", name="Side 1 of HALL")).to_have_attribute(
        "aria-label", r"""Side 1 of HALL, 98' 5 1/8" E, edge not given"""
    )
    expect(page.get_by_role("button", name="RTU, curb, drawn")).to_be_visible()


def test_a_file_that_is_no_drawing_is_told_and_not_kept(page: Page, office: Served) -> None:
    """What was read and what is needed; nothing of it stays in the folder."""
    described(page, office, "dropped-bad")
    page.evaluate(DROP, ["not-a-drawing.dxf", "hello\nworld\n"])
    expect(page.get_by_role("alert")).to_contain_text("needs a DXF drawing saved as text")
    assert not (office.folder / "not-a-drawing.dxf").exists()
    assert list(office.folder.glob(".given*")) == []


@pytest.fixture
def guard(tmp_path: Path) -> Guard:
    """The application over an empty folder."""
    return make_app(tmp_path, port=PORT)


def given(guard: Guard, name: str, content: bytes) -> tuple[int, str]:
    """Status and text of the answer to a file that is given."""
    client = TestClient(guard, base_url=f"http://127.0.0.1:{PORT}")
    found = client.post(f"/api/files/{name}", headers={TOKEN: guard.token}, content=content)
    return found.status_code, found.text


NAMES = ["..%2Fx.dxf", ".hidden.dxf", "a.yaml", "a.dxf.exe", "a%00.dxf", "x" * 90 + ".dxf", "a%2Fb.dxf", "noending"]


@pytest.mark.parametrize("name", NAMES)
def test_names_that_are_no_plain_ones_are_refused(guard: Guard, tmp_path: Path, name: str) -> None:
    """Nothing is written for them, in the folder or outside."""
    before = sorted(tmp_path.parent.iterdir())
    status, _ = given(guard, name, b"0\nEOF\n")
    assert status in (404, 405, 422)
    assert list(tmp_path.iterdir()) == []
    assert sorted(tmp_path.parent.iterdir()) == before


def test_a_deep_file_is_told_in_words(guard: Guard, tmp_path: Path) -> None:
    """Brackets nested a million deep end nothing but the process that reads them."""
    status, text = given(guard, "deep.geojson", b"[" * 1_000_000)
    assert status == 422
    assert "nested too deep" in text or "can be read within" in text
    assert list(tmp_path.iterdir()) == []


def test_a_file_over_the_limit_is_not_read(guard: Guard, tmp_path: Path) -> None:
    """Its length is told before a byte is kept."""
    client = TestClient(guard, base_url=f"http://127.0.0.1:{PORT}")
    head = {TOKEN: guard.token, "content-length": str(MOST_FILE_BYTES + 1)}
    found = client.post("/api/files/large.dxf", headers=head, content=b"0")
    assert found.status_code == 413
    assert list(tmp_path.iterdir()) == []


def test_other_bytes_under_a_name_get_a_number(guard: Guard, tmp_path: Path) -> None:
    """A file of the folder is never written over; the same bytes are taken for it."""
    first = json.dumps(MAP).encode()
    other = json.dumps({**MAP, "features": MAP["features"][:1]}).encode()
    assert json.loads(given(guard, "roof.geojson", first)[1])["file"] == "roof.geojson"
    assert json.loads(given(guard, "roof.geojson", first)[1])["file"] == "roof.geojson"
    assert json.loads(given(guard, "roof.geojson", other)[1])["file"] == "roof-2.geojson"
    assert (tmp_path / "roof.geojson").read_bytes() == first


def test_a_weather_file_is_known_by_its_first_lines(guard: Guard, tmp_path: Path) -> None:
    """A logger's log is kept with its format told; a text that is none is not kept."""
    log = b"time [America/New_York],air [F],humidity [%],wind [mph]\n2026-01-05 06:00,31,60,8\n"
    status, text = given(guard, "log.csv", log)
    assert status == 201, text
    assert json.loads(text)["format"] == "logger"
    status, text = given(guard, "none.epw", b"hello\n" * 100)
    assert status == 422
    assert "an EPW, TMY3 CSV or ISD-Lite file" in text
    assert [each.name for each in tmp_path.iterdir()] == ["log.csv"]


def test_others_are_answered_while_a_drawing_is_read(
    guard: Guard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A drawing named by hand is read apart: another job's text comes before the drawing is done."""
    (tmp_path / "slow.geojson").write_text(json.dumps(MAP), encoding="utf-8")
    outline = "{geojson: slow.geojson, feature: Hall, units: m}"
    (tmp_path / "drawn.yaml").write_text(f"roof:\n  - area: Hall\n    outline: {outline}\n", encoding="utf-8")
    (tmp_path / "other.yaml").write_text("job: {name: Other}\n", encoding="utf-8")
    begun, done = threading.Event(), threading.Event()
    look = apart.look

    def slow(what: str, path: Path, name: str, more: Any = None) -> Any:
        begun.set()
        assert done.wait(timeout=30)
        return look(what, path, name, more)

    monkeypatch.setattr(apart, "look", slow)
    answers: list[Response] = []
    client = TestClient(guard, base_url=f"http://127.0.0.1:{PORT}")
    asks = threading.Thread(target=lambda: answers.append(client.get("/api/jobs/drawn/outline")))
    asks.start()
    assert begun.wait(timeout=30)
    other = TestClient(guard, base_url=f"http://127.0.0.1:{PORT}").get("/api/jobs/other/text")
    assert (other.status_code, answers) == (200, [])
    done.set()
    asks.join(timeout=30)
    assert [answer.status_code for answer in answers] == [200]
    assert len(answers[0].json()["areas"][0]["sides"]) == 4
