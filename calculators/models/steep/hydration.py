"""How barley drinks in the steep: immersions and air rests by turns.

The corn is a sphere of the corn's volume.  Water diffuses into it, on the dry
matter, from the barley's own moisture towards one value at the surface.  Immersed,
the surface is held at that value.  In an air rest the film of water that clings to
the drained corns feeds the surface until it is used up; after that nothing enters
and the moisture evens out inside.

Two moistures follow.  *Net* is the water inside the corns.  *Drained* is what a
drained basket shows: net and the film together.  Targets are drained moistures,
because the film is taken up in the rest or on the floor.

How far to trust it: the uptake was fitted to eight published lots, kept under water,
at a temperature that their authors' data do not state.  Air rests and the
temperature law have not been tested on measured schedules.  ``steep_doubt`` turns
that into a band.
"""

from collections.abc import Sequence
from math import exp

from ..bounds import BARLEY_MOISTURE, Bounds, OutOfRange, check
from ..living.maths import FLOATS, Maths, Values
from ..nature import GAS_CONSTANT, ZERO_C
from ..weights.basket import FILM_DB, FILM_DB_LIMITS
from .course import Stage, Steep, Steeping
from .ranges import CORN_WEIGHT as CORN_WEIGHT
from .ranges import RATE_FACTOR as RATE_FACTOR
from .ranges import STAGE_HOURS as STAGE_HOURS
from .ranges import STAGES as STAGES
from .ranges import TEMP_REASON as TEMP_REASON
from .ranges import WATER_TEMP_C as WATER_TEMP_C
from .spell import Spell
from .sphere import SealedSphere, WetSphere

MODEL_VERSION = "sphere-2"
"""Name of this model with these constants: kept with every fit, and changed when they change."""

RATE_PER_H = 0.0018
"""D/a^2 of a typical corn of 45 g a thousand, under water at 15 C [1/h].

Fitted here to eight published lots of four sites and years (Molina-Cano et al. 1995, J.
Inst. Brew. 101:79-83, data in the CRAN package pbANOVA, read), which are taken to start at
12 % and to lie at 15 C: neither is stated.  The lots alone run from 0.0013 to 0.0023.
``bench/fit_lots.py`` makes the fit again.
"""

RATE_TEMP_C = 15.0
"""Temperature that :data:`RATE_PER_H` stands for [C]: assumed, not stated."""

SURFACE_DB = 1.0
"""Water the surface is held at, kg per kg of dry matter: an effective value.

Fitted together with :data:`RATE_PER_H`.  From 0.85 to 1.05 the fit is about as good
with a rate that follows; at 1.0 a lot left out is forecast best from few readings.
Nothing measured lies above 44 %, so where a steep would end is extrapolated.
"""

SURFACE_RATE, SURFACE_FIRST = -3.5, 0.19
"""How the logarithm of the rate and the first uptake follow the surface value in fits to one lot [per kg/kg].

Uptake that was seen fixes rate and surface together and neither alone: a higher surface
goes with a slower rate.  Fitted to the eight lots (``bench/fit_lots.py``).
"""

CORN_WEIGHT_G = 45.0
"""Weight of a thousand corns that :data:`RATE_PER_H` stands for [g]: assumed."""

ACTIVATION_KJ_MOL = 48.0
"""Activation energy of the rate [kJ/mol].

A kinetic study on the hydration of barley kernels, 1983 (JAKO198303041888549,
abstract read): 11.6 kcal/mol (48.5 kJ/mol) for whole barley at 20 to 60 C.  A table
of steeping times at 9 to 21 C in the German handbooks (from memory) gives 48.
"""

REST_FACTOR = 1.5
"""How many times faster corns drink once they have been air-rested and begin to chit.

Tuned here to common practice, and untested: without it usual schedules end 1 to 3
points low.  That rests speed hydration was seen by NMR (Yin 1996, MBAA Technical
Quarterly 33:236, abstract read).
"""

REST_FULL_H = 4.0
"""Hours of rest after which :data:`REST_FACTOR` counts in full [h].

Our assumption, so that a short drain to change the water is not taken for a rest.
"""

REST_FACTOR_LIMITS = Bounds(1.0, 2.5)
FIRST_UPTAKE_DB = Bounds(-0.2, 0.2)
ACTIVATION = Bounds(20.0, 80.0)
SURFACE = Bounds(0.7, 1.3)

_GAS_KJ = GAS_CONSTANT / 1000.0  # kJ/(mol K)


