"""The order: each item with where its quantity comes from, and what is cut from which roll."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from lapwright.layout.values import Detail
from lapwright.order.values import OrderLine
from lapwright.packet.pages.cuts import cut_pages
from lapwright.packet.pages.lists import order_page
from lapwright.packet.pages.lookup import Book, open_book
from lapwright.packet.pages.words import counted
from lapwright.packet.values import Paper
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import Json, Tell


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """The order and the cut list, as the packet has them.

    Raises: Refused with every fault
    """
    paper, _ = stages.planned(ask, tell)
    book = open_book(paper)
    from_ids = {line.item: sources(book, line) for line in paper.order}
    return {"order": order_page(book), "sums": sum_rows(paper), "from": from_ids, "cuts": cut_pages(book)}


def sources(book: Book, line: OrderLine) -> list[Json]:
    """What needs an item, by place and kind: words for the whole, and each id with whether the roof shows it."""
    joints = {joint.id for joint in book.paper.layout.tjoints}
    found: dict[str, list[list[Any]]] = {}
    for id in line.from_ids:
        is_shown = id in book.pieces or id in book.laps or id in joints or is_placed(book.details.get(id))
        found.setdefault(source_group(book, id), []).append([id, is_shown])
    return [{"words": words, "ids": sorted(ids, key=lambda one: by_number(one[0]))} for words, ids in found.items()]


def by_number(id: str) -> list[tuple[str, int]]:
    """A key that puts 2 before 11."""
    return [(words, int(number or 0)) for words, number in re.findall(r"([^0-9]*)([0-9]*)", id)]


def is_placed(detail: Detail | None) -> bool:
    """A detail that has its place on the plan."""
    return detail is not None and (detail.line is not None or detail.at is not None)


def source_group(book: Book, id: str) -> str:
    """Area and ply of a piece or lap, area and kind of a detail; rolls stand together."""
    piece, lap, detail = book.pieces.get(id), book.laps.get(id), book.details.get(id)
    if piece is not None:
        return f"{piece.area}, pieces of {piece.ply}"
    if lap is not None:
        return f"{lap.area}, {lap.kind} laps of {lap.ply}"
    if detail is not None:
        return f"{detail.area}, {detail.kind.replace('_', ' ')}"
    return "T-joints" if "/" in id else "rolls of the cut list"


def sum_rows(paper: Paper) -> list[list[str]]:
    """What each kind of thing costs together, and all of it; empty where nothing has a price."""
    sums: dict[str, float] = {}
    open_lines: dict[str, int] = {}
    for line in paper.order:
        sums.setdefault(line.group, 0.0)
        sums[line.group] += line.cost or 0.0
        open_lines[line.group] = open_lines.get(line.group, 0) + (line.cost is None)
    if not any(line.cost is not None for line in paper.order):
        return []
    money = paper.head.money
    rows = [[group.replace("_", " "), money(cost), unpriced(open_lines[group])] for group, cost in sums.items()]
    return [*rows, ["together", money(sum(sums.values())), unpriced(sum(open_lines.values()))]]


def unpriced(count: int) -> str:
    """How many lines have no price, in words."""
    return f"{counted(count, 'line')} without a price" if count else ""
