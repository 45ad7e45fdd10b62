"""Readings and weighings of a steep, checked against what a steep can do before they are believed."""

from __future__ import annotations

from collections.abc import Sequence

from ..asking.declare import AskAgain, Note
from ..asking.figures import few_digits, fixed, plain_number
from ..models.steep.course import Steep
from ..models.steep.fit import FIRST_READING_H, ODD_SD, Fit, Reading, fit
from ..models.weights.basket import basket_moisture
from .basket import does_not_fit

FALL_POINTS = 0.5
"""Two weighings may scatter by so much; a larger fall under water is a slip [points]."""

Rows = Sequence[tuple[float, float]]


def begins_wet(question: str, stages: Sequence[tuple[float, float | None]]) -> None:
    """Refuse a schedule that begins with a rest, written as an immersion of no length.

    Raises
    ------
    AskAgain
        When the first stage has no hours.
    """
    if stages[0][0] == 0.0:
        raise AskAgain(
            question,
            "an immersion of 0 h in row 1 means that the steep begins with a rest. Dry barley takes up nothing in a "
            "rest. Leave out both rows, and count all hours from the moment the water covers the barley.",
            1,
        )


def weighed(
    rows: Rows, *, basket_g: float, sample_g: float, barley_moisture: float, dry_matter_lost: float
) -> list[tuple[float, float]]:
    """Turn weighings (hours, gross grams) into readings (hours, moisture in % as weighed).

    Raises
    ------
    AskAgain
        When a weight does not fit the basket.
    """
    readings = []
    basket = {
        "basket_g": basket_g,
        "sample_g": sample_g,
        "barley_moisture": barley_moisture,
        "dry_matter_lost": dry_matter_lost,
    }
    for number, (hours, gross) in enumerate(rows, 1):
        if wrong := does_not_fit(gross, **basket):
            raise AskAgain("weighings", f"row {number}: {wrong}", number)
        moisture = basket_moisture(gross_g=gross, **basket)
        readings.append((hours, moisture))
    return readings


def check_readings(question: str, readings: Rows, course: Steep, notes: list[Note]) -> None:
    """Ask again about readings that no steep can give.

    Parameters
    ----------
    question : str
        Id of the question they were typed into.
    readings : sequence of (hours, moisture)
        Hours from the start, % of wet weight.
    course : Steep
        The forecast; its stages say when the corns were under water.
    notes : list of Note
        A fall in an air rest is noted, not refused.

    Raises
    ------
    AskAgain
        For a reading at time 0, out of order, after the last stage, drier than the barley, or lower than the
        one before it under the same water.
    """
    own = course.steeping.barley_moisture
    stage_ends = [end.hours for end in course.ends]
    before: tuple[float, float] | None = None
    for number, (hours, moisture) in enumerate(readings, 1):
        at = f"row {number}: {plain_number(hours)} h"
        if hours < FIRST_READING_H:
            raise AskAgain(
                question,
                f"{at} is the start. What the barley holds then is its own moisture, {plain_number(own)} %, which is "
                f"asked above. Give readings from {plain_number(FIRST_READING_H)} h on.",
                number,
            )
        if hours > course.hours:
            raise AskAgain(
                question,
                f"{at} is after the last stage, which ends at {few_digits(course.hours, 4)} h. Change the hours, or "
                "add the stage.",
                number,
            )
        if before and hours < before[0]:
            raise AskAgain(
                question,
                f"{at} comes before {plain_number(before[0])} h in row {number - 1}. Type the rows in order of time; "
                "hours count from the start of the first immersion.",
                number,
            )
        if moisture < own:
            raise AskAgain(
                question,
                f"row {number}: {fixed(moisture, 1)} % is less than the barley’s own {plain_number(own)} %. Weigh "
                "again, or correct the barley’s moisture.",
                number,
            )
        if before and before[1] - moisture > FALL_POINTS:
            fall = (
                f"row {number}: {fixed(moisture, 1)} % is less than {fixed(before[1], 1)} % "
                f"at {plain_number(before[0])} h"
            )
            if _same_immersion(before[0], hours, stage_ends):
                raise AskAgain(
                    question,
                    f"{fall}, and the grain was under water between. Barley under water does not get drier. "
                    "Weigh again, drained the same way each time, or take the wrong row out.",
                    number,
                )
            notes.append(
                Note(
                    "notice",
                    f"{fall[0].upper()}{fall[1:]}. Only a rest with strong suction dries the grain, and only a "
                    "little. Weigh again, drained as long as the first time.",
                )
            )
        before = (hours, moisture)


def _same_immersion(earlier: float, later: float, stage_ends: Sequence[float]) -> bool:
    """Whether two hours lie in one immersion; stages are wet and dry by turns, wet first."""
    first = next(n for n, end in enumerate(stage_ends) if earlier <= end)
    second = next(n for n, end in enumerate(stage_ends) if later <= end)
    return first == second and first % 2 == 0


def _apart(readings: Sequence[Reading], course: Steep, labels: Sequence[str]) -> str:
    """Of two readings nothing tells which one is off."""
    first, second = readings
    led_to = fit(course, [first]).course.at(second.hours)[int(second.drained)]
    return (
        f"The two readings contradict each other: {labels[0]} leads to about {fixed(led_to, 1)} % at "
        f"{plain_number(second.hours)} h, not to {fixed(second.moisture, 1)} %. Nothing tells which one is off. Weigh "
        "again. Check how long it dripped, the barley’s moisture and the stages. If one was a slip, take it out."
    )


def contradictions(
    readings: Sequence[Reading], course: Steep, fitted: Fit, labels: Sequence[str], notes: list[Note]
) -> list[bool]:
    """Say which readings contradict the others, and what the others led one to expect.

    Parameters
    ----------
    readings : sequence of Reading
        All of them, as fitted.
    course : Steep
        The forecast before any reading.
    fitted : Fit
        The fit to all.
    labels : sequence of str
        What to call each reading.
    notes : list of Note
        One is put in front for each reading that stands alone.

    Returns
    -------
    list of bool
        True for a reading that stands alone.
    """
    if len(readings) == 2 and any(fitted.odd):
        notes.insert(0, Note("notice", _apart(readings, course, labels)))
        return [True, True]
    alone = []
    for number, (reading, odd) in enumerate(zip(readings, fitted.odd, strict=True)):
        others = [r for n, r in enumerate(readings) if n != number and not fitted.odd[n]]
        expected = reading.moisture
        if odd:
            expected = (fit(course, others).course if others else course).at(reading.hours)[int(reading.drained)]
        alone.append(abs(expected - reading.moisture) > ODD_SD * reading.sd_points)
        if alone[-1]:
            by = "the other readings lead to" if others else "a typical barley shows"
            text = (
                f"The reading of {labels[number]} stands alone: {by} about {fixed(expected, 1)} % there. Weigh again. "
                "Check how long it dripped, the barley’s moisture and the stages. If it was a slip, take it out."
            )
            notes.insert(0, Note("notice", text))
    return alone
