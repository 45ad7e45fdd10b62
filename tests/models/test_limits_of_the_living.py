"""Limits of the living batch, as its descriptions tell them: accepted exactly, refused just outside."""

from contextlib import nullcontext
from typing import Any

import pytest

from calculators.models.bounds import OutOfRange
from calculators.models.living.acrospires import classes, length_at_share, mean_length
from calculators.models.living.batch import bed_course, course
from calculators.models.living.breathing import breathing, breathing_rate, exchange
from calculators.models.living.chitting import Corns, chitted, clock_for, intervals
from calculators.models.living.fan_stopped import after_fan_stops
from calculators.models.living.lot_plan_state import BedSpell, Lot, Plan, check_bed, check_plan
from calculators.models.living.pace import air_shares, growth_after_cast, paces
from calculators.models.living.readings import (
    CORNS as CORNS_COUNTED,
)
from calculators.models.living.readings import (
    AcrospireCount,
    Basket,
    BottomTop,
    Chits,
    Oven,
    Probe,
    check_readings,
)
from calculators.models.living.warmth import Rest, air_on, check_rest, suction_that_holds
from calculators.models.steep.course import Stage
from tests.models.both_sides import Case, cases

CORNS = Corns()
AIR = air_on(temp_c=12.0, relative_humidity=80.0)
REST = Rest(12.0, 40.0, 15.0, 12.0, 15.0, AIR)
CAST_H, END_H = 40.0, 100.0


def corns(**changes: float) -> float:
    return chitted(clock_h=20.0, corns=CORNS._replace(**changes))


def rest(**changes: Any) -> None:
    check_rest(REST._replace(**changes))


def plan(**changes: float) -> None:
    stage = Stage(changes.pop("hours", 8.0), changes.pop("water_temp_c", 14.0))
    check_plan(Plan((stage,) * int(changes.pop("stages", 1)), **changes))  # type: ignore[arg-type]


def bed(**changes: float) -> None:
    spells = int(changes.pop("bed", 1))
    check_bed([BedSpell(**{"hours": 24.0, "temp_c": 15.0, **changes})] * spells)


def batch(**changes: Any) -> object:
    usual: dict[str, Any] = {"barley_moisture": 12.0, "moisture": 44.0, "growth_h": 20.0, "spells": [BedSpell(2, 15)]}
    return bed_course(**{**usual, **changes})


def dried(*, drying_factor: float) -> object:
    return course(plan=Plan((Stage(0.5, 14.0),)), lot=Lot(drying_factor=drying_factor))


def basket(**changes: float) -> None:
    check_readings([Basket(**{"hour": 30.0, "moisture": 40.0, **changes})], CAST_H, END_H)


def oven(**changes: float) -> None:
    check_readings([Oven(**{"hour": 50.0, "moisture": 40.0, **changes})], CAST_H, END_H)


def probe(**changes: float) -> None:
    check_readings([Probe(**{"hour": 50.0, "temp_c": 15.0, **changes})], CAST_H, END_H)


