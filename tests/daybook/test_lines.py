"""The lines of the book: kinds, reading, corrections, the bound table."""

from __future__ import annotations

import re
from datetime import datetime

import pytest

from calculators.asking.declare import Number, Table
from calculators.asking.reading import read
from calculators.asking.units import UNITS
from calculators.daybook.lines.entry import in_order, plain, replaced, standing
from calculators.daybook.lines.kinds import KINDS, question_ids
from calculators.daybook.pages.forms import draw_forms
from tests.daybook.book import Line, ask, batch_of, line, steeping
from tests.safety.phrases import faults, shown


def test_a_question_of_one_id_means_one_thing_in_every_kind():
    units: dict[str, tuple[type, str]] = {}
    for kind in KINDS:
        assert re.fullmatch(r"[a-z][a-z-]*", kind.id)
        for question in kind.questions:
            what = (type(question), question.unit if isinstance(question, Number) else "")
            assert units.setdefault(question.id, what) == what
            columns = question.columns if isinstance(question, Table) else (question,)
            assert all(c.unit in UNITS for c in columns if isinstance(c, Number))
            for text in (question.default, question.example):
                if text:
                    assert read(question, text)[1] == []
    assert len(set(question_ids())) == len(question_ids()) == len(units)


def test_every_kind_has_its_form_and_no_id_stands_twice():
    drawn = draw_forms()
    assert [form.get("data-entry-kind") for form in drawn.iter("form")] == [kind.id for kind in KINDS]
    ids = [one.get("id") for one in drawn.iter() if one.get("id")]
    assert len(ids) == len(set(ids))


def test_the_forms_of_kinds_are_no_fields_of_the_page():
    """A browser looks through hundreds of fields for what it could fill in, before it draws: a template has none."""
    drawn = draw_forms()
    kept = {id(form) for template in drawn.iter("template") for form in template.iter("form")}
    assert len(kept) == len(KINDS)
    assert all(id(form) in kept for form in drawn.iter("form"))
    common = [one.get("data-common") for one in drawn.iter("div") if one.get("data-common")]
    assert common == ["batch", "at", "who", "remark"]


def test_gas_is_logged_as_text_and_judged_nowhere():
    gas = next(kind for kind in KINDS if kind.id == "gas")
    assert not any(isinstance(question, Number) for question in gas.questions)
    shows = []
    for reading in ("0.0517", "0.4917", "0.5117", "9.0017", "40000.17"):
        entries = [
            *steeping(),
            line("gas", "2026-11-24T12:00", id="gas", gas_meter="2", gas_reading=reading, gas_unit="% CO2"),
        ]
        reply = ask("batch", entries, batch="b1")
        assert reading in reply["places"]["lines"]
        shows.append(str(reply).replace(reading, "READING"))
        assert faults(shown(" ".join(reply["places"].values()))) == []
    # Whatever it reads, all else that is said stays the same, to the letter but for the numbers of the lines.
    assert len({re.sub(r"line-\d+", "", said) for said in shows}) == 1


def test_a_correction_keeps_what_stood_before():
    entries = steeping()
    wrong = line("basket", "2026-11-24T12:00", gross_g="168")
    right = line("basket", "2026-11-24T12:00", gross_g="210", replaces=wrong["id"])
    reply = ask("batch", [*entries, wrong, right], batch="b1")
    table = reply["places"]["lines"]
    row = re.search(rf'<tr class="struck" data-entry="{wrong["id"]}">.*?</tr>', table)
    assert row and "<s>168 g" in row[0] and "button" not in row[0]
    assert table.index(wrong["id"]) < table.index(right["id"])
    batch = batch_of([*entries, wrong, right], "b1")
    assert [round(reading.moisture, 1) for reading in batch.readings] == [31.2]
    # 100 g at 12.5 % less 1 % leached is 86.625 g dry; 126 g of grain: 100 (1 - 86.625 / 126) = 31.25, by hand.


def test_a_correction_of_a_correction_and_a_withdrawal():
    first = line("water", "2026-11-24T07:00", water_temp_c="14")
    second = line("water", "2026-11-24T07:00", water_temp_c="15", replaces=first["id"])
    third = line("water", "2026-11-24T07:00", water_temp_c="16", replaces=first["id"])  # made on another device
    struck = line("withdrawn", "2026-11-24T07:05", replaces=third["id"])
    lines = in_order([first, second, third])
    assert [entry.values["water_temp_c"] for entry in standing(lines)] == ["16"]
    assert standing(in_order([first, second, third, struck])) == []
    gone = replaced(in_order([first, second, third, struck]))
    assert set(gone) == {first["id"], second["id"], third["id"]}


