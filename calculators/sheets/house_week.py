"""The week of a house: which batch is filled, cast, loaded and emptied when, and what happens when one is late."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from ..asking.declare import AskAgain, Belongs, Found, Note, Outcome, Sheet
from ..asking.progress import tell
from ..rules.limit import edge
from ..rules.limits.floor_germination import DEPTH
from ..rules.week import reasons
from ..rules.week.house import Batch, Cost, Plan
from ..rules.week.result import Result
from ..rules.week.search import search
from ..rules.week.stages import SEASON_DEPTH_CM
from ..words.questions import week as asked
from ..words.questions.life import rest_air_c, suction_m3_h_t
from ..words.questions.plan import chit_hours
from ..words.questions.ready import reference_days, reference_temp_c
from ..words.questions.shared import barley_moisture, stages
from ..words.week import needs, tables
from ..words.week import notes as words
from ..words.week.answers import ANSWERS, LISTINGS
from ..words.week.beds import bed_notes, season_note
from ..words.week.needs import WarmTank, Waters
from ..words.week.standing import stands_now
from ..words.week.tables import Week
from ..words.week.typed import Rows, Typed, typed
from ..words.week.wall import goes_on, lines_of, paper_mark

_DEPTHS = (edge(DEPTH.accept_low), *sorted(SEASON_DEPTH_CM.values()), 20.0, edge(DEPTH.accept_high))


def work(
    *,
    planned_at: datetime,
    again_at: datetime | None,
    batches: Rows,
    happened: Rows | None,
    steeps: Rows,
    floors: Rows | None,
    season: str | None,
    vessels: Rows | None,
    kilns: Rows,
    hands: Rows,
    stages: Rows,
    wall: Rows | None,
    slip_batch: str | None,
    slip_h: float,
    closed: Rows | None,
    cast_hands: float,
    rest_longer_h: float,
    clean_steep_h: float,
    clean_bed_h: float,
    reference_temp_c: float | None,
    reference_days: float | None,
    water_m3_t: float,
    water_m3_h: float | None,
    tank_m3: float,
    effluent_m3_day: float | None,
    steep_c: float,
    mains_c: float,
    warm_c: float,
    warm_tank_m3: float | None,
    warm_kw: float | None,
    barley_moisture: float,
    chit_hours: float | None,
    suction_m3_h_t: float,
    rest_air_c: float | None,
    cast_later_h: float | None,
    kiln_later_h: float,
) -> Outcome:
    """Plan the week from where the batches stand, and say what is scarce, what gives way, and what would help."""
    given = dict(locals())
    seen = typed(given)
    hung, batches = _wall(seen, given)
    result = search(seen.house, batches, hung, None, lambda part: tell("Planning the week", 10 + 50 * part))
    if result.plan is None:
        return _none(seen, batches, result)
    return _answered(seen, given, batches, hung, result)


def _wall(seen: Typed, given: dict[str, Any]) -> tuple[Plan | None, tuple[Batch, ...]]:
    """The plan on the wall, and the batches as they stand."""
    if not seen.again:
        return None, seen.batches
    if seen.wall is not None:
        return seen.wall, stands_now(seen.house, seen.batches, seen.base, given, seen.wall)
    tell("Working out the plan on the wall", 0)
    first = search(seen.wall_house, seen.wall_batches)
    if first.plan is None:
        raise AskAgain(
            "again_at",
            "there was no plan for the week as it stood then, so nothing can be counted against it. Leave this blank, "
            "and type now as the time at which the plan is made.",
        )
    return first.plan, stands_now(seen.house, seen.batches, seen.base, given, first.plan)


def _none(seen: Typed, batches: tuple[Batch, ...], result: Result) -> Outcome:
    """What is answered where no plan keeps every stop."""
    tell("Looking for what stands in the way", 60)
    pair = None if result.stuck else reasons.against(seen.house, batches)
    found = reasons.helps(seen.house, batches, None, lambda part: tell("Trying what would help", 70 + 30 * part))
    said = words.cannot(seen, batches, result, pair)
    verdict = Found("plan", "none", "each batch through what the others leave free; none past a stop")
    taken = words.taken_notes(seen.house, batches, seen.happened)
    notes = (*said, *seen.steeped.notes, *bed_notes(seen)[0], *taken, *words.possible_note(found), words.ALONE)
    return Outcome((verdict,), (tables.help_rows(found),), notes)


def _answered(
    seen: Typed, given: dict[str, Any], batches: tuple[Batch, ...], wall: Plan | None, result: Result
) -> Outcome:
    assert result.plan is not None
    house, plan, cost = seen.house, result.plan, result.cost
    week = Week(seen, batches, plan)
    waters = Waters(given["steep_c"], given["mains_c"], given["warm_c"])
    full = reasons.loads(house, batches, plan)
    scarcest = tables.place_name(house, full[0])
    tell("Trying other plans", 60)
    plans = reasons.other_plans(house, batches, result, wall)
    listed = [
        tables.batch_rows(week),
        tables.place_rows(week),
        tables.day_rows(week),
        tables.line_rows(week),
        tables.scarce_rows(week, full),
    ]
    beds, bed_stops = bed_notes(seen)
    said = [
        *seen.steeped.notes,
        *beds,
        *words.watched_notes(week),
        *words.water_notes(given["steep_c"], given["mains_c"]),
        *needs.warm_notes(week, waters, _warm_tank(given)),
    ]
    late_working, late = tables.late_words(batches, plan)
    more: list[Note] = []
    if cost.late or cost.watched or cost.hands:
        found = reasons.helps(house, batches, result, lambda part: tell("Trying what would help", 70 + 10 * part))
        more = words.more_note(found, cost)
        listed.append(tables.help_rows(found))
    if late:
        names = [one.id for one in batches if one.due is not None and plan[one.id].off > one.due]
        pair = reasons.against(house, batches, True, names)
        said += words.late_notes(seen, pair, names, scarcest)
    if len(plans) > 1:
        listed += [tables.plan_rows(week, plans), tables.other_rows(week, plans)]
    tell("Playing the plan through many weeks", 85)
    drawn = _drawn(seen, given, batches, plan)
    if drawn:
        listed.append(tables.drawn_rows(week, drawn))
    giving = words.gives_way(drawn)
    slips, slip_said = _slip(week, given)
    listed += slips
    listed.append(needs.water_rows(week, waters))
    listed += [one for one in (needs.floor_rows(week), needs.depth_rows(week, _DEPTHS)) if one is not None]
    mark = paper_mark(lines_of(week, plan))
    said += [*words.at_once_notes(week), *words.alone_notes(week)]
    remarks = [
        words.mark_note(mark, paper_mark(lines_of(week, wall)) if wall else None, seen.wall is not None),
        words.sure(result),
        *more,
        *slip_said,
        *words.taken_notes(house, batches, seen.happened),
        *season_note(given),
        *([words.drawn_note()] if drawn else []),
        words.WHOLE_HOURS,
        words.ALONE,
    ]
    answers = [
        Found("plan", "stop" if seen.steeped.stopped or bed_stops else _word(cost), words.cost_words(cost)),
        *_next(week),
        Found("last_off", week.at(max(way.off for way in plan.values())), "the last kiln that is emptied"),
        Found("late_h", float(late), late_working or "no malt is late", worked="sum" if late else "rule"),
        Found("called", float(cost.hands), "waters, drains and kilns at hours when nobody is there"),
        Found("watched_h", float(cost.watched), _watched_words(cost)),
        Found("scarcest_percent", 100.0 * full[0].share, f"{scarcest}: hours in which no other batch has room there"),
    ]
    if wall is not None:
        answers.append(Found("changed", float(cost.changed), "a fill, a cast or a load at another hour or place"))
    answers += seen.steeped.found
    if giving is not None:
        answers.append(Found("gives_way", giving[1], giving[0], next=f"What gives way: {giving[0]}."))
    return Outcome(tuple(answers), tuple(listed), (*said, *remarks), goes_on=goes_on(week, given))


def _warm_tank(given: dict[str, Any]) -> WarmTank | None:
    """The warm tank; asked back where only half of it is said."""
    most_m3, heat_kw = given["warm_tank_m3"], given["warm_kw"]
    if (most_m3 is None) != (heat_kw is None):
        missing = "warm_tank_m3" if most_m3 is None else "warm_kw"
        raise AskAgain(missing, "what the warm tank holds and its heat go together. Give both, or leave both blank.")
    return None if most_m3 is None else WarmTank(most_m3, heat_kw)


def _drawn(seen: Typed, given: dict[str, Any], batches: tuple[Batch, ...], plan: Plan) -> Any:
    """What many weeks make of the plan; nothing where there is no numpy, as for an exercise."""
    try:
        from ..rules.week.draws import Doubt, weeks
    except ImportError:
        return {}
    off = tuple(laid.bed_c - seen.reference_c for laid in seen.laid)
    later = given["cast_later_h"]
    doubt = Doubt(seen.doubt, off, seen.steeped.later_h if later is None else later, given["kiln_later_h"])
    return weeks(seen.house, batches, plan, doubt)


def _slip(week: Week, given: dict[str, Any]) -> tuple[list[Any], list[Note]]:
    name = given["slip_batch"]
    if name is None:
        return [], []
    batch = next((one for one in week.batches if one.id == name), None)
    if batch is None:
        raise AskAgain(
            "slip_batch", f"no batch {name} stands above. Type one of: {', '.join(one.id for one in week.batches)}."
        )
    if batch.stood.load is not None:
        raise AskAgain("slip_batch", f"{name} is on the kiln. Type one that still grows, or is to come.")
    hours = int(given["slip_h"])
    tell("Letting one batch be late", 90)
    found = reasons.slipped(week.house, week.batches, week.plan, name, hours)
    said = words.slip_notes(week, found, name, hours)
    return ([tables.slip_rows(week, found)] if found.result.plan is not None else []), said


def _word(cost: Cost) -> str:
    if cost.late:
        return "late"
    if cost.watched:
        return "watched"
    return "called" if cost.hands else "kept"


def _next(week: Week) -> list[Found]:
    todo = tables.acts(week)
    if not todo:
        return []
    one = todo[0]
    return [Found("next_at", week.at(one.hour), f"{one.what} {one.batch}, {one.where}")]


def _watched_words(cost: Cost) -> str:
    return (
        "hours drained or ready beyond what is accepted"
        if cost.watched
        else "nothing lies drained or ready for longer than is accepted"
    )


SHEET = Sheet(
    id="house-week",
    title="The week of a house",
    purpose="Every batch through steeps, floors, drums, boxes and kiln by the hour: what is done when, what is scarce, "
    "what gives way first.",
    questions=(
        asked.planned_at,
        asked.again_at,
        asked.batches,
        asked.happened,
        asked.steeps,
        asked.floors,
        asked.season,
        asked.vessels,
        asked.kilns,
        asked.hands,
        stages._replace(in_view=True),
        asked.slip_batch,
        asked.slip_h,
        asked.wall,
        asked.closed,
        asked.cast_hands,
        asked.rest_longer_h,
        asked.clean_steep_h,
        asked.clean_bed_h,
        reference_temp_c,
        reference_days,
        asked.water_m3_t,
        asked.water_m3_h,
        asked.tank_m3,
        asked.effluent_m3_day,
        asked.steep_c,
        asked.mains_c,
        asked.warm_c,
        asked.warm_tank_m3,
        asked.warm_kw,
        barley_moisture._replace(default="12", example="", hint="By it the stages are worked out."),
        chit_hours._replace(example="40"),
        suction_m3_h_t._replace(example="60"),
        rest_air_c,
        asked.cast_later_h,
        asked.kiln_later_h,
    ),
    answers=ANSWERS,
    listings=LISTINGS,
    work=work,
    belongs=(Belongs("temp_c", ("floors", "vessels"), "the bed’s temperature", "C"),),
    needs=("numpy", "psychrolib"),
    for_wall=True,
    sources=("mueller-2014", "cereals-processing", "haley-1987"),
    story="Sunday evening in the example maltings: six batches wanted over three weeks, through two steeps, a floor, a "
    "drum and a kiln. Invented numbers.",
)
