"""Wind pressures on a low-slope roof by zone, after the edition of the standard that the job names (Q3).

Kz: exposure at the roof's height.  Ke: thinner air of high ground.  Kzt: hills.  Kd: directionality, a part of qh in
7-10 and 7-16 and of the net pressure in 7-22.  GCp, GCpi: outside and inside coefficients.  See docs/method/wind.md.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from lapwright.defaults.si import default_number, default_si
from lapwright.units.anything import si_scale
from lapwright.units.factors import FOOT, PSF
from lapwright.verdict import Step
from lapwright.wind.classes import required_class_psf
from lapwright.wind.coefficients import ZONES, Curve, curve, figure_of, wall_gcp
from lapwright.wind.values import Pressures, WindCase, ZonePressure

AT_EDGES = "positive at edges"
PARAPET_HAIR = 1e-9  # 36 inches and 3 feet are one height
KZ_TABLE: Mapping[str, str] = {"ASCE 7-10": "7-16", "ASCE 7-16": "7-16", "ASCE 7-22": "7-22"}


def kz(height: float, exposure: str, *, standard: str) -> float:
    """Exposure coefficient at a height [m].

    Holds for: 15 ft to the gradient height; below 15 ft the value of 15 ft, and in 7-10 not under 0.70 in exposure B.
    Source: ASCE 7-16 Table 26.10-1, ASCE 7-22 section 26.10 [from memory]; 7-16 reproduces 2018 IRC Table R301.2(2)
    Checked: tests/published/wind.csv kz-*
    """
    edition = KZ_TABLE[standard]
    z = max(height, default_si("wind", "kz_floor_height"))
    zg = default_si("wind", f"kz_gradient.{edition}.{exposure}")
    alpha = default_si("wind", f"kz_alpha.{edition}.{exposure}")
    value = default_si("wind", f"kz_factor.{edition}") * math.pow(min(z, zg) / zg, 2 / alpha)
    if standard == "ASCE 7-10" and exposure == "B":
        return max(value, default_si("wind", "kz_floor_b_old"))
    return value


def ke(elevation: float) -> float:
    """Ground elevation factor for ground at an elevation [m] above the sea.

    Source: ASCE 7-16 Table 26.9-1 [from memory]
    Checked: tests/published/wind.csv ke-*
    """
    return math.exp(-default_number("wind", "ground_elevation_decay") * elevation / float(FOOT))


def velocity_pressure_pa(speed_m_s: float, *, kz: float, kzt: float = 1.0, kd: float = 1.0, ke: float = 1.0) -> float:
    """Velocity pressure [Pa]: 0.00256 Kz Kzt Kd Ke V² in psf and mph, brought to SI exactly.

    The printed SI form has 0.613, 0.05 % less; the US form is kept so that published psf tables hold.
    Source: ASCE 7-16 equation 26.10-1; 0.00256 reproduces 2018 IRC Table R301.2(2)
    Checked: tests/published/wind.csv irc-*
    """
    mph, _ = si_scale("mph")
    return default_number("wind", "velocity_coefficient") * kz * kzt * kd * ke * (speed_m_s / mph) ** 2 * float(PSF)


def roof_pressures(case: WindCase) -> Pressures:
    """Net pressures of every roof zone of the figure that serves, at strength and at working level.

    Holds for: flat and gable roofs to 7°, no overhang, no tornado loads.
    Source: ASCE 7-16 equation 30.3-1 [from memory]; the form reproduces 2018 IRC Table R301.2(2)
    Checked: tests/published/wind.csv irc-*, form-*
    """
    exposure = kz(case.height, case.exposure, standard=case.standard)
    ground = 1.0 if case.standard == "ASCE 7-10" else ke(case.elevation)
    directionality = default_si("wind", "directionality")
    in_qh = 1.0 if case.standard == "ASCE 7-22" else directionality
    qh = velocity_pressure_pa(case.speed_m_s, kz=exposure, kzt=case.topographic, kd=in_qh, ke=ground)
    in_p = directionality / in_qh
    names = (
        *ZONES[figure_of(case.standard, case.height)],
        "positive",
        *([AT_EDGES] if has_relief(case.parapet) else []),
    )
    zones = {zone: _zone_pressure(case, zone, qh * in_p) for zone in names}
    return Pressures(
        kz=exposure,
        ke=ground,
        qh_pa=qh,
        zones=zones,
        steps=_qh_steps(case, exposure, ground, in_qh, qh),
        zone_steps={zone: _zone_steps(case, zones[zone], qh, in_p) for zone in names},
    )


def net_pressure_pa(
    zone: str,
    *,
    standard: str,
    height: float,
    exposure: str,
    speed_m_s: float,
    area: float,
    level: str = "asd",
    enclosure: str = "enclosed",
) -> float:
    """One zone's net pressure [Pa] on flat ground at sea level; level: `asd` or `strength`.

    Source: ASCE 7-16 equation 30.3-1 [from memory]
    Checked: tests/published/wind.csv irc-*, form-*, editions-*
    """
    case = WindCase(standard, height, exposure, speed_m_s, area, enclosure)
    pressure = roof_pressures(case).zones[zone]
    return pressure.asd_pa if level == "asd" else pressure.strength_pa


def at_least_pa(pressure_pa: float, *, upward: bool) -> float:
    """The pressure [Pa], not under the standard's least net pressure of 16 psf, with its sign.

    Source: ASCE 7-16 section 30.2.2, strength level [from memory]
    Checked: tests/published/wind.csv editions-minimum-*
    """
    least = default_si("wind", "least_pressure")
    return min(pressure_pa, -least) if upward else max(pressure_pa, least)


def has_relief(parapet: float) -> bool:
    """A parapet of this height [m] all round makes the corners as the edges.

    Source: ASCE 7-16 figure 30.3-2A, note: 3 ft at least [from memory]
    """
    return parapet >= default_si("wind", "parapet_height") - PARAPET_HAIR


def _zone_pressure(case: WindCase, zone: str, q_pa: float) -> ZonePressure:
    upward = not zone.startswith("positive")
    external = _external(case, zone)
    internal = default_si("wind", f"gcpi.{case.enclosure}")
    strength = at_least_pa(q_pa * (external - internal if upward else external + internal), upward=upward)
    asd = strength * default_si("wind", "working_level")
    return ZonePressure(zone, external, strength, asd, required_class_psf(asd) if upward else None)


def _external(case: WindCase, zone: str) -> float:
    """The zone's coefficient; behind parapets all round the wind presses on zones 2 and 3 as on the walls."""
    if zone == AT_EDGES:
        return wall_gcp("positive", height=case.height, area=case.area)
    return _serving_curve(case, zone).at(case.area)


