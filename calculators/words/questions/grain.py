"""Questions that the sheets on grain tests share; their defaults are the edges of the table of limits."""

from __future__ import annotations

from ...asking.figures import plain_number
from ...models.bounds import Bounds
from ...rules.limit import edge
from ...rules.limits.germination_test import CAPACITY, ENERGY
from .shared import number

energy_limit_percent = number(
    "energy_limit_percent",
    "Least energy wanted",
    "%",
    Bounds(50.0, 100.0),
    "The house’s limit.",
    default=plain_number(edge(ENERGY.accept_low)),
    source="Montana State University (read)",
)
capacity_limit_percent = number(
    "capacity_limit_percent",
    "Least capacity wanted",
    "%",
    Bounds(50.0, 100.0),
    "The house’s limit.",
    default=plain_number(edge(CAPACITY.accept_low)),
    source="Maltsters’ Association of Great Britain (read)",
)
capacity_reject_percent = number(
    "capacity_reject_percent",
    "Capacity never under",
    "%",
    Bounds(50.0, 100.0),
    "Between this and the capacity wanted lies a grey band.",
    default=plain_number(edge(CAPACITY.stop_low)),
    source="Montana State University (read)",
)
