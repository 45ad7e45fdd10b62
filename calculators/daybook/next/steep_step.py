"""The next step in the steep: when to drain and when to wet it again, by the plan, the model and the table of limits.

The table comes first: an hour past a stop is never named as the hour to drain at, and the stop is said first.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from ...asking.figures import fixed, plain_number
from ...models.bounds import OutOfRange
from ...models.steep.doubt import Prior
from ...rules.limits.casting import MOISTURE
from ...rules.limits.steeping import CHIT_LAST_DIP, FILL_AGAINST_GRAIN, IMMERSION, WATER_TEMP
from ...rules.lines import passed
from ...rules.steep_life import alive_order
from ...rules.steep_order import ACCEPTED_H, DRAINS, MOST_H, Order, held, last_immersion, usual_h
from ...words.limits import act_of, at_edge, span
from ...words.limits import said as said_line
from ...words.order import asked_words, left_out_words, stop_sentences, way_words
from ...words.steep import GAS, needed_range
from ..batch.batch import Batch
from ..batch.course import Course, course_of
from ..batch.lives import chits_of, grain_read
from ..lines.entry import Entry
from ..lines.reports import many
from .drained import drained_line
from .steep_here import NEAR, TELL, THE_STOP, Here, Open, grams, here_of, hours_said, reads
from .steep_living import Living, chits_ahead, counted, planned_after, rest_ahead, stops_ahead
from .steep_rest import in_rest
from .step import Step, Wall

_OF_THE_GRAIN = timedelta(hours=3)
"""A reading of the grain tells of the water that covers it for so long: our judgement."""

_SAME = timedelta(minutes=30)
"""The plan's hour is kept where it is so near to the hour of the table."""

_NOW = "Drain now: "
_MOVES = {"basket": "basket", "moisture": "sample", "water": "water’s reading", "plan": "plan"}
"""The lines that may move the hour of a drain, as they are named."""

_Said = tuple[datetime | None, list[str]]
"""When it is drained, and the sentences that say so."""


def in_steep(batch: Batch, course: Course | str, wall: Wall) -> Step:
    """What is to be done next with a batch that is in the steep.

    Parameters
    ----------
    batch : Batch
        The batch; the last of its spells is open.
    course : Course or str
        Its steep, or why there is none.
    wall : Wall
        The time now.
    """
    here = here_of(batch, course, wall)
    return _wet(here) if here.spell.wet else in_rest(here)


def _wet(here: Here) -> Step:
    more: list[str] = []
    said = [
        f"Past a stop. {words} {TELL}"
        for temp in here.spell.temps[-1:]
        for words in stop_sentences(held(WATER_TEMP, temp))
    ]
    said += _cold_water(here)
    unchitted = _unchitted(here)
    due: datetime | None
    if unchitted:
        due = here.now
        said += [unchitted, reads(here, here.now, "By now")]
    elif here.now > here.after(MOST_H) + NEAR:
        due = min(here.planned or here.after(MOST_H), here.after(MOST_H))
        lasted = hours_said((here.now - here.spell.begun).total_seconds() / 3600)
        said += [
            f"Past a stop. This immersion has lasted {lasted} h; {THE_STOP}. {IMMERSION.act} {TELL}",
            f"The drain was due at {here.wall.time(due)}.",
            reads(here, here.now, "By now"),
        ]
    else:
        due, drain = _drain(here, more)
        said += drain
    if isinstance(here.known, str):
        more.append(here.known)
    else:
        living = Living(here, max(due or here.now, here.now), planned_after(here))
        warm, rests = rest_ahead(living)
        said = [*warm, *said]
        more += [*rests, *chits_ahead(living), *stops_ahead(living, " ".join(said))]
    return Step(" ".join(filter(None, said)), due, tuple(more), (GAS,), ("stage-ended", "basket", "water"))


def _unchitted(here: Here) -> str:
    """Corns under the last water that the last count found unchitted; nothing where they were there or not counted."""
    begun = here.batch.hours_at(here.spell.begun)
    counts = [one for one in chits_of(here.batch) if one.hour <= begun]
    if not here.last or not counts or len(here.batch.spells) < len(("water", "rest", "water")):
        return ""
    share = 100.0 * counts[-1].chitted / counts[-1].corns
    if not any(one.is_stop for one in held(CHIT_LAST_DIP, share, here.number)):
        return ""
    least = at_edge(CHIT_LAST_DIP, "stop_low")
    return (
        f"Past a stop. {fixed(share, 0)} % had chitted at the count before this water: under {least} it is not wetted, "
        f"as corns that have not chitted drown. Drain now, and rest it with suction until a count says so. {TELL}"
    )


