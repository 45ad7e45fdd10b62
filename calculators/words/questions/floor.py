"""What a round of the floor asks: the readings, what is seen and smelt, and the house’s own limits."""

from __future__ import annotations

from ...asking.declare import Choice, Clock, Number, Option, Table
from ...asking.figures import plain_number
from ...models.bed import floor
from ...models.bounds import BED_MOISTURE, Bounds
from ...rules.floor import SHORTER, SMELLS, THREE_QUARTERS
from ...rules.limits import floor_germination as edges
from ..limits import at_edge
from .shared import number

LAIN_H = Bounds(0.0, 240.0)
"""Hours that may be typed: far past every stop, so that none is too late to be told."""
_PIECE_C = Bounds(edges.PIECE.stop_low or 0.0, edges.PIECE.stop_high or 0.0)

depth_cm = number(
    "depth_cm", "Depth of the piece", "cm", floor.DEPTH_CM, "Measured with a rule, in the middle.", example="15"
)
bottom_c = number("bottom_c", "Bottom", "C", floor.PIECE_C, "Thermometer right down on the floor.", example="17.8")
top_c = number("top_c", "Top", "C", floor.PIECE_C, "A few centimetres under the surface.", example="15.2")
room_c = number("room_c", "Room", "C", floor.ROOM_C, "At the height of the piece.", example="11")
hours_since_turning = number(
    "hours_since_turning", "Since turning", "h", LAIN_H, "Hours since it was last turned, or cast.", example="6"
)
day = Number("day", "Day on the floor", "", 1, 30, "1 is the day of the cast.", example="3", whole=True)
difference_limit_c = number(
    "difference_limit_c",
    "Most that bottom may exceed top",
    "K",
    Bounds(0.5, edges.DIFFERENCE.stop_high or 0.0),
    f"Your house’s own limit. Over {at_edge(edges.DIFFERENCE, 'stop_high')} is a stop.",
    default=plain_number(edges.DIFFERENCE.accept_high or 0),
)
earlier_rounds = Table(
    "earlier_rounds",
    "Earlier rounds",
    (
        Number("hours_ago", "Hours ago", "h", 0.25, 36, example="4"),
        number("since", "Since turning", "h", floor.HOURS, example="2"),
        number("bottom", "Bottom", "C", floor.PIECE_C, example="16.3"),
        number("top", "Top", "C", floor.PIECE_C, example="14.8"),
        number("room", "Room", "C", floor.ROOM_C)._replace(optional=True),
        number("depth", "Depth", "cm", floor.DEPTH_CM)._replace(optional=True),
    ),
    min_rows=0,
    max_rows=12,
    hint="Of this piece today; two in one turning tell most. Room and depth may stay blank.",
    example="4 2 16.4 14.9; 7 7 17.6 14.8",
    optional=True,
    in_view=True,
)
roots = Choice(
    "roots",
    "Roots",
    (
        Option("fresh", "White and fresh"),
        Option("clinging", "They begin to cling together"),
        Option("withering", "Brown at the tips, withering"),
        Option("knotted", "Knotted together"),
    ),
    "As you see them in a handful.",
    optional=True,
    in_view=True,
)
smell = Choice(
    "smell",
    "Smell",
    tuple(Option(word, word.capitalize()) for word in SMELLS),
    "Of a handful.",
    optional=True,
    in_view=True,
)
mould = Choice(
    "mould",
    "Mould",
    (
        Option("none", "None seen"),
        Option("single green corns", "Single green corns"),
        Option("patches", "Patches"),
    ),
    "Look, do not sniff.",
    optional=True,
)
acrospire = Choice(
    "acrospire",
    "Acrospire of most corns",
    (Option(SHORTER, "Shorter than three quarters"), Option(THREE_QUARTERS, "Three quarters or longer")),
    "Split a few along the back. It says whether roots wither early or in time.",
    optional=True,
)
moisture = number(
    "moisture",
    "Moisture of a sample",
    "%",
    BED_MOISTURE,
    "Of today, from all depths, read the quick way.",
    example="44.5",
)._replace(optional=True, example="")
lies_as = Choice(
    "lies_as",
    "It lies as",
    (Option("couch", "A couch, not yet broken"), Option("piece", "A piece")),
    "Blank: a couch on day 1, a piece from then on. A couch has its own limits.",
    optional=True,
)
outside_c = number("outside_c", "Outside", "C", Bounds(-30.0, 45.0), "For the windows.")._replace(optional=True)
coolest_c = number(
    "coolest_c",
    "Coolest the piece should be",
    "C",
    _PIECE_C,
    "",
    default=plain_number(edges.PIECE.accept_low or 0),
    source=edges.PIECE.standing,
)
warmest_c = number(
    "warmest_c",
    "Warmest the piece should be",
    "C",
    _PIECE_C,
    "",
    default=plain_number(edges.PIECE.accept_high or 0),
    source=edges.PIECE.standing,
)
probe_cm = number("probe_cm", "Top thermometer under the surface", "cm", Bounds(0.0, 10.0), "", default="3")
heat_factor = number(
    "heat_factor",
    "Heat against the law",
    "",
    floor.HEAT_FACTOR,
    "Of your pieces, from your own day-book; 1 when unknown.",
    default="1",
)
read_at = Clock(
    "read_at", "Time of this round", "Then the next turning is given as a clock time.", optional=True, in_view=True
)
