"""Edges of the table of limits against what was published, and against each other where one procedure follows another.

How each source was read stands on the page of its procedure; an edge without a source is common practice, and only its
place among the others can be tried.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from calculators.rules.limit import Limit
from calculators.rules.limits import casting, every, filling_the_steep, germination_test, steeping
from calculators.rules.limits import floor_germination as floor
from calculators.rules.limits import intake_and_storage as intake
from calculators.rules.limits import kiln_hand_over as kiln
from calculators.rules.limits import readiness as ready

EDGES = ("stop_low", "accept_low", "accept_high", "stop_high")


def edges(limit: Limit) -> list[float]:
    return [edge for name in EDGES if (edge := getattr(limit, name)) is not None]


@pytest.mark.parametrize(
    ("limit", "edge", "published"),
    [
        # MAGB, guide to intake (read): 14.5 % at most; nitrogen 1.55 to 1.75 % for brewing; capacity 98 %.
        (intake.GATE_MOISTURE, "stop_high", 14.5),
        (intake.NITROGEN, "accept_high", 1.75),
        (germination_test.CAPACITY, "accept_low", 98),
        # HGCA Topic Sheet 60 (in a copy): fungi join in from 14 to 14.5 %.
        (intake.STORE_MOISTURE, "stop_high", 14.5),
        # HGCA (in a copy): most insects do not breed under 15 °C.
        (intake.STORE_TEMP, "accept_high", 15),
        # 7 CFR 810.205 of 2017 (in a copy): grade 2 takes 7 % of thin corns and 6 % skinned and broken.
        (intake.SCREENINGS, "stop_high", 7),
        (intake.SPLIT, "stop_high", 6),
        # Regulation (EU) 2023/915 (read): ergot 0.2 g/kg in unprocessed barley.
        (intake.ERGOT, "stop_high", 0.2),
        # Regulations (EU) 2024/1038 (table in a copy) and 2024/1022 (second-hand).
        (intake.T2_HT2, "stop_high", 200),
        (intake.DON, "stop_high", 1000),
        # Montana State University (read): energy 95 %, capacity 95 %, sensitive from 30 points on.
        (germination_test.ENERGY, "accept_low", 95),
        (germination_test.CAPACITY, "stop_low", 95),
        (germination_test.WATER_SENSITIVITY, "stop_high", 30),
        # 7 CFR 201.55 (in a copy): four hundreds at 95 % may lie 9 apart.
        (germination_test.DISHES_APART, "stop_high", 9),
        # Evans, Shen & Brookes 2024 (abstract): 42 to 46 %; Mueller and others 2014 (abstract): 12 to 17 °C.
        (floor.MOISTURE, "accept_low", 42),
        (floor.MOISTURE, "accept_high", 46),
        (floor.PIECE, "accept_low", 12),
        (floor.PIECE, "accept_high", 17),
        # Narziss 1966 (in a copy): 43 to 48 % is needed for modification.
        (casting.MOISTURE, "accept_low", 43),
        (casting.MOISTURE, "stop_high", 48),
        # A Canadian guide (in a copy): 30 to 35 % after the first immersion, over 80 % chitted at the end.
        (steeping.FIRST_DRAIN, "accept_low", 30),
        (steeping.FIRST_DRAIN, "accept_high", 35),
        (casting.CHIT, "stop_low", 80),
        (casting.CHIT_COUCH, "accept_low", 80),
        # The same: rests of 6 to 8 and 8 to 12 h.
        (steeping.REST, "accept_low", 6),
        (steeping.REST, "accept_high", 12),
        # Cereals processing technology (in a copy): green malt goes to the kiln at 40 to 45 %.
        (kiln.MOISTURE, "accept_low", 40),
        (kiln.MOISTURE, "accept_high", 45),
        # Merveilles (read): turned every 6, later 8 hours; Oxford Companion (read): twice a day.
        (floor.TURNING, "accept_low", 6),
        (floor.TURNING, "accept_high", 12),
        # From memory: acrospires of three quarters on 75 to 80 % of the corns.
        (ready.READY, "accept_low", 75),
    ],
    ids=lambda one: getattr(one, "id", one),
)
def test_edges_are_the_published_ones(limit: Limit, edge: str, published: float) -> None:
    assert getattr(limit, edge) == published


def test_warmth_of_a_steep_is_that_of_haley_and_stokes_to_the_whole_degree() -> None:
    # 1987 (abstract): at most 62 °F for the steep and 65 °F for the barley at the end, 16.7 and 18.3 °C.
    steep_c, end_c = (62 - 32) / 1.8, (65 - 32) / 1.8
    assert steeping.WATER_TEMP.accept_high == int(steep_c)
    assert steeping.REST_TEMP.accept_high == round(steep_c)
    assert steeping.REST_TEMP.stop_high == int(end_c) == casting.GRAIN_TEMP.stop_high


def test_no_heap_may_be_let_near_balling_s_never() -> None:
    # Balling (not citable): never over 20 to 22 degrees Reaumur; one degree is 1.25 C. A house keeps one degree off.
    assert (floor.NEVER_C, floor.NEVER_HIGH_C) == (20 * 1.25, 22 * 1.25)
    for limit in (floor.BOTTOM, floor.PIECE, floor.SUMMER_BOTTOM, casting.COUCH_BOTTOM):
        assert limit.stop_high is not None and limit.highest is not None
        assert limit.stop_high < limit.highest == floor.NEVER_C - 1.0


def test_the_deepest_floors_told_of_are_accepted_and_couches_are_not() -> None:
    # Oxford Companion 15 cm, Merveilles 15 to 18 cm (both read); Coppinger 1815 (read): couches from 8 to 20 inches.
    assert floor.DEPTH.accept_low is not None and floor.DEPTH.accept_high is not None
    assert floor.DEPTH.accept_low < 15 and floor.DEPTH.accept_high > 18
    assert floor.DEPTH.stop_high is not None and floor.DEPTH.stop_high < 20 * 2.54
    assert floor.DEPTH.highest is not None and floor.DEPTH.highest < 24 * 2.54


def test_the_dishes_of_a_test_stand_at_20_c() -> None:
    # Montana State University (read): 20 °C. A degree either way is accepted, two are the stop (common practice).
    assert [edge - 20 for edge in edges(germination_test.TEST_TEMP)] == [-2, -1, 1, 2]


def test_moisture_rises_from_drain_to_drain() -> None:
    wetter = (filling_the_steep.BARLEY_MOISTURE, steeping.FIRST_DRAIN, steeping.SECOND_DRAIN, casting.MOISTURE)
    for before, after in pairwise(wetter):
        assert all(low < high for low, high in zip(edges(before), edges(after), strict=False))
    for before, after in pairwise(wetter[1:]):
        assert before.stop_high is not None and after.accept_low is not None
        assert before.stop_high <= after.accept_low, "what is too wet for one drain may be right for the next"


def test_more_have_chitted_the_later_it_is() -> None:
    share = [edges(limit) for limit in (steeping.CHIT_LAST_DIP, casting.CHIT_COUCH, casting.CHIT)]
    assert share == sorted(share) and share[1][0] == share[0][0] and share[2][0] == share[1][1]


def test_what_leaves_the_floor_may_be_no_wetter_and_no_warmer_than_it_lay() -> None:
    assert kiln.MOISTURE.stop_high is not None and floor.MOISTURE.stop_high is not None
    assert kiln.MOISTURE.stop_high < floor.MOISTURE.stop_high == casting.MOISTURE.stop_high
    assert kiln.PIECE.accept_high == floor.PIECE.stop_high
    assert kiln.PIECE.stop_high == floor.NEVER_C


def test_poisons_alone_can_only_be_made_tighter() -> None:
    guarded = {limit.id for limit in every() if isinstance(limit, Limit) and limit.safety}
    assert guarded == {"ergot", "t2-ht2", "deoxynivalenol"}


@pytest.mark.parametrize(
    "limit", [limit for limit in every() if isinstance(limit, Limit) and not limit.safety], ids=lambda limit: limit.id
)
def test_a_house_may_move_every_edge_both_ways(limit: Limit) -> None:
    assert limit.lowest is not None and limit.highest is not None
    assert limit.lowest < limit.highest
    for edge in edges(limit):
        whole = edge == limit.highest == 100.0 and limit.unit.startswith("% of")  # nobody moves past all of it
        assert limit.lowest < edge < limit.highest or edge == 0.0 or whole
