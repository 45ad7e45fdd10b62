"""The last reading of a batch against what was expected of it before it was read."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import NamedTuple

from ...asking.figures import fixed
from ...models.bed import floor
from ...models.steep.doubt import Prior
from ..batch.batch import Batch
from ..batch.bed_read import mean_temps, rounds_of
from ..batch.course import Course, course_of
from ..lines.entry import Entry
from ..lines.kinds import FLOOR, TURNINGS

_FORETOLD = ("basket", "moisture", "bed")
_READ = ("water", "air", "readiness")


_TOGETHER = timedelta(hours=1)
"""Readings of one round: none of them is older than the others."""


class Expected(NamedTuple):
    """What was expected of a reading: the middle and the band that four in five should keep, in its unit."""

    middle: float
    low: float
    high: float


class Last(NamedTuple):
    """The last reading of a batch.

    Attributes
    ----------
    entry : Entry
        Its line.
    read : float or None
        What it shows, where that is one number: moisture [% of wet weight], bottom of the piece [C].
    what : str
        ``moisture`` or ``bottom``; blank where it is neither.
    expected : Expected or None
        What was expected by the readings before it; None where nothing foretold it.
    """

    entry: Entry
    read: float | None = None
    what: str = ""
    expected: Expected | None = None

    @property
    def is_off(self) -> bool:
        """Whether it lies outside the band that was expected."""
        return (
            self.read is not None
            and self.expected is not None
            and not self.expected.low <= self.read <= self.expected.high
        )


def last_reading(batch: Batch, course: Course | str, prior: Prior, now: datetime) -> Last | None:
    """The newest reading of a batch; None where nothing was read.

    Parameters
    ----------
    batch : Batch
        The batch.
    course : Course or str
        Its steep with all readings.
    prior : Prior
        What the house's other batches say of its barley.
    now : datetime
        UTC; what is written for later is left out.
    """
    read = [entry for kinds in (_READ, _FORETOLD) for entry in batch.of(*kinds) if entry.utc <= now]
    if not read:
        return None
    newest = max(entry.utc for entry in read)
    entry = [one for one in read if newest - one.utc <= _TOGETHER][-1]  # what can be foretold goes before what cannot
    if isinstance(course, Course) and course.readings and course.readings[-1].entry.id == entry.id:
        one = course.readings[-1]
        return Last(entry, one.moisture, "moisture", _of_steep(batch, entry, one.hours, one.drained, prior))
    bottom = batch.value(entry, "bottom_c") if entry.kind == "bed" and batch.vessel == FLOOR else None
    if bottom is not None:
        return Last(entry, float(bottom), "bottom", _of_floor(batch, entry))
    return Last(entry)


def _of_steep(batch: Batch, entry: Entry, hours: float, drained: bool, prior: Prior) -> Expected | None:
    """By the course without this reading: its drained moisture then."""
    if not drained:
        return None
    before = Batch(batch.id, [one for one in batch.standing if one.id != entry.id])
    course = course_of(before, prior, entry.utc)
    if isinstance(course, str) or hours > course.best.hours:
        return None
    band = course.trust.band([hours])
    return Expected(course.best.at(hours).drained, band.low[0], band.high[0])


def _of_floor(batch: Batch, entry: Entry) -> Expected | None:
    """By the rounds before it, where the piece was read since it was last turned."""
    if batch.vessel != FLOOR or batch.cast is None:
        return None
    earlier = [one for one in batch.of("bed") if batch.cast.utc <= one.utc < entry.utc]
    turned = [one.utc for one in batch.of(*TURNINGS) if one.utc <= entry.utc]
    since = max([batch.cast.utc, *turned])
    if not earlier or earlier[-1].utc < since:
        return None
    moment = earlier[-1].utc
    before = Batch(batch.id, [one for one in batch.standing if one.utc <= moment])
    found = rounds_of(before, moment + timedelta(seconds=1))
    ahead = (entry.utc - moment).total_seconds() / 3600
    if found is None or not mean_temps(before, moment) or ahead > floor.TIMES[-1]:
        return None
    guesses = floor.fit(rounds=found[0], day=min(found[1], 30.0))
    band = floor.band([_at(guess.bottoms, ahead) for guess in guesses], [guess.weight for guess in guesses])
    return Expected(band.middle, band.low, band.high)


def _at(values: tuple[float, ...], hours: float) -> float:
    """A value between the times of a guess."""
    for n in range(1, len(floor.TIMES)):
        if floor.TIMES[n] >= hours:
            share = (hours - floor.TIMES[n - 1]) / (floor.TIMES[n] - floor.TIMES[n - 1])
            return values[n - 1] + share * (values[n] - values[n - 1])
    return values[-1]


_UNITS = {"moisture": "%", "bottom": "°C"}


def expected_words(last: Last) -> str:
    """What was expected, in a sentence; nothing where nothing was."""
    if last.expected is None:
        return ""
    unit = _UNITS[last.what]
    middle, low, high = (fixed(value, 1) for value in last.expected)
    side = "within" if not last.is_off else "under" if (last.read or 0.0) < last.expected.low else "over"
    return f"Expected {middle} {unit} ({low} to {high}): {side} what was expected."
