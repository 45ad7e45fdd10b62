"""Faults that stand open: what answers each, what the next step says of them, who was told; and what a plan holds."""

from __future__ import annotations

import html as escaped
import re

import pytest

from calculators.rules.replan.faults import FAULTS, Fault
from tests.daybook.book import Line, ask, line
from tests.daybook.test_what_now import on_the_floor, second_water
from tests.safety import phrases

IN_BED, IN_STEEP = "2026-11-24T00:00", "2026-11-25T02:10"


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


def fault(at: str, name: str, **more: str) -> Line:
    return line("fault", at, fault=name, **more)


def in_drum(*more: Line) -> list[Line]:
    return [*on_the_floor("drum"), fault("2026-11-23T23:00", "blower"), *more]


# -- what answers a fault --------------------------------------------------------------------------------------------


def test_a_later_fault_hides_no_earlier_one_anywhere() -> None:
    entries = in_drum(fault("2026-11-23T23:10", "away"), fault("2026-11-23T23:20", "kiln-late"))
    assert told(entries, IN_BED)["off"] == ["blower", "kiln-late", "away"]
    listed = "Off the plan: blower or fan has stopped, the kiln is late, somebody is away."
    assert listed in words(ask("today", entries, date=IN_BED)["places"]["today"])
    text = handed(entries, IN_BED)
    assert text.index("Blower or fan has stopped") < text.index("The kiln is late") < text.index("Somebody is away")
    (short,) = ask("codes-give", [{**one, "batch": "77"} for one in entries], short=True, date=IN_BED)["short"]
    says = " ".join(short["says"])
    assert all(label in says for label in ("Blower or fan has stopped", "The kiln is late", "Somebody is away"))


ANSWERS = {
    "turned": line("drum", "2026-11-23T23:50", drum_turns="2"),
    "plan": line("plan", "2026-11-23T23:50", way="other", hold_c="14", told="shift lead"),
    "bed": line("bed", "2026-11-23T23:50", bottom_c="15", top_c="16"),
    "runs": line("air", "2026-11-23T23:50", fan="running"),
}
CLOSED = {
    "blower": {"runs"},
    "sour": set(),
    "warm": {"plan", "bed"},
    "turning-missed": {"turned"},
    "kiln-late": {"plan"},
    "away": {"plan"},
}


@pytest.mark.parametrize("name", list(CLOSED))
def test_each_fault_is_closed_by_its_own_answer_and_by_no_other(name: str) -> None:
    entries = [*on_the_floor("drum"), fault("2026-11-23T23:30", name)]
    closed = {
        word for word, answer in ANSWERS.items() if name not in told([*entries, answer], IN_BED)["off"]
    }  # fmt: skip
    assert closed == CLOSED[name]


@pytest.mark.parametrize("name", list(FAULTS))
def test_a_line_that_it_is_over_ends_each_fault_and_no_other(name: Fault) -> None:
    steep = "drum" not in FAULTS[name]
    before = second_water() if steep else on_the_floor("drum")
    at, now = ("2026-11-25T02:00", IN_STEEP) if steep else ("2026-11-23T23:30", IN_BED)
    others = [other for other in ("sour", "kiln-late") if other != name]
    entries = [*before, fault(at, name), *(fault(at, other) for other in others)]
    assert set(told(entries, now)["off"]) == {name, *others}
    entries.append(fault(f"{at[:-2]}{int(at[-2:]) + 5:02}", name, fault_now="over"))
    assert set(told(entries, now)["off"]) == set(others)
    entries.append(fault(f"{at[:-2]}{int(at[-2:]) + 8:02}", name))
    assert set(told(entries, now)["off"]) == {name, *others}, "it happened anew"


def test_sour_grain_that_was_cast_is_sour_still() -> None:
    entries = [one for one in on_the_floor() if one["kind"] != "turned"]
    cast = next(n for n, one in enumerate(entries) if one["kind"] == "cast")
    sour = fault(f"{entries[cast - 1]['at'][:-2]}55", "sour")
    assert "sour" in told([*entries[:cast], sour, *entries[cast:]], "2026-11-22T06:00")["off"]


# -- who was told ----------------------------------------------------------------------------------------------------


def test_each_fault_that_is_open_asks_by_itself_who_was_told() -> None:
    first = [*on_the_floor("drum"), fault("2026-11-23T22:00", "away", told="shift lead")]
    first.append(line("plan", "2026-11-23T22:10", way="other", told="shift lead"))
    assert "Nobody is written down as told" not in handed(first, IN_BED)
    entries = [*first, fault("2026-11-23T23:00", "blower"), fault("2026-11-23T23:10", "kiln-late", told="shift lead")]
    text = handed(entries, IN_BED)
    assert "Nobody is written down as told: blower or fan has stopped." in text
    (short,) = ask("codes-give", [{**one, "batch": "77"} for one in entries], short=True, date=IN_BED)["short"]
    assert "nobody is written down as told" in " ".join(short["says"])
    entries.append(fault("2026-11-23T23:15", "blower", told="shift lead"))
    assert "Nobody is written down as told" not in handed(entries, IN_BED)


def test_a_new_reading_too_warm_is_not_told_by_what_was_told_before() -> None:
    said = fault("2026-11-23T12:00", "warm", told="shift lead")
    hot = line("bed", "2026-11-23T23:30", bottom_c="23", top_c="20", room_c="12")
    assert "Nobody is written down as told: it is too warm." in handed([*on_the_floor(), said, hot], IN_BED)


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
