"""The steep of one batch through the model: as it went, as planned from here on, and as its readings bend it."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from ...models.bounds import STEEPED_MOISTURE, OutOfRange
from ...models.living.steep_run import warmed
from ...models.steep.course import Steep
from ...models.steep.doubt import TYPICAL, TYPICAL_BARLEY, Prior, Trust, moved
from ...models.steep.fit import FIRST_READING_H, Fit, fit
from ...models.steep.fit import Reading as Found
from ...models.steep.hydration import CORN_WEIGHT_G, STAGE_HOURS, STAGES, run, steep
from ...rules.steep_life import Lives
from .batch import Batch, Reading, Spell
from .lives import lives_of


class Stages(NamedTuple):
    """The stages of a steep for the model.

    ``pairs`` are hours [h] and water temperature [C], wet and dry by turns; the first ``done`` of them lie behind,
    and the one after that is under way unless the steep is over. ``assumed`` is true when no temperature was read.
    """

    pairs: list[tuple[float, float]]
    done: int
    assumed: bool


class Course(NamedTuple):
    """The forecast before the readings, and after them; ``left_out`` are readings that no steep can give.

    Its rests are as warm as ``lives`` lets them get, or as they were read.
    """

    stages: Stages
    before: Steep
    doubt_before: Trust
    fitted: Fit | None
    readings: list[Reading]
    left_out: list[Reading]
    lives: Lives

    @property
    def best(self) -> Steep:
        """The course to go by."""
        return self.fitted.course if self.fitted else self.before

    @property
    def trust(self) -> Trust:
        """Its doubt."""
        return self.fitted.trust if self.fitted else self.doubt_before


def stages_of(batch: Batch, now: datetime | None = None) -> Stages | str:
    """The stages of a batch: those that were, and the rest of the plan; or why there are none.

    Parameters
    ----------
    batch : Batch
        The batch.
    now : datetime, optional
        Up to when an open stage without a plan is counted, UTC; without it, up to the last entry.
    """
    plan = batch.plan
    expected = batch.number("water_temp_c")
    over = batch.cast is not None
    if not batch.spells:
        if expected is None or not plan:
            return "No water has been written yet, and no plan of the steep."
        return Stages([(h, expected if t is None else t) for h, t in plan], 0, True)
    latest = max(
        [entry.utc for entry in batch.standing if not over] + ([now] if now and not over else []), default=None
    )
    pairs: list[tuple[float, float]] = []
    temp, read, done = expected, False, 0
    for number, spell in enumerate(batch.spells):
        if spell.temps:
            temp, read = sum(spell.temps) / len(spell.temps), True
        if temp is None:
            later = next((s.temps for s in batch.spells if s.temps), None)
            if later is None:
                return "No water temperature was written, neither read nor expected."
            temp = sum(later) / len(later)
        end = spell.ended
        if end is None:
            elapsed = (latest - spell.begun).total_seconds() / 3600 if latest else 0.0
            hours = max(plan[number][0] if number < len(plan) else 0.0, elapsed, STAGE_HOURS.low)
        else:
            hours = (end - spell.begun).total_seconds() / 3600
            done = number + 1
        pairs.append((hours, temp))
    if not over:
        for hours, planned in plan[len(pairs) :]:
            pairs.append((hours, temp if planned is None or read else planned))  # type: ignore[arg-type]
    pairs = _workable(pairs)
    return Stages(pairs, min(done, len(pairs)), not read)


def _workable(pairs: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Stages shorter than the model takes are joined to their neighbours, so that no hour is lost."""
    joined: list[list[tuple[float, float]]] = []
    wet = True
    for hours, temp in pairs:
        short = hours < STAGE_HOURS.low and bool(joined)
        if joined and (short or (len(joined) % 2 == 1) == wet):
            joined[-1].append((hours, temp))
        else:
            joined.append([(hours, temp)])
        wet = not wet
    result = []
    for parts in joined:
        total = sum(h for h, _ in parts)
        share = sum(h * t for h, t in parts) / total if total else parts[0][1]
        result.append((max(total, STAGE_HOURS.low), share))
    return result


