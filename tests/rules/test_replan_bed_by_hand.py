"""Every way to keep a bed made a second time: its states driven by hand, its hours tried one by one, limit by limit."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from math import ceil, floor
from typing import Any, NamedTuple

import numpy as np
import pytest

from calculators.models.living.acrospires import Acrospires, classes
from calculators.models.living.batch import bed_course
from calculators.models.living.chitting import Corns
from calculators.models.living.fan_stopped import hours_to, stopped_courses
from calculators.models.living.lot_plan_state import BedSpell, Lot
from calculators.models.living.ready import own_corn_length
from calculators.rules.limit import edge
from calculators.rules.limits import casting, drum_germination, floor_germination, kiln_hand_over
from calculators.rules.limits.readiness import OVERSHOT, READY
from calculators.rules.replan import bed
from calculators.rules.replan.bed import BedNow, Candidate
from calculators.rules.replan.faults import Asked
from calculators.rules.replan.turnings import Turning, Turnings
from calculators.rules.replan.ways import PUTS_FIRST, Move, hands_at_night

FLOOR = BedNow("floor", 12.5, 44.5, 16.0, 78.0, 9.0, 22.0, 60.0)
DRUM = BedNow("drum", 12.5, 44.5, 16.0, 60.0, 6.0, 22.0, 72.0)
NIGHT_OFF = Asked(quiet_h=(2.0, 10.0))
FAN_STOOD = Asked(fan_off_h=4.0, no_water=True)

CASES: dict[str, tuple[BedNow, Asked]] = {
    "floor": (FLOOR, Asked()),
    "no-plan": (FLOOR._replace(load_h=None, growth_h=110.0), Asked()),
    "dry": (FLOOR._replace(moisture=40.6, growth_h=70.0), Asked()),
    "drier-than-its-stop": (FLOOR._replace(moisture=39.8, growth_h=90.0), Asked()),
    "wet": (FLOOR._replace(moisture=47.5), Asked()),
    "wetter-than-its-stop": (FLOOR._replace(moisture=48.3), Asked()),
    "just-watered": (FLOOR._replace(since_water_h=1.0, growth_h=128.0), Asked()),
    "ready-at-once": (FLOOR._replace(growth_h=141.0), Asked()),
    "overgrown": (FLOOR._replace(growth_h=150.0), Asked()),
    "kiln-late": (FLOOR._replace(growth_h=100.0), Asked(load_from_h=12.5)),
    "kiln-late-without-plan": (FLOOR._replace(growth_h=120.0, load_h=None), Asked(load_from_h=8.0)),
    "nobody-there": (FLOOR._replace(since_turning_h=4.0), NIGHT_OFF),
    "missed": (FLOOR._replace(since_turning_h=18.0), Asked(turn_now=True)),
    "sour": (FLOOR._replace(clock_h=8.0, since_turning_h=7.0), Asked(turn_now=True, no_water=True)),
    "couch": (FLOOR._replace(couch=True, since_turning_h=10.0, growth_h=30.0), Asked()),
    "cool-room": (FLOOR._replace(room_c=14.5, barley_moisture=14.0, loss_percent=4.0), Asked()),
    "drum": (DRUM, Asked()),
    "drum-in-a-house-of-six-days": (DRUM._replace(ready_days=6.0), Asked()),
    "fan-stood": (DRUM, FAN_STOOD),
    "fan-stood-past-a-turning": (DRUM._replace(since_turning_h=22.0), FAN_STOOD),
    "fan-stood-past-a-turning-and-a-half-hour": (DRUM._replace(since_turning_h=22.0), Asked(fan_off_h=3.5)),
    "fan-stood-a-moment": (DRUM, Asked(fan_off_h=0.5, no_water=True)),
    "fan-stood-too-warm": (DRUM._replace(temp_c=29.5, room_c=29.0), FAN_STOOD),
}


class Made(NamedTuple):
    """One way to keep a bed as worked out here, and what it passes that is a stop."""

    hold_c: float
    litres: float
    load_h: float
    ready_h: float
    growth_h: float
    moisture: float
    row: Turnings
    stops: frozenset[str]


def stood(now: BedNow, hours: float) -> tuple[Any, Any]:
    return stopped_courses(
        place="drum", barley_moisture=now.barley_moisture, net_moisture=now.moisture, temp_c=min(now.temp_c, 30.0),
        growth_h=now.growth_h, room_c=now.room_c, hours=hours,
    )  # fmt: skip


def course(now: BedNow, asked: Asked, hold_c: float, litres: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Hours, growth and moisture of the bed for ten days; while its fan stands it is as warm as it gets on the mean."""
    spells = []
    if asked.fan_off_h:
        temps = stood(now, asked.fan_off_h)[0].temps_c
        spells.append(BedSpell(max(asked.fan_off_h, 1.0), min(float(np.mean(temps)), 30.0)))
    spells += [BedSpell(48.0, hold_c, sprinkled_l_t=litres if n == 0 else 0.0) for n in range(5)]
    states = bed_course(
        barley_moisture=now.barley_moisture, moisture=now.moisture, growth_h=now.growth_h, spells=spells,
        loss_percent=now.loss_percent, lot=Lot(),
    )  # fmt: skip
    return (
        np.array([s.hour for s in states]), np.array([s.growth_h for s in states]), np.array([s.net for s in states])
    )  # fmt: skip


