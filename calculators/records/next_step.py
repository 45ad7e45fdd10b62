"""The next step of a batch with its clock time, and the box on gas or machines that belongs to it."""

from __future__ import annotations

from datetime import datetime, timedelta
from math import inf

from ..cautions import DRUM, FLOOR_ROOM, KILN_DOOR
from ..declare import Note
from ..figures import plain_number
from ..models import floor, growth
from ..models.steep_doubt import BAND_SD
from ..steep_words import GAS
from .batch import Batch
from .blanks import unread
from .course import Course
from .kinds import DRUM as IN_DRUM
from .steep_step import in_steep
from .step import Step, Wall

FLOOR_GAS = Note("warning", FLOOR_ROOM.format(""))
DRUM_EVERY_H = (8.0, 12.0)
"""Hours from one turning of a drum to the next: common practice (trade judgement)."""
LIMIT_K = 4.0
"""Bottom minus top at which a piece is turned, where the house has named none: 3 to 5 is common practice."""
ROUND_EVERY_H = 4.0
"""Hours from one round of the floor to the next: common practice (trade judgement)."""
DAYS_AT_15_C = 5.0
"""Days from the cast to ready at 15 C, where the house has no batches of its own: 5 to 7 at 12 to 17 C (published)."""


def next_step(
    batch: Batch, course: Course | str, wall: Wall, ready_days: float = DAYS_AT_15_C, heat_factor: float = 1.0
) -> Step:
    """What is to be done next with a batch.

    Parameters
    ----------
    batch : Batch
        The batch.
    course : Course or str
        Its steep, or why there is none.
    wall : Wall
        The time now.
    ready_days : float, optional
        Days from the cast to ready at 15 C [days], from the house's own batches.
    heat_factor : float, optional
        Heat of its pieces against the typical [-], from the same.
    """
    step = _step(batch, course, wall, ready_days, heat_factor)
    return step._replace(more=(*unread(batch), *step.more))


def _step(batch: Batch, course: Course | str, wall: Wall, ready_days: float, heat_factor: float) -> Step:
    if batch.left:
        words = f"Gone to the kiln {wall.time(batch.left.utc)}. Nothing is left to do with it here."
        return Step(words, None, (), (KILN_DOOR,), ("remark", "moisture"))
    if batch.cast:
        if batch.vessel == IN_DRUM:
            return _in_drum(batch, wall, ready_days)
        return _on_floor(batch, wall, ready_days, heat_factor)
    if not batch.start and not batch.spells:
        return Step("Write the start of the batch.", None, (), (), ("start",))
    if not batch.spells:
        words = "Weigh the basket empty and with its barley, then water on. Write when it covers the grain."
        return Step(words, None, (), (GAS,), ("stage-begun", "water", "basket"))
    return in_steep(batch, course, wall)


def rounds_of(batch: Batch, now: datetime) -> tuple[list[floor.Round], float] | None:
    """The rounds of the floor since the cast that can be fitted, and the day of the last; None without any.

    Counts the rounds of the last day and a half, as many as belong to the present heat.
    """
    assert batch.cast is not None
    turned = [batch.cast.utc] + [one.utc for one in batch.of("turned")]
    depth = None
    rounds: list[floor.Round] = []
    for entry in batch.of("cast", "bed", "turned"):
        depth = batch.value(entry, "depth_cm") or depth
        if entry.kind != "bed" or entry.utc < batch.cast.utc or entry.utc > now:
            continue
        bottom, top, room = (batch.value(entry, name) for name in ("bottom_c", "top_c", "room_c"))
        before = max((moment for moment in turned if moment <= entry.utc), default=batch.cast.utc)
        since = (entry.utc - before).total_seconds() / 3600
        ago = (now - entry.utc).total_seconds() / 3600
        if None in (bottom, top, room, depth) or not since <= floor.HOURS.high or ago > 36.0:
            continue
        rounds.append(floor.Round(since, depth / 100, bottom, top, room, ago, min(0.03, depth / 200)))  # type: ignore[operator]
    if not rounds:
        return None
    return rounds, 1.0 + (now - batch.cast.utc).total_seconds() / 86_400