def test_corrections_in_a_circle_lose_nothing():
    one = line("water", "2026-11-24T07:00", water_temp_c="14", id="one-aaaaaa", replaces="two-aaaaaa")
    two = line("water", "2026-11-24T07:00", water_temp_c="15", id="two-aaaaaa", replaces="one-aaaaaa")
    own = line("water", "2026-11-24T07:00", water_temp_c="16", id="own-aaaaaa", replaces="own-aaaaaa")
    lines = in_order([one, two, own])
    assert {entry.id for entry in standing(lines)} >= {"own-aaaaaa"}
    assert len(standing(lines)) == 2
    table = ask("batch", [one, two, own], batch="b1")["places"]["lines"]
    assert all(table.count(f'data-entry="{name}"') == 1 for name in ("one-aaaaaa", "two-aaaaaa", "own-aaaaaa"))


def test_odd_data_is_kept_and_named_never_refused():
    odd = {"id": "odd", "batch": "b1", "kind": "basket", "at": "yesterday", "values": {"gross_g": "5,000", "x": "1"}}
    reply = ask(
        "batch", [*steeping(), odd, {"id": "newer", "batch": "b1", "kind": "brewed", "values": [1]}], batch="b1"
    )
    assert "5,000 g" in reply["places"]["lines"] and "“brewed”" in reply["places"]["lines"]
    texts = " ".join(fault["text"] for fault in reply["faults"])
    assert "two ways" in texts and "brewed" in texts and "“x”" in texts


def test_faults_of_one_entry_stand_by_their_questions():
    entry = line("bed", "2026-11-24", bottom_c="169", top_c="")
    reply = ask("entry", [], entry=entry)
    assert {fault["id"] for fault in reply["faults"]} == {"bottom_c"}
    assert "too high" in reply["faults"][0]["text"]
    assert ask("entry", [], entry=line("basket", "2026-11-24T12:00", gross_g="168,5 g"))["faults"] == []
    assert [f["id"] for f in ask("entry", [], entry=line("remark", "2026-11-24T12:00"))["faults"]] == ["remark"]


def test_words_of_others_stay_words():
    bad = "<img src=x onerror=alert(1)>"
    entries = [
        *steeping(),
        line("remark", "2026-11-24T09:00", remark=bad, who=bad),
        line("answer", "2026-11-24T09:10", sheet=bad, link="javascript:alert(1)", answers=bad),
        line(
            "answer",
            "2026-11-24T09:20",
            sheet="kiln-water",
            link="calculators/kiln-water/?sheet=kiln-water",
            answers="9",
        ),
    ]
    said = " ".join(ask("batch", entries, batch="b1")["places"].values())
    assert "<img" not in said and 'href="javascript' not in said
    assert 'href="../../calculators/kiln-water/?sheet=kiln-water"' in said


def test_what_was_left_blank_is_said_in_one_line():
    reply = ask("batch", [line("start", "2026-11-24T05:30", barley_kg="6000", barley_moisture="x")], batch="b1")
    assert [fault["question"] for fault in reply["faults"]] == ["barley_moisture"]
    assert reply["places"]["lines"].count("Not given: barley, barley lot, harvest, water temperature") == 1


def test_the_clock_counts_in_utc_when_summer_time_ends():
    # 25 October 2026, clocks go back at 03:00 summer time (zone 120) to 02:00 (zone 60): six hours, not five.
    entries = [
        line("stage-begun", "2026-10-24T23:00", stage="wet", zone=120),
        line("stage-ended", "2026-10-25T04:00", ended="drained", zone=60),
    ]
    batch = batch_of(entries, "b1")
    spell = batch.spells[0]
    assert spell.ended and (spell.ended - spell.begun).total_seconds() == 6 * 3600
    assert spell.begun == datetime(2026, 10, 24, 21)


def test_plain_data_goes_there_and_back():
    entry = in_order([line("bed", "2026-11-24T12:00", bottom_c="16", top_c="15")])[0]
    data = plain(entry)
    assert "seq" not in data and data["schema"] == 1
    assert in_order([data])[0]._replace(seq=entry.seq) == entry


@pytest.mark.parametrize("kind", [kind.id for kind in KINDS])
def test_every_kind_is_shown_in_the_table(kind):
    kinds = next(one for one in KINDS if one.id == kind)
    values: Line = {}
    for question in kinds.questions:
        example = question.example or question.default
        if isinstance(question, Table):
            values[question.id] = [[cell] for cell in example.split(";")]
        elif example:
            values[question.id] = example
    entries = [line(kind, "2026-11-24T12:00", **values)]
    reply = ask("batch", entries, batch="b1")
    assert kinds.label in reply["places"]["lines"]
    assert not reply["faults"]
