"""The next step in an air rest: water again, or a look whether it is ready for the cast."""

from __future__ import annotations

from datetime import datetime

from ...asking.figures import fixed, plain_number
from ...models.bounds import OutOfRange
from ...models.steep.course import Stage
from ...models.steep.hydration import STAGES, run
from ...rules.limit import edge
from ...rules.limits.casting import MOISTURE
from ...rules.limits.steeping import CHIT_LAST_DIP, REST
from ...rules.steep_order import DRAINS, MOST_H, held, last_immersion, ready_by_moisture, usual_h
from ...words.order import stop_sentences
from ...words.steep import GAS
from .steep_here import TELL, Here, Open, hours_said
from .step import Step

_LIKELY = ("stage-begun", "basket", "moisture")
_MERE_WETTING_H = 0.5
_WARMTH = "How warm this rest gets, and which suction holds it: [[sheet:rest-warmth]]."
_CAST = "What argues for it: [[sheet:cast-decision]]. How: [[page:procedures/casting|casting]]."


def in_rest(here: Here) -> Step:
    """What is to be done next with a batch that lies in an air rest, and where to ask how warm it gets."""
    step = _in_rest(here)
    return step._replace(more=(*step.more, _WARMTH))


def _in_rest(here: Here) -> Step:
    rested = (here.now - here.spell.begun).total_seconds() / 3600
    lead = [f"Past a stop. {words} {TELL}" for words in stop_sentences(held(REST, rested))]
    now = here.open(here.now)
    ready = now is not None and here.target is not None and ready_by_moisture(now.moisture, here.target)
    if here.planned and not here.last:
        return _next_fill(here, here.planned, lead, ready)
    if now is not None and here.target is not None and not ready:
        return _wet_again(here, now, here.target, lead)
    if now is None and here.number < len(DRAINS):
        return _unknown(here, lead)
    holds = " Weigh the basket first."
    if now is not None:
        lead += [f"Past a stop. {words}" for words in stop_sentences(held(MOISTURE, now.moisture))]
        holds = f" By what is known it holds {fixed(now.moisture, 0)} %."
    lead += [f"Past a stop by the plan. {words}" for words in stop_sentences(held(REST, here.planned_h or 0.0))]
    by = f" The plan ends at {here.wall.time(here.planned)}." if here.planned else ""
    lead.append(f"Look whether it is ready for the cast: chits, smell, moisture, warmth.{holds}{by}")
    return Step(" ".join(lead), here.planned, (_CAST,), (GAS,), ("cast", "chits", "basket"))


def _water_on(here: Here, due: datetime, after: str = "") -> str:
    if here.wall.late(due):
        return f"Water on was due at {here.wall.time(due)}{after}. Suction until it is on."
    return f"Water on at {here.wall.time(due)}{after}. Suction until then."


def _rest_stops(here: Here) -> str:
    most = edge(REST.stop_high)
    return f"An air rest stops at {plain_number(most)} h, here {here.time(most)}."


def _next_fill(here: Here, planned: datetime, lead: list[str], ready: bool) -> Step:
    """The plan has another immersion."""
    more = []
    hours = here.planned_h or 0.0
    lead = [*lead, *(f"Past a stop by the plan. {words}" for words in stop_sentences(held(REST, hours)))]
    due = min(planned, here.after(edge(REST.stop_high)))
    if hours < here.rest_wanted_h and here.rest_wanted_h > edge(REST.accept_low):
        more.append(f"This barley dislikes water: give it {plain_number(here.rest_wanted_h)} h of rest or more.")
    if ready:
        more.append(
            "By what is known it is on its target already. Weigh it, and leave the next immersion out if so: "
            "[[sheet:cast-decision]]."
        )
    return Step(" ".join([*lead, _water_on(here, due)]), due, tuple(more), (GAS,), _LIKELY)


def _unknown(here: Here, lead: list[str]) -> Step:
    """Nothing says how wet it is, and it has been under water once."""
    due = here.after(here.rest_wanted_h)
    text = (
        "Not ready for the cast by its hours: one immersion alone does not steep it, and nothing says how wet it is. "
        f"Weigh the basket. {_water_on(here, due)}"
    )
    more = (here.known,) if isinstance(here.known, str) else ()
    return Step(" ".join([*lead, text]), due, more, (GAS,), ("basket", "stage-begun", "moisture"))


def _wet_again(here: Here, now: Open, target: float, lead: list[str]) -> Step:
    """Too dry for the cast, and no plan says what comes: the next immersion by the table and the model."""
    wanted = here.rest_wanted_h
    due = here.after(wanted)
    low, high = (fixed(value, 0) for value in now.band)
    text = (
        f"Not ready for the cast: by what is known it holds {fixed(now.moisture, 0)} % ({low} to {high}); the target "
        f"is {plain_number(target)} %. {_water_on(here, due, f', after {plain_number(wanted)} h of rest')}"
    )
    more = [_following(here, now, target), _rest_stops(here)]
    if here.planned:
        more.append(f"The plan ends at {here.wall.time(here.planned)}.")
    return Step(" ".join([*lead, text]), due, tuple(filter(None, more)), (GAS,), _LIKELY)


def _following(here: Here, now: Open, target: float) -> str:
    """How long the next immersion is likely to be, and what is counted before it."""
    told = _immersion(here, now, target)
    chits = plain_number(edge(CHIT_LAST_DIP.stop_low))
    return told and f"{told} Count chits before the last water: under {chits} % no water."


def _immersion(here: Here, now: Open, target: float) -> str:
    """How long the immersion after this rest is likely to be."""
    steeping = now.course.steeping
    *before, rest = steeping.stages
    if len(steeping.stages) >= STAGES.high or not before:
        return ""
    rest = rest._replace(hours=max(here.rest_wanted_h, rest.hours))
    water = before[-1].water_temp_c

    def ahead(hours: float) -> Open:
        return now._replace(course=run(steeping._replace(stages=(*before, rest, Stage(hours, water)))))

    next_one = ahead(1.0).course
    try:
        order = last_immersion(next_one, target, begun=True, rest_h=here.rest_wanted_h, accepted_h=here.accepted_h)
    except OutOfRange:
        return ""
    if order is None:
        return ""
    aim = f"{plain_number(target)} %"
    if order.needed_h is not None and order.needed_h < _MERE_WETTING_H:
        return f"Mere wetting may bring it to {aim}: fill, drain and weigh."
    if order.mark != "stop" and order.needed_h is not None:
        return f"Then about {hours_said(order.needed_h)} h of water bring it to {aim}. Weigh an hour before."
    hours = usual_h(next_one, here.number + 1, here.accepted_h)
    return (
        f"One immersion does not bring it to {aim} within its {plain_number(MOST_H)} h. Wet it for about "
        f"{hours_said(hours)} h, to {fixed(ahead(hours).moisture, 0)} %, rest it, and wet it again."
    )
