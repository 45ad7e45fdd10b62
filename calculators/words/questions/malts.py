"""The malt that is made of a batch, as a question."""

from __future__ import annotations

from ...asking.declare import Choice, Option
from ...rules.malts import malts

malt = Choice(
    "malt",
    "Malt that is made",
    tuple(Option(row.id, row.name) for row in malts()),
    hint="Its row in the table by malt then gives the target. The target is shown.",
    optional=True,
    in_view=True,
)
