"""Figures of a laboratory's sheet put on one basis, and how far two results of one sample may lie apart."""

from ..bounds import Bounds, check

MALT_MOISTURE = Bounds(0.0, 20.0)
PERCENT = Bounds(0.0, 100.0)
PROTEIN_OF_NITROGEN = 6.25
"""Protein for each part of nitrogen: the convention of the trade's analyses."""

NITROGEN_APART = {"same": 0.063, "two": 0.116}
"""What two results of one sample stay under in 95 of 100, in one laboratory and between two [points]: EBC trial of
total nitrogen by combustion (abstract read)."""
EXTRACT_APART = {"same": 1.0, "two": 2.0}
"""The same of extract [points]: our judgement, no figure was read."""
ONE_RESULT = 0.5**0.5
"""How far a single result may lie from the sample's own figure, against two of them [-]."""


def on_dry_matter(*, as_is: float, moisture: float) -> float:
    """Put a figure as is on the dry matter.

    Parameters
    ----------
    as_is : float
        Share of the malt with its water in it [%], 0 to 100.
    moisture : float
        Moisture of the malt [% of wet weight], 0 to 20.

    Returns
    -------
    float
        Share of the dry matter [%].

    Raises
    ------
    OutOfRange
        When a value is outside.

    Examples
    --------
    >>> round(on_dry_matter(as_is=80.9, moisture=4.4), 1)
    84.6
    """
    check("as_is", as_is, PERCENT)
    check("moisture", moisture, MALT_MOISTURE)
    return 100.0 * as_is / (100.0 - moisture)


def as_is_of(*, dry: float, moisture: float) -> float:
    """Put a figure on dry matter on the malt as it is.

    Parameters
    ----------
    dry : float
        Share of the dry matter [%], 0 to 100.
    moisture : float
        Moisture of the malt [% of wet weight], 0 to 20.

    Returns
    -------
    float
        Share of the malt with its water in it [%].

    Raises
    ------
    OutOfRange
        When a value is outside.

    Examples
    --------
    >>> round(as_is_of(dry=84.6, moisture=4.4), 1)
    80.9
    """
    check("dry", dry, PERCENT)
    check("moisture", moisture, MALT_MOISTURE)
    return dry * (100.0 - moisture) / 100.0


def single_doubt(*, apart: float) -> float:
    """Give how far one result may lie from what many would give, by how far two may lie apart.

    Parameters
    ----------
    apart : float
        What two results stay under in 95 of 100 [any unit].

    Returns
    -------
    float
        Half of the 95 % interval of one [the same unit].

    Notes
    -----
    Two results err alike and apart: the difference spreads by the root of two.

    Examples
    --------
    >>> round(single_doubt(apart=0.116), 3)
    0.082
    """
    return apart * ONE_RESULT
