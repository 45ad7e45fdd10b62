"""One move taken: a reading, an action, a wait, or an answer to what tempts."""

from . import brought, tempts
from .kinds import Line, Read
from .looking import MINUTES, look
from .moves import ACTIONS, READINGS, Move
from .night import night
from .offers import NUMBERS, TAKES, offers_of
from .run import PLAN_H, Run, clock

COUCH_CM, BROKEN_CM, USUAL_LITRES = 30.0, 14.0, 20.0
KILN_WAITS_MIN = 120
MOST_WAIT_MIN = 1440


def apply(run: Run, move: Move, *, opening: bool = False) -> bool:
    """Take one move.

    Parameters
    ----------
    run : Run
        The run; it is changed.
    move : Move
        What is done.
    opening : bool, optional
        Whether others did it, before a piece begins: then nothing tempts, and the book says it was they.

    Returns
    -------
    bool
        False where it is not offered now: then nothing happened.
    """
    if move.code == "bi":
        return bring(run, move.number)
    if move.code not in {offer.code for offer in offers_of(run)}:
        return False
    number = move.number
    wanted = NUMBERS.get(move.code)
    if number is not None and wanted and not wanted.low <= number <= wanted.high:
        return False
    if move.code in ("wa", "ut", "pm") and number is None:
        return False
    if move.code == "ut" and (number or 0) % 100 > 59:
        return False
    run.said = ""
    if run.event in tempts.BY_NAME:
        _answer(run, move.code)
        return True
    if move.code == "ho":
        night(run, move.orders)
        return True
    run.event = ""
    if move.code in ("nx", "wa", "ut", "us"):
        _wait(run, move, opening)
    elif move.code in READINGS:
        _read(run, move)
    elif move.code == "wr":
        _write(run)
    elif move.code == "st":
        run.write("Stopped, and told the shift lead.")
        run.ended = "stopped"
    else:
        act(run, move.code, number, "others" if opening else "you")
        _pass(run, TAKES[move.code], opening)
        if run.world.where == "gone" and not run.ended and "hurry" not in run.tempts:
            run.ended = "kiln"
        if run.piece and move.code in run.piece.until and not opening:
            run.ended = run.ended or "piece"
    return True


def bring(run: Run, number: float | None) -> bool:
    """Let a trainer bring something in; give whether it came.

    Parameters
    ----------
    run : Run
        The run; it is changed.
    number : float or None
        Which, as ``brought`` has them; None to have an event drawn.
    """
    name = "" if run.ended or run.event else brought.chosen(run, number)
    if not name:
        return False
    run.said = ""
    run.brought.append((run.minute, float(brought.BRINGS.index(name) + 1)))
    if name in brought.BEGIN_NOW:
        brought.begin(run, name)
    else:
        _note(run, name)
    return True


def _pass(run: Run, minutes: int, opening: bool = False) -> None:
    """Let time pass, and note what happened in it; nothing breaks a job that has begun."""
    until = run.minute + minutes
    run.go_on(until)
    for _ in range(6):
        happens = None if opening or run.event or run.ended else run.happens(until)
        if not happens:
            break
        _note(run, happens[1])


def _wait(run: Run, move: Move, opening: bool) -> None:
    until = run.minute + MOST_WAIT_MIN
    if move.code == "wa":
        until = run.minute + int(move.number or 0)
    elif move.code == "ut":
        hour, minute = divmod(int(move.number or 0), 100)
        wanted = (hour * 60 + minute - 360) % 1440
        until = run.minute - run.minute % 1440 + wanted
        until += 1440 if until <= run.minute else 0
    elif move.code == "nx":
        planned = run.planned()
        until = planned[0] if planned and planned[0] > run.minute else run.minute + 60
    happens = None if opening else run.happens(until)
    if happens and happens[0] <= until:
        run.go_on(happens[0])
        _note(run, happens[1])
    else:
        run.go_on(until)


def _note(run: Run, what: str) -> None:
    """Say what happened."""
    if what == "end":
        run.ended = "piece" if run.piece else "time"
    elif what == "oven":
        run.oven_came()
    elif what == "kiln":
        run.kiln_calls()
    else:
        run.event = what
        if what != "shift":
            run.happened.add(what)
            if run.world.where != "drum":  # the drum's own lock stays on
                run.locks = []


def _read(run: Run, move: Move) -> None:
    seen = run.world.seen_at(run.minute)
    found = look(seen, move.code, run.number, run.minute)
    if move.code == "ov":
        run.oven_started(found.value or 0.0, found.truth or 0.0)
        run.said = "A sample is in the oven. Its answer comes tomorrow."
    else:
        run.said = found.words
        run.reads.append(
            Read(
                run.minute,
                move.code,
                found.value,
                found.doubt,
                found.words,
                move.expected,
                move.sure,
                found.truth,
                found.more,
            )
        )
        if found.value is not None or move.code in ("sm", "hd", "rt"):
            run.unwritten.append(Line(run.minute, found.words))
    run.done.append((run.minute, move.code, None, "you"))
    _pass(run, MINUTES[move.code])


