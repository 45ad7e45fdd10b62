"""The row of turnings of a bed against every row there is, and what counts as night, as quiet, as another way."""

from __future__ import annotations

import random
from collections.abc import Iterator
from itertools import pairwise
from math import ceil, floor, inf

import pytest

from calculators.rules.limit import Limit
from calculators.rules.limits.casting import COUCH_HOURS
from calculators.rules.limits.drum_germination import TURNING as DRUM_TURNING
from calculators.rules.limits.floor_germination import TURNING
from calculators.rules.replan.turnings import Turning, Turnings
from calculators.rules.replan.ways import (
    PUTS_FIRST,
    Changes,
    Move,
    Way,
    Weights,
    apart,
    chosen,
    clock_at,
    hands_at_night,
    in_quiet,
    is_night,
)

Quiet = tuple[float, float] | None


class Asked:
    """One bed to be turned, and every row that keeps what is said of it."""

    def __init__(
        self, limit: Limit, first: Limit | None, since: float, clock: float, now: bool, quiet: Quiet, shut: float
    ) -> None:
        self.limit, self.first, self.since, self.clock = limit, first or limit, since, clock
        self.now, self.quiet, self.shut, self.given = now, quiet, shut, first
        assert self.first.stop_high
        first_by = self.first.stop_high
        if shut:  # nobody goes near it before, so it may lie on until then
            first_by = max(first_by, since + ceil(shut))  # the first full hour after that
        self.first_by = max(first_by, since)  # what lies past its stop already is turned at once

    def rows(self, end: float, until: int) -> Iterator[tuple[float, ...]]:
        """Every row of turnings on the full hours for a bed that is loaded at an hour, none past a stop."""
        hours = [
            h for h in range(until + 1)
            if h < end and h >= self.shut and not (self.quiet and h and self.quiet[0] <= h < self.quiet[1])
        ]  # fmt: skip
        low, stop = self.limit.accept_low, self.limit.stop_high
        assert low is not None and stop is not None and self.first.accept_low is not None
        if not self.now and end + self.since <= self.first_by:
            yield ()
        rows: list[tuple[float, ...]] = []
        for hour in hours:
            at_once = self.now and hour == 0
            if self.now and not self.shut and not at_once:
                continue
            if hour + self.since <= self.first_by and (at_once or hour + self.since >= self.first.accept_low):
                rows.append((float(hour),))
        while rows:
            row = rows.pop()
            if end - row[-1] <= stop:
                yield row
            rows += [(*row, float(h)) for h in hours if low <= h - row[-1] <= stop]

    def best(self, end: float, until: int) -> Turnings | None:
        """The row with the fewest times that are watched, then hands at night, then turnings; the earliest."""

        def told(row: tuple[float, ...]) -> tuple[tuple[int, int, int], tuple[float, ...], float]:
            gaps = [b - a for a, b in pairwise((-self.since, *row, end))]
            most = [self.first.accept_high, *[self.limit.accept_high] * (len(gaps) - 1)]
            over = sum(gap > (high or inf) for gap, high in zip(gaps, most, strict=True))
            night = sum(h > 0 and ((self.clock + h) % 24 >= 22 or (self.clock + h) % 24 < 6) for h in row)
            return (over, night, len(row)), row, max(gaps)

        found = min((told(row) for row in self.rows(end, until)), default=None)
        return Turnings(found[1], found[2], found[0][1]) if found else None

    def said(self, until: float) -> Turning:
        return Turning(
            self.limit, since_h=self.since, clock_h=self.clock, until_h=until, now=self.now, quiet_h=self.quiet,
            shut_h=self.shut, first=self.given,
        )  # fmt: skip


def asked() -> list[Asked]:
    """Beds of all kinds: floor and drum, in the couch, past their stop, shut up, with nobody there."""
    draw = random.Random(15)
    return [
        Asked(
            draw.choice([TURNING, DRUM_TURNING]),
            draw.choice([None, None, COUCH_HOURS]),
            draw.choice([0.0, 3.0, 4.0, 5.5, 8.0, 11.0, 12.0, 15.0, 16.0, 17.5, 24.0, 27.0]),
            draw.choice([0.0, 3.0, 13.0, 14.5, 20.0, 23.0]),
            draw.random() < 0.3,
            draw.choice([None, None, (2.0, 9.0), (0.0, 5.0), (6.0, 18.0)]),
            draw.choice([0.0, 0.0, 0.0, 1.0, 3.5, 10.0]),
        )
        for _ in range(160)
    ]


