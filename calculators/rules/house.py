"""What this house has of its own: edges it has moved, by id of the limit, and its targets by malt; none in the book.

The build writes ``calculators/house_limits.py`` from a house's file after checking it; the repository holds none.
"""

try:
    from ..house_limits import EDGES, MALTS  # type: ignore[import-not-found,unused-ignore]
except ImportError:
    EDGES: dict[str, dict[str, float]] = {}  # type: ignore[no-redef,unused-ignore]
    MALTS: dict[str, dict[str, tuple[float, float]]] = {}  # type: ignore[no-redef,unused-ignore]

__all__ = ["EDGES", "MALTS"]
