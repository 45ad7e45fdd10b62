"""Lifting index: refusals, edges, what helps, and that nothing under 1 is promised."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.declare import Choice
from calculators.models.lifting import guideline_filter
from calculators.page import embed
from calculators.sheets import find_sheet
from tests.sheets.ask import ask, notes, values, wrong

EASY = {
    "load_kg": 5, "hands_forward_cm": 25, "lift_from_cm": 75, "lift_to_cm": 80, "twist_degrees": 0,
    "lifts_a_minute": 0.2, "hours": 1, "grip": "good",
}  # fmt: skip

TASK = find_sheet("lifting-index").question("task")
assert isinstance(TASK, Choice)
TASKS = [option.word for option in TASK.options]


@pytest.mark.parametrize("task", [task for task in TASKS if task != "plain"])
def test_what_the_equation_does_not_cover_is_refused_and_led_on_whatever_else_is_blank(task):
    for case in (EASY, dict.fromkeys(EASY, "")):
        told = ask("lifting-index", **case, task=task)
        assert told["answers"] == {}
        refused = told["refused"]
        assert "does not cover" in refused or "outside that" in refused or "no carrying" in refused
        assert "page:safety/manual-handling" in refused


@pytest.mark.parametrize(("task", "heading"), [("carry", "## Carry"), ("one-hand", "## With one hand")])
def test_carrying_and_one_hand_are_led_to_what_to_do(task, heading):
    anchor = heading.removeprefix("## ").lower().replace(" ", "-")
    assert f"[[page:safety/manual-handling#{anchor}|" in ask("lifting-index", **EASY, task=task)["refused"]
    page = (Path(__file__).parents[2] / "docs" / "safety" / "manual-handling.md").read_text("utf-8")
    steps = page.split(f"{heading}\n", 1)[1].split("\n## ", 1)[0]
    assert len(re.findall(r"^\d\. \*\*", steps, re.MULTILINE)) >= 5, "it says what to do, step by step"


def test_all_the_refused_kinds_are_there():
    assert {"shovel", "barrow", "one-hand", "part-filled-sack", "wet-floor", "hot-or-cold"} <= set(TASKS)


def test_under_one_is_no_promise():
    text = notes("lifting-index", **EASY)
    assert values("lifting-index", **EASY)["lifting_index"] < 1
    assert "caution: An index under 1 is no promise" in text


@pytest.mark.parametrize("sheet_id", ["lifting-index", "shovel-pace"])
def test_it_gives_no_figure_before_it_was_asked_and_none_when_it_is_so(sheet_id):
    (problem,) = wrong(sheet_id, person="")
    assert problem.missing and problem.question == "person"
    for word in ("pregnant", "new mother", "under 18", "hurt or ill"):
        assert word in problem.text
    blank = {question.id: "" for question in find_sheet(sheet_id).questions}
    for case in ({}, blank):
        told = ask(sheet_id, **{**case, "person": "yes"})
        assert told["answers"] == {} and told["tables"] == {}
        assert "assessment of their own" in told["refused"] and "so this sheet gives none" in told["refused"]


def test_a_refusal_over_a_person_comes_before_any_other():
    assert "under 18" in ask("lifting-index", **EASY, task="shovel", person="yes")["refused"]


def test_the_table_keeps_to_one_authority_and_two_people_stand_with_the_other():
    told = ask("lifting-index", **EASY)
    said = " ".join(row[0] for row in told["tables"]["changes"]["rows"])
    assert "HSE" not in said and "people" not in said.lower()
    rwl = told["answers"]["rwl_kg"]["value"]
    assert all(row[1] <= 23 for row in told["tables"]["changes"]["rows"]) and rwl <= 23
    # L23, paragraph 120 (in a copy): two people bear two thirds of what both bear one by one, added up.
    two, one = (told["answers"][name]["value"] for name in ("filter_two_kg", "filter_kg"))
    assert two == pytest.approx(2 / 3 * (one + one))


@pytest.mark.parametrize(
    ("share", "words"),
    [(0.999, "no promise"), (1.001, "Over 1:"), (2.999, "Over 1:"), (3.001, "Over 3:")],
)
def test_both_sides_of_one_and_three(share, words):
    limit = values("lifting-index", **EASY)["rwl_kg"]
    assert words in notes("lifting-index", **{**EASY, "load_kg": limit * share})


@pytest.mark.parametrize(
    ("question", "inside", "outside"),
    [
        ("hands_forward_cm", 63, 63.5),
        ("lift_to_cm", 175, 176),
        ("twist_degrees", 135, 136),
        ("lifts_a_minute", 15, 15.1),
    ],
)
def test_beyond_the_edges_nothing_is_left_and_nothing_is_divided_by_it(question, inside, outside):
    assert values("lifting-index", **{**EASY, question: inside})["rwl_kg"] > 0
    found = values("lifting-index", **{**EASY, question: outside})
    assert found["rwl_kg"] == 0 and "lifting_index" not in found
    assert "nothing should be lifted like this" in notes("lifting-index", **{**EASY, question: outside})


def test_v_75_picks_the_column():
    often = {**EASY, "lifts_a_minute": 13, "lift_to_cm": 110}
    assert values("lifting-index", **{**often, "lift_from_cm": 74.9})["rwl_kg"] == 0
    assert values("lifting-index", **{**often, "lift_from_cm": 75})["rwl_kg"] > 0


@pytest.mark.parametrize(("hours", "fm"), [(1, 0.94), (1.01, 0.88), (2, 0.88), (2.01, 0.75), (8, 0.75)])
def test_hours_pick_the_class(hours, fm):
    found = values("lifting-index", **{**EASY, "lifts_a_minute": 1, "hours": hours, "lift_to_cm": 75})
    assert found["rwl_kg"] == pytest.approx(23 * fm)


def test_over_eight_hours_is_not_answered():
    assert "0.02 to 8" in wrong("lifting-index", **{**EASY, "hours": 8.1})[0].text


@pytest.mark.parametrize(
    ("change", "helps"),
    [
        ({"hands_forward_cm": 60}, "nearer"),
        ({"lift_from_cm": 0, "lift_to_cm": 75}, "higher"),
        ({}, "lower"),
        ({"twist_degrees": 130}, "straight"),
        ({"lifts_a_minute": 12, "hours": 1}, "fewer"),
        ({"hours": 8, "lifts_a_minute": 8}, "shorter"),
        ({"twist_degrees": 180, "hands_forward_cm": 100}, "none"),
    ],
)
def test_what_helps_most(change, helps):
    assert values("lifting-index", **{**EASY, **change})["helps_most"] == helps


def test_the_filter_has_its_reductions_for_pace_and_twist():
    plain = values("lifting-index", **EASY, who="man")["filter_kg"]
    assert plain == 20  # the hands come within 5 cm of the shin-to-knuckles zone
    assert values("lifting-index", **{**EASY, "lifts_a_minute": 1}, who="man")["filter_kg"] == pytest.approx(14)
    twisted = values("lifting-index", **{**EASY, "lifts_a_minute": 1, "twist_degrees": 60}, who="man")
    assert twisted["filter_kg"] == pytest.approx(20 * 0.7 * 0.9)
    assert values("lifting-index", **EASY)["filter_kg"] == 13  # the lower weights unless said


@pytest.mark.parametrize(("kg", "finding"), [(13, "not-over"), (13.01, "over")])
def test_against_the_filter_from_both_sides(kg, finding):
    assert values("lifting-index", **{**EASY, "load_kg": kg})["filter_finding"] == finding


@pytest.mark.parametrize(("forward", "kg"), [(29.9, 7.0), (30, 3.5), (35, 3.5), (35.1, 3.5), (40, 3.5)])
def test_near_the_edge_of_close_in_the_smaller_figure_counts(forward, kg):
    found = values("lifting-index", who="man", load_kg=7, hands_forward_cm=forward)
    assert found["filter_kg"] == pytest.approx(kg)
    assert found["filter_finding"] == ("over" if kg < 7 else "not-over")


def test_both_pages_say_where_close_in_ends_and_the_worked_example_has_its_figures():
    docs = Path(__file__).parents[2] / "docs"
    edge, margin = guideline_filter.ARMS_LENGTH_CM, guideline_filter.ZONE_MARGIN_CM
    for name in ("safety/manual-handling.md", "calculators/lifting-index.md"):
        page = " ".join((docs / name).read_text("utf-8").split())
        assert f"*Close in* ends {edge:g} cm in front" in page
        assert f"Within {margin:g} cm of that edge" in page and f"from {edge - margin:g} cm on" in page
    case = page.split("## Worked example", 1)[1].split("## ", 1)[0]
    found = values("lifting-index")
    assert f"stops at {found['filter_kg']:.1f} kg" in case and f"stops at {found['filter_two_kg']:.1f} kg" in case


@given(
    st.floats(0, 120), st.floats(0, 200), st.floats(0, 200), st.floats(0, 180), st.floats(0, 20),
    st.floats(0.1, 8), st.sampled_from(["good", "fair", "poor"]), st.sampled_from(["placed", "dropped"]),
)  # fmt: skip
def test_no_change_ever_makes_the_limit_worse_than_it_says(forward, low, high, twist, rate, hours, grip, down):
    lift = {
        "load_kg": 10, "hands_forward_cm": forward, "lift_from_cm": low, "lift_to_cm": high,
        "twist_degrees": twist, "lifts_a_minute": rate, "hours": hours, "grip": grip, "set_down": down,
    }  # fmt: skip
    told = ask("lifting-index", **lift)
    rwl = told["answers"]["rwl_kg"]["value"]
    assert 0 <= rwl <= 23
    changes = told["tables"].get("changes", {"rows": []})["rows"]
    assert all(row[1] > rwl for row in changes)  # what changes nothing is no change
    assert bool(changes) or told["answers"]["helps_most"]["value"] == "none"
    if rwl > 0:
        assert told["answers"]["lifting_index"]["value"] == pytest.approx(10 / rwl)


def test_what_must_be_asked_stands_in_view():
    form = embed("lifting-index", {}, "x").split('class="more-questions"')[0]
    assert 'data-question="task"' in form and 'data-question="person"' in form
    assert 'data-question="set_down"' not in form


def test_an_hour_is_not_offered_to_who_lifts_an_hour():
    def offered(hours):
        return [row[0] for row in ask("lifting-index", **{**EASY, "hours": hours})["tables"]["changes"]["rows"]]

    assert not any(row.startswith("Shorter") for row in offered("1"))
    assert any(row.startswith("Shorter") for row in offered("4"))
