"""What the page of figures for the roof has beside the packet's own tables: rolls, the store, cold, limits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from lapwright.assembly.values import Sheet
from lapwright.hours.limits import held_for, limits_by_operation, needs_sheet_rule
from lapwright.job.models import Job
from lapwright.packet.figurevalues import ChillTable, FieldFigures, OperationLimits, RollTable, StoreTable
from lapwright.packet.values import Paper
from lapwright.plan.fitness import has_metal
from lapwright.plan.waysout import ways_out
from lapwright.units.anything import quantity_si
from lapwright.weather.chill import frostbite_min, wind_chill_c

if TYPE_CHECKING:
    from lapwright.heat.store import StoreAsk

# Rows and columns of the tables, in units that are round to the reader.
CHILL_AIRS = {
    "us": [f"{air} F" for air in range(40, -25, -5)],
    "metric": [f"{air} C" for air in range(6, -31, -3)],
}
CHILL_WINDS = {
    "us": [f"{wind} mph" for wind in range(5, 35, 5)],
    "metric": [f"{wind} m/s" for wind in range(2, 14, 2)],
}
COLDS = {
    "us": [f"{cold} F" for cold in range(40, -1, -10)],
    "metric": [f"{cold} C" for cold in range(5, -16, -5)],
}
# How rolls may stand: words, stack, wrapping, fans.
Stand = tuple[str, Literal["single", "pallet"], Literal["wrapped", "opened", "spaced"], bool]
STANDS: tuple[Stand, ...] = (
    ("opened pallet, fans", "pallet", "opened", True),
    ("rolls spaced, fans", "single", "spaced", True),
    ("rolls spaced", "single", "spaced", False),
    ("opened pallet", "pallet", "opened", False),
    ("wrapped pallet, fans", "pallet", "wrapped", True),
    ("wrapped pallet", "pallet", "wrapped", False),
)
STORE_C = "store.temperature"


def with_figures(job: Job, paper: Paper) -> Paper:
    """A checked paper with the figures for the roof."""
    rolls, store, lacking = warm_tables(job, paper)
    return replace(
        paper,
        figures=FieldFigures(
            rolls=tuple(rolls),
            store=tuple(store),
            chill=chill_table(paper.head.units),
            ways_out=ways_out(job, paper),
            limits=tuple(operation_limits(job, paper)),
            lacking={"roll": lacking, "wind": wind_lacks(paper)},
        ),
    )


def warm_tables(job: Job, paper: Paper) -> tuple[list[RollTable], list[StoreTable], tuple[str, ...]]:
    """The roll clock and the store's hours for every sheet that is laid, and the keys that are lacking for them."""
    sheets = {ply.sheet.name: ply.sheet for ply in paper.assembly.plies}
    lacking = () if job.store is not None and job.store.temperature is not None else (STORE_C,)
    lacks = {name: sheet_lacks(sheet) for name, sheet in sheets.items()}
    whole = {name: sheet for name, sheet in sheets.items() if not lacks[name]}
    missing = (*lacking, *(key for keys in lacks.values() for key in keys))
    if lacking:
        return [], [], missing
    return [roll_table(job, paper, sheet) for sheet in whole.values()], list(store_tables(job, paper, whole)), missing


def sheet_lacks(sheet: Sheet) -> tuple[str, ...]:
    """Keys without which a sheet's rolls have no clock."""
    given = (("thickness", sheet.thickness), ("apply_at_or_above", sheet.apply_at_or_above_c))
    return tuple(f"sheets.{sheet.name}.{key}" for key, value in given if not value and value != 0.0)


