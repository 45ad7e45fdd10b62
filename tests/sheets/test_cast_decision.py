"""The cast decision: the interval of the chits, each road to a verdict, limits from both sides."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import beta, binomtest

from calculators.rules.cast import wanted_for
from calculators.rules.limit import judge
from calculators.rules.limits import casting, steeping
from tests.sheets.ask import ask, notes, said, values


def verdict(**given_values: object) -> str:
    word: str = values("cast-decision", **given_values)["verdict"]
    return word


def test_interval_is_wilsons():
    # scipy's own Wilson interval; 180 of 200 is 85 to 93 % (computed).
    entry = ask("cast-decision", chitted="180", counted="200")["answers"]["chit_share"]
    low, high = binomtest(180, 200).proportion_ci(method="wilson")
    assert (entry["low"], entry["high"]) == pytest.approx((100 * low, 100 * high))
    assert (round(entry["low"]), round(entry["high"])) == (85, 93)


@pytest.mark.parametrize(
    ("given_values", "word"),
    [
        # the page casts at 90 %: what was counted decides, and its doubt stands beside it
        ({"moisture_drained": "45"}, "cast"),
        ({"moisture_drained": "45", "chitted": "182"}, "cast"),
        ({"moisture_drained": "45", "chitted": "180"}, "cast"),
        ({"moisture_drained": "45", "chitted": "179"}, "hold"),
        ({"moisture_drained": "45", "chitted": "195"}, "cast"),
        ({"moisture_drained": "44", "chitted": "195"}, "cast"),  # a point short is on target
        ({"moisture_drained": "43.9", "chitted": "195"}, "wet-again"),
        ({"moisture_drained": "46.5", "chitted": "195"}, "cast"),
        ({"moisture_drained": "42", "chitted": "188"}, "wet-again"),
        ({"moisture_drained": "42", "chitted": "160"}, "wet-again"),
        ({"moisture_drained": "42", "chitted": "140"}, "wet-again"),  # 70 % before the last dip
        ({"moisture_drained": "42", "chitted": "139"}, "hold"),
        ({"moisture_drained": "42", "chitted": "130", "hours_since_drain": "12"}, "wet-again"),
        ({"moisture_drained": "42", "chitted": "130", "hours_since_drain": "11.9"}, "hold"),
        ({"moisture_drained": "42", "chitted": "130", "grain_temp_c": "18.1"}, "wet-again"),
        ({"moisture_drained": "42", "chitted": "130", "grain_temp_c": "18"}, "hold"),
        ({"moisture_drained": "42", "chitted": "100", "grain_temp_c": "18.1"}, "wet-again"),  # the stop is under 50 %
        ({"moisture_drained": "42", "chitted": "99", "grain_temp_c": "18.1"}, "hold"),
        ({"moisture_drained": "42", "chitted": "98", "hours_since_drain": "30"}, "hold"),
        ({"moisture_drained": "45", "chitted": "140"}, "hold"),
        ({"moisture_drained": "45", "chitted": "170", "grain_temp_c": "19"}, "cast"),  # it only gets hotter there
        ({"moisture_drained": "45", "chitted": "150", "grain_temp_c": "19"}, "hold"),  # under 80 %: a stop
        ({"moisture_drained": "45", "chitted": "198", "smell": "sour"}, "hold"),
        ({"moisture_drained": "45", "chitted": "198", "smell": "musty"}, "hold"),
        ({"moisture_drained": "45", "chitted": "198", "smell": "flat"}, "cast"),
        # on a couch late corns finish
        ({"moisture_drained": "45", "chitted": "170", "cast_to": "couch"}, "cast"),
        ({"moisture_drained": "45", "chitted": "160", "cast_to": "couch"}, "cast"),
        ({"moisture_drained": "45", "chitted": "159", "cast_to": "couch"}, "hold"),
        ({"moisture_drained": "45", "chitted": "120", "cast_to": "couch", "hours_since_drain": "12"}, "cast"),
        ({"moisture_drained": "45", "chitted": "98", "cast_to": "couch", "hours_since_drain": "12"}, "hold"),
        # a house's own share
        ({"moisture_drained": "45", "chitted": "188", "chit_cast": "95"}, "hold"),
        ({"moisture_drained": "45", "chitted": "160", "chit_cast": "75"}, "cast"),
    ],
)
def test_each_road(given_values, word):
    assert verdict(**given_values) == word


def test_the_edges_are_those_of_the_table_of_limits():
    assert (casting.CHIT.stop_low, casting.CHIT.accept_low) == (80, 90)
    assert (casting.CHIT_COUCH.stop_low, casting.CHIT_COUCH.accept_low) == (50, 80)
    assert (steeping.CHIT_LAST_DIP.stop_low, steeping.CHIT_LAST_DIP.accept_low) == (50, 70)
    assert wanted_for("drum") == 90 and wanted_for("couch") == 80


def test_where_to_is_a_question():
    assert "Choose one of: couch, drum" in said("cast-decision", cast_to="")


def test_the_doubt_stands_beside_the_verdict():
    # the part of the beta distribution of 182.5 and 18.5 that lies under 0.9, by scipy
    found = values("cast-decision", moisture_drained="45", chitted="182")
    assert found["chit_doubt"] == pytest.approx(100 * beta.cdf(0.9, 182.5, 18.5))
    text = notes("cast-decision", moisture_drained="45", chitted="182")
    assert "as the page does" in text and "600 corns of half an hour" in text


@settings(max_examples=60, deadline=None)
@given(st.integers(25, 2000).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))), st.sampled_from([42, 45]))
def test_nobody_is_asked_for_more_corns_than_half_an_hour_holds(count, moisture):
    chitted, counted = count
    for to in ("couch", "drum"):
        found = values(
            "cast-decision", moisture_drained=str(moisture), chitted=str(chitted), counted=str(counted), cast_to=to
        )
        assert found.get("count_more", 0) <= 600


@pytest.mark.parametrize("change", [{"chitted": "98"}, {"smell": "sour"}, {"chitted": "98", "grain_temp_c": "19"}])
def test_unchitted_or_sour_grain_gets_no_advice_for_a_next_dip(change):
    found = values("cast-decision", moisture_drained="42", **change)
    text = notes("cast-decision", moisture_drained="42", **change)
    assert found["verdict"] == "hold" and "wet_hours" not in found
    assert "next dip" not in text and "wet again" not in text.lower() and "fresh water" not in text.lower()


def test_after_the_first_immersion_the_plan_decides():
    text = notes("cast-decision", moisture_drained="32", chitted="10")
    assert "decides about the last one only" in text and "Wait dry" not in text and "Past a stop" not in text


def test_a_stop_of_the_chits_is_said_with_what_to_do():
    text = notes("cast-decision", moisture_drained="42", chitted="98")
    assert "Chit before the last dip 49 %: the stop is under 50 %. Leave it in the air rest." in text
    drum = notes("cast-decision", moisture_drained="45", chitted="150")
    assert "to a drum or a box 75 %: the stop is under 80 %. Leave it in the air rest, or cast it to" in drum
    assert "the stop is under 80 %" not in notes("cast-decision", moisture_drained="45", chitted="160")


def test_a_settled_count_leaves_no_doubt_to_name():
    assert "chit_doubt" not in values("cast-decision", chitted="98")
    assert "chit_doubt" in values("cast-decision", chitted="188")


def test_what_argued_for_it_is_said():
    text = notes("cast-decision", moisture_drained="45", chitted="195")
    assert "remark: What argued for it: chitted" in text and "moisture 45.0 % against 45 %" in text


def test_how_long_to_wet():
    found = ask("cast-decision")["answers"]
    # Common practice: a last dip of 2 to 4 h.
    assert 2.0 <= found["wet_hours"]["value"] <= 4.0
    assert found["wet_hours"]["low"] <= found["wet_hours"]["value"] <= found["wet_hours"]["high"]
    assert found["points_to_go"]["value"] == pytest.approx(3.0)
    longer = values("cast-decision", moisture_drained="41")["wet_hours"]
    colder = values("cast-decision", water_temp_c="8")["wet_hours"]
    assert longer > found["wet_hours"]["value"] and colder > found["wet_hours"]["value"]


def test_a_next_immersion_past_the_stop_is_split_instead():
    found = ask("cast-decision", moisture_drained="38", chitted="195")
    stop = "Past a stop. To 45 % in one immersion takes 21 h: the stop is over 12 h."
    assert found["notes"][0]["text"].startswith(stop)
    assert found["answers"]["wet_hours"]["value"] == 8.0
    assert "8 h wet, 6 h rest, 6.2 h wet, to 45.0 %" in found["notes"][0]["text"]
    assert "wet it again after a rest. Cast and sprinkle: 8 h wet, to 42.8 %" in found["notes"][0]["text"]
    # Too far for any way that can be worked out: one more, and judge afresh.
    far = ask("cast-decision", moisture_drained="36", target_moisture="46", chitted="195", water_temp_c="6")
    assert far["answers"]["wet_hours"]["value"] == 8.0 and "ask again" in far["notes"][0]["text"]


def test_a_way_whose_rest_gets_too_warm_is_not_offered():
    """Grain at 17.9 °C in water at 17: the rest between two dips passes 18 °C, so it is not split."""
    warm = ask(
        "cast-decision", moisture_drained="38", chitted="150", grain_temp_c="17.9", water_temp_c="17", chit_dip="70"
    )
    first = warm["notes"][0]["text"]
    assert "split it with a rest" not in first.lower() and "Not offered: 8 h wet, 6 h rest, 2.2 h wet" in first
    assert "Grain in an air rest 18.2 °C (rest 3): the stop is over 18 °C." in first
    assert "Not offered" not in ask("cast-decision", moisture_drained="38", chitted="195")["notes"][0]["text"]


@pytest.mark.parametrize(
    ("water", "stop"), [("14", True), ("14.8", True), ("15", False), ("19", False), ("19.3", True)]
)
def test_water_too_far_from_the_grain_is_a_stop_that_is_said(water, stop):
    text = notes("cast-decision", moisture_drained="42", grain_temp_c="17", water_temp_c=water)
    assert ("Fresh water against the grain it covers, either way" in text) is stop


@settings(max_examples=40, deadline=None)
@given(st.floats(36, 50), st.integers(0, 200), st.sampled_from(["fresh", "flat", "sour", "musty"]), st.floats(8, 24))
def test_never_cast_unchitted_or_foul_or_dry(moisture, chitted, smell, temp):
    found = values(
        "cast-decision", moisture_drained=repr(moisture), chitted=str(chitted), smell=smell, grain_temp_c=repr(temp)
    )
    if found["verdict"] == "cast":
        assert moisture >= 44.0 and smell in ("fresh", "flat")
        assert chitted >= 0.8 * 200
    if found["verdict"] == "wet-again":
        assert moisture < 44.0


def test_more_corns_where_that_would_settle_it():
    # the smallest count at which 94 % clears 90 % by the exact interval, in hundreds (scipy)
    n = next(n for n in range(200, 2000) if beta.ppf(0.025, 0.94 * n, 0.06 * n + 1) >= 0.9)
    assert values("cast-decision", moisture_drained="45")["count_more"] == -(-(n - 200) // 100) * 100
    assert "count_more" not in values("cast-decision", moisture_drained="45", chitted="198")
    assert "count_more" not in values("cast-decision", moisture_drained="45", chitted="182")


@pytest.mark.parametrize(("to", "do"), [("drum", "on at once and cool, full as soon as the bed"), ("couch", "thin")])
@pytest.mark.parametrize(
    ("found", "stop"),
    [({"moisture_drained": "50"}, "50 %: the stop is over 48 %"), ({"grain_temp_c": "24"}, "at 24 °C, above 18 °C")],
)
def test_past_a_stop_it_is_said_first_with_what_to_do_where_it_goes(found, stop, to, do):
    given_values = {"moisture_drained": "45", "chitted": "198", "cast_to": to, **found}
    assert verdict(**given_values) == "cast"
    first = ask("cast-decision", **given_values)["notes"][0]
    assert first["level"] == "notice" and first["text"].startswith("Past a stop")
    assert stop in first["text"] and do in first["text"]
    if to == "drum":
        text = notes("cast-decision", **given_values)
        assert "coolest floor" not in text and "spread thin" not in text and "turn often" not in text


def test_over_its_target_no_negative_points_are_left_to_go():
    given_values = {"moisture_drained": "50", "chitted": "198"}
    found = values("cast-decision", **given_values)
    assert found["points_over"] == pytest.approx(5) and "points_to_go" not in found
    assert "5.0 points over its target" in notes("cast-decision", **given_values)
    assert values("cast-decision", moisture_drained="45")["points_to_go"] == 0


def test_musty_grain_is_not_turned_and_a_young_couch_passes_no_stop():
    sour, musty = casting.SMELL.act.split("Musty:")
    assert "turn it at once" in sour and "mask on, do not turn it, keep it apart, ask" in musty
    for hours, mark in ((0, "watch"), (4, "watch"), (12, "accept"), (30, "accept"), (36, "watch"), (36.1, "stop")):
        assert judge(casting.COUCH_HOURS, hours) == mark


def test_notes_of_the_findings():
    sour = notes("cast-decision", smell="sour")
    assert "suction at once" in sour and "No water again before it smells fresh" in sour
    dry = notes("cast-decision", moisture_drained="40", target_moisture="40.5", chitted="198")
    assert "40 %: the stop is under 41 %" in dry
    cold = notes("cast-decision", moisture_drained="45", chitted="198", grain_temp_c="7")
    assert "7 °C: the stop is under 8 °C. On a floor lay it thick" in cold
    assert "warning: Mould dust" in notes("cast-decision", smell="musty")
    assert "above 18 °C" in notes("cast-decision", grain_temp_c="18.5")
    assert "above 18 °C" not in notes("cast-decision", grain_temp_c="18")
    assert "milky" in notes("cast-decision", moisture_drained="48.1")
    assert "2.0 points over its target" in notes("cast-decision", moisture_drained="47")
    assert "hardly drained" in notes("cast-decision", hours_since_drain="0.3")
    assert "Past a stop" in notes("cast-decision", moisture_drained="45", chitted="60")
    assert "Mere wetting" in notes("cast-decision", moisture_drained="43.5", chitted="198")
    assert "danger: A drained steep" in notes("cast-decision")


@pytest.mark.parametrize(
    ("given_values", "words"),
    [
        ({"chitted": "201"}, "201 of 200 cannot be chitted"),
        ({"counted": "24"}, "from 25 to 5000"),
        ({"chit_dip": "95"}, "more than the 90 % wanted at the cast"),
        ({"moisture_drained": "21", "barley_moisture": "22"}, "not above the barley’s own"),
        ({"smell": "roses"}, "not one of the choices"),
        ({"smell": ""}, "Choose one of: fresh, flat, sour, musty"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in said("cast-decision", **given_values)


@pytest.mark.parametrize(
    ("change", "first"),
    [
        ({"moisture_drained": "40", "chitted": "80"}, "The chits go first: corns that have not chitted drown"),
        ({"moisture_drained": "44", "chitted": "80"}, "The chits go first: what is cast unchitted"),
        ({"moisture_drained": "45", "chitted": "170"}, "The chits go first: what is cast unchitted"),
        ({"moisture_drained": "42", "smell": "sour"}, "Smell goes first"),
        ({"moisture_drained": "32", "chitted": "10", "smell": "musty"}, "Smell goes first"),
    ],
)
def test_a_rest_past_its_stop_and_what_holds_the_grain_give_one_order(change: dict[str, str], first: str):
    told = ask("cast-decision", **change, hours_since_drain="25")
    assert told["answers"]["verdict"]["value"] == "hold"
    text = "\n".join(note["text"] for note in told["notes"])
    assert "Wet it or cast it" not in text and "Leave it in the air rest" not in text
    assert text.count("Past a stop.") == 1
    lead = told["notes"][0]["text"]
    assert lead.startswith("Past a stop. Air rest 25 h: the stop is over 24 h.") and first in lead
    assert "So neither now: hold it, with suction. Tell the shift lead." in lead


def test_a_long_rest_before_the_last_dip_is_left_to_the_plan():
    text = notes("cast-decision", moisture_drained="32", chitted="10", hours_since_drain="25")
    assert "Wet it or cast it" not in text and text.count("Past a stop.") == 1
    assert "the plan of the steep decides, not this verdict. Tell the shift lead. If the plan has its next" in text


def test_a_rest_past_its_stop_alone_keeps_its_order():
    assert "Wet it or cast it" in notes("cast-decision", hours_since_drain="25")  # wet again: no other order
    assert "Wet it or cast it" not in notes("cast-decision", chitted="80", hours_since_drain="24")


@pytest.mark.parametrize(
    ("moisture", "word", "shown"),
    [
        ("43.96", "wet-again", "moisture 43.96 % against 45 %: 1.04 points short"),
        ("43.996", "wet-again", "moisture 43.996 % against 45 %: 1.004 points short"),
        ("44", "cast", "moisture 44.0 % against 45 %: on target"),
        ("43.9", "wet-again", "moisture 43.9 % against 45 %: 1.1 points short"),
    ],
)
def test_the_decimals_that_decide_are_shown(moisture: str, word: str, shown: str):
    told = ask("cast-decision", moisture_drained=moisture)
    assert told["answers"]["verdict"]["value"] == word
    text = "\n".join(note["text"] for note in told["notes"])
    assert shown in text
    if word == "wet-again":
        assert told["answers"]["points_to_go"]["decimals"] == len(shown.split(": ")[1].split(" ")[0].split(".")[1])


@pytest.mark.parametrize(("moisture", "hours"), [("43.96", False), ("43.9", False), ("43", True)])
def test_nobody_is_told_to_wet_again_for_no_hours(moisture: str, hours: bool):
    told = values("cast-decision", moisture_drained=moisture)
    assert told["verdict"] == "wet-again" and ("wet_hours" in told) == hours
    assert told.get("wet_hours", 1.0) >= 0.05
    text = notes("cast-decision", moisture_drained=moisture)
    assert ("asks for no hours under water beyond it" in text) != hours
    assert "drain at once and weigh" in text or hours


def test_points_over_the_target_show_the_decimals_that_decide():
    assert "It is 1.04 points over its target" in notes("cast-decision", moisture_drained="46.04")
    assert "points over" not in notes("cast-decision", moisture_drained="46")


def test_heat_against_chits_is_told_as_a_long_rest_against_chits_is():
    """Grain of 25 °C to a drum: 159 of 200 are under the stop and 160 are not; casting says cast at once over 18 °C."""
    hot = {"cast_to": "drum", "moisture_drained": "44.5", "target_moisture": "45", "grain_temp_c": "25"}
    hot |= {"hours_since_drain": "10", "counted": "200"}
    assert verdict(**hot, chitted="160") == "cast" and "speak against" not in notes(
        "cast-decision", **hot, chitted="160"
    )
    assert verdict(**hot, chitted="159") == "hold"
    lines = notes("cast-decision", **hot, chitted="159").splitlines()
    assert lines[0].startswith("notice: Past a stop. The grain is at 25 °C, above 18 °C. Chit at the cast, to a drum")
    assert "These speak against each other: the heat wants the grain cast at once, and its chits would" in lines[0]
    assert "The chits go first" in lines[0] and "full suction of air cooler than the grain" in lines[0]
    assert "Or cast it to a couch at once, thin" in lines[0]
    assert "every half hour, and count afresh in an hour. Tell the shift lead now" in lines[0]
    text = "\n".join(lines)
    assert "in 3 hours" not in text and text.count("Past a stop") == 1
    # Too few for a couch too; too dry; a bad smell; a rest past its stop: one notice each, with what wants what.
    assert "to a couch" not in notes("cast-decision", **hot, chitted="99").splitlines()[0]
    dry = notes("cast-decision", **{**hot, "moisture_drained": "40"}, chitted="80")
    assert "the heat wants the grain wetted at once" in dry and "drown in the next water" in dry
    sour = notes("cast-decision", **hot, chitted="195", smell="sour").splitlines()[0]
    assert "its smell would have it left. Smell goes first" in sour and "count afresh" not in sour
    long = notes("cast-decision", **{**hot, "hours_since_drain": "26"}, chitted="99")
    assert "the heat and the long rest want the grain cast at once" in long and long.count("Past a stop") == 1
    # So early the plan decides, and no chits stand against the heat.
    assert "speak against" not in notes("cast-decision", **{**hot, "moisture_drained": "33"}, chitted="0")
