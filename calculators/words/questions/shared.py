"""Questions that several sheets ask, declared once; a sheet adds its own example with ``_replace``."""

from __future__ import annotations

from ...asking.declare import Choice, Clock, Number, Option, Table
from ...models import bounds as limits
from ...models.bed import drum
from ...models.bounds import Bounds
from ...models.gas import ranges as gas_ranges
from ...models.steep import first_uptake
from ...models.steep import ranges as steep_ranges
from ...rules.limits.casting import MOISTURE as CAST_MOISTURE
from ..limits import span


def number(id: str, label: str, unit: str, within: Bounds, hint: str = "", **more: str) -> Number:
    """A number whose limits stand in the models."""
    return Number(id, label, unit, within.low, within.high, hint, **more)  # type: ignore[arg-type]


barley_kg = number(
    "barley_kg",
    "Barley weight",
    "kg",
    limits.WEIGHT_KG,
    "As weighed on its way into the steep.",
    example="6000",
    shared="batch",
)
bulk_density = number(
    "bulk_density",
    "Bulk density of the barley",
    "kg/m3",
    drum.BULK_DENSITY,
    "Of your dry barley, poured. Published: 568 to 623; 48 lb a bushel is 618.",
    example="618",
)
barley_moisture = number(
    "barley_moisture",
    "Barley moisture",
    "%",
    limits.BARLEY_MOISTURE,
    "Of this barley as it is filled in, from the oven or a checked meter.",
    example="12",
    shared="lot",
)
target_moisture = number(
    "target_moisture",
    "Target moisture",
    "%",
    limits.TARGET_MOISTURE,
    f"Of the drained grain when steeping ends: {span(CAST_MOISTURE)} is accepted.",
    example="45",
    shared="batch",
)
dry_matter_lost = number(
    "dry_matter_lost",
    "Dry matter lost",
    "%",
    limits.DRY_MATTER_LOST,
    "Leached into the steep water: 0.5 to 1.5 % of the dry matter by practice.",
    default="1",
    source="common practice; Ure gives 1.4 % (read)",
    shared="batch",
)
water_temp_c = number(
    "water_temp_c",
    "Water temperature",
    "C",
    steep_ranges.WATER_TEMP_C,
    "Measured in the steep, not at the tap.",
    example="14",
    reason=steep_ranges.TEMP_REASON,
    shared="batch",
)
corn_weight_g = number(
    "corn_weight_g",
    "Thousand-corn weight",
    "g",
    steep_ranges.CORN_WEIGHT,
    "Weight of a thousand corns as they are. 45 is typical; small corns drink faster.",
    example="45",
    shared="lot",
)
germination_day = number(
    "day",
    "Day of germination",
    "",
    gas_ranges.DAY,
    "1 is the day of the cast, 2 the next. 0 is grain still in the steep.",
)._replace(whole=True)
grain_temp_c = number(
    "grain_temp_c",
    "Grain temperature",
    "C",
    gas_ranges.GRAIN_TEMP_C,
    "The warmest part of it.",
)
basket_g = number(
    "basket_g",
    "Empty basket",
    "g",
    limits.BASKET_G,
    "Weighed wet, as it hangs in the steep.",
    example="84",
    shared="batch",
)
sample_g = number(
    "sample_g",
    "Barley in the basket",
    "g",
    limits.SAMPLE_G,
    "Weighed dry, before the steep.",
    example="100",
    shared="batch",
)
drained = Choice(
    "drained",
    "How the basket was weighed",
    (
        Option("drained", "Drained until it stopped dripping"),
        Option("blotted", "Blotted dry with a towel"),
    ),
    "Water that clings to the corns weighs too.",
    example="drained",
    shared="batch",
)
malt_moisture = number(
    "malt_moisture",
    "Malt moisture",
    "%",
    Bounds(0.5, 15.0),
    "After drying: 4 to 5 is usual.",
    example="4",
    shared="batch",
)
stages = Table(
    "stages",
    "Stages",
    (
        number("hours", "Hours", "h", steep_ranges.STAGE_HOURS, example="8"),
        number("stage_temp_c", "Temperature", "C", steep_ranges.WATER_TEMP_C, reason=steep_ranges.TEMP_REASON)._replace(
            optional=True
        ),
    ),
    min_rows=1,
    max_rows=int(steep_ranges.STAGES.high),
    hint="Immersion and air rest by turns, beginning with an immersion. A temperature only where it "
    "differs: of the water when wet, of the grain in a rest.",
    row_names=("immersion", "air rest"),
    example="8; 8; 8; 12; 3",
    shared="batch",
)
rate_factor = number(
    "rate_factor",
    "Rate factor",
    "",
    steep_ranges.RATE_FACTOR,
    "1 for a typical barley; more for one that drinks faster.",
    default="1",
    shared="batch",
)
moisture_offset = number(
    "moisture_offset",
    "Taken up at once",
    "points",
    first_uptake.MOISTURE_OFFSET,
    "Beyond a typical barley, from a steep fit; 0 when unknown.",
    default="0",
    shared="batch",
)
start = Clock(
    "start",
    "Start of the first immersion",
    hint="A time such as 06:00, or with a date such as 2026-01-12 06:00.",
    example="06:00",
    optional=True,
    in_view=True,
    shared="batch",
)
