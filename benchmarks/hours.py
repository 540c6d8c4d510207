"""A year of hours with all operations, beside a plain Python loop and beside pvlib called hour by hour.

    .venv/bin/python benchmarks/hours.py

Times of the processor, not of the clock on the wall.  The plain loop does less than ours, in plain numbers: six steady
models with the sheet's own heat, without layers, vapour and the sun's position; then it asks the same questions one
after another.  It is measured over a part of the year and scaled.  Nothing here is asserted: machines are noisy.
"""

from __future__ import annotations

import importlib.util
import math
import sys
import time
from collections.abc import Callable
from dataclasses import fields
from pathlib import Path
from types import ModuleType

import numpy as np

from lapwright.assembly.values import Assembly, Board, Deck, Ply, Sheet
from lapwright.defaults.rules import make_rules
from lapwright.heat.buildup import build_up
from lapwright.heat.surface import default_setting
from lapwright.hours.table import RoofPlace, make_hour_table
from lapwright.hours.values import OPERATIONS, HourTable, Limits
from lapwright.intake.weather_source import read_bundled
from lapwright.units.write import Units
from lapwright.weather.values import WeatherYear
from run import machine

SIGMA = 5.670374419e-8
LOOP_HOURS, CELL_HOURS, YEARS = 400, 300, 30
SHEET = Ply("base", Sheet("b", 1, 1, 1, 1, 0.003))
ROOF = Assembly((SHEET,), Deck("steel"), Board("polyiso", 0.0762), Board("gypsum", 0.0127))


def table_of(year: WeatherYear) -> HourTable:
    """The hour table of a roof with every operation."""
    return make_hour_table(
        year,
        place=RoofPlace(year.latitude, year.longitude, 6.7, "C"),
        limits={name: Limits(10.0, 4.0, -20 / 3) for name in OPERATIONS},
        rules=make_rules({}),
        setting=default_setting(),
        units=Units("us"),
        built=build_up(ROOF),
    )


def seconds(work: Callable[[], object], runs: int = 5) -> float:
    """Processor seconds of the fastest of some runs."""
    best = math.inf
    for _ in range(runs):
        began = time.process_time()
        work()
        best = min(best, time.process_time() - began)
    return best


def slow() -> ModuleType:
    """The tests' plain version of the questions."""
    path = Path(__file__).parents[1] / "tests" / "reference" / "hours_slow.py"
    spec = importlib.util.spec_from_file_location("hours_slow", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def loop(found: HourTable, hours: int) -> None:
    """The first hours in plain numbers: six balances in quarter hours each, then nine operations."""
    plain, year = slow(), found.weather
    rules = {field.name: getattr(make_rules({}), field.name) for field in fields(make_rules({}))}
    readings = found.readings
    assert readings is not None
    surfaces = [0.0] * 6
    held = 3000.0 / 900.0
    for hour in range(hours):
        air, dew = float(year.air_c[hour]), float(year.dew_point_c[hour])
        wind, cloud = float(year.wind_m_s[hour]), float(np.nan_to_num(year.cloud[hour]))
        sun = float(found.sun_w_m2[hour])
        for model in range(6):
            sky = (
                (0.787 + 0.764 * math.log((dew + 273.15) / 273)) * (1 + 0.2 * cloud)
                if model % 2
                else 0.75 + 0.2 * cloud
            )
            film = (2.8 + 3.0 * wind, 5.7 + 3.8 * wind, 4.2 * math.sqrt(wind * 0.13))[model // 2]
            for _ in range(4):
                surface = surfaces[model]
                for _ in range(2):
                    radiated = 0.9 * SIGMA * (sky * (air + 273.15) ** 4 - (surface + 273.15) ** 4)
                    left = 0.85 * sun + radiated - film * (surface - air) - held * (surface - surfaces[model])
                    surface += left / (4 * 0.9 * SIGMA * (surface + 273.15) ** 3 + film + held)
                surfaces[model] = surface
        now = {field.name: getattr(readings, field.name)[hour].item() for field in fields(readings)}
        for name in OPERATIONS:
            plain.state_of(name, now, (10.0, 4.0, -20 / 3), rules)


def cell_by_cell(year: WeatherYear, hours: int) -> None:
    """pvlib's position of the sun, asked for one hour after another."""
    import pandas as pd
    from pvlib.solarposition import get_solarposition

    for moment in year.start[:hours]:
        get_solarposition(pd.DatetimeIndex([moment], tz="UTC"), year.latitude, year.longitude)


def main() -> None:
    """Print the readings and their ratios."""
    print(f"Measured on {machine()}, processor time.")
    for name in ("greensboro", "chicago-2015", "northway-2018"):
        year, _ = read_bundled(name)
        found = table_of(year)
        ours = seconds(lambda year=year: table_of(year))
        many = seconds(lambda year=year: [table_of(year) for _ in range(YEARS)], runs=1)
        looped = seconds(lambda found=found: loop(found, LOOP_HOURS), runs=2) * len(year.start) / LOOP_HOURS
        celled = seconds(lambda year=year: cell_by_cell(year, CELL_HOURS), runs=1) * len(year.start) / CELL_HOURS
        print(f"\n{name}: a year of hours, {len(OPERATIONS)} operations: {ours:.3f} s (aim 0.4)")
        print(f"  {YEARS} years: {many:.2f} s (aim 6), {many / ours / YEARS:.2f} of {YEARS} single ones")
        print(f"  plain Python loop: {looped:.1f} s, {looped / ours:.0f} times as long")
        print(f"  the sun alone by pvlib hour by hour: {celled:.1f} s, {celled / ours:.0f} times as long")


if __name__ == "__main__":
    sys.exit(main())
