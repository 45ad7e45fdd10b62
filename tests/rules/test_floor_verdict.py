"""What a round of the floor asks for: each stop before all else, and each edge from both sides.

The edges are those of the page's table of limits, typed here once more as numbers of the trade: a change of the table
has to be meant.
"""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from calculators.rules.floor import ACTIONS, MOULD, ROOTS, SMELLS, STOPS, Sight, verdict
from calculators.rules.limit import Limit, judge
from calculators.rules.limits import casting, kiln_hand_over
from calculators.rules.limits import floor_germination as limits
from calculators.words.floor import LABELS, because, reason

CALM = Sight(
    bottom_c=16.0, top_c=14.0, hours_since_turning=6.0, day=3, difference_limit_k=4.0, hours_to_limit=6.0,
    own_readings=True, depth_cm=15.0, room_c=12.0,
)  # fmt: skip


def words(**changed: object) -> tuple[str, ...]:
    return verdict(CALM._replace(**changed)).words  # type: ignore[arg-type]


def test_nothing_due_is_left_alone():
    assert words() == ("leave",)


# Stop and ask, by the page: bottom over 22, bottom minus top over 8, unturned over 16 h, piece over 20 or under 8.
@pytest.mark.parametrize(
    ("change", "at", "past"),
    [
        ({"bottom_c": 24.0, "top_c": 20.0}, {"bottom_c": 22.0, "top_c": 15.0, "difference_limit_k": 8.0}, "turn-now"),
        ({"bottom_c": 18.0, "top_c": 9.9}, {"bottom_c": 18.0, "top_c": 10.0}, "turn-now"),
        ({"hours_since_turning": 30.0}, {"hours_since_turning": 16.0}, "turn-now"),
        ({"roots": "knotted"}, {"roots": "clinging"}, "turn-now"),
        ({"smell": "sour"}, {"smell": "flat"}, "turn-now"),
        ({"smell": "fruity"}, {"smell": "apples"}, "turn-now"),
        ({"smell": "musty"}, {"smell": "flat"}, "look-for-mould"),
        ({"mould": "patches"}, {"mould": "single green corns"}, "lift-out"),
        ({"bottom_c": 7.9, "top_c": 7.9}, {"bottom_c": 8.0, "top_c": 8.0}, "tell"),
        ({"room_c": 4.9}, {"room_c": 5.0}, "tell"),
        ({"depth_cm": 40.1}, {"depth_cm": 40.0}, "thin-now"),
        ({"moisture": 39.9}, {"moisture": 40.0}, "tell"),
        ({"moisture": 48.1}, {"moisture": 48.0}, "tell"),
    ],
)
def test_a_stop_comes_first_and_its_edge_does_not(change: dict[str, object], at: dict[str, object], past: str):
    found = verdict(CALM._replace(**change))  # type: ignore[arg-type]
    assert found.word == past and found.stops
    assert words(**at)[0] not in STOPS


def test_what_the_last_bits_make_of_a_difference_decides_nothing():
    """16.1 less 8.1 is more than 8 to a machine, 16.4 less 12.4 less than 4."""
    for tenths in range(140, 200):
        warm = tenths / 10
        assert words(bottom_c=warm, top_c=(tenths - 40) / 10, warmest_c=20.0)[0] == "turn", warm
        at_stop = verdict(CALM._replace(bottom_c=warm, top_c=(tenths - 80) / 10, room_c=8.0))
        assert at_stop.word == "turn" and not at_stop.stops, warm
        couch = {"couch": True, "day": 1, "depth_cm": 40.0, "hours_since_turning": 20.0}
        assert "break-couch" not in words(bottom_c=warm, top_c=warm, room_c=(tenths - 80) / 10, **couch), warm


def test_bottom_at_24_is_turned_before_it_is_spread():
    assert words(bottom_c=24.0, top_c=21.0)[:2] == ("turn-now", "thin")


def test_unturned_and_knotted_waits_for_nothing():
    found = verdict(CALM._replace(hours_since_turning=30.0, roots="knotted"))
    assert found.words == ("turn-now",)
    text = reason(found, CALM)
    assert "30 h: the stop is over 16 h" in text and "knotted, a stop" in text and "wait" not in text
    assert "Tell the shift lead" in text


