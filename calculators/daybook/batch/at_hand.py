"""What is known of a batch: for each question the value, the line that says it, and when.

The one place that answers this. The sheets that are opened for a batch, their list on its page, and whatever else needs
the numbers of a batch read it here. What the house's other batches say has no line of this batch.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import datetime, timedelta
from typing import NamedTuple

from ...asking.figures import fixed, plain_number
from ...models.bed import floor
from ...models.living.bed_days import DAYS
from ...models.living.by_day import SINCE_WETTING_H
from ...models.living.ready import BED_C
from ...words.questions.floor import LAIN_H
from ..lines.entry import Entry
from ..lines.exchange import value_text
from ..lines.kinds import DRUM, FLOOR, TURNINGS
from ..pages.view import kind_label, said_time
from .batch import Batch
from .bed_read import mean_temps
from .bed_samples import samples_of
from .course import Course
from .fitted import for_sheets
from .lives import grown_percent
from .living import since_turning

COUNTS_KEPT = 3
"""Counts of corns that go along: today's and those of the two days before."""
_NEW_DAY_H = 12.0


class House(NamedTuple):
    """What the house's own batches offer to the sheets; None where there are none."""

    rate: float | None = None
    offset: float | None = None
    days: float | None = None
    heat: float | None = None


class Seen(NamedTuple):
    """All that is looked at: the batch, its steep, what the house knows, and now (UTC)."""

    batch: Batch
    course: Course | str
    house: House
    now: datetime


class Known(NamedTuple):
    """What is known to one question.

    Attributes
    ----------
    value : str
        As a person would type it; a table as on the command line.
    line : Entry or None
        The line that says it, the last of several; None where it follows from other batches of the house.
    at : datetime or None
        When that was so, UTC.
    """

    value: str
    line: Entry | None
    at: datetime | None


Facts = dict[str, Known]

HOUSE_QUESTIONS = ("rate_factor", "moisture_offset", "reference_temp_c", "reference_days", "heat_factor")
"""The questions that the house's other batches answer; of the barley its own readings go before them."""

FITTED = ("rate_factor", "moisture_offset")
"""What is fitted of a barley."""


def source_words(known: Known, batch: Batch) -> str:
    """Where a value comes from: ``batch 77, basket weighed, Sun 29 Nov 13:05``."""
    if known.line is None:
        return f"batch {batch.id}, from this house’s earlier batches"
    return f"batch {batch.id}, {kind_label(known.line).lower()}, {said_time(known.line.local)}"


def at_hand(seen: Seen) -> Facts:
    """All that is known of a batch, by the id of the question that it answers.

    Parameters
    ----------
    seen : Seen
        The batch as it stands.

    Returns
    -------
    dict of str to Known
        One value to a question; what was left blank or cannot be read is not among them.
    """
    facts: Facts = {}
    for part in _PARTS:
        facts |= part(seen)
    return facts


def _said(value: str, line: Entry) -> Known:
    return Known(value, line, line.utc)


def _of_entry(batch: Batch, line: Entry, names: Mapping[str, str]) -> Facts:
    """What a line says, as it was typed, where it could be read; by the id of the question asked elsewhere."""
    read = {to: of for to, of in names.items() if batch.value(line, of) is not None}
    return {to: _said(value_text(line.values.get(of)), line) for to, of in read.items()}


_OF_START = (
    "barley_kg",
    "barley_moisture",
    "target_moisture",
    "corn_weight_g",
    "water_temp_c",
    "water_sensitivity",
    "stages",
)


def _start(seen: Seen) -> Facts:
    batch = seen.batch
    starts = batch.of("start")
    if not starts:
        return {}
    facts = _of_entry(batch, starts[-1], {name: name for name in _OF_START})
    if batch.start.get("vessel"):
        facts["cast_to"] = _said("drum" if batch.vessel == DRUM else "couch", starts[-1])
    grown, sown = batch.number("energy_grown"), batch.number("energy_sown")
    if grown is not None and sown is not None and grown <= sown <= 1000:
        facts["replicates"] = _said(f"{plain_number(grown)} {plain_number(sown)}", starts[-1])
    energy = grown_percent(batch)
    if energy is not None:
        facts["grows_percent"] = _said(plain_number(round(max(energy, 1.0), 2)), starts[-1])
    if "water_sensitivity" in facts:
        facts["sensitive_percent"] = facts["water_sensitivity"]
    return facts


