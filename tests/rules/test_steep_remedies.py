"""What would make a plan possible never leaves what is accepted."""

from __future__ import annotations

import pytest

from calculators.models.living.chitting import Corns
from calculators.models.living.steep_run import Rests
from calculators.models.steep.course import Steep
from calculators.models.steep.hydration import steep
from calculators.rules.limit import edge
from calculators.rules.limits.steeping import REST, WATER_TEMP
from calculators.rules.steep_life import Lives, judged, remedies


@pytest.mark.parametrize(("water_c", "rest_h", "offered"), [(15.0, 8.0, True), (16.0, 7.25, False)])
def test_no_warmer_water_is_offered_than_is_accepted(water_c: float, rest_h: float, offered: bool) -> None:
    lives = Lives(Rests(suction_m3_h_t=30.0, air_c=16.0), Corns(), "drum")

    def course(temp_c: float) -> Steep:
        stages = [(8.0, temp_c), (rest_h, temp_c), (8.0, temp_c), (rest_h, temp_c), (4.0, temp_c)]
        return steep(barley_moisture=12.5, stages=stages)

    def passed(temp_c: float) -> bool:
        return bool(judged(course(temp_c), lives).passed)

    assert passed(water_c) and not passed(water_c + 1.0)  # a kelvin more would help, whether it is accepted or not
    found = {one.word: one.figure for one in remedies(course(water_c), lives)}
    assert ("warmer" in found) is offered is (water_c < WATER_TEMP.accept_high)  # type: ignore[operator]


@pytest.mark.parametrize("rest_h", [6.0, 8.0, 12.0])
def test_a_longer_last_rest_is_the_least_that_is_enough(rest_h: float) -> None:
    """Found a second time, hour by hour upward, by the same judge."""
    lives = Lives(Rests(suction_m3_h_t=30.0), Corns(middle_h=18.0), "couch")

    def passed(last_rest_h: float) -> bool:
        stages = [(8.0, 10.0), (rest_h, 10.0), (8.0, 10.0), (last_rest_h, 10.0), (4.0, 10.0)]
        return bool(judged(steep(barley_moisture=12.5, stages=stages), lives).passed)

    def usual() -> Steep:
        stages = [(8.0, 10.0), (rest_h, 10.0), (8.0, 10.0), (rest_h, 10.0), (4.0, 10.0)]
        return steep(barley_moisture=12.5, stages=stages)

    assert passed(rest_h)
    (found,) = [one.figure for one in remedies(usual(), lives) if one.word == "rest"]
    assert not passed(found) and passed(found - 2.0)
    assert found <= edge(REST.stop_high)
