"""Warmth of a rest: what leads, what the suction does, what its page says, and what is asked back."""

from __future__ import annotations

import re
from math import ceil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.asking.declare import Chart
from calculators.models.living.by_day import SINCE_WETTING_H
from calculators.rules.limits.steeping import REST_COLD, REST_RISE, REST_TEMP
from calculators.rules.rest import rest_verdict
from calculators.sheets import find_sheet
from tests.sheets.ask import ask, drawn, notes, said, values, wrong

PAGE = Path(__file__).parents[2] / "docs" / "calculators" / "rest-warmth.md"
often = settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
COOL = {"air_c": "8", "start_c": "11", "suction_m3_h_t": "40"}
HOT = {"air_c": "16", "start_c": "17", "since_wetting_h": "30", "suction_m3_h_t": "7.8"}


def first(**given_values: str) -> str:
    return str(ask("rest-warmth", **given_values)["notes"][0]["text"])


def test_a_stop_passed_leads_with_what_the_table_says_to_do():
    told = ask("rest-warmth", **HOT)
    assert told["answers"]["order"]["value"] == "stop"
    assert next(iter(told["answers"])) == "order"
    assert first(**HOT).startswith("Past a stop. Grain in an air rest")
    assert REST_TEMP.act in first(**HOT) and "Tell the shift lead" in first(**HOT)


def test_a_stop_that_only_the_fast_batch_passes_is_said_too():
    told = ask("rest-warmth")
    assert told["answers"]["order"]["value"] == "may-stop"
    assert first().startswith("Past a stop, if this batch breathes fast.") and "over 18 °C" in first()
    assert told["answers"]["soonest_stop_h"]["value"] < 12


def test_a_cool_rest_passes_nothing_and_still_lets_the_probes_decide():
    told = ask("rest-warmth", **COOL)
    assert told["answers"]["order"]["value"] == "hold"
    assert "soonest_stop_h" not in told["answers"]
    assert "Past a stop" not in notes("rest-warmth", **COOL)


@pytest.mark.parametrize(
    ("figures", "word"),
    [
        ((17.0, 0.5, 17.0, 0.5), "hold"),
        ((17.1, 0.5, 17.1, 0.5), "watch"),
        ((17.0, 0.6, 17.0, 0.6), "watch"),
        ((17.0, 0.5, 18.0, 1.0), "watch"),
        ((17.0, 0.5, 18.1, 1.0), "may-stop"),
        ((17.0, 0.5, 18.0, 1.1), "may-stop"),
        ((18.0, 1.0, 19.0, 1.0), "may-stop"),
        ((18.1, 0.5, 19.0, 0.5), "stop"),
        ((16.0, 1.1, 16.0, 1.1), "stop"),
    ],
)
def test_the_word_at_each_edge_from_both_sides(figures, word):
    warm, rise, warm_fast, rise_fast = figures
    found = rest_verdict(
        hours=12.0, warmest_c=warm, rise_k_h=rise, warmest_fast_c=warm_fast, rise_fast_k_h=rise_fast
    )  # fmt: skip
    assert found.word == word
    assert (REST_TEMP.accept_high, REST_TEMP.stop_high, REST_RISE.accept_high, REST_RISE.stop_high) == (17, 18, 0.5, 1)


def test_a_rest_past_a_day_is_a_stop_of_its_own():
    assert "Air rest 25 h: the stop is over 24 h" in notes("rest-warmth", **{**COOL, "rest_h": "25"})
    assert "the stop is over 24 h" not in notes("rest-warmth", **{**COOL, "rest_h": "24"})


@often
@given(
    st.floats(26, 48), st.floats(1, 96), st.floats(4, 22), st.floats(0.5, 24), st.floats(0, 200), st.floats(2, 30),
    st.floats(20, 100),
)  # fmt: skip
def test_every_answer_keeps_to_its_range_and_says_its_stops(moisture, since, start, hours, suction, air, damp):
    told = ask(
        "rest-warmth", drained_moisture=repr(moisture), since_wetting_h=repr(since), start_c=repr(start),
        rest_h=repr(hours), suction_m3_h_t=repr(suction), air_c=repr(air), air_rh=repr(damp),
    )  # fmt: skip
    for one in told["answers"].values():
        if one.get("low") is not None:
            assert one["low"] - 1e-9 <= one["value"] <= one["high"] + 1e-9
    end, said_all = told["answers"]["end_c"], " ".join(note["text"] for note in told["notes"])
    if end["high"] > 18.0:
        assert "over 18 °C" in said_all and told["answers"]["order"]["value"].startswith(("stop", "may-stop"))
    if told["answers"]["order"]["value"] == "hold":
        assert end["high"] <= 17.0 and start <= 17.0
    assert "never ventilation for people" in said_all and "It kills within minutes" in said_all


