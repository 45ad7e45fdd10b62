"""Every limit of the table is whole, is judged from both sides, and is drawn where its page says."""

from __future__ import annotations

import pytest

from calculators.rules.limit import Limit, Signs, judge, judge_interval, judge_sign
from calculators.rules.limits import PAGES, every, of_page
from calculators.sources import SOURCES
from site_src.limits_table import limit_lines, said

NUMBERS = [row for row in every() if isinstance(row, Limit)]
NEAR = 1e-8
"""Far less than anybody reads, and more than the last bits of a sum."""
WORDS = [row for row in every() if isinstance(row, Signs)]


@pytest.mark.parametrize("row", NUMBERS, ids=lambda row: row.id)
def test_edges_stand_in_order_and_within_bounds(row: Limit):
    edges = [edge for edge in (row.stop_low, row.accept_low, row.accept_high, row.stop_high) if edge is not None]
    assert edges == sorted(edges)
    assert edges or row.stop
    if edges and not row.safety:
        assert row.lowest is not None and row.highest is not None, "a house has to know how far it may move an edge"
        assert row.lowest <= edges[0] and edges[-1] <= row.highest


@pytest.mark.parametrize("row", NUMBERS, ids=lambda row: row.id)
def test_each_edge_belongs_to_the_milder_side_or_has_to_be_stayed_under(row: Limit):
    if row.stay_under:
        assert row.stop_high is not None and row.accept_high is not None
        assert judge(row, row.stop_high) == "stop" and judge(row, row.stop_high - NEAR) != "stop"
        assert judge(row, row.accept_high) != "accept" and judge(row, row.accept_high - NEAR) == "accept"
        return
    if row.stop_high is not None:
        assert judge(row, row.stop_high) != "stop"
        assert judge(row, row.stop_high + NEAR) == "stop"
    if row.stop_low is not None:
        assert judge(row, row.stop_low) != "stop"
        assert judge(row, row.stop_low - NEAR) == "stop"
    for edge in (row.accept_low, row.accept_high):
        if edge is not None:
            assert judge(row, edge) == "accept"


@pytest.mark.parametrize("row", WORDS, ids=lambda row: row.id)
def test_a_word_is_judged_once(row: Signs):
    words = [*row.accept, *row.watch, *row.stop]
    assert words and len(words) == len(set(words))
    assert judge_sign(row, row.stop[0]) == "stop" if row.stop else True
    assert judge_sign(row, "no such word") is None


def test_ids_are_one_each_and_every_stop_says_what_to_do():
    rows = {row.id: row for row in every()}
    first = [row for page in PAGES for row in of_page(page) if row.page == page.replace("_", "-")]
    assert len(first) == len(rows)
    for row in rows.values():
        assert row.act.endswith("."), f"{row.id} does not say what to do at the stop"
        assert all(source in SOURCES for source in row.sources), row.id


def test_a_table_is_drawn_with_its_figures():
    assert "| One immersion | up to 8 h | 8–12 h, with air all through |" in "\n".join(limit_lines("steeping"))
    chit = Limit("x", "steeping", "Chit", "%", stop_low=50, accept_low=70)
    assert said(chit) == ("70 % or more", "50–70 %", "under 50 %")


def test_a_count_is_judged_by_its_whole_interval():
    capacity = Limit("x", "germination-test", "Capacity", "%", stop_low=95, accept_low=98, interval=True)
    ends = ((98, 99.9), (97.9, 99.9), (94.9, 97), (94, 95), (90, 94.9))
    assert [judge_interval(capacity, *one) for one in ends] == ["accept", "watch", "watch", "watch", "stop"]
    both = Limit("x", "steeping", "Water", "C", stop_low=5, accept_low=10, accept_high=16, stop_high=20)
    assert judge_interval(both, 4, 21) == "watch", "one end under, the other over: neither stop holds all of it"
    assert judge_interval(both, 21, 22) == "stop" and judge_interval(both, 10, 16) == "accept"


def test_a_whole_interval_an_edge_to_stay_under_and_none_are_drawn_in_words():
    energy = Limit("x", "germination-test", "Energy", "%", stop_low=95, accept_low=95, interval=True)
    assert said(energy) == ("95 % or more", "the range crosses 95 %", "the whole range of the count lies under 95 %")
    points = Limit("x", "germination-test", "Water", "points", accept_high=10, stop_high=30, stay_under=True)
    assert said(points) == ("under 10 points", "10–30 points", "30 points or more")
    ergot = Limit("x", "intake-and-storage", "Ergot", "g/kg", accept_high=0, stop_high=0.2)
    assert said(ergot) == ("none", "up to 0.2 g/kg", "over 0.2 g/kg")
    begun = Limit("x", "intake-and-storage", "Begun", "%", accept_high=0, stop_high=0, accept="seen", stop="seen")
    assert said(begun) == ("none seen", "", "any seen")
    assert "| a written “no”, or the certificate | — | **nobody knows, no certificate**<br>" in "\n".join(
        limit_lines("intake-and-storage")
    )


def test_what_is_watched_is_drawn_as_it_is_judged():
    bed = Limit("x", "drum-germination", "Bed", "C", accept_low=12, accept_high=17, stop_high=20)
    assert said(bed)[1] == "under 12 or 17–20 °C" and judge(bed, 11.9) == "watch"
    cover = Limit("x", "filling-the-steep", "Water", "cm", stop_low=5, accept_low=10, accept_high=15)
    assert said(cover)[1] == "5–10 or over 15 cm" and judge(cover, 15.1) == "watch"
    room = Limit("x", "floor-germination", "Room", "C", stop_low=5, accept_low=5)
    assert said(room) == ("5 °C or more", "", "under 5 °C")


def test_words_may_stand_for_the_figures_and_a_comma_comes_before_or():
    off = Limit("x", "kiln-hand-over", "Depth", "cm", accept_high=2, stop_high=5, stop="more than {stop_high} off")
    assert said(off)[2] == "more than 5 cm off"
    air = Limit("x", "steeping", "Wet", "h", accept_high=8, stop_high=12, watch=": look", stop="or without air")
    assert said(air) == ("up to 8 h", "8–12 h: look", "over 12 h, or without air")


def test_a_page_without_limits_is_named():
    with pytest.raises(LookupError, match=r"No limits for “nowhere”.*intake-and-storage"):
        limit_lines("nowhere")
