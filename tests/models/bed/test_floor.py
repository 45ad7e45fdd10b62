"""The piece on the floor: what it was made of comes back from its own readings."""

from math import inf, log

import pytest

from calculators.models.bed import floor
from calculators.models.bed.floor import Round, band, fit, hours_until, learnt, turnings
from calculators.models.bed.slab import Slab
from calculators.models.living.breathing import breathing
from calculators.models.living.pace import growth_after_cast

DEPTH, ROOM, FIRST = 0.15, 11.0, 14.5


def reading(heat: float, surface: float, hours: float, ago: float = 0.0, probe: float = 0.03) -> Round:
    """What thermometers would read in a piece of known heat and loss."""
    slab = Slab(surface * DEPTH / floor.CONDUCTIVITY_W_M_K)
    fo = floor.fourier(hours=hours, depth_m=DEPTH)
    rate = floor.heating_rate(heat_kw_t=heat)
    temps = []
    for xi in (0.0, 1.0 - probe / DEPTH):
        left, warm = slab.both(fo, xi)
        temps.append(ROOM + (FIRST - ROOM) * left + rate * warm * (hours / fo if fo else 0.0))
    return Round(hours, DEPTH, temps[0], temps[1], ROOM, ago, probe)


def rounds(heat: float, at: list[float]) -> list[Round]:
    return [reading(heat, 8.0, hours, at[-1] - hours) for hours in at]


def until(guesses: list[floor.Guess], limit: float) -> floor.Band:
    return band([hours_until(g.differences, limit) for g in guesses], [g.weight for g in guesses])


@pytest.mark.parametrize("heat", [0.4, 0.6, 1.0, 1.4, 2.0])
def test_the_heat_comes_back_from_one_turning(heat: float) -> None:
    guesses = fit(rounds=rounds(heat, [0.25, 2.0, 4.0, 6.0]), day=3)
    found = band([g.heat_kw_t for g in guesses], [g.weight for g in guesses])
    assert found.low <= heat <= found.high
    assert found.middle == pytest.approx(heat, rel=0.25)
    assert learnt(guesses) > 0.5
    assert sum(g.weight for g in guesses) == pytest.approx(1.0, abs=0.02)


@pytest.mark.parametrize("heat", [0.6, 1.0])
def test_the_hours_come_back_too(heat: float) -> None:
    limit, hours = 5.0, 6.0
    while (r := reading(heat, 8.0, hours)).bottom_c - r.top_c < limit:
        hours += 0.05
    found = until(fit(rounds=rounds(heat, [0.25, 2.0, 4.0, 6.0]), day=3), limit)
    assert found.low <= hours - 6.0 <= found.high
    assert found.middle == pytest.approx(hours - 6.0, rel=0.25)


@pytest.mark.parametrize("heat", [0.4, 1.0, 2.0])
def test_every_guess_goes_on_from_what_the_thermometers_read(heat: float) -> None:
    read = rounds(heat, [0.25, 2.0, 4.0, 6.0])
    now = min(read, key=lambda one: one.hours_ago)
    for guess in fit(rounds=read, day=3):
        assert guess.bottoms[0] == pytest.approx(now.bottom_c, abs=1e-9)
        assert guess.differences[0] == pytest.approx(now.bottom_c - now.top_c, abs=1e-9)


def test_one_round_teaches_little_and_two_in_a_turning_teach_much() -> None:
    one = learnt(fit(rounds=rounds(0.6, [4.0]), day=3))
    two = learnt(fit(rounds=rounds(0.6, [1.0, 4.0]), day=3))
    assert one < 0.4 and two > one + 0.2


def test_what_was_learnt_does_not_hang_on_how_weights_are_counted() -> None:
    guesses = fit(rounds=rounds(0.6, [1.0, 4.0]), day=3)
    for times in (0.01, 3.0, 100.0):
        assert learnt([g._replace(weight=times * g.weight) for g in guesses]) == pytest.approx(learnt(guesses))


def test_the_forecast_starts_from_what_is_read_now() -> None:
    now = reading(0.6, 8.0, 4.0)
    for guess in fit(rounds=[now], day=3):
        assert guess.differences[0] == pytest.approx(now.bottom_c - now.top_c)
        assert guess.bottoms[0] == pytest.approx(now.bottom_c)


def test_more_heat_reaches_the_limit_sooner() -> None:
    hours = [until(fit(rounds=rounds(h, [1.0, 3.0, 5.0]), day=3), 4.5).middle for h in (0.5, 0.8, 1.2)]
    assert hours[0] > hours[1] > hours[2]


