"""The tables of a week: each batch, places against days, dated lines, what is scarce, and what is drawn of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from math import ceil, floor
from typing import TYPE_CHECKING, NamedTuple

from ...asking.declare import Rows, Value
from ...asking.figures import fixed, plain_number
from ...rules.week.house import Batch, Cost, House, Plan, Way, people_needed
from ...rules.week.reasons import Helped, Load, Named, Slipped, slack
from .typed import Typed

if TYPE_CHECKING:
    from ...rules.week.draws import Drawn

MOST_PLACES = 24
PLACE_IDS = tuple(f"place_{n}" for n in range(1, MOST_PLACES + 1))

HELP_WORDS = {
    "kiln": "One more kiln",
    "steep": "One more steep",
    "bed": "One more floor, drum or box, like the largest",
    "hands": "People for a cast at every hour",
}
PLAN_WORDS = {
    "order": "The order of aims",
    "time": "Malt in time",
    "paper": "The plan on the wall",
}


AT_STEEP = ("fill", "water on", "drain")


class Week(NamedTuple):
    """What a plan is shown from: what was typed, the batches as they stand, and the plan."""

    typed: Typed
    batches: tuple[Batch, ...]
    plan: Plan

    @property
    def house(self) -> House:
        """The house."""
        return self.typed.house

    def at(self, hour: float) -> datetime:
        """The clock time of an hour."""
        return self.typed.at(hour)

    def day(self, hour: float) -> str:
        """The day of an hour in words: ``Mon 12 Jan``."""
        moment = self.at(hour)
        return f"{moment:%a} {moment.day} {moment:%b}"


class Act(NamedTuple):
    """One thing to be done: its hour, the batch, what, where, and how many it needs."""

    hour: int
    batch: str
    what: str
    where: str
    people: int


def acts(week: Week) -> list[Act]:
    """All that is still to be done, in order."""
    house, found = week.house, []
    for batch in week.batches:
        way, stood = week.plan[batch.id], batch.stood
        steep, bed, kiln = house.steeps[way.steep].name, house.beds[way.bed].name, house.kilns[way.kiln].name
        if stood.cast is None:
            for n, hour in enumerate(way.waters):
                found.append(Act(hour, batch.id, "water on" if n else "fill", steep, 1))
            found += [Act(hour, batch.id, "drain", steep, 1) for hour in way.drains]
            found.append(Act(way.cast, batch.id, "cast", bed, people_needed(house, way.cast)))
        if stood.load is None:
            found.append(Act(way.load, batch.id, "load", kiln, people_needed(house, way.load)))
        found.append(Act(way.off, batch.id, "empty", kiln, 1))
    return sorted(act for act in found if act.hour >= house.now)


def batch_rows(week: Week) -> Rows:
    """One row a batch, by when it goes to the kiln."""
    house, rows = week.house, []
    many = len(house.kilns) > 1
    for batch in sorted(week.batches, key=lambda one: week.plan[one.id].load):
        way, stood = week.plan[batch.id], batch.stood
        first, last = ready_span(week, batch, way)
        known = stood.fill is not None or stood.cast is None
        rows.append(
            (
                batch.id,
                week.at(way.fill) if known else None,
                house.steeps[way.steep].name if known else None,
                week.at(way.drains[-1]) if stood.cast is None else None,
                week.at(way.cast),
                house.beds[way.bed].name,
                week.at(first),
                week.at(last),
                *([house.kilns[way.kiln].name] * many),
                week.at(way.load),
                week.at(way.off),
                float(slack(house, week.batches, week.plan, batch)) if stood.load is None else None,
            )
        )
    labels = dict(BATCH_LABELS)
    if not many:
        labels.pop("kiln")
    return Rows("batches", rows, labels=labels)


BATCH_LABELS = {
    "batch": "Batch",
    "fill": "Fill",
    "steep": "Steep",
    "drained": "Last drain",
    "cast": "Cast",
    "bed": "Grows on",
    "ready_from": "Ready from",
    "ready_to": "Ready by",
    "kiln": "Kiln",
    "load": "Load",
    "off": "Off the kiln",
    "slack": "Slack",
}


def ready_span(week: Week, batch: Batch, way: Way) -> tuple[float, float]:
    """The hours between which a batch may be ready, by the doubt of its days."""
    if batch.stood.ready is not None or batch.stood.load is not None:
        return way.ready, way.ready
    days = week.typed.growths[batch.id][way.bed]
    return floor(way.cast + 24.0 * days.soonest), ceil(way.cast + 24.0 * days.latest)


def held(week: Week) -> list[tuple[str, list[tuple[int, int, str]]]]:
    """Each place with the batches that it holds, and from when until when."""
    house, found = week.house, []
    for number, steep in enumerate(house.steeps):
        found.append((steep.name, [(w.fill, w.cast, b.id) for b, w in ways_of(week) if w.steep == number and _wet(w)]))
    for number, bed in enumerate(house.beds):
        found.append((bed.name, [(w.cast, w.load, b.id) for b, w in ways_of(week) if w.bed == number]))
    for number, kiln in enumerate(house.kilns):
        found.append((kiln.name, [(w.load, w.off, b.id) for b, w in ways_of(week) if w.kiln == number]))
    return found


def ways_of(week: Week) -> list[tuple[Batch, Way]]:
    """The batches, each with its way."""
    return [(batch, week.plan[batch.id]) for batch in week.batches]


def _wet(way: Way) -> bool:
    return way.fill < way.cast


def days_of(week: Week) -> range:
    """The days of a plan, by the hour at which each begins."""
    last = max(way.off for way in week.plan.values())
    return range(week.house.now // 24 * 24, last + 1, 24)


def place_rows(week: Week) -> Rows:
    """Places against days, with the batches in the cells: who is there at some hour of that day."""
    places = held(week)
    rows = []
    for day in days_of(week):
        cells: list[Value | None] = [week.day(day)]
        for _, spells in places:
            there = sorted((b, name) for b, e, name in spells if b < day + 24 and e > max(day, week.house.now - 1))
            cells.append(", ".join(name for _, name in there) or None)
        rows.append(tuple(cells))
    labels = {"day": "Day"} | dict(zip(PLACE_IDS, [name for name, _ in places], strict=False))
    return Rows("places", rows, labels=labels)


def day_rows(week: Week) -> Rows:
    """All that is done on each day in one cell, for the paper on the wall."""
    rows = []
    todo = acts(week)
    for day in days_of(week):
        said = [
            f"{week.at(act.hour):%H:%M} {act.what} {act.batch}, {act.where}{_people(act)}"
            for act in todo
            if day <= act.hour < day + 24
        ]
        if said:
            rows.append((week.day(day), "; ".join(said)))
    return Rows("by_day", rows)


def _people(act: Act) -> str:
    return f" ({act.people} people)" if act.people > 1 else ""


def line_rows(week: Week) -> Rows:
    """The dated lines by place: where, when, what, which batch, and how many it needs of those who are there."""
    house = week.house
    places = [one.name for one in house.steeps], [one.name for one in house.beds], [one.name for one in house.kilns]
    order = {name: n for n, name in enumerate(name for some in places for name in some)}
    rows = [
        (act.where, week.at(act.hour), act.what, act.batch, float(act.people), float(house.hands[act.hour % 24]))
        for act in sorted(acts(week), key=lambda act: (order[act.where], act.hour))
    ]
    return Rows("lines", rows)


def scarce_rows(week: Week, found: Sequence[Load]) -> Rows:
    """How full each place is."""
    rows = []
    for one in found:
        bed = week.house.beds[one.number] if one.kind == "bed" else None
        if bed is not None and bed.shared:
            laid = week.typed.laid[one.number]
            used, of = one.used / one.of * laid.area_m2, laid.area_m2
            most = f"{fixed(used, 0)} of {fixed(of, 0)} m²"
        elif bed is not None:
            most = f"{fixed(one.used, 0)} of {fixed(one.of, 0)} h"
        else:
            most = f"{fixed(one.used, 0)} of {fixed(one.of, 0)} h"
        rows.append((place_name(week.house, one), 100.0 * one.share, week.day(one.hour), most))
    return Rows("scarce", rows)


def place_name(house: House, one: Load) -> str:
    """The name of a place."""
    places: Mapping[str, Sequence[NamedTuple]] = {"steep": house.steeps, "bed": house.beds, "kiln": house.kilns}
    return str(places[one.kind][one.number].name)  # type: ignore[attr-defined]


def _counted(cost: Cost) -> tuple[float, float, float]:
    return float(cost.watched), float(cost.hands), float(cost.late)


def plan_rows(week: Week, plans: Sequence[Named]) -> Rows:
    """The plans side by side, by what each puts first."""
    rows = []
    for one in plans:
        late = [
            f"{batch.id} {one.plan[batch.id].off - batch.due} h"
            for batch in week.batches
            if batch.due is not None and one.plan[batch.id].off > batch.due
        ]
        rows.append((PLAN_WORDS[one.word], *_counted(one.cost), float(one.cost.changed), ", ".join(late) or "none"))
    return Rows("plans", rows)


def other_rows(week: Week, plans: Sequence[Named]) -> Rows:
    """The lines of the other plans: fill, cast and load of each batch."""
    rows: list[tuple[Value | None, ...]] = []
    for one in plans[1:]:
        for batch in sorted(week.batches, key=lambda some: one.plan[some.id].load):
            way = one.plan[batch.id]
            begun = batch.stood.fill is not None or batch.stood.cast is not None
            rows.append(
                (
                    PLAN_WORDS[one.word],
                    batch.id,
                    None if begun else week.at(way.fill),
                    week.at(way.cast),
                    week.house.beds[way.bed].name,
                    week.at(way.load),
                    week.at(way.off),
                )
            )
    return Rows("other_lines", rows)


def help_rows(found: Sequence[Helped]) -> Rows:
    """What more of one thing would do."""
    rows: list[tuple[Value | None, ...]] = []
    for one in found:
        if one.plan is None:
            rows.append((HELP_WORDS[one.word], "does not help by itself", None, None, None))
        else:
            rows.append((HELP_WORDS[one.word], "a plan was found", *_counted(one.cost)))
    return Rows("more", rows)


def slip_rows(week: Week, found: Slipped) -> Rows:
    """The lines that a repair changes, as planned and as they would then be."""
    rows: list[tuple[Value | None, ...]] = []
    assert found.result.plan is not None
    for batch in found.batches:
        was, now, stood = week.plan[batch.id], found.result.plan[batch.id], batch.stood
        house = week.house
        for what, before, after, place, done in (
            ("fill", was.fill, now.fill, (house.steeps[was.steep], house.steeps[now.steep]), stood.fill is not None),
            ("cast", was.cast, now.cast, (house.beds[was.bed], house.beds[now.bed]), stood.cast is not None),
            ("load", was.load, now.load, (house.kilns[was.kiln], house.kilns[now.kiln]), stood.load is not None),
        ):
            if not done and (before != after or place[0] != place[1]):
                where = place[1].name if place[0] == place[1] else f"{place[0].name}, now {place[1].name}"
                rows.append((batch.id, what, where, week.at(before), week.at(after), float(after - before)))
    return Rows("slip", sorted(rows, key=lambda row: str(row[4])))


def late_words(batches: Sequence[Batch], plan: Plan) -> tuple[str, int]:
    """Which batches are late by how much, as a sum, and the sum."""
    late = {one.id: plan[one.id].off - one.due for one in batches if one.due is not None and plan[one.id].off > one.due}
    if not late:
        return "", 0
    whole = sum(late.values())
    names = ", ".join(late)
    return f"{names}: {' + '.join(plain_number(hours) for hours in late.values())} = {whole} h", whole


def drawn_rows(week: Week, drawn: Mapping[str, Drawn]) -> Rows:
    """What the drawn weeks made of each batch."""
    rows = []
    for batch in sorted(week.batches, key=lambda one: week.plan[one.id].load):
        one = drawn.get(batch.id)
        if one is not None:
            rows.append(
                (
                    batch.id,
                    week.at(ceil(one.cast_high)) if batch.stood.cast is None else None,
                    week.at(floor(one.ready_low)),
                    week.at(floor(one.ready_high)),
                    one.waits_watched,
                    one.waits_stopped,
                    one.rests_watched,
                    one.late,
                    one.called,
                )
            )
    return Rows("drawn", rows)
