"""A page that stays open while the site is built anew: never old and new together, and nothing typed is lost."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, Route, expect

from calculators.asking.declare import Sheet
from calculators.sheets import find_sheet
from site_src.corrections import marks_of
from tests.browser.book import PAGE as DAY_BOOK
from tests.browser.book import begin, choose, opened, stored
from tests.browser.conftest import PHONE, Watch, knows_the_pages, only_python, without_engine
from tests.browser.editions import House
from tests.browser.sheets import READY, example, expect_standing, path_of, section, type_in

pytestmark = pytest.mark.browser
SHEET = find_sheet("moisture-target")
OTHER = find_sheet("sample-basket")
GUARDED = find_sheet("gas-build-up")
TIMES = find_sheet("steep-timing")  # with a table
WORKED = "9504"  # kg, the first answer of the worked case
RENEWED = re.compile("this is the new edition")
NEVER_IDLE = "window.requestIdleCallback = () => 0;"  # so that nothing starts before a field is touched


@pytest.fixture
def house(built_site: Path, address: str, tmp_path: Path) -> Iterator[House]:
    house = House(built_site, address, tmp_path)
    yield house
    house.kill()


class Reader:
    def __init__(self, browser: Browser, house: House) -> None:
        self.house = house
        self.watch = Watch(house.address)
        self.page = self.watch.new_page(browser, viewport=PHONE)

    def open(self, path: str) -> Page:
        self.page.goto(self.house.address + path)
        return self.page

    def follow(self, path: str) -> None:
        self.page.evaluate("address => helpers.press(address)", self.house.address + path)


@pytest.fixture
def reader(browser: Browser, house: House) -> Iterator[Reader]:
    reader = Reader(browser, house)
    yield reader
    reader.page.context.close()
    reader.watch.check()


@pytest.fixture
def still_reader(reader: Reader) -> Reader:
    """One of whom nothing is asked that the calculator would have to answer."""
    without_engine(reader.page)
    return reader


def note(page: Page) -> Locator:
    return page.locator(".edition-note")


def answer(page: Page, sheet: Sheet) -> str:
    place = section(page, sheet)
    expect_standing(place, "answered")
    return place.locator(".figure").first.inner_text()


def test_every_page_and_what_comes_with_it_carry_one_mark(house: House, reader: Reader) -> None:
    marks = set()
    for path in house.site.rglob("*.html"):
        html = path.read_text("utf-8")
        found = re.search(r'<html data-edition="([0-9a-f]{16})"', html)
        also = re.search(r'<meta name="edition" content="([0-9a-f]{16})" data-calculators="([0-9a-f]{12})"', html)
        assert found and also and found[1] == also[1], path
        marks.add(also.groups())
    assert len(marks) == 1
    [(mark, calculators)] = marks
    assert (house.site / f"assets/app/calculators.{calculators}.zip").is_file()
    assert f'"version": "{mark}"' in (house.site / "offline.json").read_text("utf-8")


def test_a_link_to_a_page_of_new_words_and_another_formula_brings_all_of_it(house: House, reader: Reader) -> None:
    page = reader.open(path_of(OTHER))
    type_in(section(page, OTHER), OTHER, example(OTHER))
    expect_standing(section(page, OTHER), "answered")
    house.change_answer(path_of(SHEET), WORKED, "9999")
    house.change_words(path_of(SHEET), "</h1>", ", second edition</h1>")
    mark = house.publish()
    reader.follow(path_of(SHEET))
    expect(page.locator("h1")).to_contain_text("second edition")
    expect(note(page)).to_contain_text(RENEWED)
    assert page.evaluate("() => document.documentElement.dataset.edition") == mark
    type_in(section(page, SHEET), SHEET, example(SHEET))
    assert "9999" in answer(page, SHEET)
    reader.follow(path_of(OTHER))  # what was typed before is on the device
    expect_standing(section(page, OTHER), "answered")


def test_the_same_edition_loads_nothing_again(house: House, still_reader: Reader) -> None:
    page = still_reader.open(path_of(OTHER))
    knows_the_pages(page)
    page.evaluate("() => { window.sameVisit = true; }")
    still_reader.follow(path_of(SHEET))
    expect(section(page, SHEET)).to_be_visible()
    page.wait_for_timeout(500)
    assert page.evaluate("() => window.sameVisit") is True
    assert note(page).count() == 0


@pytest.mark.parametrize("sheet", [GUARDED, TIMES, SHEET], ids=lambda sheet: sheet.id)
def test_what_is_typed_stays_when_the_calculator_s_files_are_gone(house: House, reader: Reader, sheet: Sheet) -> None:
    reader.page.add_init_script(NEVER_IDLE)
    page = reader.open(path_of(sheet))
    if sheet is SHEET:
        house.change_answer(path_of(SHEET), WORKED, "9999")
    else:
        only_python(page)  # the small engine's worker came with the page, and its own files are there still
    house.change_names()
    house.publish()
    reader.watch.expected += ["Failed to load resource"]
    typed = {**example(sheet)}
    type_in(section(page, sheet), sheet, typed)
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
    assert page.evaluate("() => sessionStorage.length") == 0, "what was carried over is still there"
    if sheet.guarded:
        assert page.evaluate("() => Object.keys(localStorage).filter((key) => key.includes('sheet:')).length") == 0


def test_what_is_about_a_person_is_not_carried(house: House, still_reader: Reader) -> None:
    sheet = find_sheet("shovel-pace")
    page = still_reader.open(path_of(sheet))
    place = section(page, sheet)
    place.locator(".field[data-question=person] input[value=yes]").check(force=True)
    scoops = place.locator(".field[data-kind=number] input").first
    scoops.fill("18")
    house.change_names()
    house.publish([correction()])
    page.evaluate("() => { dispatchEvent(new Event('online')); }")
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
    page.route("**/assets/browser/page.*", lambda route: held.append(route))
    page.wait_for_timeout(2500)
    page.evaluate("() => { dispatchEvent(new Event('online')); }")
    expect(page.locator("html")).to_have_attribute("data-corrections", "weights-2026-12")
    section(page, SHEET).get_by_label("Barley weight").first.fill("5000")
    for route in held:
        route.continue_()
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(section(page, SHEET).get_by_label("Barley weight").first).to_have_value("5000")
    expect(section(page, SHEET).get_by_label("Barley moisture").first).to_have_value("13")


def correction(**more: object) -> dict[str, object]:
    """One as the site publishes it."""
    return {
        "id": "weights-2026-12",
        "day": "3 Dec 2026",
        "word": "WARNING",
        "sheets": [SHEET.id],
        "pages": [],
        "marks": marks_of([SHEET.id]),
        "dayBook": False,
        "where": [SHEET.title],
        "wrong": "The weight at the target was too low.",
        "now": "Work the weights of today's batches out again.",
        **more,
    }


def test_a_day_book_whose_files_are_gone_does_not_hide(house: House, still_reader: Reader) -> None:
    page = still_reader.open("")
    expect(page.locator("h1")).to_be_visible()
    house.change_names()
    house.publish()
    still_reader.watch.expected += ["Failed to load resource"]
    still_reader.follow(DAY_BOOK)
    opened(page)
    begin(page, "77")
    assert [line["kind"] for line in stored(page)] == ["start"]


def test_a_part_that_does_not_come_is_said(house: House, still_reader: Reader) -> None:
    page = still_reader.open("")
    for path in (house.site / "assets/browser").glob("daybook.*"):
        path.unlink()
    still_reader.watch.expected += ["Failed to load resource"]
    still_reader.follow(DAY_BOOK)
    expect(note(page)).to_contain_text("could not be fetched")
    expect(note(page).get_by_role("button", name="Load the page again")).to_be_visible()


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
    page.evaluate("() => { dispatchEvent(new Event('online')); }")
    expect(page.locator("h1").first).to_contain_text("second edition")
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(page.locator(".correction")).to_contain_text("The weight at the target was too low")
    sheet = page.locator(".entry-sheet")
    expect(sheet.locator(f"[data-question={question}] input").first).to_have_value("0.3")
    expect(sheet.get_by_label("Who")).to_have_value("AB")
    expect(sheet.get_by_label("Done at", exact=True)).to_have_value("2026-02-03T04:05")
    expect(page.locator(".entry-fault")).to_contain_text("not in the book")
    assert [line["kind"] for line in stored(page)] == ["start"]
    assert page.evaluate("() => sessionStorage.length") == 0
    page.get_by_role("button", name="Write it").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("Written")
    assert [line["kind"] for line in stored(page)] == ["start", kind]


def test_a_line_that_is_just_being_written_is_in_the_book_once(house: House, reader: Reader) -> None:
    page = opened(reader.open(DAY_BOOK))
    begin(page, "77")
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
    reader.follow(f"{DAY_BOOK}?batch=77")
    expect(page.locator("[data-daybook=batch]")).to_have_text("Batch 77")
    expect(page.locator("tr[data-entry]")).to_have_count(2, timeout=READY)
    assert [line["values"] for line in stored(page)][1:] == [{"gross_g": "171", "drained": "drained"}]


def test_the_answer_to_an_exercise_stays_under_its_question(house: House, reader: Reader) -> None:
    page = reader.open("training/exercises/")
    place = page.locator("section.exercises").first
    place.locator("[data-action=next]").click()
    expect(place.locator("[data-exercise=count]")).to_contain_text("question 2", timeout=READY)
    question = place.locator("[data-exercise=question]").inner_text()
    place.locator("[name=answer]").fill("123")
    house.change_names()
    house.publish([correction()])
    page.evaluate("() => { dispatchEvent(new Event('online')); }")
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(place.locator("[data-exercise=count]")).to_contain_text("question 2", timeout=READY)
    expect(place.locator("[data-exercise=question]")).to_have_text(question)
    expect(place.locator("[name=answer]")).to_have_value("123")


def test_a_guess_of_a_practice_run_stays_in_its_scene(house: House, reader: Reader) -> None:
    page = reader.open("training/practice-batch/?number=3&level=2a&faults=none&moves=wa5")
    clock = page.locator(".practice-clock")
    expect(clock).to_contain_text("Day 1, 12:00", timeout=READY)
    page.locator("#practice-bd").fill("31.5")
    house.change_names()
    house.publish([correction()])
    page.evaluate("() => { dispatchEvent(new Event('online')); }")
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
    page.evaluate("() => { dispatchEvent(new Event('online')); }")
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
    page.evaluate("() => { dispatchEvent(new Event('online')); }")
    expect(note(page)).to_contain_text("What you had typed is kept")
    expect(page.locator("#short-code")).to_have_value("DJX2 N6RD VV")


def test_a_site_that_gives_now_this_edition_and_now_that_is_not_loaded_for_ever(house: House, reader: Reader) -> None:
    """As behind a balancer: the page itself stays old, and all else says that there is a new one."""
    page = reader.open("")
    loads: list[str] = []
    page.on("load", lambda loaded: loads.append(loaded.url))
    house.publish([correction()])
    offer = (house.site / "offline.json").read_bytes()
    house.publish()
    (house.site / "offline.json").write_bytes(offer)
    for _ in range(6):
        page.evaluate("() => { dispatchEvent(new Event('online')); }")
        page.wait_for_timeout(700)
    assert len(loads) == 3
    expect(note(page)).to_contain_text("do not fit together")


class TestCorrections:
    """Those that concern safety: told once, and heeded before what is kept."""

    def test_it_is_told_until_it_is_read_and_then_no_more(self, house: House, reader: Reader) -> None:
        page = reader.open(path_of(GUARDED))
        type_in(section(page, GUARDED), GUARDED, example(GUARDED))
        house.publish([correction()])
        page.evaluate("() => { dispatchEvent(new Event('online')); }")
        box = page.locator(".correction")
        expect(box).to_contain_text("WARNING")
        expect(box).to_contain_text(SHEET.title)
        expect(box).to_contain_text("Work the weights of today")
        expect_standing(section(page, GUARDED), "answered")
        reader.follow("safety/")
        expect(box).to_be_visible()
        page.reload()
        expect(box).to_be_visible()
        box.get_by_role("button", name="I have read this").click()
        for _ in range(2):
            expect(box).to_have_count(0)
            page.reload()
            page.wait_for_timeout(2500)

    def test_who_comes_for_the_first_time_is_told_nothing(self, house: House, reader: Reader) -> None:
        house.publish([correction()])
        page = reader.open("safety/")
        page.wait_for_timeout(2500)
        assert page.locator(".correction").count() == 0

    def test_one_that_says_markup_says_it_as_text(self, house: House, reader: Reader) -> None:
        page = reader.open("")
        house.publish([correction(wrong="<img src=x onerror=alert(1)>")])
        page.wait_for_timeout(2500)
        page.evaluate("() => { dispatchEvent(new Event('online')); }")
        expect(page.locator(".correction")).to_contain_text("<img src=x")
