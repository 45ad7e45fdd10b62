"""What a trainer sets beside number, level and faults: the season, the vessel, and the house's own limits.

One short text for a link: ``august_drum_t44.5_d3_w16``. What stands in it and means nothing is left out.
"""

import re
from typing import NamedTuple

from ..rules.limit import Limit, edge
from ..rules.limits import floor_germination

PAPER_MOISTURE = 12.5
"""What the paper of every lot says [%]; what the lot has is drawn in ``hidden``."""
TARGET = 45.0
"""Moisture wanted at the cast where nothing else is set [%]."""
TARGETS = (42.0, 47.0)
WATERS = (8.0, 18.0)
"""Water that a run can be played in: from the winter's to that of August [C]."""
SEASONS = {"": "spring", "winter": "winter", "august": "August"}
"""Season of a text -> what a scene calls it. What it changes stands in ``hidden``."""
VESSELS = ("floor", "drum")


def _span(limit: Limit) -> tuple[float, float]:
    assert limit.lowest is not None and limit.highest is not None
    return limit.lowest, limit.highest


DIFFERENCES, WARMEST = _span(floor_germination.DIFFERENCE), _span(floor_germination.PIECE)
"""How far a house may move these limits, as the table of limits has it [K, C]."""


class Setting(NamedTuple):
    """What a run is set to.

    Attributes
    ----------
    season : str
        Blank, ``winter`` or ``august``.
    vessel : str
        ``floor`` or ``drum``: what the plan has, and the good hand takes. A learner casts where they choose.
    target : float
        Moisture wanted at the cast, % of wet weight.
    difference_k : float
        Bottom minus top of a piece that this house accepts [K].
    warmest_c : float
        Warmest piece on the whole that this house accepts [C].
    water_c : float
        Water as a house has it [C]; 0 for that of the season.
    """

    season: str = ""
    vessel: str = VESSELS[0]
    target: float = TARGET
    difference_k: float = edge(floor_germination.DIFFERENCE.accept_high)
    warmest_c: float = edge(floor_germination.PIECE.accept_high)
    water_c: float = 0.0


_NUMBERS = {
    "t": ("target", TARGETS),
    "d": ("difference_k", DIFFERENCES),
    "w": ("warmest_c", WARMEST),
    "c": ("water_c", WATERS),
}
_PART = re.compile(r"([tdwc])(\d{1,2}(?:\.\d)?)")


WORDS = (*(name for name in SEASONS if name), *VESSELS)
SPANS = {letter: span for letter, (_, span) in _NUMBERS.items()}
"""Letter of a number -> what a house may set."""
_SPAN_WORDS = {
    "t": "moisture wanted, %", "d": "most between bottom and top, K", "w": "warmest piece, °C", "c": "water, °C",
}  # fmt: skip
MAY_STAND = ", ".join(
    (*WORDS, *(f"{letter}{low:g} to {letter}{high:g} ({_SPAN_WORDS[letter]})" for letter, (low, high) in SPANS.items()))
)
"""What may stand in a setting, in words for somebody who typed something else."""


def unknown(text: str) -> tuple[str, ...]:
    """Give the parts of a setting that mean nothing, or lie beyond what a house may set.

    Examples
    --------
    >>> unknown("august_foo_t99_d3")
    ('foo', 't99')
    """
    return tuple(part for part in text[:80].split("_") if part and not _is_known(part))


def _is_known(part: str) -> bool:
    number = _PART.fullmatch(part)
    if number is None:
        return part in WORDS
    low, high = SPANS[number[1]]
    return low <= float(number[2]) <= high


def read_setting(text: str) -> Setting:
    """Give the setting of a text; what means nothing, or lies beyond what a house may set, is left out.

    Examples
    --------
    >>> read_setting("august_drum_t44_x9")._replace(difference_k=4.0, warmest_c=16.0)
    Setting(season='august', vessel='drum', target=44.0, difference_k=4.0, warmest_c=16.0, water_c=0.0)
    """
    found = Setting()
    for part in text[:80].split("_"):
        number = _PART.fullmatch(part)
        if part in SEASONS:
            found = found._replace(season=part)
        elif part in VESSELS:
            found = found._replace(vessel=part)
        elif number:
            name, (low, high) = _NUMBERS[number[1]]
            value = float(number[2])
            if low <= value <= high:
                found = Setting(**{**found._asdict(), name: value})
    return found


def as_text(setting: Setting) -> str:
    """Give the text of a setting; blank where nothing is set."""
    usual = Setting()
    parts = [setting.season] if setting.season else []
    parts += [setting.vessel] if setting.vessel != usual.vessel else []
    for letter, (name, _) in _NUMBERS.items():
        value = getattr(setting, name)
        if value != getattr(usual, name):
            parts.append(f"{letter}{value:g}")
    return "_".join(parts)
