"""What the grain of a run came to, as the hidden barley has it."""

from itertools import pairwise

from .kinds import Course, Grain
from .run import CASTS, Run

TURNINGS = ("tu", "br", "dt")


def grain_of(run: Run) -> Grain:
    """Give what the grain came to: at the cast, and at the kiln's door; as it is now where it came to neither."""
    cast = run.last_done(*CASTS)
    at_cast, at_end = run.cast or run.world, run.loaded or run.world
    classes = at_end.classes()
    return Grain(
        at_cast.as_drained(),
        100.0 * at_cast.chitted(),
        100.0 * max(a + b for a, b in pairwise(classes)),
        100.0 * (classes[3] + classes[4]),
        100.0 * classes[4],
        at_end.loss_percent(),
        at_end.mean(lambda zone: zone.net),
        sum(code in TURNINGS for _, code, _, _ in run.done),
        ((run.last_done("ld") or run.minute) - cast) / 60.0 if cast is not None else 0.0,
    )


def course_of(run: Run) -> Course:
    """Give the true course of a run, hour by hour."""
    return Course(
        [minute / 60.0 for minute, _, _ in run.sampled],
        [moisture for _, moisture, _ in run.sampled],
        [temp for _, _, temp in run.sampled],
    )
