"""What is free of a house, hour by hour: held against the plain reckoning while batches come and go."""

from __future__ import annotations

from random import Random

import pytest

from calculators.rules.week.free import Free
from calculators.rules.week.house import Batch, Bed, Closed, House, Kiln, Steep, Stood, Way, people_needed
from calculators.rules.week.search import search, standing
from calculators.rules.week.shapes import Shape

HANDS = tuple(2 if 6 <= hour < 14 else 1 if 14 <= hour < 20 else 0 for hour in range(24))
HOUSE = House(
    (Steep("A", 6.0), Steep("B", 6.0)),
    (Bed("floor", "floor", 12.0, True), Bed("drum", "drum", 7.0)),
    (Kiln("kiln", 6.0, 20, 3), Kiln("other", 6.0, 20, 3)),
    HANDS,
    now=30,
    horizon=240,
    closed=(Closed("B", 90, 95), Closed("drum", 60, 80), Closed("drum", 100, 101), Closed("kiln", 20, 40)),
)


def held(hours: int) -> set[int]:
    return {hour for hour in range(hours.bit_length()) if hours >> hour & 1}


def opened(place: str) -> set[int]:
    shut = {hour for one in HOUSE.closed if one.place == place for hour in range(one.begin, one.end)}
    return set(range(HOUSE.horizon)) - shut


def ways(seed: int) -> list[tuple[Batch, Way]]:
    """Ways of a few batches through the house, of which no two hold one steep, drum or kiln at one hour."""
    draw = Random(seed)
    found: list[tuple[Batch, Way]] = []
    for n in range(80):
        fill = draw.randrange(20, 150)
        cast = fill + draw.randrange(9, 15)
        load = cast + draw.randrange(10, 30)
        way = Way(draw.randrange(2), (fill,), (fill + 8,), draw.randrange(2), cast, load, draw.randrange(2), load, 0)
        way = way._replace(off=load + 20)
        batch = Batch(f"b{n}", draw.choice((3.0, 4.5, 5.0)), None, (8.0,), (10, 10))
        if way.off + 3 <= HOUSE.horizon and all(apart(way, batch, other, one) for one, other in found):
            found.append((batch, way))
    return found


def apart(way: Way, batch: Batch, other: Way, one: Batch) -> bool:
    spells = [
        (way.steep == other.steep, way.fill, way.cast + 2, other.fill, other.cast + 2),
        (way.kiln == other.kiln, way.load, way.off + 3, other.load, other.off + 3),
        (way.bed == other.bed == 1, way.cast, way.load + 4, other.cast, other.load + 4),
    ]
    shut = {hour for n in ((0, 20, 40), (1, 90, 95)) if way.kiln == 0 or n[0] for hour in range(n[1], n[2])}
    mine = set(range(way.load, way.off + 3)) | set(range(max(way.fill, 30), way.cast + 2))
    return not any(same and a < d and c < b for same, a, b, c, d in spells) and not mine & shut


@pytest.mark.parametrize("seed", range(4))
def test_what_is_free_is_what_nobody_holds(seed):
    some, free = ways(seed), Free(HOUSE)
    assert len(some) >= 3
    draw = Random(seed)
    there: list[tuple[Batch, Way]] = []
    for _ in range(12):
        one = draw.choice(some)
        if one in there:
            there.remove(one)
            free.take(*one)
        else:
            there.append(one)
            free.put(*one)
        for n, steep in enumerate(HOUSE.steeps):
            lie = {h for _, w in there if w.steep == n for h in range(max(w.fill, HOUSE.now), w.cast + 2)}
            assert held(free.steeps[n]) == opened(steep.name) - lie
        for n, kiln in enumerate(HOUSE.kilns):
            lie = {h for _, w in there if w.kiln == n for h in range(w.load, w.off + 3)}
            assert held(free.kilns[n]) == opened(kiln.name) - lie
        for n, bed in enumerate(HOUSE.beds):
            lain = [(range(w.cast, w.load + 4), b.kg if bed.shared else 7.0) for b, w in there if w.bed == n]
            for kg in (3.0, 7.5 if bed.shared else 7.0):
                need = kg if bed.shared else 7.0
                room = {
                    h
                    for h in range(HOUSE.horizon)
                    if sum(has for hours, has in lain if h in hours) + need <= bed.most_kg
                }
                assert held(free.bed(n, kg)) == room & opened(bed.name)
                assert held(free.bed(n, kg, True)) == room  # it lies there already
        for n in range(2):
            idle = held(free.kilns[n]) | set(range(HOUSE.now))
            for room_h, roomy in zip((12, 24), free.roomy(n), strict=True):
                assert held(roomy) == {
                    load for load in range(room_h, 400) if set(range(load - room_h, load + 23 + room_h)) <= idle
                }


