"""The steep basket: moisture from its weight, and the water that clings to the corns."""

from ..bounds import BARLEY_MOISTURE, BASKET_G, DRY_MATTER_LOST, MOISTURE, SAMPLE_G, STEEPED_MOISTURE, Bounds, check

FILM_DB = 0.05
"""Water that clings to well-drained steeped corn, kg per kg of dry matter.

Weakly known.  0.05 is tuned so that common steeping schedules end where practice
says they end; no published measurement for barley was found.  See
:data:`FILM_DB_LIMITS` for how far it may be off.
"""

FILM_DB_LIMITS = Bounds(0.0, 0.12)
"""Lowest (blotted dry) and highest (still dripping) clinging film, kg/kg dry matter."""


def film_added(*, net_moisture: float, film_db: float = FILM_DB) -> float:
    """Give the moisture that a weighing shows when a film of water clings to the corns.

    Parameters
    ----------
    net_moisture : float
        Moisture inside the corns, % of wet weight without the film.
    film_db : float, optional
        Clinging water, kg per kg of dry matter.

    Returns
    -------
    float
        Drained moisture, % of wet weight with the film.

    Raises
    ------
    OutOfRange
        When the moisture is not from 0 to 99 % or the film not from 0 to 0.12.

    Examples
    --------
    >>> round(film_added(net_moisture=45.0), 2)
    46.47
    """
    check("net_moisture", net_moisture, MOISTURE)
    check("film_db", film_db, FILM_DB_LIMITS)
    water = net_moisture / (100.0 - net_moisture) + film_db
    return 100.0 * water / (1.0 + water)


def film_removed(*, drained_moisture: float, film_db: float = FILM_DB) -> float:
    """Give the moisture inside the corns from that of drained grain with its film.

    Parameters
    ----------
    drained_moisture : float
        Moisture with the film, % of wet weight.
    film_db : float, optional
        Clinging water, kg per kg of dry matter.

    Returns
    -------
    float
        Net moisture, % of wet weight without the film.

    Raises
    ------
    OutOfRange
        When the film alone is more than all the water, or a value is outside
        its limits.

    Examples
    --------
    >>> round(film_removed(drained_moisture=46.47), 2)
    45.0
    """
    check("film_db", film_db, FILM_DB_LIMITS)
    low = 100.0 * film_db / (1.0 + film_db)
    check("drained_moisture", drained_moisture, Bounds(low, MOISTURE.high))
    water = max(0.0, drained_moisture / (100.0 - drained_moisture) - film_db)
    return 100.0 * water / (1.0 + water)


def basket_dry_matter(*, sample_g: float, barley_moisture: float, dry_matter_lost: float = 0.0) -> float:
    """Give the dry matter that is left of a basket's barley.

    Parameters
    ----------
    sample_g : float
        Barley put in, as weighed dry [g].
    barley_moisture : float
        Its moisture then, % of wet weight.
    dry_matter_lost : float
        Dry matter leached since, % of it.

    Returns
    -------
    float
        Dry matter [g].

    Raises
    ------
    OutOfRange
        When one of the three is outside its bounds.

    Notes
    -----
    D = m (1 - M/100)(1 - L/100): dry matter is conserved but for what is leached.

    Examples
    --------
    >>> round(basket_dry_matter(sample_g=100.0, barley_moisture=12.0, dry_matter_lost=1.0), 2)
    87.12
    """
    check("sample_g", sample_g, SAMPLE_G)
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    check("dry_matter_lost", dry_matter_lost, DRY_MATTER_LOST)
    return sample_g * (1.0 - barley_moisture / 100.0) * (1.0 - dry_matter_lost / 100.0)


