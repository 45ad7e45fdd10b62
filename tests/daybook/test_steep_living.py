"""The day-book’s steep by warmth and chit: the same figures as the sheets, and the stop before the order."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.asking.answer import Answered, answer
from calculators.asking.declare import Outcome
from calculators.daybook.batch.at_hand import House, Seen
from calculators.daybook.batch.batch import Batch, batches_of
from calculators.daybook.batch.checks import doubtful
from calculators.daybook.batch.course import Course, course_of
from calculators.daybook.batch.living import living_batch
from calculators.daybook.batch.openings import openings
from calculators.daybook.next.next_step import next_step
from calculators.daybook.next.off_plan import steep_now
from calculators.daybook.next.outside import outside
from calculators.daybook.next.steep_here import here_of
from calculators.daybook.next.steep_living import Living, open_rest, planned_after
from calculators.daybook.next.step import Step, Wall
from calculators.models.living import resting
from calculators.models.living.readings import Chits, Probe
from calculators.models.living.warmth import Rest, air_on
from calculators.rules.limit import edge
from calculators.rules.limits.steeping import CHIT_LAST_DIP, REST_TEMP
from calculators.rules.steep_life import judged
from calculators.sheets import find_sheet
from tests.daybook.book import Line, line
from tests.daybook.test_steep_step import DAY, at, basket, turns, words

KNOWN = {"corn_weight_g": "45"}
"""The sheets ask for it; the day-book takes a typical one where it is blank."""

PLAN = [["8", ""], ["8", ""], ["8", ""], ["12", ""], ["3", ""]]
SECOND_REST = [8.0, 8.0, 8.0]


def seen_at(entries: list[Line], hours: float) -> tuple[Batch, Course, Wall]:
    """A batch, its steep and the clock, so many hours after the start."""
    (batch,) = batches_of(sorted(entries, key=lambda one: str(one["at"])))
    now = DAY + timedelta(hours=6 + hours)
    course = course_of(batch, now=now)
    assert isinstance(course, Course)
    return batch, course, Wall(now, 0)


def living_at(entries: list[Line], hours: float, until: float) -> Living:
    batch, course, wall = seen_at(entries, hours)
    return Living(
        here_of(batch, course, wall), DAY + timedelta(hours=6 + until), planned_after(here_of(batch, course, wall))
    )


def step_at(entries: list[Line], hours: float) -> Step:
    batch, course, wall = seen_at(entries, hours)
    return next_step(batch, course, wall)


def sheet_of(name: str, entries: list[Line], hours: float, **typed: str) -> dict[str, Any]:
    """The sheet as it is opened from the batch, by question and answer."""
    batch, course, wall = seen_at(entries, hours)
    assert wall.now is not None
    given = openings(Seen(batch, course, House(), wall.now))[name]
    reply = answer(find_sheet(name), {**given, **typed})
    assert isinstance(reply, Answered) and isinstance(reply.outcome, Outcome), reply
    return {one.id: one for one in reply.outcome.answers}


# -- the same figures as the sheets ------------------------------------------------


@pytest.mark.parametrize("water", ["11", "14", "17"])
def test_chits_and_warmth_are_those_of_the_sheet_on_chitting(water):
    """The sheet takes the batch's own stages, water and tests; nothing was read in its rests."""
    entries = turns(
        SECOND_REST, water=water, stages=PLAN, energy_grown="388", energy_sown="400", water_sensitivity="12", **KNOWN
    )
    sheet = sheet_of("chitting", entries, 25)
    life = living_at(entries, 25, 36).life
    assert life is not None
    dip = life.share_at(36.0)
    assert 100 * dip.value == pytest.approx(sheet["chit_dip"].value, abs=0.02)
    assert 100 * dip.low == pytest.approx(sheet["chit_dip"].low, abs=0.02)
    assert 100 * dip.high == pytest.approx(sheet["chit_dip"].high, abs=0.02)
    warm = max((one.warmest_c for one in life.warmest), key=lambda one: one.value)
    assert warm.value == pytest.approx(sheet["warmest_c"].value, abs=1e-4)
    assert (warm.low, warm.high) == pytest.approx((sheet["warmest_c"].low, sheet["warmest_c"].high), abs=1e-4)


