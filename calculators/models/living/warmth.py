"""How warm grain gets: its own breathing against suction, evaporation, film and vessel.

The grain of a rest or a bed is one body at one temperature.  Air that goes through leaves
as warm as the grain and saturated, and takes heat and water along.  A real bed is cooler
where the air comes in and warmer where it leaves.
"""

from functools import lru_cache
from typing import NamedTuple

from ..bed import respiration
from ..bed.humid_air import AIR_C, WATER_KJ_KG_K, moist_air, pressure_at
from ..bounds import BARLEY_MOISTURE, Bounds, check
from ..steep.mixing import DRY_HEAT
from .breathing import DOUBT_FACTOR, GRAIN_C, GRAIN_REASON, GROWTH_H, rate
from .maths import FLOATS, Maths, Values
from .pace import growth_pace, water_pace

VESSEL_W_K_T = 8.0
"""Heat lost through the wall of a steep [W/K for each tonne of barley]: our estimate.

A steep of 6 t with 16 m2 of bare steel at 3 W/m2K; lagged or larger vessels lose less.
"""

SUCTION = Bounds(0.0, 500.0)
HOURS = Bounds(0.1, 48.0)
REST_C = Bounds(1.0, 30.0)
LIMIT_C = Bounds(5.0, 40.0)
LOSS_W_K_T = Bounds(0.0, 100.0)
FILM = Bounds(0.0, 0.12)
WETTED = Bounds(20.0, 55.0)

_STEP_H = 0.1


class Air(NamedTuple):
    """Air that is drawn through grain, with what it would hold saturated at each half degree from 0 to 40 C."""

    temp_c: float
    ratio: float  # kg water / kg dry air
    enthalpy_kj: float  # kJ / kg dry air
    dry_kg_m3: float  # kg dry air / m3 as it comes in
    saturated_ratio: tuple[float, ...]
    saturated_kj: tuple[float, ...]


