"""Looking back over batches, and the house's fits as they are shown and kept."""

from __future__ import annotations

import json
import re
from math import sqrt

import numpy as np
import pytest

from bench.day_book_files import ASSETS, DEMO_NAME
from bench.demo_batches import HOUSE_HEAT
from calculators.asking.answer import Answered, answer, example_of
from calculators.asking.declare import Outcome
from calculators.daybook.batch.batch import batches_of
from calculators.daybook.house.summary import against, summaries, summary_of
from calculators.daybook.lines.entry import plain
from calculators.daybook.lines.exchange import take
from calculators.daybook.pages.house_page import Fits
from calculators.models.steep.hydration import uptake_rate
from calculators.sheets import find_sheet
from tests.daybook.book import START, Line, ask, line
from tests.safety.phrases import faults, shown


@pytest.fixture(scope="module")
def entries() -> list[Line]:
    text = (ASSETS / DEMO_NAME).read_text(encoding="utf-8")
    return [{**plain(entry), "seq": n} for n, entry in enumerate(take(text, []).new, 1)]


@pytest.fixture(scope="module")
def fits(entries) -> Fits:
    return Fits(batches_of(entries))


def finished(name: str, month: int, hours: tuple[str, str], water: str, green: str = "9000") -> list[Line]:
    """A batch of one immersion, cast at 12:00 the next day and gone five days later."""
    day = f"2026-{month:02d}"
    return [
        line("start", f"{day}-01T05:00", batch=name, **{**START, "stages": [["8", ""]]}),
        line("stage-begun", f"{day}-01T{hours[0]}", batch=name, stage="wet", water_temp_c=water),
        line("stage-ended", f"{day}-01T{hours[1]}", batch=name, ended="drained"),
        line("basket", f"{day}-01T{hours[1]}", batch=name, gross_g="228"),
        line("cast", f"{day}-02T12:00", batch=name),
        line("bed", f"{day}-03T12:00", batch=name, bottom_c="15", top_c="15"),
        line("to-kiln", f"{day}-07T12:00", batch=name, green_malt_kg=green, moisture="44"),
    ]


def test_the_figures_of_a_batch_by_hand():
    one = summary_of(batches_of(finished("b1", 3, ("06:00", "16:00"), "20"))[0], None)
    assert (one.water_c, one.wet_h, one.steep_h) == (20.0, 10.0, 10.0)
    warmer = uptake_rate(water_temp_c=20) / uptake_rate(water_temp_c=14)
    assert one.wet_h_at_14 == pytest.approx(10 * warmer)
    # 144 g of grain of 100 g at 12.5 % less 1 % leached: 100 (1 - 86.625 / 144) = 39.84.
    assert one.cast_moisture == pytest.approx(39.84, abs=0.01)
    assert one.days == 5.0 and one.days_at_15 == pytest.approx(5.0)
    # 6000 kg at 12.5 % hold 5250 kg dry, 9000 kg at 44 % hold 5040: 4 % lost.
    assert one.loss == pytest.approx(4.0)


def test_a_batch_far_from_those_before_is_named_and_the_season_is_not():
    book = []
    for month in range(1, 9):
        water = ("6", "8", "10", "12")[month % 4]
        book += finished(f"b{month}", month, ("06:00", "16:00"), water, str(8990 + 5 * month))
    book += finished("b9", 9, ("06:00", "16:00"), "22", "8100")
    reply = ask("look-back", book, batch="b9")
    table = reply["places"]["table"]
    off = re.search(r'<p class="off">(.*?)</p>', table)
    assert off and "lost to the kiln door" in off[1] and "water: " not in off[1] and "under water: " not in off[1]
    assert "Far off: lost to the kiln door" in table
    assert 'class="off"' not in ask("look-back", book, batch="b8")["places"]["table"]


def test_means_and_spreads_are_those_of_the_ten_before(entries):
    rows = summaries(batches_of(entries), lambda batch: None)
    found = {item.figure.id: item for item in against(rows[11], rows[:11])}
    ten = [row.loss for row in rows[1:11] if row.loss is not None]
    assert found["loss"].others == 10
    assert found["loss"].mean == pytest.approx(np.mean(ten))
    assert found["loss"].spread == pytest.approx(np.std(ten, ddof=1))


def test_the_year_is_laid_side_by_side(entries):
    reply = ask("look-back", entries, batch="example-07", demo=True)
    table, charts = reply["places"]["table"], reply["places"]["charts"]
    assert all(f'data-batch="example-{n:02d}"' in table for n in range(1, 13))
    assert "Weigh the empty basket again" in table and reply["status"] == "12 batches, 12 of them finished."
    assert charts.count("<svg") == 4 and "batch example-07" in charts and "law of warmth" in charts
    ids = re.findall(r' id="([^"]+)"', table + charts)
    assert len(ids) == len(set(ids))
    assert faults(shown(table + charts)) == []


@pytest.mark.parametrize("do", ["look-back", "fits"])
@pytest.mark.parametrize("book", [[], [line("start", "2026-11-24T05:30", **START)], [line("gas", "2026-11-24T05:30")]])
def test_an_empty_book_is_said_to_be_empty(do, book):
    places = ask(do, book)["places"]
    assert "nothing to" in "".join(places.values())


def test_the_floors_heat_is_found_again(fits):
    """The invented floor breathes half of the one law; the house learns that from rounds read to 0.3 K."""
    assert fits.heat and len(fits.heat.batches) >= 5
    assert fits.heat.factor == pytest.approx(HOUSE_HEAT, rel=0.15)
    assert fits.heat.low < HOUSE_HEAT < fits.heat.high


def test_the_floors_heat_goes_into_the_round_of_the_floor():
    sheet = find_sheet("floor-round")
    heats: list[object] = []
    for factor in ("0.8", "1", "1.25"):
        result = answer(sheet, {**example_of(sheet), "earlier_rounds": "", "heat_factor": factor})
        assert isinstance(result, Answered)
        assert isinstance(result.outcome, Outcome)
        heats += [found.value for found in result.outcome.answers if found.id == "heat_kw_t"]
    low, middle, high = (float(heat) for heat in heats if isinstance(heat, float))
    assert low < middle < high


def test_fits_are_compared_offered_and_kept(entries, fits):
    reply = ask("fits", entries, date="2026-11-25T10:00")
    place = reply["places"]["fits"].replace("&amp;", "&")
    assert place.count("<svg") == 1 and "sphere-2" in place
    for sheet in ("steep-timing", "steep-plan"):
        found = re.findall(rf"calculators/{sheet}/\?sheet={sheet}&rate_factor=([\d.]+)", place)
        assert found == [f"{lot.sheet_rate:.2f}" for lot in fits.lots]
    for _, found_days in fits.days:
        assert f"sheet=days-to-ready&reference_temp_c=15&reference_days={found_days.days:.1f}" in place
    assert "sheet=floor-round&heat_factor=" in place
    kept = json.loads(reply["text"])
    assert reply["name"] == "house-fits-2026-11-25.json" and kept["model"] == "sphere-2"
    assert [one["batch"] for one in kept["batches"]] == [f"example-{n:02d}" for n in range(1, 13)]
    assert faults(shown(place)) == []


def test_days_average_and_their_doubt(fits):
    for _, days in fits.days:
        values = [one.at_reference for one in days.batches]
        assert days.days == pytest.approx(np.mean(values))
        assert days.doubt == pytest.approx(days.spread / sqrt(len(values)))