def test_so_they_are_after_a_count():
    counted = line("chits", at(30), chitted="40", counted="200")
    bare = turns(SECOND_REST, stages=PLAN, **KNOWN)
    entries = [*bare, counted]
    sheet, without = sheet_of("chitting", entries, 31), sheet_of("chitting", bare, 31)
    life = living_at(entries, 31, 36).life
    assert life is not None
    assert 100 * life.share_at(36.0).value == pytest.approx(sheet["chit_dip"].value, abs=0.02)
    assert sheet["chit_dip"].high - sheet["chit_dip"].low < 0.7 * (without["chit_dip"].high - without["chit_dip"].low)
    assert f"Chitted by 18:00: {sheet['chit_dip'].value:.0f} %" in words(entries, 31)[1]


def test_a_basket_moves_them_as_on_the_sheet_of_the_fit():
    entries = [*turns(SECOND_REST, stages=PLAN, **KNOWN), line("basket", at(7.5), gross_g=basket(35.5).split()[0])]
    sheet = sheet_of("steep-fit", entries, 25)
    life, typical = living_at(entries, 25, 36).life, living_at(turns(SECOND_REST, stages=PLAN), 25, 36).life
    assert life is not None and typical is not None
    assert 100 * life.share_at(36.0).value == pytest.approx(sheet["chit_dip"].value, abs=0.3)
    assert abs(life.share_at(36.0).value - typical.share_at(36.0).value) > 0.02


def test_the_steep_s_own_hours_are_those_of_the_sheet_on_timing():
    """The rests are as warm as the grain gets in both, so the last drain is at the same minute."""
    entries = turns([8, 8, 8, 12], water="16", stages=PLAN, target_moisture="45", **KNOWN)
    batch, course, wall = seen_at(entries, 37)
    sheet = sheet_of("steep-timing", entries, 37)
    due = next_step(batch, course, wall).at
    assert due is not None and batch.begun is not None
    assert due - batch.begun == pytest.approx(
        timedelta(hours=36 + sheet["last_immersion_needed_h"].value), abs=timedelta(seconds=40)
    )


def test_a_plan_is_judged_as_the_sheet_that_makes_plans_judges_it():
    for water, rule in (("10", CHIT_LAST_DIP.id), ("18", REST_TEMP.id)):
        entries = [
            line(
                "start",
                "2026-11-24T05:30",
                **{**turns([], water=water)[0]["values"], "stages": PLAN, "water_temp_c": water},
            )
        ]
        (batch,) = batches_of(entries)
        course = course_of(batch)
        assert isinstance(course, Course)
        passed = {one.line.rule for one in judged(course.best, course.lives).passed}
        assert rule in passed
        text = next_step(batch, course, Wall(DAY, 0)).text
        assert text.startswith("Past a stop by the plan. ") and text.endswith("Write when it covers the grain.")
    good = [line("start", "2026-11-24T05:30", **{**turns([])[0]["values"], "stages": PLAN})]
    (batch,) = batches_of(good)
    assert next_step(batch, course_of(batch), Wall(DAY, 0)).text.startswith("Weigh the basket empty")


# -- stops first -------------------------------------------------------------------


def test_no_last_dip_is_ordered_before_its_chits():
    step = step_at(turns(SECOND_REST, water="11", stages=PLAN), 25)
    assert step.text.startswith("Past a stop at 18:00") and "Chit before the last dip" in step.text
    assert "No water before a count of 200 corns says so" in step.text and "Water on at" not in step.text
    assert step.at is not None and step.at > DAY + timedelta(hours=6 + 36) and step.likely[0] == "chits"
    life = living_at(turns(SECOND_REST, water="11", stages=PLAN), 25, 48).life
    assert life is not None
    there = life.hour_of(edge(CHIT_LAST_DIP.stop_low) / 100)
    assert there is not None
    assert step.at == pytest.approx(DAY + timedelta(hours=6 + there.value), abs=timedelta(minutes=2))


