"""The hidden batch as it goes on: water, warmth, breath, chit and growth of three places, by quarters of an hour.

Steps lie on fixed quarters. A reading looks at a copy and leaves no trace, so that a batch is the same whichever
readings were taken; only an action cuts a step. All is for a tonne of barley as filled.
"""

from collections.abc import Callable
from copy import copy
from itertools import pairwise
from math import exp, sin, tau

from ..models.bed import floor, respiration
from ..models.living.acrospires import shares_below
from ..models.living.batch import LEACHING_H, WATER_SUPPLY_MG_KG_H
from ..models.living.breathing import DRY_SHARE, PEAK_PER_H, awake, temperature_response
from ..models.living.chitting import share_chitted
from ..models.living.maths import FLOATS
from ..models.living.pace import DEBT_PER_H, UNDER_WATER, chit_pace, growth_pace, water_pace
from ..models.living.warmth import VESSEL_W_K_T, air_on, cooling_kw, heat_capacity
from ..models.steep.hydration import REST_FULL_H, SURFACE_DB, SURFACE_RATE, rate_at
from . import drum
from .hidden import Hidden

STEP_MIN = 15
SHELLS = 9
LAYERS = 5
LOW_M3_H_T, FULL_M3_H_T = 7.8, 30.0
"""Suction [m3/h for each tonne of barley]: as plans have it, and full, made up for teaching."""
TURNED_DRIES_DB, TURNED_COOLS = 0.006, 0.45
"""What a turning costs: water [kg/kg] and a share of the warmth over the room; made up for teaching."""
FLOOR_SHARE = 0.55
"""Breathing on a floor against the law: floors ask for about half of it (``bed.floor.FACTOR_OF_TWO``)."""
APART_SPREADS = 0.0011
"""Spread of the pace of growth for each kelvin and hour that bottom and top part beyond 4 K [-]; made up."""
MATTED_H = 16.0
TORN_K_H, TOO_SOON_H = 4.0, 6.0
"""Roots that tear let corns grow apart by so much [K h]: an hour of lying matted, or a turning sooner than 6 h after
the last; made up. What usual turnings tear is in the stated spread of corns already: pieces it rests on were turned."""
ROOTS_OUT_H = 30.0
ROOTS_SHARE, ROOTS_GROWN_H, BREAKS_OFF = 0.04, 125.0, 0.02
"""Roots of a corn as long as its acrospire: 3 to 5 % of the dry matter (from memory). Each turning breaks off a
fiftieth of them, which is grown anew; that it breaks them is common practice, how much is made up for teaching."""

_EDGES = [n / SHELLS for n in range(SHELLS + 1)]
_VOLUMES = [(b**3 - a**3) / 3.0 for a, b in pairwise(_EDGES)]
_THROUGH = [SHELLS * edge**2 for edge in _EDGES[1:-1]]
_IN = 2.0 * SHELLS


class Zone:
    """One place: its water, warmth and clocks."""

    __slots__ = ("apart", "chit_h", "dry", "evaporated", "film", "growth_h", "layers", "respired", "shells", "water")

    def __init__(self, dry: float, water_db: float, temp_c: float) -> None:
        self.shells = [water_db] * SHELLS
        self.water = water_db
        self.film = 0.0
        self.layers = [temp_c] * LAYERS
        self.chit_h = self.growth_h = self.apart = self.respired = self.evaporated = 0.0
        self.dry = dry

    def copied(self) -> "Zone":
        """Give a copy that goes its own way."""
        other = copy(self)
        other.shells, other.layers = self.shells[:], self.layers[:]
        return other

    @property
    def temp_c(self) -> float:
        """Its mean temperature [C]."""
        return sum(self.layers) / LAYERS

    @property
    def net(self) -> float:
        """Moisture inside the corns, % of wet weight."""
        return 100.0 * self.water / (1.0 + self.water)

    @property
    def drained(self) -> float:
        """Moisture with the film, % of wet weight."""
        both = self.water + self.film
        return 100.0 * both / (1.0 + both)


