"""Where the learner's course and the good hand's parted most: what was known, what it did, which page teaches it."""

from typing import NamedTuple

from .harms import Harm, harms
from .kinds import Point, Read
from .looking import MINUTES, OVEN_TAKES_MIN
from .moves import ACTIONS
from .run import CASTS, Run, clock
from .scenes import page_at
from .view import Step

MOST_POINTS = 3
DONE = tuple(code for code in ACTIONS if code not in ("wr", "xo", "xx", "ho"))
_SPAN_MIN, _APART_MIN, _SAME_MIN = 6 * 60, 8 * 60, 30
_LEAST = 0.35
_WARMTH_K, _SHARE_POINTS, _COUCH_H = 2.0, 10.0, 12.0
"""Kelvin, points of a count and hours of a couch that count as much as a point of moisture: our convention."""


class Parting(NamedTuple):
    """An hour, by how much the courses part over the hours from it, and what came of it where that is known."""

    minute: int
    by: float
    did: str = ""


class Done(NamedTuple):
    """One thing that was done: when, its code, by whom."""

    minute: int
    code: str
    by: str


def partings(run: Run, good: Run) -> list[Parting]:
    """Give where the courses parted most by something that was done, the greatest first, hours apart."""
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
    for one in sorted([*found, *decisions(run, good)], key=lambda one: -one.by):
        if one.by < _LEAST or len(chosen) == MOST_POINTS:
            break
        if all(abs(one.minute - other.minute) >= _APART_MIN for other in chosen) and any(unlike(run, good, one.minute)):
            chosen.append(one)
    return chosen


def unlike(run: Run, good: Run, minute: int) -> tuple[list[Done], list[Done]]:
    """Give what only the learner did in the hours about a minute, and what only the good hand did.

    The same done within half an hour of each other is no difference, and nothing is that came after the run.
    """
    begin, end = _hours_about(run, minute)
    wider = begin - _SAME_MIN, end + _SAME_MIN
    return (
        _only(_done_in(run, begin, end), _done_in(good, *wider)),
        _only(_done_in(good, begin, end), _done_in(run, *wider)),
    )


def _hours_about(run: Run, minute: int) -> tuple[int, int]:
    return minute - 60, min(minute + _SPAN_MIN, run.minute)


def _only(some: list[Done], others: list[Done]) -> list[Done]:
    left, found = list(others), []
    for one in some:
        same = next((b for b in left if b.code == one.code and abs(b.minute - one.minute) <= _SAME_MIN), None)
        if same:
            left.remove(same)
        else:
            found.append(one)
    return found


def decisions(run: Run, good: Run) -> list[Parting]:
    """Give the cast, the broken couch and the load where the two did them unlike, weighed by what came of it."""
    found = []
    cast = _both(run, good, *CASTS)
    if cast and run.cast and good.cast:
        chit, theirs = 100.0 * run.cast.chitted(), 100.0 * good.cast.chitted()
        wet, their_wet = (one.mean(lambda zone: zone.drained) for one in (run.cast, good.cast))
        by = abs(chit - theirs) / _SHARE_POINTS + abs(wet - their_wet)
        said = f"You cast with {chit:.0f} % chitted, {wet:.1f} % wet; "
        said += f"the good hand with {theirs:.0f} and {their_wet:.1f} %."
        found.append(Parting(min(cast), by, said))
    broken = _both(run, good, "br")
    began, their_began = run.last_done(*CASTS), good.last_done(*CASTS)
    if broken and began is not None and their_began is not None:
        lay, their_lay = (broken[0] - began) / 60.0, (broken[1] - their_began) / 60.0
        said = f"Your couch lay {lay:.0f} h, the good hand’s {their_lay:.0f} h."
        found.append(Parting(min(broken), abs(lay - their_lay) / _COUCH_H, said))
    loaded = _both(run, good, "ld")
    if loaded and run.loaded and good.loaded:
        mine, theirs_too = run.loaded.classes(), good.loaded.classes()
        ready, their_ready = (100.0 * (some[3] + some[4]) for some in (mine, theirs_too))
        over, their_over = 100.0 * mine[4], 100.0 * theirs_too[4]
        by = (abs(ready - their_ready) + 2.0 * abs(over - their_over)) / _SHARE_POINTS
        said = (
            f"You loaded with {ready:.0f} % at three quarters and {over:.0f} % overshot, the good hand with "
            f"{their_ready:.0f} and {their_over:.0f} %."
        )
        found.append(Parting(min(loaded), by, said))
    return found


