"""The sheet on chitting: what brings chits on, what a count does, what is asked back; no stop is passed unsaid."""

from __future__ import annotations

from datetime import datetime

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from calculators.models.counts.intervals import wilson
from calculators.models.living.chitting import Corns, Counted, from_counts, log_likelihood
from calculators.models.living.steep_life import Chits, Life
from calculators.models.living.steep_run import USUAL_RESTS, resting_on, warmed
from calculators.models.steep.doubt import trust
from calculators.models.steep.hydration import steep
from tests.sheets.ask import ask, notes, said, values, wrong
from tests.sheets.stops import asked, check, past

NO_COUNT = {"count_h": "", "chitted": "", "counted": ""}


def plain(**given_values: str) -> dict[str, float]:
    return values("chitting", **{**NO_COUNT, **given_values})


def test_the_worked_case():
    found = ask("chitting")
    answers = found["answers"]
    assert answers["outlook"]["value"] == "rest-on"
    assert 39.0 < answers["chitted_after_h"]["value"] < 51.0
    at = datetime.fromisoformat(answers["chitted_at"]["value"])
    assert (at - datetime(1, 1, 1, 6)).total_seconds() / 3600 == pytest.approx(
        answers["chitted_after_h"]["value"], abs=0.02
    )
    share = answers["chit_dip"]
    assert share["low"] < share["value"] < share["high"]


def test_warmth_brings_chits_on_and_a_long_immersion_holds_them_back():
    assert (
        plain(water_temp_c="12")["chit_end"]
        < plain(water_temp_c="14")["chit_end"]
        < plain(water_temp_c="16")["chit_end"]
    )
    # The same hours under water, in one and in two: Wilhelmson and others 2006 (abstract read) found embryos short of
    # oxygen in every steep; how long they then wait is our assumption.
    in_two = plain(stages="12; 1; 12; 14; 3")
    in_one = plain(stages="24; 1; 1; 13; 3")
    assert in_one["chit_end"] < in_two["chit_end"] - 5.0


def test_the_steeping_sheets_agree_on_one_batch():
    """Typed alike, steep timing, steep fit without news and chitting give the same chits and the same warmth."""
    here, timing = plain(), values("steep-timing")
    assert here["chit_dip"] == pytest.approx(timing["chit_dip"], abs=0.05)
    assert here["chit_end"] == pytest.approx(timing["chit_end"], abs=0.05)
    assert here["warmest_c"] == pytest.approx(timing["warmest_c"], abs=1e-9)
    rows = ask("chitting", **NO_COUNT)["tables"]["stages"]["rows"]
    others = ask("steep-timing")["tables"]["stages"]["rows"]
    assert [row[5] for row in rows] == pytest.approx([row[7] for row in others], abs=1e-9)


def test_a_rest_that_was_read_goes_by_the_reading():
    cool, warm = (plain(stages=f"8; 8 {t}; 8; 12 {t}; 3") for t in (11, 17))
    assert cool["chit_end"] < plain()["chit_end"] < warm["chit_end"]
    assert warm["warmest_c"] == 17.0


def test_tests_of_the_grain_thin_and_delay():
    assert plain(grows_percent="80")["chit_end"] == pytest.approx(80 / 97 * plain()["chit_end"], abs=2.0)
    assert plain(sensitive_percent="40")["chit_end"] < plain()["chit_end"] - 5.0
    never = ask("chitting", grows_percent="85")
    assert never["answers"]["outlook"]["value"] == "never" and "chitted_after_h" not in never["answers"]
    assert any("90 % never chit" in note["text"] for note in never["notes"])


def test_a_count_scales_the_rest_of_the_forecast():
    typical = plain()
    shares = [values("chitting", chitted=str(n))["chit_end"] for n in (10, 42, 90, 150)]
    assert shares == sorted(shares)
    middles = [values("chitting", chitted=str(n))["chit_middle_h"] for n in (10, 42, 90, 150)]
    assert middles == sorted(middles, reverse=True)
    assert middles[0] > typical["chit_middle_h"] > middles[-1]


