"""What is typed into a page that stays open while the site is built anew: nothing of it is lost."""

from __future__ import annotations

from contextlib import suppress

import pytest
from playwright.sync_api import Error, Route, expect

from calculators.asking.declare import Sheet
from tests.browser.book import PAGE as DAY_BOOK
from tests.browser.book import begin, choose, drawn, opened, stored
from tests.browser.conftest import PYTHON, only_python
from tests.browser.edition.reader import (
    GUARDED,
    PERSON,
    RENEWED,
    SHEET,
    TIMES,
    WORKED,
    Reader,
    answer,
    correction,
    heard,
    house,
    note,
    quick_reader,
    reader,
    settled,
    still_reader,
)
from tests.browser.editions import House
from tests.browser.engine.stood_in import python_here
from tests.browser.sheets import READY, example, expect_standing, path_of, section, type_in

__all__ = ["house", "quick_reader", "reader", "still_reader"]

pytestmark = [pytest.mark.browser, pytest.mark.further]
WORKER_CAME = "() => performance.getEntriesByType('resource').some(({ name }) => name.includes('small-worker'))"
CARRIED = "() => Object.keys(sessionStorage).filter((key) => key.endsWith('carried'))"
NEVER_IDLE = "window.requestIdleCallback = () => 0;"  # so that nothing starts before a field is touched


@pytest.mark.parametrize("sheet", [GUARDED, TIMES, SHEET], ids=lambda sheet: sheet.id)
def test_what_is_typed_stays_when_the_calculator_s_files_are_gone(house: House, reader: Reader, sheet: Sheet) -> None:
    reader.page.add_init_script(NEVER_IDLE)
    if sheet is TIMES:
        python_here(reader.page)
    page = reader.open(path_of(sheet))
    if sheet is SHEET:
        page.wait_for_function(WORKER_CAME)  # else the page finds out by that, in the middle of the typing
        house.change_answer(path_of(SHEET), WORKED, "9999")
    else:
        only_python(page)  # the small engine's worker came with the page, and its own files are there still
    house.change_names()
    house.publish()
    reader.watch.expected += ["Failed to load resource"]  # of the former edition
    held: list[Route] = []  # until all is typed: who is quick has typed all before it is found out
    gone = "**/assets/app/small*" if sheet is SHEET else f"**{PYTHON}*"
    page.route(gone, lambda route: held.append(route))
    typed = {**example(sheet)}
    type_in(section(page, sheet), sheet, typed)
    for _ in range(300):  # the engine may come to it late
        if held:
            break
        page.wait_for_timeout(100)
    assert held, "nothing was asked for that is gone"
    page.unroute(gone)
    for route in held:
        with suppress(Error):  # the page was left for the first of them
            route.continue_()
    expect(note(page)).to_contain_text("What you had typed is kept", timeout=READY)
    place = section(page, sheet)
    expect_standing(place, "answered")
    if sheet is SHEET:
        assert "9999" in answer(page, sheet)
    for name, value in typed.items():
        field = place.locator(f".field[data-question={name}]")
        if isinstance(value, list):
            rows = field.evaluate("field => helpers.cells(field)")
            assert [[cell for cell in row if cell] for row in rows][: len(value)] == [
                [cell for cell in row if cell] for row in value
            ]
        elif field.locator("input[type=radio]").count():
            expect(field.locator(f"input[value='{value}']")).to_be_checked()
        else:
            expect(field.locator("input, select").first).to_have_value(str(value))
    assert not page.evaluate(CARRIED), "what was carried over is still there"
    if sheet.guarded:
        assert page.evaluate("() => Object.keys(localStorage).filter((key) => key.includes('sheet:')).length") == 0


def test_what_is_about_a_person_is_not_carried(house: House, still_reader: Reader) -> None:
    sheet = PERSON
    page = still_reader.open(path_of(sheet))
    place = section(page, sheet)
    place.locator(".field[data-question=person] input[value=yes]").check(force=True)
    scoops = place.locator(".field[data-kind=number] input").first
    scoops.fill("18")
    house.change_names()
    house.publish([correction()])
    heard(page)
    expect(note(page)).to_contain_text("What you had typed is kept", timeout=READY)
    expect(section(page, sheet).locator(".field[data-kind=number] input").first).to_have_value("18")
    assert not section(page, sheet).locator(".field[data-question=person] input:checked").count()
    kept = page.evaluate("() => JSON.stringify({ ...localStorage, ...sessionStorage })")
    assert "person" not in kept


def test_a_question_that_the_new_edition_does_not_ask_is_named_with_what_was_typed(
    house: House, reader: Reader
) -> None:
    reader.page.add_init_script(NEVER_IDLE)
    page = reader.open(path_of(SHEET))
    only_python(page)  # as above
    python_here(page)
    house.change_names()
    house.change_words(path_of(SHEET), 'data-question="barley_kg"', 'data-question="barley_weight"')
    house.publish()
    reader.watch.expected += ["Failed to load resource"]
    section(page, SHEET).get_by_label("Barley weight").first.fill("4321")
    expect(note(page)).to_contain_text("no place any more for: Barley weight 4321", timeout=READY)


def test_what_is_typed_before_the_script_comes_again_is_the_later_word(house: House, still_reader: Reader) -> None:
    page = still_reader.open(path_of(SHEET))
    section(page, SHEET).get_by_label("Barley weight").first.fill("4321")
    section(page, SHEET).get_by_label("Barley moisture").first.fill("13")
    house.publish([correction()])
    held: list[Route] = []
    settled(page)
    page.route("**/assets/browser/page.*", lambda route: held.append(route))
    heard(page)
    expect(page.locator("html")).to_have_attribute("data-corrections", "weights-2026-12")
    section(page, SHEET).get_by_label("Barley weight").first.fill("5000")
    for route in held:
        route.continue_()
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(section(page, SHEET).get_by_label("Barley weight").first).to_have_value("5000")
    expect(section(page, SHEET).get_by_label("Barley moisture").first).to_have_value("13")


