"""What no page of ours sends to the sheet that describes a job: told in words, never a bug, and nothing is changed."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from lapwright.workspace.app import make_app
from lapwright.workspace.guard import TOKEN

PORT = 8796
JOB = "roof:\n  - area: Main\n    outline: E 60', N 40', W 60', S 40'\n"
HALF = "\ud800"  # half of a pair of UTF-16
POSTS: list[tuple[str, Any]] = [
    ("sides", {"area": 0, "sides": [1], "said": {"kind": HALF}}),
    ("sides", {"area": 0, "sides": [1], "said": {HALF: "wall"}}),
    ("sides", {"area": 0, "sides": [0], "said": {}}),
    ("sides", {"area": 9, "sides": [1], "said": {"kind": "wall"}}),
    ("sides", {"area": 0, "sides": list(range(1, 5002)), "said": {}}),
    ("sides", {"area": 0, "sides": [1], "said": {"kind": ["wall"]}}),
    ("outline", {"area": 0, "walk": HALF}),
    ("outline", {"area": 0, "walk": "E 1'," * 30_000}),
    ("outline", {"area": -1, "walk": ""}),
    ("drawing", {"file": "../x.dxf", "layers": []}),
    ("drawing", {"file": "not-there.dxf", "layers": [{"layer": "A", "use": "outline"}]}),
    ("drawing", {"file": "x.dxf", "layers": [{"layer": HALF, "use": "outline"}]}),
    ("edits", {"seen": "", "edits": [{"edit": HALF}]}),
    ("edits", {"seen": "", "edits": [{"edit": "set", "path": HALF, "value": "x"}]}),
]
GETS = [
    "point?area=0&x=nan&y=0",
    "point?area=0&x=1e300&y=0",
    "point?area=1&x=0&y=0",
    "point?area=0&x=0",
    "step?path=%00&east=1&north=0",
    "step?path=roof[0].openings[7]&east=1&north=0",
    "step?path=roof[0]&east=99999999999&north=0",
    "place?path=&area=3&x=0&y=0",
]


def asked(folder: Path, method: str, way: str, body: Any = None) -> tuple[int, Any]:
    """Status and answer of a request about a job."""
    (folder / "a.yaml").write_text(JOB, encoding="utf-8")
    guard = make_app(folder, port=PORT)
    client = TestClient(guard, base_url=f"http://127.0.0.1:{PORT}", raise_server_exceptions=False)
    head = {TOKEN: guard.token, "content-type": "application/json"}
    content = None if body is None else json.dumps(body).encode()
    found = client.request(method, f"/api/jobs/a/{way}", headers=head, content=content)
    return found.status_code, found.json()


@pytest.mark.parametrize(("way", "body"), POSTS)
def test_bodies_that_are_wrong_are_told(tmp_path: Path, way: str, body: Any) -> None:
    """Refused in words; the file is as it was."""
    status, answer = asked(tmp_path, "POST", way, body)
    assert status in (409, 413, 422), answer
    assert answer["words"]
    assert (tmp_path / "a.yaml").read_text(encoding="utf-8") == JOB


@pytest.mark.parametrize("way", GETS)
def test_questions_that_are_wrong_are_told(tmp_path: Path, way: str) -> None:
    """Refused in words."""
    status, answer = asked(tmp_path, "GET", way)
    assert status == 422, answer
    assert answer["words"]


TEXTS = [
    "roof: 3\n",
    "roof:\n  - 1\n  - [1]\n",
    "roof:\n  - area: [a]\n    outline: {dxf: x.dxf, layer: [1]}\n    edges: {a: b}\n    openings: [[1]]\n",
    "rules: [1]\nprices: {a: {b: c}}\nsheets: [1]\nassembly: {plies: {a: b}, rated_uplift: {a: b}}\nroof: []\n",
    '"": 1\nroof:\n  - {"": {"": ""}, area: ""}\nsheets: {"": {width: 3}, "a.b": {"[0]": 1}}\n',
    "weather: {year: [1]}\nstore: 3\nsite: [1, 2]\njob: x\ncrew: {rates: {x: [1]}}\n",
    "a: *b\n",
    "a: [",
]


@pytest.mark.parametrize("text", TEXTS)
def test_any_text_can_be_described(tmp_path: Path, text: str) -> None:
    """Form and outline of what is hardly a job are told, with its faults somewhere among the steps."""
    (tmp_path / "odd.yaml").write_text(text, encoding="utf-8")
    client = TestClient(make_app(tmp_path, port=PORT), base_url=f"http://127.0.0.1:{PORT}")
    form = client.get("/api/jobs/odd/form").json()
    told = len(form["faults"]) + sum(step["missing"] for step in form["steps"])
    assert told == form["missing"] > 0
    assert client.get("/api/jobs/odd/outline").status_code == 200
