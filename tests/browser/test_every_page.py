"""Every page, opened once: no wider than a screen, usable by everyone, each of its controls within reach of a finger
and its charts plain on the smallest phone. A page that has a kind of element that none before it had is looked at in
every way: by axe, in the dark, on a larger phone and a desk, and whole on paper."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

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
from tests.drawn import WHOLE

pytestmark = pytest.mark.browser
DOCS = Path(__file__).parents[2] / "docs"
PAGES = sorted(
    (path.parent if path.stem == "index" else path.with_suffix("")).relative_to(DOCS).as_posix()
    for path in DOCS.rglob("*.md")
    if "_includes" not in path.parts
)
FRAMED = [".", "calculators/steep-timing", "procedures/steeping", "training/exercises"]
"""Where the frame of a page is looked at as well; it is the same around every page."""
FIRST_OF_A_PART = {name.partition("/")[0]: name for name in reversed(PAGES)}.values()
"""Where the menu is drawn out; it is the same on all pages of a part."""
GLANCE = "reference/the-job-at-a-glance"
"""The page that has to be one sheet of paper."""
SMALL: ViewportSize = {"width": 320, "height": 568}
FORM = Path(__file__).with_name("form_faults.js").read_text("utf-8").rstrip().rstrip(";")
SCHEME = "scheme => { document.body.dataset.mdColorScheme = scheme; }"
"""As the theme's own button changes the colours."""
PRESSED = "button, input, select, textarea, progress, .md-header, .md-tabs, .md-sidebar, .md-footer, .headerlink"
WORDS = (
    *(words for words in CONTROLS if words != "More questions"),  # which is a heading of the page of sheets
    "Print the questions",
    "Back to top",
    "Remove row",
)


class Here(NamedTuple):
    """The page that stands on the screen, and whether all of it is looked at: what is seen there hangs on its kinds."""

    name: str
    whole: bool


@pytest.fixture(scope="module")
def screen(browser: Browser, address: str) -> Iterator[Page]:
    """A page whose engine never starts, so that it is seen as it was built."""
    with lasting_page(browser, address, viewport=SMALL, reduced_motion="reduce") as page:
        yield page


@pytest.fixture(scope="module")
def known() -> dict[str, set[str]]:
    """What earlier pages had: kinds of element, and looks in the light and in the dark."""
    return {"kinds": set(), "light": set(), "dark": set()}


@pytest.fixture(scope="module", params=PAGES, ids=lambda name: "home" if name == "." else name)
def here(request: pytest.FixtureRequest, screen: Page, address: str, known: dict[str, set[str]]) -> Here:
    name: str = request.param
    target = address if name == "." else f"{address}{name}/"
    screen.set_viewport_size(SMALL)
    if request.session.testsfailed:  # nothing of a page that failed goes along
        screen.goto("about:blank")
    go(screen, target)
    for part in screen.locator("[data-daybook=whole]").all():
        expect(part).not_to_have_attribute("hidden", re.compile(""))  # the page's own script has been at work
    new = screen.evaluate("known => helpers.kinds(known)", sorted(known["kinds"]))
    known["kinds"].update(new)
    return Here(name, WHOLE or bool(new) or name in FRAMED)


def test_no_page_is_left_out(built_site: Path) -> None:
    assert sorted(path.parent.relative_to(built_site).as_posix() for path in built_site.rglob("index.html")) == PAGES


def run(*words: str) -> str:
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout


@pytest.mark.further(keep=12)
@needs_poppler
@pytest.mark.drawn
def test_it_is_whole_on_paper(screen: Page, here: Here, tmp_path: Path) -> None:
    if here.whole or here.name == GLANCE:
        expect_whole_on_paper(screen, here.name, tmp_path / "page.pdf")


def expect_whole_on_paper(page: Page, name: str, file: Path) -> None:
    page.emulate_media(media="print")
    seen = page.evaluate(
        "style => [...document.querySelectorAll(style)].filter(one => one.checkVisibility()).map(one => one.className)",
        PRESSED,
    )
    page.emulate_media(media="null")
    assert seen == []
    title = page.locator("h1").first.inner_text().replace("¶", "").strip()
    page.pdf(path=str(file), prefer_css_page_size=True)
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
        assert "Example" in text or page.locator("section.sheet[data-guarded=yes]").count()
        figure = page.locator("section.sheet .answer .figure").first
        assert " ".join(figure.locator(".of-example, .number, .verdict").all_inner_texts()) in text


def covered(page: Page, root: str = "body") -> list[str]:
    found: list[str] = page.evaluate("root => helpers.covered(root)", root)
    return found


