"""The practice batch in the page: a piece and a whole batch by taps, left and taken up again, and without a network."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, ViewportSize, expect

from calculators.practice.faults import NAMES, code_of
from calculators.practice.frames import FIRST_LEVEL
from calculators.practice.moves import MOST_CHARACTERS
from tests.browser.conftest import DESK, PHONE, PYTHON, Open, go
from tests.browser.sheets import READY

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
PAGE = "training/practice-batch/"
TRAINER = "training/practice-batch-trainer/"
QUIET = "?number=3&level=2a&faults=none"
"""A piece in which nothing tempts."""
SLOWLY_MS = 60_000
SCREENS: list[ViewportSize] = [DESK, {"width": 320, "height": 640}, PHONE]
A_WEEK_AGO = """() => {
  const key = Object.keys(localStorage).find((one) => one.endsWith("/practice"));
  const kept = JSON.parse(localStorage.getItem(key));
  kept.sentences[0].at = "2020-01-01T10:00";
  localStorage.setItem(key, JSON.stringify(kept));
}"""


def scene(page: Page) -> str:
    return page.locator(".practice-scene").inner_text()


def settled(page: Page) -> None:
    expect(page.locator(".practice-stage[aria-busy]")).to_have_count(0, timeout=SLOWLY_MS)


def begun(page: Page) -> None:
    """A run has been taken up and its scene drawn."""
    expect(page.locator(".practice-stage[data-ended]")).to_be_visible(timeout=SLOWLY_MS)
    settled(page)
    expect(page.locator(".practice-scene")).to_be_visible(timeout=READY)


def tap(page: Page, code: str, typed: str = "") -> None:
    button = page.locator(f"button[data-move={code}]")
    if not button.is_visible():
        page.locator(".practice-more > summary").click()
    if typed:
        page.locator(f"#practice-{code}").fill(typed)
    button.click()
    settled(page)


def ended(page: Page) -> str:
    return page.locator(".practice-scene").get_attribute("data-ended") or ""


def moves(page: Page) -> str:
    found: str = page.evaluate("""() => {
      const key = Object.keys(localStorage).find((one) => one.endsWith("/practice"));
      const kept = JSON.parse(localStorage.getItem(key));
      return kept.runs.find((run) => run.id === kept.now).moves;
    }""")
    return found


def wait_out(page: Page, most: int = 60) -> None:
    for _ in range(most):
        if ended(page):
            return
        tap(page, "nx")
    raise AssertionError(f"it goes on: {scene(page)}")


def fits_every_screen(page: Page) -> None:
    for size in SCREENS:
        page.set_viewport_size(size)
        # The theme's search moves for a moment after the size has changed.
        page.wait_for_function("width => document.documentElement.scrollWidth <= width", arg=size["width"])


def expect_nothing_beside_the_day_book(page: Page) -> None:
    assert page.evaluate("async () => (await indexedDB.databases()).map((one) => one.name)") == []
    keys: list[str] = page.evaluate(
        "() => Object.keys(localStorage).filter((key) => /practice|training|book/.test(key))"
    )
    assert [key.rsplit("/", 1)[-1] for key in keys] == ["practice"]


@pytest.mark.further
@pytest.mark.python_here(False)
def test_a_piece_by_taps_is_guessed_left_taken_up_debriefed_and_gone_back_in(open_page: Open) -> None:
    page = open_page(PAGE + QUIET)
    begun(page)
    fits_every_screen(page)
    assert "teaching model" in scene(page)
    for size in SCREENS:
        page.set_viewport_size(size)
        page.evaluate("() => scrollTo(0, 0)")
        page.get_by_role("button", name="Weigh the basket, drained").click()
        expect(page.locator(".practice-stage [data-place=note]")).to_contain_text("First what you expect")
        expect(page.locator(".practice-offer .practice-wrong")).to_be_in_viewport()
    tap(page, "bd", "33,5 %")
    expect(page.locator(".practice-see")).to_contain_text("Basket, drained")
    tap(page, "dr")
    expect_nothing_beside_the_day_book(page)
    there = page.locator(".practice-clock").inner_text()
    assert moves(page) == "bd~33.5-dr"
    again = page.context.new_page()  # the browser is closed in the middle
    page.close()
    again.goto(page.url.split("?")[0])
    begun(again)
    expect(again.locator(".practice-clock")).to_have_text(there, timeout=READY)
    wait_out(again)
    fits_every_screen(again)
    expect(again.locator(".practice-lines dt")).to_have_text(["People", "Grain", "Book", "Guessing"])
    back = again.locator(".practice-back button").first
    assert back.evaluate("e => parseFloat(getComputedStyle(e).fontSize)") > 18
    words = back.inner_text().removeprefix("Go back to ")
    back.click()
    settled(again)
    expect(again.locator(".practice-clock")).to_contain_text(words)
    assert not ended(again)
    fits_every_screen(again)


def test_a_whole_batch_by_taps(visit: Open) -> None:
    page = visit(PAGE + "?number=3&level=3&faults=none")
    begun(page)
    for code in ("pl", "tr", "fi"):
        tap(page, code)
    for code in ("dr", "we", "dr", "we", "dr"):
        for _ in range(4):
            if page.locator("button[data-move=ho]").count() and "shift is over" in scene(page):
                tap(page, "ho")
            elif page.locator(f"button[data-move={code}]").count():
                break
            else:
                tap(page, "nx")
        tap(page, "nx")
        if "shift is over" in scene(page):
            tap(page, "ho")
        tap(page, code) if page.locator(f"button[data-move={code}]").count() else None
    for _ in range(120):
        if ended(page):
            break
        offered = set(page.locator("button[data-move]").evaluate_all("all => all.map((one) => one.dataset.move)"))
        wanted = ("ho", "ld", "xo") if "shift is over" in scene(page) else ("xo", "ld", "br", "cf", "we", "nx", "ut")
        code = next(one for one in wanted if one in offered)
        tap(page, code, "14" if code == "br" else "30" if code == "cf" else "")
    assert ended(page) in ("kiln", "time")
    expect(page.locator(".practice-points, .practice-debrief")).not_to_have_count(0)
    assert len(moves(page)) < 4000


def test_what_must_never_happen_leaves_a_still_screen_and_it_can_be_begun_again(visit: Open) -> None:
    page = visit(PAGE + "?number=5&level=2b&faults=none&moves=pr-wr-us-xx")
    begun(page)
    assert ended(page) == "never"
    expect(page.get_by_role("link", name="In an emergency: what to do")).to_be_visible()
    expect(page.locator(".practice-debrief")).to_be_hidden()
    expect(page.locator("button[data-move]")).to_have_count(0)
    page.get_by_role("button", name="Where it parted, and where to go back to").click()
    expect(page.locator(".practice-debrief")).to_be_visible()
    page.get_by_role("button", name="Begin it again").click()
    settled(page)
    assert not ended(page)


@pytest.mark.parametrize(
    "query",
    [
        "?number=7&level=2a&moves=zz-%3Cscript%3E-dr",
        "?number=0&level=3",
        "?number=99999999999&level=9z&faults=%00",
        "?number=7&level=3&moves=" + "fi-" * 1300,
        "?moves=dr-dr-ho_zz9_a",
        "?number=7&level=2b&faults=__proto__&moves=nx",
    ],
)
def test_a_hostile_link_ends_in_a_scene_or_a_message(visit: Open, query: str) -> None:
    page = visit(PAGE + query)
    wrong = page.locator("[data-place=wrong]")
    expect(
        wrong.filter(has_text="no run that can be played").or_(page.locator(".practice-stage[data-ended]"))
    ).to_be_visible(timeout=SLOWLY_MS)
    assert "?" not in page.url
    assert page.locator(".practice script").count() == 0
    expect(page.locator(".practice-scene")).to_be_visible()


def again(page: Page, address: str) -> None:
    """Leave the page and come back to it."""
    go(page, f"{address}{TRAINER}")
    go(page, f"{address}{PAGE}")


def test_one_sentence_comes_back_in_a_week(visit: Open, address: str) -> None:
    page = visit(PAGE + "?number=3&level=2a&faults=none&moves=st")
    begun(page)
    page.get_by_label("One sentence: what I will do next time").fill("Read before I act.")
    page.get_by_role("button", name="Keep it").click()
    again(page, address)
    begun(page)
    expect(page.locator(".practice-returned")).to_be_hidden()
    page.evaluate(A_WEEK_AGO)
    again(page, address)
    expect(page.locator(".practice-returned")).to_contain_text("Read before I act.")
    page.get_by_role("button", name="I did it: take it off").click()
    expect(page.locator(".practice-returned")).to_be_hidden()


def test_by_keyboard_alone_and_the_scene_is_said(visit: Open) -> None:
    page = visit(PAGE + QUIET, viewport=DESK)
    begun(page)
    page.locator("[data-place=scene]").focus()
    for _ in range(12):
        page.keyboard.press("Tab")
        if page.evaluate("() => document.activeElement.dataset.move") == "nx":
            break
    before = page.locator(".practice-clock").inner_text()
    page.keyboard.press("Enter")
    expect(page.locator(".practice-clock")).not_to_have_text(before, timeout=READY)
    said = page.locator("[data-place=say]")
    assert said.get_attribute("aria-live") == "polite"
    expect(said).to_contain_text(page.locator(".practice-see").inner_text())
    assert page.evaluate("() => document.activeElement.dataset.place") == "scene"


def test_a_group_votes_on_the_projector_and_two_teams_share_one_barley(visit: Open) -> None:
    page = visit(PAGE + QUIET, viewport=DESK)
    begun(page)
    page.get_by_role("button", name="On the projector").click()
    settled(page)
    lettered = page.locator(".practice-projector button[data-letter]")
    expect(lettered).to_have_count(5)
    votes = page.locator("#practice-votes")
    note = page.locator(".practice-projector [data-place=note]")
    for typed, said in (("A2 B2", "have 2 each"), ("Z9", "There is no Z"), ("many", "such as A4 B3 C2")):
        votes.fill(typed)
        page.get_by_role("button", name="Do what most want").click()
        expect(note).to_contain_text(said)
    before = page.locator(".practice-clock").inner_text()
    votes.fill("A1 B4, C1")
    page.get_by_role("button", name="Do what most want").click()
    expect(page.locator(".practice-clock")).not_to_have_text(before)
    page.get_by_role("button", name="Two teams").click()
    settled(page)
    expect(page.locator(".practice-clock")).to_have_text(before)
    expect(page.locator(".practice-team")).to_contain_text("Team 2 plays. The other team")
    page.get_by_role("button", name="Pause", exact=True).click()
    assert page.locator(".practice-scene").get_attribute("inert") is not None
    page.get_by_role("button", name="Go on", exact=True).click()
    page.get_by_role("button", name="Something happens now").click()
    settled(page)
    expect(page.locator("button[data-move=xx]")).to_be_visible()
    page.get_by_role("button", name="Reveal").click()
    settled(page)
    expect(page.locator(".practice-projector .practice-lines")).to_be_visible(timeout=READY)
    page.keyboard.press("Escape")
    expect(page.locator(".practice-projector")).to_have_count(0)
    expect(page.locator("section.practice .practice-scene")).to_be_visible()


def test_a_trainer_makes_a_coded_link_that_gives_nothing_away(visit: Open) -> None:
    page = visit(TRAINER, viewport=DESK)
    page.get_by_label("What is run").select_option("2b")
    page.get_by_label("Number of the barley").fill("12")
    page.get_by_label("Season").select_option("august")
    page.get_by_label("What is wrong in it").select_option("chosen")
    page.locator("input[value=ring]").check()
    page.get_by_label("Moisture wanted at the cast").fill("99")
    page.get_by_role("button", name="Make link and code").click()
    expect(page.locator("[data-place=note]").first).to_contain_text("type a number from 42 to 47")
    page.get_by_label("Moisture wanted at the cast").fill("44,5 %")
    page.get_by_role("button", name="Make link and code").click()
    link = page.locator("[data-place=link] a")
    code = code_of(12, ("ring",))
    expect(link).to_contain_text(f"number=12&level=2b&faults={code}&setting=august_t44.5", timeout=SLOWLY_MS)
    expect(page.locator("[data-place=set-words]")).to_contain_text(f"code {code}.august_t44.5")
    assert not any(name in link.inner_text() for name in NAMES if name != "alarm")
    expect(page.locator("[data-place=code] svg")).to_be_visible(timeout=READY)
    page.locator(".practice-key > summary").click()
    expect(page.locator("[data-place=key]")).to_contain_text("The air ring was half blocked")
    expect(page.locator("[data-place=key]")).to_contain_text("What the good hand did")
    page.emulate_media(media="print")
    page.evaluate("() => document.body.classList.add('prints-practice-papers')")
    expect(page.locator(".practice-blank tbody tr").first).to_be_visible()
    expect(page.locator(".practice-questions")).to_be_visible()
    expect(page.locator("[data-place=key]")).to_be_hidden()
    page.evaluate("() => document.body.classList.remove('prints-practice-papers')")
    page.emulate_media(media="null")


def test_on_level_5_a_code_hands_the_run_to_the_next_learner(visit: Open, address: str) -> None:
    page = visit(PAGE + "?number=3&level=5&faults=none&setting=winter&moves=pl-tr-fi-wa465-dr-sl-wa1000")
    begun(page)
    assert "shift is over" in scene(page)
    page.locator("select[data-order=we]").select_option("a")
    page.locator("[data-order-number=we]").fill("2")
    tap(page, "ho")
    handed = page.locator("[data-place=handed]")
    expect(handed.locator("svg")).to_be_visible(timeout=READY)
    expect(handed.locator("a")).to_contain_text(
        "level=5&faults=none&setting=winter&moves=pl-tr-fi-wa465-dr-sl-wa1000-ho_wea2"
    )
    clock = page.locator(".practice-clock").inner_text()
    link = handed.locator("a").get_attribute("href") or ""
    other = visit(link.removeprefix(address))  # on a device that has nothing of it
    begun(other)
    expect(other.locator(".practice-clock")).to_have_text(clock)
    other.locator("summary", has_text="The practice book").click()
    expect(other.locator("[data-place=book]")).to_contain_text("Handed over: wet it again after 2 h.")


def test_a_code_with_a_setting_is_typed_and_a_wrong_one_says_what_to_type(open_page: Open) -> None:
    page = open_page(PAGE)
    page.get_by_label("What is run").select_option("3")
    page.get_by_label("Number of the barley").fill("12")
    box = page.get_by_label("Code from the trainer")
    box.fill("k7")
    page.get_by_role("button", name="Begin", exact=True).click()
    expect(page.locator("[data-place=wrong]")).to_contain_text("such as k7d")
    for typed, said in (
        ("k7d.foo", "“foo” means nothing. There may stand, with _ between: winter, august, floor, drum, t42 to t47"),
        ("k7d.august_t99", "“t99” means nothing"),
        ("k7d.august_", "means nothing"),
        ("999", "“999” is no code"),
        ("aaa.august", "“aaa” is no code"),
    ):
        box.fill(typed)
        page.get_by_role("button", name="Begin", exact=True).click()
        expect(page.locator("[data-place=wrong]")).to_contain_text(said)
        assert page.evaluate("() => Object.keys(localStorage).filter((key) => key.endsWith('/practice'))") == []
    box.fill(f"{code_of(12, ())}.august_drum")
    page.get_by_role("button", name="Begin", exact=True).click()
    begun(page)
    expect(page.locator(".practice-see")).to_contain_text("in August", timeout=READY)
    expect(page.locator(".practice-see")).to_contain_text("Then the drum.")


def test_after_a_piece_its_cases_are_asked_and_come_back(visit: Open) -> None:
    page = visit(PAGE + QUIET + "&moves=bd~33-dr-sl-us")
    begun(page)
    page.get_by_role("link", name="the first", exact=True).click()
    expect(page).to_have_url(re.compile("questions-practice-batch/#case-practice-a1"))
    case = page.locator("#case-practice-a1")
    case.get_by_role("radio").first.check()
    case.get_by_role("button", name="This is my answer").click()
    found = page.evaluate("() => JSON.stringify(localStorage)")
    assert "practice-a1" in found and "practice-batch" in found


def test_a_run_begun_while_another_is_worked_out_is_the_one_that_comes(open_page: Open) -> None:
    held: list[Route] = []
    page = open_page(
        f"{PAGE}?number=3&level=4&faults=none",
        lambda page: page.route(f"**{PYTHON}*", lambda route: held.append(route)),
    )
    expect(page.locator(".practice-stage[aria-busy]")).to_have_count(1)
    for name in ("Something happens now", "Reveal"):
        expect(page.get_by_role("button", name=name)).to_be_hidden()
    page.locator("summary", has_text="Begin a run").click()
    page.get_by_label("Number of the barley").fill("12")
    page.get_by_label("What is run").select_option("3")
    page.get_by_role("button", name="Begin", exact=True).click()
    expect(page.locator("[data-place=runs] li")).to_contain_text("A whole batch, something may be wrong, number 3")
    for route in held:
        route.continue_()
    page.unroute_all()
    begun(page)
    expect(page.locator("button[data-move=pl]")).to_be_visible(timeout=SLOWLY_MS)


def test_a_tap_before_the_script_has_come_is_shown_not_to_count(open_page: Open) -> None:
    page = open_page("")
    held: list[Route] = []
    engine: list[Route] = []
    page.route(f"**{PYTHON}*", lambda route: engine.append(route))
    page.route("**/practice*.mjs", lambda route: held.append(route))
    page.goto(page.url + PAGE)
    wait = page.locator("button[data-move=nx]")
    expect(wait).to_be_disabled()
    expect(page.locator("[data-place=note]")).to_have_text("One moment: the page is loading.")
    for route in held:
        route.continue_()
    page.unroute("**/practice*.mjs")
    expect(wait).to_be_enabled()
    wait.click()
    wait.click()
    expect(page.locator("[data-place=note]")).to_contain_text("the last tap is still being worked out")
    for route in engine:
        route.continue_()
    page.unroute_all()
    settled(page)
    expect(page.locator(".practice-stage[data-ended]")).to_be_visible(timeout=SLOWLY_MS)


def run_file(folder: Path, name: str, run: str, number: int = 3) -> Path:
    path = folder / f"{name}.json"
    given = {"kind": "practice run", "number": str(number), "level": "2a", "faults": "none", "moves": run, "at": ""}
    path.write_text(json.dumps(given), "utf-8")
    return path


def test_files_are_read_side_by_side_and_never_kept(visit: Open, tmp_path: Path) -> None:
    page = visit(TRAINER, viewport=DESK)
    broken = tmp_path / "broken.json"
    broken.write_text("{", "utf-8")
    files = [
        run_file(tmp_path, "one", "bd~33_1-dr-sl-us"),
        run_file(tmp_path, "two", "bd~30-wa60-dr-us"),
        run_file(tmp_path, "three", "nx", 4),
        broken,
    ]
    page.locator("#practice-read").set_input_files(files)
    side = page.locator("[data-place=side]")
    expect(side.locator("tbody tr").nth(1)).to_be_visible(timeout=SLOWLY_MS)
    expect(side).to_contain_text("All did the same for 1 moves")
    expect(side.locator("tbody tr").first).to_contain_text("Drain")
    expect(side.locator("tbody tr").nth(1)).to_contain_text("Wait some minutes: 60")
    expect(page.locator("[data-place=files-note]")).to_contain_text("three: another barley")
    expect(page.locator("[data-place=files-note]")).to_contain_text("broken.json: no run")
    assert page.evaluate("() => Object.keys(localStorage).filter((key) => key.endsWith('/practice'))") == []


RECORD = """() => {
  const key = Object.keys(localStorage).find((one) => one.endsWith("/practice"));
  return JSON.parse(localStorage.getItem(key));
}"""
PUT_RECORD = """(record) => {
  const base = new URL(document.querySelector("link[rel=canonical]").href).pathname.split("training/")[0];
  localStorage.setItem(base + "practice", record);
}"""
ASIDE = (
    "() => Object.entries(localStorage).filter(([key]) => key.includes('/practice-set-aside')).map(([, text]) => text)"
)


def test_a_tap_in_an_older_tab_erases_no_move_of_a_newer_one(open_page: Open) -> None:
    older = open_page(PAGE + QUIET)
    begun(older)
    newer = older.context.new_page()
    newer.goto(older.url)
    begun(newer)
    tap(newer, "bd", "33,5")
    tap(newer, "dr")
    there = newer.locator(".practice-clock").inner_text()
    older.locator("button[data-move=nx]").click()
    expect(older.locator(".practice-stage [data-place=note]")).to_contain_text("gone on in another tab", timeout=READY)
    settled(older)
    assert moves(older) == "bd~33.5-dr"
    expect(older.locator(".practice-clock")).to_have_text(there)
    tap(older, "nx")
    assert moves(older) == "bd~33.5-dr-nx"


def test_of_many_runs_none_goes_by_itself(open_page: Open) -> None:
    page = open_page(PAGE)
    run = {"level": "2a", "faults": "none", "moves": "", "setting": "", "at": "2026-01-01T10:00"}
    runs = [{**run, "id": f"r{number}", "number": str(number)} for number in range(1, 41)]
    page.evaluate(PUT_RECORD, json.dumps({"schema": 1, "now": "", "runs": runs, "sentences": []}))
    page.goto(page.url + QUIET)
    begun(page)
    assert {one["id"] for one in runs} <= {one["id"] for one in page.evaluate(RECORD)["runs"]}
    page.locator("summary", has_text="Begin a run").click()
    expect(page.locator("[data-place=runs]")).to_contain_text("41 runs are kept here")


@pytest.mark.parametrize("record", ['{"schema": 2, "runs": {"r1": "bd-dr"}}', "{"])
def test_a_record_that_cannot_be_read_is_set_aside(open_page: Open, record: str) -> None:
    page = open_page(PAGE)
    expect(page.locator("button[data-move=nx]")).to_be_enabled()  # it has looked for a record, and there was none
    page.evaluate(PUT_RECORD, record)
    page.goto(page.url + QUIET)
    begun(page)
    expect(page.locator(".practice-stage [data-place=note]")).to_contain_text("set aside, not removed")
    tap(page, "nx")
    assert page.evaluate(ASIDE) == [record]
    assert moves(page) == "nx"


def test_the_first_run_and_the_most_moves_are_those_that_the_page_was_built_with(open_page: Open) -> None:
    page = open_page(PAGE)
    expect(page.locator("button[data-move=nx]")).to_be_enabled()
    section = page.locator("section[data-practice]")
    assert section.get_attribute("data-most-moves") == str(MOST_CHARACTERS)
    section.evaluate("section => { section.dataset.firstNumber = '9'; }")
    tap(page, "nx")
    first = page.evaluate(RECORD)["runs"][0]
    assert (first["number"], first["level"]) == ("9", FIRST_LEVEL)
