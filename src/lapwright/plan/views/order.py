"""The order: each item with where its quantity comes from, and what is cut from which roll."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.packet.pages.cuts import cut_pages
from lapwright.packet.pages.lists import order_page
from lapwright.packet.pages.lookup import open_book
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import Json, Tell


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """The order and the cut list, as the packet has them.

    Raises: Refused with every fault
    """
    paper, _ = stages.planned(ask, tell)
    book = open_book(paper)
    from_ids = {line.item: list(line.from_ids) for line in paper.order}
    return {"order": order_page(book), "from": from_ids, "cuts": cut_pages(book)}
