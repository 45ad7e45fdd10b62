"""Every page, opened once: no wider than a screen, usable by everyone in light and dark, each of its
controls within reach of a finger and its charts plain on the smallest phone, and whole on paper."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

from calculators import __version__
from calculators.sheets import sheet_ids
from tests.browser.conftest import DESK, PHONE, go, lasting_page
from tests.browser.faults import TEXT, faults_of_colour, faults_of_form
from tests.browser.printed import CONTROLS, needs_poppler
from tests.browser.sheets import open_all
from tests.browser.test_access import TARGET
from tests.browser.test_charts import faults as chart_faults

pytestmark = pytest.mark.browser
DOCS = Path(__file__).parents[2] / "docs"
PAGES = sorted(
    (path.parent if path.stem == "index" else path.with_suffix("")).relative_to(DOCS).as_posix()
    for path in DOCS.rglob("*.md")
    if "_includes" not in path.parts
)
FRAMED = [".", "calculators/steep-timing", "procedures/steeping", "training/exercises"]
"""Where the frame of a page is looked at as well; it is the same around every page."""
GLANCE = "reference/the-job-at-a-glance"
"""The page that has to be one sheet of paper."""
SMALL: ViewportSize = {"width": 320, "height": 568}
SCHEME = "scheme => { document.body.dataset.mdColorScheme = scheme; }"
"""As the theme's own button changes the colours."""
PRESSED = "button, input, select, textarea, progress, .md-header, .md-tabs, .md-sidebar, .md-footer, .headerlink"
WORDS = (
    *(words for words in CONTROLS if words != "More questions"),  # which is a heading of the page of sheets
    "Print the questions",
    "Back to top",
    "Remove row",
)


@pytest.fixture(scope="module")
def desk(browser: Browser, address: str) -> Iterator[Page]:
    """A page whose engine never starts, so that it is seen as it was built."""
    with lasting_page(browser, address, viewport=DESK, reduced_motion="reduce") as page:
        yield page


@pytest.fixture(scope="module", params=PAGES, ids=lambda name: "home" if name == "." else name)
def name(request: pytest.FixtureRequest, desk: Page, address: str) -> str:
    """The page that stands on the desk."""
    path: str = request.param
    target = address if path == "." else f"{address}{path}/"
    desk.set_viewport_size(DESK)
    if request.session.testsfailed:  # nothing of a page that failed goes along
        desk.goto("about:blank")
    go(desk, target)
    for part in desk.locator("[data-daybook=whole]").all():
        expect(part).not_to_have_attribute("hidden", re.compile(""))  # the page's own script has been at work
    return path


@pytest.fixture(scope="module")
def looks() -> dict[str, set[str]]:
    return {"light": set(), "dark": set(), "kinds": set()}


@pytest.fixture(scope="module")
def on_paper() -> set[str]:
    """The kinds of element that have been seen on paper."""
    return set()


def test_no_page_is_left_out(built_site: Path) -> None:
    assert sorted(path.parent.relative_to(built_site).as_posix() for path in built_site.rglob("index.html")) == PAGES


def run(*words: str) -> str:
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout


@needs_poppler
def test_it_is_whole_on_paper(desk: Page, tmp_path: Path, name: str, on_paper: set[str]) -> None:
    """Printed is each page that has a kind of element that was on no paper before: what is seen there hangs on that."""
    new = desk.evaluate("known => helpers.kinds(known)", sorted(on_paper))
    if new or name == GLANCE:
        expect_whole_on_paper(desk, name, tmp_path / "page.pdf")
        on_paper.update(new)


def expect_whole_on_paper(desk: Page, name: str, file: Path) -> None:
    desk.emulate_media(media="print")
    seen = desk.evaluate(
        "style => [...document.querySelectorAll(style)].filter(one => one.checkVisibility()).map(one => one.className)",
        PRESSED,
    )
    desk.emulate_media(media="null")
    assert seen == []
    title = desk.locator("h1").first.inner_text().replace("¶", "").strip()
    desk.pdf(path=str(file), prefer_css_page_size=True)
    assert "(A4)" in run("pdfinfo", str(file))
    text = " ".join(run("pdftotext", "-layout", str(file), "-").split())
    assert text.startswith(title) or name.startswith("calculators/")
    assert title in text
    last = re.search(rf"· Steep to Kiln, version {re.escape(__version__)}, built \d+ \w+ 20\d\d$", text)
    assert last, text[-200:]
    for words in WORDS:
        assert words not in text
    if name == GLANCE:
        assert re.search(r"(?m)^Pages: +1$", run("pdfinfo", str(file)))
    if name.removeprefix("calculators/") in sheet_ids():
        assert "how far to trust it" in text and "How far to trust it:" in text
        assert "Sources" in text
        assert "Example" in text or desk.locator("section.sheet[data-guarded=yes]").count()
        figure = desk.locator("section.sheet .answer .figure").first
        assert " ".join(figure.locator(".of-example, .number, .verdict").all_inner_texts()) in text


