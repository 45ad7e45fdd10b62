"""How paper is set: 60 to 75 letters a line, whatever box the text stands in."""

from __future__ import annotations

from statistics import median

import pytest

from tests.browser.conftest import Open, without_engine

pytestmark = pytest.mark.browser

PAGES = [
    "procedures/steeping/",
    "safety/dust-and-moulds/",
    "training/questions-steeping/",
    "calculators/moisture-target/",
]
ROOM = {"width": 695, "height": 1000}  # A4 less its margins, at 96 dots an inch
MOST = 82
# The letters of every line that is followed by another of the same paragraph.
FULL_LINES = """() => {
  const found = [];
  for (const block of document.querySelectorAll(".md-content__inner :is(p, li, dd)")) {
    if (block.closest("svg, table, form, figure, .print-edition, .sources") || !block.checkVisibility()) continue;
    if (block.querySelector("p, li, table, figure")) continue;
    const range = document.createRange();
    const walker = document.createTreeWalker(block, NodeFilter.SHOW_TEXT);
    let [line, foot] = ["", null];
    for (let text = walker.nextNode(); text; text = walker.nextNode()) {
      if (text.parentElement.closest(".term-note, .headerlink")) continue;
      for (let at = 0; at < text.length; at += 1) {
        range.setStart(text, at);
        range.setEnd(text, at + 1);
        const box = range.getBoundingClientRect();
        if (!box.width) continue;
        if (foot !== null && box.bottom > foot + 4) { found.push(line.trim()); line = ""; }
        if (!line) foot = Math.round(box.bottom);
        line += text.data[at];
      }
    }
  }
  return found;
}"""


@pytest.mark.parametrize("path", PAGES)
def test_lines_on_paper_are_as_long_as_they_are_read_well(open_page: Open, path: str) -> None:
    page = open_page(path, viewport=ROOM, before=without_engine)
    page.emulate_media(media="print")
    lines: list[str] = page.evaluate(FULL_LINES)
    assert len(lines) > 15
    assert 60 <= median(map(len, lines)) <= 75
    assert [line for line in lines if len(line) > MOST] == []
