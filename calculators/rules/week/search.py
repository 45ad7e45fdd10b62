"""Batches put together to the plan of a week: quickly a good one, then the best, as far as the looks reach.

First each batch takes the cheapest way through what those before it left, in several orders; then some are taken out
and put back otherwise. What is left of the looks goes into branch and bound: a batch is chosen, its ways are tried, the
cheapest first, and a branch is left as soon as what it must cost at least is no less than the best plan.

At least means: for each batch that is still out, the least of its ways through what is free; for the kiln, that one
batch follows another on it.  A plan is *proved* when every branch was left or tried, or when it costs no more than
the least of all.
"""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from collections.abc import Sequence
from itertools import islice, pairwise
from random import Random

from .free import ROOM_H, Free
from .hours import first, span, starts
from .house import Batch, Cost, House, Plan, Way, cost_of, wanted_by
from .result import Result, Tell, packed, unpacked
from .shapes import HAND, LATE, UNIT
from .ways import Choice, Looker

LOOKS, LOOKS_SMALL, LOOKS_LARGE = 1500, 2400, 600
"""So often a batch is looked at before the best plan so far is given: the same numbers on every machine."""

SMALL = 3
"""So few batches are a small house: there most of the looks go into the proof."""

_TRIES_A_LOOK = 8
"""How often water may be looked for, for each look of the search."""

_TRIED, _WINDOW, _POLISHED, _SEED = 12, 54, 60, 1892
_SHARE, _SHARE_SMALL, _ORDERS, _WORSE, _PROVED = 0.8, 0.3, 4, 24, 5
_SKIPS, _DEARER = (0, 0, 0, 1, 2, 5, 20), (0, 0, 0, 0, 0, 0, 0, 1)
_NEVER = UNIT**5


class _Spent(Exception):
    """All looks are spent."""


