"""Figures asked in process, and the commands that the contract prints."""

from __future__ import annotations

import contextlib
import io
import json
import shlex
from typing import Any

from lapwright.cli.figure import figure

# Each as a person types it, with the options that the contract prints.
ASKED = {
    "roll": "--stored 70F --air 25F --wind 10mph --until 50F --thickness 4mm --length 10m",
    "store": "--cold 20F --store 70F --until 50F --thickness 4mm --length 10m --stack pallet --rolls 5x5 --wrapped",
    "sheet": "--laid-at 70F --air 25F --wind 10mph --substrate gypsum --substrate-at 25F --until 50F --thickness 4mm",
    "surface": "--air 32F --dew-point 27F --wind 2mph --cloud 0 --sun '0 W/m2' --absorptance 0.85 --inside 70F"
    " --r-value R-20",
    "weld": "--proved-speed 3in/s --proved-sheet 70F --sheet 25F --nozzle 550C --volts-lost 10%",
    "cord": '--load 1.6kW --volts 120 --length "100\'" --gauge 14 --wire-at 75C',
    "wind": "--standard 'ASCE 7-16' --height \"30'\" --exposure C --speed 115mph --area 10sf --enclosure enclosed"
    " --elevation 0ft --topographic 1 --parapet 0in",
    "drain": "--area '11500 sf' --rain '1.5 in/h' --kind scupper --size '12 in' --sill '2 in' --wall '0 sf'",
    "chill": "--air 0F --wind 15mph",
}
RESULTS = {
    "roll": {"surface_s", "outer_wrap_s", "outer_two_wraps_s", "core_s", "warm_share"},
    "store": {"core_s", "mean_s", "core_after_24h_c"},
    "sheet": {"until_s", "contact_c"},
    "surface": {"surface_c", "surface_low_c", "surface_high_c", "frost", "dew"},
    "weld": {"speed_m_s", "ratio"},
    "cord": {"drop_v", "drop_pct", "heat_lost_pct", "longest_m"},
    "wind": {"zones", "kz", "qh_pa", "class_psf"},
    "drain": {"flow_m3_s", "head_m", "load_pa", "passes"},
    "chill": {"wind_chill_c", "frostbite_min"},
}


def asked(*words: str) -> tuple[int, str, str]:
    """Exit status, standard output, standard error of `lapwright figure` with these words."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        status = figure(list(words))
    return status, out.getvalue(), err.getvalue()


def answered(name: str, options: str = "") -> dict[str, Any]:
    """The JSON of a figure; the contract's own options where none are given."""
    status, out, err = asked(name, *shlex.split(options or ASKED[name]), "--json")
    assert (status, err) == (0, "")
    found: dict[str, Any] = json.loads(out, parse_constant=lambda word: pytest_fail(word))
    return found


def pytest_fail(word: str) -> float:
    """A number that JSON does not have."""
    raise AssertionError(f"{word} in JSON")


def faults(name: str, options: str) -> str:
    """What is told of options that can't be used."""
    status, out, err = asked(name, *shlex.split(options))
    assert (status, out) == (2, "")
    return err