def _both(run: Run, good: Run, *codes: str) -> tuple[int, int] | None:
    """Give when each did it, where both did and the learner after the run began."""
    mine, theirs = run.last_done(*codes), good.last_done(*codes)
    return None if mine is None or theirs is None or mine < run.begins else (mine, theirs)


def points_of(run: Run, good: Run, steps: list[Step]) -> tuple[Point, ...]:
    """Give up to three turning points: limits that were passed first, then the others in the order of time.

    Parameters
    ----------
    run : Run
        The learner's.
    good : Run
        The good hand's on the same number.
    steps : list of Step
        Its steps, with why.
    """
    whys = dict(zip(good.taken_at, steps, strict=False))
    first = harms(run, good)[:MOST_POINTS]
    others = [one for one in partings(run, good) if not any(_of_harm(run, good, one, harm) for harm in first)]
    others = sorted(others[: MOST_POINTS - len(first)])
    return (*(_passed(run, good, harm) for harm in first), *(_parted(run, good, whys, one) for one in others))


def _of_harm(run: Run, good: Run, part: Parting, harm: Harm) -> bool:
    """Whether a parting comes of a limit that has been named: all of dead grain, of hot all but decisions."""
    minute = part.minute
    if harm.kind.kills:
        return minute > harm.before - 60
    if harm.stops:
        return not part.did and harm.span.began - _SPAN_MIN <= minute <= harm.span.ended
    codes = {one.code for some in unlike(run, good, minute) for one in some}
    return codes <= {*harm.kind.begins, *harm.kind.ends} and harm.before - _APART_MIN < minute < harm.span.ended


def _passed(run: Run, good: Run, harm: Harm) -> Point:
    codes = (*harm.kind.begins, *harm.kind.ends)
    about = _done_in(good, harm.span.began - 60, harm.passed + _SPAN_MIN)
    acts = [one for one in about if one.code in codes]
    theirs = f"{_acts(acts)} {harm.theirs}" if acts and harm.longest_h else harm.theirs
    did = harm.against
    if harm.kind.kills:
        did += f" Chitted now: {100.0 * run.world.chitted():.0f} %."
    return Point(
        harm.before,
        _known(run, harm.before),
        harm.said,
        theirs,
        did,
        page_at(run, harm.before),
        harm.before,
    )


def _parted(run: Run, good: Run, whys: dict[int, Step], part: Parting) -> Point:
    begin, end = _hours_about(run, part.minute)
    mine, theirs = unlike(run, good, part.minute)
    acted = (mine or theirs)[0].minute
    reasons = [step.why for minute, step in whys.items() if begin <= minute <= end and step.move[:2] in DONE]
    if part.did and not _done_in(good, begin, end):  # it let be: what it thought last before
        reasons = [step.why for minute, step in whys.items() if begin - 60 <= minute <= part.minute + 60]
    said = _acts(_done_in(good, begin, end))
    if reasons:
        said += f" It thought: {reasons[-1]}"
    return Point(
        acted,
        _known(run, acted),
        _acts(_done_in(run, begin, end)),
        said,
        part.did or _did(run, good, part.minute),
        page_at(run, acted),
        min(one.minute for one in (*mine, *theirs)),
    )


def known_at(read: Read) -> int:
    """Give the minute at which a reading was known: when it was done, and of an oven when its answer came."""
    return read.minute + (OVEN_TAKES_MIN if read.code == "ov" else MINUTES[read.code])


def _known(run: Run, minute: int) -> str:
    first = max(minute - 24 * 60, run.begins)
    before = [read for read in run.reads if first <= read.minute and known_at(read) <= minute]
    if not before:
        return "Nothing had been read in the day before."
    return " ".join(f"{clock(read.minute)}: {read.words}" for read in before[-2:])


def _done_in(run: Run, begin: int, end: int) -> list[Done]:
    return [Done(minute, code, by) for minute, code, _, by in run.done if begin <= minute <= end and code in DONE]


def _acts(done: list[Done]) -> str:
    said = [
        f"{ACTIONS[code].lower()} ({clock(minute)}{'' if by == 'you' else f', {by}'})" for minute, code, by in done[:4]
    ]
    words = ", ".join(said)
    return f"{words[0].upper()}{words[1:]}." if said else "Left it as it was."


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
