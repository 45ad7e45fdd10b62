"""What a steep comes to beside water: how warm each rest gets, how many corns have chitted when, and the doubt of both.

The batch of ``batch`` is driven with the water of one ``Steep``, so that moisture, warmth
and chit of a sheet belong to one another.  The doubt is first order, like that of the water
(``steep.doubt``): what is not known of drinking is taken from the same trust, narrowed by
the same readings; breathing, the water's temperature and chitting's own unknowns come on top.
"""

from collections.abc import Callable, Sequence
from functools import cached_property
from math import exp, inf, log, sqrt
from typing import NamedTuple

from ..bounds import Bounds, OutOfRange, check
from ..steep.doubt import BAND_SD, UNKNOWNS, Trust, moved, quadratic
from ..steep.fit import FIRST_READING_H
from ..steep.hydration import WATER_TEMP_C, run
from .breathing import GRAIN_C, SOONEST_FACTOR
from .chitting import MIDDLE_LOG_SD, SPREAD_LOG_SD, Corns, Counted, from_counts, share_chitted
from .lot_plan_state import State, at_hour
from .maths import FLOATS
from .pace import CHIT_BASE_C, CHIT_BASE_SD_C, CHIT_C, CHIT_REASON, chit_pace
from .steep_run import USUAL_RESTS, Rests, driven, lot_of, rest_places, rise, stage_at

GROWS_SD = 0.02
"""Standard deviation of the share that grows against the test [-], as for the ensemble."""

WATER_SD_K = 0.4
"""Standard deviation of the steep water against what is written [K], as for the ensemble."""

DRINKING = (0, 1, 3)
"""The unknowns of drinking that chit and warmth feel: pace, first uptake and film (``steep.doubt``).

The others move the chit clock of usual steeps by less than a sixtieth a standard deviation.
"""

_LEAST_CLOCK_H = 1e-3


class Chits(NamedTuple):
    """Corns chitted of those looked at, so many hours after the first wetting."""

    hour: float
    chitted: int
    corns: int


class Chitting(NamedTuple):
    """What is known of a lot's chitting: its corns, and how well its middle corn is known."""

    corns: Corns = Corns()
    middle_log_sd: float = MIDDLE_LOG_SD


TYPICAL_CHITTING = Chitting()


class Span(NamedTuple):
    """A figure and how far it may lie either way: 19 of 20; ``high`` may be infinite for a time."""

    value: float
    low: float
    high: float


class RestWarmth(NamedTuple):
    """The warmest hour of a rest, counted from 1: when it is, how warm, and the fastest rise [K/h]."""

    number: int
    hour: float
    warmest_c: Span
    rise_k_h: Span


