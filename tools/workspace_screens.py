"""Every sheet of the workspace as a picture: light, dark, phone and print; to be looked at.

    python tools/workspace_screens.py out/screens

Serves the example jobs from a folder of its own.  Needs chromium (Debian's) and the packages of the tests.
"""

import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from lapwright.workspace.routes.pages import SHEETS

ROOT = Path(__file__).parents[1]
LOOKS = {
    "light": ({"width": 1280, "height": 900}, "light", "screen"),
    "dark": ({"width": 1280, "height": 900}, "dark", "screen"),
    "phone": ({"width": 360, "height": 740}, "light", "screen"),
    "print": ({"width": 1000, "height": 1300}, "light", "print"),
}
LONGEST_MS = 180_000


@contextmanager
def served() -> Iterator[str]:
    """A server over the example and the other examples; its address."""
    with tempfile.TemporaryDirectory() as folder:
        shutil.copy(ROOT / "src/lapwright/plan/example/millrace.yaml", folder)
        for each in ROOT.glob("examples/*.*"):
            shutil.copy(each, folder)
        code = "from lapwright.cli.main import run; run()"
        command = [sys.executable, "-c", code, "serve", folder, "--port", "0", "--no-browser"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
            assert process.stdout is not None
            yield process.stdout.readline().split(" at ")[1].split(" ")[0].rstrip("/")
            process.terminate()


def look(page: Page, address: str, out: Path) -> None:
    """One sheet, once nothing is worked on any more."""
    page.goto(address)
    page.wait_for_timeout(1200)
    page.wait_for_selector(".working", state="detached", timeout=LONGEST_MS)
    page.wait_for_timeout(600)
    page.screenshot(path=out, full_page=True)


def all_looks(browser: Browser, url: str, out: Path) -> None:
    """Every sheet in every look."""
    for name, (size, scheme, medium) in LOOKS.items():
        folder = out / name
        folder.mkdir(parents=True, exist_ok=True)
        context = browser.new_context(viewport=size, color_scheme=scheme)
        page = context.new_page()
        page.emulate_media(media=medium, color_scheme=scheme)
        look(page, url, folder / "start.png")
        for sheet in SHEETS:
            look(page, f"{url}/jobs/millrace/{sheet.key}", folder / f"{sheet.key}.png")
            print(folder / f"{sheet.key}.png", flush=True)
        context.close()


def main() -> None:
    """Serve, look, end."""
    chromium = shutil.which("chromium")
    if chromium is None:
        sys.exit("chromium is not on this machine: apt-get install chromium")
    out = Path(sys.argv[1])
    with served() as url, sync_playwright() as tool:
        browser = tool.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        all_looks(browser, url, out)
        browser.close()


if __name__ == "__main__":
    main()
