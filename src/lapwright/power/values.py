"""What is asked of the power on the roof, as plain values.

*Load*: a tool's watts at its own volts, from its plate.  *Loop*: the cord there and back.  *Drop*: volts that the loop
takes from the tool.  A heater is resistive: its heat falls with the square of the volts.
"""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.verdict import Step

GAUGES = ("16", "14", "12", "10", "8", "6")


@dataclass(frozen=True, slots=True)
class CordAsk:
    """One tool on one cord.

    load_w at `volts`, from the plate; length [m], one way; gauge: AWG of stranded copper; wire_c: of the copper.
    """

    load_w: float
    volts: float
    length: float
    gauge: str
    wire_c: float = 75.0


@dataclass(frozen=True, slots=True)
class Cord:
    """What a cord leaves of a tool's volts and heat.

    drop_v, drop_share, heat_lost_share: with the tool's own resistance, as it is.  plate_drop_v: by the current on the
    tool's plate, as the code books reckon, a little more.  longest_3, longest_5 [m]: one way, for the code books' 3
    and 5 %.  amps: drawn; carries_a: what the cord carries.
    """

    drop_v: float
    drop_share: float
    heat_lost_share: float
    plate_drop_v: float
    longest_3: float
    longest_5: float
    amps: float
    carries_a: float
    steps: tuple[Step, ...]
    source: str

    @property
    def is_overloaded(self) -> bool:
        """The tool draws more than the cord carries, however short it is."""
        return self.amps > self.carries_a


@dataclass(frozen=True, slots=True)
class SupplyAsk:
    """What runs at the same time.

    tools: how many heaters of tool_w at `volts`; motors_w: the running watts of what has a motor; others_w: lights,
    chargers, heaters of the store.  elevation: of the ground above the sea [m].
    """

    tools: int
    tool_w: float
    volts: float
    motors_w: float = 0.0
    others_w: float = 0.0
    elevation: float = 0.0


@dataclass(frozen=True, slots=True)
class Supply:
    """The generator and the circuits that serve it.

    running_w, starting_w; rating_w: continuous rating to ask for at the sea's height; here_w: the same at this height
    of ground; size_w: that, rounded up to a size.  tool_amps; breaker_a: of each tool's own circuit (None beyond the
    table).  fuel_low_m3_s, fuel_high_m3_s.
    """

    running_w: float
    starting_w: float
    rating_w: float
    here_w: float
    size_w: float
    tool_amps: float
    breaker_a: float | None
    circuits: int
    fuel_low_m3_s: float
    fuel_high_m3_s: float
    steps: tuple[Step, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Power:
    """The power on the roof as the job gives it; None: not given.

    load_w, volts: of one tool's plate; gauge, length [m] of its cord; supply: generator or mains; generator_w: its
    continuous rating; motors_w, others_w: what else runs on it; tools: how many weld at once; elevation [m].
    """

    load_w: float | None = None
    volts: float | None = None
    gauge: str | None = None
    length: float | None = None
    supply: str | None = None
    generator_w: float | None = None
    motors_w: float | None = None
    others_w: float | None = None
    tools: int | None = None
    elevation: float | None = None
