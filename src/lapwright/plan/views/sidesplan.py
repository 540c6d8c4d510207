"""Rows of two plans side by side: layout, cost, days, order, checks, hours."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Callable, Mapping

import numpy as np

from lapwright.hours.values import HEAT, OPEN, SHUT, WARM
from lapwright.order.values import OrderLine
from lapwright.packet.pages.lists import sold
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.pages.words import date_words
from lapwright.packet.values import Paper
from lapwright.plan.views.sides import Row, amount, dated, more_or_fewer, worded
from lapwright.units.write import Units
from lapwright.verdict import Check, Status

STATES: Mapping[int, str] = {
    OPEN: "fit as it is",
    WARM: "with warm rolls",
    HEAT: "with warm rolls and heat",
    SHUT: "shut",
}
LAPS = ("side", "end", "strip", "flashing")
STATUS_WORDS: Mapping[Status, str] = {"pass": "passed", "fail": "failed", "unknown": "unknown"}


def layout_rows(mine: Paper, other: Paper) -> list[Row]:
    """Pieces, rolls by sheet, laps and T-joints."""
    units = Units(mine.head.units)
    sheets = list(dict.fromkeys((*mine.sheets, *other.sheets)))
    rolls = [Counter(roll.sheet for roll in paper.layout.rolls) for paper in (mine, other)]
    return [
        counted("Pieces", mine, other, lambda paper: len(paper.layout.pieces)),
        counted("Courses", mine, other, lambda paper: sum(len(ply.courses) for ply in paper.layout.plies)),
        counted("Rolls", mine, other, lambda paper: len(paper.layout.rolls)),
        *(
            more_or_fewer(
                f"Rolls of {name}",
                rolls[0][name] if name in mine.sheets else None,
                rolls[1][name] if name in other.sheets else None,
            )
            for name in sheets
        ),
        *(more_or_fewer(f"{kind.capitalize()} laps", laps(mine, kind), laps(other, kind)) for kind in LAPS),
        amount("Length of all laps", lap_length(mine), lap_length(other), units.length),
        counted("T-joints", mine, other, lambda paper: len(paper.layout.tjoints)),
    ]


def counted(what: str, mine: Paper, other: Paper, count: Callable[[Paper], int]) -> Row:
    """A count of either plan."""
    return more_or_fewer(what, count(mine), count(other))


def laps(paper: Paper, kind: str) -> int:
    """How many laps of a kind there are."""
    return sum(1 for lap in paper.layout.laps if lap.kind == kind)


def lap_length(paper: Paper) -> float:
    """Length of all laps together [m]."""
    return sum(lap.length for lap in paper.layout.laps)


def cost_rows(mine: Paper, other: Paper) -> list[Row]:
    """Of the layout by its prices and times, and of the priced lines of the order."""

    def money(value: float) -> str:
        return mine.head.money(value)

    return [
        amount("Rolls, laps, cuts and rips of the layout", mine.layout.cost, other.layout.cost, money),
        amount("Priced lines of the order", priced(mine), priced(other), money),
    ]


def priced(paper: Paper) -> float | None:
    """What the priced lines of the order cost together; None where no line has a price."""
    costs = [line.cost for line in paper.order if line.cost is not None]
    return sum(costs) if costs else None


def day_rows(mine: Paper, other: Paper) -> list[Row]:
    """How many crew days, the first and the last."""

    def end(paper: Paper, place: int) -> dt.date | None:
        return paper.days[place].date if paper.days else None

    return [
        more_or_fewer(
            "Crew days", *(len(paper.days) if paper.crew and paper.hours else None for paper in (mine, other))
        ),
        dated("First day", end(mine, 0), end(other, 0), date_words),
        dated("Last day", end(mine, -1), end(other, -1), date_words),
        more_or_fewer("Days that end at a tie-off", *(ties(paper) for paper in (mine, other))),
        amount(
            "From the first task to the last, all days", worked(mine), worked(other), Units(mine.head.units).duration
        ),
    ]


def ties(paper: Paper) -> int | None:
    """Days that end watertight at a line closed for the night."""
    return sum(1 for day in paper.days if day.tie_off) if paper.days else None


def worked(paper: Paper) -> float | None:
    """Time from the first task to the last of each day, together [s]."""
    if not paper.days:
        return None
    return 60.0 * sum(
        max(task.end_min for task in day.tasks) - min(task.begin_min for task in day.tasks)
        for day in paper.days
        if day.tasks
    )


def order_rows(mine: Paper, other: Paper) -> list[Row]:
    """Each item of either order."""
    ours, theirs = ({line.item: line for line in paper.order} for paper in (mine, other))
    book = open_book(mine)

    def row(item: str) -> Row:
        line, match = ours.get(item), theirs.get(item)
        unit = (line or theirs[item]).unit
        return amount(item, ordered(line), ordered(match), lambda value: sold(book, value, unit))

    return [row(item) for item in dict.fromkeys((*ours, *theirs))]


def ordered(line: OrderLine | None) -> float | None:
    """What is ordered of an item; None where it is not."""
    return None if line is None else float(line.ordered)


def check_rows(mine: Paper, other: Paper) -> list[Row]:
    """How many checks stand how, then each check of either."""
    ours, theirs = ({check.id: check for check in paper.checks} for paper in (mine, other))
    counts = [Counter(check.status for check in paper.checks) for paper in (mine, other)]
    return [
        *(
            more_or_fewer(f"Checks {STATUS_WORDS[status]}", *(count[status] for count in counts))
            for status in STATUS_WORDS
        ),
        *(check_row(ours.get(id), theirs.get(id)) for id in dict.fromkeys((*ours, *theirs))),
    ]


def check_row(mine: Check | None, other: Check | None) -> Row:
    """One check's verdicts."""
    known = mine or other
    assert known is not None  # one of the two has it
    return worded(known.title, *(None if check is None else STATUS_WORDS[check.status] for check in (mine, other)))


def hour_rows(mine: Paper, other: Paper) -> list[Row]:
    """Hours of the weather year in each state, by operation."""
    operations = dict.fromkeys(name for paper in (mine, other) if paper.hours for name in paper.hours.states)
    return [
        more_or_fewer(f"{name.replace('_', ' ')}, {words}", *(hours_in(paper, name, state) for paper in (mine, other)))
        for name in operations
        for state, words in STATES.items()
    ]


def hours_in(paper: Paper, operation: str, state: int) -> int | None:
    """Hours of the year in a state; None where the plan has no such operation."""
    states = paper.hours.states.get(operation) if paper.hours is not None else None
    return None if states is None else int(np.count_nonzero(states == state))
