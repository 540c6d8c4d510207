"""How soon the workspace answers: first page, pages, an edit laid anew, and the longest block while panning.

    .venv/bin/python benchmarks/workspace.py [--quick] [--edits 200]

With --edits only one thing is done: so many edits of a small job, one after the other, every sheet asked for after
each, and the memory of server and planning process told on the way.  Linux only.

Wall time on this machine beside the bars; a fast answer on a busy machine is no proof, so the load is printed.  Needs
chromium and the packages of the tests.
"""

from __future__ import annotations

import argparse
import json
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

from lapwright.workspace.routes.pages import SHEETS
from memory import below, memory_of
from size import job_text

ROOT = Path(__file__).parents[1]
WATCH = """() => {
  window.gaps = []; window.tasks = [];
  const heard = (list) => { for (const each of list.getEntries()) window.tasks.push(each.duration); };
  new PerformanceObserver(heard).observe({ type: "longtask" });
  let last = performance.now();
  const tick = (now) => { window.gaps.push(now - last); last = now; requestAnimationFrame(tick); };
  requestAnimationFrame(tick);
}"""
TOLD_AT = (0, 10, 25, 50, 100, 150, 200, 300, 400)  # edits
VIEWS = ("roof", "hours", "hoursday?day=10&days=7", "nextday", "days", "order", "checks", "summary")
CODE = "from lapwright.cli.main import run; run()"


class Client:
    """Asks a server over a folder."""

    def __init__(self, folder: Path) -> None:
        command = [sys.executable, "-c", CODE, "serve", str(folder), "--port", "0", "--no-browser"]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        self.url = self.process.stdout.readline().split(" at ")[1].split(" ")[0].rstrip("/")
        page = self.get("/")[1].decode()
        self.token = re.search(r'name="token" content="([^"]+)"', page)[1]

    def get(self, path: str) -> tuple[float, bytes]:
        """Seconds and bytes of an answer."""
        began = time.perf_counter()
        body = urllib.request.urlopen(self.url + path).read()
        return time.perf_counter() - began, body

    def post(self, path: str, value: dict[str, Any]) -> dict[str, Any]:
        """The answer to a change."""
        headers = {"content-type": "application/json", "x-lapwright-token": self.token}
        request = urllib.request.Request(self.url + path, json.dumps(value).encode(), headers)
        return json.loads(urllib.request.urlopen(request).read())

    def edit_to_layout(self, job: str, edits: list[dict[str, Any]]) -> tuple[float, float]:
        """Seconds from a change being sent until a first layout is there, and until the whole search is done."""
        seen = json.loads(self.get(f"/api/jobs/{job}/text")[1])["digest"]
        began = time.perf_counter()
        self.post(f"/api/jobs/{job}/edits", {"seen": seen, "edits": edits})
        first = 0.0
        with urllib.request.urlopen(f"{self.url}/api/jobs/{job}/views/roof") as answer:
            for line in answer:
                if line.startswith((b'{"draft"', b'{"view"')) and not first:
                    first = time.perf_counter() - began
        return first, time.perf_counter() - began

    def edit_and_look(self, job: str, outline: str) -> None:
        """An edit, and everything that the sheets ask for after it."""
        seen = json.loads(self.get(f"/api/jobs/{job}/text")[1])["digest"]
        self.post(
            f"/api/jobs/{job}/edits",
            {"seen": seen, "edits": [{"edit": "set", "path": "roof[0].outline", "value": outline}]},
        )
        for way in ("form", "outline", "packet", *(f"views/{view}" for view in VIEWS)):
            last = self.get(f"/api/jobs/{job}/{way}")[1].splitlines()[-1]
            if b'"faults":[{' in last:
                raise SystemExit(last.decode())

    def memory(self) -> list[float]:
        """RSS of the server, then of each process below it [MB]."""
        return [memory_of(each)[0] / 1024 for each in below(self.process.pid)]

    def end(self) -> None:
        """Ends the server."""
        self.process.terminate()
        self.process.wait()


