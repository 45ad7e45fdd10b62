"""What is offered in place of an immersion past its stop, each way worked out a second time."""

from __future__ import annotations

from math import floor

import pytest

from calculators.models.steep.course import Stage, Steep
from calculators.models.steep.hydration import STAGES, steep
from calculators.rules import steep_order as order
from calculators.rules.limits.casting import MOISTURE, OFF_TARGET
from calculators.rules.limits.steeping import STEEP
from calculators.rules.steep_order import Order, Way, before_last, last_immersion, of_course, usual_h, with_stages

Row = tuple[tuple[float, float], ...]


def course(stages: Row, **more: float) -> Steep:
    return steep(barley_moisture=more.pop("barley", 12.5), stages=stages, **more)  # type: ignore[arg-type]


ROWS: list[tuple[Row, float, dict[str, float]]] = [
    (((1.0, 8.0),), 40.0, {}),
    (((1.0, 8.0),), 44.0, {}),
    (((1.0, 10.0),), 38.0, {}),
    (((1.0, 12.0),), 41.5, {"rate_factor": 0.9}),
    (((8.0, 10.0), (8.0, 10.0), (4.0, 10.0)), 44.0, {}),
    (((8.0, 10.0), (8.0, 10.0), (4.0, 10.0)), 46.0, {}),
    (((8.0, 14.5), (8.0, 15.0), (4.0, 14.5)), 46.0, {"rate_factor": 0.7}),
    (((6.0, 6.0), (8.0, 6.0), (4.0, 6.0)), 42.0, {"barley": 11.0}),
    (((8.0, 14.0), (8.0, 14.0), (6.0, 14.0), (12.0, 14.0), (3.0, 14.0)), 48.0, {"rate_factor": 0.8}),
]


def wet_in_time(stages: list[Stage], one: Steep, target: float, longest: float) -> float | None:
    """How long the last of these stages must be for the target, by halving; None where no length is."""

    def end(hours: float) -> float:
        return with_stages(one, [*stages[:-1], stages[-1]._replace(hours=hours)]).ends[-1].drained

    if target <= end(0.001):
        return 0.0  # a dip that wets the corns is enough
    if target > end(longest):
        return None
    low, high = 0.001, longest
    while high - low > 1e-7:
        middle = (low + high) / 2.0
        low, high = (middle, high) if end(middle) < target else (low, middle)
    return high


@pytest.mark.parametrize("begun", [True, False])
@pytest.mark.parametrize(("row", "target", "more"), ROWS)
def test_the_least_warmth_at_which_one_immersion_is_enough(
    row: Row, target: float, more: dict[str, float], begun: bool
) -> None:
    """Whole degrees up to 16 C; under way no more than 2 K over the grain, and before it all waters are as warm."""
    one = course(row, **more)
    before, last = before_last(one)
    most = min(16.0, before[-1].water_temp_c + 2.0) if begun and before else 16.0
    wanted = None
    for temp in range(floor(last.water_temp_c) + 1, floor(most) + 1):
        changed = [s if begun else s._replace(water_temp_c=max(s.water_temp_c, float(temp))) for s in before]
        needed = wet_in_time([*changed, Stage(1.0, float(temp))], one, target, 8.0)
        if needed is not None:
            other = with_stages(one, [*changed, Stage(needed, float(temp))])
            had = {p.what for p in of_course(one, ends=False) if p.is_stop}
            past = {p.what for p in of_course(other, ends=False) if p.is_stop} - had
            wanted = None if needed < 1.0 or past else (temp, needed)
            break
    found = order._warm(one, target, begun, 8.0)
    assert (found is None) == (wanted is None)
    if found and wanted:
        assert (found.word, found.water_temp_c, len(found.hours)) == ("warm", wanted[0], 1)
        assert found.hours[0] == pytest.approx(wanted[1], abs=1e-4)
        assert found.moisture == pytest.approx(target, abs=1e-4)


def test_an_immersion_of_an_accepted_length_is_cast_drier_where_it_may_be_and_sprinkled() -> None:
    stop, off = MOISTURE.stop_low or 0.0, OFF_TARGET.stop_high or 0.0
    once = Way("again", (8.0,), 12.0, 43.0)
    assert order._sprinkle(once, 43.0 + off) == once._replace(word="sprinkle") == order._sprinkle(once, 43.05)
    for moisture, target in ((43.0, 43.0), (43.0, 42.0), (43.0, 43.05 + off), (stop - 0.1, stop + 1.0), (48.5, 49.0)):
        assert order._sprinkle(once._replace(moisture=moisture), target) is None
    assert order._sprinkle(once._replace(moisture=stop), stop + 1.0) is not None


