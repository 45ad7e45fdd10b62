"""Questions of judgement: whole, traced to the line that teaches them, usable without scripts."""

from __future__ import annotations

import html
import re
from itertools import pairwise
from pathlib import Path

import pytest

from calculators.exercises import EXERCISES
from site_src import questions
from site_src.questions import asked, cases, chapters, questions_html, where
from site_src.training_results import known_results

CASES = [case for chapter in chapters() for case in cases(chapter)]
DOCS = questions.DOCS
ONE = """
[[question]]
id = "one"
case = "A case."
page = "safety/index"
phrase = "You may stop any job."
choice = [
  { says = "Yes", why = "Because.", right = true },
  { says = "No", why = "Because." },
]
"""


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_the_phrase_that_teaches_it_stands_on_its_page(case):
    for one in asked(case):
        assert where(one) is not None, f"{one.page} no longer says: {one.phrase}"


def test_there_are_a_hundred_and_fifty_and_each_chapter_has_a_page():
    assert len(CASES) >= 150
    training = DOCS / "training"
    for chapter in chapters():
        assert f"```questions\n{chapter}\n```" in (training / f"questions-{chapter}.md").read_text("utf-8")
        assert f"](questions-{chapter}.md): {len(cases(chapter))} cases" in (training / "index.md").read_text("utf-8")


def test_names_are_used_once_and_are_not_those_of_exercises():
    names = [case.id for case in CASES] + list(EXERCISES)
    assert len(set(names)) == len(names) == len(known_results())


@pytest.mark.parametrize("chapter", chapters())
def test_drawn_so_that_it_works_without_scripts(chapter):
    text = questions_html(chapter)
    assert "<script" not in text and text.count("<article") == len(cases(chapter))
    named = re.findall(r'\sid="([^"]+)"', text)
    assert len(named) == len(set(named)), "a drawing stands twice on the page"
    shown = " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())
    for case in cases(chapter):
        for choice in (choice for one in asked(case) for choice in one.choices):
            assert choice.says in shown and choice.why in shown
        for cell in (cell for one in asked(case) for row in one.rows for cell in row):
            assert cell in shown


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (", right = true", ""),
        ('why = "Because." }', 'why = "Because.", right = true }'),
        ('why = "Because." }', 'why = " " }'),
        ('phrase = "You may stop any job."', ""),
        ('case = "A case."', 'case = "A case."\ncolour = "red"'),
    ],
)
def test_a_question_that_is_not_whole_is_refused(tmp_path, old, new):
    assert old in ONE
    (tmp_path / "x.toml").write_text(ONE.replace(old, new), "utf-8")
    with pytest.raises(ValueError, match="one"):
        cases("x", tmp_path)


def test_an_unknown_chapter_names_those_there_are(tmp_path):
    (tmp_path / "x.toml").write_text(ONE, "utf-8")
    assert len(cases("x", tmp_path)) == 1
    with pytest.raises(ValueError, match="There are: x"):
        cases("y", tmp_path)


def test_a_phrase_that_is_gone_is_found_out(tmp_path, monkeypatch):
    page = tmp_path / "page.md"
    page.write_text("# Title\n\n## First\n\nStay **behind** the [rail](x.md).\n\n## Second\n\nEnd.\n", "utf-8")
    monkeypatch.setattr(questions, "DOCS", tmp_path)
    case = CASES[0]._replace(page="page", phrase="Stay behind the rail.")
    questions._page.cache_clear()
    try:
        assert where(case) == "first"
        assert where(case._replace(phrase="Stay in front of the rail.")) is None
    finally:
        questions._page.cache_clear()


@pytest.mark.parametrize("path", sorted((DOCS / "training").glob("session-*.md")), ids=lambda path: path.stem)
def test_every_session_has_all_its_parts(path: Path):
    text = path.read_text("utf-8")
    for part in (
        "Aim", "Who, how long, what to bring", "Plan by minutes", "Show", "Ask", "The exercise",
        "The hazard that must come up", "How to tell that it was learned", "Hand-out",
    ):  # fmt: skip
        assert f"## {part}\n" in text
    assert '--8<-- "hazards/' in text and "Listen for:" in text
    plans = [re.findall(r"^\| (\d+)–(\d+) \|", plan, re.MULTILINE) for plan in text.split('<div class="plan"')[1:]]
    for minutes in plans:
        assert minutes[0][0] == "0" and all(a[1] == b[0] for a, b in pairwise(minutes))
    said = re.search(r"^Session \d+ of (\d+)\. (.+)$", text, re.MULTILINE)
    assert said is not None
    assert [minutes[-1][1] for minutes in plans] == re.findall(r"(\d+) minutes", said[2])
    assert int(said[1]) == len(list(path.parent.glob("session-*.md"))) >= 10


