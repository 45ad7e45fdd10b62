"""Sets of hours and the steeps by the clock, each against the plain way: hour by hour, and every rest tried."""

from __future__ import annotations

from itertools import pairwise, product
from random import Random
from typing import Any

import pytest

from calculators.rules.limit import edge
from calculators.rules.limits.steeping import REST
from calculators.rules.week.hours import daily, first, span, starts, those
from calculators.rules.week.house import Bed, House, Kiln, Steep, offsets
from calculators.rules.week.shapes import HAND, WATCHED, by_hours, pattern, shapes_at

HOUSE = House(
    (Steep("A", 6.0),),
    (Bed("floor", "floor", 6.0, True),),
    (Kiln("kiln", 6.0, 20, 2),),
    tuple(2 if 6 <= hour < 14 else 1 if 14 <= hour < 20 else 0 for hour in range(24)),
)
STOP = int(edge(REST.stop_high))


def held(hours: int) -> set[int]:
    return {hour for hour in range(hours.bit_length()) if hours >> hour & 1}


@pytest.mark.parametrize(("begin", "end"), [(0, 5), (3, 9), (4, 4), (6, 2), (-3, 2), (-5, -2), (7, 8)])
def test_a_span_has_its_first_hour_and_not_its_last(begin, end):
    assert held(span(begin, end)) == {hour for hour in range(20) if begin <= hour < end}


@pytest.mark.parametrize("hours", [-1, 0, 1, 2, 3, 5, 8, 13, 40])
def test_a_start_has_all_its_hours_free(hours):
    draw = Random(hours)
    for free in [0, span(0, 12), span(3, 90), *(sum(span(n * 9, n * 9 + draw.randrange(10)) for n in range(9)),) * 5]:
        open_to = held(free)
        assert held(starts(free, hours)) == {h for h in open_to if all(h + n in open_to for n in range(hours))}


def test_the_first_hour_of_a_set():
    for hour in (0, 1, 5, 63, 64, 700):
        assert first(1 << hour) == hour == first(1 << hour | 1 << 900)


def test_hours_of_the_day_come_back_each_day_up_to_the_horizon():
    clocks = those(lambda hour: hour in (1, 5, 23))
    assert held(clocks) == {1, 5, 23}
    for horizon in (0, 1, 24, 29, 30, 72, 95, 96):
        assert held(daily(clocks, horizon)) == {hour for hour in range(horizon) if hour % 24 in (1, 5, 23)}


def steeps(house: House, stages: tuple[float, ...], clock: int, since: int | None) -> set[tuple[Any, ...]]:
    """Every steep with its cost: each rest lengthened by each hour that may be, and each rest before the cast."""
    waters, drains = offsets(stages)
    found: set[tuple[Any, ...]] = set()
    for longer in product(range(house.stretch + 1), repeat=len(waters) - 1):
        later = [sum(longer[:n]) for n in range(len(waters))]
        w = tuple(hour + more for hour, more in zip(waters, later, strict=True))
        d = tuple(hour + more for hour, more in zip(drains, later, strict=True))
        rests = [begin - end for end, (_, begin) in zip(d, pairwise(w), strict=False)]
        if any(more and rest > STOP for more, rest in zip(longer, rests, strict=True)):
            continue
        if since is not None and any(more and w[n] - more < since for n, more in enumerate(longer, 1)):
            continue  # that rest was over before
        for last in range(house.drain, STOP + 1):
            watched = sum(max(0, rest - house.rests_accepted) for rest in [*rests, last])
            alone = sum(house.counted[(clock + hour) % 24] < 1 for hour in (*w, *d) if since is None or hour >= since)
            found.add((d[-1] + last, w, d, WATCHED * watched + HAND * alone))
    return found


@pytest.mark.parametrize(
    ("stages", "stretch", "drain", "since"),
    [
        ((8.0,), 2, 1, None),
        ((8.0, 7.0, 8.0), 0, 1, None),
        ((8.0, 10.0, 6.0, 12.0, 3.0), 2, 2, None),
        ((4.0, 22.0, 4.0, 11.0, 2.0), 3, 1, None),  # not past the stop of a rest, but up to it
        ((4.0, 26.0, 4.0), 2, 1, None),  # typed past it: kept as it is
        ((8.0, 10.0, 6.0, 12.0, 3.0), 2, 1, 0),
        ((8.0, 10.0, 6.0, 12.0, 3.0), 2, 1, 17),
        ((8.0, 10.0, 6.0, 12.0, 3.0), 2, 1, 18),
        ((8.0, 10.0, 6.0, 12.0, 3.0), 2, 1, 19),  # the first rest is over
        ((8.0, 10.0, 6.0, 12.0, 3.0), 2, 1, 37),
    ],
)
def test_steeps_by_the_clock_are_all_there_are(stages, stretch, drain, since):
    house = HOUSE._replace(stretch=stretch, drain=drain)
    by = pattern(house, stages)
    for clock in (0, 6, 15, 23):
        found = shapes_at(by, clock, since)
        listed = [(s.cast, s.waters, s.drains, s.cost) for some in found.values() for s in some]
        assert set(listed) == steeps(house, stages, clock, since) and len(set(listed)) == len(listed)
        for hours, some in found.items():
            assert all(one.cast == hours for one in some)
            assert [one.cost for one in some] == sorted(one.cost for one in some)


@pytest.mark.parametrize("stages", [(8.0,), (8.0, 10.0, 6.0), (8.0, 14.0, 3.0)])
def test_each_length_of_a_steep_has_its_least_cost_at_each_hour_of_the_day(stages):
    by = pattern(HOUSE._replace(stretch=1), stages)
    table = by_hours(by)
    lengths = [hours for hours, _ in table]
    assert lengths == sorted({one[0] for one in steeps(HOUSE._replace(stretch=1), stages, 0, None)})
    for hours, costs in table:
        assert [cost for cost, _ in costs] == sorted(cost for cost, _ in costs)
        of_clock = {clock: cost for cost, clocks in costs for clock in held(clocks)}
        assert of_clock == {clock: shapes_at(by, clock, None)[hours][0].cost for clock in range(24)}


def test_where_calls_do_not_count_nobody_is_called_in():
    by = pattern(HOUSE._replace(calls_count=False, rests_accepted=STOP), (8.0, 10.0, 6.0))
    assert {cost for _, costs in by_hours(by) for cost, _ in costs} == {0}
    counted = pattern(HOUSE._replace(stretch=0), (8.0, 10.0, 6.0))
    # filled at 6:00: drained at 14:00, water at 0:00 with nobody there, drained at 6:00
    assert shapes_at(counted, 6, None)[25][0].cost == HAND
    assert shapes_at(counted, 6, None)[24 + 14][0].cost == HAND + WATCHED * (14 - HOUSE.rests_accepted)
