"""Limits of filling the steep."""

from ..limit import PUBLISHED, Limit, Signs, limit, of_book
from .intake_and_storage import GATE_MOISTURE
from .steeping import WATER_TEMP

_PAGE = "filling-the-steep"

FILL = limit(
    Limit(
        "fill-minutes", _PAGE, "Time to fill", "min",
        accept_high=60, stop_high=120,
        act="Write when the first and when the last corn got wet. They are of two ages and chit on different days.",
        lowest=10, highest=240,
    )
)  # fmt: skip
COVER = limit(
    Limit(
        "water-over-grain", _PAGE, "Water above the grain", "cm",
        stop_low=5, accept_low=10, accept_high=15, stop="or grain breaks the surface",
        act="Stop the feed, add water, level it from the platform.", lowest=1, highest=40,
    )
)  # fmt: skip
SKIMMINGS = limit(
    Limit(
        "skimmings", _PAGE, "Drained skimmings, as a share of the charge", "%",
        accept_high=1, stop_high=3,
        act="Skim on, weigh them, keep a sample. Look at the screens and the lot.", lowest=0.2, highest=8,
    )
)  # fmt: skip
CHARGE = limit(
    Limit(
        "charge-against-plan", _PAGE, "Charge against plan, either way", "%",
        accept_high=1, stop_high=3,
        act="Stop, zero the scale, weigh a known weight.", lowest=0.2, highest=6,
    )
)  # fmt: skip
RATING = Signs(
    "charge-against-rating", _PAGE, "Charge against the vessel’s rating", stop=("over the vessel’s rating",),
    act="No more grain. What the vessel and its floor carry is an engineer’s matter.",
)  # fmt: skip
ROOM = limit(
    Limit(
        "room-for-swelling", _PAGE, "Room for swelling, above the dry volume", "%",
        stop_low=25, accept_low=50, accept="for a half more volume", watch="for a quarter more",
        act="A smaller charge. Swollen grain goes over the rim or packs tight.", lowest=20, highest=80,
    )
)  # fmt: skip
_BARLEY_MOISTURE = Limit(
    "steep-barley-moisture", _PAGE, "Barley moisture", "%",
    accept_high=14, stop_high=GATE_MOISTURE.stop_high,
    act="Dry a sample again. Look for heat and a musty smell before it is steeped.",
    standing=PUBLISHED, sources=("magb-intake",), lowest=12, highest=18,
)  # fmt: skip
BARLEY_MOISTURE = limit(_BARLEY_MOISTURE, _BARLEY_MOISTURE._replace(stop_high=of_book(GATE_MOISTURE).stop_high))
SMELL = Signs(
    "steep-barley-smell", _PAGE, "Smell of the barley",
    accept=("clean", "like straw"), watch=("dusty",), stop=("musty", "hot", "of chemicals"),
    act="Stop the feed and keep the lots apart. Of chemicals: leave it, and let a competent person meter it.",
)  # fmt: skip

ROWS: tuple[Limit | Signs, ...] = (WATER_TEMP, FILL, COVER, SKIMMINGS, CHARGE, RATING, ROOM, BARLEY_MOISTURE, SMELL)
