"""Which stops a forecast passes: by its middle, or only by an end of its band."""

from __future__ import annotations

import pytest

from calculators.rules.forecast import Range, foreseen
from calculators.rules.limits.casting import MOISTURE

assert MOISTURE.stop_low is not None and MOISTURE.stop_high is not None
LOW, HIGH = MOISTURE.stop_low, MOISTURE.stop_high
INSIDE = 0.5 * (LOW + HIGH)


@pytest.mark.parametrize(
    ("low", "middle", "high", "found"),
    [
        (INSIDE - 1, INSIDE, INSIDE + 1, []),
        (INSIDE, HIGH + 1, HIGH + 2, [(HIGH + 1, False)]),
        (INSIDE, INSIDE, HIGH + 1, [(HIGH + 1, True)]),
        (LOW - 1, INSIDE, INSIDE, [(LOW - 1, True)]),
        (LOW - 1, INSIDE, HIGH + 1, [(HIGH + 1, True), (LOW - 1, True)]),
        (LOW - 1, HIGH + 1, HIGH + 2, [(HIGH + 1, False), (LOW - 1, True)]),
    ],
)
def test_a_stop_is_passed_by_the_middle_or_by_a_far_end(
    low: float, middle: float, high: float, found: list[tuple[float, bool]]
) -> None:
    got = foreseen(MOISTURE, Range(low, middle, high, 40.0))
    assert [(one.line.value, one.far) for one in got] == found
    assert {one.hour for one in got} <= {40.0} and all(one.line.mark == "stop" for one in got)


def test_where_only_too_much_is_a_stop_too_little_is_left_alone() -> None:
    assert foreseen(MOISTURE, Range(LOW - 2, LOW - 1, INSIDE, 40.0), high_only=True) == []
    assert len(foreseen(MOISTURE, Range(LOW - 2, LOW - 1, HIGH + 1, 40.0), high_only=True)) == 1
