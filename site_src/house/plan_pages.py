"""The pages of the site's safety plan, as Markdown: the plan with its gaps, and an emergency card for each place."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

from calculators.house import here
from calculators.house.schema import BY_ID
from site_src.house.plan import Entry, field_rows, gaps, places, review
from site_src.house.said import PERMITS_NOTHING, alarm, call, text, value
from site_src.settings import BuildError

_BLANK = "______________________"
_FILL_IN = "| Fill in by hand | |"
_CARD_END = "</div>"


def card_name(place: Entry) -> str:
    """The file of a place's card: it stays the same while the place keeps its name."""
    plain = _plain(place)
    alike = [one["name"] for one in places() if _plain(one) == plain]
    number = alike.index(place["name"]) + 1 if len(alike) > 1 else 0
    return "-".join(str(part) for part in ("card", plain or "place", number) if part)


def _plain(place: Entry) -> str:
    return re.sub(r"[^a-z0-9]+", "-", str(place["name"]).lower()).strip("-")


def plan_lines(today: date) -> Iterator[str]:
    """The page of the plan."""
    yield from ("---", "search:", "  boost: 0.5", "---", "", "# This site’s safety plan", "")
    yield from (f"**{PERMITS_NOTHING}**", "")
    yield f"It is made of the house’s file. What is due was looked at on {text(here.said_day(today.isoformat()))}."
    yield "Somebody down in a vessel? [Do not go in](../safety/emergency.md)."
    yield from ("", "[Gaps](#gaps) · [yearly review](#yearly-review) · [to sign](#to-sign)", "")
    for place in places():
        yield from _place(place)
    found = gaps(today)
    yield from ("## Gaps {#gaps}", "")
    yield f"{len(found)} gaps. An empty list would say nothing of a place; it would say that each line was written."
    yield from ("", "| Of | What |", "|---|---|", *(f"| {text(one.of)} | {text(one.what)} |" for one in found), "")
    yield from ("## Yearly review {#yearly-review}", "", "| Read again | Date, name |", "|---|---|")
    yield from (f"| {text(one)} | {_BLANK} |" for one in review())
    yield from ("", "## To sign {#to-sign}", "")
    yield "Competent persons, named by the employer, read each line at the place itself."
    yield from ("", "| Read at the place by | Office | Date | Signature |", "|---|---|---|---|")
    yield from ("| | | | |" for _ in range(4))
    yield ""


def _place(place: Entry) -> Iterator[str]:
    yield from (f"## {text(place['name'])}", "", "| Asked | In this house |", "|---|---|")
    fields = {field.ask: field for field in BY_ID["place"].fields}
    for ask, key, lacking in field_rows(place):
        said = value(fields[ask], place[key]) if key else f"{_BLANK} **{lacking}**"
        yield f"| {ask} | {said} |"
    yield from ("", f"[Its emergency card, to print]({card_name(place)}.md)", "", PERMITS_NOTHING, "")


def card_lines(place: Entry, docs: Path) -> list[str]:
    """The filled emergency card of a place: the acts are those of the book’s own card, word for word.

    Raises
    ------
    BuildError
        When the book’s card is not as it was.
    """
    book = (docs / "safety" / "emergency.md").read_text("utf-8")
    start, table = book.find('<div class="hang-up"'), book.find(_FILL_IN)
    if not 0 <= start < table:
        raise BuildError("docs/safety/emergency.md has no card with a table to fill in by hand.")
    acts = book[start:table].rstrip().replace('class="hang-up"', 'class="hang-up house-card"', 1)
    name = text(place["name"])
    return [
        "---", "search:", "  boost: 0.5", "---", "", f"# Emergency card: {name}", "", acts, "",
        f"| {name} | |", "|---|---|", *(f"| {what} | {said} |" for what, said in _rows(place)), "",
        f"**{PERMITS_NOTHING}**", "", _CARD_END, "",
        "Print this page and hang it at the place. A competent person reads it there first, and signs it. "
        "[The whole plan](safety-plan.md), [in a full steep](../safety/emergency.md#in-a-full-steep).",
    ]  # fmt: skip


def _rows(place: Entry) -> Iterator[tuple[str, str]]:
    house = here.house()
    inside = ", ".join(place.get("in_it", ()))
    what = [text(one) for one in (place.get("kind"), inside) if one]
    yield "Here is, and can be in it", "; ".join(what) or _BLANK
    yield "Say where we are", "; ".join(text(one) for one in (place.get("call"), house.get("address")) if one) or _BLANK
    yield "Call", _calls("emergency number", "trained rescue team", "first aider", "shift lead", always=2)
    yield "Isolated by; isolator at", _two(place, "isolated", "isolator", _things(place, "isolator"))
    yield "Keeps running", text(place["keeps_running"]) if "keeps_running" in place else _BLANK
    yield "Ring, pole, stops, showers", _things(place, *_IN_A_HURRY) or _BLANK
    yield "Meter; alarm steps", _meter(place)
    meet = [text(house.get(key, _BLANK)) for key in ("meeting", "heads", "gate")]
    yield "Meet at; who counts heads; gate", "; ".join(meet)
    yield "Poison line, hospitals", _calls("poison line", "hospital", "eye hospital", always=1)
    yield "Read at the place by, date, again on", f"{_BLANK}{_BLANK}"


_IN_A_HURRY = (
    "rescue ring", "reaching pole", "stop for water", "stop for air", "eye wash", "shower", "extinguisher",
    "defibrillator", "oxygen for first aid", "first aid box", "telephone", "way out",
)  # fmt: skip


def _calls(*roles: str, always: int) -> str:
    found = {one["role"]: one for one in here.entries("call")}
    shown = [role for number, role in enumerate(roles) if number < always or role in found]
    return "<br>".join(call(found[role]) if role in found else f"**{role}**: {_BLANK}" for role in shown)


def _things(place: Entry, *kinds: str) -> str:
    name = str(place["name"]).casefold()
    mine = [one for one in here.entries("thing") if str(one.get("place", name)).casefold() == name]
    said = [f"{one['kind']}: {text(one.get('at', _BLANK))}" for kind in kinds for one in mine if one["kind"] == kind]
    return "; ".join(said)


def _two(place: Entry, how: str, where: str, more: str) -> str:
    parts: Sequence[str] = [text(place[key]) if key in place else _BLANK for key in (how, where)]
    return "; ".join([*parts, *([more] if more else [])])


def _meter(place: Entry) -> str:
    inside = {str(one["gas"]) for one in here.entries("alarm")}
    steps = "; ".join(alarm(one) for one in here.entries("alarm")) if inside else _BLANK
    return f"{text(place.get('meter', _BLANK))}; {steps}"