def test_mould_is_lifted_out_before_anything_is_turned():
    assert words(mould="patches", bottom_c=24.0, top_c=21.0)[:2] == ("lift-out", "turn-now")


def test_withering_roots_by_the_day_and_the_acrospire():
    assert words(roots="withering") == ("sprinkle",)
    assert words(roots="withering", day=5) == ("sprinkle",)
    assert words(roots="withering", day=6) == ("count",)
    assert words(roots="withering", day=9) == ("count",)
    assert words(roots="withering", day=9, acrospire="shorter") == ("count",)
    assert words(roots="withering", day=4, acrospire="three-quarters") == ("count",)
    assert words(roots="withering", day=4, acrospire="shorter") == ("sprinkle",)
    assert "sprinkle" not in words(roots="withering", moisture=46.0)
    text = reason(verdict(CALM._replace(roots="withering", day=9)), CALM)
    assert f"last {kiln_hand_over.LAST_WATER.accept_low:g} h before the kiln" in text


def test_a_dry_sample_is_sprinkled_in_a_young_piece_only():
    assert words(moisture=42.0) == ("leave",)
    assert words(moisture=41.9) == ("sprinkle",)
    assert words(moisture=41.9, day=9) == ("count",)
    assert words(moisture=41.9, day=9, acrospire="shorter") == ("sprinkle",)


def test_a_bottom_cooler_than_the_top():
    # Summer: a warm room explains it. Otherwise the thermometers are looked at first.
    assert words(bottom_c=16.0, top_c=17.0, room_c=22.0) == ("leave",)
    assert words(bottom_c=14.0, top_c=15.0) == ("check",)
    assert words(bottom_c=14.5, top_c=15.0) == ("leave",)
    assert words(bottom_c=14.0, top_c=15.0, room_c=None) == ("check",)
    # Swapped or not: the warmer of the two is judged as the bottom.
    assert words(bottom_c=15.0, top_c=23.5)[0] == "turn-now"


def test_readings_far_apart_just_after_a_turning_are_doubted_and_it_is_turned_all_the_same():
    """19.5 and 15.2 half an hour after both were alike: one of the two was read wrongly, or it was not turned there."""
    apart = {"bottom_c": 19.5, "top_c": 15.2, "warmest_c": 20.0}
    assert words(**apart, hours_since_turning=0.5) == ("turn", "check")
    assert words(**apart, hours_since_turning=1.0) == ("turn",)
    assert "check" not in words(bottom_c=17.0, top_c=13.1, hours_since_turning=0.5)
    found = verdict(CALM._replace(bottom_c=19.5, top_c=15.2, warmest_c=20.0, hours_since_turning=0.5))
    text = because(found.due[1], CALM)
    assert "turned 0.5 h ago" in text and "Hold both in one pail of water" in text


def test_where_the_clock_of_a_turning_runs_out_no_typical_value_is_blamed():
    sight = CALM._replace(hours_since_turning=11.9, hours_to_limit=0.1, own_readings=False)
    (watched,) = verdict(sight).due
    text = because(watched, sight)
    assert "hours accepted between turnings are over within half an hour" in text and "typical" not in text


def test_turn_at_the_houses_limit_and_not_under_it():
    assert words(bottom_c=17.0, top_c=13.0) == ("turn",)
    assert words(bottom_c=17.0, top_c=13.01) == ("leave",)


def test_turn_when_bottom_or_hours_pass_what_is_accepted():
    assert words(bottom_c=20.0, top_c=16.1, warmest_c=20.0) == ("leave",)
    assert words(bottom_c=20.000001, top_c=16.1, warmest_c=20.0) == ("turn", "thin")
    assert words(hours_since_turning=12.0) == ("leave",)
    assert words(hours_since_turning=12.1) == ("turn",)


