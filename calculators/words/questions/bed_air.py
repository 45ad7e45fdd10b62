"""What the air of a bed asks: the day or the loss, the air on and off, the fan."""

from __future__ import annotations

from ...asking.declare import Choice, Option
from ...asking.figures import plain_number
from ...models.bed import air as bed
from ...models.bed import humid_air, respiration
from ...models.bed.floor import HEAT_FACTOR
from ...models.bounds import BED_MOISTURE
from ...models.living.bed_days import BED_PERCENT, DAY
from .shared import germination_day, number

day = germination_day._replace(low=DAY.low, high=DAY.high, hint="1 is the day of the cast, 2 the next.", example="3")
dry_matter_loss_per_day = number(
    "dry_matter_loss_per_day",
    "Breathed away a day, your own figure",
    "%",
    respiration.LOSS_PER_DAY,
    "Of the dry matter, mean of the first five days, from your own malting loss.",
)
heat_factor = number(
    "heat_factor",
    "Heat against the law",
    "",
    HEAT_FACTOR,
    "Of your own batches; 1 when unknown. Counts with the day.",
    default="1",
)
air_on_c = number(
    "air_on_c",
    "Air on",
    "C",
    humid_air.AIR_C,
    "As the sprays or the cooler send it to the bed.",
    example="14",
)
air_on_rh = number(
    "air_on_rh", "Humidity of the air on", "%", humid_air.AIR_RH, "Relative humidity there.", example="100"
)
air_off_c = number("air_off_c", "Air off", "C", humid_air.AIR_C, "As it leaves the top of the grain.", example="16.5")
air_off_rh = number(
    "air_off_rh",
    "Humidity of the air off",
    "%",
    humid_air.AIR_RH,
    "Air leaves wet grain all but saturated.",
    default="100",
)
fresh_air_percent = number(
    "fresh_air_percent",
    "Fresh air",
    "%",
    bed.FRESH_AIR_PERCENT,
    "The rest goes round again. With none the gas rises without end.",
    default="100",
)
fan_pa = number(
    "fan_pa",
    "Fan pressure",
    "Pa",
    humid_air.FAN_PA,
    "Total pressure of the fan. Blank: its warming is left out.",
    example="800",
    optional=True,  # type: ignore[arg-type]
)
fan_efficiency = number(
    "fan_efficiency",
    "Fan efficiency",
    "",
    humid_air.FAN_EFFICIENCY,
    "Fan, drive and motor together.",
    default="0.6",
    source="common practice",
)
fan_place = Choice(
    "fan_place",
    "Where the fan stands",
    (
        Option("before-sprays", "Before the sprays"),
        Option("after-sprays", "After the sprays"),
    ),
    "After the sprays it warms and dries the air that meets the bed.",
    default="before-sprays",
)
altitude_m = number("altitude_m", "Height above the sea", "m", humid_air.ALTITUDE_M, "", default="0")
bed_moisture = number(
    "bed_moisture",
    "Moisture of the bed",
    "%",
    BED_MOISTURE,
    "For the points lost a day, and for the law.",
    default=plain_number(BED_PERCENT),
)
