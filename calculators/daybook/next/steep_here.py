"""A batch in the steep as it stands, and what its basket should read at a moment."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import NamedTuple

from ...asking.figures import fixed, plain_number
from ...models.bounds import OutOfRange
from ...models.steep.course import Steep
from ...models.steep.doubt import Trust
from ...models.weights.basket import basket_gross
from ...rules.limit import SHIFT_LEAD, edge
from ...rules.limits.steeping import IMMERSION, REST
from ...rules.sensitive import longest_for, rest_for
from ...rules.steep_order import ACCEPTED_H, DRAINS
from ...words.limits import at_edge
from ..batch.batch import LEACHED, Batch, Spell
from ..batch.course import Course, open_until
from .step import Wall

THE_STOP = f"the stop is over {at_edge(IMMERSION, 'stop_high')} in one immersion"
TELL = f"Tell {SHIFT_LEAD}."
NEAR = timedelta(minutes=5)


class Open(NamedTuple):
    """The course up to the stage that is open, which is its last, with its doubt."""

    course: Steep
    trust: Trust

    @property
    def moisture(self) -> float:
        """Drained moisture at the end of it [%]."""
        return self.course.ends[-1].drained

    @property
    def band(self) -> tuple[float, float]:
        """The band of that [%]."""
        band = self.trust.band([self.course.hours])
        return band.low[0], band.high[0]


class Here(NamedTuple):
    """A batch in the steep as it stands.

    ``number`` is that of the immersion under way, or of the last one; ``planned_h`` are the plan's hours of the open
    stage [h], or None; ``last`` is true where the plan has nothing more, or without a plan from the third immersion on.
    """

    batch: Batch
    known: Course | str
    wall: Wall
    spell: Spell
    number: int
    planned_h: float | None
    last: bool

    @property
    def now(self) -> datetime:
        """Now, or the time of the newest line where there is no clock."""
        return self.wall.now or self.batch.standing[-1].utc

    @property
    def target(self) -> float | None:
        """Moisture wanted at the end [%]."""
        return self.batch.number("target_moisture")

    @property
    def planned(self) -> datetime | None:
        """When the open stage ends by the plan."""
        return None if self.planned_h is None else self.after(self.planned_h)

    @property
    def rest_wanted_h(self) -> float:
        """The shortest rest that this barley is given [h]."""
        return max(edge(REST.accept_low), rest_for(water_sensitivity=self.batch.number("water_sensitivity") or 0.0))

    @property
    def accepted_h(self) -> float:
        """The longest immersion that is accepted of this barley [h]."""
        points = self.batch.number("water_sensitivity") or 0.0
        return min(ACCEPTED_H, longest_for(water_sensitivity=points))

    def after(self, hours: float) -> datetime:
        """A moment so many hours into the open stage."""
        return self.spell.begun + timedelta(hours=hours)

    def time(self, hours: float) -> str:
        """The same, as it is said."""
        return self.wall.time(self.after(hours))

    def open(self, moment: datetime) -> Open | None:
        """The course with the open stage lasting until a moment; None where the model cannot follow it."""
        if isinstance(self.known, str):
            return None
        found = open_until(self.known, self.batch, self.spell, moment)
        return Open(*found) if found else None


def here_of(batch: Batch, course: Course | str, wall: Wall) -> Here:
    """The batch as it stands; the last of its spells is open."""
    number = sum(one.wet for one in batch.spells)
    plan = [hours for hours, _ in batch.plan]
    place = len(batch.spells)
    planned = plan[place - 1] if place <= len(plan) else None
    last = place >= len(plan) if plan else number > len(DRAINS)
    return Here(batch, course, wall, batch.spells[-1], number, planned, last)


def hours_said(hours: float) -> str:
    """Hours as they are said: ``8``, ``5.5``."""
    return plain_number(round(hours, 1))


def grams(batch: Batch, moisture: float) -> float | None:
    """What the drained basket weighs at a moisture [g], where its tare is known."""
    basket, sample = batch.tare()
    own = batch.number("barley_moisture")
    if basket is None or sample is None or own is None:
        return None
    try:
        return basket_gross(
            moisture=moisture, basket_g=basket, sample_g=sample, barley_moisture=own, dry_matter_lost=LEACHED
        )
    except OutOfRange:
        return None


def reads(here: Here, moment: datetime, when: str = "") -> str:
    """What the basket should read at a moment, with its band; the moisture where its tare is not known.

    A drain that was due is past: the weight is then that of now.
    """
    if not when and here.wall.late(moment):
        moment, when = here.now, "By now"
    there = here.open(moment)
    if there is None:
        return ""
    low, high = there.band
    weights = [grams(here.batch, value) for value in (there.moisture, low, high)]
    known = [fixed(value, 0) for value in weights if value is not None]
    percent = f"{fixed(there.moisture, 0)} %"
    if len(known) < len(weights):
        return f"{when + ' it' if when else 'It'} should hold {percent} drained ({fixed(low, 0)} to {fixed(high, 0)})."
    subject = f"{when} the basket" if when else "The basket"
    return f"{subject} should read {known[0]} g ({known[1]} to {known[2]}), which is {percent}."
