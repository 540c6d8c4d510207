"""The checks as calculation sheets: what is asked, what is given, every step, the verdict, who confirms it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from lapwright.packet.pages.backing import check_pages, note_page, rule_page
from lapwright.packet.pages.lookup import open_book
from lapwright.plan.describe.typed import typed_job
from lapwright.plan.describe.where import asked_for
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import Json, Tell

# The first word of a check's id -> the group it stands in; in the order shown.
GROUPS: Mapping[str, str] = MappingProxyType(
    {
        "wind": "Wind",
        "fasten": "Fastening",
        "metal": "Edges",
        "flashing": "Flashings",
        "drains": "Drains",
        "deck": "Material on the deck",
        "crew": "Crew",
        "heat": "Warm rolls",
        "power": "Power",
        "layout": "Layout",
    }
)
OTHERS = "Others"
WORST = ("fail", "unknown", "pass")  # in the order shown


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """Every check with its sheet by groups, the rules in force, and what was assumed.

    Raises: Refused with every fault
    """
    book = open_book(stages.checked(ask, tell))
    typed = typed_job(ask.text, file=ask.path.name)
    pages = [
        {**page, "fields": asked_for(check.supply, typed)}
        for page, check in zip(check_pages(book), book.paper.checks, strict=True)
    ]
    return {"groups": grouped(pages), "rules": rule_page(book), "notes": note_page(book)}


def grouped(checks: list[Json]) -> list[Json]:
    """Checks by group, those that fail or are unknown first; groups with such ones stand before the others."""
    found: dict[str, list[Json]] = {}
    for check in checks:
        found.setdefault(GROUPS.get(str(check["id"]).partition(".")[0], OTHERS), []).append(check)
    in_order = [name for name in (*GROUPS.values(), OTHERS) if name in found]
    groups: list[Json] = [{"name": name, "checks": sorted(found[name], key=rank)} for name in in_order]
    return sorted(groups, key=lambda group: rank(group["checks"][0]))


def rank(check: Json) -> int:
    """How soon a check is shown."""
    return WORST.index(check["status"])