def chits(**changes: Any) -> None:
    corns = int(changes.get("corns", 100))
    check_readings([Chits(**{"hour": 50.0, "chitted": corns // 2, "corns": corns, **changes})], CAST_H, END_H)


def bottom_top(**changes: float) -> None:
    given = {"hour": 50.0, "bottom_c": 16.0, "top_c": 14.0, "depth_m": 0.15, "hours_since_turning": 6.0}
    check_readings([BottomTop(**{**given, **changes})], CAST_H, END_H)


def stages(*, hours: float) -> None:
    air_shares(stage_hours=[hours])


def many_stages(*, stage_hours: int) -> None:
    air_shares(stage_hours=[8.0] * stage_hours)


def counts(*, corns: int) -> None:
    intervals(times=[10.0], chitted=[1], corns=corns)


def suction(*, limit_c: float) -> None:
    suction_that_holds(limit_c=limit_c, rest=REST)


BREATH = {"net_moisture": 44.0, "temp_c": 15.0, "growth_h": 50.0}
WHOLE = {**BREATH, "barley_kg": 1000.0, "barley_moisture": 12.0}
FAN = {
    "place": "rest", "barley_moisture": 14.0, "net_moisture": 45.0, "temp_c": 17.0, "growth_h": 78.0,
    "limit_c": 25.0, "room_c": 15.0, "doubt_factor": 1.0,
}  # fmt: skip
CASES = [
    *cases(exchange, {}, respired_kg_h=(0.0, 1e6)),
    *cases(
        breathing_rate, BREATH, temp_c=(0.0, 40.0), growth_h=(0.0, 1000.0),
        co2_percent=(0.0, 100.0), o2_percent=(0.0, 25.0), factor=(0.1, 10.0), supply_mg_kg_h=(0.0, 1000.0),
        since_wet_transfer_h=(0.0, 1000.0),
    ),
    *cases(breathing_rate, {**BREATH, "growth_h": 0.0}, net_moisture=(5.0, 55.0)),
    *cases(breathing, WHOLE, barley_kg=(0.001, 1e6), barley_moisture=(5.0, 25.0), loss_percent=(0.0, 30.0)),
    *cases(paces, {"net_moisture": 44.0, "temp_c": 15.0}, net_moisture=(5.0, 55.0), temp_c=(1.0, 30.0),
           air_share=(0.0, 1.0)),
    *cases(growth_after_cast, {"day": 3.0, "temp_c": 15.0}, day=(0.0, 30.0), temp_c=(0.0, 40.0)),
    *cases(stages, {}, hours=(0.25, 72.0)),
    *cases(many_stages, {}, stage_hours=(1, 20)),
    *cases(corns, {}, middle_h=(4.0, 200.0), spread=(0.05, 1.0), grows=(0.0, 1.0), sensitive=(0.0, 1.0)),
    *cases(chitted, {"corns": CORNS}, clock_h=(0.0, 1e5)),
    *cases(clock_for, {"corns": CORNS}, share=(0.0, 1.0)),
    *cases(counts, {}, corns=(1, 100_000)),
    *cases(classes, {"corns": CORNS}, growth_h=(0.0, 1000.0)),
    *cases(
        length_at_share, {"corns": CORNS, "growth_h": 140.0, "share": 0.5}, share=(0.01, 0.99), growth_h=(0.0, 1000.0)
    ),
    *cases(mean_length, {"corns": CORNS}, growth_h=(0.0, 1000.0)),
    *cases(
        rest, {}, barley_moisture=(5.0, 25.0), net_moisture=(20.0, 55.0), start_c=(1.0, 30.0), hours=(0.1, 48.0),
        growth_h=(0.0, 1000.0), suction_m3_h_t=(0.0, 500.0), film_db=(0.0, 0.12), wall_w_k_t=(0.0, 100.0),
        factor=(0.1, 10.0),
    ),
    *cases(suction, {}, limit_c=(15.0, 40.0)),
    *cases(after_fan_stops, FAN, temp_c=(1.0, 25.0), doubt_factor=(1.0, 10.0),
           room_c=(0.0, 40.0)),
    *cases(after_fan_stops, {**FAN, "temp_c": 4.0, "room_c": 4.0}, limit_c=(5.0, 40.0)),
    *cases(plan, {}, stages=(1, 20), hours=(0.25, 72.0), water_temp_c=(2.0, 30.0), suction_m3_h_t=(0.0, 500.0)),
    *cases(bed, {}, hours=(1.0, 96.0), temp_c=(1.0, 30.0), sprinkled_l_t=(0.0, 300.0)),
    *cases(batch, {}, barley_moisture=(5.0, 25.0), growth_h=(0.0, 1000.0), loss_percent=(0.0, 30.0)),
    *cases(dried, {}, drying_factor=(0.0, 5.0)),
    *cases(basket, {}, hour=(0.25, 40.0), moisture=(0.0, 65.0)),
    *cases(oven, {}, hour=(0.25, 100.0), moisture=(0.0, 65.0)),
    *cases(probe, {}, hour=(0.25, 100.0), temp_c=(-5.0, 60.0)),
    *cases(chits, {}, corns=(1, 10_000), chitted=(0, 100)),
    *cases(bottom_top, {}, hour=(40.0, 100.0), bottom_c=(-5.0, 60.0), top_c=(-5.0, 60.0),
           hours_since_turning=(0.1, 36.0), depth_m=(0.04, 0.8)),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=str)
def test_limits_from_both_sides(case: Case) -> None:
    case.hold()


def test_days_after_the_cast_are_none_to_thirty() -> None:
    for days in (0, 30):
        bed(bed=days)
    with pytest.raises(OutOfRange) as caught:
        bed(bed=31)
    assert (caught.value.parameter, caught.value.low, caught.value.high) == ("bed", 0, 30)


def test_a_bed_too_wet_for_any_grain_is_refused() -> None:
    batch(moisture=55.0)
    with pytest.raises(OutOfRange) as caught:
        batch(moisture=55.1)
    assert (caught.value.parameter, caught.value.high) == ("moisture", 55.0)


@pytest.mark.parametrize(
    ("one", "fits"), [((0, 0, 1, 0, 0), True), ((0, 0, 0, 0, 0), False), ((0, 0, -1, 2, 0), False)]
)
def test_acrospires_are_counted_from_one_corn_on(one: tuple[int, int, int, int, int], fits: bool) -> None:
    with nullcontext() if fits else pytest.raises(OutOfRange):
        check_readings([AcrospireCount(50.0, one)], CAST_H, END_H)


def test_no_more_acrospires_are_counted_than_corns_may_be() -> None:
    most = int(CORNS_COUNTED.high)
    check_readings([AcrospireCount(50.0, (most, 0, 0, 0, 0))], CAST_H, END_H)
    with pytest.raises(OutOfRange):
        check_readings([AcrospireCount(50.0, (most, 1, 0, 0, 0))], CAST_H, END_H)
