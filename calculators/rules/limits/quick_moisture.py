"""Limits of a quick moisture: how many pairs, how wide a doubt, how old, how far from what was tried."""

from ..limit import COMMON, OURS, Limit, Signs, limit

_PAGE = "quick-moisture"

PAIRS = limit(
    Limit(
        "quick-pairs", _PAGE, "Pairs of quick and oven behind the correction", "pairs",
        stop_low=4, accept_low=8,
        act="Take it for a look, not for a decision. Dry this sample in the oven too, and write the pair down.",
        standing=OURS, lowest=3, highest=40,
    )
)  # fmt: skip
DOUBT = limit(
    Limit(
        "quick-doubt", _PAGE, "Doubt of a corrected reading, either way", "points",
        accept_high=1, stop_high=2,
        act="Decide by the basket, by a second sample, or by the oven. Find out what scatters: film, mixing, timing.",
        standing=OURS, lowest=0.3, highest=4,
    )
)  # fmt: skip
OUTSIDE = limit(
    Limit(
        "quick-outside", _PAGE, "Reading outside the wettest or driest pair, by", "points",
        accept_high=0.5, stop_high=3,
        act="Nothing was tried so far out. Dry this sample in the oven. Until it answers go by the basket, or "
        "take the smaller step that can be mended.",
        standing=OURS, lowest=0.1, highest=6,
    )
)  # fmt: skip
AGE = limit(
    Limit(
        "quick-age", _PAGE, "Since the last pair", "days",
        accept_high=7, stop_high=31,
        act="Make a pair today, from this sample. Lamps age, scales drift, lots differ.",
        standing=COMMON, lowest=1, highest=92,
    )
)  # fmt: skip
AGAINST_OVEN = limit(
    Limit(
        "quick-against-oven", _PAGE, "Corrected reading against the oven, same sample, apart by", "points",
        accept_high=1, stop_high=2,
        act="The oven stands. Do both again from one mixed sample, and look at the list of pairs.",
        standing=OURS, lowest=0.5, highest=4,
    )
)  # fmt: skip
TWO = limit(
    Limit(
        "quick-two", _PAGE, "Two quick readings of one sample, apart by", "points",
        accept_high=0.8, stop_high=1.6,
        act="Mix the sample and read two more. Still apart: look at film, timing and the scale’s zero.",
        standing=COMMON, lowest=0.2, highest=4,
    )
)  # fmt: skip
STEADY = limit(
    Limit(
        "quick-steady", _PAGE, "Lost in the last short heating, of the wet weight", "%",
        accept_high=0.2, stop_high=0.9,
        act="It is not dry yet: heat again in short bursts, and weigh each time.",
        standing=COMMON, lowest=0.05, highest=2,
    )
)  # fmt: skip
COUNTED = limit(
    Limit(
        "quick-corns", _PAGE, "Corns counted and weighed",
        stop_low=200, accept_low=500,
        act="Count on. So few corns tell the moisture to no better than 2 points.",
        standing=OURS, lowest=100, highest=2000,
    )
)  # fmt: skip
SCORCH = Signs(
    "quick-scorch", _PAGE, "Grain after the heating",
    accept=("pale, crisp",), watch=("tips brown",), stop=("brown", "smoke"),
    act="Throw the sample away: more than water has left. Smoke: door shut, switch off at the wall, shift lead.",
    standing=COMMON,
)  # fmt: skip

ROWS: tuple[Limit | Signs, ...] = (PAIRS, DOUBT, OUTSIDE, AGE, AGAINST_OVEN, TWO, STEADY, COUNTED, SCORCH)
