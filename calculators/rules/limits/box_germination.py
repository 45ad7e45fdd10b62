"""Limits of a batch in a box, of its bed and of the air that goes through it."""

from ..limit import COMMON, OURS, Limit, Signs, limit
from .drum_germination import AIR_ON, AIR_ON_RH, BED, FAN, PROBES, RISE, SMELL, TURNING
from .floor_germination import MOISTURE, MOISTURE_LOST

_PAGE = "box-germination"

DEPTH = limit(
    Limit(
        "box-depth", _PAGE, "Depth of the bed, levelled", "m",
        accept_low=0.5, accept_high=1.2, stop_high=1.5,
        watch="under {accept_low}: air breaks through; over {accept_high}: the fan is at its end",
        act="Do not load more. Ask what floor, fan and turner bear before anything else.",
        sources=("cereals-processing", "oxford-box"), lowest=0.3, highest=2.5,
    )
)  # fmt: skip
LOADING = limit(
    Limit(
        "box-loading", _PAGE, "Barley on each square metre, as weighed dry", "kg/m2",
        accept_high=600, stop_high=750,
        act="Do not load more. What the floor bears, its engineer says.", sources=("cereals-processing",),
        lowest=200, highest=1200,
    )
)  # fmt: skip
LEVEL = limit(
    Limit(
        "box-level", _PAGE, "Highest place of the bed over the lowest", "cm",
        accept_high=5, stop_high=15, act="Level it with the turner, from its panel. Nobody walks on the bed.",
        standing=COMMON, lowest=2, highest=40,
    )
)  # fmt: skip
PRESSURE = limit(
    Limit(
        "box-pressure", _PAGE, "Pressure over the bed, against that after the last turning, same flow", "times",
        stop_low=0.5, accept_low=0.75, accept_high=1.25, stop_high=1.5,
        act="Under: a channel or a bare place: look from the walkway, and turn. Over: roots have grown together: turn "
        "now, with the air on.",
        standing=OURS, lowest=0.2, highest=3,
    )
)  # fmt: skip
TURNER = Signs(
    "box-turner", _PAGE, "A person past the guard of the turner", stop=("always",),
    stop_more="unless it is isolated, locked and tried, under the site’s permit",
    act="Emergency stop, and call. Nobody reaches in after anything.",
)  # fmt: skip

ROWS: tuple[Limit | Signs, ...] = (
    DEPTH,
    LOADING,
    LEVEL,
    AIR_ON,
    AIR_ON_RH,
    RISE,
    PROBES,
    BED,
    PRESSURE,
    MOISTURE,
    MOISTURE_LOST,
    TURNING,
    FAN,
    SMELL,
    TURNER,
)
