"""Moisture by drying in an oven: one stage or two, and how far two dishes may differ.

Dry barley is ground and dried in one stage.  Barley over 17 % is dried whole first and
ground then: two stages.  Steeped corn and green malt are dried whole, in one stage, in
larger dishes.
"""

from collections.abc import Sequence
from typing import NamedTuple

from ..bounds import Bounds, check

PREDRY_ABOVE = 17.0
"""Moisture above which barley is dried whole before it is ground, % of wet weight.

MEBAK R-110.40.020, after ISO 712:2009 (abstract read).
"""

EMPTY_G = Bounds(0.0, 2000.0)
SAMPLE_G = Bounds(1.0, 2000.0)
OVEN_MOISTURE = Bounds(0.0, 80.0)
PREDRY_LOSS = Bounds(0.0, 60.0)
DISHES = Bounds(1, 10)

_RANGE_FACTORS = (2.77, 3.31, 3.63, 3.86, 4.03, 4.17, 4.29, 4.39, 4.47)
# Range of 2, 3, ... results, in standard deviations, that is exceeded once in 20 times:
# upper 5 % points of the studentised range (checked against scipy in the tests).


class Dish(NamedTuple):
    """One dish.

    Parameters
    ----------
    empty_g : float
        Dish and lid, dried and cooled [g].
    wet_g : float
        The same with the sample before drying [g].
    dry_g : float
        The same after drying, cooled in a desiccator [g].
    """

    empty_g: float
    wet_g: float
    dry_g: float


REPEATABILITY = {"dry_barley": 0.15, "steeped_corn": 0.5, "green_malt": 0.5}
"""How far two dishes of one sample may differ, one time in 20 excepted [points], by material.

Dry barley: ground, by the method of Regulation (EU) 1272/2009, annex I part VI (read), as in ISO 712; the 0.15
points are from memory.  Whole corns: our judgement; 0.2 points is asked of dry grain dried whole after ASAE S352.2
(Purdue University, course on grain moisture, read).
"""


class OvenMoisture(NamedTuple):
    """What an oven test of several dishes gives.

    Attributes
    ----------
    moisture : float
        Mean of the dishes, % of wet weight.
    moisture_db : float
        The same, % of dry matter.
    dishes : list of float
        Moisture of each dish, % of wet weight.
    difference : float
        Greatest less smallest [points].
    """

    moisture: float
    moisture_db: float
    dishes: list[float]
    difference: float


def dish_moisture(*, empty_g: float, wet_g: float, dry_g: float) -> float:
    """Give the moisture that one dish lost in the oven.

    Parameters
    ----------
    empty_g, wet_g, dry_g : float
        As for :class:`Dish` [g].

    Returns
    -------
    float
        Moisture, % of wet weight.

    Raises
    ------
    OutOfRange
        When the sample is not from 1 to 2,000 g, or the dry weight is above the wet
        one or so low that the moisture would be over 80 %.

    Examples
    --------
    >>> round(dish_moisture(empty_g=20.0, wet_g=25.0, dry_g=24.4), 2)
    12.0
    """
    return _dish(Dish(empty_g, wet_g, dry_g))


def _dish(dish: Dish, table: str = "", row: int | None = None) -> float:
    empty = check("empty_g", dish.empty_g, EMPTY_G, "", table, row)
    fits = Bounds(empty + SAMPLE_G.low, empty + SAMPLE_G.high)
    check("wet_g", dish.wet_g, fits, "", table, row)
    sample = dish.wet_g - empty
    driest = dish.wet_g - sample * OVEN_MOISTURE.high / 100.0
    check("dry_g", dish.dry_g, Bounds(driest, dish.wet_g), "", table, row)
    return 100.0 * (dish.wet_g - dish.dry_g) / sample


