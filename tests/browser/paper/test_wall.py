"""Each procedure for the wall: one page of A4, one of A3, in letters of 9 pt and more, with dangers and limits."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from playwright.sync_api import Browser

from calculators.rules.limits import of_page
from site_src.house.places import GUARDS
from site_src.wall_files import print_walls
from site_src.wall_sheet import PROCEDURES, SIZES
from tests.browser.conftest import DESK, PHONE, go, lasting_page
from tests.browser.paper.test_code import codes_on
from tests.browser.printed import needs_poppler

pytestmark = [pytest.mark.browser, pytest.mark.further]
DOCS = Path(__file__).parents[3] / "docs"
LEAST_PT = 9
LETTERS = """() => Math.min(...[...document.querySelectorAll(".wall-sheet *")]
  .filter((one) => [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim()) && one.checkVisibility())
  .filter((one) => !one.closest("svg"))
  .map((one) => parseFloat(getComputedStyle(one).fontSize) * 0.75))"""


class Printed(NamedTuple):
    """What is on one sheet, and how it came out of the printer."""

    words: str
    steps: int
    codes: int
    least_pt: float
    pages: int
    paper: str


@pytest.fixture(scope="module")
def sheets(browser: Browser, address: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, Printed]]:
    """All of them, printed in one visit, each looked at as it goes to the printer."""
    folder, found = tmp_path_factory.mktemp("wall"), {}
    with lasting_page(browser, address, viewport=DESK) as page:
        page.add_init_script("window.print = () => {}")
        seen: list[tuple[str, int, int, float]] = []
        to_the_printer = page.pdf

        def looked_at(**how: Any) -> bytes:
            sheet = page.locator(".wall-sheet")
            words = " ".join(sheet.inner_text().split())
            counts = sheet.locator(".wall-step").count(), sheet.locator(".wall-code svg").count()
            seen.append((words, *counts, page.evaluate(LETTERS)))
            return to_the_printer(**how)

        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(page, "pdf", looked_at)
            page.goto(address)
            patch.setattr(page, "goto", lambda target: go(page, target))
            files = list(print_walls(page, address, folder))
        names = [f"{name} {size}" for name in PROCEDURES for size in SIZES]
        for name, file, looks in zip(names, files, seen, strict=True):
            said = subprocess.run(["pdfinfo", str(file)], capture_output=True, text=True, check=True).stdout
            facts = dict(re.findall(r"(?m)^([\w ]+):\s+(.*)$", said))
            found[name] = Printed(*looks, int(facts["Pages"]), facts["Page size"])
        yield found


@needs_poppler
def test_each_ends_on_one_page_of_its_size(sheets: dict[str, Printed]) -> None:
    assert len(sheets) == 2 * len(PROCEDURES)
    assert {name: one.pages for name, one in sheets.items() if one.pages != 1} == {}
    wrong = {
        name: one.paper for name, one in sheets.items() if name.split()[1] not in one.paper and one.paper[:3] != "841"
    }
    assert wrong == {}
    assert {one.paper.split(" pts")[0] for name, one in sheets.items() if name.endswith("A3")} == {"841.92 x 1191.12"}


@needs_poppler
def test_no_letter_is_under_nine_points(sheets: dict[str, Printed]) -> None:
    assert {name: one.least_pt for name, one in sheets.items() if one.least_pt < LEAST_PT - 0.01} == {}


@needs_poppler
def test_every_step_every_danger_and_every_limit_is_on_it(sheets: dict[str, Printed]) -> None:
    for name, one in sheets.items():
        procedure = name.split()[0]
        text = (DOCS / "procedures" / f"{procedure}.md").read_text("utf-8")
        part = re.split(r"(?m)^## ", text.split("\n## Steps\n")[1])[0]
        assert one.steps == len(re.findall(r"(?m)^\d+\. ", part)), name
        for number in range(1, one.steps + 1):
            assert f" {number} " in f" {one.words} ", (name, number)
        for box in dict.fromkeys(re.findall(r'hazards/([a-z-]+)\.md"', text)):
            said = (DOCS / "_includes" / "hazards" / f"{box}.md").read_text("utf-8")
            paragraphs = [plain(line) for line in said.splitlines() if line and not line.startswith("<")]
            first = re.search(r"\*\*(.+?)\*\*", said)
            assert first and plain(first[1]) in one.words, (name, box)
            if "hazard-danger" in said:
                assert all(line in one.words for line in paragraphs), (name, box)
        for row in of_page(procedure):
            assert row.quantity in one.words, (name, row.quantity)
            act = re.sub(r"\[\[[^|\]]*\|([^\]]*)\]\]", r"\1", row.act)
            if GUARDS.search(act):  # what keeps somebody from harm is never shortened
                assert " ".join(act.split()) in one.words, (name, row.quantity)
        assert "do not follow. Stop, call, stay out." in one.words and "Number ____" in one.words
        assert one.codes == 1 and f"/procedures/{procedure}/" in one.words.replace(" ", "")


def plain(markdown: str) -> str:
    """What is read of a line of Markdown."""
    told = re.sub(r"\[([^\]]+)\]\([^)]*\)", r"\1", markdown).replace("**", "")
    return " ".join(re.sub(r"(?<=\w)'", "’", told).split())


@needs_poppler
def test_the_larger_paper_leaves_out_less(sheets: dict[str, Printed]) -> None:
    for name in PROCEDURES:
        small, large = (sheets[f"{name} {size}"] for size in SIZES)
        assert len(large.words) >= len(small.words), name
        assert "Shortened" not in large.words, name


@needs_poppler
def test_the_code_is_read_back_from_the_paper(browser: Browser, address: str, tmp_path: Path) -> None:
    with lasting_page(browser, address, viewport=DESK) as page:
        page.add_init_script("window.print = () => {}")
        page.goto(f"{address}procedures/hand-over/")
        page.click("[data-wall=A4]")
        assert codes_on(page, tmp_path) == [f"{address}procedures/hand-over/"]


def test_it_is_gone_after_printing_and_offered_at_a_desk_only(browser: Browser, address: str) -> None:
    with lasting_page(browser, address, viewport=DESK) as page:
        page.add_init_script("window.print = () => {}")
        page.goto(f"{address}procedures/casting/")
        button = page.locator("[data-wall=A3]")
        button.click()
        assert page.locator("body.prints-wall > .wall-sheet").count() == 1
        page.evaluate("() => dispatchEvent(new Event('afterprint'))")
        assert page.locator(".wall-sheet, body.prints-wall").count() == 0
        assert button.is_visible()
        page.set_viewport_size(PHONE)
        assert not button.is_visible()
