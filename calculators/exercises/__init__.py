"""The exercises, one file a chapter, in the order of the work; a session has the chapter of its own matter."""

from __future__ import annotations

from . import box, casting, counts, drum, filling, floor, intake, kiln, moisture, readiness, safety, steeping
from .exercise import Exercise

_MODULES = (intake, counts, filling, steeping, moisture, casting, floor, drum, box, readiness, kiln, safety)
CHAPTERS: dict[str, tuple[Exercise, ...]] = {module.CHAPTER: module.EXERCISES for module in _MODULES}

EXERCISES: dict[str, Exercise] = {exercise.id: exercise for chapter in CHAPTERS.values() for exercise in chapter}
