"""Which sheets fit a batch as it stands, each opened with the batch's numbers in place.

None of the sheets on gas, vessels, lifting or exposure is among them: nothing is filled in there for anybody.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any, NamedTuple
from xml.etree.ElementTree import Element

from ...asking.figures import fixed, plain_number
from ...drawing.elements import add
from ...models.bed import floor
from ...models.living.bed_days import DAYS
from ...models.living.by_day import SINCE_WETTING_H
from ...models.living.ready import BED_C
from ...rules.conventions import READY_DAYS
from ...sheets import find_sheet
from ...words.questions.floor import LAIN_H
from ..batch.bed_read import mean_temps
from ..lines.exchange import value_text
from ..lines.kinds import DRUM, FLOOR
from ..pages.address import sheet_address
from .batch import Batch
from .course import Course
from .forecast_opening import forecast_given
from .living import since_turning

Given = dict[str, str]


class House(NamedTuple):
    """What the house's own batches offer to the sheets; None where there are none."""

    rate: float | None = None
    offset: float | None = None
    days: float | None = None
    heat: float | None = None


class Seen(NamedTuple):
    """All that the openings look at."""

    batch: Batch
    course: Course | str
    house: House
    now: datetime


def _start(batch: Batch, *names: str) -> Given:
    """What was typed at the start, as it was typed, where it could be read."""
    starts = batch.of("start")
    if not starts:
        return {}
    typed = starts[-1].values
    return {name: value_text(typed.get(name)) for name in names if batch.start.get(name) is not None}


def _tare(batch: Batch) -> Given:
    """The empty basket and the barley in it, where both are known and no weighing names others."""
    weighed = batch.of("basket")
    tares = {batch.tare(one) for one in weighed} or {batch.tare()}
    basket, sample = batch.tare()
    if basket is None or sample is None or len(tares) > 1:
        return {}
    return {"basket_g": plain_number(basket), "sample_g": plain_number(sample)}


def _local(batch: Batch, moment: datetime) -> str:
    zone = batch.entries[-1].zone
    return f"{moment + timedelta(minutes=zone):%Y-%m-%d %H:%M}"


def _water(batch: Batch) -> Given:
    temps = [temp for spell in batch.spells for temp in spell.temps]
    if temps:
        return {"water_temp_c": plain_number(round(sum(temps) / len(temps), 1))}
    return _start(batch, "water_temp_c")


def _rate(house: House) -> Given:
    given = {}
    if house.rate is not None:
        given["rate_factor"] = fixed(house.rate, 2)
        if house.offset is not None and abs(house.offset) >= 0.05:
            given["moisture_offset"] = fixed(house.offset, 1)
    return given


def _stages(course: Course | str) -> Given:
    if isinstance(course, str):
        return {}
    return {
        "stages": ";".join(f"{plain_number(round(h, 2))} {plain_number(round(t, 1))}" for h, t in course.stages.pairs)
    }


def _begun(batch: Batch) -> Given:
    return {"start": _local(batch, batch.begun)} if batch.begun else {}


def _sample_basket(seen: Seen) -> Given | None:
    batch = seen.batch
    given = _tare(batch) | _start(batch, "barley_moisture", "target_moisture")
    weighed = batch.of("basket")
    if "basket_g" not in given or batch.cast:
        return None
    if weighed:
        given["gross_now_g"] = value_text(weighed[-1].values.get("gross_g"))
        given["drained"] = str(batch.value(weighed[-1], "drained") or "drained")
    return given


def _steep_timing(seen: Seen) -> Given | None:
    batch, course = seen.batch, seen.course
    if batch.cast or isinstance(course, str):
        return None
    given = _start(batch, "barley_moisture", "corn_weight_g", "target_moisture")
    given |= _water(batch) | _stages(course) | _begun(batch) | _rate(seen.house)
    drained = [reading for reading in course.readings if reading.drained]
    if drained:
        given["reading"] = f"{plain_number(round(drained[-1].hours, 2))} {fixed(drained[-1].moisture, 1)}"
    return given


def _batch_forecast(seen: Seen) -> Given | None:
    batch = seen.batch
    living = forecast_given(batch, seen.course, seen.now, seen.house.days or READY_DAYS)
    if living is None:
        return None
    known = _start(batch, "barley_moisture", "corn_weight_g", "water_sensitivity") | _water(batch)
    return known | _begun(batch) | _rate(seen.house) | living


def _steep_plan(seen: Seen) -> Given | None:
    batch = seen.batch
    if batch.spells:
        return None
    given = _start(batch, "barley_moisture", "corn_weight_g", "target_moisture", "water_temp_c", "water_sensitivity")
    return given | _rate(seen.house) if given else None


