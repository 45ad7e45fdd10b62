"""The debrief: a limit that was passed comes before any difference, a parting names one, and what was known then."""

from __future__ import annotations

import pytest

from calculators.practice.debrief import good_run
from calculators.practice.debrief_html import draw_debrief
from calculators.practice.harms import KINDS, harms, spans
from calculators.practice.kinds import Debrief, Point
from calculators.practice.moves import read_moves
from calculators.practice.play import play, run_of
from calculators.practice.players import PLAYERS, run_on
from calculators.practice.run import Run, clock
from calculators.practice.setting import Setting
from calculators.practice.turning_points import points_of
from calculators.rules.limit import Limit
from calculators.rules.limits import casting, drum_germination, floor_germination
from calculators.words.limits import at_edge

DROWNED = "pl-tr-fi-ao-wa900-ho-wa900-ho-wa60"
RESTED = "pl-tr-fi-wa450-dr-sl-wa900-ho-wa900-ho"


def debriefed(number: int, level: str, moves: str) -> Debrief:
    played = play(number, level, "none", moves, debrief=True)
    assert played.debrief is not None and played.left_out == ()
    return played.debrief


@pytest.mark.parametrize("number", [7, 11])
def test_grain_that_drowned_is_said_to_have_drowned_and_one_goes_back_to_before_it(number: int) -> None:
    found = debriefed(number, "3", DROWNED)
    air, water = found.points[:2]
    assert air.you == "Air off under water for 49 h, from Day 1, 06:25." and "any hour without air" in air.did
    assert water.you.startswith("Left it under water for 49 h") and "over 12 h" in water.did
    assert len(found.points) == 2, "what comes after the grain is dead is no parting"
    assert found.back[0][2] == "pl-tr-fi", "before the air was taken off"
    assert "under water for 49 h" in found.grain and "Without air it lay under water for 49 h" in found.grain
    assert "Not one corn in a hundred has chitted" in found.grain


def test_grain_that_has_not_chitted_is_said_so_beside_a_right_moisture_and_not_where_it_has_its_time_still() -> None:
    wet = debriefed(7, "3", "pl-tr-fi-wa900-ho_dra4_sla4.2-we-wa700-dr-sl")
    assert abs(wet.yours.moisture - wet.target) < 2.0 and "have chitted: without the chit" in wet.grain
    assert "without the chit" not in debriefed(5, "2b", "pr-wr-us").grain


def test_a_long_steep_with_air_is_named_and_a_usual_one_is_not() -> None:
    long = debriefed(7, "3", "pl-tr-fi-wa900-ho-wa60")
    assert long.points[0].you.startswith("Left it under water for 25 h") and "Without air" not in long.grain
    usual = debriefed(7, "3", "pl-tr-fi-wa450-dr-sl-wa120")
    assert not any("stop" in point.did for point in usual.points)
    assert "under water" not in usual.grain


def test_a_rest_without_suction_is_named_with_its_hours_and_what_the_page_says() -> None:
    found = debriefed(4242, "1a", "bd-wa60-bd-dr-nx-nx")
    first = found.points[0]
    assert first.you == "Suction off for 9.0 h of the rest, from Day 1, 13:25."
    assert "against the page: start the suction as soon as the water is off the screen" in first.did
    assert "cooler" not in first.did and "suction low" in first.good
    assert found.back[0][2] == "bd-wa60-bd-dr"
    soon = debriefed(4242, "1a", "bd-wa60-bd-dr-sl-nx")
    assert not any("Suction off" in point.you for point in soon.points)


def names_differences(found: tuple[Point, ...]) -> None:
    for point in found:
        assert point.you != point.good.partition(" It thought:")[0], point


@pytest.mark.parametrize("moves", [DROWNED, RESTED])
@pytest.mark.parametrize("number", [3, 7, 11])
def test_where_both_let_it_be_they_did_not_part(number: int, moves: str) -> None:
    found = debriefed(number, "3", moves).points
    assert found
    names_differences(found)


@pytest.mark.parametrize("name", [name for name in PLAYERS if name != "good hand"])
def test_a_parting_names_a_difference(name: str) -> None:
    good, steps = good_run(14, "3", "none")
    run, _ = run_on(Run(14, 3, None, "none"), PLAYERS[name])
    found = points_of(run, good, steps)
    assert found
    names_differences(found)


@pytest.mark.parametrize("number", [4242, 3, 7])
def test_known_is_what_had_been_read_when_the_learner_acted(number: int) -> None:
    found = debriefed(number, "1a", "wa210-bd-wa60-bd-dr-sl-wa300")
    point = next(point for point in found.points if "Drain" in point.you)
    assert point.known.count("Basket, drained") == 2
    assert point.before <= point.minute


