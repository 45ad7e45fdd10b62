"""Hold the steep, wet it again, or cast it: by moisture, chits, smell, warmth and hours."""

from __future__ import annotations

from ..cast_verdict import (
    HOT_C,
    LONG_REST_H,
    MILKY,
    MOISTURE_NEAR,
    MUSTY,
    SOUR,
    Findings,
    Verdict,
    decide,
)
from ..counted import LEAST_CORNS, SAMPLE_REMARK, Count
from ..declare import (
    Answer,
    AskAgain,
    Axis,
    Choice,
    Found,
    Note,
    Number,
    Option,
    Outcome,
    Sheet,
    Spans,
)
from ..figures import fixed, plain_number
from ..models.counts import wilson
from ..models.hydration import steep
from ..models.limits import STEEPED_MOISTURE, Limits
from ..models.steep_fit import Reading, fit
from ..questions import barley_moisture as asked_moisture
from ..questions import grain_temp_c as asked_grain_temp
from ..questions import number, target_moisture
from ..questions import water_temp_c as asked_water_temp
from ..steep_words import GAS, needed_range

_MERE_WETTING_H = 0.5
_USUAL_C = 14.0  # of the usual schedule that is made to pass through the moisture found

moisture_drained = number(
    "moisture_drained",
    "Moisture, drained",
    "%",
    Limits(20.0, STEEPED_MOISTURE.high),
    "From the basket, drained until it stopped dripping.",
    example="42",
)
chitted = Number(
    "chitted", "Chitted corns", "", 0, 5000, "Any white tip through the husk counts.", example="188", whole=True
)
counted = Number(
    "counted",
    "Corns counted",
    "",
    LEAST_CORNS,
    5000,
    "Two hundred or more, from three depths.",
    example="200",
    whole=True,
)
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
    "hours_since_drain", "Hours since the last drain", "h", Limits(0.0, 72.0), "From opening the drain.", example="10"
)
chit_cast = number(
    "chit_cast",
    "Chitted wanted at the cast",
    "%",
    Limits(50.0, 100.0),
    "90 by common practice; more than 80 is published.",
    default="90",
    source="Canadian Malting Barley Technical Centre, technical guide (in a copy): more than 80 %",
)
chit_dip = number(
    "chit_dip",
    "Chitted wanted before a last dip",
    "%",
    Limits(20.0, 100.0),
    "70 by common practice.",
    default="70",
)
water_temp_c = asked_water_temp._replace(default="14", example="", hint="Of the next fill: how long it takes.")
barley_moisture = asked_moisture._replace(default="12", example="", hint="As it was filled in.")