def _cold_water(here: Here) -> list[str]:
    """Water that lies too far from the grain which it covered, by the last reading of the rest before."""
    if not here.spell.temps or len(here.batch.spells) < len(("rest", "water")):
        return []
    read = grain_read(here.batch, here.batch.spells[-2])
    if not read or here.spell.begun - read[-1].at > _OF_THE_GRAIN:
        return []
    water, last = here.spell.temps[0], read[-1]
    colder, warmer = last.warmest_c - water, water - last.coolest_c
    apart = round(max(colder, warmer), 6)
    line = passed(FILL_AGAINST_GRAIN, apart)
    if line is None or line.mark != "stop":
        return []
    side = ("colder", "warmest", last.warmest_c) if colder >= warmer else ("warmer", "coolest", last.coolest_c)
    most = at_edge(FILL_AGAINST_GRAIN, "stop_high")
    return [
        f"Past a stop. This water is {fixed(apart, 1)} K {side[0]} than the grain was read at "
        f"{here.wall.time(last.at)}, {fixed(side[2], 1)} °C at its {side[1]}: {most} is the most. "
        f"{FILL_AGAINST_GRAIN.act} {TELL}"
    ]


def _drain(here: Here, more: list[str]) -> _Said:
    there = here.open(here.after(ACCEPTED_H))
    if there is None or isinstance(here.known, str):
        return _by_the_table(here)
    if not here.last or here.target is None:
        return _before_the_last(here, there, more)
    stops = [f"Past a stop. {words}" for words in stop_sentences(held(MOISTURE, here.target))]
    try:
        order = last_immersion(
            there.course, here.target, begun=True, rest_h=here.rest_wanted_h, accepted_h=here.accepted_h
        )
        order = alive_order(order, there.course, counted(here.batch, here.known), begun=True)
    except OutOfRange:
        return _before_the_last(here, there, more)
    if order is None:
        due, said = _reached(here, more)
    elif order.mark == "stop" or order.needed_h is None:
        due, said = _not_in_one(here, order, more)
    else:
        due, said = _on_target(here, there, order.needed_h, more)
    return due, [*stops, *said]


def _by_the_table(here: Here) -> _Said:
    """Without a model: the plan's hour where it keeps the table, and the stop."""
    planned = here.planned
    if planned and planned <= here.after(MOST_H):
        due, drain = _due(here, planned)
        return due, [drain]
    said = [_plan_stop(here)] if planned else []
    said.append(f"Drain when the basket is on weight, at {here.time(MOST_H)} at the latest: {THE_STOP}.")
    if not planned:
        said.append("No plan of the steep is written, so there is no hour to name.")
    return None, said


def _reached(here: Here, more: list[str]) -> _Said:
    """By the model the target was reached before this immersion began."""
    assert here.target is not None
    weight = grams(here.batch, here.target)
    aim = f"{fixed(weight, 0)} g" if weight else f"{plain_number(here.target)} %"
    _plan_beside(here, here.spell.begun, more)
    more.append(f"In any case drain at {here.time(MOST_H)} at the latest: {THE_STOP}.")
    return here.now, [
        f"Weigh the basket now, and drain if it is at {aim}: by the model the target of {plain_number(here.target)} % "
        "was reached before this immersion."
    ]


def _not_in_one(here: Here, order: Order, more: list[str]) -> _Said:
    """The target is too far for one immersion: its stop, the drain that is left, and what follows."""
    assert here.target is not None
    said = [f"Past a stop. {asked_words(order, here.target)}"]
    due, planned = here.after(order.ways[0].hours[0]), here.planned
    if planned and planned > here.after(MOST_H):
        said.append(_plan_stop(here))
    if planned and abs(planned - due) <= _SAME and planned <= here.after(MOST_H):
        due, drain = _due(here, planned)
        said.append(f"{drain} That is the plan’s hour.")
    else:
        due, drain = _due(here, due)
        said.append(drain)
        _plan_beside(here, due, more)
    said.append(reads(here, due))
    ways = [way_words(way, here.target) for way in order.ways if way.word != "again"]
    more.append(f"What then: {' Or '.join(ways) or 'rest it, weigh it, and wet it again.'}{left_out_words(order)}")
    if due > here.after(ACCEPTED_H) + NEAR:
        more.append(f"Over {at_edge(IMMERSION, 'accept_high')}: {IMMERSION.watch}.")
    return due, said


