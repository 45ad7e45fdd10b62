"""How fast the grain breathes, from dry barley to the kiln: one rate, and all that follows from it.

The rate is dry matter respired an hour, as a share of the dry matter there is.  Heat,
carbon dioxide, oxygen, water and loss follow from it on one basis, as starch
(``models.respiration``), so that no two of them can disagree.

The rate is a peak at 15 C times a *course*, a *temperature response* and what the *gas*
round the corns allows.  The course has two parts: a level that wet corns keep while their
coats are whole, and a rise and slow decline that go with growth.  That breathing runs in
such phases (a rise while water enters, a level until the coat breaks, a steep rise, a
highest level, a slow decline) was seen on single seeds by katharometer (abstract read at
scilit, publication 7c61242e2cf0f3c6aad0241fd6492828; its authors are not named there).

What it is held to: published totals of loss, oxygen taken in steeps, the fall after a wet
transfer, and the response of other seeds to temperature.  No table of barley by day and
temperature could be read: Day 1891 (J. Chem. Soc. Trans. 59:664) has one, of which only
the first page reached us; of Vancampenhout 1998 (J. Inst. Brew. 104:197) only the abstract.
"""

import math
from typing import NamedTuple

from ..bed import respiration
from ..bounds import Bounds, OutOfRange, check
from ..nature import FRESH_OXYGEN_PERCENT, GAS_CONSTANT, ZERO_C
from .maths import FLOATS, Maths, Values
from .ranges import GRAIN_C as GRAIN_C
from .ranges import GRAIN_REASON as GRAIN_REASON

PEAK_PER_H = 3.4e-4
"""Dry matter respired at the peak at 15 C in air, a share of the dry matter an hour [1/h].

Fitted here so that the logarithms of what the published totals ask for average to nothing
(:data:`DOUBT_LOG`).  It is 1.4 kW a tonne of barley at 14 %.
"""

DOUBT_LOG = 0.4
"""Standard deviation of the logarithm of the rate of a batch against the law [-]: a factor of 2.2 at two of it.

The published totals ask for 0.45 to 1.9 times the law (``tests/published/test_breathing_totals.py``):
that factor either way holds them all.
"""

SOONEST_FACTOR = math.exp(2.0 * DOUBT_LOG)
"""Rate of breathing against the law at the far end of its doubt [-], 2.2: one batch in forty is faster."""

GUARDED_FACTOR = 3.5
"""Rate of breathing against the law that a sheet about gas and people reckons with [-].

The doubt is that of totals over days; an hour may stand above them.  With it the peak is 4.9 kW a
tonne: 2.9 % of the dry matter a day, beyond the 2 % that is called usual at the most.
"""

LEVEL = 0.1
"""Breathing of wet corns before they chit, in air, against the peak [-].

In the middle between two figures.  A cereal textbook (p. 221, read) has some 1 mg of oxygen
a kilogram and hour taken from the water in the first steep and ten times that by the third,
0.003 to 0.03 of the peak; water brings less than corns would use.  A course on beer
(Conservatoire national des arts et metiers, read) has oxygen used two to three times faster
in germination than in the steep, about 0.3 of the peak.
"""

LEVEL_LOG_SD = 0.55
"""Standard deviation of its logarithm [-]: a factor of three, to the two figures."""

DRY_SHARE = 5e-4
"""Breathing of barley fit to store, against the peak [-]: from memory, a few mg of carbon dioxide a kilogram and day.

That its logarithm runs straight with moisture was read (Bailey, Respiration of cereal
grains and flaxseed, abstract); here the rise is steep from 14 % to 30 %.
"""

WAKES_MOISTURE, AWAKE_MOISTURE = 14.0, 38.0
"""Moistures inside the corn at which breathing begins to rise and has risen [%]: our assumption.

Narziss (read in translation): life shows at about 30 %, even growth from about 38 %.
"""

RISE_H, RISE_POWER = 45.0, 4.0
FALL_H, FALL_POWER = 150.0, 2.5
"""Shape of the rise and the decline over growth hours (hours of growth at 15 C): highest at 78.

Fitted to the shares by day that this handbook took from memory (0.4, 0.9, 1.4, 1.3, 1.0,
0.8 of the mean).  That breathing rises to a maximum in germination is published (Davidson
& Jangaard 1978, J. Am. Soc. Brew. Chem. 36:51, abstract read).
"""

