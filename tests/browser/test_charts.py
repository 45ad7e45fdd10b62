"""Every chart of the book on the smallest phone: its letters are large enough, and stand over no line, point or letter."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import lasting_page

pytestmark = pytest.mark.browser
LEAST_PX = 12
ROUNDED_PX = 0.1

# Looks at each chart that is drawn: letters as they are seen, and what stands over what.
LOOK = """least => {
  const found = [];
  const grown = (box, more) => ({ left: box.left - more, right: box.right + more, top: box.top - more, bottom: box.bottom + more });
  const meets = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  for (const chart of document.querySelectorAll("svg.chart")) {
    const whole = chart.getBoundingClientRect();
    if (!whole.width) continue;
    const scale = whole.width / chart.viewBox.baseVal.width;
    const name = chart.querySelector("title").textContent;
    const texts = [...chart.querySelectorAll("text")].filter((one) => one.textContent.trim() && getComputedStyle(one).display !== "none");
    const boxes = texts.map((one) => one.getBoundingClientRect());
    // A box of letters has room above and below them: what is inked is less high.
    const inked = boxes.map((box) => ({ left: box.left, right: box.right, top: box.top + box.height * 0.2, bottom: box.bottom - box.height * 0.2 }));
    texts.forEach((one, at) => {
      const seen = parseFloat(getComputedStyle(one).fontSize) * scale;
      if (seen < least) found.push(`${name}: “${one.textContent}” is ${seen.toFixed(1)} px`);
      if (boxes[at].left < whole.left - 3 || boxes[at].right > whole.right + 3) found.push(`${name}: “${one.textContent}” leaves the chart`);
      for (let other = 0; other < at; other += 1) {
        if (meets(inked[at], inked[other])) found.push(`${name}: “${one.textContent}” over “${texts[other].textContent}”`);
      }
      for (const line of chart.querySelectorAll("path.line, line.whisker, line.mark")) {
        if (line.closest(".legend")) continue;
        const to = line.getScreenCTM();
        const length = line.getTotalLength();
        const half = line.matches(".line") ? 1 : 0;
        for (let along = 0; along <= length; along += 2) {
          const point = line.getPointAtLength(along).matrixTransform(to);
          const dot = { left: point.x - half, right: point.x + half, top: point.y - half, bottom: point.y + half };
          if (meets(inked[at], dot)) {
            found.push(`${name}: “${one.textContent}” over a ${line.getAttribute("class")}`);
            break;
          }
        }
      }
      for (const point of chart.querySelectorAll("circle")) {
        if (point.closest(".legend")) continue;
        if (meets(inked[at], point.getBoundingClientRect())) found.push(`${name}: “${one.textContent}” over a point`);
      }
    });
  }
  return found;
}"""


def pages_with_charts(site: Path) -> list[str]:
    return sorted(
        path.parent.relative_to(site).as_posix()
        for path in site.rglob("index.html")
        if '<svg class="chart"' in path.read_text("utf-8")
    )


def faults(page: Page) -> list[str]:
    found: list[str] = page.evaluate(LOOK, LEAST_PX - ROUNDED_PX)
    return found


def test_letters_are_large_enough_and_stand_over_nothing(browser: Browser, address: str, built_site: Path) -> None:
    names = pages_with_charts(built_site)
    assert len(names) > 25
    found = {}
    with lasting_page(browser, address, viewport={"width": 320, "height": 640}) as page:
        for name in names:
            page.goto(f"{address}{name}/")
            page.evaluate("() => { for (const one of document.querySelectorAll('details')) one.open = true; }")
            if wrong := faults(page):
                found[name] = wrong
        assert found == {}
        # and what is wrong is seen
        page.evaluate(
            """() => {
              const text = document.querySelector("svg.chart text.tick");
              text.style.fontSize = "5px";
              const other = text.cloneNode(true);
              text.after(other);
            }"""
        )
        assert any(" px" in one for one in faults(page)) and any(" over “" in one for one in faults(page))
