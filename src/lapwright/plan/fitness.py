"""Hours and crew days of a job, and which keys of the job file they hang on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from pathlib import Path

import numpy as np

from lapwright.assembly.values import Assembly
from lapwright.crew.checks import crew_checks, unknown_crew_checks
from lapwright.crew.days import Contact, days_of
from lapwright.crew.rates import make_crew, rate_si
from lapwright.crew.values import CrewDay, CrewSetting
from lapwright.crew.walk import walk
from lapwright.defaults.table import table
from lapwright.heat.buildup import build_up
from lapwright.heat.contact import contact_temperature_c, material
from lapwright.hours.values import HourTable
from lapwright.job.models import Job
from lapwright.layout.values import Layout
from lapwright.plan.hourpart import HourAsk
from lapwright.roof.falls import area_m2
from lapwright.roof.values import Area
from lapwright.verdict import Check

Keys = Sequence[tuple[str, object]]


@dataclass(frozen=True, slots=True)
class Days:
    """Crew days with their checks; no days where an input of theirs is missing."""

    crew: CrewSetting | None
    days: tuple[CrewDay, ...]
    checks: tuple[Check, ...]


def hour_keys(job: Job, areas: Sequence[Area]) -> Keys:
    """Job-file keys that the hours hang on, with their values."""
    insulation, cover = job.assembly.insulation, job.assembly.cover_board
    used = dict.fromkeys(ply.sheet for ply in job.assembly.plies)
    sheets = [(f"sheets.{name}.apply_at_or_above", job.sheets[name].apply_at_or_above) for name in used]
    primer, mastic = job.materials.primer, job.materials.mastic
    weather = job.weather and (job.weather.year or job.weather.file)
    return [
        ("weather.year", weather),
        ("site.latitude", job.site.latitude),
        ("site.longitude", job.site.longitude),
        ("building.height", job.building.height),
        ("building.exposure", job.building.exposure),
        ("assembly.insulation.kind", insulation and insulation.kind),
        ("assembly.insulation.thickness", insulation and insulation.thickness),
        ("assembly.cover_board.kind", cover and cover.kind),
        ("assembly.cover_board.thickness", cover and cover.thickness),
        *sheets,
        ("materials.primer.apply_at_or_above", primer and primer.apply_at_or_above),
        *([("materials.mastic.apply_at_or_above", mastic and mastic.apply_at_or_above)] if needs_mastic(areas) else []),
    ]


def crew_keys(job: Job) -> Keys:
    """Job-file keys that the crew's days hang on besides; `crew.fire_watch` is looked after by the crew's checks."""
    return [
        ("site.time_zone", job.site.time_zone),
        ("crew.people", job.crew.people),
        ("crew.welders", job.crew.welders),
        ("crew.day", job.crew.day),
        ("crew.days", job.crew.days),
    ]


def needs_mastic(areas: Sequence[Area]) -> bool:
    """Edge metal and flashings are bedded in mastic."""
    return any(edge.kind in ("metal_edge", "parapet", "wall") for area in areas for edge in area.edges) or any(
        area.openings for area in areas
    )


def has_metal(areas: Sequence[Area]) -> bool:
    """Some side has edge metal."""
    return any(edge.kind == "metal_edge" for area in areas for edge in area.edges)


def make_ask(job: Job, folder: Path, areas: Sequence[Area], assembly: Assembly) -> HourAsk:
    """What the hours of a job hang on, as plain values.  folder: where the job file stands."""
    weather, site, building = job.weather, job.site, job.building
    primer, mastic = job.materials.primer, job.materials.mastic
    return HourAsk(
        folder=folder,
        year=weather.year if weather else None,
        file=weather.file if weather else None,
        latitude=site.latitude,
        longitude=site.longitude,
        elevation=site.elevation,
        height=building.height,
        exposure=building.exposure,
        plies=assembly.plies,
        primer_c=primer.apply_at_or_above if primer else None,
        mastic_c=mastic.apply_at_or_above if mastic else None,
        has_metal=has_metal(areas),
        built=build_up(assembly),
        area=sum(area_m2(area) for area in areas),
        perimeter=sum(length for area in areas for length in side_lengths_m(area)),
        rules=job.rules,
        units=job.units,
        time_zone=site.time_zone,
        no_longitude=job.fault(
            "site.longitude",
            needs="the site's longitude: an ISD-Lite file or a log does not say where it was taken",
            write="longitude: -79.95",
        ),
    )


def side_lengths_m(area: Area) -> list[float]:
    """Lengths of an area's sides that are edges of the roof, not lines between areas [m]."""
    from lapwright.roof.falls import edge_length_m

    return [edge_length_m(edge) for edge in area.edges if edge.kind not in ("ridge", "valley", "step", "expansion")]


