"""What readings must do to a forecast, and what must hold for every band."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares

from calculators.models.steep.doubt import BASKET, TYPICAL, UNKNOWNS, Doubt, moved, reach, solved, trust
from calculators.models.steep.fit import Reading, fit
from calculators.models.steep.hydration import FIRST_UPTAKE_DB, run, steep
from calculators.models.weights.basket import FILM_DB_LIMITS

STAGES = [(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)]
COURSE = steep(barley_moisture=12.5, stages=STAGES)


def width(band: tuple[list[float], list[float]]) -> float:
    return (band[1][-1] - band[0][-1]) / 2.0


def test_readings_on_the_forecast_change_nothing_and_narrow_the_band() -> None:
    found = fit(COURSE, [Reading(h, COURSE.at(h).drained) for h in (8.0, 24.0)])
    assert found.rate_factor == pytest.approx(1.0, abs=1e-4)
    assert found.course.ends[-1].drained == pytest.approx(COURSE.ends[-1].drained, abs=1e-3)
    assert found.error_points < 1e-3
    assert found.odd == [False, False]
    assert width(found.trust.band([39.0])) < 0.5 * width(trust(COURSE).band([39.0]))


@settings(max_examples=15, deadline=None)
@given(st.floats(-3.0, 3.0), st.sampled_from([8.0, 20.0, 24.0, 39.0]))
def test_a_reading_pulls_the_forecast_its_way_and_not_beyond(off: float, hours: float) -> None:
    before = COURSE.at(hours).drained
    after = fit(COURSE, [Reading(hours, before + off)]).course.at(hours).drained
    assert min(0.0, off) - 1e-3 <= after - before <= max(0.0, off) + 1e-3
    assert abs(after - before) > 0.8 * abs(off) - 1e-3  # one reading of 0.3 points weighs that much


def test_one_reading_moves_the_end_a_little_and_five_a_lot() -> None:
    slow = steep(barley_moisture=12.5, stages=STAGES, rate_factor=0.75)
    early = fit(COURSE, [Reading(2.0, slow.at(2.0).drained)])
    hours = [2.0, 6.0, 20.0, 24.0, 38.0]
    many = fit(COURSE, [Reading(h, slow.at(h).drained) for h in hours])
    short = COURSE.ends[-1].drained - slow.ends[-1].drained
    moved = [COURSE.ends[-1].drained - f.course.ends[-1].drained for f in (early, many)]
    assert 0.0 < moved[0] < 0.8 * short
    assert moved[1] == pytest.approx(short, rel=0.05)
    assert many.rate_factor == pytest.approx(0.75, abs=0.06)


def test_a_late_reading_tells_more_of_the_end_than_one_at_5_h() -> None:
    under_water = steep(barley_moisture=12.0, stages=[(35, 15)])
    widths = []
    for hours in (5.0, 10.0, 20.0):
        found = fit(under_water, [Reading(hours, under_water.at(hours).drained)])
        widths.append(width(found.trust.band([35.0])))
    assert widths == sorted(widths, reverse=True)
    assert widths[0] < width(trust(under_water).band([35.0]))
    assert widths[2] < 0.5 * widths[0]


def test_a_reading_that_contradicts_the_others_is_named() -> None:
    hours = [4.0, 8.0, 20.0, 24.0, 38.0]
    readings = [Reading(h, COURSE.at(h).drained) for h in hours]
    readings[2] = Reading(20.0, COURSE.at(20.0).drained - 4.0)
    assert fit(COURSE, readings).odd == [False, False, True, False, False]


def test_a_reading_no_barley_gives_is_named() -> None:
    assert fit(COURSE, [Reading(8.0, 45.0)]).odd == [True]
    assert fit(COURSE, [Reading(8.0, 34.5)]).odd == [False]


def test_net_readings_are_held_against_net() -> None:
    found = fit(COURSE, [Reading(8.0, COURSE.at(8.0).net, drained=False)])
    assert found.rate_factor == pytest.approx(1.0, abs=1e-3)


def test_later_stages_do_not_bear_on_a_fit() -> None:
    short = steep(barley_moisture=12.5, stages=STAGES[:2])
    readings = [Reading(7.0, 31.0), Reading(15.0, 31.5)]
    assert fit(short, readings).rate_factor == pytest.approx(fit(COURSE, readings).rate_factor, abs=1e-6)


def test_no_doubt_no_band_but_the_shape() -> None:
    sure = Doubt(**dict.fromkeys(Doubt._fields, 0.0))._replace(shape_points=0.2)
    assert width(trust(COURSE, sure).band([39.0])) == pytest.approx(0.4)


def test_band_is_the_spread_of_lots_drawn_at_random() -> None:
    # Monte Carlo, apart from the first-order formula: 400 lots drawn from the doubts.
    rng = np.random.default_rng(1)
    ends = []
    for z in rng.standard_normal((400, 7)):
        surface = float(np.clip(1.0 + TYPICAL.surface_db * z[4], 0.7, 1.3))
        first = TYPICAL.first_uptake_db * z[1]
        ends.append(
            steep(
                barley_moisture=12.5 + TYPICAL.barley_moisture * z[5],
                stages=STAGES,
                rate_factor=float(np.clip(np.exp(TYPICAL.rate * z[0]), 0.25, 4.0)),
                first_uptake_db=float(np.clip(first, -0.2, 0.2)),
                rest_factor=float(np.clip(1.5 + TYPICAL.rest_factor * z[2], 1.0, 2.5)),
                film_db=float(np.clip(0.05 + TYPICAL.film_db * z[3], 0.0, 0.12)),
                surface_db=surface,
                activation_kj_mol=48.0 + TYPICAL.activation_kj_mol * z[6],
            )
            .ends[-1]
            .drained
        )
    assert 2.0 * np.std(ends) == pytest.approx(width(trust(COURSE).band([39.0])), rel=0.12)


def test_band_on_both_sides_of_an_edge() -> None:
    curve = COURSE.curve(40)
    band = trust(COURSE).band(curve.hours, curve.stage)
    for low, value, high in zip(band.low, curve.drained, band.high, strict=True):
        assert 12.5 <= low <= value <= high


def test_spread_of_any_figure() -> None:
    sd = trust(COURSE).spread(lambda course: [course.ends[-1].net, course.ends[-1].drained])
    assert len(sd) == 2
    both = (sd[1] ** 2 + TYPICAL.shape_points**2) ** 0.5
    assert 2.0 * both == pytest.approx(width(trust(COURSE).band([39.0])), rel=1e-6)


def test_small_solver_against_numpy() -> None:
    rng = np.random.default_rng(2)
    root = rng.standard_normal((5, 5))
    matrix, right = root @ root.T + np.eye(5), rng.standard_normal((5, 2))
    assert np.allclose(solved(matrix.tolist(), right.tolist()), np.linalg.solve(matrix, right))


def misses(readings: list[Reading], z: list[float]) -> list[float]:
    """What a fit makes small: how far each reading, and each unknown, is from where it is expected, in SDs."""
    course = run(moved(COURSE.steeping, TYPICAL, z))
    # Worked out with the moisture that was typed for the barley, and shown with the basket's bias.
    drier = (100.0 - 12.5) / (100.0 - course.steeping.barley_moisture)
    shown = [100.0 - (100.0 - course.at(r.hours).drained) * drier + 0.3 * z[BASKET] for r in readings]
    return [*((r.moisture - s) / r.sd_points for r, s in zip(readings, shown, strict=True)), *z]


# Far below, far above, and as forecast.
@pytest.mark.parametrize("readings", [[(8.0, 16.0)], [(8.0, 16.0), (24.0, 26.0)], [(2.0, 45.0)], [(8.0, 33.0)]])
def test_the_most_probable_unknowns_within_their_limits_against_scipy(readings: list[tuple[float, float]]) -> None:
    asked = [Reading(*row) for row in readings]
    limits = reach(COURSE.steeping, TYPICAL)
    bounds = ([limit.low for limit in limits], [limit.high for limit in limits])
    theirs = least_squares(lambda z: misses(asked, list(z)), [0.0] * UNKNOWNS, bounds=bounds, xtol=1e-12, ftol=1e-12)
    ours = list(fit(COURSE, asked).trust.z)
    # Of forward differences, as ours are, the least is as flat as this.
    assert sum(e * e for e in misses(asked, ours)) == pytest.approx(2.0 * theirs.cost, rel=1e-4)
    assert ours == pytest.approx(list(theirs.x), abs=0.02)


def test_an_unknown_at_its_limit_stays_there() -> None:
    found = fit(COURSE, [Reading(8.0, 13.0)])
    assert found.course.steeping.film_db == FILM_DB_LIMITS.low
    assert found.course.steeping.first_uptake_db == FIRST_UPTAKE_DB.low
