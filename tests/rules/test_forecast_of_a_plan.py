"""The hours at which a forecast is looked at, what it is held against there, and what may still be read."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from calculators.models.living import outlook
from calculators.models.living.lot_plan_state import BedSpell, Plan
from calculators.models.living.readings import AcrospireCount, Basket, BottomTop, Chits, Oven, Probe
from calculators.models.steep.course import Stage
from calculators.rules.forecast import (
    Ends,
    Range,
    bed_hours,
    drains_ahead,
    ends_of,
    hours_in,
    may_be_taken,
    of_plan,
    range_of,
    rest_hours,
    stops_of,
)
from calculators.rules.limit import edge
from calculators.rules.limits import casting, drum_germination, floor_germination
from calculators.rules.limits.readiness import OVERSHOT
from calculators.rules.limits.steeping import (
    FIRST_DRAIN,
    IMMERSION,
    REST,
    REST_TEMP,
    SECOND_DRAIN,
    STEEP,
    WATER_TEMP,
)

HOURS = (8.0, 8.0, 8.0, 12.0, 3.0)
PLAN = Plan(tuple(Stage(h, 14.0) for h in HOURS), tuple(BedSpell(24.0, 15.0, air_c=11.0) for _ in range(4)))
ENDS = Ends((8.0, 24.0, 39.0), ((8.0, 16.0), (24.0, 36.0)), 39.0, 135.0)


def test_a_plan_s_parts_end_where_its_stages_add_up() -> None:
    assert ends_of(PLAN) == ENDS
    assert ends_of(PLAN._replace(stages=PLAN.stages[:2], bed=())) == Ends((8.0,), ((8.0, 16.0),), 16.0, 16.0)
    assert drains_ahead(ENDS, 7.9) == [(FIRST_DRAIN, 8.0), (SECOND_DRAIN, 24.0)]
    assert drains_ahead(ENDS, 8.0) == [(SECOND_DRAIN, 24.0)] and drains_ahead(ENDS, 24.0) == []


def test_hours_still_to_come_are_told_within_rests_and_the_bed() -> None:
    hours = [float(h) for h in range(136)]
    one: Any = SimpleNamespace(hours=lambda: [*hours, 8.4, 8.5, 39.4, 39.5])
    assert sorted(rest_hours(one, ENDS, 0.0)) == [8.5, *hours[9:17], *hours[25:37]]  # not the hour it is drained
    assert rest_hours(one, ENDS, 16.0) == hours[25:37] and rest_hours(one, ENDS, 36.0) == []
    assert rest_hours(one, ENDS, 30.0) == hours[30:37]
    assert sorted(bed_hours(one, ENDS, 0.0)) == [39.5, *hours[40:136]]
    assert bed_hours(one, ENDS, 130.0) == hours[130:136] and bed_hours(one, ENDS, 135.5) == []
    assert hours_in([0.9, 1.0, 2.0, 3.0 + 1e-9, 3.1], 1.0, 3.0) == [1.0, 2.0, 3.0 + 1e-9]


def kinds(*found: Any) -> set[Any]:
    """Readings with their kind: two of one hour are the same numbers."""
    return {(type(one).__name__, *one) for one in found}


def readings(now: float, vessel: str, plan: Plan = PLAN) -> set[Any]:
    return kinds(*may_be_taken(plan, now, vessel, turned_every_h=8.0, depth_m=0.2))


def of_a_day(hour: float, vessel: str, split: bool) -> set[Any]:
    found: list[Any] = [Oven(hour, 0.0), Probe(hour, 0.0)]
    found += [BottomTop(hour, 0.0, 0.0, 8.0, 0.2, 11.0)] if vessel == "floor" else []
    return kinds(*found, *([AcrospireCount(hour, (100, 0, 0, 0, 0))] if split else []))


@pytest.mark.parametrize("vessel", ["floor", "drum"])
def test_before_the_first_wetting_all_readings_of_the_work_may_still_be_taken(vessel: str) -> None:
    """A basket at each drain; probe and count in the middle of a rest and at its end; then day by day."""
    wanted = kinds(*(Basket(hour, 0.0) for hour in (8.0, 24.0, 39.0)))
    for hour in (12.0, 16.0, 30.0, 36.0):
        wanted |= kinds(Probe(hour, 0.0), Chits(hour, 0, 100))
    wanted |= kinds(*(Chits(hour, 0, 100) for hour in (39.0, 47.0, 63.0)))
    for hour, split in ((63.0, False), (87.0, True), (111.0, True), (135.0, True)):
        wanted |= of_a_day(hour, vessel, split)
    assert readings(0.0, vessel) == wanted


def test_what_lies_behind_is_not_offered_and_the_next_hour_is() -> None:
    in_a_rest = readings(10.0, "floor")
    assert kinds(Basket(11.0, 0.0), Chits(11.0, 0, 100), Probe(11.0, 0.0)) <= in_a_rest
    assert not kinds(Basket(8.0, 0.0)) & in_a_rest
    under_water = readings(2.0, "floor")
    assert kinds(Basket(3.0, 0.0), Chits(3.0, 0, 100)) <= under_water and not kinds(Probe(3.0, 0.0)) & under_water
    for now, probe in ((8.0, True), (7.9, False), (15.0, True), (15.1, False)):  # the rest lasts from 8 to 16
        assert bool(kinds(Probe(now + 1.0, 0.0)) & readings(now, "floor")) is probe
    assert not kinds(Basket(39.5, 0.0)) & readings(38.5, "floor")  # it is cast by then
    at_cast = readings(39.0, "floor")
    assert of_a_day(40.0, "floor", False) <= at_cast and "Basket" not in {kind for kind, *_ in at_cast}
    late = readings(100.0, "drum")
    assert late == of_a_day(101.0, "drum", True) | of_a_day(111.0, "drum", True) | of_a_day(135.0, "drum", True)
    assert readings(134.5, "floor") == of_a_day(135.0, "floor", True)
    assert readings(87.0, "drum") == {
        *of_a_day(88.0, "drum", True), *of_a_day(111.0, "drum", True), *of_a_day(135.0, "drum", True),
    }  # fmt: skip
    short = PLAN._replace(bed=(BedSpell(30.0, 15.0, air_c=11.0),))
    assert {hour for _, hour, *_ in readings(39.0, "drum", short)} == {40.0, 47.0, 63.0}  # one whole day only


def test_a_figure_at_an_hour_has_its_band_and_may_be_told_in_per_cent() -> None:
    one: Any = SimpleNamespace(chitted=lambda hours: SimpleNamespace(low=[0.1], middle=[0.2], high=[0.4]))
    assert range_of(one, "chitted", 30.0, 100.0) == pytest.approx(Range(10.0, 20.0, 40.0, 30.0))
    assert range_of(one, "chitted", 30.0) == pytest.approx(Range(0.1, 0.2, 0.4, 30.0))


def test_each_stage_of_a_plan_is_held_against_its_own_limit() -> None:
    stages = (Stage(13.0, 14.0), Stage(25.0, 40.0), Stage(2.0, 21.0), Stage(8.0, 14.0))
    found = [(one.line.rule, one.number) for one in of_plan(Plan(stages))]
    assert found == [(IMMERSION.id, 1), (REST.id, 1), (WATER_TEMP.id, 2)]
    short = Plan((Stage(8.0, 14.0), Stage(8.0, 14.0), Stage(7.0, 14.0), Stage(12.0, 14.0)))
    assert [(one.line.rule, one.line.value) for one in of_plan(short)] == [(STEEP.id, 23.0)]  # to the last drain
    watched = Plan((Stage(10.0, 14.0), Stage(5.0, 14.0), Stage(10.0, 14.0)))
    assert of_plan(watched) == []


class Batch:
    """A batch whose figures are what they are told to be, the same in all members."""

    def __init__(self, **figures: float) -> None:
        self.figures = {"moisture": 44.0, "warmth": 15.0, "chitted": 0.9, "overshot": 0.0, "bottom": 18.0, **figures}
        self.asked: list[tuple[Any, ...]] = []

    def hours(self) -> list[float]:
        return [float(hour) for hour in range(136)]

    def band(self, of: str, hour: float) -> Any:
        self.asked.append((of, hour))
        value = self.figures.get(f"{of}-{hour:g}", self.figures[of])
        return SimpleNamespace(low=[value], middle=[value], high=[value])

    def __getattr__(self, of: str) -> Any:
        return lambda hours: self.band(of, *hours)


def told(monkeypatch: pytest.MonkeyPatch, one: Batch, now: float, vessel: str) -> list[tuple[str, float]]:
    def furthest(batch: Batch, of: str, hours: list[float], *, lowest: bool = False) -> tuple[float, ...]:
        batch.asked.append((of, hours[0], hours[-1], lowest))
        end = "low" if lowest else "high"
        return (*(3 * (batch.figures.get(f"{of}-{end}", batch.figures[of]),)), hours[0])

    def bottom(batch: Batch, hours: list[float], **kept: float) -> tuple[float, ...]:
        batch.asked.append(("bottom", hours[0], hours[-1], kept))
        return (*(3 * (batch.figures["bottom"],)), hours[0])

    monkeypatch.setattr(outlook, "furthest", furthest)
    monkeypatch.setattr(outlook, "warmest_bottom", bottom)
    found = stops_of(one, PLAN, now, vessel, turned_every_h=8.0, depth_m=0.2)  # type: ignore[arg-type]
    return [(foreseen.line.rule, foreseen.hour) for foreseen in found]


def test_a_batch_is_looked_at_in_the_order_of_the_work(monkeypatch: pytest.MonkeyPatch) -> None:
    one = Batch(**{"moisture-8": 32.0, "moisture-24": 39.0})
    assert told(monkeypatch, one, 0.0, "floor") == []
    kept = {"turned_every_h": 8.0, "depth_m": 0.2, "room_c": 11.0}
    assert one.asked == [
        ("moisture", 8.0), ("moisture", 24.0), ("warmth", 9.0, 36.0, False),
        ("moisture", 39.0), ("warmth", 39.0), ("chitted", 39.0),
        ("warmth", 40.0, 135.0, False), ("warmth", 40.0, 135.0, True), ("bottom", 40.0, 135.0, kept),
        ("moisture", 40.0, 135.0, False), ("moisture", 40.0, 135.0, True), ("overshot", 135.0),
    ]  # fmt: skip
    drum = Batch()
    told(monkeypatch, drum, 40.0, "drum")
    assert [asked[0] for asked in drum.asked] == ["warmth", "warmth", "moisture", "moisture", "overshot"]
    assert ("chitted", 39.0) in [a for b in (Batch(),) if told(monkeypatch, b, 39.0, "drum") == [] for a in b.asked]
    last = Batch()
    assert told(monkeypatch, last, 135.5, "floor") == [] and last.asked == []


@pytest.mark.parametrize(
    ("figures", "vessel", "found"),
    [
        ({"moisture-8": 27.0}, "floor", [(FIRST_DRAIN.id, 8.0)]),
        ({"moisture-24": 44.0}, "floor", [(SECOND_DRAIN.id, 24.0)]),
        ({"warmth-high": 19.0}, "floor", [(REST_TEMP.id, 9.0)]),
        ({"warmth-high": 21.0}, "floor", [(REST_TEMP.id, 9.0), (floor_germination.PIECE.id, 40.0)]),
        ({"warmth-high": 21.0}, "drum", [(REST_TEMP.id, 9.0), (drum_germination.BED.id, 40.0)]),
        ({"warmth-low": 7.0}, "floor", [(floor_germination.PIECE.id, 40.0)]),
        ({"moisture-39": 40.0}, "floor", [(casting.MOISTURE.id, 39.0)]),
        ({"warmth-39": 18.5}, "floor", [(casting.GRAIN_TEMP.id, 39.0)]),
        ({"chitted": 0.4}, "floor", [(casting.CHIT_COUCH.id, 39.0)]),
        ({"chitted": 0.7}, "drum", [(casting.CHIT.id, 39.0)]),
        ({"bottom": 23.0}, "floor", [(floor_germination.BOTTOM.id, 40.0)]),
        ({"bottom": 23.0}, "drum", []),
        ({"moisture-high": 48.5}, "floor", [(floor_germination.MOISTURE.id, 40.0)]),
        ({"moisture-low": 39.0}, "floor", [(floor_germination.MOISTURE.id, 40.0)]),
        ({"overshot": 0.11}, "floor", [(OVERSHOT.id, 135.0)]),
    ],
)
def test_each_figure_of_a_forecast_is_held_against_its_limit(
    monkeypatch: pytest.MonkeyPatch, figures: dict[str, float], vessel: str, found: list[tuple[str, float]]
) -> None:
    usual = {"moisture-8": 32.0, "moisture-24": 39.0}
    assert told(monkeypatch, Batch(**{**usual, **figures}), 0.0, vessel) == found
    assert edge(casting.CHIT_COUCH.stop_low) < 70.0 < edge(casting.CHIT.stop_low)
