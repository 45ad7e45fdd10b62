"""The days that a batch takes in this house, as a question, and the temperature that they stand for."""

from __future__ import annotations

from ...asking.figures import plain_number
from ...models.living import ready
from ...rules.conventions import READY_AT_C, READY_DAYS
from .shared import number

reference_temp_c = number(
    "reference_temp_c",
    "Your usual temperature",
    "C",
    ready.REFERENCE_C,
    f"At which your days were counted. Blank with them: {plain_number(READY_AT_C)}.",
    example=plain_number(READY_AT_C),
)._replace(optional=True, in_view=True)
reference_days = number(
    "reference_days",
    "Days it takes there",
    "days",
    ready.REFERENCE_DAYS,
    f"From the cast to ready, from your own batches. Blank: a usual {plain_number(READY_DAYS)}, well doubted.",
    example=plain_number(READY_DAYS),
)._replace(optional=True, in_view=True)
