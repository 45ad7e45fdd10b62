"""Numbers as text: rounding to tens, rounding up, no minus in front of zero."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.figures import at_least, fixed, minus_signs


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [(74567.0, -3, "75000"), (449.0, -2, "400"), (-0.04, 1, "0.0"), (12.345, 2, "12.35"), (0.4, 0, "0")],
)
def test_fixed(value, decimals, text):
    assert fixed(value, decimals) == text


@given(st.floats(0, 1e6), st.integers(0, 3))
def test_at_least_is_never_less_and_never_a_step_more(value, decimals):
    found = at_least(value, decimals)
    assert value * (1 - 1e-9) - 1e-9 <= found < value + 10.0**-decimals + 1e-9


def test_noise_of_the_arithmetic_does_not_cost_a_minute():
    assert at_least(24.0 + 1e-12, 0) == 24.0
    assert at_least(24.001, 0) == 25.0


@pytest.mark.parametrize(
    ("text", "set_so"),
    [
        ("-4.5 K", "−4.5 K"),
        ("from -10 to 30", "from −10 to 30"),
        ("9504 − 10400 = -896 kg", "9504 − 10400 = −896 kg"),
        ("10^(-0.1) and 10^-3", "10^(−0.1) and 10^−3"),
        ("-.5", "−.5"),
    ],
)
def test_what_is_less_than_zero_has_a_minus_sign(text, set_so):
    assert minus_signs(text) == set_so
    assert minus_signs(set_so) == set_so


@pytest.mark.parametrize(
    "text",
    ["2026-11-29 14:10", "example-01", "1-2", "1e-9", "12–17", "the run --json", "x-3", "start=-1", "a - b", "-"],
)
def test_dates_names_and_spans_keep_their_hyphen(text):
    assert minus_signs(text) == text
