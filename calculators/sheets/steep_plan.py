"""Schedules for a steep at clock times that people can keep."""

from __future__ import annotations

from datetime import datetime, timedelta

from ..asking.declare import Answer, AskAgain, Found, Heading, Listing, Note, Option, Outcome, Refusal, Sheet
from ..asking.figures import fixed, plain_number
from ..models.steep.choice import Plan, choose
from ..models.steep.doubt import trust
from ..models.steep.first_uptake import first_uptake
from ..models.steep.hydration import MODEL_VERSION, steep
from ..models.steep.plan import MOST_IMMERSIONS
from ..models.steep.wishes import Wishes
from ..rules.limit import edge
from ..rules.limits.casting import MOISTURE
from ..rules.limits.filling_the_steep import FILL
from ..rules.limits.steeping import CHIT_LAST_DIP, DRAIN, REST, REST_TEMP, WATER_TEMP
from ..rules.sensitive import longest_for, rest_for
from ..rules.steep_order import ACCEPTED_H, MOST_H, bounds, held, stops
from ..words import within
from ..words.order import stop_notes
from ..words.plan import (
    ASSUMED,
    WALL_MOISTURES,
    chart,
    chit_note,
    compared_rows,
    first_fill_quiet,
    not_kept,
    plan_stops,
    ranked_rows,
    schedule_rows,
    sensitive_note,
    start_note,
    wall_card,
    wet_below_note,
)
from ..words.questions.plan import (
    cast_from,
    cast_until,
    chit_hours,
    drain_minutes,
    fill_minutes,
    first_aim,
    longest_immersion_h,
    quiet_from,
    quiet_until,
    shortest_rest_h,
    start,
    vessel_hours,
    water_sensitivity,
)
from ..words.questions.shared import (
    barley_moisture,
    corn_weight_g,
    moisture_offset,
    rate_factor,
    target_moisture,
    water_temp_c,
)
from ..words.steep import GAS, NO_AIR, clock_after


def _hour(moment: datetime) -> float:
    return moment.hour + moment.minute / 60.0


def _window(first: datetime | None, last: datetime | None, names: tuple[str, str]) -> tuple[float, float] | None:
    """Two times of the day, or None when neither is given."""
    if first is None and last is None:
        return None
    if first is None or last is None:
        missing = names[0] if first is None else names[1]
        raise AskAgain(missing, "give both times of the window, or neither.")
    if _hour(first) == _hour(last):
        raise AskAgain(names[1], "both times are the same. Type a later one, or leave both blank.")
    return _hour(first), _hour(last)


