"""Whether a quick reading of moisture may steer: by its pairs, doubt, place and age, and the oven's own answer.

The oven stands over the quick way. Where both have read one sample, the oven's figure is the one that counts, and a
gap between them is said.
"""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from math import isfinite
from typing import Literal, NamedTuple

from .limits.quick_moisture import AGAINST_OVEN, AGE, COUNTED, DOUBT, OUTSIDE, PAIRS
from .lines import Line, passed, worst

Word = Literal["use", "careful", "look", "oven", "apart"]


class QuickVerdict(NamedTuple):
    """What a quick reading is good for.

    Attributes
    ----------
    word : str
        ``apart``: the oven has read this sample and lies outside of what the pairs let expect, or past a limit;
        ``oven``: it has, and agrees; ``look``: a stop is passed, so the reading decides nothing; ``careful``:
        something is watched; ``use``.
    lines : list of Line
        What was passed, stops first.
    """

    word: Word
    lines: list[Line]


def outside(pairs: list[float], reading: float) -> float:
    """How far a reading lies outside all that was tried, 0 when it lies among them [points]."""
    return max(0.0, min(pairs) - reading, reading - max(pairs))


def quick_verdict(
    *,
    tried: list[float],
    reading: float,
    half: float,
    corrected: float,
    age_days: float | None = None,
    corns: float | None = None,
    oven: float | None = None,
) -> QuickVerdict:
    """Judge one quick reading.

    Parameters
    ----------
    tried : list of float
        The quick readings of all pairs [%].
    reading : float
        The new one [%].
    half : float
        Half of the 95 % interval of the corrected reading [points]; infinite where nothing tells it.
    corrected : float
        The corrected reading [%].
    age_days : float, optional
        Days since the last pair.
    corns : float, optional
        How many were counted, where corns were weighed.
    oven : float, optional
        What the oven said of this very sample [%].

    Returns
    -------
    QuickVerdict
        The word and the lines that decided.
    """
    lines = worst(
        [
            passed(PAIRS, float(len(tried))),
            passed(DOUBT, half) if isfinite(half) else None,
            passed(OUTSIDE, outside(tried, reading)),
            passed(AGE, age_days),
            passed(COUNTED, corns),
        ]
    )
    if oven is not None:
        known = isfinite(half) and PAIRS.stop_low is not None and len(tried) >= PAIRS.stop_low
        gap = passed(AGAINST_OVEN, abs(oven - corrected)) if known else None
        apart = known and abs(oven - corrected) > half
        return QuickVerdict("apart" if apart or gap else "oven", worst([gap, *lines]))
    if any(line.mark == "stop" for line in lines):
        return QuickVerdict("look", lines)
    return QuickVerdict("careful" if lines else "use", lines)
