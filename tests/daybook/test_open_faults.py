"""What the changed plans of a bed hold, what comes by the hour, and what is told at a hand-over."""

from __future__ import annotations

import html as escaped
import re

from tests.daybook.book import Line, ask, line
from tests.daybook.test_what_now import on_the_floor
from tests.safety import phrases

IN_BED = "2026-11-24T00:00"


def words(page: str) -> str:
    return re.sub(r"\s+", " ", escaped.unescape(re.sub(r"<[^>]+>", " ", page)))


def told(entries: list[Line], date: str) -> Line:
    return ask("batch", entries, batch="b1", date=date)


def next_step(entries: list[Line], date: str) -> str:
    page: str = told(entries, date)["places"]["next"]
    assert phrases.faults(phrases.shown(page)) == []
    found = re.search(r'<p class="next-step">(.*?)</p>', page, re.S)
    assert found
    return words(found[1])


def handed(entries: list[Line], date: str) -> str:
    return words(ask("hand-over", entries, date=date)["places"]["hand-over"])


# -- who was told ----------------------------------------------------------------------------------------------------


def test_what_is_written_after_a_hand_over_of_the_work_before_it_is_in_the_next_one() -> None:
    entries = on_the_floor()
    entries.append(line("remark", "2026-11-23T20:00", remark="Roots look fresh."))
    entries.append(line("handed-over", "2026-11-23T21:30", to_whom="CD", said_back="yes", remark="All said back."))
    alarm = "CO2 alarm sounded on the valve deck at 21:10, all left"
    late = line("remark", "2026-11-23T21:10", remark=alarm, written="2026-11-23T21:40:05.000Z")
    later = [line("remark", f"2026-11-23T22:{n:02}", remark=f"Round {n}.") for n in range(8)]
    text = handed([*entries, late, *later], IN_BED)
    assert alarm in text and "Roots look fresh" not in text and "All said back" not in text
    over = line("handed-over", "2026-11-24T00:10", to_whom="EF", said_back="yes")
    assert alarm not in handed([*entries, late, *later, over], "2026-11-24T00:20")


# -- what a plan holds -----------------------------------------------------------------------------------------------


def bed_plans() -> list[Line]:
    return [
        *on_the_floor(),
        line("plan", "2026-11-23T23:20", hold_c="14", load_at="2026-11-24 06:00", told="shift lead"),
        line("plan", "2026-11-23T23:40", hold_c="13", told="shift lead"),
    ]


def test_an_hour_of_loading_holds_until_another_hour_is_written() -> None:
    text = next_step(bed_plans(), IN_BED)
    assert "keep the bed at 13 °C" in text and "14 °C" not in text and "Load it on the kiln 06:00" in text
    assert "06:00: loaded on the kiln, by the plan" in handed(bed_plans(), IN_BED)


def test_an_hour_written_before_the_cast_does_not_hold_of_the_bed() -> None:
    entries = on_the_floor()
    entries.append(line("plan", "2026-11-21T08:00", load_at="2026-11-24 06:00"))
    assert "loaded on the kiln" not in handed(entries, IN_BED) and "Load it on" not in next_step(entries, IN_BED)


def test_what_comes_is_told_by_the_hour_and_no_turning_after_the_loading() -> None:
    text = handed(bed_plans(), IN_BED)
    assert "06:00: loaded" in text and "turned by then" not in text
    later = [*bed_plans(), line("plan", "2026-11-23T23:50", load_at="2026-11-24 11:00")]
    text = handed(later, IN_BED)
    assert text.index("08:08: turned by then") < text.index("11:00: loaded")
