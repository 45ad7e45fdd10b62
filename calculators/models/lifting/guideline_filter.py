"""The British guideline filter for lifting: five zones, near and far, two columns. It sets no safe limit.

References
----------
Health and Safety Executive, Manual handling, Guidance on Regulations, L23 (third edition 2004,
appendix 3: pace; paragraph 120: teams), and Getting to grips with manual handling, INDG143
(twist). The weights stand in a drawing there; they are from pages that quote it.
"""

from __future__ import annotations

from typing import NamedTuple

from ..bounds import check
from .equation import HANDS_FORWARD_CM, HEIGHT_CM, LIFTS_A_MINUTE, TWIST_DEGREES

ARMS_LENGTH_CM = 35.0
"""Where close in ends and arm's length begins, hands in front of the ankles (our reading of the drawing)."""

ZONE_MARGIN_CM = 5.0
"""Hands this near to the edge of a zone, in height or in reach, count in both (our reading)."""


class Zone(NamedTuple):
    """One height zone with its weights [kg] for men and women, close in and at arm's length."""

    name: str
    bottom_cm: float
    top_cm: float
    man: tuple[float, float]
    woman: tuple[float, float]


ZONES = (
    Zone("below the middle of the shin", 0.0, 30.0, (10, 5), (7, 3)),
    Zone("shin to knuckles", 30.0, 75.0, (20, 10), (13, 7)),
    Zone("knuckles to elbow", 75.0, 105.0, (25, 15), (16, 10)),
    Zone("elbow to shoulder", 105.0, 135.0, (20, 10), (13, 7)),
    Zone("above the shoulder", 135.0, HEIGHT_CM.high, (10, 5), (7, 3)),
)
"""The zones, with heights of a person of middle height (from memory): a shorter one meets them lower."""


def zone_weight_kg(*, low_cm: float, high_cm: float, hands_forward_cm: float, who: str) -> tuple[str, float]:
    """Give the smallest weight of the zones that the hands enter.

    Parameters
    ----------
    low_cm, high_cm : float
        Lowest and highest height of the hands [cm].
    hands_forward_cm : float
        Furthest that the hands are in front of the ankles [cm].
    who : str
        man or woman: which column.

    Returns
    -------
    tuple of (str, float)
        The zone's name and its weight [kg].

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("lift_from_cm", low_cm, HEIGHT_CM)
    check("lift_to_cm", high_cm, HEIGHT_CM)
    check("hands_forward_cm", hands_forward_cm, HANDS_FORWARD_CM)
    far = 1 if arms_out(hands_forward_cm=hands_forward_cm) else 0
    entered = [
        zone for zone in ZONES if zone.bottom_cm - ZONE_MARGIN_CM <= high_cm and low_cm <= zone.top_cm + ZONE_MARGIN_CM
    ]
    weights = [((zone.man if who == "man" else zone.woman)[far], zone.name) for zone in entered]
    kg, name = min(weights)
    return name, kg


def arms_out(*, hands_forward_cm: float) -> bool:
    """Say whether the figures for arm's length count, which are the smaller ones.

    Parameters
    ----------
    hands_forward_cm : float
        Furthest that the hands are in front of the ankles [cm].

    Returns
    -------
    bool
        True from the edge less its margin on: near the edge the hands count in both, and the smaller figure holds.

    Examples
    --------
    >>> arms_out(hands_forward_cm=29.9), arms_out(hands_forward_cm=30.0)
    (False, True)
    """
    return hands_forward_cm >= ARMS_LENGTH_CM - ZONE_MARGIN_CM


def pace_share(*, lifts_a_minute: float) -> float:
    """Give what is left of the weights when lifting often.

    Parameters
    ----------
    lifts_a_minute : float
        How often.

    Returns
    -------
    float
        1 up to 30 an hour; 0.7 once or twice a minute; 0.5 five to eight times; 0.2 over twelve
        times. In between, where the guidance says nothing, the smaller share is taken.

    Raises
    ------
    OutOfRange
        When the rate is outside its limits.
    """
    check("lifts_a_minute", lifts_a_minute, LIFTS_A_MINUTE)
    if lifts_a_minute <= 0.5:
        return 1.0
    if lifts_a_minute <= 2.0:
        return 0.7
    return 0.5 if lifts_a_minute <= 8.0 else 0.2


def twist_share(*, twist_degrees: float) -> float:
    """Give what is left of the weights when the body twists.

    Parameters
    ----------
    twist_degrees : float
        How far to the side.

    Returns
    -------
    float
        1 up to 45 degrees, 0.9 beyond, 0.8 beyond 90.

    Raises
    ------
    OutOfRange
        When the angle is outside its limits.
    """
    check("twist_degrees", twist_degrees, TWIST_DEGREES)
    return 1.0 if twist_degrees <= 45 else 0.9 if twist_degrees <= 90 else 0.8


def team_share(*, people: int) -> float:
    """Give how much of the sum of their strengths a team can use.

    Parameters
    ----------
    people : int
        Two or three; teams of more than four are unlikely to work.

    Returns
    -------
    float
        Two thirds for two, half for three (L23, paragraph 120).
    """
    return {1: 1.0, 2: 2 / 3, 3: 1 / 2}[people]