def work(
    *,
    barley_moisture: float,
    water_temp_c: float,
    corn_weight_g: float,
    target_moisture: float,
    start: datetime,
    quiet_from: datetime | None,
    quiet_until: datetime | None,
    cast_from: datetime | None,
    cast_until: datetime | None,
    vessel_hours: float | None,
    longest_immersion_h: float,
    shortest_rest_h: float,
    first_aim: float,
    water_sensitivity: float,
    fill_minutes: float,
    drain_minutes: float,
    chit_hours: float | None,
    rate_factor: float,
    moisture_offset: float,
) -> Outcome | Refusal:
    """Search schedules, judge them, and show the best with what a slip does to them."""
    if target_moisture <= first_aim:
        raise AskAgain(
            "target_moisture",
            f"{plain_number(target_moisture)} % is not above the first drain’s {plain_number(first_aim)} %. "
            "Type a higher target, or a lower first drain under More questions.",
        )
    if first_aim <= barley_moisture:
        raise AskAgain(
            "first_aim",
            f"{plain_number(first_aim)} % is not above the barley’s own {plain_number(barley_moisture)} %. Type more.",
        )
    fill_h, drain_h = fill_minutes / 60.0, drain_minutes / 60.0
    if start.toordinal() == 1 and _hour(start) < fill_h:
        start += timedelta(days=1)  # a start without a date, whose water goes on the evening before: that is day 1
    rest = max(shortest_rest_h, rest_for(water_sensitivity=water_sensitivity))
    if rest < fill_h + drain_h:
        raise AskAgain(
            "shortest_rest_h",
            f"a drain and a fill alone take {plain_number(round(fill_h + drain_h, 2))} h. Type a rest of that or more, "
            f"up to {plain_number(edge(REST.stop_high))} h.",
        )
    wishes = Wishes(
        target_moisture,
        first_aim,
        min(longest_immersion_h, longest_for(water_sensitivity=water_sensitivity)),
        rest,
        _hour(start),
        bounds(),
        _window(quiet_from, quiet_until, ("quiet_from", "quiet_until")),
        vessel_hours,
        _window(cast_from, cast_until, ("cast_from", "cast_until")),
        fill_h,
        drain_h,
        chit_hours,
    )
    base = steep(
        barley_moisture=barley_moisture,
        stages=[(1.0, water_temp_c)],
        corn_weight_g=corn_weight_g,
        rate_factor=rate_factor,
        first_uptake_db=first_uptake(barley_moisture=barley_moisture, moisture_offset=moisture_offset),
    ).steeping
    choice = choose(base, water_temp_c, wishes)
    asked = [*held(FILL, fill_minutes), *held(DRAIN, drain_minutes), *held(WATER_TEMP, water_temp_c)]
    if not choice.plans:
        warmer = "Use warmer water. " if water_temp_c < edge(WATER_TEMP.accept_high) else ""
        return Refusal(
            f"The target stands in the way: no schedule of up to {MOST_IMMERSIONS} immersions, none over "
            f"{plain_number(MOST_H)} h, reaches {plain_number(target_moisture)} % in water at "
            f"{plain_number(water_temp_c)} °C. The wettest one tried ends on {fixed(choice.most_moisture, 1)} %. "
            f"{warmer}Allow longer immersions, lower the target, or cast and sprinkle: [[sheet:sprinkling]].",
            (*stop_notes([*asked, *held(MOISTURE, target_moisture)], "what is asked for"), GAS),
        )
    passed = plan_stops(choice.plans)
    notes = [
        *stop_notes([*asked, *passed], "the plans below"),
        *start_note(wishes, start),
        *wet_below_note(choice.plans, wishes),
        *chit_note(choice.plans, wishes),
        *([] if choice.kept else not_kept(choice, wishes, start)),
        *sensitive_note(wishes, water_sensitivity, shortest_rest_h, longest_immersion_h),
        _UNMEASURED,
        NO_AIR,
        GAS,
    ]
    # That the grain comes out of the water as warm as the water is taken for granted here, so it stops no plan.
    stopped = any(one.line.limit is not REST_TEMP for one in stops(passed))
    kept = choice.kept and not first_fill_quiet(wishes)
    word = "stop" if stopped else "kept" if kept else "not-kept"
    return Outcome(
        _first_plan(choice.plans[0], start, word, fill_h),
        (
            schedule_rows(choice.plans, start, wishes),
            compared_rows(choice.plans),
            ranked_rows(choice.plans, start),
            wall_card(base, first_aim),
        ),
        tuple(notes),
        (chart(choice.plans, wishes),),
    )


_UNMEASURED = Note(
    "remark",
    f"Worked out with the steep model {MODEL_VERSION}. Weigh the basket at every drain and move the next ones by "
    "[[sheet:steep-fit|steep fit]]: an unmeasured barley may end four or five points off.",
)


def _first_plan(plan: Plan, start: datetime, word: str, fill_h: float) -> tuple[Found, ...]:
    """The figures of the plan that stands first."""
    course, draft = plan.course, plan.draft
    band = trust(course).band([course.hours])
    drains, fills = draft.drains, draft.fills
    firsts = course.ends[0]
    count: tuple[Found, ...] = ()
    if len(fills) > 1:
        opened = fills[-1] - fill_h
        count = (Found("count_at", clock_after(start, opened), f"start + {fixed(opened, 2)} h, before the last fill"),)
    return (
        Found("wishes", word, f"{plain_number(len(drains))} immersions"),
        Found(
            "first_drain_at",
            clock_after(start, drains[0]),
            f"start + {plain_number(drains[0])} h, at {fixed(firsts.drained, 1)} %",
        ),
        Found("last_drain_at", clock_after(start, drains[-1]), f"start + {plain_number(drains[-1])} h"),
        Found("cast_at", clock_after(start, draft.cast_h), f"start + {fixed(draft.cast_h, 2)} h"),
        Found(
            "moisture_end",
            course.ends[-1].drained,
            "at the drains " + ", ".join(fixed(end.drained, 1) for end in course.ends if end.wet) + " %",
            band.low[0],
            band.high[0],
        ),
        *count,
    )


_MODEL = "the steep model, run for every schedule tried"
_JUDGED = (
    f"fewest points against it: a first drain off its aim, immersions over {plain_number(ACCEPTED_H)} h, rests over "
    f"{plain_number(edge(REST.accept_high))} h, a very short or long "
    "last one, a steep soon over, waiting, hours in all, and what a slip does. The weights are our judgement"
)
_WET_H = within.immersion_hours("first_aim")

