"""Limits of cleaning: what may be left of one batch when the next comes."""

from ..limit import Limit, Signs, limit

_PAGE = "between-batches"

CORNS = Signs(
    "clean-corns", _PAGE, "Corns left", accept=("none seen",), watch=("a few in cracks",),
    stop=("old piece still lying",), watch_more="(take them out)",
    act="Sweep again, from the far end. Cast nothing onto it.",
)  # fmt: skip
MOULD = Signs(
    "clean-mould", _PAGE, "Mould", accept=("none",), watch=("single spots",), stop=("a patch wider than a hand",),
    watch_more="(clean again)", act="Mask on. Damp it before anyone touches it.",
)  # fmt: skip
SMELL = Signs(
    "clean-smell", _PAGE, "Smell of floor and room, never at a vessel", accept=("nothing",), watch=("damp",),
    stop=("sour", "musty", "of cleaner"),
    act="Rinse and flush again from outside. Plates and pits are a permit matter.",
)  # fmt: skip
RINSE = Signs(
    "clean-rinse", _PAGE, "Rinse; of a vessel foam alone, seen from the rim", accept=("no foam", "no smell"),
    stop=("foam or smell after two rinses",),
    act="Rinse until it is gone. No other cleaner on top.",
)  # fmt: skip
SLIME = Signs(
    "clean-slime", _PAGE, "Slime at nozzles or sump", accept=("none",), watch=("a film",), stop=("slime",),
    watch_more="(clean it)", act="No spray until it is gone: [[page:safety/water-heat-noise|water, heat and noise]].",
)  # fmt: skip
JETS = limit(
    Limit(
        "clean-jets", _PAGE, "Air jets of the steep that bubble alike", "%",
        stop_low=75, accept_low=95, watch="mark the weak ones",
        act="The steep is not filled before those in charge have looked: part of the grain would get no air.",
        lowest=50, highest=100,
    )
)  # fmt: skip
SCREEN = Signs(
    "clean-screen", _PAGE, "Water in the cone, drain open", accept=("gone at once",), watch=("slow",),
    stop=("a pool that stands",), act="Back-wash, and the lance from the rim. Then a permit matter.",
)  # fmt: skip
THERMOMETERS = limit(
    Limit(
        "clean-thermometers", _PAGE, "Thermometers apart", "K",
        accept_high=0.5, stop_high=1, watch="mark", act="Replace the odd one.", lowest=0.1, highest=2,
    )
)  # fmt: skip
VERMIN = Signs(
    "clean-vermin", _PAGE, "Rats, insects", accept=("none",), watch=("old signs",),
    stop=("fresh droppings", "live insects"), act="Gloves on. Cast nothing before those in charge have looked.",
)  # fmt: skip
PERSON = Signs(
    "clean-person", _PAGE, "A person inside drum, duct or pit", stop=("always",),
    stop_more="without the site’s permit", act="Stop, call, and stay out.",
)  # fmt: skip

ROWS = (CORNS, MOULD, SMELL, RINSE, SLIME, JETS, SCREEN, THERMOMETERS, VERMIN, PERSON)
