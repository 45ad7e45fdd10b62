"""The clock on the wall over a change of the clocks, against the time zones that Python carries."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.clocks import clocks_of
from calculators.daybook.next.step import Wall
from tests.daybook.book import START, ask, line

BERLIN = ZoneInfo("Europe/Berlin")
CLOCKS = [["", 60], ["2026-03-29T01:00", 120], ["2026-10-25T01:00", 60]]
AUTUMN = datetime(2026, 10, 25, 1, 0)
SPRING = datetime(2026, 3, 29, 1, 0)


def wall(now: datetime) -> Wall:
    known = clocks_of(CLOCKS)
    return Wall(now, next(zone for since, zone in reversed(known) if since <= now), known)


MOMENTS = st.datetimes(datetime(2026, 1, 1), datetime(2026, 12, 31)).map(lambda at: at.replace(second=0, microsecond=0))


@given(MOMENTS, MOMENTS)
def test_any_moment_is_said_as_the_wall_will_show_it(now: datetime, moment: datetime) -> None:
    shown = moment.replace(tzinfo=UTC).astimezone(BERLIN).replace(tzinfo=None)
    assert wall(now).local(moment) == shown
    assert f"{shown:%H:%M}" in wall(now).time(moment)
    twice = AUTUMN - timedelta(hours=1) <= moment < AUTUMN + timedelta(hours=1)
    assert ("time, " in wall(now).time(moment)) == twice


@given(MOMENTS)
def test_what_the_wall_shows_leads_back_to_its_moment(moment: datetime) -> None:
    clock = wall(AUTUMN)
    back = clock.moment(clock.local(moment))
    twice = AUTUMN <= moment < AUTUMN + timedelta(hours=1)
    assert back == (moment - timedelta(hours=1) if twice else moment)


@pytest.mark.parametrize(
    ("local", "moment"),
    [
        (datetime(2026, 10, 25, 2, 30), datetime(2026, 10, 25, 0, 30)),  # it comes twice: the earlier
        (datetime(2026, 3, 29, 2, 30), datetime(2026, 3, 29, 1, 30)),  # left out: by a clock nobody has put forward
        (datetime(2026, 10, 25, 3, 0), datetime(2026, 10, 25, 2, 0)),
    ],
)
def test_an_hour_that_comes_twice_or_never(local: datetime, moment: datetime) -> None:
    assert wall(AUTUMN).moment(local) == moment


def test_without_changes_the_clock_stands_as_it_does_now() -> None:
    clock = Wall(AUTUMN, 120)
    assert clock.local(SPRING) == SPRING + timedelta(hours=2)
    assert clock.moment(SPRING) == SPRING - timedelta(hours=2)


@pytest.mark.parametrize(
    "raw", [None, "x", [["2026", 60]], [["2026-13-01T00:00", 60]], [[""]], [["", 99999]], [[1, None]]]
)
def test_what_is_no_change_of_clocks_is_left(raw: object) -> None:
    assert all(isinstance(zone, int) and abs(zone) <= 1440 for _, zone in clocks_of(raw))


def test_a_drain_after_the_change_has_its_hour_of_the_wall() -> None:
    """Water on at 20:00 in summer time, 8 h: by winter time it is drained at 03:00, and not at 04:00."""
    begun = [
        line("start", "2026-10-24T19:00", zone=120, **START),
        line("stage-begun", "2026-10-24T20:00", zone=120, stage="wet"),
    ]
    asked = {"date": "2026-10-24T21:00", "zone": 120}
    assert "03:00" in ask("batch", begun, batch="b1", **asked, clocks=CLOCKS)["places"]["next"]
    assert "04:00" in ask("batch", begun, batch="b1", **asked)["places"]["next"]


def test_the_hour_of_loading_is_said_as_it_was_written_before_the_change_and_after_it() -> None:
    lines = [
        line("cast", "2026-10-20T06:00", zone=120, cast="floor"),
        line("plan", "2026-10-24T12:00", zone=120, load_at="2026-10-25 06:00"),
    ]
    for now, zone, said in (
        ("2026-10-24T13:00", 120, "Load it on the kiln Sun 25 Oct 06:00"),
        ("2026-10-25T05:30", 60, "Load it on the kiln 06:00"),
        ("2026-10-25T06:30", 60, "Loading on the kiln was due 06:00"),
    ):
        assert said in ask("batch", lines, batch="b1", date=now, zone=zone, clocks=CLOCKS)["places"]["next"]


def test_nobody_is_said_to_be_needed_by_day_who_is_needed_at_night_by_the_wall() -> None:
    now = datetime(2026, 3, 28, 21)
    assert wall(now).changes(now) == ((4.0, 1.0), (5044.0, -1.0))
    assert wall(AUTUMN).changes(AUTUMN) == ()


def test_in_the_hour_that_comes_twice_it_is_said_which_it_is() -> None:
    clock = wall(datetime(2026, 10, 24, 20))
    assert clock.time(datetime(2026, 10, 25, 0, 10)).startswith("Sun 25 Oct 02:10 (the first time")
    assert clock.time(datetime(2026, 10, 25, 1, 10)).startswith("Sun 25 Oct 02:10 (the second time")


def test_the_start_that_is_lent_after_the_change_is_the_hour_that_was_written() -> None:
    lines = [
        line("start", "2026-10-24T02:30", zone=120, **START),
        line("stage-begun", "2026-10-24T03:00", zone=120, stage="wet", water_temp_c="14"),
        line("basket", "2026-10-25T03:00", zone=60, gross_g="195"),
    ]
    lent = ask("lend", lines, sheet="steep-timing", date="2026-10-25T03:10", zone=60, clocks=CLOCKS)["lent"]
    assert lent["start"]["value"] == "2026-10-24 03:00"
