"""How fast grain warms when its air stands still: a warning about grain, and about nothing else."""

from __future__ import annotations

from math import isfinite
from typing import NamedTuple

from ..asking.declare import (
    Answer,
    AskAgain,
    Axis,
    Band,
    Belongs,
    Chart,
    Choice,
    Found,
    Heading,
    Line,
    Listing,
    Mark,
    Note,
    Option,
    Outcome,
    Refusal,
    Rows,
    Sheet,
)
from ..asking.figures import carried, fixed, plain_number
from ..models.bed.humid_air import AIR_C
from ..models.bounds import BED_MOISTURE
from ..models.gas.shut_vessel import GIVEN_DOUBT, GROWING_KW_T, soonest_of_given
from ..models.living.bed_days import BED_PERCENT, HIGHEST_H, middle_of
from ..models.living.breathing import DOUBT_FACTOR, GROWTH_H, GUARDED_FACTOR, SOONEST_FACTOR, breathing
from ..models.living.by_day import AHEAD_IN_STEEP_DAYS, DRY_KG_T, soonest_breath
from ..models.living.fan_stopped import hours_to, stopped_courses
from ..models.living.pace import CHIT_FAILED_C, growth_after_cast
from ..models.living.warmth import REST_C, RestCourse, heat_capacity
from ..rules.limit import Limit, edge
from ..rules.limits import drum_germination, floor_germination, steeping
from ..rules.lines import passed
from ..words import within
from ..words.cautions import FAN_STOPPED, FLOOR_ROOM, NO_ENTRY, OXYGEN_METER
from ..words.gas import beside_the_law
from ..words.limits import at_edge, limit_notes
from ..words.questions.shared import barley_moisture, germination_day, grain_temp_c, number

TOLD_H = 8.0
"""Hours beyond which no figure is given [h]: a long time would soothe, and no bed was measured."""

LIMITS: dict[str, Limit] = {
    "drum": drum_germination.BED,
    "box": drum_germination.BED,
    "floor": floor_germination.BOTTOM,
    "rest": steeping.REST_TEMP,
}

place = Choice(
    "place",
    "Where the grain is",
    (
        Option("drum", "In a drum"),
        Option("box", "In a box"),
        Option("floor", "On a floor, where no air moves"),
        Option("rest", "In the steep, in an air rest"),
    ),
    "A rest counts as its last: the grain breathes most then.",
    example="drum",
)
room_c = number(
    "room_c",
    "Air round the vessel",
    "C",
    AIR_C,
    "What cools a shell. Blank: nothing cools. The soonest case never counts on it.",
)._replace(optional=True)
respiration_kw_t = number(
    "respiration_kw_t",
    "Heat of breathing, if worked out",
    "kW/t",
    GROWING_KW_T,
    f"A tonne of barley. Blank: by the one law; the soonest case takes {plain_number(GUARDED_FACTOR)} times that.",
)._replace(optional=True, in_view=True)
bed_moisture = number(
    "bed_moisture",
    "Moisture of the grain",
    "%",
    BED_MOISTURE,
    "From the last sample.",
    default=plain_number(BED_PERCENT),
)

GAS_FIRST = Note(
    "danger",
    "The gas comes first. Where the air stands, breathing turns it deadly long before the grain is too warm: "
    "[[sheet:gas-build-up]]. Nobody goes near to save a batch. These figures are about grain. They are never time for "
    "people.",
)
_TOO_SLOW = (
    "No figure is given. By this sum the grain would come to its stop so late that the number would soothe, and no bed "
    "was ever measured. The gas comes first all the same: keep everybody away, and tell the shift lead."
)
_GRAIN = Note(
    "notice",
    "For the grain, once those in charge have given it air again: more air, and cooler, in steps. Turn it with its air "
    "on. Smell a sample outside, and count. Grain that was hot and short of air may smell sour or fruity, and may stop "
    "growing. Write how long it stood and how warm it was.",
)


def _people(where: str) -> list[Note]:
    notes = [FAN_STOPPED, GAS_FIRST, NO_ENTRY, OXYGEN_METER]
    if where == "floor":
        notes.insert(1, Note("warning", FLOOR_ROOM.format(" With its air standing still it gathers faster.")))
    return notes