@often
@given(st.floats(5, 18), st.floats(4, 16), st.floats(8, 30))
def test_the_suction_named_holds_the_temperature_even_in_a_fast_batch(start, air, since):
    typed = {"start_c": repr(start), "air_c": repr(air), "since_wetting_h": repr(since)}
    told = ask("rest-warmth", **typed)
    hold = told["answers"].get("hold_m3_h_t")
    if hold is None:
        assert start > 17.0 or "No suction up to 500" in notes("rest-warmth", **typed)
        return
    again = ask("rest-warmth", **typed, suction_m3_h_t=repr(hold["value"]))["answers"]
    assert again["end_c"]["high"] <= 17.0 + 0.01
    assert told["answers"]["fan_hold_m3_h"]["value"] == pytest.approx(6 * hold["value"])
    if hold["value"] > 1.0:
        less = ask("rest-warmth", **typed, suction_m3_h_t=repr(hold["value"] - 0.5))["tables"]["hours"]["rows"]
        assert max(row[2] for row in less) > 17.0 - 0.05


def test_more_suction_of_cool_air_is_cooler_and_of_warm_air_warmer():
    cool = [row[1] for row in ask("rest-warmth", air_c="10")["tables"]["suctions"]["rows"]]
    assert cool == sorted(cool, reverse=True)
    warm = [row[1] for row in ask("rest-warmth", air_c="24", air_rh="95")["tables"]["suctions"]["rows"]]
    assert warm == sorted(warm)
    assert "warms the grain by" in notes("rest-warmth", air_c="24", air_rh="95")


def test_full_suction_of_warm_damp_air_is_not_called_a_remedy():
    muggy = {"air_c": "24", "air_rh": "95", "start_c": "17"}
    told = ask("rest-warmth", **muggy)
    assert told["answers"]["order"]["value"] == "stop-warm-air"
    assert "Full suction is no remedy with this air" in notes("rest-warmth", **muggy)
    assert "stays on, for the gas" in notes("rest-warmth", **muggy)
    cool = {**muggy, "air_c": "10"}
    assert "no remedy" not in notes("rest-warmth", **cool)


@often
@given(st.floats(4, 30), st.floats(30, 100), st.floats(8, 20))
def test_more_suction_is_ordered_only_where_it_cools(air, damp, start):
    told = ask("rest-warmth", air_c=repr(air), air_rh=repr(damp), start_c=repr(start))
    none, *_, most = (row for row in told["tables"]["suctions"]["rows"])
    word = told["answers"]["order"]["value"]
    if word == "stop":
        assert most[1] < none[1]
    if word == "may-stop":
        assert most[2] < none[2]


def test_what_no_suction_can_do_is_said():
    assert "No suction up to 500" in notes("rest-warmth", air_c="26", air_rh="90", since_wetting_h="40")
    text = notes("rest-warmth", start_c="17.5", air_c="10")
    assert "over 17 °C already" in text
    assert "hold_m3_h_t" not in ask("rest-warmth", start_c="17.5", air_c="10")["answers"]
    assert "hold_m3_h_t" in ask("rest-warmth", start_c="17", air_c="10")["answers"]


def test_the_balance_at_the_end_is_the_pace_of_the_last_hours():
    told = ask("rest-warmth", rest_h="8")
    rows = [row[1] for row in told["tables"]["hours"]["rows"]]
    assert len(rows) == 9
    assert told["answers"]["rise_end_k_h"]["value"] == pytest.approx(rows[-1] - rows[-2], abs=0.01)
    assert told["answers"]["rise_k_h"]["value"] == pytest.approx(rows[-1] - rows[-2], abs=0.01)


