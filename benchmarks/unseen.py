"""Rectangles and L-shapes drawn by seed: what we lay over our bounds, and a solver's proof where it differs.

    .venv/bin/python benchmarks/unseen.py [--first 0] [--last 48] [--seconds 60] [--named] [--into PAGE]

10' to 300' across, 2 to 60 courses up, two and three plies, 32' 10" and 65' 7" or 33' 6" and 67' rolls, no slope, sides
without details, so that all rolls are for the plies.  Rolls are those of `fewest_rolls`, end laps those of
`fewest_laps`, the cost that of `least_cost`.  Where rolls or end laps are over the bound CP-SAT is asked, beginning
with our layout and free in lines, joints and rolls, for the least there is: *proven* has it that ours is that.
Where rolls are over the bound or the cost by more than 2 % on more than 12 courses, the prices of benchmarks/priced.py
are asked as well for what can be proved of them.
--named: the roofs at which a difference was found before instead.  Nothing here is asserted.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "tests/reference"))

from layout_ask import AIMS, cost
from layout_model import Limit, solve
from layout_ours import (
    BASE,
    CAP,
    CENTS,
    FOOT,
    INCH,
    THREE_PLIES,
    Case,
    ask,
    ell,
    lay,
    plan_of,
    rectangle,
    seeded_case,
)

from lapwright.assembly.values import Ply
from priced import prove
from run import machine

COUNTED = ("fewest_rolls", "fewest_laps")
MARKS = ("<!-- roofs drawn by seed -->", "<!-- end of roofs drawn by seed -->")
WIDE, SOLVED = 0.02, 12  # a cost by such a share over its bound is to be proved otherwise; courses that CP-SAT solves


def unseen(seed: int) -> Case:
    """The roof of a seed: a rectangle, or an L where the seed is odd."""
    chance = random.Random(7000 + seed)
    base, cap = BASE, CAP
    if seed % 4 > 1:
        base, cap = replace(BASE, length_ticks=67 * FOOT), replace(CAP, length_ticks=33 * FOOT + 6 * INCH)
    plies = (Ply("base", base), Ply("cap", cap))
    if seed % 3 == 0:
        plies = (plies[0], Ply("interply", base), plies[1])
    feet = chance.randint(120, 12 * (60, 120, 300)[chance.randint(0, 2)]) / 12
    up = chance.randint(20, (60, 120, 400)[chance.randint(0, 2)]) / 10
    if seed % 2 == 0:
        return rectangle(feet, up, plies=plies)
    other = round(12 * min(300.0, max(10.0, feet * chance.randint(3, 20) / 10))) / 12
    above = chance.randint(15, (60, 120, 300)[chance.randint(0, 2)]) / 10
    return ell((feet, other), (up, above), ("left", "right")[chance.randint(0, 1)], plies=plies)


def named() -> Iterator[Case]:
    """Roofs at which what we lay and what we state were seen to differ."""
    yield from (seeded_case(seed) for seed in (48, 75, 111, 183))
    yield ell((40, 60), (2, 2), "right")
    yield ell((30 + 8 / 12, 54 + 11 / 12), (3, 3), "left")
    yield ell((176 + 10 / 12, 255 + 10 / 12), (4, 4), "left", plies=THREE_PLIES)


def proof(case: Case, aim: str, limit: Limit) -> str:
    """What the solver says of our layout under an aim, in a few words."""
    roof, unit = ask(case)
    plan = plan_of(lay(case, aim), unit)
    ours = AIMS[aim](roof, plan)
    answer = solve(roof, aim, limit, plan)
    if answer.worth is not None and answer.worth < ours:
        return f"**{answer.worth} can be had**, {answer.seconds:.1f} s"
    if answer.bound == ours and answer.is_proven:
        return f"proven, {answer.seconds:.1f} s"
    return f"not proven: {answer.bound or 0} at least after {answer.seconds:.0f} s"


def row(case: Case, limit: Limit) -> list[str]:
    """What a roof's line of the table says."""
    roof, unit = ask(case)
    cells, proofs, over = [case.name, str(len(case.plies))], [], 0
    has_details = any(detail.takes_ticks for detail in lay(case, patience=0.01).details)
    for aim in COUNTED:
        if aim == "fewest_rolls" and has_details:
            cells.append("-")  # what details take of rolls is not the solver's to say
            continue
        layout = lay(case, aim)
        least = layout.rolls_at_least if aim == "fewest_rolls" else layout.end_laps_at_least
        ours = AIMS[aim](roof, plan_of(layout, unit))
        cells.append(f"{ours} ({ours - least:+d})")
        if aim == "fewest_rolls":
            over = ours - least
        if ours > least and limit.seconds:
            proofs.append(f"{aim.removeprefix('fewest_')}: {proof(case, aim, limit)}")
    layout = lay(case)
    paid = cost(roof, plan_of(layout, unit)) / CENTS
    share = paid / layout.cost_at_least - 1
    is_asked = limit.seconds and not has_details and max(len(ply.courses) for ply in layout.plies) > SOLVED
    held = prove(case, layout) if is_asked and (over or share > WIDE) else None
    by_prices = "-" if held is None else f"{held.rolls} rolls; {held.cost:,.0f}, {100 * (paid / held.cost - 1):.1f} %"
    return [*cells, f"{paid:,.0f}", f"{100 * share:.1f} %", by_prices, "; ".join(proofs) or "-"]


def table(cases: Iterable[Case], limit: Limit) -> Iterator[str]:
    """Every roof's line."""
    yield ""
    yield (
        "| roof | plies | rolls (over bound) | end laps (over bound) | cost | over bound "
        "| by prices: at least, cost over it | CP-SAT where it differs |"
    )
    yield "| --- | ---: | ---: | ---: | ---: | ---: | --- | --- |"
    for case in cases:
        yield "| " + " | ".join(row(case, limit)) + " |"


def tables(given: argparse.Namespace) -> Iterator[str]:
    """The lines of both tables, each with the command that makes it."""
    limit = Limit(deterministic=1e9, workers=given.workers, seconds=given.seconds)
    asked = f"CP-SAT {given.seconds:g} s, {given.workers} worker{'s' * (given.workers > 1)}, for each difference"
    if not given.named:
        yield f"Seeds {given.first} to {given.last - 1}; {asked}."
        yield from table(map(unseen, range(given.first, given.last)), limit)
    if given.named or given.into:
        yield ""
        yield f"Roofs at which a difference was seen before (`--named`); {asked}."
        yield from table(named(), limit)


def main() -> None:
    """The roofs that are asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--last", type=int, default=48)
    parser.add_argument("--seconds", type=float, default=60.0, help="CP-SAT's time for each difference; 0: no proofs")
    parser.add_argument("--workers", type=int, default=2, help="CP-SAT's workers")
    parser.add_argument("--named", action="store_true", help="the roofs at which a difference was found before instead")
    parser.add_argument("--into", type=Path, help="page that both tables are put into, between its marks")
    given = parser.parse_args()
    lines = [f"Measured on {machine()}.", ""]
    print(lines[0])
    for line in tables(given):
        print(line, flush=True)
        lines.append(line)
    if given.into:
        before, _, rest = given.into.read_text().partition(MARKS[0])
        _, _, after = rest.partition(MARKS[1])
        given.into.write_text(before + MARKS[0] + "\n" + "\n".join(lines) + "\n" + MARKS[1] + after)


if __name__ == "__main__":
    main()
