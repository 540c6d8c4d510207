"""`order.xlsx`: the order, the cut list by roll, rolls, laps to probe, and what comes from no roll, as a workbook.

Numbers are numbers in the job's units with the unit beside them; totals are formulas that carry their value, so
that a reader that does not calculate shows them too.  Text that people typed is always written as text: it can't
become a formula, nor when somebody edits the cell.
"""

from __future__ import annotations

from collections.abc import Sequence

from lapwright.layout.values import Detail, Piece, Roll
from lapwright.packet.pages.lists import rate_words
from lapwright.packet.values import Paper
from lapwright.packet.workbook import FIRST_ROW, LONGEST_CELL, Cell, Column, Formula, Sheet, workbook
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units


def order_xlsx(paper: Paper) -> bytes:
    """The workbook."""
    units = Units(paper.head.units)
    cut = cut_sheet(paper, units)
    rolls = rolls_sheet(paper, units, len(cut.rows))
    sheets = (order_sheet(paper, units), cut, rolls, laps_sheet(paper, units), parts_sheet(paper, units))
    return workbook(paper.head, sheets)


def order_sheet(paper: Paper, units: Units) -> Sheet:
    """What to order, with the rate behind each line; costs where there are prices."""
    priced = sum(line.cost is not None for line in paper.order)
    columns = [
        Column("Item", 30, "word"),
        Column("Group", 14),
        Column("Needed", 11),
        Column("Ordered", 10),
        Column("Unit", 10),
        Column("How it was counted", 48),
        Column("Rate", 26),
        Column("Origin of the rate", 18),
        Column("Source", 32),
    ]
    if priced:
        columns += [Column(paper.head.of_money("Price each"), 12), Column(paper.head.of_money("Cost"), 12, "sum")]
    columns.append(Column("Needed by", 40))
    rows = []
    for number, line in enumerate(paper.order, start=FIRST_ROW):
        needed, unit = units.converted(line.needed, line.unit)
        ordered, _ = units.converted(line.ordered, line.unit)
        rate = line.rate
        says = ("counted", "", "") if rate is None else (rate_words(units, rate), rate.origin, rate.source)
        counted = (line.item, line.group, needed, ordered, unit, line.basis)
        money_cells = (line.price, cost(line.price, line.cost, ordered, number)) if priced else ()
        rows.append((*counted, *says, *money_cells, listed(line.from_ids)))
    total = f"Total of the {priced} priced lines" if priced else ""
    return Sheet("Order", tuple(columns), tuple(rows), total)


def listed(ids: Sequence[str]) -> str:
    """Ids after each other; past what a cell holds, how many more there are."""
    text, room = ", ".join(ids), LONGEST_CELL - 60
    if len(text) <= room:
        return text
    shown = text[:room].rpartition(", ")[0]
    return f"{shown}, and {len(ids) - shown.count(', ') - 1} more: see plan.json"


def cost(price: float | None, whole: float | None, ordered: float, row: int) -> Cell | Formula:
    """Ordered times price as a formula where that is what the cost is; else the cost itself."""
    if whole is None or price is None or abs(price * ordered - whole) > 0.005:
        return whole
    return Formula(f"=D{row}*J{row}", whole)


def cut_sheet(paper: Paper, units: Units) -> Sheet:
    """Every length cut, roll by roll in cutting order."""
    columns = (
        Column("Roll", 16, "word"),
        Column("Sheet", 14),
        Column("Cut", 6),
        Column("Piece or detail", 34),
        Column("Area", 14),
        Column("Ply", 10),
        Column("Course", 8),
        Column("Cut length", 12, "sum"),
        Column("Unit", 6),
        Column("On the tape", 14),
        Column("Width", 10),
        Column("Unit", 6),
        Column("On the tape", 14),
        Column("Corners cut", 12),
        Column("Beside", 34),
        Column("Cut to, on the tape", 18),
    )
    pieces = {piece.id: piece for piece in paper.layout.pieces}
    details = {detail.id: detail for detail in paper.layout.details}
    rows: list[tuple[Cell, ...]] = []
    for roll in paper.layout.rolls:
        for number, id in enumerate(roll.pieces, start=1):
            head: tuple[Cell, ...] = (roll.id, roll.sheet, number, id)
            one = pieces.get(id) or details.get(id)
            rows.append((*head, *cut_cells(one, units)))
    return Sheet("Cut list", columns, tuple(rows))


