"""One hour of a morning sheet worked by hand from a saved forecast (docs/method/morning.md): window, rolls, weld speed.

The numbers below were worked with a pocket calculator from the forecast's numbers; nothing here asks the program.
"""

from __future__ import annotations

import re

import pytest
from planned_jobs import ROOT

import forecast_sample as sample
from lapwright.plan.morningsheet import Asked, MorningMade, make_morning

EXAMPLE = ROOT / "src/lapwright/plan/example/millrace.yaml"
AIR = [("PT9H", -8), ("PT1H", -8), ("PT1H", -8), ("PT1H", -4.2), ("PT2H", -2), ("P1DT10H", 1)]  # 06:00, 07:00, 08:00 …
CHANCE = [("PT15H", 5), ("PT1H", 10), ("PT4H", 60), ("P1DT4H", 10)]  # rain from 14:00 on
DRY = [("P2D", -25)]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> MorningMade:
    """The sheet of the example job under that forecast, limits held by the air alone."""
    folder = tmp_path_factory.mktemp("hand")
    text = re.sub(r"(?m)^(weld|power|store):.*\n(?: .*\n)*", "", EXAMPLE.read_text(encoding="utf-8")).replace(
        "  spare_rolls: 1 ", "  limits_hold_for: air\n  spare_rolls: 1 "
    )
    (folder / "job.yaml").write_text(text, encoding="utf-8")
    grid = sample.grid(
        temperature=sample.layer("degC", AIR),
        dewpoint=sample.layer("degC", DRY),
        skyCover=sample.layer("percent", [("P2D", 0)]),
        windSpeed=sample.layer("km_h-1", [("P2D", 16.09344)]),  # 10 mph
        probabilityOfPrecipitation=sample.layer("percent", CHANCE),
        quantitativePrecipitation=sample.layer("mm", [("P2D", 0)]),
        snowfallAmount=sample.layer("mm", [("P2D", 0)]),
        weather=sample.layer(None, [("P2D", sample.weather(None, None))]),
    )
    (folder / "f.json").write_bytes(sample.saved(grid=grid, hourly=None))
    weld = ("3 in/s", "70 F", "550 C")
    return make_morning(folder / "job.yaml", Asked(forecast=str(folder / "f.json"), weld=weld))


def test_the_window_by_hand(made: MorningMade) -> None:
    """Air from -8 °C at 08:00 to -4.2 °C at 09:00 passes 20 °F (-6.67 °C) after 1.33/3.8 h = 21.05 min: 08:22.

    Rain is due from 14:00 and closing takes an hour, so that nothing is opened after 13:00.
    """
    cap = next(one for one in made.paper.morning.operations if one.operation == "cap")
    assert (cap.verdict, cap.first_min, cap.last_min) == ("wait", 8 * 60 + 22, 13 * 60)
    assert cap.before == "air below 20 °F"
    assert cap.after == "rain or snow due within 60 min"


def test_how_long_a_roll_lasts_by_hand(made: MorningMade) -> None:
    """At 10:00, in -2 °C and 10 mph, a bare base roll's outer wrap falls from 20 to 10 °C in 4.85 min.

    Film 20.3 (Churchill and Bernstein at Re 64 100, Nu 161) and 4.3 by radiation, 24.6 W/m²K; as a thick flat body the
    mean of one sheet, by Simpson's rule over three depths, is there after 5.11 min; the round takes 5.4 % of it.
    """
    ten = next(one for one in made.paper.morning.hours if one.hour == 10)
    assert (ten.air_c, ten.rain_chance) == (-2.0, 0.05)
    assert ten.roll_s is not None
    assert ten.roll_s / 60 == pytest.approx(4.85, rel=0.015)


def test_the_rolls_to_bring_by_hand(made: MorningMade) -> None:
    """The coldest full hour about the window is 08:00, -8 °C: base 2.55 min, cap 4.42 min, worked the same way.

    Six people lay a base roll (215 sf at 65 sf/h each, at 85 % of the pace) every 38.9 min, so one roll a trip; with
    60 s of handling 1.55 min are left for the way at 0.8 m/s: 74 m, 240 ft.  196 sf take two rolls of cap of 98 sf net.
    """
    base, cap = made.paper.morning.warm
    assert (base.lasts_s or 0) / 60 == pytest.approx(2.55, rel=0.015)
    assert (cap.lasts_s or 0) / 60 == pytest.approx(4.42, rel=0.015)
    assert base.pace_s / 60 == pytest.approx(38.9, abs=0.1)
    assert [rolls for rolls, _ in base.trip] == [1]
    assert base.trip[0][1] == pytest.approx(74, rel=0.03)
    assert cap.rolls == 2
    assert "base: bare outer wrap lasts 2 min, a roll every 38 min; 1 roll a trip" in " ".join(made.lines())


def test_the_weld_speed_by_hand(made: MorningMade) -> None:
    """At 10:00 the surface, and so the lap, is at 41 °F (4.7 °C), and a plain tool's nozzle 23 K colder: 2.1 in/s.

    The face goes from 21.1 to 150 °C under 550 °C at the test, share 0.2437, b 0.2692; now from 4.7 °C under 526.9 °C,
    share 0.2782, b 0.3189 (tables of exp(b²)·erfc(b)); the speed goes with b²: 3 in/s times 0.712.
    """
    ten = next(one for one in made.paper.morning.hours if one.hour == 10)
    assert ten.surface_c == pytest.approx(4.73, abs=1.0)
    assert ten.weld_m_s == pytest.approx(0.0543, rel=0.03)
