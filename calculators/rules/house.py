"""The edges that this house has moved, by id of the limit; none in the book itself.

The build writes ``calculators/house_limits.py`` from a house's file after checking it; the repository holds none.
"""

try:
    from ..house_limits import EDGES  # type: ignore[import-not-found,unused-ignore]
except ImportError:
    EDGES: dict[str, dict[str, float]] = {}  # type: ignore[no-redef,unused-ignore]

__all__ = ["EDGES"]
