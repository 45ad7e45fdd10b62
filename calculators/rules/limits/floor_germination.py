"""Limits of floor germination."""

from ..limit import Limit, Signs

ROWS: tuple[Limit | Signs, ...] = ()
