"""Steep fit through the sheet: weighings and readings, what the barley is found to be, bad input."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.models.steep.first_uptake import first_uptake, offset_points
from calculators.models.steep.hydration import MODEL_VERSION, steep
from calculators.models.weights.basket import basket_gross
from tests.sheets.ask import ask, notes, said, values, wrong

STAGES = [(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)]


def read(rows: str, **more: object) -> dict[str, object]:
    return {"readings": rows, "weighings": "", "basket_g": "", "sample_g": "", **more}


def test_weighings_and_the_same_as_readings_give_the_same():
    # Dry matter is kept: 100 g at 12.5 % with 1 % lost is 86.625 g; 212 - 84 = 128 g of grain is 32.3 % (by hand).
    assert ask("steep-fit")["tables"]["readings"]["rows"][0][1] == pytest.approx(100 * (1 - 86.625 / 128))
    by_weight = values("steep-fit")
    rows = "; ".join(f"{r[0]} {r[1]!r}" for r in ask("steep-fit")["tables"]["readings"]["rows"])
    by_reading = values("steep-fit", **read(rows))
    for name in ("rate_factor", "moisture_end", "last_immersion_needed_h"):
        assert by_reading[name] == pytest.approx(by_weight[name], rel=1e-9)


@settings(max_examples=8, deadline=None)
@given(st.floats(0.75, 1.3), st.floats(-0.03, 0.03))
def test_a_barley_made_up_is_found_again(factor, first):
    true = steep(barley_moisture=12.5, stages=STAGES, rate_factor=factor, first_uptake_db=first)
    grams = [
        (
            h,
            basket_gross(
                moisture=true.at(h).drained, basket_g=84, sample_g=100, barley_moisture=12.5, dry_matter_lost=1
            ),
        )
        for h in (4.0, 8.0, 20.0, 24.0, 37.0)
    ]
    found = ask("steep-fit", weighings="; ".join(f"{h} {g!r}" for h, g in grams))["answers"]
    assert found["moisture_end"]["value"] == pytest.approx(true.ends[-1].drained, abs=0.1)
    # What is tied to the typical is pulled towards it, and the interval says by how much it may be.
    assert found["rate_factor"]["low"] <= factor <= found["rate_factor"]["high"]
    wanted = offset_points(barley_moisture=12.5, first_uptake_db=first)
    assert found["moisture_offset"]["low"] <= wanted <= found["moisture_offset"]["high"]
    assert found["fit_error_points"]["value"] < 0.1


def test_one_reading_moves_it_a_little_and_five_a_lot():
    slow = steep(barley_moisture=12.5, stages=STAGES, rate_factor=0.7)
    hours = (2.0, 6.0, 20.0, 24.0, 38.0)
    rows = [f"{h} {slow.at(h).drained!r}" for h in hours]
    one = values("steep-fit", **read(rows[0]))["moisture_end"]
    five = values("steep-fit", **read("; ".join(rows)))["moisture_end"]
    typical, true = steep(barley_moisture=12.5, stages=STAGES).ends[-1].drained, slow.ends[-1].drained
    assert five < one < typical
    assert typical - one < 0.7 * (typical - true)
    assert five == pytest.approx(true, abs=0.2)


def test_the_offset_is_told_only_when_the_readings_can_carry_it():
    assert "moisture_offset" not in values("steep-fit", **read("8 32"))
    assert "moisture_offset" not in values("steep-fit", **read("24 40"))
    assert "moisture_offset" in values("steep-fit")


def test_a_corrected_steep_ends_within_a_point():
    """Monday's plan, two weighings, Tuesday's last immersion: the end is the target for a barley 20 % slow."""
    true = steep(barley_moisture=12.5, stages=STAGES, rate_factor=0.8)
    rows = "; ".join(f"{h} {true.at(h).drained!r}" for h in (8.0, 24.0))
    needed = values("steep-fit", **read(rows))["last_immersion_needed_h"]
    last = [*STAGES[:-1], (needed, 14)]
    assert steep(barley_moisture=12.5, stages=last, rate_factor=0.8).ends[-1].drained == pytest.approx(44.0, abs=1.0)
    without = steep(barley_moisture=12.5, stages=STAGES).last_immersion_needed_h(44.0)
    assert without is not None
    uncorrected = steep(barley_moisture=12.5, stages=[*STAGES[:-1], (without, 14)], rate_factor=0.8)
    assert uncorrected.ends[-1].drained < 43.2


def test_readings_and_version_are_kept():
    result = ask("steep-fit")
    assert result["questions"]["weighings"] == [[8.0, 212.0], [24.0, 228.5]]
    (kept,) = result["tables"]["fit"]["rows"]
    assert kept[0] == MODEL_VERSION and kept[1] == 2
    assert MODEL_VERSION in notes("steep-fit")


def test_clock_follows_the_start():
    assert values("steep-fit", start="2026-01-12 06:00")["drain_at"].startswith("2026-01-13T2")
    assert "drain_at" not in values("steep-fit", start="")


def test_a_reading_that_contradicts_the_others_is_named():
    text = notes("steep-fit", **read("4 28.6; 8 33; 20 34.5; 24 40.8; 38 44"))
    assert "34.5 % at 20 h stands alone" in text and "lead to about" in text
    assert "stands alone" not in notes("steep-fit")
    rows = ask("steep-fit", **read("4 28.6; 8 33; 20 34.5; 24 40.8; 38 44"))["tables"]["readings"]["rows"]
    assert [row[-1] != "fits" for row in rows] == [False, False, True, False, False]


def test_a_fall_in_a_rest_is_noted_and_a_small_one_under_water_let_pass():
    assert "Only a rest with strong suction" in notes("steep-fit", **read("8 33; 15 31"))
    assert values("steep-fit", **read("6 31; 7 30.6"))


def test_blotted_readings_are_held_against_the_corns_themselves():
    course = steep(barley_moisture=12.5, stages=STAGES)
    rows = "; ".join(f"{h} {course.at(h).net!r}" for h in (8.0, 24.0))
    assert values("steep-fit", **read(rows), drained="blotted")["rate_factor"] == pytest.approx(1.0, abs=0.01)
    assert values("steep-fit", **read(rows))["rate_factor"] < 0.97


def test_targets_passed_or_out_of_reach():
    assert "before the last immersion begins" in notes("steep-fit", target_moisture="38")
    assert "No single immersion brings it to 55 %" in notes("steep-fit", target_moisture="55")
    assert "last_immersion_needed_h" not in values("steep-fit", target_moisture="")


@pytest.mark.parametrize(
    ("given_values", "words"),
    [
        (read("0 12.5"), "0 h is the start"),
        (read("0.2 14"), "Give readings from 0.25 h on"),
        (read("8 33; 6 31"), "row 2: 6 h comes before 8 h in row 1"),
        (read("6 33; 8 31"), "under water between"),
        (read("8 11"), "less than the barley’s own 12.5 %"),
        (read("40 44"), "after the last stage, which ends at 39 h"),
        (read("8 33", stages="0; 8; 8"), "the steep begins with a rest. Dry barley takes up nothing"),
        ({"water_temp_c": "31"}, "above 30 °C barley is harmed"),
        ({"stages": "8 31; 8"}, "above 30 °C barley is harmed"),
        ({"stages": "8; 0; 8"}, "from 0.25 to 72 h"),
        ({"weighings": "8 150"}, "does not fit this basket"),
        ({"weighings": "8 400"}, "does not fit this basket"),
        ({"weighings": ""}, "Weighings of the basket"),
        ({"readings": "8 33"}, "both given"),
        ({"target_moisture": "20", "barley_moisture": "22"}, "not above the barley’s own"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in "\n".join(problem.text for problem in wrong("steep-fit", **given_values))


def test_the_limits_themselves_are_accepted():
    assert values("steep-fit", **read("0.25 20"))
    assert values("steep-fit", **read("39 44"))
    assert values("steep-fit", **read("8 12.5"))
    for water in ("2", "30"):
        assert values("steep-fit", **read("8 33"), water_temp_c=water)


def test_no_reading_is_asked_for():
    assert "one of these is needed" in said("steep-fit", weighings="", basket_g="", sample_g="")


@given(st.floats(5.0, 25.0), st.floats(-8.0, 8.0))
def test_offset_and_first_uptake_undo_each_other(barley, offset):
    first = first_uptake(barley_moisture=barley, moisture_offset=offset)
    assert offset_points(barley_moisture=barley, first_uptake_db=first) == pytest.approx(offset, abs=1e-9)
    assert (first > 0) == (offset > 0) or abs(offset) < 1e-12


def test_readings_bend_chit_and_warmth_too():
    """The life beside the water follows the fitted barley: a slower one chits later, and its band is narrower."""
    typical, slow = ask("steep-timing")["answers"], ask("steep-fit", **read("8 31; 24 38"))["answers"]
    assert slow["rate_factor"]["value"] < 0.95
    assert slow["chit_dip"]["value"] < typical["chit_dip"]["value"] - 5.0
    assert slow["chit_dip"]["low"] <= slow["chit_dip"]["value"] <= slow["chit_dip"]["high"]
    quick = ask("steep-fit", **read("8 35; 24 43"))["answers"]
    assert quick["chit_dip"]["value"] > typical["chit_dip"]["value"] + 5.0
    assert slow["warmest_c"]["low"] < slow["warmest_c"]["value"] < slow["warmest_c"]["high"]


def test_what_is_taken_up_at_once_is_told_of_the_barley_as_typed():
    found = {one["id"]: one for one in [{"id": k, **v} for k, v in ask("steep-fit")["answers"].items()]}
    text = next(f.found.working for f in _figures("steep-fit") if f.one.id == "moisture_offset")
    assert "instead of 12.5 %" in text and "moisture_offset" in found


def test_a_cold_steep_says_that_its_corns_have_not_chitted():
    text = notes("steep-fit", water_temp_c="8", **read("8 27; 24 35"))
    assert "Chit before the last dip" in text and "the stop is under 50 %" in text


def _figures(sheet_id: str):
    from calculators.asking.answer import Answered, answer, example_of
    from calculators.sheets import find_sheet

    found = answer(find_sheet(sheet_id), example_of(find_sheet(sheet_id)))
    assert isinstance(found, Answered)
    return found.figures