def test_a_count_goes_before_the_reckoning():
    counted = line("chits", at(34), chitted="150", counted="200")
    step = step_at([*turns(SECOND_REST, water="11", stages=PLAN), counted], 35)
    assert step.text.startswith("Water on at 18:00.") and step.at == DAY + timedelta(hours=42)
    few = line("chits", at(30), chitted="4", counted="200")
    assert "No water before" in step_at([*turns(SECOND_REST, stages=PLAN), few], 31).text


def test_a_dip_before_the_last_needs_no_chits():
    assert step_at(turns([8.0], water="11", stages=PLAN), 9).text.startswith("Water on at 22:00.")


def test_a_rest_that_gets_too_warm_is_said_before_the_drain_that_begins_it():
    step = step_at(turns([], water="18", stages=PLAN), 2)
    assert step.text.startswith("Past a stop ahead. Grain in an air rest 19.") and "Drain at 14:00." in step.text
    assert step_at(turns([], water="14", stages=PLAN), 2).text.startswith("Drain at 14:00.")


def test_a_rest_names_the_suction_that_the_sheet_on_its_warmth_finds():
    """With the state of this batch typed into the rest's own law, the suction is the same."""
    living = living_at(turns(SECOND_REST, stages=PLAN), 25, 36)
    life = living.life
    assert life is not None
    began = next(state for state in life.states if state.hour >= 24.0 - 1e-9)
    rest = Rest(
        12.5, float(began.net), float(began.temp_c), 12.0, float(began.growth_h),
        air_on(temp_c=14.0, relative_humidity=85.0), 7.8,
    )  # fmt: skip
    typical, fast = resting.holding(limit_c=edge(REST_TEMP.accept_high), rest=rest)
    assert typical == 0.0 and fast is not None
    told = " ".join(open_rest(living)[1])
    assert "Suction of" in told
    assert abs(int(told.split("Suction of ")[1].split(" ")[0]) - fast) <= 1.0
    assert "typically the least is enough" in told


def test_grain_that_was_read_too_warm_leads_and_goes_on_from_there():
    entries = [*turns(SECOND_REST, stages=PLAN), line("bed", at(28), bottom_c="18.6", top_c="17.9")]
    step = step_at(entries, 29)
    assert step.text.startswith("Past a stop. Grain in an air rest 18.6 °C")
    assert any(text.startswith("Read 10:00, 18.6 °C; from there it gets to about") for text in step.more)
    batch, _, wall = seen_at(entries, 29)
    assert REST_TEMP.id in {one.rule for one in outside(batch, wall)}


def test_the_cast_waits_for_its_chits():
    few = line("chits", at(39.5), chitted="60", counted="200")
    step = step_at([*turns([8, 8, 8, 12, 3], stages=PLAN, vessel="drum"), few], 40)
    assert "Past a stop for a cast by" in step.text and "Chit at the cast, to a drum or a box" in step.text
    assert step.at is not None and step.at > DAY + timedelta(hours=46)
    many = line("chits", at(39.5), chitted="192", counted="200")
    assert step_at([*turns([8, 8, 8, 12, 3], stages=PLAN, vessel="drum"), many], 40).text.startswith("Look whether")


def test_a_way_that_cannot_chit_is_not_offered_under_water():
    step = step_at(turns([], stages=[["8", ""]]), 3)
    assert "Not offered: 8 h wet" in " ".join(step.more) and "Chit before the last dip" in " ".join(step.more)


# -- what was read goes along --------------------------------------------------------


def test_counts_and_grain_of_a_rest_are_readings_of_the_living_batch():
    entries = [
        *turns(SECOND_REST, stages=PLAN),
        line("bed", at(28), bottom_c="16.4", top_c="15.6"),
        line("chits", at(30), chitted="90", counted="200"),
    ]
    batch, course, wall = seen_at(entries, 31)
    assert wall.now is not None
    found = living_batch(batch, course, wall.now)
    assert found is not None
    assert Probe(28.0, 16.0) in found.readings and Chits(30.0, 90, 200) in found.readings
    given = openings(Seen(batch, course, House(), wall.now))["batch-forecast"]
    assert given["chits"] == "30 90 200" and given["probes"] == "28 16"


