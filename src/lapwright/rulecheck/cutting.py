"""Rules about rolls: one for each piece, of its sheet, not overdrawn, counted right."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Ply
from lapwright.rulecheck.lie import PlyLie
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.read import GivenPlan, GivenRoll
from lapwright.rulecheck.shape import cut_length_of
from lapwright.rulecheck.values import Violation


@dataclass(frozen=True, slots=True)
class Cut:
    """What is cut from a roll: a piece or a detail, the roll it names, its sheet, the length that it takes [m]."""

    id: str
    roll: str
    sheet: str
    takes: float | None


def roll_violations(
    plan: GivenPlan, lies: Sequence[PlyLie], plies: Sequence[Ply], limits: Limits
) -> Iterator[Violation]:
    """Everything about rolls, roll by roll after what is in none or in two.

    Source: docs/method/rulecheck.md
    """
    cuts = {cut.id: cut for cut in _cuts(plan, lies)}
    yield from _in_one_roll(plan, cuts)
    lengths = {ply.sheet.name: metres(ply.sheet.length_ticks) for ply in plies}
    for roll in plan.rolls:
        yield from _of_one_sheet(roll, cuts, lengths)
        yield from _drawn(roll, cuts, lengths.get(roll.sheet), limits)


def _cuts(plan: GivenPlan, lies: Sequence[PlyLie]) -> Iterator[Cut]:
    for lie in lies:
        for lying in lie.lying:
            yield Cut(lying.id, lying.given.roll, lie.sheet.name, cut_length_of(lie, lying))
    for detail in plan.details:
        if detail.sheet:
            yield Cut(detail.id, detail.roll, detail.sheet, detail.takes)


def _in_one_roll(plan: GivenPlan, cuts: Mapping[str, Cut]) -> Iterator[Violation]:
    listed: dict[str, list[str]] = {}
    for roll in plan.rolls:
        for id in roll.pieces:
            listed.setdefault(id, []).append(roll.id)
    for cut in cuts.values():
        rolls = listed.get(cut.id, [])
        if len(rolls) == 1 and rolls[0] == cut.roll:
            continue
        if not rolls:
            text, read = f"Piece {cut.id} is in no roll's list; cut it from a roll with enough left.", "no roll"
        elif len(rolls) > 1:
            text, read = f"Piece {cut.id} is listed more than once; leave it in one roll.", ", ".join(rolls)
        else:
            text, read = f"Piece {cut.id} names another roll than lists it; make both the same.", rolls[0]
        yield Violation("roll", (cut.id,), None, read, cut.roll or "one roll", text)


def _of_one_sheet(roll: GivenRoll, cuts: Mapping[str, Cut], lengths: Mapping[str, float]) -> Iterator[Violation]:
    if roll.sheet not in lengths:
        text = f"Roll {roll.id} is of a sheet that the job does not have; name one of its sheets."
        yield Violation("roll_sheet", (roll.id,), None, roll.sheet, ", ".join(lengths), text)
        return
    for id in dict.fromkeys(roll.pieces):
        cut = cuts.get(id)
        if cut is not None and cut.sheet != roll.sheet:
            text = f"Piece {id} is of another sheet than roll {roll.id}; cut it from a roll of its sheet."
            yield Violation("roll_sheet", (id, roll.id), None, roll.sheet, cut.sheet, text)


def _drawn(roll: GivenRoll, cuts: Mapping[str, Cut], length: float | None, limits: Limits) -> Iterator[Violation]:
    """Used and left; where the plan does not say what a detail takes, only what the pieces take is held against it."""
    if length is None:
        return
    known = [cuts[id] for id in roll.pieces if id in cuts]
    close = limits.close * max(1, len(known))
    takes = [cut.takes for cut in known if cut.takes is not None]
    used, is_whole = sum(takes), len(takes) == len(known)
    if used > length + close or roll.used > length + close:
        text = f"Roll {roll.id} gives {{read}}, but is {{needs}} long; cut a piece from another roll."
        yield Violation("roll_drawn", (roll.id, *roll.pieces), None, max(used, roll.used), length, text)
    if roll.used < used - close or (is_whole and roll.used > used + close):
        text = f"Roll {roll.id}: {{read}} used, but what is cut from it takes {{needs}}; correct what is used and left."
        yield Violation("roll_count", (roll.id,), None, roll.used, used, text)
    elif abs(roll.left - (length - roll.used)) > close:
        text = f"Roll {roll.id}: {{read}} left, but {{needs}} remain of its length; correct what is left."
        yield Violation("roll_count", (roll.id,), None, roll.left, length - roll.used, text)


def rolls_opened(plan: GivenPlan, lies: Sequence[PlyLie]) -> Mapping[tuple[str, str], int]:
    """Rolls by the ply (area, ply) that opens them: that of the piece among theirs that is laid first.

    Source: docs/method/rulecheck.md
    """
    laid = {lying.id: (lying.given.sequence, lie) for lie in lies for lying in lie.lying}
    opened: Counter[tuple[str, str]] = Counter()
    for roll in plan.rolls:
        known = [laid[id] for id in roll.pieces if id in laid]
        if known:
            _, lie = min(known, key=lambda each: each[0])
            opened[(lie.area.name, lie.ply.ply)] += 1
    return opened
