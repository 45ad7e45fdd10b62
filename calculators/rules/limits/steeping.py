"""Limits of the steep, from the first immersion to the cast."""

from ..limit import OURS, PUBLISHED, Limit, Signs, limit
from . import casting

_PAGE = "steeping"

FIRST_DRAIN = limit(
    Limit(
        "first-drain-moisture", _PAGE, "Moisture at the first drain", "%",
        stop_low=28, accept_low=30, accept_high=35, stop_high=37,
        act="Under: leave the water on, with air, within the hours of one immersion. Over: drain now, and rest longer.",
        sources=("cmbtc",), lowest=20, highest=42,
    )
)  # fmt: skip
SECOND_DRAIN = limit(
    Limit(
        "second-drain-moisture", _PAGE, "Moisture at the second drain", "%",
        stop_low=36, accept_low=38, accept_high=41, stop_high=43,
        act="Over: drain now; the last dip may not be needed. Under: rest, then wet again.",
        lowest=30, highest=46,
    )
)  # fmt: skip
IMMERSION = limit(
    Limit(
        "immersion-hours", _PAGE, "One immersion", "h",
        accept_high=8, stop_high=12,
        watch="with air all through", stop="or any hour without air",
        act="Drain, give the grain air, and wet it again after a rest.",
        lowest=1, highest=24,
    )
)  # fmt: skip
REST = limit(
    Limit(
        "rest-hours", _PAGE, "Air rest", "h",
        accept_low=6, accept_high=12, stop_high=24, accept="from opening the drain until water covers the grain",
        watch="for barley that dislikes water, or over a night",
        act="Wet it or cast it. Left lying, the chits dry and the roots tangle.",
        sources=("cmbtc",), lowest=1, highest=48,
    )
)  # fmt: skip
DRAIN = limit(
    Limit(
        "drain-minutes", _PAGE, "Drain", "min",
        accept_low=30, accept_high=60, stop_high=90,
        act="Push water back from below for a minute, open again, and find out what holds it. While water stands on "
        "the screen no suction: process air, gently.",
        lowest=5, highest=180,
    )
)  # fmt: skip
REST_TEMP = limit(
    Limit(
        "rest-temp", _PAGE, "Grain in an air rest", "C",
        accept_high=17, stop_high=18, act="Full suction, or wet sooner.",
        standing=PUBLISHED, sources=("haley-1987",), lowest=5, highest=22,
    )
)  # fmt: skip
REST_COLD = limit(
    Limit(
        "rest-cold", _PAGE, "Coldest grain in an air rest", "C",
        stop_low=5, accept_low=8, watch="it hardly chits, and is not cast so cold",
        act="Less suction, and shut what lets cold air in.",
        lowest=2, highest=12,
    )
)  # fmt: skip
REST_SPREAD = limit(
    Limit(
        "rest-spread", _PAGE, "Warmest minus coolest grain in an air rest", "K",
        accept_high=2, stop_high=4,
        act="Full suction; look for the corner that gets no air.",
        lowest=0.5, highest=8,
    )
)  # fmt: skip
REST_RISE = limit(
    Limit(
        "rest-rise", _PAGE, "Rise in an air rest, an hour", "K",
        accept_high=0.5, stop_high=1,
        act="More suction, or wet sooner.",
        lowest=0.1, highest=3,
    )
)  # fmt: skip
WATER_TEMP = limit(
    Limit(
        "steep-water-temp", _PAGE, "Steep water", "C",
        stop_low=5, accept_low=10, accept_high=16, stop_high=20, accept="after mixing", watch="by the season’s plan",
        act="Mix it with warmer or cooler water before it covers the grain.",
        sources=("haley-1987",), lowest=2, highest=25,
    )
)  # fmt: skip
FILL_AGAINST_GRAIN = limit(
    Limit(
        "fill-against-grain", _PAGE, "Fresh water against the grain it covers, either way", "K",
        accept_high=2, stop_high=2, act="Mix it nearer to the grain.", lowest=0.5, highest=6,
    )
)  # fmt: skip
STEEP = limit(
    Limit(
        "steep-hours", _PAGE, "From the first wetting to the last drain", "h",
        stop_low=24, accept_low=28, watch="count the chits before you plan the cast",
        act="Longer rests. Corns that had no time to chit are not cast.",
        sources=("cmbtc",), lowest=12, highest=48,
    )
)  # fmt: skip
CHIT_LAST_DIP = limit(
    Limit(
        "chit-last-dip", _PAGE, "Chit before the last dip", "%",
        stop_low=50, accept_low=70,
        act="Leave it in the air rest. Corns that have not chitted drown in the next water.",
        lowest=20, highest=95,
    )
)  # fmt: skip
SMELL = Signs(
    "steep-smell", _PAGE, "Smell",
    accept=("fresh", "straw", "cucumber"), watch=("flat",), stop=("sour", "fruity", "like wine", "rotten"),
    act="Drain and give air at once. No water again before it smells fresh.",
    sources=("narziss-smell",),
)  # fmt: skip
CONSENT = limit(
    Limit(
        "effluent-consent", _PAGE, "Drain of a day, by the upper end of an estimate", "% of the consent",
        accept_high=80, stop_high=100, watch="have the drain analysed before the next change",
        act="Hold back what the tanks can hold, and ask whoever holds the consent before the next drain is opened. "
        "Grain that waits under water keeps its air.",
        standing=OURS, lowest=20, highest=100,
    )
)  # fmt: skip
BELOW_THE_RIM = Signs(
    "steep-person", _PAGE, "A person in or near an opening below the rim", stop=("always",),
    act="Step back from the rim. Shout and call. Nobody goes in.",
)  # fmt: skip

ROWS = (
    FIRST_DRAIN,
    SECOND_DRAIN,
    casting.MOISTURE,
    IMMERSION,
    DRAIN,
    REST,
    REST_TEMP,
    REST_COLD,
    REST_SPREAD,
    REST_RISE,
    WATER_TEMP,
    FILL_AGAINST_GRAIN,
    STEEP,
    CHIT_LAST_DIP,
    casting.CHIT,
    casting.CHIT_COUCH,
    SMELL,
    CONSENT,
    BELOW_THE_RIM,
)
