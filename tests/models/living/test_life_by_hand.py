"""A steep's chits and their doubt added up by hand, cause by cause."""

from __future__ import annotations

from math import exp, inf, log

import numpy as np
import pytest

from calculators.models.bounds import OutOfRange
from calculators.models.living.breathing import SOONEST_FACTOR
from calculators.models.living.chitting import SPREAD_LOG_SD, Corns, Counted, chitted, from_counts
from calculators.models.living.lot_plan_state import State
from calculators.models.living.maths import FLOATS
from calculators.models.living.pace import CHIT_BASE_C, CHIT_BASE_SD_C, chit_pace
from calculators.models.living.steep_life import Chits, Chitting, Life, Span
from calculators.models.living.steep_run import Rests, driven, lot_of, rest_places, rise, warmed
from calculators.models.steep.course import Steep
from calculators.models.steep.doubt import UNKNOWNS, moved, trust
from calculators.models.steep.hydration import run, steep

HOURS = (8.0, 8.0, 8.0, 12.0, 3.0)
COURSE: Steep = warmed(steep(barley_moisture=12.5, stages=[(h, 14.0) for h in HOURS]))[0]
SD = 2.0  # every band is two standard deviations wide


def clocks(course: Steep, **lot: float) -> list[float]:
    batch = lot_of(course.steeping)._replace(**lot)  # type: ignore[arg-type]
    return [max(float(s.chit_h), 1e-3) for s in driven(course, lot=batch)]


def aside(z: list[float]) -> Steep:
    return run(moved(COURSE.steeping, trust(COURSE).doubt, z))


def slopes(place: int) -> list[float]:
    """How the logarithm of the clock moves with half a standard deviation of pace, first uptake and film."""
    here, found = clocks(COURSE), [0.0] * UNKNOWNS
    for n in (0, 1, 3):
        z = [0.0] * UNKNOWNS
        z[n] = 0.5
        found[n] = 2.0 * log(clocks(aside(z))[place] / here[place])
    return found


def test_drinking_is_moved_together_the_way_that_brings_the_chits_on_soonest() -> None:
    """Of unknowns with no readings that way is the slope's own, as long as one standard deviation."""
    life = Life(trust(COURSE))
    middle = min(range(len(life.states)), key=lambda n: abs(life.states[n].chit_h - Corns().middle_h))
    steep_of = np.array(slopes(middle))
    assert life.toward == pytest.approx(steep_of / np.linalg.norm(steep_of), abs=1e-9)
    assert Life(trust(COURSE), toward=[1.0] + [0.0] * 7).toward == [1.0] + [0.0] * 7


@pytest.mark.parametrize("counted", [False, True], ids=["not-counted", "counted"])
def test_the_doubts_of_the_clock_add_up_as_squares(counted: bool) -> None:
    """Independent causes add up as squares (JCGM 100:2008, 5.1.2, from memory); after a count only what came since."""
    counts = [Chits(24.0, 5, 100)] if counted else []
    life = Life(trust(COURSE), counts=counts)
    at = next(n for n, state in enumerate(life.states) if state.hour == 24.0)
    warmer = tuple(stage._replace(water_temp_c=stage.water_temp_c + 0.4) for stage in COURSE.steeping.stages)
    others = {
        "late": clocks(aside([-SD * z for z in life.toward])),
        "early": clocks(aside([SD * z for z in life.toward])),
        "warm": clocks(run(COURSE.steeping._replace(stages=warmer))),
        "fast": clocks(COURSE, breath_factor=SOONEST_FACTOR),
    }  # fmt: skip
    here = clocks(COURSE)
    for place in (at + 3, len(here) - 1):

        def gained(row: list[float], place: int = place) -> float:
            return log(row[place]) - (log(row[at]) if counted else 0.0)

        off = {name: gained(row) - gained(here) for name, row in others.items()}
        mean = float(np.mean([s.temp_c for s in life.states[: place + 1]]))
        base = log(chit_pace(FLOATS, mean, CHIT_BASE_C - CHIT_BASE_SD_C) / chit_pace(FLOATS, mean))
        uneven = SPREAD_LOG_SD * (log(here[place]) - (log(here[at]) if counted else log(life.corns.middle_h)))
        known = [SD * life.middle_log_sd, SD * off["warm"], SD * base, SD * uneven, off["fast"]]
        back, ahead = life._log_reach(place)
        assert back == pytest.approx(np.linalg.norm([*known, min(0.0, off["late"], off["early"])]), rel=1e-6)
        assert ahead == pytest.approx(np.linalg.norm([*known, max(0.0, off["late"], off["early"])]), rel=1e-6)


def test_a_share_s_band_has_the_clock_s_doubt_and_that_of_the_corns_that_grow() -> None:
    life = Life(trust(COURSE))
    for place in (20, len(life.states) - 1):
        clock = max(float(life.states[place].chit_h), 1e-3)
        back, ahead = life._log_reach(place)
        value, low, high = (chitted(clock_h=c, corns=Corns()) for c in (clock, clock * exp(-back), clock * exp(ahead)))
        grows = SD * 0.02 * value / Corns().grows
        found = life.share_at(life.states[place].hour)
        assert found.value == pytest.approx(value)
        assert found.low == pytest.approx(max(0.0, value - np.hypot(value - low, grows)))
        assert found.high == pytest.approx(min(1.0, value + np.hypot(high - value, grows)))
    assert life.share_at(0.0).value == pytest.approx(0.0, abs=1e-9)
    last = life.states[-1].hour
    assert life.share_at(last + 5e-7) == life.share_at(last)  # the last bit of a sum of stages
    with pytest.raises(OutOfRange):
        life.share_at(last + 0.01)


