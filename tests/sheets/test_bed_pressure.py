"""The gauge of a box: what a change tells, people first, and stops before anything else."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.models.bed.humid_air import moist_air
from tests.sheets.ask import ask, notes, said, values
from tests.sheets.stops import asked, check, past


@pytest.mark.parametrize(
    ("now", "then", "word"),
    [("110", "110", "even"), ("137.5", "110", "even"), ("138", "110", "matted"), ("82", "110", "channel")],
)
def test_the_change_since_the_turning_gives_the_word(now, then, word):
    assert values("bed-pressure", measured_pa=now, turned_pa=then)["verdict"] == word


def test_without_the_last_turning_there_is_no_verdict():
    assert "verdict" not in values("bed-pressure", turned_pa="")
    assert "Type the gauge now and after" in notes("bed-pressure", turned_pa="")


def test_people_come_first_and_a_stop_before_remarks():
    told = ask("bed-pressure", measured_pa="200", turned_pa="110")["notes"]
    assert [note["level"] for note in told][:3] == ["danger", "danger", "warning"]
    assert "Nobody steps on the bed" in told[0]["text"]
    assert told[3]["text"].startswith("Past a stop") and "turn now, with the air on" in told[3]["text"]


def test_what_cannot_be_is_asked_back():
    assert "no more than the 120 Pa" in said("bed-pressure", other_pa="120", turned_pa="110")
    assert "times the room" in said("bed-pressure", depth_m="0.3")
    assert "m/s over this floor" in said("bed-pressure", airflow_m3_h="100")


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.floats(20, 400), st.floats(20, 400), st.floats(0.6, 2.0))
def test_no_stop_of_the_bed_goes_unsaid(now, then, depth):
    kilos, floor = depth * 14 * 618 / 1.4, 14.0
    result = asked(
        "bed-pressure", measured_pa=repr(now), turned_pa=repr(then), depth_m=repr(depth), barley_kg=repr(kilos)
    )
    if result is not None:
        check(result, past("box-depth", depth))
        check(result, past("box-loading", kilos / floor))
        check(result, past("box-pressure", now / then))


def test_the_profile_of_the_page_is_that_of_saturated_air():
    # psychrolib's air (ASHRAE formulas): equal shares of the heat at equal heights, the air saturated all the way.
    def heat(temp: float) -> float:
        return moist_air(temp_c=temp, relative_humidity=100, pressure_pa=101325).enthalpy_kj

    low, high = heat(14.0), heat(16.5)
    for share, said_c in ((0.25, 14.6), (0.5, 15.3), (0.75, 15.9)):
        cold, warm = 14.0, 16.5
        for _ in range(40):
            middle = (cold + warm) / 2
            cold, warm = (middle, warm) if heat(middle) < low + share * (high - low) else (cold, middle)
        assert abs(cold - said_c) <= 0.06 and abs(cold - (14.0 + 2.5 * share)) < 0.1
