"""Limits of drum germination."""

from ..limit import Limit, Signs

ROWS: tuple[Limit | Signs, ...] = ()
