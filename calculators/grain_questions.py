"""Questions that the sheets on grain tests share; their defaults are the edges of the table of limits."""

from __future__ import annotations

from .figures import plain_number
from .models.limits import Limits
from .questions import number
from .rules.limits.germination_test import CAPACITY, ENERGY

energy_limit_percent = number(
    "energy_limit_percent",
    "Least energy wanted",
    "%",
    Limits(50.0, 100.0),
    "The house’s limit.",
    default=plain_number(ENERGY.accept_low or 0.0),
    source="Montana State University (read)",
)
capacity_limit_percent = number(
    "capacity_limit_percent",
    "Least capacity wanted",
    "%",
    Limits(50.0, 100.0),
    "The house’s limit.",
    default=plain_number(CAPACITY.accept_low or 0.0),
    source="Maltsters’ Association of Great Britain (read)",
)
capacity_reject_percent = number(
    "capacity_reject_percent",
    "Capacity never under",
    "%",
    Limits(50.0, 100.0),
    "Between this and the capacity wanted lies a grey band.",
    default=plain_number(CAPACITY.stop_low or 0.0),
    source="Montana State University (read)",
)
