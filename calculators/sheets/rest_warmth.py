"""How warm the grain of an air rest gets by the hour, and which suction holds it."""

from __future__ import annotations

from math import ceil

from ..asking.declare import Answer, AskAgain, Found, Heading, Listing, Note, Outcome, Rows, Sheet
from ..asking.figures import carried, fixed, plain_number
from ..models.bed.humid_air import AIR_C, AIR_RH
from ..models.bounds import Bounds
from ..models.living import resting
from ..models.living.breathing import SOONEST_FACTOR
from ..models.living.by_day import SINCE_WETTING_H
from ..models.living.warmth import HOURS, REST_C, SUCTION, Rest, RestCourse, air_on, run_rest
from ..models.steep.hydration import WATER_TEMP_C
from ..models.steep.oxygen import SUCTION_M3_T_H
from ..models.weights.basket import FILM_DB, film_removed
from ..rules.limits.steeping import REST, REST_TEMP
from ..rules.rest import rest_verdict
from ..words import within
from ..words.cautions import PROCESS_AIR
from ..words.limits import at_edge, span
from ..words.questions.life import suction_m3_h_t as asked_suction
from ..words.questions.shared import barley_kg, barley_moisture, number
from ..words.rest import (
    ACCEPT_C,
    ORDERS,
    STOP_C,
    because,
    broke_off_note,
    cold_note,
    least_note,
    order_notes,
    suction_note,
    warm_air_note,
    warmth_chart,
)
from ..words.steep import GAS

_OTHERS = (0.0, SUCTION_M3_T_H, 25.0, 50.0, 100.0)
_MOST_ROWS = 8  # so that a card ends on one page
_SAME = 0.05  # m3/h t: what one decimal shows
_FAST = plain_number(round(SOONEST_FACTOR, 1))

drained_moisture = number(
    "drained_moisture",
    "Moisture when drained",
    "%",
    Bounds(25.0, 52.0),
    "By the drained basket.",
    example="41",
)
since_wetting_h = number(
    "since_wetting_h",
    "Hours since the first wetting",
    "h",
    SINCE_WETTING_H,
    "From the first water to this drain.",
    example="24",
)
start_c = number(
    "start_c", "Grain when drained", "C", REST_C, "The long probe, once the water has run off.", example="14"
)
rest_h = number(
    "rest_h",
    "Length of the rest",
    "h",
    Bounds(0.5, HOURS.high),
    f"As planned: {span(REST)} is accepted.",
    example="12",
)
suction_m3_h_t = asked_suction._replace(default="", example=asked_suction.default)
air_c = number("air_c", "Air drawn in", "C", AIR_C, "Where it meets the grain.", example="15")
air_rh = number("air_rh", "Its humidity", "%", AIR_RH, "Relative humidity of that air.", example="80")
hold_c = number(
    "hold_c",
    "Temperature to hold",
    "C",
    Bounds(5.0, STOP_C),
    "The suction below keeps the grain at or under it.",
    default=plain_number(ACCEPT_C),
    source="the limits of [[page:procedures/steeping|steeping]]",
)._replace(reason=f"Over {at_edge(REST_TEMP, 'stop_high')} is a stop in an air rest.", in_view=True)


