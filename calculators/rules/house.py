"""What this house has of its own: edges it has moved, by id of the limit, and why; its targets by malt.

The book has none.

The build makes the module ``calculators.house_limits`` of a house's file after checking it; the repository holds none.
"""

EDGES: dict[str, dict[str, float]] = {}
MALTS: dict[str, dict[str, tuple[float, float]]] = {}
REASONS: dict[str, dict[str, str]] = {}

try:
    from .. import house_limits  # type: ignore[attr-defined,unused-ignore]
except ImportError:
    pass
else:
    EDGES, MALTS, REASONS = house_limits.EDGES, house_limits.MALTS, house_limits.REASONS

__all__ = ["EDGES", "MALTS", "REASONS"]
