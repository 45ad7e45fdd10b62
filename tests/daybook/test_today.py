"""The batches at work: which, in which order, how late, what was expected, what is outside limits, what is missing."""

from __future__ import annotations

import json
import re
from datetime import datetime, timedelta
from typing import Any

import pytest

from bench.day_book_files import ASSETS, RUNNING_NAME
from bench.demo_running import running_text
from calculators.daybook.batch.batch import Batch, batches_of
from calculators.daybook.batch.course import course_of
from calculators.daybook.batch.missing import MOST, missing
from calculators.daybook.batch.running import QUIET, running
from calculators.daybook.next.expected import last_reading
from calculators.daybook.next.outside import outside
from calculators.daybook.next.step import Wall
from calculators.daybook.pages.today import due_words, span_words
from calculators.models.steep.doubt import TYPICAL_BARLEY
from calculators.models.steep.hydration import steep
from calculators.rules.limits.floor_germination import TURNING
from calculators.rules.limits.steeping import IMMERSION
from tests.daybook.book import START, Line, ask, line, steeping


def shown(entries: list[Line], date: str = "2026-11-24T13:00", **more: Any) -> str:
    place: str = ask("today", entries, date=date, **more)["places"]["today"]
    return place


def words(html: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html)).replace(" .", ".")


