"""Limits of measuring moisture."""

from ..limit import Limit, Signs

ROWS: tuple[Limit | Signs, ...] = ()
