"""Without a network: saved once, then the server is dead, the browser's cache is gone and the browser is a new one."""

from __future__ import annotations

import random
import re
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, Response, expect

from tests.browser.conftest import go
from tests.browser.device import PATIENCE, PLAIN, SAVED, House, house, saved
from tests.browser.editions import all_but
from tests.browser.sheets import SHEETS, answer_from_example, example, expect_standing, path_of, section
from tests.drawn import WHOLE, drawn

__all__ = ["house", "saved"]

pytestmark = pytest.mark.browser
SOME = [SHEETS[0], *random.sample(SHEETS[1:], drawn(len(SHEETS), 8) - 1)]
PLACES = (
    "learning/steep-water", "procedures/steeping", "records/by-codes", "records/day-book", "records/hand-over",
    "records/looking-back", "reference/offline", "reference/records/steep-record", "reference/terms",
    "reference/wall-sheets", "safety/emergency", "training/exercises", "training/practice-batch",
    "training/practice-batch-trainer", "training/questions-steeping", "training/session-01-first-day",
    "training/sign-off",
)  # fmt: skip
"""One of each kind of page. That all pages and their files are kept is asked of the list itself (`tests/site`)."""
LEFT_OUT = [] if WHOLE else all_but(*map(path_of, SOME), *PLACES)
HANDBOOK = "(await caches.keys()).filter((name) => name.includes(' handbook '))"
"""The copies of the handbook on this device; the started engine has a cache of its own."""


def panel(page: Page) -> Page:
    page.goto(f"{urlsplit(page.url).scheme}://{urlsplit(page.url).netloc}/reference/offline/")
    return page


def state(page: Page) -> str:
    return page.locator("[data-offline-panel] [data-offline-state]").inner_text()


def spoil(page: Page, path: str, how: str) -> None:
    """Delete or flip one byte of a kept file."""
    page.evaluate(
        """async ([path, how]) => {
            const name = (await caches.keys()).find((name) => name.includes(" handbook "));
            const cache = await caches.open(name);
            const key = new URL(path, location.origin);
            const held = await cache.match(key);
            if (!held) throw new Error(`${path} is not kept`);
            if (how === "delete") return cache.delete(key);
            const bytes = new Uint8Array(await held.arrayBuffer());
            bytes[bytes.length >> 1] ^= 1;
            return cache.put(key, new Response(bytes, { headers: held.headers }));
        }""",
        [path, how],
    )


ANSWERED_FIRST = """
performance.mark("sheet-answered");
const found = navigator.serviceWorker.getRegistration;
navigator.serviceWorker.getRegistration = async function (...which) {
  await new Promise((done) => setTimeout(done, 700));
  return found.apply(this, which);
};
"""
"""A number is answered before the device has been looked at."""


@pytest.mark.further
@pytest.mark.drawn
def test_every_page_opens_and_every_sheet_answers_without_a_network(saved: House) -> None:
    page = saved.open()
    replies: list[Response] = []

    def note(reply: Response) -> None:
        replies.append(reply)

    page.on("response", note)
    paths = {path.parent.relative_to(saved.site).as_posix() for path in saved.site.rglob("index.html")}
    assert len(paths) > 25
    reading = sorted(paths - {path_of(sheet).rstrip("/") for sheet in SHEETS})
    for number, path in enumerate(reading):
        target = f"{saved.address}{'' if path == '.' else f'{path}/'}"
        if number % 10:
            go(page, target)  # by a link, as most pages are come to
        else:
            page.goto(target, wait_until="domcontentloaded")
        expect(page.locator("h1").first).to_be_visible()
    assert {reply.url for reply in replies} >= {f"{saved.address}{path}/" for path in reading if path != "."}
    assert [reply.url for reply in replies if reply.status != 200 or not reply.from_service_worker] == []
    page.remove_listener("response", note)
    expect(page.locator(".offline-line")).to_contain_text(SAVED)
    for sheet in SOME:
        go(page, saved.address + path_of(sheet))
        place = section(page, sheet)
        expect(place).to_be_visible()
        place.evaluate("(section, questions) => helpers.ask(section, questions)", example(sheet))
        expect_standing(place, "answered")
    assert saved.faults == []
    saved.close()


