"""How grain is dried in an oven, and what the limit of two dishes rests on, in words."""

from typing import NamedTuple

from ..asking.figures import plain_number
from ..models.weights.oven import REPEATABILITY


class Method(NamedTuple):
    """One way of drying: how it is done, and what the limit for its dishes rests on."""

    how: str
    rests_on: str


METHODS = {
    "dry_barley": Method(
        "ground, 5 g, 2 h at 130 to 133 °C",
        "the method: Regulation (EU) 1272/2009, annex I part VI (read), as in ISO 712; the "
        f"{plain_number(REPEATABILITY['dry_barley'])} points: from memory",
    ),
    "steeped_corn": Method(
        "whole corns, 130 °C overnight, 100 g where the dish allows",
        "our judgement: a dish of 10 g holds some 130 corns, each a point or two wetter or "
        "drier than the next; 0.2 points is asked of dry grain dried whole after ASAE S352.2 "
        "(Purdue University, course on grain moisture, read)",
    ),
    "green_malt": Method(
        "whole corns with their rootlets, 130 °C overnight, 100 g where the dish allows",
        "our judgement, as for steeped corn",
    ),
}
"""By material, as :data:`REPEATABILITY`."""