def test_the_heat_is_that_of_the_steep_s_oxygen():
    # One state, two sheets: 1 kW takes 246.6 g of oxygen an hour (computed from the enthalpy of combustion of glucose).
    heat = ask("rest-warmth", since_wetting_h="24", rest_h="0.5", barley_moisture="14", start_c="14")["answers"]
    oxygen = ask("steep-oxygen", water_temp_c="14", immersion="second")["answers"]
    assert heat["heat_kw_t"]["value"] * 246.6 == pytest.approx(oxygen["uptake_used_mg_kg_h"]["value"], rel=0.03)


def test_the_page_says_the_figures_of_the_sheet():
    text, told = PAGE.read_text("utf-8"), ask("rest-warmth")
    answers = told["answers"]
    for end in ("value", "high"):
        assert f"comes to {answers['end_c'][end]:.1f} °C" in text
    hold = ceil(answers["hold_m3_h_t"]["value"])
    assert f"the fan must draw {hold} m³ an hour for each tonne: six times the least" in text
    assert hold / 7.8 == pytest.approx(6.0, abs=0.1)
    cooler = ceil(ask("rest-warmth", air_c="10")["answers"]["hold_m3_h_t"]["value"])
    assert f"at 10 °C instead of 15 the same rest is held with {cooler} m³ instead of {hold}" in text
    (carried,) = re.findall(r"carries off (\d+) W a tonne", notes("rest-warmth"))
    watts = float(carried), 1000 * answers["heat_kw_t"]["value"]
    about = re.search(r"carries off about (\d+) W a tonne, where the grain makes some (\d+), or (\d+)", text)
    assert about
    for printed, value in zip(map(float, about.groups()), (*watts, 1000 * answers["heat_kw_t"]["high"]), strict=True):
        assert printed == pytest.approx(value, rel=0.1)


def test_nothing_speaks_of_people_in_hours_or_lets_anybody_in():
    text = notes("rest-warmth").lower() + PAGE.read_text("utf-8").lower()
    for words in ("may enter", "safe to", "allowed inside", "breathable", "fit to enter after"):
        assert words not in text
    answer = next(one for one in find_sheet("rest-warmth").answers if one.id == "soonest_stop_h")
    assert "About people it says nothing" in answer.trust