@pytest.mark.further
def test_a_practice_run_goes_on_without_a_network_and_after_the_browser_was_closed(saved: House) -> None:
    page = saved.open("training/practice-batch/?number=3&level=2a&faults=none")
    expect(page.locator(".practice-stage[data-ended]")).to_be_visible(timeout=PATIENCE)
    page.locator("button[data-move=nx]").click()
    expect(page.locator(".practice-see")).to_contain_text("Under water for 8.0 h", timeout=PATIENCE)
    there = page.locator(".practice-clock").inner_text()
    saved.close()
    page = saved.open("training/practice-batch/")
    expect(page.locator(".practice-clock")).to_have_text(there, timeout=PATIENCE)
    page.locator("button[data-move=dr]").click()
    expect(page.locator(".practice-clock")).not_to_have_text(there, timeout=PATIENCE)
    saved.close()


def test_addresses_as_people_write_them_and_the_policy_of_all_that_is_kept(saved: House) -> None:
    page = saved.open()
    for written in (path_of(PLAIN).rstrip("/"), f"{path_of(PLAIN)}index.html", f"{path_of(PLAIN)}?a=1#top"):
        reply = page.goto(saved.address + written)
        assert reply and reply.status == 200, written
        expect(page.locator("section.sheet")).to_be_visible()
    reply = page.goto(f"{saved.address}no-such-page/")
    assert reply and reply.status == 404
    page.goto(saved.address)
    headers = page.evaluate(
        """async () => {
            const cache = await caches.open((await caches.keys()).find((name) => name.includes(" handbook ")));
            const kept = await cache.keys();
            return Promise.all(kept.filter(({url}) => !url.endsWith("kept-whole")).map(async (key) => {
                const { headers, redirected } = await cache.match(key);
                return [key.url, headers.get("Content-Security-Policy"), headers.get("Content-Type"), redirected];
            }));
        }"""
    )
    assert len(headers) > 80
    for url, policy, kind, redirected in headers:
        assert policy.startswith("default-src 'self'; script-src 'self'"), url
        assert kind and not redirected, url
        assert "?" not in url and not url.endswith("index.html")
    saved.close()


def test_damage_is_said_without_a_network_and_mended_with_one(house: House) -> None:
    page = house.open()
    spoil(page, path_of(PLAIN), "flip")
    spoil(page, "safety/", "delete")
    for path in (path_of(PLAIN), "safety/"):
        reply = page.goto(house.address + path)
        assert reply and reply.status == 504
        expect(page.locator("h1")).to_have_text("This page is damaged on this device")
    expect(panel(page).locator("[data-offline-state]")).to_contain_text("1 files of it are missing")
    page.get_by_role("button", name="Check and mend").click()
    expect(page.locator("[data-offline-state]")).to_contain_text("2 of", timeout=PATIENCE)
    expect(page.locator("[data-offline-state]")).to_contain_text("Try again when there is a network")

    house.start()
    page.goto(house.address + path_of(PLAIN))
    expect(page.locator("section.sheet")).to_be_visible()  # fetched anew as it was opened
    panel(page).get_by_role("button", name="Check and mend").click()
    expect(page.locator("[data-offline-state]")).to_contain_text("Mended: 1 damaged", timeout=PATIENCE)
    house.kill()
    for path in (path_of(PLAIN), "safety/"):
        reply = page.goto(house.address + path)
        assert reply and reply.status == 200


def test_a_damaged_engine_is_mended_and_started_again(house: House) -> None:
    page = house.open()
    spoil(page, next((house.site / "runtime").glob("*/pyodide.asm.wasm")).relative_to(house.site).as_posix(), "flip")
    spoil(page, next((house.site / "runtime").glob("*/python_stdlib.zip")).relative_to(house.site).as_posix(), "delete")
    house.start()
    page.goto(house.address + path_of(PLAIN))
    answer_from_example(page, PLAIN)