def roll_table(job: Job, paper: Paper, sheet: Sheet) -> RollTable:
    """A sheet's clock by air and wind: that of the packet where it has one, else reckoned here."""
    from lapwright.heat.winter import wind_table  # loads scipy, which takes its time
    from lapwright.plan.warmth import AIR_STEPS, WINDS, make_setting, roll_ask

    assert job.store is not None  # the store's temperature was seen
    setting = make_setting(job.store)
    ask, units = roll_ask(sheet, setting), paper.head.units
    told = paper.warmth.sheets if paper.warmth is not None else ()
    ready = next((one for one in told if one.sheet == sheet.name), None)
    if ready is not None:
        airs, winds, lasts = ready.airs_c, ready.winds_m_s, ready.lasts_s
    else:
        winds = tuple(quantity_si(text) for text in WINDS[units])
        airs = tuple(air for air in map(quantity_si, AIR_STEPS[units]) if air < ask.until_c)
        lasts = wind_table(ask, winds, airs) if ask.stored_c > ask.until_c and airs else ()
    return RollTable(sheet.name, ask.stored_c, ask.until_c, setting.cover_w_m2k, airs, winds, lasts)


def store_tables(job: Job, paper: Paper, sheets: Mapping[str, Sheet]) -> Iterator[StoreTable]:
    """How long rolls stand in the store, sheet by sheet."""
    from lapwright.heat.store import core_times_s
    from lapwright.plan.warmth import make_setting, roll_ask, stand_ask

    assert job.store is not None  # the store's temperature was seen
    setting = make_setting(job.store)
    for sheet in sheets.values():
        ask = roll_ask(sheet, setting)
        colds = tuple(cold for cold in map(quantity_si, COLDS[paper.head.units]) if cold < ask.until_c)
        base = stand_ask(sheet, setting, 0.0)
        yield StoreTable(
            sheet.name,
            ask.stored_c,
            ask.until_c,
            tuple(way[0] for way in STANDS),
            own_stand(base),
            colds,
            tuple(core_times_s(standing(base, way), colds) for way in STANDS),
        )


def standing(base: StoreAsk, way: Stand) -> StoreAsk:
    """The rolls of a store, standing in one of the ways."""
    _, stack, wrapping, fans = way
    return replace(base, stack=stack, wrapping=wrapping, fans=fans)


def own_stand(base: StoreAsk) -> int:
    """Which row the job's store is."""
    is_free = base.stack == "single" or base.wrapping == "spaced"
    want = ("single", "spaced", base.fans) if is_free else ("pallet", base.wrapping, base.fans)
    return next(at for at, way in enumerate(STANDS) if way[1:] == want)


def chill_table(units: str) -> ChillTable:
    """Wind chill and frostbite by air and wind."""
    airs = tuple(quantity_si(text) for text in CHILL_AIRS[units])
    winds = tuple(quantity_si(text) for text in CHILL_WINDS[units])
    return ChillTable(
        airs,
        winds,
        tuple(tuple(float(wind_chill_c(air, wind)) for wind in winds) for air in airs),
        tuple(tuple(frostbite_min(air, wind) for wind in winds) for air in airs),
    )


def operation_limits(job: Job, paper: Paper) -> Iterator[OperationLimits]:
    """The temperatures that a reading is held against, by operation."""
    primer, mastic = job.materials.primer, job.materials.mastic
    found = limits_by_operation(
        paper.assembly.plies,
        primer_c=primer.apply_at_or_above if primer else None,
        mastic_c=mastic.apply_at_or_above if mastic else None,
        has_metal=has_metal(paper.areas),
    )
    for operation, limits in found.items():
        by_air, by_surface = held_for(operation, paper.rules.limits_hold_for)
        lacking = () if limits.apply_c is not None else (limit_key(paper, operation),)
        yield OperationLimits(operation, limits.apply_c, limits.warm_c, limits.heat_c, by_air, by_surface, lacking)


def limit_key(paper: Paper, operation: str) -> str:
    """The key of the job file that an operation's limit is typed under."""
    sheets = {ply.ply: ply.sheet.name for ply in paper.assembly.plies}
    if needs_sheet_rule(operation):
        return f"sheets.{sheets.get(operation, sheets.get('cap', ''))}.apply_at_or_above"
    return f"materials.{'mastic' if operation == 'edge_metal' else operation}.apply_at_or_above"


def wind_lacks(paper: Paper) -> tuple[str, ...]:
    """Keys without which the zones have no pressures."""
    asked = (check for check in paper.checks if check.id.startswith("wind.uplift") and check.status == "unknown")
    return tuple(dict.fromkeys(key for check in asked for key in check.supply if key.startswith(("building", "site"))))
