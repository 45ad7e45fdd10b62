"""The exercises, one file a chapter."""

from __future__ import annotations

from . import counts, germination, kiln, safety, steeping
from .exercise import Exercise

CHAPTERS: dict[str, tuple[Exercise, ...]] = {
    "steeping": steeping.EXERCISES,
    "germination": germination.EXERCISES,
    "counts": counts.EXERCISES,
    "kiln": kiln.EXERCISES,
    "safety": safety.EXERCISES,
}

EXERCISES: dict[str, Exercise] = {exercise.id: exercise for chapter in CHAPTERS.values() for exercise in chapter}
