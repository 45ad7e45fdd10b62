"""What people type is read as they mean it, asked back, or answered with what to do."""

from __future__ import annotations

from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.declare import Choice, Clock, Number, Option, Table, Text
from calculators.asking.figures import plain_number
from calculators.asking.reading import is_blank, read
from calculators.asking.units import UNITS, convert

MOISTURE = Number("barley_moisture", "Barley moisture", "%", 5, 25, example="12.5")
WEIGHT = Number("barley_kg", "Barley weight", "kg", 0.001, 1e6, example="5000")
GRAMS = Number("g", "Basket", "g", 0, 20000, example="100")
WATER = Number("water_temp_c", "Water", "C", 2, 30, example="14")
DISH = Number("dish", "Dish", "g", 0, 500)
GAS = Number("ppm", "Gas", "ppm", 0, 1e6)
MANY = Number("corns", "Corns", "", 0, 5000, whole=True)
COUNT = Number("grown", "Grown", "corns", 0, 100, whole=True, example="98")
STAGES = Table(
    "stages",
    "Stages",
    (
        Number("hours", "Hours", "h", 0.25, 72, example="8"),
        Number("water_temp_c", "Temperature", "C", 2, 30, optional=True, example="14"),
    ),
    max_rows=6,
    example="8 14; 16 13",
)
TURNS = STAGES._replace(row_names=("immersion", "air rest"))
DISHES = Table("dishes", "Dishes", tuple(Number(n, n, "g", 0, 500) for n in ("empty", "wet", "dry")))


def value(question, text):
    read_value, problems = read(question, text)
    assert not problems, problems
    return read_value


def problem(question, text):
    read_value, problems = read(question, text)
    assert problems, read_value
    return problems[0]


@pytest.mark.parametrize(
    ("question", "text", "meant"),
    [
        (MOISTURE, "12,5", 12.5),
        (MOISTURE, "12.5", 12.5),
        (MOISTURE, " 12 % ", 12.0),
        (MOISTURE, "12%", 12.0),
        (MOISTURE, "12 per cent", 12.0),
        (MOISTURE, "１２", 12.0),  # full-width digits from an East Asian keyboard
        (MOISTURE, ",5e1", 5.0),
        (WEIGHT, "5 t", 5000.0),
        (WEIGHT, "5 000", 5000.0),
        (WEIGHT, "5\u202f000,5 kg", 5000.5),
        (WEIGHT, "1e3", 1000.0),
        (WEIGHT, "6.125", 6.125),
        (WEIGHT, "0.500", 0.5),
        (WEIGHT, "5000.250", 5000.25),
        (WEIGHT, "6.000 t", 6000.0),  # with the point for thousands it would lie over the limit
        (DISH, "5.120", 5.12),
        (COUNT, "1.000", 1.0),
        (WEIGHT, "100 g", 0.1),
        (GRAMS, "100 g", 100.0),
        (GRAMS, "0.1 kg", 100.0),
        (WATER, "59 F", 15.0),
        (WATER, "59°F", 15.0),
        (WATER, "15 °C", 15.0),
        (COUNT, "98", 98.0),
        (COUNT, "98 corns", 98.0),
    ],
)
def test_read_as_meant(question, text, meant):
    assert value(question, text) == pytest.approx(meant, rel=1e-12)


@pytest.mark.parametrize("text", ["5,000", "12,500", "0,125", "1,234.5", "1.234,5", "1,000,000", "5,000 kg"])
def test_a_comma_and_three_digits_is_asked_back(text):
    assert "two ways" in problem(WEIGHT, text).text


def test_asked_back_offers_both_meanings():
    assert problem(WEIGHT, "5,000").text == (
        "Barley weight: “5,000” can be read in two ways. Type 5000 or 5, whichever you mean, "
        "with a point for the decimals."
    )


