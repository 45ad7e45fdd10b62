"""Limits of readiness."""

from ..limit import Limit, Signs

ROWS: tuple[Limit | Signs, ...] = ()
