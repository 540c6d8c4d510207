"""What the figures answer, against numbers from elsewhere: published examples, and sums made apart from this code."""

from __future__ import annotations

import pytest
from asked_figures import ASKED, answered

PSF = 47.88025898033584  # lbf/ft2, from the definitions of pound, foot and gravity
ROLL = "--stored 70F --air 25F --until 50F --thickness 4mm --length 10m"
STORE = "--cold 20F --store 70F --until 50F --thickness 4mm --length 10m"
SHEET = "--laid-at 70F --air 25F --wind 10mph --until 50F --thickness 4mm"


@pytest.mark.parametrize(("wind", "least", "most"), [("10mph", 6.0, 8.7), ("3mph", 13, 20), ("0mph", 31, 47)])
def test_outer_wrap_of_a_roll(wind: str, least: float, most: float) -> None:
    """Minutes to 50 °F for a 70 °F roll in 25 °F air: a band over the range of properties, worked out apart."""
    assert least <= answered("roll", f"{ROLL} --wind {wind}")["outer_wrap_s"] / 60 <= most


@pytest.mark.parametrize(
    ("more", "least", "most"),
    [("--stack single", 9.6, 10.5), ("--stack pallet --wrapped", 121, 187), ("--stack pallet --opened", 115, 180)],
)
def test_hours_in_the_store(more: str, least: float, most: float) -> None:
    """Hours until the coldest place is at 50 °F: a single roll, a pallet; worked out apart."""
    assert least <= answered("store", f"{STORE} {more}")["core_s"] / 3600 <= most


def test_a_day_does_not_reach_the_middle_of_a_pallet() -> None:
    """After 24 h in the store the middle roll of a wrapped pallet is as cold as it came."""
    assert answered("store")["core_after_24h_c"] == pytest.approx(-6.67, abs=0.3)


@pytest.mark.parametrize(
    ("substrate", "seconds", "bond_f"),
    [("gypsum", 63, 51.9), ("polyiso_board", 140, 64.9), ("polyiso", 160, 67.4), ("base", 49, 47.5),
     ("steel", 66, 36)],
)  # fmt: skip
def test_a_sheet_unrolled(substrate: str, seconds: float, bond_f: float) -> None:
    """Seconds to 50 °F and the bond line at first touch; worked out apart, films and thicknesses alike to a tenth."""
    found = answered("sheet", f"{SHEET} --substrate {substrate}")
    assert found["until_s"] == pytest.approx(seconds, rel=0.1)
    assert found["contact_c"] * 1.8 + 32 == pytest.approx(bond_f, abs=0.6)


def test_a_sheet_on_concrete() -> None:
    """Concrete of an effusivity between 1870 and 2190 takes the bond line to between 35.3 and 34 °F in a blink."""
    found = answered("sheet", f"{SHEET} --substrate concrete")
    assert 34 <= found["contact_c"] * 1.8 + 32 <= 35.4
    assert 20 <= found["until_s"] <= 30


def test_weld_by_the_table() -> None:
    """At 25 °F a constant nozzle welds at 0.72 of the speed; with a tenth of the volts lost at 70 °F, at 0.58."""
    base = "--proved-speed 3in/s --proved-sheet 70F --nozzle 550C"
    assert answered("weld", f"{base} --sheet 25F")["ratio"] == pytest.approx(0.72, abs=0.006)
    assert answered("weld", f"{base} --sheet 70F --volts-lost 10%")["ratio"] == pytest.approx(0.58, abs=0.006)
    assert answered("weld", f"{base} --sheet 25F")["speed_m_s"] == pytest.approx(0.72 * 0.0762, abs=0.0005)


def test_weld_with_a_nozzle_that_follows_the_air() -> None:
    """The same element in 25 °F air: 0.63 at full volts, 0.35 with a tenth lost."""
    base = "--proved-speed 3in/s --proved-sheet 70F --proved-air 70F --air 25F --nozzle 550C --sheet 25F"
    assert answered("weld", base)["ratio"] == pytest.approx(0.63, abs=0.005)
    assert answered("weld", f"{base} --volts-lost 10%")["ratio"] == pytest.approx(0.35, abs=0.005)


