"""What a batch is, what is done to it, and what it has come to: what its laws share.

Everything is for a tonne of barley as filled.
"""

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple, Protocol

from ..bounds import Bounds, check
from ..steep.course import Stage
from ..steep.hydration import (
    ACTIVATION_KJ_MOL,
    CORN_WEIGHT_G,
    REST_FACTOR,
    STAGE_HOURS,
    STAGES,
    SURFACE_DB,
    TEMP_REASON,
    WATER_TEMP_C,
)
from ..weights.basket import FILM_DB
from .acrospires import Acrospires
from .breathing import COLD_KJ_MOL, GRAIN_REASON, LEVEL, WARM_KJ_MOL
from .chitting import Corns
from .maths import Values
from .pace import CHIT_BASE_C, CHIT_C, GROWTH_Q10
from .warmth import SUCTION, VESSEL_W_K_T

LEACHED = 0.008
"""Dry matter leached into the steep water, as a share of it [-]: 0.5 to 1.5 % (from memory; Ure 1.4, read)."""

LEACHED_SD = 0.003
BED_HOURS = Bounds(1.0, 96.0)
BED_DAYS = Bounds(0, 30)
SPRINKLED = Bounds(0.0, 300.0)
DRYING = Bounds(0.0, 5.0)


class Lot(NamedTuple):
    """What a batch is: each a float, or an array of one for each possible batch.

    Parameters
    ----------
    barley_moisture : float
        As filled, % of wet weight.
    rate_factor, first_uptake_db, rest_factor, film_db, activation_kj_mol, surface_db
        How it drinks (``hydration.steep``).
    breath_factor : float
        Rate of breathing against the law [-].
    cold_kj_mol, warm_kj_mol : float
        Its response to temperature [kJ/mol].
    breath_level : float
        Breathing of its wet corns before they chit, against the peak [-].
    breath_timing : float
        How early its breathing comes to its highest, against the law [-].
    water_warmer_k : float
        Steep water against the temperature written [K].
    suction_factor : float
        Air drawn through in rests against what is written [-].
    corns : Corns
        How its corns spread.
    chit_base_c, growth_q10 : float
        How chitting and growth answer to temperature [C], [-].
    acrospires : Acrospires
        How its acrospires grow.
    warmer_k : float
        Grain in the bed against the temperature planned or read [K].
    drying_factor : float
        Water that leaves the bed against what goes with its heat [-].
    leached : float
        Dry matter leached in the steep, a share [-].
    corn_weight_g : float
        Weight of a thousand corns [g]; the same for all.
    """

    barley_moisture: Values = 12.0
    rate_factor: Values = 1.0
    first_uptake_db: Values = 0.0
    rest_factor: Values = REST_FACTOR
    film_db: Values = FILM_DB
    activation_kj_mol: Values = ACTIVATION_KJ_MOL
    surface_db: Values = SURFACE_DB
    breath_factor: Values = 1.0
    cold_kj_mol: Values = COLD_KJ_MOL
    warm_kj_mol: Values = WARM_KJ_MOL
    breath_level: Values = LEVEL
    breath_timing: Values = 1.0
    water_warmer_k: Values = 0.0
    suction_factor: Values = 1.0
    corns: Corns = Corns()
    chit_base_c: Values = CHIT_BASE_C
    growth_q10: Values = GROWTH_Q10
    acrospires: Acrospires = Acrospires()
    warmer_k: Values = 0.0
    drying_factor: Values = 1.0
    leached: Values = LEACHED
    corn_weight_g: float = CORN_WEIGHT_G


class BedSpell(NamedTuple):
    """A stretch of growing on the floor, in a box or a drum, kept at a temperature.

    Parameters
    ----------
    hours : float
        How long [h], 1 to 96.
    temp_c : float
        Temperature that the grain is kept at [C], 1 to 30.
    air_c, air_rh : float, optional
        Of the air over the floor or through the bed [C], [%].
    sprinkled_l_t : float, optional
        Water sprinkled at its start that stays on the grain [L for each tonne of barley].
    """

    hours: float
    temp_c: float
    air_c: float = 12.0
    air_rh: float = 90.0
    sprinkled_l_t: float = 0.0