def _write(run: Run) -> None:
    for line in run.unwritten:
        run.book.append(Line(line.minute, line.words))
    run.said = "Written." if run.unwritten else ""
    run.unwritten = []
    _pass(run, TAKES["wr"])


def act(run: Run, code: str, number: float | None, by: str) -> None:
    """Do one action to the barley at this minute, and note it."""
    world = run.world
    world.cut_at(run.minute)
    words = ACTIONS[code]
    if code == "tr":
        run.tared = True
    elif code == "pm":
        run.first_drain_h = number or PLAN_H[0]
        words = f"First drain planned after {run.first_drain_h:g} h"
    elif code in ("fi", "we"):
        world.fill()
        words = "Under water"
    elif code == "dr":
        world.drain()
        words = "Drained"
    elif code in ("so", "sl", "sf"):
        world.suction, world.suction_broken = ("so", "sl", "sf").index(code), False
    elif code in ("fo", "fl", "ff"):
        world.suction = ("fo", "fl", "ff").index(code)
    elif code == "cd":
        run.cast = world.copied()
        world.cast_to_drum()
        words = "Cast to the drum, fan low"
    elif code == "dt":
        world.turn_drum()
        words = "Drum turned, its air on"
    elif code in ("ki", "kl", "kt"):
        run.locks.append(code)
        words = {"ki": "Drum isolated", "kl": "Lock on, blocked", "kt": "Tried: it does not start"}[code]
    elif code == "ko":
        run.locks = []
        words = "Lock off"
    elif code in ("ao", "ab", "aw"):
        world.air = ("ao", "ab", "aw").index(code)
    elif code in ("cf", "cw"):
        deep = number or COUCH_CM
        run.cast = world.copied()
        world.cast(deep / 100.0)
        words = f"Cast to the floor, {deep:g} cm deep"
        if code == "cw":
            for zone in world.zones:
                zone.water += 0.03
    elif code in ("br", "tu", "th", "tk"):
        depth = number or {"br": BROKEN_CM, "th": 100 * world.depth_m - 2, "tk": 100 * world.depth_m + 2}.get(code)
        laid = None if depth is None else min(max(depth, 6.0), 40.0)
        if code in ("th", "tk"):
            world.depth_m = (laid or BROKEN_CM) / 100.0
        else:
            world.turn(None if laid is None else laid / 100.0)
        words = {"br": "Couch broken", "tu": "Turned", "th": "Laid thinner", "tk": "Laid thicker"}[code]
        words += f", {100 * world.depth_m:.0f} cm deep"
    elif code == "po":
        world.turned = max(world.turned, run.minute - 6 * 60)
        words = "Ploughed"
    elif code == "sp":
        world.sprinkle(number or USUAL_LITRES)
        words = f"Sprinkled {number or USUAL_LITRES:g} L a tonne"
    elif code in ("op", "cl"):
        world.windows = code == "op"
    elif code == "ck":
        run.kiln_ready = run.minute + KILN_WAITS_MIN
        words = "Called the kiln"
        run.said = f"The kiln says: from {clock(run.kiln_ready)}."
    elif code == "ld":
        run.loaded, world.where = world.copied(), "gone"
        words = "Loaded"
    run.done.append((run.minute, code, number, by))
    line = Line(run.minute, f"{words}.", by)
    if by == "you":
        run.unwritten.append(line)
    else:
        run.book.append(line)


def _answer(run: Run, code: str) -> None:
    """Answer an event that tempts."""
    tempt = tempts.BY_NAME[run.event]
    if code in ("ki", "kl", "kt"):
        run.locks.append(code)
        run.go_on(run.minute + TAKES[code])
        words = {"ki": "Isolated.", "kl": "Your lock is on, and it is blocked.", "kt": "Tried: it does not start."}
        run.said = words[code]
        return
    if code == "xx" or (tempt.iron and tuple(run.locks) != tempts.IRON):
        run.people.append(tempt.chose)
        run.said = f"{tempt.chose} {tempt.rule}"
        run.ended = "never"
        run.happened.add(f"never:{tempt.name}")
        return
    run.event = ""
    run.said = tempt.done
    run.people.append(tempt.right)
    run.done.append((run.minute, "xo", None, "you"))
    run.unwritten.append(Line(run.minute, tempt.done))
    _pass(run, tempt.minutes)
    if tempt.needs == "kiln" and not run.ended:
        run.ended = "kiln"
