"""Plans of a steep in words and tables: why each stands where it does, which wish is in the way, the wall card."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from .declare import Axis, Chart, Line, Mark, Note, Rows, Shade
from .figures import fixed, plain_number
from .models.hydration import run
from .models.steep_choice import Choice, Plan
from .models.steep_course import Stage, Steeping
from .models.steep_plan import DRIP_H, EMPTY_H, MOST_WAIT_H
from .models.steep_wishes import Term, Wishes, hours_until
from .results import clock_words
from .steep_words import CURVE_POINTS, clock_after

WALL_TEMPS_C = (6.0, 9.0, 12.0, 15.0, 18.0, 21.0)
WALL_MOISTURES = (10.0, 12.0, 14.0, 16.0)
_WORTH_SAYING = 0.15  # points
_CARD_LONGEST_H = 72.0


def _against(term: Term) -> str:
    figure = term.figure
    return {
        "first drain": f"first drain at {fixed(figure, 1)} %",
        "last dip": f"last immersion of {plain_number(figure)} h",
        "waits for the cast": f"waits {plain_number(figure)} h for the cast",
        "no air rest": "no air rest at all",
        "long immersion": f"an immersion of {plain_number(figure)} h",
        "short immersion": f"an immersion of only {plain_number(figure)} h",
        "long rest": f"a rest of {plain_number(figure)} h",
        "fills in quiet hours": f"fills in quiet hours {plain_number(figure)} times"
        if figure > 1
        else "fills once in quiet hours",
        "many immersions": f"{plain_number(figure)} immersions",
        "hours in all": f"{plain_number(figure)} h in all",
        "a slip": f"a slip moves the end {fixed(figure, 1)} points",
    }[term.name]


def why(plan: Plan, first: Plan) -> str:
    """What counts against a plan; for the first plan all of it, for the others what is worse than in the first."""
    if plan is first:
        terms = [term for term in plan.terms if term.cost > _WORTH_SAYING and term.name != "hours in all"]
        said = [_against(term) for term in sorted(terms, key=lambda term: -term.cost)]
        return "least against it" + (": " + ", ".join(said[:3]) if said else "")
    mine = {term.name: term.cost for term in first.terms}
    worse = [(term.cost - mine[term.name], term) for term in plan.terms]
    said = [_against(term) for more, term in sorted(worse, key=lambda pair: -pair[0]) if more > _WORTH_SAYING]
    return "against plan 1: " + (", ".join(said[:3]) if said else "much the same")


def wish_words(name: str, amount: float, wishes: Wishes, start: datetime) -> str:
    """Which wish a plan gives up, and what would have to be granted."""
    if name == "longest_immersion_h":
        asked, granted = wishes.longest_immersion_h, wishes.longest_immersion_h + amount
        return f"longest immersion of {plain_number(asked)} h; {plain_number(granted)} h would do"
    if name == "shortest_rest_h":
        asked, granted = wishes.shortest_rest_h, wishes.shortest_rest_h - amount
        return f"shortest rest of {plain_number(asked)} h; {plain_number(granted)} h would do"
    if name == "quiet":
        times = "once" if amount < 2 else f"{plain_number(amount)} times"
        return f"quiet hours; it drains in them {times}"
    if name == "vessel_h":
        assert wishes.vessel_h is not None
        granted = wishes.vessel_h + amount
        return (
            f"vessel free after {plain_number(wishes.vessel_h)} h; {fixed(granted, 1)} h would do, "
            f"{clock_words(clock_after(start, granted))}"
        )
    return f"cast window; drained grain would wait {fixed(amount + MOST_WAIT_H, 1)} h for it"


def not_kept(choice: Choice, wishes: Wishes, start: datetime) -> list[Note]:
    """Say which wish stands in the way, for each of the nearest plans."""
    notes = []
    for number, plan in enumerate(choice.plans, 1):
        given = " And: ".join(wish_words(name, amount, wishes, start) for name, amount in plan.draft.broken)
        notes.append(Note("notice", f"No plan keeps every wish. Plan {number} gives up: {given}."))
    return notes


def schedule_rows(plans: Sequence[Plan], start: datetime) -> Rows:
    """Every plan, immersion by immersion, on the clock; the rest after each stands behind it."""
    rows: list[tuple[float | datetime | None, ...]] = []
    for number, plan in enumerate(plans, 1):
        begins = 0.0
        lengths = [*plan.draft.lengths, None]
        for count, end in enumerate(plan.course.ends[::2]):
            wet, rest = lengths[2 * count : 2 * count + 2]
            assert wet is not None
            fill, drain = clock_after(start, begins), clock_after(start, begins + wet)
            rows.append((number, count + 1, fill, drain, wet, end.drained, rest))
            begins += wet + (rest or 0.0)
    return Rows("schedule", rows)


def compared_rows(plans: Sequence[Plan]) -> Rows:
    """The plans side by side: where they end, and what a slip does to each."""
    return Rows(
        "compared",
        [
            (number, sum(plan.draft.lengths), plan.course.ends[-1].drained, *plan.margin)
            for number, plan in enumerate(plans, 1)
        ],
    )


def ranked_rows(plans: Sequence[Plan], start: datetime) -> Rows:
    """When each plan is cast, and why it stands where it does."""
    rows = []
    for number, plan in enumerate(plans, 1):
        cast = plan.draft.cast_h
        rows.append((number, clock_after(start, cast), clock_after(start, cast + EMPTY_H), why(plan, plans[0])))
    return Rows("ranked", rows)


def wall_card(base: Steeping, first_aim: float) -> Rows:
    """Hours of the first immersion to its aim, by water temperature and barley moisture."""
    rows = []
    for temp in WALL_TEMPS_C:
        cells: list[float | None] = [temp]
        for moisture in WALL_MOISTURES:
            stage = Stage(_CARD_LONGEST_H, temp)
            course = run(base._replace(barley_moisture=moisture, stages=(stage,)))
            cells.append(course.time_to_moisture(first_aim))
        rows.append(tuple(cells))
    return Rows("wall_card", rows)


def chart(plans: Sequence[Plan], wishes: Wishes) -> Chart:
    """The plans as curves over the hours, quiet hours shaded."""
    hours = max(plan.course.hours for plan in plans)
    lines = []
    for number, plan in enumerate(plans, 1):
        curve = plan.course.curve(CURVE_POINTS)
        lines.append(Line(f"plan {number}", curve.hours, curve.drained))
    shades = []
    if wishes.quiet:
        begins = hours_until(wishes.start_clock_h, wishes.quiet[0]) - 24.0
        length = hours_until(*wishes.quiet)
        while begins < hours:
            if begins + length > 0.0:
                shades.append(Shade("quiet", max(0.0, begins), min(hours, begins + length)))
            begins += 24.0
    ends = ", ".join(fixed(plan.course.ends[-1].drained, 1) for plan in plans)
    return Chart(
        "plans",
        "The plans, hour by hour",
        f"Drained moisture in each plan; they end on {ends} %. Level stretches are air rests.",
        Axis("Hours from the start", "h", 0.0, hours, 1),
        Axis("Moisture", "%", min(10.0, plans[0].course.steeping.barley_moisture), wishes.target_moisture + 3.0, 1),
        lines=tuple(lines),
        shades=tuple(shades),
        marks=(
            Mark(f"target {plain_number(wishes.target_moisture)} %", wishes.target_moisture),
            Mark(f"first drain {plain_number(wishes.first_aim)} %", wishes.first_aim),
        ),
    )


ASSUMED = (
    f"Times are when water covers the grain and when the drain is opened. A cast is taken to be possible "
    f"{plain_number(DRIP_H)} h after the last drain, and the vessel to be free {plain_number(EMPTY_H)} h later."
)
