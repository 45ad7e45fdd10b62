"""The stages of a week: its steep by the living batch, its floors by season, its water by the tanks."""

from __future__ import annotations

from datetime import datetime

import pytest

from calculators.asking.answer import answer, as_json, example_of
from calculators.rules.cast import limit_of
from calculators.rules.limit import edge
from calculators.rules.limits.floor_germination import DEPTH
from calculators.rules.limits.steeping import REST
from calculators.rules.week.stages import SEASON_DEPTH_CM, warm_m3_h
from calculators.sheets import find_sheet
from site_src.settings import ROOT
from tests.sheets.test_house_week import asked_back, hour, plan, table, told

pytestmark = pytest.mark.further

TYPICAL = {"chit_hours": "", "suction_m3_h_t": "7.8"}


def rest_before_cast(row: dict[str, str]) -> float:
    return (hour(row["cast"]) - hour(row["drained"])).total_seconds() / 3600


def steep_plan_says(name: str, **more: str) -> float:
    """What the sheet of the steep says of the same stages in the same water."""
    sheet = find_sheet("steep-timing")
    case = {"stages": "8; 8; 8; 12; 3", "barley_moisture": "12", "reading": "", **more}
    return float(as_json(answer(sheet, {**example_of(sheet), **case}))["answers"][name]["value"])  # type: ignore[arg-type]


@pytest.mark.parametrize("water", ["12", "14"])
@pytest.mark.parametrize("name", ["moisture_end", "chit_dip", "chit_end", "warmest_c"])
def test_the_steep_comes_to_what_its_own_sheet_says(water, name):
    ours = plan(steep_c=water, mains_c="8", **TYPICAL)["answers"][name]
    assert ours["value"] == pytest.approx(steep_plan_says(name, water_temp_c=water), abs=1e-9)
    assert ours["low"] < ours["value"] < ours["high"]


def test_water_that_comes_warmer_is_what_is_steeped_in():
    warm = plan(steep_c="14", mains_c="17", **TYPICAL)["answers"]["moisture_end"]["value"]
    assert warm == pytest.approx(steep_plan_says("moisture_end", water_temp_c="17"), abs=1e-9)


@pytest.mark.parametrize(("vessels", "to"), [("", "couch"), ("drum drum 6500 15", "drum")])
def test_nothing_is_cast_before_its_chits_are_there(vessels, to):
    result = plan(vessels=vessels, batches="a 6000; b 6000", **TYPICAL)
    there = result["answers"]["chit_there_h"]
    wanted = edge(limit_of(to).accept_low)
    assert there["low"] < there["value"] < there["high"]
    for row in table(result, "batches"):
        steeped = (hour(row["cast"]) - hour(row["fill"])).total_seconds() / 3600
        assert steeped >= there["value"] and 1 <= rest_before_cast(row) <= edge(REST.stop_high)
    sooner = plan(vessels=vessels, batches="a 6000; b 6000", chit_hours="36")["answers"]["chit_there_h"]
    assert sooner["high"] - sooner["low"] < there["high"] - there["low"]
    assert f"{wanted:g} % chitted" in " ".join(step for step in workings(vessels))


def workings(vessels: str) -> list[str]:
    found = answer(find_sheet("house-week"), {**example_of(find_sheet("house-week")), "reference_temp_c": "15",
        "reference_days": "5", "slip_batch": "", "vessels": vessels, "batches": "a 6000", **TYPICAL})  # fmt: skip
    return [one.found.working for one in found.figures]  # type: ignore[union-attr]


def test_a_steep_that_passes_a_stop_says_so_first_and_is_no_yes():
    cold = plan(steep_c="10", mains_c="6", **TYPICAL)
    assert cold["answers"]["plan"]["value"] == "stop"
    assert told(cold, "notice").startswith("Past a stop: these stages")
    assert "Chit before the last dip" in told(cold, "notice")
    warm = plan(steep_c="15", mains_c="19", **TYPICAL)
    assert warm["answers"]["plan"]["value"] == "stop" and "Grain in an air rest" in told(warm, "notice")
    assert plan()["answers"]["plan"]["value"] == "kept"


def test_what_is_not_known_of_the_chits_goes_into_the_drawn_weeks():
    own, typical = plan(), plan(**TYPICAL)
    sure = plan(cast_later_h="0")

    def late(result: dict[str, object]) -> float:
        return float(sum(row["rests"] for row in table(result, "drawn")))

    assert late(sure) < late(own) < late(typical)


def test_a_floor_without_a_depth_takes_that_of_the_season_and_the_page_has_it():
    page = (ROOT / "docs" / "procedures" / "floor-germination.md").read_text("utf-8")
    assert "| 3–4 | young piece: warmest, breathes most | [[limit:floor-depth accept_low]] to 15 cm |" in page
    assert "thin, [[limit:floor-depth accept_low]] to 10 cm |" in page
    assert edge(DEPTH.accept_low) < SEASON_DEPTH_CM["summer"] < 10 < SEASON_DEPTH_CM["between"]
    assert SEASON_DEPTH_CM["winter"] == 15
    blank = [["floor", "245", "", "14"]]
    for season, depth in SEASON_DEPTH_CM.items():
        planned = plan(floors=blank, season=season)  # type: ignore[arg-type]
        rows = table(planned, "floor_room")
        assert rows[0]["lies"] + rows[0]["more"] == pytest.approx(245 * depth / 100 * 450)
        said = told(planned, "remark")
        assert f"floor: the young piece lies {depth:g} cm deep" in said
        same = table(plan(floors=f"floor 245 {depth:g} 14"), "floor_room")
        assert rows == same
    assert "or choose the season" in asked_back(floors=blank)  # type: ignore[arg-type]


def test_the_table_says_how_deep_a_second_batch_fits_beside_the_first():
    rows = table(plan(floors="floor 245 15 14"), "floor_room")
    mean = (6000 + 5800 + 6000 + 5500 + 6000 + 6000) / 6
    lies = next(row for row in rows if row["lies"] == 5800)
    assert lies["second"] == pytest.approx((5800 + mean) / (245 * 4.5))
    assert any(row["lies"] > 6000 for row in rows)  # at 15 cm two do lie there


def test_a_warm_tank_runs_short_where_it_is_small_and_hardly_heated():
    def said(**more: str) -> str:
        return told(plan(mains_c="6", **more), "notice")

    assert "Warm water runs short" not in said()
    assert "Warm water runs short" not in said(warm_tank_m3="5", warm_kw="60")
    short = said(warm_tank_m3="1", warm_kw="1")
    assert "Warm water runs short" in short
    at = datetime.strptime(short.split("short ")[1].split(":00")[0] + ":00 2026", "%a %d %b %H:%M %Y")
    assert at == datetime(2026, 1, 12, 13)  # the second water: the first left 0.11 m3, sixteen hours made 0.25 more
    # six tonnes, a cubic metre each, from 6 to 14 C with water of 60: 6 x 8/54
    assert "takes 0.89 m³ of it, and the warm tank has 0.37 m³" in short
    assert "go together" in asked_back(warm_tank_m3="1")


def test_a_heater_warms_as_the_heat_of_water_lets_it():
    # 4.19 kJ/kg K: a cubic metre by 50 K takes 58.2 kWh
    assert warm_m3_h(heat_kw=58.2, mains_c=10.0, warm_c=60.0) == pytest.approx(1.0, rel=1e-3)


def test_water_too_hot_for_any_barley_is_asked_back():
    assert "no barley is steeped" in asked_back(mains_c="45")
