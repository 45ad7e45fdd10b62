"""The list of moves: one short text that is the whole run, and fits a link.

Moves stand one behind another with ``-`` between them. A move is two letters, then its number where it has one, then
what was expected where that was typed::

    move     = code [number] ["~" expected ["_" sure]]
    code     = two small letters, as ``CODES`` lists them
    number   = digits, with a point where needed: minutes, centimetres, litres a tonne
    expected = the value typed before a reading, such as 33.5
    sure     = how far off the learner thinks to be, in the same unit

A hand-over carries orders, each an action with the hours from then (``a``) or the degrees (``o``) at which it is to be
done: ``ho_dra8`` drain after 8 h, ``ho_sfo17_tuo20`` suction full over 17 C, turn over 20 C.

``fi-wa450-bd~33_1.5-dr-sl-ho_wea8_dra16`` fills, waits 450 minutes, weighs the drained basket expecting 33 % give or
take 1.5, drains, turns suction low, and hands over: wet after 8 h, drain after 16. Capitals, blanks and what stands
nowhere in ``CODES`` are left out and named; nothing makes a fault.
"""

import re
from typing import NamedTuple

MOST_CHARACTERS = 4000
MOST_MOVES = 600

READINGS = {
    "bd": "Weigh the basket, drained",
    "bp": "Weigh the basket, dripping",
    "wt": "Thermometer in the water",
    "pr": "Three probes in the grain",
    "sm": "Smell, from the platform",
    "ch": "Count chits, 2 × 100",
    "ov": "Start an oven sample",
    "da": "Air on, air off and the bed",
    "by": "Bottom, top, room and depth",
    "hd": "The hand into the piece",
    "rt": "Look at the roots",
    "ac": "Lay out 100 acrospires",
    "rb": "Rub 50 corns",
    "lo": "Look from where you stand",
    "as": "Ask somebody",
}
"""Code -> what the button says."""

ACTIONS = {
    "pl": "Take the plan as it is",
    "pm": "Move the first drain",
    "tr": "Zero and tare the scale",
    "fi": "Fill and cover with water",
    "ro": "Rouse",
    "sk": "Skim",
    "aw": "Air on",
    "ab": "Air in bursts",
    "ao": "Air off",
    "dr": "Drain",
    "so": "Suction off",
    "sl": "Suction low",
    "sf": "Suction full",
    "we": "Wet it again",
    "cf": "Cast drained to the floor, as a couch",
    "cd": "Cast drained to the drum",
    "cw": "Cast in water to the floor",
    "br": "Break the couch",
    "tu": "Turn the piece",
    "dt": "Turn the drum, its air on",
    "fo": "Stop the fan",
    "fl": "Fan low",
    "ff": "Fan full",
    "po": "Plough",
    "th": "Lay it thinner",
    "tk": "Lay it thicker",
    "sp": "Sprinkle",
    "op": "Open the windows",
    "cl": "Close the windows",
    "ck": "Call the kiln",
    "ld": "Load the kiln",
    "wr": "Write it down",
    "ho": "Hand over",
    "st": "Stop, and tell the shift lead",
    "ki": "Isolate it",
    "kl": "Put your lock on, and block it",
    "kt": "Try to start it",
    "ko": "Take your lock off",
    "xo": "Keep out and call",
    "xx": "Do it the quick way",
}
"""Code -> what the button says; ``xx`` and ``xo`` only where an event tempts, in that event's own words."""

WAITS = {
    "nx": "Wait for what is planned next",
    "wa": "Wait some minutes",
    "ut": "Wait until a time",
    "us": "Wait until something happens",
}

TRAINER = {"bi": "Something happens now"}
"""Code of what a trainer brings in: an event that tempts, of those that can come here; no learner is offered it."""

CODES = {**READINGS, **ACTIONS, **WAITS, **TRAINER}

ORDERS = ("dr", "we", "so", "sl", "sf", "ab", "ao", "br", "tu", "cl", "op", "po", "dt", "fl", "ff")
"""What a hand-over may order."""

_MOVE = re.compile(r"([a-z]{2})(\d{1,5}(?:\.\d{1,2})?)?(?:~(\d{1,3}(?:\.\d{1,2})?)(?:_(\d{1,2}(?:\.\d{1,2})?))?)?")
_ORDER = re.compile(r"([a-z]{2})([ao])(\d{1,2}(?:\.\d)?)")


class Order(NamedTuple):
    """What the next shift is to do: an action after some hours, or over a temperature."""

    code: str
    after_h: float | None
    over_c: float | None


class Move(NamedTuple):
    """One move, as read."""

    text: str
    code: str
    number: float | None = None
    expected: float | None = None
    sure: float | None = None
    orders: tuple[Order, ...] = ()


def read_move(text: str) -> Move | None:
    """Give one move; None where it means nothing."""
    if text == "ho" or text.startswith("ho_"):
        orders = []
        for part in text.split("_")[1:9]:
            found = _ORDER.fullmatch(part)
            if not found or found[1] not in ORDERS:
                return None
            value = float(found[3])
            orders.append(Order(found[1], value if found[2] == "a" else None, value if found[2] == "o" else None))
        return Move(text, "ho", orders=tuple(orders))
    found = _MOVE.fullmatch(text)
    if not found or found[1] not in CODES:
        return None
    number, expected, sure = (None if part is None else float(part) for part in found.groups()[1:])
    return Move(text, found[1], number, expected, sure)


def read_moves(text: str) -> tuple[list[Move], list[str]]:
    """Give the moves of a run, and what stood there and means nothing.

    Parameters
    ----------
    text : str
        The run; anything may stand there.

    Returns
    -------
    list of Move
        At most ``MOST_MOVES``.
    list of str
        Parts that were left out, each at most 40 characters.

    Examples
    --------
    >>> [move.code for move in read_moves("fi-wa30-bd~33.5_1-dr")[0]]
    ['fi', 'wa', 'bd', 'dr']
    """
    moves: list[Move] = []
    left: list[str] = []
    cut = text[:MOST_CHARACTERS].split("-") if text else []
    if len(text) > MOST_CHARACTERS and cut:
        left.append(cut.pop()[:40])  # the last may be half a move
    for part in cut:
        move = read_move(part) if len(moves) < MOST_MOVES else None
        if move:
            moves.append(move)
        elif part:
            left.append(part[:40])
    return moves, left


def as_text(moves: list[Move]) -> str:
    """Give a run as its text."""
    return "-".join(move.text for move in moves)