@pytest.mark.parametrize(("row", "target", "more"), ROWS)
@pytest.mark.parametrize("accepted_h", [8.0, 6.0])
def test_pieces_of_an_accepted_length_are_as_few_as_reach_the_target(
    row: Row, target: float, more: dict[str, float], accepted_h: float
) -> None:
    """Immersions as long as the drains want them, rests between; the last as long as the target needs."""
    one = course(row, **more)
    before, last = before_last(one)
    stages, pieces, wanted = [*before, last], list[float](), None
    for _ in range(3):
        piece = usual_h(with_stages(one, stages), (len(stages) + 1) // 2, accepted_h)
        pieces += [piece, 6.0]
        rested = before[-1].water_temp_c if before else last.water_temp_c
        stages = [*stages[:-1], last._replace(hours=piece), Stage(6.0, rested), last]
        there = with_stages(one, stages)
        if there.drained_before_last_immersion >= target:
            break
        needed = wet_in_time(stages, one, target, accepted_h)
        if needed is not None:
            wanted = (*pieces, needed)
            break
    found = order._split(one, target, 6.0, accepted_h)
    if wanted is None:
        assert found is None
        return
    assert found is not None and found.word == "split"
    assert found.moisture == pytest.approx(again(one, found), abs=1e-6)
    if wanted[-1] >= 1.0:
        assert found.hours == pytest.approx(wanted, abs=1e-4)
    else:  # nothing shorter than an hour is offered: the pieces are evened out, or it ends near the target
        assert min(found.hours[::2]) >= 1.0 and -1.0 <= found.moisture - target <= 2.0 + 1e-6


def again(one: Steep, way: Way) -> float:
    before, last = before_last(one)
    rested = before[-1].water_temp_c if before else last.water_temp_c
    row = [Stage(h, rested) if n % 2 else last._replace(hours=h) for n, h in enumerate(way.hours)]
    return with_stages(one, [*before, *row]).ends[-1].drained


def test_a_steep_of_nineteen_stages_cannot_be_split() -> None:
    long = course(((1.0, 6.0),) * int(STAGES.high - 1))
    assert order._split(long, 49.0, 6.0, 8.0) is None


def test_pieces_that_end_near_the_target_need_no_last_dip() -> None:
    there = course(((8.0, 12.0), (6.0, 12.0), (6.0, 12.0), (6.0, 12.0), (1.0, 12.0)))
    end = [one.drained for one in there.ends if one.wet][-2]
    near = order._near(there, end + 0.9, (8.0, 6.0, 6.0, 6.0))
    assert near == Way("split", (8.0, 6.0, 6.0), 12.0, end)
    short = order._near(there, end + 1.1, (8.0, 6.0, 6.0, 6.0))
    dipped = with_stages(there, [*there.steeping.stages[:-1], Stage(1.0, 12.0)]).ends[-1].drained
    assert short == Way("split", (8.0, 6.0, 6.0, 6.0, 1.0), 12.0, dipped)  # a dip of an hour
    assert order._near(there, end + 0.5, (8.0, 6.0)).hours[-1] == 1.0  # one piece alone is no split without its dip


def test_a_piece_before_a_dip_is_shortened_where_the_dip_would_go_far_past_the_target() -> None:
    there = course(((10.0, 16.0), (6.0, 16.0), (1.0, 16.0)))
    first = there.ends[0].drained
    for target in (first + 0.01, first - 2.0):
        found = order._near(there, target, (10.0, 6.0))
        piece = 10.0
        while True:
            end = with_stages(there, [Stage(piece, 16.0), Stage(6.0, 16.0), Stage(1.0, 16.0)]).ends[-1].drained
            if end - target <= 2.0 or piece < 1.25:
                break
            piece -= 0.25
        assert found == Way("split", (piece, 6.0, 1.0), 16.0, end)
    assert piece < 10.0
    least = order._near(there, 20.0, (10.0, 6.0))
    assert least.hours == (1.0, 6.0, 1.0)


def test_pieces_evened_out_are_as_long_as_each_other_to_the_quarter_of_an_hour() -> None:
    """The last is as long as the target needs, an hour at the least."""
    seen = 0
    for tenths in range(385, 470, 3):
        one = course(((1.0, 10.0),))
        target = tenths / 10.0
        found = order._split(one, target, 6.0, 8.0)
        if found is None or found.hours[0] == 8.0 or abs(found.moisture - target) > 1e-6:
            continue
        *pieces, last = found.hours[::2]
        seen += 1
        assert len(set(pieces)) == 1 and (4.0 * pieces[0]).is_integer() and pieces[0] >= 1.0
        assert last >= 1.0
        assert again(one, found) == pytest.approx(target, abs=1e-6)
    assert seen >= 3


def test_a_steep_that_ends_as_it_should_may_still_be_too_short() -> None:
    short = course(((8.0, 16.0), (4.0, 16.0), (8.0, 16.0)), rate_factor=1.4)
    assert (MOISTURE.accept_low or 0.0) < short.ends[-1].drained < (MOISTURE.accept_high or 0.0)
    assert STEEP.id in {p.line.rule for p in of_course(short)}
    dry = course(((2.0, 10.0),))
    assert MOISTURE.id in {p.line.rule for p in of_course(dry)}
    assert STEEP.id not in {p.line.rule for p in of_course(dry)}  # it does not end here
    wet = course(((12.0, 29.0), (2.0, 29.0), (9.5, 29.0)), rate_factor=2.0)
    assert {STEEP.id, MOISTURE.id} <= {p.line.rule for p in of_course(wet) if p.is_stop}


def test_an_order_says_all_ways_that_are_left_or_one_immersion_and_judge_afresh() -> None:
    one = course(((1.0, 2.0),), rate_factor=0.6)
    left = last_immersion(one, 50.0, begun=True)
    assert isinstance(left, Order) and [way.word for way in left.ways] == ["again"]
    assert left.ways[0].hours == (usual_h(one, 1),) and left.ways[0].moisture == pytest.approx(again(one, left.ways[0]))
    fine = course(((8.0, 14.0), (8.0, 14.0), (4.0, 14.0)))
    needed = fine.last_immersion_needed_h(40.0)
    assert needed is not None and needed < 8.0
    assert last_immersion(fine, 40.0, begun=True) == Order(needed, "accept")
    assert last_immersion(fine, 30.0, begun=True) is None
