"""What a tap of the practice batch costs in the browser, as it is and with a page that is slowed four times.

A whole batch is taken up by its link where two thirds of it are played; then it is tapped on. The page's processor is
slowed by the browser; the worker's is not, so its part is also shown taken four times over.

Run it with ``python -m bench.practice_taps``; ``--site`` takes a finished site instead of building one.
"""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median, quantiles

from playwright.sync_api import sync_playwright

from bench.browser import CountingServer, browser, running
from calculators.practice.debrief import good_run
from site_src.build import build

TAPS = 60
SLOWED = (1, 4)
_PATIENCE = 120_000  # ms
_TAP = """async (codes) => {
  const settled = () => new Promise((done) => {
    const look = () => (document.querySelector(".practice-stage[aria-busy]") ? setTimeout(look, 2) : requestAnimationFrame(() => requestAnimationFrame(done)));
    look();
  });
  const took = [];
  for (const code of codes) {
    const button = document.querySelector(`button[data-move="${code}"]`);
    if (!button) continue;
    const began = performance.now();
    button.click();
    await settled();
    took.push(performance.now() - began);
  }
  const asked = performance.getEntriesByName("practice-asked").map((one) => one.duration).slice(-took.length);
  return { took, asked };
}"""  # noqa: E501


def link(number: int = 12, level: str = "4") -> str:
    """Give the address of a run of which two thirds are played, and that can be tapped on."""
    _, steps = good_run(number, level, "")
    texts = [step.move for step in steps]
    return f"training/practice-batch/?number={number}&level={level}&moves={'-'.join(texts[: 2 * len(texts) // 3])}"


def lines(site: Path) -> Iterator[str]:
    """Measure on a finished site; yield the lines."""
    with running(CountingServer(site)) as server, sync_playwright() as playwright:
        for slowed in SLOWED:
            with tempfile.TemporaryDirectory() as profile:
                context = browser(playwright, profile)
                page = context.new_page()
                page.goto(server.address + link())
                page.locator(".practice-stage[data-ended]").wait_for(timeout=_PATIENCE)
                page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slowed})
                codes = ["lo", "sm", "as", "wr"] * (TAPS // 4)
                found: dict[str, list[float]] = page.evaluate(_TAP, codes)
                context.close()
            took, asked = found["took"], found["asked"]
            whole = [one + (slowed - 1) * part for one, part in zip(took, asked, strict=True)]
            yield (
                f"a scene after a tap in the browser, page slowed {slowed} times, {len(took)} taps: median "
                f"{median(took):.0f} ms, p95 {quantiles(took, n=20)[-1]:.0f} ms, longest {max(took):.0f} ms; of it in "
                f"the worker median {median(asked):.0f} ms; with the worker as slow: median {median(whole):.0f}, "
                f"longest {max(whole):.0f} ms"
            )


def report() -> Iterator[str]:
    """Build a site for it; yield the lines."""
    with tempfile.TemporaryDirectory() as scratch:
        site = Path(scratch) / "site"
        build(site, site_url=CountingServer(site).address)
        yield from lines(site)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="python -m bench.practice_taps")
    parser.add_argument("--site", type=Path, help="a finished site, built for the root of a loopback address")
    words = parser.parse_args()
    for text in lines(words.site) if words.site else report():
        print(text, flush=True)


if __name__ == "__main__":
    main()
