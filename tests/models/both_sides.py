"""A limit is accepted exactly, refused just outside, and named with both its ends."""

from collections.abc import Callable
from typing import Any, NamedTuple

import pytest

from calculators.models.bounds import OutOfRange


class Case(NamedTuple):
    """A formula, what else it is given, and one of its parameters with its limits."""

    work: Callable[..., Any]
    given: dict[str, Any]
    parameter: str
    low: float
    high: float

    def __str__(self) -> str:
        return f"{self.work.__name__}-{self.parameter}"

    def hold(self) -> None:
        """Try both limits from both sides; those of whole numbers one further, others just outside."""
        for exact in (self.low, self.high):
            self.work(**{**self.given, self.parameter: exact})
        whole = isinstance(self.low, int)
        for outside in (
            self.low - (1 if whole else 1e-6 * max(1e-3, abs(self.low))),
            self.high + (1 if whole else 1e-6 * max(1e-3, abs(self.high))),
        ):
            with pytest.raises(OutOfRange) as caught:
                self.work(**{**self.given, self.parameter: outside})
            assert caught.value.parameter == self.parameter
            assert (caught.value.low, caught.value.high) == pytest.approx((self.low, self.high), rel=1e-12)


def cases(work: Callable[..., Any], given: dict[str, Any], **limits: tuple[float, float]) -> list[Case]:
    """Return a case for each parameter of one formula."""
    return [Case(work, given, name, low, high) for name, (low, high) in limits.items()]
