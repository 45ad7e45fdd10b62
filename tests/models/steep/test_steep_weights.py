"""What counts against a steep plan weighs what its page tells, from the edge on and not before."""

import re
from itertools import product
from pathlib import Path

import pytest

from calculators.models.living.chitting import Corns
from calculators.models.living.steep_run import Rests
from calculators.models.steep.choice import Margin, Plan, choose
from calculators.models.steep.hydration import run, steep
from calculators.models.steep.plan import Search, _ceil, _floor
from calculators.models.steep.wishes import Draft, Wishes
from calculators.rules.limit import edge
from calculators.rules.limits.steeping import CHIT_LAST_DIP, REST_TEMP
from calculators.rules.steep_life import Lives, judged
from calculators.rules.steep_order import bounds

BASE = steep(barley_moisture=12.5, stages=[(1, 14)]).steeping
EDGES = bounds()
SEARCH = Search(BASE, 14.0, Wishes(45.0, 31.0, 10.0, 6.0, 6.0, EDGES))
WET, DRY, SOON = EDGES.usual_immersion_h, EDGES.usual_rest_h, EDGES.usual_steep_h
PAGE = (Path(__file__).parents[3] / "docs" / "calculators" / "steep-plan.md").read_text("utf-8")


def told(row: str) -> list[float]:
    """The weights in the page's row that begins with these words."""
    found = re.search(rf"^\| {re.escape(row)}[^|]*\| (.+) \|$", PAGE, re.MULTILINE)
    assert found, row
    return [float(number) for number in re.findall(r"\d+(?:\.\d+)?", found[1])]


def against(name: str, lengths: list[float], wait: float = 0.0) -> float:
    course = run(SEARCH.steeping(lengths))
    return {term.name: term.cost for term in SEARCH.terms(course, lengths, wait)}[name]


# The name of a term, the page's row and which of its weights; stages at the edge, and stages past it by so much.
ROWS = [
    ("long immersion", "An immersion longer", 0, [WET, 8, 2], [WET + 1.5, 8, 2], 1.5),
    ("long immersion", "An immersion longer", 0, [6, 8, WET], [6, 8, WET + 1], 1),
    ("short immersion", "An immersion under 4 h", 0, [4, 8, 2], [3, 8, 2], 1),
    ("short immersion", "An immersion under 4 h", 0, [6, 8, 4, 8, 1], [6, 8, 2.5, 8, 1], 1.5),
    ("last dip", "Last immersion under", 0, [6, 8, 1.5], [6, 8, 0.5], 1),
    ("last dip", "Last immersion under", 1, [6, 8, 5], [6, 8, 7], 2),
    ("long rest", "A rest longer", 0, [6, DRY, 2], [6, DRY + 2, 2], 2),
    ("long rest", "A rest longer", 0, [6, DRY, 6, DRY, 2], [6, DRY + 2, 6, DRY + 1, 2], 3),
    ("soon over", "A steep that is over sooner", 0, [6, SOON - 8, 2], [6, SOON - 10, 2], 2),
    ("many immersions", "More than three", 0, [6, 8, 6, 8, 2], [6, 8, 6, 8, 6, 8, 6, 8, 2], 2),
    ("no air rest", "No air rest", 0, [6, 8, 2], [10], 1),
]


@pytest.mark.parametrize(("name", "row", "which", "edge", "past", "by"), ROWS)
def test_nothing_at_the_edge_and_past_it_what_the_page_tells(name, row, which, edge, past, by):
    assert against(name, edge) == 0.0
    assert against(name, past) == pytest.approx(told(row)[which] * by)


def test_hours_and_waiting_count_from_the_first():
    assert against("hours in all", [6, 8, 2]) == pytest.approx(16 * told("Every hour")[0])
    assert against("waits for the cast", [6, 8, 2]) == 0.0
    assert against("waits for the cast", [6, 8, 2], 3.0) == pytest.approx(3 * told("Waiting drained")[0])


@pytest.mark.parametrize("off", [-2.5, -1.0, -0.4, 0.0, 0.9, 1.0, 4.0])
def test_the_first_drain_may_be_a_point_off_its_aim(off):
    course = run(SEARCH.steeping([6, 8, 2]))
    wishes = SEARCH.wishes._replace(first_aim=course.ends[0].drained - off)
    terms = Search(BASE, 14.0, wishes).terms(course, [6, 8, 2], 0.0)
    cost = next(term.cost for term in terms if term.name == "first drain")
    assert cost == pytest.approx(max(0.0, abs(off) - 1.0) * told("First drain")[-1], abs=1e-9)


@pytest.mark.parametrize("slips", [(-2.0, 1.0, 0.5), (-1.0, 3.0, 0.5), (-1.0, 1.0, 1.5)])
def test_the_worst_slip_counts_whichever_way_it_goes(slips):
    course = run(SEARCH.steeping([6, 8, 2]))
    plan = Plan(Draft((6, 8, 2), 17.0, (), ()), course, Margin(*slips))
    assert plan.cost == pytest.approx(told("What the worst slip")[0] * max(map(abs, slips)))


def test_few_chits_and_warm_rests_count_from_what_is_accepted():
    """By the living batch, for slow and quick corns, with little air and with much."""
    seen = set()
    course = steep(barley_moisture=12.5, stages=[(8, 16), (8, 16), (8, 16), (12, 16), (3, 16)])
    for middle, suction in product((14.0, 20.0, 26.0, 32.0), (0.0, 30.0, 120.0)):
        lives = Lives(Rests(suction_m3_h_t=suction), Corns(middle_h=middle), "couch")
        for term in judged(course, lives).against:
            row, from_here, way = {
                "few chits": ("Chits before the last dip", edge(CHIT_LAST_DIP.accept_low), -1),
                "warm rest": ("A rest warmer", edge(REST_TEMP.accept_high), 1),
            }[term.name]
            assert way * (term.figure - from_here) > 0.0
            assert term.cost == pytest.approx(told(row)[0] * abs(term.figure - from_here))
            seen.add(term.name)
    assert seen == {"few chits", "warm rest"}


def test_the_nearest_plan_gives_up_as_few_wishes_as_can_be():
    """No steep of immersions of 3 h gets there: one that gives up that wish alone is offered, none that breaks two."""
    cold = choose(BASE, 10.0, Wishes(43.0, 31.0, 3.0, 6.0, 6.0, EDGES))
    assert not cold.kept
    assert {tuple(name for name, _ in plan.draft.broken) for plan in cold.plans} == {("longest_immersion_h",)}


@pytest.mark.parametrize("hours", [0.5 * n for n in range(1, 60)])
def test_the_rounding_of_a_sum_is_no_other_half_hour(hours):
    third = hours / 3.0
    assert _ceil(third + third + third + 1e-12) == _floor(hours - 1e-12) == hours
    assert _ceil(hours + 0.01) == hours + 0.5 and _floor(hours - 0.01) == hours - 0.5
