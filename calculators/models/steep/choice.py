"""Which of the schedules found are shown, in what order, and what a slip does to each."""

from collections.abc import Callable
from typing import Any, NamedTuple

from .course import Stage, Steep, Steeping
from .hydration import WATER_TEMP_C, run
from .plan import Search
from .wishes import SHORTEST_REST_H, STOPS, Draft, Term, Wishes, cost_of

MARGIN_WATER_K = 2.0
MARGIN_LATE_H = 1.0

_LOOKED_AT = 4  # so many of the cheapest have their margins worked out
_APART_H = 2.0  # plans whose drains all lie closer than this are one plan
_ALIKE_H = 1.0  # from a plan that is not let through, another must differ by so much to be looked at
_MOST_LEFT_OUT = 12  # so many are looked at in vain
_SLIP_COST = 0.25  # for each point that the worst slip moves the end


class Margin(NamedTuple):
    """What the end moves by when something slips [points]: the water, or one drain."""

    colder: float
    warmer: float
    late: float


class Plan(NamedTuple):
    """One schedule that is shown.

    Attributes
    ----------
    draft : Draft
        Its stages, and what counts against it.
    course : Steep
        Its forecast.
    margin : Margin
        What two degrees or an hour do to it.
    against : tuple of Term
        What counts against it beside its hours and its water.
    ready_h : float
        Hour before which its grain is not cast, though it is drained [h].
    """

    draft: Draft
    course: Steep
    margin: Margin
    against: tuple[Term, ...] = ()
    ready_h: float = 0.0

    @property
    def terms(self) -> tuple[Term, ...]:
        """Give all that counts against it, the worst slip too."""
        worst = max(map(abs, self.margin))
        return (*self.draft.terms, *self.against, Term("a slip", _SLIP_COST * worst, worst))

    @property
    def cost(self) -> float:
        """Give the sum of all that counts against it, in points."""
        return cost_of(self.terms)


class Judged(NamedTuple):
    """A plan judged by more than its water.

    Attributes
    ----------
    course : Steep
        Its forecast, as the judge has it.
    passed : tuple
        What it passes that no plan may; empty when it may be offered.
    against : tuple of Term
        What counts against it.
    ready_h : tuple of float
        Hours before which its grain is not cast, though it is drained: the first where no wish is lost by it, else
        the last [h].
    """

    course: Steep
    passed: tuple[Any, ...] = ()
    against: tuple[Term, ...] = ()
    ready_h: tuple[float, ...] = (0.0,)


Judge = Callable[[Steep], Judged]


class Choice(NamedTuple):
    """Plans, best first.

    Attributes
    ----------
    plans : list of Plan
        None to three.
    kept : bool
        True when they keep every wish; False when each is the nearest that gives up one
        wish, or as few as can be, and passes no stop where that can be.
    most_moisture : float
        The highest moisture a schedule tried came to, where none reached the target [%].
    left_out : list of (Draft, Judged)
        Schedules that the judge did not let through, in the order they were looked at.
    """

    plans: list[Plan]
    kept: bool
    most_moisture: float
    left_out: list[tuple[Draft, Judged]] = []  # noqa: RUF012


def margin(course: Steep) -> Margin:
    """Give what the end moves by when the water is 2 C off or one drain is an hour late.

    Parameters
    ----------
    course : Steep
        The plan; it ends wet.

    Returns
    -------
    Margin
        Points of drained moisture at the end.

    Notes
    -----
    A late drain takes its hour from the rest that follows: the fills keep their clock.
    The largest of the drains is given, which is the last one in usual plans.
    """
    base = course.steeping
    end = course.ends[-1].drained

    def moved(change: Callable[[int, Stage], Stage]) -> float:
        stages = tuple(change(n, stage) for n, stage in enumerate(base.stages))
        return run(base._replace(stages=stages)).ends[-1].drained - end

    def warmed(kelvin: float) -> float:
        low, high = WATER_TEMP_C
        return moved(lambda _, stage: stage._replace(water_temp_c=min(max(stage.water_temp_c + kelvin, low), high)))

    def late(drain: int) -> float:
        def change(number: int, stage: Stage) -> Stage:
            hours = stage.hours
            if number == drain:
                hours += MARGIN_LATE_H
            elif number == drain + 1:
                hours = max(hours - MARGIN_LATE_H, 0.25)
            return stage._replace(hours=hours)

        return moved(change)

    return Margin(
        warmed(-MARGIN_WATER_K), warmed(MARGIN_WATER_K), max((late(n) for n in range(0, len(base.stages), 2)), key=abs)
    )


