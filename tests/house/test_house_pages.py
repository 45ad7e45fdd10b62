"""A house's own pages and remarks: put in at named places, checked, never in the place of what guards somebody."""

from __future__ import annotations

import random
import re
import string
from pathlib import Path

import pytest

from site_src.house import stands
from site_src.house.overlay import overlay
from site_src.house.places import Place, carries_box, find, headings, place_of, steps
from site_src.house.remarks import Page, Remark, put_in, read_one, read_own
from site_src.settings import ROOT, BuildError

DOCS = ROOT / "docs"
PROCEDURES = sorted((DOCS / "procedures").glob("*.md"))
BOX = re.compile(r'--8<-- "hazards/[a-z-]+\.md"|class="hazard')


def remark(place: str, where: str = "after", body: str = "Shut the lower valve first.") -> Remark:
    head = f"---\nplace: {place}\nwhere: {where}\nreason: two valves\noffice: head of malting\n---\n"
    found = read_one("a.md", f"{head}{body}\n".encode())
    assert isinstance(found, Remark)
    return found


def page(name: str) -> str:
    return (DOCS / f"{name}.md").read_text("utf-8")


def refused(data: str | bytes, name: str = "a.md") -> str:
    with pytest.raises(BuildError) as caught:
        read_one(name, data if isinstance(data, bytes) else data.encode())
    return str(caught.value)


HEAD = "---\nplace: procedures/steeping#drain step 2\nwhere: after\nreason: r\noffice: o\n---\n"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("No title.", "line 1: a page begins with its title"),
        ("# T\n\n<script>x</script>", "line 3: write Markdown; HTML is not taken"),
        ("# T\n\n<!-- x -->", "HTML is not taken"),
        ("# T\n\ntext {: .hazard }", "line 3: attributes in braces are not taken"),
        ('# T\n\n--8<-- "terms.toml"', "only boxes are included"),
        ("# T\n\nfine\n\nThe pit may be entered after ten minutes.", "line 5: no page may say"),
        ("# T\n\nThe air is clear.", "no page may say"),
        ("# T\n\n[x](javascript:alert)", "line 3: a link leads to a page, or begins with https://"),
        ("# T\n\n[x]\n\n[x]: data:text/html,y", "line 5: a link leads to a page"),
        ("# T\n\n[[limit:nothing stop_high]]", "No limit “nothing”"),
        (HEAD.replace("where: after", "where: below") + "x", "where is one of: before, after, instead"),
        (HEAD.replace("place: procedures/steeping#drain step 2", "place: step 2 of steeping") + "x", "names no place"),
        (HEAD.replace("reason: r\n", "") + "x", "write reason: … too"),
        (HEAD.replace("office: o\n", "") + "x", "write office: … too"),
        (HEAD.replace("office: o", "by: me") + "x", "line 5: “by: me” is not known. Known are: place"),
        (HEAD.replace("reason: r", "reason: the vessel is safe") + "x", "no page may say that"),
        (HEAD, "there is no text below the head"),
        (HEAD.replace("after", "instead").replace(" step 2", "") + "x", "only a step can be replaced"),
        (HEAD.replace("after", "instead").replace("procedures/steeping", "safety/emergency") + "x", "about safety"),
        ("---\nreason: r\n---\n# T\n", "without place"),
    ],
)  # fmt: skip
def test_each_slip_is_named_with_its_line(text: str, says: str):
    assert says in refused(text)


def test_names_and_bytes_of_files():
    assert "small letters" in refused("# T", "Our Page.md")
    assert "not written in UTF-8" in refused("# Mälzerei".encode("latin-1"))
    assert "at most" in refused("# T\n" + "x" * 300_000)


