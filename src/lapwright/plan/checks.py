"""Every check of a plan, room by room, in the order printed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from lapwright.deck.flashings import check_flashing_heights
from lapwright.deck.pallets import check_pallets
from lapwright.drains.capacity import check_drainage
from lapwright.drains.overflow import check_overflow
from lapwright.drains.places import check_places
from lapwright.drains.slope import check_slope
from lapwright.fasten.basesheet import check_base_nails
from lapwright.fasten.boards import check_boards
from lapwright.fasten.coldpull import check_cold_pull
from lapwright.fasten.edgemetal import check_edge_metal
from lapwright.fasten.edgetest import check_edge_tests
from lapwright.job.models import Job
from lapwright.packet.planjson import plan_dict
from lapwright.packet.values import Paper
from lapwright.plan.laidcheck import layout_checks
from lapwright.plan.tools import make_power
from lapwright.power.checks import check_power
from lapwright.verdict import Check
from lapwright.wind.uplift import check_uplift
from lapwright.wind.values import Building


def make_checks(job: Job, paper: Paper, building: Building, crew: Sequence[Check]) -> Paper:
    """The paper with its checks: layout as the rule checker sees it, wind, water, deck, flashings, power, crew."""
    return replace(paper, checks=tuple(all_checks(job, paper, building, crew)))


def all_checks(job: Job, paper: Paper, building: Building, crew: Sequence[Check]) -> Iterator[Check]:
    """The checks one by one."""
    areas, assembly = paper.areas, paper.assembly
    yield from layout_checks(plan_dict(paper), areas, assembly, job.rules, paper.head.units)
    yield from check_uplift(areas, building, assembly)
    yield from check_edge_metal(areas, building)
    yield from check_edge_tests(areas, building)
    yield from check_cold_pull(areas, assembly)
    yield from check_base_nails(areas, building, assembly)
    yield from check_boards(areas, building, assembly)
    yield from check_slope(areas, work=job.work)
    yield from check_places(areas)
    yield from check_drainage(areas, rain_primary=job.site.rain_primary)
    yield from check_overflow(areas, job.rules, rain_secondary=job.site.rain_secondary)
    yield from check_pallets(assembly.deck, tuple(paper.sheets.values()))
    yield from check_flashing_heights(areas, job.rules)
    yield from check_power(make_power(job))
    yield from crew
