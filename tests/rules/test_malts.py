"""What is wanted by the malt: no row past a stop, a house's own rows checked, the sheets show what they take."""

from __future__ import annotations

from pathlib import Path

import pytest

from calculators.rules.limits.casting import MOISTURE
from calculators.rules.limits.floor_germination import PIECE
from calculators.rules.limits.readiness import READY
from calculators.rules.malts import BOOK_MALTS, QUANTITIES, Range, malt_of, malts
from calculators.sources import SOURCES
from site_src.house import read_all
from site_src.malts_table import malt_lines
from site_src.settings import BuildError
from tests.sheets.ask import ask, notes, said, values

RIGHT = '[malts.dark]\ncast = [45, 46.5]\ndays = [8, 9]\nreason = "our drum"\noffice = "head of malting"\n'


@pytest.mark.parametrize("row", BOOK_MALTS, ids=lambda row: row.id)
def test_no_row_lies_past_a_stop_or_beyond_what_a_house_may_set(row):
    assert MOISTURE.stop_low <= row.cast.low < row.cast.high <= MOISTURE.stop_high
    assert PIECE.stop_low <= row.floor.low < row.floor.high <= PIECE.stop_high
    assert READY.lowest <= row.ready.low < row.ready.high <= READY.highest
    for one in QUANTITIES:
        span = getattr(row, one.id)
        assert one.lowest <= span.low <= span.high <= one.highest
        assert (span.standing == "published") == bool(span.sources) and set(span.sources) <= set(SOURCES)


def test_dark_is_wetter_warmer_longer_and_richer_than_lager():
    dark, lager = malt_of("dark"), malt_of("lager")
    for name in ("nitrogen", "cast", "floor", "acrospire", "days"):
        assert getattr(dark, name).middle > getattr(lager, name).middle


def test_published_ranges_are_as_their_sources_print_them():
    # Maltsters' Association of Great Britain (read): brewing 1.55 to 1.75 %, distilling at most 1.65 %
    assert malt_of("lager").nitrogen[:2] == (1.55, 1.75) and malt_of("distilling").nitrogen.high == 1.65
    # a trade portal (read): protein up to almost 12 %, so 12 / 6.25 = 1.92 % nitrogen; 45 % moisture or more
    assert malt_of("dark").nitrogen.high == pytest.approx(12 / 6.25) and malt_of("dark").cast.low == 45
    # Mueller 2014 (abstract): 5 to 7 days; Canadian guide (in a copy): 43 to 45 %
    assert malt_of("pale-ale").days[:2] == (5, 7) and malt_of("pale-ale").cast[:2] == (43, 45)


def test_an_unknown_malt_names_those_there_are():
    with pytest.raises(LookupError, match="There are: pale-ale, lager"):
        malt_of("stout")


def test_the_table_has_every_row_and_each_standing():
    text = "\n".join(malt_lines())
    assert all(f"**{row.name}**" in text for row in malts())
    assert "from memory" in text and "this house" not in text


def test_a_sheet_takes_the_target_only_when_it_is_chosen_and_shows_it():
    found = values("moisture-target", target_moisture="", malt="dark")
    assert found["target_kg"] == pytest.approx(values("moisture-target", target_moisture="46")["target_kg"])
    assert "Target moisture 46 %, from" in notes("moisture-target", target_moisture="", malt="dark")
    assert "the table" not in notes("moisture-target")
    assert "Give one and leave the other blank" in said("moisture-target", target_moisture="45", malt="dark")
    assert "one of these is needed" in said("moisture-target", target_moisture="")


def test_readiness_takes_the_share_and_says_where_ones_own_lies():
    assert "target of 70 %" in notes("readiness", malt="lager")
    assert "lies over the range" in notes("readiness", malt="lager", target_share="80")
    plain = ask("readiness")
    assert plain["answers"]["verdict"] == ask("readiness", target_share="75")["answers"]["verdict"]


def test_days_to_ready_takes_days_and_floor_and_doubts_them():
    blank = {"reference_temp_c": "", "reference_days": "", "days_done": "0", "bed_temp_c": "16.5"}
    found = ask("days-to-ready", **blank, malt="dark")["answers"]["days_to_ready"]
    assert found["value"] == pytest.approx(8.0) and found["high"] - found["low"] > 4.0
    assert "8 days at 16.5 °C" in notes("days-to-ready", **blank, malt="dark")
    assert values("days-to-ready", malt="dark") == values("days-to-ready")  # own days win, and the note says so
    assert "is your own" in notes("days-to-ready", malt="dark")


def test_a_plan_is_made_for_the_malt():
    told = notes("steep-plan", target_moisture="", malt="pale-ale")
    assert "Target moisture 44 %, from" in told
    assert values("steep-plan", target_moisture="", malt="pale-ale") == values("steep-plan", target_moisture="44")


def written(tmp_path: Path, text: str) -> Path:
    file = tmp_path / "house.toml"
    file.write_text(text, "utf-8")
    return file


def test_a_house_sets_its_own_rows(tmp_path, monkeypatch):
    edges, own = read_all(written(tmp_path, RIGHT))[:2]
    assert (edges, own) == ({}, {"dark": {"cast": (45.0, 46.5), "days": (8.0, 9.0)}})
    monkeypatch.setattr("calculators.rules.house.MALTS", own)
    assert malt_of("dark").cast == Range(45.0, 46.5, "this house")
    assert malt_of("dark").floor == BOOK_MALTS[3].floor and malt_of("lager") == BOOK_MALTS[1]
    assert "45–46.5 h" in "\n".join(malt_lines()) and "this house’s own" in "\n".join(malt_lines())


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("dark", "stout", "there is no malt “stout”. There are: pale-ale"),
        ("[45, 46.5]", "[45, 49]", "cast is two figures from 41 to 48, the low one first, not 45 and 49"),
        ("[45, 46.5]", "[40, 46]", "not 40 and 46"),
        ("[45, 46.5]", "[47, 45]", "not 47 and 45"),
        ("[45, 46.5]", "45", "such as cast = [41, 48]"),
        ("[45, 46.5]", '["a", 46]', "such as cast = [41, 48]"),
        ("[45, 46.5]", "[nan, 46]", "not nan"),
        ("cast", "casting", "“casting” is not known. Known are: nitrogen, cast"),
        ('office = "head of malting"\n', "", "write office"),
        ("cast = [45, 46.5]\ndays = [8, 9]\n", "", "no target is given"),
        ('"our drum"', "3", "reason is one line"),
    ],
)
def test_every_slip_of_a_house_is_named(tmp_path, old, new, says):
    assert old in RIGHT
    with pytest.raises(BuildError) as caught:
        read_all(written(tmp_path, RIGHT.replace(old, new)))
    assert says in str(caught.value) and "house.toml, line" in str(caught.value)


def test_a_house_that_tightens_a_stop_bounds_its_targets_by_it(tmp_path):
    text = f'[limits.cast-moisture]\nstop_high = 47\nreason = "x"\noffice = "y"\n{RIGHT.replace("46.5", "47.5")}'
    with pytest.raises(BuildError, match="41 to 47"):
        read_all(written(tmp_path, text))
