"""The most barley that has room, as it is shown: what is shown is taken when it is typed."""

from __future__ import annotations

from math import floor

SLACK = 1.0 + 1e-9
"""What the last bits of a sum may be over a limit: the most itself still fits."""


def most_shown(most_kg: float) -> float:
    """The most that fits [kg], rounded down to whole kilograms.

    >>> most_shown(7277.98), most_shown(0.4)
    (7277.0, 0.0)
    """
    return float(floor(most_kg))


def most_said(most_kg: float, fits: str, none: str) -> str:
    """Words with the most that fits, or those for a vessel that does not hold a kilogram.

    Parameters
    ----------
    most_kg : float
        As worked out [kg].
    fits : str
        With ``{}`` where the figure stands.
    none : str
        Where it is less than a kilogram.

    >>> most_said(13508.6, "At most {} kg fit.", "Not even a kilogram fits.")
    'At most 13508 kg fit.'
    """
    shown = most_shown(most_kg)
    return fits.format(f"{shown:.0f}") if shown else none