@pytest.mark.parametrize("file", PROCEDURES, ids=lambda file: file.stem)
@pytest.mark.parametrize("where", ["before", "after"])
def test_a_remark_at_every_place_takes_nothing_away(file: Path, where: str):
    markdown = file.read_text("utf-8")
    lines = markdown.splitlines()
    for number, _, anchor in headings(lines):
        below = steps(lines, number + 1, len(lines)) if anchor else {}
        for step in (0, *range(1, 1 + min(len(below), 2))):
            try:
                after = put_in(markdown, [remark(str(Place(f"procedures/{file.stem}", anchor, step)), where)])
            except BuildError as fault:
                assert "has no step" in str(fault)
                continue
            kept = iter(after.splitlines())
            assert all(line in kept for line in lines), (anchor, step)
            assert after.count("> Shut the lower valve first.") == 1


@pytest.mark.parametrize("file", PROCEDURES, ids=lambda file: file.stem)
def test_no_step_with_a_box_or_a_guard_is_replaced_and_no_box_goes(file: Path):
    markdown = file.read_text("utf-8")
    lines = markdown.splitlines()
    marks = headings(lines)
    replaced = refusals = 0
    for at, (number, _, anchor) in enumerate(marks):
        end = marks[at + 1][0] if at + 1 < len(marks) else len(lines)
        for step in steps(lines, number, end):
            place = Place(f"procedures/{file.stem}", anchor, step)
            span = find(markdown, place)
            try:
                after = put_in(markdown, [remark(str(place), "instead")])
            except BuildError as fault:
                refusals += 1
                assert "carries a hazard box" in str(fault) or "keeps somebody from harm" in str(fault)
                continue
            replaced += 1
            assert not carries_box(markdown, span)
            assert BOX.findall(after) == BOX.findall(markdown)
            assert not re.search(r"\b(?:lock|isolat|gas|guard|rail)", " ".join(lines[span.start : span.end]).lower())
            old = re.sub(r"^\d+\.\s+", "", lines[span.start])
            assert f"> The book’s step: {old}" in after  # the book's stands beside it
    assert refusals > 0
    assert replaced + refusals > 0


def test_a_step_is_replaced_with_the_book_s_beside_it_and_the_steps_stay_numbered():
    body = "Mix it. Count out 300 corns without choosing.\n\n*Look for:* three lots of 100."
    after = put_in(page("procedures/steeping"), [remark("procedures/steeping#chit-count step 2", "instead", body)])
    part = after[after.index("### Chit count") : after.index("### Third immersion")]
    assert "2. Mix it. Count out 300 corns" in part and "1. Take grain" in part and "3. Put the corns" in part
    assert "> The book’s step: Mix it. Count out 200 corns without choosing." in part
    from markdown import Markdown

    drawn = Markdown(extensions=["md_in_html", "attr_list"]).convert(part)
    assert drawn.count("<ol>") == 1 and drawn.count("<blockquote>") == 1


@pytest.mark.parametrize(
    ("place", "says"),
    [
        ("procedures/steeping#drian", "has no heading “drian”. There are: drain"),
        ("procedures/steeping#drain step 99", "has no step 99: it has steps 1 to"),
        ("procedures/steeping#limits step 1", "has no step 1: it has no steps"),
    ],
)
def test_a_place_that_is_not_there_is_said_with_those_that_are(place: str, says: str):
    with pytest.raises(BuildError, match=re.escape(says)):
        put_in(page("procedures/steeping"), [remark(place)])


def test_places_are_read():
    assert place_of("procedures/steeping#drain step 2") == Place("procedures/steeping", "drain", 2)
    assert place_of("procedures/steeping") == Place("procedures/steeping")
    assert place_of("procedures/steeping step 2") is None and place_of("Steeping, drain") is None


def own(tmp_path: Path) -> Path:
    folder = tmp_path / "house"
    folder.mkdir()
    (folder / "our-screen.md").write_text("# Our screen\n\nSee [steeping](../procedures/steeping.md).\n", "utf-8")
    (folder / "drain.md").write_text(HEAD + "Shut the lower valve first.\n", "utf-8")
    instead = HEAD.replace("#drain step 2", "#chit-count step 2").replace("where: after", "where: instead")
    (folder / "chit.md").write_text(instead + "Mix it. Count out 300 corns.\n", "utf-8")
    return folder