@pytest.mark.parametrize(
    ("question", "text", "either"),
    [
        (WEIGHT, "6.000", "6000 or 6,"),
        (WEIGHT, "12.340 kg", "12340 or 12.34,"),
        (GAS, "40.000", "40000 or 40,"),
        (GAS, "250.000 ppm", "250000 or 250,"),
        (MANY, "2.000", "2000 or 2,"),
    ],
)
def test_a_point_and_three_digits_ending_in_0_is_asked_back_where_both_would_do(question, text, either):
    """Half the world writes six thousand so; a scale that shows grams writes six kilograms so."""
    assert f"can be read in two ways. Type {either}" in problem(question, text).text


@given(st.floats(1, 999), st.integers(0, 6))
def test_what_the_book_writes_is_never_asked_back(number, decimals):
    text = plain_number(round(number, decimals))
    assert value(GAS, text) == float(text)


@pytest.mark.parametrize(
    "text",
    ["abc", "12 kg", "--3", "1_000", "0x10", "nan", "inf", "1e999", "12 5", "१२ ३", "<b>1</b>", "1;2", "∞"],
)
def test_wrong_text_says_both_limits_and_an_example(text):
    said = problem(MOISTURE, text).text
    assert said.startswith("Barley moisture: ")
    assert "a number from 5 to 25 %, such as 12.5" in said


@pytest.mark.parametrize(("text", "why"), [("4.99", "too low"), ("25.01", "too high"), ("-3", "too low")])
def test_outside_the_limits(text, why):
    said = problem(MOISTURE, text).text
    assert why in said and "from 5 to 25 %" in said


@pytest.mark.parametrize("text", ["5", "25"])
def test_the_limits_themselves_are_allowed(text):
    assert value(MOISTURE, text) == float(text)


def test_a_fraction_where_a_whole_number_is_wanted():
    assert "not whole" in problem(COUNT, "97.5").text
    assert "a whole number from 0 to 100" in problem(COUNT, "97.5").text


def test_a_very_long_text_is_refused_and_not_repeated():
    assert len(problem(MOISTURE, "9" * 100_000).text) < 200


@given(st.text(max_size=60))
def test_any_text_gives_a_value_in_range_or_one_message(text):
    for question in (MOISTURE, WEIGHT, COUNT, WATER):
        read_value, problems = read(question, text)
        if problems:
            assert problems[0].text.startswith(question.label)
        else:
            assert isinstance(read_value, float)
            assert question.low <= read_value <= question.high


@given(st.floats(5, 25))
def test_what_is_written_is_read_back(number):
    assert value(MOISTURE, repr(number)) == number
    assert value(MOISTURE, repr(round(number, 2)).replace(".", ",") + "0000") == round(number, 2)


@pytest.mark.parametrize("unit", [u for u in UNITS if u])
def test_each_unit_understands_its_own_name(unit):
    assert convert(3.0, UNITS[unit].show, unit) == 3.0


CLOCK = Clock("start", "Start")


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("06:00", datetime(1, 1, 1, 6)),
        ("6.30", datetime(1, 1, 1, 6, 30)),
        ("1410", datetime(1, 1, 1, 14, 10)),
        ("2 pm", datetime(1, 1, 1, 14)),
        ("12 am", datetime(1, 1, 1, 0)),
        ("2026-01-12 06:00", datetime(2026, 1, 12, 6)),
        ("2026-01-12T06:00", datetime(2026, 1, 12, 6)),
        ("0001-01-02T14:00", datetime(1, 1, 2, 14)),
    ],
)
def test_clock_times(text, meant):
    assert value(CLOCK, text) == meant


@pytest.mark.parametrize("text", ["25:00", "06:60", "2026-02-30 06:00", "soon", "6", "13 pm", "0000-01-01 06:00"])
def test_no_clock_time(text):
    assert "such as 06:00" in problem(CLOCK, text).text


@pytest.mark.parametrize(("text", "fine"), [("1900-01-01 00:00", True), ("2999-12-31 23:59", True),
                                            ("1899-12-31 23:59", False), ("3000-01-01 00:00", False)])  # fmt: skip
def test_a_year_far_off_is_asked_back(text, fine):
    problems = read(Clock("now", "Now"), text)[1]
    assert [problem.text for problem in problems] == (
        [] if fine else [f"Now: The year is {text[:4]}. Type a year from 1900 to 2999."]
    )


