"""Exercises, cases, results kept on the device, and the projector view, in the page."""

import json
import shutil
import subprocess
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from calculators.exercises import CHAPTERS
from calculators.exercises.exercise import Drawn, one_of_paper
from calculators.exercises.page import FIRST_SEED
from site_src.questions import Case, cases
from tests.browser.conftest import DESK, Open, go, without_engine
from tests.browser.faults import faults
from tests.browser.sheets import READY

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
FIRST = one_of_paper(CHAPTERS["steeping"], FIRST_SEED, 0)
CASE = cases("steeping")[0]
FULL = "() => { Storage.prototype.setItem = () => { throw new DOMException('no room', 'QuotaExceededError'); }; }"
# For our own record alone: the theme keeps its colours there too.
BLOCKED = """() => {
  const { getItem, setItem } = Storage.prototype;
  const refuse = (key) => {
    if (String(key).endsWith('training')) throw new DOMException('not allowed', 'SecurityError');
  };
  Storage.prototype.getItem = function (key) { refuse(key); return getItem.call(this, key); };
  Storage.prototype.setItem = function (key, text) { refuse(key); return setItem.call(this, key, text); };
}"""


def opened(open_page: Open, **options: Any) -> tuple[Page, Locator]:
    page = open_page("training/exercises/", **options)
    section = page.locator("#exercises-steeping")
    expect(section.locator("[data-exercise-working]")).to_be_hidden()  # the page's script has come
    return page, section


def give(section: Locator, typed: str, mark: str) -> None:
    section.get_by_label("Your answer").fill(typed)
    section.get_by_role("button", name="Check").click()
    expect(section.locator(f"[data-exercise=verdict][data-mark={mark}]")).to_be_visible(timeout=READY)


def slip_of(drawn: Drawn) -> tuple[str, str]:
    slip, value = drawn.slips[0]
    return slip.says, f"{value:.2f}".replace(".", ",")


def results(page: Page) -> Any:
    return page.evaluate("() => Object.entries(localStorage).filter(([key]) => key.endsWith('training'))")


@pytest.mark.python_here(False)
def test_a_slip_is_named_then_the_working_opens_then_right_and_it_comes_back(open_page: Open) -> None:
    page, section = opened(open_page)
    says, typed = slip_of(FIRST)
    give(section, typed, "near")
    expect(section.locator("[data-exercise=verdict]")).to_contain_text(says)
    section.get_by_text("The answer, worked out").click()
    expect(section.locator("[data-exercise=working]")).to_contain_text(FIRST.working)
    give(section, str(FIRST.right), "right")
    expect(section.locator("[data-exercise=kept]")).to_contain_text("1 kind of question tried, 0 right at the first")
    page.clock.set_fixed_time(datetime.now() + timedelta(days=1))
    page.reload()
    section.get_by_role("button", name="Try the one that is due again").click()
    expect(section.locator("[data-exercise=count]")).to_have_text("Due again, 1", timeout=READY)


def test_a_slip_of_the_keyboard_is_no_try_and_the_working_stays_shut(visit: Open) -> None:
    _, section = opened(visit)
    give(section, "11,5x", "unread")
    expect(section.locator("[data-exercise=verdict]")).to_contain_text("“11,5x” cannot be read")
    expect(section.locator("[data-exercise-working]")).to_be_hidden()
    give(section, str(FIRST.right), "right")
    expect(section.locator("[data-exercise=kept]")).to_contain_text("1 kind of question tried, 1 right at the first")


def test_a_paper_has_its_number_everywhere_and_prints_with_a_key_of_its_own(visit: Open, tmp_path: Path) -> None:
    page, section = opened(visit)
    page.evaluate("() => { window.print = () => {}; }")
    section.get_by_label("Paper number").fill("7")
    section.get_by_role("button", name="Take this paper").click()
    first = one_of_paper(CHAPTERS["steeping"], "7", 0)
    expect(section.locator("[data-exercise=question]")).to_have_text(first.question, timeout=READY)
    section.get_by_role("button", name="Print this paper").click()
    expect(page.locator("body.prints-paper")).to_have_count(1, timeout=READY)
    if shutil.which("pdftotext"):
        file = tmp_path / "paper.pdf"
        page.pdf(path=str(file), prefer_css_page_size=True)
        command = ["pdftotext", "-layout", str(file), "-"]
        sheets = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split("\f")
        key = [number for number, sheet in enumerate(sheets) if "Key to paper 7" in sheet]
        assert len(key) == 1 and key[0] > 0 and "Answer: ____" not in sheets[key[0]]
        assert "".join(sheets).count("Answer: ____") == 10
        assert "Search" not in "".join(sheets) and "Take this paper" not in "".join(sheets)
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    expect(page.locator("body.prints-paper")).to_have_count(0)