@lru_cache(maxsize=8)
def _saturated(pressure_pa: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    states = [
        moist_air(temp_c=n / 2.0, relative_humidity=100.0, pressure_pa=pressure_pa)
        for n in range(2 * int(AIR_C.high) + 1)
    ]
    return tuple(s.humidity_ratio for s in states), tuple(s.enthalpy_kj for s in states)


@lru_cache(maxsize=32)
def air_on(*, temp_c: float, relative_humidity: float, altitude_m: float = 0.0) -> Air:
    """Give air as it comes to the grain.

    Parameters
    ----------
    temp_c : float
        Temperature [C].
    relative_humidity : float
        Relative humidity [%].
    altitude_m : float, optional
        Height above the sea [m].

    Returns
    -------
    Air
        The air, with a table of what is saturated; between half degrees it runs straight,
        off by 0.1 % of the heat at most where air warms by 2 K.

    Raises
    ------
    OutOfRange
        Outside 0 to 40 C, 1 to 100 % or -100 to 4,000 m.
    """
    pressure = pressure_at(altitude_m=altitude_m)
    state = moist_air(temp_c=temp_c, relative_humidity=relative_humidity, pressure_pa=pressure)
    return Air(temp_c, state.humidity_ratio, state.enthalpy_kj, 1.0 / state.volume_m3, *_saturated(pressure))


def carried_off(m: Maths, air: Air, grain_c: Values) -> tuple[Values, Values]:
    """Give the heat [kJ] and the water [kg] that each kilogram of dry air takes out of grain at a temperature.

    Both may be negative: warm damp air warms and wets cool grain.  The water leaves the
    grain as liquid at its temperature (``models.bed``).
    """
    water = m.between(2.0 * grain_c, air.saturated_ratio) - air.ratio
    heat = m.between(2.0 * grain_c, air.saturated_kj) - air.enthalpy_kj - water * WATER_KJ_KG_K * grain_c
    return heat, water


def water_for_heat(m: Maths, air: Air, grain_c: Values) -> Values:
    """Give the water that leaves with heat [kg/kJ] when air of this kind keeps grain at a temperature.

    Air through a bed and the air over a floor take heat and water in this one proportion.
    Where the air is no cooler than the grain's own wet bulb it takes none: then it cannot
    keep the grain so cool, and nothing is counted.
    """
    heat, water = carried_off(m, air, grain_c)
    return m.choose(heat > 1.0, m.least(water / m.most(heat, 1.0), 1.0 / 2200.0), 1.0 / 2200.0)


def heat_capacity(dry_kg: Values, water_kg: Values) -> Values:
    """Give the heat that warms grain by one kelvin [kJ/K]; 1 kW a tonne warms it by 0.87 K an hour at 45 %."""
    return DRY_HEAT * dry_kg + WATER_KJ_KG_K * water_kg


def cooling_kw(m: Maths, air: Air, flow_m3_h: Values, grain_c: Values) -> tuple[Values, Values]:
    """Give the heat [kW] and the water [kg/h] that a flow of air takes out of grain at a temperature."""
    heat, water = carried_off(m, air, grain_c)
    dry_air = flow_m3_h * air.dry_kg_m3
    return dry_air * heat / 3600.0, dry_air * water


class RestCourse(NamedTuple):
    """Grain in an air rest, hour by hour; lists of one length."""

    hours: list[float]
    temps_c: list[float]
    heat_kw_t: list[float]
    evaporated_kg_t: list[float]

    @property
    def end_c(self) -> float:
        """Temperature at the end [C]."""
        return self.temps_c[-1]

    @property
    def warmest_c(self) -> float:
        """Highest temperature [C]."""
        return max(self.temps_c)

    @property
    def coldest_c(self) -> float:
        """Lowest temperature [C]."""
        return min(self.temps_c)

    def hours_until(self, limit_c: float) -> float | None:
        """Give when it comes to a temperature [h]; 0 where it is there, None where it never is."""
        hours, temps = self.hours, self.temps_c
        if temps[0] >= limit_c:
            return 0.0
        for n in range(1, len(hours)):
            if temps[n] >= limit_c:
                share = (limit_c - temps[n - 1]) / (temps[n] - temps[n - 1])
                return hours[n - 1] + share * (hours[n] - hours[n - 1])
        return None


class Rest(NamedTuple):
    """All that a rest's warmth rests on; :func:`rest_warmth` describes each part."""

    barley_moisture: float
    net_moisture: float
    start_c: float
    hours: float
    growth_h: float
    air: Air
    suction_m3_h_t: float = 0.0
    film_db: float = 0.05
    wall_w_k_t: float = VESSEL_W_K_T
    factor: float = 1.0


def check_rest(rest: Rest) -> None:
    """Raise for a rest that cannot be.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("barley_moisture", rest.barley_moisture, BARLEY_MOISTURE)
    check("net_moisture", rest.net_moisture, WETTED, "An air rest follows an immersion.")
    check("start_c", rest.start_c, REST_C, GRAIN_REASON)
    check("hours", rest.hours, HOURS)
    check("growth_h", rest.growth_h, GROWTH_H)
    check("suction_m3_h_t", rest.suction_m3_h_t, SUCTION)
    check("film_db", rest.film_db, FILM)
    check("wall_w_k_t", rest.wall_w_k_t, LOSS_W_K_T)
    check("factor", rest.factor, DOUBT_FACTOR)


def run_rest(rest: Rest, until_c: float | None = None) -> RestCourse:
    """Give the course of a rest taken as checked, to its end or until a temperature is reached."""
    dry = 1000.0 * (1.0 - rest.barley_moisture / 100.0)
    water = dry * (rest.net_moisture / (100.0 - rest.net_moisture) + rest.film_db)
    capacity = heat_capacity(dry, water)
    kw = dry * rest.factor * respiration.HEAT_MJ_PER_KG / 3.6
    wets = float(water_pace(FLOATS, rest.net_moisture))

    def slopes(temp: float, grown: float) -> tuple[float, float, float, float]:
        warm = min(max(temp, GRAIN_C.low), GRAIN_C.high)
        made = kw * float(rate(FLOATS, rest.net_moisture, warm, grown))
        taken, dried = cooling_kw(FLOATS, rest.air, rest.suction_m3_h_t, warm)
        lost = rest.wall_w_k_t * (temp - rest.air.temp_c) / 1000.0
        return (made - taken - lost) * 3600.0 / capacity, wets * float(growth_pace(FLOATS, warm)), made, dried

    steps = max(1, round(rest.hours / _STEP_H))
    step = rest.hours / steps
    temp, grown, dried_kg = rest.start_c, rest.growth_h, 0.0
    course = RestCourse([0.0], [temp], [slopes(temp, grown)[2]], [0.0])
    for n in range(steps):
        here = slopes(temp, grown)
        half = slopes(temp + 0.5 * step * here[0], grown + 0.5 * step * here[1])
        temp, grown = temp + step * half[0], grown + step * half[1]
        dried_kg += step * half[3]
        course.hours.append((n + 1) * step)
        course.temps_c.append(temp)
        course.heat_kw_t.append(half[2])
        course.evaporated_kg_t.append(dried_kg)
        if until_c is not None and temp >= until_c:
            break
        if temp >= GRAIN_C.high:
            break
    return course


def rest_warmth(
    *,
    barley_moisture: float,
    net_moisture: float,
    start_c: float,
    hours: float,
    growth_h: float,
    air: Air,
    suction_m3_h_t: float = 0.0,
    film_db: float = 0.05,
    wall_w_k_t: float = VESSEL_W_K_T,
    factor: float = 1.0,
) -> RestCourse:
    """Give the temperature of the grain over the hours of an air rest.

    Parameters
    ----------
    barley_moisture : float
        Moisture of the barley as filled, % of wet weight.
    net_moisture : float
        Moisture inside the corns in the rest, % of wet weight, 20 to 55.
    start_c : float
        Temperature when the water has run off [C], 1 to 30.
    hours : float
        Length of the rest [h].
    growth_h : float
        Growth clock when it begins [h at 15 C] (``pace``).
    air : Air
        The air that suction draws in, from :func:`air_on`.
    suction_m3_h_t : float, optional
        Air drawn through, as it comes in [m3/h for each tonne of barley].
    film_db : float, optional
        Water clinging to the drained corns, kg per kg of dry matter.
    wall_w_k_t : float, optional
        Heat lost through the vessel's wall [W/K for each tonne].
    factor : float, optional
        Breathing of this batch against the law; :data:`breathing.SOONEST_FACTOR` for the far end.

    Returns
    -------
    RestCourse
        Every tenth of an hour; it ends early where the grain reaches 40 C.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.

    Notes
    -----
    C dT/dt = heat of breathing - heat and vapour in the air - wall, by the midpoint rule;
    against a stiff integrator it agrees within 0.01 K.  The moisture is held over the rest:
    what evaporates comes off the film.  Warmth between corns evens out at once; a real bed
    is warmer where the air leaves and wherever it is not drawn.

    Examples
    --------
    >>> from calculators.models.living.warmth import air_on
    >>> air = air_on(temp_c=15.0, relative_humidity=80.0)
    >>> rest = rest_warmth(barley_moisture=12, net_moisture=40, start_c=15, hours=12, growth_h=15, air=air)
    >>> round(rest.end_c, 1)
    18.0
    """
    rest = Rest(
        barley_moisture, net_moisture, start_c, hours, growth_h, air, suction_m3_h_t, film_db, wall_w_k_t, factor
    )
    check_rest(rest)
    return run_rest(rest)


def suction_that_holds(*, limit_c: float, rest: Rest) -> float | None:
    """Give the least suction that keeps the grain of a rest at or under a temperature to its end.

    Parameters
    ----------
    limit_c : float
        Temperature not to pass [C], not under that at the start.
    rest : Rest
        The rest; its own suction does not count.

    Returns
    -------
    float or None
        Suction [m3/h for each tonne], to 0.1; 0 when none is needed; None when 500 would
        not do it, as with air too warm and damp.

    Raises
    ------
    OutOfRange
        When the limit is under the temperature at the start, or a value is outside its limits.

    Examples
    --------
    >>> air = air_on(temp_c=12.0, relative_humidity=80.0)
    >>> rest = Rest(12.0, 40.0, 15.0, 12.0, 15.0, air)
    >>> 5.0 < suction_that_holds(limit_c=17.0, rest=rest) < 30.0
    True
    """
    check_rest(rest)
    check("limit_c", limit_c, Bounds(rest.start_c, LIMIT_C.high), "It cannot be under the temperature at the start.")

    def warmest(flow: float) -> float:
        return run_rest(rest._replace(suction_m3_h_t=flow), limit_c + 0.01).warmest_c

    if warmest(0.0) <= limit_c:
        return 0.0
    if warmest(SUCTION.high) > limit_c:
        return None
    low, high = 0.0, SUCTION.high
    while high - low > 0.05:
        half = 0.5 * (low + high)
        if warmest(half) > limit_c:
            low = half
        else:
            high = half
    return high
