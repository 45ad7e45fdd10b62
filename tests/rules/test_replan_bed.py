"""A bed planned anew: its turnings against trying all rows, the kiln's hour, and no way past a stop."""

from __future__ import annotations

from itertools import combinations, pairwise
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.rules.limit import Limit, edge
from calculators.rules.limits.drum_germination import BED
from calculators.rules.limits.drum_germination import TURNING as DRUM_TURNING
from calculators.rules.limits.floor_germination import MOISTURE, PIECE, TURNING
from calculators.rules.limits.kiln_hand_over import LAST_WATER, READY_HOURS
from calculators.rules.replan.bed import BedNow, already, candidates, holds, price, ways_of
from calculators.rules.replan.faults import FAULTS, HOURS_TAKEN, Asked, Fault, asked_by
from calculators.rules.replan.turnings import Turning
from calculators.rules.replan.ways import PUTS_FIRST, Move

LOW, ACCEPTED, STOP = TURNING.accept_low, TURNING.accept_high, TURNING.stop_high


def night(hour: float, clock_h: float) -> bool:
    return hour > 0 and ((clock_h + hour) % 24 >= 22 or (clock_h + hour) % 24 < 6)


def every_row(since: float, clock_h: float, end: int, quiet: tuple[float, float] | None) -> tuple[int, int, int] | None:
    """The best row of turnings by trying all sets of hours: over what is accepted, hands at night, turnings."""
    assert LOW and ACCEPTED and STOP
    hours = [h for h in range(end) if not (quiet and quiet[0] <= h < quiet[1] and h)]
    best: tuple[int, int, int] | None = None
    for many in range(6):
        for row in combinations(hours, many):
            edges = [-since, *row, float(end)]
            gaps = [b - a for a, b in pairwise(edges)]
            if any(gap < LOW for gap in gaps[:-1]) or any(gap > STOP for gap in gaps):
                continue
            cost = (sum(gap > ACCEPTED for gap in gaps), sum(night(h, clock_h) for h in row), many)
            best = cost if best is None else min(best, cost)
    return best


@pytest.mark.parametrize("since", [0.0, 5.0, 9.0])
@pytest.mark.parametrize("clock_h", [3.0, 14.0, 21.0])
@pytest.mark.parametrize("quiet", [None, (2.0, 12.0), (1.0, 17.0)])
def test_the_row_of_turnings_is_the_best_of_all(
    since: float, clock_h: float, quiet: tuple[float, float] | None
) -> None:
    end = 26
    found = Turning(TURNING, since_h=since, clock_h=clock_h, until_h=40.0, quiet_h=quiet).until(float(end))
    wanted = every_row(since, clock_h, end, quiet)
    assert (found is None) == (wanted is None)
    if found and wanted:
        edges = [-since, *found.hours, float(end)]
        gaps = [b - a for a, b in pairwise(edges)]
        assert ACCEPTED is not None
        over = sum(gap > ACCEPTED for gap in gaps)
        assert (over, sum(night(h, clock_h) for h in found.hours), len(found.hours)) == wanted


def floor(**more: float) -> BedNow:
    given = {"barley_moisture": 12.5, "moisture": 44.5, "temp_c": 16.0, "growth_h": 78.0, "since_turning_h": 9.0,
             "clock_h": 22.0, "load_h": 60.0, **more}  # fmt: skip
    return BedNow("floor", **given)  # type: ignore[arg-type]


def test_a_kiln_that_is_late_is_met_by_cooler_grain_and_never_waited_for_past_the_stop() -> None:
    now = floor()
    for late in (6.0, 12.0, 24.0):
        found = ways_of(now, asked_by("kiln-late", hours=late))
        assert found.ways
        for way in found.ways:
            load = way.moves[-1].hour
            assert way.moves[-1].act == "load" and load >= 60.0 + late
            assert way.hold_c is not None and way.hold_c <= now.temp_c
    usual = ways_of(now, Asked()).ways[0]
    assert usual.hold_c is not None
    assert found.ways[0].hold_c < usual.hold_c  # type: ignore[operator]


def test_a_kiln_that_is_later_than_any_cold_can_bridge_leaves_no_way() -> None:
    assert not ways_of(floor(growth_h=135.0, load_h=4.0), asked_by("kiln-late", hours=30.0)).ways


def test_a_night_without_anybody_is_turned_before_and_after() -> None:
    found = ways_of(floor(since_turning_h=7.0, clock_h=20.0), asked_by("away", hours=8.0, begins_h=2.0))
    assert found.ways
    for way in found.ways:
        assert not [move for move in way.moves if 2.0 <= move.hour < 10.0]


def test_nobody_for_longer_than_the_stop_leaves_no_way() -> None:
    assert not ways_of(floor(), asked_by("away", hours=20.0, begins_h=1.0)).ways


@pytest.mark.parametrize(("since", "hours"), [(6.0, 4.0), (22.0, 4.0), (22.0, 3.5)])
def test_in_a_drum_whose_fan_stands_nothing_is_done_by_hand(since: float, hours: float) -> None:
    """A turning that falls due meanwhile is named as late, and done as soon as anybody may."""
    now = BedNow("drum", 12.5, 44.5, 16.0, 60.0, since, 22.0, 72.0)
    found = ways_of(now, asked_by("blower", hours=hours))
    late = since + hours > edge(DRUM_TURNING.stop_high)
    assert found.ways and (DRUM_TURNING.id in {line.rule for line in found.already}) is late
    assert not late or all(way.moves[0] == Move(4.0, "turn") for way in found.ways)
    assert found.fan_off_h is not None and found.fan_off_h[1] < found.fan_off_h[0] < 12.0
    assert all(move.hour >= hours for way in found.ways for move in way.moves)


