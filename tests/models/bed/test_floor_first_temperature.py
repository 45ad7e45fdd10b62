"""How warm a piece was when it was turned: the best fit, and its weight, against quadrature and least squares."""

from itertools import pairwise
from math import exp, log, pi, sqrt

import pytest
from scipy.integrate import quad
from scipy.optimize import least_squares

from calculators.models.bed.floor import Round, _first_and_misfit, _Seen, fit

TURNING = [
    (Round(1.0, 0.15, 15.2, 14.4, 11.0), _Seen(0.97, 0.9, 0.8, 0.7)),
    (Round(4.0, 0.15, 17.1, 14.9, 12.0), _Seen(0.90, 3.1, 0.6, 2.0)),
]
# Our assumptions: a thermometer is good to 0.5 K; the first temperature lies within 4 K of the first reading's mean.
READ, FIRST = 0.5, 4.0


def misses(first: float, rate: float) -> list[float]:
    """Each reading's miss in its own standard deviation, and that of the first temperature."""
    one = TURNING[0][0]
    away = [(first - (one.bottom_c + one.top_c) / 2.0) / FIRST]
    for read, seen in TURNING:
        for value, left, warm in (
            (read.bottom_c, seen.left_bottom, seen.warm_bottom),
            (read.top_c, seen.left_top, seen.warm_top),
        ):
            away.append((read.room_c + (first - read.room_c) * left + rate * warm - value) / READ)
    return away


def found(rate: float) -> tuple[float, float]:
    return _first_and_misfit([one for one, _ in TURNING], [seen for _, seen in TURNING], rate)


@pytest.mark.parametrize("rate", [0.1, 0.5, 0.9, 2.0])
def test_the_first_temperature_is_that_of_least_squares(rate: float) -> None:
    theirs = least_squares(lambda x: misses(x[0], rate), [15.0], xtol=1e-12)
    assert found(rate)[0] == pytest.approx(theirs.x[0], abs=1e-6)


@pytest.mark.parametrize("rate", [0.1, 0.5, 0.9, 2.0])
def test_the_weight_of_a_heat_is_the_integral_over_all_first_temperatures(rate: float) -> None:
    """Bayes' rule with what is not asked for integrated out (scipy.integrate.quad)."""

    def density(first: float) -> float:
        return exp(-sum(e * e for e in misses(first, rate)) / 2.0)

    first, misfit = found(rate)
    whole = quad(density, first - 8.0, first + 8.0, points=[first], limit=400)[0]
    assert misfit == pytest.approx(-2.0 * log(whole / sqrt(2.0 * pi)), abs=1e-6)


def test_a_piece_first_read_late_may_have_been_turned_much_cooler() -> None:
    """Read only hours after the turning, the first temperature is free enough for the heat to be seen in the rise."""
    rises = [Round(h, 0.15, 14.0 + 0.8 * (h - 6.0), 13.0 + 0.6 * (h - 6.0), 11.0, 9.0 - h) for h in (6.0, 7.5, 9.0)]
    stands = [Round(h, 0.15, 14.0, 13.0, 11.0, 9.0 - h) for h in (6.0, 7.5, 9.0)]
    heats = [sum(g.weight * g.heat_kw_t for g in fit(rounds=rows, day=3)) for rows in (stands, rises)]
    firsts = [sum(g.weight * g.first_c for g in fit(rounds=rows, day=3)) for rows in (rises, stands)]
    assert heats[1] > 1.5 * heats[0]
    assert all(one < other for one, other in pairwise(firsts)) and firsts[0] < 13.5
