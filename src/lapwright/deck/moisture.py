"""How dry the deck and the boards must read before anything is stuck to them: limits as text, no verdict (Q4)."""

from __future__ import annotations

from lapwright.assembly.values import Assembly
from lapwright.defaults.table import table
from lapwright.verdict import Step


def moisture_limits(assembly: Assembly | None) -> tuple[Step, ...]:
    """What a reading must show, for the deck's kind and for the boards that the job has.

    The maker's written limits govern; a reading at five in the morning belongs on the day's sheet.
    Source: defaults/deck.csv, origin on each row
    """
    if assembly is None:
        return ()
    deck = assembly.deck.kind if assembly.deck is not None else None
    boards = [("Insulation", assembly.insulation), ("Cover board", assembly.cover_board)]
    found = [(f"Deck, {deck}", f"moisture.{deck}")] if deck is not None and f"moisture.{deck}" in table("deck") else []
    found += [(f"{name}, {board.kind}", "moisture.board") for name, board in boards if board is not None and board.kind]
    return tuple(_limit(what, row) for what, row in found)


def _limit(what: str, name: str) -> Step:
    row = table("deck")[name]
    return Step(text=what, values={"origin": row.origin, "source": row.source, "note": row.note}, result=row.value)
