"""Ranges of the sums on gas in a shut vessel; who only names one need not import the sums."""

from ..bounds import Bounds

DAY = Bounds(0.0, 10.0)
GRAIN_TEMP_C = Bounds(2.0, 40.0)
