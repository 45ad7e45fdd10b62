"""Carbon dioxide over a day: what it asks, what it shouts, and both edges of each limit."""

from __future__ import annotations

import pytest

from calculators.rules import gases
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
@pytest.mark.parametrize(
    ("ppm", "leave", "danger"),
    [
        *[("9999", False, False), ("10000", True, False), ("12000", True, False), ("14999", True, False)],
        *[("15000", True, False), ("39999", True, False), ("40000", True, True), ("300000", True, True)],
    ],
)
@pytest.mark.parametrize(
    "rest", [{"rows": "700 470; {} 1", "unmeasured_ppm": "700"}, {"rows": "{}"}, {"rows": "{} 15"}]
)
def test_each_reading_is_judged_first_whatever_is_blank(country, ppm, leave, danger, rest):
    given = {"unmeasured_ppm": "", **rest, "rows": rest["rows"].format(ppm), "country": country}
    if not leave and not given["unmeasured_ppm"]:
        assert wrong("exposure", **given)  # nothing orders people out, so the rest is asked for
        return
    told = ask("exposure", **given)
    text = "\n".join(f"{note['level']}: {note['text']}" for note in told["notes"])
    assert ("danger: LEAVE" in text) == leave
    assert ("from 40,000 it is dangerous to life at once" in text) == danger
    assert (told["answers"].get("order", {}).get("value") == "leave") == leave
    if leave:
        assert next(iter(told["answers"])) == "order"  # what the line that stays in view says


def test_a_day_whose_mean_is_low_does_not_silence_one_reading():
    told = ask("exposure", rows="500 479; 12000 1", unmeasured_ppm="")
    assert told["answers"]["twa_ppm"]["value"] < 600
    assert told["answers"]["order"]["value"] == "leave"


def test_a_row_without_minutes_is_asked_for_when_nothing_orders_people_out():
    (problem,) = wrong("exposure", rows=[["700", "240"], ["3500", ""]], unmeasured_ppm="700")
    assert problem.question == "rows" and problem.row == 2
    assert "how long it lasted" in problem.text


def test_a_day_with_too_many_minutes_still_orders_people_out():
    assert "danger: LEAVE" in notes("exposure", rows="500 1000; 20000 1000", unmeasured_ppm="")


def test_without_the_rest_no_mean_is_made_up():
    told = ask("exposure", rows="300000", unmeasured_ppm="")
    assert set(told["answers"]) == {"order", "highest_ppm"}
    assert "No mean is worked out" in "".join(note["text"] for note in told["notes"])
    compared = {row[0]: row[2] for row in told["tables"]["limits"]["rows"]}
    assert compared["Dangerous at once (IDLH)"] == 300_000
    assert compared["United Kingdom, 8 h, in law (second-hand)"] is None


def test_the_values_come_from_the_one_table():
    told = ask("exposure", rows="1000 480", unmeasured_ppm="")
    assert [row[1] for row in told["tables"]["limits"]["rows"]] != []
    assert sorted(row[1] for row in told["tables"]["limits"]["rows"]) == sorted(
        limit.ppm for limit in gases.limits_of(gases.CO2)
    )


def test_the_guess_for_the_time_not_measured_counts_as_a_reading():
    assert "danger: LEAVE" in notes("exposure", rows="700 400", unmeasured_ppm="16000")


@pytest.mark.parametrize(("ppm", "over"), [("5000", False), ("5001", True)])
def test_a_mean_over_a_limit_is_a_warning(ppm, over):
    text = notes("exposure", rows=f"{ppm} 480", unmeasured_ppm="")
    assert ("warning: Over the limit “United Kingdom, 8 h, in law”" in text) == over


def test_the_house_limit_and_the_country_come_first():
    told = ask("exposure", rows="2000 480", unmeasured_ppm="", country="us", house_limit_ppm="1500")
    listed = told["tables"]["limits"]["rows"]
    assert [row[0] for row in listed][:4] == [
        "United States, 8 h, in law",
        "United States, 10 h, advised",
        "United States, 15 min, advised",
        "Your house, 8 h",
    ]
    assert any("Your house" in note["text"] for note in told["notes"])
    assert len(listed) == len(gases.limits_of(gases.CO2)) + 1
    assert "United Kingdom, 15 min, in law (second-hand)" in [row[0] for row in listed]