ENDS = (1.0, 2.0, 5.0, 9.0, 12.05, 13.0, 17.0, 24.0, 28.0, 33.0)


@pytest.mark.parametrize("part", range(8))
def test_each_row_of_turnings_is_the_best_of_every_row_there_is(part: int) -> None:
    for one in asked()[part::8]:
        said = one.said(30.5)
        for end in ENDS:
            assert said.until(end) == one.best(end, 30), (vars(one), end)


def test_beds_of_each_kind_are_among_them() -> None:
    none, couches, late, with_night = 0, 0, 0, 0
    for one in asked():
        said = one.said(30.5)
        for found in map(said.until, ENDS):
            none += found is None
            couches += bool(found and one.given and found.longest_h > (one.limit.stop_high or 0.0))
            late += bool(found and one.shut and found.hours[:1] == (ceil(one.shut),) and one.now)
            with_night += bool(found and found.at_night)
    assert min(none, couches, late, with_night) > 20


def test_a_bed_is_looked_ahead_no_further_than_asked() -> None:
    said = Turning(TURNING, since_h=0.0, clock_h=8.0, until_h=12.9)
    row = said.until(12.0 + (TURNING.stop_high or 0.0))
    assert row and row.hours[-1] <= floor(12.9)
    assert said.until(12.0 + (TURNING.stop_high or 0.0) + 0.1) is None


def test_a_bed_that_is_loaded_before_its_next_turning_is_not_turned_once_more() -> None:
    row = Turning(TURNING, since_h=8.0, clock_h=8.0, until_h=20.0).until(1.0)
    assert row == Turnings((), 9.0, 0)
    asked = Turning(TURNING, since_h=8.0, clock_h=8.0, until_h=20.0, now=True).until(1.0)
    assert asked == Turnings((0.0,), 8.0, 0)  # unless it is asked for


def test_what_lies_past_its_stop_is_turned_at_once_and_at_the_stop_has_no_hour_left() -> None:
    stop = TURNING.stop_high or 0.0
    for since in (stop, stop + 4.0):
        row = Turning(TURNING, since_h=since, clock_h=8.0, until_h=40.0).until(20.0)
        assert row and row.hours[0] == 0.0 and row.longest_h == since


def test_a_bed_that_cannot_be_reached_is_turned_as_soon_as_it_can_be() -> None:
    stop = DRUM_TURNING.stop_high or 0.0
    for shut in (4.0, 3.25):
        row = Turning(DRUM_TURNING, since_h=stop - 2.0, clock_h=8.0, until_h=40.0, shut_h=shut).until(20.0)
        assert row and row.hours[0] == 4.0 and row.longest_h == stop + 2.0


@pytest.mark.parametrize(("clock_h", "night"), [(21.99, False), (22.0, True), (23.9, True), (0.0, True), (5.99, True),
                                                (6.0, False), (12.0, False), (29.9, True), (46.0, True)])  # fmt: skip
def test_night_lasts_from_22_to_6(clock_h: float, night: bool) -> None:
    assert is_night(clock_h) is night


def test_hands_at_night_are_hours_at_which_somebody_has_to_come() -> None:
    moves = (Move(0.0, "turn"), Move(0.05, "drain"), Move(2.0, "fill"), Move(2.0, "turn"), Move(9.0, "cast"))
    assert hands_at_night(moves, 21.0) == 1  # at 23:00, for two things at once
    assert hands_at_night(moves, 22.0) == 2  # at once somebody is there, three minutes later he has to stay
    assert hands_at_night(moves[:1], 23.0) == 0
    assert hands_at_night(moves, 21.5) == 1 and hands_at_night(moves, 20.5) == 2  # 22:30 and 5:30


