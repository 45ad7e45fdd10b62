"""What the forecast of a batch asks: what it is, its plan, and all that was read of it so far."""

from __future__ import annotations

from ...asking.declare import Choice, Number, Option, Table
from ...asking.figures import plain_number
from ...models.bed import floor, humid_air
from ...models.bounds import STEEPED_MOISTURE, Bounds
from ...models.counts import acrospire
from ...models.living.breathing import GRAIN_C, GRAIN_REASON
from ...models.living.lot_plan_state import BED_HOURS, SPRINKLED, BedSpell, Plan
from ...models.living.pace import CHIT_C, CHIT_REASON
from ...models.steep import hydration, wishes
from ...rules.conventions import READY_AT_C
from ...rules.forecast import COUNTED, DRUM, FLOOR
from ...rules.limit import edge
from ...rules.limits import floor_germination as edges
from .shared import corn_weight_g as asked_corn_weight
from .shared import number
from .shared import stages as asked_stages

HOUR = Bounds(0.25, 1000.0)
_ROWS = 24
_PLAN, _SPELL = Plan._field_defaults, BedSpell._field_defaults


def _hour(example: str) -> Number:
    return number("hour", "Hour", "h", HOUR, "Since the first wetting.", example=example)


stages = asked_stages._replace(
    columns=(
        asked_stages.columns[0],
        number(
            "stage_temp_c",
            "Water",
            "C",
            hydration.WATER_TEMP_C,
            reason=hydration.TEMP_REASON,
        )._replace(optional=True),
    ),
    hint="Immersion and air rest by turns, beginning with an immersion: as they were, then as planned. A temperature "
    "only where the water’s differs; that of a rest follows.",
)
vessel = Choice(
    "vessel",
    "It grows",
    (Option(FLOOR, "On the floor"), Option(DRUM, "In a drum or box")),
    "Each has limits of its own.",
    default=FLOOR,
    in_view=True,
)
bed = Table(
    "bed",
    "Days on the floor, in drum or box",
    (
        number("bed_hours", "Hours", "h", BED_HOURS, example="24"),
        number("bed_temp_c", "Grain", "C", CHIT_C, example=plain_number(READY_AT_C), reason=CHIT_REASON),
        number("sprinkled", "Sprinkled, a tonne", "L", SPRINKLED)._replace(optional=True),
    ),
    max_rows=_ROWS,
    hint="From the cast on, one row for each spell at one temperature. Water sprinkled at its start that stays on the "
    "grain, for each tonne of barley. Without rows the forecast ends at the cast.",
    example="24 14; 24 15 15; 24 15 15; 24 16 15; 24 16",
    optional=True,
    in_view=True,
)
now_h = number(
    "now_h",
    "Hours since the first wetting, now",
    "h",
    Bounds(0.0, HOUR.high),
    "Blank: the hour of the last reading.",
)._replace(optional=True, in_view=True)
baskets = Table(
    "baskets",
    "Baskets weighed",
    (_hour("8"), number("basket_moisture", "Moisture, drained", "%", STEEPED_MOISTURE, example="32.5")),
    max_rows=_ROWS,
    hint="In the steep, drained, as the sheet on the steep basket has it.",
    example="8 32.5; 24 39.2",
    optional=True,
    in_view=True,
)
probes = Table(
    "probes",
    "Thermometer in the grain",
    (_hour("16"), number("probe_c", "Grain", "C", GRAIN_C, example="15.4", reason=GRAIN_REASON)),
    max_rows=_ROWS,
    hint="In a rest or in the bed: the mean of several places.",
    example="16 15.4",
    optional=True,
    in_view=True,
)
chits = Table(
    "chits",
    "Chits counted",
    (
        _hour("36"),
        Number("chitted", "Chitted", "", 0, 2000, example="62", whole=True),
        Number("corns", "Of corns", "", 10, 2000, f"Blank: {COUNTED}.", example="100", optional=True, whole=True),
    ),
    max_rows=_ROWS,
    hint="Corns whose white tip shows, of a handful from three places.",
    optional=True,
    in_view=True,
)
ovens = Table(
    "ovens",
    "Moistures by oven",
    (_hour("63"), number("oven_moisture", "Moisture", "%", STEEPED_MOISTURE, example="43.5")),
    max_rows=_ROWS,
    hint="In the steep with its film, or from the bed.",
    optional=True,
)
bottoms = Table(
    "bottoms",
    "Bottom and top of the piece",
    (
        _hour("95"),
        number("bottom", "Bottom", "C", GRAIN_C, example="18.5", reason=GRAIN_REASON),
        number("top", "Top", "C", GRAIN_C, example="15.5", reason=GRAIN_REASON),
        number("since", "Since turning", "h", Bounds(0.1, floor.HOURS.high), example="8"),
        number("depth", "Depth", "cm", floor.DEPTH_CM, example="15"),
    ),
    max_rows=_ROWS,
    hint="Of a piece on the floor.",
    optional=True,
)
acrospires = Table(
    "acrospires",
    "Acrospires counted",
    (
        _hour("123"),
        *(
            Number(f"class_{n}", name, "", 0, 2000, example=str(count), whole=True)
            for n, (name, count) in enumerate(zip(acrospire.CLASS_NAMES, (4, 20, 50, 24, 2), strict=True), 1)
        ),
    ),
    max_rows=_ROWS,
    hint="Corns split along the back, by length in parts of the corn.",
    optional=True,
)
grown_percent = number(
    "grown_percent",
    "Energy",
    "%",
    Bounds(2.0, 100.0),
    "Corns that grow, by the 4 ml test. Blank: 97.",
)._replace(optional=True)
water_sensitivity = number(
    "water_sensitivity",
    "Water sensitivity",
    "points",
    wishes.WATER_SENSITIVITY,
    "Energy in 4 ml less energy in 8 ml. Blank: 5.",
    shared="lot",
)._replace(optional=True)
corn_weight_g = asked_corn_weight._replace(example="", default=plain_number(hydration.CORN_WEIGHT_G))
rest_air_rh = number(
    "rest_air_rh", "Its humidity", "%", humid_air.AIR_RH, "", default=plain_number(_PLAN["rest_air_rh"])
)
bed_air_c = number(
    "bed_air_c",
    "Air over the floor, or through drum or box",
    "C",
    humid_air.AIR_C,
    default=plain_number(_SPELL["air_c"]),
)
bed_air_rh = number("bed_air_rh", "Humidity of that air", "%", humid_air.AIR_RH, default=plain_number(_SPELL["air_rh"]))
depth_cm = number("depth_cm", "Depth of the piece", "cm", floor.DEPTH_CM, "On the floor.", default="15")
turned_every_h = number(
    "turned_every_h",
    "Turned every",
    "h",
    Bounds(1.0, edge(edges.TURNING.stop_high)),
    "On the floor.",
    default="8",
    reason="Longer between turnings is a stop.",
)
moved = Choice(
    "moved",
    "How it is cast",
    (Option("dry", "Drained"), Option("wet", "With water")),
    "Grain moved in water breathes less for a day.",
    default="dry",
)
