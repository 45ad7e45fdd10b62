"""Plans of a steep: every plan found keeps what it says it keeps, by another count of its hours."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from calculators.models.steep.choice import choose, how_many, margin
from calculators.models.steep.course import Stage
from calculators.models.steep.hydration import run, steep
from calculators.models.steep.plan import Search
from calculators.models.steep.wishes import Draft, Wishes, hours_until, within
from calculators.rules.steep_order import bounds
from tests.sheets.ask import ask

BASE = steep(barley_moisture=12.5, stages=[(1, 14)]).steeping
BOUNDS = bounds()
USUAL = Wishes(45.0, 31.0, 10.0, 6.0, 6.0, BOUNDS, (22.0, 5.0), None, (6.0, 14.0))


def clock(hours: float, start: float = 6.0) -> float:
    return (start + hours) % 24.0


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.floats(6.0, 20.0),
    st.floats(10.0, 15.0),
    st.integers(0, 47),
    st.integers(18, 23),
    st.integers(3, 8),
    st.sampled_from([4.0, 6.0, 9.0]),
    st.sampled_from([8.0, 10.0, 12.0]),
    st.sampled_from([0.0, 0.5, 1.5]),
)
@example(6.1875, 14.75, 3, 23, 4, 4.0, 8.0, 0.5)  # found only by the search that looks past the limits
def test_every_plan_that_keeps_all_wishes_keeps_them(water, barley, half_hours, quiet, until, rest, longest, takes):
    hours = (float(quiet), float(until))
    wishes = Wishes(44.5, 31.0, longest, rest, half_hours / 2.0, BOUNDS, hours, 96.0, (6.0, 15.0), takes, takes)
    base = BASE._replace(barley_moisture=barley)
    choice = choose(base, water, wishes)
    for plan in choice.plans:
        lengths = plan.draft.lengths
        # The forecast again, by the public door and from the start.
        again = steep(barley_moisture=barley, stages=[(h, water) for h in lengths])
        assert again.ends[-1].drained == pytest.approx(44.5, abs=0.3)
        assert plan.course.ends[-1].drained == pytest.approx(again.ends[-1].drained, abs=1e-9)
        # Whatever is given up: one immersion stops at 12 h and one rest at 24 (common practice).
        assert max(lengths[::2]) <= 12.0 and max(lengths[1::2], default=0.0) <= 24.0
        if not choice.kept:
            assert plan.draft.broken
            continue
        assert sum(lengths) >= 24.0
        assert len(lengths) % 2 == 1
        assert max(lengths[::2]) <= longest + 1e-9 and min(lengths[1::2], default=rest) >= rest - 1e-9
        # Minute by minute: somebody is there while a drain runs, and while a fill does.
        for n in range(0, len(lengths), 2):
            drained, covered = sum(lengths[: n + 1]), sum(lengths[:n])
            open_ = [(drained, drained + takes)] + ([(covered - takes, covered)] if n else [])
            for first, last in open_:
                for minute in range(round(60 * first), round(60 * last) + 1):
                    clock_minute = round(60 * wishes.start_clock_h + minute) % 1440
                    if 60 * first <= minute < 60 * last or takes == 0.0:
                        assert 60 * until <= clock_minute < 60 * quiet
        cast = round(60 * (wishes.start_clock_h + plan.draft.cast_h)) % 1440
        assert 6 * 60 <= cast < 15 * 60
        assert plan.draft.cast_h >= sum(lengths) + takes - 1e-9
        assert plan.draft.cast_h + 1.0 <= 96.0
    costs = [plan.cost for plan in choice.plans]
    assert not choice.kept or costs == sorted(costs)


def test_a_run_that_goes_on_is_the_run_from_the_start():
    search = Search(BASE, 14.0, USUAL)
    search.course([5.5, 9.0, 10.0])
    gone_on = search.course([5.5, 9.0, 8.0, 12.0, 3.0])
    afresh = run(BASE._replace(stages=tuple(Stage(h, 14.0) for h in (5.5, 9.0, 8.0, 12.0, 3.0))))
    for ours, theirs in zip(gone_on.ends, afresh.ends, strict=True):
        assert ours == pytest.approx(theirs, abs=1e-9)


@pytest.mark.parametrize("water", [12.0, 14.0, 18.0])
def test_a_plan_of_three_immersions_costs_few_runs_of_the_model(water):
    # Under 300 ms in a browser: a run takes about 1 ms there, and little else counts (bench/steep_plan.py).
    search = Search(BASE, water, USUAL)
    runs = 0
    whole = search.course

    def counted(lengths):
        nonlocal runs
        runs += 1
        return whole(lengths)

    search.course = counted  # type: ignore[method-assign]
    assert any(len(draft.lengths) == 5 and not draft.broken for draft in search.drafts())
    assert runs <= 110


def test_margins_are_the_plan_run_again():
    course = steep(barley_moisture=12.5, stages=[(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)])
    found = margin(course)
    end = course.ends[-1].drained
    colder = steep(barley_moisture=12.5, stages=[(h, 12) for h in (8, 8, 8, 12, 3)]).ends[-1].drained
    later = [
        steep(barley_moisture=12.5, stages=[(h, 14) for h in hours]).ends[-1].drained
        for hours in ((9, 7, 8, 12, 3), (8, 8, 9, 11, 3), (8, 8, 8, 12, 4))
    ]
    assert found.colder == pytest.approx(colder - end, abs=1e-9)
    assert found.warmer > 0 > found.colder
    assert found.late == pytest.approx(max(later) - end, abs=1e-9)


def test_clock_windows_pass_midnight():
    assert within(23.0, (22.0, 5.0)) and within(4.99, (22.0, 5.0)) and within(22.0, (22.0, 5.0))
    assert not within(5.0, (22.0, 5.0)) and not within(21.99, (22.0, 5.0))
    assert hours_until(22.0, 5.0) == 7.0 and hours_until(5.0, 22.0) == 17.0


def test_where_no_plan_is_possible_none_past_a_stop_stands_before_one_that_keeps_it():
    """Cold water, small corns and dips of 2 h: the plan inside both drains is the nearest, not the drier one."""
    result = ask(
        "steep-plan", water_temp_c="6", target_moisture="41", cast_to="drum", water_sensitivity="30",
        barley_moisture="12", corn_weight_g="30", rate_factor="0.8", suction_m3_h_t="60", chit_hours="60",
        longest_immersion_h="2",
    )  # fmt: skip
    rows = result["tables"]["schedule"]["rows"]
    for plan in {row[0] for row in rows}:
        first, second = (row[7] for row in rows if row[0] == plan and row[1] in (1, 2))
        assert first >= 28.0 and second >= 36.0
    gives_up = [n["text"] for n in result["notes"] if "gives up" in n["text"]]
    assert gives_up and not any("drain should hold" in text for text in gives_up)
    # Of drafts that pass nothing, the fewest wishes; a stop weighs more than any number of wishes.
    one = Draft((8.0,), 9.0, (("first_drain", 0.1),), ())
    two = Draft((8.0,), 9.0, (("longest_immersion_h", 5.0), ("chit_h", 9.0)), ())
    assert how_many(two) < how_many(one)
