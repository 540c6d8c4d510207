"""What comes in pails and tubes: primer, trowel-grade mastic, caulk-grade mastic."""

from __future__ import annotations

import math
from collections.abc import Iterator

from lapwright.layout.values import Piece
from lapwright.order.lines import Needs, Want, counted, default, flange, given_or_default, ids_of, origin
from lapwright.roof.falls import area_m2

TICKS = 80_000.0


def want_primer(needs: Needs) -> Iterator[Want]:
    """Primer for the board or deck under a self-adhered base, for metal flanges and for the upstands of flashings.

    Source: defaults/coverage.csv primer_*
    Checked: tests/order/test_order_wet.py
    """
    base, metal = needs.assembly.plies[0], needs.details("metal")
    board = sum(area_m2(area, on_slope=True) for area in needs.areas)
    board = 0.0 if base.attachment == "mechanically_fastened" else board
    flanges = sum(one.length * flange(one) for one in metal) * default("primer_metal_faces")
    walls = [one for one in needs.details("flashing") if one.ply == base.ply]
    upstand = sum(one.width * (one.length - one.parts.get("field", 0.0)) for one in walls)
    has_board = needs.assembly.cover_board is not None or needs.assembly.insulation is not None
    under, under_origin = given_or_default(needs, "primer", "primer_board" if has_board else "primer_deck")
    smooth, _ = given_or_default(needs, "primer", "primer_board")
    rough, _ = given_or_default(needs, "primer", "primer_deck")
    volume = board / under + flanges / smooth + upstand / rough
    if volume <= 0.0:
        return
    units = needs.units
    parts = [(board, "board or deck", under), (flanges, "metal flange", smooth), (upstand, "walls and curbs", rough)]
    said = [
        f"{units.area(m2)} {what} at {units.number_and_unit(rate, 'm2/m3')}" for m2, what, rate in parts if m2 > 0.0
    ]
    basis = f"{', '.join(said)}: {in_pails(needs, volume, 'primer_pail')}"
    pieces = tuple(piece.id for ply in needs.layout.plies if ply.position == 1 for piece in ply.pieces)
    ids = ((*pieces, *ids_of(metal)) if board > 0.0 else ids_of(metal)) + ids_of(walls)
    wanted = volume / default("primer_pail")
    yield Want("primer", "primer", wanted, "pail", basis, ids, under_origin, price_key="primer")


def in_pails(needs: Needs, volume: float, pail: str) -> str:
    """`38.4 gal in pails of 5 gal`."""
    return f"{needs.units.volume(volume)} in pails of {needs.units.volume(default(pail))}"


def membrane_drains(needs: Needs) -> tuple[str, ...]:
    """The squares of metal with which drains in the field are set in the membrane."""
    return ids_of(needs.details("drain_metal"))


def want_mastic(needs: Needs) -> Iterator[Want]:
    """A trowelled bed under edge metal and drain metal, and joints where metal meets strip and strip meets base.

    Source: defaults/coverage.csv mastic_* [common practice, no source]
    Checked: tests/order/test_order_wet.py
    """
    metal, strips, drains = needs.details("metal"), needs.details("strip"), membrane_drains(needs)
    area = sum(one.length * flange(one) for one in metal) + len(drains) * default("drain_metal") ** 2
    given = needs.coverage.get("mastic")
    bed = default("mastic_bed") if given is None else 1.0 / given
    rate = origin("mastic_bed") if given is None else given_or_default(needs, "mastic", "mastic_bed")[1]
    edge = sum(one.length for one in metal)
    joints = edge * (2 if strips else 1)
    volume = area * bed + joints * default("mastic_joint_width") * default("mastic_joint_height")
    if volume <= 0.0:
        return
    units = needs.units
    basis = (
        f"bed of {units.area(area)} {units.thickness(bed)} thick, joints along {units.length(joints)}: "
        f"{in_pails(needs, volume, 'mastic_pail')}"
    )
    wanted, ids = volume / default("mastic_pail"), (*ids_of(metal), *ids_of(strips), *drains)
    yield Want("mastic, trowel grade", "mastic", wanted, "pail", basis, ids, rate, price_key="mastic")


def want_caulk(needs: Needs) -> Iterator[Want]:
    """Beads of caulk-grade mastic: along metal edges, on every cut edge of the cap, round pipes, and at drains.

    Cut edges are the cap's end laps, its 45° corners, and the foot of the cap flashings.
    Source: defaults/coverage.csv caulk_* [common practice, no source]
    Checked: tests/order/test_order_wet.py
    """
    metal, top = needs.details("metal"), needs.assembly.plies[-1].ply
    edge = sum(one.length for one in metal)
    ends = [lap for lap in needs.layout.laps if lap.kind == "end" and lap.ply == top]
    feet = [one for one in needs.details("flashing") if one.ply == top]
    corners = [(piece.id, corner_lengths(piece)) for piece in needs.layout.pieces if piece.corner_cuts]
    pipes = [(one.id, math.pi * one.width) for one in needs.details("pipe_flashing")]
    cuts = sum(lap.length for lap in ends) + sum(one.width for one in feet)
    cuts += sum(length for _, length in corners) + sum(length for _, length in pipes)
    drains = membrane_drains(needs)
    edge_width, height = needs.rules.cap_back_from_edge_ticks / TICKS, default("caulk_edge_height")
    volume = bead(needs, edge, edge_width, height)
    volume += bead(needs, cuts, default("caulk_cut_width"), default("caulk_cut_height"))
    wanted = volume / default("caulk_tube") + len(drains) * default("caulk_drain")
    if wanted <= 0.0:
        return
    units = needs.units
    told = ((edge, "of bead along metal"), (cuts, "of bead on cut edges"))
    beads = ", ".join(f"{units.length(long)} {where}" for long, where in told if long > 0)
    tubes = f"{units.volume(volume)} in tubes of {units.volume(default('caulk_tube'))}"
    around = counted(len(drains), "drain") if drains else ""
    basis = f"{', '.join(part for part in (beads, around) if part)}: {tubes}"
    rate = given_or_default(needs, "caulk", "caulk_cut_width")[1]
    ids = (*ids_of(metal), *(lap.id for lap in ends), *(id for id, _ in corners), *ids_of(feet))
    ids += (*(id for id, _ in pipes), *drains)
    yield Want("caulk, in tubes", "caulk", wanted, "tube", basis, ids, rate, price_key="caulk")


def bead(needs: Needs, length: float, width: float, height: float) -> float:
    """Volume of a bead [m³]; where the job gives a coverage, that of its width.  Source: arithmetic"""
    given = needs.coverage.get("caulk")
    return length * width * height if given is None else length * width / given


def corner_lengths(piece: Piece) -> float:
    """Length of the cut edges at a piece's corners [m].  Source: arithmetic"""
    return sum(math.hypot(cut.along, cut.across) for cut in piece.corner_cuts) / TICKS
