"""The trainer's table: eight people over six weeks, learners' files side by side, bad files, paper and CSV."""

from __future__ import annotations

import csv
import io
import json
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from calculators.daybook.lines.cells import undone
from calculators.exercises import CHAPTERS
from site_src.competence import marks
from site_src.questions import cases
from site_src.training_results import known_results
from tests.browser.conftest import DESK, PHONE, Open, go, without_engine
from tests.browser.faults import faults
from tests.browser.printed import needs_poppler, text_of
from tests.browser.sheets import READY as PATIENCE
from tests.browser.training.signing import (
    EIGHT,
    READY,
    STEEP,
    add_people,
    choose_file,
    form,
    given,
    is_open,
    kept,
    lines,
    said,
    stage,
    tick,
    write,
)

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
CASE = cases("steeping")[0]
EXERCISE = CHAPTERS["steeping"][0]
LEARNER = {"kind": "learner", "schema": 1, "saved": "2026-12-20T10:00", "version": "0.1.0", "results": {}, "lines": []}
RESULT = {"chapter": "steeping", "kind": "exercise", "mark": "missed", "at": "2026-12-01T10:00", "slip": ""}


def learner(name: str, ident: str, **more: Any) -> dict[str, Any]:
    return {**LEARNER, "person": {"id": ident, "name": name}, **more}


def signed(number: int, **more: Any) -> dict[str, str]:
    step = STEEP.steps[0]
    return {
        "id": f"line{number}", "job": STEEP.id, "step": step.id, "title": STEEP.title, "says": step.says,
        "stage": "alone", "on": "2026-11-30", "batches": f"example-0{number}", "why": "", "by": "shift lead",
        "due": "2028-11-30", "number": "", "version": "0.1.0", "mark": "00000000", "at": "2026-11-30T10:00",
        "back": "", "backWhy": "", **more,
    }  # fmt: skip


def to_table(page: Page) -> Locator:
    go(page, f"{page.url.split('training/')[0]}training/trainers-table/")
    table = page.locator("[data-competence=table]")
    expect(table.get_by_role("button", name="Read learners’ files")).to_be_visible()
    return table


def row(table: Locator, person: str, job: str) -> Locator:
    return table.locator("tbody tr").filter(has=table.page.get_by_role("rowheader", name=person, exact=True)).filter(
        has_text=job
    )  # fmt: skip


def opened(open_page: Open, path: str, day: datetime, **options: Any) -> Page:
    def before(page: Page) -> None:
        if not options.get("with_engine"):
            without_engine(page)
        page.clock.set_fixed_time(day)

    more = {key: value for key, value in options.items() if key != "with_engine"}
    return open_page(path, before=before, **{"viewport": DESK, "has_touch": True, **more})


def handed_in(open_page: Open, name: str, folder: Path) -> Path:
    """A learner misses a case, looks at what the file will hold, and saves it."""
    page = opened(open_page, "training/questions-steeping/", datetime(2026, 12, 20, 10, 0))
    wrong = next(choice.says for choice in CASE.choices if not choice.right)
    box = page.locator(f"#case-{CASE.id} .case-answer")
    box.get_by_text(wrong, exact=True).tap()
    box.get_by_role("button", name="This is my answer").tap()
    page.goto(page.url.replace("questions-steeping", "results"))
    place = page.locator("[data-competence=hand-in]")
    expect(place.locator("form")).to_be_visible()
    place.get_by_role("button", name="Show what the file will hold").tap()
    expect(place.locator("[data-error=own]")).to_contain_text("type it")
    expect(place.get_by_role("button", name="Save this file")).to_have_count(0)
    place.get_by_label("Your name").fill(name)
    place.get_by_role("button", name="Show what the file will hold").tap()
    expect(place).to_contain_text(f"your name, {name}")
    expect(place).to_contain_text("1 exercise or case")
    expect(place).to_contain_text("It does not hold what you typed as an answer")
    place.locator("summary").first.tap()
    expect(place.locator("li").first).to_contain_text(known_results()[CASE.id]["said"])
    with page.expect_download() as coming:
        place.get_by_role("button", name="Save this file").tap()
    file = folder / f"{name}.json"
    coming.value.save_as(file)
    return file