def test_where_nothing_can_be_kept_it_is_said_and_the_file_still_has_it(open_page: Open, tmp_path: Path) -> None:
    page = open_page("training/results/")
    section = page.locator("#exercises-steeping")
    for fault, words in ((FULL, "no room left"), (BLOCKED, "keeps nothing")):
        page.evaluate(fault)
        go(page, page.url.replace("results", "exercises"))
        give(section, str(FIRST.right), "right")
        expect(section.locator("[data-exercise=kept]")).to_contain_text(words)
        go(page, page.url.replace("exercises", "results"))
        expect(page.locator("[data-training=state]")).to_contain_text(words)
        with page.expect_download() as coming:
            page.get_by_role("button", name="Save as a file").click()
        coming.value.save_as(tmp_path / "mine.json")
        assert json.loads((tmp_path / "mine.json").read_text())["results"][FIRST.exercise.id]["mark"] == "right"


def test_two_tabs_write_to_one_record(open_page: Open) -> None:
    page, section = opened(open_page)
    other = page.context.new_page()
    other.goto(page.url.replace("exercises", "questions-steeping"))
    answer(other, CASE, "no")
    give(section, str(FIRST.right), "right")
    ((_, text),) = results(page)
    assert set(json.loads(text)["results"]) == {FIRST.exercise.id, CASE.id}
    third = page.context.new_page()
    third.goto(page.url.replace("exercises", "results"))
    expect(third.locator("[data-training=rows] tr")).to_have_count(2)
    third.get_by_role("button", name="Remove my results").click()
    third.get_by_role("button", name="press again").click()
    expect(third.locator("[data-training=state]")).to_contain_text("Nothing is kept on this device")
    assert results(page) == []
    expect(section.locator("[data-exercise=kept]")).to_have_text("Your results stay on this device.")


def bring(page: Page, text: str) -> None:
    page.locator("input[type=file]").set_input_files(
        {"name": "x.json", "mimeType": "application/json", "buffer": text.encode()}
    )


def test_a_file_is_checked_and_never_run(visit: Open) -> None:
    page = visit("training/results/")
    state = page.locator("[data-training=state]")
    expect(state).to_contain_text("Nothing is kept")
    for text in ("<b>no</b>", "[]", '{"schema": 9, "results": {}}', "x" * 600_000):
        bring(page, text)
        expect(state).to_contain_text("Nothing was changed")
    good = {"chapter": "steeping", "kind": "exercise", "mark": "missed", "at": "2026-01-02T03:04"}
    bad = "<img src=x onerror=alert(1)>"
    given = {
        FIRST.exercise.id: {**good, "note": bad},
        bad: good,
        "target-weight": {**good, "mark": bad},
        "basket-at-target": {**good, "chapter": "chapter-of-an-earlier-edition"},
        "not-known-here": good,
    }
    bring(page, json.dumps({"schema": 1, "results": given}))
    expect(state).to_contain_text("2 brought back")
    expect(state).to_contain_text("3 left out")
    expect(page.locator("[data-training=rows] tr")).to_have_count(2)
    assert page.locator("main img").count() == 0 and bad not in json.dumps(results(page))


def test_what_cannot_be_read_counts_as_empty_and_is_said(visit: Open) -> None:
    page = visit("training/results/")
    page.evaluate(
        "() => localStorage.setItem(`${new URL(location.href).pathname.split('training/')[0]}training`, '{oops')"
    )
    page.reload()
    expect(page.locator("[data-training=state]")).to_contain_text("could not be read")


CHAIN = next(case for case in cases("steeping") if case.steps)


def says(case: Case, worth: str) -> str:
    wanted = {"right": lambda c: c.right, "no": lambda c: not c.right and not c.safe and not c.then}[worth]
    return next(choice.says for choice in case.choices if wanted(choice))


def answer(page: Page, case: Case, worth: str, step: Case | None = None) -> None:
    box = page.locator(f"#case-{case.id} .case-answer:visible").last
    box.get_by_text(says(step or case, worth), exact=True).click()
    box.get_by_role("button", name="This is my answer").click()


def in_days(page: Page, days: int) -> None:
    page.clock.set_fixed_time(datetime.now() + timedelta(days=days))
    page.reload()


