"""Where the batches of a house stand: by what is told of them, and by the plan on the wall."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from math import ceil
from typing import Any

from ...asking.declare import AskAgain
from ...asking.figures import clock_words
from ...rules.limits.kiln_hand_over import READY_HOURS
from ...rules.limits.steeping import REST
from ...rules.week.house import RESTS_MOST, WAITS_MOST, Batch, House, Plan, Stood, Way, offsets
from ..limits import at_edge

Given = dict[str, Any]
Told = tuple[str, str, datetime | None, str | None, int]
Hour = Callable[[datetime], float]


def dated(moment: datetime | None, question: str, row: int | None = None) -> datetime | None:
    """The moment, if there is one, with its date; asked back beside its question where it has none."""
    if moment is not None and moment.year == 1:
        raise AskAgain(question, f"{moment:%H:%M} has no date. Type it with its date, such as 2026-01-12 06:00.", row)
    return moment


def stands_now(house: House, batches: Sequence[Batch], base: datetime, given: Given, wall: Plan) -> tuple[Batch, ...]:
    """The batches as they stand when it is planned again: by the plan on the wall, and by what went otherwise."""

    def hour(moment: datetime) -> float:
        return (moment - base).total_seconds() / 3600.0

    again: datetime = given["again_at"] or given["planned_at"]
    happened = told_of(given, again)
    told = {(row[0], str(row[1]).removeprefix("not-")) for row in happened}
    standing = stood_by(house, list(batches), happened, hour)
    found = [_as_planned(one, wall.get(one.id), told, house.now) for one in standing]
    said = {one.id: one.stood for one in standing}
    return tuple(_if_free(house, one, said[one.id], found) for one in found)


def _if_free(house: House, batch: Batch, said: Stood, all_of_them: Sequence[Batch]) -> Batch:
    """The batch without what was planned and cannot have been done, since another still held the place."""
    stood = batch.stood
    others = [one.stood for one in all_of_them if one.id != batch.id]
    if stood.fill is not None and said.fill is None:
        before = [one for one in others if one.steep == stood.steep and one.fill is not None and one.fill < stood.fill]
        if any(one.cast is None or one.cast + house.clean_steep > stood.fill for one in before):
            return batch._replace(stood=said)
    if stood.cast is not None and said.cast is None and stood.bed is not None and not house.beds[stood.bed].shared:
        before = [one for one in others if one.bed == stood.bed and one.cast is not None and one.cast < stood.cast]
        if any(one.load is None or one.load + house.clean_bed > stood.cast for one in before):
            return batch._replace(stood=stood._replace(bed=None, cast=None, ready=said.ready, kiln=None, load=None))
    if stood.load is not None and said.load is None and stood.kiln is not None:
        kiln = house.kilns[stood.kiln]
        before = [one for one in others if one.kiln == stood.kiln and one.load is not None and one.load < stood.load]
        if any((one.load or 0) + kiln.hours + kiln.turn_round > stood.load for one in before):
            return batch._replace(stood=stood._replace(kiln=None, load=None))
    return batch


def _as_planned(batch: Batch, way: Way | None, told: set[tuple[str, str]], now: int) -> Batch:
    """What was planned before now and is not said to have gone otherwise went as planned."""
    if way is None:
        return batch
    stood, name = batch.stood, batch.id
    begun = stood.fill is not None or stood.cast is not None
    if not begun and (name, "filled") not in told and way.fill < now:
        stood = stood._replace(steep=way.steep, fill=way.fill)
        begun = True
    if begun and stood.cast is None and (name, "cast") not in told and way.cast < now:
        late = stood.fill is not None and stood.fill > way.fill
        if not late:
            stood = stood._replace(bed=way.bed, cast=way.cast)
    grown = stood.cast is not None and (stood.ready is None or stood.ready <= way.load)
    if grown and stood.load is None and (name, "loaded") not in told and way.load < now:
        stood = stood._replace(kiln=way.kiln, load=way.load)
    return batch._replace(stood=stood)


def told_of(given: Given, now: datetime) -> list[Told]:
    """What has happened, row by row: the batch, what, when, where, and the row."""
    rows, known = [], {row[0] for row in given["batches"]}
    for row, (batch, what, at, where) in enumerate(given["happened"] or (), 1):
        if batch not in known:
            raise AskAgain(
                "happened", f"row {row}: no batch {batch} stands above. Give its row among the batches too.", row
            )
        at = dated(at, "happened", row)
        if at is None and not what.startswith("not-"):
            raise AskAgain("happened", f"row {row}: type when {batch} was {what}, with the date.", row)
        if at is not None and at > now and what != "ready":
            raise AskAgain(
                "happened",
                f"row {row}: {clock_words(at)} is still to come, the plan is made {clock_words(now)}. Only a batch "
                "that "
                "will be ready may have a time to come.",
                row,
            )
        rows.append((batch, what, at, where, row))
    return rows


def _place(name: str | None, places: Sequence[Any], what: str, row: int) -> int:
    if name is None and len(places) == 1:
        return 0
    for number, one in enumerate(places):
        if name is not None and one.name.casefold() == name.casefold():
            return number
    alike = [number for number, one in enumerate(places) if name is not None and getattr(one, "kind", "") == name]
    if len(alike) == 1:
        return alike[0]
    called = ", ".join(one.name for one in places)
    raise AskAgain("happened", f"row {row}: in which {what}? Type one of: {called}.", row)


def _steep_of(house: House, batch: Batch, held: set[int], where: str | None, row: int) -> int:
    """The steep that a batch was filled into; where nobody says which, the first that takes it and holds no other."""
    free = [n for n, one in enumerate(house.steeps) if one.most_kg >= batch.kg and n not in held]
    return free[0] if where is None and free else _place(where, house.steeps, "steep", row)


def stood_by(house: House, batches: list[Batch], happened: list[Told], hour: Any) -> list[Batch]:
    """The batches with what is told of them."""
    found = []
    cast = {name for name, what, *_ in happened if what == "cast"}
    wet = [one for one in happened if one[1] == "filled" and one[0] not in cast]
    held = {_place(where, house.steeps, "steep", row) for _, _, _, where, row in wet if where is not None}
    for batch in batches:
        stood = Stood()
        for name, what, at, where, row in happened:
            if name != batch.id or what.startswith("not-"):
                continue
            when = round(hour(at))
            if what == "filled":
                stood = stood._replace(steep=_steep_of(house, batch, held, where, row), fill=when)
                held |= {stood.steep or 0} if name not in cast else set()
            elif what == "cast":
                stood = stood._replace(bed=_place(where, house.beds, "floor, drum or box", row), cast=when)
            elif what == "ready":
                stood = stood._replace(ready=ceil(hour(at)))
            else:
                stood = stood._replace(kiln=_place(where, house.kilns, "kiln", row), load=when)
        last = max((row for name, *_, row in happened if name == batch.id), default=0)
        _in_order(batch, stood, last)
        found.append(batch._replace(stood=stood))
    return found


def _in_order(batch: Batch, stood: Stood, row: int) -> None:
    steps = [some for some in (stood.fill, stood.cast, stood.load) if some is not None]
    if steps != sorted(steps):
        raise AskAgain(
            "happened", f"row {row}: {batch.id} is filled, cast and loaded in that order. Put the times right.", row
        )
    if stood.ready is not None and stood.cast is not None and stood.ready <= stood.cast:
        raise AskAgain("happened", f"row {row}: {batch.id} is ready before it was cast. Put the times right.", row)


def overdue(house: House, batch: Batch) -> str:
    """Why a batch at work has no way that passes no stop, in words; nothing where it is not for its hours."""
    stood = batch.stood
    if stood.cast is None and stood.fill is not None:
        _, drains = offsets(batch.stages)
        if stood.fill + drains[-1] + RESTS_MOST < house.now:
            return (
                f"{batch.id} lies drained for over {at_edge(REST, 'stop_high')} by its stages: that is "
                "past the stop. Cast it, and tell the shift lead. If it was cast, write when and where under "
                "what has happened."
            )
    if stood.cast is not None and stood.load is None:
        grown = stood.ready if stood.ready is not None else stood.cast + batch.grow[stood.bed or 0]
        if grown + WAITS_MOST < house.now:
            return (
                f"{batch.id} has been ready for over {at_edge(READY_HOURS, 'stop_high')} by its days: that "
                "is past the stop. Count it, and tell the shift lead. If it is not ready, or on the kiln, write that "
                "under what has happened."
            )
    return ""
