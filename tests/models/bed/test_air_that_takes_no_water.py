"""Air that leaves as dry as it came takes heat and no water; drier than it came it cannot leave."""

import pytest

from calculators.models.bed.air import bed_air
from calculators.models.bed.humid_air import moist_air
from calculators.models.bounds import OutOfRange

ON = moist_air(temp_c=14.0, relative_humidity=60.0, pressure_pa=101325.0)


def test_air_may_take_no_water_but_leave_none() -> None:
    off = moist_air(temp_c=16.5, relative_humidity=50.0, pressure_pa=101325.0)
    assert bed_air(air_on=ON, air_off=off._replace(humidity_ratio=ON.humidity_ratio)).water_kg == 0.0
    with pytest.raises(OutOfRange):
        bed_air(air_on=ON, air_off=off._replace(humidity_ratio=ON.humidity_ratio - 1e-9))