BREAK_C = 19.5
COLD_KJ_MOL, WARM_KJ_MOL = 65.0, 52.0
"""Response to temperature below and above 19.5 C [kJ/mol].

J. Gen. Physiol. 14:631 (abstract read): oxygen taken by germinating seeds, 7-26 C, breaks
at 19.5 C; maize 21.05 kcal/mol below and 13.1 above, white lupin 16.6 and 11.7, so 69-88
and 49-55 kJ/mol.  Barley of our own sources lies lower in the cold: a Q10 of 2 to 2.5 is
remembered.  65 makes it 2.56 from 10 to 20 C.
"""

RESPONSE_DOUBT_KJ_MOL = 12.0
"""Standard deviation of the response [kJ/mol]: covers the seeds named and the remembered Q10."""

STOPPING_CO2_PERCENT = 20.0
"""Carbon dioxide at which growth stops [% by volume]: Lintner 1884 (read).

A person dies in that air within minutes.
"""

HALF_O2_PERCENT = 2.0
"""Oxygen at which breathing falls to half of what it would be with plenty [% by volume]: our assumption."""

WET_TRANSFER_SHARE = 0.26
WET_TRANSFER_H = 28.0
WET_TRANSFER_DELAY_H = 24.0
"""After a transfer in water breathing is 26 % lower, takes up to 28 h to recover, and peaks
24 h later or more (Davidson & Jangaard 1978, abstract read)."""

CORN_MOISTURE = Bounds(5.0, 55.0)
GROWTH_H = Bounds(0.0, 1000.0)
GROWING_MOISTURE = 24.0
"""Moisture under which corns do not grow [%]: a state with growth and less water cannot be."""
CO2_PERCENT = Bounds(0.0, 100.0)
O2_PERCENT = Bounds(0.0, 25.0)
DOUBT_FACTOR = Bounds(0.1, 10.0)
SUPPLY_MG_KG_H = Bounds(0.0, 1000.0)
BARLEY_KG = Bounds(0.001, 1_000_000.0)

_GAS_KJ = GAS_CONSTANT / 1000.0  # kJ/(mol K)
_AT_15 = 1.0 / (15.0 + ZERO_C)
_AT_BREAK = 1.0 / (BREAK_C + ZERO_C)


class Exchange(NamedTuple):
    """What goes with dry matter respired at one rate; all five are the same rate, on the basis of starch."""

    heat_kw: float
    co2_kg_h: float
    o2_kg_h: float
    water_kg_h: float
    loss_kg_h: float


def exchange(*, respired_kg_h: float) -> Exchange:
    """Give heat, gases, water and loss for a rate of dry matter respired.

    Parameters
    ----------
    respired_kg_h : float
        Dry matter respired [kg/h], not negative.

    Returns
    -------
    Exchange
        Heat [kW]; carbon dioxide, oxygen, water formed and dry matter lost [kg/h].

    Raises
    ------
    OutOfRange
        When the rate is negative.

    Notes
    -----
    C6H10O5 + 6 O2 -> 6 CO2 + 5 H2O.  Mass closes: dry matter and oxygen in, carbon dioxide
    and water out.

    Examples
    --------
    >>> one = exchange(respired_kg_h=1.0)
    >>> [round(x, 3) for x in one]
    [4.802, 1.629, 1.184, 0.556, 1.0]
    """
    check("respired_kg_h", respired_kg_h, Bounds(0.0, 1e6))
    return Exchange(
        respired_kg_h * respiration.HEAT_MJ_PER_KG / 3.6,
        respired_kg_h * respiration.CO2_PER_KG,
        respired_kg_h * respiration.O2_PER_KG,
        respired_kg_h * respiration.WATER_PER_KG,
        respired_kg_h,
    )


