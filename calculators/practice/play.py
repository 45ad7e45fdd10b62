"""``play``: one pure function of number, level, faults and moves."""

from collections import OrderedDict

from .acts import apply
from .debrief import debrief_of
from .good_hand import next_step
from .kinds import Played
from .moves import ACTIONS, READINGS, Move, as_text, read_move, read_moves
from .night import orders_in_words
from .offers import NUMBERS as TYPED
from .opening import opened
from .players import run_on
from .run import USUAL, Run
from .scenes import scene_of
from .setting import Setting, read_setting, unknown
from .view import Step

_KEPT: "OrderedDict[tuple[int, str, str, Setting, str], Run]" = OrderedDict()
_MOST_KEPT = 48
"""Runs kept by the moves that lead to them: the next tap goes on from there, whole runs need not be played again."""

NUMBERS = range(1, 1_000_000)


def run_of(
    number: int, level: str, faults: str, moves: list[Move], setting: Setting = USUAL
) -> tuple[Run, list[Move], list[str]]:
    """Give the run that moves lead to, the moves that were taken, and those left out.

    Parameters
    ----------
    number, level, faults
        As for :func:`play`.
    moves : list of Move
        What is done.
    setting : Setting, optional
        Season, vessel and the house's limits.
    """
    texts = [move.text for move in moves]
    run, begin = None, 0
    for place in range(len(texts), -1, -1):
        kept = _KEPT.get((number, level, faults, setting, "-".join(texts[:place])))
        if kept is not None:
            run, begin = kept.copied(), place
            break
    if run is None:
        run = opened(number, level, faults, setting)
    for place in range(begin, len(moves)):
        before = run.minute
        if watch(run, moves[place]) if run.level == 0 else apply(run, moves[place]):
            run.taken.append(moves[place])
            if run.level:
                run.taken_at.append(before)
        else:
            run.left.append(moves[place].text)
    key = (number, level, faults, setting, "-".join(texts))
    _KEPT[key] = run.copied()
    _KEPT.move_to_end(key)
    while len(_KEPT) > _MOST_KEPT:
        _KEPT.popitem(last=False)
    return run, run.taken, run.left


def words_of_step(step: Step) -> str:
    """Give what the good hand did, in the words of the buttons."""
    move = read_move(step.move)
    if move is None:
        return ""
    words = READINGS.get(move.code) or ACTIONS.get(move.code) or f"Wait {move.number:g} min"
    if move.code == "ho":
        return f"Hand over: {orders_in_words(move.orders)}"
    if move.number is not None and move.code in ACTIONS:
        words += f", {move.number:g} {TYPED[move.code].unit}"
    return words


def thought(step: Step) -> str:
    """Give what the good hand did and why, as it is said on level 0."""
    words = words_of_step(step)
    return f"It did: {words}." if step.move.startswith("ho") else f"It did: {words}. It thought: {step.why}"


def watch(run: Run, move: Move) -> bool:
    """Let the good hand take its next step, thinking aloud; only ``nx`` does."""
    if move.code != "nx" or run.ended:
        return False
    _, steps = run_on(run, next_step, 1)
    run.thought = thought(steps[0]) if steps else ""
    return True


def play(number: int, level: str, faults: str, moves: str, *, setting: str = "", debrief: bool | None = None) -> Played:
    """Play a run.

    Parameters
    ----------
    number : int
        Which batch, 1 to 999,999: it draws the hidden barley, what tempts, and all noise. What lies outside is taken
        into that span.
    level : str
        ``0`` to ``5``; on 0, 1 and 2 a letter ``a`` to ``g`` names the piece (``pieces.PIECES``).
    faults : str
        Blank to have the number draw them, ``none``, a code (``faults.code_of``), or names with a comma between.
    moves : str
        The whole run, as ``moves`` says. Anything may stand there; nothing makes a fault.
    setting : str, optional
        Season, vessel and the house's limits, as ``setting`` has them; blank for none. What it does not know is
        left out, and named.
    debrief : bool, optional
        Whether it is wanted: True before the end too, as when a trainer reveals; False not even then. At the end when
        nothing is said.

    Returns
    -------
    Played
        The scene, the book, the debrief where the run has ended or it was wanted, and the moves as they were taken.

    Notes
    -----
    A teaching model. Its world is not the model of the sheets (``hidden``), and its lines are no records.

    Examples
    --------
    >>> played = play(7, "3", "", "pl-tr-fi-wa450")
    >>> played.scene.clock, played.moves, played.scene.ended
    ('Day 1, 13:55', 'pl-tr-fi-wa450', '')
    """
    batch = min(max(int(number), NUMBERS[0]), NUMBERS[-1])
    wanted, left = read_moves(moves)
    run, taken, refused = run_of(batch, level[:2], faults[:200], wanted, read_setting(setting))
    found = debrief_of(run, level[:2], faults[:200]) if (bool(run.ended) if debrief is None else debrief) else None
    return Played(scene_of(run), tuple(run.book), found, as_text(taken), (*unknown(setting), *left, *refused))
