"""Pictures that pages show beside the sheets, computed by the models when the site is built.

A page names one by a fenced block ``figure``. A new one is a function that gives a
:class:`Plate`, and a line in :data:`PLATES`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple
from xml.etree.ElementTree import Element

from ..asking.declare import Picture
from ..drawing.chart import Data
from ..drawing.elements import add
from ..drawing.pictures import data_of, draw
from ..drawing.results import numbers_table
from ..rules.gases import CO2, PH3
from . import corn, corn_stages, gas, heat, uptake, week, weights


class Plate(NamedTuple):
    """A picture with its words: a chart as data or a ready drawing, or a table alone."""

    caption: str
    chart: Picture | None = None
    drawing: Element | None = None
    table: Data | None = None


def _rings() -> Plate:
    drawn = corn.rings()
    return Plate(drawn.caption, drawing=drawn.svg, table=drawn.data)


def _lot(name: str) -> Callable[[], Plate]:
    def plate() -> Plate:
        chart = uptake.chart_of(name)
        return Plate(chart.summary, chart=chart)

    return plate


def _shut_drum() -> Plate:
    chart = gas.shut_drum()
    return Plate(chart.summary, chart=chart)


def _limits(name: str) -> Callable[[], Plate]:
    words = f"Published values for {name.replace('-', ' ')}: rooms where people work, never a vessel"
    return lambda: Plate(words, table=gas.limits_table(name))


PLATES: dict[str, Callable[[], Plate]] = {
    "corn-rings": _rings,
    "corn-stages": lambda: Plate(corn_stages.CAPTION, chart=corn_stages.stages()),
    "fan-stopped": lambda: Plate(heat.STOPPED_CAPTION, table=heat.stopped()),
    "heat-by-day": lambda: Plate(heat.BY_DAY_CAPTION, table=heat.by_day()),
    "heat-one-steep": lambda: Plate(heat.ONE_STEEP_CAPTION, table=heat.one_steep_table()),
    "heat-one-grain": lambda: Plate(heat.ONE_GRAIN_CAPTION, table=heat.one_grain_table()),
    "heat-shares": lambda: Plate(heat.SHARES_CAPTION, table=heat.shares()),
    "green-malt": lambda: Plate(weights.GREEN_MALT_CAPTION, table=weights.green_malt()),
    "week-walked": lambda: Plate(week.WALKED_CAPTION, table=week.walked()),
    "uptake-errors": lambda: Plate(uptake.ERRORS_CAPTION, table=uptake.errors()),
    "uptake-ends": lambda: Plate(uptake.ENDS_CAPTION, table=uptake.ends()),
    "uptake-checks": lambda: Plate(uptake.CHECKS_CAPTION, table=uptake.checks()),
    "uptake-hours": lambda: Plate(uptake.HOURS_CAPTION, table=uptake.hours()),
    "shut-drum": _shut_drum,
    "shut-drum-times": lambda: Plate(gas.TIMES_CAPTION, table=gas.shut_drum_times()),
    "oxygen-meter": lambda: Plate(gas.OXYGEN_CAPTION, table=gas.oxygen_meter()),
    "gas-made": lambda: Plate(gas.MADE_CAPTION, table=gas.gas_made()),
    **{f"limits-{name}": _limits(name) for name in (CO2, PH3)},
    **{f"uptake-{uptake.id_of(name)}": _lot(name) for name in uptake.LOTS},
}


def picture_of(name: str) -> Element:
    """The picture of a plate alone, an ``svg`` element.

    Raises
    ------
    KeyError
        When there is no such plate, or it has no picture.
    """
    plate = PLATES[name]()
    if plate.chart is not None:
        return draw(plate.chart, name)
    if plate.drawing is None:
        raise KeyError(name)
    return plate.drawing


def plate_of(name: str) -> Element:
    """The HTML of a plate, ready to stand in a page.

    Parameters
    ----------
    name : str
        A key of :data:`PLATES`.

    Returns
    -------
    xml.etree.ElementTree.Element
        A ``figure`` with the picture, its caption and its numbers under a disclosure; or a table.

    Raises
    ------
    KeyError
        When there is no such plate.
    """
    plate = PLATES[name]()
    if plate.chart is None and plate.drawing is None:
        assert plate.table is not None
        box = Element("div", {"class": "plate"})
        numbers_table(box, plate.caption, plate.table)
        return box
    figure = Element("figure", {"class": "drawing plate"})
    figure.append(picture_of(name))
    add(figure, "figcaption", text=plate.caption)
    data = data_of(plate.chart) if plate.chart is not None else plate.table
    if data is not None:
        shut = add(figure, "details", "data")
        add(shut, "summary", text="The numbers")
        numbers_table(shut, plate.chart.title if plate.chart is not None else plate.caption, data)
    return figure
