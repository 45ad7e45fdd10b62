"""What sheets ask about the warmth of a rest and about chitting."""

from __future__ import annotations

from ...asking.declare import Choice, Number, Option
from ...asking.figures import plain_number
from ...models.bed.humid_air import AIR_C
from ...models.bounds import Bounds
from ...models.living.chitting import Corns
from ...models.living.warmth import SUCTION
from ...models.steep import wishes as steep_wishes
from ...models.steep.oxygen import SUCTION_M3_T_H
from ...rules.cast import limit_of
from ..counted import LEAST_CORNS
from ..limits import at_edge
from .shared import number

suction_m3_h_t = number(
    "suction_m3_h_t",
    "Suction in rests",
    "m3/h t",
    SUCTION,
    "What the fan draws an hour, divided by the tonnes of barley as filled; 0 where it stands. "
    f"{plain_number(round(SUCTION_M3_T_H, 1))} is the least that was published: it carries gas off and hardly cools.",
    default=plain_number(round(SUCTION_M3_T_H, 1)),
    source="Haley and Stokes 1987 (abstract read), converted",
)
rest_air_c = number(
    "rest_air_c",
    "Air that suction draws in",
    "C",
    AIR_C,
    "Measured where it comes in. Blank: as warm as the water.",
)._replace(optional=True)
cast_to = Choice(
    "cast_to",
    "Cast to",
    (Option("couch", "A couch on the floor"), Option("drum", "A drum or a box")),
    f"On a couch late corns finish: {at_edge(limit_of('couch'), 'accept_low')} chitted do. "
    f"A drum or a box wants {at_edge(limit_of('drum'), 'accept_low')}.",
    default="drum",
)
grows_percent = number(
    "grows_percent",
    "Germination energy",
    "%",
    Bounds(1.0, 100.0),
    "Corns that grow in the test in three days. Dormant corns are not among them: they count as never chitting.",
    default=plain_number(100.0 * Corns().grows),
)
sensitive_percent = number(
    "sensitive_percent",
    "Water sensitivity",
    "points",
    steep_wishes.WATER_SENSITIVITY,
    "Energy in 4 ml less energy in 8 ml: so many corns come late.",
    default=plain_number(100.0 * Corns().sensitive),
)
chitted = Number(
    "chitted", "Chitted corns", "", 0, 5000, "Any white tip through the husk counts.", whole=True, shared="batch"
)
counted = Number(
    "counted",
    "Corns counted",
    "",
    LEAST_CORNS,
    5000,
    "Two hundred or more, from three depths.",
    whole=True,
    shared="batch",
)
