"""A batch as some hundreds of possible batches that move together, and that readings correct.

Each member has its own value of all that is not known (``doubts``) and goes its own way
through the plan.  Readings are taken in by *tempering*: the likelihood of all readings is
let in bit by bit, so that after each bit at least half as many members count as there are;
members are then drawn anew by systematic resampling (Kitagawa 1996, J. Comput. Graph.
Statist. 5:1, from memory), moved about their mean where the readings have told of them and as nothing were known
elsewhere (after Zhou, Hu, Yao & Li, arXiv:1607.01458, abstract read), and sent through the plan again from the
first wetting.  A member that comes out less likely than its parent, by the
rule of Metropolis and Hastings, stays where its parent was: so the members are draws from
what is possible, however bent that is.  The whole is a sequential Monte Carlo sampler (Del
Moral, Doucet & Jasra 2006, J. R. Statist. Soc. B 68:411, from memory).  Bands are read off the members.

This module imports numpy; it is itself imported only where an ensemble is asked for.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cached_property
from math import inf
from typing import NamedTuple

import numpy as np

from ..bounds import Bounds, check
from .acrospires import READY, shares_below
from .arrays import ARRAYS
from .batch import drive
from .chitting import share_chitted
from .doubts import NAMES, UNKNOWNS, moved
from .draws import TAILS, Array, Kernel, drawn_anew, effective, next_bit, spread_evenly, spread_of, weights_of
from .lot_plan_state import Lot, Plan, State, check_plan
from .readings import Reading, Systematic, best_log_likelihood, check_readings, log_likelihood
from .shells import ShellWater

MEMBERS = 300
MEMBERS_LIMITS = Bounds(100, 5000)
LAST_MOVES = 3
"""Moves more, once all of the likelihood is in."""

MOST_BITS = 16
"""Moves after which what is left of it is left out, and said to be."""

MISFIT_HIGH = 3.0
"""Mean square of a reading against the members, in its own scatter, over which readings contradict the model."""

BEYOND_USE: Mapping[str, float] = {"moisture": 16.0, "warmth": 15.0, "chitted": 0.95, "ready": 0.95}
"""Width of a band that says nothing: points, kelvin, shares."""


class Band(NamedTuple):
    """A middle and the limits that hold 95 of 100 members, at each hour asked for."""

    low: list[float]
    middle: list[float]
    high: list[float]


class Taken(NamedTuple):
    """How readings were taken in.

    Attributes
    ----------
    effective : float
        Members that counted at the least of all moments.
    draws : int
        Times that members were drawn anew.
    share : float
        Of the readings' likelihood that was let in: 1, or less where they contradict the model.
    misfit : float
        Mean square of readings against the members in their own scatter; about 1 where they agree.
    widened : bool
        True when bands were widened because readings contradict the model or each other.
    """

    effective: float
    draws: int
    share: float
    misfit: float
    widened: bool


class Ensemble:
    """Some hundreds of possible batches under one plan; made by :func:`ensemble`.

    Attributes
    ----------
    z : ndarray
        Unknowns of each member in their standard deviations, shape (unknowns, members).
    lot : Lot
        What each member is, in arrays.
    states : list of State
        The way of each member.
    taken : Taken
        How readings were taken in.
    """

    def __init__(
        self,
        plan: Plan,
        base: Lot,
        z: Array,
        scale: Mapping[str, float] | None = None,
        taken: Taken | None = None,
        until_h: float = inf,
    ) -> None:
        self.plan, self.base, self.z, self.scale = plan, base, z, scale
        self.taken = taken or Taken(float(z.shape[1]), 0, 1.0, 0.0, False)
        self.lot = moved(ARRAYS, base, list(z), scale)
        self._until_h = until_h
        self._figures: dict[str, tuple[Array, set[int]]] = {}
        self._when: dict[tuple[float, str], tuple[float, float, float]] = {}

    @cached_property
    def states(self) -> list[State]:
        """The way of each member, gone when it is first asked for."""
        return drive(ARRAYS, self.lot, self.plan, ShellWater(self.lot, self.members), self._until_h)

    @cached_property
    def _hours(self) -> list[float]:
        return [state.hour for state in self.states]

    @property
    def members(self) -> int:
        """How many there are."""
        return int(self.z.shape[1])

    def _of(self, name: str) -> Array:
        n = NAMES.index(name)
        found: Array = self.z[n] * UNKNOWNS[n].sd * (self.scale or {}).get(name, 1.0)
        return found

    def alike(self) -> Systematic:
        """Give what readings of a kind have in common, for each member."""
        return Systematic(self._of("basket"), self._of("probe"), self._of("shape"))

    def likelihoods(self, readings: Sequence[Reading]) -> Array:
        """Give the logarithm of the likelihood of each reading for each member, shape (readings, members)."""
        alike = self.alike()
        return np.array(
            [
                np.broadcast_to(
                    log_likelihood(ARRAYS, one, self.states, self.lot, alike, self.base.barley_moisture),
                    (self.members,),
                )
                for one in readings
            ]
        )

    def corrected(self, readings: Sequence[Reading], seed: int = 2) -> "Ensemble":
        """Give the ensemble with readings taken in.

        Parameters
        ----------
        readings : sequence of Reading
            All readings so far: they are always taken in together, from the first wetting on.
        seed : int, optional
            Of the draws; the same readings and seed give the same ensemble.

        Returns
        -------
        Ensemble
            Corrected; ``taken`` says how.

        Raises
        ------
        OutOfRange
            When a reading is outside its limits; ``table`` is ``readings``.
        """
        if not readings:
            return self
        cast_h = sum(stage.hours for stage in self.plan.stages)
        check_readings(readings, cast_h, cast_h + sum(spell.hours for spell in self.plan.bed))
        random = np.random.default_rng(seed)
        last_h = max(one.hour for one in readings)
        begins = Ensemble(self.plan, self.base, self.z, self.scale, until_h=last_h)
        z, likely = self.z, begins.likelihoods(readings).sum(axis=0)
        done, fewest, draws, moves = 0.0, float(self.members), 0, 0
        while moves < LAST_MOVES and draws < MOST_BITS:
            if done < 1.0:
                bit = next_bit(likely, 1.0 - done)
                weights = weights_of(likely, bit)
                fewest = min(fewest, effective(weights))
                done = 1.0 if done + bit > 1.0 - 1e-9 else done + bit
                kernel = Kernel(z, weights)
                chosen = drawn_anew(weights, random)
                z, likely = z[:, chosen], likely[chosen]
            else:
                kernel = Kernel(z, np.full(self.members, 1.0 / self.members))
                moves += 1
            draws += 1
            tried = kernel.moved(z, random)
            there = Ensemble(self.plan, self.base, tried, self.scale, until_h=last_h)
            likely_there = there.likelihoods(readings).sum(axis=0)
            gain = done * (likely_there - likely) + kernel.prior_over_kernel(tried) - kernel.prior_over_kernel(z)
            better = np.log(random.random(self.members)) < gain
            z, likely = np.where(better, tried, z), np.where(better, likely_there, likely)
        here = Ensemble(self.plan, self.base, z, self.scale)
        misfit = here.misfit(readings)
        widened = done < 1.0 or misfit > MISFIT_HIGH
        if misfit > MISFIT_HIGH:
            spread = min(3.0, (misfit / MISFIT_HIGH) ** 0.5)
            middle = here.z.mean(axis=1, keepdims=True)
            here = Ensemble(self.plan, self.base, middle + spread * (here.z - middle), self.scale)
        return Ensemble.taking(here, Taken(fewest, draws, done, misfit, widened))

    @staticmethod
    def taking(one: "Ensemble", taken: Taken) -> "Ensemble":
        """Give an ensemble that says how its readings were taken in."""
        one.taken = taken
        return one

    def misfit(self, readings: Sequence[Reading]) -> float:
        """Give the mean of how far the readings lie from the members' middle, in their own scatter, squared.

        Notes
        -----
        Twice the logarithm of the likelihood that the best possible reading would have had
        over that of the one there is; readings that only the far members explain count as odd.
        """
        alike = self.alike()
        total = 0.0
        for one in readings:
            here = log_likelihood(ARRAYS, one, self.states, self.lot, alike, self.base.barley_moisture)
            total += -2.0 * float(np.median(here) - best_log_likelihood(one))
        return total / len(readings)

    def hours(self) -> list[float]:
        """Give the hours of the states [h]."""
        return list(self._hours)

    @property
    def cast_h(self) -> float:
        """The hour of the cast [h]."""
        return max(state.hour for state in self.states if state.steeping)

    def values(self, of: str, hour: float) -> Array:
        """Give a figure at an hour in each member, shape (members,).

        Parameters
        ----------
        of : str
            ``moisture`` [%], ``warmth`` [C], ``heat`` [kW/t]; ``chitted``, ``ready``, ``overshot``: shares of corns.
        hour : float
            Hour since the first wetting [h].
        """
        return np.array(self.rows(of, [hour])[0])

    def rows(self, of: str, hours: Sequence[float]) -> Array:
        """Give a figure at some hours in each member, shape (hours, members); see :meth:`values`."""
        known = self._hours
        places, shares = [], []
        for asked in hours:
            hour = min(asked, known[-1]) if asked <= known[-1] + 1e-6 else asked  # the last bit of a sum of stages
            check("hour", hour, Bounds(known[0], known[-1]))
            n = min(max(bisect_left(known, hour - 1e-9), 1), len(known) - 1)
            places.append(n)
            shares.append(min(1.0, (hour - known[n - 1]) / (known[n] - known[n - 1])))
        found = self._figure(of, sorted({*places, *(n - 1 for n in places)}))
        after, before = found[places], found[[n - 1 for n in places]]
        between: Array = before + np.array(shares)[:, np.newaxis] * (after - before)
        return between

    def _figure(self, of: str, states: Iterable[int]) -> Array:
        """A figure in each member at some states, each worked out once, shape (all states, members)."""
        found, known = self._figures.setdefault(of, (np.empty((len(self.states), self.members)), set()))
        figure = {
            "moisture": lambda s: s.drained + self._of("shape"),
            "warmth": lambda s: s.temp_c,
            "heat": lambda s: s.heat_kw,
            "chitted": self._chitted,
            "ready": self._grown_past(READY),
            "overshot": self._grown_past(1.0),
        }[of]
        for n in states:
            if n not in known:
                found[n] = figure(self.states[n])
                known.add(n)
        return found

    def _bands(self, of: str, hours: Sequence[float]) -> Band:
        found = spread_of(self.rows(of, hours))
        return Band(*([float(x) for x in row] for row in found))

    def moisture(self, hours: Sequence[float]) -> Band:
        """Give the band of the drained moisture in the steep and of the grain's own in the bed [%]."""
        return self._bands("moisture", hours)

    def warmth(self, hours: Sequence[float]) -> Band:
        """Give the band of the grain's temperature [C]."""
        return self._bands("warmth", hours)

    def heat(self, hours: Sequence[float]) -> Band:
        """Give the band of the heat of breathing [kW a tonne of barley]."""
        return self._bands("heat", hours)

    def chitted(self, hours: Sequence[float]) -> Band:
        """Give the band of the share of corns that has chitted."""
        return self._bands("chitted", hours)

    def _chitted(self, state: State) -> Array:
        return np.asarray(share_chitted(ARRAYS, state.chit_h, self.lot.corns))

    def _grown_past(self, length: float) -> Callable[[State], Array]:
        def share(state: State) -> Array:
            if np.max(state.growth_h) <= np.min(self.lot.acrospires.starts_h):  # none has begun
                return np.zeros(self.members)
            below = shares_below(ARRAYS, state.growth_h, self.lot.corns, self.lot.acrospires, (length,))[0]
            return np.asarray(1.0 - below)

        return share

    def ready(self, hours: Sequence[float]) -> Band:
        """Give the band of the share of corns whose acrospire is three quarters long or more."""
        return self._bands("ready", hours)

    def overshot(self, hours: Sequence[float]) -> Band:
        """Give the band of the share of corns whose acrospire is longer than the corn."""
        return self._bands("overshot", hours)

    def lost(self) -> Band:
        """Give the band of the dry matter lost by the end to leaching and breathing [% of the barley's]."""
        whole = 1000.0 * (1.0 - self.lot.barley_moisture / 100.0)
        low, middle, high = spread_of(np.asarray(100.0 * (1.0 - self.states[-1].dry_kg / whole))[np.newaxis, :])
        return Band([float(low[0])], [float(middle[0])], [float(high[0])])

    def hours_until(self, share: float, of: str = "chitted") -> tuple[float, float, float]:
        """Give when a share of corns has chitted or is ready: earliest, middle and latest hour [h].

        Parameters
        ----------
        share : float
            Share of all corns, 0 to 1.
        of : str, optional
            ``chitted``, or ``ready`` for acrospires of three quarters or more.

        Returns
        -------
        tuple of float
            Infinite where members do not come to it within the plan.

        Raises
        ------
        OutOfRange
            When the share is not from 0 to 1.
        """
        check("share", share, Bounds(0.0, 1.0))
        if (share, of) not in self._when:
            self._when[share, of] = self._until(share, of)
        return self._when[share, of]

    def _until(self, share: float, of: str) -> tuple[float, float, float]:
        found = self._figure(of, range(len(self.states)))
        when = np.full(self.members, np.inf)
        before, last_h = np.zeros(self.members), 0.0
        for n, state in enumerate(self.states):
            if of == "ready" and state.steeping:
                continue
            now = found[n]
            rise = np.maximum(now - before, 1e-12)
            at = last_h + (state.hour - last_h) * np.clip((share - before) / rise, 0.0, 1.0)
            when = np.where((when == np.inf) & (now >= share), at, when)
            before, last_h = now, state.hour
        ordered = np.sort(when)
        places = [(self.members + 1) * float(q) - 1 for q in TAILS]
        early, middle, late = (float(ordered[min(max(round(p), 0), self.members - 1)]) for p in places)
        return early, middle, late

    def knows(self, band: Band, of: str) -> bool:
        """Tell whether a band says anything: not when it is as wide as what could be."""
        return max(high - low for low, high in zip(band.low, band.high, strict=True)) < BEYOND_USE[of]


def ensemble(
    *,
    plan: Plan,
    lot: Lot | None = None,
    members: int = MEMBERS,
    seed: int = 1,
    scale: Mapping[str, float] | None = None,
) -> Ensemble:
    """Give a batch as an ensemble of what it may be, before any reading.

    Parameters
    ----------
    plan : Plan
        What is done to it.
    lot : Lot, optional
        What is known of it; the typical barley.
    members : int, optional
        Possible batches, 100 to 5,000.
    seed : int, optional
        Of the draws: one unknown is drawn apart from the others, so that a reading more
        changes none of them.
    scale : mapping, optional
        By what to multiply the standard deviation of an unknown that is better known here.

    Returns
    -------
    Ensemble
        Its ``corrected`` takes readings in; its bands are for any hours of the plan.

    Raises
    ------
    OutOfRange
        When the plan or the number of members is outside its limits.
    """
    check_plan(plan)
    check("members", members, MEMBERS_LIMITS)
    return Ensemble(plan, lot or Lot(), spread_evenly(members, seed), scale)
