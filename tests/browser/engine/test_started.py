"""The started engine kept on the device: the next start takes it up, and never when it is damaged."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page

from calculators.asking.declare import Sheet
from calculators.sheets import find_sheet
from tests.browser.conftest import HELPERS, Watch, go, only_python
from tests.browser.sheets import answer_from_example, example, expect_standing, path_of, section, type_in
from tests.browser.sheets import places as all_places

pytestmark = [pytest.mark.browser, pytest.mark.further]
SHEET = find_sheet("steep-timing")
TYPED = {**example(SHEET), "barley_moisture": "12.345678"}
WITH_A_PACKAGE = find_sheet("bed-heat")
KEPT = """async () => {
  for (const name of await caches.keys()) {
    if (!name.includes(" started ")) continue;
    const cache = await caches.open(name);
    const [request] = await cache.keys();
    if (request) return { name, key: request.url, held: await cache.match(request) };
  }
  return null;
}"""


def has_kept(page: Page) -> bool:
    return bool(page.evaluate(f"async () => Boolean(await ({KEPT})())"))


def wait_until_kept(page: Page) -> None:
    for _ in range(100):
        if has_kept(page):
            return
        page.wait_for_timeout(200)
    pytest.fail("the started engine was not kept")


def spoil(page: Page, how: str) -> None:
    """Flip one byte in the middle of what is kept, or cut it short."""
    page.evaluate(
        f"""async (how) => {{
            const {{ name, key, held }} = await ({KEPT})();
            let bytes = new Uint8Array(await held.arrayBuffer());
            if (how === "flip") bytes[bytes.length >> 1] ^= 1;
            else bytes = bytes.slice(0, 70000);
            await (await caches.open(name)).put(key, new Response(bytes, {{ headers: held.headers }}));
        }}""",
        how,
    )


def start(page: Page) -> dict[str, Any]:
    """How the engine of this page came up."""
    found: dict[str, Any] = page.evaluate("() => performance.getEntriesByName('engine-start').at(-1).detail")
    return found


def places(place: Locator) -> dict[str, str]:
    """What stands in the results, but for the minute of printing."""
    return {name: words for name, words in all_places(place).items() if name != "print"}


def again(page: Page, sheet: Sheet) -> Page:
    """The same device, a new page."""
    other = page.context.new_page()
    other.add_init_script(path=HELPERS)
    only_python(other)
    other.goto(page.url.split("calculators/")[0] + path_of(sheet))
    return other


def typed_in(page: Page) -> Locator:
    place = section(page, SHEET)
    type_in(place, SHEET, TYPED)
    expect_standing(place, "answered")
    return place


@pytest.fixture(scope="module")
def first(browser: Browser, address: str) -> Iterator[Page]:
    """A page whose engine was started the long way, was used, and was kept."""
    watch = Watch(address)
    page = watch.new_page(browser)
    only_python(page)
    page.goto(address + path_of(SHEET))
    section(page, SHEET).locator("[name=barley_moisture]").fill("12.345678")  # waits for the engine in its queue
    typed_in(page)
    assert start(page)["again"] is False
    wait_until_kept(page)
    yield page
    page.context.close()
    watch.check()


def test_nothing_typed_is_in_it(first: Page) -> None:
    wait_until_kept(first)
    holds = f"""async (words) => {{
        const bytes = new Uint8Array(await (await ({KEPT})()).held.arrayBuffer());
        return new TextDecoder("latin1").decode(bytes).includes(words);
    }}"""
    assert first.evaluate(holds, "NOT YOUR VESSEL"), "its own words are not found either"
    assert not first.evaluate(holds, "12.345678")


@pytest.mark.parametrize("how", ["flip", pytest.param("cut", marks=pytest.mark.long)])
def test_damage_is_thrown_away_and_the_long_way_answers(first: Page, how: str) -> None:
    """What is kept anew is what the tests below start with."""
    wait_until_kept(first)
    spoil(first, how)
    second = again(first, SHEET)
    assert places(typed_in(second)) == places(section(first, SHEET))
    assert start(second)["again"] is False
    wait_until_kept(second)
    second.close()


def test_the_next_start_takes_it_up_and_answers_the_same(first: Page, address: str) -> None:
    """Also what was typed on this device before, and a sheet with a package of its own."""
    second = again(first, SHEET)
    expect_standing(section(second, SHEET), "answered")
    assert places(section(second, SHEET)) == places(section(first, SHEET))
    go(second, address + path_of(WITH_A_PACKAGE))
    answer_from_example(second, WITH_A_PACKAGE)
    assert start(second)["again"] is True
    second.close()
