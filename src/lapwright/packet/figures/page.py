"""The page of figures for the roof: title block, tables and curves in one HTML file with nothing outside it."""

from __future__ import annotations

import base64
import hashlib
from importlib.resources import files

from lapwright.packet.figures.html import Markup, Piece, element, joined
from lapwright.packet.figures.roof import water_section, wind_section
from lapwright.packet.figures.tools import cord_section, weld_section
from lapwright.packet.figures.warm import roll_section, store_section
from lapwright.packet.figures.weather import chill_section, limit_section
from lapwright.packet.pages.cover import CAUTIONS
from lapwright.packet.pages.words import date_words
from lapwright.packet.values import Head, Paper
from lapwright.units.write import Units

TITLE = "Figures for the roof"
DECIDE = (
    "Computed from the job file. The readings on the roof decide; the maker's written instructions and local code "
    "govern."
)
MONOXIDE = (
    "Carbon monoxide.",
    "Generators, engines and fuel heaters stand outdoors in the open, away from doors, windows and air intakes, never "
    "in the warm store or under a tarp; an alarm in the store and where people warm up.",
)
LINKS = {
    "hours": "Limits",
    "rolls": "Roll clock",
    "store": "Warm store",
    "weld": "Weld speed",
    "cords": "Cords",
    "chill": "Wind chill",
    "wind": "Wind",
    "drains": "Drains",
    "cautions": "Cautions",
}


def figures_page(paper: Paper) -> bytes:
    """The file.  Works from a phone's files, without a network and without its script."""
    style, script = read("look.css"), read("pick.js")
    units = Units(paper.head.units)
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=policy(style, script)),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("meta", name="color-scheme", content="light dark"),
        element("title", f"{TITLE}: {paper.head.name or paper.head.file}"),
        element("style", Markup(style)),
    )
    body = element(
        "body",
        element("header", element("h1", TITLE), title_block(paper.head), element("p", DECIDE)),
        links(),
        readings(units),
        element("main", *sections(units, paper)),
        element("script", Markup(script)),
    )
    return f"<!DOCTYPE html>\n{element('html', head, body, lang='en').text}\n".encode()


def read(name: str) -> str:
    """A file of this folder."""
    return files("lapwright.packet.figures").joinpath(name).read_text("utf-8")


def policy(style: str, script: str) -> str:
    """Only the style and the script that stand in the page, and nothing from anywhere else."""
    sums = (base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() for text in (style, script))
    of_style, of_script = sums
    return (
        f"default-src 'none'; style-src 'sha256-{of_style}'; script-src 'sha256-{of_script}'; base-uri 'none'; "
        "form-action 'none'"
    )


def title_block(head: Head) -> Markup:
    """Which job, which revision."""
    told = (
        ("Job", head.name),
        ("Number", head.number),
        ("Date", date_words(head.date, weekday=False)),
        ("Revision", head.revision),
        ("File", head.file),
    )
    return element("dl", *(joined((element("dt", name), element("dd", value or "not given"))) for name, value in told))


def links() -> Markup:
    """Ways to the parts of the page."""
    items = (element("li", element("a", word, href=f"#{id}")) for id, word in LINKS.items())
    return element("nav", element("ul", *items), aria_label="Parts of this page")


def readings(units: Units) -> Markup:
    """Fields for the readings of the hour; hidden until the page's script is there to use them."""
    degree, speed = units.converted(0.0, "degC")[1], units.converted(0.0, "m/s")[1]
    fields = (("air", f"Air, {degree}"), ("wind", f"Wind, {speed}"), ("sheet", f"Sheet, {degree}"))
    return element(
        "form",
        element("h2", "Readings now", id="h-readings"),
        element("p", "Marks the row on the colder side and the column on the windier side. Nothing is put in between."),
        element("div", *(field(name, words) for name, words in fields), class_="fields"),
        element("button", "Clear", type="reset"),
        id="readings",
        aria_labelledby="h-readings",
        autocomplete="off",
        hidden=True,
    )


def field(name: str, words: str) -> Markup:
    """One reading."""
    least = "0" if name == "wind" else None
    return element("label", words, element("input", type="number", step="any", name=name, min=least))


def sections(units: Units, paper: Paper) -> tuple[Piece, ...]:
    """The parts, those first that are asked for most often."""
    figures, rules = paper.figures, paper.rules
    chill = () if figures.chill is None else (chill_section(units, figures.chill, rules),)
    return (
        limit_section(units, figures, rules),
        roll_section(units, figures),
        store_section(units, figures),
        weld_section(units, paper.tools),
        cord_section(units, paper.tools),
        *chill,
        wind_section(units, paper.engineered.zones, figures.lacking.get("wind", ())),
        water_section(units, figures),
        cautions(),
    )


def cautions() -> Markup:
    """What can hurt people, as on the packet's cover."""
    told = (*CAUTIONS[:-1], MONOXIDE, CAUTIONS[-1])
    lines = (element("p", element("strong", name), f" {words}") for name, words in told)
    return element(
        "section", element("h2", "Cautions", id="h-cautions"), *lines, id="cautions", aria_labelledby="h-cautions"
    )
