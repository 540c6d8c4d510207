"""A row of the store's table: the coldest place of rolls that come at several temperatures."""

import pytest

from lapwright.heat.store import StoreAsk, core_times_s
from lapwright.units.anything import quantity_si

F20, F49, F70, F50, F65 = (quantity_si(f"{each} F") for each in (20, 49, 70, 50, 65))


def ask(until_c: float, **ways: object) -> StoreAsk:
    """Rolls of 10 m of 4 mm in a store of 70 °F."""
    return StoreAsk(0.0, F70, until_c, 0.004, 10.0, **ways)  # type: ignore[arg-type]  # plain texts of the ways


@pytest.mark.parametrize(
    ("ways", "hours", "off"),
    [
        ({"stack": "single"}, 10.3, 0.2),
        ({"stack": "single", "fans": True}, 9.3, 0.05),
        ({"stack": "pallet", "wrapping": "opened", "fans": True}, 15, 0.5),
        ({"stack": "pallet"}, 150, 12),
        ({"stack": "pallet", "rows": 3, "columns": 3}, 71, 3),
    ],
)
def test_hours_of_the_research_note(ways: dict[str, object], hours: float, off: float) -> None:
    """From 20 to 50 °F: as rows store-* of tests/published/rolls.csv, from the research note named there."""
    assert core_times_s(ask(F50, **ways), (F20,))[0] == pytest.approx(3600 * hours, abs=3600 * off)


@pytest.mark.parametrize("stack", ["single", "pallet"])
def test_colder_rolls_take_longer(stack: str) -> None:
    """49, 20 °F to 50 °F; rolls that are warm enough as they come take no time; a store too cold never does it."""
    near, far, none = core_times_s(ask(F50, stack=stack), (F49, F20, F65))
    assert near is not None
    assert far is not None
    assert 0 < near < far
    assert none == 0.0
    assert core_times_s(ask(F70, stack=stack), (F20,)) == (None,)
