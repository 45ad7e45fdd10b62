"""Files that would do lasting harm: deep nesting, half signs, letters of an older spreadsheet, long files."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.book import PAGE, PUT, as_file, begin, choose, line, made, opened, read_in, stored
from tests.browser.conftest import Open, Watch, is_engine
from tests.browser.sheets import READY

pytestmark = [pytest.mark.browser, pytest.mark.further]
TABLE = "batch;kind;at;remark\n77;remark;2026-02-01T08:00;Grünmalz riecht süß\n77;remark;2026-02-01T09:00;plain\n"


def give(page: Page, data: bytes, name: str) -> None:
    page.locator("section.day-book input[type=file]").set_input_files(
        {"name": name, "mimeType": "application/octet-stream", "buffer": data}
    )


def state(page: Page) -> Any:
    return expect(page.locator("[data-daybook=state]"))


def still_answers(page: Page) -> None:
    """The calculator draws the shelf, so it is alive."""
    page.goto(page.url.split("?")[0])
    expect(page.locator("[data-place=batches] table")).to_be_visible(timeout=READY)


def test_deep_nesting_kills_nothing(open_page: Open) -> None:
    page = opened(open_page(PAGE))
    workers = []
    page.on("worker", lambda worker: workers.append(worker) if is_engine(worker) else None)
    begin(page, "77")
    expect(page.locator("[data-place=lines] tr[data-entry]")).to_have_count(1, timeout=READY)
    before = len(workers)
    for text in ("[" * 100_000, '{"a":' * 100_000, "[" * 100_000 + "]" * 100_000):
        read_in(page, text)
        state(page).to_contain_text("0 lines added", timeout=READY)
        expect(page.locator("[data-daybook=report]")).to_contain_text("Nothing was taken")
    deep = as_file([made(1), made(2)]).replace('"drained": "drained"', '"drained": ' + "[" * 3000 + "]" * 3000, 1)
    read_in(page, deep)
    state(page).to_contain_text("1 line added", timeout=READY)
    state(page).to_contain_text("1 refused and set aside")
    assert [entry["id"] for entry in stored(page)][1:] == [made(2)["id"]]
    line(page, "water", water_temp_c="14")
    expect(page.locator("[data-place=lines] tr[data-entry]")).to_have_count(3, timeout=READY)
    assert len(workers) == before, "the calculator died"


# Stands in for Python: what it dies of is not known in advance, so this one dies of every file.
DIES_OF_FILES = """
const post = (message) => self.postMessage(JSON.stringify(message));
self.onmessage = (event) => {
  const { id, kind, request } = JSON.parse(event.data);
  if (kind !== "ask") return;
  if (request.daybook === "import") throw new Error("stand-in");
  const next = `<p>answered ${request.daybook}</p>`;
  post({ id, kind: "reply", calculators: "%MARK%", reply: { places: { next }, likely: [], faults: [], status: "" } });
};
post({ kind: "ready", packages: ["psychrolib"], ms: { all: 0 } });
"""


def test_a_request_that_kills_is_dropped_and_the_next_is_answered(
    open_page: Open, watch: Watch, built_site: Path
) -> None:
    watch.expected += ["stand-in"]
    mark = re.search(r'data-calculators="(\w+)"', (built_site / PAGE / "index.html").read_text("utf-8"))
    assert mark
    body = DIES_OF_FILES.replace("%MARK%", mark[1])
    workers: list[object] = []

    def before(page: Page) -> None:
        page.on("worker", lambda worker: workers.append(worker) if is_engine(worker) else None)
        page.route("**/assets/browser/worker.*", lambda route: route.fulfill(content_type="text/javascript", body=body))

    page = opened(open_page(PAGE, before=before))
    begin(page, "77")
    expect(page.locator("[data-place=next]")).to_contain_text("answered batch")
    read_in(page, "batch;kind;at;remark\n77;remark;2026-02-01T08:00;x\n", "a.csv")
    state(page).to_contain_text("stopped twice over this")
    state(page).to_contain_text("Nothing was changed")
    choose(page, "water").locator("[data-question=water_temp_c] input").fill("99")
    page.get_by_role("button", name="Write it").click()
    expect(page.locator("[data-daybook=engine]")).to_be_hidden()
    assert len(stored(page)) == 2
    assert len(workers) == 3, "no fresh one was started"


def test_half_a_sign_in_a_name_hides_no_batch(visit: Open) -> None:
    page = opened(visit(PAGE))
    page.evaluate(PUT, [{**made(1), "batch": "77"}])
    page.evaluate(  # as an earlier edition put it into the store
        PUT.replace("add(entry)", 'add({ ...entry, batch: "ab\\ud83d" })'), [made(2)]
    )
    still_answers(page)
    names = page.locator("[data-place=batches] th a")
    expect(names).to_have_count(2)
    page.locator("[data-place=batches]").get_by_role("link", name="ab�").click()
    expect(page.locator("[data-place=lines] tr[data-entry]")).to_have_count(1, timeout=READY)
    line(page, "water", water_temp_c="14")
    expect(page.locator("[data-place=lines] tr[data-entry]")).to_have_count(2, timeout=READY)


def test_a_name_is_not_cut_within_a_sign(visit: Open) -> None:
    page = opened(visit(PAGE))
    begin(page, "x" * 38)
    page.goto(f"{page.url.split('?')[0]}?batch={'x' * 39}%F0%9F%8C%BE")
    opened(page)
    expect(page.locator("[data-daybook=batch]")).to_have_text(f"Batch {'x' * 39}")


def test_letters_that_are_a_guess_are_shown_before_they_are_taken(visit: Open) -> None:
    page = opened(visit(PAGE))
    give(page, TABLE.encode("cp1252"), "old.csv")
    first = page.locator("[data-daybook=first-lines]")
    expect(first).to_contain_text("Grünmalz riecht süß")
    expect(first).to_contain_text("Windows-1252")
    assert stored(page) == []
    page.get_by_role("button", name="Leave it").click()
    state(page).to_contain_text("Nothing was changed")
    assert stored(page) == []
    give(page, TABLE.encode("cp1252"), "old.csv")
    page.get_by_role("button", name="The letters are right").click()
    state(page).to_contain_text("2 lines added", timeout=READY)
    assert [entry["remark"] for entry in stored(page)] == ["Grünmalz riecht süß", "plain"]
    give(page, TABLE.encode(), "new.csv")
    state(page).to_contain_text("2 were here already", timeout=READY)
    give(page, TABLE.encode("utf-16"), "wide.csv")
    state(page).to_contain_text("2 were here already", timeout=READY)


def test_what_is_odd_is_kept_in_a_list_to_look_at(visit: Open) -> None:
    page = opened(visit(PAGE))
    begin(page, "77")
    rows = "77;no-such-kind;2026-02-01T09:00;the words of it\n77;remark;2026-02-01T09:30;good\n"
    read_in(page, f"batch;kind;at;remark\n{rows}", "table.csv")
    state(page).to_contain_text("1 refused and set aside", timeout=READY)
    aside = page.locator("[data-daybook=aside]")
    expect(aside.locator("summary")).to_contain_text("1 row to look at")
    page.reload()
    expect(page.locator("[data-daybook=aside] summary")).to_contain_text("1 row to look at")
    aside.locator("summary").click()
    expect(aside).to_contain_text("the words of it")
    expect(aside).to_contain_text("no-such-kind")
    expect(page.locator("[data-place=lines] tr[data-entry]")).to_have_count(2, timeout=READY)
    read_in(page, f"batch;kind;at;remark\n{rows}", "table.csv")
    state(page).to_contain_text("1 were here already", timeout=READY)
    expect(aside.locator("summary")).to_contain_text("1 row to look at")
    aside.get_by_role("button", name="Take them away").click()
    aside.get_by_role("button", name="press again").click()
    expect(aside).to_be_hidden()
    assert len(stored(page)) == 2


@pytest.mark.parametrize("schema", ["²", "9" * 5000])
def test_an_odd_version_is_a_message(visit: Open, schema: str) -> None:
    page = opened(visit(PAGE))
    read_in(page, f"schema,batch,kind,at,remark\n{schema},77,remark,2026-01-01T00:00,x\n", "x.csv")
    expect(page.locator("[data-daybook=report]")).to_contain_text("no version of the day-book", timeout=READY)
    assert stored(page) == []


def test_a_file_in_many_parts_is_one_file(visit: Open) -> None:
    """Rows are numbered through; an id that comes twice in different parts is no second line, and is not lost."""
    entries = [made(number) for number in range(1000)]
    twice = {**made(3), "remark": "other words"}
    page = opened(visit(PAGE))
    read_in(page, as_file([*entries, twice, {**made(2000), "kind": "no-such-kind"}]))
    state(page).to_contain_text("1000 lines added", timeout=READY)
    state(page).to_contain_text("2 refused and set aside")
    report = page.locator("[data-daybook=report]")
    expect(report).to_contain_text("1001")
    expect(report).to_contain_text("1002")
    expect(page.locator("[data-daybook=aside]")).to_contain_text("other words")
    assert [entry["id"] for entry in stored(page)] == [entry["id"] for entry in entries]
    assert json.dumps(stored(page)[3]["remark"]) == '""'
