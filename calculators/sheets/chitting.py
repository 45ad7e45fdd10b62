"""When so many corns will have chitted: from water, warmth, immersions, rests, the tests and the last count."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from math import exp, inf
from typing import Literal

from ..asking.declare import Answer, AskAgain, Found, Number, Option, Outcome, Sheet
from ..asking.figures import fixed, plain_number
from ..models.bounds import Bounds, OutOfRange
from ..models.counts.intervals import clopper_pearson
from ..models.living.chitting import Corns
from ..models.living.lot_plan_state import at_hour
from ..models.living.pace import CHIT_REASON, SHOWS_MOISTURE
from ..models.living.steep_life import GROWS_SD, Chits, Life, Span
from ..models.living.steep_run import warmed
from ..models.steep.course import Steep
from ..models.steep.doubt import BAND_SD, trust
from ..models.steep.first_uptake import first_uptake
from ..models.steep.hydration import STAGE_HOURS, WATER_TEMP_C, steep
from ..rules.cast import limit_of, wanted_for
from ..rules.limits.steeping import CHIT_LAST_DIP, REST
from ..rules.steep_life import Lives, warmth_passed
from ..rules.steep_order import Passed, held, of_course
from ..words import within
from ..words.chitting import (
    BESIDE,
    MOST_REST_H,
    STAGES,
    WATCHED_REST_H,
    Steeped,
    chart,
    late_note,
    notes_of,
    stage_rows,
)
from ..words.life import (
    CHIT_DIP,
    CHIT_END,
    CHIT_RESTS_ON,
    CHIT_TRUST,
    WARMEST,
    dip_h,
    hottest_of,
    life_of,
    lives_of,
    may_warm_note,
)
from ..words.limits import at_edge, taken
from ..words.order import stop_notes
from ..words.questions.life import cast_to, chitted, counted, grows_percent, rest_air_c, sensitive_percent
from ..words.questions.life import suction_m3_h_t as asked_suction
from ..words.questions.shared import (
    barley_moisture,
    corn_weight_g,
    moisture_offset,
    number,
    rate_factor,
    start,
    water_temp_c,
)
from ..words.questions.shared import stages as asked_stages
from ..words.steep import GAS, NO_AIR, OF_TWENTY, clock_after

_temp = number("stage_temp_c", "Temperature", "C", WATER_TEMP_C, reason=CHIT_REASON)._replace(optional=True)
stages = asked_stages._replace(
    columns=(number("hours", "Hours", "h", STAGE_HOURS, example="8"), _temp),
    hint="Immersion and air rest by turns, beginning with an immersion. A temperature only where it differs: of the "
    "water when wet, of the grain in a rest. A rest without one gets as warm as it breathes.",
)
wanted_percent = number(
    "wanted_percent",
    "Chitted wanted",
    "%",
    Bounds(5.0, 99.0),
    f"Blank: what the cast wants, {at_edge(limit_of('drum'), 'accept_low')} to a drum or a "
    f"box and {at_edge(limit_of('couch'), 'accept_low')} to a couch.",
)._replace(optional=True, in_view=True)
count_h = Number(
    "count_h",
    "Last count, hours since the start",
    "h",
    1,
    300,
    "When the corns were taken out.",
    example="30",
    optional=True,
    in_view=True,
)


def work(
    *,
    barley_moisture: float,
    water_temp_c: float,
    corn_weight_g: float,
    stages: tuple[tuple[float, float | None], ...],
    count_h: float | None,
    chitted: float | None,
    counted: float | None,
    wanted_percent: float | None,
    cast_to: Literal["couch", "drum"],
    start: datetime | None,
    grows_percent: float,
    sensitive_percent: float,
    suction_m3_h_t: float,
    rest_air_c: float | None,
    rate_factor: float,
    moisture_offset: float,
) -> Outcome:
    """Run water, warmth and the chit clock together, scale them by the count, and read the hours off."""
    if sensitive_percent > grows_percent:
        raise AskAgain(
            "sensitive_percent",
            f"{plain_number(sensitive_percent)} points is more than the {plain_number(grows_percent)} % that grow. "
            f"Type from 0 to {plain_number(grows_percent)}.",
        )
    course = steep(
        barley_moisture=barley_moisture,
        stages=[(hours, water_temp_c if temp is None else temp) for hours, temp in stages],
        corn_weight_g=corn_weight_g,
        rate_factor=rate_factor,
        first_uptake_db=first_uptake(barley_moisture=barley_moisture, moisture_offset=moisture_offset),
    )
    lives = lives_of(
        suction_m3_h_t=suction_m3_h_t,
        rest_air_c=rest_air_c,
        cast_to=cast_to,
        corns=Corns(grows=grows_percent / 100.0, sensitive=sensitive_percent / 100.0),
        held_c=tuple(temp if place % 2 else None for place, (_, temp) in enumerate(stages)),
    )
    course, states = warmed(course, lives.rests)
    if states[-1].net < SHOWS_MOISTURE:
        raise AskAgain(
            "stages",
            f"they leave {fixed(states[-1].net, 1)} % inside the corns, and under {plain_number(SHOWS_MOISTURE)} % "
            "none chits. Type longer immersions, or warmer water.",
        )
    before, rest_h = _living(course, lives, ())
    count = _count(count_h, chitted, counted, before)
    life = before if count is None else _living(course, lives, (count,))[0]
    if count is not None:
        _fits(count, life, before, grows_percent)
    steeped = Steeped(life, [stage.hours for stage in course.steeping.stages], rest_h, start)
    wanted = wanted_for(cast_to) if wanted_percent is None else wanted_percent
    aim = taken(wanted, limit_of(cast_to), "accept_low")
    found = _answers(steeped, wanted)
    passed = [*of_course(course), *warmth_passed(states), *_chits_stop(life, course)]
    notes = stop_notes(passed, "the stages as typed")
    word = next(one.value for one in found if one.id == "outlook")
    if word == "too-late":
        notes[:0] = stop_notes(held(REST, MOST_REST_H + 1.0), "a rest long enough for so many chits")
    notes += may_warm_note([life], [""])
    notes += late_note(life.hour_of(wanted / 100.0) if word in ("there", "rest-on") else None, aim)
    notes += notes_of(steeped, wanted, str(word), grows_percent, before, count)
    return Outcome(
        tuple(found),
        (stage_rows(life, course, start),),
        (*notes, NO_AIR, GAS),
        (chart(life, course, wanted, aim, count),),
    )


def _living(course: Steep, lives: Lives, counts: Sequence[Chits]) -> tuple[Life, float]:
    """The life of a steep, and how long a rest after it is, the longest in which the law holds [h]."""
    for hours in (MOST_REST_H, WATCHED_REST_H):
        try:
            return life_of(trust(course), lives, hours, counts=counts), hours
        except OutOfRange:
            continue
    try:
        return life_of(trust(course), lives, 0.0, counts=counts), 0.0
    except OutOfRange as limit:
        raise AskAgain(
            "stages",
            f"in stage {(limit.row or 0) + 1} the grain gets warmer than {plain_number(limit.high)} °C. {CHIT_REASON} "
            "Type a shorter rest, more suction, or the temperature that was read.",
            (limit.row or 0) + 1,
        ) from None


def _count(hour: float | None, chitted: float | None, counted: float | None, life: Life) -> Chits | None:
    """The last count, or None where there is none; asked again where it cannot be."""
    given = {"count_h": hour, "chitted": chitted, "counted": counted}
    missing = [name for name, value in given.items() if value is None]
    if len(missing) == 3:
        return None
    if missing:
        raise AskAgain(missing[0], "type hours, chitted and counted, or leave all three blank.")
    assert hour is not None and chitted is not None and counted is not None
    if chitted > counted:
        raise AskAgain(
            "chitted",
            f"{plain_number(chitted)} of {plain_number(counted)} cannot be chitted. Type from 0 to "
            f"{plain_number(counted)}.",
        )
    last_h = life.states[-1].hour
    if hour > last_h:
        raise AskAgain(
            "count_h",
            f"the stages and a rest after them end after {plain_number(round(last_h, 1))} h. Type less, or more "
            "stages.",
        )
    if chitted and at_hour(life.states, hour, lambda state: state.net) < SHOWS_MOISTURE:
        raise AskAgain(
            "count_h",
            f"after {plain_number(hour)} h the corns hold less than {plain_number(SHOWS_MOISTURE)} % by the stages, "
            "and drier ones do not chit. Check the hours and the stages, or type 0 chitted.",
        )
    return Chits(hour, int(chitted), int(counted))


def _fits(count: Chits, life: Life, before: Life, grows_percent: float) -> None:
    """Ask again where no lot shows so many: more than grow, or than a forecast moved by the count comes to.

    Fewer than any usual lot are no slip: they may be dormant. That is said beside the answer.
    """
    least = 100.0 * clopper_pearson(count.chitted, count.corns).low
    told = f"{count.chitted} of {count.corns} after {plain_number(count.hour)} h"
    if least > grows_percent + 100.0 * BAND_SD * GROWS_SD:
        raise AskAgain(
            "chitted",
            f"{told} is at least {fixed(least, 0)} % of the lot, and by the test only {plain_number(grows_percent)} % "
            "grow. Count again, or type what a test of this lot shows now.",
        )
    moved = life.share_at(count.hour)
    if least > 100.0 * moved.high + BESIDE:
        usual = before.share_at(count.hour)
        raise AskAgain(
            "chitted",
            f"{told} is more than any lot shows in these stages. By then {OF_TWENTY} lots show "
            f"{fixed(100.0 * usual.low, 0)} to {fixed(100.0 * usual.high, 0)} %, and the soonest there is "
            f"{fixed(100.0 * moved.value, 0)} %. Count again, or check the hours of the count and the stages.",
        )


def _answers(steeped: Steeped, wanted: float) -> list[Found]:
    """The word, the hour at which so many have chitted, and what there is at the edges of the stages."""
    life = steeped.life
    there = life.hour_of(wanted / 100.0)
    latest_h = life.states[-1].hour
    told = f"{plain_number(wanted)} % wanted"
    if wanted / 100.0 >= life.corns.grows:
        word, why = "never", f"{told}; {fixed(100.0 * life.corns.grows, 0)} % will ever chit"
    elif there is None or there.value > latest_h:
        word, why = "too-late", f"{told}; {fixed(100.0 * life.share_at(latest_h).value, 0)} % after the longest rest"
    elif there.value > steeped.end_h:
        word, why = "rest-on", f"{told}, {fixed(there.value - steeped.end_h, 1)} h after the stages as typed"
    else:
        word, why = "there", f"{told}, {fixed(steeped.end_h - there.value, 1)} h before the stages end"
    found = [Found("outlook", word, why)]
    if there is not None and word in ("there", "rest-on"):
        found += _hours(steeped, there, wanted)
    if len(steeped.lengths) > 2:
        found.append(_share("chit_dip", life.share_at(dip_h(steeped.lengths)), dip_h(steeped.lengths)))
    found.append(_share("chit_end", life.share_at(steeped.end_h), steeped.end_h))
    rest = hottest_of(life)
    if rest is not None:
        warm = rest.warmest_c
        where = f"rest {rest.number}, {plain_number(round(rest.hour, 1))} h after the start"
        found.append(Found("warmest_c", warm.value, f"{where}: {fixed(warm.value, 1)} °C", warm.low, warm.high))
    reach = exp(BAND_SD * life.middle_log_sd)
    middle = life.corns.middle_h
    clock = f"half of the corns that grow have chitted when the clock shows {fixed(middle, 1)} h"
    found.append(Found("chit_middle_h", middle, clock, middle / reach, middle * reach))
    return found


def _hours(steeped: Steeped, there: Span, wanted: float) -> list[Found]:
    value, low, high = there
    told = f"the chit clock brings {plain_number(wanted)} % after {fixed(value, 1)} h"
    late = high if high < inf else None
    found = [Found("chitted_after_h", value, told, None if late is None else low, late)]
    if steeped.start is not None:
        found.append(Found("chitted_at", clock_after(steeped.start, value), f"start + {fixed(value, 2)} h"))
    return found


def _share(name: str, span: Span, hour: float) -> Found:
    value, low, high = (100.0 * one for one in span)
    return Found(name, value, f"after {plain_number(round(hour, 1))} h: {fixed(value, 0)} %", low, high)


def _chits_stop(life: Life, course: Steep) -> list[Passed]:
    """Too few chits before the last dip, by what is known now."""
    lengths = [stage.hours for stage in course.steeping.stages]
    if len(lengths) < 3:
        return []
    return held(CHIT_LAST_DIP, 100.0 * life.share_at(dip_h(lengths)).value, (len(lengths) + 1) // 2)


SHEET = Sheet(
    id="chitting",
    title="Chitting",
    purpose="When so many corns will have chitted, from water, warmth, rests, tests and the last count.",
    questions=(
        barley_moisture._replace(example="12.5"),
        water_temp_c,
        corn_weight_g,
        stages,
        count_h,
        chitted._replace(example="42", optional=True, in_view=True),
        counted._replace(example="200", optional=True, in_view=True),
        wanted_percent,
        cast_to._replace(in_view=True),
        start,
        grows_percent,
        sensitive_percent,
        asked_suction,
        rest_air_c,
        rate_factor,
        moisture_offset,
    ),
    answers=(
        Answer(
            "outlook",
            "So many chitted",
            kind="verdict",
            lead=True,
            words=(
                Option("there", "They come within the stages as typed."),
                Option("rest-on", "They come in a rest after the stages as typed."),
                Option("too-late", "Stop: they do not come within the longest rest that the limits allow."),
                Option("never", "Stop: so many never chit in this lot."),
            ),
            rests_on="the forecast against the share wanted, and the limits of [[page:procedures/steeping|steeping]]",
            next="The count decides: [[sheet:cast-decision]].",
        ),
        Answer("chitted_at", "Chitted at", kind="clock", lead=True, rests_on="start and hours", trust=CHIT_TRUST),
        Answer(
            "chitted_after_h",
            "Chitted after",
            "h",
            0,
            lead=True,
            rests_on=CHIT_RESTS_ON,
            trust=CHIT_TRUST,
            next="Count then, 200 corns from three depths, and put the count in: [[sheet:cast-decision]].",
            worked="model",
            within=within.steep_hours("stages"),
        ),
        CHIT_DIP._replace(lead=True),
        CHIT_END._replace(label="Chitted at the end of the stages"),
        WARMEST,
        Answer(
            "chit_middle_h",
            "Hours of this lot’s middle corn",
            "h",
            1,
            rests_on="hours at 15 °C in air with water enough; the count moves it, held towards the typical lot",
            trust="Corns of one handful come from one place: a count weighs as half as many.",
            next="Keep it with the lot: its next steep chits alike.",
            worked="model",
            within=within.between(1.0, 500.0, "No malting barley is so much sooner or later.", "chitted", "count_h"),
        ),
    ),
    listings=(STAGES,),
    work=work,
    needs=("psychrolib",),
    sources=("onofri-2018", "narziss-1966", "wilhelmson-2006", "cmbtc", "haley-1987", "mccafferty-1999"),
    story="A batch of the example maltings with one count in its second rest: invented numbers.",
)
