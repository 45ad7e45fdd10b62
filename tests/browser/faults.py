"""What axe finds on a page. Two runs are kept apart, since looking at colours is slow and most pages share theirs."""

from __future__ import annotations

from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

axe = Axe()
COLOURS = "color-contrast"
TEXT = "article"


def found_by_axe(page: Page, within: str | None = None, **options: Any) -> list[str]:
    """The faults that axe calls moderate or worse, one line each."""
    if not page.evaluate("() => 'axe' in window"):  # to read it in costs as much as many a run of it
        page.evaluate(axe.axe_script)
    asked = [within or "html", {"resultTypes": ["violations"], **options}]
    # The text alone is half the work: axe goes through the whole tree, and most of it is menus.
    run = "helpers.textAlone(() => axe.run(within, options))" if within == TEXT else "axe.run(within, options)"
    found = page.evaluate(f"async ([within, options]) => (await {run}).violations", asked)
    return [
        f"{fault['id']} ({fault['impact']}): {node['html'][:160]}"
        for fault in found
        if fault["impact"] in ("moderate", "serious", "critical")
        for node in fault["nodes"][:3]
    ]


def faults(page: Page) -> list[str]:
    """Every fault of the text, its colours too; what stands around it is looked at in `test_every_page`."""
    return faults_of_form(page, TEXT) + faults_of_colour(page, set())


def faults_of_form(page: Page, within: str | None = None, rules: list[str] | None = None) -> list[str]:
    """What hangs on the elements alone, or on these rules."""
    only = {"runOnly": rules} if rules else {"rules": {COLOURS: {"enabled": False}}}
    return found_by_axe(page, within, **only)


def faults_of_colour(page: Page, known: set[str]) -> list[str]:
    """Contrast, of one element of each look that no page before had; ``known`` grows by them.

    A look is all that contrast is reckoned from: the colour of the words, every ground and opacity behind them, and
    whether the words are large.
    """
    new = page.evaluate("known => helpers.looks(known)", sorted(known))
    known.update(new)
    return found_by_axe(page, "[data-look]", runOnly=[COLOURS]) if new else []
