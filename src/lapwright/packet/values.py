"""What the packet is made from: the whole plan as plain values."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from lapwright.assembly.values import Assembly, Sheet
from lapwright.crew.values import CrewDay, CrewSetting, Morning
from lapwright.defaults.values import Origin, Rules
from lapwright.faults import Mended
from lapwright.heat.values import Warmth
from lapwright.hours.values import HourTable
from lapwright.layout.values import Layout, Weighed
from lapwright.order.values import OrderLine
from lapwright.packet.toolvalues import Tools
from lapwright.roof.values import Area, Closure
from lapwright.verdict import Check


@dataclass(frozen=True, slots=True)
class Head:
    """The title block.  units: us or metric; paper: letter or a4."""

    name: str
    number: str
    date: dt.date | None
    revision: str
    units: str
    paper: str
    file: str
    work: str = "new"
    currency: str = "$"


@dataclass(frozen=True, slots=True)
class Paper:
    """Everything the packet prints.

    hours: None where the job names no weather; days: empty then, too.  settings: rates and allowances used, with
    origin.  weighed: what the layout costs, and the other aims' counts.  north is +y of the plan.
    warmth: of warm rolls; None without a store.  tools: weld speeds, cords, generator.  morning: of the first dated
    day, by the job's weather.
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
