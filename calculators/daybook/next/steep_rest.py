"""The next step in an air rest: water again once the chits are there, or a look whether it is ready for the cast."""

from __future__ import annotations

from datetime import datetime

from ...asking.figures import fixed, plain_number
from ...models.bounds import OutOfRange
from ...models.steep.course import Stage
from ...models.steep.hydration import STAGES, run
from ...rules.conventions import MERE_WETTING_H
from ...rules.limit import edge
from ...rules.limits.casting import MOISTURE
from ...rules.limits.steeping import CHIT_LAST_DIP, IMMERSION, REST
from ...rules.lines import Line
from ...rules.steep_life import alive_order
from ...rules.steep_order import DRAINS, Order, held, last_immersion, ready_by_moisture, usual_h
from ...words.limits import at_edge
from ...words.order import left_out_words, stop_sentences
from ...words.steep import GAS
from .drained import drained_line, drained_words, longer_rest
from .steep_here import TELL, Here, Open, hours_said
from .steep_living import (
    Living,
    Wait,
    counted,
    mix_words,
    open_rest,
    planned_after,
    read_stops,
    stops_ahead,
    wait_for_cast,
    wait_for_dip,
)
from .step import Step

_LIKELY = ("stage-begun", "basket", "moisture")
_DIPS = ("chits", "stage-begun", "basket")
_SHEETS = "For other suction or air: [[sheet:rest-warmth]]. The chits by the hour: [[sheet:chitting]]."
_CAST = "What argues for it: [[sheet:cast-decision]]. How: [[page:procedures/casting|casting]]."


def in_rest(here: Here) -> Step:
    """What is to be done next with a batch that lies in an air rest, how warm it gets, and what of it has chitted."""
    rested = (here.now - here.spell.begun).total_seconds() / 3600
    long = [f"Past a stop. {words} {TELL}" for words in stop_sentences(held(REST, rested))]
    drained = drained_words(here.batch, _drained(here), here.planned_h, here.wall)
    step = _in_rest(here)
    if isinstance(here.known, str):
        return step._replace(text=" ".join([*long, *read_stops(here), step.text]), more=(*step.more, _SHEETS))
    living = _until(here, step.at or here.now)
    warm, more = open_rest(living)
    text = " ".join([*long, *warm, *([f"{drained} {TELL}"] if drained else []), step.text])
    return step._replace(text=text, more=(*step.more, *more, *stops_ahead(living, text), _SHEETS))


def _drained(here: Here) -> Line | None:
    return drained_line(here.batch, here.known, here.now)


def _until(here: Here, moment: datetime) -> Living:
    """The batch with its rest lasting until a moment, no longer than a rest may, and the plan after it."""
    return Living(here, max(here.now, min(moment, here.after(edge(REST.stop_high)))), planned_after(here))


def _in_rest(here: Here) -> Step:
    now = here.open(here.now)
    ready = now is not None and here.target is not None and ready_by_moisture(now.moisture, here.target)
    if here.planned and not here.last:
        return _next_fill(here, here.planned, ready)
    if now is not None and here.target is not None and not ready:
        return _wet_again(here, now, here.target)
    if now is None and here.number < len(DRAINS):
        return _unknown(here)
    return _look(here, now)


def _look(here: Here, now: Open | None) -> Step:
    """Nothing is left of the plan, or it is wet enough: whether it is ready for the cast."""
    lead = []
    holds, wait = " Weigh the basket first.", Wait(here.planned, [], [])
    if now is not None:
        lead += [f"Past a stop. {words}" for words in stop_sentences(held(MOISTURE, now.moisture))]
        holds = f" By what is known it holds {fixed(now.moisture, 0)} %."
        wait = wait_for_cast(_until(here, here.now), here.planned)
    lead += [f"Past a stop by the plan. {words}" for words in stop_sentences(held(REST, here.planned_h or 0.0))]
    lead += wait.lead
    by = f" The plan ends at {here.wall.time(here.planned)}." if here.planned else ""
    lead.append(f"Look whether it is ready for the cast: chits, smell, moisture, warmth.{holds}{by}")
    return Step(" ".join(lead), wait.until, (*wait.more, _CAST), (GAS,), ("cast", "chits", "basket"))


def _water_on(here: Here, due: datetime, wait: Wait, after: str = "") -> str:
    """The order of the next water; where chits are waited for, that a count decides."""
    if wait.lead and wait.until is not None:
        look = here.wall.time(wait.until)
        return f"No water before a count of 200 corns says so: look at {look}. Suction until then."
    if here.wall.late(due):
        return f"Water on was due at {here.wall.time(due)}{after}. Suction until it is on."
    return f"Water on at {here.wall.time(due)}{after}. Suction until then."


def _rest_stops(here: Here) -> str:
    return f"An air rest stops at {at_edge(REST, 'stop_high')}, here {here.time(edge(REST.stop_high))}."