def basket_moisture(
    *,
    gross_g: float,
    basket_g: float,
    sample_g: float,
    barley_moisture: float,
    dry_matter_lost: float = 0.0,
    film_db: float = 0.0,
) -> float:
    """Give the moisture of the barley in a steep basket from its weight.

    Parameters
    ----------
    gross_g : float
        Basket and grain now [g].
    basket_g : float
        Empty basket, wet, as it hangs [g].
    sample_g : float
        Barley weighed into the basket [g].
    barley_moisture : float
        Moisture of that barley, % of wet weight.
    dry_matter_lost : float, optional
        Dry matter leached, % of dry matter.
    film_db : float, optional
        Clinging water to take off, kg per kg of dry matter: 0 gives the moisture
        as weighed, :data:`FILM_DB` the net moisture of a well-drained basket.

    Returns
    -------
    float
        Moisture, % of wet weight.

    Raises
    ------
    OutOfRange
        When the basket is lighter than itself with the dry matter and the film,
        or so heavy that the moisture would be above 65 %.

    Notes
    -----
    M = 1 - D/(G - T - film D) with the dry matter D = S (1 - M0)(1 - L).

    Examples
    --------
    >>> m = basket_moisture(
    ...     gross_g=210.0, basket_g=50.0, sample_g=100.0, barley_moisture=12.0)
    >>> round(m, 2)
    45.0
    """
    check("basket_g", basket_g, BASKET_G)
    check("film_db", film_db, FILM_DB_LIMITS)
    dry = basket_dry_matter(sample_g=sample_g, barley_moisture=barley_moisture, dry_matter_lost=dry_matter_lost)
    held = basket_g + film_db * dry
    low = held + dry
    high = held + dry / (1.0 - STEEPED_MOISTURE.high / 100.0)
    check("gross_g", gross_g, Bounds(low, high))
    return max(0.0, 100.0 * (1.0 - dry / (gross_g - held)))


def basket_gross(
    *,
    moisture: float,
    basket_g: float,
    sample_g: float,
    barley_moisture: float,
    dry_matter_lost: float = 0.0,
    film_db: float = 0.0,
) -> float:
    """Give what a steep basket weighs with its grain at a given moisture.

    Parameters
    ----------
    moisture : float
        Moisture, % of wet weight.
    basket_g, sample_g, barley_moisture, dry_matter_lost, film_db
        As for :func:`basket_moisture`; the film, if any, comes on top of the
        moisture given.

    Returns
    -------
    float
        Basket and grain [g].

    Raises
    ------
    OutOfRange
        When the moisture is not from 0 to 65 % or a value is outside its limits.

    Examples
    --------
    >>> g = basket_gross(moisture=45.0, basket_g=50.0, sample_g=100.0, barley_moisture=12.0)
    >>> round(g, 1)
    210.0
    """
    check("moisture", moisture, STEEPED_MOISTURE)
    check("basket_g", basket_g, BASKET_G)
    check("film_db", film_db, FILM_DB_LIMITS)
    dry = basket_dry_matter(sample_g=sample_g, barley_moisture=barley_moisture, dry_matter_lost=dry_matter_lost)
    return basket_g + film_db * dry + dry / (1.0 - moisture / 100.0)


def points_per_gram(
    *,
    moisture: float,
    sample_g: float,
    barley_moisture: float,
    dry_matter_lost: float = 0.0,
) -> float:
    """Give how far one gram on the scale moves the moisture of a basket.

    Parameters
    ----------
    moisture : float
        Moisture now, % of wet weight.
    sample_g, barley_moisture, dry_matter_lost
        As for :func:`basket_moisture`.

    Returns
    -------
    float
        Points of moisture for each gram: the slope at that moisture.

    Raises
    ------
    OutOfRange
        When the moisture is not from 0 to 65 % or a value is outside its limits.

    Notes
    -----
    dM/dW = (100 - M)^2 / (100 D).  At 45 % a basket of 100 g at 12 % moves 0.34
    points a gram.

    Examples
    --------
    >>> round(points_per_gram(moisture=45.0, sample_g=100.0, barley_moisture=12.0), 2)
    0.34
    """
    check("moisture", moisture, STEEPED_MOISTURE)
    dry = basket_dry_matter(sample_g=sample_g, barley_moisture=barley_moisture, dry_matter_lost=dry_matter_lost)
    return (100.0 - moisture) ** 2 / (100.0 * dry)