@pytest.mark.parametrize(
    ("given_values", "words"),
    [
        ({"drained_moisture": "24.9"}, "from 25 to 52 %"),
        ({"drained_moisture": "52.1"}, "from 25 to 52 %"),
        ({"start_c": "30.1"}, "from 1 to 30 °C"),
        ({"rest_h": "0.4"}, "from 0.5 to 48 h"),
        ({"suction_m3_h_t": "501"}, "from 0 to 500"),
        ({"air_c": "41"}, "from 0 to 40 °C"),
        ({"air_rh": "0"}, "from 1 to 100 %"),
        ({"hold_c": "18.1"}, "Over 18 °C is a stop"),
        ({"since_wetting_h": "0.5"}, "from 1 to 96 h"),
        ({"barley_moisture": "25", "drained_moisture": "25"}, "no more than the barley held"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in said("rest-warmth", **given_values)


def test_the_limits_themselves_are_taken():
    for given_values in ({"drained_moisture": "25"}, {"drained_moisture": "52"}, {"hold_c": "18"}, {"rest_h": "48"}):
        assert values("rest-warmth", **given_values)["end_c"] > 14
    assert values("rest-warmth", since_wetting_h=repr(SINCE_WETTING_H.low))["end_c"] > 14
    assert values("rest-warmth", suction_m3_h_t="500 m3/t h")["end_c"] < 14
    assert wrong("rest-warmth", suction_m3_h_t="")[0].question == "suction_m3_h_t"


def test_grain_that_gets_too_warm_to_follow_ends_early_and_says_the_stop():
    told = ask("rest-warmth", start_c="30", air_c="38", air_rh="95", rest_h="48", since_wetting_h="60")
    assert told["answers"]["order"]["value"] == "stop-warm-air"
    assert told["answers"]["soonest_stop_h"]["value"] == 0


def test_where_the_grain_gets_too_warm_to_follow_no_figure_stands_for_the_end():
    told = ask("rest-warmth", rest_h="30")
    assert told["answers"]["end_c"]["high"] == 40.0, "the last that is followed"
    suctions = {row[0]: row[1:3] for row in told["tables"]["suctions"]["rows"]}
    assert [suctions[flow][1] for flow in (0.0, 7.8, 25.0, 50.0)] == [None] * 4 and suctions[100.0][1] < 40.0
    assert all(typical < 40.0 for typical, _ in suctions.values())
    text = notes("rest-warmth", rest_h="30")
    assert "If it breathes fast, the grain comes to 40 °C before the end of the rest" in text
    (chart,) = drawn("rest-warmth", rest_h="30")
    assert isinstance(chart, Chart) and "to over 40 °C if it breathes fast" in chart.summary
    assert max(max(line.ys) for line in chart.lines) <= 40.0
    assert "is not followed" not in notes("rest-warmth")


def test_where_the_typical_grain_gets_too_warm_too_that_is_said():
    hot = {"start_c": "28", "rest_h": "30", "suction_m3_h_t": "0", "since_wetting_h": "40"}
    told = ask("rest-warmth", **hot)
    assert told["answers"]["end_c"]["value"] == 40.0
    assert "notice: The grain comes to 40 °C before the end of the rest" in notes("rest-warmth", **hot)
    blank = [row[1] is None for row in told["tables"]["suctions"]["rows"]]
    assert blank[0] and blank == sorted(blank, reverse=True), "no suction is hotter than a smaller one of cool air"
    assert told["answers"]["order"]["value"] == "stop", "more of this air keeps it cooler for longer"


@pytest.mark.parametrize(
    ("figures", "word"),
    [
        ((8.0, 8.0), "hold"),
        ((7.9, 7.9), "watch-cold"),
        ((8.0, 7.9), "watch-cold"),
        ((5.0, 5.0), "watch-cold"),
        ((5.1, 4.9), "may-stop-cold"),
        ((4.9, 4.8), "stop-cold"),
    ],
)
def test_the_word_of_cold_at_each_edge_from_both_sides(figures, word):
    typical, slow = figures

    def judged(warmest_c: float) -> str:
        return rest_verdict(
            hours=12.0, warmest_c=warmest_c, rise_k_h=0.1, warmest_fast_c=warmest_c, rise_fast_k_h=0.1,
            coldest_c=typical, coldest_slow_c=slow,
        ).word  # fmt: skip

    assert judged(14.0) == word
    # What begins too warm and ends too cold is an order about the cold.
    assert judged(19.0) == ("stop-cold" if word == "stop-cold" else "stop")


@pytest.mark.parametrize(
    "frost",
    [
        {"start_c": "8", "air_c": "0", "suction_m3_h_t": "300"},
        {"start_c": "6", "air_c": "0", "air_rh": "60", "suction_m3_h_t": "200"},
        {"start_c": "14", "air_c": "0", "suction_m3_h_t": "500"},
    ],
)
def test_grain_that_freezes_in_its_rest_is_past_a_stop(frost):
    told = ask("rest-warmth", **frost)
    assert told["answers"]["end_c"]["value"] < 0.1 and told["answers"]["order"]["value"] == "stop-cold"
    assert first(**frost).startswith("Past a stop. Coldest grain in an air rest")
    assert "the stop is under 5 °C" in first(**frost) and REST_COLD.act in first(**frost)
    assert "Less suction, and shut what lets cold air in. Tell the shift lead." in first(**frost)
    text = notes("rest-warmth", **frost)
    assert "water may be 2 K from it at most, and water under 5 °C is a stop; so is a cast of grain under 8 °C" in text
    assert "stays on, for the gas" in text and "Full suction" not in text
    (chart,) = drawn("rest-warmth", **frost)
    assert isinstance(chart, Chart) and "Past a stop." in chart.summary


def test_frost_and_grain_that_begins_too_warm_is_one_order_after_the_other():
    text = notes("rest-warmth", start_c="20", air_c="0", suction_m3_h_t="500")
    assert "It begins warm: suction until it is at 17 °C, and less from then on." in text


def test_cold_that_only_the_slow_batch_comes_to_is_said_with_its_breath():
    cold = {"start_c": "8.2", "air_c": "4", "suction_m3_h_t": "7.8"}
    told = ask("rest-warmth", **cold)
    assert told["answers"]["order"]["value"] == "watch-cold"
    assert "remark: If it breathes slowly: coldest grain in an air rest" in notes("rest-warmth", **cold)
