"""The plan that hangs on the wall: its mark, its lines as they are typed, and as a plan again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any
from zlib import crc32

from ...asking.declare import AskAgain, GoOn
from ...rules.week.house import House, Plan, Way
from .standing import Given, dated

if TYPE_CHECKING:
    from .tables import Week

_TYPED = "%Y-%m-%d %H:%M"


def lines_of(week: Week, plan: Plan) -> list[list[str]]:
    """A plan as the lines of a paper: batch, steep, fill, bed, cast, kiln, load, as they would be typed."""
    house, stood, found = week.house, {one.id: one.stood for one in week.batches}, []

    def clock(hour: int) -> str:
        return f"{week.at(hour):{_TYPED}}"

    for name, way in sorted(plan.items(), key=lambda one: (one[1].load, one[0])):
        begun = name in stood and stood[name].fill is None and stood[name].cast is not None
        steep = ["", ""] if begun else [house.steeps[way.steep].name, clock(way.fill)]
        bed, kiln = house.beds[way.bed].name, house.kilns[way.kiln].name
        found.append([name, *steep, bed, clock(way.cast), kiln, clock(way.load)])
    return found


def paper_mark(lines: Sequence[Sequence[str]]) -> str:
    """Four signs by which a paper on the wall is known again: the same lines have the same."""
    return f"{crc32(repr(sorted(map(tuple, lines))).encode()) & 0xFFFF:04X}"


def goes_on(week: Week, given: Given) -> GoOn:
    """What is gone on from once a plan is pinned up: its lines; that something was not done by then goes out."""
    lines = lines_of(week, week.plan)
    told = [row for row in given["happened"] or () if not str(row[1]).startswith("not-")]
    rows = [[str(name), str(what), f"{at:{_TYPED}}" if at else "", where or ""] for name, what, at, where in told]
    mark = paper_mark(lines)
    made: datetime = given["again_at"] or given["planned_at"]
    return GoOn(
        f"Plan {mark} hangs on the wall now",
        {"planned_at": f"{made:{_TYPED}}", "wall": lines, "happened": rows},
        f"From now on changes are counted against plan {mark}. It stands under More questions.",
    )


def wall_plan(given: Given, house: House, hour: Callable[[datetime], float]) -> Plan | None:
    """The plan on the wall as it was typed, of the batches that are asked about; None where none was.

    Raises
    ------
    AskAgain
        Beside it: a time without a date, a place that the house has not, a batch that stands there twice.
    """
    rows = given["wall"]
    if not rows:
        return None
    known = {row[0] for row in given["batches"]}
    plan: Plan = {}
    for row, (name, steep, fill, bed, cast, kiln, load) in enumerate(rows, 1):
        cast_h, load_h = (round(hour(dated(one, "wall", row) or one)) for one in (cast, load))
        fill_h = cast_h if fill is None else round(hour(dated(fill, "wall", row) or fill))
        if not fill_h <= cast_h <= load_h:
            raise AskAgain("wall", f"row {row}: {name} is filled, cast and loaded in that order.", row)
        if name in plan:
            raise AskAgain("wall", f"row {row}: {name} stands there twice. Leave one of them out.", row)
        if name in known:
            kiln_is = _number(kiln, house.kilns, "kiln", row)
            off = load_h + house.kilns[kiln_is].hours
            steep_is = 0 if steep is None else _number(steep, house.steeps, "steep", row)
            bed_is = _number(bed, house.beds, "floor, drum or box", row)
            plan[name] = Way(steep_is, (fill_h,), (cast_h,), bed_is, cast_h, load_h, kiln_is, load_h, off)
    return plan


def _number(name: str, places: Sequence[Any], what: str, row: int) -> int:
    for number, one in enumerate(places):
        if one.name.casefold() == name.casefold():
            return number
    there = ", ".join(one.name for one in places)
    raise AskAgain("wall", f"row {row}: no {what} is called {name}. There are: {there}.", row)
