"""What the layout costs and why, and beside it what the other aims would give: as tables and as lines of text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lapwright.layout.values import Choice, CostPart, Weighed
from lapwright.packet.pages.words import Json, Row, counted, table
from lapwright.packet.values import Paper
from lapwright.units.write import Units

COUNTS = ("end_laps", "t_joints", "cuts", "lengths", "rips")
COUNT_HEADS = ("End laps", "T-joints", "Cuts", "Lengths", "Rips")
PARTS = {"end_lap": "end laps", "t_joint": "T-joints", "cut": "cuts", "new_length": "lengths", "new_rip": "rips"}
SPARED = {"least_cost": "cost", "fewest_rolls": "rolls", "fewest_laps": "end laps"}
AT_LEAST = "any layout, at least"


def choice_page(paper: Paper) -> Json | None:
    """The two tables with the words about them; None where the layout was not weighed."""
    own = paper.weighed
    if own is None:
        return None
    head, rows = choice_rows(paper, own)
    chosen = [at for at, row in enumerate(rows) if row[0] == marked(own.aim)]
    widths = ("1fr", *["auto"] * (len(head) - 1))
    numbers = tuple(range(1, len(head)))
    return {
        "cost": cost_table(paper, own),
        "lap": lap_words(paper, own),
        "choice": table(head, rows, widths, right=numbers, bold=chosen),
        "how": f"{over_words(paper)} {how_words(own)}",
    }


def cost_table(paper: Paper, own: Weighed) -> Json:
    """What each part of the cost comes to, and where its price comes from."""
    rows: list[Row] = [part_row(paper, own, part) for part in own.parts]
    layout = paper.layout
    rows.append(("Together", "", "", money(paper, layout.cost), ""))
    rows.append((AT_LEAST, "", "", money(paper, layout.cost_at_least), "the least of all plies together"))
    head = ("What", "How many", "For one", "Together", "Where the price comes from")
    return table(head, rows, ("1fr", "auto", "auto", "auto", "1.9fr"), right=(1, 2, 3), bold=(len(rows) - 2,))


def part_row(paper: Paper, own: Weighed, part: CostPart) -> Row:
    """One part of the cost."""
    name = f"rolls of {part.sheet}" if part.what == "roll" else PARTS[part.what]
    whole = money(paper, part.count * part.each)
    return (name, str(part.count), paper.head.money(part.each), whole, basis(paper, own, part))


def basis(paper: Paper, own: Weighed, part: CostPart) -> str:
    """Where the price of one comes from: the job file, or a default with the key that sets it."""
    if part.seconds is None:
        key = f"prices.{part.sheet}"
        return f"{key} of the job file" if part.is_given else f"default, {key} is not given"
    hour = f"{paper.head.money(own.labour)} an hour"
    keys = ((f"layout.{part.what}_time", part.is_given), ("prices.labour_hour", own.is_labour_given))
    given = [key for key, is_given in keys if is_given]
    default = [key for key, is_given in keys if not is_given]
    told = [f"{' and '.join(given)} of the job file"] if given else []
    told += [f"{' and '.join(default)} not given: default"] if default else []
    return f"{Units(paper.head.units).duration(part.seconds)} at {hour}; {', '.join(told)}"


def lap_words(paper: Paper, own: Weighed) -> str:
    """What one end lap more costs, with the T-joints at its two ends."""
    each = {part.what: part.each for part in own.parts}
    lap = each["end_lap"] + 2 * each["t_joint"]
    return (
        f"An end lap with a T-joint at either end costs {paper.head.money(lap)}. Cuts are pieces shorter than "
        "a roll; lengths and rips are different cut lengths and different ripped widths, each counted ply by ply."
    )


def choice_rows(paper: Paper, own: Weighed) -> tuple[Row, list[Row]]:
    """A row for each aim under one for what no layout can do without; the chosen aim is marked."""
    sheets = list(paper.sheets)
    layout = paper.layout
    least = [str(layout.sheet_rolls_at_least.get(name, "")) for name in sheets]
    blank = [""] * (len(COUNTS) - 1)
    rows: list[Row] = [(AT_LEAST, *least, str(layout.end_laps_at_least), *blank, money(paper, layout.cost_at_least))]
    rows += [choice_row(paper, own, choice, sheets) for choice in own.choices]
    return ("layout.aim", *(f"Rolls {name}" for name in sheets), *COUNT_HEADS, "Cost"), rows


def choice_row(paper: Paper, own: Weighed, choice: Choice, sheets: Sequence[str]) -> Row:
    """What the layout under one aim comes to."""
    name = marked(choice.aim) if choice.aim == own.aim else choice.aim
    if not choice.is_laid:
        return (name, *["none"] * len(sheets), *[""] * len(COUNTS), "")
    counts = [str(getattr(choice, count)) for count in COUNTS]
    return (name, *(str(choice.rolls.get(sheet, 0)) for sheet in sheets), *counts, money(paper, choice.cost))


def marked(aim: str) -> str:
    """The chosen aim, as it stands in the table."""
    return f"{aim}, chosen"


def how_words(own: Weighed) -> str:
    """Which key to set to choose another, and whether another does better at what the chosen one spares."""
    others = [choice.aim for choice in own.choices if choice.aim != own.aim and choice.is_laid]
    told = f"This packet lays {own.aim}. Another one: set layout.aim in the job file"
    told += f" ({' or '.join(others)}) and plan again." if others else " and plan again."
    mine = next(choice for choice in own.choices if choice.aim == own.aim)
    better = [
        choice.aim
        for choice in own.choices
        if choice.is_laid and spared(choice, own.aim) < spared(mine, own.aim) * (1 - 1e-9)
    ]
    if better:
        told += f" Lower in {SPARED[own.aim]} than the chosen one here: {', '.join(better)}."
    return told


def over_words(paper: Paper) -> str:
    """How far rolls, end laps and cost of the layout are at most over the least that there can be, as a sentence."""
    layout = paper.layout
    laps = sum(ply.end_laps for ply in layout.plies)
    told = [
        over_least("roll", len(layout.rolls), layout.rolls_at_least),
        over_least("end lap", laps, layout.end_laps_at_least),
    ]
    if paper.weighed is not None:
        over = layout.cost - layout.cost_at_least
        cost = f"a cost of {money(paper, layout.cost)}"
        least = f", at most {money(paper, over)} over the least" if over >= 0.5 else ", the least"
        told.append(f"{cost}{least} there can be")
    return f"This layout has {'; '.join(told)}."


def over_least(what: str, count: int, least: int) -> str:
    """A count, and how far it is at most over the fewest that there can be."""
    if count == least:
        return f"{counted(count, what)}, the fewest there can be"
    return f"{counted(count, what)}, at most {count - least} over the fewest there can be"


def spared(choice: Choice, aim: str) -> float:
    """What an aim spares, of a choice."""
    return {"least_cost": choice.cost, "fewest_rolls": sum(choice.rolls.values()), "fewest_laps": choice.end_laps}[aim]


def money(paper: Paper, amount: float) -> str:
    """An amount of money, whole."""
    return paper.head.money(amount, 0)


def choice_lines(paper: Paper) -> Iterator[str]:
    """The aims side by side as lines of text, with how to choose another; none where the layout was not weighed."""
    own = paper.weighed
    if own is None:
        return
    head, rows = choice_rows(paper, own)
    wide = [max(len(row[at]) for row in (head, *rows)) for at in range(len(head))]
    for row in (head, *rows):
        cells = (cell.rjust(width) for cell, width in zip(row[1:], wide[1:], strict=True))
        yield "  ".join((row[0].ljust(wide[0]), *cells)).rstrip()
    yield over_words(paper)
    yield how_words(own)
