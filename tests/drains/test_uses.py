"""The tables of keys that checks may read hold every key that one did read."""

from __future__ import annotations

from collections.abc import Mapping
from fnmatch import fnmatchcase

import pytest
from drainroofs import BOX, area

from lapwright.deck import flashings, pallets
from lapwright.deck.flashings import check_flashing_heights
from lapwright.defaults.rules import make_rules
from lapwright.drains import capacity, overflow, slope
from lapwright.drains.capacity import check_drainage
from lapwright.drains.overflow import check_overflow
from lapwright.drains.slope import check_slope
from lapwright.fasten import basesheet, edgemetal
from lapwright.fasten.edgemetal import check_edge_metal
from lapwright.roof.values import Drain
from lapwright.verdict import Check
from lapwright.wind import uplift
from lapwright.wind.values import Building

TABLES: Mapping[str, tuple[str, ...]] = {
    **capacity.USES,
    **overflow.USES,
    **slope.USES,
    **flashings.USES,
    **pallets.USES,
    **edgemetal.USES,
    **basesheet.USES,
    **uplift.USES,
}
DRAINS = (
    Drain("D", "drain", at=(0, 0), diameter=0.1),
    Drain("S", "scupper", side=1, from_start=3.0, width=0.3, height=0.1),
    Drain("G", "gutter", side=1, width=0.2, outlets=2),
    Drain("OD", "overflow_drain", at=(0, 0), diameter=0.1, sill=0.05),
    Drain("OS", "overflow_scupper", side=1, from_start=3.0, width=0.3, height=0.1, sill=0.05),
)


def every_check() -> list[Check]:
    """All checks of a roof with every kind of way out, one side open."""
    roofs = [area(BOX, kinds, drains=DRAINS) for kinds in (4 * ["parapet"], ["metal_edge", *3 * ["wall"]])]
    return [
        check
        for roof in roofs
        for check in (
            *check_slope([roof], work="new"),
            *check_drainage([roof], rain_primary=1e-5),
            *check_overflow([roof], make_rules({}), rain_secondary=2e-5),
            *check_flashing_heights([roof], make_rules({})),
            *check_edge_metal([roof], Building()),
        )
    ]


@pytest.mark.parametrize("check", every_check(), ids=lambda check: check.id)
def test_every_key_read_stands_in_a_table(check: Check) -> None:
    """A key fits a pattern of the check's own row, brackets taken as they stand."""
    patterns = [key for id, keys in TABLES.items() if fnmatchcase(check.id, id) for key in keys]
    written = [pattern.replace("[*]", "[[]*]") for pattern in patterns]
    assert check.uses
    assert [key for key in check.uses if not any(fnmatchcase(key, each) for each in written)] == []
