"""The loss by the one law in the sheets that count with one: kiln water, malting loss, sprinkling."""

from __future__ import annotations

import pytest

from calculators.models.living.batch import bed_course
from calculators.models.living.bed_days import breathed_away
from calculators.models.living.lot_plan_state import BedSpell
from tests.sheets.ask import ask, notes, values, wrong

AHEAD = {
    "green_malt_kg": "", "barley_kg": "1000", "barley_moisture": "12", "grown_days": "5", "bed_temp_c": "15",
    "green_malt_moisture": "45", "malt_moisture": "4",
}  # fmt: skip
LOSS = {
    "barley_kg": "5000", "malt_kg": "4150", "barley_moisture": "12", "malt_moisture": "5", "rootlets_kg": "150",
    "rootlets_moisture": "7", "steep_percent": "1", "grown_days": "5", "bed_temp_c": "15",
}  # fmt: skip


def test_green_malt_over_barley_by_weight():
    # From 12 %, 3 to 6 % lost (computed elsewhere): 1.38-1.42 at 40 %, 1.43-1.47 at 42 %, 1.50-1.55 at 45 %.
    for moisture, low, high in (("40", 1.38, 1.42), ("42", 1.43, 1.47), ("45", 1.50, 1.55)):
        found = values("kiln-water", **{**AHEAD, "green_malt_moisture": moisture})
        assert low <= found["green_malt_by_law_kg"] / 1000 <= high


def test_what_is_expected_is_dried_like_what_is_weighed():
    told = ask("kiln-water", **AHEAD)["answers"]
    green = told["green_malt_by_law_kg"]["value"]
    weighed = {**AHEAD, "barley_kg": "", "barley_moisture": "", "grown_days": "", "bed_temp_c": ""}
    by_scale = ask("kiln-water", **{**weighed, "green_malt_kg": repr(green)})["answers"]
    for name in ("water_to_remove_kg", "malt_kg", "latent_heat_kwh", "latent_heat_per_tonne_kwh"):
        assert told[name]["value"] == pytest.approx(by_scale[name]["value"])
    water = told["water_to_remove_kg"]
    assert water["low"] < water["value"] < water["high"] and "low" not in by_scale["water_to_remove_kg"]


def test_a_weight_or_a_batch_is_asked_for():
    assert wrong("kiln-water", **{**AHEAD, "grown_days": ""})
    assert wrong("kiln-water", **{**AHEAD, "green_malt_kg": "9000"})


def test_the_loss_of_the_sheets_is_that_of_the_living_batch():
    # Kept at its moisture by sprinkling, a bed of the living batch burns what the sheets count; steps of three hours
    # lag behind a rise by 3 % at most.
    for days, temp in ((3, 15.0), (5, 12.0), (6, 18.0)):
        spells = [BedSpell(24.0, temp, sprinkled_l_t=15.0) for _ in range(days)]
        course = bed_course(barley_moisture=12, moisture=45, growth_h=18.0, spells=spells)
        burnt = 100.0 * course[-1].respired_kg / course[0].dry_kg
        assert breathed_away(days=days, temp_c=temp) == pytest.approx(burnt, rel=0.03)


def test_malting_loss_stands_beside_the_law():
    told = ask("malting-loss", **LOSS)["answers"]
    by_law = told["breathing_by_law_percent"]
    assert by_law["value"] == pytest.approx(0.99 * breathed_away(days=5, temp_c=15))
    # A tonne of barley at 12 % gives 830 kg of malt at 5 % (Maltsters' Association of Great Britain, read): within it.
    assert by_law["low"] < told["breathing_lost_percent"]["value"] < by_law["high"]
    ratio = told["breathing_lost_percent"]["value"] / by_law["value"]
    assert told["against_law"]["value"] == pytest.approx(ratio)
    assert "far end" not in notes("malting-loss", **LOSS)


@pytest.mark.parametrize(("malt", "word"), [("4000", "at the far end. Corns"), ("4500", "at the near end. Check")])
def test_a_rest_outside_the_doubt_is_pointed_out(malt: str, word: str):
    case = {**LOSS, "malt_kg": malt, "rootlets_kg": "40" if malt == "4500" else "150"}
    assert word in notes("malting-loss", **case)


def test_without_days_nothing_is_said_of_the_law():
    found = values("malting-loss", **{**LOSS, "grown_days": "", "bed_temp_c": ""})
    assert "breathing_by_law_percent" not in found and "against_law" not in found
    assert wrong("malting-loss", **{**LOSS, "bed_temp_c": ""})


def test_sprinkling_takes_the_loss_from_the_law():
    bed = {
        "bed_kg": "", "barley_kg": "1000", "barley_moisture": "12", "moisture_now": "43", "moisture_wanted": "45",
        "water_kept": "100",
    }  # fmt: skip
    none, law = values("sprinkling", **bed), values("sprinkling", **bed, grown_days="5", bed_temp_c="15")
    kept = 0.99 * (1 - breathed_away(days=5, temp_c=15) / 100)
    assert law["water_l"] == pytest.approx(kept * none["water_l"])
    assert wrong("sprinkling", **bed, grown_days="5", bed_temp_c="15", dry_matter_lost="4")