def work(
    *,
    place: str,
    barley_moisture: float,
    day: float,
    grain_temp_c: float,
    bed_moisture: float,
    room_c: float | None,
    respiration_kw_t: float | None,
) -> Outcome | Refusal:
    """Let grain warm by its own breath with nothing to cool it; the soonest case leads."""
    limit = LIMITS[place]
    stop = edge(limit.stop_high)
    since = 0 if place == "rest" else int(day)
    breath = _breath(since, grain_temp_c, barley_moisture, bed_moisture, respiration_kw_t)
    courses = None
    if grain_temp_c < REST_C.high:
        courses = stopped_courses(
            place=place,
            barley_moisture=barley_moisture,
            net_moisture=bed_moisture,
            temp_c=grain_temp_c,
            growth_h=breath.growth_h,
            room_c=grain_temp_c if room_c is None else room_c,
            factor=breath.factor,
            soonest_growth_h=breath.soonest_growth_h,
            soonest_factor=breath.soonest_factor,
            hours=TOLD_H,
        )
    kw, usual_kw = breath.soonest_kw_t, breath.usual_kw_t
    beside: tuple[Note, ...] = ()
    if respiration_kw_t is not None:
        beside = beside_the_law(given_kw_t=respiration_kw_t, law_kw_t=breath.law_kw_t, soonest_kw_t=kw)
    by_own = respiration_kw_t is not None and GIVEN_DOUBT * respiration_kw_t >= kw
    soonest_h = 0.0 if courses is None or grain_temp_c > stop else hours_to(courses[1], stop)
    if soonest_h > TOLD_H:
        return Refusal(_TOO_SLOW, (*_people(place), *beside, _GRAIN))
    dry = 1000.0 - 10.0 * barley_moisture
    water = dry * bed_moisture / (100.0 - bed_moisture)
    capacity = float(heat_capacity(dry, water))
    rate = kw * 3600.0 / capacity
    found = (
        Found(
            "k_per_h",
            rate,
            f"{carried(kw)} kW a tonne × 3600 / {carried(capacity)} kJ/K = {fixed(rate, 1)} K",
            rate * usual_kw / kw,
            rate,
        ),
        Found(
            "hours_to_stop",
            soonest_h,
            f"the grain is at {plain_number(grain_temp_c)} °C, and the stop is over {at_edge(limit, 'stop_high')}"
            if soonest_h == 0.0
            else f"from {plain_number(grain_temp_c)} to {plain_number(stop)} °C, faster as it warms, and not cooled",
            worked="given" if soonest_h == 0.0 else "model",
        ),
        Found(
            "usual_kw_t",
            usual_kw,
            f"by the one law at {plain_number(grain_temp_c)} °C" if respiration_kw_t is None else "your own figure",
            worked="model" if respiration_kw_t is None else "given",
        ),
        Found(
            "heat_kw_t",
            kw,
            f"{carried(usual_kw)} kW a tonne × {carried(GIVEN_DOUBT)} = {fixed(kw, 2)} kW/t"
            if by_own
            else "the far end of the law, for grain further on than is said",
            worked="sum" if by_own else "model",
        ),
    )
    wet = None if place == "rest" else passed(floor_germination.MOISTURE, bed_moisture)
    stops = [line for line in (passed(limit, grain_temp_c, high_only=True), wet) if line and line.mark == "stop"]
    notes = (*_people(place), *limit_notes(stops, act=False), *beside, _GRAIN)
    chart = (_chart(courses, limit),) if courses else ()
    return Outcome(found, (Rows("limits", _rows(limit, grain_temp_c, courses)),), notes, chart)


class _Breath(NamedTuple):
    """Heat by the law, of the case, and in the soonest case [kW/t]; and what makes the courses of both."""

    law_kw_t: float
    usual_kw_t: float
    soonest_kw_t: float
    growth_h: float
    soonest_growth_h: float
    factor: float
    soonest_factor: float


def _breath(day: int, temp_c: float, barley_moisture: float, moisture: float, own: float | None) -> _Breath:
    """As the sheets about gas reckon: the law on that day, and its far end for grain further on than is said.

    A heat of one's own takes the place of the law on that day. It makes the soonest case sooner, and never later.
    """
    dry = (100.0 - barley_moisture) * 10.0 / DRY_KG_T

    def law(growth_h: float) -> float:
        return breathing(
            barley_kg=1000.0,
            barley_moisture=barley_moisture,
            net_moisture=moisture,
            temp_c=temp_c,
            growth_h=growth_h,
        ).heat_kw

    grown = min(growth_after_cast(day=middle_of(day), temp_c=temp_c), GROWTH_H.high)
    usual = law(grown)
    soonest = dry * soonest_breath(day=float(day), temp_c=temp_c).heat_kw
    further = growth_after_cast(day=1.0 + AHEAD_IN_STEEP_DAYS, temp_c=temp_c) if day < 1 else HIGHEST_H
    by_law = _Breath(usual, usual, soonest, grown, further, 1.0, soonest / law(further))
    if own is None:
        return by_law
    most = DOUBT_FACTOR.high * usual / GIVEN_DOUBT
    if own > most:
        raise AskAgain(
            "respiration_kw_t",
            f"{plain_number(own)} kW a tonne is far over what grain makes on that day at {plain_number(temp_c)} °C. "
            f"Type at most {fixed(most, 1)}, or nothing.",
        )
    with_own = by_law._replace(usual_kw_t=own, factor=max(own / usual, DOUBT_FACTOR.low))
    most = soonest_of_given(given_kw_t=own, soonest_kw_t=soonest)
    if most <= soonest:
        return with_own
    rising = min(grown, further)
    return with_own._replace(soonest_kw_t=most, soonest_growth_h=rising, soonest_factor=most / law(rising))