def _on_target(here: Here, there: Open, needed: float, more: list[str]) -> _Said:
    """The open immersion ends on target: its hour, the weight of the target, and how far the hour is in doubt."""
    assert here.target is not None and isinstance(here.known, Course)
    due, weight = here.after(needed), grams(here.batch, here.target)
    aim = f"the target of {plain_number(here.target)} %"
    then = f"The basket should read {fixed(weight, 0)} g then, {aim}." if weight else f"It should hold {aim} then."
    if here.wall.late(due):
        grams_too = f" {fixed(weight, 0)} g is {aim}." if weight else f" It was to hold {aim}."
        then = reads(here, here.now, "By now") + grams_too
    rests = many(len(here.known.readings), "reading") if here.known.readings else "the model alone"
    low, high = needed_range(there.course, *there.band, here.target)
    if high is None or high > MOST_H:
        likely = f"likely from {here.time(low)} on"
        more.append(f"Stop at {here.time(MOST_H)}, whatever the basket reads: {THE_STOP}.")
    else:
        likely = f"likely between {here.time(low)} and {here.time(high)}"
    more.append(f"{plain_number(here.target)} % by {rests}, {likely}; weigh an hour before.")
    if needed > ACCEPTED_H:
        more.append(f"Over {at_edge(IMMERSION, 'accept_high')}: {IMMERSION.watch}.")
    due, drain = _due(here, due)
    _plan_beside(here, due, more)
    return due, [drain, then]


def _before_the_last(here: Here, there: Open, more: list[str]) -> _Said:
    """An immersion before the last: the plan's hour, or where there is none or it passes a stop, that of the table."""
    wanted = DRAINS[here.number - 1] if here.number <= len(DRAINS) and not here.last else None
    said: list[str] = []
    due = planned = here.planned
    if planned and planned > here.after(MOST_H):
        said, due = [_plan_stop(here)], None
    elif planned and wanted and (line := drained_line(here.batch, here.known, here.now)):
        said, due = [f"Past a stop. {said_line(line)} {act_of(line)} {TELL}"], None
    elif planned and wanted and (ahead := here.open(planned)):
        off = stop_sentences(held(wanted, ahead.moisture))
        if off:
            said = [f"Past a stop at the plan’s hour, {here.wall.time(planned)}, by the model. {' '.join(off)}"]
            due = None
    if due is None:
        due = here.after(usual_h(there.course, here.number if wanted else len(DRAINS) + 1, here.accepted_h))
    due, drain = _due(here, due)
    _plan_beside(here, due, more)
    if said and drain.startswith(_NOW):  # the limit has said to drain now
        drain = drain.removeprefix(_NOW).capitalize()
    said += [drain, reads(here, due)]
    if not planned and wanted:
        said.append(f"At drain {here.number} {span(wanted)} is right.")
    if not planned:
        more.append(
            "No plan of the steep is written: this is the usual hour, by model and limits. Weigh an hour before."
        )
        more.append(f"Stop at {here.time(MOST_H)}, whatever the basket reads: {THE_STOP}.")
    if due > here.after(ACCEPTED_H) + NEAR:
        more.append(f"Over {at_edge(IMMERSION, 'accept_high')}: {IMMERSION.watch}.")
    return due, said


def _plan_stop(here: Here) -> str:
    return f"Past a stop. The plan has {hours_said(here.planned_h or 0.0)} h of water here; {THE_STOP}."


def _plan_beside(here: Here, due: datetime, more: list[str]) -> None:
    if here.planned and abs(here.planned - due) > NEAR:
        more.append(f"The plan’s hour is {here.wall.time(here.planned)}, after {hours_said(here.planned_h or 0.0)} h.")


def _due(here: Here, due: datetime) -> tuple[datetime, str]:
    """Since when the drain is due, and the sentence that says so: late is what could be known, and since then."""
    since, by = known_since(here, due)
    if by is None:
        return since, f"{'The drain was due' if here.wall.late(since) else 'Drain'} at {here.wall.time(since)}."
    return since, f"{_NOW}by the {_MOVES[by.kind]} of {here.wall.time(by.utc)} it was there already."


def known_since(here: Here, due: datetime) -> tuple[datetime, Entry | None]:
    """Since when an hour of the drain could be known, and the line that moved it back before itself, if one did.

    Parameters
    ----------
    here : Here
        A batch under water.
    due : datetime
        When it is drained by all lines, UTC.
    """
    lines = [one for one in here.batch.of(*_MOVES) if here.spell.begun < one.utc <= here.now]
    newest = max(lines, key=lambda one: one.utc, default=None)
    if newest is None or due >= newest.utc or isinstance(here.known, str):
        return due, None
    batch = Batch(here.batch.id, [one for one in here.batch.entries if one.utc < newest.utc])
    doubt = here.known.doubt_before
    course = course_of(batch, Prior(list(doubt.z), doubt.covariance), newest.utc)
    said_then, _ = _drain(here_of(batch, course, here.wall._replace(now=newest.utc)), [])
    if said_then is not None and said_then < newest.utc:
        return max(due, said_then), None
    return newest.utc, newest
