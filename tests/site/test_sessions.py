"""Sessions that one can teach tomorrow: each runs from its page alone, in minutes that are possible, with sums that the
sheets work out and a key to all of it."""

from __future__ import annotations

import html
import re
from pathlib import Path
from typing import NamedTuple

import markdown
import pytest

from calculators.rules.limit import Limit, edge
from calculators.rules.limits import every
from calculators.rules.limits.filling_the_steep import FILL
from calculators.rules.limits.measuring_moisture import DRIPPING
from calculators.rules.limits.steeping import DRAIN
from site_src.class_screens import order_of, read_cases, read_paper, right_letters
from site_src.class_sums import reckoned, sums
from site_src.facts import fill_facts
from site_src.limits_table import filled
from site_src.questions import DOCS, cases, chapters

ALL = sorted((DOCS / "training").glob("session-*.md"))
# Those whose plan says what is on the screen. The practice batch has a screen of its own.
WHOLE = [path for path in ALL if "| On the screen |" in path.read_text("utf-8")]

# Minutes that a part before the class needs at the least: a convention of this handbook.
NEEDS = {"recall": 2.0, "board": 4.0, "show": 2.0, "sheet": 5.0, "ask": 1.5, "case": 3.0, "paper": 4.0, "hazard": 2.0}
# Minutes that work takes, by the words of a row; the pages of the procedures say them, limits where there are any.
TAKES: tuple[tuple[str, float], ...] = (
    (r"drains? .*\[\[limit:draining-time", edge(DRIPPING.accept_high)),
    (r"\[\[limit:draining-time accept_high\]\] hung free", edge(DRIPPING.accept_high) + 1),  # and blotted for one
    (r"Fill, by the page", edge(FILL.accept_high)),
    (r"and rouse\.", 10),  # rouse for 5 to 10 minutes
    (r"Air off, 3 minutes\. Skim, rouse, skim once more", 3 + 5),
    (r"skimmings drain ten minutes and are weighed", 10),
    (r"two goes of a quarter of an hour", 2 * 15),
    (r"wait 2 minutes", 2),
    (r"counts 200 corns", 20),  # a pair, two lots of a hundred
    (r"100 corns each, apart", 15),  # one person splits some 200 in half an hour
    (r"Ten minutes, then change over", 2 * 10),
    (r"100 corns as they come", 15),
    (r"reads it once, a quarter of an hour", 15),
)


class Row(NamedTuple):
    """A row of a plan: minutes from and to, what happens, and the anchors of what is on the screen."""

    begin: int
    end: int
    what: str
    screens: tuple[str, ...]


def parts_of(text: str) -> dict[str, str]:
    """The parts of a page by their headings."""
    return dict(re.findall(r"^## (.+?)\n(.*?)(?=^## |\Z)", text, re.MULTILINE | re.DOTALL))


def rows_of(plan: str) -> list[Row]:
    """The rows of a plan."""
    found = re.findall(r"^\| (\d+)–(\d+) \| (.*?) \| (.*?) ?\|$", plan, re.MULTILINE)
    return [Row(int(a), int(b), what, tuple(re.findall(r"\(#([a-z-]+)\)", at))) for a, b, what, at in found]


def plans_of(text: str) -> list[list[Row]]:
    """The plans of a session, one a meeting."""
    return [rows_of(plan) for plan in text.split('<div class="plan"')[1:]]


def bodies(name: str, text: str) -> list[str]:
    """The bodies of the blocks of a name."""
    return re.findall(rf"^```{name}\n(.*?)^```", text, re.MULTILINE | re.DOTALL)


def filled_in(body: str) -> str:
    """A body with its edges in it, as the page has it."""
    return fill_facts(filled(body))


def drawn(path: Path) -> str:
    """The page as the extension draws it, without drawings and sheets."""
    made = markdown.Markdown(
        extensions=["site_src.embed", "md_in_html", "attr_list", "tables", "toc", "pymdownx.snippets"],
        extension_configs={"pymdownx.snippets": {"base_path": [str(DOCS / "_includes")], "check_paths": True}},
    )
    page = made.convert(path.read_text("utf-8").split("---\n", 2)[2])
    return re.sub(r"<svg.*?</svg>|<section class=\"sheet\".*?</section>", "", page, flags=re.DOTALL)


