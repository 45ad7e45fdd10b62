"""How many corns to count before a count decides."""

import math

from ..bounds import Bounds, check
from .distributions import SHARE, normal_quantile
from .intervals import CONFIDENCE, at_least, at_most, wilson
from .ranges import MOST_CORNS as MOST_CORNS

MARGIN = Bounds(0.005, 0.3)


def corns_for_margin(*, share: float, margin: float, confidence: float = CONFIDENCE) -> int:
    """Give the corns to count so that a share is known to within a margin.

    Parameters
    ----------
    share : float
        Share expected, from 0 to 1.
    margin : float
        Half the width of the interval wanted, a fraction from 0.005 to 0.3.
    confidence : float, optional
        How sure, 0.95.

    Returns
    -------
    int
        Corns to count.

    Raises
    ------
    OutOfRange
        When the share or the margin is outside its limits.

    Notes
    -----
    The larger of two counts: z2 p (1 - p) / d2, and the count at which Wilson's interval is
    no wider than the margin on both sides together.  The first is the usual formula; it asks
    for no corns at all at a share of 100 %, where the second takes over.

    Examples
    --------
    >>> corns_for_margin(share=0.8, margin=0.1), corns_for_margin(share=0.8, margin=0.05)
    (62, 246)
    """
    check("share", share, SHARE)
    check("margin", margin, MARGIN)
    z = normal_quantile(0.5 * (1.0 + confidence))
    usual = math.ceil(z * z * share * (1.0 - share) / margin**2 - 1e-9)

    def narrow(corns: int) -> bool:
        low, high = wilson(share * corns, corns, confidence)
        return high - low <= 2.0 * margin

    low, high = 1, MOST_CORNS * 4
    while low < high:
        middle = (low + high) // 2
        if narrow(middle):
            high = middle
        else:
            low = middle + 1
    return max(usual, low)


def decides(*, share: float, corns: float, limit: float) -> bool:
    """Tell whether a count leaves the limit outside its exact interval of 95 %.

    Parameters
    ----------
    share : float
        Share counted, from 0 to 1; share times corns need not be whole.
    corns : float
        Corns counted, 1 or more.
    limit : float
        The limit, from 0 to 1.

    Returns
    -------
    bool
        True when the whole interval lies on the side of the limit on which the share lies.

    Raises
    ------
    OutOfRange
        When a share is not from 0 to 1.

    Notes
    -----
    The lower end of Clopper and Pearson's interval is at or above the limit exactly when so
    many or more would be counted with at most half the doubt, were the limit the truth; and
    the same for the upper end.

    Examples
    --------
    >>> decides(share=0.98, corns=400, limit=0.95), decides(share=0.98, corns=100, limit=0.95)
    (True, False)
    """
    check("share", share, SHARE)
    check("limit", limit, SHARE)
    tail = 0.5 * (1.0 - CONFIDENCE)
    counted = share * corns
    if share > limit:
        return at_least(counted, corns, limit) <= tail
    if share < limit:
        return at_most(counted, corns, limit) <= tail
    return False


def corns_to_decide(*, share: float, limit: float) -> int | None:
    """Give the corns that would decide on which side of a limit a share lies.

    Parameters
    ----------
    share : float
        Share counted so far or expected, from 0 to 1.
    limit : float
        The limit, from 0 to 1.

    Returns
    -------
    int or None
        Corns in all, supposing that the share stays as it is; None when more than 20,000
        would be needed.

    Raises
    ------
    OutOfRange
        When a share is not from 0 to 1.

    Examples
    --------
    >>> corns_to_decide(share=1.0, limit=0.98)
    183
    """
    high = 1
    while not decides(share=share, corns=high, limit=limit):
        high *= 2
        if high > 2 * MOST_CORNS:
            return None
    low = high // 2
    while low + 1 < high:
        middle = (low + high) // 2
        if decides(share=share, corns=middle, limit=limit):
            high = middle
        else:
            low = middle
    return high if high <= MOST_CORNS else None