def _serving_curve(case: WindCase, zone: str) -> Curve:
    """The zone's own curve; a parapet all round makes zone 3 as zone 2."""
    if zone == AT_EDGES:
        return curve(f"wall_{'high' if case.height > default_si('wind', 'low_rise_height') else 'low'}.positive")
    as_zone = "2" if zone == "3" and has_relief(case.parapet) else zone
    return curve(f"{figure_of(case.standard, case.height)}.{as_zone}")


def _qh_steps(case: WindCase, exposure: float, ground: float, in_qh: float, qh: float) -> tuple[Step, ...]:
    kz_step = Step(
        text=f"Exposure coefficient, {case.standard}, exposure {case.exposure}, at the mean roof height",
        formula="Kz = k (z / zg)^(2 / alpha)",
        values=_kz_values(case),
        result=exposure,
        unit="",
    )
    ke_step = Step(
        text="Ground elevation factor" if case.standard != "ASCE 7-10" else "Ground elevation: no factor in ASCE 7-10",
        formula="Ke = exp(-0.0000362 x elevation in ft)" if case.standard != "ASCE 7-10" else "",
        values={"elevation [m]": case.elevation} if case.standard != "ASCE 7-10" else {},
        result=ground,
        unit="",
    )
    qh_step = Step(
        text="Velocity pressure at the mean roof height"
        + (", ground taken as flat: no hill is given (Kzt)" if case.is_flat_assumed else "")
        + ("; Kd enters with the net pressure" if in_qh == 1.0 else ""),
        formula="qh = 0.00256 Kz Kzt Kd Ke V^2 in psf and mph, brought to SI exactly",
        values={"Kz": exposure, "Kzt": case.topographic, "Kd": in_qh, "Ke": ground, "V [m/s]": case.speed_m_s},
        result=qh,
        unit="Pa",
    )
    return kz_step, ke_step, qh_step


def _kz_values(case: WindCase) -> dict[str, object]:
    """The numbers of Kz, with the least height that it is taken at."""
    edition = KZ_TABLE[case.standard]
    values: dict[str, object] = {
        "z [m]": max(case.height, default_si("wind", "kz_floor_height")),
        "k": default_si("wind", f"kz_factor.{edition}"),
        "zg [m]": default_si("wind", f"kz_gradient.{edition}.{case.exposure}"),
        "alpha": default_si("wind", f"kz_alpha.{edition}.{case.exposure}"),
    }
    if case.standard == "ASCE 7-10" and case.exposure == "B":
        values["not under"] = default_si("wind", "kz_floor_b_old")
    return values


def _zone_steps(case: WindCase, pressure: ZonePressure, qh: float, in_p: float) -> tuple[Step, ...]:
    relieved = pressure.zone == "3" and has_relief(case.parapet)
    note = ", as zone 2 behind parapets all round" if relieved else ""
    note += " (zones 2 and 3, as on walls, to 60 ft less a tenth)" if pressure.zone == AT_EDGES else ""
    serving = _serving_curve(case, pressure.zone)
    external = Step(
        text=f"Outside coefficient of zone {pressure.zone}{note} [{serving.origin}; {serving.note}]",
        formula="G0 + (G1 - G0) log(A / A0) / log(A1 / A0), flat outside A0 to A1",
        values={
            "A [m2]": case.area,
            "G0": serving.small,
            "A0 [m2]": serving.small_area,
            "G1": serving.large,
            "A1 [m2]": serving.large_area,
        },
        result=pressure.gcp,
        unit="",
    )
    sign = "+" if pressure.zone.startswith("positive") else "-"
    strength = Step(
        text="Net pressure, strength level, at least 16 psf [least from memory]",
        formula=f"p = qh Kd (GCp {sign} GCpi)" if in_p != 1.0 else f"p = qh (GCp {sign} GCpi)",
        values={
            "qh [Pa]": qh,
            "GCp": pressure.gcp,
            "GCpi": default_si("wind", f"gcpi.{case.enclosure}"),
            **({"Kd": in_p} if in_p != 1.0 else {}),
        },
        result=pressure.strength_pa,
        unit="Pa",
    )
    asd = Step(
        text="Net pressure, working level (ASD)",
        formula="0.6 p",
        values={"p [Pa]": pressure.strength_pa},
        result=pressure.asd_pa,
        unit="Pa",
    )
    return external, strength, asd
