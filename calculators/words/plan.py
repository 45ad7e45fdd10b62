"""Plans of a steep in words and tables: why each stands where it does, which wish is in the way, the wall card."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from ..asking.declare import AskAgain, Axis, Chart, Found, Line, Mark, Note, Rows, Shade
from ..asking.figures import clock_words, fixed, plain_number
from ..models.living.steep_life import Life
from ..models.steep.choice import Choice, Plan
from ..models.steep.course import Stage, Steeping
from ..models.steep.doubt import Trust
from ..models.steep.hydration import MODEL_VERSION, run
from ..models.steep.plan import EMPTY_H, MOST_WAIT_H
from ..models.steep.wishes import Term, Wishes, hours_until, widened, within
from ..rules.cast import To, limit_of
from ..rules.limit import judge
from ..rules.limits.germination_test import WATER_SENSITIVITY
from ..rules.limits.steeping import CHIT_LAST_DIP, IMMERSION, REST, STEEP
from ..rules.lines import passed
from ..rules.steep_order import MOST_H, Passed, held, of_course, stops
from .cast import TO
from .life import chit_words, dip_h, share_at_cast
from .limits import at_edge, said, stop_said
from .steep import CURVE_POINTS, clock_after, past_summary

WALL_TEMPS_C = (6.0, 9.0, 12.0, 15.0, 18.0, 20.0)
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
        "many immersions": f"{plain_number(figure)} immersions",
        "soon over": f"over after {plain_number(figure)} h",
        "hours in all": f"{plain_number(figure)} h in all",
        "few chits": f"{fixed(figure, 0)} % chitted before the last dip",
        "warm rest": f"a rest of {fixed(figure, 1)} °C",
        "a slip": f"a slip moves the end {fixed(figure, 1)} points",
    }[term.name]


def why(plan: Plan, first: Plan) -> str:
    """What counts against a plan; for the first plan all of it, for the others what is worse than in the first."""
    if plan is first:
        terms = [term for term in plan.terms if term.cost > _WORTH_SAYING and term.name != "hours in all"]
        words = [_against(term) for term in sorted(terms, key=lambda term: -term.cost)]
        return "least against it" + (": " + ", ".join(words[:3]) if words else "")
    mine = {term.name: term.cost for term in first.terms}
    worse = [(term.cost - mine.get(term.name, 0.0), term) for term in plan.terms]
    words = [_against(term) for more, term in sorted(worse, key=lambda pair: -pair[0]) if more > _WORTH_SAYING]
    return "against plan 1: " + (", ".join(words[:3]) if words else "much the same")


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
        return f"hours when nobody is there; it fills or drains in them {times}"
    if name == "vessel_h":
        assert wishes.vessel_h is not None
        granted = wishes.vessel_h + amount
        return (
            f"vessel free after {plain_number(wishes.vessel_h)} h; {fixed(granted, 1)} h would do, "
            f"{clock_words(clock_after(start, granted))}"
        )
    if name == "chit_h":
        assert wishes.chit_h is not None
        asked = wishes.chit_h
        return f"{plain_number(asked)} h to chit; it is drained for the cast after {fixed(asked - amount, 1)} h"
    if name == "steep_h":
        least = wishes.bounds.least_steep_h
        return f"{plain_number(least)} h at least in all; it is over after {fixed(least - amount, 1)} h"
    if name == "cast_rest":
        return f"{at_edge(REST, 'stop_high')} at most from the last drain to the cast, by {fixed(amount, 1)} h"
    if name in ("first_drain", "second_drain"):
        return f"what the {name.replace('_', ' ')} should hold, by {fixed(amount, 1)} points"
    return f"cast window; drained grain would wait {fixed(amount + MOST_WAIT_H, 1)} h for it"


def not_kept(choice: Choice, wishes: Wishes, start: datetime) -> list[Note]:
    """Say which wish stands in the way, for each of the nearest plans."""
    notes = []
    for number, plan in enumerate(choice.plans, 1):
        given = " And: ".join(wish_words(name, amount, wishes, start) for name, amount in plan.draft.broken)
        notes.append(Note("notice", f"No plan keeps every wish. Plan {number} gives up: {given}."))
    return notes


def plan_stops(plans: Sequence[Plan]) -> list[Passed]:
    """All stops that the plans shown pass, the rest before the cast among them."""
    waits = [held(REST, plan.draft.cast_h - plan.draft.drains[-1], len(plan.draft.drains)) for plan in plans]
    return [one for plan, wait in zip(plans, waits, strict=True) for one in stops([*of_course(plan.course), *wait])]


def cast_notes(plans: Sequence[Plan], lives: Sequence[Life], start: datetime, wishes: Wishes, to: To) -> list[Note]:
    """Which plans wait drained for the chits of their cast, and which are cast with chits that are watched."""
    waits, few = [], []
    given = limit_of(to)
    for number, (plan, life) in enumerate(zip(plans, lives, strict=True), 1):
        share = share_at_cast(life, plan.draft.cast_h)
        told = f"{fixed(share, 0)} %"
        if plan.ready_h > plan.draft.drains[-1] + wishes.drain_h:
            waits.append(f"Plan {number} until {clock_words(clock_after(start, plan.ready_h))}.")
        if judge(given, round(share, 1)) != "accept":
            few.append(f"plan {number} with {told}")
    notes = []
    if waits:
        notes.append(
            Note(
                "remark",
                f"Drained grain waits for the chits of its cast, by the typical barley. {' '.join(waits)} Count before "
                "you cast.",
            )
        )
    if few:
        notes.append(
            Note(
                "notice",
                f"Few chits at the hour of the cast, by the typical barley: {', '.join(few)}. "
                f"{at_edge(given, 'accept_low')} are accepted {TO[to]}, and under {at_edge(given, 'stop_low')} is "
                f"a stop. Count before you cast. Too few: {given.act[0].lower()}{given.act[1:]}",
            )
        )
    return notes


def start_note(wishes: Wishes, start: datetime) -> list[Note]:
    """Where the first fill lies in hours when nobody is there, that."""
    if wishes.quiet is None or not first_fill_quiet(wishes):
        return []
    opened = clock_after(start, -wishes.fill_h)
    told = (
        f"Covered at {start:%H:%M} means water on at {opened:%H:%M}: the first fill lies in the hours when nobody is "
        "there. The plan takes it that somebody fills all the same."
    )
    if widened(wishes.quiet, 0.0, wishes.fill_h) is not None:
        there = start + timedelta(hours=hours_until(wishes.start_clock_h, wishes.quiet[1] + wishes.fill_h))
        told += f" If not, start at {there:%H:%M}."
    return [Note("notice", told)]


def first_fill_quiet(wishes: Wishes) -> bool:
    """Tell whether nobody is there at some moment from water on until the grain is first covered."""
    if wishes.quiet is None:
        return False
    window = widened(wishes.quiet, 0.0, wishes.fill_h)
    return window is None or within(wishes.start_clock_h, window)


def wet_below_note(plans: Sequence[Plan], wishes: Wishes) -> list[Note]:
    """Where filling and draining bring the bottom of the vessel past the stop of one immersion, that."""
    longest = max(max(plan.draft.lengths[::2]) for plan in plans)
    below = longest + wishes.fill_h + wishes.drain_h
    if below <= MOST_H:
        return []
    return [
        Note(
            "notice",
            f"Past a stop at the bottom: an immersion of {plain_number(longest)} h lasts {fixed(below, 1)} h there, "
            f"from water on until drained: the stop is over {at_edge(IMMERSION, 'stop_high')}. "
            "Fill and drain faster, or type a longest immersion of "
            f"{fixed(MOST_H - wishes.fill_h - wishes.drain_h, 1)} h.",
        )
    ]


def chit_note(plans: Sequence[Plan], wishes: Wishes, lives: Sequence[Life]) -> list[Note]:
    """How far the plan drained soonest has chitted before its last dip, where nobody said how long the barley takes."""
    if wishes.chit_h is not None:
        return []
    number, hours = min(
        ((number, plan.draft.drains[-1]) for number, plan in enumerate(plans, 1)), key=lambda one: one[1]
    )
    soon = judge(STEEP, hours) != "accept"
    usual = f", where published plans take {at_edge(STEEP, 'accept_low')} and more" if soon else ""
    lengths = plans[number - 1].draft.lengths
    dip = f" {chit_words(lives[number - 1], dip_h(lengths), number)}" if len(lengths) > 2 else ""
    return [
        Note(
            "notice" if soon else "remark",
            f"Can it chit in time? Plan {number} is drained for the cast after {fixed(hours, 1)} h{usual}.{dip} From "
            "your records, type the hours that this barley takes to chit. If nobody knows, count 200 corns before the "
            "water goes on for the last time. Under "
            f"{at_edge(CHIT_LAST_DIP, 'stop_low')} is a stop. {CHIT_LAST_DIP.act}",
        )
    ]


def sensitive_note(wishes: Wishes, points: float, rest_h: float, longest_h: float) -> list[Note]:
    """What a water-sensitive barley changes in the wishes."""
    line = passed(WATER_SENSITIVITY, points)
    if line is None:
        return []
    changed = []
    if wishes.shortest_rest_h > rest_h:
        changed.append(f"no rest is shorter than {plain_number(wishes.shortest_rest_h)} h")
    if wishes.longest_immersion_h < longest_h:
        changed.append(f"no immersion is wished longer than {plain_number(wishes.longest_immersion_h)} h")
    so = f"Here {' and '.join(changed)}." if changed else "The rests and immersions asked for allow for it."
    if line.mark == "stop":
        return [Note("notice", f"Past a stop for the usual plan. {stop_said(line)} {so}")]
    return [Note("remark", f"{said(line)} {so}")]


def schedule_rows(plans: Sequence[Plan], start: datetime, wishes: Wishes) -> Rows:
    """Every plan, immersion by immersion, on the clock; the rest after each stands behind it."""
    rows: list[tuple[float | datetime | None, ...]] = []
    for number, plan in enumerate(plans, 1):
        lengths = [*plan.draft.lengths, None]
        drains = zip(plan.draft.fills, plan.draft.drains, plan.course.ends[::2], strict=True)
        for count, (covered, drain, end) in enumerate(drains):
            opened = clock_after(start, covered - wishes.fill_h)
            clocks = (clock_after(start, hours) for hours in (covered, drain, drain + wishes.drain_h))
            wet, rest = lengths[2 * count : 2 * count + 2]
            rows.append((number, count + 1, opened, *clocks, wet, end.drained, rest))
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
            hours = course.time_to_moisture(first_aim)
            cells.append(hours if hours is not None and hours <= MOST_H else None)
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
        f"Drained moisture in each plan; they end on {ends} %. Level stretches are air rests."
        + "".join(past_summary(plan.course) for plan in plans),
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
    "Hours of an immersion count from when water covers the grain until the drain is opened. A cast is taken to be "
    "possible once it is drained and the chits for the cast are there, and the vessel to be free "
    f"{plain_number(EMPTY_H)} h later."
)
UNMEASURED = Note(
    "remark",
    f"Worked out with the steep model {MODEL_VERSION}. Weigh the basket at every drain and move the next ones by "
    "[[sheet:steep-fit|steep fit]]: an unmeasured barley may end some seven points off.",
)


def hour_of_day(moment: datetime) -> float:
    """The time of the day of a moment [h]."""
    return moment.hour + moment.minute / 60.0


def window(first: datetime | None, last: datetime | None, names: tuple[str, str]) -> tuple[float, float] | None:
    """Two times of the day, or None when neither is given."""
    if first is None and last is None:
        return None
    if first is None or last is None:
        missing = names[0] if first is None else names[1]
        raise AskAgain(missing, "give both times of the window, or neither.")
    if hour_of_day(first) == hour_of_day(last):
        raise AskAgain(names[1], "both times are the same. Type a later one, or leave both blank.")
    return hour_of_day(first), hour_of_day(last)


def first_plan(plan: Plan, doubt: Trust, start: datetime, word: str, wishes: Wishes) -> tuple[Found, ...]:
    """The figures of the plan that stands first."""
    course, draft = plan.course, plan.draft
    band = doubt.band([course.hours])
    drains, fills = draft.drains, draft.fills
    firsts = course.ends[0]
    count: tuple[Found, ...] = ()
    waits = ", with the wait for its chits" if plan.ready_h > drains[-1] + wishes.drain_h else ""
    if len(fills) > 1:
        opened = fills[-1] - wishes.fill_h
        count = (Found("count_at", clock_after(start, opened), f"start + {fixed(opened, 2)} h, before the last fill"),)
    return (
        Found("wishes", word, f"{plain_number(len(drains))} immersions"),
        Found(
            "first_drain_at",
            clock_after(start, drains[0]),
            f"start + {plain_number(drains[0])} h, at {fixed(firsts.drained, 1)} %",
        ),
        Found("last_drain_at", clock_after(start, drains[-1]), f"start + {plain_number(drains[-1])} h"),
        Found("cast_at", clock_after(start, draft.cast_h), f"start + {fixed(draft.cast_h, 2)} h{waits}"),
        Found(
            "moisture_end",
            course.ends[-1].drained,
            "at the drains " + ", ".join(fixed(end.drained, 1) for end in course.ends if end.wet) + " %",
            band.low[0],
            band.high[0],
        ),
        *count,
    )