def degrees(now: BedNow) -> list[float]:
    """12 to 17 C, and none under the room's."""
    return [float(t) for t in range(12, 18) if t >= now.room_c] or [17.0]


@cache
def made(case: str) -> list[Made]:
    """Every temperature, water and full hour of loading, with the stops that it passes."""
    return list(_made(*CASES[case]))


def _made(now: BedNow, asked: Asked) -> Iterator[Made]:
    wanted = now.ready_growth_h
    at_once, at_first = asked.turn_now and not asked.fan_off_h, casting.COUCH_HOURS if now.couch else None
    turning = {
        wetted: Turning(
            now.turning, since_h=now.since_turning_h, clock_h=now.clock_h, until_h=240.0, now=wetted or at_once,
            quiet_h=asked.quiet_h, shut_h=asked.fan_off_h, first=at_first,
        )
        for wetted in (False, True)
    }  # fmt: skip
    for hold_c in degrees(now):
        for litres in (0.0, 15.0, 30.0, 60.0):
            if litres and (asked.no_water or now.couch):
                continue
            hours, growth, net = course(now, asked, hold_c, litres)
            if growth[-1] < wanted:
                continue
            ready = 0.0 if growth[0] >= wanted else float(np.interp(wanted, growth, hours))
            free = (now.load_h or 0.0) + asked.load_from_h if asked.load_from_h else 0.0
            for load in range(ceil(max(ready, free, asked.fan_off_h, 1.0)), floor(min(ready + 12.0, hours[-1])) + 1):
                row = turning[litres > 0.0].until(float(load))
                if row is None:
                    continue
                g, m = float(np.interp(load, hours, growth)), float(np.interp(load, hours, net))
                on_the_way = [m, *net[(hours > 0.0) & (hours < load)]]
                done = [0.0] * bool(litres) + [*row.hours, float(load)]
                if asked.quiet_h and any(asked.quiet_h[0] <= h < asked.quiet_h[1] and h > 0.0 for h in done):
                    continue
                past = frozenset(stops(now, asked, litres, float(load), g, m, row, on_the_way))
                yield Made(hold_c, litres, float(load), ready, g, m, row, past)


def stops(
    now: BedNow, asked: Asked, litres: float, load: float, growth: float, moisture: float, row: Turnings,
    on_the_way: list[float],
) -> Iterator[str]:  # fmt: skip
    """The stops of one way, edge by edge, with the figures of the table."""
    if not 38.0 <= moisture <= 47.0:
        yield "kiln-moisture"
    if (load if litres else load + now.since_water_h) < 6.0:
        yield "last-water"
    if bed.overshot_percent(growth, now.ready_days) >= 10.0:
        yield "overshot"
    if min(on_the_way) < min(40.0, now.moisture):
        yield "dry"
    if max(on_the_way) > max(48.0, now.moisture):
        yield "wet"
    soonest = float(ceil(asked.fan_off_h))  # the first full hour at which anybody may go near
    if row.longest_h > edge(now.turning.stop_high) and not now.couch and row.hours[:1] != (soonest,):
        yield "turning"


@pytest.mark.further(keep=6)
@pytest.mark.parametrize("case", list(CASES))
def test_a_bed_is_offered_every_way_that_passes_no_stop_and_no_other(case: str) -> None:
    now, asked = CASES[case]
    wanted = [one for one in made(case) if not one.stops]
    found = {(one.hold_c, one.sprinkled_l_t, one.load_h): one for one in bed.candidates(now, asked)}
    assert set(found) == {one[:3] for one in wanted}
    for one in wanted:
        other = found[one[:3]]
        assert other.turnings == one.row
        figures = (other.ready_h, other.growth_h, other.moisture)
        assert figures == pytest.approx((one.ready_h, one.growth_h, one.moisture), abs=1e-6)


