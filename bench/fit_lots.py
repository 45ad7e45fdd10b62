"""Fit the constants of the steep model again to the published lots, with scipy.

    python -m bench.fit_lots

Prints the error by lot, for several surface values and ways of counting, and how well a
lot is forecast from two readings when its own data had no part in the constants.
"""

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from scipy.optimize import least_squares

from calculators.models.steep.doubt import TYPICAL
from calculators.models.steep.sphere import filled_fraction
from tests.published.uptake_lots import HOURS, MOISTURE, SITE_YEARS, START_MOISTURE

START_DB = START_MOISTURE / (100.0 - START_MOISTURE)
LOTS = list(MOISTURE)
READING_SD = 0.2


def net(log_rate: float, first_db: float, surface_db: float, hours: Sequence[float] = HOURS) -> Any:
    rate = float(np.exp(log_rate))
    filled = np.array([filled_fraction(fo=rate * h) for h in hours])
    wet = START_DB + first_db
    db = wet + (surface_db - wet) * filled
    return 100.0 * db / (1.0 + db)


class LotsFit(NamedTuple):
    rate_per_h: float
    rate_spread: float
    first_uptake_db: float
    first_uptake_spread: float
    error_points: float
    by_lot: dict[str, float]
    found: Any  # log rate and first uptake of each lot, shape (lots, 2)


def fit_all(surface_db: float) -> LotsFit:
    """Rate and first uptake for each lot, at one surface value for all."""
    found, misses = [], {}
    for lot in LOTS:

        def missed(p: Any, lot: str = lot) -> Any:
            return net(p[0], p[1], surface_db) - MOISTURE[lot]

        done = least_squares(missed, [np.log(0.002), 0.0], x_scale=[0.3, 0.03])
        found.append(done.x)
        misses[lot] = float(np.sqrt(np.mean(done.fun**2)))
    rates, firsts = np.array(found).T
    return LotsFit(
        float(np.exp(rates.mean())),
        float(rates.std(ddof=1)),
        float(firsts.mean()),
        float(firsts.std(ddof=1)),
        float(np.sqrt(np.mean(np.square(list(misses.values()))))),
        misses,
        np.array(found),
    )


def site_years(found: LotsFit) -> tuple[Any, Any]:
    """Standard deviations of log rate and first uptake between sites and years, and within one of them."""
    places = [[found.found[n] for n, lot in enumerate(LOTS) if lot.startswith(place)] for place in SITE_YEARS]
    means = np.array([np.mean(lots, axis=0) for lots in places])
    apart = np.array([(lots[0] - lots[1]) / 2**0.5 for lots in places])
    return means.std(axis=0, ddof=1), np.sqrt(np.mean(apart**2, axis=0))


def together(lots: Sequence[str], shrink: bool, firsts: bool) -> tuple[Any, float, float, dict[str, float]]:
    """One surface value for all lots with a rate each and, if wanted, a first uptake each."""
    count = len(lots)

    def parts(p: Any) -> tuple[Any, Any, float]:
        return p[:count], p[count : 2 * count] * firsts, float(p[-1])

    def missed(p: Any) -> Any:
        rates, first, surface = parts(p)
        off = [net(rates[n], first[n], surface) - MOISTURE[lot] for n, lot in enumerate(lots)]
        ties = [(rates - rates.mean()) / TYPICAL.rate, p[count : 2 * count] / TYPICAL.first_uptake_db]
        if not shrink:
            ties = [1e-6 * p[count : 2 * count]]
        return np.concatenate([np.concatenate(off) / READING_SD, *ties])

    start = np.concatenate([np.full(count, np.log(0.0018)), np.zeros(count), [1.0]])
    done = least_squares(missed, start)
    rates, first, surface = parts(done.x)
    errors = {
        lot: float(np.sqrt(np.mean((net(rates[n], first[n], surface) - MOISTURE[lot]) ** 2)))
        for n, lot in enumerate(lots)
    }
    return rates, float(np.exp(rates.mean())), surface, errors


def forecast_left_out(lot: str, hours: Sequence[float], at_h: float = 35.0) -> float:
    """Forecast of a lot from its readings, all constants from the other lots."""
    others = [other for other in LOTS if other[:3] != lot[:3]]
    _, rate, surface, _ = together(others, shrink=True, firsts=True)
    seen = np.array([MOISTURE[lot][HOURS.index(h)] for h in hours])

    def missed(p: Any) -> Any:
        off = (net(np.log(rate) + p[0], p[1], surface, hours) - seen) / READING_SD
        return np.concatenate([off, [p[0] / TYPICAL.rate, p[1] / TYPICAL.first_uptake_db]])

    done = least_squares(missed, [0.0, 0.0], x_scale=[0.3, 0.03])
    return float(net(np.log(rate) + done.x[0], done.x[1], surface, [at_h])[0])


def show(name: str, errors: dict[str, float]) -> None:
    by_lot = "  ".join(f"{lot} {error:.2f}" for lot, error in errors.items())
    whole = np.sqrt(np.mean(np.square(list(errors.values()))))
    print(f"{name:46s} {whole:.3f} points   {by_lot}")


def main() -> None:
    print("Root mean square error, eight lots of six weighings")
    _, rate, surface, errors = together(LOTS, shrink=False, firsts=False)
    show(f"a rate each, one surface ({surface:.2f}), {rate:.5f}/h", errors)
    for surface in (0.9, 0.93, 1.0, 1.1):
        found = fit_all(surface)
        show(f"rate and first uptake each, surface {surface:.2f}", found.by_lot)
        print(
            f"    {found.rate_per_h:.5f}/h, spread of its logarithm {found.rate_spread:.2f}; "
            f"first uptake {found.first_uptake_db:+.3f} spread {found.first_uptake_spread:.3f}"
        )
    print("Error at 35 h of a lot from its own readings, constants from the lots of other sites and years")
    choices: list[tuple[float, ...]] = [(5.0,), (10.0,), (20.0,), (10.0, 20.0)]

    def off(lot: str, hours: tuple[float, ...]) -> float:
        return forecast_left_out(lot, hours) - MOISTURE[lot][-1]

    for hours in choices:
        print(f"    {hours!s:14s}", "  ".join(f"{lot} {off(lot, hours):+.2f}" for lot in LOTS))


if __name__ == "__main__":
    main()
