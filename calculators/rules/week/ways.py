"""The ways of one batch through what is still free of a house, all hours looked at at once."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import product
from operator import itemgetter
from typing import NamedTuple, TypeVar

from .free import Free
from .hours import daily, first, span, starts, those
from .house import WAITS_MOST, Batch, House, Way, wanted_by
from .shapes import CHANGED, HAND, LATE, WATCHED, Shape, by_hours, pattern, shapes_at

_Cast = tuple[int, int, int]
"""Hours at which a batch can be cast at one cost: the cost, the hours, the steep."""

_Bed = tuple[int, int, int, int, int, int]
"""Hours at which it can be cast so that all after it goes: cost, hours, bed, hours waited, kiln, hours until off it."""

_MOST = 60
"""So many ways within a window are given."""

_KEPT = 64
"""So many looks at one place are kept: while a plan is searched, four in five find it as it was not long before."""

_COST = itemgetter(0)
_Sort = TypeVar("_Sort", _Cast, _Bed)


def _by_class(some: list[_Sort]) -> dict[int, list[_Sort]]:
    """Part hours by how often somebody has to be called in, the aim that comes before lateness."""
    parted: dict[int, list[_Sort]] = {}
    for one in some:
        parted.setdefault(one[0] // HAND, []).append(one)
    return parted


def _attended(house: House, kiln_h: int) -> int:
    """Hours at which a kiln can be loaded so that somebody is there when it is emptied."""
    return daily(those(lambda hour: house.counted[(hour + kiln_h) % 24] >= 1), house.horizon)


def _by_hands(casts: Iterable[int], beds: Iterable[int]) -> list[tuple[int, list[tuple[int, int]]]]:
    """What two classes come to, the fewest hands called in first, with all pairs that come to it."""
    sums: dict[int, list[tuple[int, int]]] = {}
    for of_casts, of_beds in product(casts, beds):
        sums.setdefault(of_casts + of_beds, []).append((of_casts, of_beds))
    return sorted(sums.items())


def _cast_soonest(pair: tuple[_Cast, _Bed, int]) -> tuple[int, ...]:
    """Order ways that are off at one hour at one cost."""
    (steeping, _, steep), (_, _, bed, waits, kiln, after), _ = pair
    return -after, steep, steeping, bed, waits, kiln


def _price(numbered: tuple[int, tuple[_Cast, _Bed, int]]) -> int:
    """What a way costs beside lateness."""
    _, (cast, bed, _) = numbered
    return cast[0] + bed[0]


def _offs(casts: list[_Cast], beds: list[_Bed]) -> list[int]:
    """The earliest hour off the kiln by each bed that follows one of these casts."""
    hours = 0
    for _, some, _ in casts:
        hours |= some
    return [first(bed[1] & hours) + bed[5] for bed in beds if bed[1] & hours]


class Choice(NamedTuple):
    """One way of a batch, before its waters are laid down: its cost packed, and when it is off the kiln [h]."""

    cost: int
    off: int
    cast: int
    steep: int
    steeping: int
    bed: int
    waits: int
    kiln: int


class Least(NamedTuple):
    """The least that a batch can cost through what is free: packed, and the earliest off the kiln at that [h]."""

    cost: int
    off: int


class Looker:
    """One batch, looked at in what is free.

    Parameters
    ----------
    house : House
        The house.
    batch : Batch
        The batch; none that is on the kiln already.
    before : Way, optional
        Its way in the running plan.
    """

    def __init__(self, house: House, batch: Batch, before: Way | None = None) -> None:
        self.house, self.batch, self.before = house, batch, before
        self.pattern, self.due = pattern(house, batch.stages), wanted_by(house, batch)
        stood = batch.stood
        self.steeps = [n for n, one in enumerate(house.steeps) if batch.kg <= one.most_kg]
        self.beds = [n for n, one in enumerate(house.beds) if batch.kg <= one.most_kg]
        self.kilns = [n for n, one in enumerate(house.kilns) if batch.kg <= one.most_kg]
        if stood.steep is not None:
            self.steeps = [stood.steep]
        if stood.bed is not None:
            self.beds = [stood.bed]
        self.attended = {n: _attended(house, house.kilns[n].hours) for n in self.kilns}
        self.masks: list[tuple[int, int, int]] = []  # steeped hours, cost, fills
        self.running: dict[int, tuple[Shape, ...]] = {}
        if stood.fill is not None:
            self.running = shapes_at(self.pattern, stood.fill % 24, house.now - stood.fill)
        else:
            may = span(max(house.now, batch.from_h), house.horizon)
            for hours, costs in by_hours(self.pattern):
                for cost, clocks in costs:
                    self.masks.append((hours, cost, may & daily(clocks, house.horizon)))
        self._from = lru_cache(_KEPT)(self._cast_from)
        self._loads = lru_cache(_KEPT)(self._loaded)
        self._lying = lru_cache(_KEPT)(self._lying_in)

    def _grow(self, bed: int) -> int:
        stood = self.batch.stood
        if stood.ready is not None and stood.cast is not None:
            return stood.ready - stood.cast
        return self.batch.grow[bed]

    def _casts(self, free: Free) -> list[_Cast]:
        """Hours at which it can be cast: cost, hours, steep."""
        stood, before = self.batch.stood, self.before
        if stood.cast is not None:
            return [(0, 1 << stood.cast, stood.steep or 0)]
        if stood.fill is not None:
            return self._running_casts(free, stood.fill)
        found = []
        for steep in self.steeps:
            same = 1 << before.fill if before is not None and steep == before.steep else 0
            found += [(cost, hours, steep) for cost, hours in self._from(free.steeps[steep], same, free.casts)]
        return found

    def _cast_from(self, room: int, same: int, casts: int) -> list[tuple[int, int]]:
        """Hours at which it can be cast from a steep with such room: cost, hours."""
        merged: dict[int, int] = {}
        can, held = room, 1
        moved = CHANGED if self.before is not None else 0
        for hours, cost, fills in self.masks:
            need = hours + self.house.clean_steep
            if need > held:
                can, held = starts(can, need - held + 1), need
            if not can:
                break
            good = can & fills
            if good & same:
                merged[cost] = merged.get(cost, 0) | same << hours
                good &= ~same
            if good:
                merged[cost + moved] = merged.get(cost + moved, 0) | good << hours
        return [(cost, hours & casts) for cost, hours in merged.items() if hours & casts]

    def _running_casts(self, free: Free, fill: int) -> list[_Cast]:
        house, steep = self.house, self.steeps[0]
        found: dict[int, int] = {}
        for hours, some in self.running.items():
            cast = fill + hours
            held = span(house.now, cast + house.clean_steep)
            if free.steeps[steep] & held == held and free.casts >> cast & 1:
                found[some[0].cost] = found.get(some[0].cost, 0) | 1 << cast
        return [(cost, hours, steep) for cost, hours in found.items()]

    def _loaded(self, rooms: tuple[int, ...], casts: int) -> list[tuple[int, int, int]]:
        """Hours at which one of the kilns with such room can be loaded: cost, hours, kiln."""
        found = []
        for kiln, room in zip(self.kilns, rooms, strict=True):
            one = self.house.kilns[kiln]
            can = starts(room, one.hours + one.turn_round) & casts
            met = can & self.attended[kiln]
            found += [(0, met, kiln)] * bool(met) + [(HAND, can & ~met, kiln)] * bool(can & ~met)
        return found

    def _beds(self, free: Free) -> dict[int, list[_Bed]]:
        """Hours at which it can be cast so that all after it goes, by hands called in."""
        kilns, found = tuple(free.kilns[kiln] for kiln in self.kilns), dict[int, list[_Bed]]()
        for bed in self.beds:
            room = free.bed(bed, self.batch.kg, self.batch.stood.cast is not None)
            for hands, some in self._lying(bed, room, kilns, free.casts).items():
                found.setdefault(hands, []).extend(some)
        return found

    def _lying_in(self, bed: int, room: int, kilns: tuple[int, ...], casts: int) -> dict[int, list[_Bed]]:
        """Give those hours for one bed with such room."""
        house, before, grow = self.house, self.before, self._grow(bed)
        loads, found = self._loads(kilns, casts), list[_Bed]()
        hours = grow + house.clean_bed
        can = starts(room, hours)
        for waits in range(WAITS_MOST + 1):
            if not can:
                break
            price = WATCHED * max(0, waits - house.waits_accepted)
            for cost, at, kiln in loads:
                good = can & (at >> (grow + waits))
                if good:
                    one: _Bed = (price + cost, good, bed, waits, kiln, grow + waits + house.kilns[kiln].hours)
                    found += [one] if before is None else self._by_change(one, before)
            can &= room >> (hours + waits)
        return _by_class(found)

    def _by_change(self, one: _Bed, before: Way) -> list[_Bed]:
        """Part hours by what of the running plan they keep."""
        price, good, bed, waits, kiln, after = one
        cast_kept = (1 << before.cast) * (bed == before.bed)
        loaded = before.load - self._grow(bed) - waits
        load_kept = 1 << loaded if kiln == before.kiln and loaded >= 0 else 0
        moves = 0 if self.batch.stood.cast is not None else CHANGED
        parted = (
            (good & cast_kept & load_kept, price),
            (good & cast_kept & ~load_kept, price + CHANGED),
            (good & ~cast_kept & load_kept, price + moves),
            (good & ~cast_kept & ~load_kept, price + moves + CHANGED),
        )
        return [(cost, hours, bed, waits, kiln, after) for hours, cost in parted if hours]

    def least(self, free: Free, bound: int) -> Least | None:
        """The least cost of any way that is under the bound, its water left aside; None where there is none."""
        casts = _by_class(sorted(self._casts(free), key=_COST))
        beds = {hands: sorted(some, key=_COST) for hands, some in self._beds(free).items()}
        for word, pairs in _by_hands(casts, beds):
            if word * HAND >= bound:
                return None
            offs = [off for of_casts, of_beds in pairs for off in _offs(casts[of_casts], beds[of_beds])]
            if not offs:
                continue
            soonest = min(offs)
            base = bound
            for of_casts, of_beds in pairs:
                base = self._cheapest(casts[of_casts], beds[of_beds], max(self.due, soonest), base)
            cost = base + LATE * max(0, soonest - self.due)
            return Least(cost, soonest) if cost < bound else None
        return None

    def _cheapest(self, casts: list[_Cast], beds: list[_Bed], until: int, base: int) -> int:
        """The least that is paid beside lateness, for malt that is off by an hour."""
        merged: dict[int, int] = {}
        for cost, hours, _ in casts:
            merged[cost] = merged.get(cost, 0) | hours
        for bed in beds:
            within = span(0, until - bed[5] + 1) & bed[1]
            for cost, hours in merged.items():
                if cost + bed[0] >= base:
                    break
                if within & hours:
                    base = cost + bed[0]
                    break
        return base

    def choices(self, free: Free, bound: int, window: int | None = None, pass_over: int = 0) -> Iterator[Choice]:
        """All ways under the bound, the cheapest first, and of those of one cost the one that is off soonest.

        Of ways that differ only in how long the batch lies in the steep, at one cost, the shortest stands for all.
        With a window only those are given that are off so many hours after the first at the most [h]; and so many of
        the fewest hands that somebody has to be called in for are passed over.
        """
        casts, beds = _by_class(self._unlike(free, self._casts(free))), self._beds(free)
        for word, classes in _by_hands(casts, beds):
            if word * HAND >= bound:
                return
            pairs = [
                pair
                for of_casts, of_beds in classes
                for pair in self._pairs(casts[of_casts], beds[of_beds], once=window is not None)
            ]
            if pairs and pass_over:
                pass_over -= 1
            elif pairs:
                yield from self._listed(free, pairs, bound, window)

    def _pairs(self, casts: list[_Cast], beds: list[_Bed], *, once: bool) -> list[tuple[_Cast, _Bed, int]]:
        """Casts with what can come after them; with ``once`` each hour of a bed by the cheapest steep alone."""
        pairs = []
        ordered = sorted(casts, key=_COST) if once else casts
        for bed in beds:
            left = bed[1]
            for cast in ordered:
                both = left & cast[1]
                if both:
                    pairs.append((cast, bed, both))
                    if once:
                        left &= ~both
        return pairs

    def _listed(
        self, free: Free, pairs: list[tuple[_Cast, _Bed, int]], bound: int, window: int | None
    ) -> Iterator[Choice]:
        latest, due = self.house.horizon, self.due
        if window is not None:
            latest = min(first(both) + bed[5] for _, bed, both in pairs) + window
        counted = window is not None and self.batch.due is not None
        if not counted:
            pairs.sort(key=_cast_soonest)
        crowds = self._crowds(free, counted=counted)
        found: list[tuple[int, ...]] = []
        for number, ((steeping, _, _), (price, _, _, _, kiln, after), both) in sorted(enumerate(pairs), key=_price):
            base, both = steeping + price, both & span(0, latest - after + 1)
            if base >= bound:
                break
            for crowd, loads in crowds[kiln]:
                some = both & loads >> (after - self.house.kilns[kiln].hours)
                while some:
                    lowest = some & -some
                    some ^= lowest
                    off = lowest.bit_length() - 1 + after
                    cost = base + LATE * (off - due) if off > due else base
                    if cost >= bound:
                        break
                    found.append((cost, crowd, off, number))
            if window is not None and len(found) > 2 * _MOST:  # dearer ones are not looked for any more
                found.sort()
                del found[_MOST:]
                bound = min(bound, found[-1][0] + 1)
        found.sort()
        for one in found[: None if window is None else _MOST]:
            yield self._chosen(one, pairs[one[3]])

    def _crowds(self, free: Free, *, counted: bool) -> dict[int, list[tuple[int, int]]]:
        """How crowded each kiln is around a load, if that is counted, with the hours of such loads."""
        if not counted:
            return {kiln: [(0, -1)] for kiln in self.kilns}
        parted = {}
        for kiln in self.kilns:
            near, far = free.roomy(kiln)
            parted[kiln] = [(0, near & far), (1, near ^ far), (2, ~(near | far))]
        return parted

    def _chosen(self, one: tuple[int, ...], pair: tuple[_Cast, _Bed, int]) -> Choice:
        (steeping, _, steep), (_, _, bed, waits, kiln, after), _ = pair
        return Choice(one[0], one[2], one[2] - after, steep, steeping, bed, waits, kiln)

    def _unlike(self, free: Free, casts: list[_Cast]) -> list[_Cast]:
        """Leave out steeps that are as free as one before, unless the running plan names one."""
        if self.before is not None:
            return casts
        seen: dict[tuple[int, int, int], int] = {}
        return [one for one in casts if seen.setdefault((one[0], one[1], free.steeps[one[2]]), one[2]) == one[2]]

    def way(self, free: Free, choice: Choice) -> Way | None:
        """The way of a choice with its waters laid down; None where no such water is to be had."""
        stood = self.batch.stood
        ready = choice.cast + self._grow(choice.bed)
        after = (choice.bed, choice.cast, ready, choice.kiln, ready + choice.waits, choice.off)
        if stood.cast is not None:
            fill = stood.fill if stood.fill is not None else stood.cast
            return Way(choice.steep, (fill,), (stood.cast,), *after)
        costlier: tuple[int, Shape] | None = None
        for fill, hours in self._fills(free, choice):
            moved = CHANGED if self._moves(fill, choice.steep) else 0
            for shape in self._shapes(fill, hours):
                right = shape.cost + moved == choice.steeping
                if not right and costlier:
                    continue
                if not free.has_water(self.batch, fill, shape):
                    continue
                if right:
                    return self._laid(choice, fill, shape, after)
                costlier = fill, shape
        return self._laid(choice, *costlier, after) if costlier else None

    def _laid(self, choice: Choice, fill: int, shape: Shape, after: tuple[int, int, int, int, int, int]) -> Way:
        waters, drains = (tuple(fill + hour for hour in hours) for hours in (shape.waters, shape.drains))
        return Way(choice.steep, waters, drains, *after)

    def _fills(self, free: Free, choice: Choice) -> list[tuple[int, int]]:
        """Hours of the fill from which the cast can be kept, with the hours from there to it, the shortest first."""
        stood, house = self.batch.stood, self.house
        if stood.fill is not None:
            return [(stood.fill, choice.cast - stood.fill)]
        found, room = [], free.steeps[choice.steep]
        for hours, _ in by_hours(self.pattern):
            fill = choice.cast - hours
            held = span(fill, choice.cast + house.clean_steep)
            if fill < max(house.now, self.batch.from_h) or room & held != held:
                break
            found.append((fill, hours))
        return found

    def _moves(self, fill: int, steep: int) -> bool:
        return (
            self.before is not None
            and self.batch.stood.fill is None
            and (fill, steep) != (self.before.fill, self.before.steep)
        )

    def _shapes(self, fill: int, hours: int) -> tuple[Shape, ...]:
        if self.batch.stood.fill is not None:
            return self.running[hours]
        return shapes_at(self.pattern, fill % 24, None)[hours]
