"""The trade's words: declared once, linked where they first stand, left alone where they must be."""

from __future__ import annotations

import re
from pathlib import Path

import markdown
import pytest

from site_src.settings import BuildError
from site_src.terms import Term, TermsExtension, entry_lines, read_terms

DOCS = Path(__file__).parents[2] / "docs"
COUCH = Term("couch", (), True, "A deep heap.", "procedures/casting")
REST = Term("air rest", ("air rests",), True, "Hours without water.", "")
FILM = Term("film", ("film of water",), False, "Water that clings.", "")
TERMS = [REST, COUCH, FILM]


def convert(text: str) -> str:
    return markdown.markdown(
        text, extensions=[TermsExtension(TERMS), "attr_list", "md_in_html", "tables", "fenced_code", "def_list"]
    )


def linked(html: str) -> list[str]:
    return re.findall(r'<a aria-describedby="term-([^"]+)"', html)


def test_the_first_occurrence_is_linked_and_described():
    html = convert("The couch lies. The couch warms.")
    assert html == (
        '<p>The <span class="term"><a aria-describedby="term-couch" href="page:reference/terms#couch">couch</a>'
        '<span class="term-note" data-search-exclude="" id="term-couch" role="tooltip">A deep heap.</span></span>'
        " lies. The couch warms.</p>"
    )


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("An air rest, then a Couch.", ["air-rest", "couch"]),
        ("Air rests\nhelp.", ["air-rest"]),
        ("Two *air\nrests* end.", ["air-rest"]),
        ("- one couch\n- the **air rest**", ["couch", "air-rest"]),
        ("1. Lay it.\n\n    *Look for:* a couch.\n    {: .look-for }", ["couch"]),
        ("Couch\n:   a couch", ["couch"]),
        ("A film of water, a film.", ["film"]),
        ("A film.", []),
        ("couches and air-rested, airrest, non-couch", []),
        ("# Couch\n\nNothing.", []),
        ("[the couch](x.md)", []),
        ("`couch`\n\n```\ncouch\n```", []),
        ("| couch |\n|---|\n| couch |", []),
        ('<div class="hazard hazard-danger" markdown>\n\nA couch.\n\n</div>', []),
        ('<div class="record" markdown>\n\nA couch.\n\n</div>', []),
        ("<section class='sheet'>couch</section>", []),
        ("# Couch\n\n[couch](x.md) `couch` and a couch.", ["couch"]),
    ],
)
def test_where_it_is_linked(text, found):
    assert linked(convert(text)) == found


def test_a_turn_of_speech_in_which_the_word_means_something_else_is_passed_over():
    point = Term("point", ("points",), True, "One per cent.", "", ("cut-off point", "which points"))
    html = markdown.markdown("Which points? The cut-off\npoint. Two points.", extensions=[TermsExtension([point])])
    assert html.count("<a ") == 1 and re.search(r"Two <span[^>]*><a[^>]*>points</a>", html)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("It rises by 2 K.", "K"),
        ("It rises by 0.5\u00a0K, then 3 K.", "K"),
        ("By kelvin, not by K.", "kelvin"),
        ("Vitamin K, k, 5 k, a 2 Km way, 3 K-shaped, Mr K.", ""),
    ],
)
def test_a_sign_is_linked_as_a_unit_only(text, words):
    kelvin = Term("kelvin", ("kelvins",), True, "A difference.", "", (), "K")
    html = markdown.markdown(text, extensions=[TermsExtension([kelvin])])
    assert re.findall(r"<a [^>]*>([^<]+)</a>", html) == ([words] if words else [])


def test_a_turn_of_speech_has_the_word_in_it(tmp_path):
    path = tmp_path / "terms.toml"
    path.write_text('[[term]]\nname = "point"\ntext = "One per cent."\nunlike = ["to the spot"]\n', "utf-8")
    with pytest.raises(BuildError, match="point does not stand in “to the spot”"):
        read_terms(path)


def test_a_paragraph_keeps_its_text_and_its_class():
    html = convert("The couch, an air rest and *more* air.\n{: .look-for }")
    assert html.startswith('<p class="look-for">')
    said = re.sub(r'<span class="term-note".*?</span>|<[^>]+>', "", html)
    assert said == "The couch, an air rest and more air."


def test_the_page_of_terms_lists_each_and_links_none():
    html = convert("A couch.\n\n```all-terms\n```\n\nEnd.")
    assert linked(html) == []
    assert re.findall(r'<h2 id="([^"]+)">', html) == ["air-rest", "couch", "film"]
    assert "A deep heap." in html and 'href="page:procedures/casting"' in html and "<p>End.</p>" in html


def test_the_next_page_begins_anew():
    converter = markdown.Markdown(extensions=[TermsExtension(TERMS)])
    first = converter.convert("A couch.")
    converter.reset()
    converter.convert("```all-terms\n```")
    converter.reset()
    assert converter.convert("A couch.") == first


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[[term]]\nname = "a"\n', "a has no text"),
        ('[[term]]\nname = "a"\ntext = "x"\nlink = 1\n', "a has link"),
        (
            '[[term]]\nname = "a"\ntext = "x"\n[[term]]\nname = "b"\nalso = ["A"]\ntext = "y"\n',
            "“A” stands for a and for b",
        ),
    ],
)
def test_a_fault_in_the_list_is_said(tmp_path, text, said):
    path = tmp_path / "terms.toml"
    path.write_text(text)
    with pytest.raises(BuildError, match=re.escape(said)):
        read_terms(path)


DECLARED = read_terms()


def test_the_declared_terms_are_in_order_with_anchors_of_their_own():
    anchors = [term.anchor for term in DECLARED]
    assert len(anchors) == len(set(anchors)) >= 60
    assert [term.name.lower() for term in DECLARED] == sorted(term.name.lower() for term in DECLARED)
    assert "\n".join(entry_lines(DECLARED)).count("{#") == len(DECLARED)


@pytest.mark.parametrize("term", DECLARED, ids=lambda term: term.anchor)
def test_a_declared_term_is_plain_and_is_used(term):
    assert len(term.text) <= 200, "short enough to show beside a word"
    assert term.text.endswith(".")
    for page in filter(None, [term.page]):
        assert (DOCS / f"{page}.md").is_file() or (DOCS / page / "index.md").is_file()
    if term.forms:
        forms = "|".join(re.escape(form) for form in term.forms)
        texts = (p.read_text("utf-8") for p in DOCS.rglob("*.md"))
        assert any(re.search(rf"(?<![\w-])(?:{forms})(?![\w-])", text, re.IGNORECASE) for text in texts)
