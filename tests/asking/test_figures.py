"""Numbers as text: rounding to tens, rounding up, no minus in front of zero."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.figures import at_least, fixed


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
