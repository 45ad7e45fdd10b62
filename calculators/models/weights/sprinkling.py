"""Water put back on a growing bed: how much, and in how many goes."""

from math import ceil

from ..bounds import BED_MOISTURE, Bounds, check
from .basket import FILM_DB, FILM_DB_LIMITS
from .moisture import water_to_add

WATER_KEPT = Bounds(10.0, 100.0)
ROUNDS = Bounds(1, 20)

SENSIBLE_POINTS = 3.0
"""Points of moisture from which sprinkling makes good a steep that was too short (common practice)."""


def water_needed(*, bed_kg: float, moisture_now: float, moisture_wanted: float, water_kept: float) -> float:
    """Give the water to sprinkle.

    Parameters
    ----------
    bed_kg : float
        Weight of the bed as it lies [kg].
    moisture_now, moisture_wanted : float
        Moistures, % of wet weight; the second is not lower.
    water_kept : float
        Share of the water that the grain keeps [%]; the rest runs off or dries away.

    Returns
    -------
    float
        Water [L], taken at 1 kg a litre.

    Raises
    ------
    OutOfRange
        When a moisture is not from 30 to 55 %, the wanted one is the lower, or the share
        is not from 10 to 100 %.

    Notes
    -----
    W = m (M2 - M1)/(100 - M2) over the share kept: dry matter is conserved.

    Examples
    --------
    >>> round(water_needed(bed_kg=1000.0, moisture_now=43.0, moisture_wanted=45.0, water_kept=100.0), 1)
    36.4
    """
    check("moisture_now", moisture_now, BED_MOISTURE)
    check("moisture_wanted", moisture_wanted, Bounds(moisture_now, BED_MOISTURE.high))
    check("water_kept", water_kept, WATER_KEPT)
    kept = water_to_add(weight_kg=bed_kg, moisture=moisture_now, final_moisture=moisture_wanted)
    return kept * 100.0 / water_kept


def clings_l(*, bed_kg: float, moisture_now: float, film_db: float = FILM_DB) -> float:
    """Give the water that can cling to the corns of a bed at one time.

    Parameters
    ----------
    bed_kg : float
        Weight of the bed [kg].
    moisture_now : float
        Its moisture, % of wet weight.
    film_db : float, optional
        Film on the corns, kg per kg of dry matter: well drained 0.05, dripping 0.12.

    Returns
    -------
    float
        Water [L].

    Raises
    ------
    OutOfRange
        When the film is not from 0 to 0.12 or the moisture not from 30 to 55 %.
    """
    check("moisture_now", moisture_now, BED_MOISTURE)
    check("film_db", film_db, FILM_DB_LIMITS)
    return film_db * bed_kg * (100.0 - moisture_now) / 100.0


def rounds_needed(*, water_l: float, one_round_l: float) -> int:
    """Give the rounds of sprinkling and turning, so that no round is more than can cling.

    Examples
    --------
    >>> rounds_needed(water_l=36.4, one_round_l=28.5)
    2
    """
    return max(1, ceil(water_l / one_round_l * (1.0 - 1e-12)))