def from_home_to(page: Page, session: str, sheet: str) -> None:
    """As a trainer goes: training, the session, and from its standard to the sheet of the job."""
    go(page, f"{page.url.split('training/')[0]}training/")
    page.locator(".md-content").get_by_role("link", name=session).first.tap()
    page.get_by_role("heading", name="How to tell that it was learned").scroll_into_view_if_needed()
    page.locator(".md-content").get_by_role("link", name="sign-off sheet", exact=True).last.tap()
    is_open(page)
    expect(form(page).get_by_label("Job", exact=True)).to_have_value(sheet)


@pytest.mark.further
def test_eight_people_two_sessions_and_after_six_weeks_one_table(open_page: Open, tmp_path: Path) -> None:
    """By taps on a phone; the trainer's table on the desk as well."""
    page = opened(open_page, "training/", datetime(2026, 11, 30, 9, 0), viewport=PHONE)
    from_home_to(page, "Two days of water and air", STEEP.id)
    # Session 5, first meeting: shown to all. A wrong date and no assessor at first.
    add_people(page, *EIGHT)
    for step in STEEP.steps:
        stage(page, step.id, "shown")
    write(page, on="2026-31-11", batches="example-01")
    expect(said(page)).to_contain_text("2 things are still to do")
    write(page, on="2026-11-30", by="the trainer")
    expect(said(page)).to_contain_text(f"5 lines each for {', '.join(EIGHT)}")
    # The meeting of the next day, and the work of the two weeks after it: by the steep, each batch alone.
    for day, batch, who, words in (
        ("2026-12-01", "example-01", EIGHT, ("moves-a-drain", "rest-stop", "count-open", "fan-outlet")),
        ("2026-12-08", "example-02", EIGHT[:5], ("moves-a-drain", "wet-and-rest")),
        ("2026-12-12", "example-03", EIGHT[:5], ("wet-and-rest",)),
    ):
        page.clock.set_fixed_time(datetime.fromisoformat(f"{day}T14:00"))
        page.reload()
        is_open(page)
        tick(page, *who)
        for step_id in words:
            stage(page, step_id, "alone")
        write(page, on=day, batches=batch, by="shift lead, days", assesses="head of malting", number="P-12")
        expect(said(page)).to_contain_text(f"for {', '.join(who)}")
    # One has not reached it; and one line was written for the wrong person.
    tick(page, "Rowan")
    stage(page, "moves-a-drain", "not yet")
    write(page, on="2026-12-12", why="moved it by the clock", next="2027-01-04", batches="example-03")
    tick(page, "Maple")
    stage(page, "wet-and-rest", "alone")
    write(page, on="2026-12-12", batches="example-03", by="shift lead, days")
    entry = page.locator(f"article[data-job={STEEP.id}] tr[data-step=wet-and-rest] [data-stage=alone] .sign-off-entry")
    entry.get_by_role("button", name="Take back").tap()
    page.get_by_label("Why is it taken back?").fill("It was Elm")
    page.get_by_role("button", name="Take it back").tap()
    expect(entry).to_contain_text("It was Elm")
    # Session 10.
    page.clock.set_fixed_time(datetime(2026, 12, 14, 10, 0))
    from_home_to(page, "Is it ready?", READY.id)
    tick(page, *EIGHT)
    for step in READY.steps:
        stage(page, step.id, "shown" if step.later else "with help")
    write(page, on="2026-12-14", batches="example-04", by="the trainer")
    expect(said(page)).to_contain_text("Judge readiness")
    assert sum(len(lines(page, name)) for name in EIGHT) == 8 * 5 + 8 * 4 + 5 * 2 + 5 + 2 + 8 * 5
    # Six weeks after the first meeting.
    before = kept(page)
    page.clock.set_fixed_time(datetime(2027, 1, 11, 9, 0))
    table = to_table(page)
    for name in EIGHT[:5]:
        expect(row(table, name, STEEP.title)).to_contain_text("All 5 steps seen alone, as often as asked.")
        expect(row(table, name, STEEP.title)).to_contain_text("example-01, example-02, example-03")
        expect(row(table, name, STEEP.title)).to_contain_text("the trainer; shift lead, days")
        expect(row(table, name, STEEP.title)).to_contain_text("1 Dec 2028")
    for name in ("Maple", "Oak"):
        expect(row(table, name, STEEP.title)).to_contain_text("3 of 5 steps seen alone, as often as asked.")
    rowan = row(table, "Rowan", STEEP.title)
    expect(rowan).to_contain_text(
        "Not yet: “Moves a drain by the basket and says why.” Because: moved it by the clock."
    )
    expect(rowan).to_contain_text("due since 4 Jan 2027")
    due = table.locator("h3:has-text('Due now') + ul")
    expect(due).to_have_text(
        "Rowan: Steep by the basket, next try due since 4 Jan 2027. Assessed by the trainer; shift lead, days."
    )
    for name in EIGHT:
        expect(row(table, name, READY.title)).to_contain_text(
            "0 of 5 steps seen alone, as often as asked. With help: 4."
        )
    expect(table.get_by_text(f"{', '.join(EIGHT)}: Take in a load, Store and dry")).to_be_visible()
    expect(table).to_contain_text("It gives nobody leave to work alone or to go in anywhere")
    # Beside it what two learners tried on devices of their own.
    ash = handed_in(open_page, "Ash", tmp_path)
    oak = json.loads(ash.read_text("utf-8"))
    oak["person"] = {"id": "oak00001", "name": "Oak"}
    files = [ash, given(tmp_path, "Oak.json", json.dumps(oak))]
    choose_file(page, table.get_by_role("button", name="Read learners’ files"), *files)
    expect(table).to_contain_text("Ash.json is read: Ash, saved Sun 20 Dec 10:00 (2026); 1 result, 0 signed lines.")
    expect(table).to_contain_text("2 are called Ash: this device; Ash.json.")
    for _ in range(2):
        table.get_by_role("button", name="Show them as one person").first.tap()
    expect(table.get_by_role("button", name="Show them as one person")).to_have_count(0)
    missed = table.locator("tr", has_text=known_results()[CASE.id]["said"])
    expect(missed).to_contain_text("2 of 2")
    expect(missed).to_contain_text("Ash, Oak")
    assert kept(page) == before, "nothing of a learner's file goes into what is kept here"
    assert kept(page, "training") is None
    assert faults(page) == []
    page.set_viewport_size(DESK)
    table.get_by_label("Show", exact=True).select_option(label="What is due, now or within 30 days")
    expect(table.locator("tbody tr")).to_have_count(1)
    table.get_by_role("button", name="Forget the files").tap()
    expect(table).to_contain_text("The files are forgotten")


