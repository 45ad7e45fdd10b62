"""What a steep's life says between the hours at which it was worked out, and how its doubts add up."""

from collections.abc import Sequence

import numpy as np
import pytest

from calculators.models.living.breathing import SOONEST_FACTOR
from calculators.models.living.lot_plan_state import State
from calculators.models.living.steep_life import Life
from calculators.models.living.steep_run import USUAL_RESTS, rest_places, resting_on, warmed
from calculators.models.steep.doubt import trust
from calculators.models.steep.hydration import steep


@pytest.fixture(scope="module")
def life() -> Life:
    course, _ = warmed(steep(barley_moisture=12.5, stages=[(h, 14.0) for h in (8.0, 8.0, 8.0, 12.0, 3.0)]))
    on, rests = resting_on(course, USUAL_RESTS, 12.0)
    return Life(trust(on), rests)


@pytest.mark.parametrize("share", [0.02, 0.05, 0.11, 0.17, 0.29, 0.41])
def test_the_hour_of_a_share_lies_on_the_line_between_two_points(life: Life, share: float) -> None:
    hours = [state.hour for state in life.states]
    found = life.hour_of(share)
    assert found is not None and found.low <= found.value <= found.high
    # numpy draws the same shares straight between the hours of the course
    shares = [life.share_at(hour).value for hour in hours]
    assert np.interp(found.value, hours, shares) == pytest.approx(share, abs=1e-6)


def test_doubts_of_warmth_that_have_causes_of_their_own_add_up_as_squares(life: Life) -> None:
    # As independent causes do (JCGM 100:2008, 5.1.2, from memory); numpy's length of the vector.
    assert len(life.warmest) == 3  # the last one is where it lies until it is cast
    for rest, places in zip(life.warmest, rest_places(life.states), strict=False):

        def top(states: Sequence[State], places: list[int] = list(places)) -> float:  # noqa: B006
            return max(float(states[n].temp_c) for n in places[1:])

        here = top(life.states)
        ways = [top(states) - here for states in life._drinks]
        warm, hot = 2.0 * (top(life._warmer) - here), top(life._fast) - here
        up, down = max(0.0, *ways), min(0.0, *ways)
        assert rest.warmest_c.value == here
        assert rest.warmest_c.high - here == pytest.approx(np.linalg.norm([up, warm, hot]), rel=1e-3)
        assert here - rest.warmest_c.low == pytest.approx(np.linalg.norm([down, warm, hot / SOONEST_FACTOR]), rel=1e-3)
