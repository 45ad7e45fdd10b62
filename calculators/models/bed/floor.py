"""A piece on the malting floor between two turnings: how its bottom and its top part.

A turning mixes the piece to one temperature.  From then on it warms by its own breathing,
loses heat from the surface to the room, and keeps it at the floor.  Three things are not
known beforehand: the heat, the loss at the surface, and how warm the piece was when it was
turned.  ``fit`` takes them from the floor's own readings; what the one law of breathing and a
typical surface say counts only as far as the readings leave room.

Nothing here is ever at rest: a layer of 15 cm would need two days to reach its steady
state, and is turned long before.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import exp, inf, log, sqrt
from typing import Any, NamedTuple

from ..bounds import Bounds
from ..living.bed_days import BARLEY_PERCENT, BED_PERCENT, heat_on_day
from ..living.warmth import heat_capacity
from .slab import Slab

BARLEY_KG_M3 = 450.0
"""Barley, as weighed dry, in a cubic metre of growing piece [kg/m3]: an assumption."""

DRY_KG_M3 = BARLEY_KG_M3 * (1.0 - BARLEY_PERCENT / 100.0)
"""Its dry matter, from barley at 14 % [kg/m3]."""

HEAT_CAPACITY_KJ_M3_K: float = heat_capacity(DRY_KG_M3, DRY_KG_M3 * BED_PERCENT / (100.0 - BED_PERCENT))
"""Heat to warm a cubic metre of piece by one kelvin [kJ/m3 K], 1,829.

That of 387 kg of dry matter at 1.3 kJ/kg K (``steep.mixing.DRY_HEAT``) and its water at 45 %; then 1 kW a
tonne warms it by 0.89 K an hour.
"""

CONDUCTIVITY_W_M_K = 0.2
"""Heat conducted in the piece [W/m K]: an assumption, 0.15 to 0.25; no published value was found."""

TYPICAL_SURFACE_W_M2_K = 8.0
"""Heat lost at the surface [W/m2 K] with what evaporates there: our estimate, to a factor of two."""

FACTOR_OF_TWO = log(2.0)
"""Standard deviation of the logarithm of heat and of surface loss before a reading [-].

The one law knows the total of a batch to 0.4.  One piece at one hour is less sure, and floors
ask for the low side: Thomson's for 0.45 of the law, floors turned two or three times a day for
about half of it (both computed).
"""

READING_SD_K = 0.5
"""How far one thermometer in one place may be off the layer's own temperature [K]."""

_FIRST_SD_K = 4.0  # how far the first temperature may lie from the first reading's mean
_SPAN = 2.4  # standard deviations that the grids reach
_HEATS, _SURFACES = 31, 9

DEPTH_CM = Bounds(4.0, 80.0)
PIECE_C = Bounds(2.0, 40.0)
ROOM_C = Bounds(-5.0, 35.0)
HOURS = Bounds(0.0, 36.0)
HEAT_FACTOR = Bounds(0.25, 4.0)
SAME_TURNING_H = 0.75
LONGEST_H = 24.0
PROBE_M = 0.03
"""How far below the surface the top thermometer usually stands [m]: common practice."""


class Round(NamedTuple):
    """One round of the floor: when, how deep, and three temperatures."""

    hours_since_turning: float
    depth_m: float
    bottom_c: float
    top_c: float
    room_c: float
    hours_ago: float = 0.0
    probe_m: float = PROBE_M  # top thermometer below the surface


class Guess(NamedTuple):
    """One possible piece: its weight among all, and what follows for the present turning."""

    weight: float
    heat_kw_t: float
    surface_w_m2_k: float
    first_c: float
    differences: tuple[float, ...]  # bottom minus top at TIMES from now
    bottoms: tuple[float, ...]


class Band(NamedTuple):
    """A middle value and the limits that four fifths of what is possible lie between."""

    low: float
    middle: float
    high: float


TIMES = tuple(n * 0.5 for n in range(int(LONGEST_H * 2) + 1))
"""Hours from now at which a guess says what will be [h]."""


def heating_rate(*, heat_kw_t: float) -> float:
    """Give how fast a piece warms just after turning, before any heat has left it.

    Parameters
    ----------
    heat_kw_t : float
        Heat of breathing [kW a tonne of barley].

    Returns
    -------
    float
        Rate [K/h], whatever the depth.

    Examples
    --------
    >>> round(heating_rate(heat_kw_t=1.0), 2)
    0.89
    """
    return heat_kw_t * BARLEY_KG_M3 / 1000.0 * 3600.0 / HEAT_CAPACITY_KJ_M3_K