def _rows(limit: Limit, now_c: float, courses: tuple[RestCourse, RestCourse] | None) -> list[list[str | float | None]]:
    """Each temperature that means something, with the hours of both cases; none that would soothe."""
    rows: list[list[str | float | None]] = []
    for name, at in (
        ("most that is accepted", edge(limit.accept_high)),
        ("the stop", edge(limit.stop_high)),
        ("an old rule: no heap beyond it, roots run wild", floor_germination.NEVER_C),
        ("seeds failed here, four of five in one series", CHIT_FAILED_C),
    ):
        if now_c > at or courses is None:
            rows.append([name, at, 0.0 if now_c > at else None, 0.0 if now_c > at else None])
            continue
        hours = [hours_to(course, at) for course in (courses[1], courses[0])]
        rows.append([name, at, *(each if isfinite(each) and each <= TOLD_H else None for each in hours)])
    return rows


def _chart(courses: tuple[RestCourse, RestCourse], limit: Limit) -> Chart:
    usual, soonest = courses
    count = min(len(usual.hours), len(soonest.hours))
    hours = tuple(usual.hours[:count])
    slow, fast = tuple(usual.temps_c[:count]), tuple(soonest.temps_c[:count])
    stop = edge(limit.stop_high)
    return Chart(
        "course",
        "Grain with nothing to cool it",
        f"The soonest case goes from {fixed(fast[0], 1)} to {fixed(fast[-1], 1)} °C, as far as it is followed. "
        "These are hours of grain. They are never time for people.",
        Axis("Time since its air stood still", "h", 0.0, 1.03 * hours[-1], 1),
        Axis("Grain", "C", min(fast[0], stop) - 2.0, max(fast[-1], stop) + 2.0, 1),
        lines=(Line("soonest case", hours, fast), Line("by the law", hours, slow)),
        bands=(Band("doubt", hours, slow, fast),),
        marks=(Mark(f"stop, {plain_number(stop)} °C", stop),),
    )


_LAW = "the one law of breathing, by day, warmth and moisture; nothing cooling the grain"

_MORE = (
    f"{plain_number(GUARDED_FACTOR)} times the law for grain further on than is said, or {fixed(GIVEN_DOUBT, 2)} times "
    "a heat that was worked out if that is more, as all sheets about gas reckon"
)
_KW_T = within.between(0.0, 40.0, "No grain makes more.", "grain_temp_c", "respiration_kw_t")
_HOURS = within.between(0.0, TOLD_H, "A longer time would soothe.", "grain_temp_c")
_STOPS_C = within.between(0.0, 60.0, "No grain that grows is warmer or colder.")

SHEET = Sheet(
    id="fan-stopped",
    title="Grain with its fan stopped",
    purpose="How fast grain warms when its air stands still. It warns about the grain, and about nothing else.",
    questions=(
        place,
        barley_moisture,
        germination_day._replace(
            low=0.0, high=10.0, hint="1 is the day of the cast, 2 the next. 0 is grain in a rest.", example="3"
        ),
        grain_temp_c._replace(hint="The warmest, by the last reading from outside.", example="16.5"),
        bed_moisture,
        room_c,
        respiration_kw_t,
    ),
    answers=(
        Answer(
            "k_per_h",
            "Soonest: the grain warms in an hour by",
            "K",
            1,
            lead=True,
            rests_on=f"{_LAW}; {_MORE}",
            trust="So it begins; it goes faster as it warms. Never measured on a bed. Deep in it is warmer.",
            next="People first: everybody away, and tell the shift lead. Do nothing for the grain before that.",
            within=within.between(0.0, 50.0, "No grain warms faster.", "grain_temp_c", "respiration_kw_t"),
        ),
        Answer(
            "hours_to_stop",
            "Soonest: the grain is at its stop in",
            "h",
            1,
            lead=True,
            rests_on=_LAW,
            trust="About grain. Never time for people: the gas is deadly long before.",
            next="Tell the shift lead this figure: it says how urgent the site’s own plan is.",
            worked="model",
            within=_HOURS,
        ),
        Answer(
            "usual_kw_t",
            "Heat of breathing, by the law or your own",
            "kW/t",
            2,
            rests_on=_LAW,
            worked="model",
            within=_KW_T,
        ),
        Answer(
            "heat_kw_t",
            "Heat of breathing, soonest case",
            "kW/t",
            2,
            rests_on=_LAW,
            trust=f"Reckoned: {_MORE}. The law holds whole batches to a factor of {fixed(SOONEST_FACTOR, 1)}; an hour "
            "may stand above it.",
            within=_KW_T,
        ),
    ),
    listings=(
        Listing(
            "limits",
            "When the grain passes what is known",
            (
                Heading("limit", "Limit of the grain", kind="text"),
                Heading("temp", "Grain", "C", 1, within=_STOPS_C),
                Heading("soonest", "Soonest", "h", 1, within=_HOURS),
                Heading("hours", "By the law", "h", 1, within=_HOURS),
            ),
        ),
    ),
    work=work,
    belongs=(Belongs("factor", ("respiration_kw_t", "grain_temp_c"), "the heat typed, as a multiple of the law’s,"),),
    guarded=True,
    needs=("psychrolib",),
    sources=("onofri-2018", "balling", "haley-1987", "niosh-co2"),
    story="The drum of the example maltings on day 3, its fan stopped: invented numbers.",
)
