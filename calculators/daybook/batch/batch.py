"""One batch out of its entries: its stages, its readings, its bed and its end."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from functools import cached_property
from typing import Any, NamedTuple, Protocol

from ...asking.declare import Values
from ...asking.reading import Problem
from ...models.bounds import OutOfRange
from ...models.weights.basket import basket_moisture
from ...rules.limits.casting import MOISTURE
from ...rules.lines import Line, passed
from ...words.questions.shared import dry_matter_lost
from ..lines.entry import Entry, in_order, read_values, standing
from ..lines.kinds import BOX, DRAINED, DRUM, FILLED, FLOOR, QUICK, REST, WET

LEACHED = float(dry_matter_lost.default)
"""Dry matter that the steep water takes, % of it, for every basket of the book."""


class Spell(NamedTuple):
    """One immersion or one rest as it was: when, and the water temperatures read in it [C]."""

    wet: bool
    begun: datetime
    ended: datetime | None
    temps: tuple[float, ...]


class Reading(NamedTuple):
    """One moisture found in the steep: hours from the start [h], % of wet weight, and the entry it is from."""

    hours: float
    moisture: float
    drained: bool
    entry: Entry


class Told(Protocol):
    """What is asked of a batch where many lie side by side: of its lines, or of the sums that were kept of them."""

    @property
    def id(self) -> str:
        """Its number."""

    @property
    def begun(self) -> datetime | None:
        """When the water first covered it, UTC."""

    @property
    def first_local(self) -> datetime | None:
        """When its first line that counts was, on the wall."""

    @property
    def last_utc(self) -> datetime:
        """When its last line was, UTC."""

    @property
    def vessel(self) -> str:
        """Where it grows: ``floor`` or ``drum``."""

    @property
    def finished(self) -> bool:
        """Whether it has gone to the kiln."""

    def number(self, question: str) -> float | None:
        """A number of the start, or None."""

    def text(self, question: str) -> str:
        """A text of the start, or nothing."""


Reads = dict[str, tuple[Entry, Values, list[Problem]]]


class Batch:
    """A batch as its entries tell it.

    Parameters
    ----------
    id : str
        Its number.
    entries : sequence of Entry
        All its entries in the order of writing.
    read : dict, optional
        What was read of its entries before, by their ids; entries never change, so it is not read again.

    Attributes
    ----------
    standing : list of Entry
        Those that count, in the order of the work.
    start : dict
        The values of its start, read; empty when none was written.
    spells : list of Spell
        Immersions and rests, the first one an immersion; the last one may be open.
    """

    def __init__(self, id: str, entries: Sequence[Entry], read: Reads | None = None) -> None:
        self.id = id
        self.entries = list(entries)
        self.standing = standing(self.entries)
        self._read: Reads = {} if read is None else read
        starts = self.of("start")
        self.start: Values = self.values(starts[-1]) if starts else {}
        casts, leavings = self.of("cast"), self.of("to-kiln")
        self.cast: Entry | None = casts[-1] if casts else None
        self.left: Entry | None = leavings[-1] if leavings else None
        self.spells = _spells(self)

    @property
    def read_so_far(self) -> Reads:
        """What was read of its entries: another batch of the same entries need not read them again."""
        return self._read

    def of(self, *kinds: str) -> list[Entry]:
        """The entries of these kinds that count, in the order of the work."""
        return [entry for entry in self.standing if entry.kind in kinds]

    def values(self, entry: Entry) -> Values:
        """The values of an entry by question, read when first asked for; None where nothing can be read."""
        return self._once(entry)[1]

    def _once(self, entry: Entry) -> tuple[Entry, Values, list[Problem]]:
        known = self._read.get(entry.id)
        if known is None or known[0].values != entry.values or known[0].kind != entry.kind:
            known = self._read[entry.id] = (entry, *read_values(entry))
        return known

    def value(self, entry: Entry, question: str) -> Any:
        """What an entry says to a question, read; None when it says nothing that can be read."""
        return self.values(entry).get(question)

    @cached_property
    def problems(self) -> dict[str, list[Problem]]:
        """What is to be put right, by the id of the entry, among those that count."""
        return self.problems_of(self.standing)

    def problems_of(self, entries: Sequence[Entry]) -> dict[str, list[Problem]]:
        """The same of some of its entries."""
        counted = [(entry.id, self._once(entry)[2]) for entry in entries]
        return {name: found for name, found in counted if found}

    def number(self, question: str) -> float | None:
        """A number of the start, or None."""
        found = self.start.get(question)
        return float(found) if isinstance(found, (int, float)) else None

    @property
    def plan(self) -> list[tuple[float, float | None]]:
        """The plan of the steep from its first wetting, as it was changed last: hours [h] and water [C], by turns."""
        changed = [self.value(one, "stages") for one in self.of("plan")]
        rows = next((rows for rows in reversed(changed) if rows), None) or self.start.get("stages") or ()
        return [(float(hours), None if temp is None else float(temp)) for hours, temp in rows]

    def text(self, question: str) -> str:
        """A text of the start, or nothing."""
        found = self.start.get(question)
        return found if isinstance(found, str) else ""

    @property
    def vessel(self) -> str:
        """How it is aired: ``floor``, or ``drum`` for a drum and a box, in which air is blown through the bed."""
        return DRUM if self.start.get("vessel") in (DRUM, BOX) else FLOOR

    @property
    def in_box(self) -> bool:
        """Whether it grows in a box: what is turned there is the bed, by screws."""
        return self.start.get("vessel") == BOX

    @property
    def begun(self) -> datetime | None:
        """When the water first covered it, UTC."""
        return self.spells[0].begun if self.spells else None

    @property
    def first_local(self) -> datetime | None:
        """When its first line that counts was, on the wall."""
        return self.standing[0].local if self.standing else None

    @property
    def last_utc(self) -> datetime:
        """When its last line was, UTC."""
        return self.entries[-1].utc

    @property
    def finished(self) -> bool:
        """Whether it has gone to the kiln."""
        return self.left is not None

    def hours_at(self, moment: datetime) -> float:
        """Hours from the start of the steep to a moment [h]; 0 when it has not begun."""
        return (moment - self.begun).total_seconds() / 3600.0 if self.begun else 0.0

    def tare(self, entry: Entry | None = None) -> tuple[float | None, float | None]:
        """The empty basket and the barley weighed into it [g], as they count for a weighing; for now without one.

        What was written with the weighing counts, then what was written with the last one before it, then the start,
        then what was written first with a later one: nobody weighs an empty basket twice in a steep.
        """
        weighings = self.of("basket")
        before = [one for one in weighings if entry is None or one.utc <= entry.utc]
        if entry in before:
            before = [*before[: before.index(entry)], entry]
        after = [one for one in weighings if one not in before]

        def grams(name: str) -> float | None:
            written = [self.value(one, name) for one in reversed(before)]
            written += [self.number(name), *(self.value(one, name) for one in after)]
            return next((float(value) for value in written if value is not None), None)

        return grams("basket_g"), grams("sample_g")

    def basket(self, entry: Entry) -> float | None:
        """Moisture that a weighing of the basket shows, % of wet weight as weighed, or None."""
        gross, own = self.value(entry, "gross_g"), self.number("barley_moisture")
        basket, sample = self.tare(entry)
        if gross is None or own is None or basket is None or sample is None:
            return None
        try:
            return basket_moisture(
                gross_g=gross,
                basket_g=basket,
                sample_g=sample,
                barley_moisture=own,
                dry_matter_lost=LEACHED,
            )
        except OutOfRange:
            return None

    @property
    def cast_line(self) -> Line | None:
        """The limit of the moisture that it was cast with, by the cast or the last drained reading, if it passed it."""
        drained = [one.moisture for one in self.readings if one.drained and not self.is_too_dry(one.moisture)]
        own = self.value(self.cast, "moisture") if self.cast else None
        own = None if own is None or self.is_too_dry(own) else own
        return passed(MOISTURE, own if own is not None else drained[-1] if self.cast and drained else None)

    def is_too_dry(self, moisture: float) -> bool:
        """Whether a moisture [%] is less than the barley's own: nothing that was wetted is, so it is not counted."""
        own = self.number("barley_moisture")
        return own is not None and moisture < own

    @property
    def too_dry(self) -> Entry | None:
        """The last moisture found, if no grain that was wetted can be so dry; a newer one that can be is the answer."""
        found = [one for one in self.of("moisture", "cast") if self.begun is not None and one.utc >= self.begun]
        read = [(one, value) for one in found if (value := self.value(one, "moisture")) is not None]
        return read[-1][0] if read and self.is_too_dry(read[-1][1]) else None

    def outdone(self, entry: Entry) -> bool:
        """Whether a quick moisture has the oven's answer within the hour: then the oven's counts, and not both."""
        return entry.kind == "moisture" and self.value(entry, "method") == QUICK and self.oven_beside(entry) is not None

    def oven_beside(self, entry: Entry) -> Entry | None:
        """The oven's line of the same hour, if there is one."""
        near = [
            one
            for one in self.of("moisture")
            if self.value(one, "method") == "oven" and abs((one.utc - entry.utc).total_seconds()) <= 3600.0
        ]
        return min(near, key=lambda one: abs((one.utc - entry.utc).total_seconds())) if near else None

    @cached_property
    def readings(self) -> list[Reading]:
        """The moistures found in the steep, up to the cast."""
        found = []
        for entry in self.of("basket", "moisture", "cast"):
            if self.begun is None or entry.utc < self.begun or (self.cast and entry.utc > self.cast.utc):
                continue
            if entry.kind == "basket":
                moisture, drained = self.basket(entry), self.value(entry, "drained") == "drained"
            elif self.value(entry, "method") == "hand" or self.outdone(entry):
                continue
            else:
                # A sample is dried as it was taken, with the water that clings to it.
                moisture, drained = self.value(entry, "moisture"), True
            if moisture is not None:
                found.append(Reading(self.hours_at(entry.utc), moisture, drained, entry))
        return found