def make_days(job: Job, hours: HourTable | None, layout: Layout, areas: Sequence[Area], assembly: Assembly) -> Days:
    """The crew's days, and their checks: unknown where anything that they hang on is missing.

    Without weather or crew there are no days.  Where something else is missing the days are planned on what is said
    in `stand_ins`, so that there is a plan to look at, and the checks stay unknown.
    """
    keys = [*hour_keys(job, areas), *crew_keys(job)]
    uses = tuple(key for key, _ in keys)
    missing = [key for key, value in keys if value is None]
    unknown = tuple(replace(check, uses=uses) for check in unknown_crew_checks(missing))
    typed = job.crew
    if hours is None or typed.people is None or typed.welders is None or not typed.day or not typed.days:
        return Days(None, (), unknown)
    crew = make_crew(
        typed.people,
        typed.welders,
        day=typed.day,
        weekdays=typed.days,
        start=typed.start,
        fire_watch_s=typed.fire_watch,
        rates=rates_of(job),
    )
    zone = job.site.time_zone or standard_zone(hours.weather.offset_h)
    fit = with_stand_ins(hours)
    found = walk(layout, areas, assembly, fit, crew, rules=job.rules, time_zone=zone)
    checks = crew_checks(found, layout, hours, crew, rules=job.rules)
    contact = make_contact(assembly, hours, None if job.store is None else job.store.temperature)
    days = days_of(found, layout, fit, crew, rules=job.rules, contact=contact)
    all_uses = tuple(dict.fromkeys([*uses, *chain.from_iterable(check.uses for check in checks), "crew.fire_watch"]))
    named = tuple(replace(check, uses=all_uses) for check in checks)
    return Days(crew, days, unknown if missing else named)


def rates_of(job: Job) -> dict[str, float]:
    """The rates that the job gives [SI]; primer dries as long as its own data say, unless the crew says otherwise."""
    given = {name: rate_si(text) for name, text in job.crew.rates.items()}
    primer = job.materials.primer
    if primer is not None and primer.drying is not None:
        given.setdefault("primer_dry", primer.drying)
    return given


def standard_zone(offset_h: float) -> str:
    """The zone of a clock that keeps the weather's standard time all year."""
    hours = round(offset_h)
    return "Etc/GMT" if hours == 0 else f"Etc/GMT{-hours:+d}"


# What an operation goes by where its material's limit is not given: the ply that it belongs to.
FOLLOWS = {"primer": "base", "mastic": "cap", "edge_metal": "cap"}


def with_stand_ins(hours: HourTable) -> HourTable:
    """The table by which days are planned: where primer's or mastic's limit is not given, its ply's hours stand in."""
    limits = hours.limits
    stands = {
        operation: ply
        for operation, ply in FOLLOWS.items()
        if operation in hours.states and limits[operation].apply_c is None and ply in hours.states
    }
    if not stands:
        return hours
    fit = hours.as_dried()
    taken = {name: fit.states[ply] for name, ply in stands.items()}
    why = {name: fit.reason[ply] for name, ply in stands.items()}
    return replace(
        hours,
        states={**hours.states, **taken},
        dried={**hours.dried, **taken},
        reason={**hours.reason, **why},
        dried_reason={**hours.dried_reason, **why},
    )


def stand_ins(job: Job, areas: Sequence[Area], hours: HourTable | None, days: Days) -> Iterator[tuple[str, str]]:
    """What the days were planned on where an input is missing, in words."""
    if hours is None or not days.days:
        return
    words = {
        "site.latitude": "the sun is reckoned for the weather station",
        "site.longitude": "the sun is reckoned for the weather station",
        "site.time_zone": "the crew's clock keeps the weather's standard time",
        "building.height": "the station's wind is taken as it is",
        "building.exposure": "the roof is taken to lie as open as the station",
        "assembly.insulation.kind": "no heat from inside reaches the surface",
        "assembly.insulation.thickness": "no heat from inside reaches the surface",
        "materials.primer.apply_at_or_above": "primer is planned in the hours of the base",
        "materials.mastic.apply_at_or_above": "mastic and edge metal are planned in the hours of the cap",
    }
    for key, value in [*hour_keys(job, areas), *crew_keys(job)]:
        if value is None and key in words:
            yield (f"days.{key}", f"{key} is not given: {words[key]}; the crew's checks stay unknown")


def make_contact(assembly: Assembly, hours: HourTable, store_c: float | None = None) -> Contact:
    """Bond line at first touch, by ply and hour: a roll as warm as the store on what lies under it [°C].

    store_c: how warm the store is kept; None, not given: the default.
    """
    under = substrates(assembly)
    roll_c = np.asarray(table("heat")["warm_roll"].number() if store_c is None else store_c)

    def contact(ply: str, hour: int) -> float | None:
        upper, lower = material("sheet"), material(under.get(ply))
        if upper is None or lower is None or np.isnan(hours.surface_c[hour]):
            return None
        return float(contact_temperature_c(roll_c, hours.surface_c[hour], upper=upper, lower=lower))

    return contact


def substrates(assembly: Assembly) -> Mapping[str, str | None]:
    """What each ply is laid on: the top board or the deck under the lowest ply, sheet under the others."""
    boards = (assembly.cover_board, assembly.insulation)
    kinds = [board.kind for board in boards if board is not None]
    lowest = board_material(kinds[0], is_cover=assembly.cover_board is not None) if kinds else None
    if lowest is None and not kinds and assembly.deck is not None:
        lowest = assembly.deck.kind
    return {ply.ply: lowest if i == 0 else "sheet" for i, ply in enumerate(assembly.plies)}


def board_material(kind: str | None, *, is_cover: bool) -> str | None:
    """A board's row of the table of materials: polyiso is denser as a cover board."""
    return "polyiso board" if kind == "polyiso" and is_cover else kind
