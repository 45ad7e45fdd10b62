"""How often each stated band holds, in simulated houses.

    python -m bench.calibration [batches] [worlds]

For each world (``worlds``) and after 0, 1, 2, 4 and 8 readings: the share of batches whose
truth lay in the band of 95 of 100, the root mean square of the middle's error, and the
median width.  The second table is the steep's own fit, with baskets alone.
"""

import sys
import time
from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np

from bench.worlds import (
    BARLEY_MOISTURE,
    CAST_H,
    FIRST_DRAIN_H,
    PLAN,
    REST_END_H,
    SECOND_DRAIN_H,
    WORLDS,
    World,
    readings,
)
from calculators.models.living.ensemble import Band, Ensemble, ensemble
from calculators.models.living.lot_plan_state import Lot
from calculators.models.steep.doubt import trust
from calculators.models.steep.fit import Reading as Weighed
from calculators.models.steep.fit import fit
from calculators.models.steep.hydration import steep

COUNTS = (0, 1, 2, 4, 8)
BATCHES = 200
SEED = 20

FIGURES = {
    "moisture at the cast [points]": ("moisture", CAST_H),
    "moisture three days later [points]": ("moisture", CAST_H + 72.0),
    "warmth at the end of the last rest [K]": ("warmth", REST_END_H),
    "warmth on the third day [K]": ("warmth", CAST_H + 66.0),
    "heat on the third day [kW/t]": ("heat", CAST_H + 66.0),
    "chitted 8 h after the cast [share]": ("chitted", CAST_H + 8.0),
    "ready on the sixth day [share]": ("ready", CAST_H + 126.0),
}
TRUTH = {"moisture": "drained"}


class Held(NamedTuple):
    """How one band fared after some readings."""

    held: float
    error: float
    width: float


def bands(one: Ensemble) -> dict[str, Band]:
    return {name: getattr(one, figure)([hour]) for name, (figure, hour) in FIGURES.items()}


def truths(world: World) -> dict[str, Any]:
    return {
        name: np.broadcast_to(getattr(world, TRUTH.get(figure, figure))(hour), world.batches)
        for name, (figure, hour) in FIGURES.items()
    }


def score(found: list[tuple[float, float, float, float]]) -> Held:
    """Of (truth, low, middle, high); a share that is off by no more than a corn in 200 counts as held."""
    rows = np.array(found)
    truth, low, middle, high = rows.T
    slack = 0.005 if np.all((truth >= 0.0) & (truth <= 1.0)) else 0.0
    held = (truth >= low - slack) & (truth <= high + slack)
    return Held(float(held.mean()), float(np.sqrt(np.mean((middle - truth) ** 2))), float(np.median(high - low)))


def living(world: World, counts: tuple[int, ...] = COUNTS) -> tuple[dict[tuple[str, int], Held], dict[int, list[Any]]]:
    """The bands of the ensemble in a world, and how readings were taken in."""
    before = ensemble(plan=PLAN, lot=Lot(barley_moisture=BARLEY_MOISTURE))
    real = truths(world)
    rows: dict[tuple[str, int], list[tuple[float, float, float, float]]] = {}
    taken: dict[int, list[Any]] = {}
    for number in range(world.batches):
        all_readings = readings(world, number, SEED)
        for count in counts:
            after = before.corrected(all_readings[:count], seed=number + 1)
            taken.setdefault(count, []).append(after.taken)
            for name, band in bands(after).items():
                row = (float(real[name][number]), band.low[0], band.middle[0], band.high[0])
                rows.setdefault((name, count), []).append(row)
    return {key: score(found) for key, found in rows.items()}, taken


def steeping(world: World, counts: tuple[int, ...] = (0, 1, 2, 4)) -> dict[int, Held]:
    """The band of the steep's own fit at the cast, after baskets at the drains and on the way."""
    typical = steep(barley_moisture=BARLEY_MOISTURE, stages=PLAN.stages)
    random = np.random.default_rng(SEED)
    rows: dict[int, list[tuple[float, float, float, float]]] = {}
    for number in range(world.batches):
        weighed = []
        for hour in (FIRST_DRAIN_H, SECOND_DRAIN_H, 4.0, 20.0):
            own = float(np.broadcast_to(world.lot.barley_moisture, world.batches)[number])
            drier = (100.0 - BARLEY_MOISTURE) / (100.0 - own)
            shown = 100.0 - (100.0 - float(world.drained(hour)[number])) * drier
            off = float(world.errors.basket_points[number]) + world.errors.basket_sd * random.standard_normal()
            weighed.append(Weighed(hour, shown + off))
        for count in counts:
            if count:
                done = fit(typical, weighed[:count])
                course, doubt = done.course, done.trust
            else:
                course, doubt = typical, trust(typical)
            band = doubt.band([CAST_H])
            row = (float(world.drained(CAST_H)[number]), band.low[0], course.at(CAST_H).drained, band.high[0])
            rows.setdefault(count, []).append(row)
    return {count: score(found) for count, found in rows.items()}


def show(count: int, names: Sequence[str]) -> None:
    print(f"{count} batches a world; held % / root mean square error / median width")
    for name in names:
        world = WORLDS[name](count, SEED)
        begun = time.perf_counter()
        held, taken = living(world)
        print(f"\n{name}: {time.perf_counter() - begun:.0f} s")
        print(f"{'readings':42s}" + "".join(f"{n:>20d}" for n in COUNTS))
        for figure in FIGURES:
            cells = [held[figure, n] for n in COUNTS]
            print(f"{figure:42s}" + "".join(f"{100 * c.held:7.1f} {c.error:5.2f} {c.width:6.2f}" for c in cells))
        for n in COUNTS[1:]:
            fewest = min(t.effective for t in taken[n])
            wide = sum(t.widened for t in taken[n])
            print(
                f"    {n} readings: fewest members that counted {fewest:.0f}, most draws "
                f"{max(t.draws for t in taken[n])}, widened {wide} of {count}"
            )
        baskets = steeping(world)
        print(
            "    steep's own fit, moisture at the cast, 0/1/2/4 baskets: "
            + "  ".join(f"{100 * c.held:.1f} {c.error:.2f} {c.width:.2f}" for c in baskets.values())
        )


def main() -> None:
    asked = sys.argv[2:] or list(WORLDS)
    show(int(sys.argv[1]) if len(sys.argv) > 1 else BATCHES, asked)


if __name__ == "__main__":
    main()
