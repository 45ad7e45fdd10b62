"""An order of the steep against the table: what it passes, and what is left instead, run again by the public door."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from calculators.models.steep.course import Steep
from calculators.models.steep.hydration import steep
from calculators.rules.steep_order import (
    Order,
    Way,
    last_immersion,
    of_course,
    ready_by_moisture,
    sprinkled_first,
    stops,
    usual_h,
)
from calculators.words.order import way_words

USUAL = [(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)]


def named(course: Steep, *, ends: bool = True) -> set[tuple[str, str, int]]:
    return {
        (name, "low" if low else "high", n)
        for name, low, n in (one.what for one in stops(of_course(course, ends=ends)))
    }


def test_a_usual_steep_passes_nothing():
    assert named(steep(barley_moisture=12.5, stages=USUAL)) == set()


@pytest.mark.parametrize(
    ("stages", "found"),
    [
        ([(12, 10), (8, 10), (8, 10), (8, 10), (6, 10)], set()),
        ([(12.01, 10), (8, 10), (8, 10), (8, 10), (6, 10)], {("immersion-hours", "high", 1)}),
        ([(8, 14), (24, 14), (8, 14), (8, 14), (3, 14)], set()),
        ([(8, 14), (24.01, 14), (8, 14), (8, 14), (3, 14)], {("rest-hours", "high", 1)}),
        ([(8, 14), (8, 14), (8, 14), (12, 18), (3, 14)], set()),
        ([(8, 14), (8, 14), (8, 14), (12, 18.1), (3, 14)], {("rest-temp", "high", 2)}),
        ([(8, 14), (8, 14), (8, 14), (12, 14), (3, 4.9)], {("steep-water-temp", "low", 3)}),
        ([(2, 14), (8, 14), (10, 14), (12, 14), (4, 14)], {("first-drain-moisture", "low", 1)}),
        ([(8, 14), (8, 14), (4, 14), (8, 14), (12, 16)], set()),
        ([(8, 14), (8, 14), (12, 17), (8, 14), (0.5, 14)], {("second-drain-moisture", "high", 2)}),
        ([(8, 16), (2, 16), (8, 16), (2, 16), (3, 16)], {("steep-hours", "low", 0)}),
        # Too dry to cast: it goes on, so its few hours are no finding.
        ([(8, 14)], {("cast-moisture", "low", 0)}),
    ],
)
def test_each_edge_from_both_sides(stages, found):
    assert named(steep(barley_moisture=12.5, stages=stages)) == found


def test_what_is_still_open_is_no_part_of_the_order():
    course = steep(barley_moisture=12.5, stages=[(8, 14), (8, 14), (30, 14)])
    assert ("immersion-hours", "high", 2) in named(course)
    assert named(course, ends=False) == set()


def again(course: Steep, way: Way, *, begun: bool) -> Steep:
    """Run the steep with a way in place of its last immersion, from the start."""
    stages = [(stage.hours, stage.water_temp_c) for stage in course.steeping.stages]
    before = stages[: (len(stages) - 1) // 2 * 2]
    if way.word == "warm" and not begun:
        before = [(hours, max(temp, way.water_temp_c)) for hours, temp in before]
    rested = before[-1][1] if before else way.water_temp_c
    tail = [(hours, rested if n % 2 else way.water_temp_c) for n, hours in enumerate(way.hours)]
    base = course.steeping
    return steep(
        barley_moisture=base.barley_moisture,
        stages=[*before, *tail],
        corn_weight_g=base.corn_weight_g,
        rate_factor=base.rate_factor,
    )


@settings(max_examples=150, deadline=None)
@given(
    st.floats(10, 16),
    st.floats(2, 24),
    st.floats(0.5, 1.6),
    st.lists(st.floats(2, 12), min_size=0, max_size=4).filter(lambda hours: len(hours) % 2 == 0),
    st.floats(38, 50),
    st.booleans(),
)
@example(10.0, 5.0, 1.375, [3.0, 5.0], 38.0, True)
@example(14.279291241827156, 11.359697568121003, 1.0640798181895876, [], 40.14693179292672, False)
def test_an_immersion_past_its_stop_is_no_order_and_each_way_keeps_the_stops(barley, water, rate, hours, target, begun):
    stages = [(h, water) for h in [*hours, 4.0]]
    course = steep(barley_moisture=barley, stages=stages, rate_factor=rate)
    order = last_immersion(course, target, begun=begun)
    if order is None:
        assert course.drained_before_last_immersion >= target
        return
    needed = course.last_immersion_needed_h(target)
    assert order.needed_h == needed
    assert (order.mark == "stop") == (needed is None or needed > 12.0)
    assert bool(order.ways) == (order.mark == "stop")
    known = named(course, ends=False)
    for way in order.ways:
        ran = again(course, way, begun=begun)
        assert ran.ends[-1].drained == pytest.approx(way.moisture, abs=1e-6)
        assert max(way.hours[::2]) <= 12.0 and all(6.0 <= rest <= 24.0 for rest in way.hours[1::2])
        if way.word in ("split", "warm"):
            # A fill and a drain take an hour each: nothing shorter is offered, and then it ends short.
            assert min(way.hours[::2]) >= 1.0
            short = target - way.moisture
            assert short == pytest.approx(0.0, abs=1e-6) or (way.word == "split" and -2.0 <= short <= 1.0)
            # Longer than 8 h only where it ends on what the second drain should hold at least, 38 %, or short.
            assert way.hours[-1] <= 8.0 or short > 1e-6 or way.moisture <= 38.0 + 1e-6
        if way.word == "warm":
            assert water < way.water_temp_c <= 16.0
            if begun:
                assert not hours or way.water_temp_c <= water + 2.0 + 1e-9
            assert named(ran, ends=False) <= known
        if way.word == "sprinkle":
            assert 41.0 <= way.moisture <= 48.0 and 0 < target - way.moisture <= 3.0


def test_the_hours_of_a_drain_by_the_table():
    """Eight hours, sooner where the first drain is full by then, later where it is too dry, never past twelve."""
    for water, rate, expected in ((14.0, 1.0, 8.0), (20.0, 1.0, None), (6.0, 1.0, None), (2.0, 0.6, 12.0)):
        course = steep(barley_moisture=12.5, stages=[(1, water)], rate_factor=rate)
        hours = usual_h(course, 1)
        held = steep(barley_moisture=12.5, stages=[(hours, water)], rate_factor=rate).ends[0].drained
        assert hours <= 12.0 and (expected is None or hours == expected)
        assert 30.0 - 1e-6 <= held <= 35.0 + 1e-6 or expected == 12.0
    assert usual_h(steep(barley_moisture=12.5, stages=[(1, 14.0)]), 3) == 8.0
    assert usual_h(steep(barley_moisture=12.5, stages=[(1, 14.0)]), 3, 6.0) == 6.0


def test_within_a_point_is_on_target():
    # Common practice, the table of the cast: within 1 point of the target.
    assert ready_by_moisture(44.0, 45.0) and ready_by_moisture(46.0, 45.0)
    assert not ready_by_moisture(43.99, 45.0)


def test_no_dip_of_a_quarter_of_an_hour_is_offered():
    """A split that would leave less than an hour is evened out, or ends short."""
    seen: set[str] = set()
    for water in (8.0, 10.0, 12.0, 14.0):
        for tenths in range(380, 480):
            course = steep(barley_moisture=12.5, stages=[(1.0, water)])
            order = last_immersion(course, tenths / 10.0, begun=False)
            for way in order.ways if order else ():
                assert min(way.hours[::2]) >= 1.0, (water, tenths)
                if way.word == "split":
                    wet = way.hours[::2]
                    seen.add("even" if max(wet[:-1]) < 8.0 else "usual")
                    seen.add("short" if way.moisture < tenths / 10.0 - 1e-6 else "full")
    assert {"even", "full", "usual"} <= seen


def test_what_a_split_is_short_by_is_said():
    told = way_words(Way("split", (8.0, 6.0, 8.0), 10.0, 44.6), 45.0)
    assert "8 h wet, 6 h rest, 8 h wet, to 44.6 %, 0.4 points short." in told
    over = way_words(Way("split", (8.0, 6.0, 1.0), 10.0, 46.1), 45.0)
    assert "to 46.1 %, 1.1 points over" in over
    assert "short" not in way_words(Way("split", (8.0, 6.0, 8.0), 10.0, 45.0), 45.0)


def test_grain_whose_chits_are_there_is_cast_and_sprinkled_first():
    split, drier = Way("split", (8.0, 6.0, 4.0), 10.0, 45.0), Way("sprinkle", (8.0,), 10.0, 43.5)
    order = Order(20.0, "stop", (split, drier))
    # As wet as it is it may be cast from 41 %, and three points are the most that are left to the floor.
    now = sprinkled_first(order, 42.0, 45.0).ways
    assert now == (Way("sprinkle", (), 10.0, 42.0), drier, split)
    assert way_words(now[0], 45.0).startswith("cast, and sprinkle the other 3.0 points")
    assert sprinkled_first(order, 40.9, 43.0).ways == sprinkled_first(order, 41.9, 45.0).ways == (drier, split)
