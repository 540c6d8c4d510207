"""Strips along edges: under edge metal of a two-ply roof, over the corners of metal, onto the old roof at tie-ins."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from lapwright.assembly.values import Ply, Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.details.lengths import TICKS, along, crosswise, detail_ticks, lengths, round_up, slope_length
from lapwright.layout.details.metal import Meeting
from lapwright.layout.values import XY, Detail, Lap
from lapwright.roof.values import Area, Edge, Point


def edge_strips(area: Area, edge: Edge, sheet: Sheet, rules: Rules) -> list[Detail]:
    """The strips under edge metal along one side of a two-ply roof.

    Source: common practice, no source
    Checked: tests/layout/test_detail_edges.py
    """
    return strips(area, edge, ("strip", "strip", "strip"), sheet, rules.edge_strip_ticks, rules)


def tie_in_strips(area: Area, edge: Edge, plies: Sequence[Ply], rules: Rules) -> list[list[Detail]]:
    """Strips from the new roof onto the old one, a narrow one of the base under a wider one of the cap.

    Source: common practice, no source
    Checked: tests/layout/test_detail_edges.py
    """
    return [
        strips(area, edge, ("tie_in", f"tie-in {ply.ply} strip", ply.ply), ply.sheet, detail_ticks(name), rules)
        for ply, name in zip(plies, ("tie_in_base", "tie_in_cap"), strict=True)
    ]


def strips(area: Area, edge: Edge, named: tuple[str, str, str], sheet: Sheet, width: int, rules: Rules) -> list[Detail]:
    """Strips of one width along a side.  named: kind, words of the id, ply."""
    kind, words, ply = named
    longest = min(rules.longest_piece_ticks, sheet.length_ticks)
    total = slope_length(area, edge.start, edge.end)
    return [
        Detail(
            id=f"{area.name}/side {edge.side}/{words} {k}",
            kind=kind,
            area=area.name,
            of=f"side {edge.side}",
            sheet=sheet.name,
            ply=ply,
            length=(b - a) / TICKS,
            width=width / TICKS,
            line=along(edge.start, edge.end, a / total, b / total),
            takes_ticks=round_up(b - a, rules.cut_step_ticks),
        )
        for k, (a, b) in enumerate(lengths(total, longest, sheet.end_lap_ticks), start=1)
    ]


def strip_laps(made: Sequence[Detail], sheet: Sheet) -> Iterator[Lap]:
    """End laps between strips that follow each other along a side."""
    for one, other in pairwise(made):
        if one.line is not None and other.line is not None:
            line = across(other.line[0], other.line, one.width)
            width = sheet.end_lap_ticks / TICKS
            yield Lap(f"{other.id}/lap", "strip", one.area, one.ply, (one.id, other.id), line, one.width, width)


def across(at: XY, line: tuple[XY, XY], width: float) -> tuple[XY, XY]:
    """A line of that width through a point, square to another line and middled on it."""
    x, y = crosswise(line, width / 2)
    return ((at[0] - x, at[1] - y), (at[0] + x, at[1] + y))


def corner_strip(area: Area, meeting: Meeting, sheet: Sheet, rules: Rules) -> Detail:
    """The piece of strip over the corner, or the butt, of two sides with metal, half of it along either.

    Source: common practice, no source
    Checked: tests/layout/test_detail_edges.py
    """
    long = detail_ticks("strip_corner")
    return Detail(
        id=f"{area.name}/{meeting.of}/corner strip",
        kind="strip_corner",
        area=area.name,
        of=meeting.of,
        sheet=sheet.name,
        ply="strip",
        length=long / TICKS,
        width=rules.edge_strip_ticks / TICKS,
        takes_ticks=round_up(long, rules.cut_step_ticks),
        at=(meeting.at[0] / TICKS, meeting.at[1] / TICKS),
        form=meeting.form,
    )


def corner_strip_laps(corner: Detail, made: Sequence[Detail], at: Point) -> Iterator[Lap]:
    """Laps of a corner's strip with the strips that end or begin there; the line is its end on each."""
    x, y = at[0] / TICKS, at[1] / TICKS
    for strip in made:
        if strip.line is None:
            continue
        for here, far in (strip.line, strip.line[::-1]):
            if abs(here[0] - x) + abs(here[1] - y) < 1e-4:
                wide = min(corner.length / 2, strip.length)
                share = wide / strip.length
                end = (x + (far[0] - x) * share, y + (far[1] - y) * share)
                line = across(end, strip.line, strip.width)
                name, pair = f"{corner.id}/lap {strip.of}", (strip.id, corner.id)
                yield Lap(name, "strip", corner.area, "strip", pair, line, strip.width, wide)
