"""A quick way's pairs with the oven: a known bias comes back, and few pairs know little."""

from __future__ import annotations

from math import inf
from pathlib import Path
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.bounds import OutOfRange
from calculators.models.weights.quick import bias, corrected, counted_moisture, line, odd_pair
from tests.models.both_sides import Case, cases

PAIRS = [(40.0, 41.2), (42.0, 43.1), (43.0, 44.4), (44.0, 45.1), (45.0, 46.2), (46.0, 47.1), (41.0, 42.3), (39.0, 40.0)]


def one_pair(*, quick: float = 44.0, oven: float = 45.0) -> None:
    bias(pairs=[(quick, oven)])


def count(*, pairs: int) -> None:
    bias(pairs=[(44.0, 45.0)] * pairs)


def with_ratio(*, ratio: float) -> None:
    line(pairs=PAIRS, ratio=ratio)


def new_reading(*, quick: float) -> None:
    corrected(pairs=PAIRS, quick=quick)


def corns(*, corns: float) -> None:
    counted_moisture(corns=corns, wet_g=900.0, dry_thousand_g=40.0)


CASES = [
    *cases(one_pair, {}, quick=(5.0, 65.0), oven=(5.0, 65.0)),
    *cases(count, {}, pairs=(1, 40)),
    *cases(with_ratio, {}, ratio=(0.01, 100.0)),
    *cases(new_reading, {}, quick=(5.0, 65.0)),
    *cases(corns, {}, corns=(50.0, 5000.0)),
    *cases(counted_moisture, {"corns": 1000.0, "wet_g": 999.0}, dry_thousand_g=(10.0, 90.0)),
]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_limit_is_accepted_exactly_and_refused_just_outside(case: Case) -> None:
    case.hold()


def test_counted_corns_weigh_more_than_their_dry_matter() -> None:
    with pytest.raises(OutOfRange) as caught:
        counted_moisture(corns=500, wet_g=19.8, dry_thousand_g=39.6)
    assert caught.value.parameter == "wet_g" and caught.value.low == pytest.approx(19.8)
    # conservation: 500 corns with 19.8 g of dry matter at 45 %
    assert counted_moisture(corns=500, wet_g=19.8 / 0.55, dry_thousand_g=39.6) == pytest.approx(45.0)


def made(random: Random, count: int, *, off: float, slope: float = 1.0, sd: float = 0.5) -> list[tuple[float, float]]:
    """Pairs of a quick way that lies ``off`` under the oven at 43 %, both with errors."""
    found = []
    for _ in range(count):
        true = random.uniform(37.0, 47.0)
        quick = 43.0 - off + (true - 43.0) / slope + random.gauss(0.0, sd)
        found.append((quick, true + random.gauss(0.0, 0.2)))
    return found


@pytest.mark.parametrize("count", [4, 12])
@pytest.mark.parametrize("slope", [1.0, 1.15])
def test_the_range_holds_the_oven_as_often_as_it_says(count: int, slope: float) -> None:
    random = Random(f"quick {count} {slope}")
    held = 0
    for _ in range(300):
        *pairs, (quick, oven) = made(random, count + 1, off=1.2, slope=slope)
        new = corrected(pairs=pairs, quick=quick, ratio=0.16)
        held += abs(oven - new.moisture) <= new.half
    assert 0.91 <= held / 300 <= 0.98  # 95 of 100, and what 300 draws leave open


def test_a_known_bias_comes_back_and_its_interval_holds_it() -> None:
    random = Random("bias")
    held = 0
    for _ in range(500):
        found = bias(pairs=made(random, 10, off=1.2))
        held += abs(found.mean - 1.2) <= found.half
    assert 0.925 <= held / 500 <= 0.975
    many = bias(pairs=made(Random("many"), 40, off=-0.8))
    assert many.mean == pytest.approx(-0.8, abs=0.25)


