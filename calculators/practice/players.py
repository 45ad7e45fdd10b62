"""A player runs a batch to its end: the good hand, and those it is held against."""

from collections.abc import Callable, Sequence

from .acts import apply, bring
from .good_drum import IRON
from .good_floor import FIRST_COUNT_H, count_again, count_step
from .good_hand import next_step
from .moves import MOST_MOVES, read_move
from .run import Run
from .view import Step, View, view_of

Player = Callable[[View], Step]

CLOCK_READY_H, ROUND_READY_H, PLAN_READY_H = 96.0, 100.0, 108.0
"""Hours after the cast at which those who do not count go to the kiln: for each one at which it did best on numbers 1
to 120, of seven hours from 84 to 108 that were tried."""
ROUND_H = 3.7
"""Least hours between two turnings of one who turns at each round, every four hours."""


def run_on(
    run: Run, player: Player, most: int = MOST_MOVES, brought: Sequence[tuple[int, float]] = ()
) -> tuple[Run, list[Step]]:
    """Let a player take a run to its end.

    Parameters
    ----------
    run : Run
        Where it begins; it is changed.
    player : callable
        Gives the next step of what it sees.
    most : int, optional
        Most moves.
    brought : sequence of (int, float), optional
        What a trainer brought into another run on the number: minute and number. It comes here at the same minute, or
        as soon after it as it can.

    Returns
    -------
    Run
        The run at its end.
    list of Step
        What it did, and why.
    """
    steps: list[Step] = []
    refused = 0
    left = list(brought)
    while not run.ended and len(steps) < most and refused < 20:
        for one in [one for one in left if one[0] <= run.minute]:
            if bring(run, one[1]):
                left.remove(one)
        step = player(view_of(run))
        before = run.minute
        move = read_move(step.move)
        if move is not None and apply(run, move):
            steps.append(step)
            run.taken_at.append(before)
            refused = 0
        else:
            refused += 1
            move = read_move("us" if refused > 1 else "wa15")
            if move is not None and apply(run, move):
                steps.append(Step(move.text, "Waits."))
                run.taken_at.append(before)
    return run, steps


def _always(view: View) -> Step | None:
    """What every player does alike: nothing quick, and the barley in the steep."""
    if view.event and "xo" in view.offered:
        locks = [code for code in IRON if code in view.offered]
        return Step(locks[0] if locks else "xo", "")
    if view.where == "dry":
        return Step(next(code for code in ("pl", "tr", "fi") if code in view.offered), "")
    return None


def _clocked(view: View, turn_h: float, ready_h: float, air: bool) -> Step:
    """Steep, couch, turnings and kiln by the hours of the plan."""
    if view.where == "water":
        hours = 3.0 if view.immersions >= 3 else 8.0
        since, code = view.since("fi", "we"), "dr"
    elif view.where == "rest":
        hours = 0.5 if view.immersions >= 3 else 8.0 if view.immersions == 1 else 12.0
        since, code = view.since("dr"), "cf" if view.immersions >= 3 else "we"
        done = next((c for _, c, _, _ in reversed(view.done) if c in ("dr", "sl", "sf")), "")
        if done == "dr" and air and "sl" in view.offered:
            return Step("sl", "")
    elif view.where == "couch":
        hours, since, code = 24.0, view.since("cf", "cw"), "br"
    else:
        if view.kiln_ready and view.may_call:
            return Step("ld", "")
        if view.may_call and view.since("cf", "cw") >= ready_h - 2.0 and not view.kiln_called and "ck" in view.offered:
            return Step("ck", "")
        hours, since, code = turn_h, view.since("tu", "br"), "tu"
    if view.event == "shift":
        orders = ["ho"]
        if since + 7.5 > hours:
            orders.append(f"{code}a{min(max(0.0, hours - since), 24.0):.1f}" if code != "cf" else "")
            if code == "dr" and air:
                orders.append(f"sla{max(0.0, hours - since) + 0.2:.1f}")
        return Step("_".join(order for order in orders if order), "")
    if since >= hours - 0.05:
        return Step(code, "")
    return Step(f"wa{max(5, min(1440, round(60 * (hours - since))))}", "")


def by_the_clock(view: View) -> Step:
    """Do all by the hours that the plan and the page call usual; read nothing."""
    return _always(view) or _clocked(view, 8.0, CLOCK_READY_H, True)


def at_every_round(view: View) -> Step:
    """As by the clock, and turn the piece at each round, every four hours of the day."""
    step = _always(view)
    if step:
        return step
    if view.where == "floor" and view.event == "shift":
        return Step("ho_tua3.5", "")
    return _clocked(view, 4.0, ROUND_READY_H, True)


def plan_only(view: View) -> Step:
    """Do what the plan names and nothing else: drains, waters, cast, couch, a turning every twelve hours, the kiln."""
    return _always(view) or _clocked(view, 12.0, PLAN_READY_H, False)


def counted(player: Player) -> Player:
    """Give a player that does all as before, and goes to the kiln by the good hand's count instead of an hour.

    With it batches are compared at the same ripeness: one that hardly grew is even and has lost little.
    """

    def by_the_count(view: View) -> Step:
        free = view.where == "floor" and view.event != "shift" and "xo" not in view.offered
        if not free or view.since("cf", "cw") < FIRST_COUNT_H:
            return player(view._replace(may_call=False))
        step = count_step(view) or player(view._replace(may_call=False))
        again = count_again(view) - view.minute if view.last("ac") else 0.0
        if step.move.startswith("wa") and again > 0.0:
            return Step(f"wa{max(5, min(int(step.move[2:]), round(again)))}", step.why)
        return step

    return by_the_count


def good_hand_at_every_round(view: View) -> Step:
    """The good hand in all, and it turns the piece at each round too: what acting for nothing costs."""
    loads = view.kiln_ready and view.last("ac", 2.6)
    if view.where == "floor" and view.event == "shift" and not view.unwritten:
        return Step("ho_tua3.5", "")
    if view.where == "floor" and not view.event and not loads and view.since("tu", "br") >= ROUND_H:
        return Step("tu", "Turned, as at every round.")
    return next_step(view)


PLAYERS: dict[str, Player] = {
    "good hand": next_step,
    "by the clock": by_the_clock,
    "turn at every round": at_every_round,
    "plan only": plan_only,
}
BY_COUNT: dict[str, Player] = {
    "good hand": next_step,
    **{name: counted(player) for name, player in PLAYERS.items() if player is not next_step},
    "good hand, turning at every round": good_hand_at_every_round,
}
"""All to the kiln by the same count; the last acts where nothing asks for it, and is the good hand in all else."""

__all__ = [
    "BY_COUNT", "PLAYERS", "Player", "at_every_round", "by_the_clock", "counted", "good_hand_at_every_round",
    "plan_only", "run_on",
]  # fmt: skip
