"""What the record of competence reckons in the browser: where somebody stands, what is due, what a file holds."""

from __future__ import annotations

import json
import subprocess
from datetime import date, timedelta
from typing import Any

import pytest
from dateutil.relativedelta import relativedelta  # type: ignore[import-untyped]

from site_src.node_run import node
from site_src.settings import SOURCE

SCRIPTS = SOURCE / "theme" / "assets" / "browser" / "training" / "record"
NAMES = {"line": "signed-line", "standing": "standing", "file": "learner-file", "side": "side-by-side"}
JOB = {
    "title": "Steep", "where": "", "often": "", "months": 24, "due": "", "mark": "aaaa1111", "number": "",
    "assesses": "", "steps": [
        {"id": "drain", "says": "Moves a drain.", "times": 2, "hazard": False},
        {"id": "fan", "says": "Says where the fan blows out.", "times": 1, "hazard": True},
    ],
}  # fmt: skip


def run(code: str, argument: object) -> Any:
    """What a piece of script gives for an argument, through JSON; a map is given as its entries."""
    imports = "".join(
        f"import * as {name} from {json.dumps((SCRIPTS / f'{path}.mjs').as_uri())};" for name, path in NAMES.items()
    )
    plain = "(key, value) => value instanceof Map ? [...value] : value"
    whole = f"{imports}const given = {json.dumps(argument)};console.log(JSON.stringify((() => {{{code}}})(), {plain}));"
    done = subprocess.run(
        [node(), "--input-type=module", "-"], input=whole, capture_output=True, text=True, check=True, timeout=60
    )
    return json.loads(done.stdout or "null")


def line(number: int, **more: Any) -> dict[str, Any]:
    return {
        "id": f"line{number}", "job": "steep", "step": "drain", "title": "Steep", "says": "Moves a drain.",
        "stage": "alone", "on": "2026-11-29", "batches": "example-01", "why": "", "by": "shift lead", "due": "",
        "number": "", "version": "0.1.0", "mark": "aaaa1111", "at": f"2026-11-29T10:{number:02d}", "back": "",
        "backWhy": "", **more,
    }  # fmt: skip


def stands(lines: list[dict[str, Any]]) -> Any:
    return run("return standing.jobStanding(given.job, given.lines, 'steep');", {"job": JOB, "lines": lines})


def drain(lines: list[dict[str, Any]]) -> Any:
    return stands(lines)["steps"][0]


def test_how_often_is_counted_by_batches_and_a_batch_counts_once():
    assert drain([line(1), line(2)])["times"] == 1
    one = drain([line(1), line(2, batches="Example-01, example-02")])
    assert (one["times"], one["enough"]) == (2, True)
    assert drain([line(1, batches=""), line(2, batches="", on="2026-11-28")])["times"] == 2  # then the day counts


def test_not_yet_begins_the_count_again_and_says_why():
    lines = [line(1), line(2, batches="example-02"), line(3, stage="not-yet", why="by the clock", on="2026-12-01")]
    one = drain(lines)
    assert (one["stage"], one["times"], one["enough"], one["why"]) == ("not-yet", 0, False, "by the clock")
    later = [*lines, line(4, batches="example-03", on="2026-12-05")]
    assert (drain(later)["stage"], drain(later)["times"], drain(later)["why"]) == ("alone", 1, "")


def test_it_goes_by_the_day_it_happened_not_by_the_order_of_writing():
    written_late = [line(1, on="2026-12-05"), line(2, stage="not-yet", why="x", on="2026-12-01")]
    assert drain(written_late)["stage"] == "alone"


def test_being_shown_again_takes_nothing_away():
    lines = [line(1), line(2, batches="example-02"), line(3, stage="shown", on="2026-12-05")]
    assert (drain(lines)["stage"], drain(lines)["enough"]) == ("alone", True)


def test_a_line_that_was_taken_back_counts_no_more():
    lines = [line(1), line(2, batches="example-02", back="2026-11-30T08:00", backWhy="wrong person")]
    assert (drain(lines)["times"], len(stands(lines)["lines"])) == (1, 1)


