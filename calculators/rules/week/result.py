"""What a search for the plan of a week gives, and a cost as one number."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Callable
from typing import NamedTuple

from .house import ORDER, Aim, Cost, Plan
from .shapes import UNIT

Tell = Callable[[float], None]
"""Told how much is done, from 0 to 1."""


class Result(NamedTuple):
    """What a search found.

    Attributes
    ----------
    plan : dict or None
        The way of each batch; None where none was found.
    cost : Cost
        What it costs.
    least : Cost
        No plan costs less, in the order of the aims.
    proved : bool
        Whether no plan is better; with no plan, whether there is none.
    looks : int
        How often a batch was looked at.
    stuck : tuple of str
        Batches that have no way even with the house to themselves.
    """

    plan: Plan | None
    cost: Cost
    least: Cost
    proved: bool
    looks: int
    stuck: tuple[str, ...] = ()


def packed(cost: Cost, order: tuple[Aim, ...] = ORDER) -> int:
    """A cost as one number, the earlier aim outweighing all later ones."""
    number = 0
    for aim in order:
        number = number * UNIT + getattr(cost, aim)
    return number


def unpacked(number: int) -> Cost:
    """The cost that a number stands for, in the usual order of aims."""
    digits = []
    for _ in ORDER:
        digits.append(number % UNIT)
        number //= UNIT
    return Cost(*reversed(digits))