class Plan(NamedTuple):
    """What is done to a batch.

    Parameters
    ----------
    stages : tuple of Stage
        Immersion and air rest by turns [h], [C]; the temperature of a rest is not used: it follows.
    bed : tuple of BedSpell, optional
        The days after the cast.
    suction_m3_h_t : float, optional
        Air drawn through in rests [m3/h for each tonne].
    rest_air_c : float, optional
        That air [C]; as warm as the water of the first immersion when nothing is said.
    rest_air_rh : float, optional
        Its relative humidity [%].
    wet_transfer : bool, optional
        True when the grain is moved to the bed in water.
    wall_w_k_t : float, optional
        Heat lost through the steep's wall [W/K for each tonne].
    held_c : tuple of (float or None), optional
        What the grain of each stage was read or is held at [C]; None where it follows. Only rests heed it.
    """

    stages: tuple[Stage, ...]
    bed: tuple[BedSpell, ...] = ()
    suction_m3_h_t: float = 7.8
    rest_air_c: float | None = None
    rest_air_rh: float = 85.0
    wet_transfer: bool = False
    wall_w_k_t: float = VESSEL_W_K_T
    held_c: tuple[float | None, ...] = ()

    @property
    def air_c(self) -> float:
        """The air that suction draws in [C]."""
        return self.stages[0].water_temp_c if self.rest_air_c is None else self.rest_air_c


class State(NamedTuple):
    """A batch at an hour, for a tonne of barley as filled."""

    hour: float
    wet: bool
    steeping: bool
    temp_c: Values
    net: Values  # moisture inside the corns, % of wet weight
    drained: Values  # with the film
    dry_kg: Values  # dry matter left, of one tonne of barley
    chit_h: Values
    growth_h: Values
    respired_kg: Values  # since the start
    heat_kw: Values  # of breathing now
    evaporated_kg: Values  # since the start
    sprinkled_kg: float


class Water(Protocol):
    """What water does inside the corns during the steep; moistures on dry matter."""

    net_db: Values
    film_db: Values

    def go(self, hour: float, until_h: float, wet: bool, stage: int, per_h: Values) -> None:
        """Go on to a later hour of one stage, the Fourier number running at a pace [1/h]."""


def check_plan(plan: Plan) -> None:
    """Raise for a plan that cannot be.

    Raises
    ------
    OutOfRange
        For stages or days outside their limits; ``table`` is ``stages`` or ``bed`` and ``row`` the number from 0.
    """
    check("stages", len(plan.stages), STAGES)
    for number, stage in enumerate(plan.stages):
        check("hours", stage.hours, STAGE_HOURS, "", "stages", number)
        check("water_temp_c", stage.water_temp_c, WATER_TEMP_C, TEMP_REASON, "stages", number)
    check_bed(plan.bed)
    check("suction_m3_h_t", plan.suction_m3_h_t, SUCTION)


def check_bed(bed: Sequence[BedSpell]) -> None:
    """Raise for days after the cast that cannot be; see :func:`check_plan`."""
    check("bed", len(bed), BED_DAYS)
    for number, spell in enumerate(bed):
        check("hours", spell.hours, BED_HOURS, "", "bed", number)
        check("temp_c", spell.temp_c, CHIT_C, GRAIN_REASON, "bed", number)
        check("sprinkled_l_t", spell.sprinkled_l_t, SPRINKLED, "", "bed", number)


def at_hour(states: Sequence[State], hour: float, figure: Callable[[State], Values]) -> Values:
    """Give a figure of the batch at an hour, along a straight line between its states.

    The last hour may come out a last bit beyond them, as a sum of stages.
    """
    hour = min(hour, states[-1].hour) if hour <= states[-1].hour + 1e-6 else hour
    check("hour", hour, Bounds(states[0].hour, states[-1].hour))
    for one, two in pairwise(states):
        if hour <= two.hour:
            share = (hour - one.hour) / (two.hour - one.hour)
            return figure(one) + share * (figure(two) - figure(one))
    return figure(states[-1])
