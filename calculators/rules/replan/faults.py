"""What can leave the plan, and what each fault asks of every way: data."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import Literal, NamedTuple

from ..limit import edge
from ..limits.steeping import REST

Fault = Literal["behind", "ahead", "sour", "warm", "blower", "kiln-late", "turning-missed", "away"]
Place = Literal["wet", "rest", "floor", "drum"]
"""Where a batch is: under water, in an air rest, on the floor, in the drum."""

FAULTS: dict[Fault, tuple[Place, ...]] = {
    "blower": ("wet", "rest", "drum"),
    "sour": ("wet", "rest", "floor", "drum"),
    "warm": ("rest", "floor", "drum"),
    "turning-missed": ("floor", "drum"),
    "behind": ("wet", "rest"),
    "ahead": ("wet", "rest"),
    "kiln-late": ("wet", "rest", "floor", "drum"),
    "away": ("wet", "rest", "floor", "drum"),
}
"""Each fault with where it can be, what presses most first."""

ASKS_HOURS: tuple[Fault, ...] = ("blower", "kiln-late", "away")
"""Faults of which one has to say how many hours they last."""

HOURS_TAKEN = {"blower": 4.0, "kiln-late": 12.0, "away": 8.0}
"""Hours taken until somebody says how many [h]: a convention of this handbook."""

MOST_HOURS = 48.0
"""No fault is reckoned with for longer [h]."""

SOUR_REST_H = edge(REST.accept_high)
"""Grain that smells sour rests for so long before water is thought of [h]: the longest rest that is accepted."""

FILL_SOON_H = 2.0
"""Grain that is too warm in a rest is wetted within so many hours [h]: common practice."""


class Asked(NamedTuple):
    """What a fault asks of every way; hours from now [h].

    Attributes
    ----------
    drain_now : bool
        Water on the grain is drained before anything else.
    fill_from_h, cast_from_h : float
        No water is put on, and no grain is cast, before.
    fill_by_h : float or None
        Water is on by then, where there is to be more of it.
    quiet_h : tuple of float or None
        Nobody is there from and until.
    load_from_h : float
        The kiln is not free before, or the cast has to come so much later.
    turn_now : bool
        The bed is turned before anything else.
    fan_off_h : float
        No air is moved through the grain for so long.
    no_water : bool
        A bed is not sprinkled.
    """

    drain_now: bool = False
    fill_from_h: float = 0.0
    cast_from_h: float = 0.0
    fill_by_h: float | None = None
    quiet_h: tuple[float, float] | None = None
    load_from_h: float = 0.0
    turn_now: bool = False
    fan_off_h: float = 0.0
    no_water: bool = False


def asked_by(fault: Fault, *, hours: float = 0.0, begins_h: float = 0.0, rested_h: float = 0.0) -> Asked:
    """Give what a fault asks of every way.

    Parameters
    ----------
    fault : str
        Which.
    hours : float, optional
        How long it lasts: until the fan runs again, how much later the kiln is free, how long nobody is there [h].
    begins_h : float, optional
        Hours from now until nobody is there [h].
    rested_h : float, optional
        Hours that grain in a rest has rested [h].

    Returns
    -------
    Asked
        What holds for every way.
    """
    if fault == "blower":
        return Asked(drain_now=True, fill_from_h=hours, cast_from_h=hours, fan_off_h=hours, no_water=True)
    if fault == "sour":
        fresh = max(0.0, SOUR_REST_H - rested_h)
        return Asked(drain_now=True, fill_from_h=fresh, cast_from_h=fresh, turn_now=True, no_water=True)
    if fault == "warm":
        return Asked(fill_by_h=FILL_SOON_H, turn_now=True)
    if fault == "turning-missed":
        return Asked(turn_now=True)
    if fault == "kiln-late":
        return Asked(load_from_h=hours)
    if fault == "away":
        return Asked(quiet_h=(begins_h, begins_h + hours))
    return Asked()
