"""The command line keeps its contract: verbs, streams, exit codes."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from calculators import cli
from tests.demo import SHEET

TARGET = ["run", "moisture-target", "barley_kg=5000", "barley_moisture=12", "target_moisture=45"]


def call(capsys, *words: str) -> tuple[int, str, str]:
    code = cli.main(words)
    streams = capsys.readouterr()
    return code, streams.out, streams.err


def test_as_a_program():
    done = subprocess.run(
        [sys.executable, "-m", "calculators", *TARGET, "--json"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0 and done.stderr == ""
    answers = json.loads(done.stdout)["answers"]
    assert answers["target_kg"]["value"] == pytest.approx(5000 * 0.88 * 0.99 / 0.55)


def test_list_names_every_sheet(capsys):
    code, out, _ = call(capsys, "list")
    assert code == 0 and "moisture-target" in out and "sample-basket" in out


def test_help_tells_units_limits_defaults_and_examples(capsys):
    code, out, _ = call(capsys, "run", "moisture-target", "--help")
    assert code == 0
    assert "barley_moisture" in out and "from 5 to 25 %" in out and "1 when nothing is said" in out
    assert "Units understood" in out and "target_kg [kg]" in out


def test_words_for_people(capsys):
    code, out, err = call(capsys, *TARGET)
    assert code == 0 and err == "" and "Weight at target: 7920 kg" in out


def test_wrong_answers_go_to_stderr_one_line_each(capsys):
    code, out, err = call(capsys, "run", "moisture-target", "barley_kg=5,000", "barley_moisture=x")
    assert code == 2 and out == ""
    lines = err.splitlines()
    assert len(lines) == 3 and lines[0].startswith("Barley weight") and lines[2].startswith("Target")


def test_wrong_answers_as_json(capsys):
    code, out, err = call(capsys, "run", "moisture-target", "barley_kg=-1", "--json")
    assert code == 2 and out == ""
    assert [json.loads(line)["question"] for line in err.splitlines()] == [
        "barley_kg", "barley_moisture", "target_moisture",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "words",
    [
        [], ["run"], ["run", "beer"], ["brew"], ["exercise"], ["fit"],
        ["run", "moisture-target", "5000"], ["run", "moisture-target", "barley_kg=1", "barley_kg=2"],
        ["run", "moisture-target", "colour=red"],
    ],
)  # fmt: skip
def test_what_cannot_be_done_ends_with_2(capsys, words):
    code, _, err = call(capsys, *words)
    assert code == 2
    assert err or not words


def test_refusals_end_with_3_and_json_on_stdout(capsys, monkeypatch):
    monkeypatch.setattr(cli, "find_sheet", lambda name: SHEET)
    words = ["run", "demo", "temp_c=16", "kind=oats", "barley_kg=100", "stages=8 14;", "--json"]
    code, out, _ = call(capsys, *words)
    assert code == 3 and json.loads(out)["refused"].startswith("Oats")
    code, out, err = call(capsys, *words[:-1])
    assert code == 3 and err.startswith("Refused: Oats") and "[[" not in err + out


def test_every_kind_prints(capsys, monkeypatch):
    monkeypatch.setattr(cli, "find_sheet", lambda name: SHEET)
    words = ["run", "demo", "temp_c=16", "kind=barley", "barley_kg=100", "stages=8 14; 16"]
    code, out, _ = call(capsys, *words, "start=2026-01-12 06:00")
    assert code == 0
    assert "1 immersion: 8 h 14 °C; 2 air rest: 16 h" in out and "Tue 13 Jan 06:00" in out
    assert call(capsys, "run", "demo", "--help")[0] == 0


def test_options_stand_anywhere_among_the_values(capsys):
    plain = call(capsys, *TARGET, "--json")
    for place in range(2, len(TARGET) + 1):
        assert call(capsys, *TARGET[:place], "--json", *TARGET[place:]) == plain
    assert call(capsys, "run", "--json", *TARGET[1:]) == plain


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["brew"], "There is no verb “brew”. There are: list, run, exercise, fit"),
        (["list", "all"], "“all” means nothing here"),
        (["run", "moisture-target", "--jsn"], "“--jsn” means nothing here"),
        (["run", "moisture-target", "--js"], "“--js” means nothing here"),  # nothing is guessed
        (["exercise", "steeping", "--count", "0"], "--count: type a whole number from 1 to 100."),
        (["exercise", "steeping", "--count"], "--count: type a whole number from 1 to 100."),
        (["exercise", "steeping", "--count", "101"], "from 1 to 100"),
        (["exercise", "steeping", "--seed"], "--seed: type a number or a word after it"),
        (["exercise", "brewing"], "Which chapter? Type one of: intake"),
        (["--colour"], "“--colour” means nothing here"),
    ],
)
def test_a_wrong_word_is_named_with_what_to_type(capsys, words, said):
    code, out, err = call(capsys, *words)
    assert (code, out) == (2, "") and said in err and len(err.splitlines()) == 1


@pytest.mark.parametrize("words", [["brew", "--json"], ["run", "--json"], ["run", "moisture-target", "--x", "--json"]])
def test_a_wrong_word_is_data_too_where_data_was_asked_for(capsys, words):
    code, out, err = call(capsys, *words)
    assert (code, out) == (2, "") and {"question", "text"} == set(json.loads(err))


@pytest.mark.parametrize("words", [["--help"], ["-h"], ["list", "--help"], ["run", "-h"], ["exercise", "--help"]])
def test_help_names_verbs_and_options(capsys, words):
    code, out, err = call(capsys, *words)
    assert code == 0 and err == "" and "python -m calculators" in out
    if words[0].startswith("-"):
        assert all(verb in out for verb in ("list", "run", "exercise", "fit"))


def test_a_paper_of_exercises_has_its_seed_and_count(capsys):
    code, out, err = call(capsys, "exercise", "steeping", "--seed", "7", "--count", "2")
    assert code == 0 and err == "" and "seed 7" in out and "\n2. " in out and "\n3. " not in out
    assert call(capsys, "exercise", "--count", "2", "steeping", "--seed", "7")[1] == out
