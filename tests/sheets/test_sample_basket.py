"""The steep basket: one weighing gives the moisture, drained and net, and the weight at target."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sheets.ask import ask, notes, said, values

CASE = {"basket_g": "50", "sample_g": "100", "barley_moisture": "12", "dry_matter_lost": "0",
        "target_moisture": "45", "drained": "drained"}  # fmt: skip


def basket(**given_values: object) -> dict[str, float]:
    return values("sample-basket", **{**CASE, **given_values})


def test_the_balance():
    found = basket(gross_now_g="210")
    assert found["moisture_now"] == pytest.approx(45.0)  # 88 g of dry matter in 160 g
    assert found["gross_at_target_g"] == pytest.approx(210.0)
    assert found["points_to_go"] == pytest.approx(0.0)


def test_a_single_corn_of_a_published_steep():
    # Modares article 23-10966, cv. Sahra (read): 0.048 g at 10.12 % became 0.074 g at 42.17 %.
    found = basket(basket_g="0", sample_g="48", barley_moisture="10.12", gross_now_g="74")
    assert found["moisture_now"] == pytest.approx(42.17, abs=0.6)  # weights printed to 1 in 50


def test_slips_near_45_move_the_reading_as_stated():
    right = basket(gross_now_g="208.4", dry_matter_lost="1")["moisture_now"]
    assert right == pytest.approx(45.0, abs=0.01)
    one_percent_wetter = basket(gross_now_g=repr(208.4 + 1.584), dry_matter_lost="1")["moisture_now"]
    assert one_percent_wetter - right == pytest.approx(0.55, abs=0.01)
    assert basket(gross_now_g="208.4")["moisture_now"] - right == pytest.approx(-0.55, abs=0.01)
    half_point_off = basket(gross_now_g="208.4", barley_moisture="12.5", dry_matter_lost="1")["moisture_now"]
    assert abs(half_point_off - right) == pytest.approx(0.31, abs=0.01)


def test_a_gram_of_clinging_water():
    found = basket(gross_now_g="210")
    more = basket(gross_now_g="210.1")
    slope = (more["moisture_now"] - found["moisture_now"]) / 0.1
    assert found["points_per_gram"] == pytest.approx(slope, rel=2e-3)


def test_blotted_and_drained_agree_on_the_same_grain():
    drained = basket(gross_now_g="210")
    film_g = 0.05 * 88
    blotted = basket(gross_now_g=repr(210 - film_g), drained="blotted")
    assert blotted["moisture_now"] == pytest.approx(drained["moisture_now"], abs=1e-9)
    assert blotted["net_moisture_now"] == pytest.approx(drained["net_moisture_now"], abs=1e-9)
    assert blotted["gross_at_target_g"] == pytest.approx(drained["gross_at_target_g"] - film_g)


def test_the_doubt_of_the_film_is_shown_where_it_counts():
    assert "low" not in ask("sample-basket", **CASE, gross_now_g="210")["answers"]["moisture_now"]
    blotted = ask("sample-basket", **{**CASE, "drained": "blotted"}, gross_now_g="205")["answers"]
    assert blotted["moisture_now"]["low"] < blotted["moisture_now"]["value"] < blotted["moisture_now"]["high"]


@pytest.mark.parametrize("drained", ["drained", "blotted"])
def test_it_says_by_how_much_the_film_counts(drained):
    assert "4.4 g" in notes("sample-basket", **{**CASE, "drained": drained}, gross_now_g="205")


@given(st.floats(0, 500), st.floats(20, 2000), st.floats(5, 19), st.floats(25, 55), st.floats(0, 5))
def test_the_weight_at_target_reads_the_target(tare, sample, barley, wanted, lost):
    case = {
        "basket_g": repr(tare), "sample_g": repr(sample), "barley_moisture": repr(barley),
        "target_moisture": repr(wanted), "dry_matter_lost": repr(lost),
    }  # fmt: skip
    for way in ("drained", "blotted"):
        gross = basket(**case, drained=way, gross_now_g=repr(tare + sample * 1.3))["gross_at_target_g"]
        again = basket(**case, drained=way, gross_now_g=repr(gross))
        assert again["moisture_now"] == pytest.approx(wanted, abs=1e-6)


@pytest.mark.parametrize(
    ("given_values", "words"),
    [
        ({"gross_now_g": "40"}, "not more than the empty basket"),
        ({"gross_now_g": "50"}, "not more than the empty basket"),
        ({"gross_now_g": "100"}, "At 150 g its barley would be as dry as it came"),
        ({"gross_now_g": "900"}, "301.4 g it would hold 65 %"),
        ({"gross_now_g": ""}, "Type a number"),
        ({"gross_now_g": "210", "sample_g": "0"}, "too low"),
        ({"gross_now_g": "210", "drained": "dripping"}, "Choose one of: drained, blotted"),
        ({"gross_now_g": "210", "barley_moisture": "22", "target_moisture": "21"}, "not above the barley"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in said("sample-basket", **{**CASE, **given_values})


def test_past_the_target_is_said():
    assert "past its target" in notes("sample-basket", **CASE, gross_now_g="215")
