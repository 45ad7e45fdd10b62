"""What must hold for every schedule of immersions and air rests."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.models.steep.course import Steep
from calculators.models.steep.hydration import steep, uptake_rate
from calculators.models.steep.sphere import SealedSphere
from calculators.models.weights.basket import film_added
from calculators.models.weights.moisture import dry_basis

hours = st.floats(0.25, 24.0)
temperature = st.floats(4.0, 25.0)
stages = st.lists(st.tuples(hours, temperature), min_size=1, max_size=6)
barley = st.floats(8.0, 16.0)
film = st.floats(0.0, 0.12)
FEW = settings(max_examples=40, deadline=None)


def course_of(stages: list[tuple[float, float]], m0: float = 12.0, film_db: float = 0.05) -> Steep:
    return steep(barley_moisture=m0, stages=stages, film_db=film_db)


@FEW
@given(stages, barley, film)
def test_moistures_rise_and_water_is_kept(rows: list[tuple[float, float]], m0: float, clinging: float) -> None:
    course = course_of(rows, m0, clinging)
    curve = course.curve(60)
    tolerance = 2e-5
    for earlier, later in zip(curve.net, curve.net[1:], strict=False):
        assert later >= earlier - tolerance
    for earlier, later in zip(curve.drained, curve.drained[1:], strict=False):
        assert later >= earlier - tolerance
    for n, wet in enumerate(curve.wet):
        with_film = film_added(net_moisture=curve.net[n], film_db=clinging)
        if wet:  # whatever is under water carries a whole film when it is drained
            assert curve.drained[n] == pytest.approx(with_film, abs=1e-9)
        else:  # in a rest the corns drink the film: nothing comes and nothing goes
            drained = [d for d, s in zip(curve.drained, curve.stage, strict=True) if s == curve.stage[n]]
            assert max(drained) - min(drained) < 1e-9
            assert curve.net[n] - tolerance <= curve.drained[n] <= with_film + tolerance
    assert curve.net[0] == pytest.approx(m0)


@FEW
@given(stages, barley)
def test_without_a_film_a_rest_changes_nothing(rows: list[tuple[float, float]], m0: float) -> None:
    course = course_of(rows, m0, 0.0)
    before = m0
    for end in course.ends:
        assert end.net == end.drained
        if not end.wet:
            assert end.net == pytest.approx(before, abs=1e-9)
        before = end.net


@FEW
@given(stages, barley, film)
def test_a_rest_gives_the_corns_at_most_the_film(rows: list[tuple[float, float]], m0: float, clinging: float) -> None:
    course = course_of(rows, m0, clinging)
    before = m0
    for end in course.ends:
        if not end.wet:
            taken = (dry_basis(moisture=end.net) - dry_basis(moisture=before)) / 100.0
            assert -1e-9 <= taken <= clinging + 1e-6
            # Used up or not: the drained moisture is net and what is left of the film.
            left = (dry_basis(moisture=end.drained) - dry_basis(moisture=end.net)) / 100.0
            assert taken + left == pytest.approx(clinging, abs=2e-6)
        before = end.net


@FEW
@given(stages, st.integers(0, 5))
def test_warmer_smaller_faster_longer_is_wetter(rows: list[tuple[float, float]], which: int) -> None:
    which %= len(rows)
    typical = course_of(rows).ends[-1].net
    warmer = [(h, t + 2.0 * (n == which)) for n, (h, t) in enumerate(rows)]
    assert course_of(warmer).ends[-1].net >= typical - 1e-6
    assert steep(barley_moisture=12.0, stages=rows, corn_weight_g=40.0).ends[-1].net > typical
    assert steep(barley_moisture=12.0, stages=rows, corn_weight_g=50.0).ends[-1].net < typical
    assert steep(barley_moisture=12.0, stages=rows, rate_factor=1.2).ends[-1].net > typical
    assert steep(barley_moisture=14.0, stages=rows).ends[-1].net > typical
    if which % 2 == 0:
        longer = [(h + 1.0 * (n == which), t) for n, (h, t) in enumerate(rows)]
        assert course_of(longer).ends[-1].net > typical


@FEW
@given(st.floats(0.5, 12.0), temperature, st.floats(0.5, 2.0))
def test_time_and_rate_are_one(h: float, t: float, factor: float) -> None:
    slow = steep(barley_moisture=12.0, stages=[(h * factor, t)])
    fast = steep(barley_moisture=12.0, stages=[(h, t)], rate_factor=factor)
    assert slow.ends[-1].net == pytest.approx(fast.ends[-1].net, abs=1e-9)


@FEW
@given(st.floats(0.5, 10.0), st.floats(0.5, 10.0), temperature)
def test_a_stage_cut_in_two_is_the_same(first: float, second: float, t: float) -> None:
    whole = course_of([(first + second, t), (6.0, t), (4.0, t)])
    assert whole.at(first).net == pytest.approx(course_of([(first, t)]).ends[-1].net, abs=1e-9)


@FEW
@given(stages, st.floats(28.0, 46.0))
def test_time_to_moisture_is_the_time_of_that_moisture(rows: list[tuple[float, float]], wanted: float) -> None:
    course = course_of(rows)
    found = course.time_to_moisture(wanted)
    last_drained = course.ends[-1].drained
    if found is None:
        assert last_drained < wanted
    else:
        later_side = course.at(found, stage=next(s.stage for s in course.spells if found < s.end_h))
        assert later_side.drained >= wanted - 1e-6
        if found > 0.0:
            assert course.at(found).drained <= wanted + 1e-6


@FEW
@given(stages, st.floats(28.0, 46.0))
def test_last_immersion_ends_on_target(rows: list[tuple[float, float]], wanted: float) -> None:
    course = course_of(rows)
    needed = course.last_immersion_needed_h(wanted)
    last = (len(rows) - 1) // 2 * 2
    if needed is None:
        too_wet = course.drained_before_last_immersion >= wanted
        longest = [*rows[:last], (60.0, rows[last][1])]
        assert too_wet or course_of(longest).ends[-1].drained < wanted
    elif needed >= 0.25:
        again = course_of([*rows[:last], (needed, rows[last][1]), *rows[last + 1 :]])
        assert again.ends[-1].drained == pytest.approx(wanted, abs=1e-6)
        assert course.time_to_moisture(wanted, longest_last_h=60.0) is not None


def test_a_dip_can_be_enough() -> None:
    course = course_of([(8, 14), (8, 14), (8, 14)])
    rest = course.ends[1].drained
    assert course.last_immersion_needed_h(rest + 0.5) == 0.0
    assert course.last_immersion_needed_h(rest) is None


def test_a_rest_first_wets_nothing() -> None:
    rest_first = steep(barley_moisture=12.0, stages=[(8, 14), (8, 14), (4, 14)], begins_wet=False)
    plain = steep(barley_moisture=12.0, stages=[(8, 14), (4, 14)])
    first = rest_first.ends[0]
    assert not first.wet
    assert (first.net, first.drained) == pytest.approx((12.0, 12.0))
    assert [e.net for e in rest_first.ends[1:]] == pytest.approx([e.net for e in plain.ends])


def test_a_short_drain_is_no_air_rest() -> None:
    # Water changed in a quarter of an hour: the faster drinking of rested corns hardly begins.
    changed = course_of([(8, 14), (0.25, 14), (8, 14)], film_db=0.0).ends[-1].net
    through = course_of([(16, 14)], film_db=0.0).ends[-1].net
    rested = course_of([(8, 14), (4, 14), (8, 14)], film_db=0.0).ends[-1].net
    assert changed - through < 0.25 * (rested - through)
    assert rested > through + 1.0
    # More rest than 4 h adds evening out, not pace.
    longer = course_of([(8, 14), (8, 14), (8, 14)], film_db=0.0).ends[-1].net
    assert longer - rested < 0.7


def test_a_film_used_up_exactly_or_not_at_all() -> None:
    # Around the moment when the film is gone nothing jumps.
    course = course_of([(8, 14), (12, 14), (4, 14)])
    gone = next(s.start_h for s in course.spells if isinstance(s.sphere, SealedSphere)) - 8.0
    ends = [course_of([(8, 14), (gone + d, 14), (4, 14)]).ends for d in (-1e-6, 0.0, 1e-6)]
    for n in range(3):
        assert max(e[n].net for e in ends) - min(e[n].net for e in ends) < 1e-4


def test_moisture_inside_the_corn() -> None:
    course = course_of([(8, 14), (12, 14)])
    radii = [0.0, 0.25, 0.5, 0.75, 1.0]
    wet, even = course.profile(8.0, radii), course.profile(20.0, radii)
    assert wet == sorted(wet)
    assert wet[0] == pytest.approx(12.0, abs=0.1)
    assert wet[-1] == pytest.approx(50.0, abs=0.01)  # 1 kg of water on 1 kg of dry matter
    assert max(even) - min(even) < max(wet) - min(wet)
    assert course.profile(0.0, radii) == pytest.approx([12.0] * 5)


def test_arrhenius_and_size() -> None:
    # 48 kJ/mol by hand: exp(-48000/8.314 (1/T - 1/288.15)); corns of one shape by weight^(2/3).
    assert uptake_rate(water_temp_c=10.0) / uptake_rate(water_temp_c=15.0) == pytest.approx(0.7020, abs=2e-4)
    heavier = uptake_rate(water_temp_c=15.0, corn_weight_g=45.0 * 1.2**1.5)
    assert uptake_rate(water_temp_c=15.0) / heavier == pytest.approx(1.2)


def test_first_uptake_that_is_negative_is_a_slow_start() -> None:
    course = steep(barley_moisture=12.0, stages=[(8, 14)], first_uptake_db=-0.05)
    assert course.at(0.01).net == pytest.approx(12.0)
    assert course.at(8.0).net < course_of([(8, 14)]).at(8.0).net


@FEW
@given(stages, barley, film, st.data())
def test_many_hours_at_once_give_what_they_give_one_by_one(
    rows: list[tuple[float, float]], m0: float, clinging: float, data: st.DataObject
) -> None:
    course = course_of(rows, m0, clinging)
    curve = course.curve(12)
    assert course.drained_along(curve.hours, curve.stage) == pytest.approx(curve.drained, abs=1e-9)
    wanted = data.draw(st.lists(st.floats(0.0, course.hours), max_size=8))
    assert course.drained_along(wanted) == pytest.approx([course.at(hour).drained for hour in wanted], abs=1e-9)


def test_straight_lines_between_the_points_of_a_curve_keep_to_the_course() -> None:
    course = course_of([(8.0, 14.0), (16.0, 13.0), (8.0, 14.0)])
    curve = course.curve(40)
    ends = [0, *(n for n in range(1, len(curve.stage)) if curve.stage[n] != curve.stage[n - 1]), len(curve.stage)]
    for stage, (first, last) in enumerate(pairwise(ends)):
        hours, drained = curve.hours[first:last], curve.drained[first:last]
        for hour in np.linspace(hours[0] + 1e-9, hours[-1], 300):
            assert np.interp(hour, hours, drained) == pytest.approx(course.at(hour, stage).drained, abs=0.2)


def test_a_target_just_beyond_the_stages_is_not_reached_unless_the_last_may_be_longer() -> None:
    course = course_of([(8.0, 14.0), (8.0, 14.0), (6.0, 14.0)])
    beyond = course_of([(8.0, 14.0), (8.0, 14.0), (6.05, 14.0)]).ends[-1].drained
    assert course.ends[-1].drained < beyond
    assert course.time_to_moisture(beyond) is None
    assert course.time_to_moisture(beyond, longest_last_h=12.0) == pytest.approx(22.05, abs=0.01)
