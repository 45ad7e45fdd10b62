"""Shovelling, pushing, pulling: each point from both sides, and that none exceeded is no assurance."""

from __future__ import annotations

import pytest

from tests.sheets.ask import ask, notes, values, wrong

SHOVEL = {"scoops_a_minute": 15, "shovel_load_kg": 7, "throw_m": 1, "minutes": 15}
NO_SHOVEL = dict.fromkeys(SHOVEL, "")
PUSH = {**NO_SHOVEL, "force_start_kg": 15, "force_on_kg": 7, "push_m": 20, "ground": "good"}


def test_at_the_points_themselves_none_is_exceeded_and_no_assurance_given():
    found = values("shovel-pace", **SHOVEL)
    assert found["finding"] == "none-exceeded" and found["points_exceeded"] == 0
    assert "no assurance" in notes("shovel-pace", **SHOVEL)


@pytest.mark.parametrize(
    ("question", "value", "point"),
    [
        ("scoops_a_minute", 15.1, "Scoops a minute, going on"),
        ("shovel_load_kg", 7.1, "Shovel with its load"),
        ("throw_m", 1.05, "Throw"),
        ("minutes", 15.5, "Minutes at a time"),
        ("throw_height_m", 1.31, "Height of the throw"),
    ],
)
def test_just_over_a_point_it_is_exceeded_with_what_to_change(question, value, point):
    told = ask("shovel-pace", **{**SHOVEL, question: value})
    assert told["answers"]["finding"]["value"] == "exceeded"
    (row,) = [row for row in told["tables"]["points"]["rows"] if row[3] == "exceeded"]
    assert row[0] == point and len(row[4]) > 5


@pytest.mark.parametrize(
    ("who", "start", "going", "count"),
    [("woman", 15, 7, 0), ("woman", 15.1, 7.1, 2), ("man", 20, 10, 0), ("man", 20.1, 10.1, 2)],
)
def test_forces_for_pushing(who, start, going, count):
    found = values("shovel-pace", **{**PUSH, "force_start_kg": start, "force_on_kg": going, "who": who})
    assert found["points_exceeded"] == count


def test_distance_and_floor():
    assert values("shovel-pace", **{**PUSH, "push_m": 20.5})["points_exceeded"] == 1
    assert values("shovel-pace", **{**PUSH, "ground": "bad"})["points_exceeded"] == 1


def test_heat_and_which_of_the_two():
    assert "15 minutes of rest" in notes("shovel-pace", **SHOVEL, weather="extreme")
    assert "both given" in wrong("shovel-pace", **{**SHOVEL, "push_m": 5})[0].text
    assert wrong("shovel-pace", **NO_SHOVEL)[0].missing


def test_what_may_harm_a_heart_is_more_than_a_caution():
    (said,) = [
        note for note in ask("shovel-pace", **{**SHOVEL, "minutes": 30})["notes"] if "This pace or load" in note["text"]
    ]
    assert "heart" in said["text"] and said["level"] == "warning"