def test_a_couch_has_its_own_limits():
    assert words(couch=True, hours_since_turning=30.0) == ("leave",)
    assert words(couch=True, hours_since_turning=30.1) == ("turn",)
    assert words(couch=True, hours_since_turning=36.1)[0] == "break-couch"
    assert words(couch=True, bottom_c=20.1, top_c=17.0, room_c=15.0)[0] == "break-couch"
    assert words(couch=True, bottom_c=17.0, top_c=14.0, room_c=8.9)[0] == "break-couch"
    assert casting.COUCH_HOURS.stop_high == 36


def test_turn_when_own_readings_bring_it_within_half_an_hour():
    assert words(hours_to_limit=0.5) == ("turn",)
    assert words(hours_to_limit=0.51) == ("leave",)
    assert words(hours_to_limit=0.5, own_readings=False) == ("watch",)


@given(hours=st.floats(0, 24), difference=st.floats(0, 3.99))
def test_a_typical_value_never_asks_for_a_turning(hours: float, difference: float):
    assert "turn" not in words(own_readings=False, hours_to_limit=hours, bottom_c=14.0 + difference)


def test_too_warm_and_too_cool_on_the_whole():
    assert words(bottom_c=17.0, top_c=17.0) == ("leave",)
    assert words(bottom_c=17.1, top_c=17.1) == ("thin",)
    assert words(bottom_c=12.0, top_c=12.0) == ("leave",)
    assert words(bottom_c=11.9, top_c=11.9) == ("thicken",)


def test_a_thin_piece_is_not_thinned_and_a_thick_one_not_thickened():
    assert words(bottom_c=17.5, top_c=17.5, depth_cm=8.0) == ("watch",)
    assert words(bottom_c=11.0, top_c=11.0, depth_cm=40.0) == ("watch",)
    assert words(bottom_c=20.5, top_c=18.0, depth_cm=8.0)[0] == "tell"


def test_windows_by_what_is_cooler():
    warm = {"bottom_c": 17.5, "top_c": 17.5}
    assert words(**warm, outside_c=11.0) == ("thin", "open")
    assert words(**warm, outside_c=13.0) == ("thin", "close")
    assert words(**warm, outside_c=12.5) == ("thin",)
    assert words(bottom_c=11.0, top_c=11.0, outside_c=5.0) == ("thicken", "close")
    assert words(outside_c=5.0) == ("leave",)


def test_plough_when_roots_begin_to_cling_and_nothing_is_turned():
    assert words(roots="clinging") == ("plough",)
    assert words(roots="clinging", hours_since_turning=12.5) == ("turn",)


SIGHTS = st.builds(
    Sight,
    bottom_c=st.floats(2, 40),
    top_c=st.floats(2, 40),
    hours_since_turning=st.floats(0, 36),
    day=st.integers(1, 30),
    difference_limit_k=st.floats(0.5, 8),
    coolest_c=st.floats(8, 13),
    warmest_c=st.floats(14, 20),
    hours_to_limit=st.floats(0, 24),
    own_readings=st.booleans(),
    couch=st.booleans(),
    room_c=st.none() | st.floats(-5, 35),
    depth_cm=st.none() | st.floats(4, 80),
    outside_c=st.none() | st.floats(-30, 45),
    roots=st.none() | st.sampled_from(ROOTS),
    acrospire=st.none() | st.sampled_from(["shorter", "three-quarters"]),
    smell=st.none() | st.sampled_from(SMELLS),
    mould=st.none() | st.sampled_from(MOULD),
    moisture=st.none() | st.floats(30, 55),
)


def past_a_stop(sight: Sight) -> bool:
    """Whether the table stops at anything in this sight, read from the table and not from the verdict."""
    readings: list[tuple[Limit, float | None]] = [
        (limits.DIFFERENCE, abs(sight.bottom_c - sight.top_c)),
        (limits.MOISTURE, sight.moisture),
        (limits.ROOM, sight.room_c),
    ]
    warmest = max(sight.bottom_c, sight.top_c)
    mean = (sight.bottom_c + sight.top_c) / 2
    if sight.couch:
        readings += [
            (casting.COUCH_BOTTOM, warmest),
            (casting.COUCH_HOURS, max(sight.hours_since_turning, 12.0)),
            (casting.COUCH_RISE, None if sight.room_c is None else sight.bottom_c - sight.room_c),
            (limits.PIECE, min(mean, 15.0)),
        ]
    else:
        readings += [
            (limits.BOTTOM, warmest),
            (limits.TURNING, max(sight.hours_since_turning, 6.0)),
            (limits.PIECE, mean),
            (limits.DEPTH, sight.depth_cm),
        ]
    if sight.depth_cm is not None and sight.depth_cm <= 8:
        readings.append((limits.SUMMER_BOTTOM, warmest))
    seen = sight.smell in limits.SMELL.stop or sight.mould in limits.MOULD.stop or sight.roots in limits.ROOTS.stop
    return seen or any(value is not None and judge(limit, value) == "stop" for limit, value in readings)


