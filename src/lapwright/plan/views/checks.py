"""The checks as calculation sheets: what is asked, what is given, every step, the verdict, who confirms it."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.packet.pages.backing import check_pages, note_page, rule_page
from lapwright.packet.pages.lookup import open_book
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import Json, Tell


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """Every check with its sheet, the rules in force, and what was assumed.

    Raises: Refused with every fault
    """
    book = open_book(stages.checked(ask, tell))
    return {"checks": check_pages(book), "rules": rule_page(book), "notes": note_page(book)}