def test_milligrams_follow_the_temperature():
    assert day("5000 480")["twa_mg_m3"] == pytest.approx(9148, abs=1)
    assert day("5000 480", temperature_c="25")["twa_mg_m3"] == pytest.approx(8995, abs=1)


def test_a_reading_under_outdoor_air_means_a_wrong_meter():
    assert "meter is wrong" in notes("exposure", rows="101 480", unmeasured_ppm="")
    assert "meter is wrong" not in notes("exposure", rows="350 480", unmeasured_ppm="")


@pytest.mark.parametrize("rows", ["25 480", "1.2 480", "2.5", "100 480", "700 240; 12.125 240", "9.999 x"])
def test_a_figure_that_is_no_air_orders_people_out_until_it_is_read_again(rows):
    """A point for thousands, or a meter in per cent: both are typed so, and both kill."""
    told = notes("exposure", rows=rows, unmeasured_ppm="")
    assert told.startswith("danger: LEAVE.") and "type it again" in told and "allow no entry" in told
    assert set(ask("exposure", rows=rows, unmeasured_ppm="")["answers"]) == {"order"}


@pytest.mark.parametrize("figure", ["25.000", "250.000", "25,000"])
def test_a_figure_that_may_be_thousands_is_judged_as_thousands_and_asked_back(figure):
    told = notes("exposure", rows=f"{figure} 480", unmeasured_ppm="")
    assert told.startswith("danger: LEAVE.") and "can be read in two ways" in told


@pytest.mark.parametrize("rows", ["0.9 480", "101 480", "400 480"])
def test_figures_beside_those_order_nobody_out(rows):
    assert "LEAVE" not in notes("exposure", rows=rows, unmeasured_ppm="")


def test_bad_rows():
    assert "1440" in said("exposure", rows="500 1000; 500 441", unmeasured_ppm="")
    assert wrong("exposure", rows="-5 480")[0].column == "ppm"
    assert wrong("exposure", rows="500 -1")[0].column == "minutes"
    assert wrong("exposure", rows="500 0")[0].row == 1
    assert wrong("exposure", rows="a 480")[0].row == 1


def test_percent_is_understood():
    assert day([["0.9 %", "8 h"]])["twa_ppm"] == 9_000


@pytest.mark.parametrize(
    ("given", "slip"),
    [
        ({"rows": [["300000", "x"]]}, "“x” is not a number"),
        ({"rows": [["abc", "15"], ["60000", "5"]]}, "“abc” is not a number"),
        ({"rows": [["60000", "15", "left"]]}, "it has 3 values"),
        ({"rows": [["60000", "300000"]]}, "300000 is too high"),
        ({"rows": [["abc", ""]], "unmeasured_ppm": "60000"}, "“abc” is not a number"),
        ({"rows": [["60000", "5"]], "temperature_c": "warm"}, "“warm” is not a number"),
    ],
)
def test_a_slip_beside_it_hides_no_reading(given, slip):
    told = ask("exposure", **{"unmeasured_ppm": "", **given})
    assert next(iter(told["answers"])) == "order" and told["answers"]["order"]["value"] == "leave"
    assert told["notes"][0]["text"].startswith("LEAVE.")
    assert any(note["text"].startswith("Put right as well: ") and slip in note["text"] for note in told["notes"])


def test_a_slip_beside_a_reading_that_orders_nothing_is_asked_for():
    (problem,) = wrong("exposure", rows=[["9999", "x"]], unmeasured_ppm="700")
    assert problem.row == 1 and problem.column == "minutes"


def test_a_reading_typed_for_the_minutes_is_asked_whether_it_is_one():
    texts = [problem.text for problem in wrong("exposure", rows=[["", "300000"]], unmeasured_ppm="")]
    assert any("Is it a gas reading? From 10,000 ppm on: leave." in text for text in texts)
