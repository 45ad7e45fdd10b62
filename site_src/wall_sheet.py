"""What a procedure offers to hang up: one page for the wall, put together in the browser from the procedure itself.

The body of a ``wall-sheet`` block names the procedure on whose page it stands. Steps, limits and hazard boxes of the
sheet are those of the page, taken when it is printed (``browser/paper/wall.mjs``). Here stands only what the page does
not say: whose sheet it is, which paper, who is called, and the code that leads to the valid page.
"""

from __future__ import annotations

import re
from xml.etree.ElementTree import Element

from calculators.drawing.code import draw_code
from calculators.drawing.elements import add, html
from calculators.house import here
from calculators.rules.limits import PAGES, of_page
from site_src.house import on_paper
from site_src.house.places import GUARDS
from site_src.settings import ROOT

SIZES = ("A4", "A3")
FOLDER = "procedures"
ANCHOR = "wall-sheet"
PROCEDURES = tuple(name.replace("_", "-") for name in PAGES)
"""Each procedure, in the order of the work."""

_BLANK_PAPER = "Number __________ Version _____ Date ____________ Approved, office ________________"
_BLANK_CALLS = "Emergency call ________________ Shift lead ________________"
_HOLDS = (
    "It holds only while the page behind the code says the same; reasons and sources stand there. Local rules, the "
    "site’s own permits and competent people come first; it permits nothing."
)
_SHORTENED = {"9": "Shortened: at … the page says more.", "10": "What to look for is left out where it has no figure."}
"""What the sheet says of itself, from the level of shortening on at which it is so."""
_DOCS = ROOT / "docs"


def wall_offer(procedure: str) -> str:
    """Draw the buttons, with what the sheet says beside the page’s own words.

    Parameters
    ----------
    procedure : str
        The file name of the page, such as ``floor-germination``.

    Raises
    ------
    LookupError
        When there is no such procedure.
    """
    of_page(procedure)
    page = f"{FOLDER}/{procedure}"
    address = f"{on_paper.site_url.rstrip('/')}/{page}/" if on_paper.site_url else ""
    box = Element("div", {"class": "wall-offer off-paper", "id": ANCHOR, "data-search-exclude": "", "hidden": ""})
    box.set(
        "data-whole", rf"{GUARDS.pattern}|\b(?:no one|stop|leave|call|people)\b"
    )  # a step with such a word is not shortened
    for size in SIZES:
        add(box, "button", text=f"Print for the wall, {size}", type="button", data_wall=size)
    said = add(box, "template")
    head = add(said, "div", "wall-said")
    if name := here.house().get("name"):
        add(head, "p", "wall-house", str(name))
    add(head, "p", "wall-paper", here.said_paper(page) or _BLANK_PAPER)
    if address:
        code = draw_code(address)
        way = add(said, "div", "wall-code")
        if code is not None:
            for title in code.iter("title"):
                title.text = "Code of the link to the valid page"
            way.append(code)
        add(way, "p", text=f"The valid page: {address}")
    foot = add(said, "div", "wall-foot")
    down = add(foot, "p")
    add(down, "strong", text="Someone down or fallen in: do not follow. Stop, call, stay out.")
    down[-1].tail = f" {'; '.join(_call(one) for one in here.entries('call')) or _BLANK_CALLS}"
    add(foot, "p", text=_HOLDS)
    for level, words in _SHORTENED.items():
        add(foot, "p", text=words, data_instead=level, hidden="")
    return html(box)


def offer_lines(procedure: str) -> list[str]:
    """The same as a line of a page."""
    return ["", wall_offer(procedure), ""]


def _call(one: here.Entry) -> str:
    """Who is called, and how: ``emergency number 112, channel 3``."""
    how = ", ".join(str(one[key]) for key in ("number", "channel") if key in one)
    return f"{str(one['role']).replace('-', ' ')} {how or '______________'}"


def wall_lines() -> list[str]:
    """A list of all procedures, each with a link to where its sheet is printed, as Markdown."""
    lines = (f'- <a href="page:{FOLDER}/{name}#{ANCHOR}">{_title(name)}</a>' for name in PROCEDURES)
    return ['<div class="no-terms" markdown>', "", *lines, "", "</div>"]


def _title(procedure: str) -> str:
    text = (_DOCS / FOLDER / f"{procedure}.md").read_text("utf-8")
    found = re.search(r"^# (.+?)(?: *\{[^}]*\})?$", text, re.MULTILINE)
    return found[1].strip() if found else procedure
