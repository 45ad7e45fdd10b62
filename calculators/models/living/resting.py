"""One air rest as a sheet asks for it: typical, at both ends of the doubt, and the suction that holds a temperature.

The laws are those of ``warmth``; here stands what a basket and a clock say of the state in which a rest begins.
"""

from collections.abc import Sequence
from typing import NamedTuple

from ..bounds import check
from ..steep.course import Stage
from ..steep.hydration import STAGES, WATER_TEMP_C
from .batch import course
from .breathing import GRAIN_C, SOONEST_FACTOR
from .by_day import SINCE_WETTING_H
from .lot_plan_state import Lot, Plan, at_hour
from .maths import FLOATS
from .warmth import SUCTION, Rest, RestCourse, cooling_kw, heat_capacity, rest_warmth, run_rest, suction_that_holds

USUAL_HOURS = (8.0, 8.0, 8.0, 12.0)
"""Wet, rest, wet, rest [h] of a usual steep; after that 4 h wet and 12 h rest by turns (common practice)."""

_LATER_HOURS = (4.0, 12.0)


class Balance(NamedTuple):
    """Heat of grain in a rest at one moment, for a tonne of barley."""

    made_kw: float
    carried_kw: float
    wall_kw: float
    capacity_kj_k: float

    @property
    def rise_k_h(self) -> float:
        """How fast it warms [K/h]."""
        return (self.made_kw - self.carried_kw - self.wall_kw) * 3600.0 / self.capacity_kj_k


class Resting(NamedTuple):
    """A rest as the law has it, and for a batch that breathes faster and slower by the doubt of the law."""

    typical: RestCourse
    fast: RestCourse
    slow: RestCourse


def growth_since_wetting(*, hours: float, temp_c: float, barley_moisture: float = 12.0) -> float:
    """Give the hours of growth that a usual steep has come to some hours after its first wetting.

    Parameters
    ----------
    hours : float
        Since the first wetting [h], 1 to 96.
    temp_c : float
        Temperature of its waters and its rests [C].
    barley_moisture : float, optional
        As filled, % of wet weight.

    Returns
    -------
    float
        Growth clock [h at 15 C].

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Notes
    -----
    Wet and rested by turns as :data:`USUAL_HOURS`, its rests kept at the one temperature.  A
    steep with longer immersions is behind it, one whose rests got warm is ahead.

    Examples
    --------
    >>> [round(growth_since_wetting(hours=h, temp_c=14.0)) for h in (8, 24, 40)]
    [0, 5, 18]
    """
    check("hours", hours, SINCE_WETTING_H)
    check("temp_c", temp_c, WATER_TEMP_C)
    stages = list(USUAL_HOURS)
    while sum(stages) < hours and len(stages) + 2 <= STAGES.high:
        stages += _LATER_HOURS
    plan = Plan(
        tuple(Stage(h, temp_c) for h in stages),
        suction_m3_h_t=SUCTION.high, rest_air_c=temp_c, rest_air_rh=100.0,
    )  # fmt: skip
    states = course(plan=plan, lot=Lot(barley_moisture=barley_moisture))
    return float(at_hour(states, hours, lambda state: state.growth_h))


def rested(rest: Rest) -> Resting:
    """Give the course of a rest by the law and at both ends of its doubt.

    Parameters
    ----------
    rest : Rest
        The rest; its own factor is multiplied by the doubt.

    Returns
    -------
    Resting
        Typical; and with breathing 2.2 times as fast and as slow. One that gets warmer than the law goes ends early, at
        that temperature.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    return Resting(
        *(
            _followed(rest_warmth(**rest._replace(factor=rest.factor * by)._asdict()))
            for by in (1.0, SOONEST_FACTOR, 1.0 / SOONEST_FACTOR)
        )
    )


def holding(*, limit_c: float, rest: Rest) -> tuple[float | None, float | None]:
    """Give the suction that holds a temperature: typically, and for a batch that breathes fast.

    Parameters
    ----------
    limit_c : float
        Temperature not to pass [C], not under that at the start.
    rest : Rest
        The rest; its own suction does not count.

    Returns
    -------
    tuple of float or None
        m3/h for each tonne; None where no suction up to 500 does it.

    Raises
    ------
    OutOfRange
        As for ``warmth.suction_that_holds``.
    """
    typical = suction_that_holds(limit_c=limit_c, rest=rest)
    fast = suction_that_holds(limit_c=limit_c, rest=rest._replace(factor=rest.factor * SOONEST_FACTOR))
    return typical, fast


def balance_at_end(rest: Rest, ran: RestCourse) -> Balance:
    """Give the heat made, carried off and lost at the end of a rest that was run."""
    end = min(max(ran.end_c, GRAIN_C.low), GRAIN_C.high)
    dry = 1000.0 * (1.0 - rest.barley_moisture / 100.0)
    water = dry * (rest.net_moisture / (100.0 - rest.net_moisture) + rest.film_db)
    carried, _ = cooling_kw(FLOATS, rest.air, rest.suction_m3_h_t, end)
    wall = rest.wall_w_k_t * (end - rest.air.temp_c) / 1000.0
    return Balance(ran.heat_kw_t[-1], float(carried), wall, float(heat_capacity(dry, water)))


def fastest_rise_k_h(ran: RestCourse) -> float:
    """Give the most that grain warms in any hour of a rest [K/h]; a shorter rest counts by its whole."""
    hours, temps = ran.hours, ran.temps_c
    span = min(1.0, hours[-1])
    rises = []
    for until in range(1, len(hours)):
        since = until - 1
        while since > 0 and hours[until] - hours[since] < span - 1e-9:
            since -= 1
        if hours[until] - hours[since] >= span - 1e-9:
            rises.append((temps[until] - temps[since]) / (hours[until] - hours[since]))
    return max(rises)


def ended(rest: Rest, ran: RestCourse) -> bool:
    """Tell whether a rest that was run could be followed to its end; hotter grain than the law holds for cannot."""
    return ran.hours[-1] > rest.hours - 1e-6


def cooler(ran: RestCourse, than: RestCourse) -> bool:
    """Tell which of two courses of a rest is the cooler: it is followed for longer, or ends less warm."""
    return (-round(ran.hours[-1], 6), ran.end_c) < (-round(than.hours[-1], 6), than.end_c)


def courses_at(rest: Rest, suctions: Sequence[float]) -> list[tuple[float, RestCourse, RestCourse]]:
    """Give for some suctions [m3/h for each tonne] the course of a rest, typically and breathing fast."""
    rows = []
    for flow in suctions:
        drawn = rest._replace(suction_m3_h_t=flow)
        rows.append((flow, run_rest(drawn), run_rest(drawn._replace(factor=rest.factor * SOONEST_FACTOR))))
    return rows


def _followed(ran: RestCourse) -> RestCourse:
    """A course without what its last step overshoots the law's own bound by."""
    return ran._replace(temps_c=[min(temp, GRAIN_C.high) for temp in ran.temps_c])