def fourier(*, hours: float, depth_m: float) -> float:
    """Give the Fourier number of a piece [-] after hours of lying at a depth [m]."""
    diffusivity = CONDUCTIVITY_W_M_K / (HEAT_CAPACITY_KJ_M3_K * 1000.0)
    return diffusivity * hours * 3600.0 / depth_m**2


def difference_held(*, hours: float, depth_m: float, heat_kw_t: float) -> float:
    """Give the bottom minus the top of a piece whose surface stays as it was when turned.

    Parameters
    ----------
    hours : float
        Since turning [h].
    depth_m : float
        Depth [m].
    heat_kw_t : float
        Heat of breathing [kW a tonne of barley].

    Returns
    -------
    float
        Difference [K].

    Notes
    -----
    The simplest case, for checks and for teaching: no reading is needed and no
    temperature of the piece follows from it.

    Examples
    --------
    >>> round(difference_held(hours=8.0, depth_m=0.10, heat_kw_t=1.0), 1)
    5.9
    """
    fo = fourier(hours=hours, depth_m=depth_m)
    per_kelvin = depth_m**2 / (CONDUCTIVITY_W_M_K / (HEAT_CAPACITY_KJ_M3_K / 3.6))
    return heating_rate(heat_kw_t=heat_kw_t) * per_kelvin * Slab(inf).warming(fo, 0.0)


class Response(NamedTuple):
    """How a figure of a piece goes with its excess over the room [K/K] and with its heat [K for each kW/t]."""

    per_k: float
    per_kw: float

    def of(self, excess_k: Any, heat_kw_t: Any) -> Any:
        """Give the figure [K]; floats or arrays."""
        return self.per_k * excess_k + self.per_kw * heat_kw_t


@lru_cache(maxsize=64)
def apart_when_read(*, hours: float, depth_m: float) -> Response:
    """Give bottom less top of a piece of typical surface, by its mean over the room at that moment and its heat.

    Parameters
    ----------
    hours : float
        Since turning [h].
    depth_m : float
        Depth [m].

    Returns
    -------
    Response
        Of the difference as two thermometers show it, the top one :data:`PROBE_M` below the surface.

    Notes
    -----
    The whole piece lies midway between the two thermometers to 0.1 K at 15 cm, and to half a kelvin from 10 to 20
    (computed).  A surface known to a factor of two makes a quarter of it.

    Examples
    --------
    >>> round(apart_when_read(hours=8.0, depth_m=0.15).of(8.0, 1.0), 1)
    3.5
    """
    slab, fo, scale = _lying(hours, depth_m)
    left, warm = slab.mean_of_both(fo)
    bottom, top = slab.both(fo, 0.0), slab.both(fo, 1.0 - PROBE_M / depth_m)
    per_k = (bottom[0] - top[0]) / left
    return Response(per_k, scale * (bottom[1] - top[1] - per_k * warm))


@lru_cache(maxsize=64)
def bottom_before_turning(*, hours: float, depth_m: float) -> Response:
    """Give the bottom over the room just before a turning, by the piece's mean over the room from turning to turning.

    Parameters
    ----------
    hours : float
        From one turning to the next [h].
    depth_m : float
        Depth [m].

    Returns
    -------
    Response
        Of the bottom less the room.

    Examples
    --------
    >>> round(bottom_before_turning(hours=8.0, depth_m=0.15).of(4.0, 1.0), 1)
    8.0
    """
    slab, fo, scale = _lying(hours, depth_m)
    count = 24
    means = [slab.mean_of_both(fo * (n + 0.5) / count) for n in range(count)]
    left, warm = (sum(mean[k] for mean in means) / count for k in (0, 1))
    bottom = slab.both(fo, 0.0)
    per_k = bottom[0] / left
    return Response(per_k, scale * (bottom[1] - per_k * warm))


def _lying(hours: float, depth_m: float) -> tuple[Slab, float, float]:
    """A piece of typical surface, its Fourier number, and what 1 kW a tonne warms it by in its own time [K]."""
    slab = Slab(TYPICAL_SURFACE_W_M2_K * depth_m / CONDUCTIVITY_W_M_K)
    fo = fourier(hours=hours, depth_m=depth_m)
    return slab, fo, heating_rate(heat_kw_t=1.0) * hours / fo


