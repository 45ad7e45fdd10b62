"""Fan before the first test: refusals at the floor, mixing, and what stands beside it."""

from __future__ import annotations

import json

import pytest

from calculators.answer import Answered, answer, example_of, find_sheet
from calculators.declare import Refusal
from calculators.page import respond
from tests.sheets.ask import ask, notes, said, values, wrong

ROOM = {"volume_m3": "30", "airflow_m3_h": "600", "start_ppm": "50000", "end_ppm": "1000"}


def refused(**given: object) -> str:
    told = ask("dilution-estimate", **{**ROOM, **given})
    assert told["answers"] == {}
    return str(told["refused"])


def test_it_is_the_formula():
    import math

    found = values("dilution-estimate", **ROOM, mixing="3")
    assert found["minutes"] == pytest.approx(60 * 3 * 30 / 600 * math.log((50_000 - 420) / (1000 - 420)))
    assert found["air_changes"] == 20
    assert found["air_changes_in_all"] == pytest.approx(20 * found["minutes"] / 60)


def test_mixing_is_poor_unless_said():
    poor = values("dilution-estimate", **ROOM)
    assert poor["minutes"] == pytest.approx(10 * values("dilution-estimate", **ROOM, mixing="1")["minutes"])


@pytest.mark.parametrize("end", ["420", "419", "1"])
def test_outdoor_air_is_never_reached(end):
    assert "never reached" in refused(end_ppm=end) and "420" in refused(end_ppm=end)


def test_just_above_outdoor_air_it_is():
    assert values("dilution-estimate", **{**ROOM, "end_ppm": "420.001"})["minutes"] > 60


def test_with_gas_being_made_the_floor_rises():
    # 1 kg/h is 0.5466 m3/h at 20 C; in 600 m3/h 911 ppm, and ten times that at the poorest mixing.
    found = values("dilution-estimate", **{**ROOM, "end_ppm": "20000"}, source_kg_h="1")
    assert found["floor_ppm"] == pytest.approx(420 + 911, abs=1)
    assert found["floor_mixed_ppm"] == pytest.approx(420 + 9110, abs=5)
    assert "even the mean below" in refused(end_ppm="1330", source_kg_h="1")
    assert "at this mixing" in refused(end_ppm="9000", source_kg_h="1")


def test_the_source_from_barley_and_day_is_taken_high():
    typed = {**ROOM, "end_ppm": "30000", "airflow_m3_h": "6000"}
    found = values("dilution-estimate", **typed, barley_kg="1000", day="3", mixing="1")
    # Twice the typical: 1.4 x 1.72 kW/t on day 3, 5 K over 15 C.
    kg_h = 2 * 1.4 * 1.72 * 2.25**0.5 * 0.3392
    assert found["floor_ppm"] == pytest.approx(420 + 1e6 * kg_h * 24.055 / 44.01 / 6000, rel=2e-3)


def test_both_ways_of_giving_the_source_are_asked_back():
    assert "both given" in wrong("dilution-estimate", **ROOM, source_kg_h="1", barley_kg="5000", day="2")[0].text
    assert wrong("dilution-estimate", **ROOM, barley_kg="5000")[0].question == "day"


def test_without_a_source_it_says_what_that_assumes():
    assert "Reckoned as if nothing" in notes("dilution-estimate", **ROOM)
    assert "Reckoned as if nothing" not in notes("dilution-estimate", **ROOM, source_kg_h="0")


def test_an_end_above_the_start_is_asked_back():
    assert "below 50000" in said("dilution-estimate", **{**ROOM, "end_ppm": "50001"})


@pytest.mark.parametrize("given", [{}, {"end_ppm": "400"}, {"source_kg_h": "5", "end_ppm": "4000"}])
def test_it_allows_no_entry_stands_beside_answers_and_refusals(given):
    told = ask("dilution-estimate", **{**ROOM, **given})
    levels = {note["level"]: note["text"] for note in told["notes"]}
    assert "allows no entry" in levels["danger"]
    assert "rooms with nothing in them that makes gas" in notes("dilution-estimate", **{**ROOM, **given})


def test_minutes_are_shown_rounded_up():
    room = {**example_of(find_sheet("dilution-estimate")), **ROOM, "mixing": "1"}
    minutes = values("dilution-estimate", **ROOM, mixing="1")["minutes"]
    assert minutes % 1 < 0.5  # so that plain rounding would go down
    request = {"sheet": "dilution-estimate", "prefix": "x", "root": "", "questions": room}
    reply = json.loads(respond(json.dumps(request)))
    assert f">{int(minutes) + 1}<" in reply["places"]["answers"]


def test_a_refusal_is_a_result():
    sheet = find_sheet("dilution-estimate")
    result = answer(sheet, {**example_of(sheet), "end_ppm": "400"})
    assert isinstance(result, Answered) and isinstance(result.outcome, Refusal)
