"""All checks of wind, fastening, drainage and deck on a roof of 100,000 sf with 60 curbs and 40 drains.

    python benchmarks/structure.py

Prints the processor's time of a first and of a second run; the target is half a second.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

from lapwright.assembly.values import Assembly, Board, BoardFastening, Deck, Nailing, Ply, Sheet
from lapwright.deck.flashings import check_flashing_heights
from lapwright.deck.pallets import check_pallets
from lapwright.deck.staging import staging_map
from lapwright.defaults.rules import make_rules
from lapwright.drains.capacity import check_drainage
from lapwright.drains.overflow import check_overflow
from lapwright.drains.places import check_places
from lapwright.drains.slope import check_slope
from lapwright.fasten.basesheet import check_base_nails
from lapwright.fasten.boards import check_boards
from lapwright.fasten.coldpull import check_cold_pull
from lapwright.fasten.edgemetal import check_edge_metal
from lapwright.fasten.edgetest import check_edge_tests
from lapwright.roof.values import Area, Drain, Edge, Metal, Opening
from lapwright.units.read import length_ticks, quantity_si
from lapwright.verdict import Check
from lapwright.wind.uplift import check_uplift
from lapwright.wind.values import Building

TARGET_S = 0.5
FOOT = length_ticks("1'")
METAL = Metal("galvanised", 24, quantity_si("5 in"), quantity_si("4 in"), 2.0, 3e3, 6e3, 0.08, 0.15, 300.0)
SHEET = Sheet("base", length_ticks('39 3/8"'), length_ticks("65'"), length_ticks('3"'), length_ticks('6"'))
ZONES = ("1'", "1", "2", "3")


def plane(name: str, low: int, falls: float, kinds: Sequence[str], number: int) -> Area:
    """A strip of 400 by 125 ft, half of a roof that falls to the valley in its middle, with 30 curbs and 20 drains."""
    corners = tuple((x * FOOT, y * FOOT) for x, y in ((0, low), (400, low), (400, low + 125), (0, low + 125)))
    edges = tuple(
        Edge(
            side + 1,
            kind,
            corners[side],
            corners[(side + 1) % 4],
            height=0.8 if kind == "parapet" else None,
            metal=METAL if kind == "metal_edge" else None,
            key=f"roof[{number}].edges[{side}]",
        )
        for side, kind in enumerate(kinds)
    )
    curbs = tuple(
        Opening(f"RTU-{number}-{k}", "curb", ((15 + 38 * (k % 10)) * FOOT, (low + 20 + 35 * (k // 10)) * FOOT),
                (8 * FOOT, 6 * FOOT), height=0.3)
        for k in range(30)
    )  # fmt: skip
    valley = low + (124 if falls > 0 else 1)
    drains = tuple(
        Drain(f"D-{number}-{k}", "drain", at=((10 + 20 * k) * FOOT, valley * FOOT), diameter=quantity_si("6 in"))
        for k in range(20)
    )
    overflows = tuple(
        Drain(f"O-{number}-{k}", "overflow_drain", at=((14 + 20 * k) * FOOT, valley * FOOT),
              diameter=quantity_si("6 in"), sill=0.05)
        for k in range(20)
    )  # fmt: skip
    return Area(name, corners, edges, (0.0, falls), 1 / 48, curbs, (), (*drains, *overflows), key=f"roof[{number}]")


AREAS = (
    plane("South", 0, 1.0, ("metal_edge", "parapet", "valley", "parapet"), 0),
    plane("North", 125, -1.0, ("valley", "parapet", "metal_edge", "parapet"), 1),
)
BUILDING = Building(quantity_si("30 ft"), "C", quantity_si("115 mph"), 2, "enclosed", "ASCE 7-22", 100.0)
ASSEMBLY = Assembly(
    plies=(
        Ply("base", SHEET, "mechanically_fastened", Nailing(0.2286, 0.2286, 2, 270.0)),
        Ply("cap", SHEET, "self_adhered"),
    ),
    deck=Deck("plywood", nailable=True, live_load_pa=quantity_si("20 psf"), snow_pa=0.0),
    insulation=Board("polyiso", 0.1, "mechanically_fastened", BoardFastening(3.0, dict.fromkeys(ZONES, 16), 700.0)),
    rated_uplift_pa={"all": quantity_si("120 psf")},
)
CHECKS: dict[str, Callable[[], Sequence[Check]]] = {
    "uplift": lambda: check_uplift(AREAS, BUILDING, ASSEMBLY),
    "edge metal": lambda: check_edge_metal(AREAS, BUILDING),
    "edge tests": lambda: check_edge_tests(AREAS, BUILDING),
    "cold pull": lambda: check_cold_pull(AREAS, ASSEMBLY),
    "nails": lambda: check_base_nails(AREAS, BUILDING, ASSEMBLY),
    "boards": lambda: check_boards(AREAS, BUILDING, ASSEMBLY),
    "slope": lambda: check_slope(AREAS, work="new"),
    "places": lambda: check_places(AREAS),
    "capacity": lambda: check_drainage(AREAS, rain_primary=quantity_si("4 in/h")),
    "overflow": lambda: check_overflow(AREAS, make_rules({}), rain_secondary=quantity_si("7 in/h")),
    "pallets": lambda: check_pallets(ASSEMBLY.deck, [SHEET]),
    "flashings": lambda: check_flashing_heights(AREAS, make_rules({})),
}


def main() -> None:
    """Time each kind of check twice."""
    for run in ("first", "second"):
        whole, count = 0.0, 0
        for name, make in CHECKS.items():
            before = time.process_time()
            count += len(make())
            took = time.process_time() - before
            whole += took
            print(f"{run:7}{name:12}{took * 1000:8.1f} ms")
        print(f"{run:7}{'all':12}{whole * 1000:8.1f} ms, {count} checks; target {TARGET_S * 1000:.0f} ms")
    before = time.process_time()
    staging_map(AREAS, ASSEMBLY.deck, rolls=1200)
    print(f"staging spots, for the drawing {(time.process_time() - before) * 1000:.1f} ms")


if __name__ == "__main__":
    main()
