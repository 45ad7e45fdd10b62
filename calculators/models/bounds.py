"""Limits that a value must keep, and the error that says which one it broke."""

from typing import NamedTuple


class Bounds(NamedTuple):
    """The lowest and the highest value that is accepted; both are accepted."""

    low: float
    high: float


class OutOfRange(ValueError):
    """A value is outside the range that a formula was made for.

    Parameters
    ----------
    parameter : str
        Name of the argument, or of a column where a table was given.
    low, high : float
        The limits that were broken; both are themselves accepted.
    reason : str, optional
        Why the limit stands, as a sentence, where numbers alone do not say it.
    table : str, optional
        Name of the argument that is a table, where the value stood in one.
    row : int, optional
        Row of that table, counted from 0.
    value : float, optional
        What was given, or came out on the way.
    """

    def __init__(
        self,
        parameter: str,
        low: float,
        high: float,
        reason: str = "",
        table: str = "",
        row: int | None = None,
        value: float | None = None,
    ) -> None:
        self.parameter = parameter
        self.low = low
        self.high = high
        self.reason = reason
        self.table = table
        self.row = row
        self.value = value
        place = f"{table} row {row + 1}: " if row is not None else ""
        text = f"{place}{parameter} must be from {low:.6g} to {high:.6g}"
        super().__init__(f"{text}. {reason}" if reason else text)


def check(
    parameter: str,
    value: float,
    limits: Bounds,
    reason: str = "",
    table: str = "",
    row: int | None = None,
) -> float:
    """Return the value when it keeps its limits.

    Parameters
    ----------
    parameter : str
        Name of the argument, used in the error.
    value : float
        What was given.
    limits : Bounds
        Lowest and highest value; both are accepted.
    reason, table, row
        As for :class:`OutOfRange`.

    Returns
    -------
    float
        The value, unchanged.

    Raises
    ------
    OutOfRange
        When the value is outside, or is not a number.

    Examples
    --------
    >>> check("barley_moisture", 12.5, BARLEY_MOISTURE)
    12.5
    """
    if not limits.low <= value <= limits.high:  # written so that NaN fails too
        raise OutOfRange(parameter, limits.low, limits.high, reason, table, row, value)
    return value


# Limits that more than one model or sheet uses.  They are wide enough for any
# malting barley and narrow enough to catch a slip of the finger; common practice,
# except where a comment says more.
BARLEY_MOISTURE = Bounds(5.0, 25.0)
TARGET_MOISTURE = Bounds(20.0, 55.0)
BED_MOISTURE = Bounds(30.0, 55.0)
MOISTURE = Bounds(0.0, 99.0)
STEEPED_MOISTURE = Bounds(0.0, 65.0)
DRY_MATTER_LOST = Bounds(0.0, 5.0)
DRY_MATTER_LOST_MALTING = Bounds(0.0, 30.0)
SKIMMINGS_PERCENT = Bounds(0.0, 20.0)
WEIGHT_KG = Bounds(0.001, 1_000_000.0)
BASKET_G = Bounds(0.0, 20_000.0)
SAMPLE_G = Bounds(10.0, 20_000.0)
