"""Which sheets fit a batch as it stands, each opened with the batch's numbers in place.

None of the sheets on gas, vessels, lifting or exposure is among them: nothing is filled in there for anybody.
"""

from __future__ import annotations

from collections.abc import Callable
from xml.etree.ElementTree import Element

from ...asking.declare import Sheet, shared_by
from ...asking.figures import plain_number
from ...drawing.elements import add
from ...models.bounds import Bounds
from ...models.steep.first_uptake import MOISTURE_OFFSET
from ...models.steep.hydration import RATE_FACTOR
from ...rules.conventions import READY_DAYS
from ...sheets import find_sheet
from ..lines.kinds import FLOOR
from ..pages.address import sheet_address
from .at_hand import FITTED, HOUSE_QUESTIONS, Facts, Known, Seen, at_hand, is_growing, of_house
from .course import Course
from .fitted import for_sheets
from .forecast_opening import forecast_given

Given = dict[str, str]

_ALL_READINGS = {"baskets", "weighings", "readings"}
"""Questions that take every reading of the water."""


def _in_steep(seen: Seen) -> bool:
    return seen.batch.cast is None


def _growing(seen: Seen) -> bool:
    return is_growing(seen.batch, seen.batch.vessel)


def _rested(seen: Seen) -> bool:
    """In an air rest after a first immersion, so that it may be cast."""
    spells = seen.batch.spells
    return seen.batch.cast is None and len(spells) > 1 and not spells[-1].wet


def _forecast(seen: Seen) -> Facts:
    """The batch as the living model has it: it takes its own stages, hours and tables, which belong together."""
    given = forecast_given(seen.batch, seen.course, seen.now, seen.house.days or READY_DAYS) or {}
    last = seen.batch.standing[-1] if seen.batch.standing else None
    return {name: Known(value, last, last.utc if last else None) for name, value in given.items()}


OWN: dict[str, Callable[[Seen], Facts]] = {"batch-forecast": _forecast}
"""Sheets that take a batch in a form of their own, beside what means the same everywhere."""

OPENINGS: dict[str, Callable[[Seen, Facts], bool]] = {
    "batch-forecast": lambda seen, facts: bool(_forecast(seen)),
    "sample-basket": lambda seen, facts: _in_steep(seen) and "basket_g" in facts,
    "steep-timing": lambda seen, facts: _in_steep(seen) and isinstance(seen.course, Course),
    "steep-plan": lambda seen, facts: not seen.batch.spells and "barley_moisture" in facts,
    "steep-fit": lambda seen, facts: "weighings" in facts or "readings" in facts,
    "chitting": lambda seen, facts: _in_steep(seen) and isinstance(seen.course, Course) and bool(seen.batch.spells),
    "rest-warmth": lambda seen, facts: _rested(seen),
    "cast-decision": lambda seen, facts: _rested(seen),
    "moisture-target": lambda seen, facts: _in_steep(seen),
    "germination-test": lambda seen, facts: not seen.batch.spells and "replicates" in facts,
    "floor-round": lambda seen, facts: is_growing(seen.batch, FLOOR),
    "days-to-ready": lambda seen, facts: _growing(seen),
    "readiness": lambda seen, facts: _growing(seen),
    "sprinkling": lambda seen, facts: _growing(seen),
    "kiln-water": lambda seen, facts: seen.batch.left is not None,
    "malting-loss": lambda seen, facts: seen.batch.left is not None,
}
"""In the order in which they stand on the batch's page; each says whether it fits the batch as it stands."""


def values_for(sheet: Sheet, seen: Seen, facts: Facts) -> Facts:
    """What of a batch goes into a sheet.

    Parameters
    ----------
    sheet : Sheet
        Any sheet; one about gas, vessels or lifting gets nothing.
    seen : Seen
        The batch as it stands.
    facts : dict of str to Known
        What is known of it.

    Returns
    -------
    dict of str to Known
        All that a sheet asks and the book knows where the sheet fits the batch as it stands; else only what means the
        same everywhere. Of two ways to answer, such as weighings or readings, only a whole one.
    """
    fits = sheet.id in OPENINGS and OPENINGS[sheet.id](seen, facts)
    own = OWN[sheet.id](seen) if fits and sheet.id in OWN else {}
    fits = fits and sheet.id not in OWN
    facts = facts | own
    found = {
        question.id: facts[question.id]
        for question in sheet.questions
        if question.id in facts and not sheet.guarded and (fits or question.id in own or shared_by(sheet, question))
    }
    for either in sheet.either:
        whole = [group for group in either.groups if all(name in found for name in group)]
        for group in either.groups:
            if group not in whole[:1]:
                for name in group:
                    found.pop(name, None)
    return _fitted_once(seen, found)


def _fitted_once(seen: Seen, found: Facts) -> Facts:
    """A sheet that is lent all readings fits them itself, from what the house knows without them."""
    if not _ALL_READINGS & set(found):
        return found
    house = of_house(seen)
    kept = {name: known for name, known in found.items() if name not in FITTED}
    return kept | {name: house[name] for name in FITTED if name in found and name in house}


def needs_house(sheet: Sheet) -> bool:
    """Whether a sheet asks what only the house's other batches answer."""
    return any(question.id in HOUSE_QUESTIONS for question in sheet.questions)


def openings(seen: Seen) -> dict[str, Given]:
    """The sheets that fit, each with the values to put in."""
    facts = at_hand(seen)
    return {
        name: {asked: known.value for asked, known in values_for(find_sheet(name), seen, facts).items()}
        for name, fits in OPENINGS.items()
        if fits(seen, facts)
    }


def sheets_list(seen: Seen, root: str, demo: bool) -> Element:
    """The links as a list; each says how many of the batch's numbers go with it."""
    listed = Element("ul", {"class": "book-sheets"})
    facts = at_hand(seen)
    for name, given in openings(seen).items():
        line = add(listed, "li")
        link = add(line, "a", text=find_sheet(name).title, href=sheet_address(name, given, root, seen.batch.id, demo))
        count = len(given)
        link.tail = f" with {count} of this batch’s numbers" if count > 1 else "" if not count else " with one number"
        link.tail += _as_fitted(seen, facts, given)
    return listed


def _as_fitted(seen: Seen, facts: Facts, given: Given) -> str:
    """How far the barley that goes along is the one that the book has fitted; nothing where none goes along."""
    own = seen.batch.number("barley_moisture")
    found = for_sheets(seen.course, own) if own is not None and isinstance(seen.course, Course) else None
    if found is None or any(given.get(name) != facts[name].value for name in FITTED):
        return ""
    if found.whole:
        return (
            ", and the barley as it is fitted here, with film and rests as typical as the sheet has them. The open "
            "stage goes along as long as it is planned: where the next step drains it sooner, its hours part by as much"
        )
    return (
        f". Its barley is as near to the one fitted here as the sheet takes it, {_span(RATE_FACTOR)} of the typical "
        f"rate and {_span(MOISTURE_OFFSET)} points at once, more than any published lot: its hours may part from "
        "those above, which go before. Is the weight of the empty basket right?"
    )


def _span(bounds: Bounds) -> str:
    return f"{plain_number(bounds.low)} to {plain_number(bounds.high)}"
