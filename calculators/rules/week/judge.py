"""Whether a plan can be: each place held once, no stop passed, hands there; written apart from the search."""

from collections.abc import Sequence

from .house import (
    RESTS_MOST,
    WAITS_MOST,
    Batch,
    House,
    Plan,
    over,
    people_needed,
    rests_of,
    soaked_m3,
    taken_kg,
    water_lasts,
)


def crowded(house: House, batches: Sequence[Batch], plan: Plan) -> list[tuple[int, int]]:
    """Hours at which casts and loads together need more people than are there, though each has enough: hour, people."""
    needed: dict[int, int] = {}
    for batch in batches:
        way, stood = plan[batch.id], batch.stood
        for hour in (way.cast,) * (stood.cast is None) + (way.load,) * (stood.load is None):
            needed[hour] = needed.get(hour, 0) + people_needed(house, hour)
    return [
        (hour, need) for hour, need in needed.items() if need > max(house.hands[hour % 24], people_needed(house, hour))
    ]


def broken(house: House, batches: Sequence[Batch], plan: Plan) -> list[str]:
    """What of a plan cannot be: one line for each place held twice, stop passed or hand missing; empty where all can.

    A test holds the search against it.
    """
    faults: list[str] = []
    held: dict[tuple[str, int], list[tuple[int, int, float, str]]] = {}
    drawn: list[tuple[int, float]] = []
    let_go: dict[int, float] = {}

    def hold(kind: str, number: int, begin: int, end: int, share: float) -> None:
        held.setdefault((kind, number), []).append((begin, end, share, batch.id))

    for batch in batches:
        way, stood = plan[batch.id], batch.stood
        kiln = house.kilns[way.kiln]
        m3 = soaked_m3(house, batch)
        if stood.cast is None:
            hold("steep", way.steep, way.fill, way.cast + house.clean_steep, 1)
            if batch.kg > house.steeps[way.steep].most_kg:
                faults.append(f"{batch.id}: too large for the steep")
            drawn += [(hour, m3) for hour in way.waters if hour >= house.now]
            for hour in way.drains:
                if hour >= house.now:
                    let_go[hour // 24] = let_go.get(hour // 24, 0.0) + m3
            faults += [f"{batch.id}: drained for {rest} h" for rest in rests_of(batch, way) if rest > RESTS_MOST]
            if way.cast < way.drains[-1] + house.drain:
                faults.append(f"{batch.id}: cast before it is drained")
            if house.hands[way.cast % 24] < people_needed(house, way.cast):
                faults.append(f"{batch.id}: no hands for its cast")
            if way.cast < house.now or (stood.fill is None and way.fill < max(house.now, batch.from_h)):
                faults.append(f"{batch.id}: planned in the past")
        elif stood.steep is not None:  # it is being cleaned, or was
            hold("steep", stood.steep, stood.cast - 1, stood.cast + house.clean_steep, 1)
        if stood.load is None:
            hold("bed", way.bed, way.cast, way.load + house.clean_bed, taken_kg(house.beds[way.bed], batch.kg))
            if batch.kg > house.beds[way.bed].most_kg:
                faults.append(f"{batch.id}: too large for the bed")
            if not 0 <= way.load - way.ready <= WAITS_MOST:
                faults.append(f"{batch.id}: waits {way.load - way.ready} h for the kiln")
            if house.hands[way.load % 24] < people_needed(house, way.load) or way.load < house.now:
                faults.append(f"{batch.id}: no hands for its load")
            if batch.kg > kiln.most_kg:
                faults.append(f"{batch.id}: too large for the kiln")
        elif stood.bed is not None:
            share = taken_kg(house.beds[stood.bed], batch.kg)
            hold("bed", stood.bed, stood.load - 1, stood.load + house.clean_bed, share)
        hold("kiln", way.kiln, way.load, way.off + kiln.turn_round, 1)
    named = {one.name: ("steep", n) for n, one in enumerate(house.steeps)}
    named |= {one.name: ("bed", n) for n, one in enumerate(house.beds)}
    named |= {one.name: ("kiln", n) for n, one in enumerate(house.kilns)}
    for shut in house.closed:
        if shut.place in named:
            for begin, end, _, name in held.get(named[shut.place], []):
                if begin < shut.end and shut.begin < end and begin >= house.now:
                    faults.append(f"{name}: {shut.place} is closed")
    for (kind, number), spells in held.items():
        most = house.beds[number].most_kg if kind == "bed" else 1
        for begin, _, _, name in spells:
            if over(sum(kg for b, e, kg, _ in spells if b <= begin < e), most):
                faults.append(f"{name}: {kind} {number + 1} is full")
    faults += [f"{need} people at casts and loads of hour {hour}" for hour, need in crowded(house, batches, plan)]
    if house.effluent_m3_day is not None:
        faults += ["more steep water let go in a day" for m3 in let_go.values() if over(m3, house.effluent_m3_day)]
    if house.water_m3_h is not None and not water_lasts(drawn, house.water_m3_h, house.tank_m3):
        faults.append("not so much water comes")
    return faults
