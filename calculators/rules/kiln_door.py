"""What a batch has usually lost by the kiln's door."""

from ..models.bounds import Bounds

LOST = Bounds(3.0, 6.0)
"""Dry matter leached, breathed and rubbed off by then, least and most, % of the barley's: common practice. Thomson 1824
has 1.5 + 3.0 (read)."""
