"""Charts are well-formed, labelled, clamped to their frame, and come with their numbers."""

from __future__ import annotations

import re
from xml.etree.ElementTree import fromstring, tostring

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.answer import answer
from calculators.asking.declare import Axis, Chart, Line
from calculators.drawing.chart import WIDTH, data_of, draw, hour_ticks, ticks
from tests.demo import RIGHT, SHEET


def demo_chart() -> Chart:
    chart = answer(SHEET, RIGHT).outcome.charts[0]  # type: ignore[union-attr]
    assert isinstance(chart, Chart)
    return chart


def test_the_picture_has_a_title_a_description_and_classes_but_no_styles():
    svg = draw(demo_chart(), "here")
    text = tostring(svg, encoding="unicode")
    assert fromstring(text).find("title").text == "A <course> & more"  # type: ignore[union-attr]
    assert svg.get("aria-labelledby") == "here-course-title here-course-desc"
    assert "style=" not in text and "fill=" not in text and "#" not in text
    classes = {element.get("class") for element in svg.iter()}
    assert {"line s1", "line s2", "band s1", "shade shade-1", "shade shade-2", "mark", "dot"} <= classes


def test_nothing_is_drawn_outside_the_paper():
    chart = demo_chart()._replace(y=Axis("Moisture", "%", 12.0, 20.0))
    svg = draw(chart, "x")
    height = float(svg.get("viewBox", "").split()[3])
    for element in svg.iter():
        for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", element.get("d", "")):
            assert 0 <= float(x) <= WIDTH and 0 <= float(y) <= height


def test_the_data_table_holds_what_is_drawn():
    data = data_of(demo_chart())
    assert data.headings == ("Time, h", "first, %", "second, %", "doubt, low, %", "doubt, high, %")
    assert data.rows[1] == ("1", "20.0", "18.0", "19.0", "21.0")
    assert data.rows[-1][:2] == ("2", "22.0 (reading)")


def test_a_long_curve_is_thinned_and_keeps_its_ends():
    xs = [n / 7 for n in range(1000)]
    data = data_of(Chart("c", "t", "s", Axis("x", decimals=2), Axis("y"), lines=(Line("l", xs, xs),)))
    assert len(data.rows) <= 26
    assert data.rows[0][0] == "0.00" and data.rows[-1][0] == f"{xs[-1]:.2f}"


@pytest.mark.parametrize("chart", [Chart("c", "t", "s", Axis("x"), Axis("y"))])
def test_an_empty_chart_still_draws(chart):
    assert draw(chart, "p").tag == "svg" and data_of(chart).rows == ()


@given(st.floats(-1e4, 1e4), st.floats(1e-2, 1e6))
def test_ticks_lie_within_the_limits_and_are_few(low, width):
    for make in (ticks, hour_ticks):
        found = make(low, low + width)
        assert len(found) <= 8 or make is hour_ticks
        assert all(low - 1e-6 * width <= t <= low + width * (1 + 1e-6) for t in found)


def test_hours_are_counted_as_people_count_them():
    assert hour_ticks(0, 48) == [0, 8, 16, 24, 32, 40, 48]
    assert hour_ticks(0, 20) == [0, 4, 8, 12, 16, 20]