SHEET = Sheet(
    id="steep-plan",
    title="Steep plan",
    purpose="Two or three schedules on the clock that end on target, and what a slip does to each.",
    questions=(
        barley_moisture._replace(example="12.5"),
        water_temp_c,
        corn_weight_g,
        target_moisture,
        start,
        quiet_from._replace(in_view=True),
        quiet_until._replace(in_view=True),
        cast_from._replace(in_view=True),
        cast_until._replace(in_view=True),
        fill_minutes._replace(in_view=True),
        drain_minutes._replace(in_view=True),
        chit_hours._replace(in_view=True),
        water_sensitivity._replace(in_view=True),
        vessel_hours,
        longest_immersion_h,
        shortest_rest_h,
        first_aim,
        rate_factor,
        moisture_offset,
    ),
    answers=(
        Answer(
            "wishes",
            "Plan 1",
            kind="verdict",
            lead=True,
            words=(
                Option("kept", "It keeps every wish."),
                Option("not-kept", "No plan keeps every wish. This is the nearest."),
                Option("stop", "Stop: by these numbers a plan passes a limit, named in the notice."),
            ),
            rests_on=_JUDGED,
        ),
        Answer("first_drain_at", "First drain", kind="clock", lead=True, rests_on=_MODEL),
        Answer("last_drain_at", "Last drain", kind="clock", lead=True, rests_on=_MODEL),
        Answer(
            "cast_at", "Cast from", kind="clock", lead=True, rests_on=f"the last drain and the cast window. {ASSUMED}"
        ),
        Answer(
            "count_at",
            "Count the chits by",
            kind="clock",
            rests_on="the moment the water is opened for the last immersion",
            next=f"Under {plain_number(edge(CHIT_LAST_DIP.stop_low))} % no water goes on: leave it in the air rest.",
        ),
        Answer(
            "moisture_end",
            "Moisture at the end, drained",
            "%",
            0,
            rests_on=_MODEL,
            trust="Four or five points either way until the basket has been weighed.",
            next="Correct it on the way: [[sheet:steep-fit|steep fit]].",
            worked="model",
            within=within.moisture("target_moisture"),
        ),
    ),
    listings=(
        Listing(
            "schedule",
            "The plans on the clock",
            (
                Heading("plan", "Plan", within=within.count(10.0)),
                Heading("immersion", "Wet", within=within.count(20.0)),
                Heading("fill", "Water on", kind="clock"),
                Heading("covered", "Covered", kind="clock"),
                Heading("drain", "Drain", kind="clock"),
                Heading("dry", "Drained", kind="clock"),
                Heading("hours", "Wet for", "h", 2, within=within.immersion_hours("longest_immersion_h")),
                Heading("drained", "Holds", "%", 1, within=within.moisture("target_moisture")),
                Heading(
                    "rest",
                    "Then rest",
                    "h",
                    1,
                    within=within.between(
                        0.0,
                        edge(REST.stop_high),
                        "A longer rest is a stop.",
                        "shortest_rest_h",
                        instead="Wet it again sooner.",
                    ),
                ),
            ),
        ),
        Listing(
            "compared",
            "What a slip does to the moisture at the end",
            (
                Heading("plan", "Plan", within=within.count(10.0)),
                Heading("hours", "In all", "h", 2, within=within.steep_hours("vessel_hours")),
                Heading("moisture_end", "Ends on", "%", 1, within=within.moisture("target_moisture")),
                Heading("colder", "2 °C colder", "points", 1, within=within.points()),
                Heading("warmer", "2 °C warmer", "points", 1, within=within.points()),
                Heading("late", "A drain 1 h late", "points", 1, within=within.points()),
            ),
        ),
        Listing(
            "ranked",
            "Why they stand in this order",
            (
                Heading("plan", "Plan", within=within.count(10.0)),
                Heading("cast", "Cast from", kind="clock"),
                Heading("free", "Vessel free", kind="clock"),
                Heading("why", "Why", kind="text"),
            ),
        ),
        Listing(
            "wall_card",
            f"Wall card: hours of the first immersion to its moisture, where that is {plain_number(MOST_H)} h or less",
            (
                Heading("water_temp_c", "Water", "C", 0, within=within.water_temp()),
                *(
                    Heading(
                        f"from_{moisture:.0f}",
                        f"Barley at {moisture:.0f} %",
                        "h",
                        1,
                        within=within.immersion_hours("first_aim"),
                    )
                    for moisture in WALL_MOISTURES
                ),
            ),
        ),
    ),
    work=work,
    sources=("molina-cano-1995", "barley-kinetics-1983", "yin-1996", "mebak-brf", "barley-lab-germination", "cmbtc"),
    story="Monday’s steep of the example maltings, batch example-04: invented numbers.",
)
