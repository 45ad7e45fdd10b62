"""Whatever stands in the book, every request is answered and every line is shown."""

from __future__ import annotations

import json

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bench.day_book_files import ASSETS, DEMO_NAME
from calculators.asking.declare import Choice, Number, Question, Table
from calculators.daybook.lines.entry import in_order, replaced, standing
from calculators.daybook.lines.kinds import KINDS, WITHDRAWN
from calculators.page import respond
from tests.daybook.book import Line
from tests.safety.phrases import faults, shown

_ODD = ["", " ", "x", "5,000", "-3", "1e9", "NaN", "12,5", "100 g", "0", "∞", "<b>", "=1+1", "9" * 50]


def _number(question: Number) -> st.SearchStrategy[str]:
    ends = [f"{question.low:g}", f"{question.high:g}", question.example or f"{question.low:g}"]
    inside = st.floats(question.low, question.high).map(lambda v: f"{v:.1f}")
    return st.one_of(inside, inside, st.sampled_from(ends), st.sampled_from(_ODD))


def _typed(question: Question) -> st.SearchStrategy[object]:
    if isinstance(question, Number):
        return _number(question)
    if isinstance(question, Choice):
        return st.sampled_from([*(option.word for option in question.options), *_ODD])
    if isinstance(question, Table):
        cells = [_typed(column) for column in question.columns]
        rows = st.lists(st.tuples(*cells).map(list), max_size=min(question.max_rows, 7))
        return st.one_of(rows, rows, st.sampled_from([*_ODD, question.example]))
    return st.sampled_from([*_ODD, "lot 1", question.example])


@st.composite
def lines(draw: st.DrawFn) -> list[Line]:
    book: list[Line] = []
    minute = 0
    for n in range(draw(st.integers(1, 14))):
        kind = draw(st.sampled_from([*KINDS, *KINDS[:5], *KINDS[:5]]))
        minute += draw(st.sampled_from([0, 1, 240, 480, 600, 1500, 9000, -700]))
        day, rest = divmod(max(minute, 0), 1440)
        at = f"2026-{1 + day // 28:02d}-{1 + day % 28:02d}T{rest // 60:02d}:{rest % 60:02d}"
        other = draw(st.integers(0, 20))
        asked = draw(st.booleans())
        book.append(
            {
                "schema": 1,
                "id": f"id-{n:06d}",
                "batch": draw(st.sampled_from(["b1", "b1", "b1", "b2"])),
                "kind": draw(st.sampled_from([kind.id, kind.id, kind.id, kind.id, "brewed"])),
                "at": draw(st.sampled_from([at, at, at, at, at, "", "noon"])),
                "written": draw(
                    st.sampled_from([f"{at}:10.5Z", f"{at}:10.5Z", "", "9999-12-31T23:59:59Z", "0001-01-01"])
                ),
                "zone": draw(st.sampled_from([0, 0, 0, 60, -720, "x", None, 10**9])),
                "seq": n + 1,
                "values": {q.id: draw(_typed(q)) for q in kind.questions if asked or not q.optional},
                "who": "AB",
                "remark": draw(st.sampled_from(_ODD)),
                "replaces": f"id-{other:06d}" if (other < n and kind.id == WITHDRAWN) or other == 20 else None,
            }
        )
    return book


_YEAR = json.loads((ASSETS / DEMO_NAME).read_text(encoding="utf-8"))["entries"]
_SOME = [one for one in _YEAR if one["batch"] in ("example-05", "example-06", "example-09")]


@st.composite
def spoilt(draw: st.DrawFn) -> list[Line]:
    """Three batches of the invented year, cut off somewhere, with slips of every sort in them."""
    book = [{**one, "values": dict(one["values"]), "seq": n} for n, one in enumerate(_SOME, 1)]
    book = book[: draw(st.integers(len(book) // 3, len(book)))]
    for _ in range(draw(st.integers(1, 8))):
        place = draw(st.integers(0, len(book) - 1))
        one = book[place]
        slip = draw(st.sampled_from(["value", "value", "value", "time", "drop", "twice", "replaces", "kind"]))
        kind = next(kind for kind in KINDS if kind.id == one["kind"])
        if slip == "value" and kind.questions:
            question = draw(st.sampled_from(kind.questions))
            one["values"][question.id] = draw(_typed(question))
        elif slip == "time":
            one["at"] = draw(st.sampled_from([book[0]["at"], book[-1]["at"], "2026-05-06T03:00", "", "2026-05-05"]))
        elif slip == "drop" and len(book) > 1:
            del book[place]
        elif slip == "twice":
            book.append({**one, "id": f"{one['id']}-{len(book)}", "seq": len(book) + 1000})
        elif slip == "replaces":
            one["replaces"] = book[draw(st.integers(0, len(book) - 1))]["id"]
        elif slip == "kind":
            one["kind"] = draw(st.sampled_from([kind.id for kind in KINDS]))
    return [{**one, "batch": "b1" if one["batch"] == "example-06" else one["batch"]} for one in book]


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(
    book=st.one_of(lines(), spoilt()),
    date=st.sampled_from(["2026-01-03T12:00", "2026-05-06T20:00", "2026-11-30T00:00", "", "soon"]),
)
def test_every_request_is_answered(book, date):
    for do in ("book", "batch", "look-back", "fits", "export"):
        asked = {"daybook": do, "entries": book, "batch": "b1", "root": "../../", "date": date}
        reply = json.loads(respond(json.dumps(asked)))
        said = " ".join(reply["places"].values())
        if do == "batch":
            mine = [one["id"] for one in book if one["batch"] == "b1"]
            assert all(reply["places"]["lines"].count(f'data-entry="{name}"') == 1 for name in mine)
            assert faults(shown(reply["places"]["next"])) == []
        assert "<b>" not in said


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(book=st.one_of(lines(), spoilt()))
def test_no_line_is_lost_or_counted_twice(book):
    entries = in_order(book)
    counted, gone = standing(entries), replaced(entries)
    assert len({entry.id for entry in counted}) == len(counted)
    for entry in entries:
        assert (entry in counted) + (entry.id in gone) + (entry.kind == WITHDRAWN and entry.id not in gone) == 1


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(book=st.one_of(lines(), spoilt()), form=st.sampled_from(["json", "csv"]))
def test_what_an_import_takes_is_never_taken_twice(book, form):
    out = json.loads(respond(json.dumps({"daybook": "export", "entries": book, "as": form})))
    once = json.loads(respond(json.dumps({"daybook": "import", "entries": [], "text": out["text"], "name": "x"})))
    stored = [{**entry, "seq": n} for n, entry in enumerate(once["new"], 1)]
    twice = json.loads(respond(json.dumps({"daybook": "import", "entries": stored, "text": out["text"], "name": "x"})))
    assert twice["new"] == [] and len(once["new"]) + once["refused"] + once["same"] == len(in_order(book))
