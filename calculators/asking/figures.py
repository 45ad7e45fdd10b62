"""Numbers and clock times as text."""

from __future__ import annotations

import math
from datetime import datetime


def fixed(value: float, decimals: int) -> str:
    """A number with a fixed count of decimals and no minus in front of zero.

    Fewer decimals than none round to tens, hundreds and so on. What the last bits of a machine's sums make of a half
    does not decide how it is rounded.

    >>> fixed(-0.04, 1), fixed(74567, -3)
    ('0.0', '75000')
    """
    value = round(value, max(decimals, 0) + 8)
    if decimals < 0:
        value, decimals = round(value, decimals), 0
    text = f"{value:.{decimals}f}"
    return text[1:] if text.startswith("-") and not text.strip("-0.") else text


def carried(value: float, digits: int = 5) -> str:
    """A figure in between, with as many digits as a sum needs that goes on from it.

    >>> carried(5280.0), carried(0.826473), carried(123456.7)
    ('5280', '0.82647', '123457')
    """
    if not value:
        return "0"
    text = fixed(value, max(0, digits - 1 - math.floor(math.log10(abs(value)))))
    return text.rstrip("0").rstrip(".") if "." in text else text


def at_least(value: float, decimals: int) -> float:
    """The value rounded up to a count of decimals, but for what is only noise of the arithmetic.

    >>> at_least(4.01, 0), at_least(4.0 + 1e-12, 0)
    (5.0, 4.0)
    """
    scale = 10.0**decimals
    return math.ceil(value * scale * (1 - 1e-12)) / scale


def plain_number(value: float) -> str:
    """A number as short as it can be written: 12, 12.5, 0.0018."""
    return f"{value:.10g}"


def clock_words(moment: datetime, *, year: bool = False) -> str:
    """A clock time as people say it: ``Mon 12 Jan 06:00``, or ``day 2 14:00`` without a date.

    The one style of date and time, in sheets, day-book and scripts; to type, it is ``2026-01-12 06:00``.
    """
    if moment.year == 1:
        return f"day {moment.toordinal()} {moment:%H:%M}"
    day = f"{moment:%a} {moment.day} {moment:%b}"
    return f"{day} {moment:%Y %H:%M}" if year else f"{day} {moment:%H:%M}"


def said_minute(text: str) -> str:
    """A local minute of the page, ``2026-01-12T06:00``, in the one style; what is none stays as it is.

    >>> said_minute("2026-01-12T06:00"), said_minute("")
    ('Mon 12 Jan 2026 06:00', '')
    """
    try:
        return clock_words(datetime.fromisoformat(text), year=True)
    except ValueError:
        return text
