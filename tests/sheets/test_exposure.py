"""Carbon dioxide over a day: what it asks, what it shouts, and both edges of each limit."""

from __future__ import annotations

import pytest

from tests.sheets.ask import ask, notes, said, values, wrong


def day(rows: object, **more: object) -> dict[str, float]:
    return values("exposure", rows=rows, **{"unmeasured_ppm": "", **more})


def test_a_full_day_needs_nothing_more():
    found = day("1000 480")
    assert found["twa_ppm"] == 1000 and found["highest_15_min_ppm"] == 1000


def test_time_not_measured_is_asked_for_and_never_zero():
    text = said("exposure", rows="1000 479", unmeasured_ppm="")
    assert "479 of 480 minutes" in text and "never taken as zero" in text
    (problem,) = wrong("exposure", rows="1000 479", unmeasured_ppm="")
    assert problem.question == "unmeasured_ppm"
    assert "350" in said("exposure", rows="1000 479", unmeasured_ppm="0")
    half = day("1000 240", unmeasured_ppm="3000")
    assert half["twa_ppm"] == pytest.approx(2000)


def test_a_long_shift_counts_whole_over_eight_hours():
    assert day("4000 600")["twa_ppm"] == pytest.approx(5000)


def test_the_worst_quarter_of_an_hour_is_found_across_rows():
    found = day("400 200; 12000 10; 6000 5; 400 265")
    assert found["highest_15_min_ppm"] == pytest.approx(10_000)
    alone = day("20000 5", unmeasured_ppm="5000")
    assert alone["highest_15_min_ppm"] == pytest.approx(10_000)


@pytest.mark.parametrize("country", ["uk", "eu", "us"])
@pytest.mark.parametrize(("ppm", "leave"), [("15000", False), ("15001", True), ("40000", True), ("40001", True)])
def test_any_reading_over_a_short_term_limit_is_danger_leave(country, ppm, leave):
    text = notes("exposure", rows=f"700 470; {ppm} 1", unmeasured_ppm="700", country=country)
    assert ("danger: LEAVE" in text) == leave
    assert ("40,000" in text) == (ppm == "40001")


def test_the_guess_for_the_time_not_measured_counts_as_a_reading():
    assert "danger: LEAVE" in notes("exposure", rows="700 400", unmeasured_ppm="16000")


@pytest.mark.parametrize(("ppm", "over"), [("5000", False), ("5001", True)])
def test_a_mean_over_a_limit_is_a_warning(ppm, over):
    text = notes("exposure", rows=f"{ppm} 480", unmeasured_ppm="")
    assert ("warning: Over the limit “UK, 8 h, in law”" in text) == over


def test_the_house_limit_and_the_country_come_first():
    told = ask("exposure", rows="2000 480", unmeasured_ppm="", country="us", house_limit_ppm="1500")
    listed = told["tables"]["limits"]["rows"]
    assert [row[0] for row in listed][:4] == [
        "US, 8 h, in law",
        "US, 10 h, advised",
        "US, short term, advised",
        "Your house, 8 h",
    ]
    assert any("Your house" in note["text"] for note in told["notes"])
    assert len(listed) == 8
    assert "UK, 15 min, in law (second-hand)" in [row[0] for row in listed]


def test_milligrams_follow_the_temperature():
    assert day("5000 480")["twa_mg_m3"] == pytest.approx(9148, abs=1)
    assert day("5000 480", temperature_c="25")["twa_mg_m3"] == pytest.approx(8995, abs=1)


def test_a_reading_under_outdoor_air_means_a_wrong_meter():
    assert "meter is wrong" in notes("exposure", rows="100 480", unmeasured_ppm="")
    assert "meter is wrong" not in notes("exposure", rows="350 480", unmeasured_ppm="")


def test_bad_rows():
    assert "1440" in said("exposure", rows="500 1000; 500 441", unmeasured_ppm="")
    assert wrong("exposure", rows="-5 480")[0].column == "ppm"
    assert wrong("exposure", rows="500 0")[0].column == "minutes"
    assert wrong("exposure", rows="a 480")[0].row == 1


def test_percent_is_understood():
    assert day([["1 %", "8 h"]])["twa_ppm"] == 10_000
