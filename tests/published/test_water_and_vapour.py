"""Water and its vapour side by side against the IAPWS formulation of 1995, as CoolProp 8.0.0 computes it."""

import psychrolib
import pytest

from calculators.models.bed.latent_heat import boundary, latent_heat
from calculators.models.steep.oxygen import oxygen_saturation
from tests.models.both_sides import Case, cases

# Temperature [C], pressure [Pa], its rise [Pa/K], density of the water and of its vapour [kg/m3], heat [kJ/kg].
COMPUTED = [
    (1, 657.0856, 47.3598, 999.851, 0.005196458, 2498.55),
    (10, 1228.199, 82.3, 999.6546, 0.009407052, 2477.19),
    (20, 2339.318, 144.912, 998.1618, 0.01731401, 2453.52),
    (45, 9594.999, 493.39, 990.1728, 0.06556486, 2393.99),
    (60, 19946.43, 923.123, 983.1602, 0.1304252, 2357.65),
    (80, 47414.47, 1919.87, 971.7662, 0.2936721, 2308.0),
    (100, 101418.0, 3619.34, 958.3491, 0.5981698, 2256.4),
    (120, 198674.4, 6292.42, 943.1066, 1.122067, 2202.11),
]


@pytest.mark.parametrize(("temperature_c", "pressure", "rise", "liquid", "vapour", "heat"), COMPUTED)
def test_the_boundary(
    temperature_c: float, pressure: float, rise: float, liquid: float, vapour: float, heat: float
) -> None:
    found = boundary(temperature_c=temperature_c)
    assert found.pressure_pa == pytest.approx(pressure, rel=1e-4)
    assert found.rise_pa_k == pytest.approx(rise, rel=3e-4)
    assert found.liquid_kg_m3 == pytest.approx(liquid, rel=2e-5)
    assert found.vapour_kg_m3 == pytest.approx(vapour, rel=2e-4)
    assert latent_heat(temperature_c=temperature_c) == pytest.approx(heat, rel=3e-4)


@pytest.mark.parametrize("case", cases(latent_heat, {}, temperature_c=(1.0, 120.0)), ids=str)
def test_limits_from_both_sides(case: Case) -> None:
    case.hold()


@pytest.mark.parametrize("altitude_m", [500.0, 2000.0, 4000.0])
@pytest.mark.parametrize("temp_c", [1.0, 10.0, 25.0, 40.0])
def test_oxygen_at_a_height_is_as_its_share_of_dry_air(temp_c: float, altitude_m: float) -> None:
    """Henry's law: by the pressure of air less that of vapour, here psychrolib's. Oxygen is no ideal gas: 0.1 %."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    vapour = psychrolib.GetSatVapPres(temp_c)
    here, sea = psychrolib.GetStandardAtmPressure(altitude_m), psychrolib.GetStandardAtmPressure(0.0)
    found = oxygen_saturation(water_temp_c=temp_c, altitude_m=altitude_m) / oxygen_saturation(water_temp_c=temp_c)
    assert found == pytest.approx((here - vapour) / (sea - vapour), rel=1e-3)