def test_each_stop_leaves_out_some_way_of_these_beds() -> None:
    """Else the test above would say nothing of it. No bed within its own moisture comes out of the kiln's."""
    cases = ("dry", "wet", "just-watered", "ready-at-once")
    left_out = {stop for case in cases for one in made(case) for stop in one.stops}
    assert left_out >= {"last-water", "overshot", "dry", "wet", "kiln-moisture"}


@pytest.mark.parametrize("case", ["floor", "no-plan", "ready-at-once", "drum", "just-watered"])
def test_a_way_of_a_bed_says_what_is_done_and_what_it_costs(case: str) -> None:
    now, asked = CASES[case]
    found = {one[:3]: one for one in made(case) if not one.stops}
    ways = bed.ways_of(now, asked)
    assert ways.fan_off_h is None and ways.ways
    for way in ways.ways:
        litres = (way.moves[0].figure or 0.0) if way.moves[0].act == "sprinkle" else 0.0
        assert way.hold_c is not None
        one = found[way.hold_c, litres, way.moves[-1].hour]
        turned = [Move(hour, "turn") for hour in one.row.hours]
        assert way.moves[litres > 0.0 :] == (*turned, Move(one.load_h, "load"))
        cost = way.cost
        assert cost.later_h == (None if now.load_h is None else pytest.approx(one.load_h - now.load_h))
        assert cost.moisture == pytest.approx(one.moisture, abs=1e-6) and cost.growth_h == pytest.approx(one.growth_h)
        assert cost.off_points == pytest.approx(min(0.0, one.moisture - edge(floor_germination.MOISTURE.accept_low)))
        assert cost.growth_off_h == pytest.approx(one.growth_h - now.ready_growth_h, abs=1e-6)
        assert cost.night_hands == hands_at_night(way.moves, now.clock_h) and cost.chit_percent is None
        assert (way.stages, way.suction_m3_h_t) == ((), None)
        rules = {line.rule for line in way.watched}
        kiln = kiln_hand_over.MOISTURE
        assert (kiln.id in rules) == (not edge(kiln.accept_low) <= one.moisture <= edge(kiln.accept_high))
        waited = one.load_h - one.ready_h > edge(kiln_hand_over.READY_HOURS.accept_high)
        assert (kiln_hand_over.READY_HOURS.id in rules) == waited
        assert all(line.mark == "watch" for line in way.watched)


def test_a_way_that_ends_too_dry_says_by_how_many_points() -> None:
    low = edge(floor_germination.MOISTURE.accept_low)
    for over, told in ((-1.5, -1.5), (3.0, 0.0)):
        assert bed._way(KEPT._replace(moisture=low + over), FLOOR).cost.off_points == pytest.approx(told)


def test_floor_and_drum_are_each_kept_by_their_own_limit(monkeypatch: pytest.MonkeyPatch) -> None:
    """Both accept the same today; a house may move one of them."""
    monkeypatch.setattr(drum_germination, "BED", drum_germination.BED._replace(accept_high=14.0))
    assert (bed.holds(FLOOR)[-1], bed.holds(DRUM)[-1]) == (17.0, 14.0)


def test_water_is_put_on_first_and_turned_in_at_once() -> None:
    now = FLOOR._replace(moisture=42.0, growth_h=100.0)
    found = [one for one in bed.candidates(now, Asked()) if one.sprinkled_l_t]
    assert {one.sprinkled_l_t for one in found} == {15.0, 30.0, 60.0}
    for one in found:
        first, second, *_ = bed.moves_of(one)
        assert first == Move(0.0, "sprinkle", one.sprinkled_l_t) and second == Move(0.0, "turn")


ROW = Turnings((0.0, 10.0), 10.0, 0)
KEPT = Candidate(16.0, 0.0, 20.0, 22.0, 139.0, 43.0, ROW)


def rules(one: Candidate, now: BedNow = FLOOR, on_the_way: tuple[float, ...] = ()) -> list[tuple[str, str]]:
    return [(line.rule, line.mark) for line in bed.passed_by(one, now, on_the_way, now.moisture)]


def test_a_bed_that_keeps_the_table_passes_nothing() -> None:
    assert rules(KEPT) == []
    assert rules(KEPT._replace(sprinkled_l_t=30.0, load_h=31.0, ready_h=29.0), FLOOR._replace(since_water_h=0.0)) == []


