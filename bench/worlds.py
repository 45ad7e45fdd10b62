"""Simulated houses: batches whose truth is known, in the model's own world, a plausible other one and a harsh one.

Truths are drawn and sent through the plan many at a time; each house then reads its batch as
a house would, with errors of its own.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any, NamedTuple

import numpy as np

from calculators.models.bed.floor import apart_when_read
from calculators.models.living import breathing
from calculators.models.living.acrospires import Acrospires, shares_below
from calculators.models.living.arrays import ARRAYS
from calculators.models.living.batch import drive
from calculators.models.living.chitting import Corns, share_chitted
from calculators.models.living.doubts import NAMES, UNKNOWNS, moved
from calculators.models.living.lot_plan_state import BedSpell, Lot, Plan, State, at_hour
from calculators.models.living.readings import ROOM_C, AcrospireCount, Basket, BottomTop, Chits, Oven, Probe, Reading
from calculators.models.living.shells import ShellWater
from calculators.models.steep.course import Stage

BARLEY_MOISTURE = 12.5
PLAN = Plan(
    tuple(Stage(h, 14.0) for h in (8.0, 8.0, 8.0, 12.0, 3.0)),
    tuple(BedSpell(24.0, t) for t in (14.0, 15.0, 15.5, 16.0, 16.0, 16.0, 16.0)),
    rest_air_c=14.0,
)
CAST_H = 39.0
FIRST_DRAIN_H, SECOND_DRAIN_H, REST_END_H = 8.0, 24.0, 36.0


class Errors(NamedTuple):
    """How a house reads: lasting errors by batch, and the scatter of single readings."""

    basket_points: Any
    probe_k: Any
    shape_points: Any
    basket_sd: float
    oven_sd: float
    probe_sd: float
    handful: float  # corns of a handful that tell as much as corns from all places, a share


class World(NamedTuple):
    """Some batches of a world: what they are, their way, and how they are read."""

    name: str
    lot: Lot
    states: list[State]
    errors: Errors
    batches: int

    def truth(self, hour: float, figure: Callable[[State], Any]) -> Any:
        """A figure of all batches at an hour, shape (batches,)."""
        return np.broadcast_to(at_hour(self.states, hour, figure), (self.batches,))

    def drained(self, hour: float) -> Any:
        return self.truth(hour, lambda s: s.drained) + self.errors.shape_points

    def warmth(self, hour: float) -> Any:
        return self.truth(hour, lambda s: s.temp_c)

    def heat(self, hour: float) -> Any:
        return self.truth(hour, lambda s: s.heat_kw)

    def chitted(self, hour: float) -> Any:
        return share_chitted(ARRAYS, self.truth(hour, lambda s: s.chit_h), self.lot.corns)

    def below(self, hour: float) -> list[Any]:
        return shares_below(ARRAYS, self.truth(hour, lambda s: s.growth_h), self.lot.corns, self.lot.acrospires)

    def ready(self, hour: float) -> Any:
        return 1.0 - self.below(hour)[2]


@contextmanager
def other_breathing(rise_h: float, fall_h: float) -> Iterator[None]:
    """Breathing that peaks at another hour, as long as this holds."""
    kept = breathing.RISE_H, breathing.FALL_H, breathing._HIGHEST
    try:
        breathing.RISE_H, breathing.FALL_H = rise_h, fall_h
        breathing._HIGHEST = breathing._highest()
        yield
    finally:
        breathing.RISE_H, breathing.FALL_H, breathing._HIGHEST = kept


def own(count: int, seed: int) -> World:
    """The model's own world: everything as the doubts say."""
    random = np.random.default_rng(seed)
    z = random.standard_normal((len(UNKNOWNS), count))
    lot = moved(ARRAYS, Lot(barley_moisture=BARLEY_MOISTURE), list(z))
    alike = {name: z[NAMES.index(name)] * UNKNOWNS[NAMES.index(name)].sd for name in ("basket", "probe", "shape")}
    errors = Errors(alike["basket"], alike["probe"], alike["shape"], 0.25, 0.4, 0.7, 0.5)
    return World("own", lot, drive(ARRAYS, lot, PLAN, ShellWater(lot, count)), errors, count)


