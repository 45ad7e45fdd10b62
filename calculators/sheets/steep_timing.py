"""When to drain: the course of a steep, where it ends, and how long the last immersion must be."""

from __future__ import annotations

from datetime import datetime

from ..asking.declare import Answer, AskAgain, Dots, Found, Heading, Listing, Note, Number, Outcome, Rows, Sheet, Table
from ..asking.figures import fixed, plain_number, said_span
from ..models.bounds import STEEPED_MOISTURE, OutOfRange
from ..models.living.chitting import Corns
from ..models.living.steep_life import Life
from ..models.living.steep_run import warmed
from ..models.steep.course import Steep
from ..models.steep.doubt import Trust, trust
from ..models.steep.first_uptake import first_uptake
from ..models.steep.fit import Reading, fit
from ..models.steep.hydration import steep, uptake_rate
from ..rules.limits.casting import MOISTURE
from ..rules.steep_life import alive_order, life_stops
from ..rules.steep_order import MOST_H, Order, held, last_immersion, of_course
from ..words import within
from ..words.life import LIFE_ANSWERS, TOO_WARM, alive_or_none, chits_notes, life_found, lives_of, may_warm_note
from ..words.order import (
    FIRST_WET,
    INSTEAD,
    ORDER,
    chits_against,
    instead_rows,
    order_found,
    order_notes,
    stop_notes,
    with_order,
)
from ..words.questions.life import rest_air_c
from ..words.questions.life import suction_m3_h_t as asked_suction
from ..words.questions.shared import (
    barley_moisture,
    corn_weight_g,
    moisture_offset,
    rate_factor,
    stages,
    start,
    target_moisture,
    water_temp_c,
)
from ..words.steep import GAS, NO_AIR, clock_after, course_chart, needed_range

reading = Table(
    "reading",
    "One reading of the basket",
    (
        Number("reading_h", "Hours since the start", "h", 0.25, 200, example="8"),
        Number("reading_moisture", "Moisture, drained", "%", 10, STEEPED_MOISTURE.high, example="33"),
    ),
    max_rows=1,
    hint="From a weighing, drained. It corrects the rest of the forecast.",
    optional=True,
)


def work(
    *,
    barley_moisture: float,
    water_temp_c: float,
    corn_weight_g: float,
    stages: tuple[tuple[float, float | None], ...],
    target_moisture: float,
    rate_factor: float,
    moisture_offset: float,
    reading: tuple[tuple[float, float], ...] | None,
    start: datetime | None,
    suction_m3_h_t: float,
    rest_air_c: float | None,
) -> Outcome:
    """Run the steep model, correct it by the reading, and read the answers off its course."""
    if target_moisture <= barley_moisture:
        raise AskAgain(
            "target_moisture",
            f"{plain_number(target_moisture)} % is not above the barley’s own "
            f"{plain_number(barley_moisture)} %. Type a higher target.",
        )
    pairs = [(hours, water_temp_c if temp is None else temp) for hours, temp in stages]
    course = steep(
        barley_moisture=barley_moisture,
        stages=pairs,
        corn_weight_g=corn_weight_g,
        rate_factor=rate_factor,
        first_uptake_db=first_uptake(barley_moisture=barley_moisture, moisture_offset=moisture_offset),
    )
    lives = lives_of(
        suction_m3_h_t=suction_m3_h_t,
        rest_air_c=rest_air_c,
        cast_to="drum",
        corns=Corns(),
        held_c=tuple(temp if place % 2 else None for place, (_, temp) in enumerate(stages)),
    )
    course, _ = warmed(course, lives.rests)
    doubt = trust(course)
    notes: list[Note] = []
    if reading is not None:
        course, doubt = _corrected(course, reading[0], notes)
    band = doubt.band([course.hours])
    low, high = band.low[0], band.high[0]
    decimals = 0 if high - low > 3 else 1
    end = course.ends[-1]
    rate = uptake_rate(
        water_temp_c=water_temp_c,
        corn_weight_g=corn_weight_g,
        rate_factor=course.steeping.rate_factor,
    )
    found = [
        Found(
            "moisture_end",
            end.drained,
            f"sphere of the corn’s volume, {fixed(rate, 5)} of its radius squared an hour at "
            f"{plain_number(water_temp_c)} °C, from {plain_number(barley_moisture)} %; at the stage ends "
            + ", ".join(fixed(e.drained, 1) for e in course.ends)
            + " %",
            low,
            high,
            decimals,
        )
    ]
    order = last_immersion(course, target_moisture, begun=reading is not None)
    order = alive_order(order, course, lives, begun=reading is not None)
    life = alive_or_none(doubt, lives)
    asked = [*held(MOISTURE, target_moisture), *of_course(course, rests=False)]
    first, asked = chits_against(order, course, [*asked, *life_stops(course, lives)])
    notes += stop_notes(asked, "target and stages")
    found += _times(course, order, (low, high), target_moisture, start, notes)
    notes[:0] = first
    found.append(
        Found(
            "net_moisture_end",
            end.net,
            f"{fixed(end.drained, 1)} % less the film still on the corns",
            decimals=decimals,
        )
    )
    if reading is not None:
        factor = course.steeping.rate_factor
        found.append(
            Found(
                "rate_factor_fitted",
                factor,
                f"the likeliest rate, given the reading and the spread of lots, from {plain_number(rate_factor)}",
            )
        )
    lengths = [hours for hours, _ in stages]
    if life is None:
        notes.append(TOO_WARM)
    else:
        found += life_found(life, lengths)
        notes += may_warm_note([life], [""])
        on_target = order is not None and order.mark != "stop"
        notes += chits_notes(life, lengths, max(end.drained, target_moisture) if on_target else end.drained)
    notes.append(NO_AIR)
    notes.append(GAS)
    return Outcome(
        tuple(found),
        (
            *(instead_rows(order, start, course.last_immersion_start_h) if order else ()),
            _stage_rows(course, life, start, decimals),
        ),
        tuple(notes),
        (
            with_order(
                course_chart(
                    course,
                    doubt,
                    "Moisture through the steep",
                    target_moisture,
                    Dots("reading", [reading[0][0]], [reading[0][1]]) if reading else None,
                ),
                order,
                target_moisture,
            ),
        ),
    )


