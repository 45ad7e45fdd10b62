"""The load of the drains: the consent first, the upper end judged, analyses over the estimate."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.rules.effluent import Share, against_consent
from calculators.rules.limit import without_last_bits
from calculators.sheets import find_sheet
from tests.sheets.ask import ask, notes, said, values
from tests.sheets.stops import asked, check, past

LET_GO = ("may be discharged", "may be let go", "may go", "is allowed", "permitted", "you may", "within the consent")


def test_an_estimate_spreads_from_half_to_one_and_a_half():
    load = ask("steep-effluent")["answers"]["cod_kg"]
    assert load["value"] == pytest.approx(6000 * 0.88 * 0.01 * 192 / 162.14, rel=1e-3)
    assert load["low"] == pytest.approx(0.5 * load["value"]) and load["high"] == pytest.approx(1.5 * load["value"])


def test_analyses_stand_in_place_of_the_estimate_and_leave_nothing_open():
    found = ask("steep-effluent", waters="9 3100; 8 1200; 7 600")["answers"]
    assert found["cod_kg"]["value"] == pytest.approx(41.7) and "low" not in found["cod_kg"]
    assert found["strength"]["value"] == pytest.approx(1000 * 41.7 / 24)
    assert found["bod_kg"]["high"] > found["bod_kg"]["value"], "the share that is BOD is still open"


def test_the_strongest_water_is_held_against_the_strength():
    given_shares = values("steep-effluent", waters="9 3100; 8 1200; 7 600", consent_mg_l="2000")
    assert given_shares["share_mg_l"] == pytest.approx(155) and given_shares["verdict"] == "over"


@pytest.mark.parametrize(
    ("kilos", "word"),
    [("30", "over"), ("62", "likely"), ("63", "open"), ("94", "open"), ("110", "open"), ("118", "less")],
)
def test_the_word_follows_the_upper_end(kilos, word):
    # 62.5 kg, 31.3 to 93.8: 80 % of the upper end is 117.2 kg.
    assert values("steep-effluent", consent_kg_day=kilos)["verdict"] == word


@pytest.mark.parametrize(
    ("share", "word"),
    [
        ((80, 80, 80), "less"),
        ((80, 80, 80.1), "open"),
        ((100, 100, 100), "open"),
        ((80, 80, 80 + 1e-13), "less"),  # what the last bits of a sum make of it decides nothing
        ((100 + 1e-13, 100 + 1e-13, 100 + 1e-13), "open"),
        ((100.1, 100, 101), "likely"),
        ((100, 100.1, 101), "over"),
    ],
)
def test_the_edges_of_the_consent_from_both_sides(share, word):
    assert against_consent([Share(*share)]).word == word


def test_without_figures_of_the_consent_nothing_is_judged():
    none = {"effluent_m3_day": "", "consent_kg_day": ""}
    assert "verdict" not in values("steep-effluent", **none)
    assert "Type what the consent says" in notes("steep-effluent", **none)


def test_the_consent_stands_before_every_answer_and_no_word_lets_water_go():
    for given_values in ({}, {"consent_kg_day": "1000"}, {"consent_kg_day": "10"}):
        told = ask("steep-effluent", **given_values)["notes"]
        assert told[0]["level"] == "notice" and "No figure here lets water go" in told[0]["text"]
    sheet = find_sheet("steep-effluent")
    words = " ".join(option.label for one in sheet.answers for option in one.words).lower()
    assert "lets nothing go" in words and not any(phrase in words for phrase in LET_GO)


def test_a_wash_without_analysis_counts_in_water_only():
    found = values("steep-effluent", wash_m3="3")
    assert found["water_m3"] == 27 and found["cod_kg"] == pytest.approx(values("steep-effluent")["cod_kg"])
    assert "Wash water counts by its cubic metres only" in notes("steep-effluent", wash_m3="3")


@pytest.mark.parametrize("wash", ["0", "3", "100"])
def test_a_wash_without_analysis_thins_no_strength_and_clears_no_verdict(wash):
    limit = {"effluent_m3_day": "", "consent_kg_day": "", "consent_mg_l": "2000", "wash_m3": wash}
    found = values("steep-effluent", **limit)
    # 62.5 kg in the 24 m³ of the steep (by hand)
    assert found["strength"] == pytest.approx(1000 * 62.52 / 24, rel=1e-3)
    assert found["share_mg_l"] == pytest.approx(found["strength"] / 20) and found["verdict"] == "likely"
    assert ("The strength is that of the steep water alone" in notes("steep-effluent", **limit)) == (wash != "0")


def test_a_wash_with_its_analysis_is_mixed_in():
    found = values("steep-effluent", wash_m3="100", wash_mg_l="200")
    assert found["strength"] == pytest.approx(1000 * (62.52 + 20) / 124, rel=1e-3)


def test_where_every_water_was_analysed_nothing_speaks_of_an_estimate():
    analysed = {"waters": "9 3100; 8 1200; 7 600", "effluent_m3_day": "", "consent_mg_l": ""}
    for kilos in ("41", "45", "200"):
        told = ask("steep-effluent", **analysed, consent_kg_day=kilos)
        words = " ".join([n["text"] for n in told["notes"]])
        option = find_sheet("steep-effluent").answers[0].words
        words += " ".join(one.label for one in option if one.word == told["answers"]["verdict"]["value"])
        assert "estimate" not in words, words
    assert values("steep-effluent", **analysed, consent_kg_day="200")["verdict"] == "less-analysed"
    assert values("steep-effluent", **analysed, wash_m3="3", consent_kg_day="200")["verdict"] == "less"


def test_what_cannot_be_is_asked_back():
    assert "water 2 has no analysis" in said("steep-effluent", waters="9 3100; 8; 7 600")
    assert "needs its cubic metres" in said("steep-effluent", wash_mg_l="400")
    assert "some always leaches" in said("steep-effluent", dry_matter_lost="0")
    assert "cubic metres" in said("steep-effluent", waters="0.4")


@pytest.mark.parametrize(("week", "day", "asked_back"), [("3", "3", False), ("3", "4", True), ("0.5", "1", False)])
def test_a_day_has_no_more_batches_than_its_week(week, day, asked_back):
    given_batches = {"batches_week": week, "batches_day": day}
    if asked_back:
        assert "more than the 3 of a whole week" in said("steep-effluent", **given_batches)
    else:
        assert values("steep-effluent", **given_batches)["day_kg"] > 0


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.floats(500, 20000), st.floats(1, 40), st.floats(1, 300), st.floats(1, 300))
def test_no_stop_of_the_consent_goes_unsaid(barley, water, m3, kilos):
    result = asked(
        "steep-effluent", barley_kg=repr(barley), waters=repr(water), effluent_m3_day=repr(m3),
        consent_kg_day=repr(kilos),
    )  # fmt: skip
    if result is not None:
        day = result["answers"]["day_kg"]
        check(result, past("effluent-consent", without_last_bits(max(100 * day["high"] / kilos, 100 * water / m3))))
