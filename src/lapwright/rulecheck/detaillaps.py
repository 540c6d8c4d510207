"""Laps of strips and flashings: wide enough where pieces follow one another, each listed once and as it lies."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from lapwright.assembly.values import Ply, Sheet
from lapwright.rulecheck.details import Placed, Row
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.read import GivenLap, GivenPlan
from lapwright.rulecheck.values import Violation

KINDS = ("strip", "flashing")
LAPPED = ("strip", "tie_in", "flashing")
PANELS = ("target", "pipe_strip", "scupper_strip")


def detail_lap_violations(
    plan: GivenPlan, plies: Sequence[Ply], rows: Sequence[Row], limits: Limits
) -> Iterator[Violation]:
    """Laps between details that are too narrow, not listed, listed otherwise than they lie, or listed where none is.

    Source: docs/method/rulecheck.md
    """
    sheets = {ply.sheet.name: ply.sheet for ply in plies}
    listed: dict[frozenset[str], list[GivenLap]] = {}
    for lap in plan.laps:
        if lap.kind in KINDS:
            listed.setdefault(frozenset(lap.pieces), []).append(lap)
    lying: set[frozenset[str]] = set()
    for row in rows:
        if row.kind in LAPPED:
            for one, two in pairwise(row.placed):
                pair = frozenset((one.detail.id, two.detail.id))
                sheet = sheets.get(one.detail.sheet)
                if sheet is not None and not _is_apart(row, one, two, limits):
                    lying.add(pair)
                    yield from _judge(row, one, two, sheet, listed.get(pair, []), limits)
    yield from _others(plan, sheets, listed, lying, limits)


def _is_apart(row: Row, one: Placed, two: Placed, limits: Limits) -> bool:
    """The two belong to stretches of the face with no roof between them."""
    if two.low <= one.high:
        return False
    middle = (one.high + two.low) / 2
    return not any(low - limits.gap <= middle <= high + limits.gap for low, high in row.face.bare)


def _judge(
    row: Row, one: Placed, two: Placed, sheet: Sheet, laps: Sequence[GivenLap], limits: Limits
) -> Iterator[Violation]:
    is_flashing = row.kind == "flashing"
    kind, needs = ("flashing", metres(sheet.side_lap_ticks)) if is_flashing else ("strip", metres(sheet.end_lap_ticks))
    ids, close = (one.detail.id, two.detail.id), 2 * limits.close
    wide, where = (one.high - two.low) * row.face.stretch, row.face.at(two.low)
    if wide < needs - close:
        text = f"Details {ids[0]} and {ids[1]} lap by {{read}}, need {{needs}}; move one or cut it wider."
        yield Violation("detail_lap", ids, where, max(0.0, wide), needs, text)
        return
    if len(laps) != 1 or laps[0].kind != kind:
        text = f"The lap of {ids[0]} and {ids[1]} is listed {len(laps)} times as one; list it once, as {kind}."
        yield Violation("detail_lap", ids, where, f"{len(laps)} times", f"once, as {kind}", text)
        return
    lap, long = laps[0], one.detail.length if is_flashing else one.detail.width
    for name, read, lies in (("width", lap.width, wide), ("length", lap.length, long)):
        if lies is not None and abs(read - lies) > close:
            text = f"Lap {lap.id}: {name} {{read}}, but it is {{needs}}; write what it is."
            yield Violation("detail_lap", (lap.id,), where, read, lies, text)
    begins = [row.face.place(point)[0] for point in lap.line]
    edges = (two.low, one.high)  # whichever piece was laid later
    if min(max(abs(at - edge) for at in begins) for edge in edges) > 2 * limits.gap:
        text = f"Lap {lap.id}: its line is not the edge of either piece; draw it there."
        yield Violation("detail_lap", (lap.id,), where, begins[0], two.low, text)


def _others(
    plan: GivenPlan,
    sheets: Mapping[str, Sheet],
    listed: Mapping[frozenset[str], Sequence[GivenLap]],
    lying: set[frozenset[str]],
    limits: Limits,
) -> Iterator[Violation]:
    """Laps listed between pieces that do not follow one another, and those of patches that are too narrow."""
    by_id = {one.id: one for one in plan.details}
    for pair, laps in listed.items():
        known = [by_id[id] for id in sorted(pair) if id in by_id]
        if pair in lying or len(known) < 2 or not all(one.kind for one in known):
            continue
        for lap in laps:
            places = {(one.area, one.of, one.kind) for one in known}
            is_panel = len(places) == 1 and known[0].kind in PANELS
            if is_panel and known[0].sheet in sheets:
                needs = metres(sheets[known[0].sheet].side_lap_ticks)
                if lap.width < needs - limits.close:
                    text = f"Lap {lap.id} is {{read}} wide, needs {{needs}}; cut the pieces wider."
                    yield Violation("detail_lap", (lap.id,), lap.line[0], lap.width, needs, text)
            elif all(one.kind in LAPPED for one in known):
                text = f"Lap {lap.id}: its pieces do not lie on one another; take it out."
                yield Violation("detail_lap", (lap.id, *lap.pieces), lap.line[0], "a lap", "none", text)
