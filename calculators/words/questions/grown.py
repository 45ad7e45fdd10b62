"""How long and how warm a batch grew: what the one law needs to tell its loss."""

from __future__ import annotations

from ...models.living.bed_days import DAYS
from ...models.living.ready import BED_C
from .shared import number

grown_days = number("grown_days", "Days grown", "days", DAYS, "From the cast to now, or to the kiln.")
bed_temp_c = number(
    "bed_temp_c", "Bed temperature", "C", BED_C, "Mean of the whole time on the floor, in the drum or in the box."
)
