"""The steep again, by another road: finite volumes in the sphere and scipy's integrator.

Shares nothing with the series of ``calculators.models.steep.sphere``.  Two grids and
Richardson's extrapolation take the error of the grid out to fourth order.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import csc_matrix, diags


class Grid:
    """A sphere in shells, closer towards the surface: du/dFo = a u + b at a wet surface."""

    def __init__(self, shells: int) -> None:
        edges = np.sin(0.5 * np.pi * np.linspace(0.0, 1.0, shells + 1))
        centres = 0.5 * (edges[1:] + edges[:-1])
        self.volumes = (edges[1:] ** 3 - edges[:-1] ** 3) / 3.0
        inner = edges[1:-1] ** 2 / (centres[1:] - centres[:-1])
        down = np.append(inner, 0.0) / self.volumes
        up = np.append(0.0, inner) / self.volumes
        last = 1.0 / (1.0 - centres[-1]) / self.volumes[-1]
        middle = -(down + up)
        below, above = up[1:], down[:-1]
        self.sealed = csc_matrix(diags([below, middle, above], [-1, 0, 1]))
        middle = middle.copy()
        middle[-1] -= last
        self.wet = csc_matrix(diags([below, middle, above], [-1, 0, 1]))
        self.feed = np.zeros(shells)
        self.feed[-1] = last

    def mean(self, u: Any) -> float:
        return float(3.0 * self.volumes @ u)


def _stage(
    grid: Grid, u: Any, fo: float, surface: float | None, stop_mean: float | None, **how: Any
) -> tuple[Any, float]:
    matrix = grid.sealed if surface is None else grid.wet
    feed = 0.0 if surface is None else surface * grid.feed

    def slope(_: float, y: Any) -> Any:
        return matrix @ y + feed

    def used_up(_: float, y: Any) -> float:
        return grid.mean(y) - (stop_mean or 0.0)

    used_up.terminal = True  # type: ignore[attr-defined]
    events = used_up if stop_mean is not None else None
    # LSODA finds the Jacobian of a band matrix itself.
    shape = {"lband": 1, "uband": 1} if how["method"] == "LSODA" else {"jac": matrix}
    done = solve_ivp(slope, (0.0, fo), u, events=events, **shape, **how)
    return done.y[:, -1], float(done.t[-1])


def stage_ends(
    *,
    start_db: float,
    surface_db: float,
    film_db: float,
    stages: Sequence[tuple[float, float]],
    shells: int,
    method: str = "Radau",
    rtol: float = 1e-8,
    atol: float = 1e-10,
) -> list[float]:
    """Net moisture, kg/kg dry matter, at the end of stages (hours, rate per h), wet first."""
    grid = Grid(shells)
    how = {"method": method, "rtol": rtol, "atol": atol}
    u = np.full(shells, start_db)
    ends = []
    for number, (hours, per_h) in enumerate(stages):
        fo = hours * per_h
        if number % 2 == 0:
            u, _ = _stage(grid, u, fo, surface_db, None, **how)
        else:
            used = 0.0
            if film_db > 0.0:
                u, used = _stage(grid, u, fo, surface_db, grid.mean(u) + film_db, **how)
            if used < fo:
                u, _ = _stage(grid, u, fo - used, None, None, **how)
        ends.append(grid.mean(u))
    return ends


def extrapolated_ends(*, shells: int, **steep: Any) -> list[float]:
    """The same from `shells` and twice as many, with the second-order error taken out."""
    coarse = stage_ends(shells=shells, **steep)
    fine = stage_ends(shells=2 * shells, **steep)
    return [(4.0 * b - a) / 3.0 for a, b in zip(coarse, fine, strict=True)]