def _steep_fit(seen: Seen) -> Given | None:
    batch, course = seen.batch, seen.course
    if isinstance(course, str):
        return None
    known = _start(batch, "barley_moisture", "corn_weight_g", "target_moisture") | _tare(batch)
    weighed = [r for r in course.readings if r.entry.kind == "basket"]
    if not weighed:
        return None
    how = {r.drained for r in weighed}
    if "basket_g" in known and len(how) == 1:
        rows = [
            f"{plain_number(round(r.hours, 2))} {plain_number(batch.value(r.entry, 'gross_g'))}" for r in weighed[:24]
        ]
        known["weighings"] = ";".join(rows)
    else:
        known.pop("basket_g", None)
        known.pop("sample_g", None)
        known["readings"] = ";".join(f"{plain_number(round(r.hours, 2))} {fixed(r.moisture, 1)}" for r in weighed[:24])
    known["drained"] = "drained" if True in how else "blotted"
    return known | _water(batch) | _stages(course) | _begun(batch)


def _moisture_target(seen: Seen) -> Given | None:
    return None if seen.batch.cast else _start(seen.batch, "barley_kg", "barley_moisture", "target_moisture")


def _cast_decision(seen: Seen) -> Given | None:
    batch, course = seen.batch, seen.course
    if batch.cast or not batch.spells or batch.spells[-1].wet or len(batch.spells) < 2:
        return None
    given = _start(batch, "target_moisture", "barley_moisture") | _water(batch)
    if batch.start.get("vessel"):
        given["cast_to"] = "drum" if batch.vessel == DRUM else "couch"
    hours = (seen.now - batch.spells[-1].begun).total_seconds() / 3600
    if 0 <= hours <= 72:
        given["hours_since_drain"] = fixed(hours, 1)
    if isinstance(course, Course) and course.readings:
        given["moisture_drained"] = fixed(course.readings[-1].moisture, 1)
    return given


def _rest_warmth(seen: Seen) -> Given | None:
    batch = seen.batch
    if batch.cast or batch.begun is None or len(batch.spells) < 2 or batch.spells[-1].wet:
        return None
    wet, rest = batch.spells[-2:]
    given = _start(batch, "barley_kg", "barley_moisture")
    hours = (rest.begun - batch.begun).total_seconds() / 3600
    if SINCE_WETTING_H.low <= hours <= SINCE_WETTING_H.high:
        given["since_wetting_h"] = fixed(hours, 1)
    if wet.temps:
        given["start_c"] = plain_number(wet.temps[-1])
    if isinstance(seen.course, Course):
        began = (wet.begun - batch.begun).total_seconds() / 3600
        late = [one for one in seen.course.readings if one.drained and one.hours > began]
        if late:
            given["drained_moisture"] = fixed(late[-1].moisture, 1)
    return given


def _germination_test(seen: Seen) -> Given | None:
    grown, sown = seen.batch.number("energy_grown"), seen.batch.number("energy_sown")
    if grown is None or sown is None or grown > sown or sown > 1000 or seen.batch.spells:
        return None
    return {"replicates": f"{plain_number(grown)} {plain_number(sown)}"}


def _growing(batch: Batch, vessel: str) -> bool:
    return batch.cast is not None and batch.left is None and batch.vessel == vessel


