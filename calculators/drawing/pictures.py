"""Any picture that a sheet gives, as a drawing and as a table of its numbers."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from ..asking.declare import Bars, Drawing, Picture, Spans
from . import chart, chart_bars, chart_spans, drawn
from .chart import Data


def draw(picture: Picture, prefix: str) -> Element:
    """The drawing, an ``svg`` element; ``prefix`` begins the ids inside it."""
    if isinstance(picture, Spans):
        return chart_spans.draw(picture, prefix)
    if isinstance(picture, Bars):
        return chart_bars.draw(picture, prefix)
    if isinstance(picture, Drawing):
        return drawn.draw(picture, prefix)
    return chart.draw(picture, prefix)


def data_of(picture: Picture) -> Data:
    """The numbers of a picture, for those who would rather read."""
    if isinstance(picture, Spans):
        return chart_spans.data_of(picture)
    if isinstance(picture, Bars):
        return chart_bars.data_of(picture)
    if isinstance(picture, Drawing):
        return Data(picture.headings, picture.rows)
    return chart.data_of(picture)
