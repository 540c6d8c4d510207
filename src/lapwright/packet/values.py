"""What the packet is made from: the whole plan as plain values."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from lapwright.assembly.values import Assembly, Sheet
from lapwright.crew.values import CrewDay, CrewSetting, Morning
from lapwright.deck.values import StagingMap
from lapwright.defaults.values import Origin, Rules
from lapwright.drains.values import WaterMap
from lapwright.fasten.values import FastenMap
from lapwright.faults import Mended
from lapwright.heat.values import Warmth
from lapwright.hours.values import HourTable
from lapwright.layout.values import Layout, Weighed
from lapwright.order.values import OrderLine
from lapwright.packet.figurevalues import FieldFigures
from lapwright.packet.toolvalues import Tools
from lapwright.roof.values import Area, Closure
from lapwright.verdict import Check, Step
from lapwright.wind.values import ZoneMap


@dataclass(frozen=True, slots=True)
class Head:
    """The title block.  units: us or metric; paper: letter or a4; currency: a sign, letters or nothing."""

    name: str
    number: str
    date: dt.date | None
    revision: str
    units: str
    paper: str
    file: str
    work: str = "new"
    currency: str = "$"

    def money(self, amount: float, places: int = 2) -> str:
        """An amount in the money of the job's prices: `$1,200.00`, `EUR 1,200.00`, bare where none is named."""
        gap = " " if self.currency.isalpha() else ""
        return f"{self.currency}{gap}{amount:,.{places}f}"

    def of_money(self, what: str) -> str:
        """What a column of money is called: `Cost, $`."""
        return f"{what}, {self.currency}" if self.currency else what


@dataclass(frozen=True, slots=True)
class Engineered:
    """What staying on, draining and carrying come to on the plan.

    moisture: what a reading of deck and boards must show.  gaps: for each kind of metal, temperatures of the metal as
    it is set [°C] with the gap to leave at a joint [m].  gauges: for each kind of metal and exposed face [m], the least
    gauge number (copper: ounces to the square foot); None beyond the table.
    """

    zones: tuple[ZoneMap, ...] = ()
    nails: tuple[FastenMap, ...] = ()
    water: tuple[WaterMap, ...] = ()
    staging: StagingMap | None = None
    moisture: tuple[Step, ...] = ()
    gaps: tuple[tuple[str, tuple[tuple[float, float], ...]], ...] = ()
    gauges: tuple[tuple[str, float, int | None], ...] = ()


@dataclass(frozen=True, slots=True)
class Paper:
    """Everything the packet prints.

    hours: None where the job names no weather; days: empty then, too.  settings: rates and allowances used, with
    origin.  weighed: what the layout costs, and the other aims' counts.  north is +y of the plan.
    warmth: of warm rolls; None without a store.  tools: weld speeds, cords, generator.  morning: of the first dated
    day, by the job's weather.
    engineered: what is drawn of wind, nails, water and material on the roof, and limits beside them.
    figures: tables for the roof that nothing else has.
    """

    head: Head
    areas: tuple[Area, ...]
    closures: tuple[Closure, ...]
    assembly: Assembly
    sheets: Mapping[str, Sheet]
    rules: Rules
    layout: Layout
    order: tuple[OrderLine, ...]
    hours: HourTable | None
    crew: CrewSetting | None
    days: tuple[CrewDay, ...]
    checks: tuple[Check, ...]
    warnings: tuple[tuple[str, str], ...] = ()
    mended: tuple[Mended, ...] = ()
    settings: tuple[Origin, ...] = field(default=())
    weighed: Weighed | None = None
    warmth: Warmth | None = None
    tools: Tools = field(default_factory=Tools)
    morning: Morning | None = None
    engineered: Engineered = field(default_factory=Engineered)
    figures: FieldFigures = field(default_factory=FieldFigures)
