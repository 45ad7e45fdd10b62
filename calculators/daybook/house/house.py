"""The house's fits for one batch of a book: found among its other batches, and kept while the page stays open."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple, TypeVar

from ...models.steep.doubt import TYPICAL_BARLEY, Prior
from ..batch.at_hand import House
from ..batch.batch import Batch, Reads, by_batch
from ..batch.course import Course, course_of
from ..lines.entry import Entry, in_order
from ..lines.kinds import FLOOR
from .days import BatchDays, average, days_of
from .fits import FEWEST_LOTS, BatchFit, fit_of, fits_before, for_a_sheet, lot_of, lot_prior, prior_for
from .floor_heat import BatchHeat, heat_of
from .floor_heat import average as average_heat
from .kept import Kept, kept_of

_SAME_LOT, _OTHERS, _FINISHED, _FLOORS = 6, 3, 10, 5
"""So many batches are looked at for one: the last ones of its lot, of other lots, and those that were finished."""
_MOST_KEPT, _MOST_LOOKED_AT = 500, 60

_Key = tuple[str, int, str]
_Kept = TypeVar("_Kept")
_told: dict[_Key, Kept] = {}
_reads: dict[str, Reads] = {}
_batches: dict[_Key, Batch] = {}
_courses: dict[_Key, Course | str] = {}
_heats: dict[_Key, BatchHeat | None] = {}


class Known(NamedTuple):
    """What the house knows of a batch before it is weighed: for the course, for the sheets, and from how many."""

    prior: Prior
    house: House
    same: int
    others: int


NOTHING = Known(TYPICAL_BARLEY, House(), 0, 0)
"""What is known without looking at other batches."""


def _key(name: str, entries: Sequence[Entry]) -> _Key:
    """What names a batch as it stands: entries never change, so its number of lines and the last one do."""
    return (name, len(entries), entries[-1].id)


def _once(kept: dict[_Key, _Kept], key: _Key, make: Callable[[], _Kept]) -> _Kept:
    """What was made for a key, made at the first time it is asked for; all is let go when there is too much."""
    if key not in kept:
        if len(kept) > _MOST_KEPT:
            kept.clear()
        kept[key] = make()
    return kept[key]


def read_batch(name: str, entries: Sequence[Entry]) -> Batch:
    """A batch; of the one that was read last, what its lines say is not read again."""
    if name not in _reads:
        _reads.clear()
    return Batch(name, entries, _reads.setdefault(name, {}))


def kept_batch(name: str, entries: Sequence[Entry]) -> Batch:
    """A batch, read once."""
    return _once(_batches, _key(name, entries), lambda: Batch(name, entries))


def kept_course(batch: Batch) -> Course | str:
    """The steep of a batch by its own readings, worked out once."""
    return _once(_courses, _key(batch.id, batch.entries), lambda: course_of(batch))


def take_kept(sums: Iterable[Mapping[str, Any]]) -> None:
    """Take over what the page has kept of batches since it was worked out: their fits and heats.

    Parameters
    ----------
    sums : iterable of dict
        As ``sums.sum_of`` made them; those that hold no fits are left out.
    """
    for one in sums:
        if one.get("deep"):
            if len(_told) > _MOST_KEPT:
                _told.clear()
            _told[str(one["id"]), int(one["lines"]), str(one["last"])] = kept_of(one["deep"])


def kept_fit(batch: Batch) -> BatchFit | None:
    """The fit of a batch by itself."""
    told = _told.get(_key(batch.id, batch.entries)) if batch.entries else None
    if told:
        return told.fit(batch)
    return fit_of(batch, kept_course(batch))


def kept_heat(batch: Batch) -> BatchHeat | None:
    """The heat of a batch on the floor, worked out once."""
    key = _key(batch.id, batch.entries)
    if key in _told:
        return _told[key].heat(batch)
    return _once(_heats, key, lambda: heat_of(batch))


def book_of(raws: Iterable[Mapping[str, Any]]) -> dict[str, list[Entry]]:
    """The lines of a book by batch."""
    return by_batch(in_order(raws))


def _before(batch: Batch, book: Mapping[str, list[Entry]]) -> Iterator[Batch]:
    """The batches begun before one, the last one first."""
    begun = batch.begun or (batch.standing[-1].utc if batch.standing else None)
    others = [(entries[0].utc, name) for name, entries in book.items() if name != batch.id]
    for _, name in sorted(others, reverse=True):
        other = kept_batch(name, book[name])
        if other.begun is not None and (begun is None or other.begun < begun):
            yield other


def known_of(batch: Batch, book: Mapping[str, list[Entry]]) -> Known:
    """What the other batches of a book say of one that comes after them."""
    lot = lot_of(batch)
    same: list[Batch] = []
    others: list[Batch] = []
    finished: list[BatchDays] = []
    floors: list[BatchHeat] = []
    growing = batch.vessel == FLOOR and batch.cast is not None and batch.left is None
    for looked, other in enumerate(_before(batch, book)):
        if looked >= _MOST_LOOKED_AT:
            break
        group, most = (same, _SAME_LOT) if lot_of(other) == lot else (others, _OTHERS)
        if len(group) < most and other.of("basket", "moisture"):
            group.append(other)
        if len(finished) < _FINISHED and other.vessel == batch.vessel:
            days = days_of(other)
            finished += [days] if days else []
        if growing and len(floors) < _FLOORS:
            heat = kept_heat(other)
            floors += [heat] if heat else []
    if not same and len({lot_of(other) for other in others}) < FEWEST_LOTS:
        others = []  # they would say nothing
    fits = fits_before(batch, [fit for fit in map(kept_fit, [*same, *others]) if fit])
    days_there = average(finished)
    days_known = days_there.days if days_there else None
    heat_there = average_heat(floors)
    heat_known = heat_there.factor if heat_there else None
    if not fits:
        return Known(TYPICAL_BARLEY, House(days=days_known, heat=heat_known), 0, 0)
    prior, count = prior_for(lot, fits)
    rate = offset = None
    if count:
        rate, offset = for_a_sheet(lot_prior(lot, fits)[0], batch.number("barley_moisture") or 12.0)
    return Known(prior, House(rate, offset, days_known, heat_known), count, len(fits) - count)
