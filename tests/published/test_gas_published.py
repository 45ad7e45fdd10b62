"""Gas, dilution and exposure against published tables and worked cases."""

from __future__ import annotations

import math

import pytest

from calculators.models.gas import dilution as gas
from calculators.models.gas import exposure, shut_vessel
from calculators.models.nature import FRESH_OXYGEN_PERCENT
from tests.sheets.ask import values

# CDC 1994, MMWR 43 (RR-13), Table S3-1 (read in a copy of the printed page):
# air changes an hour -> minutes for 90, 99 and 99.9 % removal.
MMWR_S3_1 = {
    1: (138, 276, 414),
    2: (69, 138, 207),
    3: (46, 92, 138),
    4: (35, 69, 104),
    5: (28, 55, 83),
    6: (23, 46, 69),
    7: (20, 39, 59),
    8: (17, 35, 52),
    9: (15, 31, 46),
    10: (14, 28, 41),
    11: (13, 25, 38),
    12: (12, 23, 35),
    13: (11, 21, 32),
    14: (10, 20, 30),
    15: (9, 18, 28),
    16: (9, 17, 26),
    17: (8, 16, 24),
    18: (8, 15, 23),
    19: (7, 15, 22),
    20: (7, 14, 21),
    25: (6, 11, 17),
    30: (5, 9, 14),
    35: (4, 8, 12),
    40: (3, 7, 10),
    45: (3, 6, 9),
    50: (3, 6, 8),
}
CELLS = [(ach, left, m) for ach, row in MMWR_S3_1.items() for left, m in zip((0.1, 0.01, 0.001), row, strict=True)]


def half_up(value: float) -> int:
    return math.floor(value + 0.5)


@pytest.mark.parametrize(("ach", "left", "minutes"), CELLS)
def test_every_cell_of_mmwr_table_s3_1(ach, left, minutes):
    found = gas.dilution_minutes(volume_m3=10, airflow_m3_h=10 * ach, start_ppm=1e6, end_ppm=1e6 * left, outdoor_ppm=0)
    assert half_up(found) == minutes


@pytest.mark.parametrize(("ach", "left", "minutes"), CELLS[::7])
def test_the_sheet_gives_ten_times_the_table(ach, left, minutes):
    # The table's note: the required time is the table's time multiplied by the mixing factor, up to 10. Of what lies
    # above the air blown in (420 ppm) the share `left` stays.
    above = 500.0
    room = {"volume_m3": "10", "airflow_m3_h": str(10 * ach), "start_ppm": repr(420 + above / left)}
    found = values("dilution-estimate", **room, end_ppm=repr(420 + above))
    assert half_up(found["minutes"] / 10) == minutes
    assert found["air_changes"] == pytest.approx(ach)


def test_a_misprinted_reprint_of_the_table_is_not_reproduced():
    # A Canadian reprint (Canada Communicable Disease Report 22S1, appendix F) has 3 at 13 air changes.
    found = gas.dilution_minutes(volume_m3=1, airflow_m3_h=13, start_ppm=1e6, end_ppm=1e3, outdoor_ppm=0)
    assert half_up(found) == 32


@pytest.mark.parametrize(("minutes", "share"), [(20, 0.2835), (40, 0.4866)])
def test_rise_with_a_source_published_second_hand(minutes, share):
    # q = V = 1, one air change an hour.
    found = gas.diluted_ppm(minutes=minutes, volume_m3=1, airflow_m3_h=1, start_ppm=0, outdoor_ppm=0, source_m3_h=1e-6)
    assert found == pytest.approx(share, abs=6e-5)


def test_5000_ppm_by_weight():
    # Printed: 9,150 mg/m3 in EH40 (second-hand, 20 C), 9,000 by NIOSH (read; 44/24.45 at 25 C).
    assert gas.mg_m3(ppm=5000, temperature_c=20) == pytest.approx(9150, abs=5)
    assert gas.mg_m3(ppm=15_000, temperature_c=20) == pytest.approx(27_400, rel=0.002)
    assert gas.mg_m3(ppm=5000, temperature_c=25) == pytest.approx(9000, abs=6)
    assert gas.molar_volume_l(temperature_c=25) == pytest.approx(24.45, abs=0.02)
    assert gas.molar_volume_l(temperature_c=20) == pytest.approx(24.05526, rel=1e-5)
    # 9,000 at 20 C is the mix-up of the two temperatures.
    assert gas.mg_m3(ppm=5000, temperature_c=20) != pytest.approx(9000, abs=100)


def test_the_worked_case_of_29_cfr_1910_1000():
    # "(2 x 150 + 2 x 75 + 4 x 50) / 8 = 81.25 ppm" (read in a copy of the regulation).
    rows = [(150.0, 120.0), (75.0, 120.0), (50.0, 240.0)]
    assert exposure.time_weighted_ppm(rows) == 81.25
    # Tenfold for the sheet: it takes 75 and 50 for no reading of carbon dioxide, and orders people out.
    assert values("exposure", rows="1500 120; 750 120; 500 240", unmeasured_ppm="")["twa_ppm"] == 812.5


def test_minutes_of_the_shut_drum_with_six_tonnes():
    # 6 t at 1 kW/t, 15 m3 free: 0.5 % after 4 min, 1.5 % after 12, 4 % after 32; oxygen alarm at about 11.
    drum = shut_vessel.shut(**{**shut_vessel.EXAMPLE_DRUM, "respiration_kw_t": 1.0})

    def minutes(ppm: float) -> float:
        found = drum.minutes_until(ppm)[1]
        assert found is not None
        return found

    assert [half_up(minutes(ppm)) for ppm in (5000, 15_000, 40_000)] == [4, 12, 32]
    alarm = (FRESH_OXYGEN_PERCENT - 19.5) * 1e4 + 420
    assert half_up(minutes(alarm)) == 11
    assert shut_vessel.oxygen_percent(ppm=alarm) == pytest.approx(19.5)


def test_what_an_oxygen_meter_shows():
    # An alarm at 19.5 % means 6.7 % carbon dioxide by displacement, 1.4 % with breathing one for one (computed).
    assert shut_vessel.oxygen_displaced_percent(ppm=67_000) == pytest.approx(19.5, abs=0.01)
    assert shut_vessel.oxygen_percent(ppm=14_420) == pytest.approx(19.5)


def test_gas_and_heat():
    # Reference figures: 1 kW is 339.2 g/h of carbon dioxide (computed); 10.6 MJ for each kilogram.
    assert shut_vessel.co2_kg_h(barley_kg=1000, respiration_kw_t=1) == pytest.approx(0.3392, rel=5e-4)
    # 1 % a day of 860 kg of dry matter, as starch at 2,803 kJ for each 162.14 g (by hand).
    by_hand = 8.6 * 2803 / 0.16214 / 86_400
    found = shut_vessel.co2_kg_h(barley_kg=1000, respiration_kw_t=by_hand)
    assert by_hand == pytest.approx(1.72, abs=0.002)
    assert found == pytest.approx(8.6 / 24 * 6 * 44.01 / 162.14, rel=5e-4)
