"""Ranges that the model of the steep was made for; who only names one need not import the model."""

from ..bounds import Bounds

WATER_TEMP_C = Bounds(2.0, 30.0)
TEMP_REASON = "The temperature law was made for steeping water; above 30 °C barley is harmed."
STAGE_HOURS = Bounds(0.25, 72.0)
STAGES = Bounds(1, 20)
CORN_WEIGHT = Bounds(20.0, 70.0)
RATE_FACTOR = Bounds(0.25, 4.0)
