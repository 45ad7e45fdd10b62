"""The solver of the steep against Crank's series and against scipy's stiff integrator."""

import random

import pytest

from calculators.models.steep.hydration import REST_FACTOR, REST_FULL_H, SURFACE_DB, steep, uptake_rate
from calculators.models.steep.sphere import WetSphere, filled_fraction
from tests.published.stiff_steep import extrapolated_ends


@pytest.mark.parametrize(
    ("fo", "filled", "tolerance"),
    [
        (0.1, 0.7704787380, 1e-10),  # Crank 1975, as published in another project's docs (read)
        (0.25, 0.9484368979, 1e-10),  # the same
        (0.01, 0.3085138, 6e-8),  # computed from the series
        (0.05, 0.6069398, 6e-8),  # computed from the series
    ],
)
def test_crank_mean(fo: float, filled: float, tolerance: float) -> None:
    assert filled_fraction(fo=fo) == pytest.approx(filled, abs=tolerance)
    assert 1.0 - WetSphere(1.0).mean_lack(fo) == pytest.approx(filled, abs=tolerance)


def test_crank_centre() -> None:
    # Crank 1975, centre of a sphere at Fo 0.25, as published in another project's docs (read).
    assert 1.0 - WetSphere(1.0).profile(0.25, [0.0])[0] == pytest.approx(0.8304935010, abs=1e-9)


def schedules() -> list[list[tuple[float, float]]]:
    draw = random.Random(4)
    usual = [
        [(draw.choice([0.5, 2.0, 6.0, 9.0, 16.0]), draw.uniform(8.0, 20.0)) for _ in range(count)]
        for count in (2, 3, 5, 6)
    ]
    # A quarter of an hour at a time, warm; and an hour's rest, which leaves film over.
    short = [(0.25, 20.0), (0.25, 20.0), (0.25, 20.0), (0.5, 20.0), (3.0, 14.0)]
    left_over = [(6.0, 14.0), (1.0, 10.0), (6.0, 14.0), (0.5, 10.0), (2.0, 14.0)]
    return [*usual, short, left_over]


@pytest.mark.parametrize("stages", schedules(), ids=lambda rows: f"{len(rows)} stages, {rows[0][0]} h")
def test_whole_schedules_against_scipy(stages: list[tuple[float, float]]) -> None:
    # scipy's solve_ivp on finite volumes, two grids extrapolated: within 1e-4 points.
    rates, rested = [], 0.0
    for number, (hours, water_temp_c) in enumerate(stages):
        faster = 1.0 + (REST_FACTOR - 1.0) * min(1.0, rested / REST_FULL_H)
        rates.append((hours, faster * uptake_rate(water_temp_c=water_temp_c)))
        rested += hours * (number % 2)
    theirs = extrapolated_ends(
        shells=40,
        rtol=1e-7,
        atol=1e-9,
        start_db=12.5 / 87.5,
        surface_db=SURFACE_DB,
        film_db=0.05,
        stages=rates,
    )
    ours = steep(barley_moisture=12.5, stages=stages).ends
    for end, net_db in zip(ours, theirs, strict=True):
        assert end.net == pytest.approx(100.0 * net_db / (1.0 + net_db), abs=1e-4)


def test_film_in_the_stiff_integrator_is_used_up() -> None:
    # So that the check above also covers a rest in which the film runs out, and one in which not.
    spells = [len(steep(barley_moisture=12.5, stages=rows).spells) - len(rows) for rows in schedules()]
    assert any(n > 0 for n in spells)
    last = steep(barley_moisture=12.5, stages=schedules()[-1])
    assert len(last.spells) == len(schedules()[-1])
