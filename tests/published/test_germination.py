"""Germination against what was published; each source beside its check."""

import pytest

from calculators.models.bed import respiration
from calculators.models.bed.floor import difference_held, heating_rate
from calculators.models.living.ready import days_left
from calculators.models.weights.basket import FILM_DB_LIMITS
from calculators.models.weights.moisture import water_to_add
from calculators.models.weights.sprinkling import clings_l
from tests.sheets.ask import values

GLUCOSE_G_MOL = 180.1559  # C6H12O6, from the standard atomic weights
BUSHEL_LB, LB_KG, US_GALLON_L = 48.0, 0.45359237, 3.785411784


def test_starch_basis() -> None:
    # Published for starch: 17.39 MJ/kg (read), from its own table; ours follows from 2,803 kJ/mol (read).
    assert pytest.approx(1.629, abs=5e-4) == respiration.CO2_PER_KG
    assert pytest.approx(1.184, abs=5e-4) == respiration.O2_PER_KG
    assert pytest.approx(0.556, abs=5e-4) == respiration.WATER_PER_KG
    assert pytest.approx(17.39, rel=0.01) == respiration.HEAT_MJ_PER_KG


def test_starch_is_not_mixed_up_with_glucose() -> None:
    # Glucose (read): 1.47 g CO2, 0.60 g water, 15.64 kJ a gram. Taking them for starch is 10 to 11 % wrong.
    glucose_mj = 2.803 / GLUCOSE_G_MOL * 1000
    assert glucose_mj == pytest.approx(15.56, abs=0.01)
    assert respiration.HEAT_MJ_PER_KG / glucose_mj == pytest.approx(1.111, abs=0.001)
    assert pytest.approx(1.111, abs=0.001) == respiration.CO2_PER_KG / 1.466
    # Heat for each kilogram of gas is the same on both bases: a mix of the two would show here.
    assert pytest.approx(10.6, abs=0.02) == respiration.HEAT_MJ_PER_KG / respiration.CO2_PER_KG
    assert glucose_mj / 1.466 == pytest.approx(10.6, abs=0.02)
    # Mass is kept only when all four figures are of one basis.
    assert pytest.approx(respiration.CO2_PER_KG + respiration.WATER_PER_KG, rel=1e-5) == 1 + respiration.O2_PER_KG
    assert abs(1 + respiration.O2_PER_KG - 1.466 - respiration.WATER_PER_KG) > 0.1


def test_the_sheet_is_on_the_starch_basis() -> None:
    found = values("bed-heat", barley_kg="1000", barley_moisture="14", day="", dry_matter_loss_per_day="1")
    assert found["heat_kw"] * 3.6 / found["co2_kg_h"] == pytest.approx(10.615, abs=0.01)
    assert found["heat_kw"] == pytest.approx(1.72, abs=0.005)


def test_a_tonne_that_loses_five_per_cent_in_five_days() -> None:
    # 43 kg, 70.0 kg of gas, 743 MJ, mean 1.72 kW (computed from the figures above).
    dry = respiration.barley_dry_matter(barley_kg=1000, barley_moisture=14)
    gone = respiration.respired_per_day(dry_matter_kg=dry, dry_matter_loss_per_day=1.0)
    assert 5 * gone == pytest.approx(43)
    assert respiration.co2_kg_h(respired_kg_day=gone) * 120 == pytest.approx(70.0, abs=0.05)
    assert respiration.heat_kw(respired_kg_day=gone) == pytest.approx(1.72, abs=0.005)
    assert 5 * gone * respiration.HEAT_MJ_PER_KG == pytest.approx(743, abs=0.5)


def test_moisture_lost_a_day_is_what_practice_sees() -> None:
    # A course on beer (CNAM, read): about 0.5 % of moisture lost for each day of germination.
    lost = [values("bed-heat", day=str(day))["moisture_lost_points_day"] for day in range(1, 6)]
    assert 0.4 < sum(lost) / 5 < 0.7 and max(lost) < 0.9


