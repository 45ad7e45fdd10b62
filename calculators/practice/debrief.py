"""The debrief: the courses, where they parted, four lines and no total, and where to go back to."""

from collections import OrderedDict

from ..rules.limit import edge
from ..rules.limits import casting, steeping
from . import brought
from .faults import words_of
from .good_hand import next_step
from .grain import course_of, grain_of
from .harms import under_water
from .hidden import described
from .kinds import Debrief, Grain, Read
from .moves import ACTIONS, as_text, read_move
from .opening import opened
from .players import run_on
from .run import CASTS, USUAL, Run, clock
from .setting import Setting
from .tempts import BY_NAME
from .turning_points import points_of
from .view import Step

_GOOD: "OrderedDict[tuple[object, ...], tuple[Run, list[Step]]]" = OrderedDict()
_MOST_KEPT = 8

PRICES = {
    "fi": "without the first water nobody can count the hours of the steep",
    "dr": "without the drain nobody can say how long it lay under water",
    "we": "without it nobody knows which water this is",
    "cf": "without the cast nobody can count its days",
    "cw": "without the cast nobody can count its days",
    "cd": "without the cast nobody can count its days",
    "dt": "without the turning nobody knows how long it has lain",
    "tu": "without the turning nobody knows how long it has lain",
    "br": "without it nobody knows how long the couch lay",
    "sp": "without the litres the next moisture explains nothing",
    "ld": "without the load the kiln’s people do not know what they have",
}
"""Action -> what it costs when it is not in the book."""


def good_run(
    number: int, level: str, faults: str, setting: Setting = USUAL, brought: tuple[tuple[int, float], ...] = ()
) -> tuple[Run, list[Step]]:
    """Give the good hand's run on a number, and its steps; kept for the next time it is asked."""
    key = (number, level, faults, setting, brought)
    if key not in _GOOD:
        run, steps = run_on(opened(number, level, faults, setting), next_step, brought=brought)
        _GOOD[key] = run, steps
    _GOOD.move_to_end(key)
    while len(_GOOD) > _MOST_KEPT:
        _GOOD.popitem(last=False)
    return _GOOD[key]


def debrief_of(run: Run, level: str, faults: str) -> Debrief:
    """Give the debrief of a run as it stands.

    Parameters
    ----------
    run : Run
        The learner's run.
    level, faults : str
        As for ``play``; the good hand plays the same.
    """
    setting = run.setting
    if cast := run.last_done(*CASTS):  # it goes where the learner cast
        vessel = "drum" if (cast, "cd") in {(minute, code) for minute, code, _, _ in run.done} else "floor"
        setting = setting._replace(vessel=vessel)
    good, steps = good_run(run.number, level, faults, setting, tuple(run.brought))
    points = points_of(run, good, steps)
    yours, theirs = grain_of(run), grain_of(good)
    moves = [move for step in steps if (move := read_move(step.move))]
    return Debrief(
        course_of(run),
        course_of(good),
        tuple(run.reads),
        points,
        _people(run),
        _grain(run, yours, theirs),
        _book(run),
        _guessing(run.reads),
        described(run.world.this),
        tuple(dict.fromkeys(_back(run, minute) for minute in _moments(run, [point.before for point in points]))),
        (*words_of(_from_the_start(run), run.planned_water_c), *brought.in_words(run.brought)),
        yours,
        theirs,
        as_text(moves),
        run.setting.target,
    )


def _from_the_start(run: Run) -> tuple[str, ...]:
    begun = {brought.BRINGS[int(number) - 1] for _, number in run.brought}
    return tuple(name for name in run.faults if name not in begun)


def _people(run: Run) -> str:
    if run.ended == "never":
        return run.people[-1]
    met = [name for name in BY_NAME if name in run.happened and name != run.event]
    stands = "Something tempts, and is not answered yet." if run.event in BY_NAME else ""
    if not met:
        return stands or "Nothing tempted in this run. In the next one it may."
    times = "once" if len(met) == 1 else f"{len(met)} times"
    said = f"Something tempted {times}; you took the slower way. The page says why."
    return f"{said} {stands}".strip()


