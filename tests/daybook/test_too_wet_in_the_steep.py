"""A batch that drank too fast: said before the drain and after it, ahead of the plan, late since it could be known."""

from __future__ import annotations

import re
from html import unescape

import pytest

from tests.daybook.book import START, Line, ask, line

STOP = "Moisture at the first drain 39.8 %: the stop is over 37 %."


def drained(gross_g: str = "228", **start: object) -> list[Line]:
    """A first immersion from 04:10 to 12:10, its basket weighed ten minutes before the drain."""
    return [
        line("start", "2026-11-24T03:30", **{**START, **start}),
        line("stage-begun", "2026-11-24T04:10", stage="wet", water_temp_c="14"),
        line("basket", "2026-11-24T12:00", gross_g=gross_g, drained="drained"),
        line("stage-ended", "2026-11-24T12:10", ended="drained"),
    ]


def plain(drawn: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", drawn)))


def batch(lines: list[Line], now: str) -> Line:
    return ask("batch", lines, batch="b1", date=now)


def handed(lines: list[Line], now: str) -> str:
    return plain(ask("hand-over", lines, date=now)["places"]["hand-over"])


@pytest.mark.parametrize("now", ["2026-11-24T12:15", "2026-11-24T17:00", "2026-11-24T20:30"])
def test_a_stop_at_the_first_drain_stays_said_while_the_rest_lasts(now: str):
    reply = batch(drained(), now)
    assert reply["status"].startswith(f"Past a stop. {STOP}") and reply["stop"]
    assert "rest it longer than the plan’s 8 h" in reply["status"] and "Tell the shift lead." in reply["status"]
    assert reply["off"] == ["ahead"]
    over = handed(drained(), now)
    assert STOP in over.split("Outside what is accepted:")[1] and "Off the plan: Ahead of the plan" in over


def test_the_planned_water_is_not_ordered_after_too_wet_a_drain():
    text = batch(drained(), "2026-11-24T17:00")["status"]
    assert "No water at 20:10, the plan’s hour." in text and "Water on at 20:10" not in text
    assert "Water on at Wed 25 Nov 00:10." in text  # after twelve hours of rest, the most that is accepted


def test_without_a_plan_the_next_water_waits_as_long():
    text = batch(drained(stages=[]), "2026-11-24T14:00")["status"]
    assert STOP in text and "rest it longer, 12 h are accepted" in text
    assert "look at Wed 25 Nov 02:49" in text and "18:10" not in text  # not after the shortest rest, nor before chits


def test_a_rest_that_was_long_enough_is_not_asked_for_again():
    text = batch(drained(), "2026-11-25T01:00")["status"]
    assert STOP in text and "it has rested longer" in text and "No water" not in text


def test_a_plan_that_was_written_since_keeps_its_hour_and_the_stop_stays_said():
    plan = line("plan", "2026-11-24T13:00", stages=[["8", ""], ["10", ""], ["6", ""], ["12", ""], ["3", ""]])
    reply = batch([*drained(), plan], "2026-11-24T17:00")
    assert STOP in reply["status"] and "Water on at 22:10." in reply["status"] and "No water" not in reply["status"]
    assert reply["off"] == []


def test_too_dry_a_drain_is_said_and_keeps_its_hour():
    reply = batch(drained("203"), "2026-11-24T17:00")
    assert re.match(
        r"Past a stop\. Moisture at the first drain 2[67][.\d]* %: the stop is under 28 %\.", reply["status"]
    )
    assert "rest it, then wet it again" in reply["status"] and "Water on at 20:10." in reply["status"]
    assert reply["off"] == ["behind"]


def test_nothing_is_said_of_a_drain_as_it_should_be_and_once_the_water_is_on():
    assert "first drain" not in batch(drained("210"), "2026-11-24T17:00")["status"]
    wet = [*drained(), line("stage-begun", "2026-11-25T00:10", stage="wet", water_temp_c="14")]
    assert "first drain" not in batch(wet, "2026-11-25T00:30")["status"]
    assert "first drain" not in handed(wet, "2026-11-25T00:30")


def test_the_last_drain_is_held_against_the_cast_and_not_against_the_second_drain():
    two = [
        *drained("210", stages=[["8", ""], ["8", ""], ["8", ""], ["8", ""]]),
        line("stage-begun", "2026-11-24T20:10", stage="wet", water_temp_c="14"),
        line("basket", "2026-11-25T04:00", gross_g="241", drained="drained"),
        line("stage-ended", "2026-11-25T04:10", ended="drained"),
    ]
    assert "second drain" not in batch(two, "2026-11-25T06:00")["status"]


def wet(*baskets: tuple[str, str], **start: object) -> list[Line]:
    """A first immersion from six in the morning, planned for eight hours, its basket weighed as given."""
    return [
        line("start", "2026-11-24T05:30", **{**START, **start}),
        line("stage-begun", "2026-11-24T06:00", stage="wet", water_temp_c="14"),
        *(line("basket", at, gross_g=grams, drained="drained") for at, grams in baskets),
    ]


TOO_WET = ("2026-11-24T13:00", "231.5")


def test_a_drain_is_late_only_since_a_basket_could_tell_it():
    reply = batch(wet(TOO_WET), "2026-11-24T13:10")
    assert "Drain now, and rest longer." in reply["status"]
    assert "By the basket of 13:00 it was there already." in reply["status"] and "was due" not in reply["status"]
    assert reply["off"] == ["ahead"]
    over = handed(wet(TOO_WET), "2026-11-24T13:10")
    assert "Due 13:00, 10 min late." in over and "07:4" not in over
    assert "Off the plan: Ahead of the plan" in over and "Behind" not in over


def test_what_is_drained_too_late_and_too_wet_is_not_behind():
    assert batch(wet(TOO_WET), "2026-11-24T15:30")["off"] == ["ahead"]
    within = wet(("2026-11-24T13:00", "222"))  # within the band that was expected, and past the stop
    assert batch(within, "2026-11-24T15:30")["off"] == ["ahead"]
    dry = wet(("2026-11-24T13:00", "196"))
    assert batch(dry, "2026-11-24T15:30")["off"] == ["behind"]


def test_a_drain_that_was_late_before_its_basket_is_late_since_its_hour():
    late = wet(("2026-11-24T13:00", "226"), ("2026-11-24T15:30", "231.5"))
    assert "The drain was due at 13:00." in batch(late, "2026-11-24T15:40")["status"]
    by_plan = wet(("2026-11-24T15:00", "212"))
    assert "The drain was due at 14:00." in batch(by_plan, "2026-11-24T15:10")["status"]


def test_the_target_passed_by_a_basket_is_late_since_that_basket():
    one = wet(("2026-11-24T10:00", "232"), stages=[["8", ""]], target_moisture="40")
    text = batch(one, "2026-11-24T10:20")["status"]
    assert "Drain now: by the basket of 10:00 it was there already." in text
    assert "By now the basket should read" in text


def test_what_follows_goes_on_from_now_where_the_drain_is_late():
    assert "Then: Wed 25 Nov 01:10: water on" in handed(wet(TOO_WET), "2026-11-24T13:10")  # twelve hours of rest
    usual = wet()
    assert "Then: 22:00: water on" in handed(usual, "2026-11-24T13:10")
    assert "Then: 22:30: water on" in handed(usual, "2026-11-24T14:30")
    rested = handed(drained(), "2026-11-24T22:00")
    assert "Then: 08:10: drain" in rested.replace("Wed 25 Nov ", "")  # eight hours after the water of 00:10


def test_after_too_wet_a_second_drain_the_basket_decides_whether_there_is_a_last_dip():
    lines = [
        *drained("210"),
        line("stage-begun", "2026-11-24T20:10", stage="wet", water_temp_c="14"),
        line("basket", "2026-11-25T04:00", gross_g="240", drained="drained"),
        line("stage-ended", "2026-11-25T04:10", ended="drained"),
    ]
    reply = batch(lines, "2026-11-25T06:00")
    assert re.match(r"Past a stop\. Moisture at the second drain 4[34][.\d]* %: the stop is over 43 %", reply["status"])
    assert "the last dip may not be needed. Weigh the basket before any water" in reply["status"]
    assert "rest it longer" not in reply["status"] and reply["off"] == ["ahead"]


def test_grain_that_is_too_warm_now_is_said_before_what_was_drained():
    hot = line("bed", "2026-11-24T14:00", bottom_c="19", top_c="18.5")
    text = batch([*drained(), hot], "2026-11-24T14:30")["status"]
    assert text.startswith("Past a stop. Grain in an air rest 19 °C") and STOP in text
