"""A record sheet of this house: the code of the valid one, where a filled one has that of its link."""

from __future__ import annotations

from calculators.house import here
from site_src.house.box import RECORDS, code_of

site_url = ""
"""Where the site that is being built will be served."""

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