def test_what_is_due_is_the_first_of_its_steps_by_the_last_line_of_each():
    lines = [
        line(1, due="2027-01-01"),
        line(2, due="2028-11-29", on="2026-12-24"),
        line(3, step="fan", due="2028-10-01"),
    ]
    assert stands(lines)["due"] == "2028-10-01"


def test_the_next_try_and_what_is_due_again_are_kept_apart():
    both = stands([line(1, due="2028-11-30"), line(2, step="fan", stage="not-yet", due="2026-12-05")])
    assert (both["due"], both["next"]) == ("2028-11-30", "2026-12-05")
    tried = stands([line(1, due="2028-11-30"), line(2, stage="not-yet", due="2026-12-05")])
    assert (tried["due"], tried["next"]) == ("", "2026-12-05")
    since = stands([line(1, stage="not-yet", due="2026-12-05"), line(2, on="2026-12-05", due="2028-12-05")])
    assert (since["due"], since["next"]) == ("2028-12-05", "")


def test_it_says_look_again_when_the_page_changed_after_the_last_line():
    old = line(1, mark="bbbb2222")
    assert stands([old])["again"] == "2026-11-29"
    assert stands([old, line(2, on="2026-12-05")])["again"] == ""


@pytest.mark.parametrize(
    ("due", "state"),
    [("", ""), ("2026-11-28", "due"), ("2026-11-29", "due"), ("2026-11-30", "soon"), ("2026-12-29", "soon"),
     ("2026-12-30", "later")],
)  # fmt: skip
def test_a_day_has_come_or_comes_within_thirty(due, state):
    assert run("return standing.dueState(given, '2026-11-29');", due) == state


@pytest.mark.parametrize(
    ("day", "months", "then"),
    [("2026-11-29", 24, "2028-11-29"), ("2024-02-29", 12, "2025-02-28"), ("2026-08-31", 6, "2027-02-28"),
     ("2026-12-31", 12, "2027-12-31")],
)  # fmt: skip
def test_months_later_is_a_day_of_the_calendar(day, months, then):
    assert run("return standing.monthsLater(given.day, given.months);", {"day": day, "months": months}) == then


def test_months_later_agrees_with_dateutil():
    """Outside check: ``relativedelta`` of python-dateutil, over every day of five years with a leap day in them."""
    cases = [
        (str(date(2026, 1, 1) + timedelta(days)), months) for days in range(5 * 365) for months in (1, 6, 12, 24, 60)
    ]
    found = run("return given.map(([day, months]) => standing.monthsLater(day, months));", cases)
    assert found == [str(date.fromisoformat(day) + relativedelta(months=months)) for day, months in cases]


@pytest.mark.parametrize("day", ["2026-02-30", "2026-13-01", "29.11.2026", "2026-1-1", "1989-12-31", "2200-01-01", 5])
def test_what_is_no_day_is_none(day):
    assert run("return line.isDay(given);", day) is False


@pytest.mark.parametrize("field", ["id", "job", "step", "stage", "on", "by", "at"])
def test_a_line_that_lacks_something_is_not_taken(field):
    assert run("return line.lineFrom(given);", line(1)) == line(1)
    assert run("return line.lineFrom(given);", {**line(1), field: "<b>"[: 0 if field == "by" else 3]}) is None


def test_what_is_typed_is_one_line_of_a_known_length_and_steers_nothing():
    said = run("return line.oneLine(given, 20);", "  Ash\n\u202eevil\u0007 <b>x</b>" + "y" * 99)
    assert said == "Ash evil <b>x</b>yyyyyyy"[:20] and len(said) == 20


def test_lines_of_two_records_stand_once_and_a_line_taken_back_stays_so():
    back = line(1, back="2026-11-30T08:00", backWhy="wrong day")
    both = run("return line.together(given[0], given[1]);", [[line(1), line(2)], [back, line(3)]])
    assert [one["id"] for one in both] == ["line1", "line2", "line3"] and both[0]["back"]
    other = line(1, stage="shown")  # one id, another line: neither is lost
    assert len(run("return line.together(given[0], given[1]);", [[line(1)], [other]])) == 2


