"""What is not known of a batch before it is read: each unknown, its spread, and how it moves the batch.

Each unknown is counted in its own standard deviations.  Spreads stand where their law
stands; here they are put together.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from ..bounds import BARLEY_MOISTURE, Bounds
from ..steep.doubt import TYPICAL
from ..steep.hydration import ACTIVATION, FIRST_UPTAKE_DB, RATE_FACTOR, REST_FACTOR_LIMITS, SURFACE
from ..weights.basket import FILM_DB_LIMITS
from .acrospires import CORN_LENGTH_LOG_SD
from .breathing import DOUBT_LOG, LEVEL_LOG_SD, RESPONSE_DOUBT_KJ_MOL
from .chitting import MIDDLE_LOG_SD, SPREAD_LOG_SD
from .lot_plan_state import LEACHED_SD, Lot
from .maths import Maths, Values
from .pace import CHIT_BASE_SD_C, GROWTH_Q10_SD


class Unknown(NamedTuple):
    """One thing that is not known, and its standard deviation."""

    name: str
    sd: float
    what: str


LOT_FREEDOM = 3.0
"""Degrees of freedom of what the published lots say of a new one: four sites and years."""

_STUDENT = 2.0 / 3.182  # the doubt of ``steep_doubt`` makes two of it as wide as 3.182 of the spread itself

UNKNOWNS = (
    Unknown("rate", TYPICAL.rate * _STUDENT, "how fast the lot drinks, logarithm"),
    Unknown("first_uptake", TYPICAL.first_uptake_db * _STUDENT, "water taken up at once [kg/kg]"),
    Unknown("rest_factor", TYPICAL.rest_factor, "drinking after a rest [-]"),
    Unknown("film", TYPICAL.film_db, "water that clings [kg/kg]"),
    Unknown("activation", TYPICAL.activation_kj_mol, "its answer to temperature [kJ/mol]"),
    Unknown("surface", TYPICAL.surface_db, "value at the surface [kg/kg]"),
    Unknown("barley_moisture", TYPICAL.barley_moisture, "moisture of the barley [points]"),
    Unknown("basket", TYPICAL.basket_points, "basket against batch, at every reading alike [points]"),
    Unknown("shape", TYPICAL.shape_points, "what the steep model misses [points]"),
    Unknown("breath", DOUBT_LOG, "breathing against the law, logarithm"),
    Unknown("breath_response", RESPONSE_DOUBT_KJ_MOL, "its answer to temperature [kJ/mol]"),
    Unknown("breath_level", LEVEL_LOG_SD, "breathing before the chit, logarithm"),
    Unknown("breath_timing", 0.15, "hour at which it is highest, logarithm"),
    Unknown("water", 0.4, "steep water against what is written [K]"),
    Unknown("suction", 0.5, "air drawn through in rests, logarithm"),
    Unknown("chit_middle", MIDDLE_LOG_SD, "hours of the middle corn, logarithm"),
    Unknown("chit_spread", SPREAD_LOG_SD, "spread of corns, logarithm"),
    Unknown("grows", 0.02, "share that grows against the test [-]"),
    Unknown("sensitive", 0.05, "share sensitive to water against the test [-]"),
    Unknown("chit_base", CHIT_BASE_SD_C, "chitting's answer to temperature [C]"),
    Unknown("growth_q10", GROWTH_Q10_SD, "growth's answer to temperature [-]"),
    Unknown("corn_length", CORN_LENGTH_LOG_SD, "pace of the acrospires, logarithm"),
    Unknown("pace_spread", 0.25, "evenness of the acrospires, logarithm"),
    Unknown("warmer", 0.7, "grain of the bed against its plan [K]"),
    Unknown("drying", 0.3, "water that leaves the bed, logarithm"),
    Unknown("leached", LEACHED_SD, "dry matter leached [-]"),
    Unknown("probe", 0.3, "thermometer against grain, at every reading alike [K]"),
)
"""All unknowns.  Those without a law of their own are trade judgement."""

_RATE_LOG = Bounds(-20.0, 20.0)
NAMES = tuple(unknown.name for unknown in UNKNOWNS)


def student(z: Values, freedom: float = LOT_FREEDOM) -> Values:
    """Give the point of Student's t that lies as far out as z of a normal distribution.

    Cornish and Fisher's series (Abramowitz & Stegun 1964, 26.7.5, from memory), to its third
    term; with three degrees of freedom 1.96 becomes 3.12, and the t tables have 3.18.
    """
    first = (z**3 + z) / 4.0
    second = (5.0 * z**5 + 16.0 * z**3 + 3.0 * z) / 96.0
    third = (3.0 * z**7 + 19.0 * z**5 + 17.0 * z**3 - 15.0 * z) / 384.0
    return z + first / freedom + second / freedom**2 + third / freedom**3


def _clip(m: Maths, value: Values, limits: Bounds) -> Values:
    return m.least(m.most(value, limits.low), limits.high)


def moved(m: Maths, base: Lot, z: Sequence[Values], scale: Mapping[str, float] | None = None) -> Lot:
    """Give a batch, or many, with each unknown moved by z of its standard deviations.

    Parameters
    ----------
    m : Maths
        For floats or arrays.
    base : Lot
        What is known.
    z : sequence of float or array
        One for each of :data:`UNKNOWNS`.
    scale : mapping, optional
        By what to multiply a standard deviation that is better known here, by name.

    Returns
    -------
    Lot
        The batch, each value kept within the limits of what it stands for.
    """
    by = scale or {}
    off = {u.name: u.sd * by.get(u.name, 1.0) * v for u, v in zip(UNKNOWNS, z, strict=True)}
    rate, first = (student(z[n]) * UNKNOWNS[n].sd * by.get(NAMES[n], 1.0) for n in (0, 1))
    rate = _clip(m, rate, _RATE_LOG)  # members widened threefold lie far out
    corns = base.corns
    return base._replace(
        barley_moisture=_clip(m, base.barley_moisture + off["barley_moisture"], BARLEY_MOISTURE),
        rate_factor=_clip(m, base.rate_factor * m.exp(rate), RATE_FACTOR),
        first_uptake_db=_clip(m, base.first_uptake_db + first, FIRST_UPTAKE_DB),
        rest_factor=_clip(m, base.rest_factor + off["rest_factor"], REST_FACTOR_LIMITS),
        film_db=_clip(m, base.film_db + off["film"], FILM_DB_LIMITS),
        activation_kj_mol=_clip(m, base.activation_kj_mol + off["activation"], ACTIVATION),
        surface_db=_clip(m, base.surface_db + off["surface"], SURFACE),
        breath_factor=base.breath_factor * m.exp(off["breath"]),
        cold_kj_mol=m.most(base.cold_kj_mol + off["breath_response"], 5.0),
        warm_kj_mol=m.most(base.warm_kj_mol + off["breath_response"], 5.0),
        breath_level=m.least(base.breath_level * m.exp(off["breath_level"]), 0.9),
        breath_timing=base.breath_timing * m.exp(off["breath_timing"]),
        water_warmer_k=base.water_warmer_k + off["water"],
        suction_factor=base.suction_factor * m.exp(off["suction"]),
        corns=corns._replace(
            middle_h=corns.middle_h * m.exp(off["chit_middle"]),
            spread=corns.spread * m.exp(off["chit_spread"]),
            grows=_clip(m, corns.grows + off["grows"], Bounds(0.02, 1.0)),
            sensitive=_clip(m, corns.sensitive + off["sensitive"], Bounds(0.0, 1.0)),
        ),
        chit_base_c=m.least(base.chit_base_c + off["chit_base"], 4.0),
        growth_q10=m.most(base.growth_q10 + off["growth_q10"], 1.1),
        acrospires=base.acrospires._replace(
            corn_length_h=base.acrospires.corn_length_h * m.exp(off["corn_length"]),
            pace_spread=base.acrospires.pace_spread * m.exp(off["pace_spread"]),
        ),
        warmer_k=base.warmer_k + off["warmer"],
        drying_factor=base.drying_factor * m.exp(off["drying"]),
        leached=m.most(base.leached + off["leached"], 0.0),
    )
