"""Numbers and clock times as text."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence
from datetime import date, datetime


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


def few_digits(value: float, digits: int = 3) -> str:
    """A number with no more digits than are read at a glance: 3170, 114, -112, 0.0123, 1200000.

    >>> few_digits(3169.7), few_digits(-111.83), few_digits(0.012345)
    ('3170', '-112', '0.0123')
    """
    return plain_number(float(f"{value:.{digits}g}"))


def limits_said(low: float, high: float) -> tuple[str, str]:
    """Two limits with few digits, moved inwards, so that whoever types what is said is within them.

    >>> limits_said(172.41379, 178.26087), limits_said(5.0, 25.0), limits_said(0.30001, 0.30002)
    (('172.5', '178.2'), ('5', '25'), ('0.30001', '0.30002'))
    """
    for digits in range(4, 10):
        inner_low, inner_high = _inwards(low, digits, math.ceil), _inwards(high, digits, math.floor)
        if inner_low <= inner_high:
            return plain_number(inner_low), plain_number(inner_high)
    return few_digits(low, 4), few_digits(high, 4)  # nothing lies between them


_HYPHEN = re.compile(r"(?<![\w.,:;/=)\]\-–—+])-(?=\.?\d)")


def minus_signs(text: str) -> str:
    """The text as it is set: a hyphen that stands for a minus is a minus sign; dates, names and spans stay.

    >>> minus_signs("-4.5 K, from -10 to 2026-01-12 in example-01, 10^-3 (-2)")
    '−4.5 K, from −10 to 2026-01-12 in example-01, 10^−3 (−2)'
    """
    return _HYPHEN.sub("−", text) if "-" in text else text


def said_span(low: float, high: float) -> str:
    """Two limits in words: ``from 5 to 25``; with one of them open ``of 5 or more``.

    >>> said_span(5.0, 25.0), said_span(5.0, math.inf)
    ('from 5 to 25', 'of 5 or more')
    """
    least, most = limits_said(low, high)
    if not math.isfinite(high):
        return f"of {least} or more"
    return f"from {least} to {most}" if math.isfinite(low) else f"of {most} or less"


def _inwards(limit: float, digits: int, cut: Callable[[float], int]) -> float:
    """A limit with few digits; one that was written short stays as it was written."""
    if not limit or not math.isfinite(limit) or float(f"{limit:.{digits}g}") == limit:
        return limit
    step = 10.0 ** (math.floor(math.log10(abs(limit))) + 1 - digits)
    return float(f"{cut(limit / step) * step:.{digits}g}")


_FIGURE = re.compile(r"[<>≤≥]?\s?[-−+]?\d[\d,]*(?:\.(\d+))?(\s?%)?")
_NO_FIGURE = ("", "–", "—")


def figure_columns(rows: Sequence[Sequence[str]]) -> str:
    """The columns of a table, by number, whose figures stand under each other when they are set to the right.

    They hold figures alone, all with as many decimals; a blank among them does no harm.

    >>> figure_columns([["Mon", "9.5", "7"], ["Tue", "10.5", "7.25"], ["Wed", "", "8"]])
    '2'
    """
    found = []
    for number, cells in enumerate(zip(*rows, strict=False), 1):
        figures = [_FIGURE.fullmatch(cell.strip()) for cell in cells if cell.strip() not in _NO_FIGURE]
        ends = {(len(figure[1] or ""), bool(figure[2])) if figure else None for figure in figures}
        if len(figures) > 1 and len(ends) == 1 and None not in ends:
            found.append(str(number))
    return " ".join(found)


def clock_words(moment: datetime, *, year: bool = False) -> str:
    """A clock time as people say it: ``Mon 12 Jan 06:00``, or ``day 2 14:00`` without a date.

    The one style of date and time, in sheets, day-book and scripts; to type, it is ``2026-01-12 06:00``.
    """
    if moment.year == 1:
        return f"day {moment.toordinal()} {moment:%H:%M}"
    day = day_words(moment) if year else f"{moment:%a} {moment.day} {moment:%b}"
    return f"{day} {moment:%H:%M}"


def day_words(day: date, *, weekday: bool = True) -> str:
    """A day in the same style.

    >>> day_words(date(2026, 11, 29)), day_words(date(2026, 11, 29), weekday=False)
    ('Sun 29 Nov 2026', '29 Nov 2026')
    """
    words = f"{day.day} {day:%b %Y}"
    return f"{day:%a} {words}" if weekday else words


def said_minute(text: str) -> str:
    """A local minute of the page, ``2026-01-12T06:00``, in the one style; what is none stays as it is.

    >>> said_minute("2026-01-12T06:00"), said_minute("")
    ('Mon 12 Jan 2026 06:00', '')
    """
    try:
        return clock_words(datetime.fromisoformat(text), year=True)
    except ValueError:
        return text
