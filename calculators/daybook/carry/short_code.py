"""A few words on one batch as a code to be read out and typed: groups of four signs, each group with its own check.

It carries exactly the fields of ``Brief``, and gives them back as they were.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from hashlib import sha256
from typing import NamedTuple

ALPHABET = "0123456789ACDEFGHJKMNPQRTVWXY"
"""29 signs, a prime number, so that a check finds each wrong sign and each pair changed about."""

_MEANT = str.maketrans({"O": "0", "I": "1", "L": "1", "Z": "2", "S": "5", "B": "8", "U": "V"})
_BASE = len(ALPHABET)
_PLACE = {sign: place for place, sign in enumerate(ALPHABET)}
_CARRIED = 3  # signs of a group, in front of its check
_WEIGHTS = (3, 5, 7)
_OWN = 11  # weight of the place of a group
_WHOLE = _BASE**_CARRIED

STAGES = ("not wet", "wet", "rest", "floor", "drum")
"""Where a batch is. New words come behind, so that old codes keep their meaning; so below."""

LINES = (
    "start", "stage-begun", "stage-ended", "water", "basket", "moisture", "chits", "cast", "bed", "turned", "sprinkled",
    "drum", "air", "readiness", "gas", "fault", "plan", "looked", "handed-over", "answer", "remark", "to-kiln",
    "withdrawn", "malt",
)  # fmt: skip
"""The kinds of line of the day-book, of which one is to be written next."""

OUTSTANDING = (
    "ahead", "away", "behind", "blower", "kiln-late", "sour", "turning-missed", "warm", "stop", "outside", "untold",
    "unplanned",
)  # fmt: skip
"""What is outstanding: each fault of the plan, past a stop, outside what is accepted, nobody told, no changed plan."""

_FORM = 1
_ROOM = 8, len(STAGES) + 3, 32, 1 << 16  # forms, stages, kinds of line, outstanding: with room for more
_EPOCH = datetime(2020, 1, 1)
_MINUTES = 1 << 26  # from the epoch: to the year 2147
MOST_UNKNOWN = 15
LONGEST_NAME = 40
_SIGNS = "abcdefghijklmnopqrstuvwxyz0123456789-_./ "


class Brief(NamedTuple):
    """What a code says of one batch.

    Attributes
    ----------
    batch : str
        Its number, up to ``LONGEST_NAME`` characters.
    stage : str
        One of ``STAGES``.
    line : str
        The kind of line that is to be written next, one of ``LINES``.
    due : datetime or None
        By when, on the clock of the house, to the minute.
    outstanding : tuple of str
        Some of ``OUTSTANDING``, in their order.
    unknown : int
        How many things nobody knows; ``MOST_UNKNOWN`` stands for that many or more.
    """

    batch: str
    stage: str
    line: str
    due: datetime | None
    outstanding: tuple[str, ...]
    unknown: int


class NoCode(ValueError):
    """Why a text is no code; ``group`` from 1 where one group does not fit, else 0."""

    def __init__(self, text: str, group: int = 0) -> None:
        super().__init__(text)
        self.group = group


def _number(brief: Brief) -> int:
    """All fields in one whole number, the form last, so that it is read first."""
    name = brief.batch
    if not 1 <= len(name) <= LONGEST_NAME:
        raise ValueError(f"a batch number has from 1 to {LONGEST_NAME} characters")
    number = 0
    if set(name) <= set(_SIGNS):
        for sign in reversed(name):
            number = number * len(_SIGNS) + _SIGNS.index(sign)
        number = (number * 64 + len(name)) * 2
    else:
        data = name.encode()
        number = (int.from_bytes(data, "big") * 256 + len(data)) * 2 + 1
    minutes = 0 if brief.due is None else 1 + (brief.due - _EPOCH) // timedelta(minutes=1)
    if not 0 <= minutes < _MINUTES:
        raise ValueError("a code carries times from 2020 on")
    marks = sum(1 << OUTSTANDING.index(one) for one in brief.outstanding)
    fields = (
        (min(brief.unknown, MOST_UNKNOWN), MOST_UNKNOWN + 1),
        (marks, _ROOM[3]),
        (minutes, _MINUTES),
        (LINES.index(brief.line), _ROOM[2]),
        (STAGES.index(brief.stage), _ROOM[1]),
        (_FORM, _ROOM[0]),
    )
    for value, room in fields:
        number = number * room + value
    return number


def _brief(number: int) -> Brief:
    values = []
    for room in (_ROOM[0], _ROOM[1], _ROOM[2], _MINUTES, _ROOM[3], MOST_UNKNOWN + 1):
        number, value = divmod(number, room)
        values.append(value)
    form, stage, line, minutes, marks, unknown = values
    if form != _FORM or stage >= len(STAGES) or line >= len(LINES) or marks >= 1 << len(OUTSTANDING):
        raise NoCode("The code was made by a newer handbook. Load this page again, or ask for what it says in words.")
    number, as_bytes = divmod(number, 2)
    number, length = divmod(number, 256 if as_bytes else 64)
    if as_bytes:
        try:
            name = number.to_bytes(length, "big").decode()
        except (OverflowError, UnicodeDecodeError):
            raise NoCode(_TOGETHER) from None
    else:
        signs = []
        for _ in range(length):
            number, place = divmod(number, len(_SIGNS))
            signs.append(_SIGNS[place])
        name = "".join(signs)
    due = _EPOCH + timedelta(minutes=minutes - 1) if minutes else None
    outstanding = tuple(one for place, one in enumerate(OUTSTANDING) if marks >> place & 1)
    return Brief(name, STAGES[stage], LINES[line], due, outstanding, unknown)


_TOGETHER = (
    "Each group fits by itself, and all together do not: a group is missing, or stands in another place. Compare the "
    "groups in their order."
)


def _check(group: Sequence[int], place: int) -> int:
    return (sum(weight * value for weight, value in zip(_WEIGHTS, group, strict=True)) + _OWN * place) % _BASE


def _digest(places: Sequence[int]) -> list[int]:
    """Three places that check the whole."""
    value = int.from_bytes(sha256(bytes(places)).digest()[:8], "big") % _WHOLE
    return [value // _BASE**2, value // _BASE % _BASE, value % _BASE]


def code_of(brief: Brief) -> str:
    """Write a brief as a code.

    Parameters
    ----------
    brief : Brief
        What it says.

    Returns
    -------
    str
        Groups of four signs, apart by spaces.

    Raises
    ------
    ValueError
        For a field that no code carries.
    """
    number = _number(brief)
    places: list[int] = []
    while number or len(places) % _CARRIED:
        number, place = divmod(number, _BASE)
        places.append(place)
    places += _digest(places)
    groups = [places[at : at + _CARRIED] for at in range(0, len(places), _CARRIED)]
    return " ".join(
        "".join(ALPHABET[place] for place in (*group, _check(group, at))) for at, group in enumerate(groups, 1)
    )


def brief_of(text: str) -> Brief:
    """Read a code as it was typed: capitals or not, with spaces, points or hyphens between, look-alikes for each other.

    Raises
    ------
    NoCode
        With what is wrong, and at which group.
    """
    typed = "".join(sign for sign in text.upper().translate(_MEANT) if not sign.isspace() and sign not in "-.,·–")
    if not typed:
        raise NoCode("Type the code: groups of four letters and figures, such as they stand on the other device.")
    size = _CARRIED + 1
    groups = [typed[at : at + size] for at in range(0, len(typed), size)]
    places: list[int] = []
    for at, group in enumerate(groups, 1):
        odd = [sign for sign in group if sign not in _PLACE]
        if odd:
            raise NoCode(f"Group {at}, {group}: {odd[0]} stands in no code. Look at this group again.", at)
        if len(group) < size:
            raise NoCode(f"Group {at}, {group}: it has {len(group)} of its 4 signs. Type it to its end.", at)
        values = [_PLACE[sign] for sign in group]
        if values[-1] != _check(values[:-1], at):
            raise NoCode(
                f"Group {at}, {group}: it does not fit. A sign of it is wrong, or it stands in another place. Compare "
                f"group {at}.",
                at,
            )
        places += values[:-1]
    carried, whole = places[:-_CARRIED], places[-_CARRIED:]
    if not carried or _digest(carried) != whole:
        raise NoCode(_TOGETHER)
    number = 0
    for place in reversed(carried):
        number = number * _BASE + place
    return _brief(number)
