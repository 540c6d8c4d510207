"""From the job as typed to the plain values that the trade rooms take."""

from __future__ import annotations

import datetime as dt
from typing import Any

from lapwright.assembly.values import Assembly, Board, BoardFastening, Deck, Nailing, Ply, Sheet, ZonePattern
from lapwright.job.assembly_models import ZONES, CoverBoardTyped, InsulationTyped, NailingTyped, SheetTyped
from lapwright.job.models import Job
from lapwright.layout.cost import Costs
from lapwright.packet.values import Head
from lapwright.wind.values import Building

LABOUR = "labour_hour"  # the price of an hour of one person


def make_sheet(name: str, typed: SheetTyped) -> Sheet:
    """A sheet as typed, as a plain value."""
    return Sheet(
        name=name,
        width_ticks=typed.width,
        length_ticks=typed.length,
        side_lap_ticks=typed.side_lap,
        end_lap_ticks=typed.end_lap,
        thickness=typed.thickness,
        apply_at_or_above_c=typed.apply_at_or_above,
        warm_rolls_at_or_above_c=typed.warm_rolls_at_or_above,
        with_heat_at_or_above_c=typed.with_heat_at_or_above,
        surfacing=typed.surfacing,
        modulus_n_m=typed.modulus,
        expansion_per_k=typed.expansion,
    )


def make_board(typed: InsulationTyped | CoverBoardTyped | None) -> Board | None:
    """A board as typed; None where none is given."""
    if typed is None:
        return None
    held = typed.fastening
    fastening = None
    if held is not None:
        fastening = BoardFastening(
            held.board, zoned(held.per_board), held.value, zoned(held.ribbons), held.ribbon_value
        )
    return Board(typed.kind, typed.thickness, typed.attachment, fastening)


def make_nailing(typed: NailingTyped | None) -> Nailing | None:
    """How a ply is nailed, as typed; None where nothing is given."""
    if typed is None:
        return None
    zones = {zone: ZonePattern(one.laps, one.field, one.rows) for zone, one in zoned(typed.zones).items()}
    return Nailing(typed.laps, typed.field, typed.rows, typed.value, zones)


def zoned(typed: Any) -> dict[str, Any]:  # noqa: ANN401  # any table with a value for each zone
    """What is given by zone, by the zone's name."""
    if typed is None:
        return {}
    values = (typed.inner, typed.field, typed.edge, typed.corner)
    return {zone: value for zone, value in zip(ZONES, values, strict=True) if value is not None}


def make_assembly(job: Job) -> Assembly:
    """The build-up of a job."""
    typed = job.assembly
    sheets = {name: make_sheet(name, sheet) for name, sheet in job.sheets.items()}
    deck = None
    if typed.deck is not None:
        deck = Deck(typed.deck.kind, typed.deck.nailable, typed.deck.live_load, typed.deck.snow)
    return Assembly(
        plies=tuple(Ply(ply.ply, sheets[ply.sheet], ply.attachment, make_nailing(ply.nailing)) for ply in typed.plies),
        deck=deck,
        insulation=make_board(typed.insulation),
        cover_board=make_board(typed.cover_board),
        rated_uplift_pa=typed.rated_uplift_pa,
    )


def make_costs(job: Job) -> Costs:
    """What the layout is weighed by: prices of rolls and of an hour, and the times that the job gives."""
    typed = job.layout
    return Costs(
        roll_price={name: job.prices[name] for name in job.sheets if name in job.prices},
        labour=job.prices.get(LABOUR),
        end_lap_s=typed.end_lap_time,
        t_joint_s=typed.t_joint_time,
        cut_s=typed.cut_time,
        new_length_s=typed.new_length_time,
        new_rip_s=typed.new_rip_time,
    )


def make_building(job: Job) -> Building:
    """The building as the wind sees it."""
    typed = job.building
    return Building(
        height=typed.height,
        exposure=typed.exposure,
        wind_speed_m_s=typed.wind_speed,
        risk_category=typed.risk_category,
        enclosure=typed.enclosure,
        standard=typed.standard,
        elevation=job.site.elevation,
        topographic=typed.topographic,
    )


def make_head(job: Job, file: str) -> Head:
    """The title block of a job."""
    date: dt.date | None = job.job.date
    return Head(
        name=job.job.name or "",
        number=job.job.number or "",
        date=date,
        revision=job.job.revision or "",
        units=job.units,
        paper=job.paper_size,
        file=file,
        work=job.work or "",
        currency=job.currency,
    )
