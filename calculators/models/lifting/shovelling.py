"""Published guidance on shovelling, pushing and pulling: which of its points a job exceeds.

Keeping every point is no assurance that nobody is hurt.

References
----------
Canadian Centre for Occupational Health and Safety, Shovelling (two pages that copy it were read);
Health and Safety Executive, Getting to grips with manual handling, INDG143 (in copies).
"""

from __future__ import annotations

from typing import NamedTuple

from ..bounds import Bounds

SCOOPS_A_MINUTE = Bounds(0.0, 40.0)
SHOVEL_LOAD_KG = Bounds(0.2, 40.0)
THROW_M = Bounds(0.0, 6.0)
THROW_HEIGHT_M = Bounds(0.0, 4.0)
MINUTES = Bounds(0.5, 480.0)
FORCE_KG = Bounds(0.1, 200.0)
PUSH_M = Bounds(0.1, 500.0)


class Point(NamedTuple):
    """One point of guidance: the figure that it names, and its unit."""

    id: str
    most: float
    unit: str


PACE = Point("pace", 15.0, "")
"""Scoops a minute, going on."""
SPELL = Point("spell", 15.0, "min")
"""Minutes at a time; in great heat or cold also the rest after them."""
WEIGHT = Point("weight", 7.0, "kg")
"""The shovel with its load."""
THROW = Point("throw", 1.0, "m")
HEIGHT = Point("height", 1.3, "m")
"""Of the throw."""

PUSH_START = {"man": 20.0, "woman": 15.0}
"""Force to start or stop a load [kg on a spring balance]."""
PUSH_ON = {"man": 10.0, "woman": 7.0}
"""Force to keep a load moving [kg on a spring balance]."""
PUSH_FAR = Point("distance", 20.0, "m")
"""Without a stop."""


def exceeded(value: float, most: float) -> bool:
    """Whether a point of guidance is exceeded; the figure itself is not."""
    return value > most
