"""The course of one steep: what its corns hold at any hour, and when they reach a target."""

from bisect import bisect_left
from collections.abc import Sequence
from typing import NamedTuple

from ..bounds import TARGET_MOISTURE, Bounds, OutOfRange, check
from .spell import Spell
from .sphere import WetSphere

LONGEST_LAST_H = 60.0
"""Longest last immersion that is looked for [h]; common practice stays well under it."""


class Stage(NamedTuple):
    """One immersion or one air rest.

    Parameters
    ----------
    hours : float
        How long it lasts [h], from 0.25 to 72.
    water_temp_c : float
        Temperature of the water, or of the grain in a rest [C], from 2 to 30.
    """

    hours: float
    water_temp_c: float


class Steeping(NamedTuple):
    """All that a forecast rests on; ``hydration.steep`` describes each part."""

    barley_moisture: float
    stages: tuple[Stage, ...]
    corn_weight_g: float
    rate_factor: float
    begins_wet: bool
    first_uptake_db: float
    film_db: float
    rest_factor: float
    activation_kj_mol: float
    surface_db: float


class Moistures(NamedTuple):
    """Moistures at one hour, % of wet weight: inside the corns, and with the film."""

    net: float
    drained: float


class StageEnd(NamedTuple):
    """What holds at the end of a stage; hours from the start, moistures in % wet weight."""

    hours: float
    wet: bool
    net: float
    drained: float


class Curve(NamedTuple):
    """The course as lists of one length; an edge of a stage stands once for each side."""

    hours: list[float]
    net: list[float]
    drained: list[float]
    wet: list[bool]
    stage: list[int]


def _wet_basis(moisture_db: float) -> float:
    return 100.0 * moisture_db / (1.0 + moisture_db)


