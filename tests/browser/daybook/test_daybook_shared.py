"""One book on two devices, through the folder of a real server; and what the page says when something is in the way."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, Route, expect

from tests.browser.book import PAGE, begin, line, opened, read_in, stored
from tests.browser.conftest import Watch, without_engine
from tests.browser.sheets import READY
from tests.site.shared_servers import PASSWORD, RUN, USER, Shared

pytestmark = [pytest.mark.browser, pytest.mark.python_here, pytest.mark.further]
Device = Callable[..., Page]


LONG = pytest.mark.long  # other servers beside ours, which tests without a browser speak with too


@pytest.fixture(params=[pytest.param("nginx", marks=LONG), pytest.param("apache2", marks=LONG), "ours"])
def server(request: pytest.FixtureRequest, built_site: Path, tmp_path: Path) -> Iterator[Shared]:
    with RUN[request.param](built_site, tmp_path) as running:
        yield running


@pytest.fixture
def ours(built_site: Path, tmp_path: Path) -> Iterator[Shared]:
    with RUN["ours"](built_site, tmp_path) as running:
        yield running


@pytest.fixture
def device(browser: Browser) -> Iterator[Device]:
    """Open the day-book on another device: ``device(server)``. Only what comes from others needs an engine."""
    pages: list[Page] = []
    watches: list[Watch] = []

    def open_one(
        server: Shared, *, expected: tuple[str, ...] = (), takes: bool = True, clock: str | None = None
    ) -> Page:
        watch = Watch(server.address)
        watch.expected += expected
        page = watch.new_page(browser, http_credentials={"username": USER, "password": PASSWORD})
        if not takes:
            without_engine(page)
        if clock is not None:
            page.clock.install(time=clock or None)
        watches.append(watch)
        pages.append(page)
        page.goto(server.address + PAGE)
        return opened(page)

    yield open_one
    for page in pages:
        page.context.close()
    for watch in watches:
        watch.check()


def press(page: Page, button: str) -> None:
    page.locator("details.day-book-files").evaluate("more => { more.open = true; }")
    page.get_by_role("button", name=button, exact=True).click()


def told(page: Page) -> Locator:
    return page.locator("[data-daybook=shared]")


def share(page: Page) -> None:
    press(page, "Share this book through the server")


def a_minute_later(page: Page) -> None:
    """Past the next look at the folder, and past what comes of it."""
    page.clock.run_for(61_000)
    page.wait_for_timeout(300)


def ids(page: Page) -> set[str]:
    return {one["id"] for one in stored(page)}


def test_two_devices_end_with_one_book(server: Shared, device: Device) -> None:
    one, two = device(server), device(server)
    begin(one, "77")
    begin(two, "78")
    assert list(server.folder.glob("*.json")) == [], "something was shared that nobody had switched on"
    share(one)
    share(two)
    expect(told(two)).to_contain_text("1 line came from other devices", timeout=READY)
    expect(told(two)).to_contain_text("(batch 77)")
    line(two, "basket", gross_g="171")
    expect(told(two)).to_contain_text("Every line of this book is in the shared folder", timeout=READY)
    press(one, "Look now")
    expect(told(one)).to_contain_text("2 lines came from other devices", timeout=READY)
    assert ids(one) == ids(two)
    assert len(ids(one)) == 3
    expect(told(one)).not_to_have_attribute("data-remind", "")


def test_nothing_goes_out_before_it_is_switched_on_or_after_it_is_switched_off(ours: Shared, device: Device) -> None:
    page = device(ours, takes=False, clock="")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url) if "/shared/" in request.url else None)
    begin(page, "77")
    expect(told(page)).to_be_hidden()
    assert not asked
    share(page)
    expect(told(page)).to_contain_text("Every line", timeout=READY)
    press(page, "Stop sharing")
    expect(told(page)).to_be_hidden()
    before = len(asked)
    line(page, "basket", gross_g="171")
    a_minute_later(page)
    assert len(asked) == before
    page.reload()
    opened(page)
    a_minute_later(page)
    assert len(asked) == before


def test_lines_wait_without_a_network_and_go_out_later(ours: Shared, device: Device) -> None:
    page = device(ours, expected=("ERR_FAILED", "Failed to load"), takes=False)
    begin(page, "77")
    share(page)
    expect(told(page)).to_contain_text("Every line", timeout=READY)
    page.route("**/shared/**", lambda route: route.abort())
    line(page, "basket", gross_g="171")
    expect(told(page)).to_contain_text("1 line of this book waits here and goes out later.")
    expect(told(page)).to_contain_text("The server cannot be reached. It is tried again every minute.", timeout=READY)
    page.unroute("**/shared/**")
    page.reload()  # the device was put away meanwhile
    opened(page)
    expect(told(page)).to_contain_text("Every line of this book is in the shared folder", timeout=READY)
    gone_out = [one["id"] for file in ours.folder.glob("*.json") for one in json.loads(file.read_text())["entries"]]
    assert sorted(gone_out) == sorted(ids(page))


@pytest.mark.parametrize(
    ("status", "words", "by_hand"),
    [
        (401, "did not take the password", True),
        (507, "The server has no room left. It answered 507.", False),
        (500, "its disk may be full. It answered 500.", False),
        (403, "does not let this page write into the folder", True),
    ],
)
def test_what_the_server_refuses_is_said_and_waits(
    ours: Shared, device: Device, status: int, words: str, by_hand: bool
) -> None:
    def refuse(route: Route) -> None:
        if route.request.method == "PUT" or status == 401:
            route.fulfill(status=status, body="no")
        else:
            route.continue_()

    page = device(ours, expected=("Failed to load",), takes=False)
    begin(page, "77")
    page.route("**/shared/**", refuse)
    share(page)
    expect(told(page)).to_contain_text(words, timeout=READY)
    expect(told(page)).to_contain_text("1 line of this book waits here")
    expect(told(page)).to_contain_text("press “Look now”" if by_hand else "tried again every minute")
    expect(told(page)).to_have_attribute("data-remind", "")
    page.unroute("**/shared/**")
    press(page, "Look now")
    expect(told(page)).to_contain_text("Every line of this book is in the shared folder", timeout=READY)
    assert len(list(ours.folder.glob("*.json"))) == 1


def test_half_a_file_is_not_read(ours: Shared, device: Device) -> None:
    one, two = device(ours, takes=False), device(ours)
    begin(one, "77")
    share(one)
    expect(told(one)).to_contain_text("Every line", timeout=READY)
    (file,) = ours.folder.glob("*.json")
    file.write_bytes(file.read_bytes()[:-40])
    share(two)
    expect(told(two)).to_contain_text("1 file in the folder is not whole and was not read", timeout=READY)
    assert stored(two) == []


def test_a_server_without_a_folder_says_so(built_site: Path, tmp_path: Path, address: str, device: Device) -> None:
    page = device(Shared(address, tmp_path, has_password=False), expected=("Failed to load",), takes=False)
    begin(page, "77")
    share(page)
    expect(told(page)).to_contain_text("The server has no folder for sharing", timeout=READY)
    expect(told(page)).to_contain_text("1 line of this book waits here")
    expect(page.locator("[data-daybook=share]").get_by_role("link")).to_have_attribute(
        "href", f"{address}reference/sharing/"
    )


def test_a_clock_that_is_wrong_loses_nothing_and_is_said(ours: Shared, device: Device) -> None:
    one, two = device(ours, takes=False), device(ours, clock="2031-01-01T08:00:00Z")
    begin(one, "77")
    share(one)
    share(two)
    expect(told(two)).to_contain_text("1 line came", timeout=READY)
    expect(told(two)).to_contain_text("min ahead of the server’s")
    assert ids(one) == ids(two)


def test_removing_everything_ends_the_sharing(ours: Shared, device: Device) -> None:
    page = device(ours, takes=False, clock="")
    begin(page, "77")
    share(page)
    expect(told(page)).to_contain_text("Every line", timeout=READY)
    page.locator("details.day-book-files").get_by_role("button", name="Remove everything").click()
    page.locator("details.day-book-files [data-action=remove]").click()
    expect(page.locator("[data-daybook=state]")).to_contain_text("The book is empty")
    expect(told(page)).to_be_hidden()
    a_minute_later(page)
    assert stored(page) == []


def test_one_batch_goes_by_a_file_alone(ours: Shared, device: Device, tmp_path: Path) -> None:
    one, two = device(ours, takes=False), device(ours)
    begin(one, "78")
    one.locator("[data-daybook=all]").click()
    begin(one, "77")
    line(one, "basket", gross_g="171")
    with one.expect_download(timeout=READY) as coming:
        one.get_by_role("button", name="Save this batch as a file").click()
    file = tmp_path / coming.value.suggested_filename
    coming.value.save_as(file)
    expect(read_in(two, file.read_text()[:-60], file.name)).to_contain_text("0 lines added", timeout=READY)
    assert stored(two) == [], "half a file was taken"
    expect(read_in(two, file.read_text(), file.name)).to_contain_text("2 lines added", timeout=READY)
    assert {entry["batch"] for entry in stored(two)} == {"77"}
