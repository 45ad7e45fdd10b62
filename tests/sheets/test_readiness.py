"""Readiness: each verdict at its edges, the trend, and bad input."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from calculators.asking.answer import Answered, answer
from calculators.asking.declare import Number
from calculators.rules.limits.readiness import OVERSHOT, READY
from calculators.rules.readiness import Seen, fell_back
from calculators.sheets import find_sheet
from tests.sheets.ask import ask, notes, outcome, said, values


def count(ready: int, overshot: int = 0, corns: int = 100) -> str:
    """Five rows of one day: ready and overshot as wanted, the others half way."""
    return f"0; 0; {corns - ready - overshot}; {ready}; {overshot}"


def verdict(rows: str, **given_values: str) -> str:
    return str(values("readiness", **{"rub": "", "counts": rows, **given_values})["verdict"])


def test_five_five_ten_sixty_five_fifteen_is_late_and_not_waiting():
    answered = ask("readiness", counts="5; 5; 10; 65; 15", rub="")
    assert answered["answers"]["verdict"]["value"] == "late"
    assert answered["answers"]["share_ready"]["value"] == 80 and answered["answers"]["share_overshot"]["value"] == 15
    assert "wait_hours" not in answered["answers"] and "count_more" not in answered["answers"]
    text = notes("readiness", counts="5; 5; 10; 65; 15", rub="")
    assert "Write why it came so far" in text and "Tell the shift lead" in text


@pytest.mark.parametrize(
    ("rows", "word"),
    [
        ("2; 3; 5; 86; 4", "kiln-now"),
        ("2; 4; 9; 82; 3", "kiln-now"),
        ("0; 0; 4; 88; 8", "kiln-now"),
        ("4; 6; 8; 172; 10", "kiln-now"),
        ("0; 0; 4; 86; 10", "late"),
        ("2; 4; 24; 69; 1", "wait"),
        ("1; 3; 20; 75; 1", "count-more"),
    ],
)
def test_each_word_of_a_hundred_or_two(rows, word):
    assert verdict(rows) == word


def test_the_case_of_2_4_14_76_4():
    # the mean by its three conventions: 0.815 at class middles, 0.69 and 0.94 at the ends (by hand)
    answered = ask("readiness", counts="2; 4; 14; 76; 4", rub="")["answers"]
    assert answered["share_ready"]["value"] == 80 and answered["share_overshot"]["value"] == 4
    assert answered["mean_acrospire"]["value"] == pytest.approx(0.815)
    assert answered["evenness"]["value"] == 90
    assert answered["verdict"]["value"] == "kiln-now"


def test_the_share_at_three_quarters_holds_those_beyond_and_its_exact_interval():
    entry = ask("readiness", counts="2; 4; 14; 76; 4", rub="")["answers"]["share_ready"]
    low, high = stats.beta.ppf(0.025, 80, 21), stats.beta.ppf(0.975, 81, 20)
    assert (entry["low"], entry["high"]) == pytest.approx((100 * low, 100 * high))


def test_overshot_comes_before_everything():
    assert verdict(count(60, 40)) == "late"
    assert verdict("50; 0; 0; 0; 50") == "late"
    assert "Only about 50 %" in notes("readiness", counts="50; 0; 0; 0; 50", rub="")


def test_length_without_a_dry_rub_waits():
    ripe = count(95)
    assert values("readiness", counts=ripe, rub="2; 3; 45")["verdict"] == "kiln-now"
    found = values("readiness", counts=ripe, rub="20; 20; 10")
    assert found["verdict"] == "wait" and found["rub_ready"] == 20 and found["wait_hours"] == 12
    assert "rub hard" in notes("readiness", counts=ripe, rub="20; 20; 10")
    assert "No corns were rubbed" in notes("readiness", counts=ripe, rub="")
    late = notes("readiness", counts=count(70, 25), rub="20; 20; 10")
    assert "before anything is loaded" in late


def test_count_more_says_how_many_of_half_an_hour_at_most_and_warns_of_looking_again():
    answered = ask("readiness", counts="1; 3; 20; 75; 1", rub="")
    assert 50 <= answered["answers"]["count_more"]["value"] <= 200
    text = " ".join(note["text"] for note in answered["notes"])
    assert "weakens the 95 %" in text and "one spot" in text


def test_the_costs_add_up_and_the_cheaper_road_is_taken():
    for rows in ("2; 4; 14; 76; 4", "2; 4; 24; 69; 1", "3; 12; 45; 40; 0"):
        found = values("readiness", counts=rows, rub="")
        cheaper = "kiln-now" if found["kiln_points"] <= found["waiting_points"] else "wait"
        assert found["verdict"] == cheaper


def test_wait_gives_hours_by_the_trend():
    # every corn grew one class, 0.25, in a day (by hand); held towards the typical 0.18
    rows = "0 0; 0 100; 100 0; 0 0; 0 0"
    found = ask("readiness", counts=rows, rub="")["answers"]["wait_hours"]
    assert found["low"] < found["value"] < found["high"]
    assert 24 * 0.15 / 0.25 < found["value"] < 24 * 0.16 / 0.18
    half_a_day = ask("readiness", counts=rows, rub="", hours_between="12")["answers"]["wait_hours"]
    assert half_a_day["value"] < 0.8 * found["value"]


def test_one_days_count_gives_hours_too_and_says_that_they_are_typical():
    found = ask("readiness", counts="1; 4; 45; 50; 0", rub="")["answers"]
    assert found["verdict"]["value"] == "wait" and found["wait_hours"]["low"] < found["wait_hours"]["high"]
    assert "rest on a typical growth" in notes("readiness", counts="1; 4; 45; 50; 0", rub="")


def test_the_day_before_makes_the_trend_surer():
    two = ask("readiness", counts="1 3; 4 22; 45 57; 50 18; 0 0", rub="")["answers"]["wait_hours"]
    three = ask("readiness", counts="1 3 10; 4 22 60; 45 57 30; 50 18 0; 0 0 0", rub="")["answers"]["wait_hours"]
    assert three["high"] - three["low"] < two["high"] - two["low"]


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ("20; 20; 20; 37; 3", "Uneven: 40 % ready, 3 % overshot."),
        ("30; 20; 20; 28; 2", "Uneven: 30 % ready, 2 % overshot."),
        ("40; 15; 15; 29; 1", "Uneven: 30 % ready, 1 % overshot."),
        ("10; 20; 30; 39; 1", "Uneven: 40 % ready, 1 % overshot."),
        ("10; 20; 20; 45; 5", "Uneven: 50 % ready, 5 % overshot."),
        ("5 15; 10 30; 20 26; 60 28; 5 1", "Uneven: 65 % ready, 5 % overshot."),
    ],
)
def test_an_uneven_piece_waits_and_the_shift_lead_hears_of_it_first(rows, words):
    answered = ask("readiness", counts=rows, rub="")
    assert answered["answers"]["verdict"]["value"] == "wait"
    first, hours = answered["notes"][0], answered["answers"]["wait_hours"]["value"]
    assert first["level"] == "notice" and first["text"].startswith(words)
    assert f"Tell the shift lead; count again after {hours:.0f} h." in first["text"] and hours <= 24
    assert "tomorrow" not in notes("readiness", counts=rows, rub="")
    assert "Uneven" not in notes("readiness", counts="2; 8; 40; 50; 0", rub="")


def test_no_hours_without_sure_growth():
    still = "10 10; 40 40; 40 40; 10 10; 0 0"
    assert "wait_hours" not in values("readiness", counts=still, rub="")
    assert "no sure growth" in notes("readiness", counts=still, rub="")


def test_the_edges_are_those_of_the_table_of_limits():
    sheet = find_sheet("readiness")
    target, most = sheet.question("target_share"), sheet.question("overshot_limit")
    assert isinstance(target, Number) and not target.default and target.low == READY.lowest
    assert values("readiness")["target_used"] == READY.accept_low
    assert most is not None and float(most.default) == OVERSHOT.stop_high


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ("1; 2; 3", "Fill in from 5 to 5 rows"),
        ("0; 0; 0; 2; 0", "may be as low as 16 %"),
        ("0; 0; 0; 0; 0", "no corn at all"),
        ("0; 0; 0.5; 76; 4", "not whole"),
        ("0; 0; -1; 76; 4", "too low"),
        ("0 1; 0 2; 5 3; 76 4; 4", "over 1, yesterday"),
        ("0; 0; 10; 24; x", "not a number"),
    ],
)
def test_bad_counts_are_explained(rows, words):
    assert words in said("readiness", counts=rows, rub="")


def test_the_day_before_needs_yesterday():
    rows = [["1", "", "3"], ["3", "", "12"], ["9", "", "45"], ["84", "", "40"], ["3", "", "0"]]
    assert "not of yesterday" in said("readiness", counts=rows, rub="")


def test_a_row_left_blank_is_still_to_be_filled_in():
    rows = [["1", "", ""], ["", "", ""], ["9", "", ""], ["84", "", ""], ["3", "", ""]]
    result = answer(find_sheet("readiness"), {"counts": rows})
    assert not isinstance(result, Answered)
    assert [problem.missing for problem in result.problems] == [True]


@pytest.mark.parametrize(
    ("counts", "what"),
    [
        ("0 0; 0 0; 20 2; 80 60; 0 38", "38 % were overshot yesterday and 0 % today"),
        # typed oldest first
        (
            "20 1 0; 60 10 0; 15 30 10; 5 50 60; 0 9 30",
            "the mean would have shrunk by 0.38 of a corn a day from yesterday to today",
        ),
        ("60 10; 40 60; 0 30; 0 0; 0 0", "the mean would have shrunk by 0.20 of a corn a day from yesterday to today"),
        ("0 0 0; 0 0 0; 50 50 10; 50 50 60; 0 0 30", "30 % were overshot the day before and 0 % today"),
    ],
)
def test_counts_in_which_corns_would_have_shrunk_are_asked_back(counts, what):
    text = said("readiness", counts=counts, rub="")
    assert what in text and "wrong order" in text and "Today’s is the first column" in text


def test_counts_that_chance_may_leave_are_answered():
    # 5 of 100 overshot and then 2, and a mean that stands still: within what counting leaves.
    assert verdict("2 2; 6 6; 20 19; 70 68; 2 5") in ("kiln-now", "count-more", "wait")
    # the counts that were typed oldest first, in order: 30 % overshot
    assert verdict("0 1 20; 0 10 60; 10 30 15; 60 50 5; 30 9 0") == "late"


def test_the_same_piece_counted_twice_is_hardly_ever_asked_back():
    rng, asked = np.random.default_rng(7), 0
    for _ in range(2000):
        days = rng.multinomial(100, (0.02, 0.08, 0.25, 0.57, 0.08), size=2)
        asked += fell_back(Seen(tuple(tuple(map(float, day)) for day in days), 24, 75, 10)) is not None
    assert asked <= 12  # two looks at one in a thousand each are four; twelve are three standard deviations above


@pytest.mark.parametrize("counts", ["20; 60; 20; 0; 0", "10; 50; 40; 0; 0", "20 60; 60 40; 20 0; 0 0; 0 0"])
def test_a_piece_of_the_third_day_is_told_to_wait_and_to_be_counted_each_day(counts: str):
    found = {one.id: one for one in outcome("readiness", counts=counts, rub="").answers}
    assert found["verdict"].value == "wait"
    assert 48 < float(str(found["wait_hours"].value)) <= 72
    assert "Count again tomorrow" in found["wait_hours"].next


def test_where_the_target_is_days_away_no_hour_is_said_but_to_count_each_day():
    found = values("readiness", counts="100; 0; 0; 0; 0", rub="")
    assert found["verdict"] == "wait" and "wait_hours" not in found
    told = notes("readiness", counts="100; 0; 0; 0; 0", rub="")
    assert "more than 3 days away" in told and "Count again tomorrow, and each day." in told
