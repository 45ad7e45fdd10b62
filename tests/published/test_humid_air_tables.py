"""Humid air against handbook tables and another library; each source beside its check."""

import pytest

from calculators.models.bed.air import bed_air, co2_percent, dry_air_kg_h
from calculators.models.bed.humid_air import fan_warming, moist_air, pressure_at, warmed
from calculators.models.bed.respiration import co2_kg_h_at

SEA = 101325.0


def test_the_handbook_tables() -> None:
    # ASHRAE tables as psychrolib's tests quote them (read): saturated air at 25 C, and the standard atmosphere.  The
    # 0.5 % and 0.3 % are the enhancement factor, which is left out here.
    saturated = moist_air(temp_c=25, relative_humidity=100, pressure_pa=SEA)
    assert saturated.humidity_ratio == pytest.approx(0.020173, rel=0.005)
    assert saturated.enthalpy_kj == pytest.approx(76.504, rel=0.003)
    assert pressure_at(altitude_m=500) == pytest.approx(95461, abs=0.5)
    assert pressure_at(altitude_m=1000) == pytest.approx(89875, abs=0.5)


def test_volume_and_enthalpy_at_altitude_by_hand() -> None:
    # Ideal gases, 8.314463 kJ/kmol K, 28.966 and 18.0153 kg/kmol (from memory): v = R T (1/28.966 + W/18.0153)/p.
    # h = 1.006 t + W (2501 + 1.86 t), as handbooks print it (from memory).
    state = moist_air(temp_c=30, relative_humidity=70, pressure_pa=95461.0)
    shifted = warmed(state._replace(humidity_ratio=0.02), by_k=0.0)
    by_hand = 8314.463 * 303.15 * (1 / 28.966 + 0.02 / 18.0153) / 95461.0
    assert shifted.volume_m3 == pytest.approx(by_hand, rel=1e-4)
    assert shifted.enthalpy_kj == pytest.approx(1.006 * 30 + 0.02 * (2501 + 1.86 * 30), rel=1e-6)


@pytest.mark.parametrize(
    ("temp", "rh", "pressure", "ratio", "enthalpy", "volume"),
    [  # computed with CoolProp 8.0.0, which has the enhancement factor
        (10, 100, 101325, 0.0076626, 29.3545, 0.811596),
        (14, 100, 101325, 0.0100133, 39.3713, 0.826161),
        (14, 95, 101325, 0.009505, 38.0879, 0.825499),
        (16.5, 100, 101325, 0.0117924, 46.4336, 0.835713),
        (20, 100, 101325, 0.0147605, 57.5592, 0.849789),
        (20, 60, 101325, 0.008773, 42.3751, 0.841828),
        (25, 100, 101325, 0.0201734, 76.5045, 0.871643),
        (12, 100, 89875, 0.0098988, 37.0638, 0.92479),
        (30, 80, 95461, 0.0230527, 89.0973, 0.944971),
    ],
)
def test_against_coolprop(
    temp: float, rh: float, pressure: float, ratio: float, enthalpy: float, volume: float
) -> None:
    state = moist_air(temp_c=temp, relative_humidity=rh, pressure_pa=pressure)
    assert state.humidity_ratio == pytest.approx(ratio, rel=0.005)
    # 0.3 % at sea level; a little more where thin air lets the water count for more
    assert state.enthalpy_kj == pytest.approx(enthalpy, rel=0.003 if pressure == 101325 else 0.0035)
    assert state.volume_m3 == pytest.approx(volume, rel=0.001)


def test_the_handbook_table_at_20_degrees() -> None:
    # ASHRAE table as quoted (memory): 0.014758 and 57.555 kJ/kg; psychrolib leaves the enhancement factor out.
    state = moist_air(temp_c=20, relative_humidity=100, pressure_pa=SEA)
    assert state.humidity_ratio == pytest.approx(0.014758, rel=0.005)
    assert state.enthalpy_kj == pytest.approx(57.555, rel=0.003)
    assert state.humidity_ratio < 0.014758


def _bed(on_c: float, off_c: float, pressure: float = SEA) -> tuple[float, float, float, float]:
    on = moist_air(temp_c=on_c, relative_humidity=100, pressure_pa=pressure)
    off = moist_air(temp_c=off_c, relative_humidity=100, pressure_pa=pressure)
    through = bed_air(air_on=on, air_off=off)
    dry = dry_air_kg_h(heat_kw=1.0, through=through)
    return dry, dry * on.volume_m3, dry * through.water_kg, through.sensible_share


def test_one_kilowatt_from_14_to_16_and_a_half_degrees() -> None:
    # worked by hand from the states above: m = 3600 / (dh - dW c_w T_off)
    dry, volume, water, sensible = _bed(14, 16.5)
    assert dry == pytest.approx(520.05, abs=0.05)
    assert volume == pytest.approx(429.8, abs=0.1)
    assert water == pytest.approx(0.921, abs=0.0005)
    assert sensible == pytest.approx(0.370, abs=0.0005)


def test_what_is_left_out_makes_the_printed_mistakes() -> None:
    on = moist_air(temp_c=14, relative_humidity=100, pressure_pa=SEA)
    off = moist_air(temp_c=16.5, relative_humidity=100, pressure_pa=SEA)
    assert 3600 / (off.enthalpy_kj - on.enthalpy_kj) == pytest.approx(511.0, abs=0.1)  # no liquid-water term
    assert pytest.approx(1431, abs=1) == 3600 / (1.006 * 2.5)  # warming of dry air alone
    assert _bed(14, 16.5)[0] == pytest.approx(1431 / 2.75, rel=0.002)


@pytest.mark.parametrize(
    ("on", "off", "pressure", "dry", "volume", "water"),
    [  # computed with CoolProp 8.0.0 by the same balance
        (14, 16.5, 101325, 518.78, 428.6, 0.9229),
        (12, 15, 101325, 460.75, 377.26, 0.8875),
        (14, 16, 101325, 654.42, 540.66, 0.9176),
        (14, 16.5, 89875, 478.51, 446.63, 0.9637),
    ],
)
def test_beds_against_coolprop(on: float, off: float, pressure: float, dry: float, volume: float, water: float) -> None:
    found = _bed(on, off, pressure)
    assert found[0] == pytest.approx(dry, rel=0.003)
    assert found[1] == pytest.approx(volume, rel=0.003)
    assert found[2] == pytest.approx(water, rel=0.005)


def test_the_fan_is_a_heater() -> None:
    # dT = dp/(rho cp eta): 800 Pa at 0.6 is about 1.09 K with rho cp of 1.22 kJ/m3 K; within 2 % of air.
    air = moist_air(temp_c=14, relative_humidity=100, pressure_pa=SEA)
    assert fan_warming(air, fan_pa=800, fan_efficiency=0.6) == pytest.approx(1.09, rel=0.02)


def test_gas_of_a_kilowatt() -> None:
    assert co2_kg_h_at(heat_kw=1.0) == pytest.approx(0.3392, abs=2e-4)  # 339.2 g/h, computed
    # One pass: 0.3392/44.01 kmol in 520.05/28.97 kmol of dry air is 0.043 %.
    once = co2_percent(co2_kg_h=0.3392, dry_air_kg_h=520.05, fresh_air_percent=100)
    assert once == pytest.approx(0.042 + 100 * (0.3392 / 44.01) / (520.05 / 28.97), abs=1e-4)