def choose(base: Steeping, water_temp_c: float, wishes: Wishes, most: int = 3, judge: Judge = Judged) -> Choice:
    """Give two or three schedules that end on target, best first.

    Parameters
    ----------
    base : Steeping
        Barley and model; its stages do not count.
    water_temp_c : float
        Temperature of the water, and of the grain in rests [C].
    wishes : Wishes
        What they have to keep.
    most : int, optional
        How many at most.
    judge : callable, optional
        Takes the forecast of a schedule and says what it passes: one that passes anything is not among the plans.

    Returns
    -------
    Choice
        Plans that keep every wish; when there is none, the nearest that do not; none when the judge lets none through.

    Notes
    -----
    What counts against a plan is in points and is our judgement of the trade: a first
    drain off its aim, an immersion or a rest over what is usual, a last dip that is very
    short or long, a steep that is soon over, waiting for the cast, many immersions, hours,
    and how far a slip moves the end.  No plan has an immersion or a rest over the most that
    the bounds allow, whatever wish is given up.  Where the judge lets the grain wait for its
    cast, the plan is cast so much later, and is held against the wishes by that hour.
    """
    search = Search(base, water_temp_c, wishes)
    drafts = search.drafts()
    if all(draft.broken for draft in drafts):
        for easier in _eased(wishes):
            drafts += Search(base, water_temp_c, easier, wishes).drafts()
    looked = _Looked(search, judge)
    good = [draft for draft in drafts if not draft.broken]  # a search with easier limits may come by one too
    plans = looked.ranked(good, most)
    if plans:
        return Choice(plans, True, search.most_moisture, looked.left_out)
    broken = [draft for draft in drafts if draft.broken]
    return Choice(looked.nearest([*broken, *looked.late], most), False, search.most_moisture, looked.left_out)


def _eased(wishes: Wishes) -> list[Wishes]:
    """Give the wishes with rests, or immersions, that may go half as far again beyond their limit."""
    return [
        wishes._replace(shortest_rest_h=max(SHORTEST_REST_H.low, wishes.shortest_rest_h / 2.0)),
        wishes._replace(
            longest_immersion_h=min(wishes.bounds.most_immersion_h, wishes.longest_immersion_h * 1.5 + 4.0)
        ),
    ]


class _Looked:
    """Schedules looked at one by one, until enough are let through."""

    def __init__(self, search: Search, judge: Judge) -> None:
        self._search, self._judge = search, judge
        self.left_out: list[tuple[Draft, Judged]] = []
        self.late: list[Draft] = []
        self._plans: dict[tuple[float, ...], Plan] = {}

    def plan(self, draft: Draft) -> Plan | None:
        """Give the plan of a draft, or None where the judge does not let it through."""
        if draft.lengths in self._plans:
            return self._plans[draft.lengths]
        vain = [*(other for other, _ in self.left_out), *self.late]
        if len(vain) >= _MOST_LEFT_OUT or any(_no_better(draft, other) for other in vain):
            return None
        course = self._search.course(draft.lengths)
        found = self._judge(course)
        if found.passed:
            self.left_out.append((draft, found))
            return None
        for ready_h in found.ready_h:
            waits = self._search.judged(course, list(draft.lengths), ready_h)
            if _names(waits) == _names(draft):
                break
        else:
            self.late.append(waits)
        plan = Plan(waits, found.course, margin(found.course), found.against, ready_h)
        self._plans[draft.lengths] = plan
        return plan

    def ranked(self, drafts: list[Draft], most: int) -> list[Plan]:
        """Give the cheapest plans that differ from each other."""
        plans: list[Plan] = []
        for draft in sorted(drafts, key=lambda one: one.cost):
            if all(_differ(draft, other.draft) for other in plans):
                plan = self.plan(draft)
                plans += [plan] if plan and not plan.draft.broken else []
                if len(plans) == _LOOKED_AT:
                    break
        return sorted(plans, key=lambda plan: plan.cost)[:most]

    def nearest(self, drafts: list[Draft], most: int) -> list[Plan]:
        """Give the plans that pass fewest stops and give up fewest wishes, one for each given up, by the least."""
        found: dict[tuple[str, ...], Plan] = {}
        fewest: tuple[int, int] | None = None
        for draft in sorted(drafts, key=lambda one: (*how_many(one), _given_up(one))):
            if fewest is not None and how_many(draft) > fewest:
                break
            if _names(draft) not in found and (plan := self.plan(draft)):
                here, names = plan.draft, _names(plan.draft)
                if names not in found or _given_up(here) < _given_up(found[names].draft):
                    found[names] = plan
                fewest = min(fewest or how_many(here), how_many(here))
        plans = [plan for plan in found.values() if how_many(plan.draft) == fewest]
        return sorted(plans, key=lambda plan: _given_up(plan.draft))[:most]


def _names(draft: Draft) -> tuple[str, ...]:
    """Give the wishes that a draft gives up."""
    return tuple(name for name, _ in draft.broken)


def how_many(draft: Draft) -> tuple[int, int]:
    """Give how many stops of the trade a draft passes, and how many wishes it gives up."""
    names = _names(draft)
    return sum(name in STOPS for name in names), len(names)


def _no_better(draft: Draft, other: Draft) -> bool:
    """Tell whether a draft is too like one that was left out to be worth looking at."""
    return not _differ(draft, other, _ALIKE_H)


def _differ(one: Draft, other: Draft, apart_h: float = _APART_H) -> bool:
    if len(one.lengths) != len(other.lengths):
        return True
    return max(abs(a - b) for a, b in zip(one.drains, other.drains, strict=True)) >= apart_h


def _given_up(draft: Draft) -> float:
    """Give how far a plan is from its wishes, in hours, then by all else."""
    return round(sum(amount for _, amount in draft.broken) + 0.01 * draft.cost, 9)
