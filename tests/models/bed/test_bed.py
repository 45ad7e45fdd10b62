"""The aired bed: balances that hold for every input."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.models.bed.air import bed_air, co2_percent, dry_air_kg_h, moisture_after_a_day
from calculators.models.bed.humid_air import WATER_KJ_KG_K, fan_warming, moist_air, warmed
from calculators.models.bounds import OutOfRange

SEA = 101325.0


@given(on=st.floats(5, 25), rise=st.floats(0.2, 8), rh=st.floats(80, 100))
def test_heat_is_what_warms_the_air_and_what_makes_the_vapour(on: float, rise: float, rh: float) -> None:
    before = moist_air(temp_c=on, relative_humidity=rh, pressure_pa=SEA)
    after = moist_air(temp_c=on + rise, relative_humidity=100, pressure_pa=SEA)
    through = bed_air(air_on=before, air_off=after)
    vapour = through.water_kg * (2501 + 1.86 * after.temp_c - WATER_KJ_KG_K * after.temp_c)
    assert through.heat_kj == pytest.approx(through.sensible_kj + vapour, rel=1e-9)
    assert 0 < through.sensible_share < 1


@given(heat=st.floats(0.1, 500))
def test_air_grows_with_heat(heat: float) -> None:
    on = moist_air(temp_c=14, relative_humidity=100, pressure_pa=SEA)
    off = moist_air(temp_c=17, relative_humidity=100, pressure_pa=SEA)
    through = bed_air(air_on=on, air_off=off)
    assert dry_air_kg_h(heat_kw=heat, through=through) * through.heat_kj == pytest.approx(heat * 3600)


def test_air_that_does_not_cool_is_refused() -> None:
    on = moist_air(temp_c=14, relative_humidity=100, pressure_pa=SEA)
    with pytest.raises(OutOfRange, match="warmer"):
        bed_air(air_on=on, air_off=on)
    dry = moist_air(temp_c=20, relative_humidity=50, pressure_pa=SEA)
    with pytest.raises(OutOfRange) as error:
        bed_air(air_on=on, air_off=dry)
    # At the limit it names, the air off carries just what came in.
    edge = moist_air(temp_c=20, relative_humidity=error.value.low, pressure_pa=SEA)
    assert edge.humidity_ratio == pytest.approx(on.humidity_ratio, rel=1e-9)


@given(rise=st.floats(0.0, 5))
def test_warming_keeps_the_water_and_lowers_the_humidity(rise: float) -> None:
    state = moist_air(temp_c=14, relative_humidity=100, pressure_pa=SEA)
    after = warmed(state, by_k=rise)
    assert after.humidity_ratio == state.humidity_ratio
    assert after.relative_humidity <= 100.0
    assert after.enthalpy_kj - state.enthalpy_kj == pytest.approx(state.heat_kj_k * rise, abs=1e-9)


def test_the_fans_power_is_all_in_the_air() -> None:
    state = moist_air(temp_c=14, relative_humidity=90, pressure_pa=SEA)
    rise = fan_warming(state, fan_pa=1000, fan_efficiency=0.5)
    assert warmed(state, by_k=rise).enthalpy_kj - state.enthalpy_kj == pytest.approx(
        1000 * state.volume_m3 / 0.5 / 1000
    )


@given(share=st.floats(1, 100), gas=st.floats(0.01, 10))
def test_returned_gas_ends_where_passing_again_and_again_ends(share: float, gas: float) -> None:
    air, fresh, out = 5000.0, share / 100, 0.042
    added = 100 * (gas / 44.0095) / (air / 28.966)
    level = out
    for _ in range(20):
        level = fresh * out + (1 - fresh) * level + added
    end = co2_percent(co2_kg_h=gas, dry_air_kg_h=air, fresh_air_percent=share)
    assert level <= end + 1e-9
    if share > 60:
        assert level == pytest.approx(end, rel=1e-6)


def test_none_fresh_is_not_answered() -> None:
    with pytest.raises(OutOfRange):
        co2_percent(co2_kg_h=1, dry_air_kg_h=1000, fresh_air_percent=0.99)


def test_a_bed_that_only_breathes_gets_wetter() -> None:
    after = moisture_after_a_day(dry_matter_kg=880, bed_moisture=45, evaporated_kg_day=0, respired_kg_day=8.8)
    assert after > 45
    dried = moisture_after_a_day(dry_matter_kg=880, bed_moisture=45, evaporated_kg_day=1e6, respired_kg_day=8.8)
    assert dried == 0.0
