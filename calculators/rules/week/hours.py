"""Sets of hours as whole numbers: bit n stands for hour n, so that a step looks at all hours at once."""

from collections.abc import Callable


def span(begin: int, end: int) -> int:
    """The hours from ``begin`` up to and without ``end``."""
    begin = max(begin, 0)
    return ((1 << max(end - begin, 0)) - 1) << begin


def starts(free: int, hours: int) -> int:
    """The hours from which on so many hours are all free."""
    if hours <= 0:
        return free
    done = 1
    while done < hours and free:
        step = min(done, hours - done)
        free &= free >> step
        done += step
    return free


def first(hours: int) -> int:
    """The earliest hour of a set that is not empty."""
    return (hours & -hours).bit_length() - 1


def daily(clocks: int, horizon: int) -> int:
    """The hours up to the horizon whose hour of the day is in a set of such hours."""
    hours = 0
    for start in range(0, horizon, 24):
        hours |= clocks << start
    return hours & span(0, horizon)


def those(holds: Callable[[int], bool]) -> int:
    """The hours of the day of which a rule holds, as a set."""
    return sum(1 << hour for hour in range(24) if holds(hour))
