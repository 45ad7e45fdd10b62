"""How long the acrospires of a piece are, corn by corn, after hours of growth.

An acrospire starts some hours after its corn has chitted and grows evenly: corns that
chitted late lag by as much, and each has its own pace.  Lengths are in parts of the corn.
"""

from collections.abc import Sequence
from typing import NamedTuple

from ..bounds import Bounds, check
from ..counts.acrospire import CLASS_ENDS
from .chitting import LATE_FACTOR, Corns, check_corns
from .maths import FLOATS, Maths, Values

CORN_LENGTH_H = 125.0
"""Growth clock in which an acrospire grows by one corn [h at 15 C].

Tuned so that a piece at 15 C reaches a mean of 0.85 on the fifth day after the cast: five
to seven days at 12 to 17 C (Mueller and others 2014, abstract read), three to five on
floors (common practice).
"""

CORN_LENGTH_LOG_SD = 0.2
"""Standard deviation of its logarithm from batch to batch [-]: our judgement, from those days."""

STARTS_H = 17.0
"""Growth clock between chit and acrospire [h]: our assumption."""

PACE_SPREAD = 0.08
"""Standard deviation of the pace from corn to corn, as a share of it [-].

With the spread of chitting it gives lengths that spread by 0.1 to 0.17 where the mean is
0.8, as the counts 2, 4, 14, 76, 4 do that this handbook uses as an example.
"""

EDGES = CLASS_ENDS[:-1]
"""Ends of the classes [corn lengths]; what is longer is overshot."""

READY = CLASS_ENDS[2]
_Z = (-1.593219, -0.967422, -0.589456, -0.282216, 0.0, 0.282216, 0.589456, 0.967422, 1.593219)
"""Middles of nine equal parts of the standard normal distribution."""


class Acrospires(NamedTuple):
    """How acrospires of a lot grow."""

    corn_length_h: Values = CORN_LENGTH_H
    starts_h: Values = STARTS_H
    pace_spread: Values = PACE_SPREAD


def shares_below(
    m: Maths, growth_h: Values, corns: Corns, acrospires: Acrospires, lengths: Sequence[float] = EDGES
) -> list[Values]:
    """Give the shares of all corns with an acrospire shorter than each length; floats or arrays."""
    slow = m.least(corns.sensitive, corns.grows)
    found = []
    for length in lengths:

        def below(z: Values, later: float, length: float = length) -> Values:
            grown = m.most(growth_h - acrospires.starts_h - later * corns.middle_h * m.exp(corns.spread * z), 1e-6)
            return m.normal_share((length * acrospires.corn_length_h / grown - 1.0) / acrospires.pace_spread)

        usual = m.mean_over(_Z, lambda z: below(z, 1.0))
        late = m.mean_over(_Z, lambda z: below(z, LATE_FACTOR))
        found.append((corns.grows - slow) * usual + slow * late + (1.0 - corns.grows))
    return found


def mean_length_at(m: Maths, growth_h: Values, corns: Corns, acrospires: Acrospires) -> Values:
    """Give the mean length of all acrospires [corn lengths], corns that do not grow counting 0; floats or arrays."""
    slow = m.least(corns.sensitive, corns.grows)

    def grown(z: Values, later: float) -> Values:
        return m.most(growth_h - acrospires.starts_h - later * corns.middle_h * m.exp(corns.spread * z), 0.0)

    usual = m.mean_over(_Z, lambda z: grown(z, 1.0))
    late = m.mean_over(_Z, lambda z: grown(z, LATE_FACTOR))
    return ((corns.grows - slow) * usual + slow * late) / acrospires.corn_length_h


def classes(*, growth_h: float, corns: Corns, acrospires: Acrospires | None = None) -> tuple[float, ...]:
    """Give the shares of corns in the five classes of length.

    Parameters
    ----------
    growth_h : float
        Growth clock [h at 15 C in air], not negative.
    corns : Corns
        The lot.
    acrospires : Acrospires, optional
        How its acrospires grow; the typical.

    Returns
    -------
    tuple of float
        Shares up to 1/4, 1/2, 3/4, 1 and over, which sum to 1; corns that do not grow are in the first.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> [round(x, 2) for x in classes(growth_h=140.0, corns=Corns())]
    [0.03, 0.0, 0.09, 0.85, 0.03]
    """
    check("growth_h", growth_h, Bounds(0.0, 1000.0))
    check_corns(corns)
    below = shares_below(FLOATS, growth_h, corns, acrospires or Acrospires())
    return tuple(b - a for a, b in zip([0.0, *below], [*below, 1.0], strict=True))


def mean_length(*, growth_h: float, corns: Corns, acrospires: Acrospires | None = None) -> float:
    """Give the mean length of the acrospires.

    Parameters
    ----------
    growth_h, corns, acrospires
        As for :func:`classes`.

    Returns
    -------
    float
        Mean [corn lengths]; corns that do not grow count 0.

    Raises
    ------
    OutOfRange
        As for :func:`classes`.
    """
    check("growth_h", growth_h, Bounds(0.0, 1000.0))
    check_corns(corns)
    return float(mean_length_at(FLOATS, growth_h, corns, acrospires or Acrospires()))


def length_at_share(*, share: float, growth_h: float, corns: Corns) -> float:
    """Give the length that so many of all corns are shorter than, their acrospires growing as the typical do.

    Parameters
    ----------
    share : float
        Of all corns, 0.01 to 0.99 [-].
    growth_h, corns
        As for :func:`classes`.

    Returns
    -------
    float
        Length [corn lengths], to a thousandth; 0 where the corns that do not grow are as many.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Examples
    --------
    >>> [round(length_at_share(share=x, growth_h=140.0, corns=Corns()), 2) for x in (0.1, 0.5, 0.9)]
    [0.74, 0.85, 0.96]
    """
    check("share", share, Bounds(0.01, 0.99))
    check("growth_h", growth_h, Bounds(0.0, 1000.0))
    check_corns(corns)
    low, high = 0.0, 16.0
    while high - low > 1e-3:
        middle = (low + high) / 2.0
        (below,) = shares_below(FLOATS, growth_h, corns, Acrospires(), (middle,))
        low, high = (low, middle) if float(below) >= share else (middle, high)
    return low
