"""A steep with its life, by what is known of it: how its rests are kept, how warm they get, what its clocks come to.

The batch of ``batch`` is driven with the water of one ``Steep``, so that moisture, warmth and
chit of a sheet belong to one another.  ``steep_life`` adds the doubt.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from ..steep.course import Stage, Steep, Steeping
from ..steep.hydration import STAGES, run
from .batch import SteepWater, drive, with_warmth
from .lot_plan_state import Lot, Plan, State
from .maths import FLOATS


class Rests(NamedTuple):
    """How the rests of a steep are kept.

    Parameters
    ----------
    suction_m3_h_t : float
        Air drawn through [m3/h for each tonne of barley].
    air_c : float, optional
        That air [C]; as warm as the water of the first immersion when nothing is said.
    air_rh : float
        Its relative humidity [%].
    held_c : tuple of (float or None)
        What the grain of each stage was read at [C]; None where it follows.
    """

    suction_m3_h_t: float = 7.8
    air_c: float | None = None
    air_rh: float = 85.0
    held_c: tuple[float | None, ...] = ()


USUAL_RESTS = Rests()


def plan_of(steeping: Steeping, rests: Rests = USUAL_RESTS) -> Plan:
    """Give the plan of a batch that is steeped so."""
    return Plan(steeping.stages, (), rests.suction_m3_h_t, rests.air_c, rests.air_rh, held_c=rests.held_c)


def lot_of(steeping: Steeping) -> Lot:
    """Give the lot that drinks so, typical in all else."""
    return Lot(
        barley_moisture=steeping.barley_moisture,
        rate_factor=steeping.rate_factor,
        first_uptake_db=steeping.first_uptake_db,
        rest_factor=steeping.rest_factor,
        film_db=steeping.film_db,
        activation_kj_mol=steeping.activation_kj_mol,
        surface_db=steeping.surface_db,
        corn_weight_g=steeping.corn_weight_g,
    )


def driven(course: Steep, rests: Rests = USUAL_RESTS, lot: Lot | None = None) -> list[State]:
    """Give the states of a batch through a steep, with the water of its course.

    Parameters
    ----------
    course : Steep
        Its water; it begins with an immersion.
    rests : Rests, optional
        How its rests are kept.
    lot : Lot, optional
        What it is beside its drinking.

    Returns
    -------
    list of State
        Each hour of the steep, for a tonne of barley as filled.
    """
    batch = lot or lot_of(course.steeping)
    return drive(FLOATS, batch, plan_of(course.steeping, rests), SteepWater(batch, (), course))


def warmed(course: Steep, rests: Rests = USUAL_RESTS, first: list[State] | None = None) -> tuple[Steep, list[State]]:
    """Give a steep whose rests have the temperature that the grain comes to, and its states.

    Parameters
    ----------
    course : Steep
        The steep; the temperature of a rest is not used unless ``rests`` holds it.
    rests : Rests, optional
        How its rests are kept.
    first : list of State, optional
        Its states as ``driven`` gives them, where they are worked out already.

    Returns
    -------
    tuple of Steep and list of State
        As ``batch.course`` gives them: the water is worked out twice.

    Examples
    --------
    >>> from calculators.models.steep.hydration import steep
    >>> _, states = warmed(steep(barley_moisture=12, stages=[(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)]))
    >>> round(max(state.temp_c for state in states), 1)
    15.5
    """
    states = first or driven(course, rests)
    if len(course.steeping.stages) > 1:
        stages = tuple(with_warmth(course.steeping.stages, states))
        course = run(course.steeping._replace(stages=stages))
        states = driven(course, rests)
    return course, states


def resting_on(course: Steep, rests: Rests, hours: float) -> tuple[Steep, Rests]:
    """Give a steep that goes on in an air rest, and how its rests are kept.

    Parameters
    ----------
    course : Steep
        The steep.
    rests : Rests
        How its rests are kept.
    hours : float
        Of the rest [h].

    Returns
    -------
    tuple of Steep and Rests
        After a last immersion one more rest, kept as warm as its water; a last rest is made as long, if it is shorter.
    """
    stages = course.steeping.stages
    held = [rests.held_c[n] if n < len(rests.held_c) else None for n in range(len(stages))]
    last = stages[-1]
    if len(stages) % 2 == 0:
        longer = last._replace(hours=max(hours, last.hours))
        return run(course.steeping._replace(stages=(*stages[:-1], longer))), rests
    if len(stages) >= STAGES.high:
        return course, rests
    more = run(course.steeping._replace(stages=(*stages, Stage(hours, last.water_temp_c))), course)
    return more, rests._replace(held_c=(*held, last.water_temp_c))


def rest_places(states: Sequence[State]) -> list[list[int]]:
    """Give the places of the states of each rest, the one before it first."""
    found: list[list[int]] = []
    for place, state in enumerate(states):
        if state.steeping and not state.wet:
            if not found or states[place - 1].wet:
                found.append([place - 1])
            found[-1].append(place)
    return found


def rise(states: Sequence[State], places: Sequence[int]) -> float:
    """Give the fastest rise of a rest from one state to the next [K/h]; 0 where it only cools."""
    rises = ((states[b].temp_c - states[a].temp_c) / (states[b].hour - states[a].hour) for a, b in pairwise(places))
    return max(0.0, *map(float, rises))


def stage_at(course: Steep, hour: float) -> int:
    """Give the number of the stage that an hour lies in, from 0."""
    ends = [end.hours for end in course.ends]
    return next((n for n, end in enumerate(ends) if hour <= end + 1e-9), len(ends) - 1)
