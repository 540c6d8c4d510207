"""What a cord leaves of the volts and of the heat at the tool (question 7).

The drop is solved with the resistance of the tool itself, as it is: fewer volts draw fewer amperes.  The code books
reckon with the current on the plate instead, which says a little more drop; it stands beside it.
See docs/method/power.md.
"""

from __future__ import annotations

from lapwright.defaults.si import default_number
from lapwright.defaults.table import table
from lapwright.power.values import Cord, CordAsk
from lapwright.units.factors import FOOT
from lapwright.verdict import Step

SOURCE = (
    "NEC chapter 9 table 8, stranded copper [from memory]; Ohm's law with a resistive load; the 3 and 5 % are the "
    "NEC's advice, not law [from memory]"
)
THERE_AND_BACK = 2


def wire_ohm_m(gauge: str, wire_c: float) -> float:
    """Resistance of one wire of stranded copper [ohm/m] by its gauge (AWG) and its temperature [°C].

    Holds for: direct current, and alternating current up to #6, where the difference is under the last digit.
    Raises: KeyError for a gauge that defaults/power.csv lacks.
    Source: NEC chapter 9 table 8 and its note on temperature [from memory]
    Checked: tests/published/power.csv wire-*
    """
    at_75 = default_number("power", f"stranded.{gauge}") / (1000 * float(FOOT))
    return at_75 * (1 + default_number("power", "copper_per_kelvin") * (wire_c - default_number("power", "wire_at")))


def cord(ask: CordAsk) -> Cord:
    """Volts and heat that a cord takes from a tool.

    Holds for: one resistive tool at the end of one single-phase cord; plugs and the circuit before it lose more.
    Source: NEC chapter 9 table 8 [from memory]; Ohm's law
    Checked: tests/published/power.csv cord-*
    """
    tool_ohm = ask.volts**2 / ask.load_w
    wire = wire_ohm_m(ask.gauge, ask.wire_c)
    loop_ohm = THERE_AND_BACK * ask.length * wire
    drop_share = loop_ohm / (tool_ohm + loop_ohm)
    heat_lost = 1 - (1 - drop_share) ** 2
    amps = ask.load_w / ask.volts
    plate_drop = amps * loop_ohm
    carries = table("power")[f"cord_amps.{ask.gauge}"].number()
    return Cord(
        drop_v=ask.volts * drop_share,
        drop_share=drop_share,
        heat_lost_share=heat_lost,
        plate_drop_v=plate_drop,
        longest_3=longest_m(ask, default_number("power", "drop_branch")),
        longest_5=longest_m(ask, default_number("power", "drop_all")),
        amps=amps,
        carries_a=carries,
        steps=(
            *_wire_steps(ask, tool_ohm, wire, loop_ohm),
            *_drop_steps(ask, drop_share, heat_lost, plate_drop),
            *_longest_steps(ask, wire, tool_ohm),
            _amps_step(amps, carries, ask.gauge),
        ),
        source=SOURCE,
    )


def longest_m(ask: CordAsk, limit_share: float) -> float:
    """The longest cord [m], one way, on which the tool loses no more than a share of its volts.

    Source: Ohm's law with a resistive load: loop = tool · s / (1 - s); arithmetic
    Checked: tests/published/power.csv longest-*
    """
    tool_ohm = ask.volts**2 / ask.load_w
    return tool_ohm * limit_share / (1 - limit_share) / (THERE_AND_BACK * wire_ohm_m(ask.gauge, ask.wire_c))


def _wire_steps(ask: CordAsk, tool_ohm: float, wire: float, loop_ohm: float) -> tuple[Step, ...]:
    return (
        Step(
            text="Resistance of the tool, from its plate",
            formula="V^2 / P",
            values={"V [V]": ask.volts, "P [W]": ask.load_w},
            result=tool_ohm,
            unit="ohm",
        ),
        Step(
            text=f"Resistance of the wire, AWG {ask.gauge}, stranded copper, at its temperature [from memory]",
            formula="R75 (1 + 0.00323 (T - 75))",
            values={"T [degC]": ask.wire_c},
            result=wire,
            unit="ohm/m",
        ),
        Step(
            text="Resistance of the cord, there and back",
            formula="2 L R",
            values={"L [m]": ask.length, "R [ohm/m]": wire},
            result=loop_ohm,
            unit="ohm",
        ),
    )


def _drop_steps(ask: CordAsk, drop_share: float, heat_lost: float, plate_drop: float) -> tuple[Step, ...]:
    return (
        Step(
            text="Volts lost, with the tool's own resistance in the circuit",
            formula="V loop / (tool + loop)",
            values={"V [V]": ask.volts, "share": drop_share},
            result=ask.volts * drop_share,
            unit="V",
        ),
        Step(
            text="Beside it: as the code books reckon, with the current on the tool's plate",
            formula="loop P / V",
            values={"share": plate_drop / ask.volts},
            result=plate_drop,
            unit="V",
        ),
        Step(
            text="Share of its heat that the tool loses: the heat goes with the square of the volts",
            formula="1 - (1 - share)^2",
            values={"share": drop_share},
            result=heat_lost,
        ),
    )


def _longest_steps(ask: CordAsk, wire: float, tool_ohm: float) -> tuple[Step, ...]:
    told = (("3 %, the code books' advice for a circuit", "drop_branch"), ("5 %, their advice in all", "drop_all"))
    return tuple(
        Step(
            text=f"Longest cord of this gauge for {words} [from memory]",
            formula="tool s / (1 - s) / (2 R)",
            values={"tool [ohm]": tool_ohm, "s": default_number("power", row), "R [ohm/m]": wire},
            result=longest_m(ask, default_number("power", row)),
            unit="m",
        )
        for words, row in told
    )


def _amps_step(amps: float, carries: float, gauge: str) -> Step:
    text = f"Current by the tool's plate, against what a cord of AWG {gauge} carries [from memory]"
    if amps > carries:
        text += ": too much, however short the cord; take a heavier one"
    return Step(text=text, formula="P / V", values={"carries [A]": carries}, result=amps, unit="A")
