"""The demo sheet in place of the trade's own, so that these tests need none of its pages."""

from __future__ import annotations

import pytest

from calculators import page
from calculators.asking.declare import Sheet
from tests.demo import SHEET

DEMO_PAGES = {
    "index.md": "# Home\n\n[The demo](calculators/demo.md)\n",
    "calculators/demo.md": "# The demo page\n\nBefore it.\n\n```sheet\ndemo barley_kg=200\n```\n\nAfter it.\n",
}


@pytest.fixture
def demo_sheet(monkeypatch: pytest.MonkeyPatch) -> None:
    def find(sheet_id: str) -> Sheet:
        if sheet_id != SHEET.id:
            raise LookupError(f"There is no sheet “{sheet_id}”.")
        return SHEET

    monkeypatch.setattr(page, "find_sheet", find)
