"""Hold the steep, wet it again, or cast it: by moisture, chits, smell, warmth and hours."""

from __future__ import annotations

from typing import Literal

from ..asking.declare import Answer, AskAgain, Axis, Choice, Found, Note, Option, Outcome, Sheet, Spans
from ..asking.figures import fixed, plain_number
from ..models.bounds import STEEPED_MOISTURE, Bounds, OutOfRange
from ..models.counts.intervals import wilson
from ..models.living.chitting import Corns
from ..models.living.steep_life import Chits
from ..models.living.steep_run import Rests, warmed
from ..models.steep.fit import Fit, Reading, fit
from ..models.steep.hydration import steep
from ..rules.cast import MUSTY, SOUR, Seen, decide, limit_of, wanted_for
from ..rules.conventions import MERE_WETTING_H, USUAL_WATER_C
from ..rules.counting import CHITS
from ..rules.limit import edge
from ..rules.limits import casting, steeping
from ..rules.limits.casting import MOISTURE
from ..rules.limits.steeping import FILL_AGAINST_GRAIN, WATER_TEMP
from ..rules.steep_life import Lives, alive_order
from ..rules.steep_order import Order, held, last_immersion, sprinkled_first
from ..words import within
from ..words.cast import found_of, gap_decimals, notes_of
from ..words.counted import SAMPLE_REMARK, Count
from ..words.life import life_of
from ..words.limits import at_edge
from ..words.order import order_notes, stop_notes, way_words
from ..words.questions.life import cast_to as asked_cast_to
from ..words.questions.life import chitted as asked_chitted
from ..words.questions.life import counted as asked_counted
from ..words.questions.shared import barley_moisture as asked_moisture
from ..words.questions.shared import grain_temp_c as asked_grain_temp
from ..words.questions.shared import number, target_moisture
from ..words.questions.shared import water_temp_c as asked_water_temp
from ..words.steep import GAS, needed_range
from ..words.tallies import CHITS as TAPPED
from ..words.target import past_target

_SHOWN_H = 0.05  # less would be shown as no hours

moisture_drained = number(
    "moisture_drained",
    "Moisture, drained",
    "%",
    Bounds(20.0, STEEPED_MOISTURE.high),
    "From the basket, drained until it stopped dripping.",
    example="42",
    shared="batch",
)
chitted = asked_chitted._replace(example="188")
counted = asked_counted._replace(example="200")
smell = Choice(
    "smell",
    "Smell",
    (
        Option("fresh", "Fresh: straw, cucumber"),
        Option("flat", "Flat, like nothing"),
        Option(SOUR, "Sour, fruity, like wine"),
        Option(MUSTY, "Musty, mouldy"),
    ),
    "Of what the probe or the scoop brings up.",
    example="fresh",
)
grain_temp_c = asked_grain_temp._replace(example="16")
hours_since_drain = number(
    "hours_since_drain", "Hours since the last drain", "h", Bounds(0.0, 72.0), "From opening the drain.", example="10"
)
cast_to = asked_cast_to._replace(default="", example="drum")
chit_cast = number(
    "chit_cast",
    "Chitted wanted at the cast",
    "%",
    Bounds(50.0, 100.0),
    f"Blank: {at_edge(limit_of('drum'), 'accept_low')} to a drum or a box, "
    f"{at_edge(limit_of('couch'), 'accept_low')} to a couch (common practice; more than 80 is published).",
    source="Canadian Malting Barley Technical Centre, technical guide (in a copy): more than 80 %",
)._replace(optional=True)
chit_dip = number(
    "chit_dip",
    "Chitted wanted before a last dip",
    "%",
    Bounds(20.0, 100.0),
    "By common practice.",
    default=plain_number(edge(steeping.CHIT_LAST_DIP.accept_low)),
)
water_temp_c = asked_water_temp._replace(default="14", example="", hint="Of the next fill: how long it takes.")
barley_moisture = asked_moisture._replace(default="12", example="", hint="As it was filled in.")