def course_of(batch: Batch, prior: Prior = TYPICAL_BARLEY, now: datetime | None = None) -> Course | str:
    """The steep of a batch, or a sentence that says why the model cannot follow it.

    Parameters
    ----------
    batch : Batch
        The batch.
    prior : Prior, optional
        What earlier batches of its lot say; without it, the typical barley.
    now : datetime, optional
        As for ``stages_of``.
    """
    own = batch.number("barley_moisture")
    if own is None:
        return "The barley’s own moisture is not written, or cannot be read."
    stages = stages_of(batch, now)
    if isinstance(stages, str):
        return stages
    weight = batch.number("corn_weight_g") or CORN_WEIGHT_G
    try:
        if len(stages.pairs) > STAGES.high:
            return f"There are {len(stages.pairs)} stages; the model follows {STAGES.high:g}."
        lives = lives_of(batch)
        if len(stages.pairs) < len(batch.spells):  # stages were joined: what was read belongs to none of them
            lives = lives._replace(rests=lives.rests._replace(held_c=()))
        cold = steep(barley_moisture=own, stages=stages.pairs, corn_weight_g=weight)
        typical, _ = warmed(cold, lives.rests)
    except OutOfRange as limit:
        where = f"Stage {limit.row + 1}: " if limit.row is not None else ""
        return (
            f"{where}the model does not follow this steep ({limit.parameter.replace('_', ' ')} from {limit.low:g} to "
            f"{limit.high:g})."
        )
    before, doubt_before = with_prior(typical, prior)
    good = [r for r in batch.readings if _possible(r, typical)]
    left_out = [r for r in batch.readings if r not in good]
    fitted = (
        fit(typical, [Found(min(r.hours, typical.hours), r.moisture, r.drained) for r in good], TYPICAL, prior)
        if good
        else None
    )
    return Course(stages, before, doubt_before, fitted, good, left_out, lives)


def open_until(course: Course, batch: Batch, spell: Spell, moment: datetime) -> tuple[Steep, Trust] | None:
    """The course with its open stage lasting until a moment and nothing after it, with its doubt.

    Parameters
    ----------
    course : Course
        The steep.
    batch : Batch
        The batch.
    spell : Spell
        Its open immersion or rest.
    moment : datetime
        Until when, UTC.

    Returns
    -------
    tuple of Steep and Trust, or None
        None where the model cannot follow: a stage too long, or stages that were joined to their neighbours.
    """
    begins_h = batch.hours_at(spell.begun)
    stages = course.best.steeping.stages
    start_h, place = 0.0, 0
    while place < len(stages) - 1 and start_h + stages[place].hours <= begins_h + 1e-9:
        start_h += stages[place].hours
        place += 1
    hours = batch.hours_at(moment) - start_h
    if (place % 2 == 0) != spell.wet or hours > STAGE_HOURS.high:
        return None
    kept = (*stages[:place], stages[place]._replace(hours=max(hours, STAGE_HOURS.low)))
    trust = course.trust
    return (
        run(course.best.steeping._replace(stages=kept)),
        trust.over(kept),
    )


_LAST_BIT_H = 1e-6
"""Hours of a steep are added up from its stages: its end and a reading at its end may part by the last bits [h]."""


def _possible(reading: Reading, course: Steep) -> bool:
    own = course.steeping.barley_moisture
    return (
        FIRST_READING_H <= reading.hours <= course.hours + _LAST_BIT_H
        and own <= reading.moisture <= STEEPED_MOISTURE.high
    )


def with_prior(typical: Steep, prior: Prior) -> tuple[Steep, Trust]:
    """The course of the typical barley moved to where the prior lies, with the doubt that is left."""
    trust = Trust(typical.steeping, TYPICAL, prior.mean, prior.covariance)
    return run(moved(typical.steeping, TYPICAL, prior.mean)), trust
