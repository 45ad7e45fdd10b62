"""A quick moisture set right by the house's own pairs of quick and oven."""

from __future__ import annotations

from ..asking.declare import (
    Answer,
    AskAgain,
    Belongs,
    Either,
    Found,
    Heading,
    Listing,
    Option,
    Outcome,
    Rows,
    Sheet,
    Table,
)
from ..asking.figures import carried, fixed, limits_said, plain_number
from ..models.bounds import Bounds
from ..models.weights.oven import SAMPLE_G, dish_moisture
from ..models.weights.quick import (
    CORNS,
    CORNS_G,
    DRY_THOUSAND_G,
    LINE_FROM,
    PAIRS,
    READING,
    Bias,
    Corrected,
    bias,
    corrected,
    counted_moisture,
    line,
)
from ..models.weights.quick import Line as Fitted
from ..rules.limit import edge
from ..rules.limits import quick_moisture as edges
from ..rules.limits.measuring_moisture import WET_DISHES
from ..rules.quick import quick_verdict
from ..words import within
from ..words.limits import at_edge, book_of
from ..words.questions.shared import number
from ..words.quick import FEWEST, notes_of, picture_of

_MOST_G = SAMPLE_G.high

pairs = Table(
    "pairs",
    "Pairs of the same sample",
    (
        number("quick", "Quick", "%", READING, example="43.0"),
        number("oven", "Oven", "%", READING, example="44.5"),
    ),
    min_rows=int(PAIRS.low),
    max_rows=int(PAIRS.high),
    hint="Of one quick way only. Mix each sample, read one half the quick way, dry the other in the oven. "
    f"From {FEWEST} pairs{book_of(edges.PAIRS, 'stop_low')} on there is a correction; "
    f"{at_edge(edges.PAIRS, 'accept_low')} and more make it good.",
    example="38.2 39.4; 40.1 41.6; 41.5 42.4; 42.8 44.3; 43.6 44.9; 44.4 45.3; 45.1 46.5; 46.0 47.1; 44.0 45.6; 42.1 "
    "43.4",
)
quick_now = number("quick_now", "Quick reading now", "%", READING, "As the balance shows it.", example="43.1")
wet_g = number(
    "wet_g", "Sample before the heating", "g", Bounds(5.0, _MOST_G), "Grain alone, without the dish. Microwave oven."
)
dry_g = number("dry_g", "The same after", "g", Bounds(1.0, _MOST_G), "When short heatings take off no more.")
corns = number("corns", "Wet corns counted", "corns", CORNS, "As they come, blotted.")._replace(whole=True)
corns_g = number("corns_g", "They weigh", "g", CORNS_G)
dry_thousand_g = number(
    "dry_thousand_g",
    "Dry matter of a thousand corns",
    "g",
    DRY_THOUSAND_G,
    "Of this lot, from its thousand-corn weight.",
)
oven_now = number(
    "oven_now", "Oven’s answer for this very sample", "%", READING, "If it is there already: then it counts."
)._replace(optional=True, in_view=True)
pair_age_days = number("pair_age_days", "Days since the last pair", "days", Bounds(0.0, 1000.0))._replace(optional=True)
quick_twice = number(
    "quick_twice",
    "Two quick readings of one sample, apart by",
    "points",
    Bounds(0.1, 5.0),
    "What is usual in this house. It weighs the errors of both ways when a line is drawn.",
    default=plain_number(edge(edges.TWO.accept_high)),
)


def work(
    *,
    pairs: tuple[tuple[float, float], ...],
    quick_now: float | None,
    wet_g: float | None,
    dry_g: float | None,
    corns: float | None,
    corns_g: float | None,
    dry_thousand_g: float | None,
    oven_now: float | None,
    pair_age_days: float | None,
    quick_twice: float,
) -> Outcome:
    """Work out the reading, learn from the pairs how far the oven lies from it, and say what that is good for."""
    reading = _reading(quick_now, wet_g, dry_g, corns, corns_g, dry_thousand_g)
    _possible(reading.value)
    ratio = (edge(WET_DISHES.accept_high) / quick_twice) ** 2 / 2.0  # the oven's figure is the mean of two dishes
    one, fitted = bias(pairs=pairs), line(pairs=pairs, ratio=min(max(ratio, 0.01), 100.0))
    value = float(reading.value)  # type: ignore[arg-type]
    new = corrected(pairs=pairs, quick=value, ratio=min(max(ratio, 0.01), 100.0))
    verdict = quick_verdict(
        tried=[quick for quick, _ in pairs],
        reading=value,
        half=new.half,
        corrected=new.moisture,
        age_days=pair_age_days,
        corns=corns,
        oven=oven_now,
    )
    found = [Found("verdict", verdict.word)]
    enough = len(pairs) >= FEWEST
    if oven_now is None and enough:
        found.append(_corrected(value, one, fitted, new))
    found.append(reading)
    if enough:
        found += _learnt(one, fitted, pairs)
    if oven_now is not None and enough:
        off = oven_now - new.moisture
        found.append(
            Found("oven_off", off, f"{plain_number(oven_now)} − {carried(new.moisture)} = {fixed(off, 1)} points")
        )
    rows = [(float(n), quick, oven, oven - quick) for n, (quick, oven) in enumerate(pairs, 1)]
    charts = (picture_of(pairs, fitted, one),) if enough else ()
    return Outcome(tuple(found), (Rows("each", rows),), tuple(notes_of(verdict, pairs, new, fitted, oven_now)), charts)


