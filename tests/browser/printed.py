"""What the tests read back from paper."""

import shutil
import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Page

CONTROLS = (
    *("Add a row", "Fill in the example", "Print a card", "Link to these numbers", "Link as a training example"),
    *("Put back", "More questions"),
)


def text_of(page: Page, folder: Path) -> tuple[str, int]:
    """The words on the paper and the number of pages, by way of poppler's own reading of the file."""
    file = folder / "paper.pdf"
    page.pdf(path=str(file), prefer_css_page_size=True)
    text = subprocess.run(["pdftotext", "-layout", str(file), "-"], capture_output=True, text=True, check=True).stdout
    return text, text.count("\f")


needs_poppler = pytest.mark.skipif(
    shutil.which("pdftotext") is None, reason="Debian's poppler-utils reads the paper back"
)
