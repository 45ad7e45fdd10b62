"""The sheet of a steep plan: what it shows, refuses, asks again and says first."""

from __future__ import annotations

from itertools import pairwise

import pytest

from calculators.models.steep.hydration import steep
from calculators.rules.sensitive import longest_for, rest_for
from tests.sheets.ask import ask, notes, said, values

FREE = {"quiet_from": "", "quiet_until": "", "cast_from": "", "cast_until": ""}


def shape(**given_values: str) -> list[tuple[float, float | None]]:
    """Hours under water and of rest of the plan that stands first, without hours when nobody is there."""
    rows = ask("steep-plan", **FREE, **given_values)["tables"]["schedule"]["rows"]
    return [(row[6], row[8]) for row in rows if row[0] == 1]


def test_practice_three_immersions_at_14_degrees():
    # Canadian guide (read): 6-10 h wet, 8-12 h rest, 6-10 h wet, 6-8 h rest, last one 2-4 h; 30-35 % after the
    # first and 43-45 % at the end, in two days.  Common practice leaves more room for the last immersion.
    result = ask("steep-plan", quiet_from="", quiet_until="", cast_from="", cast_until="", target_moisture="44.5")
    first = [row for row in result["tables"]["schedule"]["rows"] if row[0] == 1]
    assert len(first) == 3
    assert 4.0 <= first[0][6] <= 10.0 and 30.0 <= first[0][7] <= 35.0
    assert 4.0 <= first[1][6] <= 10.0 and first[2][6] <= 8.0
    assert 34.0 <= result["tables"]["compared"]["rows"][0][1] <= 56.0


def test_the_reason_of_the_order_is_said():
    rows = ask("steep-plan")["tables"]["ranked"]["rows"]
    assert rows[0][3].startswith("least against it")
    assert all(row[3].startswith("against plan 1") for row in rows[1:])


def test_wall_card_by_water_and_barley():
    result = ask("steep-plan")
    card = result["tables"]["wall_card"]["rows"]
    for colder, warmer in pairwise(card):
        assert all(a > b for a, b in zip(colder[1:], warmer[1:], strict=True))
    for row in card:
        assert list(row[1:]) == sorted(row[1:], reverse=True)  # wetter barley needs less
    twelve = next(row for row in card if row[0] == 12.0)
    again = steep(barley_moisture=12.0, stages=[(twelve[2], 12.0)])
    assert again.ends[0].drained == pytest.approx(31.0, abs=1e-6)


def test_a_wish_in_the_way_is_named_and_the_nearest_shown():
    text = notes("steep-plan", vessel_hours="30")
    assert "vessel free after 30 h" in text and "would do" in text
    assert values("steep-plan", vessel_hours="30")["wishes"] == "not-kept"
    # What is said to do, does.
    granted = float(text.split("vessel free after 30 h; ")[1].split(" h")[0])
    assert values("steep-plan", vessel_hours=str(granted + 0.1))["wishes"] == "kept"
    text = notes("steep-plan", quiet_from="14:00", quiet_until="12:00")
    assert "No plan keeps every wish" in text and "hours when nobody is there" in text


def test_a_target_out_of_reach_is_refused_with_the_nearest():
    result = ask("steep-plan", water_temp_c="3", target_moisture="55", longest_immersion_h="6")
    assert "The target stands in the way" in result["refused"]
    assert "55 %" in result["refused"] and "ends on" in result["refused"] and "Use warmer water." in result["refused"]
    assert result["notes"][0]["text"].startswith(
        "Past a stop: what is asked for. Steep water 3 °C: the stop is under 5 °C."
    )
    warm = ask("steep-plan", water_temp_c="17", target_moisture="55", longest_immersion_h="2")
    assert "warmer" not in warm["refused"]