def test_a_copy_without_its_mark_is_not_called_saved_and_is_finished(house: House) -> None:
    page = house.open()
    spoil(page, "kept-whole", "delete")
    spoil(page, path_of(PLAIN), "delete")
    house.start()
    page.goto(house.address)
    panel(page)
    expect(page.locator("[data-offline-state]")).to_contain_text("Not saved")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.get_by_role("button", name=re.compile("Keep for use")).click()
    expect(page.locator("[data-offline-state]")).to_have_text(SAVED, timeout=PATIENCE)
    assert len([url for url in asked if "offline." not in url and "service-worker" not in url]) == 1


def test_a_flipped_byte_from_the_server_is_refused(house: House) -> None:
    page = house.open()
    house.start()
    panel(page).get_by_role("button", name="Remove it from this device").click()
    expect(page.locator("[data-offline-state]")).to_contain_text("Removed")
    assert page.evaluate("async () => (await navigator.serviceWorker.getRegistrations()).length") == 0
    assert page.evaluate("async () => (await caches.keys()).length") == 0
    house.rewrite(house.site / path_of(PLAIN) / "index.html", "<h1", "<h1 ")
    page.get_by_role("button", name=re.compile("Keep for use")).click()
    expect(page.locator("[data-offline-state]")).to_contain_text(
        f"Refused: {path_of(PLAIN)} is not the file that was published: its SHA-256 differs", timeout=PATIENCE
    )
    expect(page.locator("[data-offline-state]")).to_contain_text("Not saved")
    expect(page.locator(".offline-line")).not_to_contain_text("Saved")


def test_a_new_version_waits_for_consent_and_replaces_the_old_whole(house: House) -> None:
    house.rewrite(house.site / path_of(PLAIN) / "index.html", "</h1>", " in its second version</h1>")
    house.publish()
    house.start()
    page = house.open(path_of(PLAIN))
    heading = page.locator("h1")
    expect(heading).not_to_contain_text("second version")
    expect(page.locator(".offline-line")).to_contain_text("A newer version is there")
    page.add_init_script(ANSWERED_FIRST)
    page.reload()
    expect(page.locator(".offline-line")).to_contain_text("A newer version is there")
    before = page.evaluate(f"async () => {HANDBOOK}")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(urlsplit(request.url).path))
    panel(page).get_by_role("button", name=re.compile("Take the newer version")).click()
    expect(page.locator(".offline-line")).not_to_contain_text("A newer version is there", timeout=PATIENCE)
    expect(page.locator("[data-offline-state]")).to_have_text(SAVED)
    after = page.evaluate(f"async () => {HANDBOOK}")
    assert len(before) == len(after) == 1 and before != after
    assert not [path for path in asked if "/runtime/" in path], "fetched again what had not changed"
    house.close()
    house.kill()
    page = house.open(path_of(PLAIN))
    expect(page.locator("h1")).to_contain_text("second version")


def test_a_full_disk_is_said_and_survived(house: House) -> None:
    page = house.open()
    house.start()
    panel(page).get_by_role("button", name="Remove it from this device").click()
    expect(page.locator("[data-offline-state]")).to_contain_text("Removed")
    disk = page.context.new_cdp_session(page)
    disk.send("Storage.overrideQuotaForOrigin", {"origin": house.address.rstrip("/"), "quotaSize": 8_000_000})
    page.get_by_role("button", name=re.compile("Keep for use")).click()
    expect(page.locator("[data-offline-state]")).to_contain_text("not enough room on this device", timeout=PATIENCE)
    assert page.evaluate("async () => (await caches.keys()).length") == 0
    page.goto(house.address + path_of(PLAIN))
    answer_from_example(page, PLAIN)


def test_an_http_address_on_the_local_network_says_what_it_cannot_do(house: House) -> None:
    house.start()
    port = urlsplit(house.address).port
    page = house.open("", "--host-resolver-rules=MAP handbook.test 127.0.0.1")
    page.goto(f"http://handbook.test:{port}/reference/offline/")
    expect(page.locator("[data-offline-state]")).to_contain_text("This address cannot be kept")
    assert page.locator("[data-offline-panel] button").count() == 0
    page.goto(f"http://handbook.test:{port}/{path_of(PLAIN)}")
    answer_from_example(page, PLAIN)
    assert page.locator("[data-offline-offer]").count() == 0
