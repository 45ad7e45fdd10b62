"""Which engine a sheet starts on is decided by what was compared, and the record is that of what is built."""

from __future__ import annotations

import json
from itertools import cycle

import pytest

from calculators.page import respond
from calculators.sheets import find_sheet, sheet_ids
from site_src.small import packs
from site_src.small.packs import SmallEngine, made
from site_src.small.record import GUARDED, LEAST, MOST_MS, Proven, read_record, write_record
from site_src.small.run import asked
from tests.drawn import drawn
from tests.fuzz.cases import example, request
from tests.small.proof import compare_all, draw

GOOD = Proven("d", LEAST, LEAST, 0, 0, 10.0)


@pytest.fixture(scope="module")
def engine() -> SmallEngine:
    return made()


class TestWhatTheRecordSays:
    def test_it_belongs_to_what_is_built(self, engine):
        stale = {name for name, one in read_record().items() if engine.digests.get(name) != one.digest}
        assert not stale, f"changed since they were proven: {sorted(stale)}. Run: make prove"
        assert engine.starts_on == {
            name
            for name, one in read_record().items()
            if one.holds(engine.digests[name], guarded=find_sheet(name).guarded)
        }

    def test_every_sheet_without_numpy_is_written(self, engine):
        assert set(engine.sheets) == {name for name in sheet_ids() if "numpy" not in find_sheet(name).needs}

    @pytest.mark.parametrize(
        "change",
        [{"digest": "e"}, {"differing": 1}, {"answered": LEAST - 1}, {"hostile": LEAST - 1}, {"handed_on": LEAST},
         {"worked_ms": MOST_MS + 1}],
        ids=["changed", "differs", "too few answered", "too few hostile", "handed on", "slow"],
    )  # fmt: skip
    def test_it_holds_only_whole(self, change):
        assert GOOD.holds("d", guarded=False)
        assert not GOOD._replace(**change).holds("d", guarded=False)

    def test_a_guarded_sheet_needs_ten_times_as_many(self):
        assert not GOOD.holds("d", guarded=True)
        assert GOOD._replace(answered=GUARDED * LEAST, hostile=GUARDED * LEAST).holds("d", guarded=True)

    def test_it_is_read_as_it_was_written(self, tmp_path):
        write_record({"a-b": GOOD}, tmp_path / "proven.toml")
        assert read_record(tmp_path / "proven.toml") == {"a-b": GOOD}


class TestWhatAHouseHasOfItsOwn:
    LIMITS = b"EDGES = {'immersion-hours': {'stop_high': 11.0}}\nMALTS = {}\nREASONS = {}\n"

    def test_it_goes_along_and_changes_no_digest(self, engine, monkeypatch):
        monkeypatch.setattr(packs, "modules", lambda: {"house_limits.py": self.LIMITS})
        own = made()
        assert b"house_limits.mpy" in own.core and b"house_limits.mpy" not in engine.core
        assert own.digests == engine.digests


@pytest.mark.drawn
def test_a_small_draw_of_each_sheet_is_alike(engine):
    count = drawn(8, 1, 0.125)
    found = compare_all(engine, {name: draw(name, count, count, "small") for name in engine.sheets})
    assert {name: one.unlike for name, one in found.items() if one.unlike} == {}
    assert {name: one.given_up for name, one in found.items() if one.given_up} == {}


def test_what_belongs_to_the_other_engine_is_a_fault(engine):
    worked = request(find_sheet("moisture-target"), example(find_sheet("moisture-target")))
    wants: list[dict[str, object]] = [{"exercise": "next"}, {"daybook": "x"}]
    wants.append({"sheet": "batch-forecast", "questions": {}})
    others = [json.dumps(one) for one in wants]
    first, *faults, last = asked(engine, [("moisture-target", worked), *(("", one) for one in others), ("", worked)])
    assert all(one.fault and not one.text for one in faults)
    assert first.text == last.text == respond(worked)


def test_a_number_beside_a_separator_sign_is_answered_alike(engine):
    in_turn = cycle(("\x1c１", "１\x1c", "\x1f１２.5", "\x1c12.5"))
    jobs = [
        (name, request(find_sheet(name), {**example(find_sheet(name)), question: next(in_turn)}))
        for name in sorted(engine.sheets)[::8]
        for question, value in example(find_sheet(name)).items()
        if isinstance(value, str)
    ]
    assert len(jobs) > 20
    for (name, text), small in zip(jobs, asked(engine, jobs), strict=True):
        assert small.text == respond(text), name


def test_half_characters_are_replaced_before_anything_is_asked(engine):
    sheet = find_sheet("moisture-target")
    halves = request(sheet, {**example(sheet), "barley_kg": "12\ud800", "\udc00": "😀"})
    (small,) = asked(engine, [("moisture-target", halves)])
    assert small.text == respond(halves)
    assert "\ufffd" in json.loads(small.text)["errors"][0]["text"] and "\\ud800" not in small.text
