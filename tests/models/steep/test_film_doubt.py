"""The doubt of the film on the corns, followed to the moisture by hand."""

import pytest

from calculators.models.steep.doubt import TYPICAL, Doubt, trust
from calculators.models.steep.hydration import steep
from calculators.models.weights.basket import FILM_DB, FILM_DB_LIMITS

ONLY_FILM = Doubt(**dict.fromkeys(Doubt._fields, 0.0))._replace(film_db=TYPICAL.film_db)


@pytest.mark.parametrize("hours", [6.0, 12.0, 24.0])
def test_under_water_the_film_alone_moves_the_drained_moisture(hours: float) -> None:
    # With w water a kilogram of dry matter the moisture is 100 w/(1 + w), so d of film moves it by 100 d/(1 + w)^2.
    # The film is doubted by 0.03 (trade judgement).
    course = steep(barley_moisture=12.5, stages=[(hours, 14)])
    net, drained = trust(course, ONLY_FILM).spread(lambda one: [one.ends[-1].net, one.ends[-1].drained])
    dry_share = 1.0 - course.ends[-1].drained / 100.0
    assert net == pytest.approx(0.0, abs=1e-9)
    assert drained == pytest.approx(100.0 * 0.03 * dry_share**2, rel=0.002)


def test_two_deviations_reach_from_blotted_nearly_to_dripping() -> None:
    assert FILM_DB - 2.0 * TYPICAL.film_db <= FILM_DB_LIMITS.low
    assert 0.9 * FILM_DB_LIMITS.high <= FILM_DB + 2.0 * TYPICAL.film_db <= FILM_DB_LIMITS.high