CHOICE = Choice("drained", "Drained", (Option("drained", "Well drained"), Option("not-yet", "Not yet")))


@pytest.mark.parametrize(
    ("text", "word"), [("drained", "drained"), ("Well Drained", "drained"), ("NOT YET", "not-yet")]
)
def test_choices(text, word):
    assert value(CHOICE, text) == word


def test_no_such_choice():
    assert problem(CHOICE, "wet").text.endswith("Choose one of: drained, not-yet.")


def test_text_is_one_line_of_limited_length():
    assert value(Text("t", "Remark", 20), "a\tb\n c\x07d") == "a b c d"
    assert "20 characters at most" in problem(Text("t", "Remark", 20), "x" * 21).text


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        ("8 14; 16 13; 8 14", ((8, 14), (16, 13), (8, 14))),
        ("8 14\n16 13", ((8, 14), (16, 13))),
        ("8\t14\r\n16\t\n", ((8, 14), (16, None))),
        ("8 16 8 12 4", ((8, None), (16, None), (8, None), (12, None), (4, None))),
        ("8", ((8, None),)),
        ("8 14;", ((8, 14),)),
        ("8 h 14 C; 90 min", ((8, 14), (1.5, None))),
        ("8,5 14,5; 16", ((8.5, 14.5), (16, None))),
        ([["8", "14"], ["16", ""], ["", ""]], ((8, 14), (16, None))),
        ([[8, 14.5]], ((8, 14.5),)),
    ],
)
def test_tables(text, rows):
    assert value(STAGES, text) == rows


@pytest.mark.parametrize(
    ("typed", "row"),
    [
        ([["8", "14"], ["", ""], ["8", ""]], 2),
        ([["", " "], ["8", ""]], 1),
        ([["8"], ["16"], [""], [""], ["3"]], 3),
        ("8; ; 8", 2),
        ("8 14;;8", 2),
        ("; 8", 1),
    ],
)
def test_a_blank_row_above_a_filled_one_is_asked_back_where_rows_go_by_turns(typed, row):
    """Left out, it would make an air rest of the immersion below it."""
    told = problem(TURNS, typed)
    assert (told.row, told.column) == (row, "hours")
    assert told.text.endswith("Type a number from 0.25 to 72 h, such as 8. Or remove the row.")
    assert not read(STAGES, typed)[1]


@pytest.mark.parametrize("typed", ["8; 16;", "8;\n16;\n", "8\n\n16", [["8", ""], ["16", ""], ["", ""], ["", ""]]])
def test_blank_rows_behind_the_last_are_left_out_where_rows_go_by_turns(typed):
    assert value(TURNS, typed) == ((8, None), (16, None))


def test_a_table_of_needed_columns_takes_spaces_between_columns():
    assert value(DISHES, "20.1 25.2 24.6") == ((20.1, 25.2, 24.6),)


def test_a_wrong_cell_names_its_row_and_column():
    wrong = problem(STAGES, "8 14; 0 13")
    assert (wrong.row, wrong.column) == (2, "hours")
    assert wrong.text == ("Stages, row 2, hours: 0 is too low. Type a number from 0.25 to 72 h, such as 8.")


def test_rows_too_long_or_too_many():
    assert problem(STAGES, "8 14 3; 2").row == 1
    assert "from 1 to 6 rows" in problem(STAGES, " ".join(["8"] * 7)).text
    assert "rows at most" in problem(STAGES, " ".join(["8"] * 700)).text
    assert problem(DISHES, "1 2").text.startswith("Dishes, row 1, dry: ")


@pytest.mark.parametrize("raw", ["", "  ", None, [], [["", ""]], ["", None]])
def test_blank(raw):
    assert is_blank(raw)


@pytest.mark.parametrize("raw", ["0", 0, 0.0, [[0]], [["", "1"]]])
def test_not_blank(raw):
    assert not is_blank(raw)


def test_rows_for_a_single_value_are_refused():
    assert "one value is wanted" in problem(MOISTURE, [["1"]]).text
