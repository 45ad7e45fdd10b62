"""Any list of moves ends in a scene; what is read leaves no trace; what tempts ends the batch."""

from __future__ import annotations

import re
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.practice import faults, tempts
from calculators.practice.acts import apply
from calculators.practice.kinds import Line
from calculators.practice.looking import MINUTES
from calculators.practice.moves import MOST_CHARACTERS, MOST_MOVES, Move, read_moves
from calculators.practice.opening import opened
from calculators.practice.pieces import PIECES
from calculators.practice.play import _KEPT, play, run_of
from calculators.practice.players import PLAYERS, run_on
from calculators.practice.run import Run
from tests.drawn import drawn
from tests.practice.random_play import looked_at, short_run


def ran(number: int, level: str, wrong: str, moves: str) -> Run:
    run, _taken, left = run_of(number, level, wrong, read_moves(moves)[0])
    assert not left, left
    return run


def move_of(text: str) -> Move:
    return read_moves(text)[0][0]


def truth(run: Run) -> list[object]:
    seen = run.world.seen_at(run.minute)
    return [[z.shells, z.layers, z.film, z.chit_h, z.growth_h, z.dry, z.water] for z in seen.zones]


@pytest.mark.drawn
@pytest.mark.parametrize("seed", range(drawn(200)))
def test_random_play_ends_in_scenes(seed):
    short_run(seed, whole_page=seed % 10 == 0)


@settings(max_examples=60, deadline=None)
@given(moves=st.text(max_size=300), level=st.text(max_size=3), wrong=st.text(max_size=12), number=st.integers())
def test_hostile_text_ends_in_a_scene(moves, level, wrong, number):
    looked_at(play(number, level, wrong, moves))


def test_a_run_longer_than_a_link_is_cut_and_says_so():
    played = play(7, "3", "none", "-".join(["lo"] * 3000))
    assert len(played.moves) <= MOST_CHARACTERS and played.left_out
    assert len(read_moves("-".join(["lo"] * 1300))[0]) == MOST_MOVES


SCRIPT = ["pl", "tr", "fi", 400, "dr", "sl", 420, "we", 90]
READ_WET = ["bd", "wt", "sm", "lo", "as", "bp", "ch"]
READ_DRY = ["pr", "bd", "sm", "lo", "as", "ch"]


@settings(max_examples=30, deadline=None)
@given(number=st.integers(1, 9999), data=st.data())
def test_the_same_number_with_other_readings_between_gives_the_same_batch(number, data):
    plain, read = [], []
    for place, step in enumerate(SCRIPT):
        if isinstance(step, str):
            plain.append(step)
            read.append(step)
            continue
        plain.append(f"wa{step}")
        left = step
        for _ in range(data.draw(st.integers(0, 4))):
            code = data.draw(st.sampled_from(READ_DRY if place == 6 else READ_WET))
            wait = data.draw(st.integers(5, 60))
            if left < MINUTES[code] + wait + 5:
                break
            read += [code, f"wa{wait}"]
            left -= MINUTES[code] + wait
        read.append(f"wa{left}")
    one, two = (opened(number, "3", "none") for _ in range(2))
    for run, moves in ((one, plain), (two, read)):
        run.tempts = ()  # what tempts breaks a wait, wherever it stands
        assert all(apply(run, move) for move in read_moves("-".join(moves))[0])
    assert one.minute == two.minute
    assert truth(one) == truth(two)
    for run in (one, two):
        apply(run, move_of("bd"))
    assert one.reads[-1] == two.reads[-1]


def test_the_same_run_is_the_same_whether_played_at_once_or_move_by_move():
    moves = "pl-tr-fi-wa450-bd-dr-sl-wa400-pr-ho_wea1_tua3-bd-dr-sf-wa600"
    texts = moves.split("-")
    step_by_step = [play(31, "4", "", "-".join(texts[: n + 1])) for n in range(len(texts))][-1]
    _KEPT.clear()
    assert play(31, "4", "", moves) == step_by_step


