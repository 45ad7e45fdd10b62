"""What the pages of training reckon in the browser: the order of choices, and when something comes back."""

from __future__ import annotations

import json
import subprocess
from collections import Counter
from datetime import date, timedelta
from typing import Any

import pytest

from site_src.class_screens import order_of
from site_src.node_run import node
from site_src.questions import asked, cases, chapters
from site_src.settings import SOURCE
from site_src.training_results import known_results, training_results

SCRIPTS = SOURCE / "theme" / "assets" / "browser" / "training"
ASKED = [(case.id, at, len(one.choices)) for c in chapters() for case in cases(c) for at, one in enumerate(asked(case))]


def run(code: str, argument: object) -> Any:
    """What a piece of script gives for an argument, through JSON."""
    imports = "".join(
        f"import * as {name} from {json.dumps((SCRIPTS / f'{name}.mjs').as_uri())};" for name in ("order", "schedule")
    )
    whole = f"{imports}const argument = {json.dumps(argument)};console.log(JSON.stringify((() => {{{code}}})()));"
    done = subprocess.run(
        [node(), "--input-type=module", "-e", whole], capture_output=True, text=True, check=True, timeout=60
    )
    return json.loads(done.stdout)


def orders(papers: list[str]) -> dict[str, list[list[int]]]:
    found: dict[str, list[list[int]]] = run(
        "return Object.fromEntries(argument.papers.map((paper) => [paper,"
        "argument.asked.map(([id, at, count]) => order.orderOf(paper, `${id} ${at}`, count))]));",
        {"papers": papers, "asked": ASKED},
    )
    return found


def test_a_paper_has_one_order_and_another_paper_another():
    first, again, other = orders(["7"]), orders(["7"]), orders(["8"])
    assert first == again
    assert sum(a != b for a, b in zip(first["7"], other["8"], strict=True)) > 0.6 * len(ASKED)
    assert all(sorted(order) == list(range(count)) for order, (_, _, count) in zip(first["7"], ASKED, strict=True))


def test_a_session_has_the_order_of_the_paper_too():
    ours = [order_of("7", f"{name} {at}", count) for name, at, count in ASKED]
    assert ours == orders(["7"])["7"]


def test_every_place_comes_as_often_as_every_other():
    papers = [str(number) for number in range(300)]
    first = Counter[int]()
    for listed in orders(papers).values():
        first.update(order[0] for order, (_, _, count) in zip(listed, ASKED, strict=True) if count == 3)
    whole = sum(first.values())
    assert all(abs(first[place] / whole - 1 / 3) < 0.01 for place in range(3))


def test_everything_comes_back_after_1_3_7_21_and_60_days_and_then_every_60():
    day, kept = date(2026, 1, 30), None
    gaps = []
    for _ in range(7):
        kept = run(
            "return schedule.next(argument.kept ?? undefined, true, argument.day);", {"kept": kept, "day": str(day)}
        )
        due = date.fromisoformat(kept["due"])
        gaps.append((due - day).days)
        day = due
    assert gaps == [1, 3, 7, 21, 60, 60, 60]


def answer(kept: dict[str, Any], right: bool, day: date) -> Any:
    return run(
        "return schedule.next(argument.kept, argument.right, argument.day);",
        {"kept": kept, "right": right, "day": str(day)},
    )


def test_what_is_missed_begins_again_and_practice_before_its_day_puts_nothing_off():
    due = date(2026, 3, 1)
    kept = {"turn": 3, "due": str(due)}
    assert answer(kept, True, due - timedelta(1)) == kept
    assert answer(kept, False, due - timedelta(1)) == {"turn": 0, "due": str(due)}
    assert answer(kept, True, due) == {"turn": 4, "due": str(due + timedelta(60))}
    assert answer(kept, False, due + timedelta(9)) == {"turn": 0, "due": str(due + timedelta(10))}


@pytest.mark.parametrize(("day", "days", "then"), [("2026-12-31", 1, "2027-01-01"), ("2028-02-28", 3, "2028-03-02")])
def test_days_are_those_of_the_calendar(day, days, then):
    assert run("return schedule.later(argument.day, argument.days);", {"day": day, "days": days}) == then


def test_three_at_a_time_the_longest_overdue_first():
    kept = {
        "new": {"due": "2026-03-02", "mark": "right"},
        "old": {"due": "2026-01-02", "mark": "right"},
        "missed": {"due": "2026-02-02", "mark": "missed"},
        "right": {"due": "2026-02-02", "mark": "right"},
        "today": {"due": "2026-03-01", "mark": "safe"},
    }
    found = run("return schedule.dueOf(Object.entries(argument), '2026-03-01');", kept)
    assert found == ["old", "missed", "right"]


def test_what_comes_back_is_called_by_words_and_leads_to_its_place():
    known = known_results()
    for name, one in known.items():
        assert one["where"].endswith((f"#case-{name}", f"#exercises-{one['chapter']}"))
        assert ("-" not in name or name not in one["said"]) and len(one["said"]) < 160
    assert len({one["said"] for one in known.values()}) == len(known)


@pytest.mark.parametrize("which", ["", "some"])
def test_an_unknown_place_of_results_names_those_there_are(which):
    with pytest.raises(ValueError, match="all, due"):
        training_results(which)
