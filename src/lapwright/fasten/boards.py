"""Boards under the sheets: fasteners in a board or ribbons of adhesive, zone by zone, and what each must hold (Q3).

The load on one fastener is that of an even share of its board: where in the board it sits is the report's word.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from lapwright.assembly.values import Assembly, Board, BoardFastening
from lapwright.defaults.si import default_number, default_si
from lapwright.fasten.basesheet import zones_of
from lapwright.fasten.nails import HAIR
from lapwright.fasten.values import FastenerNeed
from lapwright.roof.values import Area
from lapwright.units.write import Units
from lapwright.verdict import Check, Reading, Step, judged
from lapwright.wind.case import CASE_KEYS, EDITION, lowest_parapet, read_case, with_edition
from lapwright.wind.levels import Level, levels
from lapwright.wind.values import Building, ZonePressure
from lapwright.wind.zonemap import level_pressures

SOURCE = (
    f"arithmetic: the board's even share of the working-level pressure of {EDITION} [coefficients from memory]; the "
    "value of one fastener or ribbon only from the assembly's test report"
)
CONFIRM = "the maker for the listed pattern; the engineer of record"
BOARDS = ("insulation", "cover_board")
WORDS = {"insulation": "Insulation", "cover_board": "Cover board"}
BOARD_KEYS = (
    "assembly.*.attachment",
    "assembly.*.fastening.board",
    "assembly.*.fastening.per_board.*",
    "assembly.*.fastening.value",
    "assembly.*.fastening.ribbons.*",
    "assembly.*.fastening.ribbon_value",
    *CASE_KEYS,
)
USES: Mapping[str, tuple[str, ...]] = {
    "fasten.boards-*": BOARD_KEYS,
    "fasten.boards-*-3*": (*BOARD_KEYS, "roof[*].edges[*].kind", "roof[*].edges[*].height"),
}


@dataclass(frozen=True, slots=True)
class _Place:
    """A kind of board in one zone of one level."""

    what: str
    board: Board
    zone: str
    level: Level
    zone_m2: float


def check_boards(areas: Sequence[Area], building: Building, assembly: Assembly | None) -> tuple[Check, ...]:
    """One check for each zone of each kind of board that is fastened or stuck with ribbons, as far as that is given.

    Boards without a `fastening` have no check: the listing of the whole assembly answers for them.
    Source: arithmetic: pressure times the board's share
    Checked: tests/published/fasten.csv board-*
    """
    found = levels(areas, building)
    return tuple(
        _check(_Place(what, board, zone, level, m2), building, several=len(found) > 1)
        for what, board in _held(assembly)
        for level in found
        for zone, m2 in zones_of(level, building).items()
    )


def board_needs(
    areas: Sequence[Area], building: Building, assembly: Assembly, units: Units
) -> tuple[FastenerNeed, ...]:
    """Fasteners of boards, or the length of ribbons, to order by zone; only zones whose pattern is given.

    Source: arithmetic
    Checked: tests/fasten/test_boards.py
    """
    found: dict[str, FastenerNeed] = {}
    for what, board in _held(assembly):
        for level in levels(areas, building):
            for zone, m2 in zones_of(level, building).items():
                for need in () if math.isnan(m2) else _needs(_Place(what, board, zone, level, m2), units):
                    before = found.get(need.item)
                    found[need.item] = need if before is None else _both(before, need)
    return tuple(found.values())


def least_by_rule(field_per_board: int, board_m2: float, *, place: str) -> int:
    """Fasteners in a board of the perimeter or the corner by an insurer's rule of thumb on the field's.

    place: perimeter or corner.  Holds for: field classes up to 75 (later editions 90), outside hurricane regions: the
        zones' own pressures go before it.
    Source: Insurer's data sheet 1-29, editions 2006 and 2007, told by Professional Roofing 847 and 1026
    Checked: tests/published/fasten.csv rule-*
    """
    more = field_per_board * default_number("fasten", f"increase_{place}")
    least = board_m2 / default_si("fasten", f"least_{place}")
    return math.ceil(max(more, least) - HAIR)


def fastener_load_n(pressure_pa: float, board_m2: float, per_board: int) -> float:
    """Load on one fastener of a board [N]: its even share of the board's uplift.

    Source: arithmetic
    Checked: tests/published/fasten.csv board-*
    """
    return abs(pressure_pa) * board_m2 / per_board


def _held(assembly: Assembly | None) -> Iterator[tuple[str, Board]]:
    for what in BOARDS if assembly is not None else ():
        board = getattr(assembly, what)
        if board is not None and board.fastening is not None:
            yield what, board


def _check(place: _Place, building: Building, *, several: bool) -> Check:
    level, zone = place.level, place.zone
    id = f"fasten.boards-{place.what}-{zone}{level.tag}"
    at = f" of {level.names}" if level.tag else ""
    title = f"{WORDS[place.what]}{at}, zone {zone}: load on what holds it"
    reading = Reading()
    reading.take(f"assembly.{place.what}.attachment", place.board.attachment)
    held = place.board.fastening or BoardFastening()
    is_stuck = _is_stuck(place.board)
    if not reading.missing:
        _read(reading, f"assembly.{place.what}.fastening", held, zone, is_stuck=is_stuck)
    read_case(reading, building, level)
    if zone == "3":
        lowest_parapet(reading, level, several=several)
    pressures = level_pressures(level, building, several=several)
    if reading.missing or pressures is None:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    pressure = pressures.zones[zone]
    demand, capacity, steps = (_ribbon if is_stuck else _screw)(held, zone, pressure)
    return Check(
        id=id,
        title=title,
        status=judged(demand, capacity),
        demand=demand,
        capacity=capacity,
        unit="N/m" if is_stuck else "N",
        steps=steps,
        source=with_edition(SOURCE, building),
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _is_stuck(board: Board) -> bool:
    return board.attachment == "adhered"


def _read(reading: Reading, key: str, held: BoardFastening, zone: str, *, is_stuck: bool) -> None:
    if is_stuck:
        reading.take(f"{key}.ribbons.{zone}", held.ribbons.get(zone))
        reading.take(f"{key}.ribbon_value", held.ribbon_value_n_m)
        return
    reading.take(f"{key}.board", held.board_m2)
    reading.take(f"{key}.per_board.{zone}", held.per_board.get(zone))
    reading.take(f"{key}.value", held.value_n)


def _screw(held: BoardFastening, zone: str, pressure: ZonePressure) -> tuple[float, float, tuple[Step, ...]]:
    board, count, value = held.board_m2 or 0.0, held.per_board[zone], held.value_n or 0.0
    load = fastener_load_n(pressure.asd_pa, board, count)
    needed = math.ceil(abs(pressure.asd_pa) * board / value - HAIR)
    steps = [
        Step(
            text=f"Load on one fastener of a board in zone {zone}, an even share, working level (ASD)",
            formula="|p| x board / fasteners",
            values={"p [Pa]": pressure.asd_pa, "board [m2]": board, "fasteners": count},
            result=load,
            unit="N",
        ),
        Step(
            text="Fasteners that a board needs here at the value given",
            formula="ceil(|p| x board / value)",
            values={"value [N]": value},
            result=float(needed),
            unit="",
        ),
    ]
    place, field = {"2": "perimeter", "3": "corner"}.get(zone), held.per_board.get("1")
    if place is not None and field is not None:
        steps.append(
            Step(
                text=f"Beside it, an insurer's rule of 2006 for the {place} on the field's {field}, where its class "
                "allows that: the zone's own pressure goes before it",
                result=float(least_by_rule(field, board, place=place)),
                unit="",
            )
        )
    return load, value, tuple(steps)


def _ribbon(held: BoardFastening, zone: str, pressure: ZonePressure) -> tuple[float, float, tuple[Step, ...]]:
    spacing, value = held.ribbons[zone], held.ribbon_value_n_m or 0.0
    load = abs(pressure.asd_pa) * spacing
    widest = value / abs(pressure.asd_pa)
    return (
        load,
        value,
        (
            Step(
                text=f"Load along a ribbon in zone {zone}, working level (ASD)",
                formula="|p| x spacing",
                values={"p [Pa]": pressure.asd_pa, "spacing [m]": spacing},
                result=load,
                unit="N/m",
            ),
            Step(
                text="Widest spacing of ribbons here at the value given",
                formula="value / |p|",
                values={"value [N/m]": value},
                result=widest,
                unit="m",
            ),
        ),
    )


def _both(one: FastenerNeed, other: FastenerNeed) -> FastenerNeed:
    """The same zone of two levels as one."""
    return replace(one, amount=one.amount + other.amount, basis=f"{one.basis}; {other.basis}")


def _needs(place: _Place, units: Units) -> Iterator[FastenerNeed]:
    held, zone = place.board.fastening or BoardFastening(), place.zone
    name = WORDS[place.what].lower()
    if _is_stuck(place.board):
        spacing = held.ribbons.get(zone)
        if spacing is not None:
            basis = f"zone {zone}, {units.area(place.zone_m2)}: ribbons at {units.length(spacing)}"
            yield FastenerNeed("ribbon", f"adhesive ribbons, {name}, zone {zone}", zone, place.zone_m2 / spacing, basis)
        return
    count = held.per_board.get(zone)
    if count is not None and held.board_m2 is not None:
        boards = math.ceil(place.zone_m2 / held.board_m2 - HAIR)
        basis = (
            f"zone {zone}, {units.area(place.zone_m2)}: {boards} boards of {units.area(held.board_m2)}, {count} in each"
        )
        yield FastenerNeed("screws", f"fasteners, {name}, zone {zone}", zone, float(boards * count), basis)
