"""Limits of the weekly round of a store."""

from ..limit import COMMON, OURS, PUBLISHED, Limit, Signs, limit
from .germination_test import ENERGY
from .intake_and_storage import STORE_MOISTURE, STORE_TEMP

_PAGE = "store-through-the-year"

SPOT = limit(
    Limit(
        "store-spot", _PAGE, "Warmest spot over the rest of the bin", "K",
        accept_high=1, stop_high=3,
        act="Something breathes there. Air it, and turn the lot over to an empty bin, from outside, within days.",
        standing=COMMON, lowest=0.5, highest=6,
    )
)  # fmt: skip
SURFACE = limit(
    Limit(
        "store-surface", _PAGE, "Top layer wetter than the grain a metre down, by", "points",
        accept_high=1, stop_high=2,
        act="Air it by dry nights, and air the roof space. Mites come where the top is damp. Nobody steps on it.",
        standing=COMMON, lowest=0.5, highest=4,
    )
)  # fmt: skip
FAN = limit(
    Limit(
        "store-fan", _PAGE, "Outside air cooler than the grain, when the fan runs, by", "K",
        stop_low=1, accept_low=4, watch="little is won",
        act="Fan off: such air warms and wets the grain.",
        standing=PUBLISHED, sources=("woods-store-2000",), lowest=0, highest=10,
    )
)  # fmt: skip
SPENT = limit(
    Limit(
        "store-time-spent", _PAGE, "What a lot has spent in store", "% of its time",
        accept_high=50, stop_high=100, watch="count its energy now; it goes to the steep before others",
        act="Count energy and capacity before anything is made of it. It may be asleep, dying or dead.",
        standing=OURS, sources=("hellevang-2009", "hellevang-2019"), lowest=20, highest=100,
    )
)  # fmt: skip
TRAPS = Signs(
    "store-traps", _PAGE, "Insects in the week’s traps", accept=("none",), watch=("one, of the field",),
    stop=("store beetles", "weevils", "moths"),
    act="Keep the lot apart, sieve it, cool it on. Tell the shift lead. Only licensed people fumigate.",
    standing=COMMON,
)  # fmt: skip
MITES = Signs(
    "store-mites", _PAGE, "Mites in the sieve’s dust", accept=("none seen",), watch=("a few",),
    stop=("dust that moves", "a minty smell"), act="Dry and cool the top from outside. Mask on: they make people ill.",
    standing=COMMON,
)  # fmt: skip
VERMIN = Signs(
    "store-vermin", _PAGE, "Rats, mice, birds", accept=("no signs",), watch=("old droppings",),
    stop=("fresh droppings", "gnawed sacks", "nests"),
    act="Gloves on, damp before you sweep. The site’s contractor baits, nobody else. Spoilt grain is kept apart.",
    standing=COMMON,
)  # fmt: skip
CRUST = Signs(
    "store-crust", _PAGE, "Top of the bin, seen from the port", accept=("loose",), watch=("damp",),
    stop=("a crust", "sprouts", "mould"),
    act="Do not step on it: there may be a hollow below. Shift lead; it is broken from outside or by permit.",
    standing=COMMON,
)  # fmt: skip

ROWS: tuple[Limit | Signs, ...] = (
    STORE_TEMP, SPOT, STORE_MOISTURE, SURFACE, FAN, SPENT, ENERGY, TRAPS, MITES, VERMIN, CRUST,
)  # fmt: skip
