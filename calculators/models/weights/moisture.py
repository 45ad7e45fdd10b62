"""Moisture arithmetic: the dry matter of the grain is conserved.

Moistures are percent of the wet weight, except where a name ends in ``_db``:
those are on the dry matter.  Every function here is exact arithmetic; the doubt
of an answer is the doubt of the weights and moistures that went in.
"""

from ..bounds import DRY_MATTER_LOST_MALTING, MOISTURE, WEIGHT_KG, Bounds, check


def dry_basis(*, moisture: float) -> float:
    """Give the moisture on the dry matter.

    Parameters
    ----------
    moisture : float
        Moisture, % of wet weight.

    Returns
    -------
    float
        Moisture, % of dry matter.

    Raises
    ------
    OutOfRange
        When the moisture is not from 0 to 99 %.

    Examples
    --------
    >>> round(dry_basis(moisture=44.0), 3)
    78.571
    """
    check("moisture", moisture, MOISTURE)
    return 100.0 * moisture / (100.0 - moisture)


def wet_basis(*, moisture_db: float) -> float:
    """Give the moisture on the wet weight.

    Parameters
    ----------
    moisture_db : float
        Moisture, % of dry matter.

    Returns
    -------
    float
        Moisture, % of wet weight.

    Raises
    ------
    OutOfRange
        When the moisture is not from 0 to 9,900 % of the dry matter.

    Examples
    --------
    >>> wet_basis(moisture_db=25.0)
    20.0
    """
    check("moisture_db", moisture_db, Bounds(0.0, 9900.0))
    return 100.0 * moisture_db / (100.0 + moisture_db)


def weight_after(
    *,
    weight_kg: float,
    moisture: float,
    new_moisture: float,
    dry_matter_lost: float = 0.0,
) -> float:
    """Give the weight of grain after it was wetted or dried to another moisture.

    Parameters
    ----------
    weight_kg : float
        Weight before [kg].
    moisture : float
        Moisture before, % of wet weight.
    new_moisture : float
        Moisture after, % of wet weight; lower or higher than before.
    dry_matter_lost : float, optional
        Dry matter leached, respired or rubbed off on the way, % of dry matter.

    Returns
    -------
    float
        Weight after [kg].

    Raises
    ------
    OutOfRange
        When a moisture is not from 0 to 99 %, the weight is not positive or more
        than 30 % of the dry matter is said to be lost.

    Notes
    -----
    m2 = m1 (100 - M1)/(100 - M2) (1 - L/100).

    References
    ----------
    IRRI Rice Knowledge Bank (read): 1,000 kg at 25 % dried to 14 % leaves 872 kg.

    Examples
    --------
    >>> round(weight_after(weight_kg=1000.0, moisture=25.0, new_moisture=14.0))
    872
    """
    check("weight_kg", weight_kg, WEIGHT_KG)
    check("moisture", moisture, MOISTURE)
    check("new_moisture", new_moisture, MOISTURE)
    check("dry_matter_lost", dry_matter_lost, DRY_MATTER_LOST_MALTING)
    kept = 1.0 - dry_matter_lost / 100.0
    return weight_kg * kept * (100.0 - moisture) / (100.0 - new_moisture)


def water_to_remove(*, weight_kg: float, moisture: float, final_moisture: float) -> float:
    """Give the water to dry off.

    Parameters
    ----------
    weight_kg : float
        Weight before drying [kg].
    moisture, final_moisture : float
        Moisture before and after, % of wet weight; the final one is not higher.

    Returns
    -------
    float
        Water [kg].

    Raises
    ------
    OutOfRange
        When a moisture is not from 0 to 99 % or the final one is the higher.

    Examples
    --------
    >>> round(water_to_remove(weight_kg=1000.0, moisture=45.0, final_moisture=5.0), 2)
    421.05
    """
    check("weight_kg", weight_kg, WEIGHT_KG)
    check("moisture", moisture, MOISTURE)
    check("final_moisture", final_moisture, Bounds(MOISTURE.low, moisture))
    return weight_kg * (moisture - final_moisture) / (100.0 - final_moisture)


def water_to_add(*, weight_kg: float, moisture: float, final_moisture: float) -> float:
    """Give the water that the grain must take up.

    Parameters
    ----------
    weight_kg : float
        Weight before wetting [kg].
    moisture, final_moisture : float
        Moisture before and after, % of wet weight; the final one is not lower.

    Returns
    -------
    float
        Water [kg], only what the grain keeps: what runs off comes on top.

    Raises
    ------
    OutOfRange
        When a moisture is not from 0 to 99 % or the final one is the lower.

    References
    ----------
    A laboratory mill's manual (read): 7.8 ml for 100 g from 10 to 16.5 %.

    Examples
    --------
    >>> round(water_to_add(weight_kg=100.0, moisture=10.0, final_moisture=16.5), 1)
    7.8
    """
    check("weight_kg", weight_kg, WEIGHT_KG)
    check("moisture", moisture, MOISTURE)
    check("final_moisture", final_moisture, Bounds(moisture, MOISTURE.high))
    return weight_kg * (final_moisture - moisture) / (100.0 - final_moisture)


def shrink_per_point(*, final_moisture: float) -> float:
    """Give the weight lost for each point of moisture dried off.

    Parameters
    ----------
    final_moisture : float
        Moisture after drying, % of wet weight.

    Returns
    -------
    float
        Shrink, % of the weight before drying for each point.

    Raises
    ------
    OutOfRange
        When the moisture is not from 0 to 99 %.

    Notes
    -----
    Water only.  A "shrink" of 1.2 % a point in a trade contract is a discount.

    References
    ----------
    Pioneer, moisture shrink table (read): 1.1834 % a point at 15.5 %.

    Examples
    --------
    >>> round(shrink_per_point(final_moisture=15.5), 4)
    1.1834
    """
    check("final_moisture", final_moisture, MOISTURE)
    return 100.0 / (100.0 - final_moisture)