def _changes(batch: Batch) -> list[tuple[Entry, bool]]:
    """When the water came on (True) and off (False)."""
    changes = []
    for entry in batch.of("stage-begun", "stage-ended"):
        word = batch.value(entry, "stage" if entry.kind == "stage-begun" else "ended")
        if word in (WET, FILLED):
            changes.append((entry, True))
        elif word in (REST, DRAINED):
            changes.append((entry, False))
    return changes


def _spells(batch: Batch) -> list[Spell]:
    """Immersions and rests by turns; a rest before the first water is none."""
    edges: list[tuple[datetime, bool]] = []
    over = batch.cast.utc if batch.cast else None
    for entry, wet in _changes(batch):
        if over and entry.utc > over:
            continue
        if edges and edges[-1][1] == wet:
            continue  # said twice, or a rest written after the drain that began it
        if edges or wet:
            edges.append((entry.utc, wet))
    temps: list[list[float]] = [[] for _ in edges]
    for entry in batch.of("stage-begun", "water"):
        temp = batch.value(entry, "water_temp_c")
        inside = [n for n, edge in enumerate(edges) if edge[0] <= entry.utc]
        if temp is not None and inside and edges[inside[-1]][1] and not (over and entry.utc > over):
            temps[inside[-1]].append(temp)
    ends: list[datetime | None] = [edge[0] for edge in edges[1:]]
    ends.append(over)
    return [Spell(wet, moment, end, tuple(read)) for (moment, wet), end, read in zip(edges, ends, temps, strict=False)]


def by_batch(entries: Iterable[Entry]) -> dict[str, list[Entry]]:
    """The entries of each batch, in the order of writing, the batch begun last coming last."""
    groups: dict[str, list[Entry]] = {}
    for entry in entries:
        groups.setdefault(entry.batch, []).append(entry)
    return groups


def batches_of(raws: Iterable[Mapping[str, Any]]) -> list[Batch]:
    """Every batch of a book, in the order in which they were first written."""
    return [Batch(name, entries) for name, entries in by_batch(in_order(raws)).items()]
