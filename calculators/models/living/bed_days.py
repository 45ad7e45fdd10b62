"""What grain breathes on a day after the cast, where no more than the day, its warmth and its water are known.

The one law (``breathing``) by the growth that a usual steep and the days since bring
(``pace.growth_after_cast``).  Whoever needs the heat, the gas or the loss of a piece, a
box or a drum by its day asks here.
"""

from ..bounds import Bounds, check
from .breathing import GROWTH_H, breathing, breathing_rate
from .pace import growth_after_cast

BED_PERCENT = 45.0
"""Moisture of the bed where none was measured, % of wet weight; from 38 % on the law does not ask for more."""

BARLEY_PERCENT = 14.0
"""Moisture of the barley where none was said, % of wet weight: 860 kg of dry matter a tonne."""

AT_CAST_PERCENT = 1.0
"""Dry matter lost by the cast, leached and breathed [% of the barley's]: 0.5 to 1.5 (from memory; Ure 1.4, read)."""

MIDDLE = 0.5
"""What makes a day counted from 1 its middle."""

HIGHEST_H = 77.7
"""Growth clock at which breathing is highest [h at 15 C]."""

FIRST_DAYS = 5
"""Days that a usual batch grows, over which a loss is told [days]."""

DAY = Bounds(1.0, 30.0)
DAYS = Bounds(0.0, 29.0)

_STEP_H = 2.0


def middle_of(day: float) -> float:
    """Give the middle of a day on the bed, as the laws take it [days]; the last day ends at their limit.

    >>> middle_of(3.0), middle_of(30.0)
    (3.5, 30.0)
    """
    return min(day + MIDDLE, DAY.high)


def _grown(day: float, temp_c: float) -> float:
    return min(growth_after_cast(day=day, temp_c=temp_c), GROWTH_H.high)  # weeks on it hardly breathes any more


def heat_on_day(
    *,
    day: float,
    temp_c: float,
    moisture: float = BED_PERCENT,
    barley_moisture: float = BARLEY_PERCENT,
    factor: float = 1.0,
) -> float:
    """Give the heat of grain by its day after the cast.

    Parameters
    ----------
    day : float
        Day after the cast as time goes on: 1 is the cast, 3.5 the middle of the third day.
    temp_c : float
        Temperature of the grain, now and since the cast [C], 0 to 40.
    moisture : float, optional
        Of the grain, % of wet weight, 26 to 55.
    barley_moisture : float, optional
        Of the barley as weighed, % of wet weight.
    factor : float, optional
        Breathing of this house's batches against the law [-].

    Returns
    -------
    float
        Heat [kW for each tonne of barley as weighed]; true to a factor of 2.2 (``breathing.DOUBT_LOG``).

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> [round(heat_on_day(day=day + MIDDLE, temp_c=15.0, barley_moisture=14.0), 1) for day in (1, 2, 3, 5, 7)]
    [0.4, 1.2, 1.4, 1.1, 0.8]
    """
    return breathing(
        barley_kg=1000.0,
        barley_moisture=barley_moisture,
        net_moisture=moisture,
        temp_c=temp_c,
        growth_h=_grown(day, temp_c),
        factor=factor,
    ).heat_kw


def breathed_a_day(*, day: float, temp_c: float, moisture: float = BED_PERCENT, factor: float = 1.0) -> float:
    """Give the dry matter that grain breathes away in 24 hours at its pace on a day.

    Parameters
    ----------
    day, temp_c, moisture, factor
        As for :func:`heat_on_day`.

    Returns
    -------
    float
        Share of the dry matter [% a day].

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> round(breathed_a_day(day=3.5, temp_c=15.0), 2)
    0.82
    """
    grown = _grown(day, temp_c)
    return 2400.0 * breathing_rate(net_moisture=moisture, temp_c=temp_c, growth_h=grown, factor=factor)


def breathed_at_most(*, temp_c: float, moisture: float = BED_PERCENT) -> float:
    """Give the dry matter breathed away in 24 hours when breathing is at its highest [% a day].

    Examples
    --------
    >>> round(breathed_at_most(temp_c=15.0), 2)
    0.82
    """
    return 2400.0 * breathing_rate(net_moisture=moisture, temp_c=temp_c, growth_h=HIGHEST_H)


def breathed_away(*, days: float, temp_c: float, moisture: float = BED_PERCENT, factor: float = 1.0) -> float:
    """Give the dry matter breathed away from the cast on.

    Parameters
    ----------
    days : float
        Days since the cast [days], 0 to 29.
    temp_c, moisture, factor
        As for :func:`heat_on_day`; held all the time.

    Returns
    -------
    float
        Loss [% of the dry matter that was cast], to a factor of 2.2; roots are not in it.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Notes
    -----
    The midpoint of every two hours; what is burnt is gone and breathes no more.

    Examples
    --------
    >>> round(breathed_away(days=5.0, temp_c=15.0), 1)
    3.1
    """
    check("days", days, DAYS)
    left, hours = 1.0, 24.0 * days
    steps = max(1, round(hours / _STEP_H))
    for n in range(steps):
        day = 1.0 + (n + 0.5) * hours / steps / 24.0
        left *= 1.0 - breathed_a_day(day=day, temp_c=temp_c, moisture=moisture, factor=factor) * hours / steps / 2400.0
    return 100.0 * (1.0 - left)


def breathed_a_mean_day(*, temp_c: float, moisture: float = BED_PERCENT) -> float:
    """Give the mean of the first five days [% of the dry matter a day], as a loss over a batch is told."""
    return breathed_away(days=FIRST_DAYS, temp_c=temp_c, moisture=moisture) / FIRST_DAYS
