"""A batch in a few typed signs: nothing of it is lost, and each slip is found at its group."""

from __future__ import annotations

import json
from datetime import datetime, timedelta
from pathlib import Path
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.daybook.carry.short_code import (
    ALPHABET,
    LINES,
    LONGEST_NAME,
    MOST_UNKNOWN,
    OUTSTANDING,
    STAGES,
    Brief,
    NoCode,
    brief_of,
    code_of,
)
from calculators.daybook.lines.kinds import KIND, LONGEST_BATCH
from calculators.rules.replan.faults import FAULTS, Place
from tests.daybook.book import START, ask, line

ONE = Brief("example-14", "floor", "turned", datetime(2026, 11, 29, 14, 10), ("behind", "untold"), 3)
PLAIN = st.text("abcdefghijklmnopqrstuvwxyz0123456789-_./ ", min_size=1, max_size=LONGEST_NAME)
BRIEFS = st.builds(
    Brief,
    PLAIN | st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=LONGEST_NAME),
    st.sampled_from(STAGES),
    st.sampled_from(LINES),
    st.none()
    | st.datetimes(datetime(2020, 1, 1), datetime(2099, 1, 1)).map(lambda at: at.replace(second=0, microsecond=0)),
    st.sets(st.sampled_from(OUTSTANDING)).map(lambda marks: tuple(one for one in OUTSTANDING if one in marks)),
    st.integers(0, MOST_UNKNOWN),
)


@settings(max_examples=600, deadline=None)
@given(BRIEFS)
def test_what_it_promises_comes_back(brief: Brief) -> None:
    assert brief_of(code_of(brief)) == brief


def test_it_knows_every_word_that_there_is() -> None:
    assert set(LINES) == set(KIND)
    assert set(FAULTS) <= set(OUTSTANDING)
    assert set(get_args(Place)) <= set(STAGES)
    assert LONGEST_NAME >= LONGEST_BATCH
    assert len(ALPHABET) == 29 and not set("OILSZBU") & set(ALPHABET)


def test_a_usual_one_is_short_enough_to_be_typed() -> None:
    groups = code_of(ONE).split()
    assert len(groups) <= 10 and {len(group) for group in groups} == {4}


def test_small_letters_hyphens_and_look_alikes_are_read() -> None:
    code = code_of(ONE)
    assert brief_of(code.lower().replace(" ", "-")) == ONE
    assert brief_of(code.replace(" ", "")) == ONE
    assert brief_of(code.translate(str.maketrans("01258V", "OlzSBu"))) == ONE


def test_each_wrong_sign_is_refused_at_its_group() -> None:
    groups = code_of(ONE).split()
    for number, group in enumerate(groups, 1):
        for place in range(4):
            for sign in ALPHABET:
                if sign == group[place]:
                    continue
                wrong = [*groups]
                wrong[number - 1] = group[:place] + sign + group[place + 1 :]
                with pytest.raises(NoCode, match=f"^Group {number},") as caught:
                    brief_of(" ".join(wrong))
                assert caught.value.group == number


def test_signs_and_groups_changed_about_are_refused_where_it_begins() -> None:
    groups = code_of(ONE).split()
    for number, group in enumerate(groups, 1):
        for place in range(3):
            turned = group[:place] + group[place + 1] + group[place] + group[place + 2 :]
            if turned == group:
                continue
            with pytest.raises(NoCode) as caught:
                brief_of(" ".join([*groups[: number - 1], turned, *groups[number:]]))
            assert caught.value.group == number
    for number in range(len(groups) - 1):
        swapped = [*groups]
        swapped[number], swapped[number + 1] = swapped[number + 1], swapped[number]
        with pytest.raises(NoCode) as caught:
            brief_of(" ".join(swapped))
        assert caught.value.group == number + 1


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "Type the code"),
        (code_of(ONE)[:-1], "it has 3 of its 4 signs"),
        (" ".join(code_of(ONE).split()[:-1]), "a group is missing"),
        (code_of(ONE).replace(code_of(ONE)[1], "?", 1), r"^Group 1, .*: \? stands in no code"),
        ("<script>", "Group 1"),
    ],
    ids=["blank", "cut", "short", "odd", "hostile"],
)
def test_it_says_what_is_wrong(text: str, words: str) -> None:
    with pytest.raises(NoCode, match=words):
        brief_of(text)


@settings(max_examples=300, deadline=None)
@given(BRIEFS, st.data())
def test_a_random_code_of_whole_groups_never_says_something_else(brief: Brief, data: st.DataObject) -> None:
    """Several slips in one group may fit its check; the whole is checked as well."""
    groups = code_of(brief).split()
    at = data.draw(st.integers(0, len(groups) - 1))
    groups[at] = data.draw(st.text(ALPHABET, min_size=4, max_size=4))
    try:
        read = brief_of(" ".join(groups))
    except NoCode:
        return
    assert read == brief


def test_a_batch_off_its_plan_goes_over_with_what_is_late_and_outstanding() -> None:
    lines = [
        line("start", "2026-11-23T16:00", "77", **START),
        line("stage-begun", "2026-11-23T17:00", "77", stage="wet", water_temp_c="14"),
        line("fault", "2026-11-23T23:00", "77", fault="blower", fault_hours="4"),
    ]
    (short,) = ask("codes-give", lines, short=True)["short"]
    reply = ask("code-typed", [], typed=short["code"])
    assert reply["says"] == short["says"] and reply["batch"] == "77" and not reply["known"] and reply["off"]
    words = " ".join(reply["says"])
    for said in (
        "under water",
        "Next line: Stage ended",
        "late",
        "Blower or fan has stopped",
        "nobody is written down as told",
    ):
        assert said in words, words
    assert "2026" in reply["remark"] and "late" not in reply["remark"]  # a line of the book says when, not how late
    assert ask("code-typed", lines, typed=short["code"])["known"]
    assert "short" in ask("codes-give", lines) and not ask("codes-give", lines)["short"]


def test_the_invented_batches_at_work_each_have_one() -> None:
    rows = json.loads((Path(__file__).parents[2] / "docs/assets/demo-running.json").read_text())["entries"]
    now = datetime(2026, 11, 24, 13)
    for row in rows:
        at = now - timedelta(minutes=row.pop("before"))
        row |= {"at": f"{at:%Y-%m-%dT%H:%M}", "written": f"{at:%Y-%m-%dT%H:%M}:00.000Z", "zone": 0}
    found = ask("codes-give", rows, short=True)["short"]
    assert len(found) == 2
    for one in found:
        assert brief_of(one["code"]).batch == one["batch"]


def test_a_wrong_group_is_named_to_the_page() -> None:
    code = code_of(ONE)
    reply = ask("code-typed", [], typed=f"{code[:5]}{'3' if code[5] != '3' else '4'}{code[6:]}")
    assert reply["group"] == 2 and reply["fault"].startswith("Group 2,")
