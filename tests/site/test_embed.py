"""The fenced block `sheet` under plain Python-Markdown, with no generator of sites around it."""

from __future__ import annotations

import markdown
import pytest
from pymdownx.superfences import SuperFencesException

from site_src.embed import parse

pytestmark = pytest.mark.usefixtures("demo_sheet")


def fence(body: str) -> str:
    return f"Before.\n\n```sheet\n{body}\n```\n\nAfter.\n"


def convert(text: str) -> str:
    return markdown.markdown(text, extensions=["site_src.embed"])


def test_a_fence_becomes_a_form_with_its_worked_case():
    html = convert(fence("demo barley_kg=200"))
    assert html.startswith("<p>Before.</p>") and html.endswith("<p>After.</p>")
    assert 'data-sheet="demo"' in html
    assert 'name="barley_kg"' in html
    assert "300" in html  # the demo's weight is 1.5 times the barley given in the fence
    assert 'data-standing="example"' in html


def test_values_may_run_over_lines_and_hold_spaces():
    sheet_id, given = parse("demo barley_kg=5000\n  stages='8 14; 16 13'\n  # by night\n  temp_c='12 C'\n")
    assert sheet_id == "demo"
    assert given == {"barley_kg": "5000", "stages": "8 14; 16 13", "temp_c": "12 C"}


def test_each_sheet_of_a_page_has_ids_of_its_own():
    html = convert(fence("demo") + fence("demo barley_kg=300") + fence("demo"))
    ids = [item.split('"')[0] for item in html.split(' id="')[1:]]
    assert len(ids) == len(set(ids))
    for prefix in ("demo", "demo-2", "demo-3"):
        assert f'<section class="sheet" id="{prefix}"' in html


def test_numbering_starts_again_on_the_next_page():
    converter = markdown.Markdown(extensions=["site_src.embed"])
    first = converter.convert(fence("demo"))
    converter.reset()
    assert converter.convert(fence("demo")) == first


def test_other_fences_stay_code():
    assert "<section" not in convert("```text\ndemo\n```\n")


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ("nothing-known", "no sheet “nothing-known”"),
        ("", "the first word must be the id of a sheet"),
        ("barley_kg=5000", "the first word must be the id of a sheet"),
        ("demo barley_kg", "must be written question=value"),
        ("demo barley_kg=1 barley_kg=2", "given twice"),
        ("demo barley_kg=heavy", "Barley weight"),
        ("demo barley_kg=99999", "10,?000"),
        ("demo no_such_question=1", "no question “no_such_question”"),
        ("demo remark='open", "closing quotation"),
    ],
)
def test_a_fault_stops_the_build_and_says_which(body: str, said: str):
    with pytest.raises(SuperFencesException, match=r"(?i)" + said) as fault:
        convert(fence(body))
    assert "fenced block" in str(fault.value)


@pytest.mark.parametrize(
    "text",
    [
        "```sheet barley_kg=5000\ndemo\n```\n",
        '```sheet barley_kg="5000"\ndemo\n```\n',
        "``` {.sheet barley_kg=5000}\ndemo\n```\n",
        "```sheet\ndemo\n\nNo end.\n",
        "- In a list:\n\n    ```sheet demo=1\n    ```\n",
    ],
)
def test_a_malformed_fence_is_a_fault_not_text(text: str):
    with pytest.raises(SuperFencesException, match=r"does not open a block|inside the block"):
        convert(text)


def test_a_fence_may_stand_in_a_list_and_be_shown_as_code():
    assert 'data-sheet="demo"' in convert("- In a list:\n\n    ```sheet\n    demo\n    ```\n")
    assert "data-sheet" not in convert("````text\n```sheet\ndemo\n```\n````\n")