def _grain(run: Run, yours: Grain, theirs: Grain) -> str:
    when = "at the cast" if run.cast else "now"
    said = (
        f"Moisture {when} {yours.moisture:.1f} % (wanted {run.setting.target:g}; good hand {theirs.moisture:.1f}), "
        f"chitted {yours.chit:.0f} % ({theirs.chit:.0f}), dry matter lost {yours.loss:.1f} % ({theirs.loss:.1f})."
    )
    drowned = under_water(run)
    near = abs(yours.moisture - run.setting.target) <= edge(casting.OFF_TARGET.accept_high)
    unchitted = _unchitted(yours, theirs) if near or drowned or run.cast else ""  # else it has its time still
    said += "".join(f" {words}" for words in (drowned, unchitted) if words)
    if run.cast and (yours.turned or theirs.turned):
        times = "once" if yours.turned == 1 else f"{yours.turned} times"
        said += f" Turned {times} in {yours.bed_h:.0f} h (good hand {theirs.turned} in {theirs.bed_h:.0f})."
    if run.loaded:
        said += f" Moisture at the kiln {yours.at_kiln:.1f} % ({theirs.at_kiln:.1f})."
        said += (
            f" At the kiln {yours.ready:.0f} % at three quarters ({theirs.ready:.0f}), {yours.overshot:.0f} % overshot "
            f"({theirs.overshot:.0f}), {yours.even:.0f} % in two neighbouring classes ({theirs.even:.0f})."
        )
    return said


def _unchitted(yours: Grain, theirs: Grain) -> str:
    """Give what a right moisture does not say of grain that has not chitted where the good hand's has; else blank."""
    least = edge(steeping.CHIT_LAST_DIP.stop_low)
    if yours.chit >= least or theirs.chit < least:
        return ""
    how = f"Only {yours.chit:.0f} of 100 corns have" if round(yours.chit) else "Not one corn in a hundred has"
    return f"{how} chitted: without the chit the right moisture makes no malt."


def _book(run: Run) -> str:
    mine = [(m, code) for m, code, _, by in run.done if by == "you" and code in ACTIONS and code not in ("xo", "ho")]
    lines = {(line.minute, line.words) for line in run.book}
    minutes = {minute for minute, _ in lines}
    gaps = [(minute, code) for minute, code in mine if minute not in minutes]
    told = ""
    if run.gaps:
        told = f" Not in the book when it was handed over: {'; '.join(run.gaps[:3])}"
    if not mine:
        return "You did nothing that has to stand in the book."
    said = f"{len(mine) - len(gaps)} of the {len(mine)} things you did stand in the book."
    for minute, code in sorted(gaps, key=lambda gap: gap[1] not in PRICES)[:2]:
        price = f": {PRICES[code]}" if code in PRICES else ""
        said += f" Not written: {ACTIONS[code].lower()}, {clock(minute)}{price}."
    return said + told


def _guessing(reads: list[Read]) -> str:
    """Say how near the guesses came to what was read, and whether they were too sure."""
    guessed = [read for read in reads if read.expected is not None and read.value is not None]
    if not guessed:
        return "You typed nothing that you expected. The guess before the reading is where one learns."
    wet = [read for read in guessed if read.code in ("bd", "bp")]
    warm = [read for read in guessed if read.code == "by"]
    counts = [read for read in guessed if read.code in ("ch", "ac")]
    parts = []
    for name, unit, some in (("Moisture", "points", wet), ("Bottom", "K", warm), ("Counts", "points", counts)):
        if some:
            off = sum(abs((read.expected or 0.0) - (read.value or 0.0)) for read in some) / len(some)
            parts.append(f"{name}: off by {off:.1f} {unit} on average, {len(some)} guessed.")
    sure = [read for read in guessed if read.sure is not None]
    if sure:
        inside = sum(abs((read.expected or 0.0) - (read.value or 0.0)) <= (read.sure or 0.0) for read in sure)
        parts.append(f"{inside} of {len(sure)} lay within your give or take{_sure(inside, len(sure))}.")
    return " ".join(parts)


def _sure(inside: int, of: int) -> str:
    if of < 3:
        return ""
    return ": you were too sure" if inside < 0.5 * of else ": you could dare more" if inside == of and of > 4 else ""


def _moments(run: Run, points: list[int]) -> list[int]:
    """Give where to go back to: before each turning point, or to the beginning."""
    return points or [run.begins]


def _back(run: Run, minute: int) -> tuple[str, int, str]:
    """Give the run up to the last move that was over by a minute: what was done across it can be done otherwise."""
    count = sum(at <= minute for at in run.taken_at) - 1
    at = run.taken_at[count] if count >= 0 else run.begins
    return clock(at), at, as_text(run.taken[: max(count, 0)])