def expect_within_reach(page: Page, name: str, size: ViewportSize) -> None:
    """Nothing is wider than the screen, nothing too small for a finger, nothing under something else."""
    page.set_viewport_size(size)
    width = page.evaluate("() => document.scrollingElement.scrollWidth")
    assert width <= size["width"], f"{width} px"
    if name.startswith("calculators/"):
        sheets = page.locator("section.sheet")
        assert sheets.evaluate_all("(all, least) => all.flatMap(one => helpers.small(one, least))", TARGET) == []
    page.evaluate("() => scrollTo(0, 0)")
    assert covered(page) == []


@pytest.mark.further(keep=12)
@pytest.mark.drawn
def test_it_fits_the_smallest_screen(screen: Page, here: Here) -> None:
    open_all(screen.locator("main"))
    expect_within_reach(screen, here.name, SMALL)
    assert screen.evaluate("() => helpers.hiddenColumns()") == []
    assert screen.evaluate("() => helpers.brokenFigures()") == []
    assert chart_faults(screen) == []
    if WHOLE or here.name in FIRST_OF_A_PART:
        expect_menu_within_reach(screen)


def expect_menu_within_reach(page: Page) -> None:
    page.evaluate("() => scrollTo(0, 0)")
    page.locator(".md-header label[for=__drawer]").click()
    expect(page.locator("#__drawer")).to_be_checked()
    assert covered(page, ".md-sidebar--primary") == []
    page.locator("#__drawer").evaluate("box => box.click()")


@pytest.mark.further(keep=12)
@pytest.mark.drawn
def test_everyone_can_use_it(screen: Page, here: Here, known: dict[str, set[str]]) -> None:
    assert screen.evaluate(FORM) == []
    before = len(known["light"])
    found = faults_of_colour(screen, known["light"])
    if here.whole:
        found += faults_of_form(screen, None if here.name in FRAMED else TEXT)
    if here.whole or len(known["light"]) > before:
        screen.evaluate(SCHEME, "slate")
        found += faults_of_colour(screen, known["dark"])
        screen.evaluate(SCHEME, "default")
    assert found == []


@pytest.mark.further(keep=12)
@pytest.mark.drawn
def test_it_fits_a_phone_and_a_desk(screen: Page, here: Here, known: dict[str, set[str]]) -> None:
    if not here.whole:
        return
    expect_within_reach(screen, here.name, PHONE)
    expect_within_reach(screen, here.name, DESK)
    found = faults_of_colour(screen, known["light"])
    if here.name in FRAMED:
        screen.evaluate(SCHEME, "slate")
        found += faults_of_colour(screen, known["dark"])
        screen.evaluate(SCHEME, "default")
    assert found == []


@pytest.mark.parametrize(
    ("html", "words"),
    [
        ("<h4>Too deep</h4>", "skips a level"),
        ("<h2><a class=headerlink>¶</a></h2>", "without words"),
        ("<p id=twice>one</p><p id=twice>two</p>", "stands twice"),
        ("<p aria-describedby=nothing>words</p>", "points nowhere"),
        ("<a href=x><svg></svg></a>", "no words to press"),
        ("<input>", "without a label"),
        ("<svg role=img></svg>", "without words"),
        ("<ul><p>words</p></ul>", "no item of it"),
        ("<dl><p>words</p></dl>", "in a list of terms"),
        ("<div class=small><p>words</p></div>", "not by the keyboard"),
    ],
)
def test_a_fault_of_form_is_found(screen: Page, address: str, html: str, words: str) -> None:
    go(screen, address)
    screen.locator("article").evaluate("(article, html) => article.insertAdjacentHTML('beforeend', html)", html)
    screen.locator("article > .small").evaluate_all(
        "all => all.forEach((one) => { one.style.cssText = 'height: 9px; overflow: auto'; })"
    )
    assert words in "".join(screen.evaluate(FORM))
    screen.locator("article > :last-child").evaluate("one => one.remove()")


def test_what_is_wrong_is_found(screen: Page, address: str) -> None:
    screen.set_viewport_size(DESK)
    screen.goto(address)
    looks: set[str] = set()
    assert faults_of_colour(screen, looks) == [] and looks
    screen.locator("article").evaluate("""article => {
        const pale = article.appendChild(document.createElement("p"));
        pale.textContent = "too pale to be read";
        pale.style.color = "rgb(200, 200, 200)";
        article.appendChild(document.createElement("button")).style.width = "30px";
        const lid = article.appendChild(document.createElement("div"));
        lid.style.cssText = "position: fixed; inset: 0 0 auto 0; height: 60px; z-index: 99";
    }""")
    assert "too pale" in "".join(faults_of_colour(screen, looks))
    assert "button-name" in "".join(faults_of_form(screen, TEXT))
    assert screen.locator("article").evaluate("(article, least) => helpers.small(article, least)", TARGET)
    assert screen.evaluate("known => helpers.kinds(known)", screen.evaluate("() => helpers.kinds([])")) == []
    screen.evaluate("() => scrollTo(0, 0)")
    assert "md-logo" in "".join(covered(screen))