def test_bad_files_are_named_and_the_good_ones_are_read(open_page: Open, tmp_path: Path) -> None:
    page = opened(open_page, "training/trainers-table/", datetime(2027, 1, 11, 9, 0))
    table = to_table(page)
    evil = "<img src=x onerror=alert(1)>"
    markup = learner(evil, "evil0001", lines=[signed(1, why=evil, by=evil, title=evil, says=evil, job="not-known")])
    good = learner(
        "Ash", "ash00001", lines=[signed(1)], results={EXERCISE.id: {**RESULT, "slip": EXERCISE.slips[0].id}}
    )
    odd = learner("Elm", "elm00001", lines=[signed(4), {"id": 4}], results={"x": "y"})
    choose_file(
        page,
        table.get_by_role("button", name="Read learners’ files"),
        given(tmp_path, "ash.json", json.dumps(good)),
        given(tmp_path, "cut.json", json.dumps(good)[:-30]),
        given(tmp_path, "picture.png", b"\x89PNG\r\n\x1a\n" + bytes(range(256))),
        given(tmp_path, "big.json", "x" * 29_000_000),
        given(tmp_path, "deep.json", f'{{"schema": 1, "kind": "learner", "person": {"[" * 100_000}{"]" * 100_000}}}'),
        given(tmp_path, "newer.json", json.dumps({**good, "schema": 7})),
        given(tmp_path, "run.json", json.dumps({"schema": 1, "moves": "wa5", "number": "7"})),
        given(tmp_path, "markup.json", json.dumps(markup)),
        given(tmp_path, "older.json", json.dumps({"schema": 1, "results": {EXERCISE.id: RESULT}})),
        given(tmp_path, "again.json", json.dumps(learner("Ash", "ash00001", lines=[signed(1), signed(2)]))),
        given(tmp_path, "namesake.json", json.dumps(learner("Ash", "ash00002", lines=[signed(3)]))),
        given(tmp_path, "odd.json", json.dumps(odd)),
    )
    for words in (
        "ash.json is read: Ash", "cut.json is left out: it breaks off", "picture.png is left out: it is not a file",
        "big.json is left out: it has 29 MB", "deep.json is left out: there is no name",
        "newer.json is left out: it was saved by a newer edition",
        "run.json is left out: it is a run of the practice batch", f"markup.json is read: {evil}",
        "older.json is read: older", "without a name", "Ash stands in ash.json and again.json",
        "(1 more in again.json)",
        "2 are called Ash: ash.json and again.json; namesake.json", "odd.json is read: Elm",
        "1 result in it not whole and left out; 1 line in it not whole and left out",
        "lines of jobs that this edition does not have",
    ):  # fmt: skip
        expect(table).to_contain_text(words)
    assert page.locator("main img").count() == 0
    # two people of one name stand apart
    first = row(table, "Ash (ash.json, again.json)", STEEP.title)
    expect(row(table, "Ash (namesake.json)", STEEP.title)).to_have_count(1)
    expect(first).to_contain_text("example-01, example-02")
    expect(table).to_contain_text("Look again: the page or the standard has changed since 30 Nov 2026")
    missed = table.locator("tr", has_text=known_results()[EXERCISE.id]["said"])
    expect(missed).to_contain_text(f"1 × {EXERCISE.slips[0].says}")
    expect(missed).to_contain_text("Ash (ash.json, again.json), older")
    assert EXERCISE.id not in table.inner_text() and STEEP.id not in table.inner_text()
    assert kept(page) is None and kept(page, "training") is None
    page.reload()
    expect(table).to_contain_text("Nothing to show yet")