def temperature_response(
    m: Maths, temp_c: Values, cold_kj_mol: Values = COLD_KJ_MOL, warm_kj_mol: Values = WARM_KJ_MOL
) -> Values:
    """Give the pace of breathing against that at 15 C, with a break at 19.5 C."""
    at = 1.0 / (temp_c + ZERO_C)
    cold = cold_kj_mol / _GAS_KJ * (_AT_15 - m.most(at, _AT_BREAK))
    warm = warm_kj_mol / _GAS_KJ * m.most(_AT_BREAK - at, 0.0)
    return m.exp(cold + warm)


def growth_course(m: Maths, growth_h: Values) -> Values:
    """Give the part of breathing that goes with growth [-], 1 at its highest, after hours of growth at 15 C."""
    t = m.most(growth_h, 1e-6)
    rise = 1.0 / (1.0 + (RISE_H / t) ** RISE_POWER)
    return rise / (1.0 + (t / FALL_H) ** FALL_POWER) / _HIGHEST


def _highest() -> float:
    tops: list[float] = []
    for tenth in range(400, 1500):
        t = tenth / 10.0
        tops.append(1.0 / (1.0 + (RISE_H / t) ** RISE_POWER) / (1.0 + (t / FALL_H) ** FALL_POWER))
    return max(tops)


_HIGHEST = _highest()


def awake(m: Maths, net_moisture: Values) -> Values:
    """Give how far water has woken the corns [-], from 0 dry to 1."""
    share = (net_moisture - WAKES_MOISTURE) / (AWAKE_MOISTURE - WAKES_MOISTURE)
    share = m.least(m.most(share, 0.0), 1.0)
    return share * share * (3.0 - 2.0 * share)


def gas_response(m: Maths, co2_percent: Values, o2_percent: Values) -> tuple[Values, Values]:
    """Give what the gas round the corns leaves of breathing [-] and of growth [-], each 1 in fresh air."""
    plenty = (FRESH_OXYGEN_PERCENT + HALF_O2_PERCENT) / FRESH_OXYGEN_PERCENT
    oxygen = m.least(1.0, o2_percent / (o2_percent + HALF_O2_PERCENT) * plenty)
    grows = m.most(0.0, 1.0 - co2_percent / STOPPING_CO2_PERCENT)
    return oxygen, grows * oxygen


def after_wet_transfer(m: Maths, hours: Values) -> tuple[Values, Values]:
    """Give the shares of breathing and of the pace of growth left some hours after a transfer in water."""
    done = m.least(m.most(hours / WET_TRANSFER_H, 0.0), 1.0)
    return 1.0 - WET_TRANSFER_SHARE * (1.0 - done), m.choose(
        hours < WET_TRANSFER_H, 1.0 - WET_TRANSFER_DELAY_H / WET_TRANSFER_H, 1.0
    )


def rate(
    m: Maths,
    net_moisture: Values,
    temp_c: Values,
    growth_h: Values,
    cold_kj_mol: Values = COLD_KJ_MOL,
    warm_kj_mol: Values = WARM_KJ_MOL,
    level: Values = LEVEL,
) -> Values:
    """Give the rate of breathing in fresh air, as a share of the dry matter an hour [1/h]; for floats or arrays."""
    woken = awake(m, net_moisture)
    course = DRY_SHARE + woken * (level + (1.0 - level) * growth_course(m, growth_h))
    return PEAK_PER_H * course * temperature_response(m, temp_c, cold_kj_mol, warm_kj_mol)


