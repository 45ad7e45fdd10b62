"""Schedules for a steep at clock times that people can keep."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Literal

from ..asking.declare import (
    Answer,
    AskAgain,
    Either,
    Found,
    Heading,
    Listing,
    Note,
    Option,
    Outcome,
    Refusal,
    Rows,
    Sheet,
)
from ..asking.figures import fixed, plain_number
from ..models.living.chitting import Corns
from ..models.steep.choice import Choice, choose
from ..models.steep.course import Steeping
from ..models.steep.doubt import trust
from ..models.steep.first_uptake import first_uptake
from ..models.steep.hydration import steep
from ..models.steep.plan import MOST_IMMERSIONS
from ..models.steep.wishes import Wishes
from ..rules.limit import edge
from ..rules.limits.casting import MOISTURE
from ..rules.limits.filling_the_steep import FILL
from ..rules.limits.steeping import CHIT_LAST_DIP, DRAIN, IMMERSION, REST, WATER_TEMP
from ..rules.sensitive import longest_for, rest_for
from ..rules.steep_life import Lives, judged, water_that_would_do
from ..rules.steep_order import bounds, held, stops
from ..words import within
from ..words.life import (
    LIFE_ANSWERS,
    LIFE_LISTINGS,
    chits_rows,
    left_out_rows,
    life_found,
    lives_of,
    may_warm_note,
    none_offered,
    plan_lives,
    rests_rows,
    too_warm,
)
from ..words.limits import at_edge
from ..words.malts import taken
from ..words.order import stop_notes
from ..words.plan import (
    ASSUMED,
    UNMEASURED,
    WALL_MOISTURES,
    cast_notes,
    chart,
    chit_note,
    compared_rows,
    first_fill_quiet,
    first_plan,
    hour_of_day,
    not_kept,
    plan_stops,
    ranked_rows,
    schedule_rows,
    sensitive_note,
    start_note,
    wall_card,
    wet_below_note,
    window,
)
from ..words.questions.life import cast_to, grows_percent, rest_air_c, suction_m3_h_t
from ..words.questions.malts import malt as asked_malt
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
from ..words.steep import GAS, NO_AIR


def work(
    *,
    barley_moisture: float,
    water_temp_c: float,
    corn_weight_g: float,
    target_moisture: float | None,
    malt: str | None,
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
    cast_to: Literal["couch", "drum"],
    suction_m3_h_t: float,
    rest_air_c: float | None,
    grows_percent: float,
    rate_factor: float,
    moisture_offset: float,
) -> Outcome | Refusal:
    """Search schedules, judge them, and show the best with what a slip does to them."""
    from_table: list[Note] = []
    if target_moisture is None:
        assert malt is not None
        target_moisture, note = taken(malt, "cast", "%", "Target moisture")
        from_table.append(note)
    if target_moisture <= first_aim:
        raise AskAgain(
            "malt" if from_table else "target_moisture",
            f"{plain_number(target_moisture)} % is not above the first drain’s {plain_number(first_aim)} %. "
            "Type a higher target, or a lower first drain under More questions.",
        )
    if first_aim <= barley_moisture:
        raise AskAgain(
            "first_aim",
            f"{plain_number(first_aim)} % is not above the barley’s own {plain_number(barley_moisture)} %. Type more.",
        )
    fill_h, drain_h = fill_minutes / 60.0, drain_minutes / 60.0
    if start.toordinal() == 1 and hour_of_day(start) < fill_h:
        start += timedelta(days=1)  # a start without a date, whose water goes on the evening before: that is day 1
    rest = max(shortest_rest_h, rest_for(water_sensitivity=water_sensitivity))
    if rest < fill_h + drain_h:
        raise AskAgain(
            "shortest_rest_h",
            f"a drain and a fill alone take {plain_number(round(fill_h + drain_h, 2))} h. Type a rest of that or more, "
            f"up to {at_edge(REST, 'stop_high')}.",
        )
    wishes = Wishes(
        target_moisture,
        first_aim,
        min(longest_immersion_h, longest_for(water_sensitivity=water_sensitivity)),
        rest,
        hour_of_day(start),
        bounds(),
        window(quiet_from, quiet_until, ("quiet_from", "quiet_until")),
        vessel_hours,
        window(cast_from, cast_until, ("cast_from", "cast_until")),
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
    lives = lives_of(
        suction_m3_h_t=suction_m3_h_t,
        rest_air_c=rest_air_c,
        cast_to=cast_to,
        corns=Corns(grows=grows_percent / 100.0, sensitive=water_sensitivity / 100.0),
        chit_h=chit_hours,
    )
    choice = choose(base, water_temp_c, wishes, judge=lambda course: judged(course, lives, quick=True))
    asked = [*held(FILL, fill_minutes), *held(DRAIN, drain_minutes), *held(WATER_TEMP, water_temp_c)]
    if not choice.plans and choice.left_out:
        notes = stop_notes([*asked, *held(MOISTURE, target_moisture)], "what is asked for")
        notes += [*from_table, *sensitive_note(wishes, water_sensitivity, shortest_rest_h, longest_immersion_h)]
        return _none(choice, lives, notes, (base, water_temp_c, wishes), wall_card(base, first_aim))
    if not choice.plans:
        warmer = "Use warmer water. " if water_temp_c < edge(WATER_TEMP.accept_high) else ""
        return Refusal(
            f"The target stands in the way: no schedule of up to {MOST_IMMERSIONS} immersions, none over "
            f"{at_edge(IMMERSION, 'stop_high')}, reaches {plain_number(target_moisture)} % in water at "
            f"{plain_number(water_temp_c)} °C. The wettest one tried ends on {fixed(choice.most_moisture, 1)} %. "
            f"{warmer}Allow longer immersions, lower the target, or cast and sprinkle: [[sheet:sprinkling]].",
            (*stop_notes([*asked, *held(MOISTURE, target_moisture)], "what is asked for"), *from_table, GAS),
        )
    passed = plan_stops(choice.plans)
    doubts = [trust(plan.course) for plan in choice.plans]
    living = plan_lives(doubts, lives)
    lengths = [plan.draft.lengths for plan in choice.plans]
    notes = [
        *stop_notes([*asked, *passed], "the plans below"),
        *from_table,
        *start_note(wishes, start),
        *wet_below_note(choice.plans, wishes),
        *may_warm_note(living, [f"plan {number}, " for number in range(1, len(living) + 1)]),
        *cast_notes(choice.plans, living, start, wishes, cast_to),
        *chit_note(choice.plans, wishes, living),
        *([] if choice.kept else not_kept(choice, wishes, start)),
        *sensitive_note(wishes, water_sensitivity, shortest_rest_h, longest_immersion_h),
        UNMEASURED,
        NO_AIR,
        GAS,
    ]
    kept = choice.kept and not first_fill_quiet(wishes)
    word = "stop" if stops(passed) else "kept" if kept else "not-kept"
    left_out = [left_out_rows(choice, lives)] if choice.left_out else []
    return Outcome(
        (*first_plan(choice.plans[0], doubts[0], start, word, wishes), *life_found(living[0], lengths[0])),
        (
            schedule_rows(choice.plans, start, wishes),
            chits_rows(living, [plan.draft for plan in choice.plans], start, cast_to),
            rests_rows(living, lengths, start),
            *left_out,
            compared_rows(choice.plans),
            ranked_rows(choice.plans, start),
            wall_card(base, first_aim),
        ),
        tuple(notes),
        (chart(choice.plans, wishes),),
    )


def _none(
    choice: Choice, lives: Lives, notes: list[Note], tried: tuple[Steeping, float, Wishes], card: Rows
) -> Outcome:
    """What is answered where each schedule that reaches the target passes a stop of warmth or chit."""
    rows = left_out_rows(choice, lives)
    told = f"{len(choice.left_out)} schedules that reach the target were tried; each passes a stop of warmth or chit"
    water = water_that_would_do(*tried, lives, too_warm(choice))
    said = (*notes, *none_offered(choice, rows, water), NO_AIR, GAS)
    return Outcome((Found("wishes", "none", told),), (rows, card), said)


_MODEL = "the steep model, run for every schedule tried; those looked at go through the living batch too"
_JUDGED = (
    f"fewest points against it: a first drain off its aim, immersions over {at_edge(IMMERSION, 'accept_high')}, rests "
    f"over {at_edge(REST, 'accept_high')}, a very short or long "
    "last one, a steep soon over, waiting, hours in all, few chits before the last dip, warm rests, and what a slip "
    "does. The weights are our judgement"
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
        asked_malt._replace(optional=False),
        start,
        quiet_from._replace(in_view=True),
        quiet_until._replace(in_view=True),
        cast_from._replace(in_view=True),
        cast_until._replace(in_view=True),
        fill_minutes._replace(in_view=True),
        drain_minutes._replace(in_view=True),
        chit_hours._replace(in_view=True),
        water_sensitivity._replace(in_view=True),
        cast_to,
        suction_m3_h_t,
        rest_air_c,
        grows_percent,
        vessel_hours,
        longest_immersion_h,
        shortest_rest_h,
        first_aim,
        rate_factor,
        moisture_offset,
    ),
    either=(Either((("target_moisture",), ("malt",))),),
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
                Option("none", "Stop: no plan can be offered. The notice says why, and what would make one possible."),
            ),
            rests_on=_JUDGED,
        ),
        Answer("first_drain_at", "First drain", kind="clock", lead=True, rests_on=_MODEL),
        Answer("last_drain_at", "Last drain", kind="clock", lead=True, rests_on=_MODEL),
        Answer(
            "cast_at",
            "Cast from",
            kind="clock",
            lead=True,
            rests_on=f"the last drain, the chits for the cast and the cast window. {ASSUMED}",
        ),
        Answer(
            "count_at",
            "Count the chits by",
            kind="clock",
            rests_on="the moment the water is opened for the last immersion",
            next=f"Under {at_edge(CHIT_LAST_DIP, 'stop_low')} no water goes on: leave it in the air rest.",
        ),
        Answer(
            "moisture_end",
            "Moisture at the end, drained",
            "%",
            0,
            rests_on=_MODEL,
            trust="Some seven points either way until the basket has been weighed.",
            next="Correct it on the way: [[sheet:steep-fit|steep fit]].",
            worked="model",
            within=within.moisture("target_moisture"),
        ),
        *LIFE_ANSWERS,
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
        *LIFE_LISTINGS,
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
            on_card=False,
        ),
        Listing(
            "wall_card",
            "Wall card: hours of the first immersion to its moisture, where that is "
            f"{at_edge(IMMERSION, 'stop_high')} or less",
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
            on_card=False,
        ),
    ),
    work=work,
    needs=("psychrolib",),
    sources=(
        "molina-cano-1995",
        "barley-kinetics-1983",
        "yin-1996",
        "mebak-brf",
        "barley-lab-germination",
        "cmbtc",
        "haley-1987",
        "onofri-2018",
    ),
    story="Monday’s steep of the example maltings, batch example-04: invented numbers.",
)