@pytest.mark.parametrize(
    ("level", "moves", "kind"),
    [
        ("2e", "us-us-us-wa700", "turning"),
        ("3", RESTED, "rest"),
    ],
)
def test_hours_unturned_and_a_long_rest_are_named(level: str, moves: str, kind: str) -> None:
    run, _, _ = run_of(7, level, "none", read_moves(moves)[0])
    assert max(one.hours for one in spans(run, kind)) > KINDS[kind].most_h
    assert kind in {harm.span.kind for harm in harms(run, good_run(7, level, "none")[0])}


def test_the_good_hand_has_no_harm_of_its_own() -> None:
    good, _ = good_run(7, "3", "none")
    assert harms(good, good) == []


def test_the_table_of_a_chart_has_both_courses_and_the_readings() -> None:
    found = debriefed(4242, "1a", "bd~33-wa60-bd-dr-sl-nx")
    debrief = draw_debrief(play(4242, "1a", "none", "bd~33-wa60-bd-dr-sl-nx", debrief=True), "")
    table = next(debrief.iter("table"))
    names = [one.text or "" for one in table.iter("th")]
    assert names == [
        "Since 06:00 of day 1, h", "your batch, as it truly was, %", "the good hand’s, %", "your readings, %",
        "what you expected, %",
    ]  # fmt: skip
    rows = [[cell.text or "" for cell in row] for row in table.iter("tr")][1:]
    both = [row for row in rows if row[1] and row[2]]
    assert len(both) > 5
    assert {row[3] for row in rows if row[3]} == {f"{read.value:.1f}" for read in found.reads if read.code == "bd"}
    assert [float(row[0]) for row in rows] == sorted(float(row[0]) for row in rows)


@pytest.mark.parametrize(
    ("level", "limits"), [("1d", (casting.COUCH_BOTTOM, casting.COUCH_RISE)), ("2d", (casting.COUCH_BOTTOM,))]
)
def test_a_couch_that_was_left_past_its_stops_of_warmth_is_named_with_each(
    level: str, limits: tuple[Limit, ...]
) -> None:
    point = debriefed(14, level, "us-us").points[0]
    assert point.you.startswith("Left the couch past a stop of warmth for ")
    for limit in limits:
        assert f"the stop is over {at_edge(limit, 'stop_high')}" in point.you
    assert point.did.startswith(casting.COUCH_BOTTOM.act) and "Tell the shift lead" in point.did


@pytest.mark.parametrize("number", [4, 29, 48])
def test_a_bottom_past_its_stop_is_named_from_the_hour_that_the_learner_came_and_not_where_it_was_turned(
    number: int,
) -> None:
    left = debriefed(number, "1e", "by-us")
    assert left.points[0].you.startswith("Left the piece past a stop of warmth for ")
    assert f"the stop is over {at_edge(floor_germination.BOTTOM, 'stop_high')}" in left.points[0].you
    began = run_of(number, "1e", "none", [])[0].begins
    assert f"from {clock(began)}." in left.points[0].you and "Bottom" in left.points[0].known
    assert any("unturned" in point.you for point in left.points)
    assert len(set(left.back)) == len(left.back)
    good, _ = good_run(number, "1e", "none")
    as_good = debriefed(number, "1e", play(number, "1e", "none", left.good_moves).moves)
    assert good.warmths and not any("warmth" in point.you for point in as_good.points)


def test_a_drum_whose_fan_stands_is_named_past_the_stop_of_its_bed() -> None:
    drum = Setting(vessel="drum")
    good, steps = good_run(7, "3", "none", drum)
    cast = good.last_done("cd")
    assert cast is not None
    begun = [step.move for step, minute in zip(steps, good.taken_at, strict=True) if minute <= cast]
    moves = read_moves("-".join((*begun, "fo-wa900-ho-wa900-ho-wa900-ho-wa900")))[0]
    run, _, _ = run_of(7, "3", "none", moves, drum)
    (hot,) = [harm for harm in harms(run, good) if harm.span.kind == "drum-heat"]
    assert [line.rule for line in hot.stops] == [drum_germination.BED.id]


def test_a_late_drain_is_wetter_like_with_like() -> None:
    late = debriefed(7, "3", "pl-tr-fi-ab-wa450-bd-wr-dr-sl-wa470-wa60")
    point = next(point for point in late.points if "14:00" in point.did)
    assert "points wetter" in point.did
    hours = dict(zip(late.truth.hours, late.truth.moisture, strict=True))
    run, _, _ = run_of(7, "3", "none", read_moves("pl-tr-fi-ab-wa450-bd-wr-dr-sl-wa470-wa60")[0])
    drained = run.last_done("dr")
    assert drained is not None
    before, after = (hours[float(hour)] for hour in (drained // 60, drained // 60 + 1))
    assert 0.0 <= after - before < 0.5, "grain does not drink two points at a drain"


def test_what_tempts_and_is_not_answered_is_no_slower_way_taken() -> None:
    standing = debriefed(5, "2b", "pr-wr-us").people
    assert "not answered yet" in standing and "slower way" not in standing
    assert "slower way" in debriefed(5, "2b", "pr-wr-us-xo").people
