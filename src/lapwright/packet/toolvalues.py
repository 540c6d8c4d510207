"""Weld speeds and cords as the packet prints them: plain values, SI."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from lapwright.verdict import Step


@dataclass(frozen=True, slots=True)
class WeldRow:
    """Speeds [m/s] on a sheet of one temperature [°C], by share of the volts lost; None: the tool can't weld it so."""

    sheet_c: float
    speeds: tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class WeldDay:
    """Speeds of a crew day by clock hour [m/s], with the sheet [°C]; None: no reading, or the tool can't weld it."""

    number: int
    sheets: Mapping[int, float | None]
    speeds: Mapping[int, float | None]


@dataclass(frozen=True, slots=True)
class WeldTable:
    """The test weld, the speeds that follow from it by sheet and by hour.  proved_air_c: None: as the sheet was.

    shares: of the volts lost since the test weld; retest_k: a new test weld is due after such a step.
    """

    proved_speed_m_s: float
    proved_sheet_c: float
    proved_air_c: float | None
    nozzle_c: float
    holds_nozzle: bool | None
    slowest_m_s: float | None
    fastest_m_s: float | None
    shares: tuple[float, ...]
    rows: tuple[WeldRow, ...]
    days: tuple[WeldDay, ...]
    retest_k: float
    source: str


@dataclass(frozen=True, slots=True)
class CordRow:
    """One gauge: what is lost by length, and the longest cords [m] for 3 and 5 %; carries: the tool's current."""

    gauge: str
    drop_shares: tuple[float, ...]
    heat_lost: tuple[float, ...]
    longest_3: float
    longest_5: float
    carries_a: float
    is_overloaded: bool


@dataclass(frozen=True, slots=True)
class CordTable:
    """What cords leave of one tool: rows by gauge over lengths [m]; own: the job's cord, by gauge and length [m]."""

    load_w: float
    volts: float
    amps: float
    lengths: tuple[float, ...]
    rows: tuple[CordRow, ...]
    own_gauge: str | None
    own_length: float | None
    own_drop_share: float | None
    own_heat_lost: float | None
    source: str


@dataclass(frozen=True, slots=True)
class SupplyTable:
    """Generator or mains: watts, circuits and fuel.  here_w: rating to ask for here; size_w: rounded up."""

    supply: str | None
    tools: int
    running_w: float
    starting_w: float
    here_w: float
    size_w: float
    generator_w: float | None
    breaker_a: float | None
    fuel_low_m3_s: float
    fuel_high_m3_s: float
    steps: tuple[Step, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Tools:
    """What the packet says of tools and power; lacking: for each table that is not there, the keys to give."""

    weld: WeldTable | None = None
    cord: CordTable | None = None
    supply: SupplyTable | None = None
    cautions: tuple[str, ...] = ()
    lacking: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
