"""A camera that sees what another page showed: a film of its pictures, given to Chromium in place of a device."""

from __future__ import annotations

import base64
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Page, Playwright, expect

from tests.browser.conftest import LIGHTLY, program
from tests.browser.sheets import READY

FILMED = {"width": 640, "height": 480}
A_SECOND = 6
PLACE = "[data-codes=screen]"
LIGHT = """async (png) => {
  const picture = await createImageBitmap(new Blob([Uint8Array.from(atob(png), (sign) => sign.charCodeAt(0))]));
  const drawn = new OffscreenCanvas(picture.width, picture.height).getContext("2d");
  drawn.drawImage(picture, 0, 0);
  const { data } = drawn.getImageData(0, 0, picture.width, picture.height);
  let light = "";
  for (let at = 0; at < data.length; at += 4) {
    light += String.fromCharCode(Math.round(0.299 * data[at] + 0.587 * data[at + 1] + 0.114 * data[at + 2]));
  }
  return btoa(light);
}"""


def flags(film: Path) -> list[str]:
    """What has Chromium take a film for its camera, without asking anybody."""
    return [
        "--use-fake-device-for-media-stream",
        "--use-fake-ui-for-media-stream",
        f"--use-file-for-fake-video-capture={film}",
    ]


def show(page: Page, what: str = "") -> int:
    """Have a page show its codes, standing still at the first; return how many there are."""
    page.locator("#give-what").select_option(what)
    page.locator(PLACE).evaluate("(place) => place.replaceChildren()")  # not what was shown before
    page.get_by_role("button", name="Show the codes").click()
    expect(page.locator(f"{PLACE} svg")).to_be_visible(timeout=READY)
    still = page.get_by_role("button", name="Stand still")
    if still.is_visible():
        still.click()
    return int(page.locator("[data-codes=place]").inner_text().split(" of ")[1].split(",")[0])


def pictures(page: Page, rounds: int = 3) -> list[bytes]:
    """What a camera over the page sees while all codes are shown, some rounds of them."""
    size = page.viewport_size
    count = int(page.locator("[data-codes=place]").inner_text().split(" of ")[1].split(",")[0])
    page.set_viewport_size({"width": FILMED["width"], "height": FILMED["height"]})
    seen = []
    for _ in range(rounds * count):
        page.locator(PLACE).scroll_into_view_if_needed()
        before = page.locator("[data-codes=place]").inner_text()
        seen.append(picture(page))
        page.get_by_role("button", name="Next code").click()
        expect(page.locator("[data-codes=place]")).not_to_have_text(before, timeout=READY)
    if size:
        page.set_viewport_size(size)
    return seen


def picture(page: Page) -> bytes:
    """The light of each dot of the page, row by row, as a camera sees it."""
    seen: str = page.evaluate(LIGHT, base64.b64encode(page.screenshot()).decode())
    return base64.b64decode(seen)


def film(seen: Iterable[bytes], file: Path) -> Path:
    """Pictures one after the other, without colour, as Chromium takes them: YUV4MPEG2."""
    width, height = FILMED["width"], FILMED["height"]
    grey = b"\x80" * (width * height // 2)
    with file.open("wb") as made:
        made.write(f"YUV4MPEG2 W{width} H{height} F{A_SECOND}:1 Ip A1:1 C420jpeg\n".encode())
        for one in seen:
            made.write(b"FRAME\n" + one + grey)
    return file


@contextmanager
def filmed(playwright: Playwright, file: Path, *more: str) -> Iterator[Browser]:
    """A browser whose camera shows a film."""
    chromium = playwright.chromium.launch(executable_path=program(light=True), args=[*LIGHTLY, *flags(file), *more])
    yield chromium
    chromium.close()
