"""A batch in sums, which the page keeps beside its lines: what the list of batches and looking back need of it.

Lines are only ever added, so the sums of a batch hold as long as its number of lines and the last of them stay the
same.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from ...words.limits import said
from ..batch.batch import Batch, Told
from ..batch.checks import doubtful
from ..lines.kinds import LEAVES
from ..next.outside import outside
from ..next.step import Wall
from ..pages.view import said_time, shelf_cells
from .days import BatchDays, days_of
from .fits import BatchFit
from .floor_heat import BatchHeat
from .house import kept_course, kept_fit, kept_heat
from .kept import Kept, kept_of, plain_of
from .summary import FIGURES, Summary, summary_of

_MOST_READ = 20_000
"""Lines read in all to find where stops were passed: each line is told with those before it."""

_TEXTS = ("lot", "season", "vessel")
_NUMBERS = ("target_moisture", "barley_moisture")
_FIGURES = tuple(figure.id for figure in FIGURES if figure.id != "rate_factor")


def _iso(moment: datetime | None) -> str | None:
    return moment.isoformat() if moment else None


def _moment(text: str | None) -> datetime | None:
    return datetime.fromisoformat(text) if text else None


def doubts_of(batch: Batch) -> list[tuple[str, str]]:
    """What cannot be right in a batch, each with when, as looking back lists it."""
    named = {entry.id: entry for entry in batch.entries}
    first = batch.first_local
    found = []
    for doubt in doubtful(batch, kept_course(batch)):
        entry = named.get(doubt.entry)
        moment = entry.local if entry else first
        found.append((said_time(moment, year=True) if moment else "", doubt.text))
    return [*found, *_stops_passed(batch)]


def _stops_passed(batch: Batch) -> list[tuple[str, str]]:
    """Each stop at the line by which it was passed first, told as it stood then; of a long batch, by its last lines."""
    found: list[tuple[str, str]] = []
    before: set[str] = set()
    lines = batch.standing
    replayed = min(len(lines), _MOST_READ // max(1, len(lines)))
    for count in range(len(lines) - replayed + 1, len(lines) + 1):
        last = lines[count - 1]
        if last.kind == LEAVES:
            break
        then = Batch(batch.id, lines[:count], batch.read_so_far)
        stops = [line for line in outside(then, Wall(last.utc, last.zone)) if line.mark == "stop"]
        new = [line for line in stops if line.rule not in before]
        found += [(said_time(last.local, year=True), f"Past a stop: {said(line)}") for line in new]
        before = {line.rule for line in stops}
    return found


def sum_of(batch: Batch, *, deep: bool = False) -> dict[str, Any]:
    """The sums of a batch that has lines, as plain data.

    Parameters
    ----------
    batch : Batch
        The batch.
    deep : bool, optional
        Whether its fit, its heat and its doubts are worked out too, which takes a hundred times as long.

    Returns
    -------
    dict
        ``id``, ``lines`` and ``last`` say what the sums are of; the rest is for ``Brief``.
    """
    summary = summary_of(batch, None)
    days = days_of(batch)
    return {
        "id": batch.id,
        "lines": len(batch.entries),
        "last": batch.entries[-1].id,
        "begun": _iso(batch.begun),
        "first": _iso(batch.first_local),
        "ended": _iso(batch.last_utc),
        "vessel": batch.vessel,
        "finished": batch.finished,
        "texts": {name: batch.text(name) for name in _TEXTS},
        "numbers": {name: batch.number(name) for name in _NUMBERS},
        "figures": {name: getattr(summary, name) for name in _FIGURES},
        "days": {**days._asdict(), "batch": None, "ready": _iso(days.ready)} if days else None,
        "shelf": list(shelf_cells(batch)),
        "deep": plain_of(kept_fit(batch), kept_heat(batch), doubts_of(batch)) if deep else None,
    }


class Brief:
    """A batch as its sums tell it; see ``batch.Told``.

    Parameters
    ----------
    data : mapping
        As ``sum_of`` made it.
    """

    def __init__(self, data: Mapping[str, Any]) -> None:
        self._data = data
        self.id = str(data["id"])
        self.begun = _moment(data["begun"])
        self.first_local = _moment(data["first"])
        self.last_utc = datetime.fromisoformat(data["ended"])
        self.vessel = str(data["vessel"])
        self.finished = bool(data["finished"])
        self.kept: Kept | None = kept_of(data["deep"]) if data.get("deep") else None

    def text(self, question: str) -> str:
        """A text of the start, or nothing."""
        return str(self._data["texts"].get(question, ""))

    def number(self, question: str) -> float | None:
        """A number of the start, or None."""
        value = self._data["numbers"].get(question)
        return None if value is None else float(value)

    def summary(self, fit: BatchFit | None) -> Summary:
        """Its figures."""
        return Summary(self, **self._data["figures"], rate_factor=fit.rate_factor if fit else None)

    @property
    def days(self) -> BatchDays | None:
        """How long it grew."""
        days = self._data["days"]
        return BatchDays(**{**days, "batch": self, "ready": datetime.fromisoformat(days["ready"])}) if days else None


OneOf = Batch | Brief


def fitted(batch: Told) -> BatchFit | None:
    """The fit of a batch by itself, worked out or kept."""
    if isinstance(batch, Batch):
        return kept_fit(batch)
    return batch.kept.fit(batch) if isinstance(batch, Brief) and batch.kept else None


def heated(batch: Told) -> BatchHeat | None:
    """Its heat on the floor, worked out or kept."""
    if isinstance(batch, Batch):
        return kept_heat(batch)
    return batch.kept.heat(batch) if isinstance(batch, Brief) and batch.kept else None


def doubted(batch: Told) -> list[tuple[str, str]]:
    """What cannot be right in it, worked out or kept."""
    if isinstance(batch, Batch):
        return doubts_of(batch)
    return batch.kept.doubts if isinstance(batch, Brief) and batch.kept else []


def grown(batch: OneOf) -> BatchDays | None:
    """How long it grew, worked out or kept."""
    return days_of(batch) if isinstance(batch, Batch) else batch.days


def summed(batch: OneOf, fit: BatchFit | None) -> Summary:
    """Its figures, worked out or kept."""
    return summary_of(batch, fit) if isinstance(batch, Batch) else batch.summary(fit)