@pytest.mark.parametrize(("kind", "question"), [("basket", "gross_g"), ("gas", "gas_reading")])
def test_a_line_being_typed_stays(house: House, still_reader: Reader, kind: str, question: str) -> None:
    page = opened(still_reader.open(DAY_BOOK))
    begin(page, "77")
    sheet = choose(page, kind)
    sheet.locator(f"[data-question={question}] input").first.fill("0.3")
    sheet.get_by_label("Who").fill("AB")
    sheet.get_by_text("Another time").click()
    sheet.get_by_label("Done at", exact=True).fill("2026-02-03T04:05")
    house.change_words("records/day-book", "</h1>", ", second edition</h1>")
    house.change_names()
    house.publish([correction()])
    heard(page)
    expect(page.locator("h1").first).to_contain_text("second edition")
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(page.locator(".correction")).to_contain_text("The weight at the target was too low")
    sheet = page.locator(".entry-sheet")
    expect(sheet.locator(f"[data-question={question}] input").first).to_have_value("0.3")
    expect(sheet.get_by_label("Who")).to_have_value("AB")
    expect(sheet.get_by_label("Done at", exact=True)).to_have_value("2026-02-03T04:05")
    expect(page.locator(".entry-fault")).to_contain_text("not in the book")
    assert [line["kind"] for line in stored(page)] == ["start"]
    assert not page.evaluate(CARRIED)
    page.get_by_role("button", name="Write it").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("Written")
    assert [line["kind"] for line in stored(page)] == ["start", kind]


def test_a_line_that_is_just_being_written_is_in_the_book_once(house: House, quick_reader: Reader) -> None:
    page = opened(quick_reader.open(DAY_BOOK))
    begin(page, "77")
    expect(drawn(settled(page))).to_have_count(1)  # what still comes of the former edition would renew the page before
    choose(page, "basket").locator("[data-question=gross_g] input").first.fill("171")
    house.change_names()
    house.publish()
    page.evaluate(
        """address => {
            document.querySelector(".entry-sheet button[type=submit]").click();
            helpers.press(address);
        }""",
        house.address,
    )
    expect(note(page)).to_contain_text(RENEWED)
    quick_reader.follow(f"{DAY_BOOK}?batch=77")
    expect(page.locator("[data-daybook=batch]")).to_have_text("Batch 77")
    expect(page.locator("tr[data-entry]")).to_have_count(2, timeout=READY)
    assert [line["values"] for line in stored(page)][1:] == [{"gross_g": "171", "drained": "drained"}]


def test_the_answer_to_an_exercise_stays_under_its_question(house: House, quick_reader: Reader) -> None:
    page = quick_reader.open("training/exercises/")
    place = page.locator("section.exercises").first
    place.locator("[data-action=next]").click()
    expect(place.locator("[data-exercise=count]")).to_contain_text("question 2", timeout=READY)
    question = place.locator("[data-exercise=question]").inner_text()
    place.locator("[name=answer]").fill("123")
    house.change_names()
    house.publish([correction()])
    heard(page)
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(place.locator("[data-exercise=count]")).to_contain_text("question 2", timeout=READY)
    expect(place.locator("[data-exercise=question]")).to_have_text(question)
    expect(place.locator("[name=answer]")).to_have_value("123")


def test_a_guess_of_a_practice_run_stays_in_its_scene(house: House, quick_reader: Reader) -> None:
    page = quick_reader.open("training/practice-batch/?number=3&level=2a&faults=none&moves=wa5")
    clock = page.locator(".practice-clock")
    expect(clock).to_contain_text("Day 1, 12:00", timeout=READY)
    page.locator("#practice-bd").fill("31.5")
    house.change_names()
    house.publish([correction()])
    heard(page)
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(clock).to_contain_text("Day 1, 12:00", timeout=READY)
    expect(page.locator("#practice-bd")).to_have_value("31.5", timeout=READY)


def test_a_sign_off_that_is_half_written_stays(house: House, still_reader: Reader) -> None:
    page = still_reader.open("training/sign-off/#judge-readiness")
    form = page.locator("[data-competence=write]")
    form.get_by_label("A name to add").fill("Ash")
    form.get_by_role("button", name="Add this person").click()
    form.get_by_label("On which batches").fill("example-04")
    form.get_by_role("group", name="Says what a count of 100").get_by_label("alone").check()
    house.change_names()
    house.publish([correction()])
    heard(page)
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(form.get_by_label("On which batches")).to_have_value("example-04")
    expect(form.get_by_label("Job", exact=True)).to_have_value("judge-readiness")
    expect(form.get_by_label("Ash")).to_be_checked()
    expect(form.get_by_role("group", name="Says what a count of 100").get_by_label("alone")).to_be_checked()


def test_a_short_code_that_was_half_typed_is_there_in_the_new_edition(house: House, still_reader: Reader) -> None:
    page = still_reader.open("records/by-codes/")
    page.locator("summary", has_text="A short code").click()
    page.get_by_label("Short code from the other device").fill("DJX2 N6RD VV")
    house.change_names()
    house.publish([correction()])
    heard(page)
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(page.locator("#short-code")).to_have_value("DJX2 N6RD VV")
