"""How fast to weld in this cold and on this cord, from the morning's test weld (question 7).

*Proved*: the speed, the sheet's temperature and the nozzle's air that held in the probe and in the peel.  *Face*: the
surface of the lap under the nozzle; it welds when it reaches one temperature, whatever the weather.  *Share lost*: of
the volts at the tool since the test weld.  Computed, not published: no source gives nozzle or speed figures for
bituminous laps in the cold.  The test weld stays the judge.  See docs/method/weld.md.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from lapwright.defaults.si import default_si
from lapwright.defaults.table import table
from lapwright.units.anything import si_scale
from lapwright.verdict import Step

COMPUTED = "computed, not published: no source gives nozzle or speed figures for bituminous laps in the cold"
SOURCE = (
    "semi-infinite solid heated by a jet, Incropera et al., ch. 5 [from memory]; an element's heat as the square of "
    f"its volts; {COMPUTED}"
)
_HALVINGS = 100
_HAIR = 1e-9  # ten degrees are ten degrees


@dataclass(frozen=True, slots=True)
class WeldAsk:
    """A test weld that held, and the lap that is to be welded now.

    sheet_c: the face before the nozzle reaches it [°C].  volts_lost_share: 0 on the cord of the test weld.
    proved_air_c: of the air that the tool drew in at the test; None: as warm as the sheet was.  air_c: of the air now;
    None: the nozzle is taken to hold its temperature at full volts (a tool that keeps to a set point, or the same air).
    slowest_m_s, fastest_m_s: what the tool can do; None: not given, no limit is looked at.
    """

    proved_speed_m_s: float
    proved_sheet_c: float
    sheet_c: float
    nozzle_c: float
    volts_lost_share: float = 0.0
    proved_air_c: float | None = None
    air_c: float | None = None
    slowest_m_s: float | None = None
    fastest_m_s: float | None = None


@dataclass(frozen=True, slots=True)
class WeldSpeed:
    """The speed for the lap [m/s] and its ratio to the proved one; None where the tool can't weld it as it is.

    nozzle_c: of the air at the nozzle now.  why: in words where there is no speed, else empty.
    """

    speed_m_s: float | None
    ratio: float | None
    nozzle_c: float
    why: str
    steps: tuple[Step, ...]
    source: str


def weld_speed(ask: WeldAsk) -> WeldSpeed:
    """The speed at which the face of a lap gets as hot as it did under the test weld.

    Holds for: the same nozzle, gap and dial; a lap thicker than the heat reaches while the nozzle passes (some tenths
        of a millimetre in a second); a dry lap.  Volts, where they fall, take heat by their square.
    Source: semi-infinite solid with convection at its face, Incropera et al., ch. 5 [from memory]
    Checked: tests/published/weld.csv ratio-*, volts-*
    """
    face_c = default_si("weld", "face")
    nozzle_c = nozzle_now_c(ask)
    shares = _share(ask.proved_sheet_c, ask.nozzle_c, face_c), _share(ask.sheet_c, nozzle_c, face_c)
    proved, now = (None if share is None else contact_number(share) for share in shares)
    first = (_nozzle_step(ask, nozzle_c), *_reach_steps(ask, nozzle_c, proved, now))
    if proved is None or now is None:
        why = _no_weld(ask, nozzle_c, face_c)
        return WeldSpeed(None, None, nozzle_c, why, (*first, Step(text=why)), SOURCE)
    ratio = (proved / now) ** 2
    speed = ask.proved_speed_m_s * ratio
    why = _out_of_reach(ask, speed)
    steps = (*first, *_speed_steps(ask, ratio, speed), *((Step(text=why),) if why else ()), _judge_step(ask))
    return WeldSpeed(None if why else speed, ratio, nozzle_c, why, steps, SOURCE)


def at_sheet(ask: WeldAsk, sheet_c: float, *, air_c: float | None = None, volts_lost_share: float = 0.0) -> WeldSpeed:
    """The same test weld, another lap: the sheet [°C], the air now [°C], the volts lost.

    Source: arithmetic
    """
    return weld_speed(replace(ask, sheet_c=sheet_c, air_c=air_c, volts_lost_share=volts_lost_share))


def contact_number(share: float) -> float:
    """h√(αt)/k at which the face of a thick body has gone a share of its way from its own to the jet's temperature.

    The root of 1 - exp(b²)·erfc(b) = share, by halving between 0 and the bound that erfcx(b) < 1/(b√π) gives.
    Holds for: 0 <= share < 1.
    Source: semi-infinite solid with convection at its face, Incropera et al., ch. 5 [from memory]
    Checked: tests/published/weld.csv contact-number-*
    """
    from scipy.special import erfcx  # loading it takes longer than the question, so only who asks pays

    left = 1 - share
    low, high = 0.0, 1 / (left * math.sqrt(math.pi))
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if float(erfcx(middle)) > left else (low, middle)
    return (low + high) / 2


def nozzle_now_c(ask: WeldAsk) -> float:
    """Temperature of the air at the nozzle [°C]: its rise over the air drawn in falls with the square of the volts.

    Source: Joule's law for a resistive element, P = V²/R, at the same flow of air: arithmetic
    Checked: tests/published/weld.csv nozzle-*
    """
    proved_air_c = ask.proved_sheet_c if ask.proved_air_c is None else ask.proved_air_c
    air_c = proved_air_c if ask.air_c is None else ask.air_c
    return air_c + (ask.nozzle_c - proved_air_c) * (1 - ask.volts_lost_share) ** 2


def retest_step_k() -> float:
    """A new test weld is due whenever the sheet's temperature has moved by so much [K] since the last.

    Source: common practice, no source
    """
    row = table("weld")["retest_step"]
    return row.number() * si_scale(row.unit)[0]


def is_retest_due(ask: WeldAsk) -> bool:
    """The lap's sheet is further from the test weld's than one step, or the volts are not those of the test weld.

    Source: common practice, no source
    """
    return abs(ask.sheet_c - ask.proved_sheet_c) >= retest_step_k() - _HAIR or ask.volts_lost_share > 0


def _share(sheet_c: float, nozzle_c: float, face_c: float) -> float | None:
    """What part of the way from sheet to nozzle the face must go; None where it can't, or needs none."""
    if not sheet_c < face_c < nozzle_c:
        return None
    return (face_c - sheet_c) / (nozzle_c - sheet_c)


