"""The malt that came of a batch: written to it, put on one basis, and compared with what few batches can show."""

from __future__ import annotations

import re
from random import Random

import pytest

from bench.day_book_files import ASSETS, DEMO_NAME
from bench.demo_malts import AS_IS, NO_COLOUR
from calculators.daybook.batch.batch import batches_of
from calculators.daybook.batch.checks import doubtful
from calculators.daybook.batch.course import course_of
from calculators.daybook.house.malts import FEWEST_EACH, compared
from calculators.daybook.house.summary import malt_of, summaries
from calculators.daybook.house.sums import Brief, sum_of, summed
from calculators.daybook.lines.entry import plain
from calculators.daybook.lines.exchange import take
from tests.daybook.book import START, Line, ask, batch_of, line
from tests.safety.phrases import faults, shown


def made(name: str, day: int, *, vessel: str = "floor", gross: str = "228", **malt: str) -> list[Line]:
    at = f"2026-{day // 28 + 1:02d}-{day % 28 + 1:02d}"
    found = [
        line("start", f"{at}T05:00", batch=name, **{**START, "vessel": vessel, "stages": [["8", ""]]}),
        line("stage-begun", f"{at}T06:00", batch=name, stage="wet", water_temp_c="14"),
        line("stage-ended", f"{at}T16:00", batch=name, ended="drained"),
        line("basket", f"{at}T16:00", batch=name, gross_g=gross),
        line("cast", f"{at}T20:00", batch=name),
        line("to-kiln", f"{at}T23:00", batch=name, green_malt_kg="9000", moisture="44"),
    ]
    return found + ([line("malt", f"{at}T23:30", batch=name, **malt)] if malt else [])


def test_each_figure_is_that_of_the_last_sheet_which_has_it():
    lines = made("b1", 3, friability_percent="84", extract_percent="81.5", nitrogen_percent="1.58")
    lines.append(line("malt", "2026-01-30T10:00", batch="b1", friability_percent="86"))
    found = malt_of(batch_of(lines, "b1"))
    assert (found["friability"], found["extract_dry"], found["nitrogen"], found["colour"]) == (86.0, 81.5, 1.58, None)


def test_an_extract_as_is_is_put_on_dry_matter_or_asked_back():
    wet = {"extract_percent": "80.9", "extract_basis": "as-is"}
    known = batch_of(made("b1", 3, **wet, malt_moisture="4.4"), "b1")
    assert malt_of(known)["extract_dry"] == pytest.approx(100 * 80.9 / 95.6)  # by hand: 84.6
    lacking = batch_of(made("b1", 3, **wet), "b1")
    assert malt_of(lacking)["extract_dry"] is None
    assert any("needs the malt’s moisture" in one.text for one in doubtful(lacking, course_of(lacking)))


@pytest.mark.parametrize(
    ("question", "typed", "words"),
    [
        ("nitrogen_percent", "10.5", "6.25"),
        ("extract_percent", "305", "Litre degrees"),
        ("friability_percent", "120", "100"),
    ],
)
def test_a_figure_of_another_measure_is_asked_back(question, typed, words):
    reply = ask("entry", [], entry=line("malt", "2026-01-30T10:00", batch="b1", **{question: typed}))
    assert words in str(reply)


def test_a_batch_that_has_left_is_still_written_to_and_that_is_not_doubted():
    batch = batch_of(made("b1", 3, friability_percent="86"), "b1")
    assert not [one for one in doubtful(batch, course_of(batch)) if "Malt analysed" in one.text]
    reply = ask("batch", made("b1", 3), batch="b1", date="2026-01-30T10:00")
    assert reply["likely"][0] == "malt" and "What is left is the laboratory’s sheet" in reply["places"]["next"]
    assert "reading-an-analysis-sheet" in reply["places"]["next"] and "[[" not in reply["places"]["next"]
    told = ask("batch", made("b1", 3, friability_percent="86"), batch="b1", date="2026-01-30T10:00")
    assert "Nothing is left to do with it here" in told["places"]["next"]


def look(lines: list[Line]) -> str:
    return shown(ask("look-back", lines)["places"]["malts"])


def test_no_sheet_one_sheet_and_two_sheets_say_what_they_cannot():
    assert "No analysis is written yet" in look(made("b1", 3))
    assert "one malt says what it is" in look(made("b1", 3, friability_percent="84"))
    two = made("b1", 3, gross="226", friability_percent="84") + made("b2", 9, gross="232", friability_percent="88")
    told = look(two)
    assert "too few to compare" in told and "Two results that differ say nothing of why" in told
    assert "told apart" not in told.replace("not told apart", "")


def many(count: int, effect: float, seed: str) -> list[Line]:
    """Batches by turns drier and wetter at the cast, whose friability scatters by 1.5 points."""
    random = Random(seed)
    found: list[Line] = []
    for n in range(count):
        wet = n % 2
        value = 85 + effect * wet + random.gauss(0, 1.5)
        found += made(f"b{n:02d}", 6 * n, gross=str(232 + random.random() if wet else 226 + random.random()),
                      friability_percent=f"{value:.1f}")  # fmt: skip
    return found


