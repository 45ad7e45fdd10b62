"""Limits of the green malt between ready and loaded."""

from ..limit import PUBLISHED, Limit, Signs, limit

_PAGE = "kiln-hand-over"

VERDICT = Signs(
    "kiln-verdict", _PAGE, "Verdict of the day", accept=("count, rub and smell agree",), watch=("one in doubt",),
    stop=("count says wait",), act="Load nothing. Count again, from fresh places.",
)  # fmt: skip
READY_HOURS = limit(
    Limit(
        "kiln-ready-hours", _PAGE, "Time from ready to loaded", "h",
        accept_high=6, stop_high=12, watch="cool and thin it",
        act="Count again before it is loaded, and write that it waited.", lowest=1, highest=24,
    )
)  # fmt: skip
MOISTURE = limit(
    Limit(
        "kiln-moisture", _PAGE, "Moisture", "%",
        stop_low=38, accept_low=40, accept_high=45, stop_high=47, stop="or dripping",
        act="Over: let it wither, thin. Under: read a second sample, the quick way, before the kiln’s people plan by "
        "it.",
        standing=PUBLISHED, sources=("cereals-processing",), lowest=30, highest=52,
    )
)  # fmt: skip
PIECE = limit(
    Limit(
        "kiln-piece", _PAGE, "Piece before loading", "C",
        accept_high=20, stop_high=25, act="Spread it, turn it, open. Never heap it to wait.",
        sources=("black-treatise",), lowest=12, highest=28,
    )
)  # fmt: skip
DEPTH = limit(
    Limit(
        "kiln-depth", _PAGE, "Depth on the kiln, against the house’s usual", "cm",
        accept_high=2, stop_high=5, stop="more than {stop_high} off, or holes; never over the plate’s load",
        act="Level it from the gangway. Over the plate’s load: load no more.", lowest=0.5, highest=10,
    )
)  # fmt: skip
WEIGHT = limit(
    Limit(
        "kiln-weight", _PAGE, "Weight against plan", "%",
        accept_high=3, stop_high=6, stop="or over the kiln’s rating",
        act="Weigh a known weight, and look along the way for spilt grain. Over the rating: load no more.",
        lowest=0.5, highest=10,
    )
)  # fmt: skip
LAST_WATER = limit(
    Limit(
        "kiln-last-water", _PAGE, "Hours since the last water", "h",
        stop_low=6, accept_low=12, act="Let it lie thin and wither first.", lowest=2, highest=48,
    )
)  # fmt: skip
PERSON = Signs(
    "kiln-person", _PAGE, "A person on the kiln floor, in plenum or duct", stop=("always",),
    act="Stop loading, and call. Nobody goes in after them.",
)  # fmt: skip

ROWS = (VERDICT, READY_HOURS, MOISTURE, PIECE, DEPTH, WEIGHT, LAST_WATER, PERSON)
