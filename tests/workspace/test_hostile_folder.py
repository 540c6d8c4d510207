"""A folder that holds more than jobs: links out of it, pipes, files that can't be read, thousands of others."""

from __future__ import annotations

import http.client
import os
import time
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from lapwright.workspace.app import make_app
from lapwright.workspace.guard import TOKEN

from .jobs import SMALL

PORT = 8797
REFUSED = http.client.UNPROCESSABLE_ENTITY


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The folder of jobs, with room beside it for what is nobody's business."""
    found = tmp_path / "jobs"
    found.mkdir()
    (found / "good.yaml").write_text(SMALL, encoding="utf-8")
    return found


@pytest.fixture
def client(folder: Path) -> TestClient:
    """Who asks; a page's headers and token."""
    guard = make_app(folder, port=PORT)
    return TestClient(guard, base_url=f"http://127.0.0.1:{PORT}", headers={TOKEN: guard.token})


def edit(client: TestClient, name: str, title: str) -> int:
    """A job's name changed; the status."""
    seen = client.get(f"/api/jobs/{name}/text").json()["digest"]
    edits = [{"edit": "set", "path": "job.name", "value": title}]
    return client.post(f"/api/jobs/{name}/edits", json={"seen": seen, "edits": edits}).status_code


def test_one_bad_file_does_not_hide_the_others(client: TestClient, folder: Path) -> None:
    """No UTF-8, too long, a link out, a link round in a circle: the list shows the good job, and why of the bad."""
    (folder / "bad.yaml").write_bytes(b"\xff\xfe")
    (folder / "long.yaml").write_text("x" * 1_000_001, encoding="utf-8")
    (folder.parent / "outside.yaml").write_text("job: {name: not yours}", encoding="utf-8")
    (folder / "out.yaml").symlink_to(folder.parent / "outside.yaml")
    (folder / "round.yaml").symlink_to(folder / "round.yaml")
    found = client.get("/")
    assert found.status_code == http.client.OK
    assert 'href="/jobs/good/overview"' in found.text
    assert "UTF-8" in found.text
    assert "at most 1 MB" in found.text
    assert "not yours" not in found.text
    for name in ("bad", "long", "out", "round"):
        answer = client.get(f"/api/jobs/{name}/text")
        assert answer.status_code == REFUSED
        assert str(folder) not in answer.text
    versions = client.get("/api/jobs/good/versions")
    assert versions.status_code == http.client.OK
    assert versions.json()["files"] == []


def test_a_page_that_can_t_be_shown_is_a_page(client: TestClient, folder: Path) -> None:
    """Whoever asks for a page reads words on a page; whoever asks for data gets data."""
    (folder / "bad.yaml").write_bytes(b"\xff\xfe")
    for path in ("/jobs/bad/overview", "/jobs/none/overview", "/jobs/good/nothing", "/nothing"):
        page = client.get(path, headers={"accept": "text/html"})
        assert page.status_code in (http.client.NOT_FOUND, REFUSED)
        assert page.headers["content-type"].startswith("text/html")
        assert 'role="alert"' in page.text
    assert client.get("/api/jobs/bad/text", headers={"accept": "text/html"}).json()["faults"]


@pytest.mark.parametrize("name", ["CON", "nul", "Aux", "com1", "LPT9.x", "prn "])
def test_names_of_devices_are_no_jobs(client: TestClient, folder: Path, name: str) -> None:
    """Some systems take such a name for a device, whatever its ending."""
    assert client.post("/api/jobs", json={"name": name, "title": "A"}).status_code == REFUSED
    assert [each.name for each in folder.iterdir()] == ["good.yaml"]


def test_a_link_within_the_folder_is_written_through(client: TestClient, folder: Path) -> None:
    """The file that it leads to is changed; the link stays one."""
    (folder / "same.yaml").symlink_to(folder / "good.yaml")
    assert edit(client, "same", "Both") == http.client.OK
    assert (folder / "same.yaml").is_symlink()
    assert "name: Both" in (folder / "good.yaml").read_text(encoding="utf-8")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names on this system")
