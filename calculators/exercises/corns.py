"""Dishes and heaps of corns as they come by chance, so that no paper is like another."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from random import Random

from ..models.counts.distributions import normal_quantile
from .exercise import Case

DISHES = 4
BETWEEN_DAYS = (0.55, 0.92)  # of those left, how many grow on a day


def grown(random: Random, of: int, percent: float) -> int:
    """How many of so many corns grow, each by the same chance."""
    return sum(random.random() < percent / 100 for _ in range(of))


def dish_rows(random: Random, percent: float, of: int, dishes: int = DISHES) -> str:
    """Rows of grown and sown, one a dish."""
    return "; ".join(f"{grown(random, of, percent)} {of}" for _ in range(dishes))


def energy_dishes(random: Random) -> tuple[str, ...]:
    """Four dishes of 50 or 100 corns of a lot between 80 and 99 %."""
    return (dish_rows(random, random.randint(80, 99), random.choice((50, 100))),)


def one_dish(random: Random) -> tuple[str, ...]:
    """One dish of 100 corns of a good lot."""
    return (dish_rows(random, random.randint(90, 98), 100, 1),)


def with_much_water(random: Random) -> tuple[str, str]:
    """Two dishes with 4 ml and two with 8 ml, of a lot that minds water hardly, somewhat or much."""
    energy = random.randint(92, 99)
    drop = random.choice((random.randint(0, 9), random.randint(10, 29), random.randint(30, 50)))
    return dish_rows(random, energy, 100, 2), dish_rows(random, energy - drop, 100, 2)


def day_by_day(random: Random) -> tuple[str, str]:
    """Two dishes of 100, and what grew newly on each of three days in both together."""
    of, days = 200, []
    left = grown(random, of, random.randint(93, 99))
    pace = random.uniform(*BETWEEN_DAYS)
    whole = left
    for _ in range(2):
        today = grown(random, left, 100 * pace)
        days.append(today)
        left -= today
    first = whole // 2
    return f"{first} 100; {whole - first} 100", "; ".join(str(day) for day in (*days, left))


def by_the_formula(case: Case) -> float:
    """Corns to count by the formula of the page alone, where the sheet counts on until Wilson's interval is as near."""
    share, margin = case.values["expected_percent"] / 100, case.values["margin_points"] / 100
    return float(ceil(normal_quantile(0.975) ** 2 * share * (1 - share) / margin**2 - 1e-9))


def in_classes(random: Random, corns: int, shares: Sequence[float]) -> str:
    """So many corns on five heaps, by the share that belongs on each."""
    heaps = random.choices(range(len(shares)), weights=shares, k=corns)
    return "; ".join(str(heaps.count(heap)) for heap in range(len(shares)))


def acrospires(random: Random) -> tuple[str, ...]:
    """100 or 200 corns of a piece that is short of ready, ready, or past it."""
    ready = random.randint(35, 88)
    over = random.choice((0, 1, 1, 2, 3, 4, 6, 9, 15))
    short = max(0.0, 100 - ready - over)
    shares = (0.15 * short, 0.25 * short, 0.6 * short, float(ready), float(over))
    return (in_classes(random, random.choice((100, 200)), shares),)
