"""Whether replicates of a germination test agree: a published table, and exact chance elsewhere."""

import math
from functools import lru_cache

from ..bounds import Bounds, check

TABLE_SIZE = 100
"""Seeds a replicate in the table of 7 CFR 201.55."""
TAIL = 0.025
"""Chance left for a wider range, where the exact binomial range is used."""
REPLICATES = Bounds(2.0, 50.0)
REPLICATE_SIZE = Bounds(1.0, 1000.0)

# 7 CFR 201.55(a), read: mean %, greatest range among four and between two replicates of 100.
# The column for two replicates begins at 97 %; the rows under 71 % could not be read.
_TABLE: dict[int, tuple[int, int | None]] = {
    99: (5, None),
    98: (6, None),
    97: (7, 6),
    96: (8, 6),
    95: (9, 7),
    94: (10, 8),
    93: (10, 8),
    92: (11, 9),
    91: (11, 9),
    90: (12, 9),
    89: (12, 10),
    88: (13, 10),
    87: (13, 11),
    86: (14, 11),
    85: (14, 11),
    84: (14, 11),
    83: (15, 12),
    82: (15, 12),
    81: (15, 12),
    80: (16, 13),
    79: (16, 13),
    78: (16, 13),
    77: (17, 13),
    76: (17, 13),
    75: (17, 14),
    74: (17, 14),
    73: (17, 14),
    72: (18, 14),
    71: (18, 14),
}


def tabled_range(*, replicates: int, size: int, mean_percent: float) -> int | None:
    """Give the greatest range that the table of the seed testing rules allows.

    Parameters
    ----------
    replicates : int
        Number of replicates; the table has 2 and 4.
    size : int
        Corns a replicate; the table is for 100.
    mean_percent : float
        Mean of the replicates [%], rounded here to a whole number.

    Returns
    -------
    int or None
        Greatest range between the best and the worst replicate [corns of 100]; None where
        the table has no such row.

    Notes
    -----
    A mean of m % and one of 101 - m % share a row, as printed.  The rows read reach
    from 99 to 71 % and from 2 to 30 %.

    References
    ----------
    United States, 7 CFR 201.55(a), table of maximum tolerated ranges (in a copy).

    Examples
    --------
    >>> tabled_range(replicates=4, size=100, mean_percent=95.2)
    9
    """
    if size != TABLE_SIZE or replicates not in (2, 4):
        return None
    mean = math.floor(mean_percent + 0.5)
    row = _TABLE.get(mean) or _TABLE.get(101 - mean)
    if row is None:
        return None
    return row[0] if replicates == 4 else row[1]


@lru_cache(maxsize=64)
def exact_range(*, replicates: int, size: int, share: float) -> int:
    """Give the range that chance alone seldom exceeds: 2.5 times in 100.

    Parameters
    ----------
    replicates : int
        Number of replicates, 2 to 50, all of one size.
    size : int
        Corns a replicate, 1 to 1000.
    share : float
        Share that grows, from 0 to 1; usually the mean of the replicates.

    Returns
    -------
    int
        Smallest range that is exceeded with a chance of at most 2.5 % [corns].

    Raises
    ------
    OutOfRange
        When the number, the size or the share is outside its limits.

    Notes
    -----
    For independent binomial counts with distribution function F,
    P(range <= r) = sum over m of (F(m+r) - F(m-1))^n - (F(m+r) - F(m))^n.
    For 100 corns it gives the published table within 1 on every row that was read.

    Examples
    --------
    >>> exact_range(replicates=4, size=100, share=0.95)
    9
    """
    check("replicates", replicates, REPLICATES)
    check("size", size, REPLICATE_SIZE)
    check("share", share, Bounds(0.0, 1.0))
    if share in (0.0, 1.0):
        return 0
    below = [0.0]
    for k in range(size + 1):
        log_term = (
            math.lgamma(size + 1)
            - math.lgamma(k + 1)
            - math.lgamma(size - k + 1)
            + k * math.log(share)
            + (size - k) * math.log1p(-share)
        )
        below.append(below[-1] + math.exp(log_term))

    def within(widest: int) -> float:
        total = 0.0
        for m in range(size + 1):
            top = below[min(m + widest, size) + 1]
            total += (top - below[m]) ** replicates - (top - below[m + 1]) ** replicates
        return total

    low, high = 0, size
    while low < high:
        middle = (low + high) // 2
        if within(middle) >= 1.0 - TAIL:
            high = middle
        else:
            low = middle + 1
    return low
