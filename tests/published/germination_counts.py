"""The published germination of barley by temperature: see ``data/README.md``."""

import csv
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from calculators.models.living.chitting import Corns, Counted, intervals, log_likelihood
from calculators.models.living.maths import FLOATS
from calculators.models.living.pace import chit_pace

SEEDS = 150
_TEXT = (Path(__file__).parent / "data" / "germination-by-temperature.csv").read_text()
_ROWS = list(csv.DictReader(_TEXT.splitlines()))
TEMPS = sorted({float(row["temp_c"]) for row in _ROWS})


def counts(temp_c: float) -> tuple[list[float], list[int]]:
    rows = [row for row in _ROWS if float(row["temp_c"]) == temp_c]
    return [float(row["day"]) for row in rows], [int(row["germinated_of_150"]) for row in rows]


def counted(temp_c: float) -> list[Counted]:
    days, germinated = counts(temp_c)
    return intervals(times=days, chitted=germinated, corns=SEEDS)


class SeriesFit:
    """Base temperature, middle and spread that some temperatures give together, each with its own share that grows."""

    def __init__(self, temps: list[float], base_c: float | None = None, slope: str = "straight") -> None:
        self.temps = temps
        self.slope = slope
        start = [np.log(75.0), np.log(0.25), -2.0, *[2.5] * len(temps)]

        def off(p: np.ndarray) -> float:
            base = p[2] if base_c is None else base_c
            return -sum(
                log_likelihood(
                    counted=counted(t),
                    corns=self.lot(p, 1.0 / (1.0 + np.exp(-p[3 + n]))),
                    hours_per_unit=24.0 * self.pace(t, base),
                )
                for n, t in enumerate(temps)
            )

        found = minimize(
            off, start, method="Nelder-Mead", options={"maxiter": 6000, "maxfev": 6000, "xatol": 1e-4, "fatol": 1e-4}
        )
        self.middle_h = float(np.exp(found.x[0]))
        self.spread = float(np.exp(found.x[1]))
        self.base_c = float(found.x[2])
        self.log_likelihood = -float(found.fun)

    def pace(self, temp_c: float, base: float) -> float:
        if self.slope == "straight":
            return max(1e-9, float(chit_pace(FLOATS, temp_c, base)))
        # base stands for the activation energy less 50 kJ/mol
        return float(np.exp((base + 50.0) / 8.314462618e-3 * (1 / 288.15 - 1 / (temp_c + 273.15))))

    @staticmethod
    def lot(p: np.ndarray, grows: float) -> Corns:
        return Corns(
            float(np.clip(np.exp(p[0]), 4.0, 200.0)), float(np.clip(np.exp(p[1]), 0.05, 1.0)), float(grows), 0.0
        )

    def share(self, temp_c: float, day: float) -> float:
        """Share of the corns that grow which has germinated by a day."""
        from calculators.models.living.chitting import chitted

        lot = Corns(self.middle_h, self.spread, 1.0, 0.0)
        return chitted(clock_h=24.0 * day * self.pace(temp_c, self.base_c), corns=lot)

    def half_day(self, temp_c: float) -> float:
        return self.middle_h / self.pace(temp_c, self.base_c) / 24.0
