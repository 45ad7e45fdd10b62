"""An order of the steep in words: the stop that it passes, said first, and what is left in its place."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime

from .declare import Answer, Found, Heading, Listing, Note, Option, Rows
from .figures import fixed, plain_number
from .results import clock_words
from .rules.limit import Limit
from .rules.limits.steeping import IMMERSION, REST, WATER_TEMP
from .rules.steep_order import ACCEPTED_H, MOST_H, Order, Passed, Way
from .steep_words import clock_after
from .units import shown

_SIDED = re.compile(r"(Under|Over): ")
_PLACES = {IMMERSION.id: "immersion", REST.id: "rest", WATER_TEMP.id: "immersion"}


def act(limit: Limit, side: str) -> str:
    """What to do at the stop of one side: where the limit tells the two sides apart, that one alone."""
    parts = _SIDED.split(limit.act)
    told = dict(zip(parts[1::2], parts[2::2], strict=True))
    wanted = told.get("Under" if side == "low" else "Over", "")
    text = (parts[0] + (wanted[:1].upper() + wanted[1:] if wanted else "")).strip()
    return text or limit.act


def _beyond(value: float, edge: float) -> str:
    """A value with as many decimals as keep it apart from the edge that it passes."""
    for decimals in (0, 1, 2, 3):
        text = fixed(value, decimals)
        if float(text) != edge and (decimals or abs(value - edge) > 1):
            return plain_number(float(text))
    return f"{value:.9g}"


def passed_words(found: Sequence[Passed]) -> str:
    """What passes one stop, with its edge, such as ``One immersion: 24 h (immersion 1) is over 12 h``."""
    limit, side, edge = found[0].broken.limit, found[0].broken.side, found[0].broken.edge
    unit = f" {shown(limit.unit)}"
    place = _PLACES.get(limit.id)
    numbers: dict[str, list[str]] = {}
    for one in found:
        of = numbers.setdefault(_beyond(one.value, edge), [])
        if place and one.number and str(one.number) not in of:
            of.append(str(one.number))
    values = [
        f"{value}{unit}" + (f" ({place}{'s' if len(of) > 1 else ''} {_listed(of)})" if of else "")
        for value, of in numbers.items()
    ]
    verb = "are" if len(values) > 1 else "is"
    way = "under" if side == "low" else "over"
    return f"{limit.quantity}: {_listed(values)} {verb} {way} {plain_number(edge)}{unit}."


def _listed(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def stop_sentences(found: Sequence[Passed]) -> list[str]:
    """The stops that are passed, each with what to do, one limit and side after the other."""
    groups: dict[tuple[str, str], list[Passed]] = {}
    for one in found:
        if one.is_stop:
            groups.setdefault((one.broken.limit.id, one.broken.side), []).append(one)
    return [f"{passed_words(group)} {act(group[0].broken.limit, group[0].broken.side)}" for group in groups.values()]


def stop_notes(found: Sequence[Passed], about: str) -> list[Note]:
    """One notice of all stops that are passed, or none; ``about`` says by what: “These stages pass”."""
    said = stop_sentences(found)
    if not said:
        return []
    many = "stops" if len(said) > 1 else "a stop"
    return [Note("notice", f"Stop. {about} {many} of [[page:procedures/steeping|steeping]]. {' '.join(said)}")]


def _short(hours: float) -> str:
    return plain_number(round(hours, 1 if hours >= 1 else 2))


def hours_words(hours: Sequence[float]) -> str:
    """Immersions and rests by turns: ``8 h wet, 6 h rest, 4.5 h wet``."""
    return ", ".join(f"{_short(h)} h {'rest' if n % 2 else 'wet'}" for n, h in enumerate(hours))


def way_words(way: Way, target: float) -> str:
    """One thing that may be done instead, in a sentence."""
    told = f"{hours_words(way.hours)}, to {fixed(way.moisture, 1)} %"
    if way.word == "split":
        return f"split it with a rest: {told}."
    if way.word == "warm":
        return f"warm the water to {plain_number(way.water_temp_c)} °C, by [[sheet:mixing-waters]]: then {told}."
    if way.word == "again":
        return f"wet it once more, {told}; then rest it, weigh it, and ask again."
    return (
        f"cast and sprinkle: {told}; the other {fixed(target - way.moisture, 1)} points on the floor, by "
        "[[sheet:sprinkling]], once the chits are there."
    )


def asked_words(order: Order, target: float) -> str:
    """What is asked of one immersion past its stop, and the stop."""
    aim, stop = plain_number(target), plain_number(MOST_H)
    if order.needed_h is None:
        return f"No single immersion brings it to {aim} %, and one immersion stops at {stop} h."
    return f"To {aim} % in one immersion takes {_beyond(order.needed_h, MOST_H)} h; one immersion stops at {stop} h."


def order_notes(order: Order, target: float, high_h: float | None, latest: datetime | None = None) -> list[Note]:
    """What is said before the hours of an immersion: its stop, that it wants air, or that it may not be enough.

    Parameters
    ----------
    order : Order
        The immersion, judged.
    target : float
        Drained moisture wanted, % of wet weight.
    high_h : float or None
        The longest that it may have to be by the doubt [h]; None when that is beyond all that is looked for.
    latest : datetime, optional
        When its stop is reached.
    """
    if order.mark == "stop":
        text = f"Stop. {asked_words(order, target)} {IMMERSION.act}"
        for number, way in enumerate(order.ways):
            words = way_words(way, target)
            text += f" Or {words}" if number else f" {words[0].upper()}{words[1:]}"
        return [Note("notice", text)]
    notes = []
    if high_h is None or high_h > MOST_H:
        by = f", at {clock_words(latest)}," if latest else ""
        notes.append(
            Note(
                "notice",
                f"Stop after {plain_number(MOST_H)} h{by} whatever the basket reads. A barley that drinks slowly is "
                f"not at {plain_number(target)} % by then: drain, rest, and wet it again.",
            )
        )
    if order.mark == "watch":
        notes.append(Note("notice", f"Over {plain_number(ACCEPTED_H)} h, one immersion is watched: {IMMERSION.watch}."))
    return notes


ORDER = Answer(
    "order",
    "The last immersion",
    kind="verdict",
    lead=True,
    words=(
        Option("split", "Stop: too long in one. Split it with a rest."),
        Option("warm", "Stop: too long in one. Warm the water."),
        Option("sprinkle", "Stop: too long in one. Cast and sprinkle."),
        Option("again", "Stop: too long in one. Wet it once more, rest it, weigh it, and ask again."),
    ),
    rests_on="the limits of [[page:procedures/steeping|steeping]], and the steep model run for each way",
    next="What each way comes to stands in the table.",
)
INSTEAD = Listing(
    "instead",
    "What may be done instead",
    (
        Heading("way", "Way", kind="text"),
        Heading("hours", "Hours wet, rest, wet …", kind="text"),
        Heading("water_temp_c", "Water", "C", 1),
        Heading("first_drain", "First drain", kind="clock"),
        Heading("last_drain", "Last drain", kind="clock"),
        Heading("moisture", "Ends on", "%", 1),
    ),
)
_WAYS = {
    "split": "split it with a rest",
    "warm": "warm the water",
    "sprinkle": "cast and sprinkle",
    "again": "once more, rest, weigh, ask again",
}


def order_found(order: Order, target: float, start: datetime | None, begins_h: float) -> list[Found]:
    """The answers where one immersion is past the stop: what to do, and the drain that comes first."""
    first = order.ways[0]
    found = [Found("order", first.word, asked_words(order, target))]
    if start is not None:
        found.append(
            Found(
                "drain_at",
                clock_after(start, begins_h + first.hours[0]),
                f"start + {plain_number(round(begins_h, 2))} h + {fixed(first.hours[0], 1)} h, of the first way",
            )
        )
    return found


def instead_rows(order: Order, start: datetime | None, begins_h: float) -> list[Rows]:
    """The ways as a table, or none."""
    if not order.ways:
        return []
    rows = []
    for way in order.ways:
        ends = [begins_h + sum(way.hours[: n + 1]) for n in (0, len(way.hours) - 1)]
        clocks = [clock_after(start, hours) if start else None for hours in ends]
        hours = ", ".join(_short(h) for h in way.hours)
        rows.append((_WAYS[way.word], hours, way.water_temp_c, *clocks, way.moisture))
    return [Rows("instead", rows)]
