"""Gas in a shut vessel: limits passed, what meters show, and that it never allows time."""

from __future__ import annotations

import pytest

from tests.sheets.ask import ask, notes, said, values, wrong

DRUM = {
    "barley_kg": "6000",
    "day": "3",
    "grain_temp_c": "20",
    "free_m3": "15",
    "start_ppm": "420",
    "respiration_kw_t": "1",
}


def rows(**given: object) -> dict[str, list[object]]:
    return {row[0]: row for row in ask("gas-build-up", **{**DRUM, **given})["tables"]["limits"]["rows"]}


def test_minutes_of_the_shut_drum():
    table = rows(hours_closed="1")
    shown = {name: round(float(str(row[3]))) for name, row in table.items()}
    assert shown["day limit, 8 h"] == 4
    assert shown["oxygen alarm at 19.5 %"] == 11
    assert shown["UK limit, 15 min"] == 12
    assert shown["dangerous at once (IDLH)"] == 32


@pytest.mark.parametrize(
    ("hours", "passed"),
    # 26 min at the fastest, 32.03 by the sum.
    [("0.42", "later"), ("0.43", "may be passed"), ("0.53", "may be passed"), ("0.54", "passed")],
)
def test_which_limits_are_passed_from_both_sides(hours, passed):
    assert rows(hours_closed=hours)["dangerous at once (IDLH)"][4] == passed


def test_the_oxygen_meter_beside_the_gas():
    table = rows(hours_closed="1")
    assert table["dangerous at once (IDLH)"][5] == pytest.approx(16.9, abs=0.05)
    assert table["oxygen alarm at 19.5 %"][5] == pytest.approx(19.5)


def test_what_was_there_at_the_start_is_passed_at_once():
    table = rows(start_ppm="50000", hours_closed="0.05")
    assert table["dangerous at once (IDLH)"][2:5] == [0.0, 0.0, "passed"]
    assert "4 % or more: it kills" in notes("gas-build-up", **{**DRUM, "start_ppm": "50000"})


def test_hours_later_the_oxygen_is_gone_and_it_says_so():
    found = values("gas-build-up", **DRUM, hours_closed="48")
    assert found["ppm"] == pytest.approx(420 + 209_000)
    assert found["oxygen_percent"] == pytest.approx(0, abs=1e-9)
    assert "used up all the oxygen" in notes("gas-build-up", **DRUM, hours_closed="48")


def test_without_a_heat_the_typical_one_is_taken_and_doubted():
    told = ask("gas-build-up", **{**DRUM, "respiration_kw_t": ""})
    used = told["answers"]["respiration_used_kw_t"]
    assert used["value"] == pytest.approx(1.4 * 1.72 * 2.25**0.5, rel=2e-3)
    assert used["low"] == pytest.approx(used["value"] / 2) and used["high"] == pytest.approx(used["value"] * 2)
    assert "may be half or double" in notes("gas-build-up", **{**DRUM, "respiration_kw_t": ""})


def test_it_never_allows_time():
    text = notes("gas-build-up", **DRUM)
    assert "allows no entry and gives no time inside" in text
    assert "does not read it" in text  # the four-gas meter


def test_bad_input():
    assert "0.5 to 5000" in said("gas-build-up", **{**DRUM, "free_m3": "0"})
    assert wrong("gas-build-up", **{**DRUM, "hours_closed": "-1"})[0].question == "hours_closed"
    assert wrong("gas-build-up", **{**DRUM, "start_ppm": ""})[0].missing
    assert values("gas-build-up", **{**DRUM, "start_ppm": "500000"}, hours_closed="240")["ppm"] <= 1e6
