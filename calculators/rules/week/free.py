"""What of a house is free by the hour, while batches are put in and taken out."""

from itertools import pairwise

from .hours import daily, span, starts, those
from .house import Batch, House, Way, over, people_needed, soaked_m3, taken_kg, water_lasts
from .shapes import Shape

Spell = tuple[int, int, float]

ROOM_H = (12, 24)
"""Of plans that are alike in all aims, one has more room than another by so many hours between batches on a kiln."""


def _shut(house: House, place: str) -> int:
    """The hours at which a place is not to be had."""
    hours = 0
    for one in house.closed:
        if one.place == place:
            hours |= span(one.begin, one.end)
    return hours


class Free:
    """What of a house is free by the hour, while batches are put in and taken out.

    Parameters
    ----------
    house : House
        The house.
    """

    def __init__(self, house: House) -> None:
        self.house = house
        self.whole = whole = span(0, house.horizon)
        self.steeps = [whole & ~_shut(house, one.name) for one in house.steeps]
        self.kilns = [whole & ~_shut(house, one.name) for one in house.kilns]
        self.open_beds = [whole & ~_shut(house, one.name) for one in house.beds]
        self.spells: list[list[Spell]] = [[] for _ in house.beds]
        self.plenty = house.water_m3_h is None and house.effluent_m3_day is None
        self.drawn: list[tuple[int, float]] = []
        self.let_go: dict[int, float] = {}
        self.tries = 0  # how often water was looked for
        self.from_now = whole & ~span(0, house.now)
        self.busy: dict[int, int] = {}  # people at casts and loads, by hour
        self.able = (
            daily(those(lambda hour: house.hands[hour] >= people_needed(house, hour)), house.horizon) & self.from_now
        )
        self.casts = self.able
        self._beds: dict[tuple[int, float, bool], int] = {}

    def bed(self, number: int, kg: float, lies: bool = False) -> int:
        """The hours at which a bed has room for so much barley; for a batch that lies there, closed or not."""
        key = (number, kg, lies)
        if key not in self._beds:
            bed, spells = self.house.beds[number], self.spells[number]
            free = self.whole if lies else self.open_beds[number]
            need = taken_kg(bed, kg)
            cuts = sorted({hour for begin, end, _ in spells for hour in (begin, end)})
            for begin, end in pairwise(cuts):
                if over(sum(some for b, e, some in spells if b <= begin < e) + need, bed.most_kg):
                    free &= ~span(begin, end)
            self._beds[key] = free
        return self._beds[key]

    def roomy(self, kiln: int) -> tuple[int, ...]:
        """Hours of a load around which a kiln is free for so many hours more, before and after."""
        one, found = self.house.kilns[kiln], []
        held = self.kilns[kiln] | span(0, self.house.now)
        for room in ROOM_H:
            found.append(starts(held, one.hours + one.turn_round + 2 * room) << room)
        return tuple(found)

    def cleans(self, batch: Batch) -> None:
        """Hold for good the steep that a batch was cast from, until it is clean."""
        stood = batch.stood
        if stood.cast is not None and stood.steep is not None:
            self.steeps[stood.steep] &= ~span(self.house.now, stood.cast + self.house.clean_steep)

    def kilned(self, batch: Batch, way: Way) -> None:
        """Hold for good the kiln that a batch is on, and the bed that it lay in until it is clean."""
        self.kilns[way.kiln] &= ~span(way.load, way.off + self.house.kilns[way.kiln].turn_round)
        if batch.stood.bed is not None:
            self.spells[way.bed].append(self._spell(batch, way))

    def put(self, batch: Batch, way: Way) -> None:
        """Hold the places of a batch that is not on the kiln, its hands and its water."""
        self._turn(batch, way)
        self._hands(batch, way, 1)
        self.spells[way.bed].append(self._spell(batch, way))
        self._water(batch, way, True)

    def take(self, batch: Batch, way: Way) -> None:
        """Let go what :meth:`put` held."""
        self._turn(batch, way)
        self._hands(batch, way, -1)
        self.spells[way.bed].remove(self._spell(batch, way))
        self._water(batch, way, False)

    def _hands(self, batch: Batch, way: Way, times: int) -> None:
        """Take people for a cast and a load, or give them back: who is at one is not there for another of that hour."""
        house = self.house
        for hour in (way.load,) if batch.stood.cast is not None else (way.cast, way.load):
            need = people_needed(house, hour)
            self.busy[hour] = self.busy.get(hour, 0) + times * need
            if self.able >> hour & 1:
                there = house.hands[hour % 24] - self.busy[hour] >= need
                self.casts = self.casts | 1 << hour if there else self.casts & ~(1 << hour)

    def _spell(self, batch: Batch, way: Way) -> Spell:
        return way.cast, way.load + self.house.clean_bed, taken_kg(self.house.beds[way.bed], batch.kg)

    def _turn(self, batch: Batch, way: Way) -> None:
        """Exchange free and held, in steep and kiln: the hours of a way are all the one or all the other."""
        house = self.house
        if batch.stood.cast is None:
            self.steeps[way.steep] ^= span(max(way.fill, house.now), way.cast + house.clean_steep)
        self.kilns[way.kiln] ^= span(way.load, way.off + house.kilns[way.kiln].turn_round)
        self._beds.clear()

    def _water(self, batch: Batch, way: Way, hold: bool) -> None:
        house = self.house
        if batch.stood.cast is not None or self.plenty:
            return
        m3 = soaked_m3(house, batch)
        for hour in way.waters:
            if hour >= house.now:
                (self.drawn.append if hold else self.drawn.remove)((hour, m3))
        for hour in way.drains:
            if hour >= house.now:
                self.let_go[hour // 24] = self.let_go.get(hour // 24, 0.0) + (m3 if hold else -m3)

    def has_water(self, batch: Batch, fill: int, shape: Shape) -> bool:
        """Whether a steep's water is to be had and may be let go, beside what is held."""
        house = self.house
        if self.plenty:
            return True
        self.tries += 1
        m3 = soaked_m3(house, batch)
        if house.water_m3_h is not None:
            own = [(fill + hour, m3) for hour in shape.waters if fill + hour >= house.now]
            if not water_lasts([*self.drawn, *own], house.water_m3_h, house.tank_m3):
                return False
        if house.effluent_m3_day is None:
            return True
        days = [(fill + hour) // 24 for hour in shape.drains if fill + hour >= house.now]
        return not any(over(self.let_go.get(day, 0.0) + m3 * days.count(day), house.effluent_m3_day) for day in days)