def test_a_known_slope_comes_back_where_least_squares_draws_it_too_flat() -> None:
    random = Random("slope")
    drawn, flat = [], []
    for _ in range(60):
        pairs = made(random, 20, off=1.0, slope=1.15, sd=1.0)
        fitted = line(pairs=pairs, ratio=0.04)
        assert fitted is not None
        drawn.append(fitted.slope)
        x, y = (sum(side) / 20 for side in zip(*pairs, strict=True))
        flat.append(sum((q - x) * (o - y) for q, o in pairs) / sum((q - x) ** 2 for q, _ in pairs))
    assert sum(drawn) / 60 == pytest.approx(1.15, abs=0.03)
    assert sum(flat) / 60 < 1.08


def test_the_scatter_about_the_line_is_that_of_what_is_left() -> None:
    pairs = made(Random(8), 14, off=1.0, slope=1.1)
    found = line(pairs=pairs)
    assert found is not None
    quick, oven = (np.array(column) for column in zip(*pairs, strict=True))
    assert (found.at_quick, found.at_oven) == pytest.approx((quick.mean(), oven.mean()))
    left = oven - np.polyval([found.slope, oven.mean() - found.slope * quick.mean()], quick)
    assert found.scatter == pytest.approx(np.sqrt((left**2).sum() / 12))


def test_an_odd_pair_is_looked_for_from_five_on() -> None:
    pairs = [(44.0, 45.0), (43.0, 44.05), (42.0, 42.95), (45.0, 46.02), (41.0, 48.0)]
    assert odd_pair(pairs=pairs) == 4 and odd_pair(pairs=pairs[1:]) is None


def test_two_pairs_know_next_to_nothing_and_one_nothing() -> None:
    assert bias(pairs=PAIRS[:1]).single == inf
    assert bias(pairs=[(44.0, 45.0), (43.0, 44.2)]).single > 2.0  # they agree within 0.2 points
    assert line(pairs=PAIRS[:7]) is None and line(pairs=PAIRS) is not None
    assert line(pairs=[(44.0, 45.0 + 0.1 * n) for n in range(8)]) is None  # all at one moisture


def test_an_odd_pair_is_named_and_chance_is_not() -> None:
    assert odd_pair(pairs=PAIRS) is None
    assert odd_pair(pairs=[*PAIRS[:3], (46.0, 43.0), *PAIRS[3:]]) == 3
    random = Random("odd")
    named = sum(odd_pair(pairs=made(random, 10, off=1.0)) is not None for _ in range(100))
    assert named <= 14  # 5 in 100 by its own rule


@given(st.lists(st.tuples(st.floats(30, 50), st.floats(30, 50)), min_size=2, max_size=12), st.floats(-4, 4))
def test_what_is_added_to_every_oven_is_added_to_the_answer(pairs, more):
    before, after = bias(pairs=pairs), bias(pairs=[(quick, oven + more) for quick, oven in pairs])
    assert after.mean == pytest.approx(before.mean + more, abs=1e-9)
    assert after.half == pytest.approx(before.half, rel=1e-6, abs=1e-9)


def test_the_page_prints_what_the_scatter_and_the_count_leave_open() -> None:
    page = Path("docs/procedures/quick-moisture.md").read_text("utf-8")
    for scatter, said in ((0.3, "about ±0.7 points"), (0.45, "about ±1 point"), (0.65, "about ±1.5 points")):
        apart = [scatter * (9 / 10) ** 0.5 * (1 if n % 2 else -1) for n in range(10)]  # ten pairs that scatter so
        single = bias(pairs=[(43.0, 44.0 + one) for one in apart]).single
        assert said in page and abs(single - float(said.split("±")[1].split()[0])) < 0.1
    # 500 corns on either side, each a fifth lighter or heavier, at 45 %: the share of dry matter errs by both.
    assert "±1.4 points by chance alone at 500 corns" in page
    assert pytest.approx(1.4, abs=0.05) == 1.96 * 0.2 * (2 / 500) ** 0.5 * 55.0
