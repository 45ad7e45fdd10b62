"""The hand-over made of the book: what is late, due, off, told and not known; the look; the paper."""

from __future__ import annotations

import html as escaped
import re
from datetime import datetime

from calculators.daybook.batch.batch import batches_of
from calculators.daybook.next.hand_over import LOOK_HOLDS, hand_over
from calculators.daybook.next.step import Wall
from calculators.rules.conventions import LOOK_HOLDS_H
from tests.daybook.book import Line, ask, line
from tests.daybook.test_what_now import on_the_floor, second_water
from tests.safety import phrases

NOW = "2026-11-25T06:00"


def night() -> list[Line]:
    """The blower died at two, the shift lead was told, the plan was changed, it ran at five; a remark was written."""
    return [
        *second_water(),
        line("fault", "2026-11-25T02:00", fault="blower", told="shift lead, 02:05", who="AB"),
        line("stage-ended", "2026-11-25T02:02", ended="drained"),
        line(
            "plan",
            "2026-11-25T02:10",
            way="target",
            stages=[["8", "14"], ["8", "14"], ["4", "14"], ["12", "14"], ["6", "14"]],
        ),
        line("remark", "2026-11-25T03:00", remark="Belt ordered, comes at nine."),
        line("fault", "2026-11-25T05:00", fault="blower", fault_now="over", told="shift lead, 05:05"),
    ]


def words(page: str) -> str:
    return re.sub(r"\s+", " ", escaped.unescape(re.sub(r"<[^>]+>", " ", page)))


def test_each_batch_says_all_that_the_next_shift_needs() -> None:
    reply = ask("hand-over", night(), date=NOW)
    text = words(reply["places"]["hand-over"])
    assert "b1 in an air rest" in text
    assert "Next:" in text and "Due 14:02, in 8 h 2 min." in text
    assert "told: shift lead, 02:05" in text and "Belt ordered, comes at nine." in text
    assert "Nobody knows:" in text and "thousand-corn weight" in text
    assert phrases.faults(phrases.shown(reply["places"]["hand-over"])) == []


def test_what_comes_within_the_shift_has_its_hour() -> None:
    (batch,) = batches_of(night())
    (one,) = hand_over([batch], None, Wall(datetime(2026, 11, 25, 12), 0))
    assert one.coming == ("20:02: drain, then the cast",)
    (floor,) = hand_over(batches_of(on_the_floor()), None, Wall(datetime(2026, 11, 24, 0), 0))
    assert floor.coming and floor.coming[0].endswith("turned by then at the latest")


def test_a_fault_without_a_changed_plan_and_without_anybody_told_is_not_known() -> None:
    entries = [*second_water(), line("fault", "2026-11-25T02:00", fault="blower")]
    text = words(ask("hand-over", entries, date="2026-11-25T02:30")["places"]["hand-over"])
    assert "no changed plan is written since" in text
    assert "Nobody is written down as told" in text and "nobody told, by the book" in text


def test_a_look_counts_for_so_long_and_for_one_hand_over() -> None:
    assert LOOK_HOLDS.total_seconds() / 3600 == LOOK_HOLDS_H
    entries = night()
    assert ask("hand-over", entries, date=NOW)["unseen"] == ["b1"]
    entries.append(line("looked", "2026-11-25T05:50", as_written="yes", who="CD"))
    reply = ask("hand-over", entries, date=NOW)
    assert reply["unseen"] == [] and "as the book says" in words(reply["places"]["hand-over"])
    assert ask("hand-over", entries, date="2026-11-25T07:51")["unseen"] == ["b1"]
    entries.append(line("handed-over", "2026-11-25T06:00", to_whom="CD", said_back="yes"))
    after = ask("hand-over", entries, date="2026-11-25T06:10")
    assert after["unseen"] == ["b1"]
    assert "Belt ordered" not in words(after["places"]["hand-over"]), "it was told"


def test_the_worst_stands_first_and_what_left_does_not_stand() -> None:
    floor = [dict(one, batch="b2", id=f"f{n}") for n, one in enumerate(on_the_floor())]
    gone = [dict(one, batch="b3", id=f"g{n}") for n, one in enumerate(on_the_floor())]
    gone.append(line("to-kiln", "2026-11-24T05:00", "b3"))
    reply = ask("hand-over", [*night(), *floor, *gone], date=NOW)
    assert reply["batches"] == ["b2", "b1"]


def test_the_paper_has_blanks_for_by_whom_remarks_and_two_names() -> None:
    reply = ask("hand-over", night(), date=NOW)
    text = words(reply["places"]["print"])
    for blank in ("By whom: ___", "looked at by: ___", "Remarks: ___", "Handed over by: ___", "Taken over by: ___"):
        assert blank in text, blank
    assert "Said back in full" in text and "gives nobody leave" in text
    assert "[[" not in text


def test_nothing_runs() -> None:
    reply = ask("hand-over", [], date=NOW)
    assert reply["batches"] == [] and "nothing to hand over" in words(reply["places"]["hand-over"])


def test_the_record_on_paper_has_its_next_step_and_the_bed_with_turnings_and_limits() -> None:
    entries = on_the_floor()
    entries.append(line("bed", "2026-11-23T20:00", bottom_c="16", top_c="15", room_c="12"))
    places = ask("batch", entries, batch="b1", date="2026-11-24T00:00", print=True)["places"]
    paper = places["print"]
    assert paper.index("next-step") < paper.index("book-lines")
    for page in (paper, places["course"]):
        assert "accepted up to 20 °C" in page and "stop over 22 °C" in page and "turned" in page
