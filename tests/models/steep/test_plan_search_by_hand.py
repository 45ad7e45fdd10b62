"""The search for plans of a steep, step by step: what it tries, how it moves a plan, and what it holds against it."""

from __future__ import annotations

from collections.abc import Callable
from math import inf
from typing import Any

import pytest

from calculators.models.steep.choice import Judged, Plan, _eased, _Looked, margin
from calculators.models.steep.course import Stage
from calculators.models.steep.hydration import steep
from calculators.models.steep.plan import Search, _steeps_well
from calculators.models.steep.wishes import Draft, PlanEdges, Term, Wishes, widened

BASE = steep(barley_moisture=12.5, stages=[(1, 14)]).steeping
EDGES = PlanEdges(8.0, 12.0, 12.0, 24.0, (28.0, 37.0), (36.0, 43.0), 41.0, 28.0, 24.0)
WISHES = Wishes(45.0, 31.0, 10.0, 6.0, 6.0, EDGES, (22.0, 5.0), None, (6.0, 14.0))
"""From six in the morning; nobody fills or drains from 22 to 5, so no drain from 21 on and no fill before 6."""


def search(**more: object) -> Search:
    return Search(BASE, 14.0, WISHES._replace(**more))  # type: ignore[arg-type]


def drained(lengths: tuple[float, ...]) -> list[float]:
    """Moisture at each drain, by the public door."""
    ends = steep(barley_moisture=12.5, stages=[(hours, 14.0) for hours in lengths]).ends
    return [end.drained for end in ends if end.wet]


def judged(lengths: tuple[float, ...], **more: object) -> Draft:
    looked = search(**more)
    return looked.judged(looked.course(lengths), list(lengths))


# What it tries


def test_a_day_s_hours_with_nobody_there_begin_before_them_for_a_drain_and_end_after_them_for_a_fill() -> None:
    one = search()
    for hour, drain, fill in ((14.9, False, False), (15.0, True, False), (16.0, True, True), (22.9, True, True),
                              (23.0, False, True), (24.0, False, False)):  # fmt: skip
        assert (one.drains_quiet(hour), one.fills_quiet(hour)) == (drain, fill)
    assert not search(quiet=None).drains_quiet(18.0) and not search(quiet=None).fills_quiet(18.0)
    never = search(quiet=(6.0, 5.5))  # with an hour to drain and one to fill it is the whole day
    assert never.quiet_drains is None and never.drains_quiet(12.0) and never.fills_quiet(12.0)
    assert widened((22.0, 5.0), 8.0, 9.0) is None and widened((22.0, 5.0), 8.0, 8.5) == (14.0, 13.5)


def test_an_hour_with_nobody_there_gives_way_to_the_half_hour_before_and_the_first_after() -> None:
    one = search()
    assert one.around_drains(14.5) == [14.5] and one.around_drains(23.0) == [23.0]
    assert one.around_drains(20.0) == [14.5, 23.0]
    assert one.around_drains(15.0) == [14.5, 23.0]  # at the very beginning: not on it
    assert one.around(17.0, (22.0, 6.0)) == [15.5, 24.0]
    assert one.around(17.0, None) == [17.0] and search(quiet=None).around_drains(20.0) == [20.0]


def test_an_immersion_is_tried_near_its_ideal_length_where_it_can_be_drained() -> None:
    one = search()
    assert one.immersions(0.0, 8.2) == [8.0] and one.immersions(0.0, 8.3) == [8.5]
    assert one.immersions(0.0, 30.0) == [10.0]  # none longer than wished
    assert one.immersions(12.0, 6.0) == [2.5]  # until 20:30; until 5:00 it would be eleven hours
    assert one.immersions(13.0, 6.0) == [10.0]  # until 5:00; until 20:30 it would be one and a half
    assert one.immersions(0.0, 1.0) == [2.0] and one.immersions(0.0, 2.0) == [2.0]
    assert search(longest_immersion_h=4.0).immersions(14.0, 3.0) == [3.0]  # neither before nor after: as it is


def test_a_rest_is_tried_as_short_as_wished_and_longer_where_somebody_can_fill() -> None:
    one = search()
    assert one.rests(0.0) == [6.0, 9.0, 12.0]
    assert one.rests(8.0) == [6.0, 7.5, 16.0]  # fills at 20:00, at 21:30 and at 6:00
    assert search(shortest_rest_h=20.0).rests(2.0) == [22.0, 23.0]  # until 6:00 and 7:00; 26 h are too long
    assert search(quiet=None, shortest_rest_h=20.0).rests(0.0) == [20.0, 23.0]
    assert search(quiet=None, shortest_rest_h=18.0).rests(0.0) == [18.0, 21.0, 24.0]


