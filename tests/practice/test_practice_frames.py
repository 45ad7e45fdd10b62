"""What the pages of the practice batch are built with: frames, and runs that are played at build."""

import json
import re

import pytest

from calculators.page import respond
from calculators.practice import play
from calculators.practice.cli import lines_of
from calculators.practice.frames import embed
from calculators.practice.pieces import LEVELS, PIECES
from calculators.practice.scenes import _DRAWINGS
from calculators.practice.tempts import TEMPTS, brought_in
from site_src.questions import cases
from site_src.settings import ROOT

OF_A_BATCH = re.compile(r"[Aa] piece[,. ]+(?:of one|takes|with prompts|alone|answer)|\bpieces\b|piece is over")


def test_a_run_that_ends_otherwise_than_its_page_says_stops_the_build() -> None:
    assert "You leaned below the rim" in embed("run number=5 level=2b faults=none ends=never moves=pr-wr-us-xx")
    with pytest.raises(ValueError, match="ends 'never', not 'piece'"):
        embed("run number=5 level=2b faults=none ends=piece moves=pr-wr-us-xx")
    with pytest.raises(ValueError, match="none of learner, trainer"):
        embed("lerner")


def test_a_written_run_has_a_row_for_each_move_and_opens_where_it_ended() -> None:
    html = embed("run number=3 level=2e faults=none ends=piece moves=by~18_2-wr-nx-by~20_2-wr-tu-wr-us")
    assert html.count("<tr>") == 1 + 8 + 1
    link = re.search(r'href="\.\./practice-batch/\?([^"]+)"', html)
    assert link and link[1].endswith("moves=by~18_2-wr-nx-by~20_2-wr-tu-wr-us")
    assert "expecting 18 °C" in html


def test_a_part_of_a_batch_is_not_called_by_the_trade_s_word_for_a_batch_on_a_floor() -> None:
    shown = [embed(frame) for frame in ("learner", "trainer", "blank-book")]
    over = play(3, "2a", "none", "us-us-us")
    assert over.scene.ended == "piece"
    shown += [over.scene.see, *LEVELS]
    for name in ("practice-batch", "practice-batch-runs", "practice-batch-trainer", "questions-practice-batch"):
        shown.append((ROOT / "docs" / "training" / f"{name}.md").read_text("utf-8"))
    for text in shown:
        assert not OF_A_BATCH.search(text), text


def test_what_it_is_is_said_in_the_same_words_in_a_page_on_a_command_line_and_while_a_page_waits() -> None:
    said = "A teaching model. Invented barley; no reading here is of a real batch."
    assert lines_of(play(3, "2a", "none", ""))[0] == said
    assert f'data-model="{said}"' in embed("learner") and f">{said}<" in embed("learner")
    assert f">{said}<" in embed("trainer")


@pytest.mark.parametrize("frame", ["learner", "trainer"])
def test_each_frame_says_that_it_is_a_teaching_model_and_labels_what_is_typed(frame: str) -> None:
    html = embed(frame)
    assert "A teaching model" in html
    labelled = set(re.findall(r'for="([^"]+)"', html))
    for box in re.findall(r"<(?:input|select) [^>]*>", html):
        identity = re.search(r'id="([^"]+)"', box)
        assert (identity and identity[1] in labelled) or 'type="checkbox"' in box, box


def test_what_a_trainer_brings_in_can_come_there_and_breaks_what_goes_on() -> None:
    opened = play(3, "2a", "none", "")
    after = play(3, "2a", "none", "bi")
    assert {offer.code for offer in opened.scene.offers} != {offer.code for offer in after.scene.offers}
    assert {offer.code for offer in after.scene.offers} == {"xo", "xx"}
    assert after.scene.minute == opened.scene.minute
    assert play(3, "2a", "none", "bi-bi").left_out == ("bi",)
    assert play(3, "3", "none", "pl-ut675-ut2400-ut659").left_out == ("ut675", "ut2400"), "no such times"
    assert play(3, "3", "none", "bi").left_out == ("bi",), "the steep is dry: nothing tempts there"
    all_of_the_floor = {one.name for one in TEMPTS if one.needs == "floor"}
    assert brought_in(3, 5, "floor", set()) in all_of_the_floor
    assert brought_in(3, 5, "floor", all_of_the_floor) == ""


def test_the_page_holds_the_drawing_of_every_place() -> None:
    page = (ROOT / "docs" / "training" / "practice-batch.md").read_text("utf-8")
    for name in set(_DRAWINGS.values()):
        assert f'data-drawing="{name}"' in page and f'"drawings/{name}.html"' in page
        assert (ROOT / "docs" / "_includes" / "drawings" / f"{name}.html").is_file()


def test_each_piece_has_its_two_cases() -> None:
    asked = {case.id for case in cases("practice-batch")}
    assert asked == {f"practice-{piece.letter}{count}" for piece in PIECES for count in (1, 2)}
    played = json.loads(respond(json.dumps({"practice": {"number": 3, "level": "2a", "moves": "st"}, "root": ""})))
    assert "questions-practice-batch" not in played["places"]["debrief"], "it was stopped, and not run"
    moves = "bd~33-dr-sl-us"
    played = json.loads(respond(json.dumps({"practice": {"number": 3, "level": "2a", "moves": moves}, "root": ""})))
    for count in (1, 2):
        assert f"training/questions-practice-batch/#case-practice-a{count}" in played["places"]["debrief"]


def test_who_loads_a_piece_is_asked_its_cases_too() -> None:
    asked = {"number": 7, "level": "2f", "faults": "none", "moves": "ck-us-us-ld"}
    played = json.loads(respond(json.dumps({"practice": asked, "root": ""})))
    assert played["ended"] == "kiln" and "#case-practice-f2" in played["places"]["debrief"]


def test_the_key_of_a_run_has_its_faults_and_what_the_good_hand_did() -> None:
    asked = {"number": 12, "level": "4", "faults": "ring", "moves": "", "key": True, "setting": "drum"}
    key = json.loads(respond(json.dumps({"practice": asked, "root": ""})))["places"]["key"]
    assert "The air ring was half blocked" in key and "Cast drained to the drum" in key and "Hand over: " in key
