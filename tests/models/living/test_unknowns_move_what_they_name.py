"""Each unknown of a batch moves what it stands for: upward for more of it, by its own spread, and nothing else."""

import math

import pytest

from calculators.models.bounds import BARLEY_MOISTURE
from calculators.models.living.doubts import NAMES, UNKNOWNS, moved, student
from calculators.models.living.lot_plan_state import Lot
from calculators.models.living.maths import FLOATS
from calculators.models.steep.hydration import ACTIVATION, FIRST_UPTAKE_DB, RATE_FACTOR, REST_FACTOR_LIMITS, SURFACE
from calculators.models.weights.basket import FILM_DB_LIMITS

BASE = Lot(barley_moisture=13.0, leached=0.01, corns=Lot().corns._replace(grows=0.9, sensitive=0.3))
LOGARITHM = {
    "rate": "rate_factor", "breath": "breath_factor", "breath_level": "breath_level", "breath_timing": "breath_timing",
    "suction": "suction_factor", "chit_middle": "corns.middle_h", "chit_spread": "corns.spread",
    "corn_length": "acrospires.corn_length_h", "pace_spread": "acrospires.pace_spread", "drying": "drying_factor",
}  # fmt: skip
STRAIGHT = {
    "first_uptake": ("first_uptake_db",), "rest_factor": ("rest_factor",), "film": ("film_db",),
    "activation": ("activation_kj_mol",), "surface": ("surface_db",), "barley_moisture": ("barley_moisture",),
    "breath_response": ("cold_kj_mol", "warm_kj_mol"), "water": ("water_warmer_k",), "grows": ("corns.grows",),
    "sensitive": ("corns.sensitive",), "chit_base": ("chit_base_c",), "growth_q10": ("growth_q10",),
    "warmer": ("warmer_k",), "leached": ("leached",),
}  # fmt: skip
OF_READINGS = {"basket", "shape", "probe"}
"""These move what readings of a kind have in common, and no batch."""


def of(lot: Lot, name: str) -> float:
    found: object = lot
    for part in name.split("."):
        found = getattr(found, part)
    assert isinstance(found, float)
    return found


def one(name: str, z: float, scale: float = 1.0) -> Lot:
    return moved(FLOATS, BASE, [z if other == name else 0.0 for other in NAMES], {name: scale})


def test_every_unknown_is_tried() -> None:
    assert LOGARITHM.keys() | STRAIGHT.keys() | OF_READINGS == set(NAMES)
    assert moved(FLOATS, BASE, [0.0] * len(NAMES)) == BASE


@pytest.mark.parametrize("unknown", [u for u in UNKNOWNS if u.name not in OF_READINGS], ids=lambda u: u.name)
@pytest.mark.parametrize(("z", "scale"), [(0.5, 1.0), (-0.5, 1.0), (0.5, 0.4)])
def test_an_unknown_moves_by_its_spread(unknown, z: float, scale: float) -> None:
    far = student(z) if unknown.name in ("rate", "first_uptake") else z
    off = far * unknown.sd * scale
    lot = one(unknown.name, z, scale)
    touched = STRAIGHT.get(unknown.name) or (LOGARITHM[unknown.name],)
    for name in touched:
        if unknown.name in LOGARITHM:
            assert of(lot, name) == pytest.approx(of(BASE, name) * math.exp(off))
        else:
            assert of(lot, name) == pytest.approx(of(BASE, name) + off)
    for name in (*LOGARITHM.values(), *(n for names in STRAIGHT.values() for n in names)):
        assert name in touched or of(lot, name) == of(BASE, name)


@pytest.mark.parametrize("name", sorted(OF_READINGS))
def test_what_readings_have_in_common_is_no_part_of_the_batch(name: str) -> None:
    assert one(name, 1.5) == BASE


@pytest.mark.parametrize(
    ("unknown", "field", "low", "high"),
    [
        ("rate", "rate_factor", None, None),
        ("first_uptake", "first_uptake_db", *FIRST_UPTAKE_DB),
        ("rest_factor", "rest_factor", *REST_FACTOR_LIMITS),
        ("film", "film_db", *FILM_DB_LIMITS),
        ("activation", "activation_kj_mol", *ACTIVATION),
        ("surface", "surface_db", *SURFACE),
        ("barley_moisture", "barley_moisture", *BARLEY_MOISTURE),
        ("grows", "corns.grows", 0.02, 1.0),
        ("sensitive", "corns.sensitive", 0.0, 1.0),
        ("breath_response", "cold_kj_mol", 5.0, None),
        ("breath_response", "warm_kj_mol", 5.0, None),
        ("breath_level", "breath_level", None, 0.9),
        ("chit_base", "chit_base_c", None, 4.0),
        ("growth_q10", "growth_q10", 1.1, None),
        ("leached", "leached", 0.0, None),
    ],
)
def test_far_out_each_stays_within_what_can_be(unknown: str, field: str, low: float | None, high: float | None) -> None:
    down, up = (of(one(unknown, 60.0 * side), field) for side in (-1.0, 1.0))
    if low is not None:
        assert down == pytest.approx(low)
    if high is not None:
        assert up == pytest.approx(high)
    if unknown == "rate":
        assert RATE_FACTOR.low <= down < 1.0 < up <= RATE_FACTOR.high