def _no_weld(ask: WeldAsk, nozzle_c: float, face_c: float) -> str:
    """Why no speed welds this lap."""
    if ask.proved_sheet_c >= face_c or ask.sheet_c >= face_c:
        return "A sheet as hot as a welded face needs no nozzle: read the sheet again"
    if ask.nozzle_c <= face_c:
        return "The nozzle of the test weld is no hotter than a welded face: read the nozzle again"
    if nozzle_c <= face_c and ask.volts_lost_share == 0:
        return "In air so cold the nozzle is no hotter than a welded face: no speed welds; turn it up and prove it anew"
    if nozzle_c <= face_c:
        return "With the volts lost the nozzle is no hotter than a welded face: no speed welds; a heavier, shorter cord"
    return ""


def _out_of_reach(ask: WeldAsk, speed_m_s: float) -> str:
    """What is said where the tool can't go at the speed."""
    if ask.slowest_m_s is not None and speed_m_s < ask.slowest_m_s:
        return "Slower than the tool goes: warm the lap first, or bring more volts to the tool, and prove it anew"
    if ask.fastest_m_s is not None and speed_m_s > ask.fastest_m_s:
        return "Faster than the tool goes, any slower scorches: turn the nozzle down and prove it anew"
    return ""


def _nozzle_step(ask: WeldAsk, nozzle_c: float) -> Step:
    proved_air_c = ask.proved_sheet_c if ask.proved_air_c is None else ask.proved_air_c
    air_c = proved_air_c if ask.air_c is None else ask.air_c
    text = "Air at the nozzle now: its rise over the air drawn in falls with the square of the volts"
    if ask.air_c is None:
        text += "; the air now is not given, so at full volts the nozzle is taken to hold its temperature"
    return Step(
        text=text,
        formula="air + (nozzle - air at the test) (1 - lost)^2",
        values={
            "nozzle [degC]": ask.nozzle_c,
            "air at the test [degC]": proved_air_c,
            "air [degC]": air_c,
            "lost": ask.volts_lost_share,
        },
        result=nozzle_c,
        unit="degC",
    )


def _reach_steps(ask: WeldAsk, nozzle_c: float, proved: float | None, now: float | None) -> tuple[Step, ...]:
    face_c = default_si("weld", "face")
    told = (("of the test weld", ask.proved_sheet_c, ask.nozzle_c, proved), ("now", ask.sheet_c, nozzle_c, now))
    return tuple(
        Step(
            text=f"Contact number {which}: root of the exact solution for the face of a thick body under a jet",
            formula="1 - exp(b^2) erfc(b) = (face - sheet) / (nozzle - sheet), b = h sqrt(alpha t) / k",
            values={"face [degC] [from memory]": face_c, "sheet [degC]": sheet_c, "nozzle [degC]": air_c},
            result=number,
        )
        for which, sheet_c, air_c, number in told
        if number is not None
    )


def _speed_steps(ask: WeldAsk, ratio: float, speed_m_s: float) -> tuple[Step, ...]:
    face_c = default_si("weld", "face")
    bulk = (face_c - ask.proved_sheet_c) / (face_c - ask.sheet_c)
    return (
        Step(
            text="Ratio to the proved speed: the time under the nozzle goes with b^2, film and sheet being the same",
            formula="(b proved / b now)^2",
            result=ratio,
        ),
        Step(
            text="Beside it, at an unchanged nozzle: as if the jet brought a steady flow of heat, and as if it warmed "
            "the whole thickness",
            formula="((face - sheet proved) / (face - sheet))^2 and without the square",
            values={"steady flow": bulk**2, "whole thickness": bulk},
        ),
        Step(
            text="Speed along the lap",
            formula="proved speed x ratio",
            values={"proved speed [m/s]": ask.proved_speed_m_s, "ratio": ratio},
            result=speed_m_s,
            unit="m/s tool",
        ),
    )


def _judge_step(ask: WeldAsk) -> Step:
    due = " A new one is due: " + _moved(ask) + "." if is_retest_due(ask) else ""
    return Step(
        text=f"{COMPUTED[0].upper()}{COMPUTED[1:]}. The test weld stays the judge, and is made anew whenever the sheet "
        f"has moved by the step of a new test, or the cord has changed.{due}",
        values={"step of a new test [K]": retest_step_k()},
    )


def _moved(ask: WeldAsk) -> str:
    moved = abs(ask.sheet_c - ask.proved_sheet_c) >= retest_step_k() - _HAIR
    words = ("the sheet has moved by so much" if moved else "", "volts are lost" if ask.volts_lost_share > 0 else "")
    return " and ".join(word for word in words if word)
