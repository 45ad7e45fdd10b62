"""Schedules for a steep at clock times that people can keep."""

from __future__ import annotations

from datetime import datetime

from ..declare import (
    Answer,
    AskAgain,
    Clock,
    Found,
    Heading,
    Listing,
    Note,
    Option,
    Outcome,
    Refusal,
    Sheet,
)
from ..figures import fixed, plain_number
from ..models import steep_wishes
from ..models.first_uptake import first_uptake
from ..models.hydration import MODEL_VERSION, steep
from ..models.limits import Limits
from ..models.steep_choice import Plan, choose
from ..models.steep_doubt import trust
from ..models.steep_plan import MOST_IMMERSIONS
from ..models.steep_wishes import Wishes, rest_for
from ..plan_words import (
    ASSUMED,
    WALL_MOISTURES,
    chart,
    compared_rows,
    not_kept,
    ranked_rows,
    schedule_rows,
    wall_card,
)
from ..questions import (
    barley_moisture,
    corn_weight_g,
    moisture_offset,
    number,
    rate_factor,
    target_moisture,
    water_temp_c,
)
from ..questions import start as asked_start
from ..steep_words import GAS, NO_AIR, clock_after

start = asked_start._replace(optional=False)
longest_immersion_h = number(
    "longest_immersion_h",
    "Longest immersion",
    "h",
    steep_wishes.LONGEST_IMMERSION_H,
    "Up to 8 by common practice, 12 with air all through.",
    default="10",
)
shortest_rest_h = number(
    "shortest_rest_h",
    "Shortest air rest",
    "h",
    steep_wishes.SHORTEST_REST_H,
    "6 to 12 by common practice.",
    default="6",
)
first_aim = number(
    "first_aim",
    "Moisture at the first drain",
    "%",
    steep_wishes.FIRST_AIM,
    "30 to 32 by common practice.",
    default="31",
)
water_sensitivity = number(
    "water_sensitivity",
    "Water sensitivity",
    "points",
    steep_wishes.WATER_SENSITIVITY,
    "Energy in 4 ml less energy in 8 ml. The more sensitive, the longer the rests.",
    default="0",
    source="MEBAK R-110.34.612 (read): longer rests; the classes are from memory",
)
quiet_from = Clock(
    "quiet_from", "Nobody drains from", "Of every day, such as 22:00.", example="22:00", optional=True, daily=True
)
quiet_until = Clock("quiet_until", "Nobody drains until", "Such as 05:00.", example="05:00", optional=True, daily=True)
vessel_hours = number(
    "vessel_hours",
    "Vessel free, hours after the start",
    "h",
    Limits(6.0, 240.0),
    "Empty and ready for the next charge.",
)._replace(optional=True)
cast_from = Clock(
    "cast_from",
    "Cast from",
    "Hours of the day when there are hands for it.",
    example="06:00",
    optional=True,
    daily=True,
)
cast_until = Clock(
    "cast_until", "Cast until", "The latest start of a cast.", example="14:00", optional=True, daily=True
)


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
    rest = max(shortest_rest_h, rest_for(water_sensitivity=water_sensitivity))
    wishes = Wishes(
        target_moisture,
        first_aim,
        longest_immersion_h,
        rest,
        _hour(start),
        _window(quiet_from, quiet_until, ("quiet_from", "quiet_until")),
        vessel_hours,
        _window(cast_from, cast_until, ("cast_from", "cast_until")),
    )
    base = steep(
        barley_moisture=barley_moisture,
        stages=[(1.0, water_temp_c)],
        corn_weight_g=corn_weight_g,
        rate_factor=rate_factor,
        first_uptake_db=first_uptake(barley_moisture=barley_moisture, moisture_offset=moisture_offset),
    ).steeping
    choice = choose(base, water_temp_c, wishes)
    if not choice.plans:
        return Refusal(
            f"The target stands in the way: no schedule of up to {MOST_IMMERSIONS} immersions reaches "
            f"{plain_number(target_moisture)} % in water at {plain_number(water_temp_c)} °C. The wettest one tried "
            f"ends on {fixed(choice.most_moisture, 1)} %: that target can be met. Or use warmer water, or longer "
            "immersions.",
            (GAS,),
        )
    notes = [] if choice.kept else not_kept(choice, wishes, start)
    if rest > shortest_rest_h:
        notes.append(
            Note(
                "remark",
                f"This barley is water-sensitive by {plain_number(water_sensitivity)} points, so no rest is shorter "
                f"than {plain_number(rest)} h.",
            )
        )
    notes += [_UNMEASURED, NO_AIR, GAS]
    return Outcome(
        _first_plan(choice.plans[0], start, choice.kept),
        (
            schedule_rows(choice.plans, start),
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


def _first_plan(plan: Plan, start: datetime, kept: bool) -> tuple[Found, ...]:
    """The figures of the plan that stands first."""
    course, draft = plan.course, plan.draft
    band = trust(course).band([course.hours])
    drains = draft.drains
    firsts = course.ends[0]
    return (
        Found("wishes", "kept" if kept else "not-kept", f"{plain_number(len(drains))} immersions"),
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
    )


_MODEL = "the steep model, run for every schedule tried"
_JUDGED = (
    "fewest points against it: a first drain off its aim, immersions over 8 h, rests over 12 h, a very short or long "
    "last one, fills in quiet hours, waiting, hours in all, and what a slip does. The weights are our judgement"
)

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
        vessel_hours,
        longest_immersion_h,
        shortest_rest_h,
        first_aim,
        water_sensitivity,
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
            ),
            rests_on=_JUDGED,
        ),
        Answer("first_drain_at", "First drain", kind="clock", lead=True, rests_on=_MODEL),
        Answer("last_drain_at", "Last drain", kind="clock", lead=True, rests_on=_MODEL),
        Answer(
            "cast_at", "Cast from", kind="clock", lead=True, rests_on=f"the last drain and the cast window. {ASSUMED}"
        ),
        Answer(
            "moisture_end",
            "Moisture at the end, drained",
            "%",
            0,
            rests_on=_MODEL,
            trust="Four or five points either way until the basket has been weighed.",
            next="Correct it on the way: [[sheet:steep-fit|steep fit]].",
        ),
    ),
    listings=(
        Listing(
            "schedule",
            "The plans on the clock",
            (
                Heading("plan", "Plan"),
                Heading("immersion", "Wet"),
                Heading("fill", "Fill", kind="clock"),
                Heading("drain", "Drain", kind="clock"),
                Heading("hours", "Wet for", "h", 2),
                Heading("drained", "Drained", "%", 1),
                Heading("rest", "Then rest", "h", 1),
            ),
        ),
        Listing(
            "compared",
            "What a slip does to the moisture at the end",
            (
                Heading("plan", "Plan"),
                Heading("hours", "In all", "h", 2),
                Heading("moisture_end", "Ends on", "%", 1),
                Heading("colder", "2 °C colder", "points", 1),
                Heading("warmer", "2 °C warmer", "points", 1),
                Heading("late", "A drain 1 h late", "points", 1),
            ),
        ),
        Listing(
            "ranked",
            "Why they stand in this order",
            (
                Heading("plan", "Plan"),
                Heading("cast", "Cast from", kind="clock"),
                Heading("free", "Vessel free", kind="clock"),
                Heading("why", "Why", kind="text"),
            ),
        ),
        Listing(
            "wall_card",
            "Wall card: hours of the first immersion to its moisture",
            (
                Heading("water_temp_c", "Water", "C", 0),
                *(
                    Heading(f"from_{moisture:.0f}", f"Barley at {moisture:.0f} %", "h", 1)
                    for moisture in WALL_MOISTURES
                ),
            ),
        ),
    ),
    work=work,
    sources=("molina-cano-1995", "barley-kinetics-1983", "yin-1996", "mebak-brf"),
    story="Monday’s steep of the example maltings, batch example-04: invented numbers.",
)