def test_what_is_there_is_told_apart_by_the_water_at_the_cast_and_no_line_is_drawn():
    rows = summaries(batches_of(many(40, 8.0, "there")), lambda batch: None)
    found = {(one.figure.id, one.by): one for one in compared(rows)}
    cast = found["friability", "Moisture at the cast"]
    assert cast.word == "apart" and cast.counts == (20, 20) and cast.found is not None
    assert abs(cast.found.difference - 8.0) < 1.5  # three standard errors
    page = ask("look-back", many(16, 8.0, "there"))["places"]["malts"]
    assert "Told apart: friability by moisture at the cast" in page and "<svg" not in page and "is no cause" in page
    assert faults(shown(page)) == []


def test_what_is_not_there_is_not_told_apart():
    told = 0
    for seed in range(12):
        rows = summaries(batches_of(many(10, 0.0, f"none {seed}")), lambda batch: None)
        told += any(one.word == "apart" for one in compared(rows))
    assert told <= 3  # one in twenty by its own rule


def test_under_four_on_a_side_nothing_is_compared():
    rows = summaries(batches_of(many(2 * FEWEST_EACH - 1, 20.0, "few")), lambda batch: None)
    assert {one.word for one in compared(rows)} == {"too-few"}
    assert all(one.found is None for one in compared(rows))


def test_the_sums_that_the_page_keeps_hold_the_malt_too():
    batch = batch_of(made("b1", 3, friability_percent="86", colour_ebc="3.8"), "b1")
    kept = summed(Brief(sum_of(batch)), None)
    assert kept.friability == 86.0 and kept.colour == 3.8


def test_the_table_names_each_batch_with_its_sheet():
    table = look(made("b1", 3, friability_percent="84", nitrogen_percent="1.58"))
    assert re.search(r"b1\W+84\.0\W+1\.58", table)


def demo_year() -> list[Line]:
    text = (ASSETS / DEMO_NAME).read_text(encoding="utf-8")
    return [{**plain(entry), "seq": n} for n, entry in enumerate(take(text, []).new, 1)]


def test_the_demo_year_has_its_malts_and_looking_back_says_what_so_few_can_show():
    rows = summaries(batches_of(demo_year()), lambda batch: None)
    having = [row for row in rows if row.friability is not None]
    assert [row.batch.id for row in having] == [f"example-{n:02d}" for n in range(1, 12)]  # the last sheet is to come
    assert {row.batch.id for row in having if row.colour is None} == set(NO_COLOUR)
    found = {(one.figure.id, one.by): one for one in compared(rows)}
    # Put in (bench/demo_malts.py): 22 points for each per cent of nitrogen, and the lots lie 0.14 % apart: 3 points,
    # with what the water at the cast adds to it.
    lot = found["friability", "Lot"]
    assert lot.word == "apart" and lot.found is not None and abs(lot.found.difference) - lot.found.half > 0
    assert found["friability", "Moisture at the cast"].word == "open", "put in, and not shown by five and five"
    assert {one.word for one in found.values()} == {"apart", "open", "too-few"}
    page = ask("look-back", demo_year(), demo=True)["places"]["malts"]
    assert "Told apart: friability by lot." in page and "<svg" not in page and " points (" in page
    assert faults(shown(page)) == []


def test_an_extract_as_is_in_the_demo_year_stands_on_dry_matter():
    (row,) = (row for row in summaries(batches_of(demo_year()), lambda batch: None) if row.batch.id == AS_IS)
    assert row.extract_dry == pytest.approx(100 * 78.1 / 95.0)


def test_one_figure_that_cannot_be_read_leaves_the_others_of_its_sheet():
    lines = made("b1", 3, friability_percent="86", nitrogen_percent="about 1.6")
    batch = batch_of(lines, "b1")
    assert malt_of(batch)["friability"] == 86.0 and malt_of(batch)["nitrogen"] is None
    (said,) = [one.text for one in doubtful(batch, course_of(batch)) if "Malt analysed" in one.text]
    assert "total nitrogen cannot be read and is left out; what else stands in the line counts." in said
    assert "counts for nothing" not in said
    near = ask("batch", lines, batch="b1", date="2026-01-30T10:00")["places"]["next"]
    assert "what else stands in the line counts" in near and "counts for nothing" not in near


def test_a_sheet_of_which_nothing_can_be_read_counts_for_nothing():
    batch = batch_of(made("b1", 3, friability_percent="good", nitrogen_percent="low"), "b1")
    (said,) = [one.text for one in doubtful(batch, course_of(batch)) if "Malt analysed" in one.text]
    assert "counts for nothing: friability, total nitrogen" in said
