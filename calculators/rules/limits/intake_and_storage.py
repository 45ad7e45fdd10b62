"""Limits of intake and storage."""

from ..limit import Limit, Signs

ROWS: tuple[Limit | Signs, ...] = ()
