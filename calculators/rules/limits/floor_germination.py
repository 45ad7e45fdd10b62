"""Limits of the piece on the floor, from the broken couch to the kiln."""

from ..limit import PUBLISHED, Limit, Signs, limit, of_book

_PAGE = "floor-germination"

OLD_PIECE_DAY = 6
"""From this day on the floor, at about 14 C, roots wither because the piece is ripe (the page's table by day)."""
NEVER_C, NEVER_HIGH_C = 25.0, 27.5
"""An old rule never lets a heap pass 25 to 27.5 C: 20 to 22 degrees Reaumur (Balling, read)."""
AT_REST_K = 0.5
"""Bottom and top count as alike, and neither as the warmer, up to here [K]: what a thermometer is good for."""

DIFFERENCE = limit(
    Limit(
        "floor-difference", _PAGE, "Bottom minus top", "K",
        accept_high=4, stop_high=8, accept="up to your house’s limit (3 to 5 K; else {accept_high})",
        watch="from there to {stop_high}: turn",
        act="Turn it at once, and read again after an hour.", lowest=1, highest=10,
    )
)  # fmt: skip
PIECE = limit(
    Limit(
        "floor-piece", _PAGE, "Piece on the whole", "C",
        stop_low=8, accept_low=12, accept_high=17, stop_high=20,
        act="Over: turn it, lay it thin, open what is cooler than the room. Under: lay it thicker and close up. Gas "
        "gathers then: the room’s alarm first, at every look.",
        standing=PUBLISHED, sources=("mueller-2014", "evans-2024", "thomson-1824"), lowest=4, highest=24,
    )
)  # fmt: skip
BOTTOM = limit(
    Limit(
        "floor-bottom", _PAGE, "Bottom", "C",
        accept_high=20, stop_high=22, watch="turn",
        act="Turn it at once, lay it thin, and read again after an hour.",
        sources=("balling",), lowest=14, highest=24,
    )
)  # fmt: skip
DEPTH = limit(
    Limit(
        "floor-depth", _PAGE, "Depth of a growing piece", "cm",
        accept_low=8, accept_high=25, stop_high=40, accept="by the day, as above",
        act="Lay it thinner: only a couch lies so deep.",
        sources=("companion-floor-malting", "merveilles-floor", "coppinger-1815", "thomson-1824"), lowest=4, highest=60,
    )
)  # fmt: skip
MOISTURE = limit(
    Limit(
        "germination-moisture", _PAGE, "Moisture", "%",
        stop_low=40, accept_low=42, accept_high=46, stop_high=48,
        act="Under: sprinkle it in rounds, unless it is all but ready. "
        "Over: no water; on a floor lay it thin and turn it often, in a drum or box air on, cool and full.",
        standing=PUBLISHED, sources=("evans-2024",), lowest=36, highest=52,
    )
)  # fmt: skip
MOISTURE_LOST = limit(
    Limit(
        "germination-moisture-lost", _PAGE, "Moisture lost a day", "points",
        accept_high=1, stop_high=1.5, accept="about 0.5 is usual",
        act="Find what dries it: a draught, dry air, a piece too thin, a spray that is blocked.",
        sources=("cnam-germination",), lowest=0.3, highest=3,
    )
)  # fmt: skip
TURNING = limit(
    Limit(
        "floor-turning-hours", _PAGE, "Time between turnings", "h",
        accept_low=6, accept_high=12, stop_high=16, accept="by the thermometers",
        act="Turn it now, and look at the roots.",
        sources=("merveilles-floor", "companion-floor-malting", "thomson-1824"), lowest=3, highest=30,
    )
)  # fmt: skip
ROOTS = Signs(
    "floor-roots", _PAGE, "Roots", accept=("fresh",), watch=("clinging", "withering"), stop=("knotted",),
    watch_more="(before the acrospire is at ¾)",
    act="Plough, then turn. Break lumps by hand.",
)  # fmt: skip
SMELL = Signs(
    "floor-smell", _PAGE, "Smell", accept=("cucumber", "apples"), watch=("flat",), stop=("sour", "fruity", "musty"),
    accept_more="at the sweating",
    act="Sour or fruity: turn it, lay it thin, sweep water out. Musty: mask on, and look for mould.",
    sources=("narziss-smell",),
)  # fmt: skip
MOULD = Signs(
    "floor-mould", _PAGE, "Mould", accept=("none",), watch=("single green corns",), stop=("patches",),
    act="Mask on. Lift them out damp, in a bag, before anything is turned: "
    "[[page:safety/dust-and-moulds|dust and moulds]].",
)  # fmt: skip
ROOM = limit(
    Limit(
        "floor-room", _PAGE, "Room, in winter", "C",
        stop_low=5, accept_low=5,
        act="Close up, with the room’s gas alarm first at every look. Cast no more onto this floor until it is warmer.",
        lowest=0, highest=10,
    )
)  # fmt: skip


def _summer_bottom(depth: Limit, bottom: Limit) -> Limit:
    return Limit(
        "floor-summer-bottom", _PAGE, f"Bottom at {depth.accept_low:g} cm, windows open all night", "C",
        stop_high=bottom.accept_high,
        act="There is nothing left to thin or to open: cast no more onto this floor. Turn it.",
        lowest=14, highest=24,
    )  # fmt: skip


SUMMER_BOTTOM = limit(_summer_bottom(DEPTH, BOTTOM), _summer_bottom(of_book(DEPTH), of_book(BOTTOM)))
GAS_ALARM = Signs(
    "floor-gas-alarm", _PAGE, "Gas alarm", stop=("sounds",), act="Leave. Its silence tells you nothing.",
)  # fmt: skip

ROWS = (
    DIFFERENCE,
    PIECE,
    BOTTOM,
    DEPTH,
    MOISTURE,
    MOISTURE_LOST,
    TURNING,
    ROOTS,
    SMELL,
    MOULD,
    ROOM,
    SUMMER_BOTTOM,
    GAS_ALARM,
)
