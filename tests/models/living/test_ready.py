"""Days counted by temperature on the growth clock, and the corns that they bring to three quarters."""

from math import inf

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from calculators.models.bounds import OutOfRange
from calculators.models.living.acrospires import Acrospires, classes
from calculators.models.living.chitting import Corns
from calculators.models.living.pace import GROWTH_Q10, growth_after_cast, paces
from calculators.models.living.ready import days_left, own_corn_length, pace, share_done, share_ready
from calculators.rules.conventions import READY_AT_C, READY_DAYS

temp = st.floats(5, 25)
q10 = st.floats(1.2, 4)


@given(temp, q10)
def test_at_home_the_pace_is_one(at: float, factor: float) -> None:
    assert pace(temp_c=at, reference_temp_c=at, q10=factor) == pytest.approx(1.0)


@given(st.floats(5, 20), q10)
def test_ten_kelvin_more_is_the_factor(at: float, factor: float) -> None:
    assert pace(temp_c=at + 10, reference_temp_c=at, q10=factor) == pytest.approx(factor)


@given(temp, st.floats(30, 55))
def test_the_pace_is_that_of_the_growth_clock(at: float, moisture: float) -> None:
    law = paces(net_moisture=moisture, temp_c=at).growth
    assert pace(temp_c=at, reference_temp_c=15.0, moisture=moisture) == pytest.approx(law)
    assert pace(temp_c=at, reference_temp_c=15.0) >= law * (1 - 1e-12)


@given(st.lists(st.floats(5, 30), min_size=1, max_size=8), st.floats(5, 30), q10)
def test_what_is_done_and_what_is_left_make_the_whole(temps: list[float], now: float, factor: float) -> None:
    house = {"reference_temp_c": 15.0, "reference_days": 6.0, "q10": factor}
    done = share_done(temps_by_day=temps, **house)
    left = days_left(share=done, temp_c=now, **house)
    if done < 1:
        assert done + left * pace(temp_c=now, reference_temp_c=15.0, q10=factor) / 6.0 == pytest.approx(1.0)
    else:
        assert left == 0.0


def test_a_bed_too_dry_to_grow_never_comes() -> None:
    house = {"temp_c": 15.0, "reference_temp_c": 15.0, "reference_days": 5.0, "moisture": 25.0}
    assert days_left(share=0.5, **house) == inf and days_left(share=1.0, **house) == 0.0


def test_limits() -> None:
    for wrong in ({"temp_c": 4.9}, {"temp_c": 30.1}, {"q10": 1.1}, {"reference_temp_c": 25.1}):
        case = {"temp_c": 15.0, "reference_temp_c": 15.0, "q10": 2.0} | wrong
        with pytest.raises(OutOfRange):
            pace(**case)
    pace(temp_c=5.0, reference_temp_c=5.0, q10=1.2)
    pace(temp_c=30.0, reference_temp_c=25.0, q10=4.0)
    assert pytest.approx(2.25) == GROWTH_Q10


@given(st.floats(2, 28), st.floats(8, 22), st.floats(0.5, 0.9))
@example(24.0, 22.0, 0.5)
def test_at_the_houses_days_its_share_is_ready(days: float, at: float, share: float) -> None:
    grown = growth_after_cast(day=1.0 + days, temp_c=at)
    if grown > 1000.0:
        with pytest.raises(OutOfRange, match="growth_h"):
            own_corn_length(reference_days=days, reference_temp_c=at, share=share)
        return
    length = own_corn_length(reference_days=days, reference_temp_c=at, share=share)
    assert share_ready(growth_h=grown, corn_length_h=length) == pytest.approx(share, abs=0.02)


def test_the_share_is_that_of_the_acrospires_classes() -> None:
    # classes: up to 1/4, 1/2, 3/4, 1 and over; ready are the last two.
    found = classes(growth_h=135.0, corns=Corns(), acrospires=Acrospires(130.0))
    assert share_ready(growth_h=135.0, corn_length_h=130.0) == pytest.approx(found[3] + found[4])


def test_the_laws_own_days_are_the_usual_ones() -> None:
    # Five to seven days at 12 to 17 C (Mueller and others 2014, read): the law's own acrospires take the usual five.
    length = own_corn_length(reference_days=READY_DAYS, reference_temp_c=READY_AT_C, share=0.75)
    assert length == pytest.approx(Acrospires().corn_length_h, rel=0.05)


def test_a_house_may_call_it_ready_at_a_tenth_of_its_corns_and_not_under() -> None:
    length = own_corn_length(reference_days=5.0, reference_temp_c=15.0, share=0.1)
    assert length > own_corn_length(reference_days=5.0, reference_temp_c=15.0, share=0.9)
    for share in (0.09, 0.91):
        with pytest.raises(OutOfRange, match="share"):
            own_corn_length(reference_days=5.0, reference_temp_c=15.0, share=share)
