"""What the whole batch weighs in the steep, and what its weight says of its moisture."""

from ..bounds import (
    BARLEY_MOISTURE,
    DRY_MATTER_LOST,
    SKIMMINGS_PERCENT,
    STEEPED_MOISTURE,
    TARGET_MOISTURE,
    WEIGHT_KG,
    Bounds,
    check,
)


def steeped_dry_matter(
    *,
    barley_kg: float,
    barley_moisture: float,
    dry_matter_lost: float = 0.0,
    skimmings_percent: float = 0.0,
) -> float:
    """Give the dry matter still in the steep.

    Parameters
    ----------
    barley_kg : float
        Barley filled in [kg].
    barley_moisture : float
        Its moisture, % of wet weight.
    dry_matter_lost : float, optional
        Dry matter leached into the water, % of dry matter.
    skimmings_percent : float, optional
        Grain floated off, % of the barley filled in.

    Returns
    -------
    float
        Dry matter [kg].

    Raises
    ------
    OutOfRange
        When a value is outside the limits named in ``limits``.
    """
    check("barley_kg", barley_kg, WEIGHT_KG)
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    check("dry_matter_lost", dry_matter_lost, DRY_MATTER_LOST)
    check("skimmings_percent", skimmings_percent, SKIMMINGS_PERCENT)
    stayed = 1.0 - skimmings_percent / 100.0
    kept = 1.0 - dry_matter_lost / 100.0
    return barley_kg * stayed * kept * (1.0 - barley_moisture / 100.0)


def _check_target(barley_moisture: float, target_moisture: float) -> None:
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    low = max(TARGET_MOISTURE.low, barley_moisture)
    check(
        "target_moisture",
        target_moisture,
        Bounds(low, TARGET_MOISTURE.high),
        "The target lies above the barley’s own moisture.",
    )


def target_weight(
    *,
    barley_kg: float,
    barley_moisture: float,
    target_moisture: float,
    dry_matter_lost: float = 0.0,
    skimmings_percent: float = 0.0,
) -> float:
    """Give what the barley weighs when it has reached its target moisture.

    Parameters
    ----------
    barley_kg : float
        Barley filled in [kg].
    barley_moisture : float
        Its moisture, % of wet weight.
    target_moisture : float
        Moisture wanted, % of wet weight; not under the barley's own.
    dry_matter_lost : float, optional
        Dry matter leached into the water, % of dry matter; 0.5 to 1.5 by practice.
    skimmings_percent : float, optional
        Grain floated off, % of the barley filled in: changes the weight, not the
        moisture.

    Returns
    -------
    float
        Weight at target [kg].

    Raises
    ------
    OutOfRange
        When a value is outside the limits named in ``limits``, or the target is
        under the barley's own moisture.

    Notes
    -----
    Barley from 5 to 25 %, target from 20 to 55 %.  The weight includes any film
    of water that the target moisture counts in.

    Examples
    --------
    >>> round(target_weight(barley_kg=1000, barley_moisture=12, target_moisture=44), 2)
    1571.43
    """
    _check_target(barley_moisture, target_moisture)
    dry = steeped_dry_matter(
        barley_kg=barley_kg,
        barley_moisture=barley_moisture,
        dry_matter_lost=dry_matter_lost,
        skimmings_percent=skimmings_percent,
    )
    return dry / (1.0 - target_moisture / 100.0)


def water_taken_up(
    *,
    barley_kg: float,
    barley_moisture: float,
    target_moisture: float,
    dry_matter_lost: float = 0.0,
    skimmings_percent: float = 0.0,
) -> float:
    """Give the water that the barley in the steep has drunk at its target moisture.

    Parameters
    ----------
    barley_kg, barley_moisture, target_moisture, dry_matter_lost, skimmings_percent
        As for :func:`target_weight`.

    Returns
    -------
    float
        Water [kg]: the water in the steeped grain less the water that the same
        corns brought.  It is more than the gain in weight when dry matter leaches.

    Raises
    ------
    OutOfRange
        As for :func:`target_weight`.

    Examples
    --------
    >>> round(water_taken_up(barley_kg=1000, barley_moisture=12, target_moisture=45), 1)
    600.0
    """
    steeped_kg = target_weight(
        barley_kg=barley_kg,
        barley_moisture=barley_moisture,
        target_moisture=target_moisture,
        dry_matter_lost=dry_matter_lost,
        skimmings_percent=skimmings_percent,
    )
    stayed_kg = barley_kg * (1.0 - skimmings_percent / 100.0)
    return (steeped_kg * target_moisture - stayed_kg * barley_moisture) / 100.0


def weight_gain(*, barley_moisture: float, target_moisture: float, dry_matter_lost: float = 0.0) -> float:
    """Give the gain in weight of the corns that stay in the steep.

    Parameters
    ----------
    barley_moisture, target_moisture, dry_matter_lost
        As for :func:`target_weight`.

    Returns
    -------
    float
        Gain, % of the weight that the same corns had dry.  Skimmings do not
        change it.

    Raises
    ------
    OutOfRange
        As for :func:`target_weight`.

    Examples
    --------
    >>> round(weight_gain(barley_moisture=12.0, target_moisture=45.0), 2)
    60.0
    """
    weight = target_weight(
        barley_kg=100.0,
        barley_moisture=barley_moisture,
        target_moisture=target_moisture,
        dry_matter_lost=dry_matter_lost,
    )
    return weight - 100.0


def moisture_at_weight(
    *,
    current_kg: float,
    barley_kg: float,
    barley_moisture: float,
    dry_matter_lost: float = 0.0,
    skimmings_percent: float = 0.0,
) -> float:
    """Give the moisture of the steeped barley from what it weighs now.

    Parameters
    ----------
    current_kg : float
        Weight now [kg].
    barley_kg, barley_moisture, dry_matter_lost, skimmings_percent
        As for :func:`target_weight`.

    Returns
    -------
    float
        Moisture, % of wet weight.  It counts in any water that clings.

    Raises
    ------
    OutOfRange
        When the weight is under that of the dry matter alone, or so high that
        the moisture would be above 65 %.

    Examples
    --------
    >>> m = moisture_at_weight(current_kg=1600.0, barley_kg=1000.0, barley_moisture=12.0)
    >>> round(m, 2)
    45.0
    """
    dry = steeped_dry_matter(
        barley_kg=barley_kg,
        barley_moisture=barley_moisture,
        dry_matter_lost=dry_matter_lost,
        skimmings_percent=skimmings_percent,
    )
    high = dry / (1.0 - STEEPED_MOISTURE.high / 100.0)
    check("current_kg", current_kg, Bounds(dry, high))
    return 100.0 * (1.0 - dry / current_kg)
