"""Every source once: what it is, and whether it was read. One file a subject."""

from __future__ import annotations

from . import counts, germination, safety, steep_water, steeping
from .kind import Source, standing_words

SOURCES: dict[str, Source] = {
    **steeping.SOURCES,
    **steep_water.SOURCES,
    **germination.SOURCES,
    **counts.SOURCES,
    **safety.SOURCES,
}

__all__ = ["SOURCES", "Source", "standing_words"]