def _possible(value: object) -> None:
    if isinstance(value, float) and not READING.low <= value <= READING.high:
        raise AskAgain(
            "dry_g",
            f"that would be {fixed(value, 1)} % of water. Wet grain holds {plain_number(READING.low)} to "
            f"{plain_number(READING.high)} %. Type grain alone, without the dish, before and after.",
        )


def _reading(
    quick_now: float | None,
    wet_g: float | None,
    dry_g: float | None,
    corns: float | None,
    corns_g: float | None,
    dry_thousand_g: float | None,
) -> Found:
    """The quick reading, by whichever of the three ways."""
    if quick_now is not None:
        return Found("reading", quick_now, "as it was shown", worked="given")
    if corns is not None and corns_g is not None and dry_thousand_g is not None:
        if corns_g <= 0.001 * corns * dry_thousand_g:
            raise AskAgain(
                "corns_g",
                f"so many corns hold {fixed(0.001 * corns * dry_thousand_g, 1)} g of dry matter. Wet ones weigh more: "
                "weigh again, or count again.",
            )
        moisture = counted_moisture(corns=corns, wet_g=corns_g, dry_thousand_g=dry_thousand_g)
        if not READING.low <= moisture <= READING.high:
            raise AskAgain(
                "corns_g",
                f"that would be {fixed(moisture, 1)} % of water. Are corns, grams and dry matter of the same lot?",
            )
        dry = 0.001 * corns * dry_thousand_g
        return Found(
            "reading",
            moisture,
            f"{plain_number(corns)} corns × {plain_number(dry_thousand_g)} g / 1000 = {carried(dry)} g dry; "
            f"100 × ({plain_number(corns_g)} − {carried(dry)}) / {plain_number(corns_g)} = {fixed(moisture, 1)} %",
        )
    assert wet_g is not None and dry_g is not None
    if dry_g >= wet_g or dry_g < 0.2 * wet_g:
        least, most = limits_said(0.35 * wet_g, 0.95 * wet_g)
        raise AskAgain(
            "dry_g",
            f"of {plain_number(wet_g)} g of wet grain {least} to {most} g stay. Type grain alone, without the dish.",
        )
    moisture = dish_moisture(empty_g=0.0, wet_g=wet_g, dry_g=dry_g)
    return Found(
        "reading",
        moisture,
        f"100 × ({plain_number(wet_g)} − {plain_number(dry_g)}) / {plain_number(wet_g)} = {fixed(moisture, 1)} %",
    )


def _corrected(reading: float, one: Bias, fitted: Fitted | None, new: Corrected) -> Found:
    ends = new.moisture - new.half, new.moisture + new.half
    if fitted is None or not fitted.bends:
        sign = "+" if one.mean >= 0 else "−"
        working = f"{carried(reading)} {sign} {carried(abs(one.mean))} = {fixed(new.moisture, 1)} %"
    else:
        away = reading - fitted.at_quick
        working = (
            f"{carried(reading)} − {carried(fitted.at_quick)} = "
            f"{carried(away) if away >= 0 else '−' + carried(-away)}; "
            f"{carried(fitted.at_oven)} {'+' if away >= 0 else '−'} {carried(fitted.slope)} × {carried(abs(away))} = "
            f"{fixed(new.moisture, 1)} %"
        )
    return Found("moisture", new.moisture, working, *ends)


