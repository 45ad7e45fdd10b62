"""Limits of the hand-over at a change of shift."""

from ..limit import PUBLISHED, Signs

_PAGE = "hand-over"

FACE = Signs(
    "hand-over-way", _PAGE, "How it is told", accept=("face to face, with the book",),
    watch=("by telephone, with the book",),
    stop=("by paper alone", "not at all"), watch_more="(and said back)",
    act="Reach the one who leaves, or the shift lead, before anything is done to a batch.",
    standing=PUBLISHED, sources=("hse-handover",),
)  # fmt: skip
SAID_BACK = Signs(
    "hand-over-said-back", _PAGE, "Said back", accept=("in full, in other words",), watch=("in part",), stop=("not",),
    watch_more="(tell the rest again)", act="It is not handed over. Begin again at the danger.",
    standing=PUBLISHED, sources=("hse-handover",),
)  # fmt: skip
LOOK = Signs(
    "hand-over-look", _PAGE, "The look at a batch", accept=("just before it is taken",),
    watch=("earlier in the hand-over",), stop=("before the other came",), act="Look at it again before you take it.",
)  # fmt: skip
LOOKED_AT = Signs(
    "hand-over-looked", _PAGE, "Batches looked at", accept=("all",), stop=("one left out",),
    act="Look at it before you take it. Where it cannot be looked at from outside, say so, and write it.",
    standing=PUBLISHED, sources=("hse-handover",),
)  # fmt: skip
RISKS = Signs(
    "hand-over-danger", _PAGE, "What can hurt somebody", accept=("told first",), stop=("left out",),
    act="Stop. Tell it now, to everybody who comes on.",
)  # fmt: skip

ROWS = (RISKS, FACE, LOOKED_AT, LOOK, SAID_BACK)