def uptake_rate(
    *,
    water_temp_c: float,
    corn_weight_g: float = CORN_WEIGHT_G,
    rate_factor: float = 1.0,
    activation_kj_mol: float = ACTIVATION_KJ_MOL,
) -> float:
    """Give D/a^2, the pace at which corns drink under water before any air rest.

    Parameters
    ----------
    water_temp_c : float
        Temperature of the water [C].
    corn_weight_g : float, optional
        Weight of a thousand corns [g].
    rate_factor : float, optional
        1 for a typical barley; more for one that drinks faster [-].
    activation_kj_mol : float, optional
        Activation energy [kJ/mol].

    Returns
    -------
    float
        Rate [1/h].

    Raises
    ------
    OutOfRange
        Outside 2 to 30 C, 20 to 70 g, a factor of 0.25 to 4 or 20 to 80 kJ/mol.

    Notes
    -----
    Corns of one shape have a^2 in proportion to weight to the power 2/3.

    Examples
    --------
    >>> round(uptake_rate(water_temp_c=15.0), 6)
    0.0018
    >>> warm = uptake_rate(water_temp_c=20.0)
    >>> round(warm / uptake_rate(water_temp_c=10.0), 2)
    2.0
    """
    check("water_temp_c", water_temp_c, WATER_TEMP_C, TEMP_REASON)
    check("corn_weight_g", corn_weight_g, CORN_WEIGHT)
    check("rate_factor", rate_factor, RATE_FACTOR)
    check("activation_kj_mol", activation_kj_mol, ACTIVATION)
    rate: float = rate_at(FLOATS, water_temp_c, corn_weight_g, rate_factor, activation_kj_mol)
    return rate


def rate_at(m: Maths, temp_c: Values, corn_weight_g: float, rate_factor: Values, activation_kj_mol: Values) -> Values:
    """Give the rate of :func:`uptake_rate` [1/h], for floats or arrays taken as checked."""
    colder = 1.0 / (temp_c + ZERO_C) - 1.0 / (RATE_TEMP_C + ZERO_C)
    warmth = m.exp(-activation_kj_mol / _GAS_KJ * colder)
    size: float = (CORN_WEIGHT_G / corn_weight_g) ** (2.0 / 3.0)
    return RATE_PER_H * rate_factor * size * warmth


def steep(
    *,
    barley_moisture: float,
    stages: Sequence[tuple[float, float]],
    corn_weight_g: float = CORN_WEIGHT_G,
    rate_factor: float = 1.0,
    begins_wet: bool = True,
    first_uptake_db: float = 0.0,
    film_db: float = FILM_DB,
    rest_factor: float = REST_FACTOR,
    activation_kj_mol: float = ACTIVATION_KJ_MOL,
    surface_db: float = SURFACE_DB,
) -> Steep:
    """Give the course of a steep through its immersions and air rests.

    Parameters
    ----------
    barley_moisture : float
        Moisture of the barley filled in, % of wet weight.
    stages : sequence of (hours, water_temp_c)
        Immersion and rest by turns, as :class:`Stage` or plain pairs [h, C]; an odd
        count ends wet, an even count ends on a rest.
    corn_weight_g : float, optional
        Weight of a thousand corns [g].
    rate_factor : float, optional
        1 for a typical barley [-].
    begins_wet : bool, optional
        False when the first stage is a rest: dry barley has no film, so nothing
        happens in it, and it does not count as an air rest.
    first_uptake_db : float, optional
        Water that husk and coats take up at once, beyond what the sphere does,
        kg per kg of dry matter; negative for a slow start.  From a fit, else 0.
    film_db : float, optional
        Film on drained corns, kg per kg of dry matter.
    rest_factor : float, optional
        How many times faster corns drink after air rests [-].
    activation_kj_mol : float, optional
        Activation energy [kJ/mol].
    surface_db : float, optional
        Water the wet surface is held at, kg per kg of dry matter; rate and first uptake follow it
        as they do in fits to one lot.

    Returns
    -------
    Steep
        The course: moistures at any hour, stage ends, curves, times to a target.

    Raises
    ------
    OutOfRange
        When a value is outside its limits; for a stage, ``table`` is ``stages`` and
        ``row`` its number from 0.

    Notes
    -----
    Exact in time for the model: each stage is a series, none is stepped through.
    Against a stiff integrator on a fine grid it agrees within 1e-4 points.

    Examples
    --------
    >>> course = steep(barley_moisture=12.5, stages=[(8, 14), (8, 14), (8, 14)])
    >>> [round(end.drained, 1) for end in course.ends]
    [33.1, 33.1, 40.8]
    """
    rows = []
    for number, row in enumerate(stages):
        stage = Stage(*row)
        check("hours", stage.hours, STAGE_HOURS, "", "stages", number)
        check("water_temp_c", stage.water_temp_c, WATER_TEMP_C, TEMP_REASON, "stages", number)
        rows.append(stage)
    check("stages", len(rows), STAGES)
    return run(
        Steeping(
            barley_moisture,
            tuple(rows),
            corn_weight_g,
            rate_factor,
            begins_wet,
            first_uptake_db,
            film_db,
            rest_factor,
            activation_kj_mol,
            surface_db,
        )
    )


