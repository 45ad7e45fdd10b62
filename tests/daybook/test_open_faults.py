"""Faults that stand open: what answers each, what the next step says of them, who was told; and what a plan holds."""

from __future__ import annotations

import html as escaped
import re

import pytest

from calculators.rules.limits import drum_germination, steeping
from calculators.rules.replan.faults import FAULTS, Fault
from calculators.words.limits import at_edge
from tests.daybook.book import Line, ask, line
from tests.daybook.test_what_now import on_the_floor, second_water, taken
from tests.safety import phrases

IN_BED, IN_STEEP = "2026-11-24T00:00", "2026-11-25T02:10"
AWAY = drum_germination.FAN.act.split(". ")[0]


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


def in_steep(*more: Line) -> list[Line]:
    return [*second_water(), fault("2026-11-25T02:00", "blower"), *more]


# -- the next step ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("vessel", ["drum", "box"])
def test_a_fan_written_as_stopped_is_the_stop_of_the_table_in_a_drum_and_nothing_is_turned(vessel: str) -> None:
    entries = in_drum()
    entries[0]["values"]["vessel"] = vessel
    page = words(told(entries, IN_BED)["places"]["next"])
    text = next_step(entries, IN_BED)
    assert text.startswith("Past a stop. Fan with grain in: stopped, a stop.") and AWAY in text
    assert "Turn only if the site’s plan says so." in text and text.count("Tell the shift lead.") == 1
    assert "between" not in page and "Keep its air on" not in page and "counting corns" not in page
    assert "quick way" not in page
    by_air = [*on_the_floor("drum"), line("air", "2026-11-23T23:00", fan="stopped")]
    assert next_step(by_air, IN_BED) == text, "by whichever line it was written"


def test_a_fan_that_was_read_as_running_before_it_stopped_does_not_hide_that() -> None:
    read = line("air", "2026-11-23T22:00", fan="running", air_on_c="14", air_off_c="16.5")
    assert next_step(in_drum(read), IN_BED).startswith("Past a stop. Fan with grain in")


def test_grain_under_water_without_air_is_drained_now_and_not_in_some_hours() -> None:
    text = next_step(in_steep(), IN_STEEP)
    assert text.startswith("Past a stop. Fan with grain in: stopped, a stop.")
    assert text.index(AWAY) < text.index("Drain it by the valve that is worked away from the openings.")
    assert f"over {at_edge(steeping.IMMERSION, 'stop_high')}, {steeping.IMMERSION.stop}" in text
    assert "Drain at" not in text
    assert "Due 02:00, 10 min late." in handed(in_steep(), IN_STEEP)


def test_a_drained_steep_without_air_is_left_as_it_is_and_given_no_water() -> None:
    entries = in_steep(line("stage-ended", "2026-11-25T02:03", ended="drained"))
    text = next_step(entries, IN_STEEP)
    assert text.startswith("Past a stop. Fan with grain in") and "Leave it as it is" in text
    assert "Nothing is wetted" in text and "Water on at" not in text
    assert "Once it runs again: Water on at 14:03" in words(told(entries, IN_STEEP)["places"]["next"])


def test_a_taken_way_does_not_set_the_fan_going() -> None:
    entries = in_steep()
    ways = ask("ways", entries, batch="b1", fault="blower", hours="4", date="2026-11-25T02:05")["places"]["ways"]
    entries.append(line("plan", "2026-11-25T02:06", told="shift lead", **taken(ways)))
    entries.append(line("stage-ended", "2026-11-25T02:07", ended="drained"))
    assert next_step(entries, IN_STEEP).startswith("Past a stop. Fan with grain in")
    assert "water on, once the fan runs" in handed(entries, IN_STEEP)
    entries.append(line("air", "2026-11-25T04:00", fan="running"))
    assert next_step(entries, "2026-11-25T04:05").startswith("Water on at")


def test_sour_grain_is_drained_rested_or_turned_as_the_table_says_and_smelt_again() -> None:
    wet = [*second_water(), fault("2026-11-25T02:00", "sour")]
    text = next_step(wet, IN_STEEP)
    assert text.startswith("Past a stop. Smell: sour, a stop.") and steeping.SMELL.act in text
    assert "Drain at" not in text
    rest = [*wet, line("stage-ended", "2026-11-25T02:03", ended="drained")]
    text = next_step(rest, IN_STEEP)
    assert "Full suction. No water again before it smells fresh." in text and "Drain" not in text
    floor = [*on_the_floor(), fault("2026-11-23T23:30", "sour")]
    assert "Turn it, lay it thin, sweep water out." in next_step(floor, IN_BED)
    text = next_step([*floor, line("turned", "2026-11-23T23:40", depth_cm="8")], IN_BED)
    assert text.startswith("Past a stop. Smell: sour") and "sweep" not in text and "Smell a handful again" in text
    drum = next_step([*on_the_floor("drum"), fault("2026-11-23T23:30", "sour")], IN_BED)
    assert "More fresh air, turn it with the air on." in drum


@pytest.mark.parametrize("name", ["warm", "turning-missed", "kiln-late", "away"])
@pytest.mark.parametrize("vessel", ["floor", "drum"])
def test_where_a_way_is_to_be_chosen_the_next_step_says_so(name: str, vessel: str) -> None:
    text = next_step([*on_the_floor(vessel), fault("2026-11-23T23:30", name)], IN_BED)
    assert "written Mon 23 Nov 23:30." in text and "Choose the way on under “What now?”" in text
    if name == "turning-missed":
        assert "Turn it now" in text


def test_a_stop_of_the_readings_stays_in_front_of_a_way_to_be_chosen() -> None:
    hot = line("bed", "2026-11-23T23:30", bottom_c="23", top_c="20", room_c="12")
    text = next_step([*on_the_floor(), hot, fault("2026-11-23T23:40", "kiln-late")], IN_BED)
    assert text.startswith("Past a stop. Bottom 23 °C") and "The kiln is late" in text


def test_a_fan_that_stands_comes_before_every_other_stop() -> None:
    hot = line("bed", "2026-11-23T22:00", "hot", bottom_c="23.5", top_c="20", room_c="12")
    floor = [dict(one, batch="hot", id=f"h{n}") for n, one in enumerate(on_the_floor())]
    old = line("fault", "2026-11-23T23:58", "b1", fault="blower")
    entries = [*floor, hot, *on_the_floor("drum"), old]
    assert ask("hand-over", entries, date=IN_BED)["batches"] == ["b1", "hot"]
    page = ask("today", entries, date=IN_BED)["places"]["today"]
    assert page.index('data-today="b1"') < page.index('data-today="hot"')


# -- what answers a fault --------------------------------------------------------------------------------------------


def test_a_later_fault_hides_no_earlier_one_anywhere() -> None:
    entries = in_drum(fault("2026-11-23T23:10", "away"), fault("2026-11-23T23:20", "kiln-late"))
    assert told(entries, IN_BED)["off"] == ["blower", "kiln-late", "away"]
    assert "Open as well: the kiln is late, somebody is away." in words(told(entries, IN_BED)["places"]["next"])
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
