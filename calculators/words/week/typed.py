"""What was typed about a house and its week, as the house, the batches and the hours that are planned with."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from math import ceil, floor
from typing import Any, NamedTuple

from ...asking.declare import AskAgain
from ...asking.figures import clock_words, fixed, plain_number
from ...models.living import ready
from ...rules.conventions import READY_AT_C, READY_DAYS
from ...rules.limit import edge
from ...rules.limits.steeping import IMMERSION, REST, STEEP
from ...rules.week.house import (
    Batch,
    Bed,
    Closed,
    House,
    Kiln,
    Plan,
    Steep,
    people_needed,
    soaked_m3,
)
from ...rules.week.stages import SEASON_DEPTH_CM, Growth, bed_hours, floor_holds_kg, growth
from ..limits import at_edge
from ..malts import days_of
from .standing import Given, dated, stood_by, told_of
from .steeped import Steeped, steeped
from .wall import wall_plan

Rows = tuple[tuple[Any, ...], ...]

_BEFORE, _AFTER, _LONGEST_DAYS = 20, 21, 90


class Laid(NamedTuple):
    """A floor, drum or box as it is kept: its warmth [C] and, of a floor, its area [m2] and depth [cm]."""

    bed_c: float
    area_m2: float = 0.0
    depth_cm: float = 0.0


class Typed(NamedTuple):
    """What is planned with.

    Attributes
    ----------
    base : datetime
        The midnight that hours are counted from.
    house, batches
        As they stand when it is planned, or planned again.
    wall_house, wall_batches
        The same when the plan on the wall was made; equal to the others where it is not planned again.
    again : bool
        Whether a plan hangs on the wall.
    laid : tuple of Laid
        How each bed is kept.
    growths : dict
        By batch, days of growth in each bed.
    doubt : float
        How far the days may be off, 95 of 100 [-].
    reference_c : float
        Temperature that the days stand for [C].
    steeped : Steeped
        What the stages come to.
    happened : tuple
        What has happened, row by row.
    wall : dict or None
        The plan on the wall where its lines were typed.
    """

    base: datetime
    house: House
    batches: tuple[Batch, ...]
    wall_house: House
    wall_batches: tuple[Batch, ...]
    again: bool
    laid: tuple[Laid, ...]
    growths: dict[str, tuple[Growth, ...]]
    doubt: float
    reference_c: float
    steeped: Steeped
    happened: Rows
    wall: Plan | None = None

    def at(self, hour: float) -> datetime:
        """The clock time of an hour."""
        return self.base + timedelta(hours=hour)


def typed(given: Given) -> Typed:
    """Give what is planned with.

    Raises
    ------
    AskAgain
        Beside the question that stands in the way: what was wrong, and what would make it possible.
    """
    planned, again = dated(given["planned_at"], "planned_at"), dated(given["again_at"], "again_at")
    assert planned is not None
    if again is not None and again < planned:
        raise AskAgain("again_at", f"it lies before the plan was made, {clock_words(planned)}. Type a later time.")
    _unlike([row[0] for row in given["batches"]], "batches")
    for name in ("steeps", "kilns"):
        _unlike([row[0] for row in given[name]], name)
    _unlike([row[0] for row in (*(given["floors"] or ()), *(given["vessels"] or ()))], "floors")
    if not given["floors"] and not given["vessels"]:
        raise AskAgain("floors", "there is nothing to grow in. Give a floor, or a drum or box below.")
    now = again or planned
    happened = told_of(given, now)
    moments = [planned, *(row[2] for row in happened if row[2] is not None)]
    for number, row in enumerate(given["wall"] or (), 1):
        moments += [moment for one in (row[2], row[4], row[6]) if (moment := dated(one, "wall", number)) is not None]
    base = min(moments).replace(hour=0, minute=0, second=0, microsecond=0)
    if planned - base > timedelta(days=_BEFORE):
        raise AskAgain(
            "happened" if given["happened"] else "wall",
            f"something stands there from over {_BEFORE} days before the plan. Leave out what is done with.",
        )

    def hour(moment: datetime) -> float:
        return (moment - base).total_seconds() / 3600.0

    hands = _hands(given["hands"])
    _stages(given["stages"])
    wet = steeped(given)
    house, laid = _house(given, hands, ceil(hour(planned)))
    house = house._replace(drain=wet.drain)
    _must_be_there(house)
    growths, doubt, reference_c = _growths(given, laid)
    batches, asked = _batches(given, hour, planned, growths)
    house = house._replace(horizon=_horizon(house, batches))
    _fit(house, batches)
    wall_shut, shut = _closed(given, house, hour, planned)
    wall_house = house._replace(closed=wall_shut if again else shut)
    wall_batches = stood_by(house, batches, [row for row in happened if row[2] is None or row[2] <= planned], hour)
    if again is not None:
        wall_batches = [one for one in wall_batches if (asked[one.id] or planned) <= planned]
    wall = wall_plan(given, house, hour)
    if again is None and wall is None:
        return Typed(
            base,
            wall_house,
            tuple(wall_batches),
            wall_house,
            tuple(wall_batches),
            False,
            laid,
            growths,
            doubt,
            reference_c,
            wet,
            given["happened"] or (),
        )
    later = house._replace(now=ceil(hour(now)), closed=shut)
    return Typed(
        base,
        later,
        tuple(batches),
        wall_house,
        tuple(wall_batches),
        True,
        laid,
        growths,
        doubt,
        reference_c,
        wet,
        given["happened"] or (),
        wall,
    )


def _unlike(names: Sequence[str], question: str) -> None:
    for row, name in enumerate(names, 1):
        if name in names[: row - 1]:
            raise AskAgain(question, f"row {row}: {name} stands there twice. Give each its own name.", row)


def _hands(rows: Rows) -> tuple[int, ...]:
    hands = [0] * 24
    for row, (begin, end, people) in enumerate(rows, 1):
        if begin == end:
            raise AskAgain(
                "hands", f"row {row}: it begins and ends at {begin:%H:%M}. For all day type 00:00 and 23:59.", row
            )
        first, last = ceil(begin.hour + begin.minute / 60.0), ceil(end.hour + end.minute / 60.0)
        hours = range(first, last) if first < last else [*range(first, 24), *range(last)]
        for hour in hours:
            hands[hour % 24] += int(people)
    return tuple(hands)


def _house(given: Given, hands: tuple[int, ...], now: int) -> tuple[House, tuple[Laid, ...]]:
    beds, laid = [], []
    for row, (name, area, typed_cm, temp) in enumerate(given["floors"] or (), 1):
        depth = typed_cm if typed_cm is not None else SEASON_DEPTH_CM.get(given["season"] or "")
        if depth is None:
            raise AskAgain("floors", f"row {row}: type how thin a piece lies on {name}, or choose the season.", row)
        beds.append(Bed(name, "floor", floor_holds_kg(area_m2=area, depth_cm=depth), True))
        laid.append(Laid(temp, area, depth))
    for name, kind, kg, temp in given["vessels"] or ():
        beds.append(Bed(name, kind, kg))
        laid.append(Laid(temp))
    house = House(
        tuple(Steep(*row) for row in given["steeps"]),
        tuple(beds),
        tuple(Kiln(name, kg, ceil(hours), ceil(turn)) for name, kg, hours, turn in given["kilns"]),
        hands,
        int(given["cast_hands"]),
        int(given["clean_steep_h"]),
        int(given["clean_bed_h"]),
        stretch=int(given["rest_longer_h"]),
        water_m3_t=given["water_m3_t"],
        water_m3_h=given["water_m3_h"],
        tank_m3=given["tank_m3"],
        effluent_m3_day=given["effluent_m3_day"],
        now=now,
    )
    return house, tuple(laid)


def _must_be_there(house: House) -> None:
    if not any(house.hands):
        raise AskAgain("hands", "nobody is ever there. Type the hours at which somebody is.")
    if not any(house.hands[hour] >= people_needed(house, hour) for hour in range(24)):
        raise AskAgain(
            "hands",
            f"a cast by day needs {house.cast_hands}, at night never fewer than two, and so many are never there: the "
            f"most at one hour is {max(house.hands)}. Give an hour with more, or type fewer for a cast by day.",
        )


def _stages(stages: Rows) -> None:
    hours = [row[0] for row in stages]
    if len(hours) % 2 == 0:
        raise AskAgain(
            "stages", "a steep ends with an immersion. Take the last air rest away: it lies drained until the cast."
        )
    for row, some in enumerate(hours, 1):
        limit = IMMERSION if row % 2 else REST
        what = "immersion" if row % 2 else "air rest"
        if some > edge(limit.stop_high):
            raise AskAgain(
                "stages",
                f"row {row}: an {what} of {plain_number(some)} h is past its stop, {at_edge(limit, 'stop_high')}, and "
                "nothing is "
                "planned past a stop. Type a shorter one.",
                row,
            )
    if sum(hours) < edge(STEEP.stop_low):
        raise AskAgain(
            "stages",
            f"from the first wetting to the last drain they come to {fixed(sum(hours), 0)} h. Under "
            f"{at_edge(STEEP, 'stop_low')} is a stop. Type longer rests.",
        )


def _growths(given: Given, laid: tuple[Laid, ...]) -> tuple[dict[str, tuple[Growth, ...]], float, float]:
    own = given["reference_days"] is not None
    if own != (given["reference_temp_c"] is not None):
        missing = "reference_temp_c" if own else "reference_days"
        raise AskAgain(missing, "your days and their temperature go together. Give both, or leave both blank.")
    doubt = ready.OWN_DAYS_DOUBT if own else ready.TYPICAL_DAYS_DOUBT
    usual_c: float = given["reference_temp_c"] if own else READY_AT_C
    usual_days: float = given["reference_days"] if own else READY_DAYS
    found: dict[str, tuple[Growth, ...]] = {}
    widest = doubt
    for name, _, _, malt, _ in given["batches"]:
        temp, days, off = usual_c, usual_days, doubt
        if malt is not None and not own:
            temp, days, off, _ = days_of(malt, doubt)
        widest = max(widest, off)
        found[name] = tuple(
            growth(bed_c=one.bed_c, reference_temp_c=temp, reference_days=days, doubt=off) for one in laid
        )
    return found, widest, usual_c


def _batches(
    given: Given, hour: Any, planned: datetime, growths: dict[str, tuple[Growth, ...]]
) -> tuple[list[Batch], dict[str, datetime | None]]:
    stages = tuple(row[0] for row in given["stages"])
    found, asked = [], {}
    running = {row[0] for row in (*(given["wall"] or ()), *(given["happened"] or ()))}
    for row, (name, kg, wanted, _, since) in enumerate(given["batches"], 1):
        wanted = dated(wanted, "batches", row)
        if wanted is not None and wanted < planned and name not in running:
            raise AskAgain(
                "batches",
                f"row {row}: {name} is wanted by {clock_words(wanted, year=True)}, before the plan is made. Type a "
                "later "
                "time, or leave it blank: as soon as it can be.",
                row,
            )
        due = None if wanted is None else floor(hour(wanted))
        if due is not None and due > 24 * _LONGEST_DAYS:
            raise AskAgain("batches", f"row {row}: {name} is wanted over {_LONGEST_DAYS} days on. Plan it later.", row)
        asked[name] = dated(since, "batches", row)
        begins = 0 if asked[name] is None else ceil(hour(asked[name]))
        grow = tuple(bed_hours(one.middle) for one in growths[name])
        found.append(Batch(name, kg, due, stages, grow, begins))
    return found, asked


def _horizon(house: House, batches: Iterable[Batch]) -> int:
    some = list(batches)
    last = max((one.due or 0 for one in some), default=0)
    queue = len(some) * max(one.hours + one.turn_round + 24 for one in house.kilns) // len(house.kilns)
    grows = max(max(one.grow) for one in some)
    rounds = ceil(len(some) / max(1, len(house.beds))) * (grows + 48)
    days = ceil((max(last, house.now + max(queue, rounds) + grows) + 24 * 7) / 24)
    return 24 * min(days, _LONGEST_DAYS + _AFTER)


def _fit(house: House, batches: Iterable[Batch]) -> None:
    """Ask back for a batch that no place takes."""
    for row, batch in enumerate(batches, 1):
        for question, what, places in (
            ("steeps", "steep", [(one.most_kg, one.name) for one in house.steeps]),
            ("floors", "floor, drum or box", [(one.most_kg, one.name) for one in house.beds]),
            ("kilns", "kiln", [(one.most_kg, one.name) for one in house.kilns]),
        ):
            most_kg, name = max(places)
            if batch.kg > most_kg + 1e-9:
                raise AskAgain(
                    "batches",
                    f"row {row}: {plain_number(batch.kg)} kg is more than any {what} takes; {name} takes most, "
                    f"{plain_number(floor(most_kg))} kg. Part the batch into {ceil(batch.kg / most_kg)}, or put the "
                    f"{question} right.",
                    row,
                )
        m3 = soaked_m3(house, batch)
        if house.water_m3_h is not None and m3 > house.water_m3_h + house.tank_m3 + 1e-9:
            raise AskAgain(
                "water_m3_h",
                f"one immersion of {batch.id} takes {fixed(m3, 1)} m³, and within the hour of a fill no more than "
                f"{fixed(house.water_m3_h + house.tank_m3, 1)} m³ is to be had. A tank, a smaller batch or more water "
                "makes it possible.",
            )
        if house.effluent_m3_day is not None and m3 > house.effluent_m3_day + 1e-9:
            raise AskAgain(
                "effluent_m3_day",
                f"one drain of {batch.id} lets {fixed(m3, 1)} m³ go, more than that. A smaller batch, or less water "
                "for each tonne, makes it possible.",
            )


def _closed(given: Given, house: House, hour: Any, planned: datetime) -> tuple[tuple[Closed, ...], tuple[Closed, ...]]:
    """What is closed as the plan on the wall has it, and as it is known now."""
    names = [*(one.name for one in house.steeps), *(one.name for one in house.beds), *(one.name for one in house.kilns)]
    before, now = [], []
    for row, (place, begin, end, known) in enumerate(given["closed"] or (), 1):
        if place not in names:
            raise AskAgain("closed", f"row {row}: no place is called {place}. There are: {', '.join(names)}.", row)
        dated(begin, "closed", row)
        dated(end, "closed", row)
        if end <= begin:
            raise AskAgain("closed", f"row {row}: it ends before it begins. Type a later end.", row)
        shut = Closed(place, max(0, floor(hour(begin))), max(0, ceil(hour(end))))
        now.append(shut)
        known = dated(known, "closed", row)
        if known is None or known <= planned:
            before.append(shut)
    return tuple(before), tuple(now)
