"""Limits of filling the steep."""

from ..limit import Limit, Signs

ROWS: tuple[Limit | Signs, ...] = ()
