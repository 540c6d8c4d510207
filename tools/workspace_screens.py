"""Every sheet of the workspace as a picture, in every look and in the states that hands lead to; to be looked at.

    python tools/workspace_screens.py out/screens [LOOK ...]

Looks: light, dark, phone, zoom (200 % of a small window), grey, print (what goes to paper, page by page) and states.
Serves the example jobs from a folder of its own.  Needs chromium (Debian's), pdftoppm (Debian's poppler-utils) for
print, and the packages of the tests.
"""

import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from playwright.sync_api import Browser, Page, sync_playwright

import workspace_states as states
from lapwright.workspace.routes.pages import SHEETS

ROOT = Path(__file__).parents[1]
EXAMPLE = ROOT / "src/lapwright/plan/example/millrace.yaml"
GREY = "document.documentElement.style.filter = 'grayscale(1)'"
FAULTS = (
    ("E 96', N 30', W 96', S 30'", "E 96', N 30', W 90', S 3O'"),
    ("slope: ", "slope: 1/4 # "),
    ("units: us", "units: feet"),
)


@dataclass(frozen=True)
class Look:
    """How a sheet is looked at."""

    width: int = 1280
    height: int = 900
    scheme: str = "light"
    sharp: float = 1
    script: str = ""


LOOKS: Mapping[str, Look] = MappingProxyType(
    {
        "light": Look(),
        "dark": Look(scheme="dark"),
        "phone": Look(360, 740),
        "zoom": Look(640, 450, sharp=2),
        "grey": Look(script=GREY),
    }
)


def jobs(folder: Path) -> None:
    """The example and the other examples, a large roof, a faulty job, an empty one, one with little in it."""
    shutil.copy(EXAMPLE, folder)
    for each in ROOT.glob("examples/*.*"):
        shutil.copy(each, folder)
    sys.path.insert(0, str(ROOT / "benchmarks"))
    from size import job_text

    text = EXAMPLE.read_text(encoding="utf-8")
    (folder / "large.yaml").write_text(job_text(text, 200, 100, 12), encoding="utf-8")
    faulty = text
    for right, wrong in FAULTS:
        faulty = faulty.replace(right, wrong, 1)
    (folder / "faulty.yaml").write_text(faulty, encoding="utf-8")
    (folder / "empty.yaml").write_text("job: {name: New roof}\nunits: us\n", encoding="utf-8")
    (folder / "unknown.yaml").write_text(
        without(text, ("building", "weather", "crew", "power", "prices")), encoding="utf-8"
    )


def without(text: str, keys: tuple[str, ...]) -> str:
    """A job file without some of its parts."""
    kept, is_in = [], True
    for line in text.splitlines(keepends=True):
        if line[:1].isalpha():
            is_in = line.partition(":")[0] not in keys
        if is_in:
            kept.append(line)
    return "".join(kept)


@contextmanager
def served() -> Iterator[tuple[str, Path]]:
    """A server over the jobs: its address and their folder."""
    with tempfile.TemporaryDirectory() as folder:
        jobs(Path(folder))
        code = "from lapwright.cli.main import run; run()"
        command = [sys.executable, "-c", code, "serve", folder, "--port", "0", "--no-browser"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
            assert process.stdout is not None
            try:
                yield process.stdout.readline().split(" at ")[1].split(" ")[0].rstrip("/"), Path(folder)
            finally:
                process.terminate()


def all_sheets(browser: Browser, url: str, folder: Path, look: Look) -> None:
    """Every sheet of the example in a look."""
    folder.mkdir(parents=True, exist_ok=True)
    page = page_of(browser, look)
    for name, address in {"start": url, **{each.key: f"{url}/jobs/millrace/{each.key}" for each in SHEETS}}.items():
        page.goto(address)
        states.settled(page)
        if look.script:
            page.evaluate(look.script)
        states.picture(page, folder / f"{name}.png")
        if look.height < 500:  # what such a window shows of it at once, in the middle of the sheet
            page.evaluate("scrollTo(0, (document.body.scrollHeight - innerHeight) / 2)")
            page.wait_for_timeout(200)
            page.screenshot(path=folder / f"{name}-window.png")
        print(folder / f"{name}.png", flush=True)
    page.context.close()


def page_of(browser: Browser, look: Look) -> Page:
    """A new page that looks so."""
    size = {"width": look.width, "height": look.height}
    context = browser.new_context(viewport=size, color_scheme=look.scheme, device_scale_factor=look.sharp)
    return context.new_page()


def on_paper(browser: Browser, url: str, folder: Path) -> None:
    """Every sheet of the example as it goes to letter paper, a picture a page, in colour and in grey."""
    folder.mkdir(parents=True, exist_ok=True)
    page = page_of(browser, Look())
    for sheet in SHEETS:
        page.goto(f"{url}/jobs/millrace/{sheet.key}")
        states.settled(page)
        file = folder / f"{sheet.key}.pdf"
        page.pdf(path=file, format="Letter", margin=dict.fromkeys(("top", "right", "bottom", "left"), "0.4in"))
        subprocess.run(["pdftoppm", "-r", "60", "-png", "-gray", str(file), str(folder / sheet.key)], check=True)
        print(file, len(list(folder.glob(f"{sheet.key}-*.png"))), "pages", flush=True)
    page.context.close()


def all_states(browser: Browser, url: str, jobs_in: Path, folder: Path) -> None:
    """The states that hands lead to, on a desk and, of some, on a phone."""
    folder.mkdir(parents=True, exist_ok=True)
    for kind, look in (("desk", Look()), ("phone", LOOKS["phone"])):
        page = page_of(browser, look)
        page.set_default_timeout(30_000)

        def shot(name: str, page: Page = page, kind: str = kind) -> None:
            states.picture(page, folder / f"{kind}-{name}.png")
            print(folder / f"{kind}-{name}.png", flush=True)

        if kind == "desk":
            states.at_work(page, url, shot)
            states.stale(page, url, shot, jobs_in)
            states.steps_back(page, url, shot, jobs_in)
            states.metric(page, url, shot)
        states.faulty(page, url, shot)
        states.bare(page, url, shot)
        states.on_roof(page, url, shot)
        states.of_hours(page, url, shot)
        states.of_the_rest(page, url, shot)
        page.context.close()


def main() -> None:
    """Serve, look, end."""
    chromium = shutil.which("chromium")
    if chromium is None:
        sys.exit("chromium is not on this machine: apt-get install chromium")
    out, wanted = Path(sys.argv[1]), sys.argv[2:] or [*LOOKS, "print", "states"]
    with served() as (url, folder), sync_playwright() as tool:
        browser = tool.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for name in wanted:
            if name in LOOKS:
                all_sheets(browser, url, out / name, LOOKS[name])
        if "print" in wanted:
            on_paper(browser, url, out / "print")
        if "states" in wanted:
            all_states(browser, url, folder, out / "states")
        browser.close()


if __name__ == "__main__":
    main()