def _tare(seen: Seen) -> Facts:
    """The empty basket and the barley in it, where both are known and no weighing names others."""
    batch = seen.batch
    weighed = batch.of("basket")
    tares = {batch.tare(one) for one in weighed} or {batch.tare()}
    basket, sample = batch.tare()
    lines = [one for one in (*batch.of("start"), *weighed) if batch.value(one, "basket_g") is not None]
    if basket is None or sample is None or len(tares) > 1 or not lines:
        return {}
    return {
        "basket_g": _said(plain_number(basket), lines[-1]),
        "sample_g": _said(plain_number(sample), lines[-1]),
    }


def _steep(seen: Seen) -> Facts:
    """What was read and written in the steep: its water, its stages, its beginning."""
    batch, course = seen.batch, seen.course
    facts: Facts = {}
    read = [one for one in batch.of("stage-begun", "water") if batch.value(one, "water_temp_c") is not None]
    temps = [temp for spell in batch.spells for temp in spell.temps]
    if temps and read:
        facts["water_temp_c"] = _said(plain_number(round(sum(temps) / len(temps), 1)), read[-1])
    changes = batch.of("stage-begun", "stage-ended")
    if batch.begun and changes:
        first = next((one for one in changes if one.utc == batch.begun), changes[0])
        facts["start"] = _said(_local(first, batch.begun), first)
        if isinstance(course, Course):
            facts["stages"] = _said(";".join(_stage_rows(course)), changes[-1])
    return facts | _rest(seen, changes)


def _stage_rows(course: Course) -> Iterator[str]:
    """The stages as they are typed: a rest has a temperature only where the grain was read in it."""
    held = course.lives.rests.held_c
    for place, (hours, water) in enumerate(course.stages.pairs):
        temp = water if place % 2 == 0 else held[place] if place < len(held) else None
        length = plain_number(round(hours, 2))
        yield length if temp is None else f"{length} {plain_number(round(temp, 1))}"


def _rest(seen: Seen, changes: list[Entry]) -> Facts:
    """How long an air rest lasts by now, and what it began with."""
    batch = seen.batch
    if batch.cast or batch.begun is None or len(batch.spells) < 2 or batch.spells[-1].wet or not changes:
        return {}
    wet, rest = batch.spells[-2:]
    facts: Facts = {}
    hours = (seen.now - rest.begun).total_seconds() / 3600
    if 0 <= hours <= 72:
        facts["hours_since_drain"] = _said(fixed(hours, 1), changes[-1])
    wetted = (rest.begun - batch.begun).total_seconds() / 3600
    if SINCE_WETTING_H.low <= wetted <= SINCE_WETTING_H.high:
        facts["since_wetting_h"] = _said(fixed(wetted, 1), changes[-1])
    if wet.temps:
        facts["start_c"] = _said(plain_number(wet.temps[-1]), changes[-1])
    if isinstance(seen.course, Course):
        began = batch.hours_at(wet.begun)
        late = [one for one in seen.course.readings if one.drained and one.hours > began]
        if late:
            facts["drained_moisture"] = _said(fixed(late[-1].moisture, 1), late[-1].entry)
    return facts


def _weighings(seen: Seen) -> Facts:
    """The basket as it was weighed, and the moistures found."""
    batch, course = seen.batch, seen.course
    weighed = batch.of("basket")
    facts: Facts = {}
    if weighed and not batch.cast:
        facts |= _of_entry(batch, weighed[-1], {"gross_now_g": "gross_g", "drained": "drained"})
    if not isinstance(course, Course) or not course.readings:
        return facts
    last = course.readings[-1]
    facts["moisture_drained"] = _said(fixed(last.moisture, 1), last.entry)
    drained = [reading for reading in course.readings if reading.drained]
    if drained:
        one = drained[-1]
        facts["reading"] = _said(f"{plain_number(round(one.hours, 2))} {fixed(one.moisture, 1)}", one.entry)
    return facts | _series(batch, course, _tare(seen))


