"""The exercises, one file a chapter, in the order of the work; a session has the chapter of its own matter."""

from __future__ import annotations

from . import (
    analysis,
    box,
    casting,
    counts,
    drum,
    effluent,
    filling,
    floor,
    intake,
    kiln,
    moisture,
    readiness,
    safety,
    steeping,
    store,
)
from .exercise import Exercise

_MODULES = (
    intake, store, counts, filling, steeping, effluent, moisture, casting, floor, drum, box, readiness, kiln, analysis,
    safety,
)  # fmt: skip
CHAPTERS: dict[str, tuple[Exercise, ...]] = {module.CHAPTER: module.EXERCISES for module in _MODULES}

EXERCISES: dict[str, Exercise] = {exercise.id: exercise for chapter in CHAPTERS.values() for exercise in chapter}
