"""The file of a house: all that it may hold is declared once, and every slip is named with its line and the way out."""

from __future__ import annotations

import os
import random
import re
import string
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from calculators.asking.declare import Number
from calculators.house.declare import Field, Section
from calculators.house.schema import BY_ID, MOST, SECTIONS
from calculators.rules.gases import GASES, strictest
from calculators.rules.limit import Limit
from calculators.rules.limits import every
from calculators.sheets import find_sheet, sheet_ids
from site_src.house import read_all, take_up
from site_src.house.ask import ask_all
from site_src.house.check import read_text
from site_src.house.example import EXAMPLE, example_text, schema_lines
from site_src.house.values import as_toml, quoted
from site_src.settings import ROOT, BuildError

HERE = Path(__file__).parent
FIELDS = [(section, field) for section in SECTIONS for field in section.fields]
EACH = pytest.mark.parametrize(("section", "field"), FIELDS, ids=[f"{s.id}-{f.id}" for s, f in FIELDS])


def entry(section: Section, **values: str) -> str:
    """An entry with what it needs, and these values as the file writes them."""
    needed = {one.id: as_toml(one, one.example) for one in section.fields if one.needed}
    return "\n".join([section.heading, *(f"{key} = {value}" for key, value in {**needed, **values}.items())])


def held(text: str) -> dict[str, list[dict[str, Any]]]:
    return dict(read_text("house.toml", text.encode()).house)


def said(text: str | bytes) -> str:
    with pytest.raises(BuildError) as caught:
        read_text("house.toml", text if isinstance(text, bytes) else text.encode())
    return str(caught.value)


def test_the_commented_example_is_what_the_declaration_says_and_says_nothing_by_itself():
    assert EXAMPLE.read_text("utf-8") == example_text()
    assert held(example_text()) == {}
    assert "no password, no key" in example_text()


def test_with_its_marks_taken_away_the_example_is_a_file():
    lines = example_text().splitlines()
    text = "\n".join(line[2:] if re.match(r"# (\[|[a-z0-9_]+ = )", line) else line for line in lines)
    text = re.sub(r"^([a-z_]+) = +# .*? Such as: (.*)$", r"\1 = \2", text, flags=re.MULTILINE)
    text = re.sub(r'^(meter|permit) = "[^"]*"$', "", text, flags=re.MULTILINE)
    assert list(held(text)) == [one.id for one in SECTIONS]


def test_where_people_can_be_hurt_no_example_stands_ready_to_be_taken_for_an_answer():
    text = example_text()
    for section in SECTIONS:
        part = text.split(f"\n# {section.heading}\n")[1].split("\n\n")[0]
        ready = [line for line in part.splitlines() if re.match(r"# [a-z0-9_]+ = \S", line) and "=  #" not in line]
        assert bool(ready) != section.safety, section.id


@EACH
def test_each_example_is_taken(section: Section, field: Field):
    text = entry(section, **{field.id: as_toml(field, field.example)})
    if (section.id, field.id) == ("alarm", "at"):
        text += '\nunit = "ppm"'
    if (section.id, field.id) in {("place", "meter"), ("place", "permit")}:
        text += "\n" + entry(BY_ID[field.id])
    assert field.id in held(text)[section.id][0]


@pytest.mark.parametrize(
    ("section", "field"), [(s, f) for s, f in FIELDS if f.kind == "number" and f.id != "at"], ids=lambda one: one.id
)
def test_each_number_is_held_from_both_sides(section: Section, field: Field):
    for good in (field.low, field.high):
        assert held(entry(section, **{field.id: repr(good)}))[section.id][0][field.id] == good
    for bad in (field.low - 0.001, field.high + 0.001, float("nan"), float("inf")):
        text = said(entry(section, **{field.id: repr(bad)}))
        assert "a number from" in text and "such as" in text and ", line " in text
    assert "without quotation marks" in said(entry(section, **{field.id: '"12"'}))


@EACH
def test_each_text_is_one_plain_line(section: Section, field: Field):
    if field.kind == "text":
        assert f"{field.longest} at most" in said(entry(section, **{field.id: quoted("x" * (field.longest + 1))}))
        assert "one line" in said(entry(section, **{field.id: quoted("a\nb")}))
        assert "text in quotation marks" in said(entry(section, **{field.id: "3"}))
        assert "nothing stands in it" in said(entry(section, **{field.id: '" "'}))
        assert "marks of this book" in said(entry(section, **{field.id: '"[[x"'}))


