"""What this barley's own readings say: its rate, and where the steep will end."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from ..asking.declare import (
    Answer,
    AskAgain,
    Choice,
    Dots,
    Either,
    Found,
    Heading,
    Listing,
    Note,
    Number,
    Outcome,
    Sheet,
    Table,
)
from ..asking.figures import fixed, plain_number
from ..models import bounds as limits
from ..models.living.chitting import Corns
from ..models.living.steep_run import warmed
from ..models.steep.course import Steep
from ..models.steep.fit import Reading, fit
from ..models.steep.hydration import STAGE_HOURS, steep
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
    basket_g,
    corn_weight_g,
    drained,
    dry_matter_lost,
    number,
    sample_g,
    start,
    target_moisture,
    water_temp_c,
)
from ..words.questions.shared import stages as asked_stages
from ..words.steep import GAS, NO_AIR, clock_after, course_chart, needed_range
from ..words.steep_fitted import KEEP, ONE, barley_found, end_found, kept_rows, misfit_notes, reading_rows
from ..words.steep_readings import begins_wet, check_readings, contradictions, weighed

_HOURS = Number("hours", "Hours since the start", "h", 0, 300, example="8")

stages = asked_stages._replace(
    columns=(
        # 0 is let through so that a rest first can be explained rather than called out of range.
        number("hours", "Hours", "h", limits.Bounds(0.0, STAGE_HOURS.high), example="8"),
        asked_stages.columns[1],
    )
)
readings = Table(
    "readings",
    "Readings",
    (_HOURS, Number("moisture", "Moisture", "%", 5, limits.STEEPED_MOISTURE.high, example="33")),
    max_rows=24,
    hint="Hours since the start and the moisture found, from the basket or the oven.",
)
weighings = Table(
    "weighings",
    "Weighings of the basket",
    (
        _HOURS,
        Number("gross_g", "Basket and grain", "g", 10, 80_000, example="216"),
    ),
    max_rows=24,
    hint="Hours since the start and what basket and grain weighed.",
    example="8 212; 24 228.5",
)
how = Choice(
    "drained",
    "How it was weighed",
    drained.options,
    "Water that clings to the corns weighs too.",
    default="drained",
    shared="batch",
)


def work(
    *,
    barley_moisture: float,
    water_temp_c: float,
    corn_weight_g: float,
    stages: tuple[tuple[float, float | None], ...],
    readings: tuple[tuple[float, float], ...] | None,
    weighings: tuple[tuple[float, float], ...] | None,
    basket_g: float | None,
    sample_g: float | None,
    target_moisture: float | None,
    start: datetime | None,
    drained: Literal["drained", "blotted"],
    dry_matter_lost: float,
    suction_m3_h_t: float,
    rest_air_c: float | None,
) -> Outcome:
    """Turn weighings into readings, check them, fit the barley, and read the end off its course."""
    begins_wet("stages", stages)
    if target_moisture is not None and target_moisture <= barley_moisture:
        raise AskAgain(
            "target_moisture",
            f"{plain_number(target_moisture)} % is not above the barley’s own {plain_number(barley_moisture)} %. "
            "Type a higher target.",
        )
    course = steep(
        barley_moisture=barley_moisture,
        stages=[(hours, water_temp_c if temp is None else temp) for hours, temp in stages],
        corn_weight_g=corn_weight_g,
    )
    lives = lives_of(
        suction_m3_h_t=suction_m3_h_t,
        rest_air_c=rest_air_c,
        cast_to="drum",
        corns=Corns(),
        held_c=tuple(temp if place % 2 else None for place, (_, temp) in enumerate(stages)),
    )
    course, _ = warmed(course, lives.rests)
    question, rows = "readings", readings or ()
    if weighings:
        assert basket_g is not None and sample_g is not None
        question = "weighings"
        rows = tuple(
            weighed(
                weighings,
                basket_g=basket_g,
                sample_g=sample_g,
                barley_moisture=barley_moisture,
                dry_matter_lost=dry_matter_lost,
            )
        )
    notes: list[Note] = []
    check_readings(question, rows, course, notes)
    taken = [Reading(hours, moisture, drained == "drained") for hours, moisture in rows]
    fitted = fit(course, taken)
    labels = [f"{fixed(r.moisture, 1)} % at {plain_number(r.hours)} h" for r in taken]
    alone = contradictions(taken, course, fitted, labels, notes)
    notes += misfit_notes(fitted)
    found = barley_found(fitted, taken)
    end = end_found(course, fitted)
    found.append(end)
    asked = [] if target_moisture is None else held(MOISTURE, target_moisture)
    asked += of_course(fitted.course, rests=False)
    asked += life_stops(fitted.course, lives)
    life = alive_or_none(fitted.trust, lives)
    order = None
    if target_moisture is not None and end.low is not None and end.high is not None:
        order = last_immersion(fitted.course, target_moisture, begun=True)
        order = alive_order(order, fitted.course, lives, begun=True)
    first, asked = chits_against(order, fitted.course, asked)
    stops = stop_notes(asked, "target and stages")
    if target_moisture is not None and end.low is not None and end.high is not None:
        found += _last_immersion(fitted.course, order, (end.low, end.high), target_moisture, start, stops)
    stops[:0] = first
    if life is None:
        stops.append(TOO_WARM)
    else:
        found += life_found(life, [hours for hours, _ in stages])
        stops += may_warm_note([life], [""])
        ends = fitted.course.ends[-1].drained
        if target_moisture is not None and order is not None and order.mark != "stop":
            ends = max(ends, target_moisture)
        stops += chits_notes(life, [hours for hours, _ in stages], ends)
    notes[:0] = stops
    if len(taken) == 1:
        notes.append(ONE)
    notes += [KEEP, NO_AIR, GAS]
    return Outcome(
        tuple(found),
        (
            *(instead_rows(order, start, fitted.course.last_immersion_start_h) if order else ()),
            reading_rows(taken, fitted, alone),
            kept_rows(fitted, len(taken)),
        ),
        tuple(notes),
        (
            with_order(
                course_chart(
                    fitted.course,
                    fitted.trust,
                    "Moisture by this barley’s own readings",
                    target_moisture,
                    Dots("readings", [r.hours for r in taken], [r.moisture for r in taken]),
                    before=course,
                ),
                order,
                target_moisture,
            ),
        ),
    )


def _last_immersion(
    course: Steep,
    order: Order | None,
    end: tuple[float, float],
    target: float,
    start: datetime | None,
    notes: list[Note],
) -> list[Found]:
    """How long the last immersion must be for the target, and when that is; ``end`` is the band at the end."""
    begins = course.last_immersion_start_h
    if order is None:
        text = (
            f"The target is reached before the last immersion begins at {plain_number(begins)} h: by these "
            "readings the barley is ahead. Leave that immersion out, or end the one before it sooner."
        )
        notes.append(Note("notice", text))
        return []
    if order.mark == "stop" or order.needed_h is None:
        notes[:0] = order_notes(order, target, None)
        return order_found(order, target, start, begins)
    needed = order.needed_h
    low, high = needed_range(course, *end, target)
    found = [
        Found(
            "last_immersion_needed_h",
            needed,
            f"begins at {plain_number(begins)} h with {fixed(course.drained_before_last_immersion, 1)} %, is on "
            f"{plain_number(target)} % after {fixed(needed, 1)} h",
            low,
            high,
        )
    ]
    notes[:0] = order_notes(order, target, high, clock_after(start, begins + MOST_H) if start else None)
    if start is not None:
        found.append(Found("drain_at", clock_after(start, begins + needed), f"start + {fixed(begins + needed, 2)} h"))
    return found


_MODEL = (
    "diffusion into a sphere, exact in time; eight unknowns of the lot and its basket, each held towards the typical "
    "barley; rests as warm as the grain’s breath makes them"
)

SHEET = Sheet(
    id="steep-fit",
    title="Steep fit",
    purpose="What your own weighings say of this barley, and where its steep will end.",
    questions=(
        weighings,
        basket_g,
        sample_g,
        readings,
        barley_moisture._replace(example="12.5"),
        water_temp_c,
        corn_weight_g,
        stages,
        target_moisture._replace(example="44", optional=True, in_view=True),
        start,
        how,
        dry_matter_lost,
        asked_suction,
        rest_air_c,
    ),
    either=(Either((("weighings", "basket_g", "sample_g"), ("readings",))),),
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
            trust="The range is the doubt that is left after these readings.",
            next="Weigh again an hour before, and put that reading in too.",
            worked="model",
            within=within.immersion_hours("target_moisture"),
        ),
        Answer("drain_at", "Drain at", kind="clock", lead=True, rests_on="start and hours"),
        Answer(
            "moisture_end",
            "Moisture at the end as planned, drained",
            "%",
            1,
            lead=True,
            rests_on=_MODEL,
            trust="On eight published lots, readings at 10 and 20 h gave 35 h within 0.7 points. Air rests have not "
            "been tested on measured schedules.",
            worked="model",
            within=within.moisture("stages"),
        ),
        Answer(
            "rate_factor",
            "Rate factor of this barley",
            "",
            2,
            lead=True,
            rests_on="least squares, held towards 1, the typical barley; lots spread by about a quarter",
            trust="One reading at 5 h says little. Two, late in two immersions, say a lot.",
            next="It goes into [[sheet:steep-plan|the plan]] for the next steep of the same barley.",
            worked="model",
            gives="rate_factor",
            within=within.rate_factor("weighings", "readings"),
        ),
        Answer(
            "moisture_offset",
            "Taken up at once",
            "points",
            1,
            rests_on="the first uptake of husk and coats beyond a typical barley, as moisture at the start",
            trust="Also takes in a wrong barley moisture, and a basket weighed wetter or drier than it hangs.",
            next="Goes with the rate factor.",
            worked="model",
            gives="moisture_offset",
            within=within.offset("weighings", "readings"),
        ),
        Answer(
            "fit_error_points",
            "Readings differ from the fit by",
            "points",
            2,
            rests_on="root mean square of reading less forecast",
            trust="Under 0.5 is usual. It says how well the curve passes, not how right the end is.",
            within=within.points("weighings", "readings"),
        ),
        *LIFE_ANSWERS,
    ),
    listings=(
        INSTEAD,
        Listing(
            "readings",
            "Reading by reading",
            (
                Heading("hours", "Since the start", "h", 2, within=within.steep_hours("weighings", "readings")),
                Heading("moisture", "Read", "%", 1, within=within.moisture("weighings", "readings")),
                Heading("fitted", "Fitted", "%", 1, within=within.moisture("stages")),
                Heading("miss", "Difference", "points", 1, within=within.points("weighings", "readings")),
                Heading("against", "Against the others", kind="text"),
            ),
        ),
        Listing(
            "fit",
            "To keep with the readings",
            (
                Heading("model", "Steep model", kind="text"),
                Heading("count", "Readings", within=within.count(1000.0)),
                Heading("rate_factor", "Rate factor", "", 3, within=within.rate_factor("weighings", "readings")),
                Heading(
                    "moisture_offset", "Taken up at once", "points", 2, within=within.offset("weighings", "readings")
                ),
                Heading("error_points", "Error", "points", 2, within=within.points("weighings", "readings")),
            ),
        ),
    ),
    work=work,
    needs=("psychrolib",),
    sources=("molina-cano-1995", "barley-kinetics-1983", "yin-1996", "crank-1975", "haley-1987", "onofri-2018"),
    story="Batch example-02 of the example maltings, two weighings into the steep: invented numbers.",
)
