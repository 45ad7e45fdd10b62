"""A quick reading set right: too few pairs say so, the oven stands, and what was not tried is said."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.rules.limits.quick_moisture import PAIRS
from calculators.rules.quick import quick_verdict
from tests.sheets.ask import ask, notes, said, values
from tests.sheets.stops import asked, check, past

FIVE = "40.0 41.2; 42.0 43.1; 43.0 44.4; 44.0 45.1; 45.0 46.2"
WORSE = "40.0 43.2; 42.0 42.1; 43.0 45.4; 44.0 43.9; 45.0 47.2"


def test_the_reading_is_corrected_by_the_mean_of_its_pairs():
    found = ask("quick-moisture", quick_now="43.5", pairs=FIVE)["answers"]
    assert found["moisture"]["value"] == pytest.approx(43.5 + 1.2)
    assert found["moisture"]["low"] < 44.7 < found["moisture"]["high"]
    assert found["verdict"]["value"] == "careful"  # five pairs are watched
    assert "watched under 8 pairs" in notes("quick-moisture", quick_now="43.5", pairs=FIVE)


@pytest.mark.parametrize("pairs", ["40 41.2", "40 41.2; 42 43.2", "40 41.2; 42 43.2; 43 44.2"])
def test_too_few_pairs_give_no_corrected_figure_and_say_so(pairs):
    found = values("quick-moisture", quick_now="42", pairs=pairs)
    assert "moisture" not in found and "correction" not in found
    assert found["verdict"] == "look" and found["reading"] == 42.0
    told = notes("quick-moisture", quick_now="42", pairs=pairs)
    assert "too little to correct by" in told and "the stop is under 4 pairs" in told


def test_the_oven_of_the_same_sample_stands_and_a_gap_is_said_first():
    found = ask("quick-moisture", quick_now="43.5", pairs=FIVE, oven_now="48")
    assert found["answers"]["verdict"]["value"] == "apart" and "moisture" not in found["answers"]
    assert found["notes"][0]["text"].startswith("The oven says 48.0 %") and "stands" in found["notes"][0]["text"]
    near = ask("quick-moisture", quick_now="43.5", pairs=FIVE, oven_now="44.8")
    assert near["answers"]["verdict"]["value"] == "oven" and "moisture" not in near["answers"]


def test_the_oven_stands_also_where_so_few_pairs_tell_nothing():
    found = ask("quick-moisture", quick_now="43.5", pairs="40 41.2", oven_now="48")
    assert found["answers"]["verdict"]["value"] == "oven"
    assert "its figure counts" in " ".join(note["text"] for note in found["notes"])


def test_what_scatters_decides_nothing_and_what_was_not_tried_is_said():
    assert values("quick-moisture", quick_now="43", pairs=WORSE)["verdict"] == "look"
    assert "Doubt of a corrected reading" in notes("quick-moisture", quick_now="43", pairs=WORSE)
    far = {"quick_now": "36", "pairs": FIVE}
    assert "the stop is over 3 points" in notes("quick-moisture", **far)
    assert values("quick-moisture", **far)["verdict"] == "look"
    assert "days" in notes("quick-moisture", quick_now="43", pairs=FIVE, pair_age_days="40")


def test_the_three_ways_give_the_reading():
    blank = {"quick_now": "", "pairs": FIVE}
    assert values("quick-moisture", **blank, wet_g="50", dry_g="28.5")["reading"] == pytest.approx(43.0)
    counted = values("quick-moisture", **blank, corns="500", corns_g="36", dry_thousand_g="39.6")
    assert counted["reading"] == pytest.approx(45.0)
    assert "the stop is under 200" in notes(
        "quick-moisture", **blank, corns="150", corns_g="10.8", dry_thousand_g="39.6"
    )


def test_slips_are_asked_back():
    blank = {"quick_now": "", "pairs": FIVE}
    assert "without the dish" in said("quick-moisture", **blank, wet_g="50", dry_g="50")
    assert "Wet ones weigh more" in said("quick-moisture", **blank, corns="500", corns_g="19", dry_thousand_g="39.6")


def test_a_pair_turned_round_is_named_and_left_in():
    turned = FIVE + "; 47.1 46.0; 41.0 42.3; 39.0 40.0"
    told = notes("quick-moisture", quick_now="43", pairs=turned)
    assert "Pair 6 lies too far from the others" in told and "counts until you take it out" in told


def test_the_line_is_taken_only_when_it_is_proved():
    bent = "; ".join(f"{30 + 2 * n} {33.6 + 2.3 * n + (0.1 if n % 2 else -0.1):.1f}" for n in range(9))
    found = ask("quick-moisture", quick_now="46", pairs=bent)["answers"]
    assert found["slope"]["low"] > 1.0
    assert found["moisture"]["value"] == pytest.approx(33.6 + 2.3 * 8, abs=0.2)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.floats(30, 55),
    st.floats(0, 1.5),
    st.integers(1, 10),
    st.none() | st.floats(0, 60),
    st.none() | st.floats(35, 55),
)
def test_no_reading_steers_past_a_stop_that_is_not_said(reading, jump, count, age, oven):
    rows = [(38.0 + n, 39.0 + n + (jump if n % 2 else -jump)) for n in range(count)]
    result = asked(
        "quick-moisture",
        quick_now=repr(reading),
        pairs=";".join(f"{quick} {value:.2f}" for quick, value in rows),
        pair_age_days="" if age is None else repr(age),
        oven_now="" if oven is None else repr(oven),
    )
    if result is None:
        return
    verdict = result["answers"]["verdict"]["value"]
    out = max(0.0, 38.0 - reading, reading - rows[-1][0])
    stops = [*past("quick-pairs", float(count)), *past("quick-outside", out)]
    stops += [] if age is None else past("quick-age", age)
    check(result, iter(stops))
    if any(True for _ in stops):
        assert verdict in (("oven", "apart") if oven is not None else ("look",))


def test_the_verdict_at_the_edges():
    given = {"reading": 43.0, "half": 1.0, "corrected": 44.0}
    many, few = [43.0] * int(PAIRS.accept_low or 0), [43.0] * (int(PAIRS.stop_low or 0) - 1)
    assert quick_verdict(tried=many, **given).word == "use"
    assert quick_verdict(tried=few, **given).word == "look"
    assert quick_verdict(tried=many, **given | {"half": 1.01}).word == "careful"
    assert quick_verdict(tried=many, **given | {"half": 2.01}).word == "look"
    assert quick_verdict(tried=many, **given, oven=45.0).word == "oven"
    assert quick_verdict(tried=many, **given, oven=45.01).word == "apart"