@pytest.mark.python_here(False)
def test_the_table_is_saved_as_csv_without_formulas_and_by_words(open_page: Open, tmp_path: Path) -> None:
    page = opened(open_page, "training/trainers-table/", datetime(2027, 1, 11, 9, 0), with_engine=True)
    table = to_table(page)
    person = learner("=HYPERLINK(1)", "ash00001", lines=[signed(1, why="@SUM(1)", stage="not-yet")])
    person["results"] = {EXERCISE.id: {**RESULT, "slip": EXERCISE.slips[0].id}}
    file = given(tmp_path, "a.json", json.dumps(person))
    choose_file(page, table.get_by_role("button", name="Read learners’ files"), file)
    with page.expect_download(timeout=PATIENCE) as coming:
        table.get_by_role("button", name="Save as CSV").tap()
    coming.value.save_as(tmp_path / "table.csv")
    text = (tmp_path / "table.csv").read_text("utf-8-sig")
    heads, line, result = csv.reader(io.StringIO(text))
    assert heads[4] == "Seen (gives no leave to work alone or to go in)"
    assert line[0] == "'=HYPERLINK(1)" and undone(line[0]) == "=HYPERLINK(1)" and line[7] == "'@SUM(1)"
    assert line[2:7] == [STEEP.title, STEEP.steps[0].says, "not yet", "2026-11-30", "example-01"]
    assert result[2:4] == ["exercise", known_results()[EXERCISE.id]["said"]]
    assert undone(result[7]) == EXERCISE.slips[0].says
    expect(table).to_contain_text("Saved as CSV: 2 lines.")


@needs_poppler
def test_the_table_is_printed_alone(open_page: Open, tmp_path: Path) -> None:
    page = opened(open_page, "training/trainers-table/", datetime(2027, 1, 11, 9, 0))
    table = to_table(page)
    page.evaluate("() => { window.print = () => {}; }")
    line = signed(1, mark=marks()[STEEP.id])
    said_of = {name: json.dumps(learner(name, f"{name.lower()}0001", lines=[line])) for name in EIGHT}
    people = [given(tmp_path, f"{name}.json", text) for name, text in said_of.items()]
    choose_file(page, table.get_by_role("button", name="Read learners’ files"), *people)
    expect(row(table, "Rowan", STEEP.title)).to_be_visible()
    table.get_by_role("button", name="Print the table").tap()
    text, pages = text_of(page, tmp_path)
    assert pages <= 2 and all(name in text for name in EIGHT)
    assert "Who has what" in text and "gives nobody leave" in text and "As it stood on 11 Jan 2027" in text
    assert "Read learners" not in text and "What happens to a file" not in text