def _learnt(one: Bias, fitted: Fitted | None, pairs: tuple[tuple[float, float], ...]) -> list[Found]:
    """What the pairs say of the quick way as such."""
    total = sum(oven - quick for quick, oven in pairs)
    said = fixed(total, 2) if total >= 0 else f"−{fixed(-total, 2)}"
    found = [
        Found(
            "correction",
            one.mean,
            f"{said} points together / {len(pairs)} = {fixed(one.mean, 1)} points",
            one.mean - one.half,
            one.mean + one.half,
        ),
        Found("scatter", one.scatter, "standard deviation of the differences in the table below"),
    ]
    if fitted is not None:
        found.append(
            Found("slope", fitted.slope, "the line through all pairs, errors in both", fitted.low, fitted.high)
        )
    return found


SHEET = Sheet(
    id="quick-moisture",
    title="Quick moisture",
    purpose="Sets a quick reading right by your own pairs of quick and oven, and says how far to trust it.",
    questions=(
        quick_now,
        wet_g,
        dry_g,
        corns,
        corns_g,
        dry_thousand_g,
        pairs,
        oven_now,
        pair_age_days,
        quick_twice,
    ),
    either=(Either((("quick_now",), ("wet_g", "dry_g"), ("corns", "corns_g", "dry_thousand_g"))),),
    answers=(
        Answer(
            "verdict",
            "What it is good for",
            kind="verdict",
            lead=True,
            words=(
                Option("use", "Decide by the corrected figure, with its range."),
                Option("careful", "Decide by it only where the whole range says the same."),
                Option("look", "A look only: it decides nothing. Use the basket, or wait for the oven."),
                Option("oven", "The oven has answered: take the oven’s figure."),
                Option("apart", "The oven and the quick way disagree: the oven stands. Do both again."),
            ),
            rests_on="pairs, doubt, range and age, each against its limit; the oven over all",
            trust="It knows the pairs you typed, not how the sample was taken.",
            next="How to read, and how to make pairs: [[page:procedures/quick-moisture|quick moisture]].",
        ),
        Answer(
            "moisture",
            "Moisture, as the oven would say",
            "%",
            1,
            lead=True,
            rests_on="your own pairs; Student’s interval for one new answer of the oven",
            trust="The range is for 95 of 100 readings, if pairs and reading were taken the same way. Simulated, it "
            "held in "
            "93 to 96 of 100 (this handbook).",
            next="Both ends of the range have to lead to the same decision. If they do not, read a second sample.",
            within=within.moisture("quick_now", "wet_g", "corns"),
        ),
        Answer(
            "reading",
            "The reading itself",
            "%",
            1,
            rests_on="what the quick way shows, nothing corrected",
            within=within.moisture("quick_now", "wet_g", "corns"),
        ),
        Answer(
            "correction",
            "The oven lies higher by",
            "points",
            1,
            lead=True,
            rests_on="mean of the differences; Student’s interval, 95 %",
            trust="For this way, this house, this kind of grain. A new lamp, dish or setting needs new pairs.",
            within=within.points("pairs"),
        ),
        Answer(
            "scatter",
            "Single pairs scatter by",
            "points",
            2,
            rests_on="standard deviation of the differences: errors of both ways together",
            trust="Of few pairs it is itself little known; the range above has that in it.",
            worked="model",
            within=within.points("pairs"),
        ),
        Answer(
            "slope",
            "Points in the oven for one point of the quick way",
            "",
            2,
            rests_on="Deming’s line, errors in both; interval by the jackknife, 95 %",
            trust=f"Looked for from {LINE_FROM} pairs. It is taken only where 1 is outside the interval.",
            worked="model",
            within=within.between(
                0.0, 1000.0, "No way of reading is so far off.", "pairs", instead="Are the columns the right way round?"
            ),
        ),
        Answer(
            "oven_off",
            "The oven lies from what was expected by",
            "points",
            1,
            rests_on="oven less corrected reading",
            within=within.points("oven_now"),
        ),
    ),
    listings=(
        Listing(
            "each",
            "Each pair",
            (
                Heading("pair", "Pair", within=within.count(PAIRS.high)),
                Heading("quick", "Quick", "%", 1, within=within.moisture("pairs")),
                Heading("oven", "Oven", "%", 1, within=within.moisture("pairs")),
                Heading("apart", "Oven higher by", "points", 1, within=within.points("pairs")),
            ),
        ),
    ),
    work=work,
    belongs=(Belongs("dry_g", ("dry_g",)), Belongs("quick", ("quick_now", "dry_g", "corns_g"))),
    sources=("mebak-infrared", "mebak-microwave", "rice-microwave-2019", "wheat-microwave", "deming-notes"),
    story="A drying balance of the example maltings, held against its oven: invented numbers.",
)
