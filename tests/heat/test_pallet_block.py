"""What stacking does to the hours in the warm store."""

from dataclasses import replace

from lapwright.heat.store import StoreAsk, store_clock

COLD = StoreAsk(-6.7, 21.1, 10.0, 0.004, 10.0, "pallet")


def test_a_wrapped_pallet_needs_days_and_spaced_rolls_hours() -> None:
    """About six days against ten hours: the customary day fails for a pallet."""
    wrapped, spaced = store_clock(COLD), store_clock(replace(COLD, wrapping="spaced"))
    assert wrapped.core_s is not None
    assert spaced.core_s is not None
    assert 5 * 86400 < wrapped.core_s < 7 * 86400
    assert wrapped.core_s > 10 * spaced.core_s
    assert wrapped.core_after_24h_c < -6.5


def test_spaced_rolls_of_a_pallet_are_single_rolls() -> None:
    """Each by itself."""
    assert store_clock(replace(COLD, wrapping="spaced")).core_s == store_clock(replace(COLD, stack="single")).core_s


def test_a_store_colder_than_the_limit_never_gets_there() -> None:
    """None, and the steps say never."""
    clock = store_clock(replace(COLD, store_c=9.0))
    assert (clock.core_s, clock.mean_s) == (None, None)
    assert [step.result for step in clock.steps].count("never") == 2


def test_warm_rolls_need_no_time() -> None:
    """Carried in at the limit."""
    assert store_clock(replace(COLD, cold_c=12.0)).core_s == 0.0