class Steep:
    """The course of one steep; made by ``hydration.steep``.

    Parameters
    ----------
    steeping : Steeping
        What it rests on.
    spells : list of Spell
        Its stretches, in order and without gaps.
    start_db : float
        Moisture of the barley, kg per kg of dry matter.
    surface_db : float
        Moisture that the wet surface is held at, kg per kg of dry matter.

    Attributes
    ----------
    hours : float
        Length of all stages [h].
    """

    __slots__ = ("_ends_h", "_rests_db", "hours", "spells", "start_db", "steeping", "surface_db")

    def __init__(self, steeping: Steeping, spells: list[Spell], start_db: float, surface_db: float) -> None:
        self.steeping = steeping
        self.spells = spells
        self.start_db = start_db
        self.surface_db = surface_db
        self.hours = spells[-1].end_h
        self._ends_h = [spell.end_h for spell in spells]
        self._rests_db: dict[float, float] = {}

    @property
    def ends(self) -> list[StageEnd]:
        """Give what holds at the end of each stage."""
        ends = []
        for spell, following in zip(self.spells, [*self.spells[1:], None], strict=True):
            if following is None or following.stage != spell.stage:
                both = self._in_spell(spell, spell.end_h)
                ends.append(StageEnd(spell.end_h, spell.wet, *both))
        return ends

    def _net_db(self, spell: Spell, hours: float) -> float:
        # A slow start (first uptake under 0) never shows less than the barley brought.
        return max(self.start_db, self.surface_db - spell.mean_lack(hours))

    def _rest_db(self, spell: Spell) -> float:
        # What the corns drink in a rest, the film loses: the two together stay as they were.
        held = self._rests_db.get(spell.start_h)
        if held is None:
            held = self._rests_db[spell.start_h] = self._net_db(spell, spell.start_h)
        return held

    def _db_in(self, spell: Spell, hours: float) -> tuple[float, float]:
        net_db = self._net_db(spell, hours)
        return net_db, (net_db if spell.wet else self._rest_db(spell)) + spell.film_db

    def _in_spell(self, spell: Spell, hours: float) -> Moistures:
        net_db, drained_db = self._db_in(spell, hours)
        return Moistures(_wet_basis(net_db), _wet_basis(drained_db))

    def water_at(self, hours: float, stage: int | None = None) -> tuple[float, float]:
        """Give the water inside the corns and with its film, kg per kg of dry matter; see ``at``."""
        return self._db_in(self._spell_at(hours, stage), hours)

    def _spell_at(self, hours: float, stage: int | None = None) -> Spell:
        check("hours", hours, Bounds(0.0, self.hours))
        number = bisect_left(self._ends_h, hours)
        if stage is not None:
            while self.spells[number].stage < stage and number + 1 < len(self.spells):
                number += 1
        return self.spells[number]

    def at(self, hours: float, stage: int | None = None) -> Moistures:
        """Give the moistures at an hour of the steep.

        Parameters
        ----------
        hours : float
            Hours from the start [h]; at the edge of two stages the earlier one counts,
            and at 0 the dry barley.
        stage : int, optional
            Number of the stage from 0, to have the later side of an edge: corns just
            wetted carry a film again.

        Returns
        -------
        Moistures
            Net and drained, % of wet weight.

        Raises
        ------
        OutOfRange
            Before the start or after the last stage.
        """
        if hours == 0.0 and stage is None:
            dry = _wet_basis(self.start_db)
            return Moistures(dry, dry)
        return self._in_spell(self._spell_at(hours, stage), hours)

    def drained_along(self, hours: Sequence[float], stages: Sequence[int] | None = None) -> list[float]:
        """Give the drained moistures alone [%], as ``at`` does one by one, in less time.

        Parameters
        ----------
        hours : sequence of float
            Hours from the start [h], quickest in order.
        stages : sequence of int, optional
            The stage of each, as for ``at``.

        Returns
        -------
        list of float
            As long as `hours`.

        Raises
        ------
        OutOfRange
            When an hour is outside the steep.
        """
        found = []
        spell, held_db = self.spells[0], 0.0
        start_h = end_h = -1.0  # no spell yet
        for n, hour in enumerate(hours):
            stage = None if stages is None else stages[n]
            if hour == 0.0 and stage is None:
                found.append(_wet_basis(self.start_db))
                continue
            if not start_h < hour <= end_h or (stage is not None and stage != spell.stage):
                spell = self._spell_at(hour, stage)
                start_h, end_h = spell.start_h, spell.end_h
                held_db = 0.0 if spell.wet else self._rest_db(spell)
            if spell.wet:
                held_db = self._net_db(spell, hour)
            found.append(_wet_basis(held_db + spell.film_db))
        return found

    def curve(self, points: int = 150) -> Curve:
        """Give the course for a drawing.

        Parameters
        ----------
        points : int, optional
            About how many points are wanted; each stretch has its two ends and, where
            the moisture moves, at least six points.

        Returns
        -------
        Curve
            Hours [h], net and drained moistures [%], True where under water, and the
            number of the stage from 0.

        Raises
        ------
        OutOfRange
            When fewer than 10 or more than 5,000 points are asked for.
        """
        check("points", points, Bounds(10, 5000))
        curve = Curve([], [], [], [], [])
        for spell in self.spells:
            length = spell.end_h - spell.start_h
            count = 1
            if isinstance(spell.sphere, WetSphere):
                count = max(5, round(points * length / self.hours))
            for n in range(count + 1):
                # Uptake starts with the root of time: closer points come first, so that straight lines keep to it.
                # The end itself, as a sum may come out a last bit beyond it.
                hours = spell.end_h if n == count else spell.start_h + length * (n / count) ** 3
                both = self._in_spell(spell, hours)
                curve.hours.append(hours)
                curve.net.append(both.net)
                curve.drained.append(both.drained)
                curve.wet.append(spell.wet)
                curve.stage.append(spell.stage)
        return curve

    def profile(self, hours: float, radii: Sequence[float]) -> list[float]:
        """Give the moisture inside the corn at one hour.

        Parameters
        ----------
        hours : float
            Hours from the start [h].
        radii : sequence of float
            Where, as shares of the corn's radius: 0 the centre, 1 the surface.

        Returns
        -------
        list of float
            Moistures, % of wet weight, one for each radius.

        Raises
        ------
        OutOfRange
            Outside the steep's hours or a radius outside 0 to 1.

        Notes
        -----
        The surface value stands for husk, film and coats together: read the picture as
        wetter and drier, not as a measurement.
        """
        for r in radii:
            check("radii", r, Bounds(0.0, 1.0))
        if hours == 0.0:
            return [_wet_basis(self.start_db)] * len(radii)
        spell = self._spell_at(hours)
        fo = spell.fo_at(hours)
        lacks = spell.sphere.profile(fo, radii)
        return [_wet_basis(max(self.start_db, self.surface_db - lack)) for lack in lacks]

    def _last_immersion(self) -> Spell:
        return next(spell for spell in reversed(self.spells) if spell.wet)

    @property
    def last_immersion_start_h(self) -> float:
        """Give the hour at which the last immersion begins [h]."""
        return self._last_immersion().start_h

    @property
    def last_immersion_hours(self) -> float:
        """Give how long the last immersion is as planned [h]."""
        spell = self._last_immersion()
        return spell.end_h - spell.start_h

    @property
    def drained_before_last_immersion(self) -> float:
        """Give the drained moisture when the last immersion begins, % of wet weight."""
        spell = self._last_immersion()
        return self.at(spell.start_h).drained

    def last_immersion_needed_h(self, target_moisture: float, longest_h: float = LONGEST_LAST_H) -> float | None:
        """Give how long the last immersion must be for the steep to end on target.

        Parameters
        ----------
        target_moisture : float
            Drained moisture wanted, % of wet weight.
        longest_h : float, optional
            Longest immersion to look for [h].

        Returns
        -------
        float or None
            Hours [h]; 0 when a dip that wets the corns is enough; None when the target
            is reached before this immersion or not by its longest.

        Raises
        ------
        OutOfRange
            When the target is not from 20 to 55 % or under the barley's own moisture.

        Notes
        -----
        A rest that follows does not change the drained moisture.
        """
        self._check_target(target_moisture)
        if self.drained_before_last_immersion >= target_moisture:
            return None
        return self._time_in(self._last_immersion(), target_moisture, longest_h)

    def time_to_moisture(self, target_moisture: float, longest_last_h: float = 0.0) -> float | None:
        """Give the hour at which the drained moisture reaches a target.

        Parameters
        ----------
        target_moisture : float
            Drained moisture wanted, % of wet weight.
        longest_last_h : float, optional
            How long the last immersion may become when the stages as given do not reach
            the target [h]; it is never made shorter.

        Returns
        -------
        float or None
            Hours from the start [h]; None when it is not reached.

        Raises
        ------
        OutOfRange
            When the target is not from 20 to 55 % or under the barley's own moisture.
        """
        self._check_target(target_moisture)
        for spell in self.spells:
            if spell.wet:
                hours = self._time_in(spell, target_moisture, spell.end_h - spell.start_h)
                if hours is not None:
                    return spell.start_h + hours
        last = self._last_immersion()
        hours = self._time_in(last, target_moisture, longest_last_h)
        return None if hours is None else last.start_h + hours

    def _time_in(self, spell: Spell, target: float, longest_h: float) -> float | None:
        """Give the hours into an immersion at which the drained moisture is on target."""
        wanted_db = target / (100.0 - target) - spell.film_db
        if wanted_db <= self.start_db:
            return 0.0
        if longest_h <= 0.0 or not isinstance(spell.sphere, WetSphere):
            return None
        latest = spell.fo + spell.per_h * longest_h
        fo = spell.sphere.time_to(self.surface_db - wanted_db, spell.fo, latest)
        return None if fo is None else (fo - spell.fo) / spell.per_h

    def _check_target(self, target: float) -> None:
        low = max(TARGET_MOISTURE.low, self.steeping.barley_moisture)
        if not low <= target <= TARGET_MOISTURE.high:
            raise OutOfRange("target_moisture", low, TARGET_MOISTURE.high)
