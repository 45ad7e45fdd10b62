"""The next step: its hour, what the basket should read, and the box that belongs to it."""

from __future__ import annotations

import re

import pytest

from calculators.models.living.steep_run import warmed
from calculators.models.steep.hydration import steep
from calculators.models.weights.basket import basket_gross
from tests.daybook.book import START, ask, line, steeping


def words(entries, **more):
    reply = ask("batch", entries, batch="b1", **more)
    return reply["status"], reply


def test_drain_by_the_plan_and_the_basket_as_the_model_says():
    said, reply = words(steeping())
    assert said.startswith("Drain at 14:00. The basket should read ")
    course = steep(barley_moisture=12.5, stages=[(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)])
    grams = basket_gross(
        moisture=course.at(8.0).drained, basket_g=84, sample_g=100, barley_moisture=12.5, dry_matter_lost=1.0
    )
    assert f"should read {grams:.0f} g" in said
    assert "DANGER" in reply["places"]["next"] and "carbon dioxide" in reply["places"]["next"]
    assert reply["likely"] == ["stage-ended", "basket", "water"]


def test_a_reading_moves_what_the_basket_should_read():
    heavier = [*steeping(), line("basket", "2026-11-24T12:00", gross_g="222")]
    before, after = (int(re.findall(r"read (\d+) g", words(e)[0])[0]) for e in (steeping(), heavier))
    assert after > before + 3


def test_the_reply_says_whether_a_stop_is_passed():
    assert not words(steeping())[1]["stop"]
    said, reply = words(steeping(), date="2026-11-25T14:00")
    assert said.startswith("Past a stop") and reply["stop"]


def test_late_and_on_another_day():
    assert words(steeping(), date="2026-11-24T15:00")[0].startswith("The drain was due at 14:00")
    drained = [*steeping(), line("stage-ended", "2026-11-24T14:00", ended="drained")]
    assert words(drained, date="2026-11-24T14:30")[0].startswith("Water on at 22:00")
    drained[-1]["at"] = "2026-11-24T20:00"
    assert words(drained, date="2026-11-24T20:30")[0].startswith("Water on at Wed 25 Nov 04:00")


def test_the_clock_on_the_wall_is_that_of_the_page():
    assert words(steeping(), date="2026-11-24T14:00", zone=60)[0].startswith("Drain at 15:00")


def test_the_last_immersion_ends_on_target():
    entries = [
        line(
            "start",
            "2026-11-24T05:30",
            **{**START, "stages": [["8", ""], ["8", ""], ["8", ""]], "target_moisture": "40"},
        )
    ]
    for at, kind, value in (
        ("2026-11-24T06:00", "stage-begun", {"stage": "wet", "water_temp_c": "14"}),
        ("2026-11-24T14:00", "stage-ended", {"ended": "drained"}),
        ("2026-11-24T22:00", "stage-begun", {"stage": "wet", "water_temp_c": "14"}),
    ):
        entries.append(line(kind, at, **value))
    course, _ = warmed(steep(barley_moisture=12.5, stages=[(8, 14), (8, 14), (8, 14)]))
    needed = course.last_immersion_needed_h(40)
    assert needed is not None
    minutes = round(22 * 60 + needed * 60)
    expected = f"{minutes // 60 % 24:02d}:{minutes % 60:02d}"
    assert f"Drain at {expected}" in words(entries, date="2026-11-25T00:30")[0]