def cut_cells(one: Piece | Detail | None, units: Units) -> tuple[Cell, ...]:
    """What is cut for a piece or a detail; nothing is said of one that the layout does not hold.

    The cut length is what it takes of the roll, so that they add up: none where it is cut beside another.
    """
    if one is None:
        return (None,) * 12
    if isinstance(one, Piece):
        length, width = one.cut_length, one.v1 - one.v0
        place: tuple[Cell, ...] = (one.area, one.ply, one.course)
        corners: Cell = len(one.corner_cuts)
        beside, cut = None, one.cut_length
    else:
        length, width = one.takes_ticks, round(one.width * TICKS_PER_METRE)
        place = (one.area, one.ply or one.kind, None)
        corners = None
        beside, cut = one.beside or None, one.cut_ticks
    sizes = (*measured(length, units), *measured(width, units)[:2], units.width(width))
    return (*place, *sizes, corners, beside, units.tape(cut))


def measured(ticks: int, units: Units) -> tuple[float, str, str]:
    """A length as a number, its unit, and as the tape shows it."""
    number, unit = units.converted(ticks / TICKS_PER_METRE, "m")
    return (number, unit, units.tape(ticks))


def rolls_sheet(paper: Paper, units: Units, cuts: int) -> Sheet:
    """Every roll: what is used, summed from the cut list, and what is left."""
    columns = (
        Column("Roll", 16, "word"),
        Column("Sheet", 14),
        Column("Cuts", 8, "sum"),
        Column("Length", 12, "sum"),
        Column("Used", 12, "sum"),
        Column("Left", 12, "sum"),
        Column("Unit", 6),
        Column("Lot number", 18),
        Column("Taken from the warm store at", 26),
    )
    rows = tuple(
        roll_row(roll, units, row=row, last=FIRST_ROW - 1 + cuts)
        for row, roll in enumerate(paper.layout.rolls, start=FIRST_ROW)
    )
    return Sheet("Rolls", columns, rows)


def roll_row(roll: Roll, units: Units, *, row: int, last: int) -> tuple[Cell | Formula, ...]:
    """One roll; `last` is the last row of the cut list."""
    whole, unit = units.converted((roll.used + roll.left) / TICKS_PER_METRE, "m")
    used, _ = units.converted(roll.used / TICKS_PER_METRE, "m")
    left, _ = units.converted(roll.left / TICKS_PER_METRE, "m")
    names, lengths = (f"'Cut list'!${column}${FIRST_ROW}:${column}${last}" for column in "AH")
    # Not SUMIF: it takes "*" or ">" in a name that somebody typed for a pattern.
    total = Formula(f"=SUMPRODUCT(--EXACT({names},A{row}),{lengths})", used)
    return (roll.id, roll.sheet, len(roll.pieces), whole, total, Formula(f"=D{row}-E{row}", left), unit, None, None)


def laps_sheet(paper: Paper, units: Units) -> Sheet:
    """Every lap and T-joint, with the day it is closed and room to write."""
    columns = (
        Column("Lap or T-joint", 40, "word"),
        Column("Kind", 10),
        Column("Area", 14),
        Column("Ply", 10),
        Column("Length", 10, "sum"),
        Column("Unit", 6),
        Column("Width", 10),
        Column("Unit", 6),
        Column("Day", 6),
        Column("Probed", 12),
        Column("Found", 24),
        Column("Mended", 12),
        Column("By", 12),
    )
    day_of = {id: day.number for day in paper.days for id in day.laps}
    empty: tuple[Cell, ...] = (None,) * 4
    rows: list[tuple[Cell, ...]] = []
    for lap in paper.layout.laps:
        length, width = units.converted(lap.length, "m"), units.converted(lap.width, "m")
        rows.append((lap.id, lap.kind, lap.area, lap.ply, *length, *width, day_of.get(lap.id), *empty))
    for joint in paper.layout.tjoints:
        day = max((day_of[id] for id in joint.laps if id in day_of), default=None)
        rows.append((joint.id, "T-joint", joint.area, joint.ply, None, "", None, "", day, *empty))
    return Sheet("Laps to probe", columns, tuple(rows))


def parts_sheet(paper: Paper, units: Units) -> Sheet:
    """Every detail that is cut from no roll: metal, cant, covers, corners, sumps, parts of drains and pipes."""
    columns = (
        Column("Piece", 40, "word"),
        Column("Kind", 16),
        Column("Area", 14),
        Column("Belongs to", 24),
        Column("Length", 10),
        Column("Unit", 6),
        Column("On the tape", 14),
        Column("Width", 10),
        Column("Unit", 6),
        Column("On the tape", 14),
        Column("Form", 10),
    )
    rows: list[tuple[Cell, ...]] = []
    for one in paper.layout.details:
        if not one.sheet:
            length, width = (round(size * TICKS_PER_METRE) for size in (one.length, one.width))
            sizes = (*measured(length, units), *measured(width, units)[:2], units.width(width))
            rows.append((one.id, one.kind.replace("_", " "), one.area, one.of, *sizes, one.form))
    return Sheet("Metal and parts", columns, tuple(rows))
