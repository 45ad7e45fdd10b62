"""A corn is drawn as far on as its numbers are."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.asking.declare import Drawing
from calculators.words.corn_drawn import LONGEST, corn
from tests.sheets.ask import drawn

parts = st.floats(0.0, 1.0)


def _points(path: str) -> list[tuple[float, float]]:
    numbers = [float(word) for word in re.findall(r"-?[0-9.]+", path)]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def _area(points: list[tuple[float, float]]) -> float:
    turned = points[1:] + points[:1]
    return abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, turned, strict=True))) / 2.0


def _of(style: str, acrospire: float, opened: float) -> list[str]:
    shapes = corn(acrospire=acrospire, opened=opened, x=0.0, y=0.0, scale=1.0)
    return [shape.path for shape in shapes if shape.style == style]


def _open_area(part: float) -> float:
    return sum(_area(_points(path)) for path in _of("opened", 0.5, part))


@given(parts, parts)
def test_the_more_is_open_the_more_is_drawn_open(one, other):
    less, more = sorted((one, other))
    assert _open_area(less) <= _open_area(more) + 20.0


def test_all_open_is_the_whole_store_and_nothing_open_is_nothing():
    assert 12_000 < _open_area(1.0) < 20_000
    assert _open_area(0.5) == pytest.approx(_open_area(1.0) / 2.0, rel=0.25)
    assert _open_area(0.0) == 0.0


@pytest.mark.parametrize("length", [0.25, 0.5, 0.75, 1.0, 1.2])
def test_the_shoot_ends_where_so_much_of_the_corn_is_passed(length):
    (shoot,) = _of("chit", length, 1.0)
    assert max(x for x, _ in _points(shoot)) == pytest.approx(20.0 + 280.0 * length, abs=0.1)


def test_no_shoot_without_growth_and_none_without_end():
    assert len(_of("chit", 0.0, 0.0)) == 1, "the white root tip of a chitted corn, and no shoot"
    dry = corn(acrospire=0.0, opened=0.0, x=0.0, y=0.0, scale=1.0, chitted=False)
    assert {shape.style for shape in dry} == {"husk", "coat", "endosperm", "germ", "scutellum"}
    assert _of("chit", 9.0, 1.0) == _of("chit", LONGEST, 1.0)


@given(st.floats(0.0, 2.0), st.floats(0.0, 2.0))
def test_roots_grow_and_never_shrink(one, other):
    less, more = sorted((one, other))
    assert len(_of("root", less, 0.0)) <= len(_of("root", more, 0.0))


@given(st.floats(0.0, 3.0), parts)
def test_it_stays_in_the_room_that_its_sheet_gives_it(acrospire, opened):
    for shape in corn(acrospire=acrospire, opened=opened, x=34.0, y=4.0, scale=0.7):
        assert all(0.0 <= x <= 420.0 and 0.0 <= y <= 124.0 for x, y in _points(shape.path))


def _corns(**given: str) -> Drawing:
    (corns,) = (picture for picture in drawn("growth-by-day", **given) if isinstance(picture, Drawing))
    return corns


def test_the_sheet_draws_what_it_says():
    corns = _corns(day="3")
    assert [row[1] for row in corns.rows] == ["38 %", "45 %", "52 %"]
    written = " ".join(words.text for words in corns.words)
    assert all(row[1] in written for row in corns.rows)
    assert "overshot" not in written
    assert "overshot" in " ".join(words.text for words in _corns(bed_temp_c="22", day="6").words)
