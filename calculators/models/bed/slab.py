"""Heat in an even layer that warms from within: no heat through the floor, some through the top.

The floor is at xi = 0, the surface at xi = 1.  Time is the Fourier number Fo = alpha t / L^2.
Cooling at the surface is in proportion to its excess over the room; the Biot number
Bi = h L / k says how strongly.  With Bi infinite the surface is held at the room's temperature.
"""

from math import atan, cos, exp, inf, pi, sin

_MOST_TERMS = 120
_CUT = 40.0  # exp(-40) is 4e-18


class Slab:
    """A layer of one Biot number: its modes, worked out once.

    Parameters
    ----------
    biot : float
        h L / k [-]; ``math.inf`` holds the surface at the room's temperature.

    Raises
    ------
    ValueError
        When it is not above 0.

    Notes
    -----
    Modes: beta tan(beta) = Bi, one in each stretch from n pi to n pi + pi/2.

    References
    ----------
    Carslaw & Jaeger, Conduction of Heat in Solids (from memory).  Checked in the tests
    against printed values at Bi infinite and against a finite-difference solution.
    """

    __slots__ = ("_betas", "_weights", "biot")

    def __init__(self, biot: float) -> None:
        if not biot > 0.0:
            raise ValueError("biot must be above 0")
        self.biot = biot
        self._betas: list[float] = []
        self._weights: list[float] = []

    def _mode(self, n: int) -> tuple[float, float]:
        while len(self._betas) <= n:
            beta = _root(self.biot, len(self._betas))
            self._betas.append(beta)
            self._weights.append(4.0 * sin(beta) / (2.0 * beta + sin(2.0 * beta)))
        return self._betas[n], self._weights[n]

    def both(self, fo: float, xi: float) -> tuple[float, float]:
        """Give what is left of a first even excess, and the warming from within.

        Parameters
        ----------
        fo : float
            Fourier number [-], not negative.
        xi : float
            Place: 0 at the floor, 1 at the surface [-].

        Returns
        -------
        tuple of float
            Share of the first excess over the room that is left [-], and
            k (T - room) / (q L^2) for even heat q that began at Fo = 0 [-].
        """
        if fo <= 0.0:
            return 1.0, 0.0
        left, short = 0.0, 0.0
        for n in range(_MOST_TERMS):
            beta, weight = self._mode(n)
            power = beta * beta * fo
            if power > _CUT:
                break
            term = weight * cos(beta * xi) * exp(-power)
            left += term
            short += term / (beta * beta)
        end = (1.0 - xi * xi) / 2.0 + (0.0 if self.biot == inf else 1.0 / self.biot)
        return left, end - short

    def mean_of_both(self, fo: float) -> tuple[float, float]:
        """Give the same as :meth:`both` as a mean over the whole layer."""
        if fo <= 0.0:
            return 1.0, 0.0
        left, short = 0.0, 0.0
        for n in range(_MOST_TERMS):
            beta, weight = self._mode(n)
            power = beta * beta * fo
            if power > _CUT:
                break
            term = weight * sin(beta) / beta * exp(-power)
            left += term
            short += term / (beta * beta)
        return left, 1.0 / 3.0 + (0.0 if self.biot == inf else 1.0 / self.biot) - short

    def warming(self, fo: float, xi: float) -> float:
        """Give k (T - room) / (q L^2) for a layer that began at the room's temperature.

        Examples
        --------
        >>> round(Slab(inf).warming(0.5, 0.0), 6)
        0.349727
        """
        return self.both(fo, xi)[1]


def _root(biot: float, n: int) -> float:
    if biot == inf:
        return (n + 0.5) * pi
    # beta = n pi + atan(Bi / beta), by Newton from the upper end of its stretch.
    base = n * pi
    beta = base + pi / 2.0
    for _ in range(60):
        step = (beta - base - atan(biot / beta)) / (1.0 + biot / (beta * beta + biot * biot))
        beta -= step
        if abs(step) < 1e-14 * beta:
            break
    return beta
