"""The one table of gases against what was read in print, value by value."""

from __future__ import annotations

import pytest

from calculators.rules import gases
from calculators.rules.gases import CL2, CO, CO2, GASES, H2S, LIMITS, NH3, PH3, PLACES, SO2, GasLimit
from calculators.sources import SOURCES

BY_ID = {limit.id: limit for limit in LIMITS}

# Read: NIOSH, documentation for immediately dangerous concentrations, May 1994, the pages of the substances named by
# their CAS number in the table of sources: (law, advised over the shift, short term or ceiling advised).
NIOSH_READ = {
    "co2-us-day": 5000,
    "co2-us-ten": 5000,
    "co2-us-short": 30_000,
    "co2-danger": 40_000,
    "co-us-day": 50,
    "co-us-ten": 35,
    "co-us-ceiling": 200,
    "h2s-us-ceiling": 20,
    "h2s-us-peak": 50,
    "h2s-us-ten": 10,
    "so2-us-day": 5,
    "so2-us-ten": 2,
    "so2-us-short": 5,
    "ph3-us-day": 0.3,
    "ph3-us-ten": 0.3,
    "ph3-us-short": 1,
    "ph3-danger": 50,
    "cl2-us-ceiling": 1,
    "cl2-us-short": 0.5,
    "cl2-danger": 10,
}
# Read: the European Chemicals Agency's lists of limit values (2017/164 and 2004/37, annex III).
ECHA_READ = {"co-eu-day": (20, 23), "co-eu-short": (100, 117), "so2-eu-day": (0.5, 1.3), "so2-eu-short": (1, 2.7)}
# Grams a mole, for the milligrams printed beside the ppm.
MOLAR = {CO2: 44.01, CO: 28.01, H2S: 34.08, SO2: 64.06, PH3: 34.00, CL2: 70.90, NH3: 17.03}


@pytest.mark.parametrize("name", NIOSH_READ)
def test_american_values_as_printed_by_niosh(name):
    assert BY_ID[name].ppm == NIOSH_READ[name]
    assert BY_ID[name].how_read == "read"


@pytest.mark.parametrize("name", ECHA_READ)
def test_european_values_as_listed_by_the_chemicals_agency(name):
    limit = BY_ID[name]
    assert (limit.ppm, limit.printed_mg_m3) == ECHA_READ[name]
    assert limit.how_read == "read"


@pytest.mark.parametrize("limit", [one for one in LIMITS if one.printed_mg_m3], ids=lambda one: one.id)
def test_printed_milligrams_belong_to_the_ppm(limit: GasLimit):
    # At 20 C and 101.3 kPa a mole has 24.06 L (91/322/EEC, read), at 25 C 24.45 (NIOSH, read); print is rounded.
    assert limit.printed_mg_m3 is not None
    litres = {25: 24.45}.get(int(limit.printed_at_c or 20), 24.06)
    assert limit.printed_mg_m3 == pytest.approx(limit.ppm * MOLAR[limit.gas] / litres, rel=0.03)


@pytest.mark.parametrize("gas", GASES)
def test_each_gas_has_its_values_for_three_places_and_one_for_danger(gas):
    for where in ("us", "uk", "eu"):
        kinds = {limit.kind for limit in gases.limits_of(gas, where=where)} - {"danger"}
        assert kinds, f"{gas}: nothing for {PLACES[where]}"
        # carbon dioxide has no short-term value in the European Union, chlorine none for a day in either
        assert "short" in kinds or "ceiling" in kinds or (gas, where) == (CO2, "eu")
    (danger,) = gases.limits_of(gas, kinds=("danger",))
    assert danger.ppm > gases.strictest(gas, "ceiling", "short").ppm


@pytest.mark.parametrize("limit", LIMITS, ids=lambda one: one.id)
def test_each_value_has_a_source_and_claims_no_more_than_it(limit: GasLimit):
    order = ["from memory", "not read", "second-hand", "in a copy", "abstract", "read"]
    assert limit.where in PLACES
    source = SOURCES[limit.source]
    if limit.source != "ser-limits":  # a list that was read and quotes others
        assert order.index(limit.how_read) <= order.index(source.standing)


def test_what_was_not_read_in_print_says_so():
    said = {limit.id for limit in LIMITS if limit.how_read != "read"}
    assert {"co2-uk-day", "co2-uk-short", "co2-eu-day", "co2-at-ceiling", "h2s-uk-day", "nh3-eu-short"} <= said


@pytest.mark.parametrize(
    ("gas", "ppm", "ordered"),
    [
        (CO2, 9_999, None),
        (CO2, 10_000, "co2-at-ceiling"),
        (CO2, 39_999, "co2-at-ceiling"),
        (CO2, 40_000, "co2-danger"),
        (H2S, 9.99, None),
        (H2S, 10, "h2s-us-ten"),
        (H2S, 100, "h2s-danger"),
        (PH3, 0.2, "ph3-uk-short"),
        (NH3, 34.9, None),
        (NH3, 35, "nh3-us-short"),
    ],
)
def test_by_which_value_a_reading_orders_people_out_from_both_sides(gas, ppm, ordered):
    order = gases.order_to_leave(gas, ppm)
    assert (order.id if order else None) == ordered


def test_an_unknown_gas_is_no_gas_without_limits():
    for ask in (gases.limits_of, gases.strictest):
        with pytest.raises(KeyError):
            ask("argon")
