"""What the week of a house asks: its batches, its places, its hands, its water, and what has happened."""

from __future__ import annotations

from ...asking.declare import Choice, Clock, Number, Option, Table, Text
from ...models.bed import floor
from ...models.bounds import WEIGHT_KG, Bounds
from ...models.living import ready
from ...models.steep.hydration import WATER_TEMP_C
from ...models.steep.mixing import TAP_TEMP_C
from ...rules.limits.floor_germination import DEPTH
from ...rules.limits.steeping import REST
from ...rules.week.night import AT_NIGHT_TWO
from ..limits import at_edge, span
from .malts import malt
from .shared import number

MOST_BATCHES = 12
_NAME = 40
_PLACE_KG = Bounds(10.0, WEIGHT_KG.high)

_batch = Text("batch", "Batch", _NAME, example="example-21")

planned_at = Clock(
    "planned_at",
    "Plan made at",
    "With its date. What is planned comes after it.",
    example="2026-01-11 18:00",
)
again_at = Clock(
    "again_at",
    "Planned again at",
    "What is changed is counted against the plan on the wall. Without its lines, under More questions, that is worked "
    "out again: leave all else as it was then.",
    optional=True,
    in_view=True,
)
batches = Table(
    "batches",
    "Batches wanted, and at work",
    (
        _batch,
        Number("kg", "Barley", "kg", _PLACE_KG.low, _PLACE_KG.high, example="6000"),
        Clock("wanted", "Malt off the kiln by", "With its date.", optional=True, example="2026-01-21T18:00"),
        malt._replace(in_view=False),
        Clock("asked", "Asked for since", "Where it came after the plan on the wall.", optional=True),
    ),
    min_rows=1,
    max_rows=MOST_BATCHES,
    hint="One row each. Blank by when: as soon as it can be. Asked for since: where the plan on the wall has it not.",
    example="example-21 6000 2026-01-21T18:00; example-22 5800 2026-01-23T18:00; example-23 6000 2026-01-25T18:00; "
    "example-24 5500 2026-01-28T18:00; example-25 6000 2026-01-30T18:00; example-26 6000 2026-02-01T18:00",
)
happened = Table(
    "happened",
    "What has happened",
    (
        _batch._replace(example="example-21"),
        Choice(
            "what",
            "What",
            (
                Option("filled", "Filled"),
                Option("not-filled", "Not filled yet"),
                Option("cast", "Cast"),
                Option("not-cast", "Not cast yet"),
                Option("ready", "Ready, or ready at"),
                Option("loaded", "On the kiln"),
                Option("not-loaded", "Not on the kiln yet"),
            ),
            example="filled",
        ),
        Clock("at", "At", "With its date.", optional=True, example="2026-01-12T05:00"),
        Text("where", "Where", _NAME, optional=True, example="A"),
    ),
    max_rows=4 * MOST_BATCHES,
    hint="Of batches at work, and of what went otherwise than on the wall. What was planned and is not named here went "
    "as planned.",
    optional=True,
    in_view=True,
)
steeps = Table(
    "steeps",
    "Steeps",
    (
        Text("steep", "Steep", _NAME, example="A"),
        Number("steep_kg", "Most barley", "kg", _PLACE_KG.low, _PLACE_KG.high, example="6000"),
    ),
    max_rows=8,
    hint="As rated, with room to swell.",
    example="A 6000; B 6000",
)
floors = Table(
    "floors",
    "Floors",
    (
        Text("floor", "Floor", _NAME, example="floor"),
        number("area_m2", "Area", "m2", Bounds(5.0, 5000.0), example="245"),
        number("depth_cm", "Thinnest depth", "cm", floor.DEPTH_CM, example="11")._replace(optional=True),
        number("floor_c", "Piece", "C", ready.BED_C, example="14"),
    ),
    max_rows=6,
    hint=f"The thinnest that a piece lies, {span(DEPTH)} is accepted; blank: by the season. And how warm it is kept.",
    example="floor 245 11 14",
    optional=True,
    in_view=True,
)
season = Choice(
    "season",
    "Season, for a floor without a depth",
    (
        Option("winter", "Winter: thick"),
        Option("between", "Spring and autumn"),
        Option("summer", "Summer: thin"),
    ),
    "As deep as the young piece lies then, the thinnest of its days: common practice. The answer says how deep.",
    optional=True,
    in_view=True,
)
vessels = Table(
    "vessels",
    "Drums and boxes",
    (
        Text("vessel", "Name", _NAME, example="drum"),
        Choice("kind", "Kind", (Option("drum", "Drum"), Option("box", "Box")), example="drum"),
        Number("vessel_kg", "Most barley", "kg", _PLACE_KG.low, _PLACE_KG.high, example="6500"),
        number("vessel_c", "Bed", "C", ready.BED_C, example="15"),
    ),
    max_rows=6,
    hint="As rated, and how warm the bed is kept.",
    example="drum drum 6500 15",
    optional=True,
    in_view=True,
)
kilns = Table(
    "kilns",
    "Kilns",
    (
        Text("kiln", "Kiln", _NAME, example="kiln"),
        Number("kiln_kg", "Most barley", "kg", _PLACE_KG.low, _PLACE_KG.high, example="7000"),
        Number("kiln_h", "Loaded to emptied", "h", 6.0, 120.0, example="32"),
        Number("turn_round_h", "Until the next", "h", 0.0, 48.0, example="4"),
    ),
    max_rows=4,
    hint="By the barley whose green malt it takes; its hours; and the hours of cooling and sweeping after them.",
    example="kiln 7000 32 4",
)
hands = Table(
    "hands",
    "Who is there",
    (
        Clock("from", "From", daily=True, example="05:00"),
        Clock("until", "Until", daily=True, example="15:00"),
        Number("people", "People", "", 1, 50, whole=True, example="2"),
    ),
    max_rows=8,
    hint="By the clock, of every day. Rows that overlap are added up.",
    example="05:00 15:00 2; 15:00 22:00 1",
)
cast_hands = Number(
    "cast_hands",
    "People for a cast or a load",
    "",
    1,
    10,
    f"At night never fewer than {AT_NIGHT_TWO}, whatever stands here.",
    default="2",
    whole=True,
)
rest_longer_h = Number(
    "rest_longer_h",
    "An air rest may be longer by",
    "h",
    0,
    3,
    f"So that a water falls when people are there. Never over {at_edge(REST, 'stop_high')}.",
    default="2",
    whole=True,
)
clean_steep_h = Number("clean_steep_h", "Cleaning a steep", "h", 0, 24, "After the cast.", default="2", whole=True)
clean_bed_h = Number("clean_bed_h", "Cleaning a floor, drum or box", "h", 0, 48, default="4", whole=True)
water_m3_t = number(
    "water_m3_t",
    "Water of one immersion",
    "m3/t",
    Bounds(0.3, 5.0),
    "For each tonne of barley, what is let in.",
    default="1",
    source="common practice: about 4 m³ a tonne of malt over all waters, 3.5 to 7 by practice (read)",
)
water_m3_h = Number(
    "water_m3_h", "Water that comes", "m3/h", 0.05, 1000.0, "Blank: there is enough.", example="4", optional=True
)
tank_m3 = Number(
    "tank_m3", "Water tank holds", "m3", 0.0, 2000.0, "Full when the plan begins.", default="0", example="12"
)
effluent_m3_day = Number(
    "effluent_m3_day",
    "Steep water let go in a day",
    "m3",
    0.1,
    20_000.0,
    "What the drain’s permit allows from midnight to midnight. Blank: no such limit.",
    example="20",
    optional=True,
)
steep_c = number("steep_c", "Water wanted in the steep", "C", WATER_TEMP_C, "After mixing.", default="14")
mains_c = number("mains_c", "Water as it comes", "C", TAP_TEMP_C, "By the season.", default="10")
warm_c = number("warm_c", "Water of the warm tank", "C", TAP_TEMP_C, default="60")
warm_tank_m3 = Number(
    "warm_tank_m3",
    "Warm tank holds",
    "m3",
    0.05,
    2000.0,
    "Full when the plan begins. Blank: there is warm water enough.",
    optional=True,
)
warm_kw = Number("warm_kw", "Heat into the warm tank", "kW", 0.0, 100_000.0, "All day.", optional=True)
closed = Table(
    "closed",
    "Places not to be had",
    (
        Text("place", "Place", _NAME, example="kiln"),
        Clock("closed_from", "From", "With its date.", example="2026-01-17T06:00"),
        Clock("closed_until", "Until", "With its date.", example="2026-01-18T06:00"),
        Clock("known", "Known since", "Where it came after the plan on the wall.", optional=True),
    ),
    max_rows=12,
    hint="Repairs, holidays, a floor that dries. Known since: only where the plan on the wall has it not.",
    optional=True,
)
wall = Table(
    "wall",
    "The plan on the wall",
    (
        _batch._replace(example="example-21"),
        Text("wall_steep", "Steep", _NAME, optional=True, example="A"),
        Clock("wall_fill", "Fill", "With its date.", optional=True, example="2026-01-12 05:00"),
        Text("wall_bed", "Grows on", _NAME, example="floor"),
        Clock("wall_cast", "Cast", "With its date.", example="2026-01-13 20:00"),
        Text("wall_kiln", "Kiln", _NAME, example="kiln"),
        Clock("wall_load", "Load", "With its date.", example="2026-01-19 05:00"),
    ),
    max_rows=MOST_BATCHES,
    hint="The button under the answer writes it. Blank: it is worked out again from the numbers above.",
    optional=True,
)
slip_batch = Text(
    "slip_batch",
    "What if this batch is late",
    _NAME,
    "Its number: the week is shown with it, and the repair that changes least.",
    example="example-22",
    optional=True,
    in_view=True,
)
slip_h = Number("slip_h", "Ready later by", "h", 1, 96, default="24", whole=True)
cast_later_h = Number(
    "cast_later_h",
    "A cast may come later by",
    "h",
    0.0,
    24.0,
    "In 95 of 100 batches no more: slow chits, a drain that drags. Blank: by what is not known of the chits.",
    optional=True,
)
kiln_later_h = Number("kiln_later_h", "A kiln may take longer by", "h", 0.0, 24.0, "In 95 of 100 no more.", default="2")
