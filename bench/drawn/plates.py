"""Every plate that is drawn here, by the name of its file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from bench.drawn import (
    airs,
    corns,
    corns_outside,
    filling,
    floors,
    growth,
    hazards,
    rescue,
    sampling,
    steeps,
    turning,
    work,
)
from bench.drawn.effects import co2_effects
from bench.drawn.engulfment import engulfment, gas_in_vessels
from bench.drawn.kit import Plate

DRAWINGS = Path(__file__).parents[2] / "docs" / "_includes" / "drawings"

PLATES: dict[str, Callable[[], Plate]] = {
    "engulfment": engulfment,
    "gas-in-vessels": gas_in_vessels,
    "steep-wet": steeps.wet,
    "steep-rest": steeps.rest,
    "couch": floors.couch,
    "floor-piece": floors.piece,
    "drum-air": airs.drum,
    "box-air": airs.germinating_box,
    "corn-inside": corns.inside,
    "corn-outside": corns_outside.outside,
    "corn-opening": corns_outside.opening,
    "acrospire-classes": growth.classes,
    "corn-growth": growth.stages,
    "chain": growth.chain,
    "fair-sample": sampling.fair_sample,
    "steep-basket": sampling.basket,
    "co2-effects": co2_effects,
    "dust": hazards.dust,
    "chemicals": hazards.chemicals,
    "ladders": hazards.ladders,
    "split-and-rub": corns.split_and_rub,
    "germination-dishes": corns.dishes,
    "lift-measures": work.lift_measures,
    "lorry": work.lorry,
    "turning": turning.turning,
    "filling": filling.filling,
    "down-in-a-vessel": rescue.down_in_a_vessel,
    "in-a-full-steep": rescue.in_a_full_steep,
    "isolate-lock-try": rescue.isolate_lock_try,
}