@pytest.mark.parametrize("name", tempts.BY_NAME)
def test_the_quick_way_ends_the_batch_and_the_right_way_goes_on(name):
    tempt = tempts.BY_NAME[name]
    for right in (False, True):
        run = opened(5, "2e" if tempt.needs == "floor" else "2b", "none")
        run.event = name
        if right and tempt.iron:
            for code in ("ki", "kl", "kt"):
                assert apply(run, move_of(code))
        assert apply(run, move_of("xo" if right else "xx"))
        assert (run.ended == "never") is not right
        if not right:
            assert tempt.rule in run.said and not apply(run, move_of("lo"))


@pytest.mark.parametrize("order", [o for n in range(4) for o in permutations(("ki", "kl", "kt"), n)])
def test_past_a_guard_only_isolated_locked_and_tried_in_that_order(order):
    run = opened(5, "2e", "none")
    run.event = "jam"
    for code in order:
        apply(run, move_of(code))
    apply(run, move_of("xo"))
    assert (run.ended == "") is (order == ("ki", "kl", "kt"))


def test_nothing_tempts_unasked():
    for seed in range(40):
        played = play(seed + 1, "3", "none", "pl-tr-fi-wa60")
        assert not {"xx", "xo"} & {offer.code for offer in played.scene.offers}
        assert play(seed + 1, "3", "none", "pl-tr-fi-wa60-xx").left_out == ("xx",)


def test_a_third_of_all_numbers_have_no_fault():
    none = sum(not faults.drawn_or_read(number, "", 4) for number in range(1, 6001))
    assert 0.31 < none / 6000 < 0.36
    assert not any(faults.drawn_or_read(number, "", 3) for number in range(1, 200))


@given(number=st.integers(1, 999_999), names=st.sets(st.sampled_from(faults.NAMES)))
def test_the_code_of_faults_reads_back_and_does_not_name_them(number, names):
    code = faults.code_of(number, tuple(names))
    assert set(faults.drawn_or_read(number, code, 4)) == names
    assert re.fullmatch("[a-z0-9]{3}", code) and code not in faults.NAMES


def test_the_code_of_the_same_fault_differs_from_number_to_number():
    assert len({faults.code_of(number, ("ring",)) for number in range(1, 60)}) > 30


EVENING = "pl-tr-fi-wa465-dr-sl-wa470"


def test_the_next_shift_does_what_the_hand_over_says_and_no_more():
    silent = ran(3, "3", "none", f"{EVENING}-we-ho")
    told = ran(3, "3", "none", f"{EVENING}-we-ho_dra6_sla6.2")
    by = [(code, who) for _, code, _, who in silent.done if who == "next shift"]
    assert by == [] and silent.world.where == "water"
    done = [(code, who) for _, code, _, who in told.done if who == "next shift"]
    assert done == [("dr", "next shift"), ("sl", "next shift")] and told.world.where == "rest"
    assert told.minute == silent.minute == 1440
    assert any(line.by == "next shift" for line in told.book)


def test_the_end_of_the_shift_is_never_slept_through():
    run = ran(3, "3", "none", "pl-tr-fi-wa1440")
    assert run.event == "shift" and run.minute < 1000


def test_a_turning_that_was_missed_is_missed_once():
    moves = read_moves("ho_tua1_tua2")[0]
    run = opened(8, "2e", "missed-turning")
    run.piece = None
    assert run.world.where == "floor"
    run.event = "shift"
    apply(run, moves[0])
    assert sum(code == "tu" and who == "next shift" for _, code, _, who in run.done) == 1


@pytest.mark.parametrize("piece", PIECES, ids=lambda piece: piece.letter)
def test_each_piece_opens_whole_and_can_be_played_to_its_end(piece):
    for number in (1, 2, 3, 4):
        run = opened(number, f"2{piece.letter}", "none")
        assert not run.left and not run.ended and run.minute == run.begins > 300
        _, wanted = run, [move.code for move in read_moves(piece.opening)[0]]
        assert [code for _, code, _, _ in run.done] == [code for code in wanted if code not in ("wa", "ut")]
        run_on(run, PLAYERS["good hand"])
        assert run.ended in ("piece", "kiln"), run.ended


def test_the_lines_are_no_entries_of_the_day_book():
    from calculators.daybook.lines.entry import Entry

    played = play(3, "3", "none", f"{EVENING}-wr")
    assert played.book and all(type(line) is Line for line in played.book)
    assert not issubclass(Line, Entry) and not hasattr(played.book[0], "kind")
