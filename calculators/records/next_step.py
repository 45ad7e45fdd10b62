"""The next step of a batch with its clock time, and the box on gas or machines that belongs to it."""

from __future__ import annotations

from datetime import datetime, timedelta

from ..cautions import KILN_DOOR
from ..figures import fixed, plain_number
from ..models.basket import basket_gross
from ..models.limits import OutOfRange
from ..rules.conventions import READY_DAYS
from ..steep_words import GAS
from .batch import LEACHED, Batch
from .course import Course
from .growing import in_drum, on_floor
from .kinds import DRUM as IN_DRUM
from .step import Step, Wall


def next_step(
    batch: Batch, course: Course | str, wall: Wall, ready_days: float = READY_DAYS, heat_factor: float = 1.0
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
    if batch.left:
        words = f"Gone to the kiln {wall.time(batch.left.utc)}. Nothing is left to do with it here."
        return Step(words, None, (), (KILN_DOOR,), ("remark", "moisture"))
    if batch.cast:
        if batch.vessel == IN_DRUM:
            return in_drum(batch, wall, ready_days)
        return on_floor(batch, wall, ready_days, heat_factor)
    if not batch.start and not batch.spells:
        return Step("Write the start of the batch.", None, (), (), ("start",))
    if not batch.spells:
        words = "Weigh the basket empty and with its barley, then water on. Write when it covers the grain."
        return Step(words, None, (), (GAS,), ("stage-begun", "water", "basket"))
    return _in_steep(batch, course, wall)


def _plan(batch: Batch) -> list[float]:
    return [float(hours) for hours, _ in batch.start.get("stages") or ()]


def _in_steep(batch: Batch, course: Course | str, wall: Wall) -> Step:
    number, spell = len(batch.spells), batch.spells[-1]
    plan = _plan(batch)
    due = spell.begun + timedelta(hours=plan[number - 1]) if number <= len(plan) else None
    last = number >= len(plan)
    if not spell.wet:
        return _in_rest(due, last, wall)
    more: list[str] = []
    target = batch.number("target_moisture")
    if isinstance(course, Course) and target is not None and last:
        due = _on_target(batch, course, target, wall, more) or due
    if due is None:
        text = "Drain when the basket is on weight. No plan of the steep is written, so there is no hour to name."
    elif wall.late(due):
        text = f"The drain was due at {wall.time(due)}."
    else:
        text = f"Drain at {wall.time(due)}."
    if isinstance(course, Course) and due is not None:
        text += _should_read(batch, course, due)
    elif isinstance(course, str):
        more.append(course)
    return Step(text, due, tuple(more), (GAS,), ("stage-ended", "basket", "water"))


def _in_rest(due: datetime | None, last: bool, wall: Wall) -> Step:
    if due is None or last:
        by = f" The plan ends at {wall.time(due)}." if due else ""
        text = f"Look whether it is ready for the cast: chits, smell, moisture, warmth.{by}"
        more = ("What argues for it: [[sheet:cast-decision]]. How: [[page:procedures/casting|casting]].",)
        return Step(text, due, more, (GAS,), ("cast", "stage-begun", "basket"))
    said = "Water on was due at" if wall.late(due) else "Water on at"
    text = f"{said} {wall.time(due)}. Suction until then."
    return Step(text, due, (), (GAS,), ("stage-begun", "basket", "moisture"))


def _on_target(batch: Batch, course: Course, target: float, wall: Wall, more: list[str]) -> datetime | None:
    """When the last immersion reaches the target, by what is known; the plan's own hour stands beside it."""
    try:
        needed = course.best.last_immersion_needed_h(target)
    except OutOfRange:
        return None
    begun = batch.begun
    if begun is None:
        return None
    if needed is None:
        if course.best.drained_before_last_immersion >= target:
            more.append(f"By the model the target of {plain_number(target)} % was reached before this immersion.")
        else:
            more.append(f"By the model this immersion does not reach the target of {plain_number(target)} %.")
        return None
    moment = begun + timedelta(hours=course.best.last_immersion_start_h + needed)
    rests = f"{len(course.readings)} readings" if course.readings else "the model alone"
    more.append(f"{plain_number(target)} % by {rests}; weigh an hour before.")
    return moment


def _should_read(batch: Batch, course: Course, due: datetime) -> str:
    """What the basket should read at the drain, with its band; the moisture where there is no basket."""
    hours = min(max(batch.hours_at(due), 0.0), course.best.hours)
    moisture = course.best.at(hours).drained
    band = course.trust.band([hours])
    low, high = band.low[0], band.high[0]
    known = [batch.number(name) for name in ("basket_g", "sample_g", "barley_moisture")]
    if None not in known:
        grams = []
        for value in (moisture, low, high):
            try:
                grams.append(
                    basket_gross(
                        moisture=value,
                        basket_g=known[0],  # type: ignore[arg-type]
                        sample_g=known[1],  # type: ignore[arg-type]
                        barley_moisture=known[2],  # type: ignore[arg-type]
                        dry_matter_lost=LEACHED,
                    )
                )
            except OutOfRange:
                break
        else:
            return (
                f" The basket should read {fixed(grams[0], 0)} g ({fixed(grams[1], 0)} to {fixed(grams[2], 0)}), "
                f"which is {fixed(moisture, 0)} %."
            )
    return f" It should hold {fixed(moisture, 0)} % drained ({fixed(low, 0)} to {fixed(high, 0)})."
