"""Rolls: as many as the cut list opens, then spare rolls and the cold's allowance, each as a line of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from lapwright.layout.values import Roll
from lapwright.order.lines import Needs, Want, counted, default, origin

WORDS = {
    "strip": "edge strip",
    "strip_corner": "corner strip",
    "valley": "valley piece",
    "tie_in": "tie-in strip",
    "flashing": "flashing piece",
    "gusset": "corner gusset",
    "target": "drain target piece",
    "pipe_strip": "pipe strip",
    "scupper_strip": "scupper strip",
}


def want_rolls(needs: Needs) -> Iterator[Want]:
    """Rolls of each sheet, in the order of the plies.

    Never area times waste: every length of every roll stands in the cut list.
    Source: the cut list; defaults/coverage.csv cold_rolls [common practice, no source]
    Checked: tests/order/test_order_rolls.py
    """
    kinds = {detail.id: detail.kind for detail in needs.layout.details}
    for sheet in dict.fromkeys(ply.sheet.name for ply in needs.assembly.plies):
        rolls = [roll for roll in needs.layout.rolls if roll.sheet == sheet]
        if not rolls:
            continue
        ids = tuple(id for roll in rolls for id in roll.pieces)
        basis = f"{counted(len(rolls), 'roll')} opened by the cut list: {cut_words(ids, kinds)}"
        yield Want(sheet, "sheets", float(len(rolls)), "roll", basis, ids, price_key=sheet)
        yield from want_more(needs, sheet, rolls)


def want_more(needs: Needs, sheet: str, rolls: list[Roll]) -> Iterator[Want]:
    """Spare rolls, and the allowance of cold work."""
    spare = needs.rules.spare_rolls
    if spare:
        rate = needs.rules.origins.get("rules.spare_rolls")
        basis = "repair stock, for each sheet"
        yield Want(f"{sheet}, spare", "sheets", float(spare), "roll", basis, rate=rate, price_key=sheet)
    if needs.cold:
        share = default("cold_rolls")
        basis = f"{share:.0%} of {counted(len(rolls), 'roll')}: damaged, chilled or cut anew in the cold"
        wanted, ids = len(rolls) * share, tuple(roll.id for roll in rolls)
        yield Want(
            f"{sheet}, cold-weather allowance",
            "sheets",
            wanted,
            "roll",
            basis,
            ids,
            rate=origin("cold_rolls"),
            price_key=sheet,
        )


def cut_words(ids: tuple[str, ...], kinds: dict[str, str]) -> str:
    """`84 field pieces, 4 edge strips`.  Source: arithmetic"""
    found = Counter(WORDS.get(kinds[id], kinds[id]) if id in kinds else "field piece" for id in ids)
    return ", ".join(counted(count, noun) for noun, count in found.items())
