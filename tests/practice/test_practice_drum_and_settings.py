"""A drum, the settings of a run, what a trainer brings in, and what is said on levels 0 and 5."""

from __future__ import annotations

import re
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.living.maths import FLOATS
from calculators.models.living.warmth import air_on, cooling_kw
from calculators.models.steep.ranges import WATER_TEMP_C
from calculators.practice import brought, drum, offers, tempts
from calculators.practice.acts import apply
from calculators.practice.debrief import debrief_of, good_run
from calculators.practice.hidden import SEASON_C, hidden
from calculators.practice.key_html import draw_key
from calculators.practice.looking import OVEN_TAKES_MIN
from calculators.practice.moves import ORDERS, Move, read_moves
from calculators.practice.offers import SAMPLES, offers_of
from calculators.practice.opening import opened
from calculators.practice.pieces import PIECES
from calculators.practice.play import play
from calculators.practice.players import PLAYERS, run_on
from calculators.practice.run import Run, clock
from calculators.practice.setting import DIFFERENCES, TARGETS, WARMEST, Setting, as_text, read_setting
from calculators.practice.turning_points import known_at, points_of
from tests.drawn import WHOLE
from tests.practice.random_play import looked_at

DRUM = read_setting("drum")


def move_of(text: str) -> Move:
    return read_moves(text)[0][0]


def in_the_drum(number: int = 5) -> Run:
    run = opened(number, "2c", "none", DRUM)
    run.piece, run.tempts = None, ()
    run.world.drain()
    assert apply(run, move_of("cd"))
    run.event, run.day_began = "", run.minute
    return run


def codes(run: Run) -> set[str]:
    return {offer.code for offer in offers_of(run)}


@given(text=st.text(max_size=120))
def test_any_text_is_a_setting_and_its_own_text_gives_it_again(text):
    setting = read_setting(text)
    assert read_setting(as_text(setting)) == setting
    assert re.fullmatch("[a-z0-9._]{0,80}", as_text(setting))


@pytest.mark.parametrize(
    ("letter", "name", "span"),
    [("t", "target", TARGETS), ("d", "difference_k", DIFFERENCES), ("w", "warmest_c", WARMEST)],
)
def test_a_house_moves_a_limit_as_far_as_the_table_lets_it_and_no_farther(letter, name, span):
    low, high = span
    usual = getattr(Setting(), name)
    for value, taken in ((low, low), (high, high), (low - 0.1, usual), (high + 0.1, usual)):
        assert getattr(read_setting(f"{letter}{value:.1f}"), name) == pytest.approx(taken)


def test_a_setting_that_means_nothing_is_named_and_one_that_does_is_not():
    assert play(7, "3", "none", "pl", setting="foo_august_t99").left_out == ("foo", "t99")
    assert play(7, "3", "none", "pl", setting="august_drum_t44.5_d3_w16_c12").left_out == ()


def test_a_season_moves_water_and_room_and_nothing_else():
    usual, august = hidden(4, ()), hidden(4, (), "august")
    assert august.water_c > usual.water_c + 3.0 and august.room_c > usual.room_c + 5.0
    assert august._replace(water_c=usual.water_c, room_c=usual.room_c) == usual


def test_the_house_s_limits_reach_prompts_and_the_good_hand():
    said = play(3, "1e", "none", "", setting="d3").scene.prompt
    assert "Turn at 3 K" in said and "Turn at 4 K" in play(3, "1e", "none", "").scene.prompt
    strict, usual = (good_run(3, "2e", "none", read_setting(text))[0] for text in ("d1.5", "d10"))
    turned = [sum(code == "tu" for _, code, _, by in run.done if by == "you") for run in (strict, usual)]
    assert turned[0] > turned[1]
    drier, wetter = (good_run(3, "3", "none", read_setting(text))[0] for text in ("t43", "t46.5"))
    assert drier.cast is not None and wetter.cast is not None
    assert drier.cast.mean(lambda z: z.drained) < wetter.cast.mean(lambda z: z.drained) - 1.5


@pytest.mark.parametrize("order", [o for n in range(4) for o in permutations(tempts.IRON, n)])
def test_a_sample_of_a_drum_only_isolated_locked_and_tried_in_that_order(order):
    run = in_the_drum()
    assert not codes(run) & set(SAMPLES)
    for code in order:
        assert apply(run, move_of(code))
    assert bool(codes(run) & set(SAMPLES)) is (order == tempts.IRON)
    assert ("dt" in codes(run)) is not bool(order), "a drum that somebody has begun to lock does not turn"
    if order:
        assert apply(run, move_of("ko"))
        assert "dt" in codes(run) and not codes(run) & set(SAMPLES)


