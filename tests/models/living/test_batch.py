"""One batch from the first wetting to the kiln: what is conserved, what rises with what, and practice."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.models.bed import respiration
from calculators.models.bounds import OutOfRange
from calculators.models.living.batch import bed_course, course
from calculators.models.living.breathing import DOUBT_LOG, breathing
from calculators.models.living.chitting import Corns, chitted
from calculators.models.living.lot_plan_state import BedSpell, Lot, Plan, State, at_hour
from calculators.models.living.pace import growth_after_cast
from calculators.models.steep.course import Stage
from calculators.models.steep.hydration import steep

STAGES = tuple(Stage(h, 14.0) for h in (8, 8, 8, 12, 3))
PLAN = Plan(STAGES, tuple(BedSpell(24.0, 15.0) for _ in range(5)))
CAST_H = 39.0


def cast(states: list[State]) -> State:
    return next(s for s in reversed(states) if s.steeping)


lots = st.builds(
    lambda **values: Lot(**values),
    barley_moisture=st.floats(9.0, 16.0),
    rate_factor=st.floats(0.6, 1.6),
    film_db=st.floats(0.0, 0.1),
    breath_factor=st.floats(0.4, 2.2),
    drying_factor=st.floats(0.0, 1.5),
    leached=st.floats(0.0, 0.015),
)


@settings(max_examples=15, deadline=None)
@given(lots, st.floats(0.0, 40.0))
def test_dry_matter_and_water_close(lot: Lot, sprinkled: float) -> None:
    bed = (BedSpell(24.0, 15.0), BedSpell(48.0, 16.0, sprinkled_l_t=sprinkled))
    states = course(plan=Plan(STAGES, bed), lot=lot)
    whole = 1000.0 * (1.0 - lot.barley_moisture / 100.0)
    leached = whole * lot.leached * (1.0 - math.exp(-19.0 / 12.0))
    for state in states:
        if state.hour >= CAST_H:
            assert state.dry_kg + state.respired_kg + leached == pytest.approx(whole, rel=1e-9)
    first, last = cast(states), states[-1]
    water = [s.dry_kg * s.drained / (100.0 - s.drained) for s in (first, last)]
    gained = sprinkled + respiration.WATER_PER_KG * (last.respired_kg - first.respired_kg)
    assert water[1] == pytest.approx(water[0] + gained - (last.evaporated_kg - first.evaporated_kg), rel=1e-9)


def test_water_in_the_steep_is_that_of_the_steep_s_own_model() -> None:
    states = course(plan=PLAN, lot=Lot(barley_moisture=12.5))
    theirs = steep(barley_moisture=12.5, stages=STAGES)
    for hour, end in zip((8.0, 16.0, 24.0, 36.0, 39.0), theirs.ends, strict=True):
        # The rests are a little warmer than the water and dry a little: 0.1 points.
        assert at_hour(states, hour, lambda s: s.drained) == pytest.approx(end.drained, abs=0.1)
        assert at_hour(states, hour, lambda s: s.net) == pytest.approx(end.net, abs=0.1)


def test_heat_of_the_batch_is_the_one_law() -> None:
    states = course(plan=PLAN)
    for before, state in pairwise(states):
        if not state.steeping and before.hour > CAST_H:
            law = breathing(
                barley_kg=1000,
                barley_moisture=12,
                net_moisture=before.net,
                temp_c=15.0,
                growth_h=before.growth_h,
                loss_percent=100.0 * (1.0 - before.dry_kg / 880.0),
            )
            assert state.heat_kw == pytest.approx(law.heat_kw, rel=1e-9)


@settings(max_examples=12, deadline=None)
@given(st.floats(8.0, 18.0), st.floats(0.5, 2.0))
def test_warmer_water_wets_and_chits_no_less(water_c: float, more: float) -> None:
    plans = [PLAN._replace(stages=tuple(Stage(s.hours, at) for s in STAGES)) for at in (water_c, water_c + more)]
    cool, warm = (cast(course(plan=plan)) for plan in plans)
    assert warm.drained > cool.drained
    assert warm.chit_h > cool.chit_h
    assert warm.respired_kg > cool.respired_kg


def test_suction_cools_a_rest() -> None:
    plans = [PLAN._replace(suction_m3_h_t=flow, rest_air_c=10.0) for flow in (0.0, 7.8, 60.0)]
    fast = Lot(breath_factor=2.0)
    ends = [at_hour(course(plan=plan, lot=fast), 36.0, lambda s: s.temp_c) for plan in plans]
    assert ends == sorted(ends, reverse=True)
    assert ends[0] - ends[2] > 1.0


def test_a_wet_transfer_delays_the_peak_by_a_day() -> None:
    # Davidson & Jangaard 1978 (abstract read): 26 % less at once, the peak 24 h later or more.
    days = tuple(BedSpell(24.0, 15.0) for _ in range(7))
    dry, wet = (course(plan=Plan(STAGES, days, wet_transfer=how)) for how in (False, True))
    peak = [max((s for s in states if not s.steeping), key=lambda s: s.heat_kw).hour for states in (dry, wet)]
    assert peak[1] - peak[0] == pytest.approx(24.0, abs=3.1)
    first = [next(s for s in states if not s.steeping).heat_kw for states in (dry, wet)]
    assert first[1] / first[0] == pytest.approx(1.0 - 0.26, abs=0.03)


def test_losses_of_a_usual_batch_against_those_published() -> None:
    # Modern ranges (memory): steep 0.5 to 1.5 %, floor 3 to 6; Thomson (read): 1.5 and 3.0 in 14 days.
    states = course(plan=PLAN)
    whole = 880.0
    steeped = 100.0 * (1.0 - cast(states).dry_kg / whole)
    floor = 100.0 * (states[-1].respired_kg - cast(states).respired_kg) / whole
    assert 0.5 <= steeped <= 1.5
    assert 3.0 / math.exp(2 * DOUBT_LOG) <= floor <= 6.0
    assert 6.0 / math.exp(2 * DOUBT_LOG) <= floor


def test_chits_and_acrospires_of_a_usual_batch() -> None:
    # Common practice: most corns have chitted at the cast, nearly all half a day later.
    states = course(plan=PLAN)
    at_cast = chitted(clock_h=cast(states).chit_h, corns=Corns())
    later = chitted(clock_h=float(at_hour(states, CAST_H + 12.0, lambda s: s.chit_h)), corns=Corns())
    assert 0.5 < at_cast < 0.9 < later
    # The sheets' way to growth by day agrees with the batch's own clock within three hours of growth.
    for day in (1.0, 3.0, 5.0):
        own = at_hour(states, CAST_H + 24.0 * day, lambda s: s.growth_h)
        assert growth_after_cast(day=1.0 + day, temp_c=15.0) == pytest.approx(own, abs=3.0)


def test_water_leaves_with_heat() -> None:
    # computed (psychrolib): 0.921 kg for a kilowatt-hour, on at 14 C saturated, off at 16.5 C.
    day = bed_course(
        barley_moisture=12,
        moisture=45,
        growth_h=78,
        spells=[BedSpell(24.0, 16.5, air_c=14.0, air_rh=100.0)],
    )
    heat = sum(s.heat_kw * 3.0 for s in day[1:])
    assert day[-1].evaporated_kg / heat == pytest.approx(0.921, rel=0.01)


def test_moisture_lost_a_day() -> None:
    # A course on beer (Conservatoire national des arts et metiers, read): about 0.5 % of moisture a day in humid air.
    states = course(plan=PLAN)
    lost = (cast(states).drained - states[-1].net) / 5.0
    assert 0.25 < lost < 1.0


def test_sprinkling_makes_good_what_left() -> None:
    # computed: 1,000 kg from 43 to 45 % take 36.4 kg.
    spell = BedSpell(1.0, 10.0, air_c=9.0, sprinkled_l_t=36.4 * 880.0 * 0.99 / 570.0)
    day = bed_course(barley_moisture=12, moisture=43, growth_h=20, spells=[spell], lot=Lot(drying_factor=0.0))
    assert day[-1].net == pytest.approx(45.0, abs=0.05)


def test_dry_grain_cannot_grow_and_60_c_cannot_be() -> None:
    with pytest.raises(OutOfRange) as error:
        bed_course(barley_moisture=12, moisture=25.9, growth_h=20, spells=[BedSpell(24.0, 15.0)])
    assert error.value.parameter == "moisture"
    with pytest.raises(OutOfRange) as error:
        course(plan=Plan(STAGES, (BedSpell(24.0, 15.0), BedSpell(24.0, 60.0))))
    assert (error.value.table, error.value.row) == ("bed", 1)
    course(plan=Plan(STAGES, (BedSpell(24.0, 30.0),)))
    with pytest.raises(OutOfRange):
        course(plan=Plan(STAGES, (BedSpell(24.0, 30.1),)))
    with pytest.raises(OutOfRange) as error:
        course(plan=Plan((Stage(8, 14), Stage(8, 31))))
    assert (error.value.table, error.value.row) == ("stages", 1)


def test_a_bed_begins_with_what_the_steep_has_left() -> None:
    # By hand: of 1,000 kg at 12 %, 8 % of the dry matter lost, 1000 x 0.88 x 0.92 kg of dry matter are left.
    day = bed_course(barley_moisture=12, moisture=44, growth_h=20, spells=[BedSpell(24.0, 15.0)], loss_percent=8.0)
    first = day[0]
    assert first.dry_kg == pytest.approx(809.6)
    assert (first.hour, first.respired_kg, first.evaporated_kg, first.sprinkled_kg) == (0.0, 0.0, 0.0, 0.0)
    assert first.dry_kg - day[-1].dry_kg == pytest.approx(day[-1].respired_kg)