def work(
    *,
    moisture_drained: float,
    target_moisture: float,
    chitted: float,
    counted: float,
    cast_to: Literal["couch", "drum"],
    smell: str,
    grain_temp_c: float,
    hours_since_drain: float,
    chit_cast: float | None,
    chit_dip: float,
    water_temp_c: float,
    barley_moisture: float,
) -> Outcome:
    """Hold the findings against their limits and say what argued for the verdict."""
    if chitted > counted:
        raise AskAgain(
            "chitted",
            f"{plain_number(chitted)} of {plain_number(counted)} cannot be chitted. Type from 0 to "
            f"{plain_number(counted)}.",
        )
    wanted = wanted_for(cast_to) if chit_cast is None else chit_cast
    if chit_dip > wanted:
        raise AskAgain(
            "chit_dip",
            f"{plain_number(chit_dip)} % is more than the {plain_number(wanted)} % wanted at the cast. Type less.",
        )
    for name, value in (("moisture_drained", moisture_drained), ("target_moisture", target_moisture)):
        if value <= barley_moisture:
            raise AskAgain(
                name,
                f"{plain_number(value)} % is not above the barley’s own {plain_number(barley_moisture)} %. Type more.",
            )
    seen = Seen(
        moisture_drained,
        target_moisture,
        int(chitted),
        int(counted),
        cast_to,
        smell,
        grain_temp_c,
        hours_since_drain,
        wanted,
        chit_dip,
    )
    verdict = decide(seen)
    found = [
        *found_of(verdict, seen),
        _to_go(target_moisture, moisture_drained),
    ]
    notes = notes_of(verdict, seen)
    if verdict.word == "wet-again":
        found += _how_long(seen, barley_moisture, water_temp_c, notes)
    else:
        notes[:0] = past_target(target_moisture)
    notes += [Note("remark", SAMPLE_REMARK), GAS]
    return Outcome(tuple(found), notes=tuple(notes), charts=(_picture(seen, verdict.edge),))


def _to_go(target: float, moisture: float) -> Found:
    """The points still to take up, or those that it is over its target."""
    name, more, less = ("points_over", moisture, target) if moisture > target else ("points_to_go", target, moisture)
    shown = gap_decimals(more - less)
    return Found(
        name,
        more - less,
        f"{plain_number(more)} − {plain_number(less)} = {fixed(more - less, shown)} points",
        decimals=shown,
    )


def _picture(seen: Seen, edge: float) -> Spans:
    chit = Count("Chitted", seen.chitted, seen.counted, wilson(seen.chitted, seen.counted))
    low, high = (100.0 * end for end in chit.interval)
    return Spans(
        "chit",
        "What the chit count shows",
        f"Chitted: {fixed(100.0 * chit.share, 1)} %, and the true share may lie from {fixed(low, 1)} to "
        f"{fixed(high, 1)} %. The hatched side is wanted.",
        Axis("Corns", "%", low=0.0, high=100.0, decimals=1),
        (chit.span(edge),),
    )


def _how_long(seen: Seen, barley: float, water_temp_c: float, notes: list[Note]) -> list[Found]:
    """The last dip, from a usual schedule made to pass through the moisture that was found."""
    rest = min(max(seen.hours_since_drain, 0.5), 24.0)
    begun = [*((8.0, USUAL_WATER_C) for _ in range(3)), (rest, USUAL_WATER_C)]
    now_h = sum(hours for hours, _ in begun)
    grain = (None, None, None, seen.grain_temp_c)
    lives = Lives(Rests(held_c=grain), Corns(), seen.to)
    usual, _ = warmed(steep(barley_moisture=barley, stages=[*begun, (3.0, water_temp_c)]), lives.rests)
    fitted = fit(usual, [Reading(now_h, seen.moisture)])
    course = fitted.course
    order = last_immersion(course, seen.target, begun=True)
    order = alive_order(order, course, _as_counted(fitted, lives, seen, now_h), begun=True)
    apart = held(FILL_AGAINST_GRAIN, round(abs(water_temp_c - seen.grain_temp_c), 6))
    passed = [*held(MOISTURE, seen.target), *held(WATER_TEMP, water_temp_c), *apart]
    notes[:0] = stop_notes(passed, "target and water")
    if order is not None and order.mark == "stop" and 100.0 * seen.chitted >= seen.wanted * seen.counted:
        order = sprinkled_first(order, seen.moisture, seen.target)
    if order is None or order.needed_h is None or order.mark == "stop":
        return _past_the_stop(order, seen.target, notes)
    needed = order.needed_h
    if needed < MERE_WETTING_H:
        notes.append(
            Note(
                "remark",
                "Mere wetting puts a film of about 1.5 points on the corns, and the model asks for no hours under "
                "water beyond it. Fill, drain at once and weigh."
                if needed < _SHOWN_H
                else "Mere wetting puts a film of about 1.5 points on the corns. Fill, drain and weigh: it may be "
                "enough.",
            )
        )
    band = fitted.trust.band([course.hours])
    low, high = needed_range(course, band.low[0], band.high[0], seen.target)
    notes[:0] = order_notes(order, seen.target, high)
    if needed < _SHOWN_H:
        return []
    return [
        Found(
            "wet_hours",
            needed,
            f"a usual steep that holds {fixed(course.drained_before_last_immersion, 1)} % after a rest of "
            f"{plain_number(rest)} h, in water at {plain_number(water_temp_c)} °C",
            low,
            high,
        )
    ]


