"""Days counted by temperature."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.bed import growth, respiration
from calculators.models.bed.growth import days_left, pace, share_done
from calculators.models.bounds import OutOfRange

temp = st.floats(5, 25)
q10 = st.floats(1.2, 4)


@given(temp, q10)
def test_at_home_the_pace_is_one(at: float, factor: float) -> None:
    assert pace(temp_c=at, reference_temp_c=at, q10=factor) == pytest.approx(1.0)


@given(st.floats(5, 20), q10)
def test_ten_kelvin_more_is_the_factor(at: float, factor: float) -> None:
    assert pace(temp_c=at + 10, reference_temp_c=at, q10=factor) == pytest.approx(factor)


@given(st.lists(st.floats(5, 30), min_size=1, max_size=8), st.floats(5, 30), q10)
def test_what_is_done_and_what_is_left_make_the_whole(temps: list[float], now: float, factor: float) -> None:
    house = {"reference_temp_c": 15.0, "reference_days": 6.0, "q10": factor}
    done = share_done(temps_by_day=temps, **house)
    left = days_left(share=done, temp_c=now, **house)
    if done < 1:
        assert done + left * pace(temp_c=now, reference_temp_c=15.0, q10=factor) / 6.0 == pytest.approx(1.0)
    else:
        assert left == 0.0


def test_limits() -> None:
    for wrong in ({"temp_c": 4.9}, {"temp_c": 30.1}, {"q10": 1.1}, {"reference_temp_c": 25.1}):
        case = {"temp_c": 15.0, "reference_temp_c": 15.0, "q10": 2.0} | wrong
        with pytest.raises(OutOfRange):
            pace(**case)
    pace(temp_c=5.0, reference_temp_c=5.0, q10=1.2)
    pace(temp_c=30.0, reference_temp_c=25.0, q10=4.0)


def test_the_course_by_day_has_the_mean_it_claims() -> None:
    assert sum(respiration.DAY_SHARES[:5]) / 5 == pytest.approx(1.0)
    assert respiration.day_share(day=30) == respiration.DAY_SHARES[-1]
    assert pytest.approx(2.25) == growth.TYPICAL_Q10
