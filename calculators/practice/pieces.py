"""The levels, and the seven pieces of a batch: where each begins, and when it is over."""

from typing import NamedTuple

WHOLE_MIN = 13 * 1440


class Piece(NamedTuple):
    """A piece of a batch.

    ``opening`` are the moves that others made before; ``minutes`` is how long the piece goes on, ``until`` the moves
    with which it is over sooner.
    """

    letter: str
    title: str
    opening: str
    minutes: int
    until: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()
    page: str = ""


_FIRST = "pl-tr-fi-wa330"
_STEEPED = "pl-tr-fi-wa470-dr-sl-wa470-we-wa475-dr-sl"
_NIGHT = "pl-tr-ut2145-fi-wa470-dr-sl-wa470-we-wa475-dr-sl"
_CAST = f"{_STEEPED}-wa715-we-wa175-dr-sl-wa30-cf30"
_FLOOR = f"{_CAST}-wa1440-br14-wa480-tu-wa480-tu-wa480-tu12"

PIECES = (
    Piece("a", "The first drain", _FIRST, 12 * 60, page="procedures/steeping"),
    Piece("b", "A rest through the night", _NIGHT, 13 * 60, ("we",), page="procedures/steeping"),
    Piece("c", "Cast or wait", f"{_STEEPED}-wa715-we-wa150", 14 * 60, ("cf", "cw"), page="procedures/casting"),
    Piece("d", "The first couch", _CAST, 30 * 60, ("br", "tu"), page="procedures/casting"),
    Piece("e", "A hot bottom", f"{_FLOOR}-wa540", 12 * 60, page="procedures/floor-germination"),
    Piece(
        "f", "Is it ready?", f"{_FLOOR}-wa480-tu-wa480-tu-wa480-tu-wa480-tu-wa300", 40 * 60, ("ld",),
        page="procedures/readiness",
    ),
    Piece(
        "g", "The kiln is late", f"{_FLOOR}-wa480-tu-wa480-tu-wa480-tu-wa480-tu-wa480-tu-wa480-tu-wa300", 36 * 60,
        ("ld",), ("late-kiln",), page="procedures/kiln-hand-over",
    ),
)  # fmt: skip
FROM_THE_FLOOR = "defg"
"""Pieces that begin after a cast to the floor."""
BY_LETTER = {piece.letter: piece for piece in PIECES}

LEVELS = (
    "Watch the good hand think aloud",
    "A part of a batch, with prompts",
    "A part of a batch, alone",
    "A whole batch, nothing wrong",
    "A whole batch, something may be wrong",
    "A whole batch, handed over between two learners",
)
"""What is done on each level, 0 to 5: numbers, not ranks."""


def read_level(level: str) -> tuple[int, Piece | None]:
    """Give the level and the piece of a text such as ``1a``, ``3`` or ``0d``.

    What cannot be read is level 3. On levels 1 and 2 a piece is run, ``a`` when none is named; on 4 and 5 none is.
    """
    text = level.strip().lower()[:2]
    number = int(text[0]) if text and text[0] in "012345" else 3
    piece = BY_LETTER.get(text[1:])
    if number in (1, 2):
        return number, piece or PIECES[0]
    return number, piece if number == 0 else None
