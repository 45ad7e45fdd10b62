"""The pictures of intervals and of bars, and tables with fixed rows."""

from __future__ import annotations

from xml.etree.ElementTree import Element

import pytest

from calculators.asking.declare import Axis, Bar, Bars, Drawing, Number, Shape, Span, Spans, Table, Written
from calculators.asking.reading import read
from calculators.drawing import chart_bars
from calculators.drawing.elements import html
from calculators.drawing.form import draw_question
from calculators.drawing.pictures import data_of, draw

SPANS = Spans(
    "shares",
    "Shares",
    "What they show.",
    Axis("Corns", "%", low=0, high=100, decimals=1),
    (Span("energy", 98.0, 95.0, 99.5, 95.0), Span("over", 3.0, 0.6, 8.5, 10.0, "below"), Span("wet", 88.0, 80.0, 93.0)),
)
BARS = Bars(
    "days",
    "Days",
    "How it grows.",
    "Length",
    ("short", "long"),
    Axis("Corns", "%", decimals=0),
    (Bar("Day before", [90, 10]), Bar("Yesterday", [60, 40]), Bar("Today", [20, 80])),
)
DRAWING = Drawing(
    "corn",
    "A corn",
    "As far on as it is.",
    100.0,
    (Shape("M0 0 L10 10 Z", "husk"),),
    (Written("half way <b>", 20.0, 30.0),),
    ("Corn", "Length"),
    (("a slow one", "38 %"),),
)


def of_class(svg: Element, name: str) -> list[Element]:
    return [e for e in svg.iter() if name in e.get("class", "").split()]


@pytest.mark.parametrize("picture", [SPANS, BARS, DRAWING])
def test_a_picture_names_itself_and_its_numbers_can_be_read(picture):
    svg = draw(picture, "here")
    title, desc = (svg.find(tag) for tag in ("title", "desc"))
    assert title is not None and desc is not None
    assert (title.text, desc.text) == (picture.title, picture.summary)
    assert svg.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"
    ids = [e.get("id") for e in svg.iter() if e.get("id")]
    assert len(set(ids)) == len(ids) and all(name.startswith("here-") for name in ids if name)
    data = data_of(picture)
    assert all(len(row) == len(data.headings) for row in data.rows)


def test_no_picture_names_a_colour():
    for picture in (SPANS, BARS, DRAWING):
        text = html(draw(picture, "x"))
        assert "#" not in text.replace("url(#", "") and "style=" not in text and "rgb" not in text


def test_a_whisker_reaches_from_low_to_high_on_the_axis():
    svg = draw(SPANS, "x")
    whiskers = of_class(svg, "whisker")
    assert len(whiskers) == 3 * 3
    line = whiskers[0]
    left, right = float(line.get("x1", "")), float(line.get("x2", ""))
    per_percent = (420 - 2 * 14.0) / 100  # the axis runs from 0 to 100 %
    assert (left, right) == pytest.approx((14 + 95.0 * per_percent, 14 + 99.5 * per_percent), abs=0.06)
    (dot, *_) = of_class(svg, "dot")
    assert float(dot.get("cx", "")) == pytest.approx(14 + 98.0 * per_percent, abs=0.06)


def test_the_wanted_side_is_hatched():
    wanted = of_class(draw(SPANS, "x"), "wanted")
    assert len(wanted) == 2  # the third has no limit
    above, below = ((float(w.get("x", "")), float(w.get("width", ""))) for w in wanted)
    assert above[0] > below[0] and below[0] == pytest.approx(14.0)
    assert data_of(SPANS).rows[1][-1] == "wanted: 10 % or less"
    assert data_of(SPANS).rows[2][-1] == "–"


def test_an_axis_without_limits_holds_everything():
    loose = SPANS._replace(
        axis=Axis("Corns", "%"), spans=(Span("one", 0.0, 0.0, 0.0, 0.0), Span("two", 50.0, 20.0, 80.0))
    )
    for element in draw(loose, "x").iter("line"):
        assert 0 <= float(element.get("x1", "")) <= 420 and 0 <= float(element.get("x2", "")) <= 420


def test_bars_are_as_high_as_their_values_and_told_apart_by_filling():
    svg = draw(BARS, "x")
    heights = {}
    for kind in ("outlined", "hatched", "solid"):
        boxes = of_class(svg, kind)
        assert len(boxes) == 3  # two classes and the legend
        heights[kind] = [float(b.get("height", "")) for b in boxes[:2]]
    for kind, values in (("outlined", (90, 10)), ("hatched", (60, 40)), ("solid", (20, 80))):
        assert heights[kind][0] / values[0] == pytest.approx(heights[kind][1] / values[1], rel=0.02)
    one_day = BARS._replace(sets=BARS.sets[2:])
    assert of_class(draw(one_day, "x"), "solid") and not of_class(draw(one_day, "x"), "hatched")


def test_bars_refuse_what_they_cannot_draw():
    with pytest.raises(ValueError, match="one to three"):
        chart_bars.draw(BARS._replace(sets=BARS.sets * 2), "x")
    with pytest.raises(ValueError, match="every class"):
        chart_bars.draw(BARS._replace(sets=(Bar("Today", [1]),)), "x")
    nothing = BARS._replace(sets=(Bar("Today", [0, 0]),))
    assert chart_bars.draw(nothing, "x").tag == "svg"


FIXED = Table(
    "counts",
    "Counts",
    (Number("today", "Today", "", 0, 9, whole=True), Number("before", "Before", "", 0, 9, optional=True)),
    min_rows=2,
    max_rows=2,
    row_names=("short", "long"),
)


def test_a_fixed_row_left_blank_keeps_its_place_and_is_missing():
    value, problems = read(FIXED, [["", ""], ["3", ""]])
    assert isinstance(value, tuple) and len(value) == 2
    (problem,) = problems
    assert (problem.missing, problem.row, problem.column) == (True, 1, "today")
    assert read(FIXED, "4; 3")[0] == ((4.0, None), (3.0, None))
    assert read(FIXED, "4 3")[0] == ((4.0, None), (3.0, None))


def test_a_fixed_table_shows_its_names_and_no_buttons_in_view():
    form = Element("form")
    draw_question(form, FIXED, "x")
    names = [th.text for th in form.iter("th") if th.get("scope") == "row"]
    assert names[:2] == ["short", "long"]
    assert all("hidden" in button.attrib for button in form.iter("button"))
    spoken = [box.get("aria-label") for box in form.iter("input")]
    assert spoken[:4] == ["Today, short", "Before, short", "Today, long", "Before, long"]
