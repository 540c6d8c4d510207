"""The collector while a roof is laid out."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest

from lapwright.layout.uncollected import uncollected


@pytest.fixture(autouse=True)
def _as_it_was() -> Iterator[None]:
    """Whatever a test does, the collector goes on afterwards."""
    gc.enable()
    yield
    gc.enable()


def test_the_collector_rests_inside_and_goes_on_afterwards() -> None:
    """It is off within, and on again once that is left."""
    with uncollected():
        assert not gc.isenabled()
    assert gc.isenabled()


def test_the_collector_goes_on_after_an_error() -> None:
    """A roof that is refused leaves it on."""
    with pytest.raises(ValueError, match="refused"), uncollected():
        raise ValueError("refused")
    assert gc.isenabled()


def test_a_collector_that_was_off_stays_off() -> None:
    """Neither an inner use nor somebody else's switch is undone."""
    gc.disable()
    with uncollected():
        pass
    assert not gc.isenabled()
