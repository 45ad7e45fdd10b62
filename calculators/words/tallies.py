"""The counters of corns: by the length of the acrospire, and chitted or not, with a drawing of each class."""

from __future__ import annotations

from ..asking.tally import Class, Stroke, Tally
from ..models.counts.acrospire import CLASS_NAMES, OVERSHOT

_CORN = Stroke("big-corn", "M6 34 C16 8 42 0 68 2 C94 4 110 18 118 30 C106 50 86 58 58 58 C32 58 12 50 6 34 Z")
_SPIRE = "M14 28 C26 12 44 8 64 9 C86 10 102 20 114 30"
_OUT = Stroke("chit", "M112 28 C120 30 128 26 134 18 C137 16 138 18 136 21 C132 31 122 36 112 33 Z")
_TIP = Stroke("chit", "M8 32 C0 28 -6 34 -8 42 C-2 44 6 42 10 38 Z")
_VIEW = "-10 -2 150 64"
_QUARTER = 0.25


def _with_spire(place: int) -> tuple[Stroke, ...]:
    """A corn whose acrospire reaches the middle of its class; the last has come out at the far end."""
    if place == OVERSHOT:
        return (_OUT, _CORN, Stroke("spire", _SPIRE))
    return (_CORN, Stroke("spire", _SPIRE, (place + 0.6) * _QUARTER))


ACROSPIRES = Tally(
    "acrospires",
    "Count by taps",
    tuple(Class(name, (f"counts/{n}",), _with_spire(n)) for n, name in enumerate(CLASS_NAMES)),
    wanted=100,
    view_box=_VIEW,
)
CHITS = Tally(
    "chits",
    "Count by taps",
    (Class("Chitted", ("chitted", "counted"), (_TIP, _CORN)), Class("Not yet", ("counted",), (_CORN,))),
    wanted=200,
    view_box=_VIEW,
)
