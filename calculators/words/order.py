"""An order of the steep in words: the stop that it passes, said first, and what is left in its place."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import datetime

from ..asking.declare import Answer, Chart, Found, Heading, Listing, Note, Option, Rows
from ..asking.figures import clock_words, fixed, plain_number
from ..models.steep.course import Steep
from ..rules.limit import SHIFT_LEAD
from ..rules.limits.steeping import CHIT_LAST_DIP, IMMERSION, REST, REST_RISE, REST_TEMP, WATER_TEMP
from ..rules.steep_order import MOST_H, Order, Passed, Way, held, is_early, stops
from . import within
from .limits import act_of, at_edge, reading
from .limits import edge as edge_words
from .steep import clock_after

_WORTH_SAYING = 0.05  # points: what one decimal shows
_PLACES = {
    IMMERSION.id: "immersion",
    REST.id: "rest",
    REST_TEMP.id: "rest",
    REST_RISE.id: "rest",
    WATER_TEMP.id: "immersion",
    CHIT_LAST_DIP.id: "immersion",
}


def passed_words(found: Sequence[Passed]) -> str:
    """What passes one stop, such as “One immersion 24 h (immersions 1 and 2): the stop is over 12 h.”."""
    first = found[0].line
    assert first.limit is not None
    place = _PLACES.get(first.rule)
    numbers: dict[str, list[str]] = {}
    for one in found:
        of = numbers.setdefault(reading(one.line), [])
        if place and one.number and str(one.number) not in of:
            of.append(str(one.number))
    values = [
        value + (f" ({place}{'s' if len(of) > 1 else ''} {_listed(of)})" if of else "") for value, of in numbers.items()
    ]
    return f"{first.limit.quantity} {_listed(values)}: the stop is {edge_words(first)}."


def _listed(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _by_limit(found: Sequence[Passed]) -> list[list[Passed]]:
    """The stops that are passed, one limit and side after the other."""
    groups: dict[tuple[str, bool], list[Passed]] = {}
    for one in found:
        if one.is_stop:
            groups.setdefault(one.what[:2], []).append(one)
    return list(groups.values())


def passed_sentences(found: Sequence[Passed]) -> str:
    """The stops that are passed, without what to do."""
    return " ".join(map(passed_words, _by_limit(found)))


def stop_sentences(found: Sequence[Passed]) -> list[str]:
    """The stops that are passed, each with what to do, one limit and side after the other."""
    return [f"{passed_words(group)} {act_of(group[0].line)}" for group in _by_limit(found)]


def stop_notes(found: Sequence[Passed], about: str) -> list[Note]:
    """One notice of all stops that are passed, or none; ``about`` says by what: “the plans below”."""
    said = stop_sentences(found)
    if not said:
        return []
    tell = f"Tell {SHIFT_LEAD}. The limits: [[page:procedures/steeping|steeping]]."
    return [Note("notice", f"Past a stop: {about}. {' '.join(said)} {tell}")]


def _short(hours: float) -> str:
    return plain_number(round(hours, 1 if hours >= 1 else 2))


def hours_words(hours: Sequence[float]) -> str:
    """Immersions and rests by turns: ``8 h wet, 6 h rest, 4.5 h wet``."""
    return ", ".join(f"{_short(h)} h {'rest' if n % 2 else 'wet'}" for n, h in enumerate(hours))


def way_words(way: Way, target: float) -> str:
    """One thing that may be done instead, in a sentence."""
    told = f"{hours_words(way.hours)}, to {fixed(way.moisture, 1)} %"
    short = target - way.moisture
    if way.word == "split" and short >= _WORTH_SAYING:
        return f"split it with a rest: {told}, {fixed(short, 1)} points short. A dip under an hour is not worth a fill."
    if way.word == "split":
        over = f", {fixed(-short, 1)} points over, for a dip of no less than an hour" if -short >= _WORTH_SAYING else ""
        return f"split it with a rest: {told}{over}."
    if way.word == "warm":
        return f"warm the water to {plain_number(way.water_temp_c)} °C, by [[sheet:mixing-waters]]: then {told}."
    if way.word == "again":
        return f"wet it once more, {told}; then rest it, weigh it, and ask again."
    if not way.hours:
        return f"cast, and sprinkle the other {fixed(short, 1)} points on the floor, by [[sheet:sprinkling]]."
    return (
        f"cast and sprinkle: {told}; the other {fixed(short, 1)} points on the floor, by "
        "[[sheet:sprinkling]], once the chits are there."
    )


def asked_words(order: Order, target: float) -> str:
    """What is asked of one immersion past its stop, and the stop."""
    aim, stop = plain_number(target), at_edge(IMMERSION, "stop_high")
    (over,) = held(IMMERSION, order.needed_h or math.inf)
    if order.needed_h is None:
        return f"No single immersion brings it to {aim} %: the stop of one is over {stop}."
    return f"To {aim} % in one immersion takes {reading(over.line)}: the stop is over {stop}."


def left_out_words(order: Order) -> str:
    """The ways that are not offered, each with the stops of warmth or chit that it passes."""
    return "".join(
        f" Not offered: {hours_words(way.hours)}, in water at {plain_number(way.water_temp_c)} °C. "
        f"{passed_sentences(passed)}"
        for way, passed in order.left_out
    )


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
        text = f"Past a stop. {asked_words(order, target)} {IMMERSION.act}"
        for number, way in enumerate(order.ways):
            words = way_words(way, target)
            text += f" Or {words}" if number else f" {words[0].upper()}{words[1:]}"
        return [Note("notice", text + left_out_words(order))]
    notes = []
    if high_h is None or high_h > MOST_H:
        by = f", at {clock_words(latest)}," if latest else ""
        notes.append(
            Note(
                "notice",
                f"Stop after {at_edge(IMMERSION, 'stop_high')}{by} whatever the basket reads. A barley that drinks "
                f"slowly is not at {plain_number(target)} % by then: drain, rest, and wet it again.",
            )
        )
    if order.mark == "watch":
        over = f"Over {at_edge(IMMERSION, 'accept_high')}, one immersion is watched: {IMMERSION.watch}."
        notes.append(Note("notice", over))
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
FIRST_WET = Answer(
    "first_wet_h",
    "First wet it for",
    "h",
    1,
    lead=True,
    rests_on="the way that stands first, by the steep model",
    next="Then drain it, rest it, and go on as the table says.",
    within=within.immersion_hours("stages"),
)
INSTEAD = Listing(
    "instead",
    "What may be done instead",
    (
        Heading("way", "Way", kind="text"),
        Heading("hours", "Hours wet, rest, wet …", kind="text"),
        Heading("water_temp_c", "Water", "C", 1, within=within.water_temp()),
        Heading("first_drain", "First drain", kind="clock"),
        Heading("last_drain", "Last drain", kind="clock"),
        Heading("moisture", "Ends on", "%", 1, within=within.moisture("stages")),
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
    found = [
        Found("order", first.word, asked_words(order, target)),
        Found("first_wet_h", first.hours[0], way_words(first, target), worked="model"),
    ]
    if start is not None:
        found.append(
            Found(
                "drain_at",
                clock_after(start, begins_h + first.hours[0]),
                f"start + {plain_number(round(begins_h, 2))} h + {fixed(first.hours[0], 2)} h, of the first way",
            )
        )
    return found


def chits_against(order: Order | None, course: Steep, passed: Sequence[Passed]) -> tuple[list[Note], list[Passed]]:
    """Which goes first where an order of water stands against chits too few for the last dip, and the other stops.

    Parameters
    ----------
    order : Order or None
        How long the last immersion must be; None where it is left out.
    course : Steep
        The steep as typed or as its readings bend it.
    passed : sequence of Passed
        All that it passes.

    Returns
    -------
    tuple of list of Note and list of Passed
        The note that stands before the order, or none; and what is left to say as stops of their own.
    """
    few = [one for one in stops(passed) if one.line.rule == CHIT_LAST_DIP.id]
    if order is None or not few:
        return [], list(passed)
    number = few[0].number
    facts = (
        f"Past a stop. {passed_words(few)} These speak against each other: the target wants water, and its chits "
        "would have it left."
    )
    if order.ways and order.ways[0].word in ("split", "again") and is_early(course):
        then = (
            f"The chits go first: immersion {number} cannot be the last dip. Wetted as the next notice says, it is "
            "none, and the plan of the steep decides about it. Before the last water count the chits: under "
            f"{at_edge(CHIT_LAST_DIP, 'stop_low')} leave it in the air rest."
        )
    else:
        then = (
            f"The chits go first: corns that have not chitted drown in the next water. So no water for immersion "
            f"{number} yet: leave it in the air rest, count, and type its longer rest here. What is said of its hours "
            "holds once the chits are there."
        )
    tell = f"Tell {SHIFT_LEAD}. The limits: [[page:procedures/steeping|steeping]]."
    return [Note("notice", f"{facts} {then} {tell}")], [one for one in passed if one not in few]


def with_order(chart: Chart, order: Order | None, target: float | None) -> Chart:
    """The chart of a course, whose caption says it too where the last immersion would pass its stop."""
    if order is None or order.mark != "stop" or target is None:
        return chart
    return chart._replace(summary=f"{chart.summary} Past a stop. {asked_words(order, target)}")


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
