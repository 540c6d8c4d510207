"""Our layout beside its bounds and beside the best that CP-SAT finds in the same and in more time.

    .venv/bin/python benchmarks/layout.py [--seconds 60] [--workers 2] [--only WORD] [--parts small,patience]

Parts: `small`, roofs of up to 12 courses: ours, the bound we state, CP-SAT's best and its own bound, for each aim.
`patience`: how long CP-SAT takes, without a hint, to a plan as good as ours.  `large`: 100 rolls and more against our
bounds.  Roofs have no slope and sides without details, so that all rolls are for the plies.  Our seconds are of the
processor, CP-SAT's of the clock with all its workers.  In `small` CP-SAT begins with our layout and may only better
it.  Side laps under the cap may be wider than the sheet asks, in ours and in CP-SAT's.  Nothing here is asserted.  How
the layout grows with the roof: benchmarks/size.py; all tables together: benchmarks/table.py.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "tests/reference"))

from layout_ask import AIMS, Plan, RoofAsk, cost, tally
from layout_model import Limit, solve
from layout_ours import CENTS, THREE_PLIES, Case, ask, ell, lay, plan_of, rectangle

from lapwright.layout.values import Layout
from run import machine


def small() -> Iterator[Case]:
    """Rectangles of telling widths, and L-shapes, of up to 12 courses."""
    for feet, courses in ((32, 3), (32 + 10 / 12, 4), (33, 4), (48, 6), (65 + 1 / 12, 4), (66, 4), (97, 3), (97, 8)):
        yield rectangle(feet, courses)
    for feet, courses in ((97 + 6 / 12, 4), (97 + 7 / 12, 4), (100, 4), (100, 12), (120, 6), (40, 12)):
        yield rectangle(feet, courses)
    yield rectangle(66, 4, plies=THREE_PLIES, name="66' x 4 courses, three plies")
    yield ell((60, 40), (3, 3), "left")
    yield ell((40, 60), (2, 2), "right")
    yield ell((97, 50), (4, 4), "right")
    yield ell((50, 100), (6, 6), "left")


def large() -> Iterator[Case]:
    """Roofs of 100 rolls and more."""
    for feet, courses in ((97, 60), (100, 60), (120, 21), (200, 40), (250, 66), (316, 104)):
        yield rectangle(feet, courses)
    yield ell((200, 120), (20, 30), "left")
    yield ell((97, 180), (25, 25), "right")


def laid(case: Case, aim: str, roof: RoofAsk, unit: int) -> tuple[Layout, Plan, int, float]:
    """Our layout, as a plan, its worth under the aim, and the processor's seconds it took."""
    began = time.process_time()
    layout = lay(case, aim)
    took = time.process_time() - began
    plan = plan_of(layout, unit)
    return layout, plan, AIMS[aim](roof, plan), took


def stated(layout: Layout, aim: str) -> int:
    """The bound that we state for an aim."""
    if aim == "fewest_rolls":
        return layout.rolls_at_least
    if aim == "fewest_laps":
        return layout.end_laps_at_least
    return round(layout.cost_at_least * CENTS)


def shown(worth: int | None, aim: str) -> str:
    """A worth in print: money in whole units, counts as they are."""
    if worth is None:
        return "-"
    return f"{worth / CENTS:,.0f}" if aim == "least_cost" else f"{worth}"


def over(worth: int | None, least: int | None) -> str:
    """How far one worth is over another, in percent."""
    if worth is None or least is None:
        return "-"
    return f"{100 * (worth - least) / least:.1f} %" if least else ("0.0 %" if worth == least else "inf")


def print_small(cases: list[Case], limit: Limit) -> None:
    """Ours, our bound, CP-SAT's best and bound, aim by aim."""
    print(f"\n| roof | aim | ours | our bound | CP-SAT, {limit.seconds:g} s | its bound | its gap | ours over CP-SAT |")
    print("| --- | --- | ---: | ---: | ---: | ---: | ---: | ---: |")
    for case in cases:
        is_eased = any(ply.exceptions for ply in lay(case).plies)
        roof, unit = ask(case, is_eased=is_eased)
        for aim in AIMS:
            layout, plan, worth, _ = laid(case, aim, roof, unit)
            answer = solve(roof, aim, limit, plan)
            mark = " proven" if answer.is_proven else ""
            bound = stated(layout, aim)
            wrong = " **bound too high**" if bound and answer.worth is not None and bound > answer.worth else ""
            cells = [case.name, aim, shown(worth, aim), shown(bound, aim) + wrong, shown(answer.worth, aim) + mark]
            cells += [shown(answer.bound, aim), over(answer.worth, answer.bound), over(worth, answer.worth)]
            print("| " + " | ".join(cells) + " |", flush=True)
            if answer.plan is not None and answer.worth != worth:
                print(f"  ours {tally(roof, plan)}\n  CP-SAT {tally(roof, answer.plan)}", file=sys.stderr, flush=True)


def print_patience(cases: list[Case], limit: Limit) -> None:
    """How long CP-SAT takes by itself to a plan as cheap as ours."""
    print(f"\n| roof | our cost | our s | CP-SAT to the same, at most {limit.seconds:g} s | ratio |")
    print("| --- | ---: | ---: | ---: | ---: |")
    for case in cases:
        roof, unit = ask(case, is_eased=any(ply.exceptions for ply in lay(case).plies))
        _, _, worth, took = laid(case, "least_cost", roof, unit)
        answer = solve(roof, "least_cost", limit, enough=worth)
        reached = answer.worth is not None and answer.worth <= worth
        seconds = f"{answer.seconds:.1f} s" if reached else f"not reached, {shown(answer.worth, 'least_cost')}"
        ratio = f"{answer.seconds / took:.0f}" if reached else f"over {answer.seconds / took:.0f}"
        print(f"| {case.name} | {worth / CENTS:,.0f} | {took:.2f} | {seconds} | {ratio} |", flush=True)


def print_large(cases: list[Case]) -> None:
    """Ours against our bounds."""
    print("\n| roof | aim | ours | our bound | over it | cost | s |")
    print("| --- | --- | ---: | ---: | ---: | ---: | ---: |")
    for case in cases:
        roof, unit = ask(case)
        for aim in AIMS:
            layout, plan, worth, took = laid(case, aim, roof, unit)
            bound = stated(layout, aim)
            cells = [case.name, aim, shown(worth, aim), shown(bound, aim), over(worth, bound)]
            cells += [f"{cost(roof, plan) / CENTS:,.0f}", f"{took:.2f}"]
            print("| " + " | ".join(cells) + " |", flush=True)


def main() -> None:
    """The parts that are asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=float, default=60.0, help="CP-SAT's time for each roof and aim")
    parser.add_argument("--workers", type=int, default=2, help="CP-SAT's workers")
    parser.add_argument("--only", default="", help="roofs whose names hold this")
    parser.add_argument("--parts", default="small,patience,large")
    given = parser.parse_args()
    limit = Limit(deterministic=1e9, workers=given.workers, seconds=given.seconds)
    print(machine())
    parts = given.parts.split(",")
    cases = [case for case in small() if given.only in case.name]
    if "small" in parts:
        print_small(cases, limit)
    if "patience" in parts:
        print_patience(cases, limit)
    if "large" in parts:
        print_large([case for case in large() if given.only in case.name])


if __name__ == "__main__":
    main()