def _other(
    count: int, random: np.random.Generator, *, wide: float, rest: Any, basket: float, probe: float
) -> tuple[Lot, Plan, Errors]:
    """Batches of another make, with what is not known ``wide`` times as wide."""
    n = random.standard_normal
    t3 = random.standard_t(3.0, (2, count))
    lot = Lot(
        barley_moisture=BARLEY_MOISTURE + 0.35 * wide * n(count),
        # Lots as four sites and years allow them: Student's t about the same middle.
        rate_factor=np.clip(np.exp(0.29 * wide * t3[0]), 0.25, 4.0),
        first_uptake_db=np.clip(0.058 * wide * t3[1], -0.2, 0.2),
        rest_factor=rest,
        film_db=random.uniform(0.02, 0.09, count),
        activation_kj_mol=45.0 + 6.0 * n(count),
        surface_db=np.clip(0.95 + 0.07 * wide * n(count), 0.7, 1.3),
        breath_factor=np.exp(0.36 * wide * n(count)),
        breath_level=np.clip(0.13 * np.exp(0.5 * wide * n(count)), 0.0, 0.9),
        cold_kj_mol=np.clip(62.0 + 12.0 * n(count), 20.0, 110.0),
        warm_kj_mol=np.clip(52.0 + 10.0 * n(count), 20.0, 110.0),
        corns=Corns(
            15.0 * np.exp(0.3 * wide * n(count)),
            0.33 * np.exp(0.25 * wide * n(count)),  # a little less even than the law has them
            np.clip(0.985 - random.gamma(2.0, 0.012 * wide, count), 0.3, 1.0),
            np.clip(random.gamma(1.0, 0.05 * wide, count), 0.0, 0.6),
        ),
        chit_base_c=-2.1 + 1.5 * n(count),
        growth_q10=np.clip(2.2 + 0.25 * wide * n(count), 1.3, 4.0),
        acrospires=Acrospires(
            125.0 * np.exp(0.2 * wide * n(count)), 17.0 + 4.0 * n(count), 0.08 * np.exp(0.25 * wide * n(count))
        ),
        warmer_k=0.6 * wide * n(count),
        drying_factor=np.exp(0.3 * wide * n(count)),
        suction_factor=np.exp(0.5 * wide * n(count)),
        leached=np.clip(0.008 + 0.003 * wide * n(count), 0.0, 0.03),
    )
    # The water is not quite as warm as written, and each day's bed not as planned.
    off: Any = lambda: 0.4 * wide * n(count)  # noqa: E731
    stages = tuple(s._replace(water_temp_c=s.water_temp_c + off()) for s in PLAN.stages)
    bed = tuple(b._replace(temp_c=b.temp_c + off()) for b in PLAN.bed)
    errors = Errors(
        basket * n(count), probe * n(count), 0.2 * wide * n(count), 0.25 * wide, 0.4 * wide, 0.7 * wide, 0.5 / wide
    )
    return lot, PLAN._replace(stages=stages, bed=bed), errors


def plausible(count: int, seed: int) -> World:
    """Another world that could be: other rests, uneven corns, water and bed not as written, meters and baskets off."""
    random = np.random.default_rng(seed)
    rest = random.uniform(1.0, 2.0, count)
    lot, plan, errors = _other(count, random, wide=1.0, rest=rest, basket=0.35, probe=0.35)
    with other_breathing(50.0, 140.0):
        return World("plausible", lot, drive(ARRAYS, lot, plan, ShellWater(lot, count)), errors, count)


def harsh(count: int, seed: int) -> World:
    """A world that is not what the doubts say: rests that do nothing or very much, all spreads half as wide again."""
    random = np.random.default_rng(seed)
    rest = random.choice([1.0, 2.2], count)
    lot, plan, errors = _other(count, random, wide=1.5, rest=rest, basket=0.7, probe=0.8)
    with other_breathing(60.0, 120.0):
        return World("harsh", lot, drive(ARRAYS, lot, plan, ShellWater(lot, count)), errors, count)


WORLDS: dict[str, Callable[[int, int], World]] = {"own": own, "plausible": plausible, "harsh": harsh}


def readings(world: World, number: int, seed: int) -> list[Reading]:
    """Eight readings of one batch of a world, in the order in which a house takes them."""
    random = np.random.default_rng((seed, number))
    errors, i = world.errors, number

    def basket(hour: float) -> Basket:
        drier = (100.0 - BARLEY_MOISTURE) / (
            100.0 - float(np.broadcast_to(world.lot.barley_moisture, world.batches)[i])
        )
        real = 100.0 - (100.0 - float(world.drained(hour)[i])) * drier
        return Basket(hour, real + float(errors.basket_points[i]) + errors.basket_sd * random.standard_normal())

    def counted(shares: list[float], corns: int) -> list[int]:
        tell = max(1, round(corns * errors.handful))
        drawn = random.multinomial(tell, np.clip(shares, 0.0, None) / np.clip(shares, 0.0, None).sum())
        found = [int(x) for x in np.floor(drawn * corns / tell)]
        found[int(np.argmax(drawn))] += corns - sum(found)
        return found

    def probe(hour: float) -> Probe:
        off = float(errors.probe_k[i]) + errors.probe_sd * random.standard_normal()
        return Probe(hour, float(world.warmth(hour)[i]) + off)

    chits = float(world.chitted(CAST_H)[i])
    below = [float(np.broadcast_to(b, world.batches)[i]) for b in world.below(CAST_H + 84.0)]
    lengths = [b - a for a, b in zip([0.0, *below], [*below, 1.0], strict=True)]
    over_room = float(world.warmth(CAST_H + 56.0)[i]) - ROOM_C
    apart = apart_when_read(hours=8.0, depth_m=0.15).of(over_room, float(world.heat(CAST_H + 56.0)[i]))
    difference = apart * float(np.exp(0.3 * random.standard_normal())) + 0.7 * random.standard_normal()
    mean = probe(CAST_H + 56.0).temp_c
    found: list[Reading] = [
        basket(FIRST_DRAIN_H),
        basket(SECOND_DRAIN_H),
        probe(REST_END_H),
        Chits(CAST_H, counted([chits, 1.0 - chits], 100)[0], 100),
        Oven(CAST_H + 24.0, float(world.drained(CAST_H + 24.0)[i]) + errors.oven_sd * random.standard_normal()),
        BottomTop(CAST_H + 56.0, mean + difference / 2.0, mean - difference / 2.0, 8.0, 0.15),
        probe(CAST_H + 60.0),
        AcrospireCount(CAST_H + 84.0, tuple(counted(lengths, 100))),  # type: ignore[arg-type]
    ]
    return found