def _on_floor(batch: Batch, wall: Wall, ready_days: float, heat_factor: float) -> Step:
    likely = ("bed", "turned", "sprinkled")
    beds = batch.of("bed")
    now = beds[-1].utc if beds else None
    fitted = rounds_of(batch, now) if now else None
    turned = [one.utc for one in batch.of("turned", "cast")]
    test, counting = _testing(batch, wall, ready_days)
    if counting:
        likely = ("bed", "readiness", "turned")
    if fitted is None or now is None or turned[-1] > now:
        base = max(turned)
        at = base + timedelta(hours=ROUND_EVERY_H)
        text = (
            f"Read bottom and top by {wall.time(at)}: {plain_number(ROUND_EVERY_H)} h after turning (trade judgement)."
        )
        return Step(text, at, test, (FLOOR_GAS,), likely)
    rounds, day = fitted
    guesses = floor.fit(rounds=rounds, day=min(day, 30.0), heat_factor=heat_factor)
    weights = [guess.weight for guess in guesses]
    until = floor.band([floor.hours_until(g.differences, LIMIT_K) for g in guesses], weights)
    limit = f"{plain_number(LIMIT_K)} K (3 to 5 by common practice; your house names its own)"
    if until.middle == inf:
        at = now + timedelta(hours=ROUND_EVERY_H)
        text = f"Read bottom and top again by {wall.time(at)}. They are not likely to part by {limit} within a day."
    else:
        at = now + timedelta(hours=until.middle)
        early = now + timedelta(hours=until.low)
        text = (
            f"Bottom and top may part by {limit} about {wall.time(at)}, at the earliest {wall.time(early)}. "
            "Read before, and turn by the thermometers."
        )
    return Step(text, at, ("What else is due: [[sheet:floor-round]].", *test), (FLOOR_GAS,), likely)


def _in_drum(batch: Batch, wall: Wall, ready_days: float) -> Step:
    turns = batch.of("drum", "cast")
    first, last = (turns[-1].utc + timedelta(hours=hours) for hours in DRUM_EVERY_H)
    test, counting = _testing(batch, wall, ready_days)
    text = (
        f"Turn the drum between {wall.time(first)} and {wall.time(last)}: every {plain_number(DRUM_EVERY_H[0])} to "
        f"{plain_number(DRUM_EVERY_H[1])} h (trade judgement). Keep its air on."
    )
    return Step(text, first, test, (DRUM,), ("drum", "readiness" if counting else "bed", "moisture"))


def mean_temps(batch: Batch, until: datetime) -> list[float]:
    """The mean bed temperature of each day since the cast [C], up to the last day with a reading.

    A day without a reading takes that of the day before, the first days that of the first reading.
    """
    assert batch.cast is not None
    days: dict[int, list[float]] = {}
    for entry in batch.of("bed"):
        bottom, top = batch.value(entry, "bottom_c"), batch.value(entry, "top_c")
        if bottom is not None and top is not None and batch.cast.utc <= entry.utc <= until:
            days.setdefault(int((entry.utc - batch.cast.utc).total_seconds() // 86_400), []).append((bottom + top) / 2)
    if not days:
        return []
    temps: list[float] = []
    first = days[min(days)]
    for day in range(max(days) + 1):
        read = days.get(day)
        temps.append(sum(read) / len(read) if read else temps[-1] if temps else sum(first) / len(first))
    return temps


def _testing(batch: Batch, wall: Wall, ready_days: float) -> tuple[tuple[str, ...], bool]:
    """When to begin counting, by the days at their temperatures; and whether that is now."""
    assert batch.cast is not None
    now = wall.now or batch.standing[-1].utc
    temps = mean_temps(batch, now)
    if not temps or not all(growth.BED_C.low <= temp <= growth.BED_C.high for temp in temps):
        return (), bool(batch.of("readiness"))
    house = {"reference_temp_c": 15.0, "reference_days": ready_days, "q10": growth.TYPICAL_Q10}
    elapsed = max((now - batch.cast.utc).total_seconds() / 86_400, 0.0)
    whole = [temps[min(n, len(temps) - 1)] for n in range(int(elapsed))]
    done = growth.share_done(temps_by_day=whole, **house) if whole else 0.0
    here = growth.pace(temp_c=temps[-1], reference_temp_c=15.0, q10=growth.TYPICAL_Q10) / ready_days
    done += (elapsed - int(elapsed)) * here
    left = max(0.0, (1.0 - done) / here)
    early = left - (BAND_SD * growth.DAYS_DOUBT * ready_days + 1.0)
    if early <= 0:
        return ("Count corns every day from now on: [[sheet:readiness]]. The grain decides, not the clock.",), True
    moment = now + timedelta(days=early)
    return (f"Begin counting corns {wall.time(moment)}, a day before it can be ready by its temperatures.",), False
