"""What a round of the floor asks for, at both sides of each edge."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.floor_actions import ACTIONS, Sight, actions

CALM = Sight(
    difference_k=2.0, limit_k=4.0, hours_to_limit=6.0, own_readings=True, bottom_c=16.0, mean_c=15.0,
    coolest_c=10.0, warmest_c=18.0, depth_cm=15.0, room_c=12.0,
)  # fmt: skip


def words(**changed: object) -> list[str]:
    return [action.word for action in actions(CALM._replace(**changed))]  # type: ignore[arg-type]


def test_nothing_due_is_left_alone() -> None:
    assert words() == ["leave"]


def test_turn_at_the_limit_and_not_under_it() -> None:
    assert words(difference_k=4.0) == ["turn"]
    assert words(difference_k=3.99) == ["leave"]


def test_turn_when_own_readings_bring_it_within_half_an_hour() -> None:
    assert words(hours_to_limit=0.5) == ["turn"]
    assert words(hours_to_limit=0.51) == ["leave"]


@given(hours=st.floats(0, 24), difference=st.floats(0, 3.99))
def test_a_typical_value_never_asks_for_a_turning(hours: float, difference: float) -> None:
    assert "turn" not in words(own_readings=False, hours_to_limit=hours, difference_k=difference)


def test_too_warm_and_too_cool_on_the_whole() -> None:
    assert words(mean_c=18.0, bottom_c=18.0) == ["leave"]
    assert words(mean_c=18.1, bottom_c=18.5) == ["thin"]
    assert words(mean_c=10.0) == ["leave"]
    assert words(mean_c=9.9) == ["thicken"]


def test_a_thin_piece_is_not_thinned_and_a_thick_one_not_thickened() -> None:
    assert "thin" not in words(mean_c=19.0, bottom_c=19.0, depth_cm=8.0)
    assert "thicken" not in words(mean_c=9.0, depth_cm=40.0)


def test_windows_by_what_is_cooler() -> None:
    assert words(mean_c=19.0, bottom_c=19.0, outside_c=11.0) == ["thin", "open"]
    assert words(mean_c=19.0, bottom_c=19.0, outside_c=13.0) == ["thin", "close"]
    assert words(mean_c=19.0, bottom_c=19.0, outside_c=12.5) == ["thin"]
    assert words(mean_c=9.0, outside_c=5.0) == ["thicken", "close"]
    assert words(outside_c=5.0) == ["leave"]


def test_plough_when_the_turning_can_wait() -> None:
    assert words(roots="knotted") == ["plough"]
    assert words(bottom_c=18.5) == ["plough"]
    assert words(roots="knotted", difference_k=4.5) == ["turn"]


def test_withering_roots_want_water() -> None:
    assert words(roots="withering") == ["sprinkle"]
    assert words(roots="withering", difference_k=5.0) == ["turn", "sprinkle"]
    assert words(roots="fresh") == ["leave"]


@given(
    st.builds(
        Sight,
        difference_k=st.floats(0, 12),
        limit_k=st.floats(0.5, 15),
        hours_to_limit=st.floats(0, 24),
        own_readings=st.booleans(),
        bottom_c=st.floats(2, 40),
        mean_c=st.floats(2, 40),
        coolest_c=st.floats(2, 15),
        warmest_c=st.floats(16, 30),
        depth_cm=st.floats(4, 80),
        room_c=st.floats(-5, 35),
        outside_c=st.none() | st.floats(-30, 45),
        roots=st.none() | st.sampled_from(["fresh", "withering", "knotted"]),
    )
)
def test_every_sight_gets_listed_actions_in_their_order(sight: Sight) -> None:
    found = [action.word for action in actions(sight)]
    assert found and all(word in ACTIONS for word in found)
    assert found == sorted(found, key=ACTIONS.index) and len(set(found)) == len(found)
    assert not {"thin", "thicken"} <= set(found) and not {"open", "close"} <= set(found)
    assert ("leave" in found) == (found == ["leave"])
    assert all(action.because.endswith((".", "out.")) for action in actions(sight))


@pytest.mark.parametrize("word", ACTIONS)
def test_each_action_can_come_up(word: str) -> None:
    seen = set()
    for change in (
        {}, {"difference_k": 5.0}, {"mean_c": 19.0, "bottom_c": 19.0, "outside_c": 5.0}, {"mean_c": 8.0},
        {"roots": "knotted"}, {"roots": "withering"}, {"mean_c": 19.0, "bottom_c": 19.0, "outside_c": 25.0},
    ):  # fmt: skip
        seen.update(words(**change))
    assert word in seen