class Life:
    """Warmth and chit of a steep, with their doubt.

    Parameters
    ----------
    trust : Trust
        The steep's settings, rests as warm as they come to (:func:`warmed`), and what is known of its drinking.
    rests : Rests, optional
        How its rests are kept.
    chitting : Chitting, optional
        What is known of its chitting.
    counts : sequence of Chits, optional
        Counts of this batch, which scale the rest of the forecast.
    toward : list of float, optional
        Which way the unknowns of drinking lead to early chits, where another steep of the same barley has told it.
    until_h : float, optional
        Hour after which warmth is not looked at: a rest that only follows is not the steep's own [h].

    Raises
    ------
    OutOfRange
        When a count is outside the steep or more than its corns, or when the grain of a rest gets
        warmer than 30 C, where chitting was not counted; ``table`` is ``counts`` or ``stages``.

    Notes
    -----
    Drinking is moved together, two standard deviations along the way that brings the chits on
    soonest, and as far the other way, and the batch is driven both times.  Breathing, the water's
    temperature, the middle corn, the spread and the answer to warmth come on top as squares.
    A count is taken as a binomial at the hour it was made; ``chitting.from_counts`` says how it
    moves the middle corn.  After a count the doubt of the clock is that of what it gains from
    then on against what it showed at the last count.
    """

    def __init__(
        self,
        trust: Trust,
        rests: Rests = USUAL_RESTS,
        chitting: Chitting = TYPICAL_CHITTING,
        counts: Sequence[Chits] = (),
        toward: list[float] | None = None,
        until_h: float = inf,
    ) -> None:
        self._trust, self._rests, self._until_h = trust, rests, until_h
        self.course = run(moved(trust.base, trust.doubt, trust.z))
        self.states = driven(self.course, rests)
        self.corns, self.middle_log_sd = chitting.corns, chitting.middle_log_sd
        self._counted_at: int | None = None
        self._spans: dict[int, Span] = {}
        self._toward = toward
        for rest in rest_places(self.states):
            if max(self.states[n].temp_c for n in rest) > CHIT_C.high:
                row = stage_at(self.course, self.states[rest[-1]].hour)
                raise OutOfRange("temp_c", CHIT_C.low, CHIT_C.high, CHIT_REASON, "stages", row)
        if counts:
            self._count(counts)

    def say(self, chitting: Chitting) -> None:
        """Take what is known of the lot's chitting from elsewhere, in place of what was."""
        self.corns, self.middle_log_sd = chitting
        self._spans.clear()

    # -- what is not known -----------------------------------------------------------

    def _aside(self, z: Sequence[float]) -> list[State]:
        return driven(run(moved(self._trust.base, self._trust.doubt, z)), self._rests)

    @cached_property
    def toward(self) -> list[float]:
        """Which way, and how far for one standard deviation, the unknowns bring the chits on."""
        if self._toward is not None:
            return self._toward
        trust = self._trust
        middle = min(range(len(self.states)), key=lambda n: abs(self.states[n].chit_h - self.corns.middle_h))
        here = _log_clock(self.states, middle)
        slopes = [0.0] * UNKNOWNS
        for n in DRINKING:
            step = -0.5 if trust.z[n] > 0.0 else 0.5
            z = [*trust.z]
            z[n] += step
            slopes[n] = (_log_clock(self._aside(z), middle) - here) / step
        size = sqrt(max(quadratic(slopes, trust.covariance), 1e-18))
        return [sum(c * slope for c, slope in zip(row, slopes, strict=True)) / size for row in trust.covariance]

    @cached_property
    def _drinks(self) -> tuple[list[State], list[State]]:
        """The batch that drinks so that it chits late, and the one that chits early."""
        z, far = self._trust.z, self.toward
        late, early = (
            self._aside([at + side * BAND_SD * step for at, step in zip(z, far, strict=True)]) for side in (-1.0, 1.0)
        )
        return late, early

    @cached_property
    def _warmer(self) -> list[State]:
        """The batch in water that is warmer by its standard deviation."""
        steeping = self.course.steeping
        stages = tuple(
            stage._replace(water_temp_c=min(stage.water_temp_c + WATER_SD_K, WATER_TEMP_C.high))
            for stage in steeping.stages
        )
        return driven(run(steeping._replace(stages=stages)), self._rests)

    @cached_property
    def _fast(self) -> list[State]:
        """The batch that breathes as much as the doubt of the law allows."""
        return driven(self.course, self._rests, lot_of(self.course.steeping)._replace(breath_factor=SOONEST_FACTOR))

    # -- chit --------------------------------------------------------------------------

    def _gained(self, states: Sequence[State], place: int) -> float:
        """Give the logarithm of the clock, after a count against what it showed then."""
        clock = _log_clock(states, place)
        return clock if self._counted_at is None else clock - _log_clock(states, self._counted_at)

    def _log_reach(self, place: int) -> tuple[float, float]:
        """Give how far the clock may lie back and ahead against the corns' own hours, as logarithms."""
        here = self._gained(self.states, place)
        ways = [self._gained(states, place) - here for states in self._drinks]
        ahead, back = max(0.0, *ways), max(0.0, *(-way for way in ways))
        warm, hot = (self._gained(states, place) - here for states in (self._warmer, self._fast))
        mean = sum(state.temp_c for state in self.states[: place + 1]) / (place + 1)
        other = CHIT_BASE_C - CHIT_BASE_SD_C
        base = log(chit_pace(FLOATS, mean, other) / max(chit_pace(FLOATS, mean), 1e-6))
        against = log(self.corns.middle_h) if self._counted_at is None else _log_clock(self.states, self._counted_at)
        uneven = SPREAD_LOG_SD * (_log_clock(self.states, place) - against)
        known = BAND_SD**2 * (self.middle_log_sd**2 + warm**2 + base**2 + uneven**2) + hot**2
        return sqrt(known + back**2), sqrt(known + ahead**2)

    def _count(self, counts: Sequence[Chits]) -> None:
        last_h = self.states[-1].hour
        counted: list[Counted] = []
        for number, one in enumerate(counts):
            check("hour", one.hour, Bounds(FIRST_READING_H, last_h), "", "counts", number)
            check("chitted", one.chitted, Bounds(0, one.corns), "", "counts", number)
            clock = max(self.clock_at(one.hour), _LEAST_CLOCK_H)
            if one.chitted:
                counted.append(Counted(0.0, clock, one.chitted))
            if one.chitted < one.corns:
                counted.append(Counted(clock, inf, one.corns - one.chitted))
        latest = max(one.hour for one in counts)
        place = min(range(len(self.states)), key=lambda n: abs(self.states[n].hour - latest))
        # The clock's own doubt at the count, as a standard deviation; the middle corn takes it up.
        before = min(sum(self._log_reach(place)) / (2.0 * BAND_SD), 1.0)
        house = from_counts(counted=counted, corns=self.corns, middle_log_sd=before)
        self.corns, self.middle_log_sd, self._counted_at = house.corns, house.middle_log_sd, place

    def clock_at(self, hour: float) -> float:
        """Give what the chit clock shows at an hour of the steep [h at 15 C in air]."""
        clock: float = at_hour(self.states, _within(hour, self.states[-1].hour), lambda state: state.chit_h)
        return clock

    def _span(self, place: int) -> Span:
        if place not in self._spans:
            clock = max(self.states[place].chit_h, _LEAST_CLOCK_H)
            back, ahead = self._log_reach(place)
            value, low, high = (self._share(c) for c in (clock, clock * exp(-back), clock * exp(ahead)))
            grows = BAND_SD * GROWS_SD * value / max(self.corns.grows, GROWS_SD)
            low, high = value - sqrt((value - low) ** 2 + grows**2), value + sqrt((high - value) ** 2 + grows**2)
            self._spans[place] = Span(value, max(0.0, low), min(1.0, high))
        return self._spans[place]

    def _share(self, clock_h: float) -> float:
        share: float = share_chitted(FLOATS, clock_h, self.corns)
        return share

    def share_at(self, hour: float) -> Span:
        """Give the share of all corns chitted at an hour of the steep, from 0 to 1."""
        hour = _within(hour, self.states[-1].hour)
        place = next(n for n, state in enumerate(self.states) if n and hour <= state.hour)
        one, two = self.states[place - 1].hour, self.states[place].hour
        gone = (hour - one) / (two - one)
        pairs = zip(self._span(place - 1), self._span(place), strict=True)
        return Span(*(a + gone * (b - a) for a, b in pairs))

    def hour_of(self, share: float) -> Span | None:
        """Give when a share has chitted: the hour, the earliest and the latest; None when not within these stages."""

        def reached(which: int) -> float:
            first, last = 0, len(self.states) - 1  # chits only come: halve the row until the hour is found
            if self._span(last)[which] < share:
                return inf
            while last - first > 1:
                half = (first + last) // 2
                first, last = (first, half) if self._span(half)[which] >= share else (half, last)
            a, b = self._span(first)[which], self._span(last)[which]
            one, two = self.states[first].hour, self.states[last].hour
            return one + (two - one) * (max(0.0, share - a) / (b - a) if b > a else 0.0)

        value, early, late = reached(0), reached(2), reached(1)
        return None if value == inf else Span(value, min(early, value), max(late, value))

    # -- warmth ------------------------------------------------------------------------

    @cached_property
    def warmest(self) -> list[RestWarmth]:
        """The warmest hour of each rest, with its doubt."""
        found = []
        for number, rest in enumerate(rest_places(self.states), 1):
            places = [n for n in rest if self.states[n].hour <= self._until_h + 1e-9]
            if len(places) < 2:
                continue
            top = max(places[1:], key=lambda n: self.states[n].temp_c)

            def hottest(states: Sequence[State], places: list[int] = places) -> float:
                return max(float(states[n].temp_c) for n in places[1:])

            def steepest(states: Sequence[State], places: list[int] = places) -> float:
                return rise(states, places)

            found.append(
                RestWarmth(number, self.states[top].hour, self._warmth(hottest, 1.0), self._warmth(steepest, 0.0))
            )
        return found

    def _warmth(self, figure: Callable[[Sequence[State]], float], least: float) -> Span:
        here, fast = figure(self.states), figure(self._fast)
        if here == fast:
            return Span(here, here, here)  # a rest that was read, or that only cools
        ways = [figure(states) - here for states in self._drinks]
        warm = BAND_SD * (figure(self._warmer) - here)
        hot = fast - here
        # Breathing's doubt is a factor: what it adds one way, it takes off the other divided by it.
        low = sqrt(min(0.0, *ways) ** 2 + warm**2 + (hot / SOONEST_FACTOR) ** 2)
        high = sqrt(max(0.0, *ways) ** 2 + warm**2 + hot**2)
        return Span(here, max(least, here - low), min(GRAIN_C.high, here + high))


def _within(hour: float, last_h: float) -> float:
    """Give the hour, or the last where a sum of stages came out a last bit beyond it; raise for any other beyond."""
    return check("hour", min(hour, last_h) if hour <= last_h + 1e-6 else hour, Bounds(0.0, last_h))


def _log_clock(states: Sequence[State], place: int) -> float:
    return log(max(states[place].chit_h, _LEAST_CLOCK_H))