def test_the_bed_in_a_drum_is_cooled_by_its_air_as_the_heat_balance_has_it():
    """With as much heat made as the air takes, the bed stays; cooling_kw is tested against psychrolib."""
    air = air_on(temp_c=13.0, relative_humidity=drum.HUMID_PERCENT)
    takes, _ = cooling_kw(FLOATS, air, 300.0, 15.5)
    kept = {"dry_kg": 850.0, "water_db": 0.8, "air_c": 13.0, "room_c": 15.5, "hours": 1.0}
    temp, dried = drum.blown(temp_c=15.5, made_kw=takes, flow_m3_h=300.0, **kept)
    assert temp == pytest.approx(15.5, abs=0.02) and dried > 0.0
    warmer, _ = drum.blown(temp_c=15.5, made_kw=takes, flow_m3_h=0.0, **kept)
    capacity = 850.0 * (1.5 + 0.8 * 4.19)  # kJ/K, from memory: dry corns about 1.5 kJ/kg K
    assert warmer - 15.5 == pytest.approx(takes * 3600.0 / capacity, rel=0.1)


@pytest.mark.parametrize("number", [1, 2, 3])
@pytest.mark.parametrize("season", ["", "winter", "august"])
def test_the_good_hand_brings_a_drum_to_the_kiln(number, season):
    run, _ = good_run(number, "4", "", DRUM._replace(season=season))
    assert run.ended == "kiln" and any(code == "cd" for _, code, _, _ in run.done)
    assert not any(code in ("cf", "tu", "br") for _, code, _, _ in run.done)


@pytest.mark.parametrize("name", [one.name for one in tempts.TEMPTS if one.needs == "drum"])
def test_hatch_port_and_a_fan_that_stands_end_the_batch_by_the_quick_way_alone(name):
    for right in (False, True):
        run = in_the_drum()
        run.event = name
        if right and tempts.BY_NAME[name].iron:
            for code in tempts.IRON:
                assert apply(run, move_of(code))
        assert apply(run, move_of("xo" if right else "xx"))
        assert (run.ended == "never") is not right


def test_what_a_trainer_brings_in_is_chosen_by_its_number_where_it_can_come():
    assert len(brought.listed()) == len(brought.BRINGS)
    blocked = brought.BRINGS.index("blocked") + 1
    assert play(3, "2b", "none", f"bi{blocked}").scene.see.endswith(tempts.BY_NAME["blocked"].see)
    jam = brought.BRINGS.index("jam") + 1
    for wrong in (jam, 0, len(brought.BRINGS) + 1, 99):
        assert play(3, "2b", "none", f"bi{wrong}").left_out == (f"bi{wrong}",)


def test_the_good_hand_meets_what_was_brought_in():
    stops = brought.BRINGS.index("suction-stops") + 1
    played = play(3, "2b", "none", f"wa60-bi{stops}-us", debrief=True)
    assert played.debrief is not None and played.debrief.faults == (
        "Brought in by the trainer, Day 2, 23:15: the suction stops, and nobody says so.",
    )
    good, _ = good_run(3, "2b", "none", Setting(), ((opened(3, "2b", "none").minute + 60, float(stops)),))
    assert good.brought and "suction-stops" in good.faults


def test_level_0_says_what_was_done_and_why():
    prompt = play(7, "0a", "", "nx").scene.prompt
    assert prompt.startswith("It did: ") and "It thought: " in prompt


def test_what_was_not_written_when_it_was_handed_over_is_named():
    played = play(3, "5", "none", "pl-tr-fi-wa465-dr-wa470-pr-ho", debrief=True)
    assert played.debrief is not None and "Not in the book when it was handed over" in played.debrief.book
    written = play(3, "5", "none", "pl-tr-fi-wa465-dr-wa470-pr-wr-ho", debrief=True)
    assert written.debrief is not None and "Not in the book" not in written.debrief.book


LEVELS = ["0", "3", "4", "5", *(f"{rank}{piece.letter}" for rank in (0, 1, 2) for piece in PIECES)]


SETTINGS = ["", "august", "winter_drum", "august_drum_t44.5_d3_w16"]
PAIRS = [
    pytest.param(level, setting, marks=[pytest.mark.long] * (at not in (0, 1 + row % 3)))
    for row, level in enumerate(LEVELS)
    for at, setting in enumerate(SETTINGS)
]
"""Each level in the usual setting and in one of the others; the rest in the long run."""


@pytest.mark.further(keep=12)
@pytest.mark.drawn
@pytest.mark.parametrize(("level", "setting"), PAIRS)
def test_each_scene_of_a_run_has_under_60_words_with_its_prompt(level, setting):
    moves: list[str] = []
    _, steps = good_run(12, "2" + level[1:] if level[1:] else "4", "", read_setting(setting))
    steps = steps[:120]
    each = 1 if WHOLE else 3  # of them, and the last: every scene plays all that was before it
    for number, step in enumerate(steps, start=len(level)):
        moves.append("nx" if level[0] == "0" else step.move)
        if number % each and step is not steps[-1]:
            continue
        played = play(12, level, "", "-".join(moves), setting=setting, debrief=False)
        looked_at(played)
        assert len(f"{played.scene.see} {played.scene.prompt}".split()) < 60, played.scene
        if played.scene.ended:
            break


