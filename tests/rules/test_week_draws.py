"""A plan played through many weeks: with nothing in doubt by hand, with one thing in doubt against its distribution."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import norm

from calculators.models.living.pace import GROWTH_Q10, GROWTH_Q10_SD
from calculators.rules.week.draws import Doubt, Drawn, slower, weeks
from calculators.rules.week.house import Batch, Bed, House, Kiln, Plan, Steep, Stood, Way

HANDS = tuple(2 if 6 <= hour < 14 else 1 if 14 <= hour < 20 else 0 for hour in range(24))
HOUSE = House(
    (Steep("A", 6.0), Steep("B", 6.0)),
    (Bed("floor", "floor", 12.0, True), Bed("drum", "drum", 6.0)),
    (Kiln("kiln", 6.0, 30, 4), Kiln("other", 6.0, 30, 4)),
    HANDS,
    now=6,
)
BATCH = Batch("a", 6.0, None, (8.0, 7.0, 8.0), (120, 120))
WAY = Way(0, (6, 21), (14, 29), 0, 31, 151, 0, 151, 181)  # water at 21:00 and a drain at 5:00 call somebody in
SURE = Doubt(0.0, (0.0, 0.0), 0.0, 0.0)
ALWAYS = HOUSE._replace(hands=(2,) * 24)


def one(way: Way = WAY, doubt: Doubt = SURE, house: House = HOUSE, batch: Batch = BATCH) -> Drawn:
    return weeks(house, (batch,), {batch.id: way}, doubt)[batch.id]


def test_with_nothing_in_doubt_all_goes_by_the_plan():
    assert one() == Drawn(31.0, 151.0, 151.0, 0.0, 0.0, 0.0, 0.0, 0.0, 2.0)


@pytest.mark.parametrize(("ready", "watched", "stopped"), [(145, 0, 0), (144, 100, 0), (139, 100, 0), (138, 100, 100)])
def test_a_wait_is_watched_past_six_hours_and_stopped_past_twelve(ready, watched, stopped):
    told = BATCH._replace(stood=Stood(bed=0, cast=31, ready=ready))
    found = one(WAY._replace(ready=ready), house=HOUSE._replace(now=151), batch=told)  # nothing is loaded before now
    assert (found.waits_watched, found.waits_stopped) == (watched, stopped)


@pytest.mark.parametrize(("drained", "watched", "stopped"), [(19, 0, 0), (18, 100, 0), (7, 100, 0), (6, 100, 100)])
def test_a_rest_before_the_cast_is_watched_past_twelve_hours_and_stopped_past_a_day(drained, watched, stopped):
    found = one(WAY._replace(drains=(4, drained)))
    assert (found.rests_watched, found.rests_stopped) == (watched, stopped)
    cast = BATCH._replace(stood=Stood(bed=0, cast=31))
    assert one(WAY._replace(drains=(4, drained)), batch=cast).rests_watched == 0.0


@pytest.mark.parametrize(("due", "late"), [(181, 0.0), (180, 100.0), (None, 0.0)])
def test_malt_is_late_when_it_is_off_after_the_hour_it_is_wanted_by(due, late):
    assert one(batch=BATCH._replace(due=due)).late == late


@pytest.mark.parametrize(
    ("house", "way", "called"),
    [
        (HOUSE._replace(now=21), WAY, 2.0),
        (HOUSE._replace(now=22), WAY, 1.0),
        (HOUSE, WAY._replace(waters=(6, 19)), 1.0),
        (HOUSE, WAY._replace(waters=(6, 20)), 2.0),
    ],
)
def test_who_is_called_in_is_counted_from_now_on(house, way, called):
    assert one(way, house=house, batch=BATCH._replace(stood=Stood(steep=0, fill=6))).called == called


def test_a_kiln_that_is_emptied_at_night_calls_somebody_in():
    slow = HOUSE._replace(kilns=(Kiln("kiln", 6.0, 39, 4),))
    assert one(WAY._replace(off=190), house=slow).called == 3.0  # at 22:00
    assert one(WAY._replace(off=190), house=slow, batch=BATCH._replace(stood=Stood(bed=0, cast=31))).called == 1.0
    half = Doubt(0.0, (0.0, 0.0), 0.0, 0.02)
    late = one(doubt=half, house=HOUSE._replace(kilns=(Kiln("kiln", 6.0, 36, 4),)))
    assert late.called == pytest.approx(2.5, abs=0.1)  # at 19:00 as planned, and each later minute is 20:00


def test_a_cast_that_is_late_waits_for_hands():
    """Drained at 13:00; an hour later there are two, and from 14:00 on none that may cast before 6:00."""
    way = WAY._replace(drains=(14, 37), cast=38)
    assert one(way).cast_high == 54.0
    assert one(way, house=HOUSE._replace(cast_hands=1)).cast_high == 38.0
    assert one(way, house=HOUSE._replace(hands=(0,) * 24)).cast_high == 38.0  # nobody ever: the plan stands
    assert one(way._replace(cast=35)).cast_high == 54.0  # not before it is drained
    assert one(way._replace(drains=(14, 36), cast=37)).cast_high == 37.0
    assert one(way._replace(drains=(14, 36), cast=37), house=HOUSE._replace(drain=2)).cast_high == 54.0


def quantile(mean: float, sd: float, share: float) -> float:
    return float(norm.ppf(share, mean, sd))


def test_a_cast_is_late_by_as_much_as_is_doubted():
    found = one(WAY._replace(drains=(14, 30)), Doubt(0.0, (0.0, 0.0), 60.0, 0.0), ALWAYS)
    assert found.cast_high == pytest.approx(31 + quantile(0.0, 30.0, 0.975), abs=5.0)
    assert found.ready_low == 151.0  # never sooner
    assert found.ready_high == pytest.approx(151 + quantile(0.0, 30.0, 0.975), abs=5.0)


def test_half_an_hour_is_no_other_hour():
    way = WAY._replace(drains=(14, 30))
    assert one(way, Doubt(0.0, (0.0, 0.0), 0.46, 0.0), ALWAYS).cast_high == 31.0
    assert one(way, Doubt(0.0, (0.0, 0.0), 0.60, 0.0), ALWAYS).cast_high == 32.0


def test_growth_takes_as_many_days_more_or_fewer_as_are_doubted():
    found = one(doubt=Doubt(0.2, (0.0, 0.0), 0.0, 0.0), house=ALWAYS)
    low, high = (31 + 120 * np.exp(quantile(0.0, 0.1, share)) for share in (0.025, 0.975))
    assert [found.ready_low, found.ready_high] == pytest.approx([low, high], abs=2.5)
    told = BATCH._replace(stood=Stood(bed=0, cast=31, ready=151))
    assert one(doubt=Doubt(0.2, (9.0, 9.0), 0.0, 0.0), batch=told).ready_high == 151.0  # somebody looked
    begun = BATCH._replace(stood=Stood(bed=0, cast=31))
    late = one(doubt=Doubt(0.2, (0.0, 0.0), 0.0, 0.0), batch=begun, house=ALWAYS._replace(now=149))
    assert late.ready_low == 149.0  # it is not ready yet


def test_a_bed_that_is_warmer_than_its_days_is_in_doubt_by_the_pace():
    assert slower(np.array([GROWTH_Q10]), 20.0) == pytest.approx(0.25)  # twice as fast for each 10 K
    assert slower(np.array([GROWTH_Q10]), -10.0) == pytest.approx(2.0)
    assert slower(np.array([-0.5 * GROWTH_Q10, 0.0]), 10.0) == pytest.approx([2.0, 1.0])
    off = Doubt(0.0, (0.0, -10.0), 0.0, 0.0)
    assert one(doubt=off).ready_high == 151.0
    found = one(WAY._replace(bed=1), off, ALWAYS)
    spread = 120 * GROWTH_Q10_SD / GROWTH_Q10
    assert found.ready_low == pytest.approx(quantile(151.0, spread, 0.025), abs=0.15 * spread * 2)
    assert found.ready_high == pytest.approx(quantile(151.0, spread, 0.975), abs=0.15 * spread * 2)


def test_a_kiln_is_late_by_as_much_as_is_doubted_and_never_early():
    doubt = Doubt(0.0, (0.0, 0.0), 0.0, 8.0)
    for later in (0.0, 2.0, 6.0):
        share = one(doubt=doubt, house=ALWAYS, batch=BATCH._replace(due=181 + int(later))).late
        assert share == pytest.approx(100 * norm.sf(later, 0.0, 4.0), abs=5.0)
    assert one(doubt=doubt, house=ALWAYS, batch=BATCH._replace(due=180)).late == 100.0


def pair(first: Way, second: Way, house: House = ALWAYS, doubt: Doubt = SURE, **stood: Stood) -> dict[str, Drawn]:
    plan: Plan = {"a": first, "b": second}
    return weeks(house, tuple(BATCH._replace(id=name, stood=stood.get(name, Stood())) for name in plan), plan, doubt)


LATER = Way(1, (126, 141), (134, 154), 0, 155, 275, 1, 275, 305)


def test_a_steep_is_filled_when_the_one_before_has_left_it_clean():
    """The first is drained two hours late, so cast two hours late; the second is filled and cast by as much later."""
    first = WAY._replace(drains=(14, 32))
    second = Way(0, (33, 48), (41, 56), 0, 57, 177, 1, 177, 207)
    assert pair(first, second)["a"].cast_high == 33.0
    assert pair(first, second)["b"].cast_high == 59.0
    assert pair(first, second._replace(steep=1))["b"].cast_high == 57.0
    assert pair(first, second._replace(waters=(32, 48)))["b"].cast_high == 57.0  # not planned behind it
    wanting = ALWAYS._replace(hands=tuple({11: 0, 12: 1}.get(hour, 2) for hour in range(24)))
    soon = second._replace(drains=(41, 54), cast=55)
    assert pair(first, soon)["b"].cast_high == 57.0  # filled at 11:00, two hours late
    assert pair(first, soon, wanting)["b"].cast_high == 58.0  # filled at 12:00, when somebody is there
    assert pair(WAY, soon, wanting)["b"].cast_high == 55.0
    assert pair(first, second, wanting, a=Stood(bed=0, cast=31))["b"].cast_high == 57.0  # it was cast as planned


def test_a_drum_is_cast_into_when_the_one_before_has_left_it_clean():
    """The first is ready three hours after its planned load; the second lies drained for as much longer."""
    first = WAY._replace(bed=1, ready=154)
    second = LATER._replace(bed=1)
    assert pair(first, second)["b"].cast_high == 158.0
    assert pair(first, second._replace(bed=0))["b"].cast_high == 155.0
    assert pair(first, second._replace(cast=154, drains=(134, 153)))["b"].cast_high == 154.0
    assert pair(first, second, a=Stood(bed=1, cast=31, kiln=0, load=151))["b"].cast_high == 155.0


def test_a_kiln_is_loaded_when_the_one_before_has_left_it():
    """The first is ready three hours late and the second lies ready for them."""
    first, second = WAY._replace(ready=154), LATER._replace(kiln=0, load=185, off=215, cast=60, ready=180)
    second = second._replace(waters=(37, 45), drains=(40, 59))
    assert pair(first, second)["b"].waits_watched == 100.0  # 188 - 180
    assert pair(first, second._replace(kiln=1))["b"].waits_watched == 0.0
    assert pair(first, second._replace(load=184))["b"].waits_watched == 0.0
    assert pair(first, second, a=Stood(bed=0, cast=31, kiln=0, load=151))["b"].waits_watched == 0.0
    assert "a" not in pair(first, second, a=Stood(bed=0, cast=31, kiln=0, load=151))
    slow = pair(WAY, second._replace(ready=179), doubt=Doubt(0.0, (0.0, 0.0), 0.0, 4.0))
    assert slow["b"].waits_watched == pytest.approx(50.0, abs=5.0)  # each minute over 185 - 179 = 6 h


def test_the_same_weeks_are_drawn_each_time_and_each_batch_has_its_own_luck():
    doubt = Doubt(0.2, (3.0, 3.0), 4.0, 4.0)
    again = pair(WAY, LATER, doubt=doubt)
    assert again == pair(WAY, LATER, doubt=doubt)
    both = pair(WAY, WAY._replace(steep=1, kiln=1), doubt=doubt)
    assert both["a"].ready_low != both["b"].ready_low