@pytest.mark.parametrize("vessel", ["floor", "drum"])
def test_each_figure_of_a_bed_is_held_against_its_limit(vessel: str) -> None:
    now = (FLOOR if vessel == "floor" else DRUM)._replace(moisture=44.5)
    warm = floor_germination.PIECE if vessel == "floor" else drum_germination.BED
    for changed, rule, mark in (
        (KEPT._replace(hold_c=edge(warm.accept_high) + 1.0), warm.id, "watch"),
        (KEPT._replace(hold_c=edge(warm.stop_high) + 1.0), warm.id, "stop"),
        (KEPT._replace(load_h=26.5, ready_h=20.0), kiln_hand_over.READY_HOURS.id, "watch"),
        (KEPT._replace(load_h=32.5, ready_h=20.0), kiln_hand_over.READY_HOURS.id, "stop"),
        (KEPT._replace(growth_h=152.0), OVERSHOT.id, "stop"),
        (KEPT._replace(turnings=Turnings((1.0, 13.5), 12.5, 0)), now.turning.id, "watch"),
    ):
        assert rules(changed, now) == [(rule, mark)]
    assert rules(KEPT._replace(turnings=Turnings((1.0, 5.0), 5.0, 0)), now) == []  # hours that have only begun
    assert rules(KEPT._replace(load_h=20.0), now) == [] and rules(KEPT._replace(load_h=26.0), now) == []


def test_moisture_counts_at_its_driest_and_its_wettest_and_only_where_it_goes_further() -> None:
    limit = floor_germination.MOISTURE.id
    assert (limit, "watch") in rules(KEPT, on_the_way=(41.5,)) and (limit, "stop") in rules(KEPT, on_the_way=(39.9,))
    assert rules(KEPT, on_the_way=(46.5,)) == [(limit, "watch")]
    assert rules(KEPT, on_the_way=(48.5,)) == [(limit, "stop")]
    assert (limit, "watch") in rules(KEPT._replace(moisture=41.0))
    dry = FLOOR._replace(moisture=39.0)
    assert rules(KEPT, dry, (39.0, 39.5)) == [] and rules(KEPT, dry, (38.9,)) == [(limit, "stop")]
    wet = FLOOR._replace(moisture=48.5)
    assert rules(KEPT, wet, (48.5, 48.2)) == [] and rules(KEPT, wet, (48.6,)) == [(limit, "stop")]


def test_the_last_water_is_what_is_put_on_now_or_what_was_put_on_before() -> None:
    water = kiln_hand_over.LAST_WATER
    soon = KEPT._replace(load_h=3.0, ready_h=2.0)
    stop, watched = edge(water.stop_low), edge(water.accept_low)
    for since, mark in ((stop - 3.1, "stop"), (stop - 3.0, "watch"), (watched - 3.1, "watch"), (watched - 3.0, None)):
        told = [(water.id, mark)] if mark else []
        assert rules(soon, FLOOR._replace(since_water_h=since)) == told
    assert rules(soon) == []  # nothing is known of any
    for hours, mark in ((stop - 0.05, "stop"), (stop, "watch")):
        loaded = KEPT._replace(sprinkled_l_t=15.0, load_h=hours, ready_h=hours)
        assert rules(loaded, FLOOR._replace(since_water_h=0.0)) == [(water.id, mark)]
    assert rules(soon._replace(sprinkled_l_t=15.0), FLOOR._replace(since_water_h=40.0)) == [(water.id, "stop")]


def test_a_time_between_turnings_that_is_under_way_is_no_way_s_fault() -> None:
    """It is said beside the ways, and each of them turns at once, or loads it."""
    now, late = FLOOR._replace(since_turning_h=18.0), edge(floor_germination.TURNING.stop_high) + 2.0
    told = [(floor_germination.TURNING.id, "stop")]
    assert rules(KEPT._replace(turnings=Turnings((0.0, 10.0), late, 0)), now) == []
    assert rules(KEPT._replace(turnings=Turnings((0.05, 10.0), late + 0.05, 0)), now) == told
    assert rules(KEPT._replace(turnings=Turnings((0.0,), 20.0, 0)), now) == told  # a later one is longer still
    assert rules(KEPT._replace(turnings=Turnings((), late + 22.0, 0)), now) == []
    couch = now._replace(couch=True, since_turning_h=14.0)
    assert rules(KEPT._replace(turnings=Turnings((6.0, 16.0), 20.0, 0)), couch) == []  # its own limit holds for it
    assert rules(KEPT._replace(turnings=Turnings((2.0, 20.0), 18.0, 0)), couch) == told


