"""What each fault asks of every way, and where it can be."""

from __future__ import annotations

import pytest

from calculators.rules.limit import edge
from calculators.rules.limits.steeping import REST
from calculators.rules.replan.bed import BedNow, course_of, holds
from calculators.rules.replan.faults import ASKS_HOURS, FAULTS, HOURS_TAKEN, MOST_HOURS, Asked, Fault, asked_by

RESTS = edge(REST.accept_high)  # grain that smells sour rests as long as is accepted

WANTED: dict[Fault, Asked] = {
    "blower": Asked(True, 5.0, 5.0, None, None, 0.0, False, 5.0, True),
    "sour": Asked(True, RESTS - 3.0, RESTS - 3.0, None, None, 0.0, True, 0.0, True),
    "warm": Asked(False, 0.0, 0.0, 2.0, None, 0.0, True, 0.0, False),
    "turning-missed": Asked(False, 0.0, 0.0, None, None, 0.0, True, 0.0, False),
    "kiln-late": Asked(False, 0.0, 0.0, None, None, 5.0, False, 0.0, False),
    "away": Asked(False, 0.0, 0.0, None, (2.0, 7.0), 0.0, False, 0.0, False),
    "behind": Asked(False, 0.0, 0.0, None, None, 0.0, False, 0.0, False),
    "ahead": Asked(False, 0.0, 0.0, None, None, 0.0, False, 0.0, False),
}


@pytest.mark.parametrize("fault", list(FAULTS))
def test_each_fault_asks_what_its_page_says(fault: Fault) -> None:
    assert asked_by(fault, hours=5.0, begins_h=2.0, rested_h=3.0) == WANTED[fault]


def test_what_is_not_said_of_a_fault_is_none() -> None:
    assert asked_by("sour") == WANTED["sour"]._replace(fill_from_h=RESTS, cast_from_h=RESTS)
    assert asked_by("sour", rested_h=RESTS + 1.0) == WANTED["sour"]._replace(fill_from_h=0.0, cast_from_h=0.0)
    assert asked_by("away", hours=6.0).quiet_h == (0.0, 6.0) and asked_by("away", begins_h=1.0).quiet_h == (1.0, 1.0)
    assert asked_by("kiln-late").load_from_h == 0.0
    assert Asked() == WANTED["behind"]


def test_hours_are_taken_of_what_asks_for_them_and_none_past_the_longest() -> None:
    assert set(HOURS_TAKEN) == set(ASKS_HOURS) <= set(FAULTS)
    assert all(0.0 < hours <= MOST_HOURS for hours in HOURS_TAKEN.values())


def test_a_bed_of_which_little_is_said_lies_turned_in_a_room_at_the_lowest_that_is_accepted_for_ten_days() -> None:
    now = BedNow("floor", 12.5, 44.0, 15.0, 60.0, 2.0, 8.0)
    assert holds(now)[0] == 12.0 == now.room_c and not now.couch and now.load_h is None
    states = course_of(now, Asked(), 15.0, 0.0)
    assert states[-1].hour == 240.0
    assert states[0].dry_kg == pytest.approx(0.99 * 875.0)  # one per cent of the barley's dry matter is lost so far