def test_published_airflow_carries_off_a_usual_heat() -> None:
    # 3.7 m/min (a Portuguese text, read) through 550 to 600 kg/m2 (Cereals processing technology p. 193, read).
    for load, per_tonne in ((600, 370), (550, 404)):
        assert 3.7 * 60 / load * 1000 == pytest.approx(per_tonne, abs=1)
    # With a rise of 4 K that is the air for about 1.4 kW a tonne, between a floor's heat and a warm box's.
    found = values(
        "bed-heat", barley_kg="1000", barley_moisture="14", day="", dry_matter_loss_per_day="0.8", air_off_c="18"
    )
    assert 330 < found["airflow_m3_h_t"] < 420


def test_thomsons_floors_give_the_pace_for_ten_degrees() -> None:
    # Thomson 1824 (read): 14 days at about 62 F in England, 18 to 21 at 55 F in Scotland.
    warm, cool = (62 - 32) / 1.8, (55 - 32) / 1.8
    days = days_left(share=0, temp_c=cool, reference_temp_c=warm, reference_days=14)
    assert 18 <= days <= 21
    for printed, q10 in ((18, 1.91), (21, 2.83)):
        assert (printed / 14) ** (10 / (warm - cool)) == pytest.approx(q10, abs=0.02)


def test_coppingers_watering() -> None:
    # Coppinger 1815 (in a copy): 54 gallons for 60 bushels, two thirds on top and a third after turning.
    barley = 60 * BUSHEL_LB * LB_KG
    assert 54 * US_GALLON_L / barley * 1000 == pytest.approx(156, abs=1)
    bed = barley * 0.88 / 0.60  # at 40 %, from 12 %
    first = 36 * US_GALLON_L
    most = clings_l(bed_kg=bed, moisture_now=40, film_db=FILM_DB_LIMITS.high)
    assert first == pytest.approx(most, rel=0.03)
    after = 100 * (bed * 0.4 + 54 * US_GALLON_L) / (bed + 54 * US_GALLON_L)
    assert after - 40 == pytest.approx(5.8, abs=0.1)
    assert water_to_add(weight_kg=bed, moisture=40, final_moisture=after) == pytest.approx(54 * US_GALLON_L)


@pytest.mark.parametrize("depth", [0.15, 0.20, 0.50])
def test_three_kelvin_arrive_after_three_and_a_half_hours_at_any_depth(depth: float) -> None:
    # computed elsewhere for 1 kW/t, surface held: after about 3.4 h
    assert difference_held(hours=3.4, depth_m=depth, heat_kw_t=1.0) == pytest.approx(3.0, abs=0.05)


@pytest.mark.parametrize(("depth", "printed"), [(0.075, 4.7), (0.10, 5.8), (0.15, 6.8), (0.20, 6.9)])
def test_difference_after_eight_hours(depth: float, printed: float) -> None:
    # computed elsewhere for 1 kW/t with a conduction not stated to the digit; ours takes 0.2 W/m K
    assert difference_held(hours=8.0, depth_m=depth, heat_kw_t=1.0) == pytest.approx(printed, abs=0.2)


def test_heating_just_after_turning() -> None:
    # 450 kg of barley/m3 at 1 kW/t: 0.89 K an hour (computed elsewhere, with 1.17 kJ/kg K for dry matter of barley at
    # 12 %; ours has 1.3 and barley at 14 %).  Published for dry matter: 0.84 (Earle, read) to 1.6 (Kim and Chang 1980,
    # abstract), which is 0.98 to 0.83 K.
    assert heating_rate(heat_kw_t=1.0) == pytest.approx(0.89, abs=0.005)
    for dry, rate in ((0.84, 0.98), (1.6, 0.83)):
        assert 450 * 3.6 / (387 * dry + 387 * 45 / 55 * 4.186) == pytest.approx(rate, abs=0.01)