def test_counts_move_the_corns_by_the_clock_and_by_its_own_doubt() -> None:
    counts = [Chits(24.0, 6, 100), Chits(30.0, 25, 100)]
    before = Life(trust(COURSE))
    place = next(n for n, state in enumerate(before.states) if state.hour == 30.0)
    rows = []
    for one in counts:
        clock = before.clock_at(one.hour)
        rows += [Counted(0.0, clock, one.chitted), Counted(clock, inf, one.corns - one.chitted)]
    sd = sum(before._log_reach(place)) / (2.0 * SD)
    wanted = from_counts(counted=rows, corns=Corns(), middle_log_sd=sd)
    after = Life(trust(COURSE), counts=counts)
    assert after.corns == wanted.corns and after.middle_log_sd == pytest.approx(wanted.middle_log_sd)
    none, all_ = Life(trust(COURSE), counts=[Chits(24.0, 0, 50)]), Life(trust(COURSE), counts=[Chits(38.0, 50, 50)])
    assert none.corns.middle_h > Corns().middle_h > all_.corns.middle_h
    unsure = Chitting(Corns(), 5.0)
    assert Life(trust(COURSE), chitting=unsure, counts=[Chits(30.0, 1, 1)]).middle_log_sd < 1.0  # none is surer of less


@pytest.mark.parametrize("wrong", [Chits(0.05, 0, 10), Chits(39.5, 1, 10), Chits(30.0, 11, 10), Chits(30.0, -1, 10)])
def test_a_count_outside_the_steep_or_of_more_than_its_corns_is_asked_back(wrong: Chits) -> None:
    with pytest.raises(OutOfRange) as caught:
        Life(trust(COURSE), counts=[Chits(30.0, 10, 10), wrong])
    assert (caught.value.table, caught.value.row) == ("counts", 1)


def test_what_is_known_from_elsewhere_takes_the_place_of_what_was_known() -> None:
    life = Life(trust(COURSE))
    at = life.states[-1].hour
    usual = life.share_at(at)
    life.say(Chitting(Corns(middle_h=Corns().middle_h * 1.3), 0.01))
    later = life.share_at(at)
    assert later.value < usual.value and later.high - later.low < usual.high - usual.low


def test_hours_of_a_share_that_no_corn_has_or_all_have_too_late() -> None:
    life = Life(trust(COURSE))
    assert life.hour_of(0.99) is None
    found = life.hour_of(life.share_at(life.states[-1].hour).low + 1e-6)
    assert found is not None and found.high == inf > found.value >= found.low
    first = life.hour_of(0.0)
    assert first is not None and first.value == pytest.approx(0.0)


def test_warmth_is_looked_at_up_to_an_hour_and_in_a_rest_of_two_states_at_the_least() -> None:
    whole = Life(trust(COURSE))
    rests = rest_places(whole.states)
    assert [rest.number for rest in whole.warmest] == [1, 2]
    for rest, places in zip(whole.warmest, rests, strict=True):
        top = max(places[1:], key=lambda n: whole.states[n].temp_c)
        assert (rest.hour, rest.warmest_c.value) == (whole.states[top].hour, whole.states[top].temp_c)
        assert rest.rise_k_h.value == rise(whole.states, places) == fastest(whole.states, places)
    second = whole.states[rests[1][0]].hour
    cut = Life(trust(COURSE), until_h=second + 2.0).warmest
    assert [rest.number for rest in cut] == [1, 2] and cut[1].hour <= second + 2.0
    assert [rest.number for rest in Life(trust(COURSE), until_h=second).warmest] == [1]
    assert [rest.number for rest in Life(trust(COURSE), until_h=second + 1.0).warmest] == [1, 2]
    held = Life(trust(COURSE), Rests(held_c=(None, 15.0)))
    assert held.warmest[0].warmest_c == Span(15.0, 15.0, 15.0)  # it was read


def fastest(states: list[State], places: list[int]) -> float:
    """The steepest of the straight lines between two states, by numpy."""
    hours, temps = ([getattr(states[n], name) for n in places] for name in ("hour", "temp_c"))
    return max(0.0, float(np.max(np.diff(temps) / np.diff(hours))))


def test_a_rest_warmer_than_chits_were_counted_in_is_asked_back_with_its_stage() -> None:
    course = steep(barley_moisture=12.5, stages=[(8.0, 29.0), (20.0, 29.0), (4.0, 29.0)])
    with pytest.raises(OutOfRange) as caught:
        Life(trust(course), Rests(suction_m3_h_t=1.0))
    assert (caught.value.parameter, caught.value.table, caught.value.row) == ("temp_c", "stages", 1)
