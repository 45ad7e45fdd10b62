"""A record sheet of this house: the code of the valid one, where a filled one has that of its link."""

from __future__ import annotations

from calculators.house import here
from calculators.house.schema import BY_ID
from site_src.house.box import RECORDS, code_of
from site_src.house.said import call, section_lines
from site_src.settings import BuildError

site_url = ""
"""Where the site that is being built will be served."""

VESSEL_PAPER = f"{RECORDS}before-vessel-work"
"""The paper before vessel work: what a house has said of permits, meters and calls stands in its table."""
_ROWS = ("| Who issues permits here, and their number |", "| Emergency number |")

_PLACE = '<div class="paper-code"></div>'


def with_code(drawn: str, paper_id: str) -> str:
    """The HTML of a record sheet, with its code where this house has given it a number; else the same."""
    page = f"{RECORDS}{paper_id}"
    if not site_url or here.paper_of(page) is None:
        return drawn
    address = f"{site_url.rstrip('/')}/{page}/"
    words = '<p class="code-words">The valid sheet: point a camera here.</p>'
    code = f'<div class="code-box">{code_of(address)}{words}</div>'
    return drawn.replace(_PLACE, f'<div class="paper-code">{code}</div>', 1)


def with_rows(markdown: str) -> str:
    """The paper before vessel work with this house's permits, meters and emergency number; its lines stay to be read.

    Raises
    ------
    BuildError
        When the book's paper has no such rows.
    """
    permits, meters = ("; ".join(line[2:] for line in section_lines(BY_ID[name])) for name in ("permit", "meter"))
    calls = "; ".join(call(one) for one in here.entries("call") if one["role"] == "emergency number")
    for row, words in zip(_ROWS, (permits, calls), strict=True):
        if f"{row} |" not in markdown:
            raise BuildError(f"docs/{VESSEL_PAPER}.md has no row {row!r}.")
        if words:
            markdown = markdown.replace(f"{row} |", f"{row} {words} |", 1)
    if meters:
        row = f"| Meters of this house; read each on the day | {meters} |"
        markdown = markdown.replace(_ROWS[1], f"{row}\n{_ROWS[1]}", 1)
    return markdown
