"""Whether a steep is held, wetted again or cast: what decides, in the order in which it is asked."""

from __future__ import annotations

from typing import NamedTuple

from .counted import Count
from .figures import fixed, plain_number

MOISTURE_NEAR = 1.0
"""A moisture is on target within so many points: common practice."""

MILKY = 48.0
"""Above this, or milky when pressed, grain is over-steeped [%]: common practice."""

HOT_C = 18.0
"""Grain in a rest is not let above this [C]: 65 F at the end (Haley and Stokes 1987, abstract read)."""

LONG_REST_H = 12.0
"""Chits that are late after so long a rest are not late for want of rest [h]: common practice."""

SOUR, MUSTY = "sour", "musty"


class Findings(NamedTuple):
    """What was found beside each other on the platform."""

    moisture: float
    target: float
    chit: Count
    chit_cast: float
    chit_dip: float
    smell: str
    grain_temp_c: float
    hours_since_drain: float


class Verdict(NamedTuple):
    """The word, and what argued for it."""

    word: str
    reasons: tuple[str, ...]
    count_more: float | None = None


def decide(seen: Findings) -> Verdict:
    """Hold, wet again or cast.

    Bad smell and mould come first: neither water nor a floor mends them. Then the chit is held by its whole
    interval against the share wanted at the cast, and the moisture against its target.
    """
    low, high = (100.0 * end for end in seen.chit.interval)
    chit = f"chitted {fixed(low, 0)} to {fixed(high, 0)} %"
    gap = seen.target - seen.moisture
    moisture = f"moisture {fixed(seen.moisture, 1)} % against {plain_number(seen.target)} %"
    if seen.smell == MUSTY:
        return Verdict("hold", ("it smells musty, and mould is not steeped or grown away", moisture, chit))
    if seen.smell == SOUR:
        return Verdict("hold", ("it smells sour or fruity: it has had no air", moisture, chit))
    at_cast = seen.chit.side(seen.chit_cast)
    short = gap > MOISTURE_NEAR
    hot = seen.grain_temp_c > HOT_C
    if at_cast == "above":
        told = f"{chit}, all of it at or above the {plain_number(seen.chit_cast)} % wanted"
        if short:
            return Verdict("wet-again", (told, f"{moisture}: {fixed(gap, 1)} points short"))
        return Verdict("cast", (told, f"{moisture}: on target or past it"))
    if at_cast == "open":
        told = f"{chit}: {plain_number(seen.chit_cast)} % lies inside, so the count does not settle it"
        more = seen.chit.more_needed(seen.chit_cast, 100)
        if short and seen.chit.side(seen.chit_dip) == "above":
            reason = f"but all of it is above the {plain_number(seen.chit_dip)} % wanted before a last dip"
            return Verdict("wet-again", (f"{chit}, {reason}", f"{moisture}: {fixed(gap, 1)} points short"))
        if hot and not short:
            warm = f"the grain is at {plain_number(seen.grain_temp_c)} °C and will only get warmer in the vessel"
            return Verdict("cast", (warm, told, f"{moisture}: on target or past it"), more)
        return Verdict("hold", (told, moisture), more)
    told = f"{chit}, all of it under the {plain_number(seen.chit_cast)} % wanted"
    if short and seen.chit.side(seen.chit_dip) == "above":
        return Verdict(
            "wet-again",
            (
                f"{told}, but above the {plain_number(seen.chit_dip)} % wanted before a last dip",
                f"{moisture}: {fixed(gap, 1)} points short",
            ),
        )
    if short and hot:
        warm = f"the grain is at {plain_number(seen.grain_temp_c)} °C: cool water takes the heat away"
        return Verdict("wet-again", (warm, told, f"{moisture}: {fixed(gap, 1)} points short"))
    if short and seen.hours_since_drain >= LONG_REST_H:
        rested = f"it has rested {plain_number(seen.hours_since_drain)} h, and dry corns chit late"
        return Verdict("wet-again", (rested, told, f"{moisture}: {fixed(gap, 1)} points short"))
    return Verdict("hold", (told, moisture))
