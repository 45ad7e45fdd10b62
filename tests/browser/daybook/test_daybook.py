"""The day-book: a line is on the disk before it shows, whatever else goes wrong."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import expect

from calculators.daybook.lines.entry import SCHEMA
from tests.browser.book import PAGE, begin, choose, drawn, line, opened, save, stored, write_it
from tests.browser.conftest import DESK, PHONE, Open, Watch, without_engine
from tests.browser.faults import faults
from tests.browser.sheets import READY
from tests.browser.test_access import TARGET

pytestmark = [pytest.mark.browser, pytest.mark.python_here]
KIND_BUTTON = 56  # px: a wet glove
NO_STORE = "() => { IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); }; }"


def test_a_line_is_written_in_three_presses_while_the_engine_is_not_up(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine, has_touch=True))
    begin(page, "77", barley_kg="5000")
    page.locator(".entry-all [data-kind-of-entry=basket]").tap()
    expect(page.locator(".entry-sheet [data-question=gross_g] input")).to_be_focused()
    page.keyboard.type("171,5")  # as typed, not as understood
    page.get_by_role("button", name="Write it").tap()
    row = page.locator("[data-daybook=waiting] tr[data-entry]").last
    expect(row).to_contain_text("171,5 g")
    expect(row).to_contain_text("Basket weighed")
    start, basket = stored(page)
    assert start["batch"] == basket["batch"] == "77"
    assert start["values"]["barley_kg"] == "5000"
    assert (basket["kind"], basket["values"]) == ("basket", {"gross_g": "171,5", "drained": "drained"})
    assert basket["seq"] > start["seq"]
    assert basket["id"] != start["id"] and len(basket["id"]) >= 10
    assert basket["schema"] == SCHEMA
    assert set(basket) == {
        *("schema", "id", "batch", "kind", "at", "written", "zone", "seq", "values", "who", "remark", "replaces")
    }


def test_enter_writes_the_line_and_who_is_remembered(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    sheet = choose(page, "water")
    sheet.get_by_label("Who").fill("AB")
    sheet.locator("[data-question=water_temp_c] input").fill("14")
    page.keyboard.press("Enter")
    expect(page.locator("[data-daybook=state]")).to_contain_text("Written")
    expect(choose(page, "turned").get_by_label("Who")).to_have_value("AB")
    page.get_by_role("button", name="Leave it").click()
    assert [one["who"] for one in stored(page)] == ["", "AB"]


def test_a_corrected_time_is_kept_beside_the_time_of_writing(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    sheet = choose(page, "turned")
    sheet.get_by_text("Another time").click()
    sheet.get_by_label("Done at", exact=True).fill("2026-02-03T04:05")
    write_it(page)
    entry = stored(page)[-1]
    assert entry["at"] == "2026-02-03T04:05"
    assert not entry["written"].startswith("2026-02-03")


def test_a_correction_keeps_what_stood_before(visit: Open) -> None:
    page = opened(visit(PAGE))
    begin(page, "77")
    line(page, "basket", gross_g="711")
    line(page, "basket", gross_g="850")
    rows = drawn(page)
    rows.nth(1).get_by_role("button", name="Correct").click()
    box = page.locator(".entry-sheet [data-question=gross_g] input")
    expect(box).to_have_value("711")
    box.fill("771")
    write_it(page)
    expect(drawn(page)).to_have_count(4)
    entries = stored(page)
    assert [one["values"].get("gross_g") for one in entries[1:]] == ["711", "850", "771"]
    assert entries[3]["replaces"] == entries[1]["id"]
    struck = page.locator(f"[data-place=lines] tr[data-entry='{entries[1]['id']}']")
    expect(struck.locator("s").first).to_be_visible()
    expect(struck.get_by_role("button")).to_have_count(0)

    page.locator(f"[data-place=lines] tr[data-entry='{entries[2]['id']}']").get_by_role("button").click()
    page.get_by_role("button", name="Strike the line out").click()
    assert len(stored(page)) == 4, "one press is not enough"
    page.get_by_role("button", name="press again").click()
    expect(page.locator(f"[data-place=lines] tr[data-entry='{entries[2]['id']}'] s").first).to_be_visible(timeout=READY)
    last = stored(page)[-1]
    assert (last["kind"], last["replaces"], last["values"]) == ("withdrawn", entries[2]["id"], {})
    assert stored(page)[:4] == entries, "a line was changed"


def test_what_cannot_be_right_is_said_and_written_all_the_same(visit: Open) -> None:
    page = opened(visit(PAGE))
    begin(page, "77")
    sheet = choose(page, "water")
    sheet.locator("[data-question=water_temp_c] input").fill("99")
    expect(sheet.locator("[data-error]:not([hidden])")).to_contain_text("2 to 30", timeout=READY)
    write_it(page)
    expect(drawn(page).last).to_contain_text("99")
    expect(drawn(page).last).to_contain_text("2 to 30")
    assert stored(page)[-1]["values"] == {"water_temp_c": "99"}


def test_what_is_typed_is_text_and_never_markup(visit: Open) -> None:
    bad = "<img src=x onerror=alert(1)>"
    page = opened(visit(PAGE))
    begin(page, bad, barley=bad)
    choose(page, "remark").get_by_role("textbox", name="Remark").fill(bad)
    write_it(page)
    expect(page.locator("[data-daybook=batch]")).to_have_text(f"Batch {bad}")
    expect(drawn(page).last).to_contain_text(bad)
    page.get_by_role("link", name="All batches").click()
    expect(page.locator("[data-place=batches] table")).to_contain_text(bad, timeout=READY)
    page.locator("[data-place=batches] a[data-batch]").click()
    expect(page.locator("[data-daybook=batch]")).to_have_text(f"Batch {bad}")
    page.reload()
    expect(page.locator("[data-daybook=batch]")).to_have_text(f"Batch {bad}")
    expect(drawn(page)).to_have_count(2)
    assert page.locator("main img").count() == 0


def test_two_tabs_write_into_one_book(open_page: Open) -> None:
    first = opened(open_page(PAGE, before=without_engine))
    begin(first, "77")
    second = first.context.new_page()
    second.goto(first.url)
    opened(second)
    for number in range(3):
        line(first, "basket", gross_g=str(700 + number))
        line(second, "water", water_temp_c=str(10 + number))
    # Each shows the other's lines without being asked: the first as typed, the second as Python reads them.
    expect(first.locator("[data-daybook=waiting] tr[data-entry]")).to_have_count(7)
    expect(drawn(second)).to_have_count(7)
    entries = stored(first)
    assert len(entries) == len({one["id"] for one in entries}) == 7
    assert [one["seq"] for one in entries] == sorted({one["seq"] for one in entries})


def test_a_clock_set_back_loses_nothing_and_is_named(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=lambda page: page.clock.install(time="2026-03-05T10:00:00")))
    begin(page, "77", barley_kg="5000")
    line(page, "stage-begun", stage="wet")
    line(page, "water", water_temp_c="14")
    page.clock.set_system_time("2026-03-05T06:00:00")
    line(page, "basket", gross_g="850")
    entries = stored(page)
    assert [one["kind"] for one in entries] == ["start", "stage-begun", "water", "basket"]
    assert entries[-1]["written"] < entries[0]["written"]
    expect(page.locator("[data-place=checks]")).to_contain_text("clock", timeout=READY)
    expect(drawn(page)).to_have_count(4)


def test_a_full_disk_keeps_the_line_in_the_form_and_gives_it_as_a_file(
    open_page: Open, address: str, tmp_path: Path
) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    disk = page.context.new_cdp_session(page)
    disk.send("Storage.overrideQuotaForOrigin", {"origin": address.rstrip("/"), "quotaSize": 1})
    page.get_by_role("button", name="Begin a batch").click()
    sheet = page.locator(".entry-sheet")
    sheet.get_by_label("Batch number").fill("77")
    sheet.get_by_label("Barley lot").fill("the lot of the tidal barn")
    page.get_by_role("button", name="Write it").click()
    expect(page.locator(".entry-fault")).to_contain_text("no room left on this device")
    expect(sheet.get_by_label("Barley lot")).to_have_value("the lot of the tidal barn")
    with page.expect_download() as coming:
        page.get_by_role("button", name="with this line").click()
    coming.value.save_as(tmp_path / "book.json")
    assert "the lot of the tidal barn" in (tmp_path / "book.json").read_text()
    assert stored(page) == []
    disk.send("Storage.overrideQuotaForOrigin", {"origin": address.rstrip("/")})
    write_it(page)
    assert [one["values"]["lot"] for one in stored(page)] == ["the lot of the tidal barn"]


def test_a_browser_that_keeps_nothing_says_so(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=lambda page: page.add_init_script(f"({NO_STORE})()")))
    page.get_by_role("button", name="Begin a batch").click()
    page.get_by_label("Batch number").fill("77")
    page.get_by_role("button", name="Write it").click()
    expect(page.locator(".entry-fault")).to_contain_text("keeps nothing for this site")
    expect(page.get_by_label("Batch number")).to_have_value("77")


def test_a_number_that_is_taken_is_asked_back_once(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    page.get_by_role("link", name="All batches").click()
    page.get_by_role("button", name="Begin a batch").click()
    page.get_by_label("Batch number").fill(" 77 ")
    page.get_by_role("button", name="Write it").click()
    expect(page.locator(".entry-fault")).to_contain_text("in the book already")
    page.get_by_label("Batch number").fill("78")
    write_it(page)
    assert [one["batch"] for one in stored(page)] == ["77", "78"]
    page.go_back()
    expect(page.locator("[data-place=batches] a")).to_have_count(2)


def test_a_line_half_typed_comes_back_but_no_gas_reading(open_page: Open) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    choose(page, "basket").locator("[data-question=gross_g] input").fill("17")
    who = page.locator(".entry-sheet").get_by_label("Who")
    assert who.input_value() != "ZOE"
    who.fill("ZOE")
    page.reload()
    expect(page.locator(".entry-sheet [data-question=gross_g] input")).to_have_value("17")
    expect(who).to_have_value("ZOE")
    expect(page.locator(".entry-fault")).to_contain_text("is not in the book")
    page.get_by_role("button", name="Leave it").click()
    choose(page, "gas").locator("[data-question=gas_reading] input").fill("0.31")
    page.reload()
    opened(page)
    expect(page.locator(".entry-sheet")).to_be_hidden()
    assert "0.31" not in page.evaluate("() => JSON.stringify(localStorage)")
    assert len(stored(page)) == 1


@pytest.mark.python_here(False)
def test_without_a_network(open_page: Open, watch: Watch) -> None:
    page = opened(open_page(PAGE))
    begin(page, "77")
    expect(drawn(page)).to_have_count(1)
    page.context.set_offline(True)
    watch.expected.append("ERR_INTERNET_DISCONNECTED")  # the theme's own look for a newer version
    line(page, "water", water_temp_c="14")
    expect(drawn(page)).to_have_count(2)
    page.context.set_offline(False)


def test_everyone_can_use_it(visit: Open) -> None:
    page = opened(visit(PAGE))
    begin(page, "77", barley_kg="5000")
    line(page, "stage-begun", stage="wet")
    expect(page.locator(".entry-likely button").first).to_be_visible(timeout=READY)
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        small = "(all, least) => all.flatMap((kinds) => helpers.small(kinds, least))"
        assert page.locator(".entry-kinds").evaluate_all(small, KIND_BUTTON) == []
    drawn(page)
    section = page.locator("section.day-book")
    section.evaluate("place => place.querySelectorAll('details').forEach(more => { more.open = true; })")

    def fits() -> None:
        assert faults(page) == []
        for size in (DESK, PHONE):
            page.set_viewport_size(size)
            assert section.evaluate("(section, least) => helpers.small(section, least)", TARGET) == []
            page.wait_for_function("width => document.scrollingElement.scrollWidth <= width", arg=size["width"])

    fits()
    for kind in ("basket", "readiness", "gas", "drum"):
        choose(page, kind)
        fits()
        page.get_by_role("button", name="Leave it").click()


def test_the_whole_book_without_the_engine_is_a_file(open_page: Open, tmp_path: Path) -> None:
    page = opened(open_page(PAGE, before=without_engine))
    begin(page, "77")
    file = save(page, "Save the book as a file", tmp_path)
    assert '"kind": "steep-to-kiln day-book"' in file.read_text()
    expect(page.locator("[data-daybook=backup]")).to_contain_text("0 written since")
    line(page, "turned")
    expect(page.locator("[data-daybook=backup]")).to_contain_text("1 written since")
