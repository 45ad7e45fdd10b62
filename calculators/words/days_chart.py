"""The chart of the share of growth that is done, from now to ready."""

from __future__ import annotations

from ..asking.declare import Axis, Band, Chart, Line, Mark
from ..asking.figures import fixed


def growth_chart(done: float, elapsed: float, left: tuple[float, float, float], shares: tuple[float, float]) -> Chart:
    """The share done from now on, at the last bed temperature, between the earliest and the latest."""
    now_percent = 100.0 * done
    end = max(elapsed + left[2], elapsed + 0.5)
    steps = 24
    xs = tuple(elapsed + (end - elapsed) * n / steps for n in range(steps + 1))

    def grown(start: float, days: float) -> tuple[float, ...]:
        if days <= 0.0:
            return tuple(max(start, 100.0) for _ in xs)
        return tuple(min(start + (100.0 - start) * (x - elapsed) / days, 120.0) for x in xs)

    middle = grown(now_percent, left[1])
    fast, slow = grown(100.0 * shares[1], left[0]), grown(100.0 * shares[0], left[2])
    return Chart(
        "growth",
        "Share of growth done, from now on",
        f"From {fixed(now_percent, 0)} % now to 100 % in {fixed(left[1], 1)} days, likely "
        f"{fixed(left[0], 1)} to {fixed(left[2], 1)} days, at the last bed temperature.",
        Axis("days since the cast", "", low=elapsed, high=end, decimals=1),
        Axis("share done", "%", low=0.0, high=120.0),
        lines=(Line("likely", xs, middle),),
        bands=(
            Band(
                "earliest to latest",
                xs,
                tuple(min(a, b) for a, b in zip(slow, fast, strict=True)),
                tuple(max(a, b) for a, b in zip(slow, fast, strict=True)),
            ),
        ),
        marks=(Mark("ready by the sum", 100.0),),
    )