PERSON = {"id": "ash00001", "name": "Ash"}
RESULT = {"chapter": "steeping", "kind": "exercise", "mark": "missed", "at": "2026-11-01T10:00", "slip": "dry-basis"}
LEARNER = {
    "kind": "learner", "schema": 1, "saved": "2026-11-29T10:00", "version": "0.1.0", "person": PERSON,
    "results": {"basket-at-target": RESULT}, "lines": [line(1)],
}  # fmt: skip


def read(text: object, name: str = "x.json") -> Any:
    given = {"text": text if isinstance(text, str) else json.dumps(text), "name": name}
    return run("return file.readFile(given.text, given.name);", given)


def test_a_learners_file_is_read_back_as_it_was_made():
    made = run(
        "return file.learnerFile({...given.person, lines: given.lines}, new Map(Object.entries(given.results)),"
        "given.saved, given.version);",
        LEARNER,
    )
    held = read(made)
    assert held["people"] == [{**PERSON, "lines": [line(1)]}] and held["said"] == []
    ((name, result),) = held["results"]
    assert name == "basket-at-target" and result["slip"] == "dry-basis" and result["mark"] == "missed"


def test_a_file_of_records_is_read_back_with_all_its_people():
    people = [{**PERSON, "lines": [line(1)]}, {"id": "birch001", "name": "Birch", "lines": []}]
    made = run("return file.recordFile(given, '2026-11-29T10:00', '0.1.0');", people)
    assert read(made)["people"] == people and read(made)["kind"] == "sign-off"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "not a file saved here"),
        ("<html><script>alert(1)</script>", "not a file saved here"),
        (json.dumps(LEARNER)[:-40], "breaks off"),
        ("[" * 200_000, "not a file saved here"),
        ('{"a":' * 100_000, "breaks off"),
        (f"{'[' * 100_000}{']' * 100_000}", "not a file saved here"),
        ({**LEARNER, "schema": 2}, "newer edition"),
        ({**LEARNER, "kind": "basket"}, "not a learner’s file"),
        ({**LEARNER, "person": {"id": "ash00001", "name": " \u202e "}}, "no name"),
        ({**LEARNER, "person": {"id": "../../x", "name": "Ash"}}, "no name"),
        ({"kind": "sign-off", "schema": 1, "people": []}, "no record of anybody"),
        ({"schema": 1, "moves": "d1-w2"}, "practice batch"),
        ("null", "not a file saved here"),
        ("[1]", "not a file saved here"),
    ],
    ids=["blank", "markup", "cut", "deep-list", "deep-object", "deep-whole", "newer", "other-kind", "no-name", "no-id",
         "nobody", "practice", "null", "list"],
)  # fmt: skip
def test_what_is_no_file_of_ours_is_left_out_with_the_reason(text, words):
    said = read(text)
    assert isinstance(said, str) and words in said


def test_of_a_file_that_is_partly_damaged_the_whole_lines_are_read_and_the_rest_is_counted():
    bad = {**line(2), "on": "2026-02-30"}
    file = {**LEARNER, "lines": [line(1), bad, {"id": 5}], "results": {"__proto__": {}, "x": 1}}
    deep = f'"more": {"[" * 100_000}{"]" * 100_000}'
    held = read(f"{json.dumps(file)[:-1]}, {deep}}}")
    assert len(held["people"][0]["lines"]) == 1
    assert any("2 lines" in one for one in held["said"]) and any("result" in one for one in held["said"])


def test_an_older_file_without_a_name_stands_under_its_own():
    held = read({"schema": 1, "saved": "2026-11-29T10:00", "results": {"x-y": RESULT}}, "ash-at-home.json")
    assert held["people"] == [{"id": "", "name": "ash-at-home", "lines": []}] and "older kind" in held["said"][0]