class _Seen(NamedTuple):
    """How a round depends on the first excess and on the heating rate: bottom and top."""

    left_bottom: float
    warm_bottom: float
    left_top: float
    warm_top: float


def _seen(slab: Slab, depth_m: float, probe_m: float, hours: float) -> _Seen:
    fo = fourier(hours=hours, depth_m=depth_m)
    scale = hours / fo if fo > 0.0 else 0.0  # L^2/alpha in hours
    left_bottom, warm_bottom = slab.both(fo, 0.0)
    left_top, warm_top = slab.both(fo, 1.0 - probe_m / depth_m)
    return _Seen(left_bottom, warm_bottom * scale, left_top, warm_top * scale)


def turnings(rounds: Sequence[Round]) -> list[list[Round]]:
    """Give the rounds sorted by the turning they followed, the latest turning last."""
    groups: list[list[Round]] = []
    for one in sorted(rounds, key=lambda r: (-(r.hours_ago + r.hours_since_turning), -r.hours_ago)):
        turned = one.hours_ago + one.hours_since_turning
        if groups and abs(groups[-1][0].hours_ago + groups[-1][0].hours_since_turning - turned) <= SAME_TURNING_H:
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups


def _first_and_misfit(group: Sequence[Round], seen: Sequence[_Seen], rate: float) -> tuple[float, float]:
    """The first temperature that fits a turning best, and how badly it still fits."""
    centre = (group[0].bottom_c + group[0].top_c) / 2.0
    weight = 1.0 / _FIRST_SD_K**2
    top, bottom = weight * centre, weight
    each = 1.0 / READING_SD_K**2
    for one, s in zip(group, seen, strict=True):
        for value, left, warm in (
            (one.bottom_c, s.left_bottom, s.warm_bottom),
            (one.top_c, s.left_top, s.warm_top),
        ):
            top += each * left * (value - one.room_c * (1.0 - left) - rate * warm)
            bottom += each * left * left
    first = top / bottom
    misfit = weight * (first - centre) ** 2 + log(bottom)
    for one, s in zip(group, seen, strict=True):
        excess = first - one.room_c
        misfit += each * (one.room_c + excess * s.left_bottom + rate * s.warm_bottom - one.bottom_c) ** 2
        misfit += each * (one.room_c + excess * s.left_top + rate * s.warm_top - one.top_c) ** 2
    return first, misfit


def _grid(middle: float, count: int) -> list[tuple[float, float]]:
    """Values about a typical one, with how far out each lies in standard deviations."""
    steps = [_SPAN * (2.0 * n / (count - 1) - 1.0) for n in range(count)]
    return [(middle * exp(FACTOR_OF_TWO * step), step) for step in steps]


def mean_c(*, bottom_c: float, top_c: float) -> float:
    """Give the piece on the whole [C]: midway between its two thermometers.

    Parameters
    ----------
    bottom_c : float
        On the floor [C].
    top_c : float
        A few centimetres under the surface [C].

    Returns
    -------
    float
        Mean of the whole layer [C].

    Notes
    -----
    A layer that warms from within and cools above has its mean nearest midway between these two places: to 0.1 K in a
    piece of 15 cm and to 0.6 K from 8 to 20 cm, at half and at twice the usual loss at the surface (computed with
    ``slab``).  Two parts bottom to one part top, as a layer at rest would have it, is up to 1 K too warm.
    """
    return 0.5 * (bottom_c + top_c)


def expected_heat(*, now: Round, day: float, heat_factor: float = 1.0, moisture: float = BED_PERCENT) -> float:
    """Give the heat that the one law expects of a piece before its rounds are looked at [kW a tonne of barley].

    Parameters
    ----------
    now : Round
        The present round: its warmth counts.
    day, heat_factor, moisture
        As for :func:`fit`.
    """
    warm = mean_c(bottom_c=now.bottom_c, top_c=now.top_c)
    return heat_on_day(day=day, temp_c=warm, moisture=moisture, factor=heat_factor)


