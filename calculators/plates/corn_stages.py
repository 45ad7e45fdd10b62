"""A corn from dry barley to overshot, cut lengthwise: a plate to hold a corn beside."""

from __future__ import annotations

from typing import NamedTuple

from ..asking.declare import Drawing, Shape, Written
from ..words import corn_drawn

_ACROSS = (22.0, 232.0)
_ROW = 118.0
_SWOLLEN = 0.47
_DRY = 0.42
"""A steeped corn is longer and thicker than a dry one: some 40 % in volume (common practice), so an eighth each way."""


class Stage(NamedTuple):
    """What a corn looks like at one stage."""

    name: str
    acrospire: float | None
    """Length of the shoot [corn lengths]; None before the root shows."""
    said: str
    look: str


STAGES = (
    Stage("dry barley", None, "–", "hard; germ flat; no root"),
    Stage("steeped", None, "–", "swollen, bends under the nail; no root yet"),
    Stage("chitted", 0.0, "not yet seen", "a white root tip stands out at the blunt end"),
    Stage("a quarter", 0.25, "¼", "two or three roots"),
    Stage("half", 0.5, "½", "roots curl; the root end rubs soft"),
    Stage("three quarters", 0.75, "¾", "most of the corn rubs to flour"),
    Stage("the whole corn", 1.0, "1", "only the tip may be hard"),
    Stage("overshot", 1.25, "over 1", "the shoot stands out at the beard end"),
)
CAPTION = (
    "A corn at eight stages, cut lengthwise along the back: root end left, back upwards. Hold a split corn beside it. "
    "White along the back is the acrospire; behind the dashed line the store has opened, about as far as the acrospire "
    "(common practice). Real corns part the two when the bed was warm or dry. Roots are drawn shorter than they are."
)


def stages() -> Drawing:
    """Draw the eight stages, with a table of what to look for."""
    shapes: tuple[Shape, ...] = ()
    words: list[Written] = []
    rows: list[tuple[str, ...]] = []
    for n, stage in enumerate(STAGES):
        x, y = _ACROSS[n % 2], _ROW * (n // 2)
        length = stage.acrospire or 0.0
        shapes += corn_drawn.corn(
            acrospire=length,
            opened=min(length, 1.0),
            x=x,
            y=y + 26.0,
            scale=_DRY if n == 0 else _SWOLLEN,
            chitted=stage.acrospire is not None,
        )
        words.append(Written(f"{n + 1} {stage.name}", x, y + 18.0, "label strong"))
        rows.append((f"{n + 1} {stage.name}", stage.said, stage.look))
    return Drawing(
        "stages",
        "A corn from dry barley to overshot",
        CAPTION,
        _ROW * 4.0,
        shapes,
        tuple(words),
        ("Stage", "Acrospire, of the corn", "Look for"),
        tuple(rows),
    )
