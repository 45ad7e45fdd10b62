"""Limits of the germination test."""

from ...models.counts.replicates import TABLE_SIZE, tabled_range
from ..limit import PUBLISHED, Limit, Signs, limit

_PAGE = "germination-test"

ENERGY = limit(
    Limit(
        "germination-energy", _PAGE, "Energy, whole interval", "%",
        stop_low=95, accept_low=95, interval=True, watch="count more",
        act="Test the capacity: it tells sleeping corns from dead ones.",
        standing=PUBLISHED, sources=("barley-lab-germination",), lowest=80, highest=99.5,
    )
)  # fmt: skip
CAPACITY = limit(
    Limit(
        "germination-capacity", _PAGE, "Capacity, whole interval", "%",
        stop_low=95, accept_low=98, interval=True, watch="the grey band",
        act="Do not malt it. Repeat on a fresh sample, then send it back.",
        standing=PUBLISHED, sources=("magb-intake", "barley-lab-germination"), lowest=80, highest=99.5,
    )
)  # fmt: skip
WATER_SENSITIVITY = limit(
    Limit(
        "water-sensitivity", _PAGE, "Water sensitivity", "points",
        accept_high=10, stop_high=30, stay_under=True, watch="longer air rests",
        act="Change the steep first.",
        standing=PUBLISHED, sources=("barley-lab-germination",), lowest=5, highest=50,
    )
)  # fmt: skip

_FOUR_AT_95 = tabled_range(replicates=4, size=TABLE_SIZE, mean_percent=95.0)
DISHES_APART = limit(
    Limit(
        "dishes-apart", _PAGE, "Best less worst of four dishes of 100, at a mean of 95 %", "corns",
        accept_high=_FOUR_AT_95, stop_high=_FOUR_AT_95, act="Repeat all on a fresh sample.",
        standing=PUBLISHED, sources=("cfr-201-55",), lowest=1, highest=20,
    )
)  # fmt: skip
TEST_TEMP = limit(
    Limit(
        "germination-test-temp", _PAGE, "Test temperature", "C",
        stop_low=18, accept_low=19, accept_high=21, stop_high=22, act="Begin again at 20 °C.",
        sources=("barley-lab-germination",), lowest=15, highest=25,
    )
)  # fmt: skip
MOULD = Signs(
    "germination-test-mould", _PAGE, "Mouldy corns",
    accept=("none",), watch=("a few",), stop=("many",), act="Smell the lot, and ask.",
)  # fmt: skip

ROWS: tuple[Limit | Signs, ...] = (ENERGY, CAPACITY, WATER_SENSITIVITY, DISHES_APART, TEST_TEMP, MOULD)
