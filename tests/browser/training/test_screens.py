"""The class's screens at 1024 × 768, the projector of many a training room: nothing to scroll, none empty, nothing of
the trainer's on them, the sheet live; and the trainer's notes by their numbers on a phone."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page, ViewportSize, expect

from calculators.sheets import find_sheet
from site_src.questions import DOCS, cases, chapters
from tests.browser.conftest import PHONE, Open, go, lasting_page, without_engine
from tests.browser.sheets import READY
from tests.drawn import WHOLE as WHOLE_RUN

pytestmark = [pytest.mark.browser, pytest.mark.further]
ROOM: ViewportSize = {"width": 1024, "height": 768}
SESSIONS = sorted(path.stem for path in (DOCS / "training").glob("session-*.md"))
WHOLE = [name for name in SESSIONS if "| On the screen |" in (DOCS / "training" / f"{name}.md").read_text("utf-8")]
SMALLEST = 18  # pixels of 768: what is read from the back of a room
ON_A_PLATE = 14  # pixels of 768: a name beside what it names, and in the list below it
# Goes through all screens by the key of a presenter's remote, and measures each.
MEASURE = """() => {
  const dialog = document.querySelector("dialog.projector");
  const body = dialog.querySelector(".projector-body");
  const found = [];
  const cuts = (one) => getComputedStyle(one).overflowY !== "visible" && one.scrollHeight - one.clientHeight > 1;
  const isCut = (one) => one !== body && (cuts(one) || isCut(one.parentElement));
  const letters = (one) => parseFloat(getComputedStyle(one).fontSize) * one.getScreenCTM().a;
  for (let at = 0; at < 400; at += 1) {
    const before = dialog.querySelector(".projector-bar span").textContent;
    const sheet = body.querySelector(".sheet");
    const isSeen = (one) => one.textContent.trim() && one.checkVisibility();
    const texts = [...body.querySelectorAll("p, li, td, th")].filter(isSeen);
    const svg = body.querySelector("figure svg")?.getBoundingClientRect();
    found.push({
      count: before,
      head: dialog.querySelector("h2").textContent,
      words: body.textContent.replace(/\\s+/g, " ").trim(),
      over: Math.max(body.scrollHeight - body.clientHeight, body.scrollWidth - body.clientWidth),
      outside: dialog.scrollHeight - dialog.clientHeight,
      trainers: body.querySelectorAll(".for-trainer, .listen-for, .to-show, .hand-out").length,
      cut: [...body.querySelectorAll("table")].filter((one) => isCut(one.parentElement)).length,
      drawn: body.querySelectorAll("svg").length,
      area: svg ? svg.width * svg.height / (innerWidth * innerHeight) : 0,
      live: Boolean(sheet),
      letters: Math.min(99, ...[...body.querySelectorAll(".drawing text")].map(letters)),
      smallest: sheet ? 99 : Math.min(99, ...texts.map((one) => parseFloat(getComputedStyle(one).fontSize))),
    });
    const pressed = new KeyboardEvent("keydown", { key: "PageDown", bubbles: true, cancelable: true });
    document.activeElement.dispatchEvent(pressed);
    if (dialog.querySelector(".projector-bar span").textContent === before) return found;
  }
}"""
Found = list[dict[str, Any]]


@pytest.fixture(scope="module")
def room(browser: Browser, address: str) -> Iterator[Page]:
    """The screen of a training room; its engine never starts."""
    with lasting_page(browser, address, viewport=ROOM) as page:
        yield page


def shown(page: Page) -> Locator:
    page.get_by_role("button", name="Projector view").click()
    return page.get_by_role("dialog", name="Projector view")


def measured(page: Page) -> Found:
    shown(page)
    found: Found = page.evaluate(MEASURE)
    page.keyboard.press("Escape")
    return found


def hold(found: Found) -> None:
    assert [one for one in found if one["over"] > 1 or one["outside"] > 1] == []
    assert [one for one in found if not one["words"] and not one["drawn"]] == []
    assert [(one["count"], one["head"]) for one in found if one["cut"]] == []  # a table that gave way to a drawing
    assert [one for one in found if one["trainers"]] == []
    assert [one for one in found if one["smallest"] < SMALLEST] == []
    assert [(one["head"], one["letters"]) for one in found if one["letters"] < ON_A_PLATE] == []


def hand_out_is_one_sheet(page: Page, file: Path, *, alone: bool) -> None:
    """Alone, without the session before it: it begins on a sheet of its own after a title as after the whole."""
    if alone:
        page.locator("article > :not(h1):has(~ .hand-out)").evaluate_all("all => all.forEach((one) => one.remove())")
    page.pdf(path=str(file), prefer_css_page_size=True)
    command = ["pdftotext", "-layout", str(file), "-"]
    sheets = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split("\f")[:-1]
    assert [number for number, sheet in enumerate(sheets) if "Hand-out\n" in sheet] == [len(sheets) - 1]


@pytest.mark.drawn
@pytest.mark.parametrize("name", SESSIONS)
def test_no_screen_of_a_session_scrolls_and_none_is_empty(room: Page, address: str, name: str, tmp_path: Path) -> None:
    go(room, f"{address}training/{name}/")
    found = measured(room)
    hold(found)
    text = (DOCS / "training" / f"{name}.md").read_text("utf-8")
    for words in re.findall(r"\*Listen for:\* (.{25,60})", text):
        if "[[" not in words:
            assert all(words not in one["words"] for one in found)
    if shutil.which("pdftotext"):
        hand_out_is_one_sheet(room, tmp_path / "session.pdf", alone=not WHOLE_RUN and name != SESSIONS[0])
    if name in WHOLE:
        heads = [one["head"] for one in found]
        assert any(one["live"] for one in found) == ("```sheet\n" in text)
        assert sum(head == "Cases" for head in heads) >= 2 * len(
            re.findall(r"^```class-cases\n\S+ \d+ (.+)$", text, re.M)[0].split()
        )
        assert all(one["area"] > 0.3 for one in found if one["drawn"] and one["head"] == "Look")
        assert found[-1]["words"]


def test_what_has_a_row_of_its_own_is_not_shown_with_the_part_above_it(room: Page, address: str) -> None:
    go(room, f"{address}training/session-12-between-batches/")
    heads = [one["head"] for one in measured(room)]
    assert [head for head in heads if head in ("The sheet", "Drains")] == ["The sheet", "Drains"]
    assert heads.index("Drains") > heads.index("Board, second part")


@pytest.mark.parametrize("chapter", chapters())
def test_no_screen_of_the_cases_scrolls(room: Page, address: str, chapter: str) -> None:
    go(room, f"{address}training/questions-{chapter}/")
    found = measured(room)
    hold(found)
    said = " ".join(one["words"] for one in found)
    for case in cases(chapter):
        assert " ".join(case.case.split())[:60] in said and case.choices[0].why in said


def test_the_sheet_on_a_screen_is_live(open_page: Open) -> None:
    page = open_page("training/session-04-filling/", viewport=ROOM)
    view = shown(page)
    count = int(view.locator(".projector-bar span").inner_text().split("/")[1])
    for _ in range(count):
        if view.locator(".sheet").count():
            break
        page.keyboard.press("PageDown")
    sheet = view.locator(".sheet")
    answer = sheet.locator("[data-answer=target_kg] output")
    sheet.get_by_role("button", name="Fill in the example").click()
    expect(answer).to_have_text("9504", timeout=READY)
    assert (
        sheet.evaluate(
            "one => one.querySelector('.sheet-form').scrollWidth - one.querySelector('.sheet-form').clientWidth"
        )
        <= 1
    )
    box = sheet.get_by_label("Barley weight")
    box.click()
    page.keyboard.press("Control+a")
    page.keyboard.type("5000")
    expect(answer).to_have_text("7920", timeout=READY)
    page.keyboard.press("ArrowLeft")  # belongs to the box
    expect(box).to_be_focused()
    body = view.locator(".projector-body")
    assert body.evaluate("one => one.scrollHeight - one.clientHeight") <= 1
    page.keyboard.press("PageDown")
    expect(view.locator(".sheet")).to_have_count(0)
    foot = view.locator(".projector-bar span").inner_text()
    page.keyboard.press("PageDown")  # the keys are not lost with the box that had them
    expect(view.locator(".projector-bar span")).not_to_have_text(foot)
    page.keyboard.press("Escape")
    back = page.locator(".md-content__inner .sheet")
    expect(back.get_by_label("Barley weight")).to_have_value(
        "5000"
    )  # the page has its sheet again, with what was typed
    assert find_sheet("moisture-target").title in back.inner_text()


@pytest.mark.parametrize(
    ("name", "lead"),
    [
        ("05-steeping", "last_immersion_needed_h"),
        pytest.param("10-readiness", "verdict", marks=pytest.mark.long),
    ],
)
def test_a_sheet_that_is_filled_in_fits_its_screen(open_page: Open, name: str, lead: str) -> None:
    page = open_page(f"training/session-{name}/", viewport=ROOM)
    view = shown(page)
    while not view.locator(".sheet").count():
        page.keyboard.press("PageDown")
    view.get_by_role("button", name="Fill in the example").click()
    expect(view.locator(".sheet .grid input").last).to_have_value(re.compile(r".*"))
    expect(view.locator(".sheet-state[data-pinned]")).to_have_count(1, timeout=READY)
    expect(view.locator(f"[data-answer={lead}]")).to_be_visible()
    page.wait_for_timeout(1500)  # it is made larger again only when it has been still
    over = "one => [one.scrollHeight - one.clientHeight, one.scrollWidth - one.clientWidth]"
    assert max(view.locator(".projector-body").evaluate(over)) <= 1
    assert view.locator(".sheet-form").evaluate(over)[1] <= 1


def test_the_notes_on_a_phone_have_the_numbers_of_the_screens(open_page: Open) -> None:
    laptop = open_page("training/session-05-steeping/", viewport=ROOM, before=without_engine)
    found = measured(laptop)
    phone = open_page("training/session-05-steeping/", viewport=PHONE, before=without_engine)
    phone.get_by_role("button", name="My notes by screen").click()
    notes = phone.get_by_role("region", name="Notes by screen")
    expect(notes).to_be_visible()
    items = notes.locator("ol > li[value]")
    numbers = [int(value) for value in items.evaluate_all("all => all.map((one) => one.value)")]
    last = int(found[-1]["count"].split("/")[1].split(",")[0])
    assert numbers == list(range(1, last + 1))
    asked = next(one for one in found if one["head"].startswith("What do you do? · 3"))
    number = asked["count"].split("/")[0].strip()
    mine = notes.locator(f"li[value='{number}']")
    expect(mine).to_contain_text("It smells like wine.")
    expect(mine).to_contain_text("drain at once, full suction")
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    phone.get_by_role("button", name="My notes by screen").click()
    expect(notes).to_have_count(0)
