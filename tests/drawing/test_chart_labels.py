"""Words of a chart find a place off its lines, its points and each other."""

from __future__ import annotations

from itertools import combinations
from xml.etree.ElementTree import Element

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.declare import Axis, Chart, Dots, Line, Mark, Shade
from calculators.drawing.chart import draw
from calculators.drawing.chart_labels import Box, Labels, along, box_of


def labels_of(svg: Element) -> list[tuple[str, Box]]:
    return [
        (
            one.text or "",
            box_of(one.text or "", float(one.get("x", "")), float(one.get("y", "")), one.get("text-anchor", "")),
        )
        for one in svg.iter("text")
        if one.get("class") in ("mark-label", "shade-label")
    ]


def points_of(svg: Element) -> list[tuple[float, float]]:
    """Where the first line runs, from its path."""
    (path,) = (one for one in svg.iter("path") if one.get("class") == "line s1")
    ends = [tuple(float(n) for n in pair.split(",")) for pair in path.get("d", "")[1:].split(" L")]
    return list(along([(x, y) for x, y in ends]))


@pytest.mark.parametrize("level", [50.0, 88.0, 12.0])
def test_words_of_a_rule_keep_off_a_line_that_crosses_it(level):
    xs = list(range(11))
    chart = Chart("c", "t", "s", Axis("x", low=0, high=10), Axis("y", low=0, high=100),
                  lines=(Line("l", xs, [10.0 * x for x in xs]),), marks=(Mark("wanted 50 %", level),))  # fmt: skip
    svg = draw(chart, "p")
    ((_, box),) = labels_of(svg)
    assert all(box.room_to(point) > 0 for point in points_of(svg))


def test_words_of_two_rules_and_of_the_grounds_stand_apart():
    chart = Chart("c", "t", "s", Axis("x", low=0, high=10), Axis("y", low=0, high=100),
                  lines=(Line("l", [0, 10], [97.0, 97.0]),), shades=(Shade("wet", 0, 4), Shade("air rest", 4, 10)),
                  marks=(Mark("accepted up to 17 °C", 50.0), Mark("stop over 18 °C", 56.0)))  # fmt: skip
    found = labels_of(draw(chart, "p"))
    assert {words for words, _ in found} == {"wet", "air rest", "accepted up to 17 °C", "stop over 18 °C"}
    assert not any(one.meets(other) for (_, one), (_, other) in combinations(found, 2))
    # the line runs along the top: the grounds say what they are at their foot
    assert all(box.top > 200 for words, box in found if words in ("wet", "air rest"))


@given(st.lists(st.floats(0, 100), min_size=2, max_size=12), st.floats(0, 100))
def test_words_stay_on_the_paper_whatever_is_drawn(values, level):
    xs = list(range(len(values)))
    chart = Chart("c", "t", "s", Axis("x"), Axis("y", low=0, high=100), lines=(Line("l", xs, values),),
                  marks=(Mark("a limit of this", level),), dots=(Dots("read", xs, values),))  # fmt: skip
    for _, box in labels_of(draw(chart, "p")):
        assert box.left >= 40 and box.right <= 420 and box.bottom < 300


def test_a_box_knows_how_far_a_point_is():
    box = Box(10, 10, 20, 20)
    assert box.room_to((15, 15)) == 0 and box.room_to((25, 15)) == 5 and box.room_to((15, 4)) == 6
    labels = Labels([(15, 15)], 0, 100, 0, 100)
    assert labels.room(box) == 0 and labels.room(Box(0, -5, 5, 5)) < 0


def test_a_long_label_of_the_legend_takes_two_rows():
    long = "by 2 earlier batches of its lot, without the readings"
    one, two = (draw(Chart("c", "t", "s", Axis("x"), Axis("y"), lines=(Line(label, [0, 1], [0, 1]),)), "p")
                for label in ("short", long))  # fmt: skip
    said = [each.text or "" for each in two.iter("text") if each.get("class") == "legend-label"]
    assert " ".join(said) == long and len(said) == 2
    heights = [float(svg.get("viewBox", "").split()[3]) for svg in (one, two)]
    assert heights[1] == heights[0] + 20
