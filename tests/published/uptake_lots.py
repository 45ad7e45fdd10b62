"""Published water uptake of eight lots of barley kept under water: see ``calculators.plates.lots``."""

from calculators.plates.lots import EIGHT_LOTS as MOISTURE
from calculators.plates.lots import HOURS, SITE_YEARS, START_MOISTURE, WATER_TEMP_C

__all__ = ["HOURS", "MOISTURE", "SITE_YEARS", "START_MOISTURE", "WATER_TEMP_C"]
