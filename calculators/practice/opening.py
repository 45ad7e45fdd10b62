"""Where a run begins: at the barley above the steep, or where others left a piece of a batch."""

from .acts import apply
from .moves import read_moves
from .pieces import FROM_THE_FLOOR, Piece, read_level
from .run import USUAL, Run
from .setting import Setting


def opened(number: int, level: str, faults: str, setting: Setting = USUAL) -> Run:
    """Give a run before its first move.

    Parameters
    ----------
    number, level, faults, setting
        As for ``play``.
    """
    rank, piece = read_level(level)
    if piece and piece.letter in FROM_THE_FLOOR:
        setting = setting._replace(vessel="floor")
    run = Run(number, rank, piece, faults, setting)
    if piece:
        _play_opening(run, piece)
    return run


def _play_opening(run: Run, piece: Piece) -> None:
    kept, run.tempts = run.tempts, ()
    for move in read_moves(piece.opening)[0]:
        apply(run, move, opening=True)
    run.tempts = kept
    run.begins = run.minute
    run.until = run.minute + piece.minutes
    run.unwritten = []
    run.said = ""
