"""What a basket of barley can weigh, and what is said of a weight that does not fit it."""

from __future__ import annotations

from ..asking.figures import limits_said, plain_number
from ..models.bounds import STEEPED_MOISTURE
from ..models.weights.basket import basket_gross


def does_not_fit(
    gross_g: float, *, basket_g: float, sample_g: float, barley_moisture: float, dry_matter_lost: float
) -> str:
    """What is wrong with the weight of a basket that was wetted, and what it can be; nothing when it fits."""
    least, most = (
        basket_gross(
            moisture=at,
            basket_g=basket_g,
            sample_g=sample_g,
            barley_moisture=barley_moisture,
            dry_matter_lost=dry_matter_lost,
        )
        for at in (barley_moisture, STEEPED_MOISTURE.high)
    )
    if least * (1 - 1e-9) <= gross_g <= most * (1 + 1e-9):
        return ""
    low, high = limits_said(least, most)
    return (
        f"{plain_number(gross_g)} g does not fit this basket. At {low} g its barley would be as dry as it came, at "
        f"{high} g it would hold {plain_number(STEEPED_MOISTURE.high)} %. Type a number from {low} to {high} g, "
        "or check the basket and the barley in it."
    )