def test_cord_by_a_worked_example() -> None:
    """1.6 kW at 120 V on 100 ft of #14: 8.37 V by the current on the plate; by the circuit 12.6 % less heat."""
    found = answered("cord")
    assert found["drop_by_plate_v"] == pytest.approx(8.37, abs=0.005)
    assert found["heat_lost_pct"] == pytest.approx(12.6, abs=0.05)
    assert found["drop_pct"] == pytest.approx(100 * found["drop_v"] / 120)


def test_the_longest_cord_loses_just_the_limit() -> None:
    """A cord of the longest length loses the limit asked."""
    longest = answered("cord", ASKED["cord"] + " --limit 5%")["longest_m"]
    again = answered("cord", f"--load 1.6kW --volts 120 --length {longest:.9f}m --gauge 14")
    assert again["drop_pct"] == pytest.approx(5, abs=1e-6)


def test_wind_of_both_editions() -> None:
    """30 ft, exposure C, 115 mph, 10 sf: strength level in psf by zone, worked out apart for both editions."""
    for standard, qh, expected in (
        ("ASCE 7-16", 28.27, (-30.53, -53.14, -70.10, -95.54, 16)),
        ("ASCE 7-22", 33.20, (-30.47, -53.05, -69.98, -95.37, 16)),
    ):
        found = answered("wind", f"--standard '{standard}' --height 30ft --exposure C --speed 115mph")
        assert found["qh_pa"] / PSF == pytest.approx(qh, abs=0.006)
        strength = [zone["strength_pa"] / PSF for zone in found["zones"].values()]
        assert strength == pytest.approx(expected, abs=0.006)


def test_drain_by_a_published_example() -> None:
    """11,500 sf, 1.5 in/h: 179 gpm; half of it through 6 in of scupper stands 3 in over a 2 in sill: 26 psf."""
    gpm = 231 * 0.0254**3 / 60
    assert answered("drain")["flow_m3_s"] / gpm == pytest.approx(179, abs=0.6)
    half = answered("drain", "--area '5750 sf' --rain '1.5 in/h' --kind scupper --size '6 in x 6 in' --sill '2 in'")
    assert half["head_m"] / 0.0254 == pytest.approx(3, abs=0.05)
    assert half["load_pa"] / PSF == pytest.approx(26, abs=0.5)
    assert half["passes"] is True


def test_a_drains_steps_carry_the_rows_of_their_tables() -> None:
    """11,500 sf, 0.5 in/h, 60 gpm: three quarters of the way to the first row, 80 gpm at 1 in; leader 18,400 sf."""
    gpm = 231 * 0.0254**3 / 60
    found = answered("drain", "--area '11500 sf' --rain '0.5 in/h' --kind drain --size '4 in'")
    leader, over = (step["values"] for step in found["steps"][1:3])
    assert leader["A1, drained at 1 in/h [m2]"] == pytest.approx(18400 * 0.3048**2)
    assert [over[name] for name in ("Q1 [m3/s]", "d1 [m]")] == [0, 0]
    assert over["Q2 [m3/s]"] == pytest.approx(80 * gpm)
    assert over["d2 [m]"] == pytest.approx(0.0254)
    assert found["head_m"] / 0.0254 == pytest.approx(0.75, abs=0.01)


def test_chill_by_the_published_chart() -> None:
    """0 °F and 15 mph: -19 °F, skin can freeze in 30 minutes."""
    found = answered("chill")
    assert round(found["wind_chill_c"] * 1.8 + 32) == -19
    assert 10 < found["frostbite_min"] <= 30  # the chart's zone of 30 minutes, over that of 10
    assert answered("chill", "--air 40F --wind 15mph")["frostbite_min"] is None


def test_a_clear_calm_night_is_colder_than_the_air() -> None:
    """Published: up to 20 °F under the air over insulation; calm and clear 8 to 22 °F."""
    found = answered("surface", "--air 32F --dew-point 27F --wind 1mph --cloud 0 --sun '0 W/m2'")
    assert 8 <= (0 - found["surface_c"]) * 1.8 <= 22
    assert found["surface_low_c"] <= found["surface_c"] <= found["surface_high_c"]
    assert (found["frost"], found["dew"]) == (True, False)
