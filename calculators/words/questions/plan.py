"""What the plan of a steep asks beside what every steeping sheet asks; the limits come from the table."""

from __future__ import annotations

from ...asking.declare import Clock
from ...asking.figures import plain_number
from ...models.bounds import Bounds
from ...models.steep import wishes as steep_wishes
from ...rules.limit import edge
from ...rules.limits.casting import CHIT
from ...rules.limits.filling_the_steep import FILL
from ...rules.limits.steeping import DRAIN, FIRST_DRAIN, IMMERSION, REST
from ...rules.steep_order import ACCEPTED_H, MOST_H
from ..limits import at_edge, span
from .shared import number
from .shared import start as asked_start

start = asked_start._replace(optional=False)
longest_immersion_h = number(
    "longest_immersion_h",
    "Longest immersion",
    "h",
    Bounds(steep_wishes.LONGEST_IMMERSION_H.low, MOST_H),
    f"Up to {at_edge(IMMERSION, 'accept_high')} by common practice, {at_edge(IMMERSION, 'stop_high')} "
    f"{IMMERSION.watch}.",
    default=plain_number((ACCEPTED_H + MOST_H) / 2),
    reason=f"One immersion stops at {at_edge(IMMERSION, 'stop_high')}.",
)
shortest_rest_h = number(
    "shortest_rest_h",
    "Shortest air rest",
    "h",
    Bounds(steep_wishes.SHORTEST_REST_H.low, edge(REST.stop_high)),
    f"{span(REST)} by common practice, from opening the drain until water covers the grain.",
    default=plain_number(edge(REST.accept_low)),
)
first_aim = number(
    "first_aim",
    "Moisture at the first drain",
    "%",
    Bounds(edge(FIRST_DRAIN.stop_low), edge(FIRST_DRAIN.stop_high)),
    f"{span(FIRST_DRAIN)} by common practice; a plan aims at the lower part.",
    default=plain_number(edge(FIRST_DRAIN.accept_low) + 1),
    reason="Beyond these the first drain is a stop.",
)
water_sensitivity = number(
    "water_sensitivity",
    "Water sensitivity",
    "points",
    steep_wishes.WATER_SENSITIVITY,
    "Energy in 4 ml less energy in 8 ml. The more sensitive, the longer the rests and the shorter the immersions.",
    default="0",
    source="MEBAK R-110.34.612 (read): longer rests; 30 points: Montana State University (read)",
    shared="lot",
)
quiet_from = Clock(
    "quiet_from",
    "Nobody is there from",
    "Nobody fills or drains then. Of every day, such as 22:00.",
    example="22:00",
    optional=True,
    daily=True,
)
quiet_until = Clock(
    "quiet_until", "Nobody is there until", "Such as 05:00.", example="05:00", optional=True, daily=True
)
fill_minutes = number(
    "fill_minutes",
    "A fill takes",
    "min",
    Bounds(0.0, 60.0 * steep_wishes.FILL_H.high),
    f"From opening the water until it covers the grain. Up to {at_edge(FILL, 'accept_high')} by common practice.",
    default=plain_number(edge(FILL.accept_high)),
)
drain_minutes = number(
    "drain_minutes",
    "A drain takes",
    "min",
    Bounds(0.0, 60.0 * steep_wishes.DRAIN_H.high),
    f"From opening the drain to a trickle. {span(DRAIN)} by common practice.",
    default=plain_number(edge(DRAIN.accept_high)),
)
chit_hours = number(
    "chit_hours",
    "Hours this barley takes to chit",
    "h",
    steep_wishes.CHIT_H,
    f"From the first wetting until {at_edge(CHIT, 'accept_low')} are chitted, by your own records in such "
    "water. Leave it blank when nobody knows.",
)._replace(optional=True)
vessel_hours = number(
    "vessel_hours",
    "Vessel free, hours after the start",
    "h",
    Bounds(6.0, 240.0),
    "Empty and ready for the next charge.",
)._replace(optional=True)
cast_from = Clock(
    "cast_from",
    "Cast from",
    "Hours of the day when there are hands for it.",
    example="06:00",
    optional=True,
    daily=True,
)
cast_until = Clock(
    "cast_until", "Cast until", "The latest start of a cast.", example="14:00", optional=True, daily=True
)