def two_stage_moisture(*, predry_loss_percent: float, second_moisture: float) -> float:
    """Give the moisture of grain that was dried whole first and ground then.

    Parameters
    ----------
    predry_loss_percent : float
        Weight lost in the first drying, % of the wet grain.
    second_moisture : float
        Moisture found in the oven on the pre-dried, ground grain, % of its weight.

    Returns
    -------
    float
        Moisture of the grain as it came, % of wet weight.

    Raises
    ------
    OutOfRange
        When the first loss is not from 0 to 60 % or the second moisture not from 0
        to 80 %.

    Notes
    -----
    M = L + (100 - L) M2/100: the second loss counts on what the first one left.  To add
    the two is a common mistake and reads high.

    Examples
    --------
    >>> two_stage_moisture(predry_loss_percent=40.0, second_moisture=10.0)
    46.0
    """
    check("predry_loss_percent", predry_loss_percent, PREDRY_LOSS)
    check("second_moisture", second_moisture, OVEN_MOISTURE)
    return predry_loss_percent + (100.0 - predry_loss_percent) * second_moisture / 100.0


def oven_moisture(*, dishes: Sequence[tuple[float, float, float]], predry_loss_percent: float = 0.0) -> OvenMoisture:
    """Give the moisture of a sample from its dishes.

    Parameters
    ----------
    dishes : sequence of (empty_g, wet_g, dry_g)
        One to ten dishes, as :class:`Dish` or plain triples [g].
    predry_loss_percent : float, optional
        Weight lost when the grain was dried whole first, % of the wet grain; 0 when
        there was no first drying.

    Returns
    -------
    OvenMoisture
        Mean, dry basis, each dish, and the difference.

    Raises
    ------
    OutOfRange
        As for :func:`dish_moisture` and :func:`two_stage_moisture`; for a dish,
        ``table`` is ``dishes`` and ``row`` its number from 0.

    Examples
    --------
    >>> found = oven_moisture(dishes=[(20, 25, 24.4), (20, 25, 24.395)])
    >>> round(found.moisture, 2), round(found.difference, 2)
    (12.05, 0.1)
    """
    check("dishes", len(dishes), DISHES)
    each = [
        two_stage_moisture(
            predry_loss_percent=predry_loss_percent,
            second_moisture=_dish(Dish(*row), "dishes", number),
        )
        for number, row in enumerate(dishes)
    ]
    mean = sum(each) / len(each)
    return OvenMoisture(mean, 100.0 * mean / (100.0 - mean), each, max(each) - min(each))


def allowed_difference(*, material: str, dishes: int, predry_loss_percent: float = 0.0) -> float | None:
    """Give how far the dishes of one sample may differ before a test is done again.

    Parameters
    ----------
    material : str
        ``dry_barley``, ``steeped_corn`` or ``green_malt``.
    dishes : int
        How many, from 1 to 10.
    predry_loss_percent : float, optional
        Weight lost in a first drying, % of the wet grain.  The dishes then differ only
        in the second drying, of what was left, which is ground dry grain.

    Returns
    -------
    float or None
        Greatest less smallest [points]; None for one dish, which cannot tell.

    Raises
    ------
    KeyError
        When the material is another.
    OutOfRange
        When there are not from 1 to 10 dishes or the first loss is not from 0 to 60 %.

    Notes
    -----
    The repeatability of a method is for two dishes; for more, the range that is exceeded
    once in 20 times grows by the studentised range.  Dishes filled from one pre-dried
    sample agree better than the whole test repeats.

    References
    ----------
    ISO 5725-6, critical range (from memory).

    Examples
    --------
    >>> allowed_difference(material="dry_barley", dishes=2)
    0.15
    """
    check("dishes", dishes, DISHES)
    check("predry_loss_percent", predry_loss_percent, PREDRY_LOSS)
    points = REPEATABILITY[material]
    if predry_loss_percent > 0.0:
        points = REPEATABILITY["dry_barley"] * (1.0 - predry_loss_percent / 100.0)
    if dishes < 2:
        return None
    return points * _RANGE_FACTORS[dishes - 2] / _RANGE_FACTORS[0]