@pytest.mark.parametrize("name", ["by the clock", "turn at every round", "plan only"])
@pytest.mark.parametrize("number", [2, 7, 14])
def test_a_turning_point_names_what_was_known_then_and_nothing_later(name, number):
    good, steps = good_run(number, "4", "")
    run, _ = run_on(Run(number, 4, None, ""), PLAYERS[name])
    run.reads = list(good.reads)  # as if those readings had been taken in this run
    found = points_of(run, good, steps)
    assert 1 <= len(found) <= 3
    for point in found:
        named = [read for read in run.reads if f"{clock(read.minute)}: {read.words}" in point.known]
        assert all(known_at(read) <= point.minute for read in named), point
        earlier = [read for read in run.reads if point.minute - 1440 <= read.minute and known_at(read) <= point.minute]
        assert bool(named) == bool(earlier)
        assert named or point.known == "Nothing had been read in the day before."


def test_an_oven_s_answer_is_known_when_it_comes():
    run, _ = good_run(7, "3", "none")
    oven = next(read for read in run.reads if read.code == "ov")
    assert known_at(oven) == oven.minute + OVEN_TAKES_MIN


@pytest.mark.parametrize(
    ("level", "moves", "said"),
    [
        ("2f", "ck-us-us-ld", "You loaded with"),
        ("2c", "dr-sl-cf30", "You cast with"),
        ("2d", "us-xo-wa1300-br14", "Your couch lay"),
    ],
)
def test_a_load_a_cast_and_a_couch_that_part_are_turning_points(level, moves, said):
    played = play(7, level, "none", moves, debrief=True)
    assert played.left_out == () and played.debrief is not None
    assert any(said in point.did for point in played.debrief.points), played.debrief.points


@pytest.mark.parametrize("piece", PIECES, ids=lambda piece: piece.letter)
def test_who_goes_back_and_does_as_the_good_hand_did_comes_out_as_it_did(piece):
    level = f"2{piece.letter}"
    good, steps = good_run(3, level, "none")
    lazy = play(3, level, "none", "-".join(["us"] * 12), debrief=True)
    assert lazy.debrief is not None
    _, minute, back = lazy.debrief.back[0]
    left = [(at, step.move) for at, step in zip(good.taken_at, steps, strict=True) if at >= minute]
    waits = [f"wa{left[0][0] - minute}"] if left and left[0][0] - minute >= 5 else []
    again = play(
        3, level, "none", "-".join(part for part in (back, *waits, *(move for _, move in left)) if part), debrief=True
    )
    assert again.debrief is not None
    mine, theirs, before = again.debrief.yours, again.debrief.theirs, lazy.debrief.yours
    for name in ("moisture", "chit", "ready", "at_kiln"):
        off = abs(getattr(mine, name) - getattr(theirs, name))
        assert off <= max(abs(getattr(before, name) - getattr(theirs, name)), 1.0), name
    assert len(again.debrief.points) <= len(lazy.debrief.points)


def test_a_hand_over_offers_what_can_be_told_where_the_batch_is():
    offered = {}
    for moves in ("pl-tr-fi", "pl-tr-fi-wa465-dr"):
        scene = play(3, "3", "none", f"{moves}-us-us-us").scene
        offered[moves] = next(one for one in scene.offers if one.code == "ho").orders
    assert "dr" in offered["pl-tr-fi"] and "tu" not in offered["pl-tr-fi"]
    assert offered["pl-tr-fi-wa465-dr"][0] == "we"
    assert {code for orders in offers._ORDERS.values() for code in orders} <= set(ORDERS)


WATERED = [*((season, 0.0) for season in SEASON_C), *(("", c) for c in (8.0, 11.5, 14.0, 16.0, 18.0)), ("winter", 18.0)]


@pytest.mark.further(keep=2)
@pytest.mark.parametrize(("season", "water_c"), WATERED)
@pytest.mark.parametrize("number", [1, 7, 42])
def test_water_that_came_too_warm_is_warmer_than_planned_in_every_setting(number, season, water_c):
    planned = water_c or SEASON_C[season][0]
    came = hidden(number, ("warm-water",), season, water_c).water_c
    assert planned + 4.0 <= came <= WATER_TEMP_C.high
    assert came > hidden(number, (), season, water_c).water_c + 3.0, "no draw without the fault comes near it"
    run = Run(number, 4, None, "warm-water", Setting(season=season, water_c=water_c))
    said = f"The water came at {came:g} °C, not at {planned:g}."
    assert debrief_of(run, "4", "warm-water").faults == (said,)
    assert said in "".join(draw_key(number, "4", "warm-water", run.setting).itertext())


def test_the_good_hand_brings_the_warmest_water_to_the_kiln():
    run, _ = good_run(7, "4", "warm-water", read_setting("august_c18"))
    assert run.ended == "kiln"
