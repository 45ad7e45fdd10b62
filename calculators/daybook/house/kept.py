"""Fits and heats as plain data, so that the page can keep them beside the lines that they were made of."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from ..batch.batch import Told
from .fits import BatchFit
from .floor_heat import BatchHeat


class Kept(NamedTuple):
    """What took long to work out of a batch; None where it has no such thing. ``doubts`` are (when, what)."""

    fitted: Mapping[str, Any] | None
    heated: Mapping[str, Any] | None
    doubts: list[tuple[str, str]]

    def fit(self, batch: Told) -> BatchFit | None:
        """The fit of the batch by itself."""
        return BatchFit(batch, **self.fitted) if self.fitted else None

    def heat(self, batch: Told) -> BatchHeat | None:
        """Its heat on the floor."""
        return BatchHeat(batch, **self.heated) if self.heated else None


def plain_of(fit: BatchFit | None, heat: BatchHeat | None, doubts: list[tuple[str, str]]) -> dict[str, Any]:
    """The same as plain data."""
    without = [{**one._asdict(), "batch": None} if one else None for one in (fit, heat)]
    for one in without:
        if one:
            del one["batch"]
    return {"fit": without[0], "heat": without[1], "doubts": doubts}


def kept_of(data: Mapping[str, Any]) -> Kept:
    """Back from plain data."""
    return Kept(data["fit"], data["heat"], [(str(when), str(what)) for when, what in data["doubts"]])
