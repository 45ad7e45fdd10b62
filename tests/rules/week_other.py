"""The week of a house by other ways: a solver of others, every way tried, and houses drawn by a number.

OR-Tools' CP-SAT is given the same house in its own terms (intervals that must not overlap, hours of allowed sets), so
that it shares nothing with the search but the numbers.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import product
from random import Random
from typing import Any

from ortools.sat.python import cp_model

from calculators.rules.week.house import (
    RESTS_ACCEPTED,
    RESTS_MOST,
    WAITS_ACCEPTED,
    WAITS_MOST,
    Batch,
    Bed,
    Cost,
    House,
    Kiln,
    Plan,
    Steep,
    Stood,
    Way,
    offsets,
    people_needed,
    whole_cost,
)
from calculators.rules.week.judge import broken
from calculators.rules.week.reasons import stood_at
from calculators.rules.week.search import search

WEIGHTS = {"hands": 1 << 36, "late": 1 << 20, "watched": 1 << 8, "changed": 1}


def _hours(house: House, holds: Callable[[int], bool]) -> cp_model.Domain:
    return cp_model.Domain.from_values([hour for hour in range(house.horizon + 24 * 5) if holds(hour)])


def by_cp_sat(
    house: House, batches: tuple[Batch, ...], running: Plan | None = None, seconds: float = 60.0
) -> tuple[Cost | None, bool]:
    """The least cost by CP-SAT, None where it finds that there is no plan; and whether it was sure within the time."""
    model = cp_model.CpModel()
    met = _hours(house, lambda hour: hour < house.now or house.hands[hour % 24] >= 1)  # what is past calls nobody
    casts = _hours(house, lambda hour: hour >= house.now and house.hands[hour % 24] >= people_needed(house, hour))
    steeps: dict[int, list[Any]] = {n: [] for n in range(len(house.steeps))}
    beds: dict[int, list[Any]] = {n: [] for n in range(len(house.beds))}
    kilns: dict[int, list[Any]] = {n: [] for n in range(len(house.kilns))}
    worked: list[Any] = []
    price: list[Any] = []
    far = house.horizon + 24 * 5
    for batch in batches:
        stood, name = batch.stood, batch.id
        waters, drains = offsets(batch.stages)
        load, off = model.new_int_var(0, house.horizon, f"{name} load"), model.new_int_var(0, far, f"{name} off")
        cast = model.new_int_var(0, house.horizon, f"{name} cast")
        wait = model.new_int_var(0, WAITS_MOST, f"{name} wait")
        kiln_is = [model.new_bool_var(f"{name} kiln {n}") for n in range(len(house.kilns))]
        bed_is = [model.new_bool_var(f"{name} bed {n}") for n in range(len(house.beds))]
        steep_is = [model.new_bool_var(f"{name} steep {n}") for n in range(len(house.steeps))]
        for some in (kiln_is, bed_is, steep_is):
            model.add_exactly_one(some)
        for n, one in enumerate(house.kilns):
            if batch.kg > one.most_kg or (stood.kiln is not None and stood.kiln != n):
                model.add(kiln_is[n] == 0)
            model.add(off == load + one.hours).only_enforce_if(kiln_is[n])
            held = model.new_int_var(0, far + 99, "")
            kilns[n].append(
                model.new_optional_interval_var(load, one.hours + one.turn_round, held, kiln_is[n], f"{name} on {n}")
            )
            model.add(held <= house.horizon).only_enforce_if(kiln_is[n])
        if stood.load is not None:
            model.add(load == stood.load)
        called: list[Any] = []
        if stood.cast is None:
            fill = model.new_int_var(0, house.horizon, f"{name} fill")
            if stood.fill is None:
                model.add(fill >= max(house.now, batch.from_h))
            else:
                model.add(fill == stood.fill)
            acts: list[Any] = [fill]
            extra: list[Any] = []
            for place in range(1, len(waters)):
                more = model.new_int_var(0, house.stretch, f"{name} longer {place}")
                rest = waters[place] - drains[place - 1]
                if rest + house.stretch > RESTS_MOST:
                    model.add(more <= max(0, RESTS_MOST - rest))
                if stood.fill is not None:  # a rest that is over is not made longer
                    longer = model.new_bool_var("")
                    model.add(more == 0).only_enforce_if(~longer)
                    model.add(fill + waters[place] + sum(extra) >= house.now).only_enforce_if(longer)
                extra.append(more)
            for place in range(len(waters)):
                shift = sum(extra[:place])
                if place:
                    acts.append(fill + waters[place] + shift)
                acts.append(fill + drains[place] + shift)
                if place:
                    rest = waters[place] - drains[place - 1]
                    over = model.new_int_var(0, 99, "")
                    model.add(over >= rest + extra[place - 1] - RESTS_ACCEPTED)
                    price.append(WEIGHTS["watched"] * over)
            lies = model.new_int_var(house.drain, RESTS_MOST, f"{name} lies drained")
            model.add(cast == fill + drains[-1] + sum(extra) + lies)
            over = model.new_int_var(0, 99, "")
            model.add(over >= lies - RESTS_ACCEPTED)
            price.append(WEIGHTS["watched"] * over)
            model.add_linear_expression_in_domain(cast, casts)
            worked.append(model.new_fixed_size_interval_var(cast, 1, f"{name} is cast"))
            called = acts
            for n, steep in enumerate(house.steeps):
                if batch.kg > steep.most_kg or (stood.steep is not None and stood.steep != n):
                    model.add(steep_is[n] == 0)
                size, end = model.new_int_var(0, 999, ""), model.new_int_var(0, far, "")
                model.add(end == cast + house.clean_steep)
                steeps[n].append(model.new_optional_interval_var(fill, size, end, steep_is[n], f"{name} in {n}"))
                model.add(end <= house.horizon)
        else:
            model.add(cast == stood.cast)
            if stood.steep is not None:  # it is being cleaned, or was
                steeps[stood.steep].append(model.new_fixed_size_interval_var(stood.cast, house.clean_steep, name))
        for n, bed in enumerate(house.beds):
            if batch.kg > bed.most_kg or (stood.bed is not None and stood.bed != n):
                model.add(bed_is[n] == 0)
            if stood.load is None:
                ready = cast + batch.grow[n] if stood.ready is None or stood.cast is None else stood.ready
                model.add(load == ready + wait).only_enforce_if(bed_is[n])
            size, end = model.new_int_var(0, 9999, ""), model.new_int_var(0, far, "")
            model.add(end == load + house.clean_bed)
            model.add(end <= house.horizon)
            lain = model.new_optional_interval_var(cast, size, end, bed_is[n], f"{name} lies in {n}")
            beds[n].append((lain, round(batch.kg if bed.shared else bed.most_kg)))
        over = model.new_int_var(0, 99, "")
        model.add(over >= wait - WAITS_ACCEPTED)
        price.append(WEIGHTS["watched"] * over)
        if stood.load is None:
            model.add_linear_expression_in_domain(load, casts)
            worked.append(model.new_fixed_size_interval_var(load, 1, f"{name} is loaded"))
        for act in [*called, off]:
            comes = model.new_bool_var("")
            model.add_linear_expression_in_domain(act, met).only_enforce_if(~comes)
            price.append(WEIGHTS["hands"] * comes)
        if batch.due is not None:
            late = model.new_int_var(0, far, "")
            model.add(late >= off - batch.due)
            price.append(WEIGHTS["late"] * late)
        before = (running or {}).get(name)
        if before is not None:
            lines: list[Any] = [(load, before.load, kiln_is[before.kiln])] if stood.load is None else []
            if stood.cast is None:
                lines.append((cast, before.cast, bed_is[before.bed]))
                lines += [(fill, before.fill, steep_is[before.steep])] if stood.fill is None else []
            for at, was, place in lines:
                kept = model.new_bool_var("")
                model.add(at == was).only_enforce_if(kept)
                model.add_implication(kept, place)
                price.append(WEIGHTS["changed"] * (1 - kept))
    for held_by in (*steeps.values(), *kilns.values()):
        model.add_no_overlap(held_by)
    for n, lain_in in beds.items():
        model.add_cumulative([one for one, _ in lain_in], [kg for _, kg in lain_in], round(house.beds[n].most_kg))
    most = max(house.hands)
    away = [
        (model.new_fixed_size_interval_var(hour, 1, ""), most - house.hands[hour % 24])
        for hour in range(house.horizon + 1)
        if house.hands[hour % 24] < most
    ]
    assert all(people_needed(house, hour) == house.cast_hands for hour in range(24) if house.hands[hour] >= 2)
    needs = [*(one for one, _ in away), *worked], [*(gone for _, gone in away), *[house.cast_hands] * len(worked)]
    model.add_cumulative(*needs, most)
    model.minimize(sum(price))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return None, True
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None, False
    rest, digits = round(solver.objective_value), []
    for weight in WEIGHTS.values():
        digits.append(rest // weight)
        rest %= weight
    return Cost(*digits), status == cp_model.OPTIMAL


def drawn_again(seed: int, most_batches: int = 5) -> tuple[House, tuple[Batch, ...], Plan] | None:
    """A drawn house on its fourth day, one batch late at what comes next: the house, its batches, the plan on the wall.

    None where the house has no plan.
    """
    house, batches = drawn_house(seed, most_batches)
    plan = search(house, batches).plan
    if plan is None:
        return None
    draw, now = Random(seed), house.now + 72
    late = draw.choice([batch.id for batch in batches if plan[batch.id].load > now])
    later = []
    for batch in batches:
        one, way = stood_at(batch, plan[batch.id], now - 1), plan[batch.id]
        stood = one.stood
        if batch.id == late and stood.cast is not None:
            one = one._replace(stood=stood._replace(ready=way.ready + 24))
        elif batch.id == late:
            one = one._replace(from_h=way.fill + 24) if stood.fill is None else one
        later.append(one)
    return house._replace(now=now), tuple(later), plan


def every_way(house: House, batch: Batch) -> list[Way]:
    """All ways of a batch that was not begun, with the house to itself."""
    waters, drains = offsets(batch.stages)
    found = []
    for fill in range(max(house.now, batch.from_h), house.horizon):
        for extra in product(range(house.stretch + 1), repeat=len(waters) - 1):
            moved = [sum(extra[:n]) for n in range(len(waters))]
            w = tuple(fill + hour + more for hour, more in zip(waters, moved, strict=True))
            d = tuple(fill + hour + more for hour, more in zip(drains, moved, strict=True))
            for cast in range(d[-1] + house.drain, d[-1] + RESTS_MOST + 1):
                for steep, bed, kiln, wait in product(
                    range(len(house.steeps)), range(len(house.beds)), range(len(house.kilns)), range(WAITS_MOST + 1)
                ):
                    ready = cast + batch.grow[bed]
                    load = ready + wait
                    off = load + house.kilns[kiln].hours
                    last = max(off + house.kilns[kiln].turn_round, load + house.clean_bed, cast + house.clean_steep)
                    way = Way(steep, w, d, bed, cast, ready, kiln, load, off)
                    if last <= house.horizon and not broken(house, (batch,), {batch.id: way}):
                        found.append(way)
    return found


def by_trying_all(house: House, batches: tuple[Batch, ...], running: Plan | None = None) -> Cost | None:
    """The least cost of all plans, each tried; None where there is none."""
    best: tuple[int, ...] | None = None
    ways = [
        [(tuple(whole_cost(house, (batch,), {batch.id: way}, running)), way) for way in every_way(house, batch)]
        for batch in batches
    ]
    names = [batch.id for batch in batches]
    for some in product(*ways):  # what a plan costs is what its ways cost together: each is reckoned once
        cost = tuple(map(sum, zip(*(one for one, _ in some), strict=True)))
        if best is None or cost < best:
            plan = dict(zip(names, (way for _, way in some), strict=True))
            if not broken(house, batches, plan):
                best = cost
    return None if best is None else Cost(*best)


def drawn_house(seed: int, most_batches: int = 5) -> tuple[House, tuple[Batch, ...]]:
    """A house with its batches, drawn by a number: the same each time."""
    draw = Random(seed)
    steeps = tuple(Steep(f"steep {n}", draw.choice((5000.0, 6000.0))) for n in range(draw.choice((1, 1, 2))))
    beds = [Bed("floor", "floor", draw.choice((6000.0, 9000.0, 12000.0)), True)]
    beds += [Bed("drum", "drum", 6500.0)] * draw.choice((0, 1, 1))
    beds += [Bed("second floor", "floor", 5500.0, True)] * draw.choice((0, 0, 1))
    kiln = Kiln("kiln", 7000.0, draw.choice((24, 30, 36)), draw.choice((2, 4)))
    by_day, until = draw.choice(((6, 14), (6, 16), (7, 15))), draw.choice((18, 22))
    hands = tuple(2 if by_day[0] <= h < by_day[1] else 1 if by_day[0] - 1 <= h < until else 0 for h in range(24))
    now = 96 + draw.randrange(12, 24)
    stages = draw.choice(((8.0, 8.0, 8.0, 12.0, 3.0), (6.0, 10.0, 6.0), (10.0, 8.0, 10.0, 10.0, 5.0)))
    count = draw.randrange(2, most_batches + 1)
    house = House(
        steeps,
        tuple(beds),
        (kiln,),
        hands,
        clean_bed=draw.choice((2, 4)),
        stretch=draw.choice((0, 1, 2)),
        now=now,
        horizon=24 * 28,
    )
    batches, due = [], 24 * draw.choice((11, 12, 13)) + 12
    for n in range(count):
        kg = 500.0 * draw.randrange(7, 11)
        grow = tuple(draw.randrange(96, 130) for _ in beds)
        stood = Stood()
        if n == 0 and draw.random() < 0.4:
            stood = Stood(steep=None, fill=None, bed=0, cast=now - draw.randrange(1, 60))
        batches.append(Batch(f"batch-{n + 1}", kg, due, stages, grow, stood=stood))
        due += draw.choice((12, 24, 36, 48))
    return house, tuple(batches)
