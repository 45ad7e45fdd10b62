"""What a next step is made of, and the clock on the wall."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise
from typing import NamedTuple

from ...asking.clocks import Clocks
from ...asking.declare import Note
from ...asking.figures import clock_words

PAST_A_STOP = "Past a stop"
"""How a step begins that must not wait."""


class Step(NamedTuple):
    """What comes next: a sentence, its moment (UTC), more sentences, notes, and the kinds of entry it leads to."""

    text: str
    at: datetime | None
    more: tuple[str, ...]
    notes: tuple[Note, ...]
    likely: tuple[str, ...]

    @property
    def is_stop(self) -> bool:
        """Whether a stop has been passed, or will be by what is planned."""
        return self.text.startswith(PAST_A_STOP)


class Wall(NamedTuple):
    """The clock on the wall: now (UTC, when it is known), minutes east of UTC now, and when the clocks are changed.

    ``clocks`` are moments (UTC), the earliest first, each with the minutes east of UTC that hold from then on; the
    first is the earliest moment that there is. Without them the clocks are never changed.
    """

    now: datetime | None
    zone: int
    clocks: Clocks = ()

    def zone_at(self, moment: datetime) -> int:
        """Minutes east of UTC at a moment (UTC)."""
        return next((zone for since, zone in reversed(self.clocks) if since <= moment), self.zone)

    def local(self, moment: datetime) -> datetime:
        """What the clock on the wall shows at a moment (UTC)."""
        return moment + timedelta(minutes=self.zone_at(moment))

    def moment(self, local: datetime) -> datetime:
        """The moment (UTC) at which the wall shows a time: the earlier where an hour comes twice.

        An hour that is left out in spring is read by a clock that nobody has put forward.
        """
        shown = [local - timedelta(minutes=zone) for zone in {self.zone, *(zone for _, zone in self.clocks)}]
        return min((one for one in shown if self.local(one) == local), default=max(shown))

    def time(self, moment: datetime) -> str:
        """A moment as it is said: ``14:10`` today, ``Thu 26 Nov 02:10`` on another day, and which of two."""
        local = self.local(moment) + timedelta(seconds=30)
        today = self.local(self.now).date() if self.now else None
        return (f"{local:%H:%M}" if local.date() == today else clock_words(local)) + self._which(moment)

    def _which(self, moment: datetime) -> str:
        """Which of two it is, in the hour that comes twice when the clocks are put back."""
        for (_, before), (since, zone) in pairwise(self.clocks):
            twice = timedelta(minutes=before - zone)
            if since - twice <= moment < since:
                return " (the first time, before the clocks are put back)"
            if since <= moment < since + twice:
                return " (the second time, the clocks put back)"
        return ""

    def changes(self, moment: datetime) -> tuple[tuple[float, float], ...]:
        """When the clocks are changed after a moment (UTC): in how many hours, and by how many."""
        found = []
        for (_, before), (since, zone) in pairwise(self.clocks):
            if since > moment:
                found.append(((since - moment).total_seconds() / 3600, (zone - before) / 60))
        return tuple(found)

    def late(self, moment: datetime) -> bool:
        """Whether a moment lies more than five minutes back."""
        return self.now is not None and self.now > moment + timedelta(minutes=5)