@pytest.mark.parametrize("cast_hands", [1, 2, 3])
def test_grain_is_cast_from_now_on_where_enough_are_there(cast_hands):
    house = HOUSE._replace(cast_hands=cast_hands)
    assert held(Free(house).casts) == {
        hour for hour in range(30, 240) if HANDS[hour % 24] >= people_needed(house, hour % 24)
    }


def test_what_a_batch_left_is_held_until_it_is_clean():
    free = Free(HOUSE._replace(closed=()))
    free.cleans(Batch("a", 5.0, None, (8.0,), (10, 10), stood=Stood(steep=1, fill=10, bed=0, cast=29)))
    free.cleans(Batch("b", 5.0, None, (8.0,), (10, 10), stood=Stood(steep=0, fill=25)))
    free.cleans(Batch("c", 5.0, None, (8.0,), (10, 10), stood=Stood(bed=0, cast=29)))
    assert held(free.steeps[1]) == set(range(240)) - {30} and held(free.steeps[0]) == set(range(240))
    on = Batch("d", 5.0, None, (8.0,), (10, 10), stood=Stood(bed=1, cast=5, kiln=1, load=28))
    free.kilned(on, standing(HOUSE, on))
    assert held(free.kilns[1]) == set(range(240)) - set(range(28, 51)) and held(free.kilns[0]) == set(range(240))
    assert 31 not in held(free.bed(1, 5.0)) and 32 in held(free.bed(1, 5.0))
    free = Free(HOUSE)
    unknown = on._replace(stood=Stood(kiln=0, load=28))
    free.kilned(unknown, standing(HOUSE, unknown))
    assert 31 in held(free.bed(0, 12.0))  # nobody says where it lay
    assert held(free.kilns[0]) == set(range(240)) - set(range(20, 51))


def test_no_steep_is_filled_while_it_is_cleaned_whoever_is_put_in_first():
    """The first batch was cast an hour ago; its steep takes two hours to clean, and the next is in haste."""
    house = HOUSE._replace(steeps=HOUSE.steeps[:1], now=36, closed=(), hands=(2,) * 24, clean_steep=5, horizon=24 * 9)
    gone = Batch("a", 5.0, 24 * 9, (8.0,), (40, 40), stood=Stood(steep=0, fill=20, bed=0, cast=35))
    haste = Batch("b", 5.0, 40, (8.0,), (40, 40))
    for running in (None, search(house, (haste,), looks=40).plan):
        found = search(house, (gone, haste), running, looks=40)
        assert found.plan is not None and found.plan["b"].fill >= 40


def test_a_loaded_batchs_drum_is_not_cast_into_before_it_is_clean():
    house = HOUSE._replace(beds=HOUSE.beds[1:], now=36, closed=(), hands=(2,) * 24, clean_bed=20, horizon=24 * 9)
    gone = Batch("a", 5.0, None, (8.0,), (40,), stood=Stood(bed=0, cast=1, kiln=0, load=35))
    found = search(house, (gone, Batch("b", 5.0, 40, (8.0,), (40,))), looks=40)
    assert found.plan is not None and found.plan["b"].cast == 55


def lasting(**what: float) -> Free:
    return Free(HOUSE._replace(now=50, **what))  # type: ignore[arg-type]


BATCH = Batch("b", 6000.0, None, (8.0, 4.0, 8.0), (10, 10))
SHAPE = Shape((0, 12), (8, 20), 22, 0)
WAY = Way(0, (52, 64), (60, 72), 0, 74, 84, 1, 84, 104)


def test_where_water_is_no_matter_nobody_looks_for_it():
    free = Free(HOUSE)
    assert free.plenty and free.has_water(BATCH, 52, SHAPE) and free.tries == 0
    for what in ({"water_m3_h": 9.0}, {"effluent_m3_day": 99.0}):
        short = lasting(**what)
        assert not short.plenty and short.has_water(BATCH, 52, SHAPE) and short.tries == 1
        short.has_water(BATCH, 52, SHAPE)
        assert short.tries == 2


