"""How often the rule of readiness calls pieces right whose state is known, as a table for the sheet's page.

python -m bench.readiness_calls --pieces 1000

A piece is drawn with normally spread lengths, so that just the shares wanted lie between three quarters and one and
over one. Before today it was shorter by growth that differs from piece to piece and from day to day.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator
from itertools import product
from random import Random
from statistics import NormalDist, median
from typing import NamedTuple

from calculators.asking.figures import fixed, plain_number
from calculators.models.counts.acrospire import TYPICAL_GROWTH, TYPICAL_GROWTH_SD
from calculators.rules.limits.readiness import OVERSHOT, READY
from calculators.rules.readiness import DAY_TO_DAY_SD, LEAST_WAIT_H, Seen, decide

EDGES = (0.25, 0.5, 0.75, 1.0)
WORDS = {"kiln-now": "kiln", "late": "late", "count-more": "more", "wait": "wait"}
CORNS = (100, 200)
DAYS = (1, 3)


class Piece(NamedTuple):
    """A piece: per cent from three quarters to one, per cent over one, and the word that is right."""

    ready: float
    overshot: float
    right: str


PIECES = (
    Piece(86, 4, "kiln-now"),
    Piece(82, 3, "kiln-now"),
    Piece(88, 8, "kiln-now"),
    Piece(78, 2, "kiln-now"),
    Piece(74, 1, "kiln-now"),
    Piece(69, 1, "wait"),
    Piece(64, 1, "wait"),
    Piece(50, 0.3, "wait"),
    Piece(20, 0.1, "wait"),
    Piece(80, 12, "late"),
    Piece(80, 15, "late"),
    Piece(70, 20, "late"),
)


def lengths(piece: Piece) -> tuple[float, float]:
    """The mean and the standard deviation of the lengths that give a piece its shares [corn lengths]."""
    far = NormalDist().inv_cdf(1.0 - piece.overshot / 100.0)
    near = NormalDist().inv_cdf(1.0 - (piece.ready + piece.overshot) / 100.0)
    sd = (EDGES[3] - EDGES[2]) / (far - near)
    return EDGES[3] - far * sd, sd


def counted(mean: float, sd: float, corns: int, random: Random) -> tuple[float, ...]:
    """A sample of corns by classes."""
    classes = [0.0] * (len(EDGES) + 1)
    for _ in range(corns):
        length = random.gauss(mean, sd)
        classes[sum(length > edge for edge in EDGES)] += 1
    return tuple(classes)


def calls(piece: Piece, corns: int, days: int, pieces: int, seed: str = "") -> Counter[str]:
    """How often each word is said of so many pieces, drawn from a seed of their own."""
    random = Random(f"{seed}{piece.ready}/{piece.overshot} {corns} {days}")
    mean, sd = lengths(piece)
    target, limit = float(READY.accept_low or 0), float(OVERSHOT.stop_high or 0)
    said: Counter[str] = Counter()
    for _ in range(pieces):
        usual = random.gauss(TYPICAL_GROWTH, TYPICAL_GROWTH_SD)
        seen, then = [], mean
        for _ in range(days):
            seen.append(counted(then, sd, corns, random))
            then -= max(random.gauss(usual, DAY_TO_DAY_SD), 0.0)
        said[decide(Seen(tuple(seen), 24.0, target, limit)).word] += 1
    return said


class Hours(NamedTuple):
    """Of pieces that were told to wait: how far the hours were off [h, median], and how often their range held."""

    off: float
    inside: float


def hours_told(piece: Piece, corns: int, days: int, pieces: int, seed: str = "") -> Hours:
    """How good the hours of a wait are, for a piece that goes on growing as it did, a little faster or slower."""
    random = Random(f"hours {seed}{piece.ready}/{piece.overshot} {corns} {days}")
    mean, sd = lengths(piece)
    target, limit = float(READY.accept_low or 0), float(OVERSHOT.stop_high or 0)
    needed = EDGES[2] + sd * NormalDist().inv_cdf(target / 100.0) - mean
    off, inside = [], []
    for _ in range(pieces):
        usual = max(random.gauss(TYPICAL_GROWTH, TYPICAL_GROWTH_SD), 0.04)
        seen, then = [], mean
        for _ in range(days):
            seen.append(counted(then, sd, corns, random))
            then -= max(random.gauss(usual, DAY_TO_DAY_SD), 0.0)
        wait = decide(Seen(tuple(seen), 24.0, target, limit)).wait
        if wait is not None:
            true = max(24.0 * needed / max(random.gauss(usual, DAY_TO_DAY_SD), 0.02), LEAST_WAIT_H)
            off.append(abs(wait.hours - true))
            inside.append(wait.low <= true <= wait.high)
    return Hours(median(off), sum(inside) / len(inside))


def table(pieces: int) -> Iterator[str]:
    """The lines of the table, in Markdown."""
    settings = list(product(CORNS, DAYS))
    heads = [f"{corns} corns{', two days before' if days > 1 else ''}" for corns, days in settings]
    yield f"| Ready / overshot, % | Right | {' | '.join(heads)} |"
    yield "|---" * (2 + len(heads)) + "|"
    for piece in PIECES:
        cells = []
        for corns, days in settings:
            said = calls(piece, corns, days, pieces)
            parts = [(name, 100.0 * said[word] / pieces) for word, name in WORDS.items()]
            shown = sorted(((name, share) for name, share in parts if share >= 0.5), key=lambda part: -part[1])
            cells.append(", ".join(f"{name} {fixed(share, 0)}" for name, share in shown))
        name = f"{plain_number(piece.ready)} / {plain_number(piece.overshot)}"
        yield f"| {name} | {WORDS[piece.right]} | {' | '.join(cells)} |"


def main(pieces: int = 200) -> None:
    """Print the table."""
    print(f"Calls of readiness, of {pieces} pieces each:")
    for line in table(pieces):
        print(line, flush=True)
    for piece in PIECES:
        if piece.right == "wait":
            one, three = (hours_told(piece, 100, days, pieces) for days in DAYS)
            name = f"{piece.ready:g} / {piece.overshot:g}"
            print(f"Hours of {name}, 100 corns: {_told(one)}; two days before: {_told(three)}")


def _told(hours: Hours) -> str:
    return f"off by {hours.off:.1f} h (median), the range held {100 * hours.inside:.0f} %"


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m bench.readiness_calls")
    parser.add_argument("--pieces", type=int, default=1000)
    main(parser.parse_args().pieces)
