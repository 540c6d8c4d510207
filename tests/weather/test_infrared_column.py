"""Clark and Allen's sky against the infrared column of a real weather file.

`denver_rows.csv` holds every 29th hourly row (303 of 8760, seven of the 35 columns) of the typical year of Denver
International Airport, TMY3 data set of the National Renewable Energy Laboratory, 2008 (United States government data),
EPW file USA_CO_Denver.Intl.AP.725650_TMY3 as the package ochre-nrel 0.9.2 (BSD-3) carries it.  Such columns are
reckoned from dew point and opaque cover by the same model, by others, so that they check the arithmetic.
"""

import csv
from pathlib import Path

import numpy as np

from lapwright.heat.sky import clark_allen_emissivity, sky_radiation_w_m2


def test_the_sky_is_that_of_the_file() -> None:
    """Within 0.5 W/m² in the mean and 1 W/m² in any hour, winter and summer, clear and overcast, day and night."""
    with (Path(__file__).parent / "denver_rows.csv").open(encoding="utf-8", newline="") as stream:
        rows = [{name: float(cell) for name, cell in row.items()} for row in csv.DictReader(stream)]
    air, dew, cover, infrared = (
        np.array([row[name] for row in rows]) for name in ("air_c", "dew_point_c", "opaque_tenths", "infrared_w_m2")
    )
    apart = sky_radiation_w_m2(air, clark_allen_emissivity(dew, cover / 10)) - infrared
    assert len(rows) == 303
    assert (air.min() < -10, air.max() > 30, cover.min(), cover.max()) == (True, True, 0.0, 10.0)
    assert abs(apart.mean()) < 0.5
    assert np.abs(apart).max() < 1.0
