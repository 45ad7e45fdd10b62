"""What several sheets do with a count of corns: pool it, give its share, hold it against a limit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from ..asking.declare import AskAgain, Found, Span
from ..asking.figures import fixed, plain_number
from ..models.counts.intervals import Interval, clopper_pearson, wilson
from ..models.counts.replicates import exact_range, tabled_range

LEAST_CORNS = 25
"""Fewer show nothing worth a verdict: 25 of 25 may still be 86 %."""

Side = Literal["above", "below", "open"]


class Count(NamedTuple):
    """Corns that show something, of all that were looked at, with the exact 95 % interval."""

    label: str
    shown: int
    corns: int
    interval: Interval
    rows: tuple[int, ...] = ()

    @property
    def share(self) -> float:
        """The share counted, a fraction."""
        return self.shown / self.corns

    def side(self, limit_percent: float) -> Side:
        """On which side of a limit the whole interval lies, or ``open``."""
        if 100.0 * self.interval.low >= limit_percent:
            return "above"
        if 100.0 * self.interval.high < limit_percent:
            return "below"
        return "open"

    def found(self, answer_id: str) -> Found:
        """The share as an answer in percent, with its working."""
        low, high = (100.0 * end for end in self.interval)
        other = " to ".join(fixed(100.0 * end, 1) for end in wilson(self.shown, self.corns))
        return Found(
            answer_id,
            100.0 * self.share,
            f"100 × {self.shown} / {self.corns} = {fixed(100.0 * self.share, 1)} %, exact 95 % interval (Clopper and "
            f"Pearson) {fixed(low, 1)} to {fixed(high, 1)} %, Wilson’s, shorter and right on average, {other} %",
            low,
            high,
        )

    def span(self, limit_percent: float | None, wanted: Literal["above", "below"] = "above") -> Span:
        """The share for the picture of intervals."""
        low, high = self.interval
        return Span(self.label, 100.0 * self.share, 100.0 * low, 100.0 * high, limit_percent, wanted)


def count_of(label: str, shown: float, corns: float) -> Count:
    """A count with its interval."""
    return Count(label, int(shown), int(corns), clopper_pearson(shown, corns))


def pooled(question: str, label: str, rows: Sequence[Sequence[float]]) -> Count:
    """The dishes of one test together.

    Raises
    ------
    AskAgain
        When more grew than were sown, the dishes differ in size, or there are too few corns.
    """
    size = rows[0][1]
    for number, (grown, sown) in enumerate(rows, 1):
        if grown > sown:
            raise AskAgain(
                question,
                f"row {number}: {plain_number(grown)} of {plain_number(sown)} cannot have grown. "
                f"Type from 0 to {plain_number(sown)} grown, or correct the number sown.",
                number,
            )
        if sown != size:
            raise AskAgain(
                question,
                f"row {number} has {plain_number(sown)} corns, row 1 has {plain_number(size)}. Dishes of different "
                "size cannot be compared, so a bad dish would hide. Leave the odd one out, or sow it again at the "
                "same size.",
                number,
            )
    corns = sum(row[1] for row in rows)
    if corns < LEAST_CORNS:
        best = 100.0 * clopper_pearson(corns, corns).low
        raise AskAgain(
            question,
            f"{plain_number(corns)} corns are too few. Even if all of them grow, the true share may be as low as "
            f"{fixed(best, 0)} %. Sow at least {LEAST_CORNS}, better four dishes of 100.",
        )
    grown_in_all = sum(row[0] for row in rows)
    count = count_of(label, grown_in_all, corns)
    return count._replace(rows=tuple(int(row[0]) for row in rows))


class Agreement(NamedTuple):
    """Whether the dishes of one test differ more than chance does."""

    word: Literal["yes-table", "yes-exact", "no-table", "no-exact", "one-dish"]
    widest: int
    allowed: int | None

    @property
    def holds(self) -> bool:
        """Whether nothing speaks against the test."""
        return not self.word.startswith("no")


def agreement(count: Count) -> Agreement:
    """Compare the dishes of a pooled count: by the published table where it applies, else by exact chance."""
    dishes = len(count.rows)
    if dishes < 2:
        return Agreement("one-dish", 0, None)
    size = count.corns // dishes
    widest = max(count.rows) - min(count.rows)
    allowed = tabled_range(replicates=dishes, size=size, mean_percent=100.0 * count.share)
    if allowed is not None:
        return Agreement("yes-table" if widest <= allowed else "no-table", widest, allowed)
    allowed = exact_range(replicates=dishes, size=size, share=count.share)
    return Agreement("yes-exact" if widest <= allowed else "no-exact", widest, allowed)


SAMPLE_REMARK = (
    "Every interval here supposes a random sample. Corns from one spot of a lorry, a bin or a floor are none: "
    "the true share may then lie outside."
)
LOOK_AGAIN_REMARK = (
    "Decide how many more to count before you count them, and judge once. Looking after every few corns and stopping "
    "when it suits weakens the 95 %."
)