def test_a_thinner_piece_that_reads_the_same_makes_more_heat() -> None:
    heats = []
    for depth in (0.10, 0.15, 0.30):
        guesses = fit(rounds=[r._replace(depth_m=depth) for r in rounds(0.6, [1.0, 4.0])], day=3)
        heats.append(sum(g.weight * g.heat_kw_t for g in guesses))
    assert heats[0] > heats[1] > heats[2]


def test_rounds_are_sorted_by_their_turning() -> None:
    late, early = Round(2, 0.15, 15, 14, 11, 0.0), Round(1, 0.15, 15, 14, 11, 1.0)
    before = Round(7, 0.15, 18, 14, 11, 3.0)
    assert turnings([late, before, early]) == [[before], [early, late]]


@pytest.mark.parametrize("day", [1.5, 2.5, 3.5, 7.0, 30.0])
@pytest.mark.parametrize(("bottom", "top"), [(13.0, 12.0), (17.8, 15.2)])
def test_the_expected_heat_is_the_one_law_at_the_warmth_that_is_read(day: float, bottom: float, top: float) -> None:
    warm = (bottom + top) / 2
    law = breathing(
        barley_kg=1000, barley_moisture=14, net_moisture=43, temp_c=warm,
        growth_h=min(growth_after_cast(day=day, temp_c=warm), 1000.0), factor=0.7,
    )  # fmt: skip
    now = Round(4.0, DEPTH, bottom, top, ROOM)
    assert floor.expected_heat(now=now, day=day, heat_factor=0.7, moisture=43) == pytest.approx(law.heat_kw)


def test_floors_published_lie_within_the_doubt_of_the_law() -> None:
    # 3 % of dry matter in 14 days at 62 F (Thomson 1824, read) and 5 % in 5 days, as means in kW a tonne at 12 %.
    def mean(days: int, temp: float) -> float:
        now = Round(4.0, DEPTH, temp, temp, ROOM)
        return sum(floor.expected_heat(now=now, day=1.25 + n / 2) for n in range(2 * days)) / (2 * days)

    cold, warm = 880 * 0.03 / 14 * 17.29 / 86.4, 880 * 0.05 / 5 * 17.29 / 86.4
    assert cold == pytest.approx(0.377, abs=0.005) and warm == pytest.approx(1.76, abs=0.01)
    assert abs(log(cold / mean(14, 16.7))) < 1.3 * floor.FACTOR_OF_TWO
    assert abs(log(warm / mean(5, 15.0))) < floor.FACTOR_OF_TWO


def test_hours_until() -> None:
    rising = tuple(t * 0.5 for t in floor.TIMES)
    assert hours_until(rising, 2.0) == pytest.approx(4.0)
    assert hours_until(rising, 2.1) == pytest.approx(4.2)
    assert hours_until(rising, 0.0) == 0.0
    assert hours_until(rising, 99.0) == inf


def test_band_leaves_a_tenth_on_either_side() -> None:
    values = [float(n) for n in range(1, 101)]
    found = band(values, [0.01] * 100)
    assert (found.low, found.middle, found.high) == pytest.approx((10, 50, 90), abs=1.01)
    assert band([1.0, 5.0], [0.99, 0.01]).high == 1.0


def test_the_typical_values_are_good_to_a_factor_of_two() -> None:
    assert pytest.approx(log(2.0)) == floor.FACTOR_OF_TWO


@pytest.mark.parametrize("surface", [0.5, 1.0, 2.0])
@pytest.mark.parametrize("depth_m", [0.08, 0.10, 0.13, 0.15, 0.20])
@pytest.mark.parametrize("hours", [2.0, 4.0, 8.0, 12.0])
def test_the_whole_piece_lies_midway_between_its_thermometers(surface: float, depth_m: float, hours: float) -> None:
    """Against the mean of the layer itself (Carslaw and Jaeger's series, ``slab``): nearer than two parts bottom."""
    layer = Slab(surface * floor.TYPICAL_SURFACE_W_M2_K * depth_m / floor.CONDUCTIVITY_W_M_K)
    fo = floor.fourier(hours=hours, depth_m=depth_m)
    per_kw = floor.heating_rate(heat_kw_t=0.7) * hours / fo  # turned 3 K over the room
    bottom, top = (
        (3.0 * left + per_kw * warm) for left, warm in (layer.both(fo, x) for x in (0.0, 1.0 - 0.03 / depth_m))
    )
    left, warm = layer.mean_of_both(fo)
    whole = 3.0 * left + per_kw * warm
    midway = floor.mean_c(bottom_c=bottom, top_c=top)
    assert midway == pytest.approx(whole, abs=0.65)
    assert abs(midway - whole) < abs((2.0 * bottom + top) / 3.0 - whole) or depth_m == 0.20