@EACH
def test_no_line_may_say_that_a_place_may_be_gone_into(section: Section, field: Field):
    if field.kind == "text":
        for words in ("The pit may be entered", "The air is clear", "Safe to enter"):
            if len(words) <= field.longest:
                assert "no paper may say" in said(entry(section, **{field.id: quoted(words)}))


def test_each_slip_is_named_with_its_line_and_all_of_them_at_once():
    text = 'format = 1\n\n[[steep]]\nname = "Steep 1"\ncharge = 6000\n\n[[steep]]\nname = "Steep 1"\nwater_m3 = -1\n'
    lines = said(text).splitlines()
    assert "house.toml, line 5: “charge” is not known under [[steep]]. Did you mean: charge_kg?" in lines[0]
    assert "line 8: “Steep 1” stands twice" in lines[1]
    assert "line 9: water_m3: -1 is not a number from 0.02 to 600 m³, such as water_m3 = 8" in lines[2]
    once = said('[[alarm]]\ngas = "carbon-dioxide"\nat = 5000\nunit = "mg"\n')
    assert "line 4: unit: “mg” is not one of the words" in once and "two ways" not in once


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("colour = 3", "line 1: “colour” is not known"),
        ("steeps = 3", "Did you mean: steep"),
        ("[steep]\nname = 'a'", "steep is written with [[steep]]"),
        ("[[house]]\nname = 'a'", "house is written with [house]"),
        ("steep = [1]", "steep is written with [[steep]]"),
        ("format = 2", "format is 1 for this book, not 2"),
        ("format = true", "format is 1 for this book"),
        ("[[steep]]\ncharge_kg = 60", 'write name = "Steep 2" too'),
        ("[[place]]\nname = 'a'\nmeter = 'M'", "there is no meter “M”. Write [[meter]] with that name"),
        ("[[place]]\nname = 'a'\ndrill_done = 2026-05-04\ndrill_due = '2026-05-04'", "lies no later than drill_done"),
        ("[[place]]\nname = 'a'\ndrill_done = '2026-02-30'", "write a day from 1990 to 2100"),
        ("[[place]]\nname = 'a'\nin_it = ['gold']", "“gold” is not one of the words. There are: carbon dioxide"),
        ("[house]\nmonths = ['a']", "write twelve names"),
        ("[[plan]]\nname = 'a'\nstages = '8 wet'", "write hours with blanks between them, wet first"),
        ("[[plan]]\nname = 'a'\nstages = '8 500'", "1 to 12 stages"),
        ("[[paper]]\npage = '../x'", "there is no page “../x” in the book"),
        ("[[paper]]\npage = 'procedures/steping'", "there is no page “procedures/steping”"),
        ("asked = ['x']", "asked lists sections"),
        ("[limits.immersion-hours]\nstop_high = 9\nreason = 'air is clear'\noffice = 'x'", "line 3: reason: no paper"),
        ("[malts.dark]\ncast = [45, 46]\nreason = 'a'\noffice = '[[x'", "line 4: office: “[[” is a mark"),
        ("\n".join(f"[[steep]]\nname = '{n}'" for n in range(MOST + 1)), f"the book shows {MOST} at most"),
        ("[[steep]]\nname = 'Ste", "house.toml: "),
        ('[[steep]]\nname = "Ste\nair = "x"', "a text has no end in line 2"),
        ("[house]\nname = \"\"\"a\n", "It ends in the middle"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_with_the_way_out(text: str, says: str):
    assert says in said(text)


def test_bytes_that_are_no_text_and_files_without_end():
    assert "not written in UTF-8" in said("[house]\nname = 'Mälzerei'".encode("latin-1"))
    assert "bytes" in said(b"#" * 500_000)
    assert said(b"a = " + b"[" * 20_000)
    assert held("\ufeff[house]\nname = 'x'\r\n") == {"house": [{"name": "x"}]}


@pytest.mark.parametrize("gas", GASES)
def test_an_alarm_sounds_no_later_than_the_published_values(gas: str):
    """Held against the strictest ceiling or short-term value of ``rules.gases``, each with its source there."""
    edge = strictest(gas, "ceiling", "short").ppm
    assert held(f'[[alarm]]\ngas = "{gas}"\nat = {edge}\nunit = "ppm"')
    assert "can be read in two ways" in said(f'[[alarm]]\ngas = "{gas}"\nat = {edge}')
    for at, unit in ((edge * 1.001, "ppm"), (edge / 10_000 * 1.001, "%"), (0, "%")):
        later = f"at = {at}\nunit = '{unit}'"
        text = said(f'[[alarm]]\ngas = "{gas}"\n{later}')
        assert "can only be made tighter" in text and ", line 3: " in text


def test_an_alarm_for_oxygen_is_no_lower_than_the_law_that_was_read():
    """29 CFR 1910.146(b): an atmosphere under 19.5 % oxygen is hazardous."""
    assert held('[[alarm]]\ngas = "oxygen"\nat = 19.5\nunit = "%"')
    assert "sounds from 19.5 to 20.9 %" in said('[[alarm]]\ngas = "oxygen"\nat = 19.4\nunit = "%"')
    assert 'write unit = "%"' in said('[[alarm]]\ngas = "oxygen"\nat = 20\nunit = "ppm"')


def test_what_is_offered_to_sheets_is_asked_by_them_within_their_bounds():
    asked = {question.id: question for name in sheet_ids() for question in find_sheet(name).questions}
    for section, field in FIELDS:
        for name in field.fills:
            question = asked[name]
            if isinstance(question, Number):
                assert question.unit == field.unit and question.low <= field.low < field.high <= question.high
        assert not (field.fills and section.safety)


def test_the_page_has_each_key():
    text = "\n".join(schema_lines())
    for section, field in FIELDS:
        assert f"`{field.id}`" in text and section.title in text


def test_the_invented_house_is_whole_and_was_written_by_the_command(tmp_path: Path):
    file = tmp_path / "house.toml"
    asked, answered = ask_all(file, iter((HERE / "answers.txt").read_text("utf-8").splitlines()), lambda _: None)
    assert (HERE / "house.toml").read_text("utf-8") == file.read_text("utf-8")
    assert (asked, answered) == (171, 136)
    assert read_all(HERE / "house.toml").house == read_all(file).house
    assert ask_all(file, iter(()), lambda _: None) == (0, 0)  # everything has been asked


def test_the_command_goes_on_where_it_stopped_and_keeps_what_a_reader_wrote(tmp_path: Path):
    file = tmp_path / "house.toml"
    says: list[str] = []
    ask_all(file, iter(["Our house", "", "stop"]), says.append)
    assert read_all(file).house == {"house": [{"name": "Our house"}]}
    file.write_text(file.read_text("utf-8") + "\n# mine\n", "utf-8")
    ask_all(file, iter(["by the river", ".", "Steep 1", "6 tonnes of it", "6,000", "6 t", "stop"]), says.append)
    found = read_all(file)
    assert found.house["house"] == [{"name": "Our house", "address": "by the river"}]
    assert found.house["steep"] == [{"name": "Steep 1", "charge_kg": 6000.0}] and found.asked == ("house",)
    assert "# mine" in file.read_text("utf-8")
    assert any("can be read in two ways" in one for one in says)
    ask_all(file, iter(["Steep 2", ".", "", "stop"]), says.append)
    assert [one["name"] for one in read_all(file).house["steep"]] == ["Steep 1", "Steep 2"]
    assert any("There stand: Steep 1." in one for one in says)


def test_the_question_before_is_asked_once_more(tmp_path: Path):
    file = tmp_path / "house.toml"
    ask_all(file, iter(["<", "Our hose", "<", "Our house", "by the river", "<", "", ".", "stop"]), lambda _: None)
    assert read_all(file).house["house"] == [{"name": "Our house", "address": "by the river"}]


def test_what_does_not_fit_together_is_asked_again_and_not_lost(tmp_path: Path):
    file = tmp_path / "house.toml"
    others = ", ".join(quoted(one.id) for one in SECTIONS if one.id != "alarm")
    file.write_text(f"asked = [{others}]\n", "utf-8")
    says: list[str] = []
    ask_all(file, iter(["carbon-dioxide", "40000", "ppm", "out", "", "", "", "stop"]), says.append)
    assert any("It can only be made tighter" in one for one in says)
    text = file.read_text("utf-8")
    assert "# at = 40000" in text and read_all(file).house == {}


def asked_about_edges(tmp_path: Path, *typed: str) -> tuple[Path, str]:
    """The file, and what was said, of a talk about limits and malts alone."""
    file = tmp_path / "house.toml"
    file.write_text(f"asked = [{', '.join(quoted(one.id) for one in SECTIONS)}]\n", "utf-8")
    says: list[str] = []
    ask_all(file, iter(typed), says.append)
    return file, "\n".join(says)


def test_limits_and_targets_are_asked_with_the_book_s_beside_each_and_can_be_skipped(tmp_path: Path):
    file, said = asked_about_edges(tmp_path, "", "")
    assert read_all(file).asked[-2:] == ("limits", "malts") and read_all(file).edges == {}
    file, said = asked_about_edges(
        tmp_path, "immersion", "", "30", "10 h", "The air is clear", "thin husks", "head of malting", "bottom", "zzz",
        "", "dark", "", "45 49", "45 to 46,5", ".", "our barley", "head of malting", "",
    )  # fmt: skip
    assert "One immersion, accepted up to 8 h; stop over 12 h" in said
    assert "A stop over? The book: 12 h; from 1 to 24 h" in said and "from 1 to 24 h, not to 30" in said
    assert "no paper may say" in said and "More than one." in said and "There is none of that name" in said
    assert "Two figures from 41 to 48" in said
    found = read_all(file)
    assert found.edges == {"immersion-hours": {"stop_high": 10.0}} and found.malts == {"dark": {"cast": (45.0, 46.5)}}
    assert found.reasons["immersion-hours"] == {"reason": "thin husks", "office": "head of malting"}


def test_a_limit_that_keeps_people_from_harm_is_asked_only_one_way(tmp_path: Path):
    row = next(one for one in every() if isinstance(one, Limit) and one.safety and one.stop_high)
    file, said = asked_about_edges(tmp_path, row.id, *["999999"] * 6, "stop")
    assert "only lower: it keeps people from harm" in said and "can only be made tighter" in said
    assert read_all(file).edges == {}


def test_what_was_typed_of_a_limit_is_not_lost(tmp_path: Path):
    file, said = asked_about_edges(tmp_path, "immersion-hours", "7", "6", "a", "b", "stop")
    assert "the edges cross" in said and "# accept_high = 7" in file.read_text("utf-8")
    file, said = asked_about_edges(tmp_path, "immersion-hours", "", "9", "stop")
    assert "# stop_high = 9" in file.read_text("utf-8") and read_all(file).edges == {}
    file, said = asked_about_edges(tmp_path, "immersion-hours", "", "9", ".", "", "")
    assert "# stop_high = 9" in file.read_text("utf-8") and read_all(file).asked[-1] == "malts"


def test_a_broken_file_is_left_as_it_is(tmp_path: Path):
    file = tmp_path / "house.toml"
    file.write_text("[house\n", "utf-8")
    with pytest.raises(BuildError):
        ask_all(file, iter(["x"]), lambda _: None)
    assert file.read_text("utf-8") == "[house\n"


def test_what_is_written_down_goes_with_the_file(tmp_path: Path):
    first, second = tmp_path / "first", tmp_path / "second"
    first.mkdir()
    second.mkdir()
    assert take_up(HERE / "house.toml", first)
    scope: dict[str, Any] = {}
    exec((first / "house_data.py").read_text("utf-8"), scope)
    assert [one["name"] for one in scope["HOUSE"]["steep"]] == ["Steep 1", "Steep 2"]
    assert scope["OFFERED"]["barley_kg"] == [("6000", "Steep 1")]  # of one value the first stands for all
    assert [name for _, name in scope["OFFERED"]["water_temp_c"]] == ["Winter", "August"]
    limits = (first / "house_limits.py").read_text("utf-8")
    assert "'stop_high': 10.0" in limits and "thin husks" in limits
    empty = tmp_path / "house.toml"
    empty.write_text(example_text(), "utf-8")
    assert not take_up(empty, second) and list(second.iterdir()) == []


def test_a_command_leaves_nothing_of_a_house_behind(tmp_path: Path):
    """The modules of a house stand in the package of one command, and of what it starts, and of no other."""
    code = (
        "import calculators, os\nfrom pathlib import Path\nfrom site_src.taken import modules, taken_up\n"
        "with taken_up():\n"
        "    place = Path(os.environ['HOUSE_TAKEN_UP'])\n"
        "    from calculators.house import here\n    from calculators.rules import house\n"
        "    print(len(here.entries('steep')), house.EDGES['immersion-hours']['stop_high'], sorted(modules()))\n"
        "print(place.exists(), len(calculators.__path__), modules())\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, env={**os.environ, "HOUSE": str(HERE)},
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert run.stdout.splitlines()[-2:] == ["2 10.0 ['house_data.py', 'house_limits.py']", "False 1 {}"], run.stdout
    assert not list((ROOT / "calculators").glob("house_*.py"))


HOSTILE = (
    "<script>alert(1)</script>", "<img src=x onerror=x>", "</title>", "</head><html", "{{7*7}}", "${x}", "'; --", '"',
    "\\", "&lt;b&gt;", "&#0;", "javascript:x", "data:text/html,x", "[[limit:floor-bottom stop_high]]", "--8<-- x",
    "```sheet\nmoisture-target\n```", "\x00", "\u202e", "\ud7ff", "\U0010ffff", "page:index", 'href="page:nowhere"',
    "A" * 5000, "\u0301" * 50, "=cmd|x", "| a | b |", "# x", "1e999", "nan", "-0", "９", "٣",
)  # fmt: skip


def hostile(dice: random.Random) -> Iterator[str]:
    """Values as a file could have them: text, numbers, dates, lists, tables; whole ones and cut ones."""
    text = dice.choice(HOSTILE) + "".join(dice.choices(string.printable, k=dice.randrange(6)))
    yield quoted(text)
    yield dice.choice(("1e308", "-1", "nan", "inf", "0x10", "1_0", "true", "[]", "[[]]", "{}", "{a = 1}", "2026-13-01"))
    yield f"[{quoted(text)}, 1]"
    yield "'" + text.replace("'", "").replace("\n", "") + "'"
    yield str(dice.uniform(-1e6, 1e6))
    yield text[:20]


def test_ten_thousand_hostile_values_are_taken_as_text_or_refused_with_a_message():
    dice = random.Random(22)
    tried = taken = 0
    while tried < 10_000:
        section, field = dice.choice(FIELDS)
        for value in hostile(dice):
            tried += 1
            try:
                found = read_text("house.toml", entry(section, **{field.id: value}).encode("utf-8", "surrogatepass"))
            except BuildError as fault:
                message = str(fault)
                assert message.startswith("house.toml") and len(message) < 4000, (field.id, value)
                assert message.replace("\n", "").isprintable(), (field.id, value)
            else:
                taken += 1
                for one in found.house.values():
                    for each in one[0].values():
                        for words in each if isinstance(each, list) else [each]:
                            assert not isinstance(words, str) or (words.isprintable() and "[[" not in words)
    assert 200 < taken < tried


def test_hostile_values_of_limits_and_targets_are_refused_with_a_message_or_are_text():
    dice = random.Random(23)
    tables = {
        "limits.immersion-hours": {"stop_high": "10", "reason": '"a"', "office": '"b"'},
        "malts.dark": {"cast": "[45, 46]", "reason": '"a"', "office": '"b"'},
    }
    tried = taken = 0
    while tried < 2_000:
        name, keys = dice.choice(list(tables.items()))
        key = dice.choice([*keys, "other", "accept_high"])
        for value in hostile(dice):
            tried += 1
            lines = "\n".join(f"{one} = {said}" for one, said in {**keys, key: value}.items())
            try:
                found = read_text("house.toml", f"[{name}]\n{lines}\n".encode("utf-8", "surrogatepass"))
            except BuildError as fault:
                message = str(fault)
                assert message.startswith("house.toml") and len(message) < 4000, (name, key, value)
                assert message.replace("\n", "").isprintable(), (name, key, value)
            else:
                taken += 1
                assert 9.0 <= found.edges.get("immersion-hours", {}).get("stop_high", 10.0) <= 24.0
                for words in found.reasons.get("immersion-hours", {}).values():
                    assert words.isprintable() and "[[" not in words
    assert 50 < taken < tried


def test_the_repository_has_no_file_of_a_house():
    assert not (ROOT / "house.toml").exists()
