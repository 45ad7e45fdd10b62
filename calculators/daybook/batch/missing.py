"""What a batch lacks for its next steps, each with why it matters; said beside the next step."""

from __future__ import annotations

from ...asking.figures import plain_number
from ...models.steep.hydration import CORN_WEIGHT_G
from ..lines.kinds import FLOOR
from .batch import Batch
from .blanks import unreadable_start

MOST = 3
"""So many are said at once; the next follow when these are written."""

_OF_STEEP = {
    "stages": "The plan of the steep is not written: each next step is then only the usual one.",
    "barley_moisture": "The barley’s own moisture is not written: without it no weighing says how wet the grain is.",
    "target_moisture": "The target is not written: nothing says when to stop the steep.",
    "water_temp_c": "No water temperature is written: it sets the pace of the steep, so no hour can be reckoned.",
    "basket_g": "The empty basket is not written: without it no weight to drain at can be named.",
    "sample_g": "The barley in the basket is not written: without it no weight to drain at can be named.",
}


def missing(batch: Batch) -> tuple[str, ...]:
    """What is not written and would change the next steps, what matters most first.

    Parameters
    ----------
    batch : Batch
        A batch at work; one that has left lacks nothing.

    Returns
    -------
    tuple of str
        Sentences, at most ``MOST``.
    """
    if batch.left is not None or not (batch.start or batch.spells):
        return ()
    return tuple((_in_steep(batch) if batch.cast is None else _growing(batch))[:MOST])


def _in_steep(batch: Batch) -> list[str]:
    basket, sample = batch.tare()
    known = {
        "stages": batch.plan or None,
        "barley_moisture": batch.number("barley_moisture"),
        "target_moisture": batch.number("target_moisture"),
        "water_temp_c": batch.number("water_temp_c") or next((t for s in batch.spells for t in s.temps), None),
        "basket_g": basket,
        "sample_g": sample,
    }
    wrong = unreadable_start(batch)
    said = [why for name, why in _OF_STEEP.items() if known[name] is None and name not in wrong]
    if batch.spells and not batch.of("basket", "moisture"):
        said.append("Nothing has been weighed in this steep: its moisture is the model’s word alone.")
    if batch.spells and batch.spells[-1].wet and not batch.spells[-1].temps:
        said.append("The water of this immersion was not measured: it is reckoned with what was expected.")
    if batch.number("corn_weight_g") is None:
        said.append(
            f"The thousand-corn weight is not written: a typical {plain_number(CORN_WEIGHT_G)} g stands in, and small "
            "corns drink faster."
        )
    return said


def _growing(batch: Batch) -> list[str]:
    assert batch.cast is not None
    since = [entry for entry in batch.standing if entry.utc >= batch.cast.utc]
    beds = [entry for entry in since if entry.kind == "bed"]
    said = []
    if not beds:
        said.append("The piece was not read since the cast: nothing says how warm it is inside.")
    elif batch.vessel == FLOOR and all(batch.value(entry, "room_c") is None for entry in beds):
        said.append("The room’s temperature is not written: without it the next turning goes by the clock alone.")
    depths = [entry for entry in since if batch.value(entry, "depth_cm") is not None]
    if beds and batch.vessel == FLOOR and not depths:
        said.append("The depth of the piece is not written: without it the next turning goes by the clock alone.")
    if not any(entry.kind == "moisture" and entry.utc > batch.cast.utc for entry in since):
        said.append(
            "No sample was read since the cast: how dry it has become is not known. The quick way tells in a quarter "
            "of an hour."
        )
    return said
