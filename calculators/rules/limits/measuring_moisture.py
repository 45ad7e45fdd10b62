"""Limits of measuring moisture, by the oven and by the basket."""

from ...models.weights.oven import REPEATABILITY
from ..limit import MEMORY, OURS, Limit, Signs, limit

_PAGE = "measuring-moisture"

DRY_DISHES = limit(
    Limit(
        "dishes-dry", _PAGE, "Two dishes, ground dry barley, apart by", "points",
        accept_high=REPEATABILITY["dry_barley"], stop_high=0.3,
        act="Do it again: a new pair from a mixed sample.", standing=MEMORY, lowest=0.1, highest=0.5,
    )
)  # fmt: skip
WET_DISHES = limit(
    Limit(
        "dishes-wet", _PAGE, "Two dishes, whole wet corns, apart by", "points",
        accept_high=REPEATABILITY["steeped_corn"], stop_high=1,
        act="Do it again: a new pair from a mixed sample.", standing=OURS, lowest=0.2, highest=2,
    )
)  # fmt: skip
WEIGHINGS = limit(
    Limit(
        "basket-weighings", _PAGE, "Two basket weighings, 100 g of barley, apart by", "g",
        accept_high=0.3, stop_high=1,
        act="Do it again: dry the outside, hang it free, look at the scale’s zero.", lowest=0.1, highest=3,
    )
)  # fmt: skip
DRIPPING = limit(
    Limit(
        "draining-time", _PAGE, "Draining time of the basket", "min",
        stop_low=5, accept_low=10, accept_high=10, stop_high=15, accept="always", stop="or “it dripped a bit”",
        act="Do it again: wet it, drain it as long as always, weigh.", lowest=2, highest=30,
    )
)  # fmt: skip
BASKET_OVEN = limit(
    Limit(
        "basket-against-oven", _PAGE, "Basket against oven, same hour, apart by", "points",
        accept_high=1, stop_high=2,
        act="Do both again, and weigh the empty basket wet.", lowest=0.5, highest=4,
    )
)  # fmt: skip
FULLNESS = limit(
    Limit(
        "basket-fullness", _PAGE, "How full the basket is with dry barley", "%",
        accept_high=50, stop_high=67, accept="half", watch="two thirds", stop="or the lid lifts: corns press or spill",
        act="A new sample, half full. What was pressed or spilt tells nothing.", lowest=20, highest=80,
    )
)  # fmt: skip
OUT_OF_STEEP = limit(
    Limit(
        "basket-out", _PAGE, "Basket out of the steep", "min",
        accept_high=15, stop_high=30, stop="(it dries and chits apart from the rest)",
        act="This basket no longer tells. Hang it back. Take the next moisture from a sample of the grain, "
        "the quick way.",
        lowest=5, highest=60,
    )
)  # fmt: skip

ROWS: tuple[Limit | Signs, ...] = (
    DRY_DISHES,
    WET_DISHES,
    WEIGHINGS,
    DRIPPING,
    BASKET_OVEN,
    FULLNESS,
    OUT_OF_STEEP,
)
