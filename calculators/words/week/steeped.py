"""The steep of a week by the living batch: what its stages come to, and when its chits are there for the cast."""

from __future__ import annotations

from math import ceil, exp, inf
from typing import NamedTuple

from ...asking.declare import AskAgain, Found, Note
from ...asking.figures import fixed, plain_number
from ...models.living.chitting import Corns
from ...models.living.steep_life import Life
from ...models.living.steep_run import warmed
from ...models.steep.doubt import BAND_SD, trust
from ...models.steep.first_uptake import first_uptake
from ...models.steep.hydration import WATER_TEMP_C, steep
from ...rules.cast import To, limit_of
from ...rules.limit import edge
from ...rules.limits.casting import MOISTURE
from ...rules.limits.steeping import REST, WATER_TEMP
from ...rules.steep_life import Lives, judged
from ...rules.steep_order import held
from ...rules.week.house import RESTS_MOST, offsets
from ..life import OWN_LOG_SD, TOO_WARM, alive_or_none, life_found, lives_of, may_warm_note
from ..order import stop_notes
from .standing import Given


class Steeped(NamedTuple):
    """What the stages of a week come to.

    Attributes
    ----------
    drain : int
        Hours from the last drain until the typical barley, or the house's own, has chits enough to be cast [h].
    later_h : float
        By how much that may be later, 19 of 20 [h]; at most until the stop of a rest.
    found : tuple of Found
        Its figures.
    notes : tuple of Note
        What it passes, the stops first.
    stopped : bool
        Whether it passes a stop.
    """

    drain: int
    later_h: float
    found: tuple[Found, ...]
    notes: tuple[Note, ...]
    stopped: bool


def steeped(given: Given) -> Steeped:
    """Give what the stages come to in the water that is to be had, by the same functions as a steep plan."""
    water_c: float = max(given["steep_c"], given["mains_c"])
    if water_c > WATER_TEMP_C.high:
        raise AskAgain(
            "mains_c",
            f"in water at {plain_number(water_c)} °C no barley is steeped. Type up to "
            f"{plain_number(WATER_TEMP_C.high)} °C: water that comes warmer is cooled first.",
        )
    to: To = "drum" if given["vessels"] else "couch"
    hours = [row[0] for row in given["stages"]]
    lives = lives_of(
        suction_m3_h_t=given["suction_m3_h_t"],
        rest_air_c=given["rest_air_c"],
        cast_to=to,
        corns=Corns(),
        chit_h=given["chit_hours"],
        held_c=tuple(row[1] if place % 2 else None for place, row in enumerate(given["stages"])),
    )
    course = steep(
        barley_moisture=given["barley_moisture"],
        stages=[(row[0], water_c if row[1] is None else row[1]) for row in given["stages"]],
        first_uptake_db=first_uptake(barley_moisture=given["barley_moisture"], moisture_offset=0.0),
    )
    course, _ = warmed(course, lives.rests)
    doubt = trust(course)
    band = doubt.band([course.hours])
    end = course.ends[-1].drained
    said = f"{' + '.join(map(plain_number, hours))} h in water at {plain_number(water_c)} °C"
    found = [Found("moisture_end", end, f"{said}: {fixed(end, 0)} %", band.low[0], band.high[0])]
    asked = [*held(WATER_TEMP, water_c), *held(MOISTURE, end)]
    notes = stop_notes([*asked, *judged(course, lives).passed], f"these stages, {said}")
    life, rested = (alive_or_none(doubt, lives, on_h) for on_h in (0.0, edge(REST.stop_high)))
    if life is None or rested is None:
        return Steeped(1, 0.0, tuple(found), (*notes, TOO_WARM), True)
    stopped = bool(notes)
    found += life_found(life, hours)
    notes += may_warm_note([life], ["in these stages, "])
    drain, later = _cast(hours, rested, lives, found)
    return Steeped(drain, later, tuple(found), tuple(notes), stopped)


def _cast(hours: list[float], life: Life, lives: Lives, found: list[Found]) -> tuple[int, float]:
    """How long the grain lies drained until it can be cast, and by how much that may be later [h]."""
    _, drains = offsets(tuple(hours))
    wanted = edge(limit_of(lives.to).accept_low)
    span = life.hour_of(wanted / 100.0)
    latest = float(drains[-1] + RESTS_MOST)
    if span is None or span.value > latest:
        return RESTS_MOST, 0.0
    low, high = span.low, min(span.high, latest)
    told = f"{plain_number(wanted)} % chitted, by the typical barley: {fixed(span.value, 0)} h after the fill"
    if span.high == inf:
        told += ". A slow lot may not come to it before the stop of a rest: count it"
    if lives.chit_h is not None:  # the house's own hours hold how its barley drinks
        far = exp(BAND_SD * OWN_LOG_SD)
        low, high = span.value / far, min(span.value * far, latest)
        told = f"{plain_number(wanted)} % chitted, by your own hours: {fixed(span.value, 0)} h after the fill"
    found.append(Found("chit_there_h", span.value, told, low, high))
    return max(1, ceil(span.value - drains[-1] - 1e-9)), max(0.0, high - max(span.value, drains[-1] + 1.0))