class Search:
    """One search for the plan of a house.

    Parameters
    ----------
    house : House
        The house.
    batches : sequence of Batch
        Those wanted and at work.
    running : dict, optional
        The plan that hangs on the wall; changes to it are counted.
    looks : int, optional
        So often a batch is looked at, at most; else as often as a house of its size is worth.
    tell : callable, optional
        Told how far it is.
    thorough : bool, optional
        Whether the best plan is proved to be it, and still made to end sooner where it can; else the first good one.
    """

    def __init__(
        self,
        house: House,
        batches: Sequence[Batch],
        running: Plan | None = None,
        looks: int | None = None,
        tell: Tell | None = None,
        thorough: bool = True,
    ) -> None:
        self.house, self.running, self.tell = house, running or {}, tell
        self.thorough, self.polish = thorough, _POLISHED if thorough else 0
        self.free, self.looks = Free(house), 0
        self.batches = {batch.id: batch for batch in batches}
        self.fixed: Plan = {}
        for batch in batches:
            self.free.cleans(batch)
            if batch.stood.load is not None:
                way = self.fixed[batch.id] = standing(house, batch)
                self.free.kilned(batch, way)
        self.lookers = {
            batch.id: Looker(house, batch, self.running.get(batch.id)) for batch in batches if batch.stood.load is None
        }
        self.out = list(self.lookers)
        usual = LOOKS_SMALL if len(self.out) <= SMALL else LOOKS if len(self.out) <= _PROVED else LOOKS_LARGE
        self.most = looks or usual
        self.best: Plan | None = None
        self.best_cost, self.best_worth = _NEVER, (_NEVER, 0, 0)

    def _look(self) -> None:
        if self.looks >= self.most:
            raise _Spent
        self.looks += 1
        if self.tell is not None and self.looks % 50 == 0:
            self.tell(self.looks / self.most)

    def _way(self, looker: Looker, choice: Choice) -> Way | None:
        """The way of a choice; where water is short a look may try very many, and those are bounded too."""
        if self.free.tries > _TRIES_A_LOOK * self.most:
            raise _Spent
        return looker.way(self.free, choice)

    def _cost(self, name: str, way: Way) -> int:
        return packed(cost_of(self.house, self.batches[name], way, self.running.get(name)))

    def _take_best(self, plan: Plan) -> bool:
        worth = self._worth(plan)
        if self.best is not None and worth >= self.best_worth:
            return False
        self.best, self.best_cost, self.best_worth = dict(plan), worth[0], worth
        return True

    def least(self) -> tuple[int, tuple[str, ...]]:
        """What every plan costs at least, packed, and the batches that have no way at all."""
        total, offs, stuck = 0, {}, []
        for name in self.out:
            found = self.lookers[name].least(self.free, _NEVER)
            if found is None:
                stuck.append(name)
                continue
            total += found.cost
            offs[name] = found.off
        fixed = sum(self._cost(name, way) for name, way in self.fixed.items())
        return fixed + max(total, self._queued(total, offs)), tuple(stuck)

    def _queued(self, total: int, offs: dict[str, int]) -> int:
        """The same, with batches following one another on a house's one kiln."""
        if len(self.house.kilns) != 1 or self.running or len(offs) < 2:
            return total
        kiln = self.house.kilns[0]
        can = starts(self.free.kilns[0], kiln.hours + kiln.turn_round) & self.free.casts
        ends, after = [], 0
        for off in sorted(offs.values()):
            later = can & ~span(0, max(after, off - kiln.hours))
            if not later:
                return _NEVER
            load = first(later)
            ends.append(load + kiln.hours)
            after = load + kiln.hours + kiln.turn_round
        dues = sorted(self._due(name) for name in offs)
        late = sum(max(0, end - due) for end, due in zip(ends, dues, strict=True))
        return total // HAND * HAND + late * LATE if late > total // LATE % UNIT else total

    def _insert(self, names: Sequence[str], plan: Plan, skips: Sequence[tuple[int, int]] = ()) -> bool:
        """Put batches in one after the other, each by its cheapest way, or so many further on; whether all did."""
        for n, name in enumerate(names):
            self._look()
            looker = self.lookers[name]
            skip, dearer = skips[n] if n < len(skips) else (0, 0)
            for choice in islice(looker.choices(self.free, _NEVER, _WINDOW, dearer), skip, skip + _TRIED):
                way = self._way(looker, choice)
                if way is not None:
                    self.free.put(self.batches[name], way)
                    plan[name] = way
                    break
            else:
                return False
        return True

    def _empty(self, plan: Plan, names: Sequence[str]) -> None:
        for name in names:
            if name in plan:
                self.free.take(self.batches[name], plan.pop(name))

    def _at_first(self) -> None:
        """A first plan, from several orders."""
        stood = [
            name
            for name in self.out
            if self.batches[name].stood.fill is not None or self.batches[name].stood.cast is not None
        ]
        rest = [name for name in self.out if name not in stood]
        stood.sort(key=lambda name: (self.batches[name].stood.cast is None, self.batches[name].stood.cast or 0))
        wanted = sorted(rest, key=self._due)
        orders = [[*stood, *wanted], [*stood, *rest], [*stood, *reversed(wanted)]]
        if self.running:  # as they follow one another on the wall
            orders.insert(0, sorted(self.out, key=self._hung))
        draw = Random(_SEED)
        for attempt in range(len(orders) + 4 * len(self.out)):
            if attempt < len(orders):
                order = orders[attempt]
            elif self.best is not None:
                return
            else:
                order = draw.sample(self.out, len(self.out))
            plan: Plan = {}
            good = self._insert(order, plan)
            if good:
                self._take_best(plan)
            self._empty(plan, order)

    def _hung(self, name: str) -> int:
        """When a batch is loaded by the running plan; one that came after it goes last."""
        return self.running[name].load if name in self.running else self.house.horizon

    def _due(self, name: str) -> int:
        return wanted_by(self.house, self.batches[name])

    def _better(self, goal: int) -> None:
        """Take some batches out and put them back otherwise; a plan that is a little worse is gone on from, too."""
        if self.best is None or not self.out:
            return
        plan = dict(self.best)
        for name, way in plan.items():
            self.free.put(self.batches[name], way)
        share = _SHARE_SMALL if len(self.out) <= SMALL else _SHARE if len(self.out) <= _PROVED else 1.0
        until = self.looks + int(share * (self.most - self.looks))
        try:
            draw, polish = Random(_SEED), 0
            while self.looks < until and (self.best_cost > goal or polish < self.polish):
                polish += self.best_cost <= goal
                count = min(len(self.out), draw.choice((1, 2, 2, 3, 3, 4)))
                self._put_back(plan, self._together(plan, count, draw), draw)
        finally:
            self._empty(plan, list(plan))

    def _together(self, plan: Plan, count: int, draw: Random) -> list[str]:
        """Some batches: drawn, or such as follow one another on the kiln."""
        if draw.random() < 0.5:
            return draw.sample(self.out, count)
        row = sorted(self.out, key=lambda name: plan[name].load)
        begin = draw.randrange(len(row) - count + 1)
        some = row[begin : begin + count]
        draw.shuffle(some)
        return some

    def _put_back(self, plan: Plan, some: list[str], draw: Random) -> None:
        kept = {name: plan[name] for name in some}
        was = self._worth(plan)
        self._empty(plan, some)
        found: tuple[tuple[int, int, int], Plan] | None = None
        try:
            for _ in range(min(len(some) + 1, _ORDERS)):
                skips = [(draw.choice(_SKIPS), draw.choice(_DEARER)) for _ in some]
                if self._insert(some, plan, skips):
                    worth = self._worth(plan)
                    if found is None or worth < found[0]:
                        found = worth, {name: plan[name] for name in some}
                self._empty(plan, some)
                draw.shuffle(some)
        finally:
            self._empty(plan, some)
            worse = _WORSE * LATE if draw.random() < 0.1 else 0
            if found is None or found[0][0] > was[0] + worse or found[0] == was:
                found = was, kept
            for name, way in found[1].items():
                self.free.put(self.batches[name], way)
                plan[name] = way
        self._take_best(plan)

    def _worth(self, plan: Plan) -> tuple[int, int, int]:
        """What it costs; of those alike, how crowded its kilns are; of those, how late it all ends."""
        cost = sum(self._cost(name, way) for name, way in plan.items())
        return cost, self._crowded(plan), sum(way.off for way in plan.values())

    def _crowded(self, plan: Plan) -> int:
        crowded = 0
        for number, kiln in enumerate(self.house.kilns):
            row = sorted((w.load, w.off, name) for name, w in {**self.fixed, **plan}.items() if w.kiln == number)
            for (_, off, _), (load, _, name) in pairwise(row):
                if self.batches[name].due is not None:
                    crowded += sum(load - off - kiln.turn_round < room for room in ROOM_H)
        return crowded

    def _branch(self, out: list[str], plan: Plan, spent: int) -> None:
        if not out:
            self._take_best(plan)
            return
        found, total = {}, 0
        for name in out:
            self._look()
            one = self.lookers[name].least(self.free, self.best_cost - spent - total)
            if one is None:
                return
            found[name] = one
            total += one.cost
        if spent + total >= self.best_cost:
            return
        if spent + self._queued(total, {name: one.off for name, one in found.items()}) >= self.best_cost:
            return
        name = max(out, key=lambda one: (found[one].cost - self.alone[one], -found[one].off))
        rest = [one for one in out if one != name]
        looker, batch = self.lookers[name], self.batches[name]
        others = total - found[name].cost
        for choice in looker.choices(self.free, self.best_cost - spent - others):
            if spent + others + choice.cost >= self.best_cost:
                break
            way = self._way(looker, choice)
            if way is None:
                continue
            self.free.put(batch, way)
            plan[name] = way
            try:
                self._branch(rest, plan, spent + self._cost(name, way))
            finally:
                self.free.take(batch, plan.pop(name))

    def _worth_a_proof(self, goal: int) -> bool:
        if not self.thorough:
            return False
        return self.best is None or (self.best_cost > goal and len(self.out) <= _PROVED)

    def run(self) -> Result:
        """Search, as far as the looks reach."""
        least, stuck = self.least()
        fixed = sum(self._cost(name, way) for name, way in self.fixed.items())
        if stuck:
            return Result(None, Cost(), unpacked(0), True, self.looks, stuck)
        self.alone = {}
        for name in self.out:
            one = self.lookers[name].least(self.free, _NEVER)
            self.alone[name] = one.cost if one else 0
        proved = False
        try:
            self._at_first()
            self._better(least - fixed)
        except _Spent:
            pass
        if self._worth_a_proof(least - fixed):
            if self.best is None:
                self.most += self.most // 2
            try:
                self._branch(list(self.out), {}, 0)
                proved = self.free.plenty
            except _Spent:
                pass
        if self.best is None:
            return Result(None, Cost(), unpacked(least), proved, self.looks)
        cost = self.best_cost + fixed
        proved = proved or cost <= least
        plan = {**self.fixed, **self.best}
        return Result(plan, unpacked(cost), unpacked(cost if proved else least), proved, self.looks)


def standing(house: House, batch: Batch) -> Way:
    """The way of a batch that is on the kiln."""
    stood = batch.stood
    assert stood.load is not None and stood.kiln is not None
    cast = stood.cast if stood.cast is not None else stood.load
    fill = stood.fill if stood.fill is not None else cast
    ready = stood.ready if stood.ready is not None else stood.load
    off = stood.load + house.kilns[stood.kiln].hours
    return Way(stood.steep or 0, (fill,), (cast,), stood.bed or 0, cast, ready, stood.kiln, stood.load, off)


def search(
    house: House,
    batches: Sequence[Batch],
    running: Plan | None = None,
    looks: int | None = None,
    tell: Tell | None = None,
    thorough: bool = True,
) -> Result:
    """Plan the week of a house.

    Parameters
    ----------
    house, batches, running, looks, tell, thorough
        As for :class:`Search`.

    Returns
    -------
    Result
        The best plan found, what no plan can beat, and whether it is proved.
    """
    return Search(house, batches, running, looks, tell, thorough).run()
