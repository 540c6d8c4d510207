"""Rules about valleys: in each ply a full sheet lies on the line from end to end, its pieces lapped."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from lapwright.roof.values import Edge
from lapwright.rulecheck.lie import PlyLie
from lapwright.rulecheck.limits import metres
from lapwright.rulecheck.read import GivenPlan
from lapwright.rulecheck.readdetail import GivenDetail
from lapwright.rulecheck.values import XY, Violation

Reach = tuple[float, float, GivenDetail]  # from, to along the line [m, plan], what lies there


def valley_violations(plan: GivenPlan, lies: Sequence[PlyLie]) -> Iterator[Violation]:
    """Valleys between two areas without a sheet from end to end, with one too narrow, or with laps too short.

    A valley is judged once, on the first of its two areas.
    Source: docs/method/rulecheck.md
    """
    done: set[tuple[str, frozenset[XY]]] = set()
    for lie in lies:
        for edge in lie.area.edges:
            key = (lie.ply.ply, frozenset(_line(edge)))
            if edge.kind == "valley" and edge.meets and key not in done:
                done.add(key)
                yield from _sheet(plan, lie, edge)


def _line(edge: Edge) -> tuple[XY, XY]:
    start, end = ((metres(x), metres(y)) for x, y in (edge.start, edge.end))
    return (start, end)


def _sheet(plan: GivenPlan, lie: PlyLie, edge: Edge) -> Iterator[Violation]:
    start, end = _line(edge)
    length, gap = math.dist(start, end), lie.limits.gap
    name = f"The {lie.name}: the valley at side {edge.side}"
    reached, top = 0.0, None
    for low, high, detail in _along(plan, lie, (start, end)):
        at = _at((start, end), max(0.0, min(low, length)))
        if low > reached + gap:
            break
        width = detail.width or 0.0
        if width < lie.width - lie.limits.close:
            text = f"{name} has a sheet {{read}} wide, needs {{needs}}; lay a full one."
            yield Violation("valley", (detail.id,), at, width, lie.width, text)
        if top is not None and low < length:
            stretch = _stretch(lie, edge)
            lap = (reached - low) * stretch
            if lap < lie.end_lap - gap:
                text = f"{name}: {top.id} and {detail.id} lap {{read}}, need {{needs}}; lengthen one."
                yield Violation("valley", (top.id, detail.id), at, lap, lie.end_lap, text)
        reached, top = max(reached, high), detail
    if reached < length - gap:
        text = f"{name} has a sheet over {{read}} of its {{needs}}; lay one from end to end before the courses."
        yield Violation("valley", (lie.name,), _at((start, end), reached), reached, length, text)


def _along(plan: GivenPlan, lie: PlyLie, line: tuple[XY, XY]) -> list[Reach]:
    """The ply's valley sheets that lie on a line, in order along it."""
    (x0, y0), (x1, y1) = line
    length, gap = math.dist(*line), lie.limits.gap
    way = ((x1 - x0) / length, (y1 - y0) / length)
    found: list[Reach] = []
    for detail in plan.details:
        if detail.kind != "valley" or detail.ply != lie.ply.ply or detail.line is None:
            continue
        offs = [(x - x0) * way[1] - (y - y0) * way[0] for x, y in detail.line]
        places = [(x - x0) * way[0] + (y - y0) * way[1] for x, y in detail.line]
        if max(abs(off) for off in offs) <= gap and min(places) < length - gap and max(places) > gap:
            found.append((min(places), max(places), detail))
    return sorted(found, key=lambda each: (each[0], each[1], each[2].id))


def _stretch(lie: PlyLie, edge: Edge) -> float:
    """Length along the valley over plan length."""
    (x0, y0), (x1, y1) = _line(edge)
    share = ((x1 - x0) * lie.area.falls[0] + (y1 - y0) * lie.area.falls[1]) / math.dist((x0, y0), (x1, y1))
    return math.hypot(1.0, lie.area.slope * share)


def _at(line: tuple[XY, XY], along: float) -> XY:
    share = along / math.dist(*line)
    (x0, y0), (x1, y1) = line
    return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
