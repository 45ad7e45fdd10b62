"""Warmth and chit of a steep in words and tables, and why a plan is not offered."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from ..asking.declare import Answer, Found, Heading, Listing, Note, Rows, Value
from ..asking.figures import fixed, plain_number
from ..models.bounds import OutOfRange
from ..models.living.chitting import Corns
from ..models.living.pace import CHIT_C, CHIT_FAILED_C
from ..models.living.steep_life import Chits, Chitting, Life, RestWarmth, Span
from ..models.living.steep_run import Rests, resting_on
from ..models.steep.choice import Choice, Judged
from ..models.steep.doubt import Trust
from ..models.steep.wishes import Draft
from ..rules.cast import To, limit_of
from ..rules.limit import SHIFT_LEAD, edge
from ..rules.limits.casting import CHIT, CHIT_COUCH, MOISTURE
from ..rules.limits.steeping import CHIT_LAST_DIP, REST, REST_RISE, REST_TEMP
from ..rules.lines import passed
from ..rules.steep_life import REST_ON_H, Lives, Remedy, corns_of, judged, remedies
from . import within
from .limits import at_edge, said
from .order import hours_words, passed_sentences
from .steep import OF_TWENTY, clock_after

OWN_LOG_SD = 0.15
"""Doubt of the middle corn where the house says how long its barley takes to chit, logarithm: trade judgement."""

CHIT_RESTS_ON = (
    "a spread of corns over a clock that runs by moisture, warmth and air ([[page:reference/living-batch|one living "
    "batch]]); its middle corn is tuned to practice"
)
CHIT_TRUST = (
    "A lot may chit in half the hours or in nearly twice as many. A count of its own chits narrows that: "
    "[[sheet:chitting]]."
)
WARM_RESTS_ON = "breathing against suction, evaporation and the vessel’s wall, as one body of grain"
WARM_TRUST = (
    "Breathing is known to a factor of two. A real bed is warmer where the air leaves. Measure at three depths every "
    "two hours."
)

CHIT_DIP = Answer(
    "chit_dip",
    "Chitted before the last dip",
    "%",
    0,
    rests_on=CHIT_RESTS_ON,
    trust=CHIT_TRUST,
    next=f"Count before the water goes on. Under {at_edge(CHIT_LAST_DIP, 'stop_low')} no water goes on.",
    worked="model",
    within=within.part("water_temp_c"),
)
CHIT_END = Answer(
    "chit_end",
    "Chitted at the last drain",
    "%",
    0,
    rests_on=CHIT_RESTS_ON,
    trust=CHIT_TRUST,
    worked="model",
    within=within.part("water_temp_c"),
)
WARMEST = Answer(
    "warmest_c",
    "Warmest hour of a rest",
    "C",
    1,
    rests_on=WARM_RESTS_ON,
    trust=WARM_TRUST,
    next=f"The stop is over {at_edge(REST_TEMP, 'stop_high')}. Which suction holds it: [[sheet:rest-warmth]].",
    worked="model",
    within=within.grain_temp("water_temp_c"),
)
LIFE_ANSWERS = (CHIT_DIP, CHIT_END, WARMEST)


def lives_of(
    *,
    suction_m3_h_t: float,
    rest_air_c: float | None,
    cast_to: To,
    corns: Corns,
    chit_h: float | None = None,
    held_c: tuple[float | None, ...] = (),
) -> Lives:
    """What decides about a steep beside its water, from what was typed."""
    return Lives(Rests(suction_m3_h_t, rest_air_c, held_c=held_c), corns, cast_to, chit_h)


def life_of(
    doubt: Trust,
    lives: Lives,
    on_h: float = REST_ON_H,
    toward: list[float] | None = None,
    counts: Sequence[Chits] = (),
) -> Life:
    """The life of a steep and of a rest that follows it, its doubt that of its water and of its own."""
    own = doubt.here
    course, rests = resting_on(own, lives.rests, on_h) if on_h > 0.0 else (own, lives.rests)
    life = Life(doubt.over(course.steeping.stages), rests, Chitting(lives.corns), counts, toward, own.hours)
    if lives.chit_h is not None:
        life.say(Chitting(corns_of(life.states, lives), OWN_LOG_SD))
    return life


def _chits_found(name: str, span: Span, told: str) -> Found:
    value, low, high = (100.0 * share for share in span)
    return Found(name, value, f"{told}: {fixed(value, 0)} %", low, high)


def dip_h(lengths: Sequence[float]) -> float:
    """The hour at which the last immersion begins."""
    return sum(lengths[: (len(lengths) - 1) // 2 * 2])


def hottest_of(life: Life) -> RestWarmth | None:
    """The rest that gets warmest by the typical barley; None where there is no rest."""
    return max(life.warmest, key=lambda rest: rest.warmest_c.value, default=None)


def life_found(life: Life, lengths: Sequence[float]) -> list[Found]:
    """Chits before the last dip and at the last drain, and the warmest hour, each with its doubt."""
    found = []
    clock = "by the chit clock, hours at 15 °C in air with water enough"
    last_h = sum(lengths[: (len(lengths) - 1) // 2 * 2 + 1])
    if len(lengths) > 2:
        found.append(_chits_found("chit_dip", life.share_at(dip_h(lengths)), clock))
    found.append(_chits_found("chit_end", life.share_at(last_h), clock))
    rest = hottest_of(life)
    if rest is not None and len(lengths) > 1:
        warm = rest.warmest_c
        told = f"rest {rest.number}, {plain_number(round(rest.hour, 1))} h after the start: {fixed(warm.value, 1)} °C"
        found.append(Found("warmest_c", warm.value, told, warm.low, warm.high))
    return found


def chits_notes(life: Life, lengths: Sequence[float], moisture: float) -> list[Note]:
    """What of the chits is watched before the last dip, and what a cast at the end of the stages would want.

    Parameters
    ----------
    life : Life
        Of the steep.
    lengths : sequence of float
        Hours of its stages as typed [h].
    moisture : float
        Drained, on which it ends or which is its target: of grain too dry to cast the cast is not spoken of [%].
    """
    notes = []
    if len(lengths) > 2:
        dip = passed(CHIT_LAST_DIP, 100.0 * life.share_at(dip_h(lengths)).value)
        if dip and dip.mark == "watch":
            no_water = f"Under {at_edge(CHIT_LAST_DIP, 'stop_low')} no water goes on."
            notes.append(Note("remark", f"{said(dip)} By the typical barley: count before the last dip. {no_water}"))
    share = 100.0 * life.share_at(sum(lengths)).value
    cast = [line for line in (passed(CHIT, share), passed(CHIT_COUCH, share)) if line]
    if not cast or moisture < edge(MOISTURE.stop_low):
        return notes
    at = "last drain" if len(lengths) % 2 else "end of the last rest"
    stop = any(line.mark == "stop" for line in cast)
    notes.append(
        Note(
            "notice" if stop else "remark",
            f"{'Too few' if stop else 'Few'} chits for a cast at the {at}, by the typical barley. "
            f"{' '.join(map(said, cast))} The rest goes on till they are there: [[sheet:chitting]] says when. One of "
            f"more than {at_edge(REST, 'accept_high')} is watched, and {at_edge(REST, 'stop_high')} is the stop.",
        )
    )
    return notes


TOO_WARM = Note(
    "notice",
    f"Past a stop: a rest gets warmer than {plain_number(CHIT_C.high)} °C by the typical barley. No chits are "
    f"foretold: in a published series four corns of five failed at {plain_number(CHIT_FAILED_C)} °C.",
)


def alive_or_none(doubt: Trust, lives: Lives, on_h: float = 0.0) -> Life | None:
    """The life of a steep, and of a rest after it; None where its grain gets too warm for the law of chitting."""
    try:
        return life_of(doubt, lives, on_h)
    except OutOfRange:
        return None


def may_warm_note(lives: Sequence[Life], named: Sequence[str]) -> list[Note]:
    """Which rests pass the stop of warmth at the far end of the doubt, though not by the typical barley; or nothing."""
    stop = edge(REST_TEMP.stop_high)
    told = [
        f"{name}rest {rest.number} may get to {fixed(rest.warmest_c.high, 1)} °C (typical "
        f"{fixed(rest.warmest_c.value, 1)} °C)"
        for life, name in zip(lives, named, strict=True)
        if (rest := max(life.warmest, key=lambda one: one.warmest_c.high, default=None)) is not None
        and rest.warmest_c.value <= stop < rest.warmest_c.high
    ]
    if not told:
        return []
    return [
        Note(
            "notice",
            f"A rest may pass a stop where this barley breathes fast: {'; '.join(told)}. The stop is over "
            f"{at_edge(REST_TEMP, 'stop_high')}. Measure every two hours. {REST_TEMP.act}",
        )
    ]


CHITS = Listing(
    "chits",
    "Chit, by the typical barley and its doubt",
    (
        Heading("plan", "Plan", within=within.count(3.0)),
        Heading("dip", "Before the last dip", "%", 0, within=within.part("water_temp_c")),
        Heading("dip_low", "from", "%", 0, within=within.part("water_temp_c")),
        Heading("dip_high", "to", "%", 0, within=within.part("water_temp_c")),
        Heading("end", "At the last drain", "%", 0, within=within.part("water_temp_c")),
        Heading("end_low", "from", "%", 0, within=within.part("water_temp_c")),
        Heading("end_high", "to", "%", 0, within=within.part("water_temp_c")),
        Heading("there", "Chits for the cast from", kind="clock"),
        Heading("soonest", "soonest", kind="clock"),
        Heading("cast", "At the plan’s cast", "%", 0, within=within.part("water_temp_c")),
    ),
)
RESTS = Listing(
    "rests",
    "Warmth of the rests, by the typical barley and its doubt",
    (
        Heading("plan", "Plan", within=within.count(3.0)),
        Heading("rest", "Rest", within=within.count(10.0)),
        Heading("warmest_at", "Warmest at", kind="clock"),
        Heading("warmest", "Warmest", "C", 1, within=within.grain_temp("water_temp_c")),
        Heading("low", "from", "C", 1, within=within.grain_temp("water_temp_c")),
        Heading("high", "to", "C", 1, within=within.grain_temp("water_temp_c")),
        Heading("rise", "Fastest rise in an hour", "K", 1, within=within.grain_rise("water_temp_c")),
        Heading("rise_high", "up to", "K", 1, within=within.grain_rise("water_temp_c")),
    ),
)
LEFT_OUT = Listing(
    "left_out",
    "Plans that are not offered",
    (
        Heading("plan", "Hours wet, rest, wet …", kind="text"),
        Heading("why", "Why not", kind="text"),
        Heading("possible", "What alone would make it possible", kind="text"),
    ),
    on_card=False,
)
LIFE_LISTINGS = (CHITS, RESTS, LEFT_OUT)
NO_CHANGE = "no one change that was tried"
_SHOWN = 2  # of the plans left out


def share_at_cast(life: Life, cast_h: float) -> float:
    """Chits at the hour of a cast, or at the end of the rest that was run where that is sooner [%]."""
    return 100.0 * life.share_at(min(cast_h, life.states[-1].hour)).value


def chits_rows(lives: Sequence[Life], drafts: Sequence[Draft], start: datetime, to: To) -> Rows:
    """The chits of each plan."""
    rows: list[tuple[Value | None, ...]] = []
    wanted = edge(limit_of(to).accept_low) / 100.0
    for number, (life, draft) in enumerate(zip(lives, drafts, strict=True), 1):
        hours = draft.lengths
        shares: list[float | None] = []
        for hour in (dip_h(hours) if len(hours) > 2 else None, sum(hours)):
            shares += [None] * 3 if hour is None else [100.0 * one for one in life.share_at(hour)]
        there = life.hour_of(wanted)
        clocks = [None if there is None else clock_after(start, hour) for hour in (there or (0.0, 0.0))[:2]]
        rows.append((number, *shares, *clocks, share_at_cast(life, draft.cast_h)))
    return Rows("chits", rows)


def rests_rows(lives: Sequence[Life], lengths: Sequence[Sequence[float]], start: datetime) -> Rows:
    """The warmth of each rest of each plan."""
    rows: list[tuple[Value | None, ...]] = []
    for number, (life, hours) in enumerate(zip(lives, lengths, strict=True), 1):
        for rest in life.warmest[: len(hours) // 2]:
            at = clock_after(start, rest.hour)
            rows.append((number, rest.number, at, *rest.warmest_c, rest.rise_k_h.value, rest.rise_k_h.high))
    return Rows("rests", rows)


def remedy_words(found: Sequence[Remedy]) -> str:
    """What alone would keep a plan within the limits."""
    told = {
        "suction": "suction of {} m³/h for each tonne",
        "colder": "water at {} °C, by [[sheet:mixing-waters]]",
        "warmer": "water at {} °C, by [[sheet:mixing-waters]]",
        "rest": "a last rest of {} h",
    }
    return "; or ".join(told[one.word].format(plain_number(one.figure)) for one in found)


def shown_left_out(left_out: Sequence[tuple[Draft, Judged]]) -> list[tuple[Draft, Judged]]:
    """One plan for each reason, the best first."""
    shown: list[tuple[Draft, Judged]] = []
    seen: set[frozenset[str]] = set()
    for draft, found in left_out:
        reasons = frozenset(one.line.rule for one in found.passed)
        if reasons not in seen and len(shown) < _SHOWN:
            seen.add(reasons)
            shown.append((draft, found))
    return shown


def left_out_rows(choice: Choice, lives: Lives) -> Rows:
    """The plans that are not offered, why, and what would make each possible; one for each reason."""
    rows = []
    for draft, found in shown_left_out(choice.left_out):
        possible = remedy_words(remedies(found.course, lives))
        why = passed_sentences(judged(found.course, lives).passed)
        rows.append((hours_words(draft.lengths), why, possible or NO_CHANGE))
    return Rows("left_out", rows)


def too_warm(choice: Choice) -> bool:
    """Whether it is the warmth of rests that leaves most plans out."""
    warm = [any(one.line.limit in (REST_TEMP, REST_RISE) for one in found.passed) for _, found in choice.left_out]
    return 2 * sum(warm) >= len(warm)


def none_offered(choice: Choice, rows: Rows, water_c: float | None) -> list[Note]:
    """Why no plan can be offered, with what would make the best of them possible; ``water_c`` is a water that does."""
    told = [
        f"{plan}: {why}" + ("" if possible == NO_CHANGE else f" What alone would make it possible: {possible}.")
        for plan, why, possible in rows.rows
    ]
    ways = []
    if water_c is not None:
        ways.append(f"Water at {plain_number(water_c)} °C, by [[sheet:mixing-waters]]: then plans are found.")
    if too_warm(choice):
        ways.append("Or more suction of cooler air in the rests: type both.")
    else:
        ways.append("Or, where your own records say how long this barley takes to chit, type those hours.")
    return [
        Note(
            "notice",
            f"Past a stop. No plan is offered: each of the {len(choice.left_out)} best that reach the target passes a "
            f"stop of warmth or chit, by the typical barley. {' '.join(told)} {' '.join(ways)} Tell {SHIFT_LEAD}. The "
            "limits: [[page:procedures/steeping|steeping]].",
        )
    ]


def plan_lives(courses: Sequence[Trust], lives: Lives) -> list[Life]:
    """The life of each plan; the way to early chits is found for the first and kept for the others."""
    found: list[Life] = []
    for doubt in courses:
        found.append(life_of(doubt, lives, toward=found[0].toward if found else None))
    return found


def chit_words(life: Life, hours: float, number: int) -> str:
    """Chits of a plan before its last dip, with their doubt."""
    value, low, high = (100.0 * share for share in life.share_at(hours))
    return (
        f"Plan {number}: {fixed(value, 0)} % chitted before the last dip by the typical barley, {fixed(low, 0)} to "
        f"{fixed(high, 0)} % in {OF_TWENTY} lots."
    )
