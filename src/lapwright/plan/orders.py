"""The order of a job, and the rates and allowances that the packet lists with their origin."""

from __future__ import annotations

from collections.abc import Sequence

from lapwright.assembly.values import Assembly
from lapwright.crew.rates import rates_used
from lapwright.defaults.table import table
from lapwright.defaults.values import Origin
from lapwright.fasten.values import FastenerNeed
from lapwright.job.models import Job
from lapwright.layout.values import Layout
from lapwright.order.fastened import fastened_lines
from lapwright.order.make import make_order
from lapwright.order.values import OrderLine
from lapwright.plan.storeorigins import store_origins
from lapwright.roof.values import Area
from lapwright.units.write import Units


def make_order_lines(
    job: Job,
    layout: Layout,
    areas: Sequence[Area],
    assembly: Assembly,
    *,
    cold: bool,
    fastened: Sequence[FastenerNeed] = (),
) -> tuple[OrderLine, ...]:
    """Everything to order."""
    typed = {"primer": job.materials.primer, "mastic": job.materials.mastic, "caulk": job.materials.caulk}
    coverage = {name: one.coverage for name, one in typed.items() if one is not None and one.coverage is not None}
    lines = make_order(
        areas,
        assembly,
        layout,
        job.rules,
        coverage=coverage,
        prices=job.prices,
        cold=cold,
        units=Units(job.units),
    )
    return (*lines, *fastened_lines(fastened, job.prices, Units(job.units)))


def settings_of(job: Job) -> tuple[Origin, ...]:
    """Rates of the crew, then of the heat balance and of the warm store, each with where it comes from."""
    rates = [rate.origin for rate in rates_used(job.crew.rates)]
    rows = [table("heat")[name] for name in ("absorptance", "emittance", "inside", "warm_roll")]
    heat = [Origin(f"heat.{row.name}", row.text, row.text, row.origin, row.source, row.note) for row in rows]
    return (*rates, *heat, *store_origins(job))
