"""Time a whole steep against scipy's solve_ivp at equal error.

    python -m bench.hydration

scipy gets a choice of integrators, grids and tolerances; the fastest one that keeps every
stage end within 1e-4 points of a reference counts.  The reference is a fine grid at tight
tolerance, extrapolated.
"""

import time
from collections.abc import Callable
from itertools import product

from calculators.models.steep.hydration import SURFACE_DB, steep, uptake_rate
from tests.published.stiff_steep import extrapolated_ends, stage_ends

ERROR_POINTS = 1e-4
STAGES = [(8.0, 14.0), (8.0, 14.0), (8.0, 14.0), (12.0, 14.0), (3.0, 14.0), (6.0, 14.0)]
BARLEY_MOISTURE = 12.5
FILM_DB = 0.05


def points(moisture_db: float) -> float:
    return 100.0 * moisture_db / (1.0 + moisture_db)


def best_of(count: int, work: Callable[[], object]) -> float:
    times = []
    for _ in range(count):
        begun = time.perf_counter()
        work()
        times.append(time.perf_counter() - begun)
    return min(times)


def main() -> None:
    rates, rested = [], 0.0
    for number, (hours, water_temp_c) in enumerate(STAGES):
        faster = 1.0 + 0.5 * min(1.0, rested / 4.0)
        rates.append((hours, faster * uptake_rate(water_temp_c=water_temp_c)))
        rested += hours * (number % 2)
    case = {
        "start_db": BARLEY_MOISTURE / (100.0 - BARLEY_MOISTURE),
        "surface_db": SURFACE_DB,
        "film_db": FILM_DB,
        "stages": rates,
    }
    reference = [points(x) for x in extrapolated_ends(shells=120, rtol=1e-10, atol=1e-12, **case)]

    def ours() -> list[float]:
        course = steep(barley_moisture=BARLEY_MOISTURE, stages=STAGES, film_db=FILM_DB)
        return [end.net for end in course.ends]

    def worst(ends: list[float]) -> float:
        return max(abs(a - b) for a, b in zip(ends, reference, strict=True))

    ours()  # fills the tables of modes, once a visit
    our_time, our_error = best_of(200, ours), worst(ours())
    print(f"series:    {our_time * 1e3:8.3f} ms   error {our_error:.1e} points")

    def whole() -> object:
        course = steep(barley_moisture=BARLEY_MOISTURE, stages=STAGES, film_db=FILM_DB)
        return course.ends, course.curve(150), course.time_to_moisture(44.0)

    print(f"with a curve of 150 points and a time to target: {best_of(50, whole) * 1e3:.3f} ms")
    found = []
    grids: list[tuple[str, Callable[..., list[float]], tuple[int, ...]]] = [
        ("extrapolated", extrapolated_ends, (12, 16, 24, 32)),
        ("single", stage_ends, (100, 200)),
    ]
    for (name, road, sizes), method, rtol in product(grids, ("LSODA", "Radau", "BDF"), (1e-5, 1e-6)):
        for shells in sizes:

            def theirs(
                road: Callable[..., list[float]] = road,
                shells: int = shells,
                method: str = method,
                rtol: float = rtol,
            ) -> list[float]:
                found = road(shells=shells, method=method, rtol=rtol, atol=rtol / 100.0, **case)
                return [points(x) for x in found]

            error = worst(theirs())
            if error <= ERROR_POINTS:
                found.append((best_of(2, theirs), f"{name} {method} {shells} {rtol:g}", error))
                break
    best, setting, error = min(found)
    print(f"solve_ivp: {best * 1e3:8.1f} ms   error {error:.1e} points   ({setting} shells, rtol)")
    print(f"ratio: {best / our_time:.0f} times faster (wanted: 50)")


if __name__ == "__main__":
    main()
