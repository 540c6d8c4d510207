"""Edge metal by straight run, its corners, joint covers, cleat and nails; nails of flashings and of a nailed base."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Ply
from lapwright.defaults.si import default_number, default_si
from lapwright.defaults.values import Origin
from lapwright.layout.values import Detail
from lapwright.order.lines import HAIR, Needs, Want, counted, default, fasten_row, ids_of, origin
from lapwright.order.strapping import want_back_nails
from lapwright.roof.values import Edge, Metal


@dataclass(frozen=True, slots=True)
class Run:
    """One straight side of metal edge with the lengths of metal set along it."""

    area: str
    edge: Edge
    lengths: tuple[Detail, ...]

    @property
    def length(self) -> float:
        """Length of the side [m]."""
        return sum(one.length for one in self.lengths)


def metal_runs(needs: Needs) -> list[Run]:
    """Every side with metal, in the order of the job file."""
    metal = needs.details("metal")
    return [
        Run(area.name, edge, tuple(one for one in metal if (one.area, one.of) == (area.name, f"side {edge.side}")))
        for area in needs.areas
        for edge in area.edges
        if edge.kind == "metal_edge"
    ]


def metal_words(needs: Needs, metal: Metal | None) -> str:
    """`edge metal, galvanised, 24 gauge, face 5", flange 4"`: as far as it is given."""
    words = ["edge metal"]
    if metal is not None:
        units = needs.units
        words += [metal.kind] if metal.kind else []
        words += [f"{metal.gauge} gauge"] if metal.gauge else []
        words += [f"face {units.length(metal.face)}"] if metal.face else []
        words += [f"flange {units.length(metal.flange)}"] if metal.flange else []
    return ", ".join(words)


def want_metal(needs: Needs) -> Iterator[Want]:
    """Lengths of each make of metal, whole ones for each straight run, with spare, corners, joint covers and cleat.

    Source: common practice, no source; UFGS 07600 (cleat, joint covers)
    Checked: tests/order/test_order_metal.py
    """
    runs = metal_runs(needs)
    for metal in dict.fromkeys(made_of(run.edge.metal) for run in runs):
        of_kind = [run for run in runs if made_of(run.edge.metal) == metal]
        yield from want_lengths(needs, metal_words(needs, metal), of_kind)
    yield from want_corners(needs, runs)


def made_of(metal: Metal | None) -> Metal | None:
    """What is bought: the metal without its test and its nails."""
    return None if metal is None else Metal(metal.kind, metal.gauge, metal.face, metal.flange)


def want_lengths(needs: Needs, words: str, runs: Sequence[Run]) -> Iterator[Want]:
    """The lengths of one make of metal, and what goes with each."""
    long, rate = fasten_row("metal_length")
    total = sum(run.length for run in runs)
    pieces = sum(len(run.lengths) for run in runs)
    ids = tuple(one.id for run in runs for one in run.lengths)
    said = f"{needs.units.length(total)} in {counted(len(runs), 'straight run')}"
    basis = f"{said}, lengths of {needs.units.length(long)}, none joined round a corner"
    yield Want(words, "edge_metal", total / long, "length", basis, ids, rate, pieces, "edge_metal")
    every = default("metal_spare")
    basis = f"one for each {needs.units.length(every)} of {needs.units.length(total)}"
    yield Want(
        f"{words}, spare", "edge_metal", total / every, "length", basis, ids, origin("metal_spare"), None, "edge_metal"
    )
    places = {(run.area, f"side {run.edge.side}") for run in runs}
    covers = [one for one in needs.details("joint_cover") if (one.area, one.of) in places]
    if covers:
        basis, wanted = "one at each joint of a run", float(len(covers))
        yield Want(f"joint covers, {words}", "edge_metal", wanted, "piece", basis, ids_of(covers))
    cleats = [one for one in needs.details("cleat") if (one.area, one.of) in places]
    if cleats:
        basis, wanted = f"{said}, continuous, lengths of {needs.units.length(long)}", total / long
        yield Want(f"cleat, {words}", "edge_metal", wanted, "length", basis, ids_of(cleats), rate, len(cleats))


def want_corners(needs: Needs, runs: Sequence[Run]) -> Iterator[Want]:
    """Corners of metal; covers over their joints, and over those between sides that stand in one line."""
    corners = needs.details("metal_corner")
    for form in ("outside", "inside"):
        ids = ids_of(one for one in corners if one.form == form)
        if ids:
            basis = f"where two sides of metal meet, {form}"
            yield Want(f"edge metal corners, {form}", "edge_metal", float(len(ids)), "piece", basis, ids)
    sides = {(run.area, f"side {run.edge.side}") for run in runs}
    covers = ids_of(one for one in needs.details("joint_cover") if (one.area, one.of) not in sides)
    if covers:
        basis = "two at each corner of metal, one between sides in one line"
        yield Want("joint covers at corners", "edge_metal", float(len(covers)), "piece", basis, covers)


def want_nails(needs: Needs) -> Iterator[Want]:
    """Nails of metal flanges, of the cleat, of flashing tops, and of a nailed base sheet.

    Source: common practice, no source; UFGS 07600 (cleat)
    Checked: tests/order/test_order_metal.py
    """
    metal = needs.details("metal")
    spacing, rate = fasten_row("metal_nail_spacing")
    rows = int(default_number("fasten", "metal_nail_rows"))
    units = needs.units
    if metal:
        count = sum(rows * (math.ceil(one.length / spacing - HAIR) + 1) for one in metal)
        basis = f"{rows} staggered rows at {units.length(spacing)}, a nail at both ends of each"
        yield boxes("ring-shank nails, edge metal", count, basis, "nail_box", ids_of(metal), rate)
        cleat = default("cleat_nail_spacing")
        count = sum(math.ceil(run.length / cleat - HAIR) + 1 for run in metal_runs(needs) if run.lengths)
        basis = f"one row at {units.length(cleat)}"
        yield boxes("ring-shank nails, cleat", count, basis, "nail_box", ids_of(metal), origin("cleat_nail_spacing"))
    yield from flashing_nails(needs)
    base = needs.assembly.plies[0]
    if base.attachment == "mechanically_fastened" and not is_counted_by_zone(base):
        yield base_nails(needs)
    yield from want_back_nails(needs)


def is_counted_by_zone(ply: Ply) -> bool:
    """Its pattern is given, so that its nails are counted zone by zone (fastened.py)."""
    given = ply.nailing
    return given is not None and given.lap_spacing is not None and given.field_rows is not None


def flashing_nails(needs: Needs) -> Iterator[Want]:
    """Cap nails along the tops of flashings, and in the rows part-way up those that are tall."""
    tops = [one for one in needs.details("flashing") if one.ply == needs.assembly.plies[-1].ply]
    rows, units, rate = needs.details("fixing"), needs.units, origin("top_nail_spacing")
    spacing, tall = default("top_nail_spacing"), default_si("details", "flashing_tall")
    if tops:
        count = sum(math.ceil(one.width / spacing - HAIR) for one in tops)
        basis = f"tops of flashings at {units.length(spacing)}"
        yield boxes("cap nails, flashing tops", count, basis, "cap_nail_box", ids_of(tops), rate)
    if rows:
        count = sum(math.ceil(one.length / spacing - HAIR) + 1 for one in rows)
        basis = f"rows part-way up flashings over {units.length(tall)}, at {units.length(spacing)}"
        yield boxes("cap nails, part-way up flashings", count, basis, "cap_nail_box", ids_of(rows), rate)


def base_nails(needs: Needs) -> Want:
    """Cap nails of a nailed base sheet, one row in the lap and more in the field, along every piece."""
    pieces = [piece for ply in needs.layout.plies if ply.position == 1 for piece in ply.pieces]
    lap, field_spacing, rows = default("base_nail_lap"), default("base_nail_field"), int(default("base_nail_rows"))
    count = 0
    for piece in pieces:
        length = (piece.u1 - piece.u0) / 80_000.0
        count += math.ceil(length / lap - HAIR) + rows * math.ceil(length / field_spacing - HAIR)
    units = needs.units
    basis = f"lap at {units.length(lap)}, {rows} rows at {units.length(field_spacing)}"
    ids = tuple(piece.id for piece in pieces)
    return boxes("cap nails, base sheet", count, basis, "cap_nail_box", ids, origin("base_nail_field"))


def boxes(item: str, count: int, basis: str, box: str, ids: tuple[str, ...], rate: Origin) -> Want:
    """Nails by the box."""
    size = default(box)
    said = f"{count} nails: {basis}; boxes of {size:.0f}"
    return Want(item, "fasteners", count / size, "box", said, ids, rate, price_key="fasteners")
