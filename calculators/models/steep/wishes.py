"""What a plan of a steep has to keep, what a plan is, and what counts against it.

Hours are counted from the start of the first immersion; the clock of the day comes in
only where a wish speaks of it.
"""

from collections.abc import Iterable
from typing import NamedTuple

from ..bounds import Bounds

LONGEST_IMMERSION_H = Bounds(2.0, 24.0)
SHORTEST_REST_H = Bounds(1.0, 24.0)
WATER_SENSITIVITY = Bounds(0.0, 100.0)
FILL_H = Bounds(0.0, 4.0)
DRAIN_H = Bounds(0.0, 4.0)
CHIT_H = Bounds(12.0, 120.0)

STOPS = frozenset(("steep_h", "first_drain", "second_drain", "cast_rest"))
"""What a draft may break that is no wish, but an edge of the trade."""


class PlanEdges(NamedTuple):
    """The edges of the trade that every plan keeps to, whatever is wished.

    Parameters
    ----------
    usual_immersion_h, most_immersion_h : float
        An immersion up to which nothing counts against it, and the longest there may be [h].
    usual_rest_h, most_rest_h : float
        The same for an air rest [h].
    first_drain, second_drain : tuple of float
        Lowest and highest drained moisture at the first drain, and at the second of three or
        more, % of wet weight.
    second_aim : float
        Drained moisture that the second drain does not aim beyond, % of wet weight.
    usual_steep_h, least_steep_h : float
        From the first wetting to the last drain: the hours from which nothing counts against
        it, and the fewest there may be [h].
    """

    usual_immersion_h: float
    most_immersion_h: float
    usual_rest_h: float
    most_rest_h: float
    first_drain: tuple[float, float]
    second_drain: tuple[float, float]
    second_aim: float
    usual_steep_h: float
    least_steep_h: float


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
    bounds : PlanEdges
        The edges of the trade.
    quiet : tuple of float, optional
        Hours of the day from and until which nobody fills or drains.
    vessel_h : float, optional
        Hours from the start by which the vessel must be free.
    cast_window : tuple of float, optional
        Hours of the day from and until which a cast may begin.
    fill_h : float, optional
        From opening the water until it covers the grain [h].
    drain_h : float, optional
        From opening the drain until the grain is drained [h].
    chit_h : float, optional
        Hours from the first wetting that this barley takes to chit [h].
    """

    target_moisture: float
    first_aim: float
    longest_immersion_h: float
    shortest_rest_h: float
    start_clock_h: float
    bounds: PlanEdges
    quiet: tuple[float, float] | None = None
    vessel_h: float | None = None
    cast_window: tuple[float, float] | None = None
    fill_h: float = 1.0
    drain_h: float = 1.0
    chit_h: float | None = None


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
    def fills(self) -> list[float]:
        """Give the hours at which the water covers the grain [h]; the first is 0."""
        return [sum(self.lengths[:n]) for n in range(0, len(self.lengths), 2)]

    @property
    def cost(self) -> float:
        """Give the sum of what counts against it, in points."""
        return cost_of(self.terms)


def hours_until(clock_h: float, wanted_h: float) -> float:
    """Give the hours from one time of the day until the next time it is another [h]."""
    return (wanted_h - clock_h) % 24.0


def within(clock_h: float, window: tuple[float, float]) -> bool:
    """Tell whether a time of the day is in a window, which may pass midnight; its end is not."""
    return hours_until(window[0], clock_h % 24.0) < hours_until(*window)


def widened(window: tuple[float, float], before_h: float, after_h: float) -> tuple[float, float] | None:
    """Give a window of the day with hours put on at both ends; None when it then covers the whole day."""
    if hours_until(*window) + before_h + after_h >= 24.0:
        return None
    return (window[0] - before_h) % 24.0, (window[1] + after_h) % 24.0