def pan_blocks(page: Page, url: str, job: str) -> tuple[float, float]:
    """The longest task of the page's own thread while the plan is panned and zoomed [ms], and the share of frames
    that came within 50 ms.
    """
    page.goto(f"{url}/jobs/{job}/roof")
    page.wait_for_selector(".counts", timeout=240_000)
    page.wait_for_selector(".working", state="detached", timeout=240_000)
    page.evaluate(WATCH)
    box = page.locator("canvas").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.wheel(0, -900)
    page.mouse.down()
    for k in range(120):
        page.mouse.move(x + (k % 40) * 6 - 120, y + (k % 30) * 4 - 60)
    page.mouse.up()
    page.wait_for_timeout(300)
    tasks, gaps = page.evaluate("() => [window.tasks, window.gaps]")
    return max(tasks, default=0.0), sum(gap <= 50 for gap in gaps) / len(gaps)


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--quick", action="store_true", help="without the roof of 100,000 sq ft")
    parser.add_argument("--edits", type=int, default=0, help="so many edits of a small job, and the memory on the way")
    given = parser.parse_args()
    quick = given.quick
    print(f"load of the machine before: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        shutil.copy(ROOT / "src/lapwright/plan/example/millrace.yaml", folder)
        example = (folder / "millrace.yaml").read_text()
        if given.edits:
            (folder / "small.yaml").write_text(job_text(example, 40, 20, 1))
            return followed(folder, given.edits)
        (folder / "mid.yaml").write_text(job_text(example, 200, 100, 12))
        if not quick:
            (folder / "large.yaml").write_text(job_text(example, 400, 250, 60))
        client = Client(folder)
        try:
            told(client, quick=quick)
        finally:
            client.end()


def followed(folder: Path, edits: int) -> None:
    """Memory over many edits, each with a roof that was not there before."""
    client = Client(folder)
    began = time.perf_counter()
    print("| edits | server, MB RSS | planning process, MB RSS | s so far |\n| ---: | ---: | ---: | ---: |")
    try:
        for count in range(edits + 1):
            wide = f"{40 + count // 12}' {count % 12}\""
            client.edit_and_look("small", f"E {wide}, N 20', W {wide}, S 20'")
            if count in TOLD_AT or count == edits:
                server, *others = client.memory()
                took = time.perf_counter() - began
                print(
                    f"| {count} | {server:.0f} | {' + '.join(f'{each:.0f}' for each in others)} | {took:.0f} |",
                    flush=True,
                )
    finally:
        client.end()


def told(client: Client, *, quick: bool) -> None:
    """Every line of the table."""
    row("first page once the server is up", client.get("/")[0] * 1000, "ms", 300)
    for sheet in SHEETS:
        client.get(f"/jobs/millrace/{sheet.key}")
        took = statistics.median(client.get(f"/jobs/millrace/{sheet.key}")[0] for _ in range(5))
        row(f"page {sheet.key}", took * 1000, "ms", 100)
    for job, width, depth, bar in [("mid", 200, 100, 500), *([] if quick else [("large", 400, 250, 2000)])]:
        client.edit_to_layout(job, [{"edit": "set", "path": "roof[0].slope", "value": "1/4 in 12"}])
        outlines = [f"E {width + k}', N {depth}', W {width + k}', S {depth}'" for k in (1, 2, 3)]
        both = [client.edit_to_layout(job, [{"edit": "set", "path": "roof[0].outline", "value": w}]) for w in outlines]
        size = f"{width * depth:,} sq ft"
        row(f"a leg edited, laid anew, {size}", statistics.median(first for first, _ in both) * 1000, "ms", bar)
        row(f"  the whole search of it, {size}", statistics.median(whole for _, whole in both) * 1000, "ms", None)
    chromium = shutil.which("chromium")
    if chromium is None:
        print("panning: unknown, chromium is not on this machine")
        return
    with sync_playwright() as tool:
        browser = tool.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for job in ("mid",) if quick else ("mid", "large"):
            longest, share = pan_blocks(browser.new_page(viewport={"width": 1400, "height": 900}), client.url, job)
            row(f"longest block while panning, {job}", longest, "ms", 50)
            row(f"  frames within 50 ms, {job}", share * 100, "%", None)
        browser.close()


def row(what: str, value: float, unit: str, bar: float | None) -> None:
    """One line of the table."""
    against = "" if bar is None else f"   bar {bar:g} {unit}   {value / bar:.2f} of it"
    print(f"{what:<48}{value:8.1f} {unit}{against}", flush=True)


if __name__ == "__main__":
    main()