@given(SIGHTS)
def test_no_order_lies_past_a_stop_unless_the_stop_is_said_first(sight: Sight):
    found = verdict(sight)
    assert (found.word in STOPS) == bool(found.stops) == past_a_stop(sight)
    said = [action.word for action in found.due if any(line.mark == "stop" for line in action.lines)]
    assert said == [word for word in found.words if word in STOPS]


@given(SIGHTS)
@example(CALM._replace(bottom_c=2.0, top_c=21.0, hours_since_turning=0.0, depth_cm=4.0, room_c=None))
def test_every_sight_gets_listed_actions_in_their_order_and_a_reason(sight: Sight):
    found = verdict(sight)
    assert list(found.words) == sorted(set(found.words), key=ACTIONS.index)
    assert not {"thin", "thicken"} <= set(found.words) and not {"open", "close"} <= set(found.words)
    assert ("leave" in found.words) == (found.words == ("leave",))
    for action in found.due:
        text = because(action, sight)
        assert action.lines and text.endswith((".", "]]"))
        assert ("Tell the shift lead." in text) == (action.word in STOPS)


def test_every_action_has_its_label_and_its_case():
    assert tuple(option.word for option in LABELS) == ACTIONS
    seen: set[str] = set()
    for change in (
        {}, {"bottom_c": 24.0}, {"couch": True, "hours_since_turning": 36.5}, {"mould": "patches"}, {"room_c": 0.0},
        {"bottom_c": 18.5}, {"bottom_c": 11.0, "top_c": 11.0}, {"roots": "clinging"}, {"roots": "withering"},
        {"bottom_c": 17.5, "top_c": 17.5, "outside_c": 5.0}, {"bottom_c": 17.5, "top_c": 17.5, "outside_c": 25.0},
        {"bottom_c": 14.0, "top_c": 15.0}, {"smell": "flat"}, {"acrospire": "three-quarters"},
        {"smell": "musty"}, {"depth_cm": 45.0},
    ):  # fmt: skip
        seen.update(words(**change))
    assert seen == set(ACTIONS)


@pytest.mark.parametrize(
    "changed",
    [
        # As thin as a piece is laid, so no thinner; as thick as it may lie, so no thicker.
        {"warmest_c": 14.0, "depth_cm": 8.0},
        {"coolest_c": 16.0, "depth_cm": 40.0},
    ],
)
def test_a_piece_outside_the_house_s_own_edges_is_watched_where_nothing_can_be_done(changed: dict[str, object]):
    found = verdict(CALM._replace(**changed))  # type: ignore[arg-type]
    assert "watch" in found.words and not {"thin", "thicken"} & set(found.words)
    watched = next(action for action in found.due if action.word == "watch")
    line = next(line for line in watched.lines if line.rule == limits.PIECE.id)
    assert line.edge == next(value for name, value in changed.items() if name.endswith("_c"))
    assert line.value == pytest.approx((16.0 + 14.0) / 2)


@given(st.floats(12.0, 17.0), st.floats(12.0, 17.0))
def test_a_piece_within_the_house_s_own_edges_is_not_watched_for_its_warmth(one: float, other: float):
    low, high = sorted((one, other))
    found = verdict(CALM._replace(coolest_c=low, warmest_c=high, depth_cm=8.0))
    named = any(line.rule == limits.PIECE.id for action in found.due for line in action.lines)
    assert named == (not low <= (16.0 + 14.0) / 2 <= high)
