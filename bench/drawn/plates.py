"""Every plate that is drawn here, by the name of its file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from bench.drawn import airs, corns, filling, floors, steeps, turning, work
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
    "split-and-rub": corns.split_and_rub,
    "germination-dishes": corns.dishes,
    "lift-measures": work.lift_measures,
    "lorry": work.lorry,
    "turning": turning.turning,
    "filling": filling.filling,
}
