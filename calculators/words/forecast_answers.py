"""The answers and tables of a forecast of a batch, declared."""

from __future__ import annotations

from ..asking.declare import Answer, Heading, Listing, Within
from ..models.living.breathing import GRAIN_C, GRAIN_REASON
from ..rules.forecast import LEAST_EFFECTIVE
from ..rules.limits import casting, readiness
from . import within
from .forecast import NEXT_WORDS, SAYS_WORDS
from .limits import at_edge

_MODEL = (
    "three hundred possible batches, each with its own value of all that is not known, sent through the plan by the "
    "laws of [[page:reference/living-batch|one living batch]]; readings decide which of them count"
)
_DOUBT = (
    "In simulated houses with another make of barley the bands held in 93 of 100 or more. No malthouse has tested it: "
    "your own day-book shows how often it held there."
)
_READY = at_edge(readiness.READY, "accept_low")

_HOURS = within.between(0.0, 4000.0, "No batch lasts longer.", "stages", "bed")
_DAYS = within.between(-60.0, 170.0, "No batch lasts longer.", "bed", "stages")
_MOISTURE = within.moisture("stages", "baskets")
_GRAIN = within.between(GRAIN_C.low, GRAIN_C.high, GRAIN_REASON, "bed", "stages")
_BOTTOM = within.between(-5.0, 90.0, "No piece gets warmer.", "turned_every_h", "bed")
_PART = within.part("stages")
_MEMBERS = within.count(5000.0)

ANSWERS = (
    Answer(
        "says",
        "What this forecast says",
        kind="verdict",
        lead=True,
        words=SAYS_WORDS,
        rests_on="how wide each band is against what could be at all",
    ),
    Answer(
        "next_reading",
        "The reading that would narrow it most",
        kind="verdict",
        lead=True,
        words=NEXT_WORDS,
        rests_on="for each reading and hour: what each possible batch would show, and how much of the spread of the "
        "figures the reading explains (regression, Strong and others)",
        trust="It knows the model’s doubts, not the house’s. What the limits ask for is read whatever it says.",
    ),
    Answer(
        "next_reading_h",
        "Take it at, hours since the first wetting",
        "h",
        0,
        rests_on=_MODEL,
        worked="model",
        within=_HOURS,
    ),
    Answer("next_reading_at", "Take it at", kind="clock", rests_on="start and hours"),
    Answer(
        "chit_h",
        "So many have chitted as the cast wants, after",
        "h",
        0,
        lead=True,
        rests_on=_MODEL,
        trust=_DOUBT,
        next=f"{at_edge(casting.CHIT, 'accept_low')} to a drum or a box, "
        f"{at_edge(casting.CHIT_COUCH, 'accept_low')} to a couch. Corns decide: count them.",
        worked="model",
        within=_HOURS,
    ),
    Answer(
        "count_from_h",
        "Begin counting chits in",
        "h",
        1,
        rests_on="the earliest end of the band",
        next="Count again every few hours from then on.",
        within=_HOURS,
    ),
    Answer("chitted_cast", "Chitted at the cast", "%", 0, rests_on=_MODEL, trust=_DOUBT, worked="model", within=_PART),
    Answer(
        "moisture_cast",
        "Moisture at the cast, drained",
        "%",
        1,
        lead=True,
        rests_on=_MODEL,
        trust=_DOUBT,
        worked="model",
        within=_MOISTURE,
    ),
    Answer(
        "warmest_rest_c",
        "Warmest grain in the rests to come",
        "C",
        1,
        lead=True,
        rests_on=_MODEL,
        trust=_DOUBT,
        worked="model",
        within=_GRAIN,
    ),
    Answer(
        "warmest_bed_c",
        "Warmest grain in the bed, on the whole",
        "C",
        1,
        rests_on=_MODEL,
        trust=_DOUBT,
        worked="model",
        within=_GRAIN,
    ),
    Answer(
        "warmest_bottom_c",
        "Warmest bottom, before it is turned",
        "C",
        1,
        rests_on=f"{_MODEL}; how far the bottom goes ahead of the piece by its depth, its heat and a typical surface",
        trust=f"{_DOUBT} How far the bottom goes ahead is good to three tenths.",
        next="On the floor the thermometers decide: [[sheet:floor-round]].",
        worked="model",
        within=_BOTTOM,
    ),
    Answer(
        "moisture_end",
        "Moisture at the end of the plan",
        "%",
        1,
        rests_on=_MODEL,
        trust=_DOUBT,
        worked="model",
        within=_MOISTURE,
    ),
    Answer(
        "ready_h",
        f"{_READY} at three quarters and beyond, after",
        "h",
        0,
        lead=True,
        rests_on=_MODEL,
        trust=_DOUBT,
        next="The grain decides, not the clock: [[sheet:readiness]].",
        worked="model",
        within=_HOURS,
    ),
    Answer(
        "ready_days",
        "The same, in days since the cast",
        "days",
        1,
        rests_on="hours less those of the steep",
        within=_DAYS,
    ),
    Answer(
        "lost_percent",
        "Dry matter lost by the end of the plan",
        "%",
        1,
        rests_on=_MODEL,
        trust=_DOUBT,
        worked="model",
        within=_PART,
    ),
    Answer(
        "members",
        "Possible batches that counted, at the least",
        "",
        0,
        rests_on="the square of the sum of weights over the sum of their squares (Kish), at the narrowest moment of "
        "taking the readings in",
        trust=f"Under {LEAST_EFFECTIVE} the bands would be rough. It is kept at half of all by letting the readings in "
        "bit by bit.",
        worked="model",
        within=_MEMBERS,
    ),
)


def _band(name: str, label: str, unit: str, decimals: int, can_be: Within) -> tuple[Heading, ...]:
    return (
        Heading(name, label, unit, decimals, within=can_be),
        Heading(f"{name}_low", "from", unit, decimals, within=can_be),
        Heading(f"{name}_high", "to", unit, decimals, within=can_be),
    )


LISTINGS = (
    Listing(
        "to_take",
        "Readings that would narrow it most, each on top of those before, and the part of each band that is left",
        (
            Heading("reading", "Reading", kind="text"),
            Heading("hour", "Hour", "h", 0, within=_HOURS),
            Heading("at", "At", kind="clock"),
            Heading("moisture", "Moisture", "%", 0, within=_PART),
            Heading("warmth", "Warmth", "%", 0, within=_PART),
            Heading("chitted", "Chits", "%", 0, within=_PART),
            Heading("ready", "Readiness", "%", 0, within=_PART),
        ),
        on_card=False,
    ),
    Listing(
        "when",
        "When",
        (
            Heading("what", "What", kind="text"),
            Heading("soonest", "Soonest", "h", 0, within=_HOURS),
            Heading("middle", "Middle", "h", 0, within=_HOURS),
            Heading("latest", "Latest", "h", 0, within=_HOURS),
            Heading("middle_at", "Middle, at", kind="clock"),
        ),
        on_card=False,
    ),
    Listing(
        "hours",
        "Hour by hour",
        (
            Heading("hour", "Hour", "h", 0, within=_HOURS),
            Heading("at", "At", kind="clock"),
            Heading("where", "Where", kind="text"),
            *_band("moisture", "Moisture", "%", 1, _MOISTURE),
            *_band("warmth", "Grain", "C", 1, _GRAIN),
            *_band("chitted", "Chitted", "%", 0, _PART),
            *_band("ready", "Ready", "%", 0, _PART),
        ),
        on_card=False,
    ),
)