def fit(*, rounds: Sequence[Round], day: float, heat_factor: float = 1.0, moisture: float = BED_PERCENT) -> list[Guess]:
    """Give the pieces that the rounds allow, each with its weight.

    Parameters
    ----------
    rounds : sequence of Round
        All rounds, the present one with ``hours_ago`` 0.
    day : float
        Day on the floor as time goes on: 1 is the cast, 3.5 the middle of the third day.
    heat_factor : float, optional
        Heat of this house's pieces against the law [-], from its earlier batches.
    moisture : float, optional
        Of the piece, % of wet weight.

    Returns
    -------
    list of Guess
        Weights sum to 1.  Heat starts from the one law at the warmth of the present round,
        surface loss from a typical value, each to a factor of two, and go where the readings
        send them.  Each guess says how the present turning
        goes on, starting from what the thermometers read now.

    Notes
    -----
    Bayes' rule on a grid; thermometers are good to 0.5 K; the temperature at each turning is
    free.  Heat and loss are taken to be the same for all rounds: give those of one day.
    """
    groups = turnings(rounds)
    now = min(groups[-1], key=lambda one: one.hours_ago)
    expected = expected_heat(now=now, day=day, heat_factor=heat_factor, moisture=moisture)
    guesses: list[tuple[float, float, float, float, list[_Seen]]] = []
    for surface, out_surface in _grid(TYPICAL_SURFACE_W_M2_K, _SURFACES):
        slabs = {d: Slab(surface * d / CONDUCTIVITY_W_M_K) for d in {one.depth_m for one in rounds}}
        seen = [
            [_seen(slabs[one.depth_m], one.depth_m, one.probe_m, one.hours_since_turning) for one in group]
            for group in groups
        ]
        ahead = [_seen(slabs[now.depth_m], now.depth_m, now.probe_m, now.hours_since_turning + t) for t in TIMES]
        for heat, out_heat in _grid(expected, _HEATS):
            rate = heating_rate(heat_kw_t=heat)
            total, first = out_heat**2 + out_surface**2, 0.0
            for group, parts in zip(groups, seen, strict=True):
                first, misfit = _first_and_misfit(group, parts, rate)
                total += misfit
            guesses.append((total, heat, surface, first, ahead))
    best = min(guess[0] for guess in guesses)
    weights = [exp((best - guess[0]) / 2.0) for guess in guesses]
    sum_of_all = sum(weights)
    result = []
    for weight, (_, heat, surface, first, ahead) in zip(weights, guesses, strict=True):
        if weight < 1e-4:
            continue
        rate, excess = heating_rate(heat_kw_t=heat), first - now.room_c
        bottoms = [now.room_c + excess * s.left_bottom + rate * s.warm_bottom for s in ahead]
        tops = [now.room_c + excess * s.left_top + rate * s.warm_top for s in ahead]
        off_bottom, off_top = now.bottom_c - bottoms[0], now.top_c - tops[0]
        result.append(
            Guess(
                weight / sum_of_all,
                heat,
                surface,
                first,
                tuple(b - t + off_bottom - off_top for b, t in zip(bottoms, tops, strict=True)),
                tuple(b + off_bottom for b in bottoms),
            )
        )
    return result


def hours_until(differences: Sequence[float], limit_k: float) -> float:
    """Give the hours from now until the difference first reaches the limit; infinite if it does not."""
    if differences[0] >= limit_k:
        return 0.0
    for n in range(1, len(TIMES)):
        if differences[n] >= limit_k:
            share = (limit_k - differences[n - 1]) / (differences[n] - differences[n - 1])
            return TIMES[n - 1] + share * (TIMES[n] - TIMES[n - 1])
    return inf


def band(values: Sequence[float], weights: Sequence[float]) -> Band:
    """Give the weighted middle and the limits that leave a tenth of the weight on either side."""
    order = sorted(range(len(values)), key=values.__getitem__)
    total = sum(weights)
    found: list[float] = []
    reached, at = 0.0, 0
    for share in (0.1, 0.5, 0.9):
        while at < len(order) - 1 and reached + weights[order[at]] < share * total:
            reached += weights[order[at]]
            at += 1
        found.append(values[order[at]])
    return Band(*found)


def learnt(guesses: Sequence[Guess]) -> float:
    """Give how much of the doubt about the heat the readings took away [-]: 0 nothing, 1 all."""
    total = sum(g.weight for g in guesses)
    mean = sum(g.weight * log(g.heat_kw_t) for g in guesses) / total
    spread = sqrt(sum(g.weight * (log(g.heat_kw_t) - mean) ** 2 for g in guesses) / total)
    return max(0.0, 1.0 - spread / FACTOR_OF_TWO)