def _corrected(course: Steep, reading: tuple[float, float], notes: list[Note]) -> tuple[Steep, Trust]:
    hours, moisture = reading
    try:
        fitted = fit(course, [Reading(hours, moisture)])
    except OutOfRange as limit:
        what = "hours" if limit.parameter == "hours" else "moisture"
        unit = "h" if what == "hours" else "%"
        raise AskAgain(
            "reading",
            f"the {what} must lie within this steep, {said_span(limit.low, limit.high)} {unit}. Change the reading or "
            "the stages.",
            1,
        ) from None
    if fitted.odd[0]:
        notes.append(
            Note(
                "notice",
                f"The reading of {plain_number(moisture)} % is far from what a typical barley shows at "
                f"{plain_number(hours)} h. Weigh again, and check the barley’s moisture and the stages.",
            )
        )
    return fitted.course, fitted.trust


def _times(
    course: Steep,
    order: Order | None,
    doubt: tuple[float, float],
    target: float,
    start: datetime | None,
    notes: list[Note],
) -> list[Found]:
    """The hours that lead to the target, with the doubt of the moisture turned into hours; past a stop none of them."""
    decimals = 0 if doubt[1] - doubt[0] > 3 else 1
    begins = course.last_immersion_start_h
    reached = course.time_to_moisture(target)
    if order is None:
        assert reached is not None
        notes.append(
            Note(
                "notice",
                f"The target is reached after {fixed(reached, decimals)} h, before the last immersion begins. "
                "Leave that immersion out, or end the one before it sooner.",
            )
        )
        return [_reached(reached, decimals)]
    if order.mark == "stop" or order.needed_h is None:
        notes[:0] = order_notes(order, target, None)
        return order_found(order, target, start, begins)
    needed = order.needed_h
    low, high = needed_range(course, *doubt, target)
    found = [
        Found(
            "last_immersion_needed_h",
            needed,
            f"begins at {plain_number(begins)} h with {fixed(course.drained_before_last_immersion, 1)} %, "
            f"is on {plain_number(target)} % after {fixed(needed, 1)} h; you gave "
            f"{plain_number(course.last_immersion_hours)} h",
            low,
            high,
            decimals,
        ),
        _reached(begins + needed if reached is None else reached, decimals),
    ]
    notes[:0] = order_notes(order, target, high, clock_after(start, begins + MOST_H) if start else None)
    if start is not None:
        found.append(Found("drain_at", clock_after(start, begins + needed), f"start + {fixed(begins + needed, 2)} h"))
    return found


def _reached(hours: float, decimals: int) -> Found:
    return Found("hours_to_target", hours, "first time the drained moisture is on target", decimals=decimals)


