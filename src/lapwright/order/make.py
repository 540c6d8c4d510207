"""The order of a whole job (Q2)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lapwright.assembly.values import Assembly
from lapwright.defaults.values import Rules
from lapwright.layout.values import Layout
from lapwright.order.lines import NO_VALUES, Needs, make_line
from lapwright.order.metalwork import want_metal, want_nails
from lapwright.order.rest import want_cant, want_covers, want_drain_parts, want_granules, want_pipe_parts
from lapwright.order.rolls import want_rolls
from lapwright.order.values import OrderLine
from lapwright.order.wet import want_caulk, want_mastic, want_primer
from lapwright.roof.values import Area
from lapwright.units.write import Units

WANTS = (
    want_rolls,
    want_primer,
    want_mastic,
    want_caulk,
    want_metal,
    want_nails,
    want_cant,
    want_granules,
    want_drain_parts,
    want_pipe_parts,
    want_covers,
)


def make_order(
    areas: Sequence[Area],
    assembly: Assembly,
    layout: Layout,
    rules: Rules,
    *,
    coverage: Mapping[str, float] = NO_VALUES,
    prices: Mapping[str, float] = NO_VALUES,
    cold: bool = False,
    units: Units | None = None,
) -> tuple[OrderLine, ...]:
    """Everything to order, each line traced to what needs it.

    Args:
        coverage: of primer, mastic, caulk [m²/m³], where the job gives it, by name.
        prices: for each roll by sheet; for each pail, tube, length, box or bag by group (lines.PRICED).
        cold: the job's hours ask for warm rolls or heat.
        units: of the arithmetic in words; US where not given.

    Source: common practice, no source; each line carries its own
    Checked: tests/order/test_order_make.py
    """
    needs = Needs(tuple(areas), assembly, layout, rules, units or Units("us"), coverage, cold)
    return tuple(make_line(want, prices) for make in WANTS for want in make(needs))