@pytest.mark.parametrize(
    ("fill", "drawn"),
    [(52, 12.0), (50, 12.0), (49, 6.0), (38, 6.0), (37, 0.0)],
)
def test_the_tank_gives_each_immersion_from_now_on(fill, drawn):
    """No water comes: the tank must hold it all."""
    assert lasting(water_m3_h=0.0, tank_m3=drawn).has_water(BATCH, fill, SHAPE)
    if drawn:
        assert not lasting(water_m3_h=0.0, tank_m3=drawn - 0.1).has_water(BATCH, fill, SHAPE)


def test_water_that_others_draw_is_not_there_until_they_give_it_back():
    free = lasting(water_m3_h=0.0, tank_m3=18.0)
    half = BATCH._replace(id="c", kg=3000.0)
    free.put(BATCH, WAY)
    assert free.has_water(half, 55, SHAPE) and not free.has_water(BATCH, 55, SHAPE)
    free.take(BATCH, WAY)
    assert free.has_water(BATCH, 55, SHAPE)
    free.put(BATCH, WAY._replace(waters=(49, 50)))  # one is past
    assert free.has_water(BATCH, 55, SHAPE) and not free.has_water(BATCH._replace(kg=6100.0), 55, SHAPE)
    cast = BATCH._replace(stood=Stood(bed=0, cast=51))
    free = lasting(water_m3_h=0.0, tank_m3=12.0)
    free.put(cast, WAY._replace(waters=(51,), drains=(51,)))
    assert free.has_water(BATCH, 55, SHAPE)  # one that is cast draws no more


def test_the_drain_of_a_day_takes_so_much_and_no_more():
    """Drained at 8 and 20 hours after the fill: from hour 52 on the third day alone, from 56 on on two days."""
    assert lasting(effluent_m3_day=6.0).has_water(BATCH, 55, SHAPE)
    assert lasting(effluent_m3_day=12.0).has_water(BATCH, 51, SHAPE)
    assert not lasting(effluent_m3_day=11.9).has_water(BATCH, 51, SHAPE)
    assert not lasting(effluent_m3_day=5.9).has_water(BATCH, 55, SHAPE)
    assert lasting(effluent_m3_day=0.0).has_water(BATCH, 29, SHAPE)  # both are past
    assert not lasting(effluent_m3_day=5.9).has_water(BATCH, 30, SHAPE)  # the second is now
    free = lasting(effluent_m3_day=12.0)
    free.put(BATCH, WAY._replace(drains=(71, 95)))  # at 23:00 on two days
    assert free.has_water(BATCH, 55, SHAPE)  # drained at 63 and 75, one on each of the days
    assert free.has_water(BATCH, 51, SHAPE._replace(drains=(8, 21)))  # at 59 and 72
    assert not free.has_water(BATCH, 51, SHAPE._replace(drains=(8, 20)))  # at 59 and 71
    assert not free.has_water(BATCH, 53, SHAPE._replace(drains=(19, 40)))  # at 72 and 93
    free.take(BATCH, WAY._replace(drains=(71, 95)))
    assert free.has_water(BATCH, 51, SHAPE) and free.has_water(BATCH, 53, SHAPE._replace(drains=(19, 40)))
    free.put(BATCH, WAY._replace(drains=(49, 50)))
    assert not free.has_water(BATCH, 51, SHAPE) and free.has_water(BATCH, 55, SHAPE)
    whole = lasting(effluent_m3_day=1.1 + 2.2)
    third = BATCH._replace(kg=1100.0)
    whole.put(third._replace(kg=2200.0), WAY._replace(drains=(60,)))
    assert whole.has_water(third, 52, SHAPE._replace(drains=(8,)))


def test_both_the_tank_and_the_drain_are_asked():
    assert not lasting(water_m3_h=0.0, tank_m3=11.0, effluent_m3_day=99.0).has_water(BATCH, 52, SHAPE)
    assert not lasting(water_m3_h=9.0, tank_m3=11.0, effluent_m3_day=5.0).has_water(BATCH, 52, SHAPE)
    assert lasting(water_m3_h=9.0, tank_m3=11.0, effluent_m3_day=12.0).has_water(BATCH, 51, SHAPE)
