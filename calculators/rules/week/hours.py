"""Sets of hours as whole numbers: bit n stands for hour n, so that a step looks at all hours at once."""

from collections.abc import Callable, Iterator


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


def bits(hours: int) -> Iterator[int]:
    """The hours of a set, the earliest first."""
    while hours:
        lowest = hours & -hours
        yield lowest.bit_length() - 1
        hours ^= lowest


def first(hours: int) -> int:
    """The earliest hour of a set that is not empty."""
    return (hours & -hours).bit_length() - 1


def daily(holds: Callable[[int], bool], horizon: int) -> int:
    """The hours up to the horizon of which a rule holds."""
    day = 0
    for hour in range(24):
        day |= holds(hour) << hour
    hours = 0
    for start in range(0, horizon, 24):
        hours |= day << start
    return hours & span(0, horizon)
