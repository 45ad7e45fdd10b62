"""The batch forecast from the book: a running batch's numbers carried, and how often bands held in finished ones."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from html import unescape
from urllib.parse import parse_qsl

import numpy as np
import pytest

from bench.day_book_files import ASSETS, DEMO_NAME
from calculators.asking.answer import Answered, answer
from calculators.daybook.batch.batch import Batch, batches_of
from calculators.daybook.batch.course import course_of
from calculators.daybook.batch.forecast_opening import forecast_given
from calculators.daybook.batch.living import KEPT, living_batch
from calculators.daybook.house.held import AT_THE_CAST, MOST_FORETOLD, NOTHING_READ, held_of
from calculators.daybook.lines.entry import plain
from calculators.daybook.lines.exchange import take
from calculators.models.living.ensemble import ensemble
from calculators.models.living.lot_plan_state import at_hour
from calculators.models.living.readings import AcrospireCount, Basket, BottomTop, Oven, Probe
from calculators.models.weights.basket import basket_gross
from calculators.sheets import find_sheet
from tests.daybook.book import START, Line, ask, line

SHEET = find_sheet("batch-forecast")
LOOKING_BACK = ASSETS.parent / "records" / "looking-back.md"


def steep(name: str = "b1") -> list[Line]:
    """A batch under way: two immersions and a rest, two baskets, and the second rest begun."""
    return [
        line("start", "2026-11-02T05:30", batch=name, energy_grown="196", energy_sown="200", **START),
        line("stage-begun", "2026-11-02T06:00", batch=name, stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-02T14:00", batch=name, ended="drained"),
        line("basket", "2026-11-02T14:00", batch=name, gross_g="212.5"),
        line("stage-begun", "2026-11-02T22:00", batch=name, stage="wet", water_temp_c="13.8"),
        line("stage-ended", "2026-11-03T06:00", batch=name, ended="drained"),
        line("basket", "2026-11-03T06:00", batch=name, gross_g="226.5"),
    ]


def grown(name: str = "b1") -> list[Line]:
    """The same, cast and read in the bed for two days."""
    return [
        *steep(name),
        line("stage-begun", "2026-11-03T18:00", batch=name, stage="wet", water_temp_c="14"),
        line("stage-ended", "2026-11-03T21:00", batch=name, ended="drained"),
        line("cast", "2026-11-03T22:00", batch=name),
        line("turned", "2026-11-04T06:00", batch=name, depth_cm="15"),
        line("bed", "2026-11-04T14:00", batch=name, bottom_c="16.5", top_c="14.5"),
        line("moisture", "2026-11-04T15:00", batch=name, moisture="43.2", method="oven"),
        line("sprinkled", "2026-11-05T08:00", batch=name, water_l="120"),
        line("bed", "2026-11-05T10:00", batch=name, bottom_c="17", top_c="15"),
        line("readiness", "2026-11-06T08:00", batch=name, counts=[["10"], ["30"], ["40"], ["20"], ["0"]]),
    ]


def opened(entries: list[Line], date: str) -> dict[str, str]:
    """The questions in the link to the forecast on a batch's page."""
    reply = ask("batch", entries, batch="b1", date=date)
    found = re.search(r'href="[^"]*calculators/batch-forecast/\?([^"#]*)#', reply["places"]["sheets"])
    assert found, reply["places"]["sheets"]
    return dict(parse_qsl(unescape(found[1])))


@pytest.mark.parametrize(("entries", "date"), [(steep(), "2026-11-03T07:00"), (grown(), "2026-11-06T09:00")])
def test_the_batch_page_opens_the_forecast_and_it_answers(entries, date):
    given = opened(entries, date)
    assert given.pop("sheet") == "batch-forecast" and given.pop("batch") == "b1"
    found = answer(SHEET, given)
    assert isinstance(found, Answered), found.problems
    assert found.figures


def test_what_was_read_is_carried_with_its_hours():
    given = opened(grown(), "2026-11-06T09:00")
    assert [row.split()[0] for row in given["baskets"].split(";")] == ["8", "24"]
    assert given["ovens"].split(";")[0] == "57 43.2"
    assert given["bottoms"].split(";") == ["56 16.5 14.5 8 15", "76 17 15 28 15"]
    assert given["acrospires"] == "98 10 30 40 20 0"
    assert given["grown_percent"] == "98.0" and given["vessel"] == "floor" and given["now_h"] == "99"
    # 120 L on 6 t, on the second day after the cast, of which so much stays as the sheet on sprinkling takes.
    assert [row.split() for row in given["bed"].split(";")][1][2:] == [f"{120 / 6 * KEPT:g}"]


def test_a_batch_that_is_gone_or_not_begun_opens_none():
    gone = [*grown(), line("to-kiln", "2026-11-08T08:00", batch="b1")]
    for entries in (gone, steep()[:1]):
        batch = batches_of(entries)[0]
        assert forecast_given(batch, course_of(batch), datetime(2026, 11, 9), 5.0) is None


