"""What pages and sheets say about gases, and the figures that they say it with: each written or worked out once."""

from __future__ import annotations

import math
from typing import NamedTuple

from ..asking.declare import First, Note, Refusal
from ..asking.figures import fixed, plain_number
from ..models.gas.shut_vessel import GIVEN_DOUBT
from ..models.living.breathing import SOONEST_FACTOR
from ..models.living.by_day import breath_of_immersion
from ..models.nature import FRESH_OXYGEN_PERCENT, OUTDOOR_PPM
from ..rules import gases
from ..rules.conventions import USUAL_WATER_C
from .cautions import NO_ENTRY


def _beyond(*, start_ppm: float | None) -> Refusal | None:
    if start_ppm is None or math.isfinite(start_ppm):
        return None
    return Refusal(
        "More carbon dioxide than the meter or the sheet can hold: take it for dangerous to life at once. No figure is "
        "given.",
        (
            Note(
                "danger",
                "LEAVE, and keep everybody away. Someone down inside: nobody goes in after them. Call: "
                "[[page:safety/emergency|emergency]].",
            ),
            NO_ENTRY,
        ),
    )


BEYOND_THE_METER = First(("start_ppm",), _beyond, ("start_ppm",))
"""A reading over all that can be typed is answered before anything else is asked."""


class Stage(NamedTuple):
    """A concentration of carbon dioxide that means something, in the order in which it is passed."""

    id: str
    name: str
    ppm: float


ALARM_PPM = 1e4 * (FRESH_OXYGEN_PERCENT - gases.OXYGEN_ALARM_PERCENT) + OUTDOOR_PPM
"""Carbon dioxide when an oxygen alarm sounds, where the grain itself used the oxygen up [ppm]."""

STAGES = (
    Stage("day", "day limit, 8 h", gases.strictest(gases.CO2, "day").ppm),
    Stage("ceiling", "strictest ceiling: leave", gases.strictest(gases.CO2, "ceiling", "short").ppm),
    Stage("alarm", f"oxygen alarm at {plain_number(gases.OXYGEN_ALARM_PERCENT)} %", ALARM_PPM),
    Stage("uk-short", "UK limit, 15 min", gases.limits_of(gases.CO2, where="uk", kinds=("short",))[0].ppm),
    Stage("us-short", "US short-term limit", gases.limits_of(gases.CO2, where="us", kinds=("short",))[0].ppm),
    Stage("danger", "dangerous at once (IDLH)", gases.strictest(gases.CO2, "danger").ppm),
    Stage("unconscious", "unconscious in minutes", gases.UNCONSCIOUS_PPM),
)


STEEP_WANTS_MG = tuple(
    tuple(1000.0 * end.o2_kg_h for end in breath_of_immersion(immersion=n, temp_c=USUAL_WATER_C)) for n in (1, 3)
)
"""Oxygen that corns would use in the first and the third immersion, typically and at the most [mg/kg h]."""

STEEP_BREATH = (
    "Grain in the steep breathes by one law in [[sheet:gas-build-up|gas in a shut vessel]] and in "
    f"[[sheet:steep-oxygen|steep oxygen]]: what it would use at {plain_number(USUAL_WATER_C)} °C is "
    f"{fixed(STEEP_WANTS_MG[0][0], 0)} to {fixed(STEEP_WANTS_MG[1][0], 0)} mg of oxygen a kilogram and hour. A "
    "textbook saw a quarter of that taken from water, or far less, so corns go short. The soonest case takes "
    f"{fixed(STEEP_WANTS_MG[1][1], 0)}, grain half a day further on than is thought."
)


_FORCE = {"law": "in law", "advised": "advised", "indicative": "indicative"}


def beside_the_law(*, given_kw_t: float, law_kw_t: float, soonest_kw_t: float) -> tuple[Note, ...]:
    """What is said of a heat of one's own beside the law's, and beside the soonest [kW/t]; a warning comes first."""
    notes = []
    if given_kw_t * SOONEST_FACTOR < law_kw_t:
        notes.append(
            Note(
                "warning",
                f"Your own heat of {plain_number(given_kw_t)} kW a tonne is {fixed(given_kw_t / law_kw_t, 2)} of what "
                f"the law of breathing gives for that day and temperature, {fixed(law_kw_t, 1)} kW. No published batch "
                "lies so low: the figures by your heat are likely too slow, and could kill who trusts them. Go by the "
                "soonest. Check the heat, its day and its unit.",
            )
        )
    if soonest_kw_t > GIVEN_DOUBT * given_kw_t:
        notes.append(
            Note(
                "remark",
                f"The soonest case goes by the far end of the law, {fixed(soonest_kw_t, 1)} kW a tonne. That is more "
                f"than {fixed(GIVEN_DOUBT, 1)} times your own heat: no heat of your own makes it slower.",
            )
        )
    return tuple(notes)


def period_words(minutes: float) -> str:
    """The period of a mean: ``8 h``, ``15 min``."""
    return f"{minutes / 60:.0f} h" if minutes >= 60 else f"{minutes:.0f} min"


def limit_name(limit: gases.GasLimit) -> str:
    """A published value in words: whose it is, over what time, and whether it is law."""
    if limit.where not in gases.PLACES:
        return f"Your house, {period_words(limit.minutes)}"
    if limit.kind == "danger":
        return "Dangerous at once (IDLH)"
    over = "never to be passed" if limit.kind == "ceiling" else period_words(limit.minutes)
    return f"{gases.PLACES[limit.where]}, {over}, {_FORCE[limit.force]}"


def printed_words(limit: gases.GasLimit) -> str:
    """What is printed in mg/m³ beside a value, and the temperature that it belongs to."""
    if limit.printed_mg_m3 is None:
        return "–"
    at = "no temperature" if limit.printed_at_c is None else f"{limit.printed_at_c:.0f} °C"
    return f"{limit.printed_mg_m3:,.10g} ({at})"


def minutes_words(minutes: float | None) -> str:
    """Minutes as a page says them, never later than they are.

    >>> minutes_words(4.43), minutes_words(0.5), minutes_words(1.6)
    ('4 minutes', 'less than a minute', '1 minute')
    """
    if minutes is None:
        return "never"
    if minutes < 1:
        return "less than a minute"
    whole = int(minutes)
    return "1 minute" if whole == 1 else f"{whole} minutes"


def percent_words(ppm: float) -> str:
    """Parts per million as per cent, as short as it can be written."""
    return f"{plain_number(ppm / 1e4)} %"
