"""Time an ensemble from fill to kiln, its bands and corrections, in this Python and in the browser's own, under Node.

    python -m bench.ensemble

Wanted: 300 members from fill to kiln in 250 ms in the browser's Python.
"""

import json
from typing import Any

from site_src.node_run import run_python
from site_src.runtime import read_pins, served_runtime
from site_src.settings import ROOT

CODE = """
import sys, time
sys.path.insert(0, "/source")

def main(_):
    begun = time.perf_counter()
    from calculators.models.living.ensemble import ensemble
    from calculators.models.living.readings import AcrospireCount, Basket, BottomTop, Chits, Oven, Probe
    from calculators.models.living.lot_plan_state import BedSpell, Lot, Plan
    from calculators.models.steep.course import Stage

    imported = 1000.0 * (time.perf_counter() - begun)
    stages = tuple(Stage(h, 14.0) for h in (8, 8, 8, 12, 3))
    plan = Plan(stages, tuple(BedSpell(24.0, 15.0) for _ in range(6)))
    lot = Lot(barley_moisture=12.5)
    hours = [8, 24, 39, 63, 87, 111, 135, 159, 183]
    seen = [Basket(8, 32), Basket(24, 39.5), Probe(36, 15.5), Chits(39, 55, 100), Oven(63, 43),
            BottomTop(95, 18.5, 15.5, 8, 0.15), Probe(99, 16), AcrospireCount(123, (4, 20, 70, 6, 0))]

    def bands(one):
        for figure in (one.moisture, one.warmth, one.chitted, one.ready):
            figure(hours)
        one.hours_until(0.8)
        one.hours_until(0.75, "ready")

    found = [["imports", imported, imported]]
    before = ensemble(plan=plan, lot=lot)
    for name, work in (
        ("300 members from fill to kiln", lambda: ensemble(plan=plan, lot=lot).states),
        ("bands and hours of nine moments", lambda: bands(before)),
        ("one reading taken in", lambda: before.corrected(seen[:1])),
        ("four readings taken in", lambda: before.corrected(seen[:4])),
        ("eight readings taken in", lambda: before.corrected(seen)),
    ):
        times = []
        for _ in range(5):
            begun = time.perf_counter()
            work()
            times.append(1000.0 * (time.perf_counter() - begun))
        found.append([name, min(times), sorted(times)[2]])
    return found
"""


def main() -> None:
    here: dict[str, Any] = {}
    exec(CODE, here)  # the same piece of source in both
    packages = ["numpy", "psychrolib"]
    for where, found in (
        ("this Python", here["main"](None)),
        (
            "the browser's Python",
            run_python(CODE, None, runtime=served_runtime(read_pins()), folders={"/source": ROOT}, packages=packages),
        ),
    ):
        print(where)
        for name, best, middle in json.loads(json.dumps(found)):
            print(f"    {name:40s} best {best:6.0f} ms, median {middle:6.0f} ms")


if __name__ == "__main__":
    main()
