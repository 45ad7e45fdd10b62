"""Readiness: each verdict at its edges, the trend, and bad input."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from calculators.answer import Answered, answer, find_sheet
from tests.sheets.ask import ask, notes, said, values


def count(ready: int, overshot: int = 0, corns: int = 100) -> str:
    """Five rows of one day: ready and overshot as wanted, the others half way."""
    return f"0; 0; {corns - ready - overshot}; {ready}; {overshot}"


def verdict(rows: str, **given_values: str) -> str:
    return str(values("readiness", **{"rub": "", "counts": rows, **given_values})["verdict"])


def above(limit: float, corns: int) -> int:
    """First count whose exact interval clears the limit, by scipy."""
    return next(k for k in range(1, corns + 1) if stats.beta.ppf(0.025, k, corns - k + 1) >= limit)


def below(limit: float, corns: int) -> int:
    """Last count whose exact interval stays under the limit, by scipy."""
    return max(k for k in range(corns) if stats.beta.ppf(0.975, k + 1, corns - k) < limit)


def test_the_share_ready_at_both_edges():
    ready, short = above(0.75, 100), below(0.75, 100)
    assert verdict(count(ready)) == "meets-target"
    assert verdict(count(ready - 1)) == "undecided"
    assert verdict(count(short)) == "wait"
    assert verdict(count(short + 1)) == "undecided"


def test_the_share_overshot_at_both_edges():
    fine, out = below(0.10, 200), above(0.10, 200)
    assert verdict(count(200 - fine, fine, 200)) == "meets-target"
    assert verdict(count(200 - fine - 1, fine + 1, 200)) == "undecided"
    assert verdict(count(200 - out, out, 200)) == "overshot"
    assert verdict(count(200 - out + 1, out - 1, 200)) == "undecided"


def test_the_case_of_2_4_14_76_4():
    # the mean by its three conventions: 0.815 at class middles, 0.69 and 0.94 at the ends (by hand)
    answered = ask("readiness", counts="2; 4; 14; 76; 4", rub="")["answers"]
    assert answered["share_ready"]["value"] == 76 and answered["share_overshot"]["value"] == 4
    assert answered["mean_acrospire"]["value"] == pytest.approx(0.815)
    assert answered["evenness"]["value"] == 90
    assert answered["verdict"]["value"] == "undecided"


def test_overshot_comes_before_everything():
    assert verdict(count(60, 40)) == "overshot"
    assert verdict("50; 0; 0; 0; 50") == "overshot"


def test_length_without_a_dry_rub_waits():
    ripe = count(95)
    assert values("readiness", counts=ripe, rub="2; 3; 45")["verdict"] == "meets-target"
    found = values("readiness", counts=ripe, rub="20; 20; 10")
    assert found["verdict"] == "wait" and found["rub_ready"] == 20
    assert "rub hard" in notes("readiness", counts=ripe, rub="20; 20; 10")
    assert "No corns were rubbed" in notes("readiness", counts=ripe, rub="")


def test_undecided_says_how_many_more_and_warns_of_looking_again():
    answered = ask("readiness", counts=count(80), rub="")
    more = int(answered["answers"]["count_more"]["value"])
    n = next(n for n in range(100, 5000) if stats.beta.ppf(0.025, 0.8 * n, 0.2 * n + 1) >= 0.75)
    assert more == -(-(n - 100) // 10) * 10
    assert verdict(count(round(0.8 * (100 + more)), 0, 100 + more)) == "meets-target"
    text = " ".join(note["text"] for note in answered["notes"])
    assert "weakens the 95 %" in text and "one spot" in text


def test_undecided_over_overshot_counts_for_that():
    answered = ask("readiness", counts=count(170, 14, 200), rub="")
    assert answered["answers"]["verdict"]["value"] == "undecided"
    assert (
        "Overshot" in " ".join(n["text"] for n in answered["notes"]) or answered["answers"]["count_more"]["value"] > 0
    )


def test_at_the_target_itself_counting_does_not_help():
    answered = ask("readiness", counts=count(75), rub="")
    assert "count_more" not in answered["answers"]
    assert any("being at the limit" in note["text"] for note in answered["notes"])


def test_wait_gives_hours_by_the_trend():
    # every corn grew one class, 0.25, in a day; 75 % past three quarters needs 0.1875 more: 18 h
    rows = "0 0; 0 100; 100 0; 0 0; 0 0"
    found = ask("readiness", counts=rows, rub="")["answers"]["wait_hours"]
    assert found["value"] == pytest.approx(24 * 0.1875 / 0.25)
    assert found["low"] < found["value"] < found["high"]
    half_a_day = ask("readiness", counts=rows, rub="", hours_between="12")["answers"]["wait_hours"]
    assert half_a_day["value"] == pytest.approx(found["value"] / 2)


def test_the_day_before_makes_the_trend_surer():
    two = ask("readiness", counts="3 12; 12 30; 45 40; 40 18; 0 0", rub="")["answers"]["wait_hours"]
    three = ask("readiness", counts="3 12 30; 12 30 50; 45 40 20; 40 18 0; 0 0 0", rub="")["answers"]["wait_hours"]
    assert three["high"] - three["low"] < two["high"] - two["low"]


def test_no_hours_without_sure_growth():
    still = "10 10; 40 40; 40 40; 10 10; 0 0"
    assert "wait_hours" not in values("readiness", counts=still, rub="")
    assert "no sure growth" in notes("readiness", counts=still, rub="")
    assert "Count again tomorrow" in notes("readiness", counts=count(10), rub="")


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


@given(st.lists(st.integers(0, 300), min_size=5, max_size=5).filter(lambda c: sum(c) >= 25))
def test_every_count_ends_in_one_of_four_words(counts):
    rows = "; ".join(str(c) for c in counts)
    answered = ask("readiness", counts=rows, rub="")["answers"]
    word = answered["verdict"]["value"]
    ready, over = answered["share_ready"], answered["share_overshot"]
    assert word in ("meets-target", "wait", "overshot", "undecided")
    assert (word == "meets-target") == (ready["low"] >= 75 and over["high"] < 10)
    assert (word == "overshot") == (over["low"] >= 10)
