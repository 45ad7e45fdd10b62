"""The few functions that the laws of a batch need, for floats here and for arrays in ``arrays``.

A law is written once.  It takes ``m``, one of the two sets, and its values are then all
floats, or floats and arrays of one float for each possible batch.
"""

import math
from collections.abc import Callable
from typing import Any, Protocol

Values = Any
"""A float, or an array with one float for each possible batch."""


class Maths(Protocol):
    """What a law may call."""

    def exp(self, x: Values) -> Values:
        """Give the exponential."""

    def log(self, x: Values) -> Values:
        """Give the natural logarithm."""

    def least(self, a: Values, b: Values) -> Values:
        """Give the smaller of two."""

    def most(self, a: Values, b: Values) -> Values:
        """Give the larger of two."""

    def choose(self, condition: Values, a: Values, b: Values) -> Values:
        """Give a where the condition holds, else b."""

    def normal_share(self, z: Values) -> Values:
        """Give the share of the standard normal distribution under z."""

    def between(self, x: Values, table: tuple[float, ...]) -> Values:
        """Give the value at x of a table that has one at each whole number from 0, along straight lines."""

    def mean_over(self, nodes: tuple[float, ...], figure: Callable[[Values], Values]) -> Values:
        """Give the mean of a figure over some nodes."""


class Floats:
    """The functions for floats."""

    @staticmethod
    def exp(x: float) -> float:
        """Give the exponential."""
        return math.exp(x)

    @staticmethod
    def log(x: float) -> float:
        """Give the natural logarithm."""
        return math.log(x)

    @staticmethod
    def least(a: float, b: float) -> float:
        """Give the smaller of two."""
        return a if a < b else b

    @staticmethod
    def most(a: float, b: float) -> float:
        """Give the larger of two."""
        return a if a > b else b

    @staticmethod
    def choose(condition: bool, a: float, b: float) -> float:
        """Give a where the condition holds, else b."""
        return a if condition else b

    @staticmethod
    def normal_share(z: float) -> float:
        """Give the share of the standard normal distribution under z."""
        return 0.5 * math.erfc(-z / math.sqrt(2.0))

    @staticmethod
    def between(x: float, table: tuple[float, ...]) -> float:
        """Give the value at x of a table that has one at each whole number from 0, along straight lines."""
        n = min(max(int(x), 0), len(table) - 2)
        return table[n] + (table[n + 1] - table[n]) * (min(max(x, 0.0), len(table) - 1.0) - n)

    @staticmethod
    def mean_over(nodes: tuple[float, ...], figure: Callable[[Values], Values]) -> Values:
        """Give the mean of a figure over some nodes."""
        return sum(figure(node) for node in nodes) / len(nodes)


FLOATS: Maths = Floats()
