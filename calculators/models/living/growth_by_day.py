"""A batch day by day from the cast, held at one temperature and one moisture: how long, how warm, how much lost.

The laws are those of the one batch; nothing is fitted here.  It shows what warmth and
water do to all of them at once.
"""

from typing import NamedTuple

from ..bounds import Bounds, check
from .acrospires import CORN_LENGTH_LOG_SD, Acrospires, mean_length_at, shares_below
from .bed_days import AT_CAST_PERCENT, BARLEY_PERCENT
from .breathing import breathing, breathing_rate
from .chitting import Corns
from .maths import FLOATS
from .pace import SHOWS_MOISTURE, growth_after_cast, water_pace
from .ready import BED_C

DAYS = Bounds(0.0, 12.0)
"""Days after the cast [days]: long past any batch in use."""

MOISTURE = Bounds(SHOWS_MOISTURE, 50.0)
MOISTURE_REASON = "Drier corns do not grow."
STEP_H = 2.0
_GROWTH_MOST = 1000.0


class Grown(NamedTuple):
    """A batch so many days after its cast."""

    day: float
    growth_h: float
    length: float
    """Mean length of the acrospires [corn lengths]."""
    three_quarters: float
    """Share of all corns at three quarters of the corn or more [-]."""
    overshot: float
    """Share of all corns with an acrospire longer than the corn [-]."""
    heat_kw: float
    """Heat [kW for each tonne of barley as weighed]."""
    lost_percent: float
    """Dry matter lost since the barley was filled in [% of it]; roots still on."""


def growth_of(*, day: float, temp_c: float, moisture: float) -> float:
    """Give the growth clock so many days after the cast [h at 15 C].

    Parameters
    ----------
    day : float
        Days since the cast [days], 0 to 12.
    temp_c : float
        Temperature of the grain since then [C], 5 to 30.
    moisture : float
        Of the grain since then, % of wet weight, 26 to 50; under 40 % it slows growth.

    Returns
    -------
    float
        Hours of growth [h].

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> growth_of(day=2.5, temp_c=15.0, moisture=45.0)
    78.0
    """
    check("moisture", moisture, MOISTURE, MOISTURE_REASON)
    check("temp_c", temp_c, BED_C)
    check("day", day, DAYS)
    begun = growth_after_cast(day=1.0, temp_c=temp_c)
    ahead = growth_after_cast(day=1.0 + day, temp_c=temp_c) - begun
    return min(begun + ahead * float(water_pace(FLOATS, moisture)), _GROWTH_MOST)


def growth_by_day(
    *, days: float, temp_c: float, moisture: float, pace: float = 0.0, factor: float = 1.0
) -> list[Grown]:
    """Give a batch at each half day from the cast to a day.

    Parameters
    ----------
    days : float
        Days after the cast [days], 0 to 12; the last state is at it.
    temp_c, moisture
        As for :func:`growth_of`; held all the time.
    pace : float, optional
        How far its acrospires are ahead of the typical, in standard deviations from batch to
        batch (``acrospires.CORN_LENGTH_LOG_SD``).
    factor : float, optional
        Breathing of this house's batches against the law [-].

    Returns
    -------
    list of Grown
        From the cast on.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Notes
    -----
    The corns are those of a typical lot, 3 of 100 not growing.  The midpoint of every two
    hours; what is burnt is gone and breathes no more.

    Examples
    --------
    >>> last = growth_by_day(days=5.0, temp_c=15.0, moisture=45.0)[-1]
    >>> round(last.length, 2), round(last.three_quarters, 2), round(last.lost_percent, 1)
    (0.81, 0.85, 4.1)
    """
    corns = Corns()
    acrospires = Acrospires()
    slower = FLOATS.exp(-pace * CORN_LENGTH_LOG_SD)
    acrospires = acrospires._replace(corn_length_h=acrospires.corn_length_h * slower)
    left = 1.0 - AT_CAST_PERCENT / 100.0
    done = [_state(0.0, temp_c, moisture, corns, acrospires, left, factor)]
    while done[-1].day < days - 1e-9:
        until = min(done[-1].day + 0.5, days)
        steps = max(1, round((until - done[-1].day) * 24.0 / STEP_H))
        hours = (until - done[-1].day) * 24.0 / steps
        for n in range(steps):
            at = done[-1].day + (n + 0.5) * hours / 24.0
            grown = growth_of(day=at, temp_c=temp_c, moisture=moisture)
            left *= 1.0 - hours * breathing_rate(net_moisture=moisture, temp_c=temp_c, growth_h=grown, factor=factor)
        done.append(_state(until, temp_c, moisture, corns, acrospires, left, factor))
    return done


def _state(
    day: float, temp_c: float, moisture: float, corns: Corns, acrospires: Acrospires, left: float, factor: float
) -> Grown:
    grown = growth_of(day=day, temp_c=temp_c, moisture=moisture)
    below = shares_below(FLOATS, grown, corns, acrospires)
    heat = breathing(
        barley_kg=1000.0,
        barley_moisture=BARLEY_PERCENT,
        net_moisture=moisture,
        temp_c=temp_c,
        growth_h=grown,
        factor=factor,
    ).heat_kw
    return Grown(
        day,
        grown,
        float(mean_length_at(FLOATS, grown, corns, acrospires)),
        1.0 - float(below[2]),
        1.0 - float(below[3]),
        heat,
        100.0 * (1.0 - left),
    )