def test_a_night_over_a_change_of_the_clocks_is_the_night_of_the_wall() -> None:
    """At 22:00, four hours before the clocks are put forward (by +1) or back (by -1)."""
    at_last = (Move(7.5, "turn"),)  # 05:30, by the clock of now
    assert hands_at_night(at_last, 22.0) == 1
    assert hands_at_night(at_last, 22.0, ((4.0, 1.0),)) == 0  # the wall shows 06:30
    next_day = (Move(23.5, "turn"),)  # 21:30, by the clock of now
    assert hands_at_night(next_day, 22.0) == 0
    assert hands_at_night(next_day, 22.0, ((4.0, 1.0),)) == 1  # the wall shows 22:30
    assert hands_at_night((Move(8.5, "turn"),), 22.0, ((4.0, -1.0),)) == 1  # 05:30, and not 06:30
    assert hands_at_night((Move(3.9, "turn"),), 22.0, ((4.0, 1.0),)) == 1  # before the change


@pytest.mark.parametrize("changes", [(), ((3.0, 1.0),), ((3.0, -1.0),)])
@pytest.mark.parametrize("clock_h", [12.0, 17.0, 21.0, 22.0])
def test_a_row_of_turnings_counts_the_nights_of_the_wall(clock_h: float, changes: Changes) -> None:
    row = Turning(TURNING, since_h=2.0, clock_h=clock_h, until_h=36.0, changes=changes).until(36.0)
    assert row is not None and row.hours
    assert row.at_night == sum(is_night(clock_at(clock_h, hour, changes)) for hour in row.hours if hour)


def test_quiet_hours_hold_no_move_but_what_is_done_at_once() -> None:
    quiet = (0.0, 6.0)
    assert not in_quiet((Move(0.0, "turn"), Move(6.0, "load")), quiet)
    assert in_quiet((Move(0.0, "turn"), Move(5.9, "turn"), Move(9.0, "load")), quiet)
    assert in_quiet((Move(0.05, "turn"),), quiet) and in_quiet((Move(0.5, "turn"),), quiet)
    assert not in_quiet((Move(0.5, "turn"),), (1.0, 6.0))
    assert in_quiet((Move(1.0, "turn"),), (1.0, 6.0))  # from the very hour on
    assert not in_quiet((Move(3.0, "turn"),), None)


def way(*hours: float, hold_c: float | None = None) -> Way:
    acts = [Move(hour, "turn") for hour in hours[:-1]]
    return Way((), (*acts, Move(hours[-1], "load")), None, hold_c=hold_c)  # type: ignore[arg-type]


def test_ways_whose_moves_lie_an_hour_apart_at_the_most_are_one() -> None:
    assert not apart(way(2.0, 10.0), way(3.0, 10.0)) and apart(way(2.0, 10.0), way(3.05, 10.0))
    assert apart(way(3.05, 10.0), way(2.0, 10.0)) and apart(way(2.0, 10.0), way(2.0, 12.0))
    assert apart(way(2.0, 10.0), way(2.0, 9.0, 10.0))
    assert apart(way(2.0, 10.0, hold_c=14.0), way(2.0, 10.0, hold_c=15.0))


def test_one_more_way_is_given_where_only_one_is_left_and_differs_by_two_hours() -> None:
    alone = chosen([("target", [way(1.0, 8.0), way(1.0, 10.0), way(1.0, 10.1), way(1.0, 20.0)])])
    assert [(one.words, one.moves[-1].hour) for one in alone] == [(("target",), 8.0), (("other",), 10.1)]
    two = chosen([("target", [way(1.0, 8.0), way(1.0, 20.0)]), ("clock", [way(1.0, 9.5)])])
    assert [one.words for one in two] == [("target",), ("clock",)]
    spares = chosen([("target", [way(1.0, 8.0), way(1.0, 12.0)]), ("clock", [way(1.0, 8.5), way(1.0, 20.0)])])
    assert [(one.words, one.moves[-1].hour) for one in spares] == [(("target", "clock"), 8.0), (("other",), 12.0)]
    assert chosen([("target", [None, None])]) == ()


def test_an_hour_off_the_plan_counts_most_where_the_clock_is_put_first_and_a_night_where_the_day_is() -> None:
    by: dict[str, Weights] = dict(PUTS_FIRST)  # type: ignore[arg-type]
    assert max(by, key=lambda word: by[word].hour) == "clock"
    assert max(by, key=lambda word: by[word].off) == "target"
    assert max(by, key=lambda word: by[word].night) == "day"
    assert ceil(by["day"].night / by["day"].hour) >= 24  # a night's sleep is worth a day's wait
