"""Cant strip, granules, and what drains, scuppers, pipes and expansion joints ask for besides sheets."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.layout.values import Detail
from lapwright.order.lines import Needs, Want, counted, default, fasten_row, ids_of, origin
from lapwright.roof.falls import area_m2
from lapwright.units.factors import TICKS_PER_METRE


def want_cant(needs: Needs) -> Iterator[Want]:
    """Cant strip along every flashed face.

    Source: defaults/coverage.csv cant_* [common practice, no source]
    Checked: tests/order/test_order_rest.py
    """
    cants = needs.details("cant")
    if not cants:
        return
    total, faces = sum(one.length for one in cants), {(one.area, one.of) for one in cants}
    long, extra = default("cant_length"), default("cant_extra")
    along = f"{needs.units.length(total)} along {counted(len(faces), 'face')}, mitres in it,"
    basis = f"{along} and {extra:.0%}, lengths of {needs.units.length(long)}"
    yield Want("cant strip", "cant", total * (1.0 + extra) / long, "length", basis, ids_of(cants), origin("cant_extra"))


def want_granules(needs: Needs) -> Iterator[Want]:
    """Loose granules for the beads and bleed-out of a granule-surfaced cap.

    Source: defaults/coverage.csv granule_bag [common practice, no source]
    Checked: tests/order/test_order_rest.py
    """
    top = needs.assembly.plies[-1]
    if top.sheet.surfacing != "granules":
        return
    area, each = sum(area_m2(area, on_slope=True) for area in needs.areas), default("granule_bag")
    joints = [joint for joint in needs.layout.tjoints if joint.ply == top.ply]
    ends = [lap for lap in needs.layout.laps if lap.ply == top.ply and lap.kind == "end"]
    said = f"{counted(len(joints), 'T-joint')} and {counted(len(ends), 'end lap')}"
    basis = f"{needs.units.squares(area)} of cap with {said}, one bag for {needs.units.squares(each)}"
    ids = (*(joint.id for joint in joints), *(lap.id for lap in ends))
    yield Want("granules", "granules", area / each, "bag", basis, ids, origin("granule_bag"), price_key="granules")


def want_drain_parts(needs: Needs) -> Iterator[Want]:
    """A sump by its size and a square of metal for each drain in the field; a metal for each scupper, by its size.

    Source: defaults/coverage.csv drain_metal [common practice, no source]
    Checked: tests/order/test_order_rest.py
    """
    sumps: dict[tuple[float, float], list[Detail]] = {}
    for one in needs.details("sump"):
        sumps.setdefault((one.length, one.width), []).append(one)
    for sides, own in sorted(sumps.items()):
        said = " by ".join(needs.units.width(round(side * TICKS_PER_METRE)) for side in sides)
        basis = "one for each drain in the field, sloped down to it from all sides"
        yield Want(f"drain sump, {said}", "details", float(len(own)), "piece", basis, ids_of(own))
    drains = needs.details("drain_metal")
    if drains:
        side = needs.units.length(default("drain_metal"))
        basis = f"{side} by {side} at each drain, set in mastic on the base, primed on both faces"
        wanted, ids = float(len(drains)), ids_of(drains)
        yield Want("drain metal, lead or copper", "details", wanted, "piece", basis, ids, origin("drain_metal"))
    found: dict[tuple[float, float], list[Detail]] = {}
    for one in needs.details("scupper_metal"):
        found.setdefault((one.length, one.width), []).append(one)
    for (width, height), scuppers in sorted(found.items()):
        sizes = " by ".join(needs.units.width(round(size * TICKS_PER_METRE)) for size in (width, height) if size)
        words = f"scupper with flange, {sizes}" if sizes else "scupper with flange, size not given"
        yield Want(words, "details", float(len(scuppers)), "piece", "one for each scupper", ids_of(scuppers))


def want_pipe_parts(needs: Needs) -> Iterator[Want]:
    """A flashing with its clamp for each pipe, by diameter.

    Source: counted
    Checked: tests/order/test_order_rest.py
    """
    found: dict[int, list[Detail]] = {}
    for one in needs.details("pipe_flashing"):
        found.setdefault(round(one.width * TICKS_PER_METRE), []).append(one)
    for diameter, pipes in sorted(found.items()):
        words = f"pipe flashing with clamp, {needs.units.width(diameter)}"
        yield Want(words, "details", float(len(pipes)), "piece", "one for each pipe", ids_of(pipes))


def want_covers(needs: Needs) -> Iterator[Want]:
    """Covers of expansion joints in lengths, whole ones for each straight run.

    Source: common practice, no source
    Checked: tests/order/test_order_rest.py
    """
    covers = needs.details("expansion_cover")
    if covers:
        long, rate = fasten_row("metal_length")
        total, runs = sum(one.length for one in covers), {(one.area, one.of) for one in covers}
        said = f"{needs.units.length(total)} in {counted(len(runs), 'straight run')}"
        basis = f"{said}, lengths of {needs.units.length(long)}"
        ids, whole = ids_of(covers), len(covers)
        yield Want("expansion joint cover", "details", total / long, "length", basis, ids, rate, whole)
