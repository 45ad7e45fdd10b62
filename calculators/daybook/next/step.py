"""What a next step is made of, and the clock on the wall."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import NamedTuple

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
    """The clock on the wall: now (UTC, when it is known) and minutes east of UTC."""

    now: datetime | None
    zone: int

    def time(self, moment: datetime) -> str:
        """A moment as it is said: ``14:10`` today, ``Thu 26 Nov 02:10`` on another day."""
        local = moment + timedelta(minutes=self.zone, seconds=30)
        today = (self.now + timedelta(minutes=self.zone)).date() if self.now else None
        return f"{local:%H:%M}" if local.date() == today else clock_words(local)

    def late(self, moment: datetime) -> bool:
        """Whether a moment lies more than five minutes back."""
        return self.now is not None and self.now > moment + timedelta(minutes=5)