def cast(batch: str = "b2", at: str = "2026-11-22T08:00") -> list[Line]:
    return [
        line("start", "2026-11-20T05:30", batch, **START),
        line("stage-begun", "2026-11-20T06:00", batch, stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-20T14:00", batch, ended="drained"),
        line("cast", at, batch),
    ]


def test_a_batch_that_runs_has_its_step_its_hour_and_how_long_still() -> None:
    text = words(shown(steeping()))
    assert "Tue 24 Nov 2026: at work" in text
    assert "b1 under water Drain at 14:00." in text
    assert "Due 14:00, in 1 h." in text
    assert "DANGER" in text and "carbon dioxide" in text


@pytest.mark.parametrize(
    ("date", "said"),
    [
        ("2026-11-24T13:58", "Due now, 14:00."),
        ("2026-11-24T14:05", "Due now, 14:00."),
        ("2026-11-24T14:06", "Due 14:00, 6 min late."),
        ("2026-11-24T15:20", "Due 14:00, 1 h 20 min late."),
    ],
)
def test_how_late_it_is(date: str, said: str) -> None:
    html = shown(steeping(), date=date)
    assert said in words(html)
    assert ('class="due late"' in html) == ("late" in said)


def test_the_worst_stands_first() -> None:
    # b1 is due in an hour, b2 has lain past the stop between two turnings, b3 is a little late
    late = [line("start", "2026-11-24T04:00", "b3", **START)]
    late.append(line("stage-begun", "2026-11-24T04:30", "b3", stage="wet", water_temp_c="14"))
    html = shown([*steeping(), *late, *cast()])
    assert re.findall(r'data-today="(\w+)"', html) == ["b2", "b3", "b1"]
    assert "Past a stop." in html


def test_what_left_is_not_there_and_what_was_forgotten_is_asked_for() -> None:
    left = [*cast(), line("to-kiln", "2026-11-24T08:00", "b2", green_malt_kg="8000", moisture="44")]
    assert shown(left) == ""
    forgotten = words(shown(cast(), date="2026-12-20T08:00"))
    assert "b2 : nothing written since Sun 22 Nov 2026 08:00. Write where it went." in forgotten
    assert "at work" not in forgotten


def test_the_edge_of_running() -> None:
    batches = batches_of(cast())
    last = batches[0].standing[-1].utc
    assert running(batches, last + QUIET) == batches
    assert running(batches, last + QUIET + timedelta(minutes=1)) == []


def test_the_last_reading_stands_against_what_was_expected_without_it() -> None:
    heavy = [*steeping(), line("basket", "2026-11-24T12:00", gross_g="233")]
    batch = Batch("b1", batches_of(heavy)[0].entries)
    now = datetime(2026, 11, 24, 13)
    last = last_reading(batch, course_of(batch, TYPICAL_BARLEY, now), TYPICAL_BARLEY, now)
    assert last is not None and last.expected is not None and last.is_off
    # against the model alone, run for the same hours: the reading itself has no part in it
    alone = steep(barley_moisture=12.5, stages=[(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)])
    assert last.expected.middle == pytest.approx(alone.at(6.0).drained, abs=0.05)
    text = words(shown(heavy))
    assert re.search(r"Last reading, Tue 24 Nov 12:00, 1 h ago: basket weighed, moisture 4\d\.\d %\.", text)
    assert re.search(r"Expected \d\d\.\d % \(\d\d\.\d to \d\d\.\d\): over what was expected\.", text)


def test_a_reading_as_expected_is_not_called_off() -> None:
    alone = steep(barley_moisture=12.5, stages=[(8, 14), (8, 14), (8, 14), (12, 14), (3, 14)])
    dry = 100 * 0.875 * 0.99
    grams = 84 + dry / (1 - alone.at(6.0).drained / 100)
    text = words(shown([*steeping(), line("basket", "2026-11-24T12:00", gross_g=f"{grams:.1f}")]))
    assert "within what was expected" in text


def test_outside_the_table_of_limits_from_both_sides() -> None:
    accepted, stop = IMMERSION.accept_high, IMMERSION.stop_high
    assert accepted is not None and stop is not None
    batch = batches_of(steeping())[0]
    begun = datetime(2026, 11, 24, 6)

    def marks(hours: float) -> list[tuple[str, str]]:
        return [(one.rule, one.mark) for one in outside(batch, Wall(begun + timedelta(hours=hours), 0))]

    assert marks(accepted) == []
    assert marks(accepted + 0.1) == [(IMMERSION.id, "watch")]
    assert marks(stop) == [(IMMERSION.id, "watch")]
    assert marks(stop + 0.1) == [(IMMERSION.id, "stop")]


def test_a_turning_that_was_missed_is_outside() -> None:
    lines = [*cast(), line("turned", "2026-11-23T08:00", "b2", depth_cm="12")]
    batch = batches_of(lines)[0]
    turned = datetime(2026, 11, 23, 8)
    assert TURNING.accept_high is not None
    at_edge = Wall(turned + timedelta(hours=TURNING.accept_high), 0)
    assert outside(batch, at_edge) == []
    past = Wall(turned + timedelta(hours=TURNING.accept_high + 0.1), 0)
    assert [one.rule for one in outside(batch, past)] == [TURNING.id]


def test_what_is_missing_is_said_with_why_and_not_once_it_is_written() -> None:
    bare = [line("stage-begun", "2026-11-24T06:00", stage="wet")]
    said = missing(batches_of(bare)[0])
    assert len(said) == MOST and all(": " in one for one in said)
    assert said[0].startswith("The plan of the steep is not written:")
    full = [*steeping(), line("basket", "2026-11-24T12:00", gross_g="222")]
    full[0]["values"] = {**full[0]["values"], "corn_weight_g": "45"}
    assert missing(batches_of(full)[0]) == ()
    del full[0]["values"]["target_moisture"]
    assert missing(batches_of(full)[0]) == ("The target is not written: nothing says when to stop the steep.",)
    assert "The target is not written" in ask("batch", full, batch="b1")["places"]["next"]


@pytest.mark.parametrize(
    ("minutes", "said"),
    [(0, "0 min"), (59, "59 min"), (60, "1 h"), (125, "2 h 5 min"), (31 * 60, "31 h"), (80 * 60, "3 days")],
)
def test_spans(minutes: int, said: str) -> None:
    assert span_words(timedelta(minutes=minutes)) == said == span_words(timedelta(minutes=-minutes))


def test_a_step_without_an_hour_says_so() -> None:
    from calculators.daybook.next.step import Step

    assert due_words(Step("x", None, (), (), ()), Wall(None, 0), datetime(2026, 1, 1)) == "No hour is known for it."


def demo(now: datetime) -> list[Line]:
    """The running batches as the page puts its clock in."""
    entries = json.loads((ASSETS / RUNNING_NAME).read_text(encoding="utf-8"))["entries"]
    lines = []
    for seq, one in enumerate(entries, 1):
        at = now - timedelta(minutes=one.pop("before"))
        one["id"] += f"-{now:%y%m%d}"  # each loading is a book of its own
        lines.append(
            {**one, "at": f"{at:%Y-%m-%dT%H:%M}", "written": f"{at:%Y-%m-%dT%H:%M}:20Z", "zone": 0, "seq": seq}
        )
    return lines


def test_the_invented_batches_at_work_run_whenever_somebody_looks() -> None:
    assert (ASSETS / RUNNING_NAME).read_text(encoding="utf-8") == running_text(), "run: python -m bench.day_book_files"
    for now in (datetime(2026, 12, 1, 9), datetime(2027, 7, 3, 23, 30)):
        html = shown(demo(now), date=f"{now:%Y-%m-%dT%H:%M}", demo=True)
        assert html.startswith('<p class="invented">INVENTED')
        assert re.findall(r'data-today="([\w-]+)"', html) == ["example-13", "example-14"]
        assert "50 min late" in html and "Drain at" in html


def test_the_book_opens_on_them_and_the_batch_list_stays() -> None:
    reply = ask("book", [*steeping(), *cast()])
    assert "at work" in reply["places"]["today"] and "book-batches" in reply["places"]["batches"]
    quick = ask("book", [*steeping(), *cast()], quick=True)
    assert quick["glance"] and not reply["glance"]
