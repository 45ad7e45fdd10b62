"""Limits of germination test."""

from ..limit import Limit, Signs

ROWS: tuple[Limit | Signs, ...] = ()
