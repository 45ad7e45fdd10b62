"""What the readings of a drum pass of the table of limits: lines as data, the stops first."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import NamedTuple

from .limits import drum_germination as limits
from .limits.floor_germination import MOISTURE
from .lines import Line, passed, worst

RUNNING, STOPPED = limits.FAN.accept[0], limits.FAN.stop[0]


class DrumSight(NamedTuple):
    """What is known of a drum with grain in; None where nothing was read.

    Hours [h], temperatures [C], humidity [%], moisture [% of wet weight]. ``bottom_c`` is the bed at the side where the
    air comes on, ``top_c`` at the side where it leaves.
    """

    hours_since_turning: float | None = None
    fan: str | None = None
    air_on_c: float | None = None
    air_on_rh: float | None = None
    air_off_c: float | None = None
    bottom_c: float | None = None
    top_c: float | None = None
    moisture: float | None = None


def lines(sight: DrumSight) -> list[Line]:
    """Give the limits that were passed, stops first, in the order of their weight.

    Parameters
    ----------
    sight : DrumSight
        What is known.

    Returns
    -------
    list of Line
        Empty when all that was read is accepted.

    Notes
    -----
    Between the bed's own two sides the rise of the air is what is accepted; a side where the air comes on that is the
    warmer is judged as probes that part. A turning that is not yet due passes nothing.
    """
    return worst(
        [
            passed(limits.FAN, sight.fan),
            passed(limits.TURNING, sight.hours_since_turning, high_only=True),
            passed(limits.BED, None if sight.bottom_c is None else max(sight.bottom_c, sight.top_c or sight.bottom_c)),
            _rise(sight),
            _between_sides(sight),
            passed(limits.AIR_ON, sight.air_on_c),
            passed(limits.AIR_ON_RH, sight.air_on_rh),
            passed(MOISTURE, sight.moisture),
        ]
    )


def _rise(sight: DrumSight) -> Line | None:
    if sight.air_on_c is None or sight.air_off_c is None:
        return None
    return passed(limits.RISE, sight.air_off_c - sight.air_on_c)


def _between_sides(sight: DrumSight) -> Line | None:
    if sight.bottom_c is None or sight.top_c is None:
        return None
    if sight.top_c >= sight.bottom_c:
        return passed(limits.RISE, sight.top_c - sight.bottom_c, high_only=True) if sight.air_off_c is None else None
    return passed(limits.PROBES, sight.bottom_c - sight.top_c)