def test_it_fits_every_screen(desk: Page, name: str) -> None:
    open_all(desk.locator("main"))
    small = desk.locator("section.sheet") if name.startswith("calculators/") else None
    for size in (DESK, PHONE, SMALL):
        desk.set_viewport_size(size)
        width = desk.evaluate("() => document.scrollingElement.scrollWidth")
        assert width <= size["width"], f"{width} px"
        if small and size is not SMALL:
            assert small.evaluate_all("(all, least) => all.flatMap(one => helpers.small(one, least))", TARGET) == []
    assert desk.evaluate("() => helpers.hiddenColumns()") == []
    assert chart_faults(desk) == []


def covered(page: Page, root: str = "body") -> list[str]:
    found: list[str] = page.evaluate("root => helpers.covered(root)", root)
    return found


def test_every_control_can_be_hit_at_its_centre(desk: Page, name: str) -> None:
    open_all(desk.locator("main"))
    desk.evaluate("() => scrollTo(0, 0)")
    assert covered(desk) == []
    desk.set_viewport_size(PHONE)
    desk.evaluate("() => scrollTo(0, 0)")
    assert covered(desk) == []
    button = desk.locator(".md-header label[for=__drawer]").bounding_box()
    assert button is not None
    desk.mouse.click(button["x"] + button["width"] / 2, button["y"] + button["height"] / 2)
    expect(desk.locator("#__drawer")).to_be_checked()
    assert covered(desk, ".md-sidebar--primary") == []


def test_axe_finds_nothing_serious(desk: Page, name: str, looks: dict[str, set[str]]) -> None:
    open_all(desk.locator("main"))
    found = []
    if desk.evaluate("() => helpers.scrolls()"):
        found += faults_of_form(desk, TEXT, ["scrollable-region-focusable"])
    # In the dark a look is new only where the kind of an element is new, or its look in the light.
    new = desk.evaluate("known => helpers.kinds(known)", sorted(looks["kinds"]))
    before = len(looks["light"])
    looks["kinds"].update(new)
    desk.set_viewport_size(PHONE)
    found += faults_of_colour(desk, looks["light"])
    found += faults_of_form(desk, None if name in FRAMED else TEXT)
    if new or len(looks["light"]) > before:
        desk.set_viewport_size(DESK)
        desk.evaluate(SCHEME, "slate")
        found += faults_of_colour(desk, looks["dark"])
        desk.evaluate(SCHEME, "default")
    assert found == []


def test_what_is_wrong_is_found(desk: Page, address: str) -> None:
    desk.set_viewport_size(DESK)
    desk.goto(address)
    looks: set[str] = set()
    assert faults_of_colour(desk, looks) == [] and looks
    desk.locator("article").evaluate("""article => {
        const pale = article.appendChild(document.createElement("p"));
        pale.textContent = "too pale to be read";
        pale.style.color = "rgb(200, 200, 200)";
        article.appendChild(document.createElement("button")).style.width = "30px";
        const lid = article.appendChild(document.createElement("div"));
        lid.style.cssText = "position: fixed; inset: 0 0 auto 0; height: 60px; z-index: 99";
    }""")
    assert "too pale" in "".join(faults_of_colour(desk, looks))
    assert "button-name" in "".join(faults_of_form(desk, TEXT))
    assert desk.locator("article").evaluate("(article, least) => helpers.small(article, least)", TARGET)
    assert desk.evaluate("known => helpers.kinds(known)", desk.evaluate("() => helpers.kinds([])")) == []
    assert desk.evaluate("() => helpers.scrolls()") is False
    desk.locator("article p").first.evaluate("one => { one.style.cssText = 'height: 9px; overflow: auto'; }")
    assert desk.evaluate("() => helpers.scrolls()") is True
    desk.evaluate("() => scrollTo(0, 0)")
    assert "md-logo" in "".join(covered(desk))
