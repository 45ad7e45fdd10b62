"""A course taken up where another ended, and read along its hours, is the course from the start read one by one."""

from __future__ import annotations

import pytest

from calculators.models.steep.course import Stage, Steep
from calculators.models.steep.effluent import leached_demand_kg, persons, strength_mg_l
from calculators.models.steep.hydration import run, steep

HOURS = (6.0, 8.0, 5.0, 12.0, 3.0, 4.0)


@pytest.mark.parametrize("begins_wet", [True, False])
@pytest.mark.parametrize("film_db", [0.0, 0.05])
def test_a_course_that_goes_on_is_the_one_from_the_start(begins_wet: bool, film_db: float) -> None:
    """From every stage on; a rest before the first immersion dries nothing and counts as no air rest."""
    base = steep(barley_moisture=12.5, stages=[(1.0, 14.0)]).steeping._replace(
        begins_wet=begins_wet, film_db=film_db, rest_factor=1.4
    )
    stages = tuple(Stage(h, 10.0 + n) for n, h in enumerate(HOURS))
    whole = run(base._replace(stages=stages))
    for count in range(1 if begins_wet else 2, len(stages)):
        begun = run(base._replace(stages=stages[:count]))
        on = run(base._replace(stages=stages), begun)
        for ours, theirs in zip(on.ends, whole.ends, strict=True):
            assert ours == pytest.approx(theirs, abs=1e-9)


def test_air_rests_quicken_what_follows_and_a_rest_of_dry_corns_does_not() -> None:
    base = steep(barley_moisture=12.5, stages=[(1.0, 14.0)]).steeping._replace(rest_factor=1.5)
    slow = base._replace(rest_factor=1.0)

    def end(one: Steep) -> float:
        return one.ends[-1].drained

    first = tuple(Stage(h, 14.0) for h in (8.0, 12.0, 6.0))
    assert end(run(base._replace(stages=first))) > end(run(slow._replace(stages=first))) + 0.1
    dry = tuple(Stage(h, 14.0) for h in (12.0, 6.0))
    given = [one._replace(begins_wet=False, stages=dry) for one in (base, slow)]
    assert end(run(given[0])) == pytest.approx(end(run(given[1])))
    alone = run(base._replace(stages=(Stage(6.0, 14.0),)))
    assert end(run(given[0])) == pytest.approx(end(alone), abs=1e-9)


@pytest.mark.parametrize("begins_wet", [True, False])
def test_moistures_along_the_hours_are_those_one_by_one(begins_wet: bool) -> None:
    base = steep(barley_moisture=12.5, stages=[(1.0, 14.0)]).steeping._replace(begins_wet=begins_wet)
    whole = run(base._replace(stages=tuple(Stage(h, 14.0) for h in HOURS)))
    hours = sorted(
        {0.0, 0.01, 0.1, 1.0, *(end.hours for end in whole.ends), *(end.hours + 0.1 for end in whole.ends[:-1]), 7.5}
    )
    for row in (hours, hours[::-1], [20.0, 0.0, 7.0, 7.0, 0.0, 33.0]):
        assert whole.drained_along(row) == pytest.approx([whole.at(hour).drained for hour in row], abs=1e-12)
    later = [(end.hours, n + 1) for n, end in enumerate(whole.ends[:-1])] + [(0.0, 0), (7.0, 1)]
    found = whole.drained_along([hour for hour, _ in later], [stage for _, stage in later])
    assert found == pytest.approx([whole.at(hour, stage).drained for hour, stage in later], abs=1e-12)


def test_a_drawing_has_each_stretch_s_two_ends_and_six_points_where_water_moves() -> None:
    whole = steep(barley_moisture=12.5, stages=[(h, 14.0) for h in (8.0, 0.5, 8.0)])
    for points in (10, 150):
        drawn = whole.curve(points)
        for stage in range(3):
            hours = [h for h, n in zip(drawn.hours, drawn.stage, strict=True) if n == stage]
            assert hours == sorted(hours) and hours[-1] == whole.ends[stage].hours
            assert len(hours) >= 6
        assert [whole.at(h, n).net for h, n in zip(drawn.hours, drawn.stage, strict=True)] == pytest.approx(drawn.net)


def test_the_load_of_steep_water_by_hand() -> None:
    """6 t of barley at 12.5 % leaching 0.8 % of its dry matter; starch takes up 1.184 kg of oxygen a kilogram."""
    load = leached_demand_kg(barley_kg=6000.0, barley_moisture=12.5, leached_percent=0.8)
    assert load == pytest.approx(6000.0 * 0.875 * 0.008 * 1.184, rel=1e-3)
    assert strength_mg_l(load_kg=load, water_m3=12.0) == pytest.approx(load * 1e6 / 12_000.0)
    assert persons(bod_kg_day=3.0) == pytest.approx(50.0)
