"""When a bed is turned from now on, so that the table keeps its hours and few hands are needed at night."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from math import ceil, floor
from typing import NamedTuple

from ..limit import Limit, edge
from .ways import Changes, clock_at, is_night


class Turnings(NamedTuple):
    """Hours of the turnings from now [h], the longest time between two [h], and how many fall at night."""

    hours: tuple[float, ...]
    longest_h: float
    at_night: int


class _Reached(NamedTuple):
    """The best row of turnings that ends at an hour: what counts against it, and the row."""

    cost: tuple[int, int, int]
    hours: tuple[float, ...]
    longest_h: float


class Turning:
    """The rows of turnings of one bed, by the hour up to which it is kept.

    Parameters
    ----------
    limit : Limit
        Hours between two turnings.
    since_h : float
        Since it was turned last [h].
    clock_h : float
        Hour of the day now [h].
    until_h : float
        Longest that is looked ahead [h].
    now : bool, optional
        Whether it is turned at once.
    quiet_h : tuple of float, optional
        Nobody is there from and until [h].
    shut_h : float, optional
        It cannot be turned before, whatever the table says: nobody goes near [h].
    first : Limit, optional
        Hours up to the first turning, where another limit holds for it.
    changes : Changes, optional
        When the clocks are changed.

    Notes
    -----
    A time between turnings that is only watched counts before a hand at night, that before one more turning. All rows
    on the full hours are looked at, each hour by the best one that ends there.
    """

    def __init__(
        self,
        limit: Limit,
        *,
        since_h: float,
        clock_h: float,
        until_h: float,
        now: bool = False,
        quiet_h: tuple[float, float] | None = None,
        shut_h: float = 0.0,
        first: Limit | None = None,
        changes: Changes = (),
    ) -> None:
        self.limit, self.first = limit, first or limit
        self.since_h, self.clock_h, self.shut_h, self.now = since_h, clock_h, shut_h, now
        self.quiet_h, self.changes = quiet_h, changes
        self.best: dict[int, _Reached] = {}
        for hour in range(floor(until_h) + 1):
            found = self._at(hour)
            if found:
                self.best[hour] = found

    def _there(self, hour: float) -> bool:
        quiet = self.quiet_h is not None and hour > 0 and self.quiet_h[0] <= hour < self.quiet_h[1]
        return hour >= self.shut_h and not quiet

    def _first_gap(self, gap: float) -> bool:
        until = self.since_h + ceil(self.shut_h) if self.shut_h else 0.0  # the first full hour that it can be reached
        return gap <= max(edge(self.first.stop_high), until, self._over)

    @property
    def _over(self) -> float:
        """What has lain past the stop already is turned at once, and no later."""
        return self.since_h if self.since_h > edge(self.first.stop_high) else 0.0

    def _at(self, hour: int) -> _Reached | None:
        if not self._there(hour):
            return None
        found: list[_Reached] = []
        gap = hour + self.since_h
        if self._first_gap(gap) and (hour == 0 or not self.now or self.shut_h):
            soon = gap < edge(self.first.accept_low) and not (hour == 0 and self.now)
            if not soon:
                found.append(_Reached(self._cost(gap, hour, self.first), (float(hour),), gap))
        for before, row in self.best.items():
            gap = float(hour - before)
            if edge(self.limit.accept_low) <= gap <= edge(self.limit.stop_high):
                cost = tuple(a + b for a, b in zip(row.cost, self._cost(gap, hour, self.limit), strict=True))
                found.append(_Reached(cost, (*row.hours, float(hour)), max(row.longest_h, gap)))  # type: ignore[arg-type]
        return min(found, key=lambda one: (one.cost, one.hours)) if found else None

    def _cost(self, gap: float, hour: float, limit: Limit) -> tuple[int, int, int]:
        night = hour > 0 and is_night(clock_at(self.clock_h, hour, self.changes))
        return int(gap > edge(limit.accept_high)), int(night), 1

    def until(self, end_h: float) -> Turnings | None:
        """Give the best row for a bed that is taken up at an hour; None where every one passes the stop.

        Parameters
        ----------
        end_h : float
            Hours from now [h].
        """
        found: list[_Reached] = []
        gap = end_h + self.since_h
        if not self.now and self._first_gap(gap):
            found.append(_Reached((int(gap > edge(self.first.accept_high)), 0, 0), (), gap))
        for hour, row in self.best.items():
            gap = end_h - hour
            if 0.0 < gap <= edge(self.limit.stop_high):
                watched = int(gap > edge(self.limit.accept_high))
                found.append(
                    _Reached((row.cost[0] + watched, row.cost[1], row.cost[2]), row.hours, max(row.longest_h, gap))
                )
        if not found:
            return None
        one = min(found, key=lambda each: (each.cost, each.hours))
        return Turnings(one.hours, one.longest_h, one.cost[1])