def test_what_a_bed_has_passed_already_is_said_once_and_what_stands_still_goes_on() -> None:
    def told(now: BedNow, asked: Asked = Asked()) -> list[str]:  # noqa: B008
        return [line.rule for line in bed.already(now, asked)]

    turning, couch = edge(floor_germination.TURNING.stop_high), edge(casting.COUCH_HOURS.stop_high)
    assert told(FLOOR._replace(since_turning_h=turning)) == []
    assert told(FLOOR._replace(since_turning_h=turning + 0.05)) == [floor_germination.TURNING.id]
    assert told(FLOOR._replace(since_turning_h=couch, couch=True)) == []
    assert told(FLOOR._replace(since_turning_h=couch + 0.05, couch=True)) == [casting.COUCH_HOURS.id]
    assert told(FLOOR._replace(since_turning_h=1.0)) == []  # only begun
    assert told(FLOOR._replace(moisture=39.9)) == told(FLOOR._replace(moisture=48.1)) == [floor_germination.MOISTURE.id]
    assert told(FLOOR._replace(temp_c=20.1)) == [floor_germination.PIECE.id]
    assert told(DRUM._replace(temp_c=20.1)) == [drum_germination.BED.id]
    assert told(FLOOR._replace(temp_c=7.9)) == [floor_germination.PIECE.id] and told(DRUM._replace(temp_c=7.9)) == []
    assert told(DRUM, FAN_STOOD) == [drum_germination.BED.id]
    late = DRUM._replace(since_turning_h=edge(drum_germination.TURNING.stop_high) - 1.0)
    assert told(late) == [] and drum_germination.TURNING.id in told(late, FAN_STOOD)
    assert bed.already(DRUM, FAN_STOOD)[0].value == pytest.approx(max(stood(DRUM, 4.0)[0].temps_c))


def test_a_fan_that_stands_takes_a_drum_to_its_stop_in_hours_that_are_told() -> None:
    usual, fast = stood(DRUM, 48.0)
    stop = edge(drum_germination.BED.stop_high)
    assert bed.ways_of(DRUM, FAN_STOOD).fan_off_h == pytest.approx((hours_to(usual, stop), hours_to(fast, stop)))
    assert bed.ways_of(DRUM, Asked()).fan_off_h is None


def test_a_fan_that_stood_in_a_drum_too_warm_or_too_cold_for_the_law_is_reckoned_at_its_ends() -> None:
    for temp, at in ((31.0, 30.0), (0.5, 1.0)):
        now = DRUM._replace(temp_c=temp)
        assert bed.already(now, FAN_STOOD) == bed.already(now._replace(temp_c=at), FAN_STOOD)


@pytest.mark.parametrize("days", [4.0, 5.0, 6.5])
def test_a_batch_is_ready_when_three_in_four_acrospires_are_long_enough_and_overshoots_days_later(days: float) -> None:
    now = FLOOR._replace(ready_days=days)
    length = own_corn_length(reference_days=days, reference_temp_c=15.0, share=edge(READY.accept_low) / 100.0)
    assert bed.overshot_percent(now.ready_growth_h, days) < 2.0
    shares = [bed.overshot_percent(now.ready_growth_h + late, days) for late in (0.0, 6.0, 12.0, 24.0, 48.0)]
    assert shares == sorted(shares) and 15.0 < shares[3] < shares[4] < 100.0
    every = classes(growth_h=now.ready_growth_h + 24.0, corns=Corns(), acrospires=Acrospires(length))
    assert shares[3] == pytest.approx(100.0 * every[-1]) and sum(every) == pytest.approx(1.0)


def test_waiting_for_a_kiln_that_is_late_is_no_fault_of_the_way() -> None:
    """Its hours are counted from when the kiln is free; what waits longer than accepted counts a quarter an hour."""
    weights = PUTS_FIRST["clock"]
    one = KEPT._replace(load_h=30.0, ready_h=20.0, growth_h=FLOOR.ready_growth_h, hold_c=FLOOR.temp_c)
    night = 0.3  # at hour 10, 8 in the morning, none; loaded at hour 30, at 4
    now = FLOOR._replace(load_h=18.0)
    price = bed.price(one, now, weights, Asked(load_from_h=12.0))
    assert price == pytest.approx(0.25 * 4.0 + night)
    assert bed.price(one, now, weights, Asked()) == pytest.approx(price + 12.0)
    assert bed.price(one, now._replace(load_h=None), weights, Asked()) == pytest.approx(price + 10.0)
    limit = edge(now.turning.accept_high)
    over = one._replace(turnings=ROW._replace(longest_h=limit + 0.1))
    accepted = one._replace(turnings=ROW._replace(longest_h=limit))
    assert bed.price(accepted, now, weights, Asked()) == pytest.approx(price + 12.0)
    assert bed.price(over, now, weights, Asked()) == pytest.approx(price + 13.0)