def test_without_a_plan_or_a_start_it_says_what_is_missing():
    bare = [line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14")]
    said, reply = words(bare)
    assert "no hour to name" in said and "own moisture is not written" in reply["places"]["next"]
    assert words([])[0] == "Write the start of the batch."


def cast_to(vessel):
    return [
        line("start", "2026-11-24T05:30", **{**START, "vessel": vessel}),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-25T06:00", ended="drained"),
        line("cast", "2026-11-25T08:00"),
    ]


def test_floor_and_drum_have_their_own_box():
    floor = [
        *cast_to("floor"),
        line("turned", "2026-11-26T02:00", depth_cm="15"),
        line("bed", "2026-11-26T08:00", bottom_c="18.2", top_c="15", room_c="11"),
    ]
    said, reply = words(floor, date="2026-11-26T09:00")
    assert "may part by 4 K" in said and "WARNING" in reply["places"]["next"]
    said, reply = words(cast_to("drum"), date="2026-11-25T09:00")
    assert said.startswith("Turn the drum between 16:00 and 20:00") and "DANGER" in reply["places"]["next"]


def test_counting_begins_before_it_can_be_ready():
    entries = cast_to("floor")
    for day in range(26, 30):
        entries.append(line("bed", f"2026-11-{day}T08:00", bottom_c="16", top_c="14", room_c="11", depth_cm="15"))
    assert "Begin counting corns" in words(entries, date="2026-11-26T09:00")[1]["places"]["next"]
    assert "Count corns every day" in words(entries, date="2026-11-29T09:00")[1]["places"]["next"]


def test_gone_to_the_kiln():
    entries = [*cast_to("floor"), line("to-kiln", "2026-11-30T06:00", green_malt_kg="8900", moisture="43")]
    said, reply = words(entries, date="2026-11-30T09:00")
    assert said.startswith("Gone to the kiln 06:00") and "WARNING" in reply["places"]["next"]


@pytest.mark.parametrize("temp", ["", "14"])
def test_hours_past_the_model_stop_nothing(temp):
    entries = [
        line("start", "2026-11-01T05:30", **START),
        line("stage-begun", "2026-11-01T06:00", stage="wet", water_temp_c=temp),
    ]
    said, reply = words(entries, date="2026-11-24T09:00")
    assert said.startswith("Past a stop. This immersion has lasted 555 h; the stop is over 12 h in one immersion.")
    assert "The drain was due at Sun 1 Nov 14:00" in said and "does not follow" in reply["places"]["next"]


def test_what_cannot_be_right_is_named():
    entries = steeping()
    entries += [
        line("basket", "2026-11-24T10:00", gross_g="214"),
        line("basket", "2026-11-24T12:00", gross_g="209"),
        line("basket", "2026-11-24T12:00", gross_g="209"),
        line("basket", "2026-11-24T12:30", gross_g="100"),
        line("water", "2026-11-24T12:40", water_temp_c="19"),
        line("water", "2026-11-24T12:45", water_temp_c="14.2"),
        line("stage-begun", "2026-11-24T12:50", stage="wet"),
        line("bed", "2026-11-24T12:55", bottom_c="12", top_c="15"),
        line("remark", "2026-11-24T11:50", remark="x", written="2026-11-24T11:50:00Z"),
        line("water", "2026-11-24T18:00", water_temp_c="14", written="2026-11-24T13:00:00Z"),
        line("withdrawn", "2026-11-24T13:10", replaces="nowhere-1"),
        line("cast", "2026-11-24T20:00", written="2026-11-24T20:01:00Z"),
    ]
    checks = ask("batch", entries, batch="b1", date="2026-11-24T20:10")["places"]["checks"]
    for words in (
        "Barley under water does not get drier",
        "stands twice with the same values",
        "does not fit this basket",
        "5 K from the other waters",
        "Water on stands twice",
        "Are the two swapped",
        "clock went back 65 minutes",
        "5.0 hours after the moment it was written",
        "not in this book",
        "comes before the cast",
    ):
        assert words in checks, words


def test_an_end_before_a_beginning_and_two_starts():
    entries = [
        line("start", "2026-11-24T05:30", **START),
        line("start", "2026-11-24T05:40", **START),
        line("stage-ended", "2026-11-24T06:00", ended="drained"),
        line("to-kiln", "2026-11-24T07:00", green_malt_kg="99999", moisture="10"),
        line("cast", "2026-11-24T09:00"),
    ]
    checks = ask("batch", entries, batch="b1")["places"]["checks"]
    for words in ("before any water", "begun 2 times", "before it was cast", "More dry matter goes to the kiln"):
        assert words in checks, words


def test_a_steep_in_order_has_nothing_to_say():
    assert "Nothing in this batch contradicts itself" in ask("batch", steeping(), batch="b1")["places"]["checks"]
