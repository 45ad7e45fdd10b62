"""The next step in the steep: the weight of the moment that is named, no plan of stages, stops first, blank lines."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from calculators.asking.answer import Answered, answer, example_of
from calculators.daybook.batch.at_hand import House, Seen
from calculators.daybook.batch.batch import batches_of
from calculators.daybook.batch.course import course_of
from calculators.daybook.batch.openings import openings
from calculators.daybook.next.next_step import next_step
from calculators.daybook.next.step import Wall
from calculators.models.living.steep_run import warmed
from calculators.models.steep.hydration import steep
from calculators.models.weights.basket import basket_gross
from calculators.sheets import find_sheet
from tests.daybook.book import START, Line, ask, line

DAY = datetime(2026, 11, 24)
NO_PLAN = {name: value for name, value in START.items() if name != "stages"}


def at(hours: float) -> str:
    """So many hours after 06:00, when the water first covered the grain."""
    return (DAY + timedelta(hours=6 + hours)).isoformat(timespec="minutes")


def begun(**start: Any) -> Line:
    """The start of a batch without a plan, unless one is given."""
    return line("start", "2026-11-24T05:30", **{**NO_PLAN, **start})


def turns(hours: list[float], water: str = "14", **start: Any) -> list[Line]:
    """A batch whose immersions and rests ended after so many hours each; the last one is open."""
    entries, since = [begun(**start)], 0.0
    for place, length in enumerate([*hours, 0.0]):
        kind = ("stage-begun", {"stage": "wet", "water_temp_c": water}) if place % 2 == 0 else None
        entries.append(line(kind[0], at(since), **kind[1]) if kind else line("stage-ended", at(since), ended="drained"))
        since += length
    return entries


def words(entries: list[Line], hours: float) -> tuple[str, str]:
    """What comes next, so many hours after the start: the sentence, and all that stands with it without its tags."""
    reply = ask("batch", entries, batch="b1", date=at(hours))
    return reply["status"], re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", reply["places"]["next"]))


def basket(moisture: float) -> str:
    grams = basket_gross(moisture=moisture, basket_g=84, sample_g=100, barley_moisture=12.5, dry_matter_lost=1.0)
    return f"{grams:.0f} g"


# -- the weight of the moment that is named ------------------------------------


def test_at_the_target_the_basket_reads_what_the_target_weighs():
    """The plan has 3 h for the last dip and the model wants some 6: the weight is that of 45 %, not of 3 h."""
    plan = [["8", ""], ["8", ""], ["8", ""], ["12", ""], ["3", ""]]
    said, shown = words(turns([8, 8, 8, 12], stages=plan, target_moisture="45"), 37)
    course, _ = warmed(steep(barley_moisture=12.5, stages=[(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)]))
    needed = course.last_immersion_needed_h(45)
    assert needed is not None and needed > 4
    due = DAY + timedelta(hours=6 + 36 + needed, seconds=30)
    assert said.startswith(f"Drain at {due:%a} {due.day} {due:%b} {due:%H:%M}.")
    # By hand: 84 g + 100 g x 0.875 x 0.99 / 0.55 = 241.5 g.
    assert basket(45.0) == "242 g" and "should read 242 g then, the target of 45 %" in said
    assert basket(course.ends[-1].drained) not in said
    assert "The plan’s hour is 21:00, after 3 h." in shown


def test_a_late_drain_has_the_weight_of_now():
    plan = [["8", ""], ["8", ""], ["3", ""]]
    said, _ = words(turns([], stages=plan), 10)
    now = steep(barley_moisture=12.5, stages=[(10, 14)]).ends[0].drained
    assert said.startswith("The drain was due at 14:00. By now the basket should read") and basket(now) in said


def test_without_a_plan_the_weight_is_that_of_the_hour_named():
    said, _ = words(turns([]), 3)
    eight = steep(barley_moisture=12.5, stages=[(8, 14)]).ends[0].drained
    assert said.startswith("Drain at 14:00. The basket should read " + basket(eight))


# -- no plan of stages ----------------------------------------------------------


def test_after_one_immersion_at_some_28_percent_it_wets_again_and_offers_no_cast():
    said, shown = words(turns([4.0]), 5)
    held = steep(barley_moisture=12.5, stages=[(4, 14)]).ends[0].drained
    assert 28 <= held < 30
    assert said.startswith(f"Not ready for the cast: by what is known it holds {held:.0f} %")
    assert "the target is 44 %. Water on at 16:00, after 6 h of rest." in said
    assert "ready for the cast: chits" not in said and "Wet it for about 8 h" in shown
    assert "Count chits before the last water: under 50 % no water." in shown
    assert ask("batch", turns([4.0]), batch="b1", date=at(5))["likely"][0] == "stage-begun"


def test_nor_where_nothing_says_how_wet_it_is():
    said, shown = words(turns([8.0], water="", barley_moisture="", water_temp_c=""), 9)
    assert said.startswith("Not ready for the cast by its hours") and "Weigh the basket" in said
    assert "own moisture is not written" in shown


def test_wet_enough_it_is_looked_at_for_the_cast():
    said, _ = words(turns([8, 8, 8, 12, 4]), 41)
    assert said.startswith("Look whether it is ready for the cast") and "holds 45 %" in said


@pytest.mark.parametrize(("hours", "number"), [([], 1), ([8, 8], 2)])
def test_the_first_and_the_second_drain_go_by_the_table(hours, number):
    said, shown = words(turns(hours), sum(hours) + 1)
    assert f"At drain {number} {('30 to 35', '38 to 41')[number - 1]} % is right." in said
    assert "No plan of the steep is written" in shown
    assert "whatever the basket reads: the stop is over 12 h in one immersion" in shown


def test_a_plan_of_one_stage_does_not_make_thirty_hours_of_it():
    said, shown = words(turns([], stages=[["8", ""]]), 3)
    assert said.startswith("Past a stop. To 44 % in one immersion takes 42.8 h: the stop is over 12 h. Drain at 14:00.")
    assert "That is the plan’s hour." in said and "split it with a rest" not in shown
    assert "Not offered: 8 h wet" in shown and "Chit before the last dip" in shown  # as the sheet on timing has it


def test_cold_water_takes_longer_than_eight_hours_and_then_wants_air():
    said, shown = words(turns([], water="6"), 1)
    assert re.match(r"Drain at 14:1\d\.", said) and "Over 8 h: with air all through" in shown


def test_sensitive_barley_rests_longer_and_lies_shorter():
    said, shown = words(turns([6.0], water_sensitivity="35"), 7)
    assert "Water on at Wed 25 Nov 00:00, after 12 h of rest" in said and "Wet it for about 6 h" in shown


# -- stops first ----------------------------------------------------------------


def test_past_twelve_hours_the_stop_leads():
    for plan in ("", [["8", ""], ["8", ""], ["8", ""]]):
        said, _ = words(turns([], stages=plan), 12.5)
        assert said.startswith(
            "Past a stop. This immersion has lasted 12.5 h; the stop is over 12 h in one immersion. Drain,"
        )
    assert not words(turns([]), 12.0)[0].startswith("Past")


def test_a_plan_past_the_stop_is_no_order():
    said, shown = words(turns([], stages=[["30", ""], ["4", ""], ["24", ""]]), 2)
    assert said.startswith(
        "Past a stop. The plan has 30 h of water here; the stop is over 12 h in one immersion. Drain at 14:00."
    )
    assert "The plan’s hour is Wed 25 Nov 12:00, after 30 h." in shown


def test_a_rest_past_a_day_and_water_past_the_table():
    said, _ = words(turns([8.0]), 8 + 24.5)
    assert said.startswith("Past a stop. Air rest 24.5 h: the stop is over 24 h. Wet it or cast it.")
    assert words(turns([], water="4"), 1)[0].startswith("Past a stop. Steep water 4 °C: the stop is under 5 °C.")
    assert words(turns([], water="5"), 1)[0].startswith("Drain at")


lengths = st.floats(0.5, 30)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.lists(lengths, max_size=6),
    st.floats(0, 40),
    st.floats(2, 24),
    st.none() | st.lists(lengths, min_size=1, max_size=7),
    st.none() | st.floats(36, 50),
    st.none() | st.floats(200, 260),
    st.booleans(),
)
@example([], 3.0, 14.0, [8.0], 44.0, None, True)
@example([], 3.0, 14.0, None, 44.0, None, True)
@example([1.0, 1.0, 1.0], 0.0, 14.0, [1.0, 1.0, 1.0, 25.0], None, None, False)
def test_no_drain_is_named_past_the_stop_unless_the_stop_leads(hours, since, water, plan, target, gross, known):
    start: dict[str, Any] = {"target_moisture": "" if target is None else repr(target)}
    if plan:
        start["stages"] = [[repr(h), ""] for h in plan]
    if not known:
        start["barley_moisture"] = ""
    entries = turns(hours, repr(water), **start)
    if gross is not None:
        entries.append(line("basket", at(sum(hours) + min(since, 2.0)), gross_g=repr(gross)))
    (batch,) = batches_of(entries)
    now = DAY + timedelta(hours=6 + sum(hours) + since)
    step = next_step(batch, course_of(batch, now=now), Wall(now, 0))
    spell = batch.spells[-1]
    stops = step.text.startswith("Past a stop")
    if spell.wet:
        latest = spell.begun + timedelta(hours=12)
        assert stops or now <= latest + timedelta(minutes=5)
        assert step.at is None or step.at <= latest + timedelta(seconds=1) or now > latest
        assert stops or 5.0 <= float(f"{water:.12g}") <= 20.0
        if plan and len(hours) < len(plan) and plan[len(hours)] > 12.0 and step.at is not None:
            assert "over 12 h" in " ".join((step.text, *step.more))
        assert "takes" not in step.text or stops
    else:
        latest = spell.begun + timedelta(hours=24)
        assert stops or now <= latest
        assert step.at is None or step.at <= latest or stops


# -- blank lines, and baskets without a tare --------------------------------------


def test_a_blank_line_is_named_near_the_next_step():
    entries = [*turns([]), line("basket", at(6), gross_g=""), line("moisture", at(6.2))]
    _, shown = words(entries, 7)
    assert "Basket weighed, Tue 24 Nov 12:00, counts for nothing: basket and grain is blank or cannot be read." in shown
    assert "Moisture, Tue 24 Nov 12:12, counts for nothing: moisture is blank" in shown
    checks = ask("batch", entries, batch="b1", date=at(7))["places"]["checks"]
    assert "Basket weighed, Tue 24 Nov 12:00, counts for nothing" in checks and "contradicts itself" not in checks
    mended = [*entries, line("basket", at(6), gross_g="206", replaces=entries[-2]["id"])]
    assert "Basket weighed" not in words(mended, 7)[1]


def test_many_blank_lines_are_counted():
    entries = [*turns([]), *(line("basket", at(n), gross_g="") for n in (1, 2, 3, 4, 5))]
    _, shown = words(entries, 6)
    assert shown.count("counts for nothing") == 3 and "2 lines before lack something too." in shown


def test_weighings_without_a_tare_say_what_is_missing():
    entries = [*turns([], basket_g="", sample_g=""), line("basket", at(6), gross_g="206")]
    reply = ask("batch", entries, batch="b1", date=at(7), print=True)
    lacks = "The weighing says nothing yet: the empty basket’s weight and the barley weighed into it are not written."
    for place in ("next", "checks", "fit", "print"):
        assert lacks in reply["places"][place], place
    assert "No weighing yet" not in reply["places"]["fit"] and "contradicts itself" not in reply["places"]["checks"]
    own = [*turns([], sample_g=""), line("basket", at(6), gross_g="206")]
    assert "the barley weighed into it is not written" in words(own, 7)[1]


def test_the_tare_is_taken_where_the_first_weighing_is_written():
    first = line("basket", at(6), gross_g="206", basket_g="84", sample_g="100")
    entries = [*turns([], basket_g="", sample_g=""), first, line("basket", at(7), gross_g="210")]
    (batch,) = batches_of(entries)
    with_start = [*turns([]), line("basket", at(6), gross_g="206"), line("basket", at(7), gross_g="210")]
    (plain,) = batches_of(with_start)
    assert [r.moisture for r in batch.readings] == [r.moisture for r in plain.readings] and len(batch.readings) == 2
    said, _ = words(entries, 7.1)
    assert said == words(with_start, 7.1)[0] and "should read" in said
    sheets = ask("batch", entries, batch="b1", date=at(7.1))["places"]["sheets"]
    assert "basket_g=84" in sheets and "sample_g=100" in sheets


def test_two_tares_count_from_where_they_are_written_and_are_named():
    entries = [*turns([]), line("basket", at(5), gross_g="206"), line("basket", at(6), gross_g="206", basket_g="90")]
    (batch,) = batches_of(entries)
    first, second = batch.of("basket")
    assert batch.tare(first) == (84.0, 100.0) and batch.tare(second) == (90.0, 100.0) == batch.tare()
    checks = ask("batch", entries, batch="b1", date=at(7))["places"]["checks"]
    assert "The empty basket is 90 g with this weighing, and 84 g at the start." in checks


# -- the warmth of a rest -------------------------------------------------------


def test_in_a_rest_it_points_to_the_sheet_of_its_warmth_and_under_water_not():
    for hours, now in (([8.0], 9.0), ([8.0, 8.0, 8.0], 25.0)):
        reply = ask("batch", turns(hours), batch="b1", date=at(now))["places"]["next"]
        assert "For other suction or air: <a" in reply and "rest-warmth" in reply and "chitting" in reply
    assert "For other suction or air" not in words(turns([]), 3.0)[1]


def test_the_sheet_of_a_rest_s_warmth_is_opened_with_the_batch_s_own_numbers():
    weighed = line("basket", at(23.5), gross_g=basket(41.0))
    entries = sorted([*turns([8.0, 8.0, 8.0], barley_kg="6000"), weighed], key=lambda one: str(one["at"]))
    (batch,) = batches_of(entries)
    now = DAY + timedelta(hours=6 + 25)
    given_values = openings(Seen(batch, course_of(batch, now=now), House(), now))["rest-warmth"]
    assert given_values["since_wetting_h"] == "24.0" and given_values["start_c"] == "14"
    assert given_values["barley_kg"] == "6000"
    assert float(given_values["drained_moisture"]) == pytest.approx(41.0, abs=0.3)
    sheet = find_sheet("rest-warmth")
    assert isinstance(answer(sheet, {**example_of(sheet), **given_values}), Answered)
    wet = turns([8.0, 8.0])
    (still,) = batches_of(wet)
    assert "rest-warmth" not in openings(Seen(still, course_of(still), House(), now))
