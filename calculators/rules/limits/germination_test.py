"""Limits of germination test."""

from ..limit import PUBLISHED, Limit, Signs, limit

_PAGE = "germination-test"

WATER_SENSITIVITY = limit(
    Limit(
        "water-sensitivity", _PAGE, "Water sensitivity", "points",
        accept_high=10, stop_high=30, watch="longer air rests",
        act="Change the steep first: longer air rests and shorter immersions.",
        standing=PUBLISHED, sources=("barley-lab-germination",), lowest=5, highest=60,
    )
)  # fmt: skip

ROWS: tuple[Limit | Signs, ...] = (WATER_SENSITIVITY,)
