"""What a plan of a steep has to keep, what a plan is, and what counts against it.

Hours are counted from the start of the first immersion; the clock of the day comes in
only where a wish speaks of it.
"""

from collections.abc import Iterable
from typing import NamedTuple

from .limits import Limits, check

LONGEST_IMMERSION_H = Limits(2.0, 24.0)
SHORTEST_REST_H = Limits(1.0, 24.0)
FIRST_AIM = Limits(22.0, 40.0)
WATER_SENSITIVITY = Limits(0.0, 100.0)

REST_BY_SENSITIVITY = ((45.0, 16.0), (25.0, 12.0), (10.0, 8.0))
"""Air rest that water-sensitive barley is given at least: above so many points, hours.

That the rest grows with the sensitivity: MEBAK R-110.34.612 (read).  The classes are from
memory and the hours are common practice.
"""


class Wishes(NamedTuple):
    """What a plan has to keep.

    Parameters
    ----------
    target_moisture : float
        Drained moisture at the end, % of wet weight.
    first_aim : float
        Drained moisture aimed at by the first drain, % of wet weight.
    longest_immersion_h : float
        No immersion is longer [h].
    shortest_rest_h : float
        No air rest is shorter [h].
    start_clock_h : float
        Hour of the day at which the first immersion begins [h].
    quiet : tuple of float, optional
        Hours of the day from and until which nobody drains.
    vessel_h : float, optional
        Hours from the start by which the vessel must be free.
    cast_window : tuple of float, optional
        Hours of the day from and until which a cast may begin.
    """

    target_moisture: float
    first_aim: float
    longest_immersion_h: float
    shortest_rest_h: float
    start_clock_h: float = 0.0
    quiet: tuple[float, float] | None = None
    vessel_h: float | None = None
    cast_window: tuple[float, float] | None = None


class Term(NamedTuple):
    """One thing that counts against a plan: its name, how much, and the figure behind it."""

    name: str
    cost: float
    figure: float


def cost_of(terms: Iterable[Term]) -> float:
    """Give the sum of what counts against a plan, in points; the last bits of a machine's sums decide nothing."""
    return round(sum(term.cost for term in terms), 9)


class Draft(NamedTuple):
    """One schedule as the search finds it.

    Attributes
    ----------
    lengths : tuple of float
        Hours of its stages, immersion and air rest by turns, wet at both ends.
    cast_h : float
        When it can be cast [h].
    broken : tuple of (str, float)
        Wishes that it does not keep, each with by how much; empty for a good plan.
    terms : tuple of Term
        What counts against it.
    """

    lengths: tuple[float, ...]
    cast_h: float
    broken: tuple[tuple[str, float], ...]
    terms: tuple[Term, ...]

    @property
    def drains(self) -> list[float]:
        """Give the hours at which it is drained [h]."""
        return [sum(self.lengths[: n + 1]) for n in range(0, len(self.lengths), 2)]

    @property
    def cost(self) -> float:
        """Give the sum of what counts against it, in points."""
        return cost_of(self.terms)


def rest_for(*, water_sensitivity: float) -> float:
    """Give the shortest air rest that water-sensitive barley is given.

    Parameters
    ----------
    water_sensitivity : float
        Energy in 4 ml less energy in 8 ml [points].

    Returns
    -------
    float
        Hours; 0 when it is not sensitive.

    Raises
    ------
    OutOfRange
        When it is not from 0 to 100 points.

    Examples
    --------
    >>> [rest_for(water_sensitivity=s) for s in (10, 11, 30, 60)]
    [0.0, 8.0, 12.0, 16.0]
    """
    check("water_sensitivity", water_sensitivity, WATER_SENSITIVITY)
    return next((hours for above, hours in REST_BY_SENSITIVITY if water_sensitivity > above), 0.0)


def hours_until(clock_h: float, wanted_h: float) -> float:
    """Give the hours from one time of the day until the next time it is another [h]."""
    return (wanted_h - clock_h) % 24.0


def within(clock_h: float, window: tuple[float, float]) -> bool:
    """Tell whether a time of the day is in a window, which may pass midnight; its end is not."""
    return hours_until(window[0], clock_h % 24.0) < hours_until(*window)
