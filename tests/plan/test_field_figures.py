"""The figures for the roof from a job: the example's own, and what is said where a key is not given."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from lapwright.job.reading import read_job
from lapwright.layout.values import Layout
from lapwright.packet.figures.page import figures_page
from lapwright.packet.values import Paper
from lapwright.plan import checks, make
from lapwright.plan.build import make_building
from lapwright.plan.fieldfigures import with_figures
from lapwright.plan.roofs import build_roofs
from lapwright.plan.tools import with_tools

EXAMPLE = Path(__file__).resolve().parents[2] / "src/lapwright/plan/example/millrace.yaml"
TEXT = EXAMPLE.read_text(encoding="utf-8")
INCH_AN_HOUR = 0.0254 / 3600


@cache
def layout() -> Layout:
    """The example's layout, on which no figure hangs."""
    job = read_job(TEXT, file="millrace.yaml")
    return make.lay_out(job, build_roofs(job, EXAMPLE.parent).areas)


@cache
def planned(*changes: tuple[str, str]) -> Paper:
    """The example without its weather, and with texts replaced, as far as the figures hang on it."""
    text = TEXT
    for old, new in (("weather: {year: greensboro}", "# no weather"), *changes):
        found = (
            re.sub(old, new, text, count=1, flags=re.DOTALL) if old.startswith("(?s)") else text.replace(old, new, 1)
        )
        assert found != text, old
        text = found
    job = read_job(text, file="millrace.yaml")
    laid = layout()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(make, "lay_out", lambda *_: laid)
        patch.setattr(checks, "layout_checks", lambda *_: ())
        paper = with_tools(job, make.lay_paper(job, build_roofs(job, EXAMPLE.parent), EXAMPLE))
        return with_figures(job, checks.make_checks(job, paper, make_building(job), ()))


def said(paper: Paper) -> str:
    """The page's words."""
    bare = re.sub(r"(?s)<(style|script)>.*?</\1>", "", figures_page(paper).decode())
    return re.sub(r"<[^>]+>", " ", bare)


def test_the_roll_clock_needs_no_weather() -> None:
    """Both sheets have a clock by air and wind; colder and windier is shorter."""
    rolls = planned().figures.rolls
    assert [one.sheet for one in rolls] == ["base-sa", "cap-sa"]
    for one in rolls:
        assert all(list(row) == sorted(row, reverse=True) for row in one.lasts_s)
        assert all(list(column) == sorted(column, reverse=True) for column in zip(*one.lasts_s, strict=True))


def test_the_store_is_the_jobs() -> None:
    """The example's rolls stand spaced, without fans."""
    for one in planned().figures.store:
        assert one.stands[one.own] == "rolls spaced"


@pytest.mark.parametrize(
    ("old", "new", "row"),
    [
        ("wrapping: spaced", "wrapping: wrapped", "wrapped pallet"),
        ("wrapping: spaced", "wrapping: wrapped, fans: yes", "wrapped pallet, fans"),
        ("wrapping: spaced", "wrapping: opened, fans: yes", "opened pallet, fans"),
        ("stack: pallet, wrapping: spaced", "stack: single, fans: yes", "rolls spaced, fans"),
    ],
)
def test_each_way_to_stand_has_its_row(old: str, new: str, row: str) -> None:
    """The row of the job's store is that of its stack, wrapping and fans."""
    assert [one.stands[one.own] for one in planned((old, new)).figures.store] == [row, row]


def test_gutters_share_the_water() -> None:
    """South: 96 by 30 ft and half of two parapets of 30 ft by 14 in, 3.75 in/h, over four outlets.

    2880 sf + 35 sf = 2915 sf; x 3.75 in/h = 2915 x 0.09290304 x 3.75 x 0.0254 / 3600 = 0.0071653 m³/s; a quarter each.
    """
    first = planned().figures.ways_out[0]
    assert (first.name, first.kind, first.storm, first.outlets) == ("G-1", "gutter", "primary", 4)
    assert first.flow_m3_s == pytest.approx(2915 * 0.09290304 * 3.75 * INCH_AN_HOUR / 4, rel=1e-3)


def test_a_drain_has_depth_and_load() -> None:
    """A 12 by 6 in scupper in place of a gutter: Q = 2.9 b H^1.5 (gpm, in) turned round; 5.2 psf an inch.

    2915 sf x 3.75 in/h = 910.9 cf/h = 113.6 gpm; (113.6 / (2.9 x 12))^(2/3) = 2.20 in; 5.2 x 2.20 = 11.4 psf = 548 Pa.
    """
    gutter = '{name: G-1, kind: gutter, side: 1, width: 6", outlets: 4}'
    scupper = '{name: S-1, kind: scupper, side: 1, from_start: 48\', width: 12", height: 6", sill: 0"}'
    first = planned((gutter, scupper)).figures.ways_out[0]
    assert first.head == pytest.approx(2.20 * 0.0254, rel=0.01)
    assert first.load_pa == pytest.approx(548, rel=0.01)


def test_limits_are_the_sheets_and_the_materials() -> None:
    """The example's cap: 50 °F, with heat from 20 °F, for air and surface; its primer from 20 °F."""
    limits = {one.operation: one for one in planned().figures.limits}
    cap, primer = limits["cap"], limits["primer"]
    assert (cap.apply_c, cap.warm_c, cap.heat_c) == (pytest.approx(10), None, pytest.approx(-20 / 3))
    assert (cap.by_air, cap.by_surface, primer.apply_c) == (True, True, pytest.approx(-20 / 3))


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ("{temperature: 70 F, ", "{", "store.temperature"),
        ("proved_speed: 3 in/s, ", "", "weld.proved_speed"),
        ("volts: 120 V, ", "", "power.volts"),
        ("wind_speed: 112 mph, ", "", "building.wind_speed"),
        ("rain_primary: 3.75 in/h, ", "", "site.rain_primary"),
        ("primer: {apply_at_or_above: 20 F, ", "primer: {", "materials.primer.apply_at_or_above"),
        ("length: 32' 10\", thickness: 4 mm", "length: 32' 10\"", "sheets.cap-sa.thickness"),
    ],
)
def test_what_is_not_given_is_named(old: str, new: str, key: str) -> None:
    """Without the key its part of the page says unknown and names it; the whole example says it nowhere."""
    assert key not in said(planned())
    lacking = said(planned((old, new)))
    assert key in lacking
    assert "unknown" in lacking


def test_the_whole_example_knows_everything() -> None:
    """No part of the example's page is unknown, weather or not."""
    assert "unknown" not in said(planned())


def test_a_job_without_store_tools_and_power_says_so_in_each_part() -> None:
    """Roll clock, store, weld and cords: four times unknown."""
    bare = planned(("(?s)store: .*?power: [^\n]*\n", ""))
    assert said(bare).count("unknown.") == 4