def test_a_rest_that_was_read_has_that_temperature_in_every_sheet_and_an_unread_one_has_none():
    entries = [
        *turns([8, 8], stages=PLAN),
        line("bed", at(12), bottom_c="16.4", top_c="15.6"),
    ]
    batch, course, wall = seen_at(entries, 17)
    assert wall.now is not None
    stages = openings(Seen(batch, course, House(), wall.now))["chitting"]["stages"].split(";")
    assert stages == ["8 14", "8 16", "8 14", "12", "3 14"]
    assert course.best.steeping.stages[1].water_temp_c == pytest.approx(16.0, abs=0.3)


def test_planning_anew_knows_the_count():
    few, many = (line("chits", at(30), chitted=some, counted="200") for some in ("10", "170"))
    middles = []
    for count in (few, many):
        batch, course, wall = seen_at([*turns(SECOND_REST, stages=PLAN), count], 31)
        now = steep_now(batch, course, wall)
        assert not isinstance(now, str)
        middles.append(now.lives.corns.middle_h)
    assert middles[0] > middles[1]


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.sampled_from([[8.0, 8.0, 8.0], [8.0], [6.0, 10.0, 6.0, 10.0, 6.0]]),
    st.floats(5.0, 20.0),
    st.floats(0.0, 26.0),
    st.lists(st.floats(2.0, 12.0), min_size=1, max_size=3),
    st.none() | st.integers(0, 200),
    st.sampled_from(["floor", "drum"]),
)
def test_no_last_water_is_named_past_the_stop_of_the_chits_unless_that_leads(
    hours: list[float], water: float, since: float, more: list[float], chitted: int | None, vessel: str
) -> None:
    plan = [[repr(one), ""] for one in [*hours, *more]]
    entries = turns(hours, repr(round(water, 2)), stages=plan, vessel=vessel)
    now = sum(hours) + since
    if chitted is not None:
        entries.append(line("chits", at(sum(hours) + 0.5 * since), chitted=str(chitted), counted="200"))
    batch, course, wall = seen_at(entries, now)
    step = next_step(batch, course, wall)
    assert step.at is None or step.at >= batch.spells[-1].begun
    if len(more) not in (2, 3) or "Water on" not in step.text:
        return  # nothing follows this rest, or no water is named
    due = max(wall.now or DAY, batch.spells[-1].begun + timedelta(hours=min(more[0], 24.0)))
    living = Living(here_of(batch, course, wall), due, planned_after(here_of(batch, course, wall)))
    share = living.chitted(due)
    if share is not None:
        assert 100.0 * share.value >= edge(CHIT_LAST_DIP.stop_low) or "Chit before the last dip" in step.text


@settings(max_examples=40, deadline=None)
@given(st.floats(8.0, 19.0), st.floats(4.0, 16.0), st.none() | st.floats(10.0, 24.0))
def test_a_rest_past_its_stop_is_always_said_first(water: float, rest: float, read: float | None) -> None:
    entries = turns(
        [8.0, 8.0, 8.0], repr(round(water, 1)), stages=[["8", ""], ["8", ""], ["8", ""], [repr(rest), ""], ["3", ""]]
    )
    if read is not None:
        entries.append(line("bed", at(25.0), bottom_c=f"{read:.1f}", top_c=f"{read:.1f}"))
    step = step_at(entries, 25.5)
    stop = edge(REST_TEMP.stop_high)
    if read is not None and float(f"{read:.1f}") > stop:
        assert step.text.startswith("Past a stop. Grain in an air rest")
    told = next((text for text in step.more if "it gets to about" in text or "the grain gets to about" in text), "")
    if told and float(told.split("about ")[1].split(" ")[0]) > stop + 0.05:
        assert step.text.startswith("Past a stop")


def test_grain_read_in_a_rest_is_no_doubt_and_a_bed_under_water_is() -> None:
    cast = line("cast", at(50))
    steep = turns([8, 8, 8, 12, 3], stages=PLAN)
    for hour, doubted in ((28, False), (20, True)):
        bed = line("bed", at(hour), bottom_c="15", top_c="14.5")
        (batch,) = batches_of(sorted([*steep, bed, cast], key=lambda one: str(one["at"])))
        found = [one.text for one in doubtful(batch, course_of(batch))]
        assert any("comes before the cast" in text for text in found) is doubted
