"""What a week asks by the day: water cold and warm, heat of the kiln, room on the floors."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor
from typing import NamedTuple

from ...asking.declare import Note, Rows, Value
from ...asking.figures import clock_words, fixed
from ...rules.week.house import soaked_m3
from ...rules.week.stages import depth_for, floor_holds_kg, kiln_heat_kwh, warm_m3_h, warmed
from .tables import Week, days_of, ways_of


class Waters(NamedTuple):
    """Water in the steep, as it comes, and of the warm tank [C]."""

    steep_c: float
    mains_c: float
    warm_c: float


class WarmTank(NamedTuple):
    """The tank of warm water: what it holds [m3], and the heat that goes into it [kW]."""

    most_m3: float
    heat_kw: float


def warm_notes(week: Week, waters: Waters, tank: WarmTank | None) -> list[Note]:
    """The first water for which the warm tank has too little, full at first and heated ever since; or nothing."""
    house, drawn = week.house, []
    for batch, way in ways_of(week):
        if batch.stood.cast is None:
            mixed = warmed(
                m3=soaked_m3(house, batch), water_c=waters.steep_c, mains_c=waters.mains_c, warm_c=waters.warm_c
            )
            drawn += [(hour, batch.id, mixed.warm_m3) for hour in way.waters if hour >= house.now]
    if tank is None or waters.warm_c <= waters.mains_c:
        return []
    made = warm_m3_h(heat_kw=tank.heat_kw, mains_c=waters.mains_c, warm_c=waters.warm_c)
    level, last = tank.most_m3, house.now
    for hour, name, m3 in sorted(drawn):
        level, last = min(tank.most_m3, level + made * (hour - last)), hour
        if m3 > level + 1e-9:
            return [
                Note(
                    "notice",
                    f"Warm water runs short {clock_words(week.at(hour))}: the water of {name} takes {fixed(m3, 2)} m³ "
                    f"of it, and the warm tank has {fixed(level, 2)} m³ by then. More heat, a larger tank, or a steep "
                    "that is filled colder: [[sheet:mixing-waters]].",
                )
            ]
        level -= m3
    return []


def water_rows(week: Week, waters: Waters) -> Rows:
    """Water, effluent and heat by the day."""
    house, rows = week.house, []
    heat: dict[int, float] = {}
    drawn: dict[int, float] = {}
    gone: dict[int, float] = {}
    for batch in week.batches:
        way, m3 = week.plan[batch.id], soaked_m3(house, batch)
        if batch.stood.cast is None:
            for hours, sums in ((way.waters, drawn), (way.drains, gone)):
                for hour in hours:
                    if hour >= house.now:
                        sums[hour // 24] = sums.get(hour // 24, 0.0) + m3
        hours_on = way.off - way.load
        whole = kiln_heat_kwh(
            barley_kg=batch.kg,
            grown_days=min(max(0.0, way.load - way.cast) / 24.0, 29.0),
            bed_c=week.typed.laid[way.bed].bed_c,
        )
        for hour in range(max(way.load, house.now), way.off):
            heat[hour // 24] = heat.get(hour // 24, 0.0) + whole / hours_on
    for start in days_of(week):
        day = start // 24
        mixed = warmed(m3=drawn.get(day, 0.0), water_c=waters.steep_c, mains_c=waters.mains_c, warm_c=waters.warm_c)
        some = drawn.get(day, 0.0), mixed.warm_m3, mixed.heat_kwh, gone.get(day, 0.0), heat.get(day, 0.0)
        if any(some):
            rows.append((week.day(start), *some))
    return Rows("water", rows)


def floor_rows(week: Week) -> Rows | None:
    """From which day on how much lies on each floor, what fits beside it, and how deep it takes one more batch."""
    rows: list[tuple[Value | None, ...]] = []
    mean = sum(batch.kg for batch in week.batches) / len(week.batches)
    for number, bed in enumerate(week.house.beds):
        if not bed.shared:
            continue
        laid = week.typed.laid[number]
        spells = [(w.cast, w.load + week.house.clean_bed, b) for b, w in ways_of(week) if w.bed == number]
        for day in days_of(week):
            hours = range(max(day, week.house.now), day + 24)
            lies = max(sum(b.kg for begin, end, b in spells if begin <= hour < end) for hour in hours)
            m2 = lies / bed.most_kg * laid.area_m2
            left = max(0.0, bed.most_kg - lies)
            second = depth_for(area_m2=laid.area_m2, barley_kg=lies + mean)
            row = (bed.name, week.day(day), lies, m2, laid.area_m2 - m2, left, second)
            if not rows or rows[-1][0] != row[0] or rows[-1][2] != row[2]:
                rows.append(row)
    return Rows("floor_room", rows) if rows else None


def depth_rows(week: Week, depths: Sequence[float]) -> Rows | None:
    """What each floor holds by depth, and how many batches of this week's mean lie on it side by side."""
    mean = sum(batch.kg for batch in week.batches) / len(week.batches)
    rows = []
    for number, bed in enumerate(week.house.beds):
        if bed.shared:
            area = week.typed.laid[number].area_m2
            for depth in depths:
                kg = floor_holds_kg(area_m2=area, depth_cm=depth)
                rows.append((bed.name, depth, kg, float(floor(kg / mean + 1e-9)), mean / kg * area))
    return Rows("floor_depth", rows) if rows else None
