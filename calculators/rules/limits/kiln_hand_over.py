"""Limits of kiln hand over."""

from ..limit import Limit, Signs

ROWS: tuple[Limit | Signs, ...] = ()
