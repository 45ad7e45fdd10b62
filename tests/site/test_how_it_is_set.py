"""How text is set: one style of dates, real fractions, and the four words as the only boxes."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MONTHS = "January|February|March|April|June|July|August|September|October|November|December"
WRONG = {
    "a day is written 29 Nov 2026": re.compile(rf"\b\d{{1,2}}\.? (?:{MONTHS}) \d{{4}}\b"),
    "a fraction is one sign, such as ½": re.compile(r"(?<![\w/.^−(-])[123]/[234](?![\w/.])"),
    "a hazard stands in a box of the four words, a remark in none": re.compile(r"^ *(?:!!!|\?\?\?) ", re.MULTILINE),
}


def texts() -> Iterator[tuple[str, str]]:
    for path in sorted((ROOT / "docs").rglob("*.md")):
        yield (
            path.relative_to(ROOT).as_posix(),
            re.sub(r"```.*?```|`[^`]*`|\]\([^)]*\)", "", path.read_text("utf-8"), flags=re.DOTALL),
        )
    for path in sorted((ROOT / "docs/_includes/questions").rglob("*.toml")):
        yield path.relative_to(ROOT).as_posix(), path.read_text("utf-8")
    for path in sorted((ROOT / "calculators/sources").rglob("*.py")):
        yield path.relative_to(ROOT).as_posix(), path.read_text("utf-8")


@pytest.mark.parametrize("rule", WRONG)
def test_every_page_question_and_source_keeps_to_it(rule: str):
    found = [f"{name}: {match[0].strip()}" for name, text in texts() for match in WRONG[rule].finditer(text)]
    assert found == []


def test_what_is_wrong_is_found():
    wrong = ("on 29 November 2026", "acrospire 1/2 to 3/4", '!!! danger "Gas"')
    assert [bool(pattern.search(text)) for pattern, text in zip(WRONG.values(), wrong, strict=True)] == [True] * 3


STRAIGHT = re.compile(r"""\w'\w|\w'(?=[\s.,;:])|(?<=[\s(])'\w|\"""")


@pytest.mark.site
def test_a_page_has_one_kind_of_quotation_mark(built_site: Path):
    found = {}
    for path in sorted(built_site.rglob("*.html")):
        told = re.sub(r"<(script|style|code|pre)\b.*?</\1>", "", path.read_text("utf-8"), flags=re.DOTALL)
        if straight := STRAIGHT.findall(html.unescape(re.sub(r"<[^>]*>", " ", told))):
            found[path.relative_to(built_site).as_posix()] = straight
    assert found == {}
