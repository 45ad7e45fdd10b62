"""The page: form once, results into named places, and nothing a reader types becomes markup."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators import page, sheets
from tests.demo import RIGHT, SHEET


@pytest.fixture(autouse=True)
def _demo_is_a_sheet(monkeypatch):
    monkeypatch.setattr(page, "find_sheet", lambda name: SHEET)


class Reader(HTMLParser):
    """Collects tags and text, and fails on tags that are not closed in order."""

    VOID = frozenset({"input", "br", "hr", "img", "meta", "link"})

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self.open: list[str] = []
        self.feed(html)
        assert self.open == []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.words.append(data)


def ask(**changed):
    request = {
        "sheet": "demo", "prefix": "demo", "root": "../../", "questions": {**RIGHT, **changed},
    }  # fmt: skip
    return json.loads(page.respond(json.dumps(request)))


def embedded() -> str:
    return page.embed("demo", {}, "demo-2")


def test_the_form_is_blank_but_for_defaults():
    inputs = [attrs for tag, attrs in Reader(embedded()).tags if tag == "input"]
    values = {a.get("name"): a.get("value") for a in inputs if a.get("type") == "text" and a.get("name")}
    assert values == {
        "temp_c": "", "turns": "2", "start": "", "remark": "", "bed_kg": "", "barley_kg": "",
    }  # fmt: skip
    assert not [a for a in inputs if a.get("type") == "number" or "placeholder" in a]


def test_every_box_has_a_label_and_a_place_for_its_error():
    tags = Reader(embedded()).tags
    ids = {a["id"] for _, a in tags if "id" in a}
    labelled = {a["for"] for tag, a in tags if tag == "label"}
    for tag, attrs in tags:
        if tag in ("input", "select"):
            assert attrs.get("id") in labelled or attrs.get("aria-label")
        for name in (attrs.get("aria-describedby") or "").split():
            assert name in ids
    assert len(ids) == len([a for _, a in tags if "id" in a]), "an id stands twice"
    assert all(str(name).startswith("demo-2") for name in ids)


def test_a_figure_keyboard_only_where_no_minus_is_possible():
    boxes = {a.get("name"): a for tag, a in Reader(embedded()).tags if tag == "input"}
    assert "inputmode" not in boxes["temp_c"] and boxes["turns"]["inputmode"] == "decimal"


def test_the_worked_case_stands_in_the_page():
    words = " ".join(Reader(embedded()).words)
    assert "Example" in words and "150.0" in words and "Turn it" in words
    assert 'href="sheet:demo"' in embedded()


def test_a_page_can_bring_its_own_case_also_by_the_other_alternative():
    assert "300.0" in page.embed("demo", {"bed_kg": "300"}, "demo")
    with pytest.raises(ValueError, match="Bed temperature"):
        page.embed("demo", {"temp_c": "hot"}, "demo")


def test_no_such_sheet_is_a_fault(monkeypatch):
    monkeypatch.setattr(page, "find_sheet", sheets.find_sheet)
    with pytest.raises(ValueError, match="There is no sheet"):
        page.embed("demo", {}, "demo")


def test_an_answer_fills_every_place():
    reply = ask()
    assert reply["state"] == "answered" and reply["errors"] == []
    assert set(reply["places"]) == {
        "heading", "notes", "answers", "remarks", "chart", "working", "data", "tables", "print",
    }  # fmt: skip
    assert 'href="../../calculators/demo/"' in reply["places"]["remarks"]
    assert "Your numbers" in reply["places"]["heading"]
    for html in reply["places"].values():
        Reader(html)


def test_incomplete_is_not_wrong():
    reply = ask(temp_c="", kind="")
    assert reply["state"] == "incomplete" and reply["errors"] == []
    assert reply["status"] == "2 more to fill in: bed temperature, grain."


def test_wrong_says_where():
    reply = ask(stages=[["8", "14"], ["x", ""]], temp_c="")
    assert reply["state"] == "wrong" and reply["places"] == {}
    (error,) = reply["errors"]
    assert (error["question"], error["row"], error["column"]) == ("stages", 2, "hours")


def test_refused_shows_the_reason_and_no_answer():
    reply = ask(kind="oats")
    assert reply["state"] == "refused"
    assert "Oats are not covered" in reply["places"]["notes"] and reply["places"]["answers"] == ""


def test_numbers_still_from_the_example_are_said():
    request = {
        "sheet": "demo", "prefix": "d", "root": "", "questions": RIGHT, "from_example": ["barley_kg"],
    }  # fmt: skip
    heading = json.loads(page.respond(json.dumps(request)))["places"]["heading"]
    assert "Example, changed by you" in heading and "barley weight" in heading


def marks(places):
    """By place, what stands in front of figures, tables and charts to say whose numbers they are."""
    return {name: re.findall(r'class="of-example">([^<]+)<', html) for name, html in places.items()}


def answered(**more):
    request = {"sheet": "demo", "prefix": "d", "root": "", "questions": RIGHT, **more}
    return json.loads(page.respond(json.dumps(request)))["places"]


def test_beside_every_figure_of_an_example_stands_that_it_is_one():
    places = answered(from_example=list(RIGHT), unchanged=True)
    shown = marks(places)
    assert len(shown["answers"]) == places["answers"].count('class="figure"') > 0
    assert len(shown["tables"]) == places["tables"].count("<caption") > 0
    assert len(shown["chart"]) == places["chart"].count("<figcaption") > 0
    assert shown["working"] and shown["remarks"] and shown["data"]
    assert {words for found in shown.values() for words in found} == {"Example"}
    assert "changed by you" not in places["heading"] and "Still" not in places["heading"]
    for place in ("answers", "tables"):
        assert marks({"page": embedded()})["page"].count("Example") >= len(shown[place])


def test_one_number_changed_is_said_beside_every_figure():
    shown = marks(answered(from_example=["barley_kg"]))
    assert {words for found in shown.values() for words in found} == {"Example, changed by you"}
    assert shown["answers"]


def test_own_numbers_are_called_nobody_else_s():
    assert not any(marks(answered()).values())


HOSTILE = [
    "<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "</script>", "&lt;", "';--", "{{7*7}}",
]  # fmt: skip


@pytest.mark.parametrize("text", HOSTILE)
def test_typed_markup_stays_text(text):
    reply = ask(remark=text[:20], start="06:00")
    tags = {tag for html in reply["places"].values() for tag, _ in Reader(html).tags}
    assert not tags & {"script", "img", "iframe", "object"}


@given(st.text(max_size=20))
def test_any_remark_is_shown_as_text(text):
    if any(not c.isprintable() for c in text) or not text.strip():
        return
    reply = ask(remark=text)
    tags = {tag for tag, _ in Reader(reply["places"]["heading"]).tags}
    assert tags <= {"h3", "p", "dl", "div", "dt", "dd"}


def test_the_example_cannot_leave_its_attribute():
    html = page.embed("demo", {"remark": '"></section><b>'}, "demo")
    section = next(attributes for tag, attributes in Reader(html).tags if tag == "section")
    assert json.loads(section["data-example"] or "")["remark"] == '"></section><b>'
