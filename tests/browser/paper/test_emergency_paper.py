"""The emergency page: its card is one sheet of paper, with room to write on."""

from pathlib import Path

import pytest

from tests.browser.conftest import Open
from tests.browser.printed import needs_poppler, text_of

pytestmark = pytest.mark.browser


@needs_poppler
def test_the_card_to_hang_up_is_the_first_page_whole(visit: Open, tmp_path: Path) -> None:
    page = visit("safety/emergency/")
    text, count = text_of(page, tmp_path)
    first, second = text.split("\f")[:2]
    assert count == 2  # both sides of one sheet
    assert "STAY OUT" in first and "Filled in by" in first and "____" in first
    assert "Filled in by" not in second and "Afterwards" in second and "Sources" in second
