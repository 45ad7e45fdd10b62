"""Limits of the cast, and of the couch and the drum in their first hours."""

from ..fan_stopped import AWAY
from ..limit import PUBLISHED, Limit, Signs, edge, limit, of_book

_PAGE = "casting"

OFF_TARGET = limit(
    Limit(
        "cast-off-target", _PAGE, "Moisture at the cast against the target", "points",
        accept_high=1, stop_high=3,
        act="Ask what went otherwise than planned before the next batch.", lowest=0.3, highest=4,
    )
)  # fmt: skip


def _moisture(off_target: Limit) -> Limit:
    near = edge(off_target.accept_high)
    return Limit(
        "cast-moisture", _PAGE, "Moisture at the cast, drained", "%",
        stop_low=41, accept_low=43, accept_high=47, stop_high=48,
        accept=f"within {near:g} {'point' if near == 1 else 'points'} of the target", stop="or milky when pressed",
        act="Under: it will not grow through; wet it again, or cast and sprinkle. "
        "Over: on a floor lay it thin and turn it often; in a drum or box air on, cool and full.",
        standing=PUBLISHED, sources=("narziss-1966", "oxford-companion"), lowest=38, highest=50,
    )  # fmt: skip


MOISTURE = limit(_moisture(OFF_TARGET), _moisture(of_book(OFF_TARGET)))
CHIT = limit(
    Limit(
        "chit-cast", _PAGE, "Chit at the cast, to a drum or a box", "%",
        stop_low=80, accept_low=90,
        act="Leave it in the air rest, or cast it to a couch and let it finish there.",
        sources=("cmbtc",), lowest=60, highest=99,
    )
)  # fmt: skip
CHIT_COUCH = limit(
    Limit(
        "chit-couch", _PAGE, "Chit at the cast, to a couch", "%",
        stop_low=50, accept_low=80, watch="it finishes in the couch",
        act="Leave it in the air rest, and ask whether the grain is cold, dormant or drowned.",
        sources=("cmbtc",), lowest=30, highest=99,
    )
)  # fmt: skip
GRAIN_TEMP = limit(
    Limit(
        "cast-grain-temp", _PAGE, "Grain at the cast", "C",
        stop_low=8, accept_low=12, accept_high=17, stop_high=18,
        act="Over: cast at once; on a floor lay it thin, in a drum or box air on, cool and full. "
        "Under: on a floor lay it thick, out of draughts; in a drum or box no air colder than the grain.",
        lowest=4, highest=22,
    )
)  # fmt: skip
COUCH_RISE = limit(
    Limit(
        "couch-over-room", _PAGE, "Couch, bottom minus room", "K",
        accept_high=6, stop_high=8, act="Break it and lay it thin.", lowest=2, highest=10,
    )
)  # fmt: skip
COUCH_BOTTOM = limit(
    Limit(
        "couch-bottom", _PAGE, "Couch, bottom", "C",
        accept_high=18, stop_high=20, act="Break it and lay it thin.", lowest=12, highest=24,
    )
)  # fmt: skip
COUCH_HOURS = limit(
    Limit(
        "couch-hours", _PAGE, "Time in the couch", "h",
        accept_low=12, accept_high=30, stop_high=36, stop="or sour",
        watch="or broken earlier: lay it thick, and write why",
        act="Break it and lay it as a piece.", lowest=4, highest=48,
    )
)  # fmt: skip
SMELL = Signs(
    "cast-smell", _PAGE, "Smell", accept=("cucumber", "straw"), watch=("flat",), stop=("sour", "fruity", "musty"),
    act="Sour or fruity: spread it thin, turn it at once. Musty: mask on, do not turn it, keep it apart, ask.",
    sources=("narziss-smell",),
)  # fmt: skip
NO_AIR = Signs(
    "cast-drum-air", _PAGE, "Air on the grain in the drum after filling", accept=("on",), stop=("off",),
    act=f"At once: {AWAY}.",
)  # fmt: skip
PERSON = Signs(
    "cast-person", _PAGE, "A person in the steep, the drum or the outlet’s path", stop=("always",),
    act="Stop what moves, and call.",
)  # fmt: skip

ROWS = (
    MOISTURE, OFF_TARGET, CHIT, CHIT_COUCH, GRAIN_TEMP, COUCH_RISE, COUCH_BOTTOM, COUCH_HOURS, NO_AIR, SMELL, PERSON,
)  # fmt: skip