def test_steps_that_are_a_link_or_a_pipe_are_left_alone(client: TestClient, folder: Path) -> None:
    """Nothing is written through the link, nobody waits at the pipe, and the change is saved all the same."""
    outside = folder.parent / "theirs"
    outside.write_text("", encoding="utf-8")
    (folder / ".good.yaml.steps").symlink_to(outside)
    assert edit(client, "good", "One") == http.client.OK
    assert outside.read_text(encoding="utf-8") == ""
    (folder / "pipe.yaml").write_text(SMALL, encoding="utf-8")
    os.mkfifo(folder / ".pipe.yaml.steps")
    assert edit(client, "pipe", "Two") == http.client.OK


@pytest.mark.parametrize(
    "steps",
    [
        "[" * 100_000,
        '{"do": ["a", "b", 1e999, "", "", ""]}',
        '"do"\n["do"]\n{"undo": 1}\n{"redo": 1}\n{"forget": 1}',
        '{"do": ["\\ud800", "b", 0, "\\ud800", "", ""]}',
    ],
)
def test_steps_that_are_none_cost_nothing(client: TestClient, folder: Path, steps: str) -> None:
    """A file of steps that somebody made up: nothing to take back, and the job as it is."""
    (folder / ".good.yaml.steps").write_text(steps, encoding="utf-8")
    found = client.get("/api/jobs/good/text")
    assert found.status_code == http.client.OK
    assert found.json()["undo"] == ""
    assert edit(client, "good", "Three") == http.client.OK


def test_a_step_that_does_not_lead_where_it_says_is_none(client: TestClient, folder: Path) -> None:
    """A made-up step from the text as it stands to anything else is not taken back."""
    digest = client.get("/api/jobs/good/text").json()["digest"]
    step = f'{{"do": ["00000000000000000000", "{digest}", 0, "not yours", "", "w"]}}\n'
    (folder / ".good.yaml.steps").write_text(step, encoding="utf-8")
    assert client.get("/api/jobs/good/text").json()["undo"] == ""
    assert client.post("/api/jobs/good/undo", json={"seen": digest}).status_code == REFUSED
    assert (folder / "good.yaml").read_text(encoding="utf-8") == SMALL


def test_a_folder_of_ten_thousand_files_is_listed(client: TestClient, folder: Path) -> None:
    """The first five hundred jobs with word of the rest; a job among them opens, and asks for none of the others."""
    for k in range(10_000):
        (folder / f"n{k:05}.yaml").touch()
    found = client.get("/").text
    assert found.count("/overview") == 500
    assert "9501 more" in found
    began = time.process_time()
    assert client.get("/api/jobs/n09999/text").status_code == http.client.OK
    assert time.process_time() - began < 1.0


def test_a_folder_that_can_t_be_written_is_told(
    client: TestClient, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No room on the disk in the middle of a save: words, the old file, no rest of the new one, no step."""

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    assert edit(client, "good", "Four") == REFUSED
    monkeypatch.undo()
    assert (folder / "good.yaml").read_text(encoding="utf-8") == SMALL
    assert {each.name for each in folder.iterdir()} <= {"good.yaml", ".good.yaml.steps"}
    assert client.get("/api/jobs/good/text").json()["undo"] == ""


def test_a_file_that_goes_away_is_told(client: TestClient, folder: Path) -> None:
    """Between being read and being saved: the change is refused in words, and no file is made anew."""
    seen = client.get("/api/jobs/good/text").json()["digest"]
    (folder / "good.yaml").unlink()
    edits = [{"edit": "set", "path": "job.name", "value": "Five"}]
    answer = client.post("/api/jobs/good/edits", json={"seen": seen, "edits": edits})
    assert answer.status_code == REFUSED
    assert answer.json()["faults"][0]["needs"] == "a job file"
    assert not (folder / "good.yaml").exists()
