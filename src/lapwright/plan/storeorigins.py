"""The defaults that the warm store's page goes by, each with where it comes from."""

from __future__ import annotations

from lapwright.defaults.table import table
from lapwright.defaults.values import Origin
from lapwright.job.models import Job

# Rows of defaults that the store's page goes by, and the key of the job file that replaces each.
ROWS = {
    "store_walls": "store.walls",
    "carry_rolls": "store.carry",
    "carry_speed": "store.pace",
    **dict.fromkeys(
        ("carry_handling", "store_more", "store_gap", "pallet_gap", "store_aisle", "store_room", "store_floor"), ""
    ),
    **dict.fromkeys(
        ("store_airs", "store_margin", "store_lead", "cold_before", "store_fan", "flue_fan", "pallet_conductivity"), ""
    ),
}


def store_origins(job: Job) -> tuple[Origin, ...]:
    """What the store's page goes by, each with where it comes from; none where the job has no store."""
    if job.store is None:
        return ()
    return tuple(origin_of(job, name, key) for name, key in ROWS.items())


def origin_of(job: Job, name: str, key: str) -> Origin:
    """A default of the store, or what the job file gives in its place."""
    row = table("rolls")[name]
    typed = job.place(key)[2] if key else ""
    if not typed:
        return Origin(key or f"heat.{name}", row.text, row.text, row.origin, row.source, row.note)
    return Origin(key, typed, row.text, "job file", "the job file", row.note)