def work(
    *,
    barley_kg: float,
    barley_moisture: float,
    drained_moisture: float,
    since_wetting_h: float,
    start_c: float,
    rest_h: float,
    suction_m3_h_t: float,
    air_c: float,
    air_rh: float,
    hold_c: float,
) -> Outcome:
    """Let the grain breathe and the air carry off what it can, hour by hour, and judge where it comes to."""
    if drained_moisture <= barley_moisture:
        raise AskAgain(
            "drained_moisture",
            f"{plain_number(drained_moisture)} % is no more than the barley held, {plain_number(barley_moisture)} %. "
            "Type what the basket shows after the immersion.",
        )
    net = film_removed(drained_moisture=drained_moisture)
    growth = resting.growth_since_wetting(
        hours=since_wetting_h,
        temp_c=min(max(start_c, WATER_TEMP_C.low), WATER_TEMP_C.high),
        barley_moisture=barley_moisture,
    )
    air = air_on(temp_c=air_c, relative_humidity=air_rh)
    rest = Rest(barley_moisture, net, start_c, rest_h, growth, air, suction_m3_h_t, FILM_DB)
    ran = resting.rested(rest)
    rises = [resting.fastest_rise_k_h(course) for course in ran]
    others = _others(rest)
    verdict = rest_verdict(
        hours=rest_h,
        warmest_c=ran.typical.warmest_c,
        rise_k_h=rises[0],
        warmest_fast_c=ran.fast.warmest_c,
        rise_fast_k_h=rises[1],
        coldest_c=ran.typical.coldest_c,
        coldest_slow_c=ran.slow.coldest_c,
        cools=(resting.cooler(others[-1][1], others[0][1]), resting.cooler(others[-1][2], others[0][2])),
    )
    end = resting.balance_at_end(rest, ran.typical)
    least = rest._replace(suction_m3_h_t=SUCTION_M3_T_H)
    at_least = run_rest(least)
    typical, fast = (None, None) if start_c > hold_c else resting.holding(limit_c=hold_c, rest=rest)
    found = [
        Found("order", verdict.word, because(verdict)),
        Found("end_c", ran.typical.end_c, _by(rest), ran.slow.end_c, ran.fast.end_c),
    ]
    soonest = ran.fast.hours_until(STOP_C)
    if soonest is not None:
        found.append(Found("soonest_stop_h", soonest, f"breathing {_FAST} times the law"))
    if fast is not None:
        found.append(
            Found(
                "hold_m3_h_t",
                fast,
                f"the least that keeps it at {plain_number(hold_c)} °C to the end; breathing {_FAST} times the law",
                typical,
                fast,
            )
        )
        found.append(_fan("fan_hold_m3_h", fast, barley_kg))
    found += [
        _fan("fan_m3_h", suction_m3_h_t, barley_kg),
        Found("rise_k_h", rises[0], "the fastest hour of the course", min(rises), max(rises)),
        Found(
            "rise_end_k_h",
            end.rise_k_h,
            f"({carried(end.made_kw)} made − {carried(end.carried_kw)} carried off − {carried(end.wall_kw)} by the "
            f"wall) × 3600 / {fixed(end.capacity_kj_k, 0)} kJ/K = {fixed(end.rise_k_h, 2)} K/h",
        ),
        Found("heat_kw_t", end.made_kw, "the law of breathing", ran.slow.heat_kw_t[-1], ran.fast.heat_kw_t[-1]),
    ]
    notes = [
        *order_notes(verdict),
        cold_note(verdict),
        broke_off_note(rest, ran),
        warm_air_note(verdict),
        suction_note(hold_c, start_c, typical, fast),
        GAS,
        PROCESS_AIR,
        least_note(resting.balance_at_end(least, at_least), run_rest(_fast(least)).heat_kw_t[-1]),
        Note("remark", _PROBES),
    ]
    still = run_rest(rest._replace(suction_m3_h_t=0.0))
    return Outcome(
        tuple(found),
        (Rows("hours", _hourly(ran)), Rows("suctions", _at_other_suctions(rest, others))),
        tuple(note for note in notes if note is not None),
        (warmth_chart(ran, still.temps_c, hold_c, rest_h),),
    )


def _fan(of: str, suction: float, barley_kg: float) -> Found:
    """A suction for each tonne as what the fan of the whole steep draws."""
    tonnes = barley_kg / 1000.0
    draws = suction * tonnes
    return Found(of, draws, f"{carried(suction)} m³/h t × {carried(tonnes)} t = {fixed(draws, 1)} m³/h")


def _fast(rest: Rest) -> Rest:
    return rest._replace(factor=rest.factor * SOONEST_FACTOR)


def _by(rest: Rest) -> str:
    return (
        f"{fixed(rest.net_moisture, 1)} % inside the corns, {fixed(rest.growth_h, 1)} hours of growth at the drain; "
        f"{plain_number(rest.hours)} h in steps of a tenth"
    )


def _hourly(ran: resting.Resting) -> list[list[str | float | None]]:
    rows: list[list[str | float | None]] = []
    last = ran.typical.hours[-1]
    step = max(1, ceil(last / _MOST_ROWS))
    for hour in sorted({float(n) for n in range(0, int(last) + 1, step)} | {last}):
        rows.append([hour, *(_at(course, hour) for course in (ran.typical, ran.fast))])
    return rows


def _at(course: RestCourse, hour: float) -> float | None:
    """Temperature at an hour; None past the end of a course that got too warm to follow."""
    if hour > course.hours[-1] + 1e-9:
        return None
    place = min(range(len(course.hours)), key=lambda n: abs(course.hours[n] - hour))
    return course.temps_c[place]


def _others(rest: Rest) -> list[tuple[float, RestCourse, RestCourse]]:
    """Suctions from none to much, this one among them: each with its course, typically and in a fast batch."""
    own = rest.suction_m3_h_t
    flows = [flow for flow in _OTHERS if abs(flow - own) >= _SAME]
    return resting.courses_at(rest, sorted([*flows, own]))


def _at_other_suctions(
    rest: Rest, others: list[tuple[float, RestCourse, RestCourse]]
) -> list[list[str | float | None]]:
    """The temperature at the end by suction; blank where the grain gets too warm to follow before."""
    rows: list[list[str | float | None]] = []
    for flow, typical, fast in others:
        ends = [ran.end_c if resting.ended(rest, ran) else None for ran in (typical, fast)]
        rows.append([flow, *ends, _name(flow, rest.suction_m3_h_t)])
    return rows


def _name(flow: float, own: float) -> str:
    names = ["the published least"] if abs(flow - SUCTION_M3_T_H) < _SAME else ["none"] if flow == 0.0 else []
    return ", and ".join([*names, *(["yours"] if flow == own else [])])