def work(
    *,
    moisture_drained: float,
    target_moisture: float,
    chitted: float,
    counted: float,
    smell: str,
    grain_temp_c: float,
    hours_since_drain: float,
    chit_cast: float,
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
    if chit_dip > chit_cast:
        raise AskAgain(
            "chit_dip",
            f"{plain_number(chit_dip)} % is more than the {plain_number(chit_cast)} % wanted at the cast. Type less.",
        )
    for name, value in (("moisture_drained", moisture_drained), ("target_moisture", target_moisture)):
        if value <= barley_moisture:
            raise AskAgain(
                name,
                f"{plain_number(value)} % is not above the barley’s own {plain_number(barley_moisture)} %. Type more.",
            )
    chit = Count("Chitted", int(chitted), int(counted), wilson(chitted, counted))
    seen = Findings(
        moisture_drained, target_moisture, chit, chit_cast, chit_dip, smell, grain_temp_c, hours_since_drain
    )
    verdict = decide(seen)
    low, high = (100.0 * end for end in chit.interval)
    found = [
        Found("verdict", verdict.word, "; ".join(verdict.reasons)),
        Found(
            "chit_share",
            100.0 * chit.share,
            f"{chit.shown} of {chit.corns} = {fixed(100.0 * chit.share, 1)} %; 95 % interval (Wilson) "
            f"{fixed(low, 1)} to {fixed(high, 1)} %",
            low,
            high,
        ),
        Found(
            "points_to_go",
            target_moisture - moisture_drained,
            f"{plain_number(target_moisture)} − {plain_number(moisture_drained)}",
        ),
    ]
    notes = [Note("remark", f"What argued for it: {'; '.join(verdict.reasons)}.")]
    if verdict.word == "wet-again":
        found += _how_long(seen, barley_moisture, water_temp_c, notes)
    if verdict.count_more:
        found.append(
            Found(
                "count_more",
                verdict.count_more,
                f"if the share stays at {fixed(100.0 * chit.share, 1)} %, the interval then leaves "
                f"{plain_number(chit_cast)} %",
            )
        )
    notes += _notes(seen, verdict)
    limit = chit_dip if verdict.word == "wet-again" and chit.side(chit_cast) != "above" else chit_cast
    return Outcome(
        tuple(found),
        notes=tuple(notes),
        charts=(
            Spans(
                "chit",
                "What the chit count shows",
                f"Chitted: {fixed(100.0 * chit.share, 1)} %, and the true share may lie from {fixed(low, 1)} to "
                f"{fixed(high, 1)} %. The hatched side is wanted.",
                Axis("Corns", "%", low=0.0, high=100.0, decimals=1),
                (chit.span(limit),),
            ),
        ),
    )


def _how_long(seen: Findings, barley: float, water_temp_c: float, notes: list[Note]) -> list[Found]:
    """The last dip, from a usual schedule made to pass through the moisture that was found."""
    rest = min(max(seen.hours_since_drain, 0.5), 24.0)
    begun = [(8.0, _USUAL_C), (8.0, _USUAL_C), (8.0, _USUAL_C), (rest, _USUAL_C)]
    usual = steep(barley_moisture=barley, stages=[*begun, (3.0, water_temp_c)])
    fitted = fit(usual, [Reading(sum(hours for hours, _ in begun), seen.moisture)])
    course = fitted.course
    needed = course.last_immersion_needed_h(seen.target) if course.drained_before_last_immersion < seen.target else None
    if needed is None:
        notes.append(
            Note(
                "notice",
                "The sheet cannot say how long: this moisture is far from any usual schedule. Weigh each hour.",
            )
        )
        return []
    if needed < _MERE_WETTING_H:
        notes.append(
            Note(
                "remark",
                "Mere wetting puts a film of about 1.5 points on the corns. Fill, drain and weigh: it may be enough.",
            )
        )
    band = fitted.trust.band([course.hours])
    low, high = needed_range(course, band.low[0], band.high[0], seen.target)
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


def _notes(seen: Findings, verdict: Verdict) -> list[Note]:
    """What else the findings call for."""
    notes = []
    if seen.smell == SOUR:
        notes.append(
            Note(
                "notice",
                "Full suction at once and a longer rest. Give the next dip fresh cold water and air all through.",
            )
        )
    if seen.smell == "flat":
        notes.append(Note("remark", "A flat smell wants watching: more air while wet, more suction while dry."))
    if seen.smell == MUSTY:
        notes.append(
            Note(
                "warning",
                "Mould dust can make lungs ill. Do not stir it dry and do not put your face to it: "
                "[[page:safety/dust-and-moulds|dust and moulds]]. Ask the laboratory before this batch goes on.",
            )
        )
    if seen.grain_temp_c > HOT_C:
        then = "Cast promptly, thin, onto the coolest floor." if verdict.word == "cast" else "Give full suction now."
        notes.append(
            Note("notice", f"The grain is above {plain_number(HOT_C)} °C. {then} Stop and ask if it rises on.")
        )
    if seen.moisture > MILKY:
        notes.append(
            Note(
                "notice",
                f"Above {plain_number(MILKY)} %, look whether corns are milky when pressed: then they are "
                "over-steeped. Cast dry, spread thin, turn often.",
            )
        )
    elif seen.moisture - seen.target > MOISTURE_NEAR:
        notes.append(Note("notice", "It is past its target. No more water; cast as soon as the chits are there."))
    if seen.hours_since_drain < 0.5:
        notes.append(
            Note("remark", "It has hardly drained. A dripping basket reads too wet: weigh again in half an hour.")
        )
    if verdict.word == "hold" and seen.smell not in (SOUR, MUSTY):
        later = (
            f"It has rested {plain_number(seen.hours_since_drain)} h and has too few chits still: cold, dormant or "
            "drowned grain? Look at the grain tests and ask."
            if seen.hours_since_drain >= LONG_REST_H
            else "Wait dry with suction, and count afresh in 3 hours."
        )
        notes.append(Note("remark", later))
    if 100.0 * seen.chit.interval.high < 50.0 and seen.moisture >= seen.target - MOISTURE_NEAR:
        notes.append(
            Note("notice", "Wet enough, and not half of the corns chitted: stop and ask before anything else.")
        )
    notes += [Note("remark", SAMPLE_REMARK), GAS]
    return notes


SHEET = Sheet(
    id="cast-decision",
    title="Cast decision",
    purpose="Hold, wet again, or cast: by moisture, chits, smell, warmth and hours.",
    questions=(
        moisture_drained,
        target_moisture._replace(example="45"),
        chitted,
        counted,
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
            rests_on="the whole interval of the chit share against the share wanted; moisture within a point of target",
            trust="It knows five findings. Your nose and your records know more.",
            next="The job: [[page:procedures/steeping|steeping]].",
        ),
        Answer(
            "wet_hours",
            "For about",
            "h",
            1,
            lead=True,
            rests_on="a usual schedule made to pass through your moisture; the steep model",
            trust="With your own weighings and stages [[sheet:steep-fit|steep fit]] says it better.",
            next="Weigh the basket every half hour.",
        ),
        Answer("points_to_go", "Still to take up", "points", 1, lead=True, rests_on="target less moisture"),
        Answer(
            "chit_share",
            "Chitted",
            "%",
            0,
            rests_on="95 % interval by Wilson’s method",
            trust="200 corns near 90 % leave about 4 points open on either side.",
        ),
        Answer(
            "count_more",
            "To settle the chits, count so many more",
            "corns",
            0,
            rests_on="the count at which the interval leaves the share wanted, if the share stays",
            next="From fresh depths. Then judge once, all corns together.",
        ),
    ),
    work=work,
    sources=("cmbtc", "narziss-1966", "haley-1987", "wilson-1927", "yin-1996"),
    story="Batch example-01 of the example maltings, second rest: invented numbers.",
)
