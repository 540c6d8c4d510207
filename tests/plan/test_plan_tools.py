"""The tables of a job's tools: from its keys, with the example's own numbers by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from lapwright.job.models import Job
from lapwright.job.reading import read_job
from lapwright.plan.tools import cord_table, make_weld_ask, row_sheets_c, speed_at, supply_table, weld_table

EXAMPLE = Path(__file__).resolve().parents[2] / "src/lapwright/plan/example/millrace.yaml"
TEXT = EXAMPLE.read_text(encoding="utf-8")


def job(old: str = "", new: str = "") -> Job:
    """The example, with a text replaced."""
    assert old in TEXT
    return read_job(TEXT.replace(old, new, 1) if old else TEXT, file="millrace.yaml")


def test_rows_go_from_90_to_0_by_ten() -> None:
    """The table's sheets in °F."""
    assert [round(sheet_c * 1.8 + 32, 9) for sheet_c in row_sheets_c()] == [90, 80, 70, 60, 50, 40, 30, 20, 10, 0]


def test_rows_of_a_metric_job_are_round() -> None:
    """35 to -20 °C by five."""
    assert row_sheets_c("metric") == [35, 30, 25, 20, 15, 10, 5, 0, -5, -10, -15, -20]


def test_speeds_fall_along_rows_and_columns() -> None:
    """Colder rows and fewer volts are slower; the proved row at full volts, in air as warm as the test's, is proved."""
    table = weld_table(job("proved_air: 60 F, ", ""), None, (), None)
    assert table is not None
    speeds = [row.speeds for row in table.rows]
    assert all(list(row) == sorted(row, reverse=True) for row in speeds)
    assert all(list(column) == sorted(column, reverse=True) for column in zip(*speeds, strict=True))
    assert speeds[2][0] == pytest.approx(3 * 0.0254)


def test_not_given_whether_the_nozzle_is_held_takes_the_slower() -> None:
    """In colder air the nozzle that follows it is the slower, in warmer air the one that is held."""
    ask = make_weld_ask(job())
    assert ask is not None
    for sheet_c in (-10.0, 35.0):
        ways = [speed_at(ask, sheet_c, sheet_c, holds_nozzle=holds) for holds in (True, False)]
        assert speed_at(ask, sheet_c, sheet_c, holds_nozzle=None) == min(ways)


@pytest.mark.parametrize("key", ["proved_speed: 3 in/s, ", "proved_sheet: 70 F, ", "nozzle: 550 C, "])
def test_without_the_whole_test_weld_there_is_no_table(key: str) -> None:
    """Each of its three keys is needed."""
    assert weld_table(job(key, ""), None, (), None) is None


def test_the_jobs_own_cord() -> None:
    """100 ft of #10 at 120 V, 1.6 kW: 2.68 % of the volts, by 9 ohm of tool and 0.248 of cord."""
    table = cord_table(job())
    assert table is not None
    assert table.own_drop_share == pytest.approx(0.248 / 9.248)
    assert [row.gauge for row in table.rows] == ["14", "12", "10", "8"]
    assert cord_table(job("volts: 120 V, ", "")) is None


def test_a_cord_that_is_half_given_is_not_told() -> None:
    """Without its gauge the table stands, the job's own cord does not."""
    table = cord_table(job("gauge: 10, ", ""))
    assert table is not None
    assert (table.own_drop_share, table.own_heat_lost) == (None, None)


def test_the_generator_by_hand() -> None:
    """2 x 1.6 + 1.2 + 0.3 kW run, 5.9 start, 5.875 at four fifths; at 886 ft over 0.96899: 6.09 kW."""
    table = supply_table(job())
    assert table is not None
    assert (table.running_w, table.starting_w, table.size_w) == (4700, 5900, 6500)
    assert table.here_w == pytest.approx(5900 / (1 - 0.035 * 0.886))
    assert supply_table(job(", others: 300 W", "")) is None
