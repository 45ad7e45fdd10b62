"""Over random input: no answer of a steeping sheet lies past a stop of the table unless the stop is said before it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from calculators.asking.answer import Answered, answer, example_of
from calculators.cli import main
from calculators.page import respond
from calculators.sheets import find_sheet
from tests.sheets.stops import Result, asked, check, past, stops_said


def of_stages(rows: list[list[Any]]) -> Iterator[tuple[str, str]]:
    """What the stages shown pass: rows of name, hours, temperature, ..., drained, inside."""
    drains = [row for row in rows if "immersion" in row[0]]
    for place, row in enumerate(rows):
        if "immersion" in row[0]:
            yield from past("immersion-hours", row[1])
            yield from past("steep-water-temp", row[2])
        else:
            yield from past("rest-hours", row[1])
            yield from past("rest-temp", row[2])
            assert place
    for name, row in zip(("first-drain-moisture", "second-drain-moisture"), drains[:-1], strict=False):
        yield from past(name, row[6])


def of_order(result: Result) -> Iterator[tuple[str, str]]:
    """What the hours of the last immersion pass, and the ways that stand in their place."""
    answers = result["answers"]
    needed = answers.get("last_immersion_needed_h")
    if needed:
        yield from past("immersion-hours", needed["value"])
        yield from past("immersion-hours", needed.get("high", 1e9))
    for row in result["tables"].get("instead", {"rows": []})["rows"]:
        for place, hours in enumerate(row[1].split(", ")):
            assert float(hours) <= (24.0 if place % 2 else 12.0)
        yield "immersion-hours", "12 h"  # a way is only offered beside its stop
    if "order" in answers:
        assert needed is None
        yield "immersion-hours", "12 h"
    yield from past("cast-moisture", result["questions"].get("target_moisture"))
    yield from past("cast-moisture", answers["moisture_end"]["value"])


waters = st.one_of(st.floats(2, 24), st.sampled_from([5.0, 4.99, 20.0, 20.01, 18.0]))
stages = st.lists(st.one_of(st.floats(0.5, 30), st.sampled_from([8.0, 12.0, 12.01])), min_size=1, max_size=6)
targets = st.one_of(st.floats(36, 52), st.sampled_from([41.0, 48.0]))
rates = st.floats(0.4, 2.5)


@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.floats(8, 18), waters, stages, targets, rates, st.none() | st.floats(20, 45))
@example(12.5, 6.0, [8.0, 8.0, 8.0, 12.0, 3.0], 45.0, 1.0, None)
@example(12.5, 14.0, [8.0], 44.0, 1.0, None)
def test_steep_timing(barley, water, hours, target, rate, read):
    begins = sum(hours[: (len(hours) - 1) // 2 * 2])
    reading = "" if read is None else f"{min(hours[0], 6.0)} {read}"
    result = asked(
        "steep-timing",
        barley_moisture=repr(barley),
        water_temp_c=repr(water),
        stages="; ".join(map(repr, hours)),
        target_moisture=repr(target),
        rate_factor=repr(rate),
        reading=reading,
        start="2026-01-12 06:00",
    )
    if result is None:
        return
    check(result, of_order(result))
    check(result, of_stages(result["tables"]["stages"]["rows"]))
    if "drain_at" in result["answers"]:
        at = datetime.fromisoformat(result["answers"]["drain_at"]["value"])
        wet = (at - datetime(2026, 1, 12, 6)).total_seconds() / 3600 - begins
        assert wet <= 12.0 + 1 / 60


@settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.floats(8, 18), waters, stages, st.none() | targets, st.floats(18, 48))
@example(12.5, 6.0, [8.0, 8.0, 8.0, 12.0, 3.0], 45.0, 29.0)
def test_steep_fit(barley, water, hours, target, read):
    result = asked(
        "steep-fit",
        barley_moisture=repr(barley),
        water_temp_c=repr(water),
        stages="; ".join(map(repr, hours)),
        target_moisture="" if target is None else repr(target),
        readings=f"{max(0.25, min(hours[0], 6.0))} {read!r}",
        weighings="",
        basket_g="",
        sample_g="",
    )
    if result is None:
        return
    check(result, of_order(result))
    check(result, (one for h in hours[::2] for one in past("immersion-hours", h)))
    check(result, (one for h in hours[1::2] for one in past("rest-hours", h)))
    check(result, past("steep-water-temp", water))


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.floats(9, 17),
    waters,
    st.floats(42, 50),
    rates,
    st.floats(0, 60),
    st.integers(0, 47),
    st.none() | st.tuples(st.integers(12, 23), st.integers(1, 11)),
    st.floats(0, 200),
    st.floats(0, 200),
    st.none() | st.floats(20, 60),
)
@example(12.5, 14.0, 45.0, 1.0, 0.0, 0, None, 60.0, 60.0, None)
@example(12.5, 14.0, 45.0, 1.0, 0.0, 12, (18, 7), 60.0, 60.0, None)
@example(12.5, 6.0, 45.0, 0.5, 0.0, 12, None, 60.0, 60.0, None)
@example(9.0, 2.0, 42.0, 1.0, 30.0, 0, None, 0.0, 0.0, None)
@example(9.0, 3.0, 42.0, 2.0, 0.0, 0, None, 0.0, 0.0, 54.0)
def test_steep_plan(barley, water, target, rate, sensitive, half_hours, quiet, fill, drain, chit):
    start = f"{half_hours // 2:02d}:{30 * (half_hours % 2):02d}"
    result = asked(
        "steep-plan",
        barley_moisture=repr(barley),
        water_temp_c=repr(water),
        target_moisture=repr(target),
        rate_factor=repr(rate),
        water_sensitivity=repr(sensitive),
        start=start,
        quiet_from=f"{quiet[0]}:00" if quiet else "",
        quiet_until=f"{quiet[1]}:00" if quiet else "",
        cast_from="",
        cast_until="",
        fill_minutes=repr(fill),
        drain_minutes=repr(drain),
        chit_hours="" if chit is None else repr(chit),
        shortest_rest_h=repr(max(6.0, (fill + drain) / 60)),
    )
    if result is None:
        return
    check(result, past("fill-minutes", fill))
    check(result, past("drain-minutes", drain))
    if "refused" in result:
        assert "none over 12 h" in result["refused"]
        return
    check(result, past("water-sensitivity", sensitive))
    check(result, past("steep-water-temp", water))
    rows = result["tables"].get("schedule", {"rows": []})["rows"]
    if not rows:
        assert result["answers"]["wishes"]["value"] == "none" and "cast_at" not in result["answers"]
        assert "Past a stop. No plan is offered" in stops_said(result)
    # What is offered keeps the stops of warmth and chit by the typical barley, or by the house's own hours to chit.
    for row in result["tables"].get("rests", {"rows": []})["rows"]:
        assert row[3] <= 18.0 + 0.05 and row[6] <= 1.0 + 0.05
    for row in result["tables"].get("chits", {"rows": []})["rows"]:
        assert row[1] is None or row[1] >= 50.0 - 0.5
    for plan in {row[0] for row in rows}:
        mine = [row for row in rows if row[0] == plan]
        assert max(row[6] for row in mine) <= 12.0 and max(row[8] or 0.0 for row in mine) <= 24.0
        below = max(row[6] for row in mine) + (fill + drain) / 60
        if below > 12.0 + 1e-9:
            assert "Past a stop at the bottom" in stops_said(result)
        check(result, past("cast-moisture", mine[-1][7]))
        for name, row in zip(("first-drain-moisture", "second-drain-moisture"), mine[:-1], strict=False):
            check(result, past(name, row[7]))
        check(result, past("steep-hours", sum(row[6] + (row[8] or 0.0) for row in mine)))
    card = [cell for row in result["tables"]["wall_card"]["rows"] for cell in row[1:] if cell is not None]
    assert all(cell <= 12.0 for cell in card)


@settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.floats(26, 47), st.floats(36, 52), waters, st.integers(120, 200), st.floats(0.5, 40))
@example(36.0, 46.0, 6.0, 195, 10.0)
@example(41.0, 46.0, 10.0, 195, 10.0)
def test_cast_decision_and_its_next_immersion(moisture, target, water, chitted, rested):
    result = asked(
        "cast-decision",
        moisture_drained=repr(moisture),
        target_moisture=repr(target),
        water_temp_c=repr(water),
        chitted=str(chitted),
        hours_since_drain=repr(rested),
    )
    if result is None or result["answers"]["verdict"]["value"] != "wet-again":
        return
    check(result, past("cast-moisture", target))
    check(result, past("steep-water-temp", water))
    wet = result["answers"].get("wet_hours")
    if wet is None:
        assert stops_said(result)
        return
    assert wet["value"] <= 12.0
    check(result, past("immersion-hours", wet.get("high")))


def of_week(result: Result) -> Iterator[tuple[str, str]]:
    """What the plan of a week passes: its water, its chits, the warmth of its rests, the moisture that it comes to."""
    answers, questions = result["answers"], result["questions"]
    yield from past("steep-water-temp", max(questions["steep_c"], questions["mains_c"]))
    for limit, name in (("cast-moisture", "moisture_end"), ("chit-last-dip", "chit_dip"), ("rest-temp", "warmest_c")):
        yield from past(limit, answers.get(name, {}).get("value"))
    for _, _, depth, piece in questions["floors"] or ():
        yield from past("floor-depth", depth)
        yield from past("floor-piece", piece)
    for *_, bed in questions.get("vessels") or ():
        yield from past("drum-bed", bed)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    stages,
    st.one_of(st.floats(5, 30), st.sampled_from([18.0, 18.01, 20.0, 20.01])),
    st.floats(2, 24),
    st.none() | st.floats(20, 60),
    st.one_of(st.floats(4, 80), st.sampled_from([40.0, 40.01])),
    st.one_of(st.floats(5, 30), st.sampled_from([20.0, 20.01])),
    st.sampled_from(["", "drum drum 6500 15", "drum drum 6500 21"]),
    st.integers(0, 3),
)
@example([8.0, 8.0, 8.0, 12.0, 3.0], 14.0, 10.0, 40.0, 11.0, 14.0, "drum drum 6500 15", 2)
@example([8.0, 8.0, 8.0, 12.0, 3.0], 10.0, 6.0, None, 11.0, 14.0, "", 2)
@example([8.0, 8.0, 8.0, 12.0, 3.0], 14.0, 19.0, None, 45.0, 21.0, "drum drum 6500 21", 2)
@example([12.0, 24.0, 12.0], 15.0, 6.0, None, 11.0, 14.0, "", 3)
def test_house_week(hours, steep_c, mains_c, chit, depth, piece, vessels, longer):
    result = asked(
        "house-week",
        stages="; ".join(map(repr, hours)),
        steep_c=repr(steep_c),
        mains_c=repr(mains_c),
        chit_hours="" if chit is None else repr(chit),
        floors=f"floor 400 {depth!r} {piece!r}",
        vessels=vessels,
        rest_longer_h=str(longer),
        batches="a 6000; b 6000",
        reference_temp_c="15",
        reference_days="5",
        slip_batch="",
    )
    if result is None:
        return
    verdict = result["answers"]["plan"]["value"]
    check(result, of_week(result))
    if verdict == "none":
        return
    assert (verdict == "stop") == bool(stops_said(result))
    # An hour that is planned lies within the stops whatever is said: the lines of each batch, in their order.
    lines = sorted((datetime.fromisoformat(row[1]), row[2], row[3]) for row in result["tables"]["lines"]["rows"])
    for name in ("a", "b"):
        own = [(at, what) for at, what, batch in lines if batch == name and what not in ("load", "empty")]
        for (at, what), (then, _) in pairwise(own):
            hours_between = (then - at).total_seconds() / 3600
            assert hours_between <= (12.0 if what in ("fill", "water on") else 24.0)


COLD = {"water_temp_c": "6", "target_moisture": "45"}


def test_the_stop_stands_before_the_answers_on_the_command_line_and_in_the_page(capsys):
    """Cold water wants 31 h in one: no hour to drain at past the twelfth, on no way that the answer is read."""
    sheet = find_sheet("steep-timing")
    given_values = {**example_of(sheet), **COLD, "start": "06:00"}
    assert main(["run", "steep-timing", *(f"{name}={value}" for name, value in given_values.items())]) == 0
    out = capsys.readouterr().out
    stop = "NOTICE: Past a stop. To 45 % in one immersion takes 30.6 h: the stop is over 12 h."
    assert 0 < out.index(stop) < out.index("The last immersion: Stop: too long in one. Split it with a rest.")
    assert "Last immersion must be" not in out and "8 h wet, 6 h rest, 8 h wet, 6 h rest" in out
    import json

    asked_of_page = {"sheet": "steep-timing", "prefix": "x", "root": "../", "questions": given_values, "date": ""}
    places = json.loads(respond(json.dumps(asked_of_page)))["places"]
    assert stop[8:] in places["notes"]  # which stands over the answers
    assert list(places).index("notes") < list(places).index("answers")
    assert places["answers"].index("Split it with a rest") < places["answers"].index("Drain at")


@pytest.mark.parametrize("sheet_id", ["steep-timing", "steep-fit"])
def test_the_chart_says_it_too(sheet_id):
    long = {"stages": "24; 4; 24", "target_moisture": "45"}
    sheet = find_sheet(sheet_id)
    extra = {} if sheet_id == "steep-timing" else {"weighings": "8 212"}
    found = answer(sheet, {**example_of(sheet), **long, **extra})
    assert isinstance(found, Answered)
    (chart,) = found.outcome.charts  # type: ignore[union-attr]
    assert "Past a stop: 24 h and 24 h in one immersion, over 12 h." in chart.summary
    assert [(s.start, s.end) for s in chart.shades if s.past] == [(12.0, 24.0), (40.0, 52.0)]  # type: ignore[union-attr]


def test_the_caption_says_that_the_last_immersion_is_too_long():
    found = answer(find_sheet("steep-timing"), {**example_of(find_sheet("steep-timing")), **COLD})
    assert isinstance(found, Answered)
    (chart,) = found.outcome.charts  # type: ignore[union-attr]
    assert chart.summary.endswith("Past a stop. To 45 % in one immersion takes 30.6 h: the stop is over 12 h.")


def test_the_ways_are_put_on_the_clock():
    result = asked("steep-timing", **COLD, start="2026-01-12 06:00")
    assert result is not None
    split, *_ = result["tables"]["instead"]["rows"]
    assert split[0] == "split it with a rest" and split[3] == "2026-01-14T02:00"
    assert result["answers"]["drain_at"]["value"] == "2026-01-14T02:00"
    assert split[5] == pytest.approx(45.0, abs=1e-6)
