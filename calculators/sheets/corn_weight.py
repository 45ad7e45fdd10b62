"""The weight of a thousand corns from counted portions, and what its doubt does to a steep."""

from __future__ import annotations

from math import sqrt

from ..asking.declare import Answer, Found, Note, Outcome, Sheet, Table
from ..asking.figures import carried, fixed, plain_number
from ..models.bounds import BARLEY_MOISTURE
from ..models.counts.corn_weight import CORN_CV, CORNS, PORTIONS, WEIGHT_G, CornWeight, corn_weight
from ..models.steep.hydration import CORN_WEIGHT, CORN_WEIGHT_G
from ..rules.counting import WIDE_PERCENT
from ..words import within
from ..words.questions.shared import number

_SIZE_POWER = 2.0 / 3.0

portions = Table(
    "portions",
    "Portions",
    (
        number("corns", "Corns", "", CORNS, example="500")._replace(whole=True),
        number("weight_g", "Weight", "g", WEIGHT_G, example="22.5"),
    ),
    min_rows=int(PORTIONS.low),
    max_rows=int(PORTIONS.high),
    hint="Divide the sample, count each portion whole, as it comes, and weigh it. Three portions of 500 say more than "
    "one of 1,500.",
    example="500 22.4; 500 22.7; 500 22.5",
)
moisture = number(
    "corn_moisture",
    "Moisture of these corns",
    "%",
    BARLEY_MOISTURE,
    "To give the weight on dry matter too, so that lots can be compared.",
    example="12",
)._replace(optional=True, in_view=True)


def work(*, portions: tuple[tuple[float, float], ...], corn_moisture: float | None) -> Outcome:
    """Sum the portions, let their differences say the doubt, and carry it to the hours of a steep."""
    weighed = corn_weight(portions=portions)
    low, high = weighed.interval
    each = " + ".join(plain_number(weight) for _, weight in portions)
    counted = " + ".join(plain_number(count) for count, _ in portions)
    found = [
        Found(
            "corn_weight_g",
            weighed.mean_g,
            f"1000 × ({each}) / ({counted}) = {fixed(weighed.mean_g, 1)} g",
            low,
            high,
        ),
        Found(
            "doubt_percent",
            100.0 * weighed.half_g / weighed.mean_g,
            f"100 × {carried(weighed.half_g)} / {carried(weighed.mean_g)} = "
            f"{fixed(100.0 * weighed.half_g / weighed.mean_g, 1)} %",
        ),
        _hours(weighed.mean_g, low, high),
    ]
    if corn_moisture is not None:
        dry = 1.0 - corn_moisture / 100.0
        found.append(
            Found(
                "dry_weight_g",
                weighed.mean_g * dry,
                f"{carried(weighed.mean_g)} g × (100 − {plain_number(corn_moisture)}) / 100 = "
                f"{fixed(weighed.mean_g * dry, 1)} g",
                low * dry,
                high * dry,
            )
        )
    return Outcome(tuple(found), notes=tuple(_notes(weighed, portions)))


def _hours(mean: float, low: float, high: float) -> Found:
    pace = (mean / CORN_WEIGHT_G) ** _SIZE_POWER
    return Found(
        "hours_against_usual",
        pace,
        f"({carried(mean)} / {plain_number(CORN_WEIGHT_G)})^(2/3) = {fixed(pace, 2)}",
        (low / CORN_WEIGHT_G) ** _SIZE_POWER,
        (high / CORN_WEIGHT_G) ** _SIZE_POWER,
    )


def _notes(weighed: CornWeight, portions: tuple[tuple[float, float], ...]) -> list[Note]:
    notes = []
    half = 100.0 * weighed.half_g / weighed.mean_g
    if len(portions) == 1:
        notes.append(
            Note(
                "remark",
                "One portion cannot show a slip of counting. The range is only what corns of unlike size leave by "
                f"chance, taken at {plain_number(100 * CORN_CV)} % from corn to corn. Count a second and a third.",
            )
        )
    elif len(portions) == 2 and half > WIDE_PERCENT:
        notes += _two_apart(weighed, *portions)
        notes.append(
            Note("remark", "From two portions the doubt is mostly guesswork, and so it is wide. Count a third.")
        )
    elif half > WIDE_PERCENT:
        notes.append(
            Note(
                "remark",
                f"The portions differ more than chance leaves, {fixed(100 * weighed.by_chance_g / weighed.mean_g, 1)} "
                "%. Count again: was a portion picked by hand, or the sample not divided?",
            )
        )
    notes.append(
        Note(
            "remark",
            "Take the corns as they come, thin ones and halves with them as the lot has them. Who picks corns picks "
            "the bold ones.",
        )
    )
    return notes


def _two_apart(weighed: CornWeight, one: tuple[float, float], other: tuple[float, float]) -> list[Note]:
    """That two portions differ more than corns of unlike size do by chance."""
    corns = one[0] + other[0]
    apart = abs(1000.0 * one[1] / one[0] - 1000.0 * other[1] / other[0])
    chance = weighed.by_chance_g * sqrt(corns * (1.0 / one[0] + 1.0 / other[0]))
    if apart <= chance:
        return []
    told, leaves = (fixed(100.0 * each / weighed.mean_g, 1) for each in (apart, chance))
    return [
        Note(
            "remark",
            f"The two portions lie {told} % apart, and chance leaves {leaves} %. Count both again: was one picked by "
            "hand, or the sample not divided?",
        )
    ]


_WEIGHT = within.between(
    CORN_WEIGHT.low, CORN_WEIGHT.high, "No barley’s corns are lighter or heavier.", "portions",
    instead="Check the counts and the weights: are they of the same portion, and in grams?",
)  # fmt: skip

SHEET = Sheet(
    id="corn-weight",
    title="Thousand-corn weight",
    purpose="What a thousand corns weigh, how far to trust it, and what that does to a steep.",
    questions=(portions, moisture),
    answers=(
        Answer(
            "corn_weight_g",
            "A thousand corns",
            "g",
            1,
            lead=True,
            rests_on="all weights over all corns; the range is Student’s, 95 %, and never under what chance leaves",
            trust="Two-rowed barleys 43 to 50, six-rowed 36 to 42 (published).",
            next="It sets the hours of the plan: [[sheet:steep-plan]].",
            within=_WEIGHT,
            gives="corn_weight_g",
        ),
        Answer(
            "doubt_percent",
            "Doubt, either way",
            "%",
            1,
            lead=True,
            rests_on="half of the range",
            trust="A tenth of an error in weight moves the hours of a steep by some 7 %.",
            next=f"Over {plain_number(WIDE_PERCENT)} %: count more portions.",
            within=within.between(0.0, 300.0, "The portions have nothing in common.", "portions"),
        ),
        Answer(
            "hours_against_usual",
            "Hours under water against a corn of 45 g",
            "",
            2,
            rests_on="water goes into a sphere of the corn’s volume: hours go with the square of its width",
            trust="A computed rule. Hardness and husk move the hours as much; your own basket decides.",
            within=within.between(0.3, 2.0, "No barley’s corns are so small or so large.", "portions"),
        ),
        Answer(
            "dry_weight_g",
            "A thousand corns, dry matter",
            "g",
            1,
            rests_on="conservation of dry matter; exact arithmetic",
            trust="0.5 points wrong in the moisture moves it 0.6 %.",
            within=within.between(10.0, CORN_WEIGHT.high, "No barley’s corns are lighter or heavier.", "portions"),
        ),
    ),
    work=work,
    sources=("barley-food-tcw", "wiley-barley", "corn-counting", "yin-1996-size"),
    story="A lot of the example maltings: invented numbers.",
)
