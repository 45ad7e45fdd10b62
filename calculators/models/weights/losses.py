"""What malting costs: dry matter lost between barley and malt, and where it went."""

from ..bounds import DRY_MATTER_LOST_MALTING, MOISTURE, Bounds, OutOfRange, check

TCW_G = Bounds(15.0, 80.0)
"""Thousand-corn weight of barley or malt [g]; the limits are common practice."""


def malting_loss(*, barley_kg: float, barley_moisture: float, malt_kg: float, malt_moisture: float) -> float:
    """Give the dry matter lost in malting.

    Parameters
    ----------
    barley_kg, malt_kg : float
        Weights in one unit: of the batch [kg], or of a thousand corns [g].
    barley_moisture, malt_moisture : float
        Moistures, % of wet weight.

    Returns
    -------
    float
        Loss [% of the barley's dry matter].

    Raises
    ------
    OutOfRange
        When a weight is not positive, a moisture is not from 0 to 99 %, or the malt holds
        more dry matter than the barley.

    References
    ----------
    Maltsters' Association of Great Britain, malt facts (read): 1 t of barley at 12 % gives
    about 830 kg of malt at 5 %.

    Examples
    --------
    >>> round(malting_loss(barley_kg=1000, barley_moisture=12, malt_kg=830, malt_moisture=5), 1)
    10.4
    """
    weights = Bounds(1e-9, 1e9)
    check("barley_kg", barley_kg, weights)
    check("malt_kg", malt_kg, weights)
    check("barley_moisture", barley_moisture, MOISTURE)
    check("malt_moisture", malt_moisture, MOISTURE)
    dry_in = barley_kg * (100.0 - barley_moisture)
    most = dry_in / (100.0 - malt_moisture)
    if malt_kg > most * (1.0 + 1e-12):
        raise OutOfRange("malt_kg", 0.0, most, "Malt cannot hold more dry matter than its barley.")
    return max(0.0, 100.0 * (1.0 - malt_kg * (100.0 - malt_moisture) / dry_in))


def malt_from(*, barley_kg: float, barley_moisture: float, malt_moisture: float, loss_percent: float) -> float:
    """Give the malt that a batch of barley makes.

    Parameters
    ----------
    barley_kg : float
        Barley [kg].
    barley_moisture, malt_moisture : float
        Moistures, % of wet weight.
    loss_percent : float
        Dry matter lost in malting, %, 0 to 30.

    Returns
    -------
    float
        Malt without rootlets [kg].

    Raises
    ------
    OutOfRange
        When the weight, a moisture or the loss is outside its limits.

    Examples
    --------
    >>> round(malt_from(barley_kg=1000, barley_moisture=12, malt_moisture=5, loss_percent=10.4))
    830
    """
    check("barley_kg", barley_kg, Bounds(1e-9, 1e9))
    check("barley_moisture", barley_moisture, MOISTURE)
    check("malt_moisture", malt_moisture, MOISTURE)
    check("loss_percent", loss_percent, DRY_MATTER_LOST_MALTING)
    kept = 1.0 - loss_percent / 100.0
    return barley_kg * (100.0 - barley_moisture) * kept / (100.0 - malt_moisture)


def share_of_dry_matter(*, part_kg: float, part_moisture: float, barley_kg: float, barley_moisture: float) -> float:
    """Give a weighed part, such as rootlets, in percent of the barley's dry matter.

    Parameters
    ----------
    part_kg, barley_kg : float
        Weights [kg].
    part_moisture, barley_moisture : float
        Moistures, % of wet weight.

    Returns
    -------
    float
        Share [% of the barley's dry matter].

    Raises
    ------
    OutOfRange
        When a weight or a moisture is outside its limits.

    Examples
    --------
    >>> share_of_dry_matter(part_kg=44, part_moisture=10, barley_kg=1000, barley_moisture=12)
    4.5
    """
    check("part_kg", part_kg, Bounds(0.0, 1e9))
    check("part_moisture", part_moisture, MOISTURE)
    check("barley_kg", barley_kg, Bounds(1e-9, 1e9))
    check("barley_moisture", barley_moisture, MOISTURE)
    return 100.0 * part_kg * (100.0 - part_moisture) / (barley_kg * (100.0 - barley_moisture))
