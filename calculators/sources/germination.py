"""Sources on germination, air and heat."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {}
