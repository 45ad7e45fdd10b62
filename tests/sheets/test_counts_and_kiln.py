"""Corns to count, malting loss and kiln water."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from calculators.asking.answer import Answered, answer
from calculators.asking.declare import Outcome
from calculators.sheets import find_sheet
from tests.sheets.ask import ask, notes, said, values


def size(**given_values: str) -> dict[str, float]:
    return values("sample-size", **{"margin_points": "", **given_values})


def test_the_usual_formula_by_hand():
    assert size(expected_percent="80", margin_points="10")["corns_to_count"] == 62
    assert size(expected_percent="80", margin_points="5")["corns_to_count"] == 246


def test_the_limit_needs_as_many_as_scipy_says():
    # all grow, 98 % to be sure of: 0.98 to the n at most 0.025
    assert size(expected_percent="100", limit_percent="98")["corns_to_count"] == 183
    n = next(n for n in range(10, 2000) if stats.beta.ppf(0.025, 0.98 * n, 0.02 * n + 1) >= 0.95)
    assert size(expected_percent="98", limit_percent="95")["corns_to_count"] == n
    n = next(n for n in range(10, 2000) if stats.beta.ppf(0.975, 0.9 * n + 1, 0.1 * n) <= 0.95)
    assert size(expected_percent="90", limit_percent="95")["corns_to_count"] == n


def test_the_table_of_usual_counts():
    rows = ask("sample-size", expected_percent="98", margin_points="", limit_percent="95")["tables"]["usual"]["rows"]
    assert [row[0] for row in rows] == [50, 100, 200, 400]
    hundred = rows[1]
    assert round(hundred[3], 2) == 97.05  # all of 100, one side (0.05 to the power 1/100)
    assert round(hundred[4], 2) == 2.95
    assert [row[5] for row in rows] == ["no", "no", "no", "yes"]


@pytest.mark.parametrize(
    ("share", "margin", "corns", "ends"),
    [
        ("80", "10", "62 corns", "68.4 to 88.1 %, 19.6 points wide: 11.6 below the share and 8.1 above"),
        ("95", "5", "83 corns", "88.0 to 98.0 %, 10.0 points wide: 7.0 below the share and 3.0 above"),
        ("50", "10", "97 corns", "40.2 to 59.8 %, 19.5 points wide: 9.8 below the share and 9.8 above"),
    ],
)
def test_the_margin_is_half_the_width_and_both_sides_are_said(share, margin, corns, ends):
    sheet, given_values = find_sheet("sample-size"), {"expected_percent": share, "margin_points": margin}
    result = answer(sheet, given_values)
    assert isinstance(result, Answered) and isinstance(result.outcome, Outcome)
    working = result.outcome.answers[0].working
    assert f"with {corns} Wilson’s interval is {ends}" in working and "up and down" not in working
    question = sheet.question("margin_points")
    assert question is not None and "half the width" in question.label


def test_what_no_count_can_decide_is_said():
    for share, limit in (("95", "95"), ("100", "100"), ("0", "0"), ("95.1", "95")):
        assert "cannot be decided" in said("sample-size", expected_percent=share, margin_points="", limit_percent=limit)
    assert "both given" in said("sample-size", limit_percent="95")


def test_the_edges_of_share_and_margin_are_accepted():
    assert size(expected_percent="0", margin_points="30")["corns_to_count"] > 0
    assert size(expected_percent="100", margin_points="0.5")["corns_to_count"] > 0


LOSS = {
    "barley_kg": "1000", "malt_kg": "830", "barley_moisture": "12", "malt_moisture": "5",
    "rootlets_kg": "", "rootlets_moisture": "", "steep_percent": "", "planned_kg": "",
}  # fmt: skip


def loss(**given_values: str) -> dict[str, float]:
    return values("malting-loss", **{**LOSS, **given_values})


def test_a_tonne_of_barley_and_830_kg_of_malt():
    # Maltsters’ Association of Great Britain, malt facts (read)
    found = loss()
    assert round(found["loss_percent"], 1) == 10.4
    assert found["yield_percent"] == pytest.approx(83.0)
    assert loss(planned_kg="2000")["planned_malt_kg"] == pytest.approx(1660)


def test_the_split_adds_up():
    found = loss(rootlets_kg="40", rootlets_moisture="5", steep_percent="1.5")
    parts = found["steep_lost_percent"] + found["breathing_lost_percent"] + found["rootlets_lost_percent"]
    assert parts == pytest.approx(found["loss_percent"])
    # Thomson 1824 (read): steep 1.5 and roots 3.0 of 8.0 leave 3.5 for floor and waste
    dry = {"barley_moisture": "5", "malt_moisture": "0.5", "malt_kg": str(1000 * 0.95 * 0.92 / 0.995)}
    thomson = loss(**dry, rootlets_percent="3", steep_percent="1.5")
    assert thomson["loss_percent"] == pytest.approx(8.0)
    assert thomson["breathing_lost_percent"] == pytest.approx(3.5)


def test_without_the_parts_no_split_is_made_up():
    assert "breathing_lost_percent" not in loss(steep_percent="1")
    assert "breathing_lost_percent" not in loss(rootlets_percent="3.5")
    assert "Give the rootlets" in notes("malting-loss", **LOSS)


def test_a_thousand_corns_in_place_of_the_batch():
    by_corns = {**LOSS, "barley_kg": "", "malt_kg": "", "barley_tcw_g": "40", "malt_tcw_g": "33.2"}
    found = values("malting-loss", **by_corns)
    assert found["loss_percent"] == pytest.approx(loss()["loss_percent"])
    assert "Corns skimmed" in notes("malting-loss", **by_corns)
    assert "weight of the batch" in said("malting-loss", **{**by_corns, "rootlets_kg": "4", "rootlets_moisture": "5"})


def test_more_malt_than_dry_matter_is_sent_back():
    most = 1000 * 88 / 95
    assert loss(malt_kg=repr(most))["loss_percent"] == 0
    assert "holds more dry matter" in said("malting-loss", **{**LOSS, "malt_kg": repr(most + 0.1)})
    assert "more than the whole loss" in said(
        "malting-loss", **{**LOSS, "rootlets_percent": "10", "steep_percent": "1"}
    )


def test_an_odd_loss_is_pointed_out():
    assert "outside the usual" in notes("malting-loss", **{**LOSS, "malt_kg": "700"})
    assert "outside the usual" not in notes("malting-loss", **LOSS)


@given(st.floats(700, 900))
def test_less_malt_is_more_loss(malt):
    assert loss(malt_kg=repr(malt))["loss_percent"] > loss(malt_kg=repr(malt + 1))["loss_percent"]


KILN = {"green_malt_kg": "1000", "green_malt_moisture": "45", "malt_moisture": "5", "drying_temp_c": "60"}


def kiln(**given_values: str) -> dict[str, float]:
    return values("kiln-water", **{**KILN, **given_values})


def test_water_of_a_thousand_kilograms_from_45_to_5():
    assert kiln()["water_to_remove_kg"] == pytest.approx(421.05, abs=0.005)  # computed, dry matter conserved
    assert kiln()["malt_kg"] == pytest.approx(578.95, abs=0.005)


def test_per_tonne_of_malt_45_to_4_at_60_degrees():
    found = kiln(malt_moisture="4")
    assert round(found["water_per_tonne_kg"]) == 745
    assert round(found["latent_heat_per_tonne_kwh"]) == 488


@pytest.mark.parametrize(("temperature", "heat"), [("10", 2477.2), ("20", 2453.5), ("60", 2357.7), ("80", 2308.0)])
def test_latent_heat_at_the_drying_temperature(temperature, heat):
    # IAPWS formulation of 1995, computed with a property library
    found = kiln(drying_temp_c=temperature)
    assert found["latent_heat_kj_kg"] == pytest.approx(heat, abs=0.3)
    assert found["latent_heat_kwh"] == pytest.approx(found["water_to_remove_kg"] * heat / 3600, rel=2e-4)


def test_the_wrong_figure_and_the_floor_are_explained():
    text = notes("kiln-water", **KILN)
    assert "2257" in text and "4.3 % too little" in text and "750 kWh" in text
    assert "too much" in notes("kiln-water", **{**KILN, "drying_temp_c": "120"})


@pytest.mark.parametrize(
    ("temperature", "words"),
    [("60", "4.3 % too little"), ("98", "0.2 % too little"), ("99.9", ""), ("100", ""), ("101", "0.1 % too much")],
)
def test_at_the_boil_the_printed_figure_is_not_called_wrong(temperature, words):
    text = notes("kiln-water", **{**KILN, "drying_temp_c": temperature})
    assert ("Here it would be" in text) == bool(words) and words in text
    assert ("Green malt dries far below that" in text) == (temperature == "60")
    assert ("check the drying temperature" in text) == (temperature != "60")


def test_malt_must_be_drier_than_green_malt_and_limits_hold():
    text = said("kiln-water", **{**KILN, "green_malt_moisture": "20", "malt_moisture": "15.1"})
    assert "15.1 is too high" in text
    assert kiln(green_malt_moisture="20", malt_moisture="15")["water_to_remove_kg"] > 0
    assert "from 1 to 120" in said("kiln-water", **{**KILN, "drying_temp_c": "121"})
    assert kiln(drying_temp_c="1")["latent_heat_kj_kg"] > kiln(drying_temp_c="120")["latent_heat_kj_kg"]


# The table of limits at the kiln: 40 to 45 % accepted, stops under 38 and over 47.
@pytest.mark.parametrize(("moisture", "said"), [("47.1", "over 47 %"), ("37.9", "under 38 %"), ("47", ""), ("38", "")])
def test_green_malt_past_a_stop_is_said_first(moisture: str, said: str):
    text = notes("kiln-water", **{**KILN, "green_malt_moisture": moisture})
    assert text.startswith(f"notice: Past a stop. Moisture {moisture} %: the stop is {said}") == bool(said)