def test_a_batch_of_the_book_as_the_model_has_it():
    batch = batches_of(grown())[0]
    found = living_batch(batch, course_of(batch), batch.entries[-1].utc)
    assert found is not None and found.cast_h == pytest.approx(40.0)
    kinds = [type(one) for one in found.readings]
    assert kinds == [Basket, Basket, BottomTop, Oven, BottomTop, AcrospireCount]
    assert found.plan.bed[0].temp_c == pytest.approx(15.5) and found.lot.corns.grows == pytest.approx(0.98)
    drum = [
        {**one, "values": {**one["values"], **({"vessel": "drum"} if one["kind"] == "start" else {})}}
        for one in grown()
    ]
    batch = batches_of(drum)[0]
    found = living_batch(batch, course_of(batch), batch.entries[-1].utc)
    assert found is not None and Probe in [type(one) for one in found.readings]


def made_by_the_model(seed: int) -> list[Line]:
    """A finished batch whose truth is one member of the model's own world, read with the model's own scatter."""
    name = f"own-{seed}"
    batch = batches_of(grown(name))[0]
    living = living_batch(batch, course_of(batch), batch.entries[-1].utc)
    assert living is not None
    one = ensemble(plan=living.plan, lot=living.lot, members=100, seed=seed)
    random = np.random.default_rng(seed)
    k = int(random.integers(100))

    def gross(hour: float) -> str:
        shown = float(one.values("moisture", hour)[k]) + float(one.alike().basket_points[k])
        shown += 0.25 * random.standard_normal()
        own = float(np.broadcast_to(one.lot.barley_moisture, 100)[k])
        typed = 100.0 - (100.0 - shown) * (100.0 - 12.5) / (100.0 - own)
        return repr(
            basket_gross(moisture=typed, basket_g=84.0, sample_g=100.0, barley_moisture=12.5, dry_matter_lost=1.0)
        )

    lines = []
    for entry in grown(name):
        values = dict(entry["values"])
        hour = (datetime.fromisoformat(entry["at"]) - datetime(2026, 11, 2, 6)) / timedelta(hours=1)
        if entry["kind"] == "basket":
            values["gross_g"] = gross(hour)
        if entry["kind"] == "moisture":
            drawn = float(np.broadcast_to(at_hour(one.states, hour, lambda s: s.drained), 100)[k])
            values["moisture"] = f"{drawn + float(one.alike().shape_points[k]) + 0.4 * random.standard_normal():.2f}"
        lines.append({**entry, "values": values})
    return [line_ for line_ in lines if line_["kind"] != "bed"] + [line("to-kiln", "2026-11-08T08:00", batch=name)]


def test_bands_hold_where_the_world_is_the_models_own():
    # 12 batches, two baskets and an oven each: bands of 95 hold all but a few of 36.
    entries = [one for seed in range(12) for one in made_by_the_model(seed + 1)]
    found = held_of(batches_of(entries), 12)
    assert found.batches == 12 and found.left_out == 0
    steep_ = next(one for one in found.held if (one.figure, one.when) == ("steep", NOTHING_READ))
    bed = next(one for one in found.held if (one.figure, one.when) == ("bed", AT_THE_CAST))
    assert steep_.of == 24 and steep_.inside >= 20
    assert bed.of == 12 and bed.inside >= 9


def test_a_reading_that_no_band_holds_is_counted_and_named():
    lines = made_by_the_model(1)
    for one in lines:
        if one["kind"] == "moisture":
            one["values"]["moisture"] = "60"
    found = held_of(batches_of(lines))
    assert {(one.figure, one.when) for one in found.outside} >= {("bed", NOTHING_READ), ("bed", AT_THE_CAST)}
    reply = ask("held", lines)
    html = unescape(reply["places"]["held"])
    assert "held in 0 of 1" in html and "Readings outside their band" in html and "they claim 95 of 100" in html


def test_a_book_without_a_finished_batch_says_so():
    assert "No finished batch" in ask("held", steep())["places"]["held"]
    assert held_of([Batch("none", [])]).held == []


def test_the_invented_year_is_foretold():
    text = (ASSETS / DEMO_NAME).read_text(encoding="utf-8")
    entries = [{**plain(entry), "seq": n} for n, entry in enumerate(take(text, []).new, 1)]
    found = held_of(batches_of(entries))
    assert found.batches == MOST_FORETOLD and found.left_out == 0 and found.held
    inside, of = (sum(getattr(one, name) for one in found.held) for name in ("inside", "of"))
    assert f"they held in {inside} of {of}." in LOOKING_BACK.read_text(encoding="utf-8")
    assert 0.9 * of < inside < of
    assert all(0 <= one.inside <= one.of for one in found.held)


def test_a_count_of_chits_is_held_against_its_band_too():
    lines = [*finished_with_chits(20), *finished_with_chits(200)]
    found = held_of(batches_of(lines))
    chits = [one for one in found.held if one.figure == "chits"]
    assert {one.when for one in chits} == {NOTHING_READ} and sum(one.of for one in chits) == 2
    assert found.batches == 2


def finished_with_chits(chitted: int) -> list[Line]:
    """A batch with one basket and one count before the cast, that has gone to the kiln."""
    name = f"c{chitted}"
    return [
        *steep(name),
        line("chits", "2026-11-03T15:00", batch=name, chitted=str(chitted), counted="200"),
        line("cast", "2026-11-04T06:00", batch=name),
        line("bed", "2026-11-05T08:00", batch=name, bottom_c="15", top_c="13", depth_cm="13"),
        line("to-kiln", "2026-11-09T08:00", batch=name, moisture="42"),
    ]
