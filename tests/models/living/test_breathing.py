"""What must hold for the rate of breathing, and for all that follows from it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.bounds import OutOfRange
from calculators.models.living.breathing import (
    PEAK_PER_H,
    WET_TRANSFER_SHARE,
    after_wet_transfer,
    breathing,
    breathing_rate,
    exchange,
    growth_course,
)
from calculators.models.living.maths import FLOATS

moistures = st.floats(24.0, 55.0)
temps = st.floats(0.0, 40.0)
grown = st.floats(0.0, 400.0)


@given(st.floats(0.0, 1e3))
def test_mass_closes(respired: float) -> None:
    one = exchange(respired_kg_h=respired)
    assert one.loss_kg_h + one.o2_kg_h == pytest.approx(one.co2_kg_h + one.water_kg_h, rel=1e-5)


@given(moistures, temps, grown)
def test_all_five_are_one_rate(net_moisture: float, temp_c: float, growth_h: float) -> None:
    rate = breathing_rate(net_moisture=net_moisture, temp_c=temp_c, growth_h=growth_h)
    batch = breathing(barley_kg=1000, barley_moisture=12, net_moisture=net_moisture, temp_c=temp_c, growth_h=growth_h)
    assert batch.loss_kg_h == pytest.approx(880.0 * rate)
    assert batch.co2_kg_h / batch.o2_kg_h == pytest.approx(44.0095 / 31.9988)
    assert batch.heat_kw * 3.6 / batch.co2_kg_h == pytest.approx(10.6, abs=0.03)


@given(moistures, temps, grown, st.floats(0.1, 5.0))
def test_warmer_and_wetter_breathes_no_less(net_moisture: float, temp_c: float, growth_h: float, more: float) -> None:
    here = breathing_rate(net_moisture=net_moisture, temp_c=temp_c, growth_h=growth_h)
    assert here > 0.0
    if temp_c + more <= 40.0:
        assert breathing_rate(net_moisture=net_moisture, temp_c=temp_c + more, growth_h=growth_h) > here
    if net_moisture + more <= 55.0:
        assert breathing_rate(net_moisture=net_moisture + more, temp_c=temp_c, growth_h=growth_h) >= here


def test_it_starts_near_nothing_rises_peaks_and_declines() -> None:
    dry = breathing_rate(net_moisture=12, temp_c=15, growth_h=0)
    wet = breathing_rate(net_moisture=40, temp_c=15, growth_h=0)
    assert dry < 1e-3 * PEAK_PER_H and wet > 20 * dry
    course = [growth_course(FLOATS, 6.0 * n) for n in range(60)]
    top = course.index(max(course))
    assert course[: top + 1] == sorted(course[: top + 1]) and course[top:] == sorted(course[top:], reverse=True)
    # About the third day after a usual cast (18 hours of growth), 66 to 90.
    assert 18 + 48 <= 6 * top <= 18 + 72
    assert max(course) == pytest.approx(1.0, abs=2e-3)


@given(moistures, temps, grown, st.floats(0.0, 19.0), st.floats(0.1, 1.0))
def test_less_air_less_breath(net_moisture: float, temp_c: float, growth_h: float, o2: float, more: float) -> None:
    state = {"net_moisture": net_moisture, "temp_c": temp_c, "growth_h": growth_h}
    assert breathing_rate(**state, o2_percent=o2) < breathing_rate(**state, o2_percent=o2 + more)
    assert breathing_rate(**state, o2_percent=20.9) == pytest.approx(breathing_rate(**state))
    assert breathing_rate(**state, supply_mg_kg_h=0.0) == 0.0
    assert breathing_rate(**state, supply_mg_kg_h=1000.0) <= breathing_rate(**state)


def test_no_oxygen_no_breath() -> None:
    assert breathing_rate(net_moisture=45, temp_c=15, growth_h=78, o2_percent=0.0) == 0.0


def test_after_a_wet_transfer() -> None:
    # Davidson & Jangaard 1978 (abstract read): 26 % less at once, up to 28 h to recover, peak 24 h later or more.
    assert after_wet_transfer(FLOATS, 0.0)[0] == pytest.approx(1.0 - WET_TRANSFER_SHARE)
    assert after_wet_transfer(FLOATS, 28.0)[0] == 1.0
    lost = sum(1.0 - after_wet_transfer(FLOATS, h + 0.5)[1] for h in range(60))
    assert lost == pytest.approx(24.0)


@pytest.mark.parametrize(
    ("name", "inside", "outside"),
    [
        ("temp_c", 40.0, 40.01),
        ("temp_c", 0.0, -0.01),
        ("temp_c", 39.0, 60.0),
        ("net_moisture", 55.0, 55.01),
        ("growth_h", 1000.0, 1000.1),
        ("growth_h", 0.0, -0.1),
        ("o2_percent", 25.0, 25.1),
        ("factor", 10.0, 10.1),
    ],
)
def test_limits_from_both_sides(name: str, inside: float, outside: float) -> None:
    state = {"net_moisture": 44.0, "temp_c": 15.0, "growth_h": 50.0}
    breathing_rate(**{**state, name: inside})
    with pytest.raises(OutOfRange) as error:
        breathing_rate(**{**state, name: outside})
    assert error.value.parameter == name


def test_dry_grain_that_grows_cannot_be() -> None:
    breathing_rate(net_moisture=12.0, temp_c=15.0, growth_h=0.0)
    breathing_rate(net_moisture=24.0, temp_c=15.0, growth_h=5.0)
    with pytest.raises(OutOfRange, match="have not grown"):
        breathing_rate(net_moisture=23.9, temp_c=15.0, growth_h=5.0)
