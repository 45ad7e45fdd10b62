"""Diffusion in a sphere whose surface is by turns held wet and sealed, solved exactly in time.

Everything here is dimensionless: the radius is 1, time is the Fourier number
Fo = D t / a^2, and what is followed is the *lack* of water, the surface value less
the value inside.  A temperature or a rate that changes from stage to stage only
changes how fast Fo runs, so a whole schedule is a chain of the two spheres below,
each an exact series, and one small matrix carries one series over into the other.

With V = r x lack, a wet surface has V(1) = 0 and modes sin(n pi r); a sealed one has
modes sin(b r) with tan b = b, and V = r for the mean.  Both products
int sin(n pi r) sin(b r) dr are closed forms in 1/(n^2 pi^2 - b^2).

References
----------
Crank, J. 1975, The mathematics of diffusion, 2nd ed., chapter 6 (from memory).
"""

from collections.abc import Sequence
from math import ceil, cos, erfc, exp, pi, sin, sqrt
from operator import mul

MODES_MAX = 256
"""Most modes kept: enough for a step of Fo 3e-5, about a minute at 15 C."""

_CUT = 20.0  # a mode that has decayed by exp(-20) is left out
_NOTHING = 1e-13  # a mode that never adds more to the mean lack is left out of it
_CENTRE = 1e-6  # stands for radius 0, where the series are limits of 0/0
_SHORT = 0.06  # below this Fo the series of error functions is the shorter one


def _sealed_roots(count: int) -> list[float]:
    """Give the first positive roots of tan b = b."""
    roots = []
    for m in range(1, count + 1):
        top = (m + 0.5) * pi
        b = top - 1.0 / top
        for _ in range(3):  # Newton on sin b - b cos b, whose slope is b sin b
            b -= (sin(b) - b * cos(b)) / (b * sin(b))
        roots.append(b)
    return roots


_WET = [n * pi for n in range(1, MODES_MAX + 1)]
_RATES = [w * w for w in _WET]
_ROOTS = _sealed_roots(MODES_MAX)
_ROOTS_2 = [b * b for b in _ROOTS]
_by_wet: dict[int, list[float]] = {}
_by_root: dict[int, list[float]] = {}


def _wet_row(n: int) -> list[float]:
    """Give 1/(n^2 pi^2 - b^2) for wet mode n (from 0) over all sealed modes."""
    row = _by_wet.get(n)
    if row is None:
        square = _WET[n] * _WET[n]
        row = _by_wet[n] = [1.0 / (square - b2) for b2 in _ROOTS_2]
    return row


def _root_row(m: int) -> list[float]:
    """Give 1/(n^2 pi^2 - b^2) for sealed mode m (from 0) over all wet modes."""
    row = _by_root.get(m)
    if row is None:
        b2 = _ROOTS_2[m]
        row = _by_root[m] = [1.0 / (w * w - b2) for w in _WET]
    return row


def _modes_alive(fo: float) -> int:
    """Give how many modes are not yet decayed after a time."""
    if fo * (pi * MODES_MAX) ** 2 <= _CUT:
        return MODES_MAX
    return max(1, ceil(sqrt(_CUT / fo) / pi))


def filled_fraction(*, fo: float) -> float:
    """Give how far a uniform sphere has filled since its surface was first held.

    Parameters
    ----------
    fo : float
        Fourier number D t / a^2 [-], not negative.

    Returns
    -------
    float
        Mean uptake over the uptake at the end [-], from 0 to 1.

    Notes
    -----
    1 - (6/pi^2) sum n^-2 exp(-n^2 pi^2 Fo); for short times the equal series
    6 sqrt(Fo/pi) - 3 Fo, whose next term is under 1e-8 at the Fo where the two meet.

    References
    ----------
    Crank 1975, equations 6.20 and 6.22 (from memory); values checked in the tests.

    Examples
    --------
    >>> round(filled_fraction(fo=0.1), 10)
    0.770478738
    """
    if fo <= _SHORT:
        return 6.0 * sqrt(fo / pi) - 3.0 * fo if fo > 0.0 else 0.0
    total = 0.0
    for rate in _RATES[: _modes_alive(fo)]:
        total += exp(-rate * fo) / rate
    return 1.0 - 6.0 * total