@settings(max_examples=25, deadline=None)
@given(
    vessel=st.sampled_from(["floor", "drum"]),
    moisture=st.floats(41.0, 47.0),
    temp_c=st.floats(11.0, 21.0),
    growth_h=st.floats(18.0, 150.0),
    since=st.floats(0.0, 20.0),
    clock_h=st.floats(0.0, 23.9),
    load_h=st.one_of(st.none(), st.floats(1.0, 120.0)),
    fault=st.sampled_from(list(FAULTS)),
    hours=st.floats(1.0, 14.0),
)
def test_no_way_of_a_bed_passes_a_stop(
    vessel: str, moisture: float, temp_c: float, growth_h: float, since: float, clock_h: float,
    load_h: float | None, fault: Fault, hours: float,
) -> None:  # fmt: skip
    if vessel not in FAULTS[fault]:
        return
    now = BedNow(vessel, 12.5, moisture, temp_c, growth_h, since, clock_h, load_h)  # type: ignore[arg-type]
    asked = asked_by(fault, hours=hours if fault in HOURS_TAKEN else 0.0, begins_h=3.0)
    limit, warm = (TURNING, PIECE) if vessel == "floor" else (DRUM_TURNING, BED)
    ready = {(one.hold_c, one.load_h): one for one in candidates(now, asked)}
    for way in ways_of(now, asked).ways:
        turned = [move.hour for move in way.moves if move.act == "turn"]
        edges = [*turned, way.moves[-1].hour]
        gaps = [b - a for a, b in pairwise(edges)]
        assert limit.stop_high is not None and warm.stop_high is not None
        assert all(gap <= limit.stop_high for gap in gaps)
        first = edges[0] + since
        assert first <= max(limit.stop_high, since + asked.fan_off_h + 1.0 if asked.fan_off_h else since)
        assert way.hold_c is not None and way.hold_c <= warm.stop_high
        assert MOISTURE.stop_low is not None and way.cost.moisture >= MOISTURE.stop_low
        one = ready[way.hold_c, way.moves[-1].hour]
        assert one.load_h - one.ready_h <= (READY_HOURS.stop_high or inf)
        watered = [move for move in way.moves if move.act == "sprinkle"]
        assert not watered or one.load_h >= (LAST_WATER.stop_low or 0.0)
        if asked.quiet_h:
            assert not [m for m in way.moves if asked.quiet_h[0] <= m.hour < asked.quiet_h[1] and m.hour > 0.0]
        if asked.no_water:
            assert not watered


@pytest.mark.parametrize(("vessel", "limit"), [("floor", PIECE), ("drum", BED)])
@pytest.mark.parametrize("room_c", [4.0, 13.4, 25.0])
def test_it_may_be_kept_at_whole_degrees_that_are_accepted_and_none_under_the_room(
    vessel: str, limit: Limit, room_c: float
) -> None:
    now = floor(room_c=room_c)._replace(vessel=vessel)  # type: ignore[arg-type]
    low, high = edge(limit.accept_low), edge(limit.accept_high)
    wanted = [temp for temp in range(60) if max(low, room_c) <= temp <= high]
    assert holds(now) == (wanted or [int(high)])


def test_only_stops_are_said_to_be_passed_already() -> None:
    assert ACCEPTED and STOP and PIECE.accept_high and PIECE.stop_high
    between, past = (ACCEPTED + STOP) / 2, STOP + 1.0
    warm, hot = (PIECE.accept_high + PIECE.stop_high) / 2, PIECE.stop_high + 0.5
    assert already(floor(since_turning_h=between, temp_c=warm), Asked()) == []
    assert [one.rule for one in already(floor(since_turning_h=past), Asked())] == [TURNING.id]
    assert [one.rule for one in already(floor(temp_c=hot), Asked())] == [PIECE.id]


@pytest.mark.parametrize("load_h", [20.0, 60.0])
def test_each_way_to_keep_a_bed_is_priced_as_by_hand(load_h: float) -> None:
    """Hours off the plan, growth and dryness, hands at night, turnings over, waiting, water, and degrees of change."""
    now = floor(load_h=load_h)
    weights = PUTS_FIRST["clock"]
    waited_ever = False
    assert ACCEPTED and MOISTURE.accept_low and READY_HOURS.accept_high
    for one in candidates(now, Asked()):
        moves = [hour for hour in one.turnings.hours if hour > 0] + [one.load_h]
        waited = max(0.0, one.load_h - one.ready_h - READY_HOURS.accept_high)
        waited_ever |= waited > 0.0
        off = abs(one.growth_h - now.ready_growth_h) / 6.0 + max(0.0, MOISTURE.accept_low - one.moisture)
        cost = weights.hour * abs(one.load_h - load_h) + weights.off * off
        cost += weights.night * len({hour for hour in moves if night(hour, now.clock_h)})
        cost += (one.turnings.longest_h > ACCEPTED) + 0.25 * waited + 0.02 * one.sprinkled_l_t
        assert price(one, now, weights, Asked()) == pytest.approx(cost + 0.05 * abs(one.hold_c - now.temp_c), abs=1e-6)
    assert waited_ever or load_h > 20.0