def run(steeping: Steeping, begun: Steep | None = None) -> Steep:
    """Give the course of a steep from its settings, as :func:`steep` does.

    Parameters
    ----------
    steeping : Steeping
        What the forecast rests on; its stages are taken as checked.
    begun : Steep, optional
        The course of the first of these stages with the same settings, to go on from:
        a search over many schedules works out each beginning once.

    Returns
    -------
    Steep
        The course.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("barley_moisture", steeping.barley_moisture, BARLEY_MOISTURE)
    film = check("film_db", steeping.film_db, FILM_DB_LIMITS)
    first = check("first_uptake_db", steeping.first_uptake_db, FIRST_UPTAKE_DB)
    check("rest_factor", steeping.rest_factor, REST_FACTOR_LIMITS)
    surface = check("surface_db", steeping.surface_db, SURFACE)
    if not any(steeping.begins_wet == (n % 2 == 0) for n in range(len(steeping.stages))):
        raise OutOfRange("stages", 2, STAGES.high, "A rest alone wets nothing.")
    higher = surface - SURFACE_DB
    first += SURFACE_FIRST * higher
    start_db = steeping.barley_moisture / (100.0 - steeping.barley_moisture)
    sphere: WetSphere | SealedSphere = SealedSphere(surface - start_db)
    fo, hour, rested_h, soaked = 0.0, 0.0, 0.0, False
    spells: list[Spell] = []
    if begun is not None:
        spells = list(begun.spells)
        last = spells[-1]
        sphere, fo, hour = last.sphere, last.fo_at(last.end_h), last.end_h
        soaked = any(spell.wet for spell in spells)
    slower = exp(SURFACE_RATE * higher)
    count = 0 if begun is None else len(begun.steeping.stages)
    for number, stage in enumerate(steeping.stages):
        if number < count:
            # A rest before the first immersion is no air rest: the corns are dry.
            rested_h += stage.hours if number and (number % 2 == 0) != steeping.begins_wet else 0.0
            continue
        faster = (steeping.rest_factor - 1.0) * min(1.0, rested_h / REST_FULL_H)
        per_h = (
            (1.0 + faster)
            * slower
            * uptake_rate(
                water_temp_c=stage.water_temp_c,
                corn_weight_g=steeping.corn_weight_g,
                rate_factor=steeping.rate_factor,
                activation_kj_mol=steeping.activation_kj_mol,
            )
        )
        end = hour + stage.hours
        if (number % 2 == 0) == steeping.begins_wet:
            if not soaked:
                sphere, fo, soaked = WetSphere(surface - start_db - first), 0.0, True
            elif isinstance(sphere, SealedSphere):
                sphere, fo = sphere.wetted(fo), 0.0
            new = [Spell(number, hour, end, True, sphere, fo, per_h, film)]
        else:
            new = _rest(number, hour, end, sphere, fo, per_h, film)
            rested_h += stage.hours if soaked else 0.0
        spells += new
        last = new[-1]
        sphere, fo, hour = last.sphere, last.fo + per_h * (end - last.start_h), end
    return Steep(steeping, spells, start_db, surface)


def _rest(
    number: int,
    hour: float,
    end: float,
    sphere: WetSphere | SealedSphere,
    fo: float,
    per_h: float,
    film: float,
) -> list[Spell]:
    """Give the one or two spells of a rest: fed by the film, then sealed."""
    if isinstance(sphere, SealedSphere):
        return [Spell(number, hour, end, False, sphere, fo, per_h, 0.0)]
    if film <= 0.0:
        return [Spell(number, hour, end, False, sphere.sealed(fo), 0.0, per_h, 0.0)]
    last = fo + per_h * (end - hour)
    used_up = sphere.time_to(sphere.mean_lack(fo) - film, fo, last)
    fed = Spell(number, hour, end, False, sphere, fo, per_h, film)
    if used_up is None:
        return [fed]
    fed.end_h = min(end, hour + (used_up - fo) / per_h)
    dry = Spell(number, fed.end_h, end, False, sphere.sealed(used_up), 0.0, per_h, 0.0)
    return [fed, dry]