def _series(batch: Batch, course: Course, tare: Facts) -> Facts:
    """All weighings as a table: by their grams where one tare holds for all, else by the moistures found."""
    weighed = [reading for reading in course.readings if reading.entry.kind == "basket"][:24]
    if not weighed:
        return {}
    last = weighed[-1].entry
    hours = [plain_number(round(reading.hours, 2)) for reading in weighed]
    if tare and len({reading.drained for reading in weighed}) == 1:
        grams = [plain_number(batch.value(reading.entry, "gross_g")) for reading in weighed]
        return {"weighings": _said(";".join(map(" ".join, zip(hours, grams, strict=True))), last)}
    found = [fixed(reading.moisture, 1) for reading in weighed]
    return {"readings": _said(";".join(map(" ".join, zip(hours, found, strict=True))), last)}


def _local(line: Entry, moment: datetime) -> str:
    """A moment as the wall showed it when a line was written, as it is typed."""
    return f"{moment + timedelta(minutes=line.zone):%Y-%m-%d %H:%M}"


def is_growing(batch: Batch, vessel: str) -> bool:
    """Whether a batch lies on the floor or in the drum, and has not left."""
    return batch.cast is not None and batch.left is None and batch.vessel == vessel


def _rounds(seen: Seen) -> Facts:
    """The last round of a floor, with the rounds before it."""
    batch = seen.batch
    if not is_growing(batch, FLOOR) or batch.cast is None:
        return {}
    beds = [one for one in batch.of("bed") if one.utc >= batch.cast.utc]
    if not beds:
        return {}
    last = beds[-1]
    facts = _of_entry(batch, last, {name: name for name in ("bottom_c", "top_c", "room_c")})
    depths = [one for one in batch.of("bed", "turned") if one.utc <= last.utc and batch.value(one, "depth_cm")]
    if depths:
        facts["depth_cm"] = _said(plain_number(batch.value(depths[-1], "depth_cm")), depths[-1])
    since = since_turning(batch, last)
    if since <= LAIN_H.high:
        facts["hours_since_turning"] = _said(fixed(since, 1), last)
    day = min(1 + int((last.utc - batch.cast.utc).total_seconds() // 86_400), 30)
    facts["day"] = _said(str(day), last)
    turned = [one for one in batch.of(*TURNINGS) if one.utc >= batch.cast.utc]
    facts["lies_as"] = _said("piece", turned[-1]) if turned else _said("couch", last)
    facts["read_at"] = _said(_local(last, last.utc), last)
    rows = [row for one in beds[:-1] if (row := _round(batch, one, last))]
    if rows:
        facts["earlier_rounds"] = _said(";".join(rows[-12:]), beds[-2])
    return facts


def _round(batch: Batch, one: Entry, last: Entry) -> str:
    """One of the rounds before the last as a row of the table; nothing where it does not belong there."""
    ago = (last.utc - one.utc).total_seconds() / 3600
    bottom, top, room = (batch.value(one, name) for name in ("bottom_c", "top_c", "room_c"))
    since = since_turning(batch, one) if one.utc >= (batch.cast or one).utc else None
    if since is None or not 0.25 <= ago <= 24 or since > floor.HOURS.high or None in (bottom, top):
        return ""
    cells = [fixed(ago, 1), fixed(since, 1), plain_number(bottom), plain_number(top)]
    return " ".join(cells + [plain_number(value) for value in (room,) if value is not None])


def _growth(seen: Seen) -> Facts:
    """A sample of the bed, the days' temperatures, and the counts of corns."""
    batch = seen.batch
    if batch.cast is None or batch.left is not None:
        return {}
    facts: Facts = {}
    samples = [one for one in samples_of(batch) if one.entry.utc > batch.cast.utc]
    if samples and samples[-1].sure:  # nothing is lent while another sample is asked for
        last = _said(plain_number(samples[-1].moisture), samples[-1].entry)
        facts |= dict.fromkeys(("moisture", "moisture_now"), last)
    return facts | _days(seen, batch.cast) | _counts(batch)


def _days(seen: Seen, cast: Entry) -> Facts:
    """How warm it was, day by day.

    The table knows whole days only: a day that has begun is in it from its half on, so that it is never half a day off;
    before the first whole day the hours go as a part of a day, as the day-book counts them.
    """
    batch = seen.batch
    temps, beds = mean_temps(batch, seen.now), batch.of("bed")
    days = (seen.now - cast.utc).total_seconds() / 86_400
    if not temps or not beds or days < 0.0:
        return {}
    if days < 1.0:
        mean = _said(fixed(temps[-1], 1), beds[-1])
        return {"bed_temp_c": mean, "days_done": _said(fixed(days, 2), beds[-1])}
    whole = [temps[min(day, len(temps) - 1)] for day in range(int(days + 0.5))][:24]
    rows = (f"{day} {fixed(temp, 1)}" for day, temp in enumerate(whole, 1))
    return {"temperatures": _said(";".join(rows), beds[-1])}


def _counts(batch: Batch) -> Facts:
    """The last count of corns, with those of the days before, and the last rub."""
    days: list[Entry] = []
    for entry in reversed(batch.of("readiness")):
        new = not days or (days[-1].utc - entry.utc).total_seconds() > _NEW_DAY_H * 3600
        if batch.value(entry, "counts") and new:
            days.append(entry)
    if not days:
        return {}
    columns = [[plain_number(row[0]) for row in batch.value(one, "counts")] for one in days[:COUNTS_KEPT]]
    facts = {"counts": _said(";".join(" ".join(cells) for cells in zip(*columns, strict=True)), days[0])}
    rub = batch.value(days[0], "rub")
    if rub:
        facts["rub"] = _said(";".join(plain_number(row[0]) for row in rub), days[0])
    return facts


def _leaving(seen: Seen) -> Facts:
    """What was weighed and measured at the kiln's door, and how long and how warm it grew up to there."""
    batch, left = seen.batch, seen.batch.left
    if left is None:
        return {}
    facts = _of_entry(batch, left, {"green_malt_kg": "green_malt_kg", "green_malt_moisture": "moisture"})
    temps = mean_temps(batch, left.utc) if batch.cast else []
    if not temps or batch.cast is None:
        return facts
    days, mean = (left.utc - batch.cast.utc).total_seconds() / 86_400, sum(temps) / len(temps)
    if DAYS.low < days <= DAYS.high and BED_C.low <= mean <= BED_C.high:
        facts |= {"grown_days": _said(fixed(days, 1), left), "bed_temp_c": _said(fixed(mean, 1), left)}
    return facts


def _house(seen: Seen) -> Facts:
    house, given = seen.house, {}
    if house.rate is not None:
        given["rate_factor"] = fixed(house.rate, 2)
        if house.offset is not None and abs(house.offset) >= 0.05:
            given["moisture_offset"] = fixed(house.offset, 1)
    if house.days is not None:
        given |= {"reference_temp_c": "15", "reference_days": fixed(house.days, 1)}
    if house.heat is not None:
        given["heat_factor"] = fixed(house.heat, 2)
    return {name: Known(value, None, None) for name, value in given.items()}


def of_house(seen: Seen) -> Facts:
    """What the house's other batches say of its barley, without the readings of this one."""
    return {name: known for name, known in _house(seen).items() if name in FITTED}


def _fitted(seen: Seen) -> Facts:
    """What the readings of this batch make of its barley, so that a sheet reckons on from where the book does."""
    own, course = seen.batch.number("barley_moisture"), seen.course
    found = None if own is None or isinstance(course, str) else for_sheets(course, own)
    if found is None or isinstance(course, str):
        return {}
    last = course.readings[-1].entry
    return {
        "rate_factor": _said(fixed(found.rate, 2), last),
        "moisture_offset": _said(fixed(found.offset, 1), last),
    }


def _chits(seen: Seen) -> Facts:
    counted = [one for one in seen.batch.of("chits") if seen.batch.value(one, "counted")]
    if not counted or seen.batch.cast:
        return {}
    last = counted[-1]
    facts = _of_entry(seen.batch, last, {"chitted": "chitted", "counted": "counted"})
    if last.utc >= (seen.batch.begun or last.utc + timedelta(1)):
        facts["count_h"] = _said(plain_number(round(seen.batch.hours_at(last.utc), 2)), last)
    return facts


_PARTS: tuple[Callable[[Seen], Facts], ...] = (
    _start,
    _tare,
    _steep,
    _weighings,
    _chits,
    _rounds,
    _growth,
    _leaving,
    _house,
    _fitted,
)
