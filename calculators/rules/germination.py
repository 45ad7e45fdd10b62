"""What a germination test decides: whole intervals of the energy and the capacity against their limits."""

from typing import Literal, NamedTuple

from ..models.counts.enough import corns_to_decide
from ..models.counts.intervals import Interval, clopper_pearson
from .counting import DISHES, asked_for
from .limit import Mark, judge, judge_interval
from .limits.germination_test import CAPACITY, ENERGY, WATER_SENSITIVITY

Word = Literal["meets-limit", "dormant", "capacity-low", "grey-band", "undecided"]
Sensitivity = Literal["slight", "some", "sensitive"]
SENSITIVITIES: dict[Mark, Sensitivity] = {"accept": "slight", "watch": "some", "stop": "sensitive"}
Test = Literal["energy", "capacity"]
Because = Literal["intervals", "dishes-differ", "capacity-below-energy", "capacity-not-tested", "open"]


class Tally(NamedTuple):
    """All dishes of one test together: corns that showed it, corns looked at, a dish's corns; do its dishes agree."""

    shown: int
    corns: int
    dish: int
    agree: bool

    @property
    def interval(self) -> Interval:
        """The exact 95 % interval."""
        return clopper_pearson(self.shown, self.corns)


class Edges(NamedTuple):
    """The least energy, the least capacity, and the capacity that is never under [%]."""

    energy: float
    capacity: float
    never_under: float


class Verdict(NamedTuple):
    """The word, why, and the test that left it open with the corns that would settle it.

    ``test`` is the one to repeat, or to count more of; ``against`` the edge [%] that it crosses. ``more`` is None
    where no more were needed, or so many that nobody sows them. ``shows_capacity`` is false where the energy meets
    its limit and nothing shows that the capacity does.
    """

    word: Word
    because: Because
    test: Test | None = None
    against: float | None = None
    more: int | None = None
    shows_capacity: bool = True


def decide(energy: Tally, capacity: Tally | None, edges: Edges) -> Verdict:
    """Give the verdict on a test.

    Parameters
    ----------
    energy : Tally
        Corns grown in 4 ml.
    capacity : Tally or None
        Corns that live, where they were tested.
    edges : Edges
        The limits.

    Returns
    -------
    Verdict
        ``undecided`` where dishes differ by more than chance, where capacity is below energy, and where an interval
        crosses the edge that would decide.

    Examples
    --------
    >>> edges = Edges(95, 98, 95)
    >>> [decide(Tally(k, 400, 100, True), None, edges).word for k in (392, 388)]
    ['meets-limit', 'undecided']
    >>> decide(Tally(340, 400, 100, True), Tally(400, 400, 100, True), edges).word
    'dormant'
    """
    for name, tally in (("energy", energy), ("capacity", capacity)):
        if tally and not tally.agree:
            return Verdict("undecided", "dishes-differ", name)  # type: ignore[arg-type]
    at = _judged(energy, edges)
    alive: Mark | None = None
    grey = False
    if capacity:
        if capacity.interval.high < energy.interval.low:
            return Verdict("undecided", "capacity-below-energy")
        alive = judge_interval(
            CAPACITY._replace(accept_low=edges.capacity, stop_low=edges.never_under), *_percent(capacity)
        )
        if alive == "stop":
            return Verdict("capacity-low", "intervals")
        grey = 100.0 * capacity.interval.high < edges.capacity
    if at == "accept":
        shows = grey or (capacity is not None and alive == "accept")
        return Verdict("grey-band" if grey else "meets-limit", "intervals", shows_capacity=shows)
    if at == "watch":
        return _open("energy", energy, edges.energy)
    if capacity is None:
        return Verdict("undecided", "capacity-not-tested")
    if 100.0 * capacity.interval.low >= edges.never_under:
        return Verdict("grey-band" if grey else "dormant", "intervals")
    return _open("capacity", capacity, edges.never_under)


def sensitivity(points: float) -> Sensitivity:
    """Give the class of water sensitivity, by the edges of the table.

    Parameters
    ----------
    points : float
        Energy in 4 ml less energy in 8 ml [points].

    Examples
    --------
    >>> [sensitivity(points) for points in (9.9, 10, 29.9, 30)]
    ['slight', 'some', 'some', 'sensitive']
    """
    return SENSITIVITIES[judge(WATER_SENSITIVITY, points)]


def _percent(tally: Tally) -> tuple[float, float]:
    low, high = tally.interval
    return 100.0 * low, 100.0 * high


def _judged(energy: Tally, edges: Edges) -> Mark:
    return judge_interval(ENERGY._replace(accept_low=edges.energy, stop_low=edges.energy), *_percent(energy))


def _open(test: Test, tally: Tally, against: float) -> Verdict:
    needed = corns_to_decide(share=tally.shown / tally.corns, limit=against / 100.0)
    more = asked_for(needed, tally.corns, tally.dish, DISHES)
    return Verdict("undecided", "open", test, against, more)