def test_the_sessions_of_the_work_are_all_of_this_form() -> None:
    numbers = {int(path.stem.split("-")[1]) for path in WHOLE}
    assert numbers == set(range(1, 18)) - {15}, "the practice batch has a screen of its own"


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_a_session_runs_from_its_page_alone(path: Path) -> None:
    text = path.read_text("utf-8")
    parts = parts_of(text)
    for when in ("Two days before", "One day before", "One hour before"):
        (what,) = re.findall(rf"\*\*{when}:\*\* (.+)", parts["Prepare"])
        assert len(what.split()) >= 20, when
    assert parts["Recall"].count("*Listen for:*") >= 3
    assert "](session-" in parts["Recall"] or path.stem == "session-01-first-day"
    assert sum(len(sums(body)) for body in bodies("board", text)) >= 3
    hand_out = parts["Hand-out"]
    assert "```tasks\n```" in hand_out and len(sums(bodies("key", parts["Key"])[0])) >= (1 if "10-" in path.stem else 2)
    assert '--8<-- "drawings/' in hand_out or "```figure\n" in hand_out or "```drawing-again\n" in hand_out
    # What the guidance on lifting says stands in no table of limits.
    assert hand_out.count("[[limit:") + hand_out.count("[[gas:") >= (0 if "13-" in path.stem else 2)
    key = text.index("\n## Key\n")
    assert text.rfind('<div class="for-trainer"', 0, key) > text.rfind("\n</div>", 0, key), "the key is for the trainer"


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_the_plan_names_everything_that_the_class_sees(path: Path) -> None:
    text = path.read_text("utf-8")
    named = [anchor for plan in plans_of(text) for row in plan for anchor in row.screens]
    for part, alternatives in {
        "Recall": ("recall", "recall-first-meeting"),
        "On the board": ("on-the-board", "board-first-meeting"),
        "Show": ("show",),
        "The sheet": ("the-sheet", "timing", "basket"),
        "Ask": ("ask",),
        "Cases": ("cases",),
        "The hazard that must come up": ("the-hazard-that-must-come-up",),
    }.items():
        if f"## {part}\n" in text:
            assert any(one in named for one in alternatives), part
    if bodies("class-paper", text):
        assert "the-exercise" in named
    assert len(named) == len(set(named)), "nothing is shown twice"


def needed(anchor: str, text: str, row: Row) -> float:
    """The minutes that a part needs which a row shows."""
    if anchor in ("recall", "recall-first-meeting", "recall-second-meeting"):
        parts = re.split(r"^### ", parts_of(text)["Recall"], flags=re.MULTILINE)
        here = next(
            (one for one in parts if one.lower().replace(",", "").replace(" ", "-").startswith(anchor)), parts[0]
        )
        return here.count("*Listen for:*") * NEEDS["recall"]
    if anchor.startswith(("on-the-board", "board-")):
        blocks = bodies("board", text)
        at = blocks[:1] if anchor == "board-first-meeting" else blocks[1:] if "-second-" in anchor else blocks
        return sum(len(sums(body)) for body in at) * NEEDS["board"]
    if anchor == "ask":
        return parts_of(text)["Ask"].count("*Listen for:*") * NEEDS["ask"]
    if anchor == "cases":
        return sum(len(body.split()) - 2 for body in bodies("class-cases", text)) * NEEDS["case"]
    if anchor == "the-exercise":
        count = sum(int(body.split()[2]) for body in bodies("class-paper", text))
        return count * (1.0 if "alone between the meetings" in row.what else NEEDS["paper"])
    return NEEDS[{"show": "show", "the-hazard-that-must-come-up": "hazard"}.get(anchor, "sheet")]


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_the_minutes_are_possible(path: Path) -> None:
    text = path.read_text("utf-8")
    for plan in plans_of(text):
        for row in plan:
            wanted = sum(needed(anchor, text, row) for anchor in row.screens)
            wanted += sum(minutes for words, minutes in TAKES if re.search(words, row.what))
            assert row.end - row.begin >= wanted, f"{row.what[:50]}: {row.end - row.begin} of {wanted} minutes"


def test_each_time_of_the_work_is_met_by_some_row() -> None:
    said = "\n".join(row.what for path in WHOLE for plan in plans_of(path.read_text("utf-8")) for row in plan)
    assert [words for words, _ in TAKES if not re.search(words, said)] == []


def test_a_limit_in_minutes_that_a_row_names_fits_into_it() -> None:
    in_minutes = {limit.id: limit for limit in every() if isinstance(limit, Limit) and limit.unit == "min"}
    for path in WHOLE:
        for plan in plans_of(path.read_text("utf-8")):
            for row in plan:
                for name, which in re.findall(r"\[\[limit:([a-z-]+) ([a-z_]+)\]\]", row.what):
                    if name in in_minutes:
                        assert row.end - row.begin >= edge(getattr(in_minutes[name], which)), row.what


