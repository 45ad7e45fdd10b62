"""What green malt weighs at the kiln's door, against the barley that went in."""

from __future__ import annotations

from ..asking.figures import fixed
from ..drawing.chart import Data
from ..models.weights.moisture import weight_after
from ..rules.kiln_door import LOST

BARLEY_MOISTURE = 12.0
_MOST_FIRST = LOST.high, LOST.low
MOISTURES = (40.0, 42.0, 45.0)

GREEN_MALT_CAPTION = (
    f"Weight of green malt, times the barley that went in at {fixed(BARLEY_MOISTURE, 0)} %, by the dry matter lost on "
    "the way (computed)"
)


def times_the_barley(*, green_moisture: float, dry_matter_lost: float) -> float:
    """Give the weight of green malt for each kilogram of barley at 12 %.

    Parameters
    ----------
    green_moisture : float
        Moisture of the green malt, % of wet weight.
    dry_matter_lost : float
        Dry matter leached, breathed and rubbed off since the barley, %.

    Returns
    -------
    float
        Weight over weight.

    Raises
    ------
    OutOfRange
        When the moisture is not from 0 to 99 % or more than 30 % is said to be lost.

    Examples
    --------
    >>> round(times_the_barley(green_moisture=45.0, dry_matter_lost=6.0), 2)
    1.5
    """
    return weight_after(
        weight_kg=1.0, moisture=BARLEY_MOISTURE, new_moisture=green_moisture, dry_matter_lost=dry_matter_lost
    )


def green_malt() -> Data:
    """Give the table: moistures down, losses across."""
    rows = tuple(
        (
            f"{fixed(moisture, 0)} %",
            *(fixed(times_the_barley(green_moisture=moisture, dry_matter_lost=lost), 2) for lost in _MOST_FIRST),
        )
        for moisture in MOISTURES
    )
    return Data(("Moisture of the green malt", *(f"{fixed(lost, 0)} % lost" for lost in _MOST_FIRST)), rows)
