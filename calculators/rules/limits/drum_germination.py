"""Limits of a batch in the drum, and of the air that goes through it."""

from ..fan_stopped import AWAY
from ..limit import Limit, Signs, limit
from .floor_germination import MOISTURE, MOISTURE_LOST

_PAGE = "drum-germination"

AIR_ON = limit(
    Limit(
        "drum-air-on", _PAGE, "Air on", "C",
        stop_low=8, accept_low=12, accept_high=15, stop_high=18,
        act="Set the sprays or the cooler, and read again within the hour.",
        sources=("evans-2024",), lowest=5, highest=22,
    )
)  # fmt: skip
AIR_ON_RH = limit(
    Limit(
        "drum-air-on-humidity", _PAGE, "Humidity of the air on", "%",
        stop_low=90, accept_low=95, act="Look at the sprays from outside: the bed is drying.",
        lowest=80, highest=100,
    )
)  # fmt: skip
RISE = limit(
    Limit(
        "drum-rise", _PAGE, "Air off over air on", "K",
        accept_low=2, accept_high=3, stop_high=5, watch="under {accept_low}: less air; over {accept_high}: more air",
        act="More air. If the fan is at its end, cool the air.", lowest=0.5, highest=7,
    )
)  # fmt: skip
PROBES = limit(
    Limit(
        "drum-probes", _PAGE, "Probes within", "K",
        accept_high=2, stop_high=4, act="Turn it now, with its air on.", lowest=0.5, highest=6,
    )
)  # fmt: skip
BED = limit(
    Limit(
        "drum-bed", _PAGE, "Bed", "C",
        accept_low=12, accept_high=17, stop_high=20,
        act="More air, or colder air, and turn it with the air on.",
        sources=("cereals-processing", "evans-2024"), lowest=8, highest=24,
    )
)  # fmt: skip
TURNING = limit(
    Limit(
        "drum-turning-hours", _PAGE, "Between turnings", "h",
        accept_low=8, accept_high=12, stop_high=24, act="Turn it now, with its air on.", lowest=4, highest=48,
    )
)  # fmt: skip
FAN = Signs(
    "drum-fan", _PAGE, "Fan with grain in", accept=("running",), stop=("stopped",),
    act=f"At once: {AWAY}. Tell the shift lead. Open nothing, wait beside nothing. Turn only "
    "if the site’s plan says so.",
)  # fmt: skip
SMELL = Signs(
    "drum-smell", _PAGE, "Smell of a sample", accept=("cucumber",), watch=("flat",), stop=("sour", "fruity", "musty"),
    act="Sour or fruity: more fresh air, turn it with the air on. Musty: mask on, close the sample, do not turn it "
    "until asked.",
    sources=("narziss-smell",),
)  # fmt: skip
HATCH = Signs(
    "drum-hatch", _PAGE, "A head or an arm in a hatch", stop=("always",),
    act="Stop what moves, and call. Samples come from the port, with the drum stopped, isolated, locked, blocked "
    "and tried.",
)  # fmt: skip

ROWS = (AIR_ON, AIR_ON_RH, RISE, PROBES, BED, MOISTURE, MOISTURE_LOST, TURNING, FAN, SMELL, HATCH)
