"""How long the water must stay on, by the handbook's own fit of the baskets: for a player, from readings alone."""

import itertools
from functools import lru_cache

from ..models.bounds import OutOfRange
from ..models.steep.course import Stage
from ..models.steep.fit import Reading, fit
from ..models.steep.hydration import steep
from .setting import PAPER_MOISTURE

LOOKED_FOR_H = 12.0


@lru_cache(maxsize=64)
def needed_h(
    edges: tuple[tuple[float, bool], ...],
    baskets: tuple[tuple[float, float], ...],
    water_c: float,
    rests_c: float,
    target: float,
) -> float | None:
    """Give how long the present immersion must be to end on a moisture.

    Parameters
    ----------
    edges : tuple of (float, bool)
        Hours from the first water at which water came (True) or went (False), the last one being that of the present
        immersion.
    baskets : tuple of (float, float)
        Hours and moistures read, % of wet weight, drained.
    water_c, rests_c : float
        As read, of the water and of the rests [C].
    target : float
        Drained moisture wanted, % of wet weight.

    Returns
    -------
    float or None
        Hours of the present immersion; 0 where it is there already; None where nothing can be said.
    """
    stages = []
    for (begins, wet), (ends, _) in itertools.pairwise(edges):
        if ends - begins < 0.25:
            return None
        stages.append(Stage(ends - begins, water_c if wet else rests_c))
    stages.append(Stage(LOOKED_FOR_H, water_c))
    try:
        course = steep(barley_moisture=PAPER_MOISTURE, stages=stages)
        readings = [Reading(hour, moisture) for hour, moisture in baskets if hour >= 0.5]
        if readings:
            course = fit(course, readings).course
        if course.drained_before_last_immersion >= target:
            return 0.0
        return course.last_immersion_needed_h(target, LOOKED_FOR_H)
    except OutOfRange:
        return None
