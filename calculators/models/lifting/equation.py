"""The revised NIOSH lifting equation: what two hands may be asked to lift, standing, now and then.

References
----------
Waters, T. R., Putz-Anderson, V. and Garg, A. 1994 (revised 2021), Applications manual for the
revised NIOSH lifting equation, DHHS (NIOSH) 94-110; its tables second-hand, from a typed copy.
"""

from __future__ import annotations

from typing import NamedTuple

from ..bounds import Bounds, check

LOAD_CONSTANT_KG = 23.0
NEAREST_CM, FARTHEST_CM = 25.0, 63.0
BEST_HEIGHT_CM, HIGHEST_CM = 75.0, 175.0
SHORTEST_TRAVEL_CM, LONGEST_TRAVEL_CM = 25.0, 175.0
MOST_TWIST_DEGREES = 135.0
SLOWEST_A_MINUTE = 0.2

LOAD_KG = Bounds(0.1, 300.0)
HANDS_FORWARD_CM = Bounds(0.0, 120.0)
HEIGHT_CM = Bounds(0.0, 220.0)
TWIST_DEGREES = Bounds(0.0, 180.0)
LIFTS_A_MINUTE = Bounds(0.0, 30.0)
HOURS = Bounds(0.02, 8.0)

_GRIP_LOW = {"good": 1.0, "fair": 0.95, "poor": 0.90}
_GRIP_HIGH = {"good": 1.0, "fair": 1.0, "poor": 0.90}

# Lifts a minute -> for up to 1, 2 and 8 hours: multiplier with the hands below 75 cm at the
# start of the lift, and at 75 cm or above.
_Pair = tuple[float, float]
FREQUENCY: dict[float, tuple[_Pair, _Pair, _Pair]] = {
    0.2: ((1.00, 1.00), (0.95, 0.95), (0.85, 0.85)),
    0.5: ((0.97, 0.97), (0.92, 0.92), (0.81, 0.81)),
    1.0: ((0.94, 0.94), (0.88, 0.88), (0.75, 0.75)),
    2.0: ((0.91, 0.91), (0.84, 0.84), (0.65, 0.65)),
    3.0: ((0.88, 0.88), (0.79, 0.79), (0.55, 0.55)),
    4.0: ((0.84, 0.84), (0.72, 0.72), (0.45, 0.45)),
    5.0: ((0.80, 0.80), (0.60, 0.60), (0.35, 0.35)),
    6.0: ((0.75, 0.75), (0.50, 0.50), (0.27, 0.27)),
    7.0: ((0.70, 0.70), (0.42, 0.42), (0.22, 0.22)),
    8.0: ((0.60, 0.60), (0.35, 0.35), (0.18, 0.18)),
    9.0: ((0.52, 0.52), (0.30, 0.30), (0.00, 0.15)),
    10.0: ((0.45, 0.45), (0.26, 0.26), (0.00, 0.13)),
    11.0: ((0.41, 0.41), (0.00, 0.23), (0.00, 0.00)),
    12.0: ((0.37, 0.37), (0.00, 0.21), (0.00, 0.00)),
    13.0: ((0.00, 0.34), (0.00, 0.00), (0.00, 0.00)),
    14.0: ((0.00, 0.31), (0.00, 0.00), (0.00, 0.00)),
    15.0: ((0.00, 0.28), (0.00, 0.00), (0.00, 0.00)),
}


class Multipliers(NamedTuple):
    """What each side of the lift leaves of the 23 kg, from 0 to 1."""

    forward: float
    height: float
    travel: float
    twist: float
    frequency: float
    grip: float


def frequency_multiplier(*, lifts_a_minute: float, hours: float, from_cm: float) -> float:
    """Give the multiplier for how often and how long one lifts.

    Parameters
    ----------
    lifts_a_minute : float
        Mean over 15 minutes; less than one in five minutes counts as 0.2.
    hours : float
        Length of the lifting: up to 1, up to 2, up to 8 hours.
    from_cm : float
        Height of the hands at the **start** of the lift [cm], also for the end of it.

    Returns
    -------
    float
        0 to 1, straight between the rows of the table. Above the fastest rate of a column that
        is not 0, it is 0: the manual leaves the stretch in between open.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("lifts_a_minute", lifts_a_minute, LIFTS_A_MINUTE)
    check("hours", hours, HOURS)
    check("lift_from_cm", from_cm, HEIGHT_CM)
    column = 0 if hours <= 1 else 1 if hours <= 2 else 2
    side = 0 if from_cm < BEST_HEIGHT_CM else 1
    rate = max(lifts_a_minute, SLOWEST_A_MINUTE)
    rates = [r for r, row in FREQUENCY.items() if row[column][side] > 0]
    if rate > rates[-1]:
        return 0.0
    above = next(r for r in rates if r >= rate)
    below = max(r for r in rates if r <= rate)
    low, high = FREQUENCY[below][column][side], FREQUENCY[above][column][side]
    if above == below:
        return low
    return low + (high - low) * (rate - below) / (above - below)


def multipliers(
    *,
    hands_forward_cm: float,
    height_cm: float,
    from_cm: float,
    travel_cm: float,
    twist_degrees: float,
    lifts_a_minute: float,
    hours: float,
    grip: str,
) -> Multipliers:
    """Give the six multipliers at one end of a lift.

    Parameters
    ----------
    hands_forward_cm : float
        From the middle between the ankles to the middle of the hands [cm]; under 25 counts as 25,
        over 63 gives 0.
    height_cm : float
        Height of the hands above the floor at this end [cm]; over 175 gives 0.
    from_cm : float
        Height of the hands at the start [cm].
    travel_cm : float
        How far the hands go up or down [cm]; under 25 counts as 25, over 175 gives 0.
    twist_degrees : float
        Angle of the load from straight ahead [degrees]; over 135 gives 0.
    lifts_a_minute, hours
        As for :func:`frequency_multiplier`.
    grip : str
        good, fair or poor.

    Returns
    -------
    Multipliers

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("hands_forward_cm", hands_forward_cm, HANDS_FORWARD_CM)
    check("height_cm", height_cm, HEIGHT_CM)
    check("travel_cm", travel_cm, HEIGHT_CM)
    check("twist_degrees", twist_degrees, TWIST_DEGREES)
    table = _GRIP_LOW if height_cm < BEST_HEIGHT_CM else _GRIP_HIGH
    return Multipliers(
        0.0 if hands_forward_cm > FARTHEST_CM else NEAREST_CM / max(hands_forward_cm, NEAREST_CM),
        0.0 if height_cm > HIGHEST_CM else 1.0 - 0.003 * abs(height_cm - BEST_HEIGHT_CM),
        0.0 if travel_cm > LONGEST_TRAVEL_CM else 0.82 + 4.5 / max(travel_cm, SHORTEST_TRAVEL_CM),
        0.0 if twist_degrees > MOST_TWIST_DEGREES else 1.0 - 0.0032 * twist_degrees,
        frequency_multiplier(lifts_a_minute=lifts_a_minute, hours=hours, from_cm=from_cm),
        table[grip],
    )


def recommended_weight_kg(found: Multipliers) -> float:
    """Give the recommended weight limit for these multipliers.

    Parameters
    ----------
    found : Multipliers
        From :func:`multipliers`.

    Returns
    -------
    float
        kg; 0 means that nothing should be lifted like this.
    """
    kg = LOAD_CONSTANT_KG
    for one in found:
        kg *= one
    return kg
