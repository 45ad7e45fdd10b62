"""Numbers as text."""

from __future__ import annotations


def fixed(value: float, decimals: int) -> str:
    """A number with a fixed count of decimals and no minus in front of zero.

    >>> fixed(-0.04, 1)
    '0.0'
    """
    text = f"{value:.{decimals}f}"
    return text[1:] if text.startswith("-") and not text.strip("-0.") else text


def plain_number(value: float) -> str:
    """A number as short as it can be written: 12, 12.5, 0.0018."""
    return f"{value:.10g}"
