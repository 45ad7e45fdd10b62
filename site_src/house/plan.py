"""The site's safety plan: each vessel, pit and low place as this house has it, its gaps, the yearly review.

It permits nothing. A gap is what the house's file does not say; that there is none says nothing of a place.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any, NamedTuple

from calculators.house import here
from calculators.house.safety import OXYGEN
from calculators.house.schema import BY_ID, VESSELS
from calculators.rules.gases import CO, CO2, PH3

Entry = Mapping[str, Any]

CELL_FOR = {"carbon dioxide": CO2, "too little oxygen": OXYGEN, "fumigant": PH3, "fire gases": CO}
"""What a meter needs a cell for, by what can be in a place."""

_NO = {
    "kind": "no word on what it is",
    "in_it": "no word on what can be in it",
    "isolated": "no word on how it is isolated",
    "isolator": "no isolator named",
    "keeps_running": "no word on what keeps running in an emergency",
    "meter": "no meter named",
    "permit": "no permit named",
    "call": "no words for the telephone",
    "drill_done": "no date of a drill",
    "drill_due": "no date of the next drill",
}


class Gap(NamedTuple):
    """What is not said, or overdue: of which place or thing, and what."""

    of: str
    what: str


def places() -> list[Entry]:
    """Every place of the file, and after them the vessels of the file that are not among them."""
    found: list[Entry] = list(here.entries("place"))
    named = {one["name"].casefold() for one in found}
    for section in VESSELS:
        for one in here.entries(section):
            if one["name"].casefold() not in named:
                found.append({"name": one["name"], "kind": section})
    return found


def gaps(today: date) -> list[Gap]:
    """All that the house's file does not say, or that is overdue.

    Parameters
    ----------
    today : date
        The day against which what is due is held.
    """
    return [*_of_calls(), *(gap for place in places() for gap in _of_place(place, today)), *_of_meters(today)]


def _of_calls() -> Iterator[Gap]:
    house = here.house()
    for key, what in (
        ("address", "no words for where the site is"), ("gate", "nobody named a gate for the crew"),
        ("meeting", "no meeting place"), ("heads", "no office that counts heads"),
    ):  # fmt: skip
        if key not in house:
            yield Gap("The site", what)
    calls = {one["role"]: one for one in here.entries("call")}
    for role in ("emergency number", "trained rescue team", "first aider", "poison line", "hospital", "eye hospital"):
        if role not in calls:
            yield Gap(role.capitalize(), "not named")
        elif "number" not in calls[role] and "channel" not in calls[role]:
            yield Gap(role.capitalize(), "no number and no channel")
    for role in ("emergency number", "trained rescue team"):
        one = calls.get(role)
        if one is None:
            continue
        if "minutes" not in one:
            yield Gap(role.capitalize(), "no word on how long they take")
        elif role == "trained rescue team":
            took = f"they take {one['minutes']:g} min"
            yield Gap(role.capitalize(), f"{took}: who draws a person out before that, from outside?")
        if "brings" not in one:
            yield Gap(role.capitalize(), "no word on what they bring")


def _of_place(place: Entry, today: date) -> Iterator[Gap]:
    name = str(place["name"])
    if not any(one is place for one in here.entries("place")):
        yield Gap(name, "stands among the vessels, and not among the places")
    for key, what in _NO.items():
        if key not in place:
            yield Gap(name, what)
    if "drill_due" in place and place["drill_due"] < today.isoformat():
        yield Gap(name, f"its drill is overdue since {here.said_day(place['drill_due'])}")
    meters = {one["name"]: one for one in here.entries("meter")}
    inside = place.get("in_it", [])
    if "meter" in place:
        cells = meters.get(place["meter"], {}).get("cells", [])
        for what, cell in CELL_FOR.items():
            if what in inside and cell not in cells:
                yield Gap(name, f"{place['meter']} is not said to have a cell for {cell.replace('-', ' ')}")
    steps = {one["gas"] for one in here.entries("alarm") if "at" in one}
    for what, cell in CELL_FOR.items():
        if what in inside and cell not in steps:
            yield Gap(name, f"no alarm step for {cell.replace('-', ' ')}")
    things = {one["kind"] for one in here.entries("thing") if one.get("place", name).casefold() == name.casefold()}
    if "deep water" in inside:
        for thing in ("rescue ring", "reaching pole"):
            if thing not in things:
                yield Gap(name, f"no {thing} named, and it holds deep water")


def _of_meters(today: date) -> Iterator[Gap]:
    for one in here.entries("meter"):
        for key, what in (("cells", "no cells named"), ("calibrated", "no date of a calibration"),
                          ("due", "no date of the next calibration")):  # fmt: skip
            if key not in one:
                yield Gap(str(one["name"]), what)
        if "due" in one and one["due"] < today.isoformat():
            yield Gap(str(one["name"]), f"its calibration is overdue since {here.said_day(one['due'])}")


def review() -> Iterator[str]:
    """What is read again each year, a line for each, as plain text."""
    for place in places():
        yield f"{place['name']}: stand outside it, read its card, say the words of the call. What has changed?"
    for one in here.entries("call"):
        number = one.get("number", one.get("channel", "________"))
        do = "read it, do not ring it" if one["role"] == "emergency number" else "ring it at an hour that was agreed"
        yield f"{str(one['role']).capitalize()}, {number}: {do}. How long would they take today?"
    for one in here.entries("thing"):
        at = one.get("at", "________")
        yield f"{str(one['kind']).capitalize()}, {at}: is it there, whole, and can it be reached?"
    for one in here.entries("meter"):
        yield f"{one['name']}: cells, calibration, alarm steps as set in the meter itself."
    for one in here.entries("permit"):
        yield f"{one['name']}: is this still the form that is used, and who issues it?"
    yield "A drill at each place, by day and by night, with the crew that would come."


def field_rows(place: Entry) -> Iterator[tuple[str, str | None, str]]:
    """What is asked of a place, what the file says, and what is lacking where it says nothing."""
    for field in BY_ID["place"].fields[1:]:
        yield field.ask, (str(field.id) if field.id in place else None), _NO.get(field.id, "not named")
