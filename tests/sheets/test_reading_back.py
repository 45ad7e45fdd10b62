"""The reader of workings: what it takes for a sum, what agrees, and what does not."""

from __future__ import annotations

import math

import pytest

from tests.sheets.reading_back import Unreadable, steps


@pytest.mark.parametrize(
    ("working", "comes_to"),
    [
        ("2 + 3 × 4 = 14", 14.0),
        ("(2 + 3) × 4 − 6 / 3 = 18", 18.0),
        ("2^(1/2) = 1.414", math.sqrt(2)),
        ("√((3² + 4²) / 1) = 5 points", 5.0),
        ("ln(60 / 3) = 3.00", math.log(20)),
        ("exp(2) = 7.39", math.exp(2)),
        ("π × 2.8² / 4 × 5.6 = 34.5 m³", math.pi * 2.8**2 / 4 * 5.6),
        ("14 − -2 = 16 °C", 16.0),
        ("-3 × (−2) = 6", 6.0),
        ("1,000,000 × 3 / 10,000 = 300", 300.0),
        ("dry matter: 6000 kg × (100 − 12)/100 = 5280 kg, at 12 % moisture", 5280.0),
        ("800 Pa × 4541 m³/h / 3600 = 1009", 800 * 4541 / 3600),
        ("6000 kg × (100 − 12)/100 = 5280 kg; × 1/100 = 52.8 kg", 52.8),
    ],
)
def test_a_right_sum_is_read_and_agrees(working, comes_to):
    read = steps(working, (6000.0,))
    assert read[-1].sum.value == pytest.approx(comes_to)
    assert all(step.agrees for step in read)


@pytest.mark.parametrize(
    "working",
    [
        "2 + 3 × 4 = 20",
        "19.4 / 32.9 = 59 %",
        "800 Pa × 4541 m³/h / 3600 / 0.6 = 1.68 kW",
        "12 / 9.7 = 1.20",
        "4 / 2 = 3",
    ],
)
def test_a_wrong_sum_does_not_agree(working):
    assert not all(step.agrees for step in steps(working, (12.0, 800.0, 0.6)))


@pytest.mark.parametrize(
    "working",
    [
        "",
        "as given",
        "188 of 200 = 94.0 %",
        "2 × (3 + 4 = 14",
        "2 × = 4",
        "× 3 = 6",
        "6 / 0 = 3",
        "2 × 3 = 6 of 7",
        "ln(0) = 1",
        "2 + 2 = 4; the rest is water",
        "2 + 2 = 5 = 4",
    ],
)
def test_what_is_no_sum_is_refused(working):
    with pytest.raises(Unreadable):
        steps(working)


def test_a_number_that_was_rounded_stands_for_a_range_and_one_that_was_typed_does_not():
    assert steps("7 / 2.5 = 2.7")[0].agrees  # 6.5 to 7.5 over 2.45 to 2.55
    assert not steps("7 / 2.5 = 2.7", (7.0, 2.5))[0].agrees


def test_a_figure_that_was_shown_goes_on_rounded_even_where_the_same_number_was_typed():
    (first, second) = steps("20 / 7 = 3; 3 × 2.0 = 5.7", (20.0, 7.0, 3.0))
    assert first.agrees and second.agrees and second.sum.reach > 0.5


def test_a_clock_goes_on_from_what_it_is_told():
    (step,) = steps("start + 5.5 h, at 30.9 %", goes_on_from=0.0)
    assert step.sum.value == 5.5