def test_a_last_rest_is_moved_so_that_its_drain_fill_and_cast_fall_well() -> None:
    """At 2:00 it cannot be drained, at 22:00 not filled, at 3:00 not cast, and 20 h are no steep."""
    one = search()
    moved = one.shifted([8.0, 8.0], judged((8.0, 8.0, 4.0)))
    assert moved == [[8.0, 11.0], [8.0, 11.0], [8.0, 12.0], [8.0, 7.5], [8.0, 16.0]]
    good = judged((8.0, 10.0, 8.0))  # drained at 8:00, filled at 0:00
    assert one.shifted([8.0, 10.0], good) == [[8.0, 7.5], [8.0, 16.0]]
    # The shortest and the longest rest are both taken; what is beyond either is not.
    assert search(quiet=None, cast_window=None).shifted([8.0, 8.0], judged((8.0, 8.0, 4.0))) == [[8.0, 12.0]]
    assert search(shortest_rest_h=7.5).shifted([8.0, 10.0], good) == [[8.0, 7.5], [8.0, 16.0]]
    assert search(shortest_rest_h=8.0).shifted([8.0, 10.0], good) == [[8.0, 16.0]]
    edges = EDGES._replace(most_rest_h=16.0)
    assert search(bounds=edges).shifted([8.0, 10.0], good) == [[8.0, 7.5], [8.0, 16.0]]
    assert search(bounds=edges._replace(most_rest_h=15.5)).shifted([8.0, 10.0], good) == [[8.0, 7.5]]
    # Cast from 6 to 14: a drain at 14:00 is moved on to 5:00 of the next morning, and never back.
    late = judged((8.0, 6.5, 9.5), quiet=None, start_clock_h=14.0)
    assert search(quiet=None, start_clock_h=14.0).shifted([8.0, 6.5], late) == [[8.0, 6.5 + 15.0]]
    early = judged((8.0, 6.0, 8.0), quiet=None)  # drained at 4:00, cast at 5:00: an hour later it may be
    assert search(quiet=None).shifted([8.0, 6.0], early) == [[8.0, 7.0], [8.0, 8.0]]
    assert search(quiet=None, chit_h=23.0).shifted([8.0, 6.0], early) == [[8.0, 7.0], [8.0, 8.0]]
    assert search(quiet=None, chit_h=26.0).shifted([8.0, 6.0], early) == [[8.0, 7.0], [8.0, 10.0]]


def test_a_last_immersion_is_as_long_as_the_target_needs_to_the_quarter_of_an_hour() -> None:
    one = search()
    course = one.course([8.0, 8.0, 8.0, 12.0, 10.0])
    needed, draft = one.finish([8.0, 8.0, 8.0, 12.0], course)
    assert draft is not None and draft.lengths == (8.0, 8.0, 8.0, 12.0, round(4.0 * needed) / 4.0)
    assert drained((8.0, 8.0, 8.0, 12.0, needed))[-1] == pytest.approx(45.0, abs=1e-6)
    assert one.found == [draft]
    too_long, none = one.finish([8.0, 8.0], one.course([8.0, 8.0, 10.0]))
    assert none is None and too_long > EDGES.most_immersion_h
    assert drained((8.0, 8.0, too_long))[-1] == pytest.approx(45.0, abs=1e-6)
    assert one.most_moisture == pytest.approx(drained((8.0, 8.0, 10.0))[-1])  # of what was tried
    far = search(target_moisture=50.0)
    assert far.finish([], far.course([48.0])) == (48.0, None)
    assert far.most_moisture == pytest.approx(drained((12.0,))[0])  # no immersion is longer than 12 h
    near = drained((8.0, 8.0, 8.0))[-1]
    reached = search(target_moisture=near - 0.5)
    assert reached.finish([8.0, 8.0, 8.0, 12.0], reached.course([8.0, 8.0, 8.0, 12.0, 10.0])) == (0.0, None)
    moment = search(target_moisture=drained((8.0, 8.0, 8.0, 12.0, 0.25))[-1] - 0.02)
    short, none = moment.finish([8.0, 8.0, 8.0, 12.0], moment.course([8.0, 8.0, 8.0, 12.0, 10.0]))
    assert none is None and 0.0 < short < 0.25 and moment.found == []