def test_the_minutes_of_the_steep_leave_room_for_its_drain() -> None:
    rows = plans_of((DOCS / "training" / "session-05-steeping.md").read_text("utf-8"))[0]
    opened = next(row.end for row in rows if "opens the drain" in row.what)
    suction = next(row.end for row in rows if "Suction on" in row.what)
    assert suction - opened >= edge(DRAIN.accept_low)


def test_the_minutes_of_the_box_leave_a_quarter_of_an_hour_before_its_gauge() -> None:
    """The gauge is the measure a quarter of an hour after the turning: the page of boxes says so."""
    (rows,) = plans_of((DOCS / "training" / "session-16-box.md").read_text("utf-8"))
    turned = next(row.end for row in rows if row.what.startswith("A turning"))
    read = next(row.begin for row in rows if "gauge again" in row.what)
    assert read - turned >= 15
    begun = next(row.begin for row in rows if "into the quick way" in row.what)
    assert next(row.begin for row in rows if "quick reading" in row.what) - begun >= 15


def test_a_longer_procedure_is_no_part_of_a_meeting() -> None:
    """Whole wet corns take 20 hours in the oven, and dishes half an hour to cool: they are got ready before."""
    first, second, _ = plans_of((DOCS / "training" / "session-06-moisture.md").read_text("utf-8"))
    assert any("put in" in row.what for row in first) and "half an hour ago" in second[0].what
    for stem in ("08-floor", "11-kiln-door"):
        assert "20 hours" in parts_of((DOCS / "training" / f"session-{stem}.md").read_text("utf-8"))["Prepare"]


# Each sum by hand, apart from the sheets. Dry matter stays: barley × (1 − moisture) × (1 − leached).
DRY = 100 * 0.88 * 0.99
BY_HAND: dict[str, tuple[float, ...]] = {
    "01-first-day": (40_000 / 10_000, 100 * (1 - 19.5 / 20.9), 12_000),
    "02-intake": ((7 * 13.4 + 18) / 8, 13.0),
    "03-counting": (98.0, 200, 100 * 384 / 400, 100 * (384 - 343) / 400),
    "04-filling": (60 * DRY / 0.55, DRY / 0.55, 6000 / 620 * 1.4, 16 - 6000 / 620 * 1.4 - 0.15 * 5, 100 * 42 / 6000),
    "05-steeping": (84 + DRY / 0.67, 100 * (1 - DRY / 136.1), 7.8 * 6, 90.0, 90.0),
    "06-moisture": (
        100 * (1 - DRY / 142), 84 + DRY / 0.55, (100 - 38.65) ** 2 / 8712, 100 * 44 / 56, 100 * (1 - 0.642 * 0.858),
        1.2, 44.7, 100 * 16.2 / 36, 2.1,
    ),
    "07-casting": (60 * DRY / 0.555, 100 * 6000 / 618 * 2 / 32.882, 6000 * 75 / 59.052, 100 * 164 / 200),
    "08-floor": (2.6, (17.8 + 15.2) / 2, 9.2, 9000 * 2.5 / 56 / 0.9, 9000 * 2.5 / 56 / 0.9 / 2),
    "09-drum": (4.6, 0.6, 100 * 6000 / 618 * 1.4 / 32.882, 100 * 6000 / 618 * 2 / 32.882),
    "10-readiness": (67.0, 10.0, 62, 246, 81.0),
    "11-kiln-door": (9000 * 41 / 96, 9000 * 55 / 96, 9000 * 55 / 57 * 39 / 96, 100 * (1 - 5100 * 0.955 / 5280)),
    "12-between-batches": (1.0, 0.5, 5 * 2.25**0.1 - 2, 52.8 * 192 / 162.14, 52.8 * 192 / 162.14 / 24 * 1000, 80),
    "13-lifting": (126.0, 23 * 25 / 50 * (1 - 0.003 * 25) * 0.94, 12 / (23 * 0.5 * 0.925 * 0.94), 7.0),
    "14-hand-over": (2.4, 100 * (1 - DRY / 134), 10.0, 9.0),
    "16-box": (6000 / 14, 150 / 110, 120 / 80, 15.25),
    "17-analysis-sheet": (100 * 80.9 / 95.6, 10 / 6.25, 0.06, 3.0),
}  # fmt: skip


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_what_comes_out_on_the_board_is_what_comes_out_by_hand(path: Path) -> None:
    text = path.read_text("utf-8")
    found = [one.words for body in bodies("board", text) for done in sums(body) for one in done.found]
    shown = [number[0] for words in found if (number := re.match(r"-?[\d.]+", words))]
    wanted = BY_HAND[path.stem.removeprefix("session-")]
    assert len(shown) == len(wanted), shown
    for mine, by_hand in zip(shown, wanted, strict=True):
        decimals = len(mine.partition(".")[2])
        assert float(mine) == pytest.approx(by_hand, abs=0.51 * 10**-decimals), (shown, wanted)


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_a_paper_of_the_meeting_asks_what_the_meeting_prepares(path: Path) -> None:
    text = path.read_text("utf-8")
    if "between the meetings" in parts_of(text).get("The exercise", ""):
        return  # there one is worked and one has its steps left out
    prepared = " ".join(bodies("board", text) + bodies("sheet", text))
    asked = [drawn.exercise for body in bodies("class-paper", text) for drawn in read_paper(body).drawn]
    assert [one.id for one in asked if one.sheet not in prepared] == []


