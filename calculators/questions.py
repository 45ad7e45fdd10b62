"""Questions that several sheets ask, declared once; a sheet adds its own example with ``_replace``."""

from __future__ import annotations

from .declare import Choice, Number, Option
from .models import grain_tests, hydration, limits, shut_vessel
from .models.limits import Limits


def number(id: str, label: str, unit: str, within: Limits, hint: str = "", **more: str) -> Number:
    """A number whose limits stand in the models."""
    return Number(id, label, unit, within.low, within.high, hint, **more)  # type: ignore[arg-type]


barley_kg = number(
    "barley_kg",
    "Barley weight",
    "kg",
    limits.WEIGHT_KG,
    "As weighed on its way into the steep.",
    example="6000",
)
barley_moisture = number(
    "barley_moisture",
    "Barley moisture",
    "%",
    limits.BARLEY_MOISTURE,
    "Of this barley as it is filled in, from the oven or a checked meter.",
    example="12",
)
target_moisture = number(
    "target_moisture",
    "Target moisture",
    "%",
    limits.TARGET_MOISTURE,
    "Of the drained grain when steeping ends, usually 43 to 46.",
    example="45",
)
dry_matter_lost = number(
    "dry_matter_lost",
    "Dry matter lost",
    "%",
    limits.DRY_MATTER_LOST,
    "Leached into the steep water: 0.5 to 1.5 % of the dry matter by practice.",
    default="1",
    source="common practice; Ure gives 1.4 % (read)",
)
water_temp_c = number(
    "water_temp_c",
    "Water temperature",
    "C",
    hydration.WATER_TEMP_C,
    "Measured in the steep, not at the tap.",
    example="14",
)
corn_weight_g = number(
    "corn_weight_g",
    "Thousand-corn weight",
    "g",
    hydration.CORN_WEIGHT,
    "Weight of a thousand corns as they are. 45 is typical; small corns drink faster.",
    example="45",
)
germination_day = number(
    "day",
    "Day of germination",
    "",
    shut_vessel.DAY,
    "Days since the cast. 0 is grain still in the steep.",
)
grain_temp_c = number(
    "grain_temp_c",
    "Grain temperature",
    "C",
    shut_vessel.GRAIN_TEMP_C,
    "The warmest part of it.",
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
)
energy_limit_percent = number(
    "energy_limit_percent",
    "Energy wanted, at least",
    "%",
    Limits(50.0, 100.0),
    "The house’s limit.",
    default=f"{grain_tests.ENERGY_LIMIT_PERCENT:g}",
    source="Montana State University (read)",
)
capacity_limit_percent = number(
    "capacity_limit_percent",
    "Capacity wanted, at least",
    "%",
    Limits(50.0, 100.0),
    "The house’s limit.",
    default=f"{grain_tests.CAPACITY_LIMIT_PERCENT:g}",
    source="Maltsters’ Association of Great Britain (read)",
)
capacity_reject_percent = number(
    "capacity_reject_percent",
    "Do not malt under a capacity of",
    "%",
    Limits(50.0, 100.0),
    "Between this and the capacity wanted lies a grey band.",
    default=f"{grain_tests.CAPACITY_REJECT_PERCENT:g}",
    source="Montana State University (read)",
)
malt_moisture = number(
    "malt_moisture",
    "Malt moisture",
    "%",
    Limits(0.5, 15.0),
    "After drying: 4 to 5 is usual.",
    example="4",
)
