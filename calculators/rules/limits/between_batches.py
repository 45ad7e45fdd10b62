"""Limits of between batches."""

from ..limit import Limit, Signs

ROWS: tuple[Limit | Signs, ...] = ()
