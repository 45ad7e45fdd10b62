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
    """One point of guidance: the figure it names, in a unit, and what to change."""

    id: str
    name: str
    most: float
    unit: str
    change: str


PACE = Point("pace", "Scoops a minute, going on", 15.0, "", "Slow down, or take turns.")
SPELL = Point("spell", "Minutes at a time", 15.0, "min", "Stop after 15 minutes. Do other work or rest.")
WEIGHT = Point("weight", "Shovel with its load", 7.0, "kg", "Smaller scoop, lighter shovel, fewer scoops a minute.")
THROW = Point("throw", "Throw", 1.0, "m", "Walk the barrow nearer. Do not throw further than one long step.")
HEIGHT = Point("height", "Height of the throw", 1.3, "m", "Use a lower barrow or a conveyor.")
HOT_OR_COLD = Point("rest", "Rest after 15 minutes, hot or cold", 15.0, "min", "Rest as long as you shovelled.")

PUSH_START = {"man": 20.0, "woman": 15.0}
"""Force to start or stop a load [kg on a spring balance]."""
PUSH_ON = {"man": 10.0, "woman": 7.0}
"""Force to keep a load moving [kg on a spring balance]."""
PUSH_FAR = Point("distance", "Distance without a stop", 20.0, "m", "Rest on the way, or move it by power.")


def exceeded(value: float, most: float) -> bool:
    """Whether a point of guidance is exceeded; the figure itself is not."""
    return value > most


def force_needed_kg(*, load_kg: float) -> float:
    """Give the least force that keeps a wheeled load moving on a hard level floor.

    Parameters
    ----------
    load_kg : float
        Barrow and grain together [kg].

    Returns
    -------
    float
        kg on a spring balance: 2 % of the load. A soft or rough floor, a slope or a bad wheel
        takes more; 400 kg up a slope of 1 in 12 takes over 30.
    """
    return 0.02 * load_kg