class World:
    """The batch at a minute. ``where`` is ``dry``, ``water``, ``rest``, ``couch``, ``floor``, ``drum`` or ``gone``."""

    def __init__(self, number: int, this: Hidden, minute: int = 0) -> None:
        self.number, self.this, self.minute = number, this, minute
        lot = this.lot
        dry = 1000.0 * (1.0 - lot.barley_moisture / 100.0)
        water = lot.barley_moisture / (100.0 - lot.barley_moisture)
        self.zones = [Zone(dry, water, 12.0) for _ in this.places]
        self.dry0 = dry
        self.where = "dry"
        self.suction, self.air, self.windows, self.depth_m = 0, 1, False, 0.3
        self.immersions = 0
        self.wet_h = self.rested_h = self.immersed_h = self.debt_h = 0.0
        self.turned = minute
        self.suction_broken = False

    def copied(self) -> "World":
        """Give a copy that goes its own way."""
        other = copy(self)
        other.zones = [zone.copied() for zone in self.zones]
        return other

    def room_c(self, minute: int) -> float:
        """Give the room and the air drawn in [C]: coolest in the early morning."""
        open_k = -2.0 if self.windows else 0.0
        return self.this.room_c + open_k + self.this.swing_k * sin(tau * (minute / 1440.0 - 0.1))

    def go_to_quarter(self, minute: int) -> None:
        """Go on over the whole quarters up to a minute; what is left of it is not gone."""
        while (self.minute // STEP_MIN + 1) * STEP_MIN <= minute:
            self._step((self.minute // STEP_MIN + 1) * STEP_MIN)

    def seen_at(self, minute: int) -> "World":
        """Give the batch at a minute, as a copy; this one goes no further than whole quarters."""
        self.go_to_quarter(minute)
        other = self.copied()
        if other.minute < minute:
            other._step(minute)
        return other

    def cut_at(self, minute: int) -> None:
        """Go on to a minute, as an action asks."""
        self.go_to_quarter(minute)
        if self.minute < minute:
            self._step(minute)

    def _step(self, until: int) -> None:
        hours = (until - self.minute) / 60.0
        room = self.room_c(self.minute)
        if self.where == "water":
            self.wet_h += hours
            self.immersed_h += hours
            lets = self._lets_under_water(hours)
            for zone, place in zip(self.zones, self.this.places, strict=True):
                self._breathe(zone, hours, lets, True)
                temp = self.this.water_c + 0.3 * place.warmer_k
                zone.layers = [temp] * LAYERS
                self._drink(zone, place.drinks, hours, True)
        elif self.where == "rest":
            paid = min(self.debt_h, hours)
            self.debt_h -= paid
            for zone, place in zip(self.zones, self.this.places, strict=True):
                made = self._breathe(zone, hours, 1.0 - paid / hours, False)
                self._cool(zone, place.air, made, hours, room)
                self._drink(zone, place.drinks, hours, False)
            self.rested_h += hours
        elif self.where in ("couch", "floor"):
            for zone, place in zip(self.zones, self.this.places, strict=True):
                self._lie(zone, place.deeper, hours, room, until)
        elif self.where == "drum":
            for zone, place in zip(self.zones, self.this.places, strict=True):
                self._blow(zone, place.air, hours, room, until)
        self.minute = until

    def _lets_under_water(self, hours: float) -> float:
        free = self.this.free_h - (5.0 if self.air == 0 else 0.0)
        if self.debt_h > 0.0 or self.wet_h > free:
            self.debt_h += DEBT_PER_H * hours
            return 0.0
        return UNDER_WATER if self.air else 0.5 * UNDER_WATER

    def _breathe(self, zone: Zone, hours: float, lets: float, wet: bool) -> float:
        """Let it breathe; give the heat [kW]."""
        lot = self.this.lot
        net, temp = zone.net, min(max(zone.temp_c, 1.0), 39.0)
        woken = awake(FLOATS, net)
        grown = self.this.growth_course(zone.growth_h * lot.breath_timing)
        course = DRY_SHARE + woken * (lot.breath_level + (1.0 - lot.breath_level) * grown)
        per_h = lot.breath_factor * PEAK_PER_H * course * (FLOOR_SHARE if self.where in ("couch", "floor") else 1.0)
        per_h *= temperature_response(FLOATS, temp, lot.cold_kj_mol, lot.warm_kj_mol)
        if wet:
            per_h = min(per_h, WATER_SUPPLY_MG_KG_H * 1e-6 / respiration.O2_PER_KG)
        burnt = per_h * zone.dry * hours
        water = zone.water * zone.dry
        zone.dry -= burnt
        zone.respired += burnt
        if not wet and self.where != "rest":
            zone.water = (water + respiration.WATER_PER_KG * burnt) / zone.dry
        on = hours * lets * water_pace(FLOATS, net)
        zone.chit_h += on * chit_pace(FLOATS, temp, lot.chit_base_c)
        zone.growth_h += on * growth_pace(FLOATS, temp, lot.growth_q10)
        return float(per_h * zone.dry * respiration.HEAT_MJ_PER_KG / 3.6)

    def _cool(self, zone: Zone, air_share: float, made_kw: float, hours: float, room: float) -> None:
        temp = zone.temp_c
        flow = 0.0 if self.suction_broken else (0.0, LOW_M3_H_T, FULL_M3_H_T)[self.suction]
        air = air_on(temp_c=round(room, 1), relative_humidity=85.0)
        taken, dried = cooling_kw(FLOATS, air, flow * air_share * self.this.lot.suction_factor, temp)
        lost = VESSEL_W_K_T / 1000.0 * (temp - room)
        rise = (made_kw - taken - lost) * 3600.0 * hours / heat_capacity(zone.dry, zone.dry * (zone.water + zone.film))
        zone.layers = [min(max(temp + rise, 1.0), 38.0)] * LAYERS
        gone = min(max(dried, 0.0) * hours / zone.dry, zone.film + 0.001)
        zone.evaporated += gone * zone.dry
        zone.film -= gone
        if zone.film < 0.0:
            zone.shells[-1] += zone.film / (3.0 * _VOLUMES[-1])
            zone.film = 0.0

    def _drink(self, zone: Zone, drinks: float, hours: float, wet: bool) -> None:
        lot, shells = self.this.lot, zone.shells
        slower = exp(SURFACE_RATE * (lot.surface_db - SURFACE_DB))
        faster = slower * (1.0 + (lot.rest_factor - 1.0) * min(1.0, self.rested_h / REST_FULL_H))
        pace = faster * drinks * rate_at(FLOATS, zone.temp_c, lot.corn_weight_g, lot.rate_factor, lot.activation_kj_mol)
        fo = pace * hours
        fed = 0.0
        if wet or zone.film > 0.0:
            most = zone.film if not wet else 9.0
            gap = max(lot.surface_db - shells[-1], 0.0)
            fed = min(fo * _IN * gap, most / 3.0, 0.5 * gap * _VOLUMES[-1])
            zone.film = 0.0 if wet else zone.film - 3.0 * fed
        # water goes through the faster the wetter it is there: the sheets have one pace all through
        flows = [
            fo * through * (1.0 + self.this.inside * (0.5 * (a + b) - 0.55)) * (b - a)
            for through, a, b in zip(_THROUGH, shells, shells[1:], strict=False)
        ]
        for n, flow in enumerate(flows):
            shells[n] += flow / _VOLUMES[n]
            shells[n + 1] -= flow / _VOLUMES[n + 1]
        shells[-1] += fed / _VOLUMES[-1]
        zone.water = 3.0 * sum(v * s for v, s in zip(_VOLUMES, shells, strict=True))

    def _lie(self, zone: Zone, deeper: float, hours: float, room: float, until: int) -> None:
        this = self.this
        made = self._breathe(zone, hours, 1.0, False)
        warms = made / (zone.dry / floor.DRY_KG_M3) * 3600.0 / floor.HEAT_CAPACITY_KJ_M3_K  # K/h
        thick = self.depth_m * deeper / LAYERS
        through = this.conducts_w_m_k / thick**2 / (floor.HEAT_CAPACITY_KJ_M3_K / 3.6)  # 1/h
        out = 1.0 / (1.0 / this.surface_w_m2_k + 0.5 * thick / this.conducts_w_m_k)
        out = out / thick / (floor.HEAT_CAPACITY_KJ_M3_K / 3.6)
        temps = zone.layers
        parts = max(1, round(hours * through * 2.2 + 0.5))
        step, lost = hours / parts, 0.0
        for _ in range(parts):
            mean = sum(temps) / LAYERS
            flows = [through * (a - b) for a, b in pairwise(temps)]
            leaves = out * (temps[-1] - room)
            lost += leaves * step
            new = [t + step * warms * (1.0 + 0.07 * (t - mean)) for t in temps]
            for n, flow in enumerate(flows):
                new[n] -= step * flow
                new[n + 1] += step * flow
            new[-1] -= step * leaves
            temps = [min(max(t, 1.0), 38.0) for t in new]
        zone.layers = temps
        # heat that left the surface took water along, in the proportion of damp air
        kj = max(lost, 0.0) * floor.HEAT_CAPACITY_KJ_M3_K / LAYERS * zone.dry / floor.DRY_KG_M3
        dried = min(kj / 4200.0 * this.lot.drying_factor / zone.dry, 0.02)
        zone.water -= dried
        zone.evaporated += dried * zone.dry
        zone.apart += max(temps[0] - temps[-1] - 4.0, 0.0) * hours
        if zone.growth_h > ROOTS_OUT_H and until - self.turned > MATTED_H * 60.0:
            zone.apart += TORN_K_H * hours  # roots that hold together grow through each other and tear

    def _blow(self, zone: Zone, air_share: float, hours: float, room: float, until: int) -> None:
        made = self._breathe(zone, hours, 1.0, False)
        flow = (0.0, drum.LOW_M3_H_T, drum.FULL_M3_H_T)[self.suction] * (0.6 + 0.4 * air_share)
        air_c = drum.air_on_c(room, self.this.room_c)
        temp, taken = drum.blown(
            temp_c=zone.temp_c, made_kw=made, dry_kg=zone.dry, water_db=zone.water, flow_m3_h=flow, air_c=air_c,
            room_c=room, hours=hours,
        )  # fmt: skip
        zone.layers = drum.layers_of(temp, air_c, self.suction > 0, LAYERS)
        zone.water -= taken / zone.dry
        zone.evaporated += taken
        zone.apart += max(zone.layers[-1] - zone.layers[0] - 4.0, 0.0) * hours
        if zone.growth_h > ROOTS_OUT_H and until - self.turned > MATTED_H * 60.0:
            zone.apart += TORN_K_H * hours

    # What is done to it.

    def fill(self) -> None:
        """Cover it with water."""
        for zone in self.zones:
            zone.film = 0.0
        self.where, self.wet_h = "water", 0.0
        self.immersions += 1
        self.suction = 0

    def drain(self) -> None:
        """Let the water off: each drain leaves another film."""
        self.where = "rest"
        film = self.this.film_db(self.number, self.immersions)
        for zone in self.zones:
            zone.film = film
        gone = self.this.lot.leached * (1.0 - exp(-self.immersed_h / LEACHING_H))
        for zone in self.zones:
            zone.dry = min(zone.dry, self.dry0 * (1.0 - gone) - zone.respired)

    def cast(self, depth_m: float) -> None:
        """Move it to the floor: the film is taken up there, and the places are mixed half."""
        self.where, self.depth_m, self.turned = "couch", depth_m, self.minute
        for zone in self.zones:
            zone.water, zone.film = zone.water + zone.film, 0.0
        self._mix(0.5)

    def cast_to_drum(self) -> None:
        """Move it into the drum, its fan low: the film is taken up there, and the places are mixed half."""
        self.where, self.turned, self.suction, self.suction_broken = "drum", self.minute, 1, False
        for zone in self.zones:
            zone.water, zone.film = zone.water + zone.film, 0.0
        self._mix(0.5)

    def turn_drum(self) -> None:
        """Turn the drum with its air on: it mixes well, dries little, and breaks roots as any turning does."""
        self._mix(drum.MIXES)
        for zone in self.zones:
            zone.water -= drum.DRIES_DB
            if zone.growth_h > ROOTS_OUT_H:
                self._break_roots(zone)
        self.turned = self.minute

    def air_on_c(self, minute: int) -> float:
        """Give the temperature of the air that comes on at the drum [C]."""
        return drum.air_on_c(self.room_c(minute), self.this.room_c)

    def turn(self, depth_m: float | None = None) -> None:
        """Turn it, and lay it at a depth."""
        room = self.room_c(self.minute)
        self._mix(0.35)
        for zone in self.zones:
            zone.layers = [room + (1.0 - TURNED_COOLS) * (t - room) for t in [zone.temp_c] * LAYERS]
            zone.water -= TURNED_DRIES_DB
            if zone.growth_h > ROOTS_OUT_H:
                self._break_roots(zone)
        self.where, self.turned = "floor", self.minute
        self.depth_m = depth_m or self.depth_m

    def _break_roots(self, zone: Zone) -> None:
        if self.minute - self.turned < 60.0 * TOO_SOON_H:
            zone.apart += TORN_K_H
        grown = min((zone.growth_h - ROOTS_OUT_H) / (ROOTS_GROWN_H - ROOTS_OUT_H), 1.0)
        zone.dry *= 1.0 - BREAKS_OFF * ROOTS_SHARE * grown

    def sprinkle(self, litres_t: float) -> None:
        """Give it water; four fifths stay on the grain."""
        for zone in self.zones:
            zone.water += 0.8 * litres_t / zone.dry

    def _mix(self, share: float) -> None:
        for name in ("water", "growth_h", "chit_h"):
            mean = self.mean(lambda zone, name=name: getattr(zone, name))  # type: ignore[misc]
            for zone in self.zones:
                setattr(zone, name, getattr(zone, name) + share * (mean - getattr(zone, name)))
        mean_c = self.mean(lambda zone: zone.temp_c)
        for zone in self.zones:
            zone.layers = [zone.temp_c + share * (mean_c - zone.temp_c)] * LAYERS

    # What it is.

    def mean(self, figure: Callable[[Zone], float]) -> float:
        """Give the mean of a figure over the places, each by its share."""
        return float(sum(place.share * figure(zone) for place, zone in zip(self.this.places, self.zones, strict=True)))

    def as_drained(self) -> float:
        """Give the moisture of the whole as a drained basket has it, under water too, % of wet weight.

        Grain under water is given the film that its drain leaves: else it would seem to drink at the drain.
        """
        if self.where != "water":
            return self.mean(lambda zone: zone.drained)
        both = self.mean(lambda zone: zone.water) + self.this.film_db(self.number, self.immersions)
        return 100.0 * both / (1.0 + both)

    def chitted(self) -> float:
        """Give the share of corns chitted."""
        return self.mean(lambda zone: float(share_chitted(FLOATS, zone.chit_h, self.this.lot.corns)))

    def classes(self) -> list[float]:
        """Give the shares of corns in the five classes of acrospire, shortest first."""
        lot = self.this.lot
        total = [0.0] * 5
        for place, zone in zip(self.this.places, self.zones, strict=True):
            wider = (lot.acrospires.pace_spread**2 + (APART_SPREADS * zone.apart) ** 2) ** 0.5
            spread = lot.acrospires._replace(pace_spread=min(wider, 0.45))
            below = [*(float(x) for x in shares_below(FLOATS, zone.growth_h, lot.corns, spread)), 1.0]
            for n in range(5):
                total[n] += place.share * max(below[n] - (below[n - 1] if n else 0.0), 0.0)
        return total

    def loss_percent(self) -> float:
        """Give the dry matter lost, % of what was filled."""
        return float(100.0 * (1.0 - self.mean(lambda zone: zone.dry) / self.dry0))
