"""The figures of a forecast of a batch, read off its possible batches, with how each was found."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from math import isfinite
from typing import TYPE_CHECKING, NamedTuple

from ..asking.declare import Found, Rows, Value
from ..asking.figures import fixed, plain_number
from ..models.living.lot_plan_state import Plan
from ..models.living.ranges import GRAIN_C
from ..rules.forecast import CHIT, FLOOR, Ends, Range, bed_hours, may_be_taken, range_of, rest_hours
from ..rules.limit import edge
from ..rules.limits import readiness
from .forecast import FIGURES, word_of
from .forecast_charts import Curve
from .limits import at_edge
from .steep import clock_after

if TYPE_CHECKING:
    from ..models.living.ensemble import Ensemble
    from ..models.living.outlook import Sought, Step

_KNOWN_SD = {"moisture": 0.2, "warmth": 0.2, "chitted": 0.01, "ready": 0.01}
"""Spreads up to which a figure is known well enough, and not sought: points, kelvin, shares."""

_TOLD = 0.985
"""Part of a band that is left from which a reading is said to narrow it [-]."""

_TABLE_STEEP_H, _TABLE_BED_H = 4.0, 12.0


class Seen(NamedTuple):
    """All that the figures are read off: the ensemble, the plan, where it stands, and how it lies."""

    one: Ensemble
    plan: Plan
    ends: Ends
    now: float
    vessel: str
    turned_every_h: float
    depth_m: float
    start: datetime | None

    @property
    def grows(self) -> bool:
        """Whether the plan has days in the bed."""
        return bool(self.plan.bed)

    @property
    def steeping(self) -> bool:
        """Whether the cast is still to come."""
        return self.now < self.ends.cast

    @property
    def ahead(self) -> list[float]:
        """The hours that are still to come [h]."""
        return [hour for hour in self.one.hours() if hour > self.now]


def members(one: Ensemble) -> Found:
    """How many members counted at the least."""
    taken = one.taken
    how = (
        f"{one.members} drawn; the readings let in bit by bit, members drawn anew and moved {taken.draws} times"
        if taken.draws
        else f"{one.members} drawn, and no reading to weigh them by"
    )
    return Found("members", taken.effective if taken.draws else float(one.members), how)


def _times(seen: Seen) -> dict[str, tuple[float, float, float]]:
    """When so many have chitted as the cast wants, and when so many are ready: soonest, middle, latest, or infinity."""
    wanted = edge(CHIT[seen.vessel].accept_low)
    found = {"chitted": seen.one.hours_until(wanted / 100.0)}
    if seen.grows:
        found["ready"] = seen.one.hours_until(edge(readiness.READY.accept_low) / 100.0, "ready")
    return found


def unknown(seen: Seen) -> list[str]:
    """The figures of which the forecast says nothing, by their names."""
    one, at = seen.one, [seen.ends.cast if seen.steeping else seen.ends.last]
    none = [] if one.knows(one.moisture(at), "moisture") else ["moisture"]
    if seen.ahead and not one.knows(one.warmth(seen.ahead), "warmth"):
        none.append("warmth")
    if seen.steeping and not one.knows(one.chitted(at), "chitted"):
        none.append("chitted")
    if seen.grows and not one.knows(one.ready([seen.ends.last]), "ready"):
        none.append("ready")
    return none


def sought(seen: Seen) -> list[Sought]:
    """What one would know better: moisture and chits at the cast, and each other figure where it is least known."""
    from ..models.living.outlook import Sought, least_known  # imports numpy

    one, found = seen.one, []
    bed = bed_hours(one, seen.ends, seen.now)
    for name in FIGURES:
        if seen.steeping and name in ("moisture", "chitted"):
            figure: Sought | None = Sought(name, seen.ends.cast, one.values(name, seen.ends.cast))
        else:
            figure = least_known(one, name, bed if name == "ready" else seen.ahead)
        if figure is not None and float(figure.values.std()) > _KNOWN_SD[name]:
            found.append(figure)
    return found


def steps(seen: Seen) -> list[Step]:
    """The readings that would narrow it most, the best first."""
    from ..models.living.outlook import readings_to_take

    candidates = may_be_taken(
        seen.plan, seen.now, seen.vessel, turned_every_h=seen.turned_every_h, depth_m=seen.depth_m
    )
    return readings_to_take(seen.one, sought(seen), candidates)


def found(seen: Seen, unknown: Sequence[str], steps: Sequence[Step]) -> list[Found]:
    """All figures; those of which nothing is known are left out."""
    spoken = [name for name in FIGURES if name not in unknown and (seen.grows or name != "ready")]
    word = "nothing" if not spoken else "some" if unknown else "all"
    told = ", ".join(FIGURES[name] for name in spoken) or "none"
    says = Found("says", word, f"bands narrower than what could be at all: {told}")
    if word == "nothing":
        return [says, *_next(seen, steps), members(seen.one)]
    return [
        says,
        *_next(seen, steps),
        *_chits(seen, unknown),
        *_moisture(seen, unknown),
        *_warmth(seen, unknown),
        *_ready(seen),
        members(seen.one),
    ]


def _next(seen: Seen, steps: Sequence[Step]) -> list[Found]:
    if not steps:
        return [Found("next_reading", "none", "each reading still to come was weighed up")]
    first = steps[0]
    narrowed = {name: part for name, part in first.left.items() if part < _TOLD}
    left = ", ".join(f"{FIGURES[name]} to {fixed(100.0 * part, 0)} %" for name, part in narrowed.items())
    found = [
        Found("next_reading", word_of(first.reading), f"it would narrow the bands of {left} of what they are"),
        Found("next_reading_h", first.reading.hour, "the hour at which that reading narrows most"),
    ]
    if seen.start is not None:
        hour = first.reading.hour
        found.append(Found("next_reading_at", clock_after(seen.start, hour), f"start + {plain_number(hour)} h"))
    return found


def _of(id: str, figure: Range, working: str, decimals: int | None = None) -> Found:
    return Found(id, figure.middle, working, figure.low, figure.high, decimals)


def _chits(seen: Seen, unknown: Sequence[str]) -> list[Found]:
    soonest, middle, latest = _times(seen)["chitted"]
    wanted = at_edge(CHIT[seen.vessel], "accept_low")
    found = []
    if all(map(isfinite, (soonest, middle, latest))):
        how = f"the hour at which {wanted} have chitted in the middle batch"
        found.append(Found("chit_h", middle, how, soonest, latest))
    if isfinite(soonest) and soonest > seen.now:
        rest = soonest - seen.now
        how = f"{fixed(soonest, 1)} h at the soonest − {plain_number(seen.now)} h now = {fixed(rest, 1)} h"
        found.append(Found("count_from_h", rest, how))
    if seen.steeping and "chitted" not in unknown:
        at_cast = range_of(seen.one, "chitted", seen.ends.cast, 100.0)
        found.append(_of("chitted_cast", at_cast, f"at {plain_number(seen.ends.cast)} h in the middle batch"))
    return found


def _moisture(seen: Seen, unknown: Sequence[str]) -> list[Found]:
    if "moisture" in unknown:
        return []
    found = []
    for id, hour, wanted in (
        ("moisture_cast", seen.ends.cast, seen.steeping),
        ("moisture_end", seen.ends.last, seen.grows),
    ):
        if wanted:
            figure = range_of(seen.one, "moisture", hour)
            decimals = 0 if figure.high - figure.low > 3 else 1
            found.append(_of(id, figure, f"at {plain_number(hour)} h in the middle batch", decimals))
    return found


def _warmth(seen: Seen, unknown: Sequence[str]) -> list[Found]:
    if "warmth" in unknown:
        return []
    from ..models.living.outlook import furthest, warmest_bottom

    found = []
    rests = rest_hours(seen.one, seen.ends, seen.now)
    if rests:
        warmest = Range(*furthest(seen.one, "warmth", rests))
        found.append(_of("warmest_rest_c", warmest, f"the middle batch is warmest at {plain_number(warmest.hour)} h"))
    bed = bed_hours(seen.one, seen.ends, seen.now)
    if bed:
        warmest = Range(*furthest(seen.one, "warmth", bed))
        found.append(_of("warmest_bed_c", warmest, "the highest in the bed, of the middle batch"))
    if bed and seen.vessel == FLOOR:
        depth, every = seen.depth_m, seen.turned_every_h
        room = seen.plan.bed[0].air_c
        warmest = Range(*warmest_bottom(seen.one, bed, turned_every_h=every, depth_m=depth, room_c=room))
        how = f"the middle batch at {plain_number(round(warmest.hour, 1))} h, {plain_number(every)} h after turning"
        beyond = _PAST_THE_LAW if warmest.high > GRAIN_C.high else ""
        found.append(_of("warmest_bottom_c", warmest, how)._replace(next=beyond))
    return found


_PAST_THE_LAW = (
    f"The law of warmth ends at {plain_number(GRAIN_C.high)} °C: barley dies there. Read it as far past the stop, and "
    "not as a figure. On the floor the thermometers decide: [[sheet:floor-round]]."
)


def _ready(seen: Seen) -> list[Found]:
    if not seen.grows:
        return []
    soonest, middle, latest = _times(seen)["ready"]
    found = []
    if all(map(isfinite, (soonest, middle, latest))):
        share = at_edge(readiness.READY, "accept_low")
        found.append(
            Found("ready_h", middle, f"the hour at which {share} are there in the middle batch", soonest, latest)
        )
        days, cast = (middle - seen.ends.cast) / 24.0, plain_number(seen.ends.cast)
        how = f"({fixed(middle, 1)} h − {cast} h)/24 = {fixed(days, 1)} days"
        found.append(Found("ready_days", days, how))
    low, mid, high = (values[0] for values in seen.one.lost())
    found.append(Found("lost_percent", mid, "leached and breathed, in the middle batch", low, high))
    return found


def when_rows(seen: Seen) -> Rows:
    """Soonest, middle and latest hour of what one waits for; blank where it is not within the plan."""
    names = {
        "chitted": f"{at_edge(CHIT[seen.vessel], 'accept_low')} chitted",
        "ready": f"{at_edge(readiness.READY, 'accept_low')} at three quarters and beyond",
    }
    rows: list[tuple[Value | None, ...]] = []
    for name, times in _times(seen).items():
        hours = [hour if isfinite(hour) else None for hour in times]
        at = clock_after(seen.start, times[1]) if seen.start and isfinite(times[1]) else None
        rows.append((names[name], *hours, at))
    return Rows("when", rows)


def curves(seen: Seen) -> dict[str, Curve]:
    """Moisture, warmth, chits and readiness at every hour of the model, with their bands."""
    one, hours = seen.one, seen.one.hours()
    found = {name: Curve(hours, *getattr(one, name)(hours)) for name in ("moisture", "warmth")}
    names = ["chitted", "ready"] if seen.grows else ["chitted"]
    for name in names:
        band = getattr(one, name)(hours)
        found[name] = Curve(hours, *([100.0 * x for x in row] for row in band))
    return found


def hour_rows(seen: Seen, curves: dict[str, Curve]) -> Rows:
    """The bands from now on, every few hours, and where each stage ends."""
    wanted = {seen.ends.cast, seen.ends.last, *seen.ends.wet, *(end for _, end in seen.ends.rests)}
    rows: list[tuple[Value | None, ...]] = []
    last = -1e9
    for n, hour in enumerate(curves["moisture"].hours):
        every = _TABLE_STEEP_H if hour < seen.ends.cast else _TABLE_BED_H
        ends = any(abs(hour - one) < 1e-6 for one in wanted)
        if hour < seen.now - 1e-6 or not (ends or hour - last >= every - 1e-6):
            continue
        last = hour
        cells: list[Value | None] = []
        for name in FIGURES:
            curve = curves.get(name)
            cells += [curve.middle[n], curve.low[n], curve.high[n]] if curve else [None, None, None]
        at = clock_after(seen.start, hour) if seen.start else None
        rows.append((hour, at, _where(seen, hour), *cells))
    return Rows("hours", rows)


def _where(seen: Seen, hour: float) -> str:
    if hour > seen.ends.cast + 1e-6:
        return seen.vessel
    for begins, end in seen.ends.rests:
        if begins + 1e-6 < hour <= end + 1e-6:
            return "air rest"
    return "wet"