def test_the_first_immersion_is_tried_as_long_as_its_aim_needs_and_two_hours_longer(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for longest in (10.0, 7.0):
        one = search(longest_immersion_h=longest, first_aim=32.0)
        ideal = steep(barley_moisture=12.5, stages=[(48.0, 14.0)]).last_immersion_needed_h(32.0)
        assert ideal is not None and 5.0 < ideal < 8.0
        tried: list[tuple[float, float]] = []
        usual = one.immersions

        def noted(
            begins: float, hours: float, usual: Callable[[float, float], list[float]] = usual,
            tried: list[tuple[float, float]] = tried,
        ) -> list[float]:  # fmt: skip
            tried.append((begins, hours))
            return usual(begins, hours)

        monkeypatch.setattr(one, "immersions", noted)
        one.drafts()
        assert [begins for begins, _ in tried[:2]] == [0.0, 0.0]
        assert [hours for _, hours in tried[:2]] == pytest.approx([ideal, min(ideal + 2.0, longest)])


def test_only_the_last_rest_is_moved() -> None:
    one = search(quiet=None)
    late = judged((8.0, 7.0, 6.0, 9.0, 3.0), quiet=None, start_clock_h=14.0)  # drained at 23:00
    moved = search(quiet=None, start_clock_h=14.0).shifted([8.0, 7.0, 6.0, 9.0], late)
    assert moved == [[8.0, 7.0, 6.0, 15.0]] and one.found == []


def test_plans_like_one_that_was_left_out_are_not_looked_at_and_after_twelve_no_more() -> None:
    looked: list[tuple[float, ...]] = []

    def none(course: Any) -> Judged:
        looked.append(tuple(stage.hours for stage in course.steeping.stages))
        return Judged(course, ("a stop",))

    def draft(first: float, more: tuple[float, ...] = ()) -> Draft:
        return Draft((first, 6.0, 8.0, *more), 40.0, (), ())

    choice = _Looked(search(), none)
    for first in (6.0, 6.5, 6.99, 7.0, 8.5):  # an hour apart at some drain
        assert choice.plan(draft(first)) is None
    assert [row[0] for row in looked] == [6.0, 7.0, 8.5]
    assert choice.plan(draft(6.5, (6.0, 4.0))) is None and len(looked) == 4  # other immersions
    for n in range(20):
        choice.plan(draft(10.0 + 2.0 * n))
    assert len(looked) == len(choice.left_out) == 12


# What it holds against a plan


def test_a_plan_s_drains_and_fills_are_told_from_its_beginning_and_its_cast_when_it_may_be() -> None:
    draft = judged((8.0, 8.0, 8.0, 12.0, 4.0))
    assert draft.drains == [8.0, 24.0, 40.0] and draft.fills == [0.0, 16.0, 36.0]
    assert draft.cast_h == 48.0  # drained at 23:00, cast from 6:00
    assert judged((8.0, 8.0, 8.0, 12.0, 4.0), drain_h=2.0).cast_h == 48.0
    assert judged((8.0, 8.0, 8.0, 12.0, 4.0), cast_window=None).cast_h == 41.0
    assert judged((8.0, 8.0, 8.0, 12.0, 12.0)).cast_h == 49.0  # at 7:00, at once


@pytest.mark.parametrize(
    ("lengths", "more", "broken"),
    [
        ((8.0, 8.0, 8.0, 12.0, 4.0), {}, {"quiet": 2.0}),  # filled and drained at 22:00
        ((8.0, 10.0, 8.0, 11.0, 9.0), {"quiet": None}, {}),
        ((8.0, 10.0, 8.0, 11.0, 11.5), {"quiet": None}, {"longest_immersion_h": 1.5}),
        ((8.0, 5.0, 8.0, 12.0, 9.0), {"quiet": None}, {"shortest_rest_h": 1.0}),
        ((8.0, 6.0, 10.0), {"quiet": None, "cast_window": None}, {}),  # 24 h at the least, and no shorter rest
        ((8.0, 6.0, 9.0), {"quiet": None, "cast_window": None}, {"steep_h": 1.0}),
        ((8.0, 6.0, 10.0), {"quiet": None, "cast_window": None, "chit_h": 30.0}, {"chit_h": 6.0}),
        (
            (8.0, 6.0, 10.0),
            {"quiet": None, "cast_window": None, "vessel_h": 26.0},
            {},
        ),  # an hour each to drain and empty
        ((8.0, 6.0, 10.0), {"quiet": None, "cast_window": None, "vessel_h": 25.5}, {"vessel_h": 0.5}),
        ((8.0, 6.0, 10.0), {"quiet": None, "cast_window": (15.0, 20.0)}, {}),  # eight hours of waiting are taken
        ((8.0, 6.0, 10.0), {"quiet": None, "cast_window": (16.0, 20.0)}, {"cast_window": 1.0}),
        ((8.0, 6.0, 10.0), {"quiet": (3.0, 4.0), "cast_window": None}, {}),
        ((8.0, 6.0, 10.0), {"quiet": (6.0, 7.0), "cast_window": None}, {"quiet": 1.0}),
        ((12.0,), {"longest_immersion_h": 12.0, "quiet": None, "cast_window": None}, {"steep_h": 12.0}),
    ],
)
def test_each_wish_that_a_plan_does_not_keep_is_named_with_how_far(
    lengths: tuple[float, ...], more: dict[str, object], broken: dict[str, float]
) -> None:
    found = dict(judged(lengths, **more).broken)
    assert found.pop("first_drain", 0.0) == found.pop("second_drain", 0.0) == 0.0
    assert found == pytest.approx(broken)


def test_a_drain_outside_its_edges_is_named_where_another_immersion_follows() -> None:
    short, usual, long = drained((2.0,))[0], drained((8.0,))[0], drained((24.0,))[0]
    assert short < 28.0 < usual < 37.0 < long
    cases = ((2.0, 6.0, 8.0), (2.0,), (8.0, 6.0, 8.0))
    first, alone, within = (dict(judged(lengths).broken).get("first_drain") for lengths in cases)
    assert first == pytest.approx(28.0 - short) and alone is within is None
    assert dict(judged((24.0, 6.0, 2.0)).broken)["first_drain"] == pytest.approx(long - 37.0)
    second = drained((6.0, 6.0, 1.0))[1]
    assert second < 36.0
    assert dict(judged((6.0, 6.0, 1.0, 6.0, 8.0)).broken)["second_drain"] == pytest.approx(36.0 - second)
    assert "second_drain" not in dict(judged((6.0, 6.0, 1.0)).broken)


def test_what_counts_against_a_plan_is_told_thing_by_thing() -> None:
    lengths = (9.5, 13.0, 3.0, 14.0, 9.0, 6.0, 0.5)
    one = judged(lengths, cast_window=(16.0, 20.0))
    cast = 6.0 + sum(lengths) + 1.0  # 62 h: at 14:00
    wanted = {
        "first drain": (max(0.0, abs(drained((9.5,))[0] - 31.0) - 1.0), drained((9.5,))[0]),
        "last dip": (1.0, 0.5),  # shorter than an hour and a half
        "waits for the cast": (0.15 * (16.0 - cast % 24.0), 16.0 - cast % 24.0),
        "no air rest": (0.0, 3.0),
        "soon over": (0.0, 55.0),
        "long immersion": (0.4 * 1.5, 9.5),
        "short immersion": (0.5, 3.0),  # the last is a dip and may be short
        "long rest": (0.25 * 3.0, 14.0),
        "many immersions": (0.5, 4.0),
        "hours in all": (0.04 * 55.0, 55.0),
    }
    told = {term.name: (term.cost, term.figure) for term in one.terms}
    assert set(told) == set(wanted) and len(one.terms) == len(wanted)
    for name, figures in wanted.items():
        assert told[name] == pytest.approx(figures), name
    assert one.cost == pytest.approx(sum(cost for cost, _ in wanted.values()))


def test_a_steep_without_a_rest_or_soon_over_counts_so() -> None:
    told = {term.name: term for term in judged((12.0,)).terms}
    assert told["no air rest"] == Term("no air rest", 3.0, 0.0) and told["last dip"].cost == 0.0
    assert told["soon over"].cost == pytest.approx(0.5 * 16.0) and told["long rest"] == Term("long rest", 0.0, 0.0)
    assert told["short immersion"].cost == 0.0 and told["many immersions"].cost == 0.0
    long = {term.name: term for term in judged((8.0, 6.0, 7.0)).terms}
    assert long["last dip"].cost == pytest.approx(0.15 * 2.0) and long["no air rest"].cost == 0.0


def test_a_first_drain_within_a_point_of_its_aim_counts_nothing() -> None:
    first = drained((8.0,))[0]
    for away, cost in ((0.9, 0.0), (1.5, 0.5), (-1.5, 0.5)):
        told = {term.name: term for term in judged((8.0, 6.0, 8.0), first_aim=first + away).terms}
        assert told["first drain"].cost == pytest.approx(cost, abs=1e-9)


def test_the_fourth_best_plan_sets_the_bar_for_those_to_come() -> None:
    one = search()
    drafts = [Draft((8.0, 6.0, 10.0), 25.0, (), (Term("hours in all", cost, cost),)) for cost in (4.0, 1.0, 3.0)]
    one.found = [*drafts, drafts[0]._replace(broken=(("quiet", 1.0),), terms=(Term("hours in all", 0.5, 0.5),))]
    assert one.bar() == inf
    one.found += [drafts[0]._replace(terms=(Term("hours in all", 2.0, 2.0),))]
    assert one.bar() == 4.0
    one.found += [drafts[0]._replace(terms=(Term("hours in all", 3.5, 3.5),))]
    assert one.bar() == 3.5


def test_more_immersions_help_where_more_is_broken_than_that_it_takes_too_long() -> None:
    plan = Draft((8.0,), 9.0, (), ())
    assert _steeps_well(plan) and _steeps_well(plan._replace(broken=(("vessel_h", 1.0), ("cast_window", 2.0))))
    assert not _steeps_well(plan._replace(broken=(("vessel_h", 1.0), ("quiet", 1.0))))


def test_an_easier_search_halves_the_rests_or_lets_immersions_be_half_as_long_again() -> None:
    shorter, longer = _eased(WISHES._replace(longest_immersion_h=4.0))
    assert (shorter.shortest_rest_h, shorter.longest_immersion_h) == (3.0, 4.0)
    assert (longer.shortest_rest_h, longer.longest_immersion_h) == (6.0, 10.0)
    assert _eased(WISHES)[1].longest_immersion_h == 12.0  # and none over the most there may be


def test_a_margin_takes_a_late_drain_s_hour_from_the_rest_and_keeps_the_water_in_its_range() -> None:
    cold = steep(barley_moisture=12.5, stages=[(8, 3.0), (0.5, 3.0), (3, 3.0)])
    end = cold.ends[-1].drained
    colder = steep(barley_moisture=12.5, stages=[Stage(8, 2.0), Stage(0.5, 2.0), Stage(3, 2.0)]).ends[-1].drained
    late = [
        steep(barley_moisture=12.5, stages=[(hours, 3.0) for hours in row]).ends[-1].drained - end
        for row in ((9.0, 0.25, 3.0), (8.0, 0.5, 4.0))
    ]
    found = margin(cold)
    assert found.colder == pytest.approx(colder - end) and found.late == pytest.approx(max(late, key=abs))
    warm = steep(barley_moisture=12.5, stages=[(8, 29.0)])
    hot = steep(barley_moisture=12.5, stages=[(8, 30.0)]).ends[-1].drained
    assert margin(warm).warmer == pytest.approx(hot - warm.ends[-1].drained)


@pytest.mark.parametrize("row", [(0.5, 20.0, 12.0), (2.0, 2.0, 30.0), (4.0, 20.0, 0.5)])
def test_a_margin_is_that_of_the_drain_that_moves_the_end_most(row: tuple[float, ...]) -> None:
    end = drained(row)[-1]
    late = []
    for place in range(0, len(row), 2):
        moved = list(row)
        moved[place] += 1.0
        if place + 1 < len(row):
            moved[place + 1] -= 1.0  # the fills keep their clock
        late.append(drained(tuple(moved))[-1] - end)
    course = steep(barley_moisture=12.5, stages=[(hours, 14.0) for hours in row])
    assert margin(course).late == pytest.approx(max(late, key=abs))


def test_a_quarter_of_an_hour_is_moved_to_the_half_hour_that_is_surely_enough() -> None:
    """A rest made longer is rounded up, one made shorter down."""
    one = search(quiet=None, cast_window=None)
    assert one.shifted([8.0, 8.0], judged((8.0, 8.0, 4.25), quiet=None)) == [[8.0, 12.0]]  # 24 h at the least
    early = {"start_clock_h": 2.0, "cast_window": None}
    night = judged((8.0, 12.0, 4.25), **early)  # drained at 2:15
    assert search(**early).shifted([8.0, 12.0], night)[:2] == [[8.0, 6.0], [8.0, 15.0]]


@pytest.mark.parametrize(
    ("node", "target", "barley"), [([8.0, 8.0], 45.0, 12.5), ([6.0, 7.5], 41.0, 12.5), ([4.0, 6.0], 40.0, 16.0)]
)
def test_what_follows_a_node_is_broken_off_four_points_under_the_target_or_where_the_second_drain_aims(
    node: list[float], target: float, barley: float
) -> None:
    wishes = WISHES._replace(target_moisture=target, quiet=None, cast_window=None)
    base = BASE._replace(barley_moisture=barley)
    course = steep(barley_moisture=barley, stages=[(h, 14.0) for h in (*node, 10.0)])
    aim = max(min(target - 4.0, EDGES.second_aim), barley + 1.0)
    pause = course.last_immersion_needed_h(aim, 48.0)
    helper = Search(base, 14.0, wishes)
    wanted = [
        [*node, length, rest]
        for length in helper.immersions(sum(node), 48.0 if pause is None else pause)
        for rest in helper.rests(sum(node) + length)
    ]
    needed = course.last_immersion_needed_h(target, 48.0)
    assert needed is None or needed > 3.0
    assert Search(base, 14.0, wishes).next_level([node]) == wanted


def test_a_node_that_needs_but_a_dip_is_finished_and_moved_twice_at_the_most() -> None:
    """Three hours and less are not parted by another rest; a rest is moved so that its drain falls well."""
    node = [8.0, 8.0, 8.0, 12.0]
    target = drained((*node, 2.0))[-1]
    one = search(target_moisture=target)
    assert one.next_level([node]) == []
    assert one.found[0].lengths[:4] == tuple(node)
    rests = [draft.lengths[3] for draft in one.found]
    assert len(rests) == len(set(rests)) > 1
    calm = search(quiet=None, cast_window=None, target_moisture=target)
    assert calm.next_level([node, node]) == [] and len(calm.found) == 1  # the same one is looked at once


def test_nodes_dearer_than_the_fourth_best_plan_are_left_alone() -> None:
    one = search(quiet=None, cast_window=None)
    one.found = [Draft((8.0, 6.0, 10.0), 25.0, (), (Term("hours in all", 0.01, 0.0),))] * 4
    assert one.next_level([[8.0, 8.0, 8.0, 12.0]]) == [] and len(one.found) == 4


@pytest.mark.parametrize(("good", "levels"), [(0, 4), (3, 4), (4, 2)])
def test_more_than_three_immersions_are_tried_where_few_plans_are_good(
    monkeypatch: pytest.MonkeyPatch, good: int, levels: int
) -> None:
    """Two to five; with four good ones three are enough."""
    one = search()
    seen: list[int] = []

    def level(nodes: list[list[float]]) -> list[list[float]]:
        seen.append(len(nodes))
        one.found = [Draft((8.0,), 9.0, (), ())] * good
        return [[8.0, 6.0]] * 30

    monkeypatch.setattr(one, "next_level", level)
    one.drafts()
    assert len(seen) == levels and max(seen) == 24  # so many nodes of a level, the cheapest


def test_the_nearest_plans_give_up_fewest_wishes_by_the_least() -> None:
    def broken(cost: float, *wishes: tuple[str, float], first: float = 8.0) -> Draft:
        return Draft((first, 6.0, 10.0), 25.0, wishes, (Term("hours in all", cost, cost),))

    quiet, dear = broken(1.0, ("quiet", 1.0)), broken(3.0, ("quiet", 1.0), first=2.0)
    vessel = broken(9.0, ("vessel_h", 0.5), first=4.0)
    two = broken(0.0, ("quiet", 0.1), ("vessel_h", 0.1), first=6.0)
    def nearest(drafts: list[Draft], most: int) -> list[Draft]:
        looked = _Looked(search(), Judged)
        course = search().course((8.0, 6.0, 10.0))
        looked.plan = lambda draft: Plan(draft, course, margin(course), (), draft.cast_h)  # type: ignore[method-assign]
        return [plan.draft for plan in looked.nearest(drafts, most)]

    assert nearest([two, dear, vessel, quiet], 3) == [vessel, quiet]
    assert nearest([dear, vessel, quiet], 1) == [vessel]
    assert nearest([two], 3) == [two]
    # What is given up counts first: a point against it is a hundredth of an hour.
    close = broken(3.0, ("quiet", 0.98), first=2.0)
    assert nearest([quiet, close], 3) == [quiet]
    closer = broken(2.5, ("quiet", 0.98), first=2.0)
    assert nearest([quiet, closer], 3) == [closer]