def _step_lack(fo: float, r: float) -> float:
    """Give the lack at radius r of a sphere that lacked 1 throughout at Fo 0."""
    if fo <= 0.0:
        return 1.0 if r < 1.0 else 0.0
    if fo <= _SHORT:
        width = 2.0 * sqrt(fo)
        reached = 0.0
        for k in (1.0, 3.0):
            reached += erfc((k - r) / width) - erfc((k + r) / width)
        return 1.0 - reached / r
    total, sign = 0.0, 1.0
    for w in _WET[: _modes_alive(fo)]:
        total += sign * sin(w * r) / w * exp(-w * w * fo)
        sign = -sign
    return 2.0 * total / r


def _bend_lack(fo: float) -> float:
    """Give the mean lack of a sphere that lacked 1 - r^2 at Fo 0, with a wet surface; for a short Fo.

    The lack is 1 - r^2 - 6 int (lack of a step) dFo, which solves the same equation; so
    the mean is 2/5 - 6 int (1 - filled) dFo, here with the short series integrated.
    """
    return 0.4 - 6.0 * (fo - 4.0 * fo * sqrt(fo / pi) + 1.5 * fo * fo)


_Series = list[tuple[float, float]]  # each mode's rate and share, the slowest first


def _sum_of(series: _Series, fo: float) -> float:
    total = 0.0
    for rate, share in series:
        power = rate * fo
        if power > _CUT:
            break
        total += share * exp(-power)
    return total


class WetSphere:
    """A sphere whose surface is held at its end value from Fo 0 on.

    Parameters
    ----------
    step : float
        Lack at the surface just before it was wetted: the jump there.
    bend : float, optional
        What the lack has beside the jump, as a multiple of 1 - r^2, so far as its
        curvature at the surface goes.
    smooth : tuple of float, optional
        Coefficients of the rest.  Taking out jump and bend in closed form leaves
        coefficients that fall off as n^-5, so few are needed at the shortest times.
    """

    __slots__ = ("_late", "_terms", "bend", "smooth", "step")

    def __init__(self, step: float, bend: float = 0.0, smooth: tuple[float, ...] = ()) -> None:
        self.step = step
        self.bend = bend
        self.smooth = smooth
        self._terms: _Series | None = None  # of the mean lack beside jump and bend
        self._late: _Series | None = None  # of all the mean lack, once the series of modes is the shorter one

    def mean_lack(self, fo: float) -> float:
        """Give the mean lack [-] after Fo of wetting."""
        if fo > _SHORT:
            if self._late is None:
                self._late = [(w * w, self._share(n, w)) for n, w in enumerate(_WET[: _modes_alive(_SHORT)])]
            return _sum_of(self._late, fo)
        if self._terms is None:
            shares = [(w * w, 3.0 * s / w) for w, s in zip(_WET, self.smooth, strict=False)]
            self._terms = [term for term in shares if abs(term[1]) > _NOTHING]
        lack = self.step * (1.0 - filled_fraction(fo=fo)) + _sum_of(self._terms, fo)
        return lack + self.bend * _bend_lack(fo) if self.bend else lack

    def _share(self, n: int, w: float) -> float:
        """Give how much wet mode n (from 0) has of the mean lack at Fo 0: of the jump, the bend and the rest."""
        rest = self.smooth[n] if n < len(self.smooth) else 0.0
        return 6.0 * self.step / (w * w) + 36.0 * self.bend / w**4 + 3.0 * rest / w

    def _coefficients(self, fo: float) -> list[float]:
        """Give the coefficients of all modes but for the jump, with signs as at r = 0+."""
        count = _modes_alive(fo)
        whole = [12.0 * self.bend / w**3 for w in _WET[:count]]
        for n, s in enumerate(self.smooth[:count]):
            whole[n] += s
        return whole

    def profile(self, fo: float, radii: Sequence[float]) -> list[float]:
        """Give the lack [-] at some radii (0 to 1) after Fo of wetting."""
        waves, sign = [], 1.0
        for w, s in zip(_WET, self._coefficients(fo), strict=False):
            waves.append((w, sign * s * exp(-w * w * fo)))
            sign = -sign
        lacks = []
        for r in radii:
            r = max(r, _CENTRE)
            smooth = sum(a * sin(w * r) for w, a in waves) / r
            lacks.append(self.step * _step_lack(fo, r) + smooth)
        return lacks

    def time_to(self, mean_lack: float, earliest: float, latest: float) -> float | None:
        """Give the Fo at which the mean lack falls to a value; None if it does not.

        An answer under `earliest` is given as `earliest`.
        """
        # In the root of Fo the fall starts as a straight line, so the false position
        # (with the Illinois halving) needs few steps.
        low, high = sqrt(earliest), sqrt(latest)
        f_low = self.mean_lack(earliest) - mean_lack
        f_high = self.mean_lack(latest) - mean_lack
        if f_low <= 0.0:
            return earliest
        if f_high > 0.0:
            return None
        root, side = high, 0
        for _ in range(100):
            if abs(f_high) < 1e-13 or high - low < 1e-14:
                return high * high
            root = (low * f_high - high * f_low) / (f_high - f_low)
            f = self.mean_lack(root * root) - mean_lack
            if abs(f) < 1e-13:
                break
            if f > 0.0:
                low, f_low = root, f
                if side == 1:
                    f_high *= 0.5
                side = 1
            else:
                high, f_high = root, f
                if side == -1:
                    f_low *= 0.5
                side = -1
        return root * root

    def sealed(self, fo: float) -> "SealedSphere":
        """Give the sphere whose surface is sealed after Fo of wetting."""
        amplitudes = tuple(
            (2.0 * self.step + w * c) * exp(-w * w * fo) for w, c in zip(_WET, self._coefficients(fo), strict=False)
        )
        return SealedSphere(self.mean_lack(fo), amplitudes)


