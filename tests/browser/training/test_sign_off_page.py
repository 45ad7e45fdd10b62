"""The record of competence in the page: written for one or for many, taken back, saved, brought back, printed."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from calculators.competence import JOBS
from tests.browser.conftest import DESK, EMPTY, PHONE, Open, lasting_page
from tests.browser.printed import needs_poppler, text_of
from tests.browser.training.signing import (
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
)  # fmt: skip

pytestmark = [pytest.mark.browser, pytest.mark.further]
TODAY = datetime(2026, 11, 30, 9, 0)
PAGE = "training/sign-off/#steep-by-the-basket"


@pytest.fixture(scope="module")
def one_page(browser: Browser, address: str) -> Iterator[Page]:
    with lasting_page(browser, address, viewport=DESK, has_touch=True) as page:
        page.clock.set_fixed_time(TODAY)
        yield page


@pytest.fixture
def desk(one_page: Page, address: str) -> Page:
    """The page on a device that keeps nothing, loaded anew."""
    one_page.set_viewport_size(DESK)
    one_page.goto(f"{address}offline.json")
    one_page.evaluate(EMPTY)
    one_page.goto(f"{address}{PAGE}")
    is_open(one_page)
    return one_page


def sheet(page: Page, job: str = STEEP.id) -> Any:
    return page.locator(f"article.sign-off[data-job={job}]")


def test_nothing_is_written_until_all_is_told_and_nothing_typed_is_lost(desk: Page) -> None:
    page = desk
    write(page, on="2026-13-01", batches="")
    expect(said(page)).to_contain_text("Nothing was written: 4 things")
    place = form(page)
    expect(place.locator("[data-error=on]")).to_have_text(
        "Seen on: type a day from 1990-01-01 to today, 2026-11-30, written like that."
    )
    for name, words in (("people", "tick at least one"), ("steps", "at least one step"), ("by", "type who saw it")):
        expect(place.locator(f"[data-error={name}]")).to_contain_text(words)
    expect(place.get_by_label("Seen on")).to_be_focused()
    add_people(page, "Ash")
    stage(page, "moves-a-drain", "alone")
    stage(page, "count-open", "not yet")
    write(page, on="2026-12-01", by="ash", next="2026-11-01", due="soon")
    for name, words in (
        ("on", "to today, 2026-11-30"), ("batches", "such as example-01"), ("why", "what was missing"),
        ("by", "nobody assesses themselves"), ("due", "after 2026-12-01, up to 2031-12-01"), ("next", "leave it blank"),
    ):  # fmt: skip
        expect(place.locator(f"[data-error={name}]")).to_contain_text(words)
    assert kept(page)["people"] == [{"id": kept(page)["people"][0]["id"], "name": "Ash", "lines": []}]
    page.reload()  # half written, it is still there
    is_open(page)
    expect(place.get_by_label("Assessed by")).to_have_value("ash")
    expect(place.get_by_label("Next try on")).to_have_value("2026-11-01")
    expect(place.locator("[data-sign=people] input")).to_be_checked()
    write(page, on="2026-11-30", batches="example-01", why="read the worse hundred", by="shift lead, days",
          due="2028-11-30", next="2026-12-07")  # fmt: skip
    expect(said(page)).to_contain_text("Written: 2 lines for Ash. Steep by the basket, seen on Mon 30 Nov 2026")
    first, second = lines(page, "Ash")
    assert (first["stage"], first["due"], first["why"]) == ("alone", "2028-11-30", "")
    assert (second["stage"], second["due"], second["why"]) == ("not-yet", "2026-12-07", "read the worse hundred")
    assert all(re.fullmatch(r"[0-9a-f]{8}", one["mark"]) and one["version"] for one in (first, second))
    expect(sheet(page).locator("[data-sign=due]")).to_have_text("30 Nov 2028")
    expect(sheet(page).locator("[data-stage=not-yet] .sign-off-entry")).to_contain_text("Next try: 7 Dec 2026.")


def test_when_it_is_due_again_follows_the_day_until_somebody_types_it(desk: Page) -> None:
    page = desk
    place = form(page)
    expect(place.locator("[data-field=due]")).to_be_hidden()
    stage(page, "moves-a-drain", "alone")
    expect(place.get_by_label("Due again on")).to_have_value("2028-11-30")
    place.get_by_label("Seen on").fill("2026-11-02")
    expect(place.get_by_label("Due again on")).to_have_value("2028-11-02")
    place.get_by_label("Due again on").fill("2027-05-01")
    place.get_by_label("Seen on").fill("2026-11-03")
    expect(place.get_by_label("Due again on")).to_have_value("2027-05-01")
    place.get_by_label("Job", exact=True).select_option(label="Keep the drum")
    stage(page, "energies", "alone")
    expect(place.get_by_label("Due again on")).to_have_value("2027-11-03")  # a year, with the lock-out


def test_a_line_is_taken_back_with_its_reason_and_stays(desk: Page) -> None:
    desk.set_viewport_size(PHONE)
    page = desk
    add_people(page, "Ash")
    stage(page, "moves-a-drain", "alone")
    write(page, batches="example-01", by="shift lead")
    entry = sheet(page).locator("[data-stage=alone] .sign-off-entry")
    expect(entry).to_contain_text("30 Nov 2026, example-01, seen by shift lead")
    entry.get_by_role("button", name="Take back").tap()
    sheet(page).get_by_role("button", name="Take it back").tap()
    expect(sheet(page)).to_contain_text("The line and the reason both stay")
    sheet(page).get_by_role("button", name="Leave it").tap()
    assert not lines(page, "Ash")[0]["back"]
    entry.get_by_role("button", name="Take back").tap()
    sheet(page).get_by_label("Why is it taken back?").fill("It was Birch")
    sheet(page).get_by_role("button", name="Take it back").tap()
    expect(entry.locator("s")).to_contain_text("example-01")
    expect(entry).to_contain_text("It was Birch")
    (line,) = lines(page, "Ash")
    assert (line["back"], line["backWhy"], line["stage"]) == ("2026-11-30T09:00", "It was Birch", "alone")
    expect(sheet(page).locator("[data-sign=due]")).to_have_text(re.compile("^_+$"))


def test_a_changed_page_is_said_on_the_sheet(desk: Page) -> None:
    page = desk
    add_people(page, "Ash")
    stage(page, "moves-a-drain", "alone")
    write(page, batches="example-01", by="shift lead")
    again = sheet(page).locator("[data-sign=again]")
    expect(again).to_be_hidden()
    page.evaluate(
        "() => { const key = Object.keys(localStorage).find((one) => one.endsWith('/sign-off'));"
        'localStorage.setItem(key, localStorage.getItem(key).replace(/"mark":"[0-9a-f]+"/, \'"mark":"00000000"\')); }'
    )
    page.reload()
    page.get_by_label("Whose record").select_option(label="Ash")
    expect(again).to_contain_text("Look again: what the page or the standard says has changed since Mon 30 Nov 2026")


def test_what_the_house_says_of_a_job_is_typed_once(desk: Page) -> None:
    page = desk
    add_people(page, "Ash", "Birch")
    tick(page, "Ash")
    stage(page, "count-open", "alone")
    write(page, by="shift lead", number="P-12", assesses="head of malting", batches="example-01")
    page.reload()
    is_open(page)
    expect(form(page).get_by_label("House’s number")).to_have_value("P-12")
    expect(sheet(page).locator("[data-sign=assesses]")).to_have_text("head of malting")
    assert lines(page, "Ash")[0]["number"] == "P-12" and lines(page, "Birch") == []


def test_records_are_saved_removed_and_brought_back_whole(desk: Page, tmp_path: Path) -> None:
    page = desk
    add_people(page, "Ash", "Birch")
    stage(page, "count-open", "shown")
    write(page, by="shift lead")
    place = page.locator("[data-competence=person]")
    with page.expect_download() as coming:
        place.get_by_role("button", name="Save all records").tap()
    coming.value.save_as(tmp_path / "all.json")
    before = kept(page)["people"]
    place.get_by_label("Whose record").select_option(label="Ash")
    place.get_by_role("button", name="Remove this person").tap()
    expect(place).to_contain_text("Save the record as a file first")
    place.get_by_role("button", name="press again").tap()
    assert [one["name"] for one in kept(page)["people"]] == ["Birch"]
    bring = place.get_by_role("button", name="Bring back a file")
    choose_file(page, bring, tmp_path / "all.json")
    expect(place).to_contain_text("Brought back: Ash, Birch; 1 line that was not here")
    assert sorted(kept(page)["people"], key=lambda one: one["name"]) == before
    learner = {"kind": "learner", "schema": 1, "person": {"id": "elm00001", "name": "Elm"}, "results": {}, "lines": []}
    for text, words in (
        (json.dumps(learner), "read on the trainer’s table"), ("<b>", "not a file saved here"), ("{", "breaks off"),
        ("x" * 29_000_000, "29 MB"),
    ):  # fmt: skip
        choose_file(page, bring, given(tmp_path, "other.json", text))
        expect(place.locator("[data-sign=said]")).to_contain_text(words)
        expect(place.locator("[data-sign=said]")).to_contain_text("Nothing was changed")
    assert len(kept(page)["people"]) == 2


def test_two_tabs_write_into_one_record(desk: Page) -> None:
    page = desk
    add_people(page, "Ash")
    other = page.context.new_page()
    other.goto(page.url)
    is_open(other)
    expect(form(other).locator("[data-sign=people]")).to_contain_text("Ash")
    stage(page, "count-open", "shown")
    write(page, by="shift lead")
    tick(other, "Ash")
    stage(other, "fan-outlet", "shown")
    write(other, by="trainer")
    expect(said(other)).to_contain_text("Written")
    other.close()
    assert [one["by"] for one in lines(page, "Ash")] == ["shift lead", "trainer"]


FULL = "() => { Storage.prototype.setItem = () => { throw new DOMException('no room', 'QuotaExceededError'); }; }"


def test_where_nothing_can_be_kept_it_is_said_and_the_file_has_it(desk: Page, tmp_path: Path) -> None:
    page = desk
    page.evaluate(FULL)
    add_people(page, "Ash")
    expect(form(page).locator("[data-sign=trouble]")).to_contain_text("no room left")
    stage(page, "count-open", "shown")
    write(page, by="shift lead")
    expect(said(page)).to_contain_text("Held for this visit only")
    with page.expect_download() as coming:
        page.get_by_role("button", name="Save all records").tap()
    coming.value.save_as(tmp_path / "held.json")
    assert json.loads((tmp_path / "held.json").read_text())["people"][0]["lines"][0]["by"] == "shift lead"


def test_a_record_that_cannot_be_read_is_set_aside_and_said(desk: Page) -> None:
    page = desk
    page.evaluate("() => localStorage.setItem(`${location.pathname.split('training/')[0]}sign-off`, '{oops')")
    page.reload()
    is_open(page)
    expect(form(page).locator("[data-sign=trouble]")).to_contain_text("set aside, not removed")
    assert page.evaluate("() => Object.values(localStorage).includes('{oops')")


def test_a_name_is_text_and_one_name_is_one_person(desk: Page) -> None:
    page = desk
    add_people(page, "<img src=x onerror=alert(1)>", "Ash", "ash")
    expect(form(page).locator("[data-error=new]")).to_contain_text("ash is there already")
    assert page.locator("main img").count() == 0
    expect(form(page).locator("[data-sign=people] label")).to_have_count(2)


def heavy(page: Page) -> None:
    """Every box of every sheet with six lines as long as may be."""
    page.evaluate(
        """() => {
          const jobs = JSON.parse(document.querySelector('[data-competence=write]').dataset.jobs);
          let number = 0;
          const lines = Object.entries(jobs).flatMap(([job, { title, steps, mark }]) => steps.flatMap(({ id, says }) =>
            ['shown', 'helped', 'alone', 'not-yet'].flatMap((stage) => [1, 2, 3, 4, 5, 6].map((day) => ({
              id: `line${number += 1}`, job, step: id, title, says, stage, on: `2026-11-0${day}`,
              batches: 'example-01, example-02, example-03',
              why: stage === 'not-yet' ? 'lifted too soon. '.repeat(17) : '',
              by: 'the lead of the shift on days', due: '', number: 'P-12', version: '0.1.0', mark: '00000000',
              at: '2026-11-29T10:00', back: '', backWhy: '' })))));
          localStorage.setItem(`${location.pathname.split('training/')[0]}sign-off`,
            JSON.stringify({ schema: 1, people: [{ id: 'ash00001', name: 'Ash', lines }], house: {}, own: {} }));
        }"""
    )
    page.reload()
    is_open(page)
    page.get_by_label("Whose record").select_option(label="Ash")


@needs_poppler
@pytest.mark.parametrize("filled", [False, True], ids=["blank", "as full as may be"])
def test_every_job_ends_on_a_page_of_its_own(desk: Page, tmp_path: Path, filled: bool) -> None:
    page = desk
    if filled:
        heavy(page)
    page.evaluate("() => document.body.classList.add('prints-sign-off-all')")
    text, _ = text_of(page, tmp_path)
    sheets = [one for one in text.split("\f") if one.strip()]
    assert len(sheets) == len(JOBS)
    for job, one in zip(JOBS.values(), sheets, strict=True):
        assert one.strip().startswith(job.title) and "Page 1 of 1" in one and f"page {job.page}" in one
        assert "Take back" not in one and "Write a line" not in one
        assert ("earlier, on the device" in one) == filled


@needs_poppler
def test_one_sheet_is_printed_alone(desk: Page, tmp_path: Path) -> None:
    page = desk
    page.evaluate("() => { window.print = () => {}; }")
    sheet(page, "keep-the-drum").get_by_role("button", name="Print this sheet").tap()
    text, _ = text_of(page, tmp_path)
    assert len([one for one in text.split("\f") if one.strip()]) == 1 and "Keep the drum" in text


def test_without_scripts_the_sheets_stand_to_be_printed(open_page: Open) -> None:
    page = open_page("training/sign-off/", java_script_enabled=False)
    expect(page.locator("article.sign-off")).to_have_count(len(JOBS))
    expect(page.locator("[data-competence=write] noscript p")).to_be_visible()
    expect(page.locator("[data-competence=write] form")).to_be_hidden()