def test_pages_and_remarks_are_put_in_and_an_upgrade_says_what_changed_under_them(tmp_path: Path):
    folder, docs = own(tmp_path), tmp_path / "book"
    import shutil

    shutil.copytree(DOCS, docs)
    says: list[str] = []
    made = overlay("https://example.org/", docs=docs, to=tmp_path / "to", own=folder, say=says.append)
    assert made is not None and says == []
    steeping = (made.docs / "procedures" / "steeping.md").read_text("utf-8")
    assert "Shut the lower valve first." in steeping and "2. Mix it. Count out 300 corns." in steeping
    assert (made.docs / "house" / "our-screen.md").is_file()
    nav = str(made.nav)
    assert "house/our-screen.md" in nav and "house/index.md" in nav
    assert sorted(stands.kept(folder)) == ["chit.md", "drain.md"]

    changed = (docs / "procedures" / "steeping.md").read_text("utf-8")
    changed = changed.replace("Count out 200 corns without choosing.", "Count out 400 corns without choosing.")
    (docs / "procedures" / "steeping.md").write_text(changed, "utf-8")
    made = overlay("https://example.org/", docs=docs, to=tmp_path / "to", own=folder, say=says.append)
    assert "The book has changed under chit.md:" in says
    assert any("was: " in one and "200 corns" in one for one in says)
    assert any("is:  " in one and "400 corns" in one for one in says)
    assert says[-1] == "Look at each, then say so: make house DO=looked"
    assert not any("drain.md" in one for one in says)
    assert made is not None
    steeping = (made.docs / "procedures" / "steeping.md").read_text("utf-8")
    assert "2. Mix it. Count out 300 corns." in steeping  # an upgrade keeps it
    assert steeping.count("The book’s own text here has changed since: look again.") == 1

    _, remarks = read_own(folder)
    stands.note(folder, stands.stands_now(remarks, docs))
    says.clear()
    overlay("https://example.org/", docs=docs, to=tmp_path / "to", own=folder, say=says.append)
    assert says == []


def test_a_damaged_note_of_what_changes_stand_on_is_said(tmp_path: Path):
    folder = own(tmp_path)
    (folder / stands.NAME).write_text('"a" = ', "utf-8")
    with pytest.raises(BuildError, match="is damaged"):
        overlay("https://example.org/", to=tmp_path / "to", own=folder)


def test_the_book_s_own_folder_is_not_touched(tmp_path: Path):
    before = {file: file.read_bytes() for file in DOCS.rglob("*.md")}
    overlay("https://example.org/", to=tmp_path / "to", own=own(tmp_path))
    assert before == {file: file.read_bytes() for file in DOCS.rglob("*.md")}


def test_hostile_pages_are_refused_with_a_message_or_hold_no_markup():
    dice = random.Random(7)
    pieces = (
        "<script>x</script>", "<img src=x onerror=y>", "{: onclick=x }", "[x](javascript:y)", "```", "~~~",
        "--8<-- \"x\"", "---\n", "[[limit:x y]]", "[[gas:x]]", "# x\n", "\x00", "\u202e", "&lt;", "<", ">", "{", "}",
        "|", "\n\n", "    ", "\\", "place: a", "text ", "*b*", "`<i>`", "[^1]", "*[a]: b", "<a href='x'>", "</div>",
        "<!--",
        "- x\n",
    )  # fmt: skip
    taken = 0
    for _ in range(2000):
        body = "".join(dice.choices(pieces, k=dice.randrange(1, 9))) + "".join(dice.choices(string.printable, k=5))
        for text in (f"# T\n\n{body}", HEAD + body):
            try:
                found = read_one("a.md", text.encode("utf-8", "surrogatepass"))
            except BuildError as fault:
                assert str(fault).startswith("house/a.md") and len(str(fault)) < 2500
                continue
            taken += 1
            held = found.markdown if isinstance(found, Page) else found.body
            assert not re.search(r"<[a-zA-Z/!]|\]\(javascript:", held), held
    assert taken > 100
