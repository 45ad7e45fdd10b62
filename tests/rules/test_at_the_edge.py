"""Verdicts and orders exactly at an edge, and what is asked for just beside it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.models.counts import acrospire
from calculators.models.steep.hydration import steep
from calculators.rules.readiness import Seen, decide
from calculators.rules.steep_order import last_immersion


def seen(*day: float) -> Seen:
    return Seen((tuple(float(n) for n in day),), 24.0, 75.0, 10.0)


@pytest.mark.parametrize("day", [(0, 5, 20, 71, 4), (0, 0, 25, 66, 9), (0, 10, 15, 73, 2)])
def test_a_share_exactly_at_the_target_is_not_under_it(day):
    assert sum(day[acrospire.READY :]) == 75
    assert decide(seen(*day)).word == "kiln-now"
    one_less = (day[0], day[1], day[2] + 1, day[3] - 1, day[4])
    assert decide(seen(*one_less)).word != "kiln-now"


@settings(max_examples=300, deadline=None)
@given(st.integers(0, 40), st.integers(0, 30), st.integers(40, 78), st.integers(0, 12))
def test_nobody_counts_on_where_no_count_could_reach_the_target(low, middle, high, over):
    found = decide(seen(low, 0, middle, high, over))
    if found.because == "short" and found.more is not None:
        corns = low + middle + high + over
        assert 100 * (high + over + found.more) >= 75 * (corns + found.more)


def test_evened_pieces_are_alike_and_the_last_is_hardly_longer():
    """Quarters of an hour, the last of them what is left: never half an hour longer than the others."""
    even = 0
    for water in (8.0, 10.0, 12.0, 14.0):
        for fifths in range(190, 240):
            course = steep(barley_moisture=12.5, stages=[(1.0, water)])
            order = last_immersion(course, fifths / 5.0, begun=False)
            for way in order.ways if order else ():
                wet = way.hours[::2]
                if way.word == "split" and max(wet[:-1]) < 8.0 and len(set(wet[:-1])) == 1:
                    even += 1
                    assert wet[0] * 4.0 == round(wet[0] * 4.0)
                    assert wet[-1] < wet[0] + 0.5
    assert even > 20
