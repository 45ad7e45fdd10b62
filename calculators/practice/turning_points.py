"""Where the learner's course and the good hand's parted most: what was known, what it did, which page teaches it."""

from typing import NamedTuple

from .kinds import Point, Read
from .looking import MINUTES, OVEN_TAKES_MIN
from .moves import ACTIONS
from .run import Run, clock
from .scenes import page_at
from .view import Step

MOST_POINTS = 3
DONE = tuple(code for code in ACTIONS if code not in ("wr", "xo", "xx", "ho"))
_SPAN_MIN, _APART_MIN = 6 * 60, 8 * 60
_LEAST = 0.35
_WARMTH_K = 2.0
"""Kelvin that count as much as a point of moisture: our convention."""


class Parting(NamedTuple):
    """An hour, and by how much the courses part over the hours from it."""

    minute: int
    by: float


def partings(run: Run, good: Run) -> list[Parting]:
    """Give the hours from which the courses parted most, the greatest first, hours apart from one another."""
    theirs = {minute: (moisture, temp) for minute, moisture, temp in good.sampled}
    gaps = {
        minute: abs(moisture - theirs[minute][0]) + abs(temp - theirs[minute][1]) / _WARMTH_K
        for minute, moisture, temp in run.sampled
        if minute in theirs and minute >= run.begins
    }
    found = [
        Parting(minute, gaps[minute + _SPAN_MIN] - gap) for minute, gap in gaps.items() if minute + _SPAN_MIN in gaps
    ]
    chosen: list[Parting] = []
    for one in sorted(found, key=lambda one: -one.by):
        if one.by < _LEAST or len(chosen) == MOST_POINTS:
            break
        if all(abs(one.minute - other.minute) >= _APART_MIN for other in chosen):
            chosen.append(one)
    return chosen


def points_of(run: Run, good: Run, steps: list[Step]) -> tuple[Point, ...]:
    """Give up to three turning points, in the order of time.

    Parameters
    ----------
    run : Run
        The learner's.
    good : Run
        The good hand's on the same number.
    steps : list of Step
        Its steps, with why.
    """
    whys = {}
    for minute, step in zip(good.taken_at, steps, strict=False):
        whys[minute] = step
    found = []
    for part in sorted(partings(run, good)):
        begin, end = part.minute - 60, part.minute + _SPAN_MIN
        reasons = [step.why for minute, step in whys.items() if begin <= minute <= end and step.move[:2] in DONE]
        theirs = _acts(good, begin, end)
        if reasons:
            theirs += f" It thought: {reasons[-1]}"
        found.append(
            Point(
                part.minute,
                _known(run, part.minute),
                _acts(run, begin, end),
                theirs,
                _did(run, good, part.minute),
                page_at(run, part.minute),
            )
        )
    return tuple(found)


def known_at(read: Read) -> int:
    """Give the minute at which a reading was known: when it was done, and of an oven when its answer came."""
    return read.minute + (OVEN_TAKES_MIN if read.code == "ov" else MINUTES[read.code])


def _known(run: Run, minute: int) -> str:
    first = max(minute - 24 * 60, run.begins)
    before = [read for read in run.reads if first <= read.minute and known_at(read) <= minute]
    if not before:
        return "Nothing had been read in the day before."
    return " ".join(f"{clock(read.minute)}: {read.words}" for read in before[-2:])


def _acts(run: Run, begin: int, end: int) -> str:
    said = [
        f"{ACTIONS[code].lower()} ({clock(minute)}{'' if by == 'you' else ', next shift'})"
        for minute, code, _, by in run.done
        if begin <= minute <= end and code in DONE
    ]
    return f"{', '.join(said[:4]).capitalize()}." if said else "Left it as it was."


def _did(run: Run, good: Run, minute: int) -> str:
    end = minute + _SPAN_MIN
    mine = next((one for one in run.sampled if one[0] == end), None)
    theirs = next((one for one in good.sampled if one[0] == end), None)
    if mine is None or theirs is None:
        return ""
    wet, warm = mine[1] - theirs[1], mine[2] - theirs[2]
    return (
        f"At {clock(end)} your batch was {abs(wet):.1f} points {'wetter' if wet > 0 else 'drier'} and "
        f"{abs(warm):.1f} K {'warmer' if warm > 0 else 'cooler'} than the good hand’s."
    )