_PROBES = (
    "One body of grain at one temperature, with air drawn evenly. A corner that gets no air warms as with no suction, "
    "and the grain where the air leaves is warmer than the mean. Measure at three depths."
)
_LAW = "one law of breathing and the balance of humid air: [[page:reference/living-batch|the living batch]]"

_GRAIN = within.between(-5.0, 45.0, "Grain that is colder or hotter neither breathes nor lives.", "start_c", "air_c")
_HOURS = within.between(0.0, HOURS.high, "No rest is longer.", "rest_h")
_SUCTION = within.between(*SUCTION, "No more is tried.", "suction_m3_h_t")
_RISE = within.between(-60.0, 60.0, "No air cools or warms grain faster.", "suction_m3_h_t", "air_c")
_FAN = within.between(0.0, 10_000_000.0, "No fan draws more.", "barley_kg", "suction_m3_h_t")

SHEET = Sheet(
    id="rest-warmth",
    title="Warmth of a rest",
    purpose="How warm the grain gets hour by hour in an air rest, and which suction holds it.",
    questions=(
        barley_kg,
        barley_moisture,
        drained_moisture,
        since_wetting_h,
        start_c,
        rest_h,
        suction_m3_h_t,
        air_c,
        air_rh,
        hold_c,
    ),
    answers=(
        Answer(
            "order",
            "This rest",
            kind="verdict",
            words=ORDERS,
            lead=True,
            rests_on="the limits of [[page:procedures/steeping|steeping]], for the typical course and the fast one",
            trust="A reckoning for the grain. The probes decide.",
        ),
        Answer(
            "end_c",
            "Grain at the end of the rest",
            "C",
            1,
            lead=True,
            rests_on=_LAW,
            trust=f"The range is for breathing {_FAST} times as fast or as slow. Not tried on a measured rest: none "
            "was found published.",
            next="Measure at three depths every 2 hours. By the first two readings you see which course it is on.",
            worked="model",
            within=_GRAIN,
        ),
        Answer(
            "soonest_stop_h",
            f"Soonest: over {at_edge(REST_TEMP, 'stop_high')} after",
            "h",
            1,
            lead=True,
            rests_on=_LAW,
            trust="Hours of the grain, for a batch that breathes fast. About people it says nothing.",
            next="Have it wetted or cast by then, or the suction up.",
            worked="model",
            within=_HOURS,
        ),
        Answer(
            "hold_m3_h_t",
            "Suction that holds the temperature",
            "m3/h t",
            0,
            lead=True,
            rests_on=_LAW,
            trust="The figure is for a batch that breathes fast; the low end of the range is for a typical one. More "
            "dries the top.",
            next="Begin with it as soon as the water is off the screen.",
            worked="model",
            rounds_up=True,
            within=_SUCTION,
        ),
        Answer(
            "fan_hold_m3_h",
            "For the whole steep the fan draws then",
            "m3/h",
            0,
            lead=True,
            rests_on="the figure above by the tonnes of barley",
            rounds_up=True,
            within=_FAN,
        ),
        Answer(
            "fan_m3_h",
            "At your own suction it draws",
            "m3/h",
            0,
            rests_on="suction by the tonnes of barley",
            within=_FAN,
        ),
        Answer("rise_k_h", "Fastest rise in an hour", "K", 1, rests_on=_LAW, worked="model", within=_RISE),
        Answer(
            "rise_end_k_h",
            "Rise at the end, an hour",
            "K",
            2,
            rests_on="heat made less heat carried off, over what warms a tonne of barley with its water by a degree",
            within=_RISE,
        ),
        Answer(
            "heat_kw_t",
            "Heat the grain makes at the end",
            "kW/t",
            2,
            rests_on="the law that also gives its gas and the oxygen it takes: [[sheet:steep-oxygen|steep oxygen]]",
            worked="model",
            within=within.between(0.0, 60.0, "No barley breathes faster.", "start_c", "since_wetting_h"),
        ),
    ),
    listings=(
        Listing(
            "hours",
            "By the hour",
            (
                Heading(
                    "hour", "Since the drain", "h", 1, within=within.between(0.0, HOURS.high, "No rest is longer.")
                ),
                Heading("typical", "Typical", "C", 1, within=_GRAIN),
                Heading("fast", "If it breathes fast", "C", 1, within=_GRAIN),
            ),
        ),
        Listing(
            "suctions",
            "At the end, with other suctions",
            (
                Heading("suction", "Suction", "m3/h t", 1, within=_SUCTION),
                Heading("typical", "Typical", "C", 1, within=_GRAIN),
                Heading("fast", "If it breathes fast", "C", 1, within=_GRAIN),
                Heading("name", "", kind="text"),
            ),
        ),
    ),
    work=work,
    needs=("psychrolib",),
    sources=("haley-1987", "ashrae-psychrolib", "starch-heat", "cmbtc"),
    story="Second rest of batch example-01 in the example maltings: invented numbers.",
)
