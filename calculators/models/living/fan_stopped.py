"""How fast grain warms when its fan has stopped: a warning about the grain, and about nothing else."""

from typing import NamedTuple

from ..bed.humid_air import AIR_C
from ..bounds import Bounds, OutOfRange, check
from .breathing import CORN_MOISTURE, DOUBT_FACTOR, GRAIN_REASON, SOONEST_FACTOR
from .warmth import HOURS, LIMIT_C, REST_C, VESSEL_W_K_T, Rest, RestCourse, air_on, check_rest, run_rest


class Stopped(NamedTuple):
    """Grain after its fan has stopped: the typical case and the soonest.

    Hours are infinite where the limit is not reached in two days.
    """

    k_per_h: float
    k_per_h_soonest: float
    hours_to_limit: float
    hours_to_limit_soonest: float
    heat_kw_t: float
    heat_kw_t_soonest: float


PLACES = {"rest": VESSEL_W_K_T, "box": 0.0, "drum": 10.0, "floor": 0.0}
"""Heat that the middle of the grain loses with no air moved [W/K for each tonne]: our estimates.

A box, and a piece at its bottom, are so deep that their middle loses nothing for hours; a
drum loses through its shell (15 m2 for 6 t at 4 W/m2K).  The soonest case loses nothing anywhere.
"""


def after_fan_stops(
    *,
    place: str,
    barley_moisture: float,
    net_moisture: float,
    temp_c: float,
    growth_h: float,
    limit_c: float,
    room_c: float,
    factor: float = 1.0,
    doubt_factor: float = SOONEST_FACTOR,
) -> Stopped:
    """Give how fast grain warms once nothing cools it: a warning about grain, nothing else.

    Parameters
    ----------
    place : str
        One of ``rest``, ``box``, ``drum``, ``floor``.
    barley_moisture, net_moisture : float
        Moisture as filled, and inside the corns now, % of wet weight.
    temp_c : float
        Temperature of the warmest grain now [C], 1 to 30.
    growth_h : float
        Growth clock [h at 15 C] (``pace``).
    limit_c : float
        Temperature that the grain must not reach [C], over that now.
    room_c : float
        Temperature round the vessel [C].
    factor : float, optional
        Breathing of this batch against the law.
    doubt_factor : float, optional
        What the soonest case multiplies that by.

    Returns
    -------
    Stopped
        Degrees an hour at once, and hours to the limit.  They are about grain.  They are
        never time allowed to people: the air of such a place turns deadly sooner.

    Raises
    ------
    OutOfRange
        When a value is outside its limits; a place that is not named is one.

    Notes
    -----
    The pace rises as the grain warms: breathing doubles in some 8 K.

    Examples
    --------
    >>> box = after_fan_stops(place="box", barley_moisture=14, net_moisture=45, temp_c=17, growth_h=78,
    ...                       limit_c=25, room_c=15)
    >>> round(box.k_per_h, 2), round(box.hours_to_limit, 1), round(box.hours_to_limit_soonest, 1)
    (1.51, 3.9, 1.7)
    """
    check("limit_c", limit_c, LIMIT_C)
    check("temp_c", temp_c, Bounds(REST_C.low, min(REST_C.high, limit_c)), GRAIN_REASON)
    usual, soonest = stopped_courses(
        place=place, barley_moisture=barley_moisture, net_moisture=net_moisture, temp_c=temp_c, growth_h=growth_h,
        room_c=room_c, factor=factor, doubt_factor=doubt_factor, until_c=limit_c,
    )  # fmt: skip
    return Stopped(
        _rate(usual), _rate(soonest), hours_to(usual, limit_c), hours_to(soonest, limit_c),
        usual.heat_kw_t[0], soonest.heat_kw_t[0],
    )  # fmt: skip


def stopped_courses(
    *,
    place: str,
    barley_moisture: float,
    net_moisture: float,
    temp_c: float,
    growth_h: float,
    room_c: float,
    factor: float = 1.0,
    doubt_factor: float = SOONEST_FACTOR,
    soonest_growth_h: float | None = None,
    soonest_factor: float | None = None,
    hours: float = HOURS.high,
    until_c: float | None = None,
) -> tuple[RestCourse, RestCourse]:
    """Give how warm grain gets once nothing cools it, by the law and in the soonest case.

    Parameters
    ----------
    place, barley_moisture, net_moisture, temp_c, growth_h, room_c, factor, doubt_factor
        As for :func:`after_fan_stops`.
    soonest_growth_h : float, optional
        Growth clock of the soonest case, where it is taken to be further on.
    soonest_factor : float, optional
        Breathing of the soonest case against the law, in place of ``factor`` times ``doubt_factor``.
    hours : float, optional
        How long to follow it [h].
    until_c : float, optional
        Temperature at which to end [C].

    Returns
    -------
    tuple of RestCourse
        By the law, and the soonest; each ends where the grain reaches 40 C.

    Raises
    ------
    OutOfRange
        When a value is outside its limits; a place that is not named is one.
    """
    if place not in PLACES:
        raise OutOfRange("place", 0.0, 0.0, f"It is one of {', '.join(PLACES)}.")
    check("room_c", room_c, AIR_C)
    check("doubt_factor", doubt_factor, Bounds(1.0, DOUBT_FACTOR.high / factor))
    check("net_moisture", net_moisture, CORN_MOISTURE)
    air = air_on(temp_c=room_c, relative_humidity=90.0)
    found = []
    further = growth_h if soonest_growth_h is None else soonest_growth_h
    fastest = factor * doubt_factor if soonest_factor is None else soonest_factor
    for breathes, loss, grown in ((factor, PLACES[place], growth_h), (fastest, 0.0, further)):
        rest = Rest(barley_moisture, net_moisture, temp_c, hours, grown, air, 0.0, 0.0, loss, breathes)
        check_rest(rest)
        found.append(run_rest(rest, until_c))
    return found[0], found[1]


def hours_to(course: RestCourse, limit_c: float) -> float:
    """Give the hours until a course reaches a temperature [h]: 0 when it is there, infinite when it does not."""
    reached = course.hours_until(limit_c)
    return float("inf") if reached is None else reached


def _rate(course: RestCourse) -> float:
    return (course.temps_c[1] - course.temps_c[0]) / course.hours[1]