def breathing_rate(
    *,
    net_moisture: float,
    temp_c: float,
    growth_h: float,
    co2_percent: float = 0.04,
    o2_percent: float = FRESH_OXYGEN_PERCENT,
    supply_mg_kg_h: float | None = None,
    since_wet_transfer_h: float | None = None,
    factor: float = 1.0,
) -> float:
    """Give how fast grain breathes in a state.

    Parameters
    ----------
    net_moisture : float
        Moisture inside the corns, % of wet weight, 5 to 55.
    temp_c : float
        Temperature of the grain [C], 0 to 40.
    growth_h : float
        Growth so far, in hours of growth at 15 C in air (``growth.growth_pace``) [h]; 0 for
        barley that was not wetted yet.
    co2_percent, o2_percent : float, optional
        Gas between the corns [% by volume]; fresh air when not said.
    supply_mg_kg_h : float, optional
        Oxygen that water brings to the corns, for grain under water [mg for each kg of dry
        matter and hour]; the rate cannot use more.
    since_wet_transfer_h : float, optional
        Hours since the grain was moved in water [h], when it was.
    factor : float, optional
        Rate of this batch against the law [-]; 2.2 or 0.45 is the doubt.

    Returns
    -------
    float
        Dry matter respired, as a share of the dry matter there is [1/h].

    Raises
    ------
    OutOfRange
        When a value is outside its limits, or grain drier than 24 % is said to have grown.

    Notes
    -----
    What corns without oxygen ferment makes gas too and is left out; it makes hardly any heat.

    Examples
    --------
    >>> dry = breathing_rate(net_moisture=12.0, temp_c=15.0, growth_h=0.0)
    >>> peak = breathing_rate(net_moisture=45.0, temp_c=15.0, growth_h=78.0)
    >>> round(peak / dry), round(peak, 6)
    (2001, 0.00034)
    """
    check("net_moisture", net_moisture, CORN_MOISTURE)
    check("temp_c", temp_c, GRAIN_C, GRAIN_REASON)
    check("growth_h", growth_h, GROWTH_H)
    if growth_h > 0.0 and net_moisture < GROWING_MOISTURE:
        raise OutOfRange("growth_h", 0.0, 0.0, f"Corns under {GROWING_MOISTURE:g} % moisture have not grown.")
    check("co2_percent", co2_percent, CO2_PERCENT)
    check("o2_percent", o2_percent, O2_PERCENT)
    check("factor", factor, DOUBT_FACTOR)
    wanted: float = factor * rate(FLOATS, net_moisture, temp_c, growth_h)
    wanted *= gas_response(FLOATS, co2_percent, o2_percent)[0]
    if since_wet_transfer_h is not None:
        check("since_wet_transfer_h", since_wet_transfer_h, Bounds(0.0, 1000.0))
        wanted *= after_wet_transfer(FLOATS, since_wet_transfer_h)[0]
    if supply_mg_kg_h is not None:
        check("supply_mg_kg_h", supply_mg_kg_h, SUPPLY_MG_KG_H)
        wanted = min(wanted, supply_mg_kg_h * 1e-6 / respiration.O2_PER_KG)
    return wanted


def breathing(
    *,
    barley_kg: float,
    barley_moisture: float,
    net_moisture: float,
    temp_c: float,
    growth_h: float,
    loss_percent: float = 0.0,
    co2_percent: float = 0.04,
    o2_percent: float = FRESH_OXYGEN_PERCENT,
    supply_mg_kg_h: float | None = None,
    since_wet_transfer_h: float | None = None,
    factor: float = 1.0,
) -> Exchange:
    """Give heat, gases, water and loss of a batch in a state.

    Parameters
    ----------
    barley_kg : float
        Barley as it was filled in [kg].
    barley_moisture : float
        Its moisture then, % of wet weight.
    net_moisture, temp_c, growth_h, co2_percent, o2_percent, supply_mg_kg_h, since_wet_transfer_h, factor
        As for :func:`breathing_rate`.
    loss_percent : float, optional
        Dry matter lost so far [% of that filled in].

    Returns
    -------
    Exchange
        For the whole batch.

    Raises
    ------
    OutOfRange
        As for :func:`breathing_rate`, or when the barley or the loss is outside its limits.

    Examples
    --------
    >>> third_day = breathing(barley_kg=1000, barley_moisture=14, net_moisture=45, temp_c=15, growth_h=78)
    >>> round(third_day.heat_kw, 2), round(third_day.co2_kg_h, 2)
    (1.4, 0.48)
    """
    check("loss_percent", loss_percent, Bounds(0.0, 30.0))
    dry = respiration.barley_dry_matter(barley_kg=barley_kg, barley_moisture=barley_moisture)
    per_h = breathing_rate(
        net_moisture=net_moisture,
        temp_c=temp_c,
        growth_h=growth_h,
        co2_percent=co2_percent,
        o2_percent=o2_percent,
        supply_mg_kg_h=supply_mg_kg_h,
        since_wet_transfer_h=since_wet_transfer_h,
        factor=factor,
    )
    return exchange(respired_kg_h=per_h * dry * (1.0 - loss_percent / 100.0))
