"""`wind`: pressures on every roof zone, and the uplift class that each asks for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from lapwright.plan.figures.figure import Answer, Asked, Curve, Figure, Shown
from lapwright.plan.figures.option import Option
from lapwright.units.anything import si_scale
from lapwright.verdict import Step
from lapwright.wind.pressure import roof_pressures
from lapwright.wind.values import ENCLOSURES, EXPOSURES, STANDARDS, WindCase

OPTIONS = (
    Option("standard", "choice", "edition of the wind standard", "ASCE 7-16", choices=STANDARDS,
           also=tuple((standard.removeprefix("ASCE "), standard) for standard in STANDARDS)),
    Option("height", "length", "mean roof height above the ground", "30'", above="0'", high="500'"),
    Option("exposure", "choice", "exposure category", "C", choices=EXPOSURES),
    Option("speed", "speed", "basic wind speed of the standard, for the risk category", "115mph",
           low="40 mph", high="250 mph"),
    Option("area", "area", "effective wind area", "10sf", "10sf", above="0 sf", high="5000 sf"),
    Option("enclosure", "choice", "how open the building is", "enclosed", "enclosed", choices=ENCLOSURES),
    Option("elevation", "length", "height of the ground above the sea", "886'", "0'", low="-1500'", high="20000'"),
    Option("topographic", "number", "hill factor Kzt at the roof", "1", "1", low="1", high="5"),
    Option("parapet", "length", "height of a parapet that runs all round", "36\"", "0'", low="0'", high="30'"),
)  # fmt: skip
MPH = si_scale("mph")[0]
LEAST_M_S, MOST_M_S, POINTS = 40 * MPH, 250 * MPH, 25
RESULTS = {
    "zones": "by zone: strength_pa, asd_pa (uplift is negative)",
    "kz": "exposure coefficient",
    "qh_pa": "velocity pressure at the roof; without Kd in ASCE 7-22",
    "class_psf": "by zone: uplift class; null where the wind presses down",
}
SOURCE = (
    "ASCE 7 components and cladding by the edition asked, most coefficients of 7-16 and 7-22 from memory, each marked "
    "in the steps; classes by 2 x the working level in steps of 15 psf [from memory]"
)


def compute(asked: Asked) -> Answer:
    """The pressures."""
    case = WindCase(
        standard=asked["standard"],
        height=asked["height_m"],
        exposure=asked["exposure"],
        speed_m_s=asked["speed_m_s"],
        area=asked["area_m2"],
        enclosure=asked["enclosure"],
        elevation=asked["elevation_m"],
        topographic=asked["topographic"],
        parapet=asked["parapet_m"],
        is_flat_assumed="topographic" not in asked.texts,
    )
    found = roof_pressures(case)
    zones = found.zones
    said = () if "1'" in zones else (Step(text="This edition, or a roof over 60 ft, has no zone 1': zone 1 begins"),)
    shown = [Shown("Kz", found.kz), Shown("Velocity pressure qh", found.qh_pa, "Pa")]
    for name, zone in zones.items():
        is_down = name.startswith("positive")
        title = f"Pressing down{name.removeprefix('positive')}" if is_down else f"Zone {name}"
        shown.append(Shown(f"{title}, strength level", zone.strength_pa, "Pa"))
        shown.append(Shown("  working level (ASD)", zone.asd_pa, "Pa"))
        if zone.class_psf is not None:
            shown.append(Shown("  uplift class", f"{zone.class_psf} psf"))
    return Answer(
        results={
            "zones": {name: {"strength_pa": zone.strength_pa, "asd_pa": zone.asd_pa} for name, zone in zones.items()},
            "kz": found.kz,
            "qh_pa": found.qh_pa,
            "class_psf": {name: zone.class_psf for name, zone in zones.items()},
        },
        shown=shown,
        steps=(*found.steps, *said, *(step for name in zones for step in found.zone_steps[name])),
        source=SOURCE,
        curve=_curve(case, {name: zone.asd_pa for name, zone in zones.items()}),
    )


def _curve(case: WindCase, asd_pa: Mapping[str, float]) -> Curve:
    """Uplift where it is greatest, by basic wind speeds from the least that can be asked to a half more than asked."""
    worst = min(asd_pa, key=lambda name: asd_pa[name])
    most = min(MOST_M_S, 1.5 * case.speed_m_s)
    speeds = [LEAST_M_S + (most - LEAST_M_S) * place / (POINTS - 1) for place in range(POINTS)]
    points = tuple((speed, -roof_pressures(replace(case, speed_m_s=speed)).zones[worst].asd_pa) for speed in speeds)
    return Curve(points, "basic wind speed", "m/s", f"uplift in zone {worst}, working level", "Pa")


WIND = Figure(
    "wind",
    "Wind pressures on every roof zone, and the uplift class that each asks for.",
    OPTIONS,
    RESULTS,
    compute,
    "--standard 'ASCE 7-16' --height 30ft --exposure C --speed 115mph",
)