def _floor_round(seen: Seen) -> Given | None:
    batch = seen.batch
    if not _growing(batch, FLOOR) or batch.cast is None:
        return None
    beds = [one for one in batch.of("bed") if one.utc >= batch.cast.utc]
    heat = {"heat_factor": fixed(seen.house.heat, 2)} if seen.house.heat is not None else {}
    if not beds:
        return heat
    last = beds[-1]
    given = heat | {
        name: value_text(last.values.get(name)) for name in ("bottom_c", "top_c", "room_c") if batch.value(last, name)
    }
    depths = [batch.value(one, "depth_cm") for one in batch.of("bed", "turned") if one.utc <= last.utc]
    depth = [value for value in depths if value is not None]
    if depth:
        given["depth_cm"] = plain_number(depth[-1])
    since = since_turning(batch, last)
    if since <= LAIN_H.high:
        given["hours_since_turning"] = fixed(since, 1)
    given["day"] = str(min(1 + int((last.utc - batch.cast.utc).total_seconds() // 86_400), 30))
    if not batch.of("turned"):
        given["lies_as"] = "couch"
    sample = _last_moisture(batch)
    if sample:
        given["moisture"] = sample
    given["read_at"] = _local(batch, last.utc)
    rows = []
    for one in beds[:-1]:
        ago = (last.utc - one.utc).total_seconds() / 3600
        bottom, top = batch.value(one, "bottom_c"), batch.value(one, "top_c")
        if 0.25 <= ago <= 24 and since_turning(batch, one) <= floor.HOURS.high and None not in (bottom, top):
            cells = [fixed(ago, 1), fixed(since_turning(batch, one), 1), plain_number(bottom), plain_number(top)]
            cells += [plain_number(v) for v in (batch.value(one, "room_c"),) if v is not None]
            rows.append(" ".join(cells))
    if rows:
        given["earlier_rounds"] = ";".join(rows[-12:])
    return given


def _last_moisture(batch: Batch) -> str | None:
    found = [batch.value(one, "moisture") for one in batch.of("moisture") if batch.cast and one.utc > batch.cast.utc]
    known = [value for value in found if value is not None]
    return plain_number(known[-1]) if known else None


def _sprinkling(seen: Seen) -> Given | None:
    batch = seen.batch
    if not _growing(batch, batch.vessel):
        return None
    given, moisture = _start(batch, "barley_kg", "barley_moisture"), _last_moisture(batch)
    return given | ({"moisture_now": moisture} if moisture else {})


def _days_to_ready(seen: Seen) -> Given | None:
    batch = seen.batch
    if not _growing(batch, batch.vessel):
        return None
    given: Given = {}
    temps = mean_temps(batch, seen.now)[:24]
    if temps:
        given["temperatures"] = ";".join(f"{day} {fixed(temp, 1)}" for day, temp in enumerate(temps, 1))
    if seen.house.days is not None:
        given |= {"reference_temp_c": "15", "reference_days": fixed(seen.house.days, 1)}
    moisture = _last_moisture(batch)
    return given | ({"moisture": moisture} if moisture else {})


def _readiness(seen: Seen) -> Given | None:
    batch = seen.batch
    if not _growing(batch, batch.vessel):
        return None
    days: list[tuple[datetime, list[str], Any]] = []
    for entry in reversed(batch.of("readiness")):
        counts = batch.value(entry, "counts")
        if counts and (not days or (days[-1][0] - entry.utc).total_seconds() > 12 * 3600):
            days.append((entry.utc, [plain_number(row[0]) for row in counts], batch.value(entry, "rub")))
    given: Given = {}
    if days:
        columns = [counts for _, counts, _ in days[:3]]
        given["counts"] = ";".join(" ".join(cells) for cells in zip(*columns, strict=True))
        if days[0][2]:
            given["rub"] = ";".join(plain_number(row[0]) for row in days[0][2])
    return given


def _kiln_water(seen: Seen) -> Given | None:
    left = seen.batch.left
    if left is None:
        return None
    pairs = (("green_malt_kg", "green_malt_kg"), ("green_malt_moisture", "moisture"))
    return {to: value_text(left.values.get(of)) for to, of in pairs if seen.batch.value(left, of) is not None}


def _malting_loss(seen: Seen) -> Given | None:
    left = seen.batch.left
    return _start(seen.batch, "barley_kg", "barley_moisture") | _grown(seen.batch, left.utc) if left else None


def _grown(batch: Batch, until: datetime) -> Given:
    """Days since the cast, and the mean of the bed over them, where both are known and the one law can take them."""
    temps = mean_temps(batch, until) if batch.cast else []
    if not temps or batch.cast is None:
        return {}
    days = (until - batch.cast.utc).total_seconds() / 86_400
    mean = sum(temps) / len(temps)
    if not (DAYS.low < days <= DAYS.high and BED_C.low <= mean <= BED_C.high):
        return {}
    return {"grown_days": fixed(days, 1), "bed_temp_c": fixed(mean, 1)}


OPENINGS: dict[str, Callable[[Seen], Given | None]] = {
    "batch-forecast": _batch_forecast,
    "sample-basket": _sample_basket,
    "steep-timing": _steep_timing,
    "steep-plan": _steep_plan,
    "steep-fit": _steep_fit,
    "rest-warmth": _rest_warmth,
    "cast-decision": _cast_decision,
    "moisture-target": _moisture_target,
    "germination-test": _germination_test,
    "floor-round": _floor_round,
    "days-to-ready": _days_to_ready,
    "readiness": _readiness,
    "sprinkling": _sprinkling,
    "kiln-water": _kiln_water,
    "malting-loss": _malting_loss,
}
"""In the order in which they stand; each gives the values to put in, or None where it does not fit."""


def openings(seen: Seen) -> dict[str, Given]:
    """The sheets that fit, each with the values to put in."""
    found = {name: give(seen) for name, give in OPENINGS.items()}
    return {name: given for name, given in found.items() if given is not None}


def sheets_list(seen: Seen, root: str, demo: bool) -> Element:
    """The links as a list; each says how many of the batch's numbers go with it."""
    listed = Element("ul", {"class": "book-sheets"})
    for name, given in openings(seen).items():
        line = add(listed, "li")
        link = add(line, "a", text=find_sheet(name).title, href=sheet_address(name, given, root, seen.batch.id, demo))
        count = len(given)
        link.tail = f" with {count} of this batch’s numbers" if count > 1 else "" if not count else " with one number"
    return listed
