"""What is wanted of a batch by the malt that is made of it: ranges, each with what it rests on.

They are targets, no limits: a stop stands over each of them. A house has its own rows in ``house.toml``.
"""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import NamedTuple

from . import house
from .limit import COMMON, MEMORY, PUBLISHED
from .limits.casting import MOISTURE
from .limits.floor_germination import PIECE
from .limits.readiness import READY

HOUSE = "this house"


class Range(NamedTuple):
    """From ``low`` to ``high`` of one quantity, both wanted, with what it rests on."""

    low: float
    high: float
    standing: str = MEMORY
    sources: tuple[str, ...] = ()

    @property
    def middle(self) -> float:
        """The middle, which a sheet takes as its target."""
        return 0.5 * (self.low + self.high)


class Malt(NamedTuple):
    """A malt and what is wanted for it.

    ``nitrogen`` is of the barley’s dry matter [%]; ``cast`` the drained moisture at the cast [%]; ``floor`` the grain
    on the floor or in the drum [C]; ``acrospire`` its usual length when ready [parts of the corn]; ``ready`` the share
    of corns at three quarters or more that it is called ready at [%]; ``days`` from the cast, at that warmth.
    """

    id: str
    name: str
    nitrogen: Range
    cast: Range
    floor: Range
    acrospire: Range
    ready: Range
    days: Range
    barley: str
    hand_over: str
    why: str


class Quantity(NamedTuple):
    """A column of the table: how it is called, its unit, and how far a house may set it."""

    id: str
    label: str
    unit: str
    lowest: float
    highest: float


QUANTITIES = (
    Quantity("nitrogen", "Nitrogen of the barley", "%", 1.0, 2.6),
    Quantity("cast", "Moisture at the cast", "%", MOISTURE.stop_low or 0.0, MOISTURE.stop_high or 0.0),
    Quantity("floor", "Grain on the floor", "C", PIECE.stop_low or 0.0, PIECE.stop_high or 0.0),
    Quantity("acrospire", "Acrospire", "of the corn", 0.4, 1.1),
    Quantity("ready", "Corns at three quarters or more", "%", READY.lowest or 0.0, 90.0),
    Quantity("days", "Days from the cast", "days", 2.0, 20.0),
)
"""No target of a house lies past a stop: cast and floor are bounded by the stops of their limits."""

_DAYS = Range(5, 7, PUBLISHED, ("mueller-2014",))

BOOK_MALTS = (
    Malt(
        "pale-ale", "Pale ale",
        Range(1.55, 1.65, PUBLISHED, ("magb-nitrogen",)), Range(43, 45, PUBLISHED, ("cmbtc",)), Range(13, 16, COMMON),
        Range(0.75, 1.0, PUBLISHED, ("companion-floor-malting",)), Range(75, 85), _DAYS,
        "even, low in nitrogen, mealy",
        "dried with much air; cured warmer than lager malt, at 90 to 105 °C, down to 2 or 3 %",
        "It is mashed at one temperature. So the walls must be open to the far end before the kiln.",
    ),
    Malt(
        "lager", "Lager",
        Range(1.55, 1.75, PUBLISHED, ("magb-nitrogen",)), Range(43, 45, PUBLISHED, ("cmbtc",)), Range(12, 15, COMMON),
        Range(0.65, 0.85), Range(65, 75), Range(6, 8, PUBLISHED, ("narziss-1966",)),
        "even, low to middling in nitrogen",
        "first air at 50 °C and much of it; cured at 75 to 90 °C, down to 5 %",
        "It stays pale. Cool growth and a shorter acrospire leave less sugar to brown on the kiln.",
    ),
    Malt(
        "vienna", "Vienna",
        Range(1.65, 1.85), Range(44, 46), Range(14, 17, COMMON), Range(0.75, 1.0), Range(75, 85), Range(6, 7),
        "as for lager, a little richer in nitrogen",
        "dried as lager malt, cured hotter, at about 90 to 95 °C",
        "Between lager and dark in all: a little wetter, warmer and further, for a little colour.",
    ),
    Malt(
        "dark", "Dark, of the Munich kind",
        Range(1.75, 1.92, PUBLISHED, ("dark-malt-trade",)), Range(45, 47, PUBLISHED, ("dark-malt-trade",)),
        Range(15, 18, MEMORY), Range(0.85, 1.0), Range(80, 90), Range(7, 9, PUBLISHED, ("narziss-1966",)),
        "rich in nitrogen: protein up to almost 12 %",
        "loaded wet, kept moist at up to 40 °C for some hours, then cured at 80 to 105 °C",
        "Its colour is made on the kiln of sugar and broken protein. Growth has to make plenty of both.",
    ),
    Malt(
        "crystal", "Crystal, from green malt",
        Range(1.6, 1.8), Range(44, 46), Range(14, 17, COMMON), Range(0.75, 1.0), Range(80, 90), _DAYS,
        "even; size counts, since it is roasted corn by corn",
        "goes green and wet to a closed drum, not to the kiln; its starch turns to sugar at 60 to 75 °C",
        "The inside becomes sugar in the corn itself. What is hard stays a hard tip.",
    ),
    Malt(
        "distilling", "Malt for pot stills",
        Range(1.4, 1.65, PUBLISHED, ("magb-nitrogen",)), Range(44, 46), Range(14, 17, COMMON), Range(0.75, 1.0),
        Range(80, 90), _DAYS,
        "low in nitrogen: more starch, more spirit",
        "dried gently, up to about 70 °C, with peat smoke while it is wet where that is wanted",
        "Its enzymes go on working after the mash. So they must live, and nothing may stay hard.",
    ),
    Malt(
        "grain-distilling", "Malt for grain stills",
        Range(1.8, 2.2), Range(45, 47), Range(12, 15), Range(0.85, 1.0), Range(75, 90), Range(5, 8),
        "rich in nitrogen and in enzymes; thin corns do",
        "used green, or dried at 50 to 60 °C with much air",
        "It is bought for its enzymes: it turns the starch of other grain. Wet, cool growth makes the most of them.",
    ),
)  # fmt: skip
"""The rows of the book, palest first, then for spirit."""


def malts() -> tuple[Malt, ...]:
    """All rows as this house has them."""
    return tuple(_as_here(row) for row in BOOK_MALTS)


def malt_of(name: str) -> Malt:
    """The row of a malt.

    Parameters
    ----------
    name : str
        Its id, such as ``pale-ale``.

    Raises
    ------
    LookupError
        When there is none; the message names those there are.
    """
    for row in malts():
        if row.id == name:
            return row
    raise LookupError(f"There is no malt “{name}”. There are: {', '.join(row.id for row in BOOK_MALTS)}.")


def _as_here(row: Malt) -> Malt:
    own = {name: Range(low, high, HOUSE) for name, (low, high) in house.MALTS.get(row.id, {}).items()}
    return row._replace(**own)  # type: ignore[arg-type]