def test_a_count_narrows_the_band():
    wide, narrow = (ask("chitting", **more)["answers"]["chit_dip"] for more in (NO_COUNT, {}))
    assert narrow["high"] - narrow["low"] < 0.7 * (wide["high"] - wide["low"])
    few, many = (ask("chitting", chitted=str(n // 5), counted=str(n))["answers"]["chit_middle_h"] for n in (50, 1000))
    assert many["high"] / many["low"] < few["high"] / few["low"]


def test_the_forecast_passes_near_a_large_count():
    course, _ = warmed(steep(barley_moisture=12.5, stages=[(h, 14.0) for h in (8, 8, 8, 12, 3)]))
    for chitted in (200, 500, 900):
        life = Life(trust(course), counts=[Chits(34.0, chitted, 1000)])
        value, low, high = life.share_at(34.0)
        inside = wilson(chitted, 1000)
        assert inside.low - 0.04 < value < inside.high + 0.04
        assert low <= value <= high


def test_a_count_is_a_binomial_at_its_hour():
    """The two intervals of one count have the likelihood of a binomial (by hand: k ln p + (n - k) ln(1 - p))."""
    from math import inf, log

    corns = Corns(grows=1.0, sensitive=0.0)
    counted = [Counted(0.0, 15.0, 42), Counted(15.0, inf, 158)]
    assert log_likelihood(counted=counted, corns=corns) == pytest.approx(42 * log(0.5) + 158 * log(0.5), rel=1e-9)
    assert from_counts(counted=counted).corns.middle_h > 15.0


def test_a_count_that_does_not_fit_is_said():
    text = notes("chitting", count_h="20", chitted="100")
    assert "outside what 19 of 20 lots show" in text and "Count again" in text
    assert "outside what" not in notes("chitting")


@pytest.mark.parametrize(("hour", "chitted"), [("10", "190"), ("10", "60"), ("14", "190"), ("16", "100")])
def test_more_chits_than_any_lot_shows_are_asked_back(hour, chitted):
    told = said("chitting", count_h=hour, chitted=chitted)
    assert f"{chitted} of 200 after {hour} h is more than any lot shows" in told and "check the hours" in told


def test_more_chits_than_grow_are_asked_back():
    told = said("chitting", chitted="198", count_h="36", grows_percent="90")
    # 198 of 200: 96.4 % at least (exact, one in forty under it)
    assert "at least 96 % of the lot, and by the test only 90 % grow" in told
    assert values("chitting", chitted="198", count_h="36", grows_percent="95")["chit_end"] > 90
    assert values("chitting", chitted="188", count_h="36", grows_percent="90")["chit_end"] > 85


@pytest.mark.parametrize("hour", ["30", "36", "48"])
def test_few_chits_are_no_slip_and_answered(hour):
    late = ask("chitting", chitted="0", count_h=hour)
    assert late["answers"]["outlook"]["value"] == "too-late"


def test_a_later_count_is_believed_over_the_usual_lot():
    late = values("chitting", count_h="36", chitted="10")
    assert late["chit_end"] < 20.0 < plain()["chit_end"]


def test_bands_hold_in_the_model_s_own_world():
    """Lots drawn from the doubts as they are stated; how often the band at the last drain holds (19 of 20 claimed)."""
    import random

    from calculators.models.living.chitting import MIDDLE_LOG_SD, SPREAD, SPREAD_LOG_SD, share_chitted
    from calculators.models.living.doubts import UNKNOWNS, moved
    from calculators.models.living.lot_plan_state import Lot, at_hour
    from calculators.models.living.maths import FLOATS
    from calculators.models.living.steep_run import driven, lot_of

    assert (MIDDLE_LOG_SD, SPREAD, SPREAD_LOG_SD) == (0.3, 0.30, 0.25)
    draw = random.Random("chit bands")
    lengths = (8.0, 8.0, 8.0, 12.0, 3.0)
    course, _ = warmed(steep(barley_moisture=12.5, stages=[(h, 14.0) for h in lengths]))
    on, rests = resting_on(course, USUAL_RESTS, 12.0)
    held = {True: 0, False: 0}
    houses = 120
    for _ in range(houses):
        z = [draw.gauss(0.0, 1.0) for _ in UNKNOWNS]
        lot = moved(FLOATS, Lot(barley_moisture=12.5), z)
        truth_stages = [(s.hours, s.water_temp_c + lot.water_warmer_k) for s in on.steeping.stages]
        water = steep(
            barley_moisture=lot.barley_moisture, stages=truth_stages, rate_factor=lot.rate_factor,
            first_uptake_db=lot.first_uptake_db, film_db=lot.film_db, rest_factor=lot.rest_factor,
            activation_kj_mol=lot.activation_kj_mol, surface_db=lot.surface_db,
        )  # fmt: skip
        states = driven(water, rests, lot._replace(water_warmer_k=0.0))

        def share(hour, states=states, lot=lot):
            return float(share_chitted(FLOATS, at_hour(states, hour, lambda state: state.chit_h), lot.corns))

        seen = sum(draw.random() < share(33.0) for _ in range(200))
        for counts in ((), (Chits(33.0, seen, 200),)):
            life = Life(trust(on), rests, counts=counts)
            low, high = life.share_at(44.0)[1:]
            held[bool(counts)] += low <= share(44.0) <= high
    assert held[False] >= 0.9 * houses and held[True] >= 0.9 * houses
    assert lot_of(on.steeping).barley_moisture == 12.5


@pytest.mark.parametrize(
    ("given_values", "words"),
    [
        ({"stages": "8; 8 35; 8; 12; 3"}, "at 35 °C four corns of five failed, at 40 °C all"),
        ({"stages": "8; 8; 8; 30; 8; 40", "water_temp_c": "22"}, "gets warmer than 30 °C"),
        ({"stages": "0.5; 8"}, "under 26 % none chits"),
        ({"count_h": "2", "chitted": "5"}, "drier ones do not chit"),
        ({"chitted": "201"}, "201 of 200 cannot be chitted"),
        ({"count_h": ""}, "or leave all three blank"),
        ({"count_h": "200"}, "and a rest after them end after"),
        ({"water_temp_c": "1"}, "from 2 to 30 °C"),
        ({"sensitive_percent": "98"}, "more than the 97 % that grow"),
        ({"wanted_percent": "4"}, "from 5 to 99 %"),
        ({"counted": "5"}, "Corns counted"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in said("chitting", **given_values)


def test_the_question_at_fault_is_named():
    assert [one.question for one in wrong("chitting", count_h="2", chitted="5")] == ["count_h"]
    assert [one.question for one in wrong("chitting", stages="0.5; 8")] == ["stages"]


def test_limits_themselves_are_accepted():
    for more in (
        {"water_temp_c": "2", "stages": "30; 12; 12", **NO_COUNT},
        {"wanted_percent": "5"},
        {"grows_percent": "1", "sensitive_percent": "1", "chitted": "0"},
        {"suction_m3_h_t": "500"},
    ):
        ask("chitting", **more)


def test_too_late_gives_no_hour():
    cold = ask("chitting", **NO_COUNT, water_temp_c="5", stages="12; 6; 8; 6; 8", wanted_percent="95")
    assert cold["answers"]["outlook"]["value"] == "too-late"
    assert "chitted_after_h" not in cold["answers"] and "chitted_at" not in cold["answers"]
    first = cold["notes"][0]["text"]
    assert first.startswith("Past a stop") and "24 h" in first


waters = st.one_of(st.floats(3, 19), st.sampled_from([5.0, 18.0]))
lengths = st.lists(st.one_of(st.floats(3, 20), st.sampled_from([8.0, 12.0])), min_size=1, max_size=6)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.floats(9, 16), waters, lengths, st.floats(40, 95), st.integers(50, 100))
@example(12.5, 18.5, [8.0, 12.0, 8.0, 12.0, 3.0], 90.0, 97)
@example(12.5, 9.0, [8.0, 8.0, 8.0, 12.0, 3.0], 90.0, 97)
def test_no_stop_is_passed_unsaid(barley, water, hours, wanted, grows):
    result = asked(
        "chitting",
        barley_moisture=repr(barley),
        water_temp_c=repr(water),
        stages="; ".join(map(repr, hours)),
        wanted_percent=repr(wanted),
        grows_percent=str(grows),
        start="2026-01-12 06:00",
        **NO_COUNT,
    )
    if result is None:
        return
    rows = result["tables"]["stages"]["rows"]
    check(result, past("steep-water-temp", water))
    for row in rows:
        wet = "immersion" in row[0]
        check(result, past("immersion-hours" if wet else "rest-hours", row[1]))
        if not wet:
            check(result, past("rest-temp", row[2]))
        assert row[7] <= row[6] <= row[8]
    shown = [row[6] for row in rows]
    assert shown == sorted(shown)  # chits only come
    dip = result["answers"].get("chit_dip")
    check(result, past("chit-last-dip", dip and dip["value"]))
    after = result["answers"].get("chitted_after_h")
    last = sum(hours) + 24.0 if len(hours) % 2 else sum(hours[:-1]) + max(24.0, hours[-1])
    assert after is None or after["value"] <= last + 1e-6