def _as_counted(fitted: Fit, lives: Lives, seen: Seen, hour: float) -> Lives:
    """What decides beside its water, the corns as far as they were counted."""
    try:
        life = life_of(fitted.trust, lives, 0.0, counts=(Chits(hour, seen.chitted, seen.counted),))
    except OutOfRange:  # the usual schedule was too warm for the law of chitting: the typical corns stay
        return lives
    return lives._replace(corns=life.corns)


def _past_the_stop(order: Order | None, target: float, notes: list[Note]) -> list[Found]:
    """What is offered where one immersion is too long, or where no usual schedule holds this moisture."""
    if order is None:
        notes.insert(
            0,
            Note(
                "notice",
                "The sheet cannot say how long: this moisture is far from any usual schedule. Weigh each hour. "
                f"Stop after {at_edge(steeping.IMMERSION, 'stop_high')}, whatever the basket reads: drain, rest, and "
                "wet it again.",
            ),
        )
        return []
    notes[:0] = order_notes(order, target, None)
    way = order.ways[0]
    if not way.hours:
        return []  # it is cast as it is: the notice says what comes in place of the water
    told = way_words(way, target)
    return [Found("wet_hours", way.hours[0], f"by the steep model: {told}", next=f"{told[0].upper()}{told[1:]}")]


SHEET = Sheet(
    id="cast-decision",
    tallies=(TAPPED,),
    title="Cast decision",
    purpose="Hold, wet again, or cast: by moisture, chits, smell, warmth and hours.",
    questions=(
        moisture_drained,
        target_moisture._replace(example="45"),
        chitted,
        counted,
        cast_to,
        smell,
        grain_temp_c,
        hours_since_drain,
        chit_cast,
        chit_dip,
        water_temp_c,
        barley_moisture,
    ),
    answers=(
        Answer(
            "verdict",
            "Verdict",
            kind="verdict",
            lead=True,
            words=(
                Option("hold", "Hold: no water and no cast yet."),
                Option("wet-again", "Wet again."),
                Option("cast", "Cast."),
            ),
            rests_on="smell first; the share chitted as it was counted, against the share wanted; moisture within "
            f"{at_edge(casting.OFF_TARGET, 'accept_high')} of target",
            trust="It knows five findings. Your nose and your records know more.",
            next="The job: [[page:procedures/steeping|steeping]].",
        ),
        Answer(
            "wet_hours",
            "For about",
            "h",
            1,
            lead=True,
            rests_on="a usual schedule made to pass through your moisture, its last rest as warm as you read and its "
            "corns as you counted; the steep model. A way whose rest gets too warm, or that cannot chit, is "
            "not offered",
            trust="With your own weighings and stages [[sheet:steep-fit|steep fit]] says it better.",
            next="Weigh the basket every half hour.",
            worked="model",
            within=within.immersion_hours("target_moisture"),
        ),
        Answer(
            "chit_share",
            "Chitted",
            "%",
            0,
            lead=True,
            rests_on="95 % interval by Wilson’s method",
            trust="200 corns near 90 % leave about 4 points open on either side.",
            within=within.part("chitted"),
        ),
        Answer(
            "points_to_go",
            "Still to take up",
            "points",
            1,
            lead=True,
            rests_on="target less moisture",
            within=within.points("moisture_drained"),
        ),
        Answer(
            "points_over",
            "Over its target",
            "points",
            1,
            lead=True,
            rests_on="moisture less target",
            within=within.points("moisture_drained"),
        ),
        Answer(
            "chit_doubt",
            "Chance that the true share is under the one wanted",
            "%",
            0,
            rests_on="the share spread as a beta distribution by what was counted (Jeffreys)",
            trust="It knows the count, not where the corns came from.",
            worked="model",
            within=within.chance("chitted"),
        ),
        Answer(
            "count_more",
            "To settle the chits, count so many more",
            "corns",
            0,
            rests_on="the count at which the exact interval leaves the share wanted, if the share stays; never more "
            f"than the {CHITS.in_half_an_hour} that one person sorts in half an hour (common practice)",
            next="From fresh depths. Then judge once, all corns together. The cast does not wait for it.",
            worked="model",
            within=within.corns("counted"),
        ),
    ),
    work=work,
    needs=("psychrolib",),
    sources=("cmbtc", "narziss-1966", "haley-1987", "wilson-1927", "yin-1996"),
    story="Batch example-01 of the example maltings, second rest: invented numbers.",
)