def test_an_answer_right_or_missed_comes_back_at_the_top_of_the_training_page(open_page: Open) -> None:
    page = open_page("training/questions-steeping/")
    answer(page, CASE, "no")
    second = cases("steeping")[1]
    answer(page, second, "right")
    expect(page.locator(f"#case-{CASE.id} details[data-chosen]")).to_have_attribute("open", "")
    page.goto(page.url.replace("questions-steeping/", ""))
    expect(page.locator(".coming-back")).to_contain_text("Nothing is due today")
    in_days(page, 1)
    expect(page.locator(".coming-back a")).to_have_count(2)
    page.locator(".coming-back a").first.click()
    expect(page.locator(f"#case-{CASE.id} .case-answer")).to_be_visible()
    expect(page.locator(".exercise-offer a")).to_have_count(2)
    answer(page, second, "right")
    page.goto(page.url.split("questions-steeping/")[0])
    expect(page.locator(".coming-back a")).to_have_count(1)  # the other one comes in three days


def test_looking_is_no_answer(visit: Open) -> None:
    page = visit("training/questions-steeping/")
    case = page.locator(f"#case-{CASE.id}")
    case.get_by_role("button", name="This is my answer").click()
    expect(case).to_contain_text("Take one of the choices first")
    case.get_by_role("button", name="Only look").click()
    case.locator("details[data-worth=right] summary").click()
    expect(case.locator("details[data-worth=right] p")).to_be_visible()
    assert results(page) == []


def test_a_chain_goes_on_by_the_choice_and_counts_at_its_end(visit: Open) -> None:
    page = visit("training/questions-steeping/")
    steps, now = {step.id: step for step in CHAIN.steps}, CHAIN
    answer(page, CHAIN, "right")
    while then := next(choice.then for choice in now.choices if choice.right):
        assert results(page) == []
        now = steps[then]
        answer(page, CHAIN, "right", now)
    ((_, text),) = results(page)
    assert json.loads(text)["results"][CHAIN.id]["mark"] == "right"


def test_a_paper_gives_the_choices_in_its_order(visit: Open) -> None:
    page = visit("training/questions-steeping/")
    labels = page.locator(".case-answer label")
    page.get_by_label("Paper number").fill("7")
    page.get_by_role("button", name="Take this paper").click()
    expect(page.locator(".exercise-count")).to_contain_text("Paper 7")
    seventh = labels.all_inner_texts()
    page.get_by_label("Paper number").fill("8")
    page.get_by_role("button", name="Take this paper").click()
    assert labels.all_inner_texts() != seventh
    page.goto(f"{page.url}?paper=7")
    expect(page.locator(".exercise-count")).to_contain_text("Paper 7")
    assert labels.all_inner_texts() == seventh


def test_cases_need_no_scripts(open_page: Open) -> None:
    page = open_page("training/questions-steeping/", java_script_enabled=False)
    choice = page.locator(f"#case-{CASE.id} details[data-worth=right]")
    choice.locator("summary").click()
    expect(choice.locator("p")).to_be_visible()


def test_the_projector_shows_one_step_a_screen_by_keys(open_page: Open) -> None:
    page = open_page("training/session-05-steeping/", viewport=DESK, before=without_engine)
    page.get_by_role("button", name="Projector view").click()
    view = page.get_by_role("dialog", name="Projector view")
    expect(view.locator("> h2")).to_have_text("Two days of water and air")
    foot = view.locator(".projector-bar span")
    heads, feet = [view.locator("> h2").inner_text()], [foot.inner_text()]
    for key in ["ArrowRight", "PageDown", " "] * 30:
        page.keyboard.press(key)
        if foot.inner_text() == feet[-1]:
            break
        feet.append(foot.inner_text())
        heads.append(view.locator("> h2").inner_text())
        expect(view.locator(".listen-for")).to_have_count(0)  # the trainer's own
    assert sum(head.startswith("What do you do? · ") for head in heads) == 5
    assert heads.index("The hazard") < heads.index("Cast") < len(heads) - 1  # by the plan; the hand-out is on paper
    assert feet[-1].startswith(feet[-1].split("/")[1].split(",")[0].strip())
    page.keyboard.press("Home")
    expect(view.locator("> h2")).to_have_text(heads[0])
    assert faults(page) == []
    page.keyboard.press("Escape")
    expect(page.locator("dialog")).to_have_count(0)
    expect(page.get_by_role("button", name="Projector view")).to_be_focused()


def test_a_procedure_has_the_projector_and_its_sheet_on_one_screen(open_page: Open) -> None:
    page = open_page("procedures/germination-test/", viewport=DESK, before=without_engine)
    page.get_by_role("button", name="Projector view").click()
    view = page.get_by_role("dialog")
    count = int(view.locator(".projector-bar span").inner_text().split("/")[1].split(",")[0])
    assert count > 20
    live = 0
    for _ in range(count + 5):
        body = view.locator(".projector-body")
        live += body.locator(".sheet").count()
        # no name that the page has already: an unfolded plate has its own for the cut
        assert body.locator(":is(input, button, [id]:not(clipPath[id^=unfolded-])):not(.sheet, .sheet *)").count() == 0
        page.keyboard.press("PageDown")
    assert live == 1