def side(here: list[Any], files: list[Any], joined: list[Any] | None = None) -> Any:
    """Learners side by side; a file is its name with the people and results it holds."""
    return run(
        "return side.learners(given.here, given.files.map(([name, people, results]) =>"
        "({ name, held: { people, results: new Map(Object.entries(results)) } })), new Map(given.joined));",
        {"here": here, "files": files, "joined": joined or []},
    )


def person(name: str, ident: str, *lines: dict[str, Any]) -> dict[str, Any]:
    return {"id": ident, "name": name, "lines": list(lines)}


def test_two_files_of_one_person_are_one_row_with_every_line_once_and_the_later_result():
    newer = {**RESULT, "mark": "right", "at": "2026-11-20T10:00"}
    found = side(
        [],
        [
            ["a.json", [person("Ash", "ash00001", line(1), line(2))], {"x": newer}],
            ["b.json", [person("Ash", "ash00001", line(2), line(3))], {"x": RESULT, "y": RESULT}],
        ],
    )
    (one,) = found["all"]
    assert [line["id"] for line in one["lines"]] == ["line1", "line2", "line3"]
    assert dict(one["results"])["x"]["mark"] == "right" and len(one["results"]) == 2
    assert "a.json and b.json" in found["said"][0]


def doubts(found: list[dict[str, Any]]) -> list[tuple[str, list[str]]]:
    listed = run("return side.doubtful(given).map(({ some, said }) => [said, some.map((one) => one.key)]);", found)
    return [(said, sorted(keys)) for said, keys in listed]


def test_two_people_of_one_name_are_never_mixed_until_a_trainer_says_so():
    here, files = [person("Ash", "zzz00001", line(1))], [["a.json", [person("ash", "aaa00002", line(2))], {}]]
    apart = side(here, files)["all"]
    assert [one["from"] for one in apart] == [["this device"], ["a.json"]]
    assert [one["called"] for one in apart] == ["Ash (this device)", "ash (a.json)"]
    assert len(apart) == 2 and [len(one["lines"]) for one in apart] == [1, 1]
    ((said, keys),) = doubts(apart)
    assert keys == ["aaa00002 ash", "zzz00001 ash"] and "2 are called" in said
    (one,) = side(here, files, [["aaa00002 ash", "zzz00001 ash"]])["all"]
    assert len(one["lines"]) == 2 and one["from"] == ["this device", "a.json"]


def test_two_names_on_one_mark_are_never_mixed_either():
    """As when two learners make their files on one tablet, or a name was mended."""
    files = [
        ["a.json", [person("Ash", "ash00001", line(1))], {}],
        ["b.json", [person("Birch", "ash00001", line(2))], {}],
    ]
    apart = side([], files)["all"]
    assert [one["name"] for one in apart] == ["Ash", "Birch"]
    ((said, _),) = doubts(apart)
    assert "One record under two names: Ash in a.json; Birch in b.json" in said


def test_files_without_a_name_of_their_own_never_fall_together():
    files = [[name, [person("results", "", *())], {"x": RESULT}] for name in ("results.json", "results.json (2)")]
    assert len(side([], files)["all"]) == 2


def test_what_most_have_missed_stands_first_with_the_slips():
    files = [
        ["a.json", [person("Ash", "ash00001")], {"x": RESULT, "y": RESULT}],
        [
            "b.json",
            [person("Birch", "birch001")],
            {"x": RESULT, "y": {**RESULT, "mark": "right"}, "z": {**RESULT, "mark": "right"}},
        ],
    ]
    people = side([], files)["all"]
    listed = run("return side.missedBy(given.map((one) => ({ ...one, results: new Map(one.results) })));", people)
    assert [name for name, _ in listed] == ["x", "y"]
    assert listed[0][1] == {"tried": 2, "who": ["Ash", "Birch"], "slips": ["dry-basis", "dry-basis"]}
    assert listed[1][1]["who"] == ["Ash"]