def _stage_rows(course: Steep, life: Life | None, start: datetime | None, decimals: int) -> Rows:
    rows = []
    begins = 0.0
    warm = {} if life is None else {2 * rest.number: rest.warmest_c.value for rest in life.warmest}
    for number_, (end, stage) in enumerate(zip(course.ends, course.steeping.stages, strict=True), 1):
        hours, temp = stage.hours, warm.get(number_, stage.water_temp_c)
        rows.append(
            (
                f"{number_} {'immersion' if end.wet else 'air rest'}",
                hours,
                temp,
                clock_after(start, begins) if start else None,
                clock_after(start, end.hours) if start else None,
                end.hours,
                end.drained,
                end.net,
            )
        )
        begins = end.hours
    return Rows("stages", rows, {"drained": decimals, "net": decimals})


_MODEL = (
    "diffusion into a sphere, exact in time; the rate fitted to eight published lots kept under water, warmth by "
    "48 kJ/mol; after air rests 1.5 times the rate, tuned to practice; rests as warm as the grain’s breath makes them"
)
_DOUBT = (
    "Without a reading some seven points either way, as lots differ; with one late in an immersion less than half of "
    "that. Air rests and the law of warmth have not been tested on measured schedules."
)

SHEET = Sheet(
    id="steep-timing",
    title="Steep timing",
    purpose="Where a schedule ends, and how long the last immersion must be.",
    questions=(
        barley_moisture._replace(example="12.5"),
        water_temp_c,
        corn_weight_g,
        stages,
        target_moisture._replace(example="44"),
        reading,
        start,
        rate_factor,
        moisture_offset,
        asked_suction,
        rest_air_c,
    ),
    answers=(
        ORDER,
        FIRST_WET,
        Answer(
            "last_immersion_needed_h",
            "Last immersion must be",
            "h",
            1,
            lead=True,
            rests_on=_MODEL,
            trust=_DOUBT,
            next="Weigh the basket at the drain before, and put the reading in: [[sheet:sample-basket|steep basket]].",
            worked="model",
            within=within.immersion_hours("target_moisture"),
        ),
        Answer("drain_at", "Drain at", kind="clock", lead=True, rests_on="start and hours", trust=_DOUBT),
        Answer(
            "moisture_end",
            "Moisture at the end as planned, drained",
            "%",
            1,
            lead=True,
            rests_on=_MODEL,
            trust=_DOUBT,
            worked="model",
            within=within.moisture("stages"),
        ),
        Answer(
            "hours_to_target",
            "Target is reached after",
            "h",
            1,
            rests_on=_MODEL,
            trust=_DOUBT,
            worked="model",
            within=within.steep_hours("stages"),
        ),
        Answer(
            "net_moisture_end",
            "At the end inside the corns, without the film",
            "%",
            1,
            rests_on="a film of 0.05 g on each gram of dry matter, weakly known",
            worked="model",
            within=within.moisture("stages"),
        ),
        Answer(
            "rate_factor_fitted",
            "Rate factor of this barley",
            "",
            2,
            rests_on="least squares held towards the typical barley",
            trust="One reading at 5 h says little; one at 20 h says a lot.",
            next="For the next steep of the same barley use several readings: [[sheet:steep-fit|steep fit]].",
            worked="model",
            within=within.rate_factor("reading"),
        ),
        *LIFE_ANSWERS,
    ),
    listings=(
        INSTEAD,
        Listing(
            "stages",
            "Stage by stage",
            (
                Heading("stage", "Stage", kind="text"),
                Heading("hours", "Length", "h", 1, within=within.steep_hours("stages")),
                Heading("stage_temp_c", "Water, or warmest grain", "C", 1, within=within.grain_temp("stages")),
                Heading("begins", "Begins", kind="clock"),
                Heading("ends", "Ends", kind="clock"),
                Heading("hours_at_end", "Since the start", "h", 1, within=within.steep_hours("stages")),
                Heading("drained", "Drained", "%", 1, within=within.moisture("stages")),
                Heading("net", "Inside", "%", 1, within=within.moisture("stages")),
            ),
        ),
    ),
    work=work,
    needs=("psychrolib",),
    sources=(
        "molina-cano-1995",
        "barley-kinetics-1983",
        "becker-1960",
        "yin-1996",
        "crank-1975",
        "haley-1987",
        "onofri-2018",
    ),
    story="A steep of the example maltings in spring water: invented numbers.",
)