def test_the_sum_of_one_kelvin_comes_out_of_what_its_question_says() -> None:
    (body,) = (one for one in bodies("board", (DOCS / "training/session-12-between-batches.md").read_text("utf-8"))
               if "days-to-ready" in one)  # fmt: skip
    done = next(one for one in sums(body) if "One thermometer" in one.ask)
    said = r"ready after (\d+)\sdays at 15\s.C; .* makes ([\d.]+) of the growth .* has lain (\d+)\sdays at 14"
    found = re.search(said, done.ask)
    assert found is not None, done.ask
    days, share, lain = map(float, found.groups())
    assert done.found[0].words.startswith(f"{days / share - lain:.1f} ")
    assert round(24 * (days / share - days)) == 10 and "ten hours" in done.then


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_the_key_answers_all_that_is_asked_and_the_hand_out_none(path: Path) -> None:
    page = drawn(path)
    key = html.unescape(re.sub(r"<[^>]+>", " ", page[page.index('<ul class="key">') :].split("</ul>")[0]))
    key = " ".join(key.split())
    text = path.read_text("utf-8")
    for done in [one for body in (*bodies("board", text), *bodies("key", text)) for one in sums(filled_in(body))]:
        assert " ".join(done.result.split()) in key
    for body in bodies("class-cases", text):
        assert all(letter in key for letter in right_letters(read_cases(body)))
    hand_out = html.unescape(page[page.index('<ol class="tasks">') :].split("</ol>")[0])
    assert "____" in hand_out
    for done in sums(filled_in(bodies("key", text)[0])):
        assert done.result not in hand_out


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_what_is_for_the_trainer_is_marked(path: Path) -> None:
    page = drawn(path)
    for words in ("Read first:", "Let them answer before you do.", "Say it, have it said back in other words, and go"):
        assert f'<p class="for-trainer">{words}' in page
    assert page.count('<p class="for-trainer">') >= 6 and '<div class="to-show">' in page


@pytest.mark.parametrize(
    ("text", "words"),
    [("7.8 × 6 = m³", "46.8 m³"), ("(20.9 − 19.5) ÷ 20.9 × 100 = %", "6.7 %"), ("20 ÷ 20 = L", "1 L")],
)
def test_a_sum_without_a_sheet_is_reckoned(text: str, words: str) -> None:
    assert reckoned(text).words == words


@pytest.mark.parametrize("text", ["2 + 2", "__import__('os') = L", "2 ** 9 = L", "a = L", "1 +", "2 = ", ""])
def test_what_is_no_sum_is_refused(text: str) -> None:
    if text == "2 = ":
        assert reckoned(text).words == "2"
        return
    with pytest.raises((ValueError, SyntaxError)):
        reckoned(text)


@pytest.mark.parametrize(
    "body",
    [
        "moisture-target nothing barley_kg=6000 barley_moisture=12 target_moisture=45\nWhat?",
        "moisture-target target_kg barley_kg=6000\nWhat?",
        "moisture-target target_kg barley_kg=6000 barley_moisture=12 target_moisture=45",
        "no-such-sheet target_kg\nWhat?",
    ],
)
def test_a_sum_that_no_sheet_answers_stops_the_build(body: str) -> None:
    with pytest.raises((ValueError, LookupError)):
        sums(body)


def test_a_chapter_keeps_its_cases_in_the_order_of_the_paper() -> None:
    assert all(sorted(order_of("7", case.id, 4)) == [0, 1, 2, 3] for chapter in chapters() for case in cases(chapter))
    with pytest.raises(ValueError, match="no case nonsense"):
        read_cases("steeping 5 nonsense")
