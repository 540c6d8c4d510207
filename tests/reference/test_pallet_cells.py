"""Pallets as blocks: the product of three walls against a block of cells."""

import pytest
from block_cells import warm_block

from lapwright.heat.block import block


@pytest.mark.parametrize(("side", "top", "bottom"), [(5.0, 8.0, 2.0), (8.0, 8.0, 8.0), (12.0, 12.0, 0.5)])
def test_cells_warm_as_the_product_does(side: float, top: float, bottom: float) -> None:
    """Hours of the coldest place within a hundredth; mean and coldest after a day within a quarter of a kelvin."""
    size, heat = (1.13, 1.13, 1.0), 0.785 * 1.635e6
    hours, mean_c, coldest_c = warm_block(
        size, conductivity=0.19, heat=heat, side=side, top=top, bottom=bottom, start_c=-6.7, air_c=21.1, until_c=10.0
    )
    exact = block(size, conductivity=0.19, volumetric_heat=heat, side_w_m2k=side, top_w_m2k=top, bottom_w_m2k=bottom)
    left = 11.1 / 27.8
    assert exact.seconds_until(left, mean=False) == pytest.approx(hours * 3600, rel=0.01)
    assert 21.1 - 27.8 * exact.mean_left(86400) == pytest.approx(mean_c, abs=0.25)
    assert 21.1 - 27.8 * exact.last_left(86400) == pytest.approx(coldest_c, abs=0.25)
