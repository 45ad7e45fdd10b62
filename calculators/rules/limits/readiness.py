"""Limits of readiness for the kiln."""

from ..limit import MEMORY, Limit, Signs, limit
from . import kiln_hand_over

_PAGE = "readiness"

READY = limit(
    Limit(
        "ready-share", _PAGE, "Acrospire at three quarters and beyond", "%",
        accept_low=75, watch="under it: wait, or count more, as the sheet says", stop="under it after day 7",
        act="Find out why it is slow: cold, dry, or short of air.",
        standing=MEMORY, sources=("ajib-thesis",), lowest=50, highest=99,
    )
)  # fmt: skip
OVERSHOT = limit(
    Limit(
        "overshot-share", _PAGE, "Overshot", "%",
        accept_high=10, stop_high=10, stay_under=True,
        act="It is already late: to the kiln now. Tell the shift lead and write why.", tell="",
        sources=("black-treatise",), lowest=0.5, highest=50,
    )
)  # fmt: skip
FLOUR = limit(
    Limit(
        "dry-flour-share", _PAGE, "Dry flour by the rub", "%",
        stop_low=50, accept_low=75, accept="of the corns", stop="with long acrospires",
        act="Wait for the rub, and tell the shift lead before anything is loaded.", tell="",
        sources=("thomson-1824",), lowest=30, highest=99,
    )
)  # fmt: skip
ROOTLETS = limit(
    Limit(
        "rootlet-length", _PAGE, "Rootlets", "times the corn",
        accept_low=1.25, accept_high=1.5, accept="withering", watch="longer, or still fresh",
        stop="brown and dry before ¾", act="Dry air has stopped it: sprinkle, and find the draught.",
        sources=("wagner-rootlets",), lowest=0.5, highest=3,
    )
)  # fmt: skip
SMELL = Signs(
    "readiness-smell", _PAGE, "Smell",
    accept=("fresh", "cucumber"), watch=("flat",), stop=("sour", "fruity", "musty"),
    act="Tell the shift lead before anything is loaded. Musty: mask on, no sniffing.", tell="",
    sources=("narziss-smell",),
)  # fmt: skip
MOULD = Signs(
    "readiness-mould", _PAGE, "Mould",
    accept=("none",), watch=("single corns",), stop=("patches",), act="Keep it apart, mask on, and ask.",
)  # fmt: skip

ROWS: tuple[Limit | Signs, ...] = (READY, OVERSHOT, FLOUR, ROOTLETS, kiln_hand_over.MOISTURE, SMELL, MOULD)
