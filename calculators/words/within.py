"""What figures can be that several sheets give: in nature, or in any works.

Where a limit of the trade says it, it is taken from there. Edges that rest on nothing but what works are like are
common practice, and wide.
"""

from __future__ import annotations

from ..asking.declare import Within
from ..models.bounds import STEEPED_MOISTURE, WEIGHT_KG
from ..models.counts.ranges import MOST_CORNS
from ..models.living.ranges import GRAIN_C
from ..models.nature import FRESH_OXYGEN_PERCENT
from ..models.steep.ranges import RATE_FACTOR, TEMP_REASON, WATER_TEMP_C
from ..rules.limit import edge
from ..rules.limits.steeping import IMMERSION

CHECK = "Check it, and its unit."


def between(low: float, high: float, why: str, *ask: str, instead: str = CHECK) -> Within:
    """A range of its own, with the questions that a figure beyond it is asked back beside."""
    return Within(low, high, why, instead, ask)


def part(*ask: str) -> Within:
    """A share of a whole [%]: nature."""
    return between(0.0, 100.0, "It is a part of a whole.", *ask)


def chance(*ask: str) -> Within:
    """A chance [%]: nature."""
    return between(0.0, 100.0, "Nothing is surer than sure.", *ask)


def moisture(*ask: str) -> Within:
    """Of barley on its way through the steep and the bed, with the film of water on it [%]: common practice."""
    return between(0.0, STEEPED_MOISTURE.high, "Barley takes up no more water than that.", *ask)


def points(*ask: str) -> Within:
    """A difference of two moistures, either way [points]."""
    most = STEEPED_MOISTURE.high
    return between(-most, most, "No two moistures of barley lie farther apart.", *ask)


def kilograms(*ask: str, most: float = WEIGHT_KG.high, low: float = 0.0) -> Within:
    """A weight in a works [kg]: common practice."""
    return between(low, most, "No batch in any works weighs more.", *ask)


def litres(*ask: str, most: float = 5.0 * WEIGHT_KG.high) -> Within:
    """Water for one batch [L]: common practice."""
    return between(0.0, most, "No batch in any works takes more.", *ask)


def corns(*ask: str) -> Within:
    """How many corns someone may be told to count: common practice."""
    return between(
        0.0,
        MOST_CORNS,
        "Nobody counts more by hand.",
        *ask,
        instead="Take a wider margin, or a limit farther from what was counted.",
    )


def immersion_hours(*ask: str) -> Within:
    """Hours that grain may be ordered to lie under water [h]: a limit of the trade."""
    return between(
        0.0,
        edge(IMMERSION.stop_high),
        "A longer immersion is a stop.",
        *ask,
        instead="Part it by an air rest.",
    )


def oxygen(*ask: str) -> Within:
    """What an oxygen meter shows in a vessel where grain breathes [%]: nature."""
    return between(0.0, FRESH_OXYGEN_PERCENT, "Fresh air has no more.", *ask)


def ppm(*ask: str) -> Within:
    """Gas in air [ppm]: nature."""
    return between(0.0, 1_000_000.0, "A million parts in a million are the whole.", *ask)


def count(most: float, *ask: str) -> Within:
    """A number of something that is listed, from none to ``most``."""
    return between(0.0, most, "There are no more.", *ask)


def rate_factor(*ask: str) -> Within:
    """How fast a barley takes up water against the model's: the range the model was made for."""
    return between(
        RATE_FACTOR.low,
        RATE_FACTOR.high,
        "No barley is so much slower or faster.",
        *ask,
        instead="Check the readings and their hours.",
    )


def offset(*ask: str) -> Within:
    """Water taken up at once, beyond the model's [points]: common practice."""
    return between(-20.0, 20.0, "Nothing more is taken up at once.", *ask, instead="Check the first reading.")


def steep_hours(*ask: str) -> Within:
    """Hours since the start of a steep [h]: twenty stages at their longest is far past any."""
    return between(0.0, 1440.0, "No steep lasts longer.", *ask)


def water_temp(*ask: str) -> Within:
    """Of water to steep in [C]: from there to where the barley is harmed."""
    return between(WATER_TEMP_C.low, WATER_TEMP_C.high, TEMP_REASON, *ask)


def grain_temp(*ask: str) -> Within:
    """Of grain that breathes [C]: where the law of breathing runs."""
    return between(GRAIN_C.low, GRAIN_C.high, "Warmer grain breathes no more.", *ask)


def grain_rise(*ask: str) -> Within:
    """How fast grain warms by its own breath [K in an hour]: at most from one end of the law to the other."""
    return between(0.0, GRAIN_C.high - GRAIN_C.low, "Warmer grain breathes no more.", *ask)
