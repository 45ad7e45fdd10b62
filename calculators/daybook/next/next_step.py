"""The next step of a batch with its clock time, and the box on gas or machines that belongs to it."""

from __future__ import annotations

from ...rules.conventions import READY_DAYS
from ...words.cautions import KILN_DOOR
from ...words.steep import GAS
from ..batch.batch import Batch
from ..batch.blanks import unread
from ..batch.checks import too_dry_words, unsure_words
from ..batch.course import Course
from ..lines.kinds import DRUM as IN_DRUM
from ..lines.kinds import MALT
from .growing import in_drum, on_floor
from .led import lacking, led_by_faults
from .steep_living import plan_stops
from .steep_step import in_steep
from .step import Step, Wall


def next_step(
    batch: Batch, course: Course | str, wall: Wall, ready_days: float = READY_DAYS, heat_factor: float = 1.0
) -> Step:
    """What is to be done next with a batch.

    Parameters
    ----------
    batch : Batch
        The batch.
    course : Course or str
        Its steep, or why there is none.
    wall : Wall
        The time now.
    ready_days : float, optional
        Days from the cast to ready at 15 C [days], from the house's own batches.
    heat_factor : float, optional
        Heat of its pieces against the typical [-], from the same.
    """
    step = led_by_faults(batch, wall, _step(batch, course, wall, ready_days, heat_factor))
    return step._replace(more=(*unread(batch), *lacking(batch), *step.more))


def _step(batch: Batch, course: Course | str, wall: Wall, ready_days: float, heat_factor: float) -> Step:
    if batch.left:
        words = f"Gone to the kiln {wall.time(batch.left.utc)}. "
        if batch.of(MALT):
            words += "Nothing is left to do with it here."
        else:
            words += (
                "What is left is the laboratory’s sheet, weeks later: write it here as “Malt analysed”. To read it: "
                "[[page:learning/reading-an-analysis-sheet|the analysis sheet]]."
            )
        return Step(words, None, (), (KILN_DOOR,), ("malt", "remark", "moisture"))
    if batch.cast:
        in_bed = in_drum(batch, wall, ready_days) if batch.vessel == IN_DRUM else on_floor(
            batch, wall, ready_days, heat_factor
        )  # fmt: skip
        lead = too_dry_words(batch) or unsure_words(batch)
        if not lead:
            return in_bed
        said = f"{in_bed.text} {lead}" if in_bed.is_stop else f"{lead} {in_bed.text}"
        others = (one for one in in_bed.likely if one not in ("moisture", "sprinkled"))  # a sample before any water
        return in_bed._replace(text=said, likely=("moisture", *others))
    if not batch.start and not batch.spells:
        return Step("Write the start of the batch.", None, (), (), ("start",))
    if not batch.spells:
        words = "Weigh the basket empty and with its barley, then water on. Write when it covers the grain."
        text = " ".join([*plan_stops(course), words])
        return Step(text, None, (), (GAS,), ("stage-begun", "water", "basket"))
    return in_steep(batch, course, wall)