def _next_fill(here: Here, planned: datetime, ready: bool) -> Step:
    """The plan has another immersion."""
    more = []
    hours = here.planned_h or 0.0
    lead = [f"Past a stop by the plan. {words}" for words in stop_sentences(held(REST, hours))]
    due = min(longer_rest(here.batch, _drained(here), planned), here.after(edge(REST.stop_high)))
    if hours < here.rest_wanted_h and here.rest_wanted_h > edge(REST.accept_low):
        more.append(f"This barley dislikes water: give it {plain_number(here.rest_wanted_h)} h of rest or more.")
    if ready:
        more.append(
            "By what is known it is on its target already. Weigh it, and leave the next immersion out if so: "
            "[[sheet:cast-decision]]."
        )
    is_dip = len(here.batch.plan) - len(here.batch.spells) <= len(("water", "rest"))
    return _filled(here, due, is_dip, lead, more)


def _filled(here: Here, due: datetime, is_dip: bool, lead: list[str], more: list[str], after: str = "") -> Step:
    """The next water at its hour; before a last dip only once its chits are there."""
    living = _until(here, due)
    wait = wait_for_dip(living, living.until) if is_dip else Wait(due, [], [])
    at = max(due, wait.until) if wait.lead and wait.until else due
    text = " ".join([*lead, *wait.lead, _water_on(here, due, wait, after)])
    more = [*more, *mix_words(living), *wait.more]
    return Step(text, at, tuple(filter(None, more)), (GAS,), _DIPS if wait.lead else _LIKELY)


def _unknown(here: Here) -> Step:
    """Nothing says how wet it is, and it has been under water once."""
    due = here.after(here.rest_wanted_h)
    text = (
        "Not ready for the cast by its hours: one immersion alone does not steep it, and nothing says how wet it is. "
        f"Weigh the basket. {_water_on(here, due, Wait(due, [], []))}"
    )
    more = (here.known,) if isinstance(here.known, str) else ()
    return Step(text, due, more, (GAS,), ("basket", "stage-begun", "moisture"))


def _wet_again(here: Here, now: Open, target: float) -> Step:
    """Too dry for the cast, and no plan says what comes: the next immersion by the table and the model."""
    due = longer_rest(here.batch, _drained(here), here.after(here.rest_wanted_h))
    wanted = (due - here.spell.begun).total_seconds() / 3600
    low, high = (fixed(value, 0) for value in now.band)
    lead = [
        f"Not ready for the cast: by what is known it holds {fixed(now.moisture, 0)} % ({low} to {high}); the target "
        f"is {plain_number(target)} %."
    ]
    is_last, following = _following(here, now, target)
    more = [following, _rest_stops(here)]
    if here.planned:
        more.append(f"The plan ends at {here.wall.time(here.planned)}.")
    return _filled(here, due, is_last, lead, more, f", after {plain_number(wanted)} h of rest")


def _following(here: Here, now: Open, target: float) -> tuple[bool, str]:
    """Whether the next immersion is likely the last, how long it is, and what is counted before it."""
    is_last, told = _immersion(here, now, target)
    chits = at_edge(CHIT_LAST_DIP, "stop_low")
    return is_last, told and f"{told} Count chits before the last water: under {chits} no water."


def _immersion(here: Here, now: Open, target: float) -> tuple[bool, str]:
    """Whether the immersion after this rest is likely the last, and how long it is."""
    steeping = now.course.steeping
    *before, rest = steeping.stages
    if isinstance(here.known, str) or len(steeping.stages) >= STAGES.high or not before:
        return False, ""
    rest = rest._replace(hours=max(here.rest_wanted_h, rest.hours))
    water = before[-1].water_temp_c

    def ahead(hours: float) -> Open:
        return now._replace(course=run(steeping._replace(stages=(*before, rest, Stage(hours, water)))))

    next_one = ahead(1.0).course
    order: Order | None
    try:
        order = last_immersion(next_one, target, begun=True, rest_h=here.rest_wanted_h, accepted_h=here.accepted_h)
        order = alive_order(order, next_one, counted(here.batch, here.known), begun=True)
    except OutOfRange:
        return False, ""
    if order is None:
        return False, ""
    aim = f"{plain_number(target)} %"
    if order.needed_h is not None and order.needed_h < MERE_WETTING_H:
        return True, f"Mere wetting may bring it to {aim}: fill, drain and weigh."
    if order.mark != "stop" and order.needed_h is not None:
        return True, f"Then about {hours_said(order.needed_h)} h of water bring it to {aim}. Weigh an hour before."
    hours = usual_h(next_one, here.number + 1, here.accepted_h)
    return False, (
        f"One immersion does not bring it to {aim} within its {at_edge(IMMERSION, 'stop_high')}. Wet it for about "
        f"{hours_said(hours)} h, to {fixed(ahead(hours).moisture, 0)} %, rest it, and wet it again."
        f"{left_out_words(order)}"
    )
