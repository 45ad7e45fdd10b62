"""Published water uptake of four lots of barley kept under water: see ``calculators.plates.lots``."""

from calculators.plates.lots import HOURS, MOISTURE, START_MOISTURE, WATER_TEMP_C, WEIGHT_PERCENT

__all__ = ["HOURS", "MOISTURE", "START_MOISTURE", "WATER_TEMP_C", "WEIGHT_PERCENT"]