def test_sensitive_barley_rests_longer():
    # MEBAK R-110.34.612 (read): the more sensitive, the longer the rests. 30 points: Montana State University (read).
    points = (0, 9.9, 10, 29.9, 30, 45, 45.1, 100)
    assert [rest_for(water_sensitivity=s) for s in points] == [0, 0, 8, 8, 12, 12, 12, 12]
    assert [longest_for(water_sensitivity=s) for s in points] == [12, 12, 8, 8, 6, 6, 6, 6]
    rows = ask("steep-plan", water_sensitivity="31")["tables"]["schedule"]["rows"]
    assert min(row[8] for row in rows if row[8] is not None) >= 12.0
    assert max(row[6] for row in rows) <= 6.0
    assert "no rest is shorter than 12 h" in notes("steep-plan", water_sensitivity="31")


@pytest.mark.parametrize("points", ["11", "20", "31", "39"])
def test_a_sensitivity_under_40_changes_the_plan_and_is_said(points):
    usual, sensitive = shape(), shape(water_sensitivity=points)
    assert sensitive != usual
    assert max(wet for wet, _ in sensitive) <= longest_for(water_sensitivity=float(points)) < 10.0
    assert min(rest for _, rest in sensitive if rest) >= (12 if float(points) > 30 else 8)
    assert f"Water sensitivity {points} points: " in notes("steep-plan", water_sensitivity=points)


def test_past_the_published_line_the_stop_is_said_first():
    stops = [n["text"] for n in ask("steep-plan", water_sensitivity="31")["notes"] if n["level"] == "notice"]
    assert any(text.startswith("Past a stop for the usual plan.") for text in stops)
    assert "the stop is at 30 points. Change the steep first." in notes("steep-plan", water_sensitivity="30")
    assert "Past a stop" not in notes("steep-plan", water_sensitivity="29.9")


def test_a_slower_barley_drains_later():
    slow, typical = values("steep-plan", rate_factor="0.7"), values("steep-plan")
    assert slow["first_drain_at"] > typical["first_drain_at"]
    assert values("steep-plan", moisture_offset="3")["first_drain_at"] < typical["first_drain_at"]


@pytest.mark.parametrize(
    ("given_values", "words"),
    [
        ({"target_moisture": "30"}, "not above the first drain’s 31 %"),
        ({"quiet_until": ""}, "give both times"),
        ({"quiet_from": "05:00"}, "both times are the same"),
        ({"cast_from": ""}, "give both times"),
        ({"start": ""}, "Type a time such as 06:00"),
        ({"water_temp_c": "30.5"}, "above 30 °C barley is harmed"),
        ({"longest_immersion_h": "1.9"}, "from 2 to 12 h"),
        ({"longest_immersion_h": "12.1"}, "from 2 to 12 h, such as 10. One immersion stops at 12 h"),
        ({"first_aim": "27.9"}, "from 28 to 37 %"),
        ({"first_aim": "37.1"}, "Beyond these the first drain is a stop"),
        ({"shortest_rest_h": "1.5"}, "a drain and a fill alone take 2 h. Type a rest of that or more, up to 24 h"),
        ({"chit_hours": "11"}, "from 12 to 120 h"),
        ({"fill_minutes": "241"}, "from 0 to 240 min"),
        ({"shortest_rest_h": "0.5"}, "from 1 to 24 h"),
        ({"water_sensitivity": "101"}, "from 0 to 100"),
    ],
)
def test_what_to_do_instead(given_values, words):
    assert words in said("steep-plan", **given_values)


def test_the_limits_themselves_are_accepted():
    for more in (
        {"longest_immersion_h": "2"},
        {"longest_immersion_h": "12"},
        {"shortest_rest_h": "2"},
        {"shortest_rest_h": "24"},
        {"water_temp_c": "30"},
        {"water_temp_c": "2"},
        {"first_aim": "28"},
        {"first_aim": "37"},
        {"fill_minutes": "0", "drain_minutes": "0"},
        {"fill_minutes": "240", "drain_minutes": "240", "shortest_rest_h": "8"},
    ):
        ask("steep-plan", **more)


def test_the_wall_card_names_no_hours_past_the_stop():
    cells = [cell for row in ask("steep-plan", first_aim="36")["tables"]["wall_card"]["rows"] for cell in row[1:]]
    assert None in cells and all(cell <= 12.0 for cell in cells if cell is not None)


def test_gas_and_air_are_named():
    text = notes("steep-plan")
    assert "danger: A drained steep fills with carbon dioxide" in text and "run short of oxygen" in text
