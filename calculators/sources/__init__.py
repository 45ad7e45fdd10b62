"""Every source once: what it is, and whether it was read. One file a subject."""

from __future__ import annotations

from . import (
    barley,
    counts,
    gases,
    germination,
    learning,
    living,
    malt,
    moisture,
    safety,
    steep_water,
    steeping,
    vessels,
)
from .kind import Source, standing_words

SUBJECTS: dict[str, dict[str, Source]] = {
    "The corn, and how it becomes malt": barley.SOURCES,
    "Barley, tests and readiness": counts.SOURCES,
    "Moisture": moisture.SOURCES,
    "Steeping": {**steeping.SOURCES, **steep_water.SOURCES},
    "Germination, air and heat": germination.SOURCES,
    "Malt and its analysis": malt.SOURCES,
    "One living batch": living.SOURCES,
    "Gas and vessels": {**vessels.SOURCES, **gases.SOURCES},
    "Other hazards and limits": safety.SOURCES,
    "Learning": learning.SOURCES,
}
SOURCES: dict[str, Source] = {name: source for listed in SUBJECTS.values() for name, source in listed.items()}

__all__ = ["SOURCES", "SUBJECTS", "Source", "standing_words"]
