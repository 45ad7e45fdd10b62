"""The dry matter that a batch has lost by the one law, and how that is said."""

from __future__ import annotations

from typing import NamedTuple

from ..asking.figures import carried, plain_number
from ..models.living.bed_days import AT_CAST_PERCENT, breathed_away
from ..models.living.breathing import SOONEST_FACTOR

LAW = "the one law of breathing, by days and warmth at the usual moisture"
TRUST = (
    "The loss to a factor of 2.2 either way: old floors ask for half of the law, warm boxes for nearly twice. Rootlets "
    "are still on, and count as dry matter kept."
)


class Lost(NamedTuple):
    """Dry matter lost since the barley was filled in [% of its own], by the law and at both ends of its doubt."""

    percent: float
    low: float
    high: float
    breathed: float  # of what was cast [%]

    @property
    def working(self) -> str:
        """How the loss so far came about: what was leached and what was breathed."""
        return (
            f"100 − (100 − {plain_number(AT_CAST_PERCENT)} by the cast) × (1 − {carried(self.breathed)}/100 breathed) "
            f"= {carried(self.percent)} %"
        )


def lost_by(*, days: float, temp_c: float) -> Lost:
    """The loss of a batch that grew so many days at a temperature."""
    shares = [breathed_away(days=days, temp_c=temp_c, factor=by) for by in (1.0, 1.0 / SOONEST_FACTOR, SOONEST_FACTOR)]
    totals = [100.0 - (100.0 - AT_CAST_PERCENT) * (1.0 - share / 100.0) for share in shares]
    return Lost(totals[0], totals[1], totals[2], shares[0])