class SealedSphere:
    """A sphere that nothing enters or leaves from Fo 0 on.

    Parameters
    ----------
    mean : float
        Mean lack, which does not change.
    amplitudes : tuple of float
        Coefficients of the wet modes at Fo 0, each times n pi.
    """

    __slots__ = ("amplitudes", "mean")

    def __init__(self, mean: float, amplitudes: tuple[float, ...] = ()) -> None:
        self.mean = mean
        self.amplitudes = amplitudes

    def _waves(self, fo: float) -> list[float]:
        """Give what each sealed mode still adds to the lack at the surface."""
        if not self.amplitudes:
            return []
        return [
            2.0 * sum(map(mul, self.amplitudes, _root_row(m))) * exp(-_ROOTS_2[m] * fo) for m in range(_modes_alive(fo))
        ]

    def profile(self, fo: float, radii: Sequence[float]) -> list[float]:
        """Give the lack [-] at some radii (0 to 1), Fo after sealing."""
        waves = [(b, g / sin(b)) for b, g in zip(_ROOTS, self._waves(fo), strict=False)]
        lacks = []
        for r in radii:
            r = max(r, _CENTRE)
            lacks.append(self.mean + sum(a * sin(b * r) for b, a in waves) / r)
        return lacks

    def wetted(self, fo: float) -> WetSphere:
        """Give the sphere whose surface is wetted Fo after it was sealed."""
        waves = self._waves(fo)
        if not waves:
            return WetSphere(self.mean)
        curvature = list(map(mul, waves, _ROOTS_2))
        fourth = list(map(mul, curvature, _ROOTS_2))
        smooth = tuple(
            2.0 / _WET[n] ** 3 * sum(map(mul, fourth, _wet_row(n)))
            for n in range(min(MODES_MAX, max(32, 2 * len(waves))))
        )
        return WetSphere(self.mean + sum(waves), sum(curvature) / 6.0, smooth)
